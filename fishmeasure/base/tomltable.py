"""One TOML table whose values are checked as they are taken."""

import datetime as dt
import difflib
import math
from collections.abc import Mapping
from typing import Any, NoReturn

from fishmeasure.base.errors import SampleFileError


def _shown(value: float) -> str:
    """Return a number as text; a whole one may be too large for a float."""
    return f"{value:g}" if abs(value) < 1e300 else "that number"


def _outside(value: float, low: float, high: float) -> str:
    """Return what is wrong with a number; of the range only what matters."""
    if value < low:
        return f"{_shown(value)} is below {low:.12g}"
    return f"{_shown(value)} is above {high:.12g}"


class TomlTable:
    """One TOML table whose values are checked as they are taken."""

    def __init__(
        self, name: str, values: Mapping[str, Any], keys: tuple[str, ...]
    ) -> None:
        self.name = name
        self.values = values
        for key in values:
            if key not in keys:
                close = difflib.get_close_matches(key, keys, n=1)
                hint = f"; is {close[0]} meant?" if close else ""
                self.fail(key, f"there is no such key{hint}")

    @classmethod
    def section(cls, top: "TomlTable", name: str, keys: tuple[str, ...]) -> "TomlTable":
        """Return a table within a table; empty where it is not there."""
        values = top.values.get(name, {})
        if not isinstance(values, dict):
            top.fail(name, f"it must be a table, [{name}]")
        return cls(f"[{name}]", values, keys)

    def fail(self, key: str, reason: str, hint: str = "") -> NoReturn:
        """Say where the file is wrong; raises ``SampleFileError``."""
        place = ", ".join(part for part in (self.name, key) if part)
        raise SampleFileError(place, reason, hint)

    def text(self, key: str) -> str | None:
        """Return text that is more than spaces."""
        value = self.values.get(key)
        if value is None:
            return None
        if not isinstance(value, str) or not value.strip():
            self.fail(key, "it must be text in quotes")
        return value.strip()

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of file names, none of them twice."""
        value = self.values.get(key, [])
        if not isinstance(value, list):
            self.fail(key, 'it must be a list, such as ["a1.jpg"]')
        if not all(isinstance(entry, str) and entry.strip() for entry in value):
            self.fail(key, "every entry must be a file name in quotes")
        if len(set(value)) < len(value):
            self.fail(key, "a photo is named twice")
        return tuple(value)

    def date(self, key: str) -> dt.date | None:
        """Return a day."""
        value = self.values.get(key)
        if isinstance(value, dt.datetime):
            return value.date()
        if value is not None and not isinstance(value, dt.date):
            self.fail(key, "it must be a date without quotes, such as 2026-05-02")
        return value

    def flag(self, key: str) -> bool | None:
        """Return true or false."""
        value = self.values.get(key)
        if value is not None and not isinstance(value, bool):
            self.fail(key, "it must be true or false")
        return value

    def whole(self, key: str, low: int, high: int) -> int | None:
        """Return a whole number from low to high."""
        value = self.values.get(key)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int):
            self.fail(key, "it must be a whole number")
        if not low <= value <= high:
            self.fail(key, _outside(value, low, high))
        return value

    def number(self, key: str, low: float, high: float, hint: str = "") -> float | None:
        """Return a number from low to high."""
        value = self.values.get(key)
        return None if value is None else self._checked(key, value, low, high, hint)

    def numbers(self, key: str, low: float, high: float) -> tuple[float, ...]:
        """Return a list of such numbers."""
        value = self.values.get(key, [])
        if not isinstance(value, list):
            self.fail(key, "it must be a list of numbers")
        return tuple(self._checked(key, entry, low, high, "") for entry in value)

    def _checked(
        self, key: str, value: object, low: float, high: float, hint: str
    ) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.fail(key, "it must be a number")
        if isinstance(value, float) and not math.isfinite(value):
            self.fail(key, f"{value} is no figure that can be used")
        if not low <= value <= high:
            self.fail(key, _outside(value, low, high), hint)
        return float(value)
