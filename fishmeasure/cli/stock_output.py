"""How the stocking commands show figures: a number with its interval, and why."""

import json
import sys
from typing import Any

from fishmeasure.flags import Problem
from fishmeasure.plain import plain


def write_json(record: Any) -> None:
    """Write a record to standard output as one JSON object."""
    sys.stdout.write(json.dumps(plain(record), indent=2, ensure_ascii=False) + "\n")


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
