"""Figures as English has them, for sentences that are not in the catalogue yet."""

import math
import shlex
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from fishmeasure.base.estimate import Estimate


def span(estimate: "Estimate", digits: int = 3) -> str:
    """Return "value (low to high)", all to the decimals that the value needs."""
    largest = max(abs(estimate.value), abs(estimate.high) / 10.0)
    places = _places(largest, digits)
    if estimate.low == estimate.high:
        return _fixed(estimate.value, places)
    low, high = _fixed(estimate.low, places), _fixed(estimate.high, places)
    return f"{_fixed(estimate.value, places)} ({low} to {high})"


def cautious(estimate: "Estimate", end: Literal["low", "high"], digits: int = 3) -> str:
    """Return "end (likely value)": the end to act on, then the middle."""
    places = _places(max(abs(estimate.value), abs(estimate.high) / 10.0), digits)
    value = _fixed(estimate.value, places)
    if estimate.low == estimate.high:
        return value
    return f"{_fixed(getattr(estimate, end), places)} (likely {value})"


def number(value: float, digits: int = 3) -> str:
    """Return a number to some significant digits, never as a power of ten."""
    return _fixed(value, _places(abs(value), digits))


def percent(share: float) -> str:
    """Return a share in per cent; past all use it is only said to be past it."""
    return "over 999 %" if share > 9.995 else f"{100.0 * share:.0f} %"


def share_used(share: "Estimate") -> str:
    """Return how much of a limit is used, the unsafe end first."""
    high, middle = percent(share.high), percent(share.value)
    most = high if high.startswith("over") else f"up to {high}"
    return most if high == middle else f"{most} (likely {middle})"


def shell_word(text: str) -> str:
    """Return a text as one word of a command line, in plain quotes if it can be."""
    if shlex.quote(text) == text:
        return text
    plain = not set(text) & set('"\\$`!') and text.isprintable()
    return f'"{text}"' if plain else shlex.quote(text)


def _places(size: float, digits: int) -> int:
    return digits - 1 - math.floor(math.log10(size)) if size > 0.0 else 0


def _fixed(value: float, places: int) -> str:
    return f"{round(value, places) + 0.0:.{max(places, 0)}f}"
