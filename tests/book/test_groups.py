"""Fish that come, go and are drawn, against sums by hand and normal distributions."""

import math
from typing import Any

import numpy as np
import pytest
from scipy import stats

from fishmeasure.base.arrays import FloatArray
from fishmeasure.book.posterior.answers import figure
from fishmeasure.book.posterior.feeding import (
    feed_periods,
    maintenance_per_day,
    partial_conversion,
)
from fishmeasure.book.posterior.fish import Flows, Group
from fishmeasure.book.posterior.solve import _scores
from fishmeasure.husbandry.oxygen import fasted_use_mg_per_kg_h
from fishmeasure.species import farmed_species
from tests.book.build import same

Z = 1.6448536
"""Of a normal interval of 90 %."""


def group(count: float, weight_g: float | None, cv: float = 0.2) -> Group:
    zero = np.zeros(1)
    return Group(
        unit_id=same(1),
        day=0,
        since=0,
        count=np.array([count]),
        unseen=zero,
        log_cv=np.array([math.log(cv)]),
        flows=Flows(
            added_kg=zero,
            taken_kg=zero,
            dead_kg=zero,
            grown_kg=zero,
            kept_up_kg=zero,
        ),
        cv_day=0,
        root=None if weight_g is None else np.cbrt(np.array([weight_g])),
    )


def cv_of(of: Group) -> float:
    return float(np.exp(of.log_cv[0]))


def grams(of: Group) -> float:
    assert of.weight_g is not None
    return float(of.weight_g[0])


def arrive(here: Group, fish: float, weight_g: float | None, cv: float) -> None:
    root = None if weight_g is None else np.cbrt(np.array([weight_g]))
    here.mix_in(np.array([fish]), root, np.array([math.log(cv)]))


def test_fish_that_join_others_mix_with_them() -> None:
    """100 of 100 g, CV 0.2, and 300 of 200 g, CV 0.3: all 400 laid side by side.

    Mean (100 x 100 + 300 x 200) / 400 = 175 g; mean square
    (100^2 x 1.04 + 3 x 200^2 x 1.09) / 4 = 35,300; CV sqrt(35,300 / 175^2 - 1).
    """
    found = group(100.0, 100.0, 0.2)
    arrive(found, 300.0, 200.0, 0.3)
    assert grams(found) == pytest.approx(175.0)
    assert cv_of(found) == pytest.approx(math.sqrt(35_300.0 / 175.0**2 - 1.0))


def test_the_first_fish_bring_their_own_weight_and_spread() -> None:
    found = group(0.0, 100.0, 0.2)
    arrive(found, 50.0, 40.0, 0.3)
    assert (grams(found), cv_of(found)) == pytest.approx((40.0, 0.3))


def test_fish_of_unknown_weight_change_none() -> None:
    found = group(100.0, 100.0, 0.2)
    arrive(found, 300.0, None, 0.3)
    assert (grams(found), cv_of(found)) == pytest.approx((100.0, 0.2))
    unknown = group(100.0, None, 0.2)
    arrive(unknown, 300.0, 80.0, 0.3)
    assert (grams(unknown), cv_of(unknown)) == pytest.approx((80.0, 0.2))


def take(of: Group, fish: float, weight_g: float) -> None:
    of.take_out(np.array([fish]), np.array([weight_g]))


def test_those_left_weigh_what_is_left() -> None:
    """(100 x 100 - 20 x 150) / 80 = 87.5 g."""
    found = group(100.0, 100.0)
    take(found, 20.0, 150.0)
    assert grams(found) == pytest.approx(87.5)
    assert not found.problems


@pytest.mark.parametrize(
    ("fish", "weight_g", "left_g"),
    [
        (50.0, 166.0, 34.0),  # more than a third
        (50.0, 168.0, None),  # 32 g
        (80.0, 50.5, 298.0),  # less than three times
        (80.0, 49.5, None),  # 302 g
    ],
)
def test_those_left_change_by_no_more_than_three_times(
    fish: float, weight_g: float, left_g: float | None
) -> None:
    found = group(100.0, 100.0)
    take(found, fish, weight_g)
    assert grams(found) == pytest.approx(100.0 if left_g is None else left_g)
    assert set(found.problems) == ({"weight-implausible"} if left_g is None else set())


def test_where_none_are_left_the_weight_stays() -> None:
    for fish in (100.0, 99.5):
        found = group(100.0, 100.0)
        take(found, fish, 40.0)
        assert grams(found) == pytest.approx(100.0)
        assert not found.problems
    # One fish is left: 100 x 100 - 99 x 99 = 199 g.
    found = group(100.0, 100.0)
    take(found, 99.0, 99.0)
    assert grams(found) == pytest.approx(199.0)


def test_kilograms_are_fish_times_grams() -> None:
    found = group(100.0, 150.0)
    assert found.kg(20.0) == pytest.approx([3.0])
    assert found.flows.unknown_fish == 0.0
    unknown = group(100.0, None)
    assert unknown.kg(20.0) == pytest.approx([0.0])
    assert unknown.kg(np.array([-5.0])) == pytest.approx([0.0])
    assert unknown.flows.unknown_fish == 25.0


# --- figures of draws -------------------------------------------------------------


SCORES = _scores(2)


def drawn(function: Any) -> FloatArray:
    """Return a function of two normal unknowns: the middle, draws, their opposites."""
    both = np.hstack([np.zeros((2, 1)), SCORES, -SCORES])
    found: FloatArray = function(*both)
    return found


def test_scores_are_of_mean_nil_and_sd_one_and_uncorrelated() -> None:
    both = np.hstack([SCORES, -SCORES])
    assert both.mean(axis=1) == pytest.approx(np.zeros(2), abs=1e-12)
    assert both @ both.T / both.shape[1] == pytest.approx(np.eye(2), abs=1e-9)
    assert _scores(300).shape[1] >= 300
    assert _scores(0).shape[0] == 0


