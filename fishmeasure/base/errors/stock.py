"""A stocking calculation was asked outside its range."""

import math

from fishmeasure.base.errors.base import FishMeasureError


class StockError(FishMeasureError):
    """A stocking calculation was asked outside its range."""


class UnknownStockSpeciesError(StockError):
    """There are no stocking figures for the species."""

    code = "no-stock-figures"

    def __init__(self, species_key: str, known: tuple[str, ...]) -> None:
        super().__init__(
            f"There are no growth, feed and oxygen figures for {species_key!r}.",
            f"Use one of: {', '.join(known)}.",
        )


class StockRangeError(StockError):
    """A figure given is outside what the calculation can take."""

    code = "outside-range"

    def __init__(
        self, name: str, value: float, unit: str, low: float, high: float
    ) -> None:
        suffix = f" {unit}" if unit else ""
        if math.isinf(high):
            allowed = f"a value of at least {low:g}{suffix}"
        else:
            allowed = f"a value from {low:g} to {high:g}{suffix}"
        super().__init__(
            f"The {name} cannot be {value:g}{suffix}.",
            f"Give {allowed}.",
        )


class NoSamplesError(StockError):
    """There is no weight to start from."""

    code = "no-samples"

    def __init__(self) -> None:
        super().__init__(
            "There is no weight sample to start from.",
            "Enter the weight at stocking or take a net sample.",
        )


class WeeklyHarvestError(StockError):
    """A weekly harvest is not one of fish, kilograms or a size."""

    code = "weekly-harvest"

    def __init__(self) -> None:
        super().__init__(
            "A weekly harvest takes so many fish, so many kilograms or all at a size.",
            "Give one of the three.",
        )


class GainNotKnownError(StockError):
    """The gain is not significantly different from zero: no feed conversion."""

    code = "gain-not-known"

    def __init__(self, gain_kg: float, sd_kg: float) -> None:
        super().__init__(
            f"The gain of {gain_kg:.1f} kg (standard error {sd_kg:.1f} kg) is not "
            "significantly different from zero, so no feed conversion can be given.",
            "Wait for more growth, or weigh more nets at both ends of the period.",
        )
