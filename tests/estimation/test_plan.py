"""Sampling plans against the textbook's formula and drawn samples."""

import json
from dataclasses import replace
from itertools import product
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest
from scipy import stats

from fishmeasure.base.errors import PlanError, SampleJsonError
from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.plan import (
    FAIR_NETTING,
    TYPICAL,
    Spread,
    Taken,
    half_width_of,
    next_net,
    one_more_net,
    plan_nets,
    relative_sd,
    spread_of,
    taken,
    taken_from_json,
)
from fishmeasure.estimation.strata import (
    Stratum,
    best_fish_per_net,
    plan_strata,
    share_out,
    stratified_sd,
)
from tests.estimation.makers import Dip, Truth, draw, published_line


@pytest.mark.shared
def test_the_sample_size_of_the_reference_shelf(shared: Path) -> None:
    """CV 25 %, +-5 %, z 1.96: 97 fish, and 81 of 500 (Cochran 1977)."""
    checks = json.loads((shared / "reference/checks.json").read_text("utf-8"))
    check = next(c for c in checks if c["check"] == "sample size")
    found = [
        plan_nets(
            Spread(
                within_net_cv=check["input"]["CV"], between_net_cv=0.0, common_sd=0.0
            ),
            half_width=check["input"]["d"],
            fish_per_net=1,
            level=0.95,
            count_in_unit=count,
        ).nets
        for count in check["input"]["N"]
    ]
    assert found == check["expected"]


def test_single_fish_are_nets_of_one() -> None:
    """Without differences between nets the plan is the textbook's formula."""
    spread = Spread(within_net_cv=0.25, between_net_cv=0.0, common_sd=0.0)
    plan = plan_nets(spread, half_width=0.05, fish_per_net=1, level=0.95)
    assert plan.nets == 97  # Cochran 1977, section 4.6: (1.96 x 0.25 / 0.05)^2


def test_the_expected_error_is_that_of_drawn_nets() -> None:
    """The standard error equals the spread of 4000 means of drawn nets."""
    rng = np.random.default_rng(4)
    nets, fish = 5, 8
    between = rng.normal(0.0, 0.09, (4000, nets, 1))
    within = rng.normal(0.0, 0.25, (4000, nets, fish))
    means = (1.0 + between + within).mean(axis=(1, 2))
    spread = Spread(within_net_cv=0.25, between_net_cv=0.09, common_sd=0.0)
    assert relative_sd(spread, nets=nets, fish_per_net=fish) == pytest.approx(
        means.std(), rel=0.03
    )


def test_more_is_asked_for_less_error() -> None:
    """A narrower interval takes more nets; a small unit takes fewer."""
    wide = plan_nets(TYPICAL, half_width=0.10, fish_per_net=8)
    narrow = plan_nets(TYPICAL, half_width=0.06, fish_per_net=8)
    small = plan_nets(TYPICAL, half_width=0.06, fish_per_net=8, count_in_unit=120)
    assert wide.nets < narrow.nets
    assert small.nets < narrow.nets
    assert narrow.half_width_percent <= 6.0
    assert narrow.fish_count == 8 * narrow.nets


@pytest.mark.parametrize(
    ("half_width", "fish"), [(0.001, 8), (0.0, 8), (2.0, 8), (0.1, 0)]
)
def test_what_cannot_be_planned_is_said(half_width: float, fish: int) -> None:
    """A width below the common error, or one that makes no sense."""
    with pytest.raises(PlanError):
        plan_nets(TYPICAL, half_width=half_width, fish_per_net=fish)


@pytest.mark.parametrize("count", [None, 100])
def test_one_more_net_buys_what_it_does(count: int | None) -> None:
    """The promise is near the mean of what a fifth net really brought."""
    promised, brought = [], []
    for seed in range(25):
        drawn = draw(Truth(), [Dip(fish=8)] * 5, np.random.default_rng(seed))
        four, five = (
            estimate_population(
                drawn.nets[:n], published=published_line(), count_in_unit=count
            )
            for n in (4, 5)
        )
        mean = five.mean_weight_g
        promised.append(one_more_net(taken(four)).half_width_percent)
        brought.append(50.0 * (mean.high - mean.low) / mean.value)
    assert np.mean(promised) == pytest.approx(np.mean(brought), rel=0.12)


