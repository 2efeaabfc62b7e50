"""What can stop in a unit: only what the unit has."""

from dataclasses import dataclass

from fishmeasure.base.words import Message
from fishmeasure.husbandry.outage_fall import OutageCause
from fishmeasure.husbandry.sources import running
from fishmeasure.husbandry.unit import RearingUnit


@dataclass(frozen=True, slots=True, kw_only=True)
class Failure:
    """One thing that may stop; ``device`` names it where one stops alone."""

    cause: OutageCause
    device: str = ""


def failures_of(unit: RearingUnit) -> tuple[Failure, ...]:
    """Return all that can stop in this unit.

    A spring that runs by itself into a unit without aerators has nothing that a power
    cut stops, but its intake may be blocked all the same.
    """
    sources = running(unit)
    drives = {source.drive for source in sources}
    air = [device.name for device in sources if device.drive == "air"]
    inflow = unit.inflow_l_per_min > 0.0
    pumped = inflow and not unit.inflow_by_gravity
    found = []
    if sources or pumped:
        found.append(Failure(cause="power"))
    if pumped or "pump" in drives:
        found.append(Failure(cause="pump"))
    if inflow:
        found.append(Failure(cause="intake"))
    if air:
        found.append(Failure(cause="blower"))
    if len(set(air)) > 1:
        found += [Failure(cause="device", device=name) for name in dict.fromkeys(air)]
    if "oxygen" in drives:
        found.append(Failure(cause="oxygen"))
    return tuple(found)


def failure_name(unit: RearingUnit, cause: OutageCause, device: str = "") -> Message:
    """Return what has stopped, in words."""
    air = [found.name for found in running(unit) if found.drive == "air"]
    if cause == "blower" and len(air) == 1:
        return Message.of("stop", case="one-blower", device=air[0])
    return Message.of("stop", case=cause, device=device)
