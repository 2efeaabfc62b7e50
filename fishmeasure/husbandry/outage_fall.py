"""A case of an outage, and how its oxygen falls.

V dDO/dt = base - exchange x DO - use, with constant use, has the closed form that
is evaluated here for 1024 fixed draws of the uncertain figures (``propagation``).
Fish use less oxygen when there is little of it; that is left out, because it
comes with stress, so the times are on the safe side. Warming, and fish that crowd
at an inlet, are left out too.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.special import ndtr

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate
from fishmeasure.husbandry.oxygen import Feeding, OxygenDemand
from fishmeasure.husbandry.oxygen_supply import (
    OxygenSupply,
    aerator_supply,
    inflow_supply,
    surface_supply,
    surface_transfer_m_per_day,
    unit_water,
)
from fishmeasure.husbandry.propagation import lognormal_draws, normal_scores
from fishmeasure.husbandry.sources import OxygenSource, at_hand, running
from fishmeasure.husbandry.unit import RearingUnit

OutageCause = Literal["power", "pump", "blower", "intake", "device", "oxygen"]


HORIZON_MIN = 24.0 * 60.0


_NO_EXCHANGE = 1e-9  # m3/h; keeps the closed form usable in still, sealed water


@dataclass(frozen=True, slots=True, kw_only=True)
class OutageCase:
    """What stops, and in what state the unit is then.

    Attributes
    ----------
    start_do_mg_per_l
        With the meter's error (0.2-0.3 mg/L is common practice, no source).
    cause
        "power" stops the aerators and a pumped inflow; "pump" a pumped inflow and
        recirculated water; "blower" all that is moved by air; "intake" the inflow
        (intake or screen blocked, supply cut), pumped or not; "device" the one of
        that name; "oxygen" what is fed with pure oxygen.
    device
        Name of the device, with the cause "device".
    caution_mg_per_l, critical_mg_per_l
        None takes the species' figures.
    oxygen_use
        Factor on the oxygen use as modelled, with the error of both, from readings
        (``measured_use``); None takes the model.
    """

    unit: RearingUnit
    species_key: str
    biomass_kg: Estimate
    mean_weight_g: float
    temperature_deg_c: float
    start_do_mg_per_l: Estimate
    cause: OutageCause = "power"
    device: str = ""
    feeding: Feeding = "fed"
    wind_m_per_s: float | None = None
    caution_mg_per_l: float | None = None
    critical_mg_per_l: float | None = None
    oxygen_use: Estimate | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fall:
    """The draws that determine the fall; index 0 holds the central figures."""

    volume_m3: float
    start_do: FloatArray
    base_g_per_h: FloatArray
    exchange_m3_per_h: FloatArray
    use_g_per_h: FloatArray

    def settled(self) -> FloatArray:
        """Return the level that would be reached in the end; may be below 0."""
        level: FloatArray = (
            self.base_g_per_h - self.use_g_per_h
        ) / self.exchange_m3_per_h
        return level

    def minutes_to(self, level_mg_per_l: float) -> FloatArray:
        """Return minutes to a level, ``HORIZON_MIN`` where not reached by then."""
        settled = self.settled()
        falls = (settled < level_mg_per_l) & (self.start_do > level_mg_per_l)
        gap = np.where(falls, level_mg_per_l - settled, 1.0)
        drop = np.where(falls, self.start_do - level_mg_per_l, 0.0)
        hours = self.volume_m3 / self.exchange_m3_per_h * np.log1p(drop / gap)
        minutes = np.where(
            self.start_do <= level_mg_per_l,
            0.0,
            np.where(falls, 60.0 * hours, HORIZON_MIN),
        )
        capped: FloatArray = np.minimum(minutes, HORIZON_MIN)
        return capped

    def do_at(self, minutes: float | FloatArray) -> FloatArray:
        """Return the oxygen after some minutes, not below 0."""
        turnover = self.exchange_m3_per_h * minutes / 60.0 / self.volume_m3
        change = (self.start_do - self.settled()) * np.expm1(-turnover)
        level: FloatArray = np.maximum(self.start_do + change, 0.0)
        return level


def _stops(case: OutageCase, aerator: OxygenSource) -> bool:
    return {
        "power": True,
        "pump": aerator.drive == "pump",
        "blower": aerator.drive == "air",
        "intake": False,
        "device": aerator.name == case.device,
        "oxygen": aerator.drive == "oxygen",
    }[case.cause]


def remaining_supplies(case: OutageCase) -> tuple[OxygenSupply, ...]:
    """Return the supplies that go on during the outage, without the surface.

    What a battery or a cylinder would keep going is not among them: it may fail to
    start, so it is a measure (``backup_devices``).
    """
    unit = case.unit
    water = unit_water(unit, case.temperature_deg_c)
    inflow_stops = case.cause == "intake" or (
        case.cause in {"power", "pump"} and not unit.inflow_by_gravity
    )
    supplies: tuple[OxygenSupply, ...] = ()
    if not inflow_stops:
        supplies += (inflow_supply(unit, water),)
    return supplies + tuple(
        aerator_supply(a, water) for a in running(unit) if not _stops(case, a)
    )


def backup_devices(case: OutageCase) -> tuple[OxygenSource, ...]:
    """Return what takes over: those at hand, and without power those with a battery.

    A battery does not help a device that has itself failed.
    """
    if case.cause != "power":
        return at_hand(case.unit)
    kept = tuple(device for device in running(case.unit) if device.on_backup)
    return kept + at_hand(case.unit)


def with_centre(draws: FloatArray, centre: float) -> FloatArray:
    """Return draws with the central figure before them."""
    return np.concatenate([[centre], draws])


def fall_of(
    case: OutageCase, demand: OxygenDemand, supplies: tuple[OxygenSupply, ...]
) -> Fall:
    """Return the fall with this demand and the supplies that go on."""
    unit, scores = case.unit, normal_scores(5)
    rate = demand.rate_mg_per_kg_h
    biomass = with_centre(
        lognormal_draws(case.biomass_kg, scores[:, 0]), case.biomass_kg.value
    )
    rates = with_centre(lognormal_draws(rate, scores[:, 1]), rate.value)
    start = case.start_do_mg_per_l
    surface = surface_supply(
        unit, unit_water(unit, case.temperature_deg_c), case.wind_m_per_s
    )
    transfer = surface_transfer_m_per_day(case.wind_m_per_s)
    if case.wind_m_per_s is None:  # the whole span between the sources is as likely
        factor = 2.0 * ndtr(scores[:, 3])
    else:
        factor = lognormal_draws(transfer, scores[:, 3]) / max(transfer.value, 1e-9)
    surface_factor = with_centre(factor, 1.0)
    supply_factors = [
        with_centre(
            lognormal_draws(
                Estimate(value=1.0, sd=s.relative_sd, low=0.0, high=0.0), scores[:, 4]
            ),
            1.0,
        )
        for s in supplies
    ]
    base = surface_factor * surface.base_g_per_h
    exchange = surface_factor * surface.exchange_m3_per_h
    for supply, factors in zip(supplies, supply_factors, strict=True):
        base = base + factors * supply.base_g_per_h
        exchange = exchange + factors * supply.exchange_m3_per_h
    return Fall(
        volume_m3=unit.volume_m3,
        start_do=with_centre(
            np.maximum(start.value + start.sd * scores[:, 2], 0.0), start.value
        ),
        base_g_per_h=base,
        exchange_m3_per_h=np.maximum(exchange, _NO_EXCHANGE),
        use_g_per_h=biomass * rates / 1000.0
        + unit.water_respiration_mg_per_l_h * unit.volume_m3,
    )
