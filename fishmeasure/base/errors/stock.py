"""A stocking calculation was asked outside its range."""

import math

from fishmeasure.base.errors.base import FishMeasureError
from fishmeasure.base.words import Message


def quantity(name: str) -> Message:
    """Return the name of a figure; the English one is what it is called in code."""
    return Message.of("quantity", key=name.replace(" ", "-"), name=name)


class StockError(FishMeasureError):
    """A stocking calculation was asked outside its range."""


class UnknownStockSpeciesError(StockError):
    """There are no stocking figures for the species."""

    code = "no-stock-figures"

    def __init__(self, species_key: str, known: tuple[str, ...]) -> None:
        super().__init__(species_key=species_key, known=known)


class StockRangeError(StockError):
    """A figure given is outside what the calculation can take."""

    code = "outside-range"

    def __init__(
        self, name: str, value: float, unit: str, low: float, high: float
    ) -> None:
        super().__init__(
            case="least" if math.isinf(high) else "range",
            name=quantity(name),
            value=value,
            unit=f" {unit}" if unit else "",
            low=low,
            high=None if math.isinf(high) else high,
        )


class NoSamplesError(StockError):
    """There is no weight to start from."""

    code = "no-samples"

    def __init__(self) -> None:
        super().__init__()


class WeeklyHarvestError(StockError):
    """A weekly harvest is not one of fish, kilograms or a size."""

    code = "weekly-harvest"

    def __init__(self) -> None:
        super().__init__()


class GainNotKnownError(StockError):
    """The gain is not significantly different from zero: no feed conversion."""

    code = "gain-not-known"

    def __init__(self, gain_kg: float, sd_kg: float) -> None:
        super().__init__(gain_kg=gain_kg, sd_kg=sd_kg)
