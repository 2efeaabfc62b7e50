"""A unit of the book as the stocking calculations want it."""

from dataclasses import replace
from typing import Final

from fishmeasure.ledger.units import AerationDevice, Unit
from fishmeasure.stock.oxygen_supply import DO_STANDARD_MG_PER_L
from fishmeasure.stock.saturation import HPA_PER_ATM
from fishmeasure.stock.unit import Aerator, RearingUnit

# Water that a pump sends round comes back through filter, bed or spray bar with
# about this share of saturation; common practice, no source.
_RETURN_SATURATION: Final = 0.95
_ROUND: Final = "water sent round"


def rearing_unit(unit: Unit) -> RearingUnit:
    """Return a unit for the calculations.

    Water that a pump sends round counts as an aerator that brings its flow to
    95 % of saturation; it brings no new water, so it takes no ammonia away.
    """
    aerators = tuple(
        aerator(device) for device in unit.aeration if device.standard_transfer_g_per_h
    )
    if unit.recirculated_l_per_min > 0.0:
        flow_m3_per_h = unit.recirculated_l_per_min * 0.06
        aerators += (
            Aerator(
                name=_ROUND,
                sotr_kg_per_h=flow_m3_per_h * DO_STANDARD_MG_PER_L / 1000.0,
                alpha=1.0,
                beta=_RETURN_SATURATION,
                relative_sd=0.1,
            ),
        )
    return RearingUnit(
        volume_m3=unit.volume_m3,
        surface_m2=unit.volume_m3 / unit.depth_m,
        altitude_m=_altitude_m(unit),
        salinity_g_per_kg=unit.salinity_g_per_kg,
        inflow_l_per_min=unit.inflow_l_per_min,
        inflow_pumped=not unit.inflow_by_gravity,
        inflow_do_mg_per_l=unit.inflow_do_mg_per_l,
        aerators=aerators,
        plant_bed_m2=unit.plant_bed_area_m2,
        water_respiration_mg_per_l_h=unit.water_respiration_mg_per_l_h,
    )


def oxygen_is_entered(unit: Unit) -> bool:
    """Return whether anything is entered that brings oxygen."""
    return (
        unit.inflow_l_per_min > 0.0
        or unit.recirculated_l_per_min > 0.0
        or any(device.standard_transfer_g_per_h for device in unit.aeration)
    )


def aerator(device: AerationDevice) -> Aerator:
    """Return a device for the calculations."""
    return Aerator(
        name=device.name, sotr_kg_per_h=device.standard_transfer_g_per_h / 1000.0
    )


def without_pump(unit: RearingUnit) -> RearingUnit:
    """Return the unit without the water that its pump sends round."""
    kept = tuple(device for device in unit.aerators if device.name != _ROUND)
    return replace(unit, aerators=kept)


def backup_air(unit: Unit) -> Aerator | None:
    """Return all that goes on when the power stops, as one device."""
    devices = [device for device in unit.aeration if device.on_backup]
    if not devices:
        return None
    transfer_g = sum(device.standard_transfer_g_per_h for device in devices)
    return Aerator(
        name=" and ".join(device.name for device in devices),
        sotr_kg_per_h=transfer_g / 1000.0,
    )


def _altitude_m(unit: Unit) -> float:
    """Return the altitude whose standard pressure is that of the unit."""
    if unit.pressure_hpa is None:
        return unit.altitude_m
    share = unit.pressure_hpa / HPA_PER_ATM  # inverse of the ICAO atmosphere
    return float((1.0 - share ** (1.0 / 5.25588)) / 2.25577e-5)
