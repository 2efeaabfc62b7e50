"""A unit of the book as the stocking calculations want it."""

from typing import Final

from fishmeasure.book.units import AerationDevice, Unit
from fishmeasure.husbandry.oxygen_supply import DO_STANDARD_MG_PER_L
from fishmeasure.husbandry.saturation import HPA_PER_ATM
from fishmeasure.husbandry.transfer import (
    StandardTransfer,
    gas_transfer,
    paddlewheel_transfer,
)
from fishmeasure.husbandry.unit import Aerator, RearingUnit

# Recirculated water comes back through filter, bed or spray bar with
# about this share of saturation; common practice, no source.
_RETURN_SATURATION: Final = 0.95
_SHEET_RELATIVE_SD: Final = 0.25  # as `Aerator`: an allowance, no source
# A battery gives half to nine tenths of what is printed on it: deep discharge ruins
# lead, age and cold take their part. A cylinder is left with a tenth for its
# regulator. Both common practice, no source.
_BATTERY_SHARE: Final = (0.5, 0.9)
_CYLINDER_SHARE: Final = 0.9
_ROUND: Final = "recirculated water"


def rearing_unit(unit: Unit) -> RearingUnit:
    """Return a unit for the calculations.

    Recirculated water counts as an aerator that brings its flow to
    95 % of saturation; it brings no new water, so it takes no ammonia away.
    """
    aerators = tuple(aerator(device) for device in _working(unit) if not device.standby)
    if unit.recirculated_l_per_min > 0.0:
        flow_m3_per_h = unit.recirculated_l_per_min * 0.06
        aerators += (
            Aerator(
                name=_ROUND,
                sotr_kg_per_h=flow_m3_per_h * DO_STANDARD_MG_PER_L / 1000.0,
                alpha=1.0,
                beta=_RETURN_SATURATION,
                theta=1.0,  # a flow is the same in cold water
                relative_sd=0.1,
                drive="pump",
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
        standby=tuple(aerator(device) for device in _working(unit) if device.standby),
        plant_bed_m2=unit.plant_bed_area_m2,
        water_respiration_mg_per_l_h=unit.water_respiration_mg_per_l_h,
    )


def oxygen_is_entered(unit: Unit) -> bool:
    """Return whether anything is entered that brings oxygen."""
    return (
        unit.inflow_l_per_min > 0.0
        or unit.recirculated_l_per_min > 0.0
        or any(not device.standby for device in _working(unit))
    )


def _working(unit: Unit) -> list[AerationDevice]:
    """Return the devices of which it is known what they bring."""
    return [device for device in unit.aeration if transfer_of(device).g_per_h > 0.0]


def transfer_of(device: AerationDevice) -> StandardTransfer:
    """Return a device's standard transfer: its data sheet's, else by rule."""
    if device.standard_transfer_g_per_h > 0.0:
        return StandardTransfer(
            g_per_h=device.standard_transfer_g_per_h, relative_sd=_SHEET_RELATIVE_SD
        )
    if device.kind == "paddlewheel":
        return paddlewheel_transfer(power_w=device.power_w)
    return gas_transfer(
        l_per_min=device.gas_l_per_min,
        depth_m=device.diffuser_depth_m,
        bubbles=device.bubbles,
        pure_oxygen=device.kind == "oxygen",
    )


def aerator(device: AerationDevice) -> Aerator:
    """Return a device for the calculations."""
    transfer = transfer_of(device)
    least, most = backup_runtime_h(device) or (None, None)
    return Aerator(
        name=device.name,
        sotr_kg_per_h=transfer.g_per_h / 1000.0,
        relative_sd=transfer.relative_sd,
        drive="oxygen" if device.kind == "oxygen" else "air",
        on_backup=device.on_backup,
        runtime_h=most,
        runtime_least_h=least,
        note=transfer.note,
    )


def backup_runtime_h(device: AerationDevice) -> tuple[float, float] | None:
    """Return the least and most hours on battery or cylinder; None: nobody knows.

    Where several are entered the shortest counts. Hours that were entered are taken
    as they stand.
    """
    found: list[tuple[float, float]] = []
    if device.backup_hours is not None:
        found.append((device.backup_hours, device.backup_hours))
    if device.capacity_wh is not None:
        hours = device.capacity_wh / device.power_w
        found.append((_BATTERY_SHARE[0] * hours, _BATTERY_SHARE[1] * hours))
    if device.cylinder_l is not None:
        hours = device.cylinder_l / device.gas_l_per_min / 60.0
        found.append((_CYLINDER_SHARE * hours, hours))
    return min(found) if found else None


def _altitude_m(unit: Unit) -> float:
    """Return the altitude whose standard pressure is that of the unit."""
    if unit.pressure_hpa is None:
        return unit.altitude_m
    share = unit.pressure_hpa / HPA_PER_ATM  # inverse of the ICAO atmosphere
    return float((1.0 - share ** (1.0 / 5.25588)) / 2.25577e-5)