def test_a_sample_tells_its_spread() -> None:
    """Planning after a sample uses that sample's own figures."""
    drawn = draw(Truth(sigma=0.13), [Dip(fish=30)] * 8, np.random.default_rng(1))
    spread = spread_of(estimate_population(drawn.nets, published=published_line()))
    assert spread.within_net_cv == pytest.approx(0.41, abs=0.06)
    more = one_more_net(
        taken(estimate_population(drawn.nets, published=published_line())),
        fish_per_net=60,
    )
    assert more.fish_per_net == 60


def test_advice_names_the_limit() -> None:
    """That a mesh's selection cannot be seen is said."""
    assert any("no interval covers" in str(sentence) for sentence in FAIR_NETTING)


def test_few_nets_have_students_interval() -> None:
    """Nets alone, three of them, no other error: t of 2 degrees, 2.920 (any table)."""
    spread = Spread(within_net_cv=0.0, between_net_cv=0.09, common_sd=0.0)
    found = half_width_of(spread, nets=3, fish_per_net=8)
    assert found == pytest.approx(2.920 * 0.09 / np.sqrt(3.0), rel=1e-3)


def test_a_pilots_spread_is_not_taken_as_known() -> None:
    """Four nets, worth two more beforehand: 5 degrees, chi squared 2.343 at 20 %.

    The sd between nets may be sqrt(5 / 2.343) = 1.461 times what the pilot showed.
    """
    pilot = Spread(within_net_cv=0.25, between_net_cv=0.09, pilot_nets=4, pilot_fish=32)
    assert pilot.assured().between_net_cv == pytest.approx(0.09 * 1.461, rel=1e-3)
    supposed = replace(pilot, pilot_nets=None, pilot_fish=None)
    fewer = plan_nets(supposed, half_width=0.10, fish_per_net=8).nets
    assert plan_nets(pilot, half_width=0.10, fish_per_net=8).nets > 1.5 * fewer


def test_four_of_five_plans_keep_what_they_say() -> None:
    """Pilots of four nets drawn with a known sd between nets; the plan's half width
    with that true sd is what was wanted in about four of five, or more.
    """
    rng = np.random.default_rng(2)
    truth = Spread(within_net_cv=0.25, between_net_cv=0.12, common_sd=0.0)
    kept = 0
    for _ in range(200):
        freedom = 5  # of the pilot's own figure, as the estimate has it
        seen = 0.12 * np.sqrt(rng.chisquare(freedom) / freedom)
        pilot = replace(truth, between_net_cv=float(seen), pilot_nets=4, pilot_fish=32)
        nets = plan_nets(pilot, half_width=0.12, fish_per_net=8).nets
        kept += half_width_of(truth, nets=nets, fish_per_net=8) <= 0.121
    assert 0.75 <= kept / 200 <= 0.95


def test_after_each_net_it_says_whether_one_more_is_worth_it() -> None:
    """Far from the aim it is; at it, enough; below the common error, never."""
    drawn = draw(Truth(), [Dip(fish=8)] * 6, np.random.default_rng(3))
    samples = [
        taken(estimate_population(drawn.nets[:n], published=published_line()))
        for n in (2, 6)
    ]
    first = next_net(samples[0], aim=0.11)
    assert first.verdict == "worth-it"
    assert first.nets_more is not None
    assert first.nets_more > 1
    assert first.one_more.half_width_percent < samples[0].half_width_percent
    assert next_net(samples[1], aim=0.3).verdict == "enough"
    assert next_net(samples[1], aim=0.02).verdict == "out-of-reach"


