"""Stocking until a date: when a limit is passed, what must go, what fits in."""

import math
from dataclasses import dataclass
from datetime import date, timedelta

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry import cautions
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.factors import FishGroup, LimitBasis, LimitName, factors_of
from fishmeasure.husbandry.projection import GrowthProjection
from fishmeasure.husbandry.propagation import product
from fishmeasure.husbandry.stocking import temperature_problems, unit_load, used_of
from fishmeasure.husbandry.temperature import TemperatureForecast
from fishmeasure.husbandry.unit import RearingUnit
from fishmeasure.species import water_of


@dataclass(frozen=True, slots=True, kw_only=True)
class StockedGroup:
    """A cohort with its projection."""

    fish_count: Estimate
    projection: GrowthProjection


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadDay:
    """The fullest limit on a day."""

    day: date
    biomass_kg: Estimate
    limiting: LimitName
    used_fraction: Estimate
    capacity_kg: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class StockingOutlook:
    """The unit until a date.

    Attributes
    ----------
    days
        Once a week and on the last day.
    first_day_over
        First of them on which a limit may be passed (upper end); None if none.
    fish_to_take_out
        Of all the fish, so that no limit may be passed by the last day; 0 if none.
    fingerlings, fingerlings_kg
        That may be added now, growing until the last day; 0 if none, and in water in
        which they or the fish there are not fed now, or have died later.
    """

    days: tuple[LoadDay, ...]
    first_day_over: date | None
    fish_to_take_out: int
    fingerlings: int
    fingerlings_kg: float
    problems: tuple[Problem, ...] = ()
    cautions: tuple[Message, ...] = cautions.STOCKING


@dataclass(frozen=True, slots=True, kw_only=True)
class StockingQuestion:
    """Until when, and which fingerlings are thought of.

    ``fingerlings`` is the projection of such fish from ``start``; None asks for no
    room.
    """

    start: date
    until: date
    temperature: TemperatureForecast
    fingerlings: GrowthProjection | None = None


def _week_days(start: date, until: date) -> tuple[date, ...]:
    days = [start + timedelta(weeks=week) for week in range((until - start).days // 7)]
    return (*days, until)


def stocking_outlook(
    *,
    unit: RearingUnit,
    groups: tuple[StockedGroup, ...],
    question: StockingQuestion,
    basis: LimitBasis | None = None,
) -> StockingOutlook:
    """Return until a date: the limits, the room, or how many fish must go and when.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
        Also if a day lies outside a projection.
    """
    require("days until the date", (question.until - question.start).days, "days", 0.0)
    fish = sum(group.fish_count.value for group in groups)
    days: list[LoadDay] = []
    fits: list[float] = []
    kinds = _kinds(groups, question)
    at_rest = temperature_problems(kinds, question.temperature.on(question.start))
    if at_rest:
        fits.append(0.0)
    for day in _week_days(question.start, question.until):
        temperature_deg_c = question.temperature.on(day)
        present = tuple(_on_day(group, day) for group in groups)
        load = unit_load(
            unit=unit,
            groups=present,
            temperature_deg_c=temperature_deg_c,
            basis=basis,
        )
        days.append(
            LoadDay(
                day=day,
                biomass_kg=load.biomass_kg,
                limiting=load.limiting.name,
                used_fraction=load.limiting.used_fraction,
                capacity_kg=load.limiting.capacity_kg,
            )
        )
        fits.append(_fingerlings_that_fit(unit, basis, question, present, day))
        if _is_deadly(kinds, temperature_deg_c):
            fits.append(0.0)
            at_rest = at_rest or temperature_problems(kinds, temperature_deg_c)
    highest = max(day.used_fraction.high for day in days)
    over = next((day.day for day in days if day.used_fraction.high > 1.0), None)
    room = max(0, math.floor(min(fits)))
    weight = question.fingerlings
    each_kg = weight.mean_weight_g(question.start).value / 1e3 if weight else 0.0
    return StockingOutlook(
        days=tuple(days),
        first_day_over=over,
        fish_to_take_out=math.ceil(fish * max(0.0, 1.0 - 1.0 / highest)),
        fingerlings=room,
        fingerlings_kg=room * each_kg,
        problems=at_rest,
    )


def _kinds(
    groups: tuple[StockedGroup, ...], question: StockingQuestion
) -> tuple[str, ...]:
    """Return the species there and the one thought of."""
    keys = {group.projection.species_key for group in groups}
    if question.fingerlings is not None:
        keys.add(question.fingerlings.species_key)
    return tuple(sorted(keys))


def _is_deadly(species: tuple[str, ...], temperature_deg_c: float) -> bool:
    return any(
        water_of(k).temperature_standing(temperature_deg_c) == "act" for k in species
    )


def _on_day(group: StockedGroup, day: date) -> FishGroup:
    mean = group.projection.mean_weight_g(day)
    return FishGroup(
        species_key=group.projection.species_key,
        biomass_kg=group.projection.biomass_kg(day, group.fish_count),
        mean_weight_g=mean.value,
    )


def _fingerlings_that_fit(
    unit: RearingUnit,
    basis: LimitBasis | None,
    question: StockingQuestion,
    present: tuple[FishGroup, ...],
    day: date,
) -> float:
    """Return how many more fish the tightest limit takes on a day, may be below 0."""
    if question.fingerlings is None:
        return 0.0
    mean = question.fingerlings.mean_weight_g(day)
    one = FishGroup(
        species_key=question.fingerlings.species_key,
        biomass_kg=product(mean, scale=1e-3),
        mean_weight_g=mean.value,
    )
    species = tuple(sorted({g.species_key for g in (*present, one)}))
    room = math.inf
    for factor in factors_of(
        unit, basis or LimitBasis(), species, question.temperature.on(day)
    ):
        used = used_of(factor, present).fraction
        each = used_of(factor, (one,)).fraction
        if used is not None and each is not None:
            room = min(room, (1.0 - used.high) / each.high)
    return room