def test_a_sum_has_the_interval_of_the_normal_sum() -> None:
    """100 + 3 x + 4 y is normal with sd 5."""
    found = figure(drawn(lambda x, y: 100.0 + 3.0 * x + 4.0 * y), SCORES)
    assert (found.value, found.sd) == pytest.approx((100.0, 5.0))
    assert found.low == pytest.approx(100.0 - Z * 5.0, abs=0.05)
    assert found.high == pytest.approx(100.0 + Z * 5.0, abs=0.05)


def test_an_exponential_has_the_quantiles_of_the_log_normal() -> None:
    found = figure(drawn(lambda x, _: 50.0 * np.exp(0.3 * x)), SCORES)
    law = stats.lognorm(0.3, scale=50.0)
    assert found.low == pytest.approx(law.ppf(0.05), rel=0.02)
    assert found.high == pytest.approx(law.ppf(0.95), rel=0.02)
    assert found.sd == pytest.approx(law.std(), rel=0.05)


def test_no_figure_is_below_nothing() -> None:
    """Of 2 + 4 x what is below 0 counts as 0: the half-normal's sd, by scipy."""
    found = figure(drawn(lambda x, _: 2.0 + 4.0 * x), SCORES)
    assert (found.value, found.low) == (2.0, 0.0)
    assert found.high == pytest.approx(2.0 + Z * 4.0, abs=0.1)
    x = stats.norm(2.0, 4.0)
    mean = x.expect(lambda v: max(v, 0.0))
    square = x.expect(lambda v: max(v, 0.0) ** 2)
    assert found.sd == pytest.approx(math.sqrt(square - mean**2), rel=0.03)
    gone = figure(drawn(lambda x, _: -7.0 + 0.0 * x), SCORES)
    assert (gone.value, gone.sd, gone.low, gone.high) == (0.0, 0.0, 0.0, 0.0)


# --- feed -------------------------------------------------------------------------


def test_fasted_fish_burn_a_small_share_of_feed() -> None:
    """Oxygen to energy to feed: 1 g of oxygen 13.56 kJ, 1 kg of feed 16 MJ."""
    trout = farmed_species("rainbow-trout")
    use = fasted_use_mg_per_kg_h(trout, 150.0, 12.0) / 1.75
    wanted = use * 24.0 / 1000.0 * 13.56 / 16_000.0
    assert maintenance_per_day(trout, 150.0, 12.0) == pytest.approx(wanted)


def test_partial_conversion_is_the_whole_less_maintenance() -> None:
    """Trout of 150 g at 17 °C: 3 x 1.75 / 1000 x 17 / 150^(1/3) a day, 1.68 %.

    So a kilogram of gain takes 1 / 0.0168 = 59.5 days of a kilogram's maintenance.
    """
    trout = farmed_species("rainbow-trout")
    gain = 3.0 * 1.75e-3 * 17.0 / 150.0 ** (1.0 / 3.0)
    wanted = 1.1 - maintenance_per_day(trout, 150.0, 17.0) / gain
    told, spread = partial_conversion("rainbow-trout")
    assert told == pytest.approx(max(wanted, 0.55))
    assert spread == pytest.approx(math.sqrt(0.12**2 + 0.1**2))


def periods(
    days: list[int], on: int, share: float = 0.0
) -> list[tuple[int, int, float]]:
    found = feed_periods(same(1), dict.fromkeys(days, 2.0), on, share)
    return [(p.start, p.end, p.feed_kg) for p in found]


def test_feed_is_joined_to_periods_of_three_weeks() -> None:
    """From the first meal to the first one 21 days later; the rest is the next."""
    assert periods(list(range(50)), 60) == [
        (0, 21, 42.0),
        (21, 42, 42.0),
        (42, 50, 16.0),
    ]
    # Each second day: a period ends a usual gap after its last meal.
    assert periods(list(range(0, 20, 2)), 60) == [(0, 20, 20.0)]
    # What is fed today has become no growth yet.
    assert periods(list(range(10)), 5) == [(0, 5, 10.0)]


def test_two_meals_are_no_period_and_none_is_no_meal() -> None:
    assert periods([0, 1], 60) == []
    assert periods([0, 1, 2], 60) == [(0, 3, 6.0)]
    assert periods([0, 1, 2], 2) == []
    found = feed_periods(same(1), {0: 1.0, 1: 0.0, 2: 1.0, 4: 1.0}, 60)
    assert [(p.start, p.end, p.feed_kg) for p in found] == [(0, 6, 3.0)]


@pytest.mark.parametrize(("gap", "parts"), [(7, 1), (8, 2)])
def test_a_week_of_silence_ends_a_period(gap: int, parts: int) -> None:
    days = [*range(5), *range(4 + gap, 9 + gap)]
    assert len(periods(days, 60)) == parts


@pytest.mark.parametrize(("gap", "parts"), [(12, 1), (13, 2)])
def test_so_do_four_usual_gaps(gap: int, parts: int) -> None:
    """Fed each third day: after 9 days, and 12 more are still one diary."""
    days = [0, 3, 6, 6 + gap, 9 + gap, 12 + gap]
    assert len(periods(days, 60)) == parts


def test_the_error_of_feed_is_of_periods_ends_and_shares() -> None:
    """12 % of any period, half a meal of 10, and what the cohorts share: squares."""
    (found,) = feed_periods(same(1), dict.fromkeys(range(10), 2.0), 60, 0.3)
    assert found.sd_fraction == pytest.approx(math.sqrt(0.12**2 + 0.05**2 + 0.3**2))
