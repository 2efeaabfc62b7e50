"""What a replay has come to: counts, weights and biomass with their intervals."""

import math
from datetime import date, timedelta
from typing import Final

from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.climate import FALLBACK_SD_C, FALLBACK_TEMP_C
from fishmeasure.book.entries import WATER_QUANTITIES, WaterReading
from fishmeasure.book.groups import CohortGroups, Flows, Group
from fishmeasure.book.state import (
    CohortInUnit,
    CohortTotal,
    Latest,
    Provenance,
    UnitFlow,
    UnitState,
)
from fishmeasure.book.units import Unit
from fishmeasure.husbandry.growth import STEP_SPREAD, GrowthFit
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.husbandry.temperature import TemperatureForecast

# Fewer fish than this are none: rounding, or what a move left behind on paper.
_NO_FISH: Final = 0.5
# Mean and variance of the absolute value of a standard normal figure.
_HALF_NORMAL_MEAN: Final = math.sqrt(2.0 / math.pi)
_HALF_NORMAL_VAR: Final = 1.0 - 2.0 / math.pi
MORE_OUT: Final = "more-out-than-in"
"""The doubt where a cohort's fish in a unit come to less than none."""
Present = tuple[CohortGroups, Group]


def cohort_total(fish: CohortGroups) -> CohortTotal:
    """Return a cohort over all units."""
    known, unseen = fish.total_variances()
    return CohortTotal(
        cohort=fish.cohort,
        stocked=fish.stocked,
        died=fish.died,
        taken=fish.taken,
        adjusted=fish.adjusted,
        fish_count=_count_interval(
            sum(group.count for group in fish.groups.values()), known, unseen
        ),
    )


def count_estimate(fish: CohortGroups, group: Group) -> Estimate:
    """Return the count of a group with its interval."""
    return _count_interval(
        group.count, fish.variance(group.unit_id), group.unseen_sd**2
    )


def unit_state(
    unit: Unit,
    here: list[Present],
    on: date,
    *,
    readings: list[WaterReading],
    temperature: TemperatureForecast,
) -> UnitState:
    """Return what is in a unit; ``here`` are its groups, brought to the day."""
    cohorts = tuple(
        _cohort_state(fish, group, on)
        for fish, group in here
        if abs(group.count) >= _NO_FISH or group.problems
    )
    water = _latest(readings)
    problems = tuple(problem for cohort in cohorts for problem in cohort.problems)
    if cohorts and not unit.monthly_temperature_deg_c:
        read = water.get("temperature_deg_c")
        problems += (
            _temperature_unknown(unit)
            if read is None
            else _temperature_held(
                unit, temperature.on(on + timedelta(days=1)), read.on
            ),
        )
    return UnitState(
        unit=unit,
        on=on,
        cohorts=cohorts,
        fish_count=_sum(tuple(cohort.fish_count for cohort in cohorts)),
        biomass_kg=_total_biomass(cohorts),
        flow=_total_flow([group.flows for _, group in here]),
        water=water,
        temperature=temperature,
        problems=problems,
    )


def _temperature_unknown(unit: Unit) -> Problem:
    return Problem(
        code="temperature-unknown",
        message=(
            f"Nothing is known of the water temperature in {unit.name}; "
            f"{FALLBACK_TEMP_C:g} °C is assumed. Enter readings, or the unit's "
            "temperature for each month."
        ),
    )


def _temperature_held(unit: Unit, temperature_deg_c: float, read_on: date) -> Problem:
    return Problem(
        code="temperature-held",
        message=(
            f"Growth and feed ahead take the water in {unit.name} as it was last read, "
            f"{temperature_deg_c:.3g} °C on {read_on}, for the whole year, give or "
            f"take {FALLBACK_SD_C:g} °C. Enter the unit's temperature for each month, "
            "or one figure for a spring that is about constant."
        ),
    )


def _cohort_state(fish: CohortGroups, group: Group, on: date) -> CohortInUnit:
    if group.count < -_NO_FISH:
        group.add_problem(
            MORE_OUT,
            f"The book has {-group.count:.0f} more fish going out than came in. "
            "An entry is missing or has the wrong cohort; count the fish.",
        )
    count = count_estimate(fish, group)
    mean_g = None if group.weight is None else group.weight.mean_weight_g()
    if fish.figures is None:
        group.add_problem(
            "no-growth-figures",
            f"There are no growth figures for {fish.cohort.species_key}: the mean "
            "weight stands still between samples.",
        )
    return CohortInUnit(
        cohort=fish.cohort,
        unit_id=group.unit_id,
        book_count=group.count,
        fish_count=count,
        count_from=_count_provenance(group),
        last_counted_on=group.counted_on,
        mean_weight_g=mean_g,
        weight_from=_weight_provenance(group, on),
        last_sampled_on=group.sampled_on,
        cv=group.cv,
        condition_factor=group.condition_factor,
        growth=_growth(fish, group, on),
        biomass_kg=None if mean_g is None else _biomass(count, mean_g),
        problems=tuple(group.problems.values()),
    )