def test_what_a_net_costs_says_how_many_fish_it_should_hold() -> None:
    """within 25 %, between 9 %, a net 8 minutes, a fish half a minute:
    0.25 / 0.09 x sqrt(16) = 11.1 fish.
    """
    spread = Spread(within_net_cv=0.25, between_net_cv=0.09)
    assert best_fish_per_net(spread, minutes_per_net=8, minutes_per_fish=0.5) == 11


def test_strata_take_what_they_differ_by_out_of_the_error() -> None:
    """Two depths, half the fish each, 20 % apart: by hand.

    0.5^2 x (0.9^2 + 1.1^2) x (0.09^2 / 2 + 0.25^2 / 16) = 0.00402, sd 6.3 %.
    """
    spread = Spread(within_net_cv=0.25, between_net_cv=0.09, common_sd=0.0)
    shallow, deep = (
        Stratum(share=0.5, mean=mean, spread=spread, nets=2, fish_per_net=8)
        for mean in (0.9, 1.1)
    )
    assert stratified_sd((shallow, deep)) == pytest.approx(0.0634, abs=2e-4)
    # A part with three times the sd of a net's mean gets three times the nets.
    rare = replace(shallow, mean=0.3)
    wide = replace(shallow, mean=0.9)
    assert share_out((rare, wide), 8) == (2, 6)


def test_strata_take_the_fewest_nets_that_do() -> None:
    """Two halves alike, two nets of 8 each, by hand.

    Variance 2 x 0.5^2 x (0.09^2 / 2 + 0.25^2 / 16) = 0.5 x 0.0079563 = 0.0039781; of
    it told by one degree each 2 x (0.5^2 x 0.00405)^2 = 2.0503e-6; so 7.72 degrees.
    """
    spread = Spread(within_net_cv=0.25, between_net_cv=0.09, common_sd=0.0)
    half = Stratum(share=0.5, spread=spread, nets=1, fish_per_net=8)
    wide = float(stats.t.ppf(0.95, 7.719)) * np.sqrt(0.0039781)
    found = plan_strata((half, half), half_width=wide + 1e-4)
    assert found.nets == (2, 2)
    assert found.half_width_percent == pytest.approx(100.0 * wide, rel=1e-3)
    assert sum(plan_strata((half, half), half_width=wide - 1e-4).nets) > 4
    with pytest.raises(PlanError):
        plan_strata((half, half), half_width=0.001)
    with pytest.raises(PlanError):
        plan_strata((half, half), half_width=1.0)


NETS_APART: Final = Spread(within_net_cv=0.25, between_net_cv=0.09, common_sd=0.0)


def test_degrees_of_freedom_are_satterthwaites() -> None:
    """Three nets of 8: 0.09^2 / 3 + 0.25^2 / 24 = 0.0027 + 0.002604 = 0.005304.

    Only the first of them is told by 2 degrees: 0.005304^2 / (0.0027^2 / 2) = 7.72.
    """
    quantile = float(stats.t.ppf(0.95, 7.7189))
    found = half_width_of(NETS_APART, nets=3, fish_per_net=8)
    assert found == pytest.approx(quantile * np.sqrt(0.0053042), rel=1e-4)
    found = half_width_of(NETS_APART, nets=3, fish_per_net=8, level=0.8)
    wanted = float(stats.t.ppf(0.9, 7.7189)) * np.sqrt(0.0053042)
    assert found == pytest.approx(wanted, rel=1e-4)


def test_half_of_the_fish_taken_halve_the_variance() -> None:
    """24 of 48: both parts by (1 - 24 / 48), so the degrees stay; no more than all."""
    half = half_width_of(NETS_APART, nets=3, fish_per_net=8, count_in_unit=48)
    whole = half_width_of(NETS_APART, nets=3, fish_per_net=8)
    assert half == pytest.approx(whole * np.sqrt(0.5))
    common = replace(NETS_APART, common_sd=0.02)
    for count in (24, 12):
        found = half_width_of(common, nets=3, fish_per_net=8, count_in_unit=count)
        assert found == pytest.approx(1.6449 * 0.02, rel=1e-4)  # normal, 90 %


