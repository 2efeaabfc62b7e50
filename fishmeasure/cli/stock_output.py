"""How the stocking commands show figures: a number with its interval, and why."""

import dataclasses
import json
import sys
from datetime import date
from typing import Any

import numpy as np

from fishmeasure.flags import Problem
from fishmeasure.uncertainty import Estimate


def plain(value: Any) -> Any:
    """Return a record as what JSON knows: objects, lists, numbers, words."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = dataclasses.fields(value)
        return {field.name: plain(getattr(value, field.name)) for field in fields}
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, np.ndarray):
        return value.tolist()
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    return value


def write_json(record: Any) -> None:
    """Write a record to standard output as one JSON object."""
    sys.stdout.write(json.dumps(plain(record), indent=2, ensure_ascii=False) + "\n")


def span(estimate: Estimate, digits: int = 3) -> str:
    """Return "value (low to high)" to a number of significant digits."""
    if estimate.sd == 0.0 and estimate.low == estimate.high:
        return number(estimate.value, digits)
    low, high = number(estimate.low, digits), number(estimate.high, digits)
    return f"{number(estimate.value, digits)} ({low} to {high})"


def number(value: float, digits: int = 3) -> str:
    """Return a number to some significant digits, never as a power of ten."""
    if value == 0.0:
        return "0"
    places = digits - 1 - int(np.floor(np.log10(abs(value))))
    return f"{round(value, places):.{max(places, 0)}f}"


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
