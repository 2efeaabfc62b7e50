"""Fish weighed by their outlines in the estimate of a sample."""

import math
from dataclasses import replace
from typing import Any, Final

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from fishmeasure.base.estimate import Estimate
from fishmeasure.estimation.model import PopulationEstimate, estimate_population
from fishmeasure.estimation.nets import (
    DripWater,
    FishInNet,
    NetWeighing,
    SampleSettings,
)
from fishmeasure.estimation.sizes import Key, PhotoWeight, Sized, sized, with_lengths
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


TOLD: Final = PhotoWeight(
    weight_g=150.0,
    own_sd=0.04,
    photo_sd=0.02,
    sample_sd=0.03,
    stock_sd=0.10,
    unseen_sd=0.06,
)


def in_sizes(*nets: NetWeighing, told: dict[Key, PhotoWeight] | None = None) -> Sized:
    """Return the sample with each of its fish told to weigh 150 g, or as told."""
    all_fish = {
        (at, place): TOLD
        for at, net in enumerate(nets)
        for place in range(len(net.fish))
    }
    found = sized(nets, told or all_fish, LINE, SampleSettings(drip=DripWater(sd=0.01)))
    assert found is not None
    return found


def net_of(lengths_mm: tuple[float, ...], **figures: Any) -> NetWeighing:
    fish = tuple(FishInNet(fork_length_mm=mm) for mm in lengths_mm)
    plain: dict[str, Any] = {"fish_count": len(fish), "fish": fish}
    return NetWeighing(**(plain | figures))


@pytest.mark.parametrize("factor", [1.03, 0.8, 1.4])
def test_the_stocks_factor_is_as_wide_as_its_most_likely_variance(
    factor: float,
) -> None:
    """Against the maximum of the posterior of the variance, found by scipy.

    One net of 8 fish of 150 g, dry by 1.5 %: its mean errs by (0.06^2 + 0.04^2) / 8 +
    0.02^2 + 0.01^2. Student's t of 4 degrees has the variance of its normal as an
    inverse gamma of 4 / 2; its sd of 0.10 is a scale^2 of 0.10^2 x 2 / 4.
    """
    told_g = 8 * 150.0 * factor
    weighed = net_of((230.0,) * 8, net_g=told_g * 1.015)
    seen, error = math.log(factor), (0.06**2 + 0.04**2) / 8 + 0.02**2 + 0.01**2

    def minus_log(log_variance: float) -> float:
        v = math.exp(log_variance)
        prior = -0.5 * 4.0 * math.log(v) - 4.0 * 0.10**2 * 0.5 / (2.0 * v)
        likely = -0.5 * math.log(v + error) - 0.5 * seen**2 / (v + error)
        return -(prior + likely)

    best = minimize_scalar(minus_log, bounds=(-9.0, 0.0), method="bounded")
    found = in_sizes(weighed).published.relative_sd
    assert found == pytest.approx(math.exp(best.x / 2.0), rel=0.01)


def test_a_net_of_which_less_than_half_was_measured_tells_no_factor() -> None:
    far_off = net_of((230.0,) * 4, fish_count=9, net_g=9 * 300.0)
    assert in_sizes(far_off).published.relative_sd == 0.10
    half = net_of((230.0,) * 4, fish_count=8, net_g=8 * 300.0)
    assert in_sizes(half).published.relative_sd > 0.2
    assert in_sizes(net_of((230.0,) * 4)).published.relative_sd == 0.10


def test_two_nets_are_weighed_by_their_precisions() -> None:
    """Alike: the variance of their mean is half that of one, as if 4 times the fish.

    A photo's error of 0 and 16 fish leave one net with half the variance of 8.
    """
    exact = replace(TOLD, photo_sd=0.0)
    pair = [net_of((230.0,) * 8, net_g=8 * 150.0 * 1.015 * 1.2)] * 2
    settings = SampleSettings(drip=DripWater(sd=0.0))
    told = {(at, place): exact for at in (0, 1) for place in range(8)}
    two = sized(tuple(pair), told, LINE, settings)
    one_net = net_of((230.0,) * 16, net_g=16 * 150.0 * 1.015 * 1.2)
    one = sized((one_net,), {(0, n): exact for n in range(16)}, LINE, settings)
    assert one is not None
    assert two is not None
    assert two.published.relative_sd == pytest.approx(one.published.relative_sd)


