"""What must hold of any sample (hypothesis)."""

import json
from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fishmeasure.base.estimate import Estimate
from fishmeasure.estimation.model import (
    PopulationEstimate,
    estimate_population,
    estimate_to_json,
)
from fishmeasure.estimation.nets import (
    DripWater,
    FishInNet,
    NetWeighing,
    SampleSettings,
    Scale,
)
from tests.estimation.makers import Dip, Truth, draw, published_line

FEW = settings(max_examples=10, deadline=None, derandomize=True)


@st.composite
def samples(draw_from: st.DrawFn) -> tuple[NetWeighing, ...]:
    """Return 2 to 5 nets, each weighed or photographed or both."""
    dips = draw_from(
        st.lists(
            st.builds(
                lambda fish, kind: Dip(
                    fish=fish, weighed=kind != "photo", photographed=kind != "bulk"
                ),
                st.integers(3, 12),
                st.sampled_from(["both", "both", "bulk", "photo"]),
            ),
            min_size=2,
            max_size=5,
        )
    )
    seed = draw_from(st.integers(0, 10_000))
    return draw(Truth(), dips, np.random.default_rng(seed)).nets


def figures(estimate: PopulationEstimate) -> list[float]:
    """Return the weights in grams."""
    mean, handled = estimate.mean_weight_g, estimate.handled_mean_weight_g
    quantiles = [q.weight_g.value for q in estimate.weight_quantiles_g]
    return [mean.low, mean.value, mean.high, handled.value, *quantiles]


@FEW
@given(samples(), st.randoms(use_true_random=False))
def test_the_order_of_nets_and_fish_is_irrelevant(
    nets: tuple[NetWeighing, ...], random: Random
) -> None:
    """Shuffled nets of shuffled fish give the same figures."""
    shuffled = [
        replace(n, fish=tuple(random.sample(n.fish, len(n.fish)))) for n in nets
    ]
    random.shuffle(shuffled)
    before = estimate_population(nets, published=published_line())
    after = estimate_population(tuple(shuffled), published=published_line())
    assert figures(after) == pytest.approx(figures(before), rel=1e-6)
    assert after.cv.value == pytest.approx(before.cv.value, rel=1e-6)


@FEW
@given(samples(), st.sampled_from([0.25, 3.0]))
def test_other_units_of_weight_scale_the_weights(
    nets: tuple[NetWeighing, ...], factor: float
) -> None:
    """With weights, the scale's errors and the published a times k, all is times k."""
    usual = SampleSettings()
    scale = Scale(resolution_g=factor * 1.0, sd_g=factor * 2.0)
    scaled = tuple(
        replace(n, net_g=None if n.net_g is None else n.net_g * factor) for n in nets
    )
    before = estimate_population(nets, published=published_line())
    after = estimate_population(
        scaled,
        published=published_line(a_g_cm=0.0138 * factor),
        settings=replace(usual, scale=scale),
    )
    expected = [factor * value for value in figures(before)]
    assert figures(after) == pytest.approx(expected, rel=1e-6)
    assert after.line.level_ratio.value == pytest.approx(
        before.line.level_ratio.value, rel=1e-6
    )


@FEW
@given(samples(), st.sampled_from([0.5, 2.0]))
def test_lengths_scaled_leave_the_weights(
    nets: tuple[NetWeighing, ...], factor: float
) -> None:
    """In another unit of length, with a to match, every weight is the same."""
    scaled = tuple(
        replace(
            n,
            fish=tuple(
                replace(f, fork_length_mm=f.fork_length_mm * factor) for f in n.fish
            ),
        )
        for n in nets
    )
    other = published_line(
        a_g_cm=0.0138 * factor**-3.0,
        min_length_mm=80.0 * factor,
        max_length_mm=600.0 * factor,
    )
    before = estimate_population(nets, published=published_line())
    after = estimate_population(scaled, published=other)
    assert figures(after) == pytest.approx(figures(before), rel=1e-6)
    if before.fork_length_mean_mm is not None:
        assert after.fork_length_mean_mm is not None
        assert after.fork_length_mean_mm.value == pytest.approx(
            factor * before.fork_length_mean_mm.value, rel=1e-6
        )


