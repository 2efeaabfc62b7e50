"""What a replay has come to: counts, weights and biomass with their intervals."""

import math
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Final
from uuid import UUID

import numpy as np

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.climate import FALLBACK_SD_C, FALLBACK_TEMP_C
from fishmeasure.book.entries import (
    WATER_QUANTITIES,
    Counted,
    Entry,
    FishEntry,
    Graded,
    Sample,
    WaterReading,
)
from fishmeasure.book.posterior.answers import (
    TOLD_DAYS,
    fed_periods,
    figure,
    growth_fit,
    spread,
)
from fishmeasure.book.posterior.fish import Flows, Group
from fishmeasure.book.posterior.priors import ODD_SD
from fishmeasure.book.posterior.solve import Posterior
from fishmeasure.book.state import (
    CohortInUnit,
    CohortTotal,
    CountDifference,
    Latest,
    Provenance,
    UnitFlow,
    UnitState,
)
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.husbandry.temperature import TemperatureForecast

# Fewer fish than this are none: rounding, or what a move left behind on paper.
_NO_FISH: Final = 0.5
_BEYOND_SD: Final = 1e4  # of figures that both are without error
Present = tuple[Posterior, Group]


def cohort_total(cohort: Cohort, known: Posterior | None) -> CohortTotal:
    """Return a cohort over all units."""
    if known is None:
        none = Estimate.normal(0.0, 0.0)
        return CohortTotal(
            cohort=cohort, stocked=0, died=0, taken=0, adjusted=0, fish_count=none
        )
    fish = known.drawn
    counts = sum((group.count for group in fish.groups.values()), np.zeros(1))
    stocked, died, taken = (
        float(flow[0]) for flow in (fish.stocked, fish.died, fish.taken)
    )
    return CohortTotal(
        cohort=cohort,
        stocked=stocked,
        died=died,
        taken=taken,
        adjusted=float(counts[0]) - (stocked - died - taken),
        fish_count=figure(counts, known.scores),
    )


def count_differences(
    past: tuple[Entry, ...], found: Mapping[UUID, Posterior]
) -> tuple[CountDifference, ...]:
    """Return what each count found against what all other entries say."""
    differences = []
    for entry in past:
        if not isinstance(entry, Counted | Graded):
            continue
        surprise = found[entry.cohort_id].surprises.get(("count", entry.id))
        if surprise is None:
            continue
        counted = _counted(entry)
        differences.append(
            CountDifference(
                entry_id=entry.id,
                cohort_id=entry.cohort_id,
                unit_id=entry.unit_id,
                on=entry.on,
                counted=counted,
                expected=surprise.expected,
                difference=counted - surprise.expected.value,
                in_sd=_told(surprise.in_sd),
            )
        )
    return tuple(differences)


def _counted(entry: Counted | Graded) -> float:
    if isinstance(entry, Counted):
        return float(entry.fish_count)
    return float(sum(part.fish_count for part in entry.groups))


def _told(in_sd: float) -> float:
    if abs(in_sd) < 1.0 / _BEYOND_SD:
        return 0.0
    return math.copysign(math.inf, in_sd) if abs(in_sd) > _BEYOND_SD else in_sd


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
        _cohort_state(known, group, on)
        for known, group in here
        if _is_present(group) or group.problems
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
    return Problem.of(
        "temperature-unknown",
        case="assumed",
        unit=unit.name,
        temperature_deg_c=FALLBACK_TEMP_C,
    )


def _temperature_held(unit: Unit, temperature_deg_c: float, read_on: date) -> Problem:
    return Problem.of(
        "temperature-held",
        unit=unit.name,
        temperature_deg_c=temperature_deg_c,
        on=read_on,
        sd_deg_c=FALLBACK_SD_C,
    )


def _is_present(group: Group) -> bool:
    return abs(float(group.count[0])) >= _NO_FISH


