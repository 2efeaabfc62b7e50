"""An outage: how long the oxygen lasts, and what buys time."""

import math
from dataclasses import dataclass, replace

import numpy as np

from fishmeasure.base.arrays import FloatArray, frozen
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message, wording
from fishmeasure.husbandry import cautions
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.failures import failure_name, failures_of
from fishmeasure.husbandry.outage_fall import (
    HORIZON_MIN,
    Fall,
    OutageCase,
    fall_of,
    remaining_supplies,
)
from fishmeasure.husbandry.outage_measures import (
    Measure,
    TimeToLevel,
    demand_of,
    levels_of,
    measures_of,
    time_to,
)
from fishmeasure.husbandry.oxygen import supply_notes
from fishmeasure.husbandry.oxygen_supply import (
    aerator_supply,
    flow_supply,
    unit_water,
)
from fishmeasure.husbandry.propagation import exact, from_draws
from fishmeasure.husbandry.saturation import oxygen_saturation_mg_per_l
from fishmeasure.husbandry.sources import OxygenSource
from fishmeasure.species import farmed_species

_COURSE_POINTS = 121


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OutageResult:
    """The oxygen after an outage.

    Attributes
    ----------
    name
        What has stopped, in words.
    course_min, course_mg_per_l, course_low_mg_per_l, course_high_mg_per_l
        (n,) minutes and oxygen in mg/L with its interval, for the chart.
    measures
        The longest time surely gained first.
    holding_air_standard_transfer_g_per_h, holding_water_l_per_min
        Backup air (standard rate) or fresh water that would hold the caution
        level.
    """

    case: OutageCase
    name: Message
    to_caution: TimeToLevel
    to_critical: TimeToLevel
    measures: tuple[Measure, ...]
    holding_air_standard_transfer_g_per_h: Estimate
    holding_water_l_per_min: Estimate
    course_min: FloatArray
    course_mg_per_l: FloatArray
    course_low_mg_per_l: FloatArray
    course_high_mg_per_l: FloatArray
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()
    cautions: tuple[Message, ...] = cautions.OUTAGE


def _check(case: OutageCase) -> None:
    saturation = oxygen_saturation_mg_per_l(
        unit_water(case.unit, case.temperature_deg_c)
    )
    require("water volume", case.unit.volume_m3, "m³", 0.01)
    require("biomass", case.biomass_kg.value, "kg", 0.001)
    require(
        "oxygen at the start",
        case.start_do_mg_per_l.value,
        "mg/L",
        0.0,
        round(3.0 * saturation, 1),
    )


def outage(
    case: OutageCase,
    *,
    exchange_l_per_min: float | None = None,
    fewer_fraction: float = 0.25,
) -> OutageResult:
    """Return how long the oxygen lasts and what buys time.

    Parameters
    ----------
    exchange_l_per_min
        Fresh, near-saturated water at hand; None takes a tenth of the volume an
        hour.
    fewer_fraction
        Share of the fish taken out beforehand.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    _check(case)
    level = case.biomass_kg.level
    caution_level, critical_level = levels_of(case)
    demand = demand_of(case, case.feeding)
    supplies = remaining_supplies(case)
    fall = fall_of(case, demand, supplies)
    to_critical = time_to(fall, critical_level, level)
    course_min = _course_minutes(to_critical)
    tail = (1.0 - level) / 2.0
    course = np.array([fall.do_at(minute) for minute in course_min])
    low, high = np.quantile(course[:, 1:], [tail, 1.0 - tail], axis=1)
    holding_air, holding_water = _holding(case, fall, caution_level)
    return OutageResult(
        case=case,
        name=failure_name(case.unit, case.cause, case.device),
        to_caution=time_to(fall, caution_level, level),
        to_critical=to_critical,
        measures=measures_of(case, fall, exchange_l_per_min, fewer_fraction),
        holding_air_standard_transfer_g_per_h=holding_air,
        holding_water_l_per_min=holding_water,
        course_min=frozen(course_min),
        course_mg_per_l=frozen(course[:, 0]),
        course_low_mg_per_l=frozen(low),
        course_high_mg_per_l=frozen(high),
        notes=(*demand.notes, *_notes(case)),
        problems=demand.problems,
    )


def outages(
    case: OutageCase, *, exchange_l_per_min: float | None = None
) -> tuple[OutageResult, ...]:
    """Return what follows when each thing that this unit has stops.

    The soonest critical first, at the unsafe end. Empty where nothing can stop.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    found = [
        outage(
            replace(case, cause=failure.cause, device=failure.device),
            exchange_l_per_min=exchange_l_per_min,
        )
        for failure in failures_of(case.unit)
    ]
    return tuple(sorted(found, key=_urgency))