def _growth(fish: CohortGroups, group: Group, on: date) -> GrowthFit | None:
    """Return what ``project_growth`` starts from, as of the last day."""
    weight, figures = group.weight, fish.figures
    if weight is None or figures is None:
        return None
    book = figures.growth.tgc_x1000
    return GrowthFit(
        species_key=figures.key,
        last_day=on,
        samples_used=weight.samples,
        tgc_x1000=weight.tgc_x1000,
        published_tgc_x1000=Estimate.normal(book.value, book.value * book.relative_sd),
        root_g=weight.root,
        root_sd_g=weight.root_sd,
        root_tgc_covariance=weight.cov,
        step_spread=STEP_SPREAD,
        mean_weight_g=weight.mean_weight_g(),
        residuals_sd=(),
        notes=(
            Message.of(
                "note-cohort-growth", name=fish.cohort.name, samples=weight.samples
            ),
            book.note(Message.of("note-published-tgc", tgc=book.value)),
        ),
    )


def _count_interval(count: float, known_var: float, unseen_var: float) -> Estimate:
    """Return a count; losses that nobody saw lower its low end alone.

    They are taken as half-normal, so the low end is that of the book less their
    mean, with both spreads.
    """
    z = z_score(DEFAULT_LEVEL)
    known_var = max(0.0, known_var)
    down = _HALF_NORMAL_MEAN * math.sqrt(unseen_var) + z * math.sqrt(
        known_var + _HALF_NORMAL_VAR * unseen_var
    )
    return Estimate(
        value=max(0.0, count),
        sd=math.sqrt(known_var + unseen_var),
        low=max(0.0, count - down),
        high=max(0.0, count + z * math.sqrt(known_var)),
    )


def _biomass(count: Estimate, mean_g: Estimate) -> Estimate:
    """Return count times mean weight in kg, the half-widths in quadrature."""
    value = count.value * mean_g.value
    down = math.hypot(
        (count.value - count.low) * mean_g.value,
        (mean_g.value - mean_g.low) * count.value,
    )
    up = math.hypot(
        (count.high - count.value) * mean_g.value,
        (mean_g.high - mean_g.value) * count.value,
    )
    return Estimate(
        value=value / 1000.0,
        sd=math.hypot(count.sd * mean_g.value, mean_g.sd * count.value) / 1000.0,
        low=max(0.0, value - down) / 1000.0,
        high=(value + up) / 1000.0,
    )


def _sum(parts: tuple[Estimate, ...]) -> Estimate:
    """Return the sum of independent figures, the half-widths in quadrature.

    Cohorts in one unit share no error that the book follows: only groups of one
    cohort in different units do.
    """
    value = sum(part.value for part in parts)
    return Estimate(
        value=value,
        sd=math.hypot(*(part.sd for part in parts)),
        low=value - math.hypot(*(part.value - part.low for part in parts)),
        high=value + math.hypot(*(part.high - part.value for part in parts)),
    )


def _total_biomass(cohorts: tuple[CohortInUnit, ...]) -> Estimate | None:
    parts = tuple(cohort.biomass_kg for cohort in cohorts)
    known = tuple(part for part in parts if part is not None)
    return _sum(known) if len(known) == len(parts) else None


def _total_flow(parts: list[Flows]) -> UnitFlow:
    return UnitFlow(
        added_kg=sum(part.added_kg for part in parts),
        taken_kg=sum(part.taken_kg for part in parts),
        dead_kg=sum(part.dead_kg for part in parts),
        fish_of_unknown_weight=sum(part.unknown_fish for part in parts),
    )


def _latest(readings: list[WaterReading]) -> dict[str, Latest]:
    newest: dict[str, Latest] = {}
    for reading in readings:  # in order, as the replay has them
        for name in WATER_QUANTITIES:
            value = getattr(reading, name)
            if value is not None:
                newest[name] = Latest(
                    value=value, on=reading.on, at=reading.at, entry_id=reading.id
                )
    return newest


def _count_provenance(group: Group) -> Provenance:
    if group.counted_on is None:
        words = "stocked less what died, was taken or moved; never counted since"
    else:
        words = f"counted on {group.counted_on}, and what was entered since"
    return Provenance(words=words, entry_ids=tuple(group.count_from))


def _weight_provenance(group: Group, on: date) -> Provenance:
    if group.weight is None:
        return Provenance(words="no weight has been entered")
    if group.sampled_on is None:
        words = "weight at stocking, grown by the species' coefficient"
    elif group.sampled_on == on:
        words = f"sample of {on}, together with those before it"
    else:
        words = f"samples up to {group.sampled_on}, grown since"
    return Provenance(words=words, entry_ids=tuple(group.weight.from_ids))
