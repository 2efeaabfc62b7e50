"""Oxygen: what the fish use, and how that stands to what comes in."""

import math
from dataclasses import dataclass, replace
from typing import Literal

from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import outside, require, require_temperature
from fishmeasure.husbandry.oxygen_supply import (
    INFLOW_SATURATION,
    OxygenSupply,
    unit_supplies,
    unit_water,
)
from fishmeasure.husbandry.propagation import (
    difference,
    lognormal,
    product,
    relative_sd,
    scaled,
    total,
    z_score,
)
from fishmeasure.husbandry.saturation import oxygen_saturation_mg_per_l
from fishmeasure.husbandry.sources import at_hand, running
from fishmeasure.husbandry.unit import RearingUnit
from fishmeasure.species import FarmedSpecies, farmed_species
from fishmeasure.species.record import Respiration, Swimming

Feeding = Literal["fed", "fasted"]

# Outside its source's range the error of the demand is taken as half as large
# again; an allowance, no source.
OUTSIDE_WIDENING = 1.5


# --- demand -------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenDemand:
    """Oxygen used per kilogram of fish.

    ``notes`` say for the screen where the figure comes from; ``problems`` warn
    where it is used outside its source's range.
    """

    rate_mg_per_kg_h: Estimate
    feeding: Feeding
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()


def fasted_use_mg_per_kg_h(
    figures: FarmedSpecies, weight_g: float, temperature_deg_c: float
) -> float:
    """Return the oxygen that fasted fish use, in mg per kg and hour, as modelled."""
    return _respiration_mg_per_kg_h(
        figures.oxygen.respiration, weight_g, temperature_deg_c
    )


def _respiration_mg_per_kg_h(
    figures: Respiration, weight_g: float, temperature_deg_c: float
) -> float:
    if figures.form == "exponential":
        temperature_factor = math.exp(figures.temperature_q * temperature_deg_c)
    else:
        # The curve ends at its highest temperature; a degree below it the fish
        # are dying, so nothing is gained by following it down to nil.
        temperature_deg_c = min(
            temperature_deg_c, figures.highest_temperature_deg_c - 1.0
        )
        room = figures.highest_temperature_deg_c - figures.optimum_temperature_deg_c
        share = (figures.highest_temperature_deg_c - temperature_deg_c) / room
        log_q = math.log(figures.temperature_q)
        z, y = log_q * room, log_q * (room + 2.0)
        x = (z * (1.0 + math.sqrt(1.0 + 40.0 / y)) / 20.0) ** 2
        temperature_factor = math.pow(share, x) * math.exp(x * (1.0 - share))
    per_g_day = (
        figures.a_g_per_g_day
        * math.pow(weight_g, figures.weight_exponent)
        * temperature_factor
    )
    moving = _swimming_factor(figures.swimming, weight_g, temperature_deg_c)
    return per_g_day * figures.activity * moving * 1e6 / 24.0


def _swimming_factor(
    swimming: Swimming | None, weight_g: float, temperature_deg_c: float
) -> float:
    if swimming is None:
        return 1.0
    speed_cm_per_s = (
        swimming.a_cm_per_s
        * math.pow(weight_g, swimming.weight_exponent)
        * math.exp(
            swimming.temperature_q
            * min(temperature_deg_c, swimming.highest_temperature_deg_c)
        )
    )
    return math.exp(swimming.cost_s_per_cm * speed_cm_per_s)


