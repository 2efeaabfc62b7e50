"""Sampling plans against the textbook's formula and drawn samples."""

import json
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.base.errors import PlanError
from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.plan import (
    FAIR_NETTING,
    TYPICAL,
    Spread,
    one_more_net,
    plan_nets,
    relative_sd,
    spread_of,
    taken,
)
from tests.core.population.makers import Dip, Truth, draw, published_line


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
    assert any("no interval covers" in sentence for sentence in FAIR_NETTING)
