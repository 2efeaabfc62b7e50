"""What is odd about an entry, and the likeliest slip, as sentences of the catalogue."""

from collections.abc import Mapping
from typing import Any, Final

from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.asking.expected import Check
from fishmeasure.book.asking.place import Place
from fishmeasure.book.asking.slips import Change

_UNIT_OF: Final[Mapping[str, str]] = {
    "fish_count": "fish",
    "mean_weight_g": "g",
    "weight_kg": "kg",
    "bulk_weight_kg": "kg",
    "feed_kg": "kg",
    "temperature_deg_c": "deg_c",
}


_UNIT_SLIPS: Final[Mapping[str, str]] = {
    "grams-for-kilograms": "grams",
    "kilograms-for-grams": "kilograms",
    "pounds-for-kilograms": "pounds",
    "kilograms-for-pounds": "pounds",
}
# Of each figure that is held against the book: code, which of its sentences, unit.
_SAID: Final[Mapping[str, tuple[str, str, str]]] = {
    "mean_weight_g": ("doubt-weight", "sample", "g"),
    "each_g": ("doubt-weight", "each", "g"),
    "size": ("doubt-weight", "size", "g"),
    "fish_count": ("doubt-count", "counted", "fish"),
    "fish_gone": ("doubt-count", "gone", "fish"),
    "dead": ("doubt-count", "dead", "fish"),
    "weight_kg": ("doubt-kilograms", "gone", "kg"),
    "bulk_weight_kg": ("doubt-kilograms", "stocked", "kg"),
    "density": ("doubt-density", "", "kg_per_m3"),
    "fcr": ("doubt-fcr", "", "ratio"),
    "condition_factor": ("doubt-condition", "", "ratio"),
    "temperature_deg_c": ("doubt-temperature", "", "deg_c"),
    "feed_kg": ("doubt-feed", "", "kg"),
}


def problem_of(check: Check, place: Place) -> Problem:
    """Return what is odd about a figure, with what is expected and its interval."""
    code, case, unit = _SAID[check.figure]
    told: dict[str, Any] = {
        f"entered_{unit}": check.value,
        f"expected_{unit}": check.expected,
    }
    last = place.weighed
    falls = last is not None and check.value < last.mean_g < check.middle
    if check.figure == "mean_weight_g" and last is not None and falls:
        case = "falling"
        told |= {"before_g": last.mean_g, "on": last.on}
    if code in {"doubt-count", "doubt-kilograms", "doubt-density"}:
        told["unit"] = place.unit.name
    if case:
        told["case"] = case
    return Problem.of(code, **told)


def slip_of(change: Change) -> Message:
    """Return the likeliest slip in words, with the figure that would be right."""
    case = _UNIT_SLIPS.get(change.name, "none")
    match change.name, _UNIT_OF.get(change.field):
        case "tare-forgotten", _:
            return Message.of("slip-tare")
        case "print-scale", _:
            return Message.of("slip-print-scale")
        case _, "fish":
            return Message.of("slip-fish", right_fish=change.right)
        case _, "g":
            return Message.of("slip-grams", case=case, right_g=change.right)
        case _, "kg":
            return Message.of("slip-kilograms", case=case, right_kg=change.right)
    case = "fahrenheit" if change.name == "fahrenheit" else "tenfold"
    return Message.of("slip-temperature", case=case, right_deg_c=change.right)


def slip_elsewhere(place: Place, *, other_day: bool) -> Message:
    """Return that the entry fits elsewhere, or on another day."""
    if other_day:
        return Message.of("slip-day", right_on=place.on)
    cohort = "" if place.fish is None else place.fish.cohort.name
    return Message.of("slip-place", unit=place.unit.name, cohort=cohort)
