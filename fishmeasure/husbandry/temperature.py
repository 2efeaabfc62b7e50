"""Water temperature over the year: what growth and feed are forecast with."""

import math
from bisect import bisect_right
from dataclasses import dataclass
from datetime import date
from typing import Protocol

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.flags import Problem
from fishmeasure.species import FarmedSpecies, water_of

DAYS_PER_YEAR = 365.25


class TemperatureForecast(Protocol):
    """Water temperature on any day, and how far its mean may be off."""

    @property
    def sd_deg_c(self) -> float:
        """Standard deviation of a whole forecast's common error."""
        ...

    def on(self, day: date) -> float:
        """Return the day's mean water temperature in °C."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class ConstantTemperature:
    """The same on every day, as of a spring."""

    temperature_deg_c: float
    sd_deg_c: float = 0.5

    def on(self, day: date) -> float:  # noqa: ARG002
        """Return the temperature."""
        return self.temperature_deg_c


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthlyTemperature:
    """Twelve monthly means, January first."""

    temperatures_deg_c: tuple[float, ...]
    sd_deg_c: float = 1.0

    def __post_init__(self) -> None:
        if len(self.temperatures_deg_c) != 12:
            count = len(self.temperatures_deg_c)
            msg = f"twelve monthly temperatures are needed, got {count}"
            raise ValueError(msg)

    def on(self, day: date) -> float:
        """Return the month's mean."""
        return self.temperatures_deg_c[day.month - 1]


@dataclass(frozen=True, slots=True, kw_only=True)
class SinusoidTemperature:
    """A yearly wave; ``warmest_day_of_year`` 1 to 366."""

    mean_deg_c: float
    amplitude_deg_c: float
    warmest_day_of_year: int = 205
    sd_deg_c: float = 1.0

    def on(self, day: date) -> float:
        """Return the wave's value, never below 0 °C."""
        phase = (day.timetuple().tm_yday - self.warmest_day_of_year) / DAYS_PER_YEAR
        return max(
            0.0,
            self.mean_deg_c + self.amplitude_deg_c * math.cos(2.0 * math.pi * phase),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordedTemperature:
    """Readings, straight lines between them; elsewhere the forecast ``beyond``.

    ``readings`` are (day, °C) in the order of days.
    """

    readings: tuple[tuple[date, float], ...]
    beyond: TemperatureForecast

    @property
    def sd_deg_c(self) -> float:
        """Return the forecast's, since readings end where projections begin."""
        return self.beyond.sd_deg_c

    def on(self, day: date) -> float:
        """Return the interpolated reading or the forecast."""
        after = bisect_right(self.readings, day, key=lambda reading: reading[0])
        if after == 0:
            return self.beyond.on(day)
        before_day, before_deg_c = self.readings[after - 1]
        if before_day == day:
            return before_deg_c
        if after == len(self.readings):
            return self.beyond.on(day)
        after_day, after_deg_c = self.readings[after]
        share = (day - before_day).days / (after_day - before_day).days
        return before_deg_c + share * (after_deg_c - before_deg_c)


def growing_temperature_deg_c(
    temperature_deg_c: float, species: FarmedSpecies
) -> float:
    """Return the temperature that counts for growth.

    Nil outside the feeding band, held at the optimum within it (see
    ``species.record.GrowthFigures``).
    """
    if not species.water.feeds_at(temperature_deg_c):
        return 0.0
    return min(temperature_deg_c, species.growth.optimum_temperature_deg_c.value)


def cumulative_degree_days(
    *, forecast: TemperatureForecast, start: date, days: int, species: FarmedSpecies
) -> FloatArray:
    """Return (days + 1,) growing degree-days since the start, 0 first."""
    first = start.toordinal()
    daily = [
        growing_temperature_deg_c(
            forecast.on(date.fromordinal(first + offset)), species
        )
        for offset in range(days)
    ]
    return np.concatenate([[0.0], np.cumsum(daily)])


def feeding_problems(species_key: str, temperature_deg_c: float) -> tuple[Problem, ...]:
    """Return why fish are fed nothing at a temperature; none where they are."""
    bands = water_of(species_key)
    if bands.feeds_at(temperature_deg_c):
        return ()
    low, high = bands.feeding_low_deg_c.value, bands.feeding_high_deg_c.value
    warm = temperature_deg_c > high
    return (
        Problem.of(
            "too-warm-to-feed" if warm else "too-cold-to-feed",
            water_deg_c=temperature_deg_c,
            limit_deg_c=high if warm else low,
            deadly=bands.temperature_standing(temperature_deg_c) == "act",
        ),
    )
