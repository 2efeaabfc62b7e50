"""Sampling plans against the textbook's formula and drawn samples."""

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.base.errors import PlanError
from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.plan import (
    FAIR_NETTING,
    TYPICAL,
    Spread,
    half_width_of,
    next_net,
    one_more_net,
    plan_nets,
    relative_sd,
    spread_of,
    taken,
)
from fishmeasure.estimation.strata import (
    Stratum,
    best_fish_per_net,
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
