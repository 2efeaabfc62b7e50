"""TOML as the program writes it: pairs, for people to read and to go on with."""

from datetime import date
from typing import Any


def pair(name: str, value: Any) -> str:
    """Return ``name = value``: a text, number, day, yes or no, or a list of them."""
    return f"{name} = {_written(value)}"


def _written(value: Any) -> str:
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(_written, value))}]"
    return value.isoformat() if isinstance(value, date) else f"{value:.10g}"


def quoted(text: str) -> str:
    """Return a text as a TOML basic string."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    plain = "".join(c if c.isprintable() else " " for c in escaped)
    return f'"{plain}"'
