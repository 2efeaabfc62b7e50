"""How a unit's water is kept clean, which decides what limits its fish."""

from typing import Final

from fishmeasure.book.units import Unit, WaterSystem

_WORDS: Final[dict[WaterSystem, str]] = {
    "flow-through": "new water that flows through",
    "pond": "a pond",
    "closed-loop": "a closed loop with a biofilter",
    "bed-loop": "a closed loop with a plant bed",
}


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


def system_note(unit: Unit) -> str:
    """Return what the water system was taken to be, for the screen."""
    words = _WORDS[water_system(unit)]
    if unit.water_system is not None:
        return f"Water of {unit.name}: {words}, as entered."
    return (
        f"Water of {unit.name} is taken as {words}, from inflow, recirculation and bed "
        "as entered; water_system states it."
    )
