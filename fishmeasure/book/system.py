"""How a unit's water is kept clean, which decides what limits its fish."""

from fishmeasure.base.words import Message
from fishmeasure.book.units import Unit, WaterSystem


def water_system(unit: Unit) -> WaterSystem:
    """Return the unit's water system, as stated or else by its flows.

    Recirculated water makes a loop, one with a bed where there is a bed.
    A tank through which nothing flows is taken as a loop too: it keeps its ammonia.
    """
    if unit.water_system is not None:
        return unit.water_system
    if unit.recirculated_l_per_min > 0.0:
        return "bed-loop" if unit.plant_bed_area_m2 > 0.0 else "closed-loop"
    if unit.kind == "pond":
        return "pond"
    if unit.inflow_l_per_min > 0.0 or unit.kind == "cage":
        return "flow-through"
    return "closed-loop"


def loops(unit: Unit) -> bool:
    """Return whether the unit's water comes back through a filter or a bed."""
    return water_system(unit) in {"closed-loop", "bed-loop"}


def system_note(unit: Unit) -> Message:
    """Return what the water system was taken to be, for the screen."""
    system = Message.of("water-system", case=water_system(unit))
    stated = unit.water_system is not None
    return Message.of(
        "note-water-system",
        case="stated" if stated else "taken",
        unit=unit.name,
        system=system,
    )
