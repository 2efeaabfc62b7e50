"""Weekly harvests against examples worked by hand."""

import math
from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fishmeasure.base.errors import StockRangeError, WeeklyHarvestError
from fishmeasure.husbandry.harvest import WeightSpread
from fishmeasure.husbandry.projection import GrowthProjection
from fishmeasure.husbandry.propagation import exact, lognormal
from fishmeasure.husbandry.weekly import WeeklyHarvest, weekly_plan

START = date(2026, 5, 1)
LAST = START + timedelta(days=21)


def growing(*means_g: float) -> GrowthProjection:
    """Return a projection with these mean weights on day 0, 7, 14 and so on."""
    days = np.arange(7 * (len(means_g) - 1) + 1)
    roots = np.interp(days, 7 * np.arange(len(means_g)), np.cbrt(means_g))
    return GrowthProjection(
        species_key="rainbow-trout",
        start=START,
        root_g=roots,
        root_sd_g=np.zeros(len(days)),
        level=0.9,
    )


def cv_of(sigma: float) -> float:
    """Return the CV of lognormal weights whose logarithms have the sd sigma."""
    return math.sqrt(math.expm1(sigma**2))


def test_all_leave_at_plate_size() -> None:
    """1,000 fish and a plate size of 300 g, by the normal table.

    Logarithms of the weights have the sd 0.2. The median is 300 g e^(-0.2 z) in the
    weeks where z is 1, 0.5, 0 and -0.5, so the share over 300 g is 1 - Phi(z): of
    the table's Phi(1) = 0.8413, Phi(0.5) = 0.6915, Phi(0) = 0.5 and
    Phi(-0.5) = 0.3085 it is 158.7, 308.5, 500 and 691.5 fish. Whole fish that are
    there and not taken before: 158, then 308 - 158 = 150, 500 - 308 = 192 and
    691 - 500 = 191; 1,000 - 691 = 309 stay.
    """
    mean_over_median = math.exp(0.02)  # e^(0.2^2 / 2) of a lognormal
    means = [300.0 * math.exp(-0.2 * z) * mean_over_median for z in (1, 0.5, 0, -0.5)]
    plan = weekly_plan(
        projection=growing(*means),
        fish_count=exact(1000.0),
        cv=exact(cv_of(0.2)),
        weekly=WeeklyHarvest(start=START, until=LAST, size_g=300.0),
    )
    assert [h.taken_count for h in plan.harvests] == [158, 150, 192, 191]
    assert [h.day for h in plan.harvests] == [
        START + timedelta(days=days) for days in (0, 7, 14, 21)
    ]
    assert plan.taken_count == 691
    assert plan.harvests[-1].left_count.value == pytest.approx(309.0)
    assert all(h.smallest_taken_g >= 300.0 for h in plan.harvests)
    assert all(h.smallest_taken_g < 300.5 for h in plan.harvests)


def test_so_many_kilograms_of_fish_all_alike() -> None:
    """20 kg a week is 40 fish of 500 g, then 32 of 625 g, then the 28 left of 800 g.

    20 / 0.5 = 40 and 20 / 0.625 = 32; of 100 fish 28 are left, 22.4 kg at 800 g,
    of which 25 make the 20 kg; 3 fish, 3 kg at 1 kg, are all that is left.
    """
    plan = weekly_plan(
        projection=growing(500.0, 625.0, 800.0, 1000.0),
        fish_count=exact(100.0),
        cv=exact(0.0),
        weekly=WeeklyHarvest(start=START, until=LAST, biomass_kg=20.0),
    )
    assert [h.taken_count for h in plan.harvests] == [40, 32, 25, 3]
    yields = [h.taken_kg.value for h in plan.harvests]
    assert yields == pytest.approx([20.0, 20.0, 20.0, 3.0])
    assert plan.taken_kg.value == pytest.approx(63.0)


