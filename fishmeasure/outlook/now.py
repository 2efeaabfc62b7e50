"""What the water says now, and what must wait for it: the one gate of an outlook."""

from dataclasses import dataclass, replace
from typing import Final

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.state import UnitState
from fishmeasure.book.system import loops, water_system
from fishmeasure.husbandry.feed import FeedPlan
from fishmeasure.husbandry.now import (
    Now,
    OwnLimits,
    Reading,
    Readings,
    Reason,
    Setting,
    judge_water,
)
from fishmeasure.husbandry.propagation import exact
from fishmeasure.husbandry.water_case import KEEPS
from fishmeasure.outlook.feed import Feeding
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.load import Limits

NOTHING: Final = exact(0.0)


def unit_now(state: UnitState) -> Now:
    """Return the judgement of a unit's water on the day of the state."""
    unit, own = state.unit, state.unit.limits
    return judge_water(
        Readings(**{name: _reading(state, name) for name in KEEPS}),
        Setting(
            species_keys=tuple(
                sorted({fish.cohort.species_key for fish in state.cohorts})
            ),
            loops=loops(unit),
            still=water_system(unit) == "pond",
            salinity_g_per_kg=unit.salinity_g_per_kg,
            altitude_m=unit.altitude_m,
            pressure_hpa=unit.pressure_hpa,
            expected_temperature_deg_c=(
                state.temperature.on(state.on)
                if unit.monthly_temperature_deg_c
                else None
            ),
            own=OwnLimits(
                min_do_mg_per_l=own.min_do_mg_per_l,
                critical_do_mg_per_l=own.critical_do_mg_per_l,
                max_unionised_ammonia_mg_per_l=own.max_unionised_ammonia_mg_per_l,
                max_nitrate_n_mg_per_l=own.max_nitrate_n_mg_per_l,
            ),
        ),
    )


def _reading(state: UnitState, name: str) -> Reading | None:
    latest = state.water.get(name)
    if latest is None:
        return None
    age_days = (state.on - latest.on).days
    return Reading(value=latest.value, age_days=age_days, at=latest.at)


def now_problems(now: Now) -> dict[Problem, str]:
    """Return what is wrong with the water as problems, each with its verdict."""
    return {
        _problem(one): one.verdict
        for one in now.reasons
        if one.verdict in {"act", "watch"}
    }


def _problem(reason: Reason) -> Problem:
    """Return a reason as a problem, whose sentence says what to do as well."""
    parameters = dict(reason.message.parameters) | {"do_now": reason.advice}
    return Problem(code=reason.code, parameters=parameters)


def now_notes(now: Now) -> tuple[Message, ...]:
    """Return where the limits of the water come from, each once."""
    return tuple(
        dict.fromkeys(
            Message.of("note-water", case=one.about, source=one.source)
            for one in now.reasons
        )
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Gated:
    """The answers with all that must wait taken out of them.

    ``ration_kg`` is today's feed, ``room_kg`` how much more fish there is room for by
    the nearest limit: its value and low end at the unsafe end of all figures, its high
    end by the likely ones. None where it is not known.
    """

    cohorts: tuple[CohortOutlook, ...]
    feeding: Feeding | None
    limits: Limits | None
    ration_kg: Estimate | None
    room_kg: Estimate | None


def hold(
    now: Now,
    state: UnitState,
    cohorts: tuple[CohortOutlook, ...],
    feeding: Feeding | None,
    limits: Limits | None,
) -> Gated:
    """Return the answers as the water allows them.

    Where feeding must wait there is no ration until the water was read again, where
    adding must wait no room, and where handling must wait no grading.
    """
    ration_kg = None if feeding is None else feeding.today_kg
    # Beside fish of unknown weight, or where what limits them is not known, nobody
    # knows what room there is.
    room_kg = None
    if limits is not None and limits.room_known and state.biomass_kg is not None:
        room_kg = _room_kg(limits)
    if "feeding" in now.stops:
        feeding = None if feeding is None else _no_feed(feeding)
        ration_kg = NOTHING
    if "adding" in now.stops:
        limits = None if limits is None else _no_room(limits)
        room_kg = NOTHING
    if "handling" in now.stops:
        cohorts = tuple(_not_graded(item) for item in cohorts)
    return Gated(
        cohorts=cohorts,
        feeding=feeding,
        limits=limits,
        ration_kg=ration_kg,
        room_kg=room_kg,
    )


def _room_kg(limits: Limits) -> Estimate:
    load = limits.load
    sure = max(load.room_kg, 0.0)
    likely = min(limit.capacity_kg.value for limit in load.limits)
    return Estimate(
        value=sure,
        sd=0.0,
        low=sure,
        high=max(sure, likely - load.biomass_kg.value),
        level=load.biomass_kg.level,
    )


def _no_feed(feeding: Feeding) -> Feeding:
    return replace(
        feeding,
        today_kg=NOTHING,
        week_kg=NOTHING,
        plans=tuple(_no_plan(plan) for plan in feeding.plans),
    )


def _no_plan(plan: FeedPlan) -> FeedPlan:
    days = tuple(
        replace(day, percent_per_day=NOTHING, feed_kg=NOTHING) for day in plan.days
    )
    return replace(plan, days=days, total_kg=NOTHING)


def _no_room(limits: Limits) -> Limits:
    return replace(
        limits,
        load=replace(limits.load, room_kg=min(limits.load.room_kg, 0.0)),
        ahead=replace(limits.ahead, fingerlings=0, fingerlings_kg=0.0),
    )


def _not_graded(item: CohortOutlook) -> CohortOutlook:
    if item.grading is None:
        return item
    return replace(item, grading=replace(item.grading, advised=False))