def _urgency(result: OutageResult) -> tuple[float, float]:
    return result.to_critical.minutes.low, result.to_caution.minutes.low


def _course_minutes(to_critical: TimeToLevel) -> FloatArray:
    """Return the chart's minutes: past the critical level's late end, to 1-24 h."""
    end = min(max(1.2 * to_critical.minutes.high, 60.0), HORIZON_MIN)
    return np.linspace(0.0, end, _COURSE_POINTS)


def _notes(case: OutageCase) -> tuple[Message, ...]:
    water = farmed_species(case.species_key).water
    caution, critical = water.do_watch_mg_per_l, water.do_act_mg_per_l
    notes = [
        Message.of("note-use-held"),
        Message.of("note-cloudy-pond"),
    ]
    notes += supply_notes(case.unit, case.wind_m_per_s)
    if case.caution_mg_per_l is None:
        notes.append(
            caution.note(Message.of("note-caution-level", level_mg_per_l=caution.value))
        )
    if case.critical_mg_per_l is None:
        notes.append(
            critical.note(
                Message.of("note-critical-level", level_mg_per_l=critical.value)
            )
        )
    return tuple(notes)


def _holding(
    case: OutageCase, fall: Fall, caution_level: float
) -> tuple[Estimate, Estimate]:
    """Return backup air (standard rate) and fresh water that hold caution."""
    level = case.biomass_kg.level
    missing = np.maximum(
        fall.use_g_per_h - fall.base_g_per_h + fall.exchange_m3_per_h * caution_level,
        0.0,
    )
    water = unit_water(case.unit, case.temperature_deg_c)
    one_kg = OxygenSource(name="air", standard_transfer_g_per_h=1000.0)
    per_kg_air = aerator_supply(one_kg, water)
    per_m3_water = flow_supply(1000.0 / 60.0, None, water)
    found = []
    for supply, scale in ((per_kg_air, 1000.0), (per_m3_water, 1000.0 / 60.0)):
        each = supply.at_g_per_h(caution_level).value
        require("oxygen above the caution level", each, "g/h", 1e-6)
        needed = missing / each * scale
        found.append(from_draws(float(needed[0]), needed[1:], level))
    return found[0], found[1]


def biomass_for_hours(case: OutageCase, *, hours: float) -> Estimate:
    """Return the fish load in kg that keeps the critical level off for some hours.

    Everything as in the case but the biomass, whose own error plays no part; act
    on the low end.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    _check(case)
    require("hours", hours, "h", 0.05, 24.0)
    known = replace(case, biomass_kg=exact(1.0, case.biomass_kg.level))
    fall = fall_of(known, demand_of(case, case.feeding), remaining_supplies(case))
    water_use = case.unit.water_respiration_mg_per_l_h * case.unit.volume_m3
    per_kg = fall.use_g_per_h - water_use
    critical_level = levels_of(case)[1]
    turnover = fall.exchange_m3_per_h * hours / fall.volume_m3
    settled = (critical_level - fall.start_do * np.exp(-turnover)) / -np.expm1(
        -turnover
    )
    allowed = fall.base_g_per_h - fall.exchange_m3_per_h * settled - water_use
    kilograms = np.where(
        fall.start_do > critical_level, np.maximum(allowed, 0.0) / per_kg, 0.0
    )
    return from_draws(float(kilograms[0]), kilograms[1:], case.biomass_kg.level)


def time_words(minutes: float) -> str:
    """Return minutes in words for people: "about 40 min", "3 h 20 min"."""
    if minutes >= HORIZON_MIN:
        return wording("duration", case="day")
    if minutes < 60.0:
        return wording("duration", case="minutes", minutes=math.floor(minutes))
    hours, rest = divmod(math.floor(minutes / 5.0) * 5, 60)
    return wording("duration", case="hours", hours=hours, minutes=f"{rest:02d}")