def test_so_many_kilograms_of_the_largest() -> None:
    """The 159 largest of 1,000 fish hold 61.7 of their 200 kg.

    Mean 200 g, logarithms with the sd 0.5. Partial expectation of the lognormal: the
    fish above the rank Phi(z) hold the share 1 - Phi(z - 0.5) of the weight. At z = 1
    that is 1 - 0.8413 = 15.87 % of the fish with 1 - 0.6915 = 30.85 % of the weight:
    158.7 fish, 61.7 kg; so 61.7 kg need 159 whole fish.
    """
    plan = weekly_plan(
        projection=growing(200.0),
        fish_count=exact(1000.0),
        cv=exact(cv_of(0.5)),
        weekly=WeeklyHarvest(start=START, until=START, biomass_kg=61.7),
    )
    (harvest,) = plan.harvests
    assert harvest.taken_count == 159
    assert harvest.taken_kg.value == pytest.approx(61.8, abs=0.1)


def test_the_same_number_every_week_until_none_are_left() -> None:
    """60 a week of 200: three weeks of 60 and one of 20."""
    plan = weekly_plan(
        projection=growing(*[200.0] * 5),
        fish_count=exact(200.0),
        cv=exact(0.25),
        weekly=WeeklyHarvest(
            start=START, until=START + timedelta(days=28), fish_count=60
        ),
    )
    assert [h.taken_count for h in plan.harvests] == [60, 60, 60, 20]
    assert plan.harvests[-1].left_kg.value == 0.0
    assert plan.shortfall_count == 0
    grades = [h.smallest_taken_g for h in plan.harvests[:3]]
    assert grades == sorted(grades, reverse=True)


def test_the_last_day_counts_and_part_of_a_week_does_not() -> None:
    """From the 1st to the 20th: the 1st, 8th and 15th; to the 22nd that day too."""
    weekly = WeeklyHarvest(start=START, until=START + timedelta(days=19), size_g=1.0)
    assert [day.day for day in weekly.days] == [1, 8, 15]
    assert [day.day for day in replace(weekly, until=LAST).days] == [1, 8, 15, 22]


@given(
    kilograms=st.floats(0.1, 40.0), cv=st.floats(0.0, 0.6), count=st.floats(1.0, 400.0)
)
def test_kilograms_are_reached_with_as_few_fish_as_can_be(
    kilograms: float, cv: float, count: float
) -> None:
    """Each harvest but the last has the kilograms; one fish less had not."""
    projection = growing(200.0, 220.0, 240.0)
    plan = weekly_plan(
        projection=projection,
        fish_count=lognormal(count, 0.02),
        cv=exact(cv),
        weekly=WeeklyHarvest(
            start=START, until=START + timedelta(days=14), biomass_kg=kilograms
        ),
    )
    gone = 0
    for harvest in plan.harvests[:-1]:
        spread = WeightSpread(mean_g=projection.mean_weight_g(harvest.day).value, cv=cv)
        fewer = harvest.taken_count - 1
        upper = 1.0 - gone / count
        fewer_g = 0.0
        if fewer:
            mean_g = spread.mean_between_ranks_g(upper - fewer / count, upper)
            fewer_g = fewer * mean_g
        assert fewer_g < 1000.0 * kilograms
        assert harvest.taken_kg.value >= kilograms * (1.0 - 1e-6)
        gone += harvest.taken_count
    assert plan.taken_count <= count + 1e-9


def test_errors_of_the_harvests_are_shared() -> None:
    """One mean weight is behind all: together they are as unsure as each."""
    cohort = replace(growing(400.0, 400.0), root_sd_g=np.full(8, 0.1))
    plan = weekly_plan(
        projection=cohort,
        fish_count=exact(100.0),
        cv=exact(0.0),
        weekly=WeeklyHarvest(
            start=START, until=START + timedelta(days=7), fish_count=50
        ),
    )
    one, other = (h.taken_kg for h in plan.harvests)
    assert plan.taken_kg.sd == pytest.approx(one.sd + other.sd)


def test_what_is_no_weekly_harvest_is_refused() -> None:
    """One of the three, days in order, figures of fish."""
    with pytest.raises(WeeklyHarvestError):
        WeeklyHarvest(start=START, until=LAST)
    with pytest.raises(WeeklyHarvestError):
        WeeklyHarvest(start=START, until=LAST, fish_count=9, size_g=300.0)
    for figures in (
        {"fish_count": -1},
        {"biomass_kg": 0.0},
        {"size_g": math.nan},
        {"size_g": 300.0, "until": START - timedelta(days=1)},
    ):
        with pytest.raises(StockRangeError):
            WeeklyHarvest(**({"start": START, "until": LAST} | figures))