def _cohort_state(known: Posterior, group: Group, on: date) -> CohortInUnit:
    fish = known.drawn
    cohort = fish.history.cohort
    _say_doubts(known, group)
    weight_g = group.weight_g
    kg = None if weight_g is None else np.maximum(group.count, 0.0) * weight_g / 1000.0
    flows, scores = group.flows, known.scores
    return CohortInUnit(
        cohort=cohort,
        unit_id=group.unit_id,
        book_count=group.book,
        fish_count=figure(group.count, scores),
        count_from=_count_provenance(group),
        last_counted_on=group.counted_on,
        mean_weight_g=None if weight_g is None else figure(weight_g, scores),
        weight_from=_weight_provenance(group, on),
        last_sampled_on=group.sampled_on,
        cv=spread(group, scores),
        condition_factor=group.condition_factor,
        growth=growth_fit(fish, group, scores),
        biomass_kg=None if kg is None else figure(kg, scores),
        gain_kg=None if weight_g is None else figure(flows.grown_kg, scores),
        net_gain_kg=None
        if weight_g is None
        else figure(flows.grown_kg - flows.dead_kg, scores),
        problems=tuple(group.problems.values()),
        fed=fed_periods(fish, group, scores),
    )


def _say_doubts(known: Posterior, group: Group) -> None:
    """Say where the last count or sample lies far from all else."""
    history = known.drawn.history
    count = float(group.count[0])
    if count < -_NO_FISH:
        group.add_problem(Problem.of("more-out-than-in", more=-count))
    last = _last_of(history.entries, group.unit_id, "counted", "graded")
    found = None if last is None else known.surprises.get(("count", last.id))
    if isinstance(last, Counted | Graded) and found and abs(found.in_sd) > ODD_SD:
        said = found.expected
        group.add_problem(
            Problem.of(
                "count-differs",
                case="book",
                on=last.on,
                counted=_counted(last),
                expected=replace(said, low=max(0.0, said.low)),
            )
        )
    last = _last_of(history.entries, group.unit_id, "sample")
    found = None if last is None else known.surprises.get(("sample", last.id))
    if isinstance(last, Sample) and found and abs(found.in_sd) > ODD_SD:
        group.add_problem(
            Problem.of(
                "sample-off-track",
                on=last.on,
                mean_g=last.mean_weight_g,
                expected_g=found.expected.value**3,
            )
        )
    _say_far_feed(known, group)
    if history.figures is None:
        group.add_problem(
            Problem.of("no-growth-figures", species=history.cohort.species_key)
        )


def _say_far_feed(known: Posterior, group: Group) -> None:
    """Say which feed of late was left out; the newest, the rest comes after it."""
    first = known.drawn.history.on.toordinal() - TOLD_DAYS
    far = [
        item
        for item in known.far_feed.items()
        if item[0].unit_id == group.unit_id and item[0].end > first
    ]
    if not far:
        return
    period, surprise = max(far, key=lambda item: item[0].end)
    said = surprise.expected
    group.add_problem(
        Problem.of(
            "feed-off-track",
            since_on=date.fromordinal(period.start),
            until_on=date.fromordinal(period.end - 1),
            most_on=date.fromordinal(period.most_on),
            feed_kg=period.feed_kg,
            expected_kg=replace(said, low=max(0.0, said.low)),
        )
    )


def _last_of(
    entries: tuple[FishEntry, ...], unit_id: UUID, *kinds: str
) -> FishEntry | None:
    found = (e for e in reversed(entries) if e.unit_id == unit_id and e.kind in kinds)
    return next(found, None)


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
        added_kg=sum(float(part.added_kg[0]) for part in parts),
        taken_kg=sum(float(part.taken_kg[0]) for part in parts),
        dead_kg=sum(float(part.dead_kg[0]) for part in parts),
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
        words = Message.of("count-from", case="stocked")
    else:
        words = Message.of("count-from", case="counted", on=group.counted_on)
    return Provenance(words=words, entry_ids=tuple(group.count_from))


def _weight_provenance(group: Group, on: date) -> Provenance:
    if group.root is None:
        return Provenance(words=Message.of("weight-from", case="none"))
    if group.sampled_on is None:
        words = Message.of("weight-from", case="stocked")
    elif group.sampled_on == on:
        words = Message.of("weight-from", case="sampled", on=on)
    else:
        words = Message.of("weight-from", case="grown", on=group.sampled_on)
    return Provenance(words=words, entry_ids=tuple(group.weight_from))
