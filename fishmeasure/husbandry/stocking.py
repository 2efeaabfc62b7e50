"""Stocking: how near a unit is to each limit now, and the room left.

Every limit is drawn up as used over capacity, with the capacity at the water of
that day; 1 is full. Decisions go by the upper end.
"""

import math
from dataclasses import dataclass

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry import cautions
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.factors import (
    Factor,
    FishGroup,
    LimitBasis,
    LimitName,
    factors_of,
)
from fishmeasure.husbandry.propagation import (
    exact,
    lognormal,
    product,
    relative_sd,
    total,
)
from fishmeasure.husbandry.unit import RearingUnit
from fishmeasure.species import water_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One limit of a unit.

    Attributes
    ----------
    used_fraction
        1 is full.
    capacity_kg
        Fish of the present kind at the limit; none in water so warm or cold that such
        fish have died.
    """

    name: LimitName
    used_fraction: Estimate
    capacity_kg: Estimate
    note: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitLoad:
    """All limits of a unit, the fullest first (upper end).

    ``room_kg`` is not above 0 in water in which a species there is not fed.
    """

    biomass_kg: Estimate
    density_kg_per_m3: Estimate
    limits: tuple[Limit, ...]
    room_kg: float
    problems: tuple[Problem, ...] = ()
    cautions: tuple[Message, ...] = cautions.STOCKING

    @property
    def limiting(self) -> Limit:
        """Return the limit that is reached first."""
        return self.limits[0]


_FULL = 1e9  # used over a capacity of nothing, so that it sorts as the fullest


@dataclass(frozen=True, slots=True, kw_only=True)
class Used:
    """Used over capacity, and what is doubtful of the use.

    ``fraction`` is None where the fish use nothing of it, as of the feed in water too
    warm to feed.
    """

    fraction: Estimate | None
    problems: tuple[Problem, ...]


def used_of(factor: Factor, groups: tuple[FishGroup, ...]) -> Used:
    """Return used over capacity; the rates of all groups err together."""
    each = [factor.use_per_kg(group) for group in groups]
    uses = [
        product(group.biomass_kg, one.per_kg)
        for group, one in zip(groups, each, strict=True)
    ]
    use = sum(u.value for u in uses)
    fraction = None
    if use > 0.0 and factor.capacity.value <= 0.0:
        fraction = Estimate(value=_FULL, sd=0.0, low=_FULL, high=_FULL)
    elif use > 0.0:
        spread = math.hypot(sum(u.sd for u in uses) / use, relative_sd(factor.capacity))
        fraction = lognormal(use / factor.capacity.value, spread)
    return Used(
        fraction=fraction,
        problems=tuple(found for one in each for found in one.problems),
    )


def unit_load(
    *,
    unit: RearingUnit,
    groups: tuple[FishGroup, ...],
    temperature_deg_c: float,
    basis: LimitBasis | None = None,
) -> UnitLoad:
    """Return how full the unit is by each limit.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
        Also if there are no fish.
    """
    require("water volume", unit.volume_m3, "m³", 0.01)
    require("number of groups of fish", len(groups), "", 1.0)
    for group in groups:
        require("biomass", group.biomass_kg.value, "kg", 1e-6)
    species = tuple(sorted({group.species_key for group in groups}))
    standing = [
        water_of(key).temperature_standing(temperature_deg_c) for key in species
    ]
    biomass = total(*(group.biomass_kg for group in groups))
    found = []
    doubts: list[Problem] = []
    for factor in factors_of(unit, basis or LimitBasis(), species, temperature_deg_c):
        share = used_of(factor, groups)
        doubts += share.problems
        used = share.fraction
        if used is None:
            continue
        found.append(
            Limit(
                name=factor.name,
                used_fraction=used,
                capacity_kg=(
                    exact(0.0, used.level)
                    if "act" in standing
                    else _capacity_kg(biomass.value, used)
                ),
                note=factor.note,
            )
        )
    found.sort(key=lambda limit: limit.used_fraction.high, reverse=True)
    fullest = found[0].used_fraction.high
    room = biomass.value * (1.0 / fullest - 1.0)
    at_rest = temperature_problems(species, temperature_deg_c)
    return UnitLoad(
        biomass_kg=biomass,
        density_kg_per_m3=product(biomass, scale=1.0 / unit.volume_m3),
        limits=tuple(found),
        room_kg=min(room, 0.0) if at_rest else room,
        problems=tuple(dict.fromkeys((*at_rest, *_load_problems(found), *doubts))),
    )


def temperature_problems(
    species: tuple[str, ...], temperature_deg_c: float
) -> tuple[Problem, ...]:
    """Return why no fish may be added at a temperature; none where they may.

    The narrowest band of the species counts.
    """
    bands = [water_of(key) for key in species]
    if all(band.feeds_at(temperature_deg_c) for band in bands):
        return ()
    low = max(band.feeding_low_deg_c.value for band in bands)
    high = min(band.feeding_high_deg_c.value for band in bands)
    return (
        Problem.of(
            "no-stocking-temperature",
            water_deg_c=temperature_deg_c,
            low_deg_c=low,
            high_deg_c=high,
        ),
    )


def _capacity_kg(biomass_kg: float, used: Estimate) -> Estimate:
    if used.value >= _FULL:
        return exact(0.0, used.level)
    return Estimate(
        value=biomass_kg / used.value,
        sd=biomass_kg / used.value * relative_sd(used),
        low=biomass_kg / used.high,
        high=biomass_kg / used.low,
        level=used.level,
    )


def _load_problems(limits: list[Limit]) -> tuple[Problem, ...]:
    return tuple(
        Problem.of(
            "over-limit" if limit.used_fraction.value > 1.0 else "near-limit",
            limit=Message.of("limit-name", case=limit.name.replace(" ", "-")),
            used=limit.used_fraction.value,
            used_at_most=limit.used_fraction.high,
        )
        for limit in limits
        if limit.used_fraction.high > 1.0
    )
