"""What brings a unit its oxygen beside inflow and surface, as it is calculated with."""

from dataclasses import dataclass
from typing import Final, Literal

from fishmeasure.base.words import Message
from fishmeasure.husbandry.transfer import (
    DO_STANDARD_MG_PER_L,
    StandardTransfer,
    gas_transfer,
    paddlewheel_transfer,
)
from fishmeasure.husbandry.unit import Aerator, RearingUnit

Drive = Literal["air", "pump", "oxygen"]

THETA: Final = 1.024  # transfer per °C; SWAT+ page, Chin 2006 has 1.025
# Recirculated water comes back through filter, bed or spray bar with
# about this share of saturation; common practice, no source.
_RETURN_SATURATION: Final = 0.95
_SHEET_RELATIVE_SD: Final = 0.25  # of a data sheet's rate: an allowance, no source
# A battery gives half to nine tenths of what is printed on it: deep discharge ruins
# lead, age and cold take their part. A cylinder is left with a tenth for its
# regulator. Both common practice, no source.
_BATTERY_SHARE: Final = (0.5, 0.9)
_CYLINDER_SHARE: Final = 0.9
_ROUND: Final = "recirculated water"


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenSource:
    """An aerator, or recirculated water, by what it brings.

    Attributes
    ----------
    theta
        Factor of the transfer for each °C; 1 for a flow of water, which temperature
        does not change.
    relative_sd
        Error of all of it together.
    drive
        What it stops with: "air" is moved by a blower or motor of its own, "pump" is
        recirculated water, "oxygen" is fed with pure oxygen.
    runtime_h, runtime_least_h
        Hours that it goes on without mains at most and at least; None where nobody
        knows.
    note
        Where its rate comes from, for the screen; empty for a data sheet's.
    """

    name: str
    standard_transfer_g_per_h: float
    alpha: float = 0.8
    beta: float = 0.95
    theta: float = THETA
    relative_sd: float = _SHEET_RELATIVE_SD
    drive: Drive = "air"
    on_backup: bool = False
    runtime_h: float | None = None
    runtime_least_h: float | None = None
    note: Message | None = None


def running(unit: RearingUnit) -> tuple[OxygenSource, ...]:
    """Return what runs every day.

    Recirculated water counts as an aerator that brings its flow to
    95 % of saturation; it brings no new water, so it takes no ammonia away.
    """
    found = tuple(source_of(device) for device in _working(unit) if not device.standby)
    if unit.recirculated_l_per_min == 0.0:
        return found
    flow_m3_per_h = unit.recirculated_l_per_min * 0.06
    sent_round = OxygenSource(
        name=_ROUND,
        standard_transfer_g_per_h=flow_m3_per_h * DO_STANDARD_MG_PER_L,
        alpha=1.0,
        beta=_RETURN_SATURATION,
        theta=1.0,
        relative_sd=0.1,
        drive="pump",
    )
    return (*found, sent_round)


def at_hand(unit: RearingUnit) -> tuple[OxygenSource, ...]:
    """Return what runs only when something has stopped."""
    return tuple(source_of(device) for device in _working(unit) if device.standby)


def oxygen_is_entered(unit: RearingUnit) -> bool:
    """Return whether anything is entered that brings oxygen."""
    return unit.inflow_l_per_min > 0.0 or bool(running(unit))


def _working(unit: RearingUnit) -> list[Aerator]:
    """Return the devices of which it is known what they bring."""
    return [device for device in unit.aeration if transfer_of(device).g_per_h > 0.0]


def transfer_of(device: Aerator) -> StandardTransfer:
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


def source_of(device: Aerator) -> OxygenSource:
    """Return what a device brings."""
    transfer = transfer_of(device)
    least, most = backup_runtime_h(device) or (None, None)
    return OxygenSource(
        name=device.name,
        standard_transfer_g_per_h=transfer.g_per_h,
        alpha=device.alpha,
        beta=device.beta,
        relative_sd=transfer.relative_sd,
        drive="oxygen" if device.kind == "oxygen" else "air",
        on_backup=device.on_backup,
        runtime_h=most,
        runtime_least_h=least,
        note=transfer.note,
    )


def backup_runtime_h(device: Aerator) -> tuple[float, float] | None:
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