def oxygen_demand(
    *,
    species_key: str,
    mean_weight_g: float,
    temperature_deg_c: float,
    feeding: Feeding = "fed",
    level: float = DEFAULT_LEVEL,
) -> OxygenDemand:
    """Return the oxygen that a kilogram of fish uses in an hour.

    Fasted: the species' respiration equation at the mean weight (the spread of
    weights changes it by less than 1 %). Fed, the default and the safe side: the
    hours after a meal, 1.47 times that (Andrews & Matsuda 1975, catfish).
    Against measured resting trout of 1-18 g the fasted figure is 1.0 to 2.6 times as
    high (median 1.75), on the safe side.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    figures = farmed_species(species_key).oxygen
    respiration = figures.respiration
    require("mean weight", mean_weight_g, "g", 0.01, 50_000.0)
    require_temperature(temperature_deg_c)
    problems = outside(
        "mean weight",
        mean_weight_g,
        "g",
        respiration.min_weight_g,
        respiration.max_weight_g,
    ) + outside(
        "water temperature",
        temperature_deg_c,
        "°C",
        respiration.min_temperature_deg_c,
        respiration.max_temperature_deg_c,
    )
    spread = respiration.relative_sd * (OUTSIDE_WIDENING if problems else 1.0)
    rate = lognormal(
        _respiration_mg_per_kg_h(respiration, mean_weight_g, temperature_deg_c),
        spread,
        level,
    )
    notes = [respiration.note(Message.of("note-oxygen-use"))]
    if feeding == "fed":
        factor = figures.fed_factor
        rate = product(rate, lognormal(factor.value, factor.relative_sd), level=level)
        notes.append(factor.note(Message.of("note-fed-factor", factor=factor.value)))
    return OxygenDemand(
        rate_mg_per_kg_h=rate,
        feeding=feeding,
        notes=tuple(notes),
        problems=problems,
    )


# --- balance ------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenBalance:
    """Supply against demand of a unit at a stated oxygen level.

    Attributes
    ----------
    do_mg_per_l
        The level it is drawn up at: the species' caution level unless given.
    supplies_g_per_h
        (name, figure) of each supply at that level.
    unsafe_balance_g_per_h
        Supply's low end less the demand at the highest biomass; act on this one.
    steady_do_mg_per_l
        Where the level settles; 0 where demand exceeds every supply.
    max_biomass_kg
        Fish that the supply can keep at ``do_mg_per_l``.
    """

    do_mg_per_l: float
    saturation_mg_per_l: float
    demand_g_per_h: Estimate
    supplies_g_per_h: tuple[tuple[str, Estimate], ...]
    supply_g_per_h: Estimate
    balance_g_per_h: Estimate
    unsafe_balance_g_per_h: float
    steady_do_mg_per_l: Estimate
    max_biomass_kg: Estimate
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()


def _steady_do(
    demand_g_per_h: Estimate, supply: Estimate, supplies: tuple[OxygenSupply, ...]
) -> Estimate:
    """Return where base / exchange - demand / exchange settles.

    A factor on all supplies changes the second term alone, so their relative error
    adds to that of the demand.
    """
    level = demand_g_per_h.level
    spread = math.hypot(relative_sd(demand_g_per_h), relative_sd(supply))
    use = lognormal(demand_g_per_h.value, spread, level)
    exchange = sum(s.exchange_m3_per_h for s in supplies)
    base = sum(s.base_g_per_h for s in supplies)
    low, value, high = (
        max(0.0, (base - used) / exchange) if exchange else 0.0
        for used in (use.high, use.value, use.low)
    )
    return Estimate(
        value=value,
        sd=(high - low) / (2.0 * z_score(level)),
        low=low,
        high=high,
        level=level,
    )


def oxygen_balance(
    *,
    unit: RearingUnit,
    species_key: str,
    biomass_kg: Estimate,
    mean_weight_g: float,
    temperature_deg_c: float,
    feeding: Feeding = "fed",
    do_mg_per_l: float | None = None,
    wind_m_per_s: float | None = None,
) -> OxygenBalance:
    """Return whether the unit's supply covers the fish.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    level = biomass_kg.level
    caution = farmed_species(species_key).water.do_watch_mg_per_l
    kept_do = caution.value if do_mg_per_l is None else do_mg_per_l
    require("oxygen level", kept_do, "mg/L", 0.0, 30.0)
    require("biomass", biomass_kg.value, "kg", 0.0)
    demand = oxygen_demand(
        species_key=species_key,
        mean_weight_g=mean_weight_g,
        temperature_deg_c=temperature_deg_c,
        feeding=feeding,
        level=level,
    )
    supplies = unit_supplies(unit, temperature_deg_c, wind_m_per_s)
    water_use = unit.water_respiration_mg_per_l_h * unit.volume_m3
    fish_use = product(biomass_kg, demand.rate_mg_per_kg_h, scale=1e-3, level=level)
    supplied = tuple((s.name, s.at_g_per_h(kept_do, level)) for s in supplies)
    supply = total(*(figure for _, figure in supplied), level=level)
    demand_g_per_h = replace(
        fish_use,
        value=fish_use.value + water_use,
        low=fish_use.low + water_use,
        high=fish_use.high + water_use,
    )
    drawn_up = Message.of(
        "note-drawn-up", kept_mg_per_l=kept_do, caution_mg_per_l=caution.value
    )
    return OxygenBalance(
        do_mg_per_l=kept_do,
        saturation_mg_per_l=oxygen_saturation_mg_per_l(
            unit_water(unit, temperature_deg_c)
        ),
        demand_g_per_h=demand_g_per_h,
        supplies_g_per_h=supplied,
        supply_g_per_h=supply,
        balance_g_per_h=difference(supply, demand_g_per_h, level),
        unsafe_balance_g_per_h=supply.low - demand_g_per_h.high,
        steady_do_mg_per_l=_steady_do(demand_g_per_h, supply, supplies),
        max_biomass_kg=_most_biomass_kg(supply, water_use, demand.rate_mg_per_kg_h),
        notes=(
            *demand.notes,
            caution.note(drawn_up),
            *supply_notes(unit, wind_m_per_s),
        ),
        problems=demand.problems,
    )


def _most_biomass_kg(
    supply_g_per_h: Estimate, water_use_g_per_h: float, rate_mg_per_kg_h: Estimate
) -> Estimate:
    """Return the fish that the supply carries beside the water's own use.

    The supply's error is that of all of it, also where the water uses a part.
    """
    for_fish = max(supply_g_per_h.value - water_use_g_per_h, 0.0)
    supply_spread = supply_g_per_h.sd / for_fish if for_fish else 0.0
    spread = math.hypot(relative_sd(rate_mg_per_kg_h), supply_spread)
    carried = lognormal(for_fish, spread, supply_g_per_h.level)
    return scaled(carried, 1e3 / rate_mg_per_kg_h.value)


def supply_notes(unit: RearingUnit, wind_m_per_s: float | None) -> tuple[Message, ...]:
    """Return what the screen says of the supplies' weaker figures."""
    notes = []
    sources = running(unit)
    if unit.surface_m2 > 0.0 and wind_m_per_s is None:
        notes.append(Message.of("note-still-surface"))
    if unit.inflow_l_per_min > 0.0 and unit.inflow_do_mg_per_l is None:
        notes.append(Message.of("note-inflow-saturation", share=INFLOW_SATURATION))
    if sources:
        notes.append(Message.of("note-alpha-beta"))
    if any(device.drive == "pump" for device in sources):
        notes.append(Message.of("note-recirculated"))
    devices = (*sources, *at_hand(unit))
    return (*notes, *dict.fromkeys(device.note for device in devices if device.note))
