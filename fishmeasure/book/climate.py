"""Degree-days of a unit, from its readings and its table of months."""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final
from uuid import UUID

from fishmeasure.book.entries import WaterReading
from fishmeasure.book.units import Unit
from fishmeasure.husbandry.temperature import (
    ConstantTemperature,
    MonthlyTemperature,
    RecordedTemperature,
    TemperatureForecast,
    cumulative_degree_days,
)
from fishmeasure.species import FarmedSpecies

if TYPE_CHECKING:
    from fishmeasure.base.arrays import FloatArray

# Where neither table nor reading says anything: common practice, no source.
FALLBACK_TEMP_C: Final = 10.0
FALLBACK_SD_C: Final = 3.0
# Readings further apart than this say less of the days between than the table of
# months does; common practice, no source.
MAX_GAP_DAYS: Final = 45
_FILL_DAYS: Final = 10


def unit_temperature(
    unit: Unit, readings: Iterable[WaterReading]
) -> TemperatureForecast:
    """Return the unit's temperature on any day.

    Several readings of a day are averaged. Beyond the readings stands the unit's
    table of months, or failing that the last reading.
    """
    by_day: dict[date, list[float]] = {}
    for reading in readings:
        if reading.temperature_deg_c is not None:
            by_day.setdefault(reading.on, []).append(reading.temperature_deg_c)
    daily = tuple((day, sum(t) / len(t)) for day, t in sorted(by_day.items()))
    beyond: TemperatureForecast
    if unit.monthly_temperature_deg_c:
        beyond = MonthlyTemperature(temperatures_deg_c=unit.monthly_temperature_deg_c)
        daily = _with_gaps_filled(daily, beyond)
    elif daily:
        beyond = ConstantTemperature(
            temperature_deg_c=daily[-1][1], sd_deg_c=FALLBACK_SD_C
        )
    else:
        return ConstantTemperature(
            temperature_deg_c=FALLBACK_TEMP_C, sd_deg_c=FALLBACK_SD_C
        )
    return RecordedTemperature(readings=daily, beyond=beyond)


def _with_gaps_filled(
    daily: tuple[tuple[date, float], ...], table: TemperatureForecast
) -> tuple[tuple[date, float], ...]:
    """Return the readings with the table's values put into long gaps."""
    filled: list[tuple[date, float]] = []
    for day, temperature_deg_c in daily:
        if filled and (day - filled[-1][0]).days > MAX_GAP_DAYS:
            inner = filled[-1][0] + timedelta(days=_FILL_DAYS)
            while (day - inner).days >= _FILL_DAYS:
                filled.append((inner, table.on(inner)))
                inner += timedelta(days=_FILL_DAYS)
        filled.append((day, temperature_deg_c))
    return tuple(filled)


class Climate:
    """Degree-days of every unit over a span of days, worked out once."""

    def __init__(
        self,
        forecasts: Mapping[UUID, TemperatureForecast],
        first: date,
        last: date,
    ) -> None:
        self.forecasts = forecasts
        self._first = first
        self._days = max(0, (last - first).days)
        self._sums: dict[tuple[UUID, str], FloatArray] = {}
        self._temperatures: dict[tuple[UUID, int], float] = {}

    def degree_days(
        self, unit_id: UUID, figures: FarmedSpecies, start: int, end: int
    ) -> float:
        """Return the growing degree-days between two days, as ordinals."""
        key = (unit_id, figures.key)
        sums = self._sums.get(key)
        if sums is None:
            sums = cumulative_degree_days(
                forecast=self.forecasts[unit_id],
                start=self._first,
                days=self._days,
                species=figures,
            )
            self._sums[key] = sums
        first = self._first.toordinal()
        return float(sums[end - first] - sums[start - first])

    def temperature_deg_c(self, unit_id: UUID, day: int) -> float:
        """Return a unit's temperature on a day, as an ordinal."""
        key = (unit_id, day)
        if key not in self._temperatures:
            found = self.forecasts[unit_id].on(date.fromordinal(day))
            self._temperatures[key] = found
        return self._temperatures[key]
