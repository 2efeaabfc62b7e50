"""Fish of a heap that are seen count by how seldom their size is seen."""

import math

import numpy as np
import pytest

from fishmeasure.estimation.heaped import (
    MOST_WEIGHT,
    SLOPE,
    SLOPE_SD,
    inverse_weights,
    seen_slope,
)
from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.model.lengths import collect_lengths
from fishmeasure.estimation.nets import FishInNet, NetWeighing
from fishmeasure.species import load_species
from tests.accuracy.heap_sizes import SEEN, dropped, slope_of

LENGTHS_MM = (140.0, 150.0, 160.0, 170.0, 180.0, 200.0)


def net(*, heap: bool, count: int = 15) -> NetWeighing:
    fish = tuple(FishInNet(fork_length_mm=one) for one in LENGTHS_MM)
    return NetWeighing(fish_count=count, fish=fish, heap=heap)


def test_the_fewer_are_seen_the_more_it_matters() -> None:
    """Half seen: ln p falls by k ln 2 for each unit of ln length; all seen: not."""
    slope, sd = seen_slope(5, 10)
    assert slope == pytest.approx(-SLOPE * math.log(2.0))
    assert sd == pytest.approx(SLOPE_SD * math.log(2.0))
    assert seen_slope(10, 10) == (0.0, 0.0)
    assert seen_slope(12, 10) == (0.0, 0.0)  # more than were counted
    assert seen_slope(0, 10) == seen_slope(1, 10)  # bounded


def test_fish_count_by_the_inverse_of_how_often_they_are_seen() -> None:
    """At 1.1 of the mean p is 1.1^slope of the mean's."""
    x = np.array([-0.1, 0.0, 0.1])
    counts = inverse_weights(x, -0.5)
    assert counts.mean() == pytest.approx(1.0)
    assert counts[2] / counts[0] == pytest.approx(math.exp(0.5 * 0.2))
    far = inverse_weights(np.array([-3.0, 0.0, 3.0]), -5.0)
    assert far[2] / far[0] == pytest.approx(MOST_WEIGHT**2)


def test_only_a_heap_s_fish_do_and_its_error_is_the_photo_s() -> None:
    plain, heap = (collect_lengths((net(heap=heap),)) for heap in (False, True))
    assert plain is not None
    assert heap is not None
    assert plain.counts == pytest.approx(np.ones(6))
    assert heap.counts == pytest.approx(
        inverse_weights(heap.x, SLOPE * math.log(6 / 15))
    )
    sd = SLOPE_SD * math.log(15 / 6) * heap.first_sigma**2
    added = heap.photo_variance - plain.photo_variance
    assert added == pytest.approx(np.array([sd**2]))


def test_the_mean_of_a_heap_is_higher_and_the_grower_is_told() -> None:
    """Weighted by hand: ln mean rises by -slope times the variance of ln length."""
    line = load_species("rainbow-trout").on_fork_length()
    plain, heap = (
        estimate_population((net(heap=heap),), published=line) for heap in (False, True)
    )
    x = np.log(LENGTHS_MM)
    rise = -SLOPE * math.log(6 / 15) * x.var() * line.b
    assert heap.mean_weight_g.value / plain.mean_weight_g.value - 1.0 == pytest.approx(
        rise, rel=0.3
    )
    codes = [[one.code for one in found.problems] for found in (plain, heap)]
    assert ["heap-net" in found for found in codes] == [False, True]


def test_larger_fish_are_seen_less_often_where_fish_fall_at_random() -> None:
    """Two sizes alone: the share of large ones that is seen is below that of small."""
    rng = np.random.default_rng(4)
    heaps = [dropped(rng, 25, 0.2) for _ in range(40)]
    x = np.log(np.concatenate([lengths for lengths, _ in heaps]) / 170.0)
    seen = np.concatenate([seen for _, seen in heaps])
    assert np.mean(seen[x > 0.0] > SEEN) < np.mean(seen[x < 0.0] > SEEN)
    assert -0.2 < slope_of(x, seen) < 1.2