def test_a_fish_without_an_outline_has_the_size_of_the_others_fatness() -> None:
    """Two fish of 200 and 242 mm told to weigh as 220 mm: 1.0 times, in the mean.

    ln(200 / 220) + ln(242 / 220) = 0, so one of 231 mm stays one. Its error is its
    own 1.2 % and what fish of a length differ by, over b.
    """
    weight_g = LINE.a_g_cm * 22.0**LINE.b
    told = dict.fromkeys([(0, 0), (0, 1)], replace(TOLD, weight_g=1.1 * weight_g))
    found = in_sizes(net_of((200.0, 242.0, 231.0)), told=told)
    ratio = 1.1 ** (-1.0 / LINE.b)
    assert found.per_size[0] == pytest.approx(ratio)
    first, _, third = found.nets[0].fish
    assert first.fork_length_mm == pytest.approx(220.0 / ratio)
    assert first.relative_sd == pytest.approx(0.04 / LINE.b)
    assert third.fork_length_mm == pytest.approx(231.0 / ratio)
    unlike = LINE.residual_sd_ln / LINE.b
    assert third.relative_sd == pytest.approx(math.sqrt(0.012**2 + unlike**2))
    assert found.lengths_mm[third.fork_length_mm] == 231.0


def test_what_fish_of_a_photo_share_does_not_shrink_with_them() -> None:
    """Six fish of a photo and two of another: 8 x 0.04^2 + (6^2 + 2^2) x 0.02^2."""
    fish = tuple(
        FishInNet(fork_length_mm=230.0 + place, photo=int(place > 5))
        for place in range(8)
    )
    found = in_sizes(NetWeighing(fish_count=8, fish=fish))
    wanted = math.sqrt(8 * 0.04**2 + 40 * 0.02**2) / 8
    assert found.per_size[1] == pytest.approx(wanted / LINE.b)
    assert found.nets[0].photo_relative_sd == pytest.approx(0.02 / LINE.b)
    assert found.settings.length_relative_sd == pytest.approx(0.03 / LINE.b)


def in_lengths(figure: Estimate | None, plain: Estimate | None) -> tuple[float, float]:
    """Return what the way back to lengths did: to the value, and to ln of its reach."""
    assert figure is not None
    assert plain is not None
    up = math.log(figure.high / figure.value)
    before = math.log(plain.high / plain.value)
    down = math.log(figure.value / figure.low)
    before_down = math.log(plain.value / plain.low)
    assert down**2 - before_down**2 == pytest.approx(up**2 - before**2)
    return figure.value / plain.value, math.sqrt(max(up**2 - before**2, 0.0))


@pytest.mark.parametrize("weighed", [False, True])
def test_lengths_come_back_with_the_error_of_the_edges(*, weighed: bool) -> None:
    """Lengths go with the ratio, K with its third power and a with its b-th.

    Their errors are so many times its 5 %, 1.645 of them in a half interval of 90 %;
    none is added where a net was weighed, whose level has it already.
    """
    nets, weights, _, _ = stock(np.random.default_rng(4), 1.4, 1.0)
    if weighed:
        nets = tuple(replace(net, net_g=2000.0) for net in nets)
    sample = sized(nets, weights, LINE, SampleSettings())
    assert sample is not None
    sample = replace(sample, per_size=(1.1, 0.05))
    plain = estimate_population(
        sample.nets, published=sample.published, settings=sample.settings
    )
    found = with_lengths(plain, sample)
    reach = 0.0 if weighed else 1.6449 * 0.05
    for figure, before, power in [
        (found.fork_length_mean_mm, plain.fork_length_mean_mm, 1.0),
        (found.condition_factor, plain.condition_factor, -3.0),
        (found.line.a_g_cm, plain.line.a_g_cm, -LINE.b),
        (found.line.level_ratio, plain.line.level_ratio, -LINE.b),
    ]:
        value, wider = in_lengths(figure, before)
        assert value == pytest.approx(1.1**power)
        assert wider == pytest.approx(abs(power) * reach, rel=1e-3, abs=1e-6)
    longer = found.line.at_length_mm / plain.line.at_length_mm
    assert longer == pytest.approx(1.1)
    assert found.mean_weight_g == plain.mean_weight_g