@FEW
@given(samples())
def test_figures_are_in_order(nets: tuple[NetWeighing, ...]) -> None:
    """Intervals hold their value, quantiles rise, shares fall from 1 to 0."""
    estimate = estimate_population(nets, published=published_line())
    for figure in (
        estimate.mean_weight_g,
        estimate.handled_mean_weight_g,
        estimate.cv,
        estimate.line.level_ratio,
        estimate.line.b,
    ):
        assert isinstance(figure, Estimate)
        assert 0.0 < figure.low <= figure.value <= figure.high
    weights = [q.weight_g.value for q in estimate.weight_quantiles_g]
    assert weights == sorted(weights)
    shares = [estimate.weight_share_above(w).value for w in (1.0, *weights, 1e5)]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] == pytest.approx(1.0, abs=1e-6)
    assert shares[-1] == pytest.approx(0.0, abs=1e-6)
    for quantile, share in zip(estimate.weight_quantiles_g, shares[1:-1], strict=True):
        assert share == pytest.approx(1.0 - quantile.below_fraction, abs=0.02)


def width(nets: tuple[NetWeighing, ...]) -> float:
    mean = estimate_population(nets, published=published_line()).mean_weight_g
    return float(np.log(mean.high / mean.low))


@pytest.mark.parametrize("kind", ["both", "bulk", "photo"])
def test_adding_a_net_narrows_on_average(kind: str) -> None:
    """Over 12 samples a fifth net narrows the interval, and never doubles it."""
    dip = Dip(fish=8, weighed=kind != "photo", photographed=kind != "bulk")
    ratios = []
    for seed in range(12):
        dips = [Dip(fish=8)] * 4 + [dip]
        nets = draw(Truth(), dips, np.random.default_rng(seed)).nets
        ratios.append(width(nets) / width(nets[:4]))
    assert np.mean(ratios) < 1.0
    # A net that differs rightly widens it: the nets' own spread is larger than known.
    assert max(ratios) < 1.5


def test_shared_errors_do_not_shrink_with_more_fish() -> None:
    """However many nets, the drip water's and the length scale's errors stay."""
    dips = [Dip(fish=40)] * 40
    nets = draw(Truth(tau=0.0), dips, np.random.default_rng(1)).nets
    sure = SampleSettings(
        drip=DripWater(fraction=0.01, sd=1e-5), length_relative_sd=1e-5
    )
    known, usual = (
        estimate_population(nets, published=published_line(), settings=s)
        for s in (sure, SampleSettings())
    )
    # 90 % of a normal: 1.645 x drip sd 1 % / 1.015, and x 3 x length scale 0.8 %.
    handled = usual.handled_mean_weight_g
    assert (handled.high - handled.low) / (2 * handled.value) > 0.9 * 1.645 * 0.0099
    ratio = usual.line.level_ratio
    assert (ratio.high - ratio.low) / (2 * ratio.value) > 0.9 * 1.645 * 0.024
    ratio = known.line.level_ratio
    assert (ratio.high - ratio.low) / (2 * ratio.value) < 0.02


def odd_nets(rng: np.random.Generator) -> tuple[NetWeighing, ...]:
    """Return nets of any size, weight and spread, most of them absurd."""
    nets = []
    for _ in range(int(rng.integers(1, 6))):
        count = int(rng.choice([1, 2, 8, 30, 100_000]))
        seen = int(min(count + 2, rng.choice([0, 1, 2, 8, 30])))
        spread = float(rng.choice([0.0, 0.1, 1.5]))
        lengths = np.clip(250 * np.exp(rng.normal(0, spread, seen)), 5, 5000)
        nets.append(
            NetWeighing(
                fish_count=count,
                # Less than 0.1 mg a fish is refused as a slip of units.
                net_g=max(float(10 ** rng.uniform(-2, 6.5)), 1e-4 * count)
                if rng.random() < 0.7
                else None,
                fish=tuple(
                    FishInNet(
                        fork_length_mm=float(mm),
                        relative_sd=float(rng.choice([0.0, 0.012, 0.3])),
                        photo=int(rng.integers(0, 2)),
                    )
                    for mm in lengths
                ),
                count_sd=float(rng.choice([0.0, 5.0])),
                miscount_probability=float(rng.choice([0.0, 0.03, 0.5])),
            )
        )
    return (*nets, NetWeighing(fish_count=3, net_g=700.0))


@pytest.mark.parametrize("seed", range(40))
def test_absurd_figures_give_finite_ones(seed: int) -> None:
    """No warning, no infinity: intervals in order whatever was typed."""
    rng = np.random.default_rng([seed, 5])
    estimate = estimate_population(
        odd_nets(rng),
        published=published_line(),
        count_in_unit=int(rng.choice([1, 50, 1_000_000])),
    )
    for figure in (estimate.mean_weight_g, estimate.handled_mean_weight_g, estimate.cv):
        assert 0.0 < figure.low <= figure.value <= figure.high < np.inf
    json.dumps(estimate_to_json(estimate), allow_nan=False)
