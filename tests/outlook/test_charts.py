"""Charts and plans say what the calculations below them say."""

import math
from dataclasses import replace
from datetime import date, time, timedelta
from itertools import pairwise
from uuid import UUID

import pytest

from fishmeasure.book.entries import WaterReading
from fishmeasure.outlook.charts import unit_charts
from fishmeasure.outlook.unit import UnitOutlook, unit_outlook
from fishmeasure.outlook.whatif import PlanQuestion, unit_plan
from fishmeasure.store.demo import demo_book

DEMO_DAY = date(2026, 5, 2)
BOOK = demo_book(DEMO_DAY)


def demo(
    name: str,
    question: PlanQuestion | None = None,
    reading: WaterReading | None = None,
) -> UnitOutlook:
    unit = next(unit for unit in BOOK.units if unit.name == name)
    more = () if reading is None else (replace(reading, unit_id=unit.id),)
    return unit_outlook(
        BOOK.units,
        BOOK.cohorts,
        (*BOOK.entries, *more),
        unit_id=UUID(str(unit.id)),
        on=DEMO_DAY,
        options=None if question is None else question.options,
    )


def test_the_sizes_are_all_fish_and_lognormal() -> None:
    """Their sum is the count; below the median lies half (Limpert et al. 2001)."""
    outlook = demo("Tank A")
    (chart,) = unit_charts(outlook).sizes
    (item,) = outlook.cohorts
    counted = sum(size.fish_count.value for size in chart.sizes)
    assert counted == pytest.approx(item.fish.fish_count.value, rel=0.01)
    # The share between two weights: the normal's of their logarithms.
    sigma = math.sqrt(math.log1p(item.cv.value**2))
    assert item.mean_weight_g is not None
    median = item.mean_weight_g.value * math.exp(-0.5 * sigma**2)

    def below(weight_g: float) -> float:
        if weight_g <= 0.0:
            return 0.0
        return 0.5 * math.erfc(-math.log(weight_g / median) / sigma / math.sqrt(2.0))

    for size in chart.sizes:
        share = below(size.to_g) - below(size.from_g)
        expected = share * item.fish.fish_count.value
        assert size.fish_count.value == pytest.approx(expected, rel=0.02, abs=0.05)
        assert size.fish_count.low <= size.fish_count.value <= size.fish_count.high


def test_the_forecast_begins_with_today_and_goes_by_weeks() -> None:
    """As the projection has it; samples stand as they were entered."""
    outlook = demo("Tank B")
    growth, *_ = unit_charts(outlook).growth
    days = [one.day for one in growth.ahead]
    assert days[0] == outlook.on
    assert {b - a for a, b in pairwise(days)} == {timedelta(weeks=1)}
    assert [one.day for one in growth.samples] == [
        sample.on for sample in outlook.samples if sample.cohort_id == growth.cohort_id
    ]


def test_kilograms_over_the_limits_share_are_its_capacity() -> None:
    """Half used by 30 kg is a limit of 60 kg; the safe end is the high use."""
    outlook = demo("Tank A")
    assert outlook.limits is not None
    today, *later = outlook.limits.ahead.days
    now = outlook.limits.load.limiting.used_fraction
    shares = [now, *(day.used_fraction for day in later)]
    drawn = unit_charts(outlook).load
    assert drawn[0].day == today.day == outlook.on
    for one, share in zip(drawn, shares, strict=True):
        used = one.biomass_kg.value / one.capacity_kg.value
        assert used == pytest.approx(share.value)
        safe = one.biomass_kg.value / one.capacity_kg.low
        assert safe == pytest.approx(share.high)


def test_water_that_kills_bears_no_fish_and_nets_wait_for_oxygen() -> None:
    """Rainbow trout die above 25 to 27 deg C; 2 mg/L is below any farm's limit.

    Lethal temperatures: Elliott & Elliott 2010, J Fish Biol 77, from memory.
    """
    read = WaterReading(
        id=UUID(int=1), on=DEMO_DAY, unit_id=UUID(int=2), at=time(23), ph=7.0
    )
    hot = demo("Tank A", reading=replace(read, temperature_deg_c=29.0))
    assert unit_charts(hot).load[0].capacity_kg.high == 0.0
    question = PlanQuestion(harvest_weeks=3)
    airless = demo("Tank A", question, replace(read, do_mg_per_l=2.0))
    plan = unit_plan(airless, question)
    assert "handling" in airless.now.stops
    assert (plan.harvest, plan.feed_kg, plan.room) == (None, None, None)
    assert plan.problems


def test_a_plan_takes_what_is_there_and_no_more() -> None:
    """Fish taken and left are the fish; feed of more days is more; all in range."""
    question = PlanQuestion(harvest_weeks=3, harvest_count=40, feed_days=14)
    outlook = demo("Tank A", question)
    plan = unit_plan(outlook, question)
    assert plan.harvest is not None
    assert [one.taken_count for one in plan.harvest.plan.harvests] == [40] * 3
    count = outlook.cohorts[0].fish.fish_count.value
    left = plan.harvest.plan.harvests[-1].left_count.value
    assert left == pytest.approx(count - 120, abs=1)
    longer = unit_plan(outlook, PlanQuestion(feed_days=28))
    assert plan.feed_kg is not None
    assert longer.feed_kg is not None
    # Trout that grow eat more later; 14 days are less than half of 28.
    assert 0.0 < plan.feed_kg.value < 0.5 * longer.feed_kg.value * 1.001
    for choice in plan.choices:
        assert choice.least <= choice.chosen <= choice.most


def test_more_hours_to_be_survived_leave_fewer_fish() -> None:
    """As with the same water fewer fish use less oxygen."""
    found = []
    for hours in (1.0, 8.0):
        question = PlanQuestion(outage_hours=hours)
        plan = unit_plan(demo("Tank A", question), question)
        assert plan.outage is not None
        found.append(plan.outage.hours_biomass_kg.value)
    assert found[0] > found[1]
