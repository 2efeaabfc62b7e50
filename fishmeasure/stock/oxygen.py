"""Oxygen: how much water holds, what the fish use, what comes in.

Every supply is linear in the oxygen of the water, supply = a - b DO, so the level
at which supply and demand meet, and the fall after an outage (``outage``), have
closed forms.
"""

import math
from dataclasses import dataclass
from typing import Literal

from fishmeasure.flags import Problem
from fishmeasure.stock.checks import outside, require, require_temp
from fishmeasure.stock.figures import Respiration, load_stock_figures
from fishmeasure.stock.propagation import (
    difference,
    lognormal,
    product,
    relative_sd,
    scaled,
    total,
    z_score,
)
from fishmeasure.stock.unit import Aerator, RearingUnit
from fishmeasure.uncertainty import DEFAULT_LEVEL, Estimate

Feeding = Literal["fed", "fasted"]

HPA_PER_ATM = 1013.25
THETA = 1.024  # transfer per °C; SWAT+ page, Chin 2006 has 1.025
DO_STANDARD_MG_PER_L = 9.09  # at 20 °C, EN 25814 table
INFLOW_SATURATION = 0.95  # of water of unknown oxygen; common practice, no source
STILL_SURFACE_M_PER_DAY = (0.0, 0.6)  # Gelda 1996 without wind; Chin 2006 at least
# Outside its source's range the error of the demand is taken as half as large
# again; an allowance, no source.
OUTSIDE_WIDENING = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """The water that oxygen dissolves in.

    ``pressure_hpa`` is that of the place, not reduced to sea level; None takes the
    standard atmosphere at ``altitude_m``.
    """

    temp_c: float
    salinity_g_per_kg: float = 0.0
    altitude_m: float = 0.0
    pressure_hpa: float | None = None

    def pressure_atm(self) -> float:
        """Return the pressure in atmospheres."""
        if self.pressure_hpa is not None:
            return self.pressure_hpa / HPA_PER_ATM
        return standard_pressure_atm(self.altitude_m)


def standard_pressure_atm(altitude_m: float) -> float:
    """Return the ICAO standard atmosphere's pressure, up to 11 km.

    Raises
    ------
    StockRangeError
        Outside -500 to 5000 m.
    """
    require("altitude", altitude_m, "m", -500.0, 5000.0)
    return math.pow(1.0 - 2.25577e-5 * altitude_m, 5.25588)


def oxygen_saturation_mg_per_l(water: Water) -> float:
    """Return the oxygen that water holds in balance with moist air, mg/L.

    Benson & Krause 1984, Limnol Oceanogr 29:620-632, for 0-40 °C, 0-40 g/kg and
    0.5-1.1 atm; vapour pressure as in APHA Standard Methods 4500-O. Agrees with
    EN 25814 to its printed digits (tests/core/test_stock_oxygen.py).

    Raises
    ------
    StockRangeError
        Outside those ranges.
    """
    require_temp(water.temp_c)
    require("salinity", water.salinity_g_per_kg, "g/kg", 0.0, 40.0)
    pressure = water.pressure_atm()
    require("air pressure", pressure * HPA_PER_ATM, "hPa", 506.0, 1115.0)
    kelvin = water.temp_c + 273.15
    log_fresh = (
        -139.34411
        + 1.575701e5 / kelvin
        - 6.642308e7 / kelvin**2
        + 1.243800e10 / kelvin**3
        - 8.621949e11 / kelvin**4
    )
    log_salt = water.salinity_g_per_kg * (
        0.017674 - 10.754 / kelvin + 2140.7 / kelvin**2
    )
    vapour = math.exp(11.8571 - 3840.70 / kelvin - 216961.0 / kelvin**2)
    theta = 0.000975 - 1.426e-5 * water.temp_c + 6.436e-8 * water.temp_c**2
    at_pressure = (
        pressure
        * (1.0 - vapour / pressure)
        * (1.0 - theta * pressure)
        / ((1.0 - vapour) * (1.0 - theta))
    )
    return math.exp(log_fresh - log_salt) * at_pressure


# --- demand -------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenDemand:
    """Oxygen used per kilogram of fish.

    ``notes`` say for the screen where the figure comes from; ``problems`` warn
    where it is used outside its source's range.
    """

    rate_mg_per_kg_h: Estimate
    feeding: Feeding
    notes: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()


def _respiration_mg_per_kg_h(
    figures: Respiration, weight_g: float, temp_c: float
) -> float:
    if figures.form == "exponential":
        temperature_factor = math.exp(figures.temperature_q * temp_c)
    else:
        # The curve ends at its highest temperature; a degree below it the fish
        # are dying, so nothing is gained by following it down to nil.
        temp_c = min(temp_c, figures.highest_temp_c - 1.0)
        room = figures.highest_temp_c - figures.optimum_temp_c
        share = (figures.highest_temp_c - temp_c) / room
        log_q = math.log(figures.temperature_q)
        z, y = log_q * room, log_q * (room + 2.0)
        x = (z * (1.0 + math.sqrt(1.0 + 40.0 / y)) / 20.0) ** 2
        temperature_factor = math.pow(share, x) * math.exp(x * (1.0 - share))
    per_g_day = (
        figures.a_g_per_g_day
        * math.pow(weight_g, figures.weight_exponent)
        * temperature_factor
    )
    return per_g_day * figures.activity * 1e6 / 24.0


