"""Oxygen that comes into a unit: inflow, surface, aerators.

Every supply is linear in the oxygen of the water, supply = a - b DO, so the level
at which supply and demand meet (``oxygen``), and the fall after an outage
(``outage_fall``), have closed forms.
"""

import math
from dataclasses import dataclass

from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.propagation import lognormal, relative_sd
from fishmeasure.husbandry.saturation import Water, oxygen_saturation_mg_per_l
from fishmeasure.husbandry.sources import THETA, OxygenSource, running
from fishmeasure.husbandry.transfer import DO_STANDARD_MG_PER_L, OXYGEN_IN_AIR
from fishmeasure.husbandry.unit import RearingUnit

INFLOW_SATURATION = 0.95  # of water of unknown oxygen; common practice, no source


STILL_SURFACE_M_PER_DAY = (0.0, 0.6)  # Gelda 1996 without wind; Chin 2006 at least


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
    return flow_supply(unit.inflow_l_per_min, unit.inflow_do_mg_per_l, water)


def flow_supply(
    l_per_min: float, inflow_do: float | None, water: Water
) -> OxygenSupply:
    """Return what a flow of new water brings; None takes it near saturation."""
    require("inflow", l_per_min, "L/min", 0.0)
    flow_m3_per_h = l_per_min * 60.0 / 1000.0
    if inflow_do is None:
        inflow_do = INFLOW_SATURATION * oxygen_saturation_mg_per_l(water)
    return OxygenSupply(
        name="inflow",
        base_g_per_h=flow_m3_per_h * inflow_do,
        exchange_m3_per_h=flow_m3_per_h,
        relative_sd=0.05,
    )


def aerator_supply(source: OxygenSource, water: Water) -> OxygenSupply:
    """Return what a device brings in the field.

    OTR = SOTR alpha theta^(T - 20) (beta C* - DO) / C*20 (ASCE 2), C* for the
    place's pressure and salinity, C*20 = 9.09 mg/L; both are those of pure oxygen,
    by Henry's law, where the device is fed with it.
    """
    standard = source.standard_transfer_g_per_h
    require("standard oxygen transfer rate", standard, "g/h", 0.0)
    richer = 1.0 / OXYGEN_IN_AIR if source.drive == "oxygen" else 1.0
    exchange = (
        standard
        * source.alpha
        * math.pow(source.theta, water.temperature_deg_c - 20.0)
        / (DO_STANDARD_MG_PER_L * richer)
    )
    saturation = richer * oxygen_saturation_mg_per_l(water)
    return OxygenSupply(
        name=source.name,
        base_g_per_h=exchange * source.beta * saturation,
        exchange_m3_per_h=exchange,
        relative_sd=source.relative_sd,
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
    exchange = (
        transfer.value
        * THETA ** (water.temperature_deg_c - 20.0)
        * unit.surface_m2
        / 24.0
    )
    return OxygenSupply(
        name="surface",
        base_g_per_h=exchange * oxygen_saturation_mg_per_l(water),
        exchange_m3_per_h=exchange,
        relative_sd=relative_sd(transfer),
    )


def unit_water(unit: RearingUnit, temperature_deg_c: float) -> Water:
    """Return the unit's water at a temperature."""
    return Water(
        temperature_deg_c=temperature_deg_c,
        salinity_g_per_kg=unit.salinity_g_per_kg,
        altitude_m=unit.altitude_m,
        pressure_hpa=unit.pressure_hpa,
    )


def unit_supplies(
    unit: RearingUnit, temperature_deg_c: float, wind_m_per_s: float | None = None
) -> tuple[OxygenSupply, ...]:
    """Return all supplies of a unit: inflow, surface and each aerator."""
    water = unit_water(unit, temperature_deg_c)
    return (
        inflow_supply(unit, water),
        surface_supply(unit, water, wind_m_per_s),
        *(aerator_supply(source, water) for source in running(unit)),
    )