def test_a_pilots_spread_within_nets_has_its_fishs_degrees() -> None:
    """32 fish of 4 nets: 28 degrees, and 2; chi squared by scipy's statistics."""
    pilot = replace(NETS_APART, pilot_nets=4, pilot_fish=32)
    wanted = 0.25 * np.sqrt(30.0 / stats.chi2.ppf(0.2, 30.0))
    assert pilot.assured().within_net_cv == pytest.approx(wanted, rel=1e-6)
    # Nets that were only weighed: one "fish" each, and the prior's two degrees.
    unseen = replace(pilot, pilot_fish=4).assured()
    wanted = 0.25 * np.sqrt(2.0 / stats.chi2.ppf(0.2, 2.0))
    assert unseen.within_net_cv == pytest.approx(wanted, rel=1e-6)
    assert pilot.assured().assured() == pilot.assured()


@pytest.mark.parametrize(
    ("nets", "fish", "more", "shrinks"),
    [(4, 32, 8, 32 / 40), (5, 5, 1, 5 / 6), (3, 8, 3, 8 / 11)],
)
def test_one_more_net_of_nets_that_do_not_differ(
    nets: int, fish: int, more: int, shrinks: float
) -> None:
    """Then the error goes with the root of all fish, as of any mean."""
    spread = replace(NETS_APART, between_net_cv=0.0)
    sample = Taken(
        spread=spread, nets=nets, fish_count=fish, half_width_percent=10.0, level=0.9
    )
    plan = one_more_net(sample)
    assert (plan.nets, plan.fish_per_net, plan.level) == (nets + 1, more, 0.9)
    assert plan.half_width_percent == pytest.approx(10.0 * np.sqrt(shrinks))


ANSWER: Final = {
    "mean_weight_g": 200.0,
    "mean_weight_interval_g": [180.0, 230.0],
    "within_net_cv": 0.3,
    "between_net_cv": 0.1,
    "level": 0.9,
    "fish_handled": 24,
    "fish_measured": 20,
    "count_in_unit": 500,
    "nets": [{}, {}, {}],
}


def test_a_samples_json_is_read_for_a_plan() -> None:
    """The half width: (230 - 180) / 2 of 200 is 12.5 %."""
    found = taken_from_json(json.dumps(ANSWER), "s.json")
    assert found.half_width_percent == pytest.approx(12.5)
    assert (found.nets, found.fish_count, found.count_in_unit) == (3, 24, 500)
    spread = found.spread
    assert (spread.within_net_cv, spread.between_net_cv) == (0.3, 0.1)
    assert (spread.pilot_nets, spread.pilot_fish) == (3, 20)
    bulk = ANSWER | {"within_net_cv": None, "between_net_cv": None, "fish_measured": 0}
    spread = taken_from_json(json.dumps(bulk), "s.json").spread
    assert spread.within_net_cv == TYPICAL.within_net_cv
    assert spread.between_net_cv == TYPICAL.between_net_cv
    assert spread.pilot_fish == 3


@pytest.mark.parametrize(
    "figures",
    [
        {"within_net_cv": 0.0},
        {"within_net_cv": 9.9},
        {"between_net_cv": 0.0},
        {"fish_handled": 3},
        {"count_in_unit": None},
        {"count_in_unit": 1},
        {"level": 0.01},
        {"level": 0.99},
    ],
)
def test_figures_that_a_sample_may_have(figures: dict[str, Any]) -> None:
    taken_from_json(json.dumps(ANSWER | figures), "s.json")