def oxygen_demand(
    *,
    species_key: str,
    mean_weight_g: float,
    temp_c: float,
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
    figures = load_stock_figures(species_key).oxygen
    respiration = figures.respiration
    require("mean weight", mean_weight_g, "g", 0.01, 50_000.0)
    require_temp(temp_c)
    problems = outside(
        "mean weight",
        mean_weight_g,
        "g",
        respiration.min_weight_g,
        respiration.max_weight_g,
    ) + outside(
        "water temperature",
        temp_c,
        "°C",
        respiration.min_temp_c,
        respiration.max_temp_c,
    )
    spread = respiration.relative_sd * (OUTSIDE_WIDENING if problems else 1.0)
    rate = lognormal(
        _respiration_mg_per_kg_h(respiration, mean_weight_g, temp_c), spread, level
    )
    stands_in = respiration.status == "stand-in"
    whose = "is another species' figure" if stands_in else "of fasted fish"
    notes = [f"Oxygen use {whose}: {respiration.source}."]
    if feeding == "fed":
        factor = figures.fed_factor
        rate = product(rate, lognormal(factor.value, factor.relative_sd), level=level)
        notes.append(factor.note(f"The factor {factor.value:g} after a meal"))
    return OxygenDemand(
        rate_mg_per_kg_h=rate,
        feeding=feeding,
        notes=tuple(notes),
        problems=problems,
    )


# --- supply -------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenSupply:
    """One supply: base - DO times exchange, in g/h.

    ``base_g_per_h`` is what comes in at no oxygen in the unit; ``exchange_m3_per_h``
    the volume that is brought to the supply's own level in an hour.
    """

    name: str
    base_g_per_h: float
    exchange_m3_per_h: float
    relative_sd: float

    def at_g_per_h(self, do_mg_per_l: float, level: float = DEFAULT_LEVEL) -> Estimate:
        """Return the supply at an oxygen level; below 0 it takes oxygen away."""
        value = self.base_g_per_h - self.exchange_m3_per_h * do_mg_per_l
        return Estimate.normal(value, abs(value) * self.relative_sd, level)


def inflow_supply(unit: RearingUnit, water: Water) -> OxygenSupply:
    """Return what the inflow brings; its flow is taken as known to 5 %."""
    require("inflow", unit.inflow_l_per_min, "L/min", 0.0)
    flow_m3_per_h = unit.inflow_l_per_min * 60.0 / 1000.0
    inflow_do = unit.inflow_do_mg_per_l
    if inflow_do is None:
        inflow_do = INFLOW_SATURATION * oxygen_saturation_mg_per_l(water)
    return OxygenSupply(
        name="inflow",
        base_g_per_h=flow_m3_per_h * inflow_do,
        exchange_m3_per_h=flow_m3_per_h,
        relative_sd=0.05,
    )


def aerator_supply(aerator: Aerator, water: Water) -> OxygenSupply:
    """Return what a device brings in the field.

    OTR = SOTR alpha theta^(T - 20) (beta C* - DO) / C*20 (ASCE 2), C* for the
    place's pressure and salinity, C*20 = 9.09 mg/L.
    """
    require("standard oxygen transfer rate", aerator.sotr_kg_per_h, "kg/h", 0.0)
    exchange = (
        aerator.sotr_kg_per_h
        * 1000.0
        * aerator.alpha
        * math.pow(aerator.theta, water.temp_c - 20.0)
        / DO_STANDARD_MG_PER_L
    )
    return OxygenSupply(
        name=aerator.name,
        base_g_per_h=exchange * aerator.beta * oxygen_saturation_mg_per_l(water),
        exchange_m3_per_h=exchange,
        relative_sd=aerator.relative_sd,
    )


def surface_transfer_m_per_day(wind_m_per_s: float | None) -> Estimate:
    """Return the oxygen transfer coefficient of the open surface at 20 °C.

    With a wind: 0.2 U up to 3.5 m/s, 0.057 U^2 above (Gelda et al. 1996, J Environ
    Eng 122:269-275, abstract), taken as good to 30 %. Without one the sources
    disagree, 0 (Gelda) or at least 0.6 m/d (Chin 2006); the whole span is kept.
    """
    if wind_m_per_s is None:
        low, high = STILL_SURFACE_M_PER_DAY
        return Estimate(
            value=(low + high) / 2.0, sd=(high - low) / 3.29, low=low, high=high
        )
    require("wind", wind_m_per_s, "m/s", 0.0, 40.0)
    if wind_m_per_s <= 3.5:
        return lognormal(0.2 * wind_m_per_s, 0.3)
    return lognormal(0.057 * wind_m_per_s**2, 0.3)


def surface_supply(
    unit: RearingUnit, water: Water, wind_m_per_s: float | None = None
) -> OxygenSupply:
    """Return what the open surface brings."""
    require("surface", unit.surface_m2, "m²", 0.0)
    transfer = surface_transfer_m_per_day(wind_m_per_s)
    exchange = transfer.value * THETA ** (water.temp_c - 20.0) * unit.surface_m2 / 24.0
    return OxygenSupply(
        name="surface",
        base_g_per_h=exchange * oxygen_saturation_mg_per_l(water),
        exchange_m3_per_h=exchange,
        relative_sd=relative_sd(transfer),
    )


def unit_water(unit: RearingUnit, temp_c: float) -> Water:
    """Return the unit's water at a temperature."""
    return Water(
        temp_c=temp_c,
        salinity_g_per_kg=unit.salinity_g_per_kg,
        altitude_m=unit.altitude_m,
    )


def unit_supplies(
    unit: RearingUnit, temp_c: float, wind_m_per_s: float | None = None
) -> tuple[OxygenSupply, ...]:
    """Return all supplies of a unit: inflow, surface and each aerator."""
    water = unit_water(unit, temp_c)
    return (
        inflow_supply(unit, water),
        surface_supply(unit, water, wind_m_per_s),
        *(aerator_supply(aerator, water) for aerator in unit.aerators),
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
    notes: tuple[str, ...] = ()
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
    temp_c: float,
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
    caution = load_stock_figures(species_key).oxygen.caution_mg_per_l
    kept_do = caution.value if do_mg_per_l is None else do_mg_per_l
    require("oxygen level", kept_do, "mg/L", 0.0, 30.0)
    require("biomass", biomass_kg.value, "kg", 0.0)
    demand = oxygen_demand(
        species_key=species_key,
        mean_weight_g=mean_weight_g,
        temp_c=temp_c,
        feeding=feeding,
        level=level,
    )
    supplies = unit_supplies(unit, temp_c, wind_m_per_s)
    water_use = unit.water_respiration_mg_per_l_h * unit.volume_m3
    fish_use = product(biomass_kg, demand.rate_mg_per_kg_h, scale=1e-3, level=level)
    supplied = tuple((s.name, s.at_g_per_h(kept_do, level)) for s in supplies)
    supply = total(*(figure for _, figure in supplied), level=level)
    demand_g_per_h = Estimate(
        value=fish_use.value + water_use,
        sd=fish_use.sd,
        low=fish_use.low + water_use,
        high=fish_use.high + water_use,
        level=level,
    )
    for_fish = max(supply.value - water_use, 0.0)
    # The supply's error is that of all of it, also where the water uses a part.
    supply_spread = supply.sd / for_fish if for_fish else 0.0
    room_spread = math.hypot(relative_sd(demand.rate_mg_per_kg_h), supply_spread)
    return OxygenBalance(
        do_mg_per_l=kept_do,
        saturation_mg_per_l=oxygen_saturation_mg_per_l(unit_water(unit, temp_c)),
        demand_g_per_h=demand_g_per_h,
        supplies_g_per_h=supplied,
        supply_g_per_h=supply,
        balance_g_per_h=difference(supply, demand_g_per_h, level),
        unsafe_balance_g_per_h=supply.low - demand_g_per_h.high,
        steady_do_mg_per_l=_steady_do(demand_g_per_h, supply, supplies),
        max_biomass_kg=scaled(
            lognormal(for_fish, room_spread, level),
            1e3 / demand.rate_mg_per_kg_h.value,
        ),
        notes=(
            *demand.notes,
            caution.note(f"Drawn up at {kept_do:g} mg/L; caution {caution.value:g}"),
            *supply_notes(unit, wind_m_per_s),
        ),
        problems=demand.problems,
    )


def supply_notes(unit: RearingUnit, wind_m_per_s: float | None) -> tuple[str, ...]:
    """Return what the screen says of the supplies' weaker figures."""
    notes = []
    if unit.surface_m2 > 0.0 and wind_m_per_s is None:
        notes.append(
            "Surface of still water: sources disagree, 0 to 0.6 m/d; all is kept."
        )
    if unit.inflow_l_per_min > 0.0 and unit.inflow_do_mg_per_l is None:
        notes.append(
            f"Inflow without a reading is taken as {INFLOW_SATURATION:.0%} saturated, "
            "common practice without a source."
        )
    if unit.aerators:
        notes.append(
            "Aerators in fish water: alpha 0.8 and beta 0.95 unless set are common "
            "practice without a source."
        )
    return tuple(notes)
