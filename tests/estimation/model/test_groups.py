"""Two groups of sizes are found where they are, and only there."""

import numpy as np
import pytest

from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.model.groups import find_size_groups
from fishmeasure.estimation.model.lengths import Lengths, collect_lengths
from fishmeasure.estimation.nets import FishInNet, NetWeighing
from tests.estimation.makers import Dip, Truth, draw, published_line


def as_lengths(mm: np.ndarray) -> Lengths:
    fish = tuple(FishInNet(fork_length_mm=float(length)) for length in mm)
    lengths = collect_lengths((NetWeighing(fish_count=len(fish), fish=fish),))
    assert lengths is not None
    return lengths


@pytest.mark.parametrize("n", [20, 60, 300])
def test_one_group_is_rarely_taken_for_two(n: int) -> None:
    """Of 200 normal samples at most 1 in 50 shows two groups."""
    rng = np.random.default_rng(n)
    found = sum(
        find_size_groups(as_lengths(250 * np.exp(rng.normal(0, 0.09, n)))) is not None
        for _ in range(200)
    )
    assert found <= 4


def test_a_skewed_batch_is_one_group() -> None:
    """A long tail is no second peak (gamma, skewness 0.8)."""
    rng = np.random.default_rng(8)
    found = sum(
        find_size_groups(as_lengths(200 * np.exp(0.04 * rng.gamma(6.25, 1.0, 100))))
        is not None
        for _ in range(100)
    )
    assert found <= 5


def test_two_groups_are_found_and_described() -> None:
    """A third of the fish a third shorter: shares and mean weights come out."""
    truth = Truth(small_fraction=0.35, small_log_ratio=-0.4, sigma=0.07)
    drawn = draw(truth, [Dip(fish=20)] * 5, np.random.default_rng(2))
    estimate = estimate_population(drawn.nets, published=published_line())
    groups = estimate.size_groups
    assert groups is not None
    weights = np.concatenate(drawn.weights_g)
    small = weights[weights < 130.0]
    large = weights[weights >= 130.0]
    assert groups.small_fraction == pytest.approx(len(small) / len(weights), abs=0.06)
    assert groups.small_mean_weight_g == pytest.approx(small.mean(), rel=0.1)
    assert groups.large_mean_weight_g == pytest.approx(large.mean(), rel=0.1)
    assert "two-size-groups" in {p.code for p in estimate.problems}
    # The distribution keeps its valley: few fish between the groups.
    between = (
        estimate.weight_share_above(110.0).value
        - estimate.weight_share_above(150.0).value
    )
    assert between < 0.2
    drawn_cv = float(weights.std() / weights.mean())
    assert estimate.cv.value == pytest.approx(drawn_cv, rel=0.08)
    assert estimate.cv.low < truth.cv < estimate.cv.high


def test_few_fish_show_no_groups() -> None:
    """Below a dozen fish nothing is said."""
    assert find_size_groups(as_lengths(np.array([150.0] * 4 + [250.0] * 5))) is None