@pytest.mark.parametrize(
    "figures",
    [
        {"within_net_cv": -0.01},
        {"within_net_cv": 10.1},
        {"within_net_cv": float("nan")},
        {"within_net_cv": float("inf")},
        {"between_net_cv": -0.01},
        {"between_net_cv": 10.1},
        {"fish_handled": 2},
        {"fish_handled": 1_000_000_001},
        {"nets": [], "fish_handled": 0},
        {"mean_weight_interval_g": [230.0, 230.0]},
        {"mean_weight_interval_g": [230.0, 180.0]},
        {"mean_weight_interval_g": [180.0, float("inf")]},
        {"mean_weight_g": 0.0},
        {"level": 0.0},
        {"level": 1.0},
        {"count_in_unit": 0},
        {"count_in_unit": 1_000_000_001},
        {"count_in_unit": True},
        {"count_in_unit": 10.5},
    ],
)
def test_figures_that_no_sample_has_are_refused(figures: dict[str, Any]) -> None:
    with pytest.raises(SampleJsonError):
        taken_from_json(json.dumps(ANSWER | figures), "s.json")


def test_a_net_holds_one_fish_at_least_and_no_more_than_a_photo() -> None:
    alike = replace(NETS_APART, between_net_cv=0.0)
    few = replace(NETS_APART, within_net_cv=0.001)
    for spread, minutes, fish in [(alike, 1.0, 30), (NETS_APART, 500.0, 30)]:
        found = best_fish_per_net(spread, minutes_per_net=minutes, minutes_per_fish=1.0)
        assert found == fish
    assert best_fish_per_net(few, minutes_per_net=1.0, minutes_per_fish=1.0) == 1


def test_the_strata_share_the_largest_common_error() -> None:
    """0.00402 as above, and 0.03^2 once: not each part's own, nor the mean of both."""
    first, second = (
        Stratum(
            share=0.5,
            mean=mean,
            spread=replace(NETS_APART, common_sd=common),
            nets=2,
            fish_per_net=8,
        )
        for mean, common in ((0.9, 0.01), (1.1, 0.03))
    )
    wanted = np.sqrt(0.25 * (0.81 + 1.21) * (0.0081 / 2 + 0.0625 / 16) + 0.03**2)
    assert stratified_sd((first, second)) == pytest.approx(wanted)


def test_nets_are_shared_out_so_that_no_other_way_errs_less() -> None:
    """Against all ways to give 9 nets to three strata, each tried."""
    strata = [
        Stratum(
            share=share,
            mean=mean,
            spread=replace(NETS_APART, between_net_cv=cv, common_sd=common),
            nets=1,
            fish_per_net=fish,
        )
        for share, mean, cv, common, fish in [
            (0.2, 0.7, 0.05, 0.3, 8),
            (0.3, 1.0, 0.15, 0.0, 4),
            (0.5, 1.1, 0.09, 0.0, 12),
        ]
    ]

    def error(nets: tuple[int, ...]) -> float:
        given = zip(strata, nets, strict=True)
        return stratified_sd([replace(one, nets=n) for one, n in given])

    ways = [w for w in product(range(1, 8), repeat=3) if sum(w) == 9]
    assert share_out(strata, 9) == min(ways, key=error)
    assert share_out(strata, 3) == (1, 1, 1)


@pytest.mark.parametrize(
    ("nets", "half_width", "verdict", "more"),
    [
        (60, 10.2, "worth-it", 3),  # 60 x 1.02^2 = 62.4
        (4, 12.0, "worth-it", 2),  # 4 x 1.2^2 = 5.76
        (4, 10.0, "enough", 0),
        (4, 10.1, "worth-it", 1),
        # Each of them brings sqrt(200 / 201), a quarter of a per cent: a tenth of what
        # is hardly worth the fish's stress is not asked for, though three would do.
        (200, 10.05, "out-of-reach", None),
    ],
)
def test_so_many_more_nets_are_asked_for_as_the_root_says(
    nets: int, half_width: float, verdict: str, more: int | None
) -> None:
    """Nets that do not differ: the interval goes with the root of their number."""
    sample = Taken(
        spread=replace(NETS_APART, between_net_cv=0.0),
        nets=nets,
        fish_count=8 * nets,
        half_width_percent=half_width,
        level=0.9,
    )
    found = next_net(sample, aim=0.10)
    assert (found.verdict, found.nets_more) == (verdict, more)
