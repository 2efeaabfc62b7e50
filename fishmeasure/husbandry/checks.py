"""Range checks shared by the stocking calculations."""

import math

from fishmeasure.base.errors import StockRangeError, quantity
from fishmeasure.base.flags import Problem

HARD_TEMPERATURE_DEG_C = (0.0, 40.0)  # Benson & Krause 1984 hold from 0 to 40 C


def require(
    name: str, value: float, unit: str, low: float, high: float = math.inf
) -> None:
    """Refuse a value outside [low, high].

    Raises
    ------
    StockRangeError
        If it is outside or not a number.
    """
    if not low <= value <= high or math.isinf(value):
        raise StockRangeError(name, value, unit, low, high)


def require_temperature(temperature_deg_c: float) -> None:
    """Refuse a water temperature that no calculation here covers."""
    require("water temperature", temperature_deg_c, "°C", *HARD_TEMPERATURE_DEG_C)


def outside(
    name: str, value: float, unit: str, low: float, high: float
) -> tuple[Problem, ...]:
    """Return a warning where a value is outside the range of a source."""
    if low <= value <= high:
        return ()
    return (
        Problem.of(
            "outside-source-range",
            name=quantity(name),
            value=value,
            low=low,
            high=high,
            unit=unit,
        ),
    )
