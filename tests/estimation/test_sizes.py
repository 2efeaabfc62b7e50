"""Fish weighed by their outlines in the estimate of a sample."""

import math
from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.estimation.model import PopulationEstimate, estimate_population
from fishmeasure.estimation.nets import FishInNet, NetWeighing, SampleSettings
from fishmeasure.estimation.sizes import Key, PhotoWeight, sized, with_lengths
from fishmeasure.species import load_species

LINE = load_species("rainbow-trout").on_fork_length()
C = 0.5


def stock(
    rng: np.random.Generator, fat: float, thick: float
) -> tuple[tuple[NetWeighing, ...], dict[Key, PhotoWeight], float, float]:
    """Return nets, what outlines say, and true mean weight and K of the fish.

    Fish are ``fat`` by depth and ``thick`` over c, 8 % and 6 % about it; outlines err
    by 4 % a fish.
    """
    nets, weights, all_g, all_k = [], {}, [], []
    for at in range(4):
        length = 230.0 * np.exp(rng.normal(0.0, 0.09, 8))
        depth = fat * np.exp(rng.normal(0.0, 0.08, 8))
        seen_g = LINE.a_g_cm * (length / 10.0) ** 3 * depth
        true_g = seen_g * thick * np.exp(rng.normal(0.0, 0.06, 8))
        told_g = seen_g * np.exp(rng.normal(0.0, 0.04, 8))
        fish = tuple(FishInNet(fork_length_mm=float(mm)) for mm in length)
        nets.append(NetWeighing(fish_count=8, fish=fish))
        for place in range(8):
            weights[at, place] = PhotoWeight(
                weight_g=float(told_g[place]),
                own_sd=0.04,
                photo_sd=0.04,
                sample_sd=0.02,
                stock_sd=0.10,
                unseen_sd=0.06,
            )
        all_g += list(true_g)
        all_k += list(100.0 * true_g / (length / 10.0) ** 3)
    return tuple(nets), weights, float(np.mean(all_g)), float(np.mean(all_k))


def estimated(
    nets: tuple[NetWeighing, ...], weights: dict[Key, PhotoWeight]
) -> PopulationEstimate:
    sample = sized(nets, weights, LINE, SampleSettings())
    assert sample is not None
    found = estimate_population(
        sample.nets, published=sample.published, settings=sample.settings
    )
    return with_lengths(found, sample)


@pytest.mark.parametrize("fat", [0.65, 1.0, 1.5])
def test_thin_and_fat_stocks_are_told_without_a_weighing(fat: float) -> None:
    """K of 0.9 to 2.1 at one length; the length alone would give 1.38 for all."""
    nets, weights, mean_g, k = stock(np.random.default_rng(3), fat, 1.05)
    found = estimated(nets, weights)
    assert found.handled_mean_weight_g.low < mean_g < found.handled_mean_weight_g.high
    assert found.condition_factor is not None
    assert found.condition_factor.low < k < found.condition_factor.high
    assert found.condition_factor.value == pytest.approx(k, rel=0.1)
    wide = found.condition_factor.high / found.condition_factor.low
    assert wide < 1.25 / 0.8


def test_lengths_stay_those_that_were_measured() -> None:
    """A fat stock is not said to be long."""
    nets, weights, _, _ = stock(np.random.default_rng(4), 1.4, 1.0)
    mean_mm = float(np.mean([f.fork_length_mm for n in nets for f in n.fish]))
    found = estimated(nets, weights).fork_length_mean_mm
    assert found is not None
    assert found.value == pytest.approx(mean_mm, rel=0.015)


def test_one_weighing_corrects_the_stocks_thickness() -> None:
    """A stock 17 % thicker than c says: one bulk weighing of a net puts all right."""
    nets, weights, mean_g, k = stock(np.random.default_rng(5), 1.2, 1.17)
    before = estimated(nets, weights)
    true_g = sum(weights[0, place].weight_g for place in range(8)) * 1.17 * 1.015
    weighed = (replace(nets[0], net_g=float(round(true_g))), *nets[1:])
    after = estimated(weighed, weights)
    assert before.handled_mean_weight_g.value < 0.9 * mean_g
    assert after.handled_mean_weight_g.value == pytest.approx(mean_g, rel=0.05)
    assert after.condition_factor is not None
    assert after.condition_factor.value == pytest.approx(k, rel=0.05)
    sd_before = before.handled_mean_weight_g.sd / before.handled_mean_weight_g.value
    assert after.handled_mean_weight_g.sd / mean_g < 0.6 * sd_before


@pytest.mark.parametrize(
    ("thick", "least", "most"), [(1.0, 0.05, 0.09), (1.4, 0.15, 0.3)]
)
def test_a_stock_far_off_is_believed_by_its_weighing(
    thick: float, least: float, most: float
) -> None:
    """The factor has heavy tails: 40 % off widens the 10 % to 15 and more.

    By hand: Student's t of 4 degrees and sd 0.10 has the scale 0.0707; at a factor of
    0.336 (ln 1.4) its variance is (4 x 0.005 + 0.113) / 5, an sd of 0.163.
    """
    nets, weights, _, _ = stock(np.random.default_rng(8), 1.0, 1.0)
    grams = [sum(weights[at, k].weight_g for k in range(8)) for at in range(4)]
    heavy = tuple(
        replace(net, net_g=float(round(thick * 1.015 * g)))
        for net, g in zip(nets, grams, strict=True)
    )
    sample = sized(heavy, weights, LINE, SampleSettings())
    assert sample is not None
    assert least < sample.published.relative_sd < most


def test_a_fish_of_which_only_the_length_is_known_is_as_fat_as_the_others() -> None:
    """Its size is its length times what the others' outlines say."""
    nets, weights, _, _ = stock(np.random.default_rng(6), 1.3, 1.0)
    known = {key: one for key, one in weights.items() if key != (0, 0)}
    sample = sized(nets, known, LINE, SampleSettings())
    assert sample is not None
    usual = math.exp(
        np.mean(
            [
                math.log(nets[at].fish[place].fork_length_mm)
                - math.log(sample.nets[at].fish[place].fork_length_mm)
                for at, place in known
            ]
        )
    )
    mine = sample.nets[0].fish[0]
    assert mine.fork_length_mm * usual == pytest.approx(nets[0].fish[0].fork_length_mm)
    assert usual == pytest.approx(1.3 ** (-1.0 / 3.0), rel=0.02)
    assert mine.relative_sd > 0.03


def test_without_outlines_nothing_changes() -> None:
    """Photos stored before have none."""
    nets, _, _, _ = stock(np.random.default_rng(7), 1.0, 1.0)
    assert sized(nets, {}, LINE, SampleSettings()) is None
