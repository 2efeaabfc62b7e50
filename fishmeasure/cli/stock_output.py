"""How the stocking commands show figures: a number with its interval, and why."""

import json
import math
import sys
from typing import Any

from fishmeasure.flags import Problem
from fishmeasure.plain import plain
from fishmeasure.uncertainty import Estimate


def write_json(record: Any) -> None:
    """Write a record to standard output as one JSON object."""
    sys.stdout.write(json.dumps(plain(record), indent=2, ensure_ascii=False) + "\n")


def span(estimate: Estimate, digits: int = 3) -> str:
    """Return "value (low to high)", all to the decimals that the value needs."""
    largest = max(abs(estimate.value), abs(estimate.high) / 10.0)
    places = _places(largest, digits)
    if estimate.low == estimate.high:
        return _fixed(estimate.value, places)
    low, high = _fixed(estimate.low, places), _fixed(estimate.high, places)
    return f"{_fixed(estimate.value, places)} ({low} to {high})"


def number(value: float, digits: int = 3) -> str:
    """Return a number to some significant digits, never as a power of ten."""
    return _fixed(value, _places(abs(value), digits))


def _places(size: float, digits: int) -> int:
    return digits - 1 - math.floor(math.log10(size)) if size > 0.0 else 0


def _fixed(value: float, places: int) -> str:
    return f"{round(value, places) + 0.0:.{max(places, 0)}f}"


def write_lines(
    lines: tuple[str, ...],
    *,
    problems: tuple[Problem, ...] = (),
    notes: tuple[str, ...] = (),
    cautions: tuple[str, ...] = (),
) -> None:
    """Write the answer first, then warnings, cautions and sources."""
    parts = ["\n".join(lines)]
    if problems:
        parts.append("\n".join(f"Warning: {p.message}" for p in problems))
    if cautions:
        parts.append("\n".join(cautions))
    if notes:
        parts.append("\n".join(f"- {note}" for note in dict.fromkeys(notes)))
    sys.stdout.write("\n\n".join(parts) + "\n")
