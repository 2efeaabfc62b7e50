"""What follows from a plan: harvests by weeks, feed, room, an outage."""

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Final
from uuid import UUID

from pydantic import Field

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.feed import feed_plan
from fishmeasure.husbandry.harvest import HarvestPlan
from fishmeasure.husbandry.outage_measures import TimeToLevel
from fishmeasure.husbandry.propagation import sum_common
from fishmeasure.husbandry.weekly import WeeklyHarvest, weekly_plan
from fishmeasure.outlook.attempts import AHEAD_DAYS, Attempts, Options
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.unit import UnitOutlook

MOST_WEEKS: Final = 26
MOST_FEED_DAYS: Final = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanQuestion:
    """What is asked; None takes what the unit itself suggests."""

    cohort_id: UUID | None = None
    harvest_weeks: int = 8
    harvest_count: int | None = None
    feed_days: int = 30
    room_days: int = 90
    fingerling_weight_g: float = 20.0
    outage_hours: float = 4.0

    @property
    def options(self) -> Options:
        """What the outlook is asked for it."""
        return Options(
            stocking_days=self.room_days,
            fingerling_weight_g=self.fingerling_weight_g,
            hours=self.outage_hours,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A figure that may be chosen, and its range for this unit."""

    name: Annotated[str, Field(description="As the question names it.")]
    least: Annotated[
        float,
        Field(description="Smallest here, in its name's unit."),
    ]
    most: Annotated[
        float,
        Field(description="Largest here, in its name's unit."),
    ]
    step: Annotated[float, Field(description="To the next, in its name's unit.")]
    chosen: Annotated[float, Field(description="Taken here, in its name's unit.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedHarvest:
    """A harvest of a cohort's largest fish every week."""

    cohort_id: UUID
    cohort: Annotated[str, Field(description="Name of the cohort.")]
    start: Annotated[date, Field(description="First harvest.")]
    plan: HarvestPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedRoom:
    """Fingerlings that may be added now, growing until the day."""

    until: date
    fingerlings: Annotated[int, Field(description="Fish that may be added now.")]
    fingerlings_kg: Annotated[float, Field(description="Their weight now, kg.")]
    fish_to_take_out: Annotated[
        int, Field(description="Of those there, so that no limit may be passed.")
    ]
    first_day_over: Annotated[
        date | None, Field(description="Day on which a limit may be passed.")
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedOutage:
    """The stop that leaves least time, against the hours to be survived."""

    name: Annotated[Message, Field(description="What stops, in words.")]
    to_critical: TimeToLevel
    biomass_kg: Annotated[Estimate, Field(description="Fish there now, kg.")]
    hours_biomass_kg: Annotated[
        Estimate, Field(description="Fish with which the hours would be left, kg.")
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitPlan:
    """What follows from a plan; None where it cannot be told or must wait."""

    on: Annotated[date, Field(description="Day of the plan.")]
    choices: Annotated[
        tuple[Choice, ...], Field(description="What may be chosen, with its range.")
    ]
    harvest: PlannedHarvest | None
    feed_kg: Annotated[
        Estimate | None, Field(description="Feed of all the days together, kg.")
    ]
    room: PlannedRoom | None
    outage: PlannedOutage | None
    problems: Annotated[
        tuple[Problem, ...], Field(description="Why something is not told.")
    ]


def unit_plan(outlook: UnitOutlook, question: PlanQuestion) -> UnitPlan:
    """Return what follows from a plan.

    Parameters
    ----------
    outlook
        Of the unit, made with the question's ``options``.
    question
        What is asked.
    """
    tried = Attempts()
    item = _heaviest(outlook, question.cohort_id)
    weekly = None if item is None else _each_week(item, question)
    stops = outlook.now.stops
    harvest = feed = None
    if item is not None and weekly is not None and "handling" not in stops:
        harvest = tried.get(lambda: _harvest(item, outlook, question, weekly))
    if "feeding" not in stops:
        feed = tried.get(lambda: _feed_kg(outlook, question.feed_days))
    return UnitPlan(
        on=outlook.on,
        choices=_choices(item, question, weekly),
        harvest=harvest,
        feed_kg=feed,
        room=None if "adding" in stops else _room(outlook),
        outage=_outage(outlook),
        problems=(*outlook.problems, *tried.problems),
    )


def _heaviest(outlook: UnitOutlook, cohort_id: UUID | None) -> CohortOutlook | None:
    """Return the cohort to harvest: the one asked for, or that of the heaviest fish."""
    known = [
        item
        for item in outlook.cohorts
        if item.projection is not None
        and item.mean_weight_g is not None
        and item.fish.fish_count.value >= 1.0
        and cohort_id in {None, item.cohort.id}
    ]
    return max(
        known,
        key=lambda item: item.mean_weight_g.value if item.mean_weight_g else 0.0,
        default=None,
    )


def _each_week(item: CohortOutlook, question: PlanQuestion) -> int:
    if question.harvest_count is not None:
        return question.harvest_count
    return math.ceil(item.fish.fish_count.value / question.harvest_weeks)


def _harvest(
    item: CohortOutlook, outlook: UnitOutlook, question: PlanQuestion, weekly: int
) -> PlannedHarvest | None:
    """Return the harvests from the day on; first the medicines' periods must end."""
    start = outlook.on
    for wait in outlook.withdrawals:
        if wait.ends_on is None:
            return None
        start = max(start, wait.ends_on)
    if item.projection is None:
        return None
    until = start + timedelta(weeks=question.harvest_weeks - 1)
    return PlannedHarvest(
        cohort_id=item.cohort.id,
        cohort=item.cohort.name,
        start=start,
        plan=weekly_plan(
            projection=item.projection,
            fish_count=item.fish.fish_count,
            cv=item.cv,
            weekly=WeeklyHarvest(start=start, until=until, fish_count=weekly),
        ),
    )


def _feed_kg(outlook: UnitOutlook, days: int) -> Estimate | None:
    plans = [
        feed_plan(
            projection=item.projection,
            fish_count=item.fish.fish_count,
            temperature=outlook.state.temperature,
            start=outlook.on,
            days=days,
            tgc_x1000=None
            if item.fish.growth is None
            else item.fish.growth.present_tgc_x1000,
        )
        for item in outlook.cohorts
        if item.projection is not None
    ]
    # Fish of unknown growth eat, too: a sum without them would be too small.
    if not plans or len(plans) < len(outlook.cohorts):
        return None
    return sum_common(plan.total_kg for plan in plans)


def _room(outlook: UnitOutlook) -> PlannedRoom | None:
    limits = outlook.limits
    if limits is None or not limits.room_known:
        return None
    return PlannedRoom(
        until=limits.until,
        fingerlings=limits.ahead.fingerlings,
        fingerlings_kg=limits.ahead.fingerlings_kg,
        fish_to_take_out=limits.ahead.fish_to_take_out,
        first_day_over=limits.ahead.first_day_over,
    )


def _outage(outlook: UnitOutlook) -> PlannedOutage | None:
    if outlook.outages is None or outlook.biomass_kg is None:
        return None
    worst = outlook.outages.worst
    return PlannedOutage(
        name=worst.name,
        to_critical=worst.to_critical,
        biomass_kg=outlook.biomass_kg,
        hours_biomass_kg=outlook.outages.hours_biomass_kg,
    )


def _choices(
    item: CohortOutlook | None, question: PlanQuestion, weekly: int | None
) -> tuple[Choice, ...]:
    """Return each figure with its range; harvests where there are fish for them."""
    found = [
        _choice("feed_days", (1, MOST_FEED_DAYS), 1, question.feed_days),
        _choice("room_days", (7, AHEAD_DAYS), 1, question.room_days),
        _choice("fingerling_weight_g", (1, 200), 1, question.fingerling_weight_g),
        _choice("outage_hours", (0.5, 24), 0.5, question.outage_hours),
    ]
    if item is not None and weekly is not None:
        most = math.floor(item.fish.fish_count.value)
        step = max(1.0, 10.0 ** math.floor(math.log10(max(most, 10)) - 2))
        found = [
            _choice("harvest_weeks", (1, MOST_WEEKS), 1, question.harvest_weeks),
            _choice("harvest_count", (0, most), step, weekly),
            *found,
        ]
    return tuple(found)


def _choice(name: str, ends: tuple[float, float], step: float, chosen: float) -> Choice:
    least, most = ends
    return Choice(
        name=name,
        least=float(least),
        most=float(max(most, chosen)),
        step=float(step),
        chosen=float(chosen),
    )
