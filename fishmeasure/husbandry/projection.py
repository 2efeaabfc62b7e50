"""The mean weight ahead of the last sample, day by day."""

from dataclasses import dataclass
from datetime import date

import numpy as np

from fishmeasure.base.arrays import FloatArray, frozen
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import outside, require
from fishmeasure.husbandry.growth import (
    GrowthFit,
    cubed,
    drift_per_step,
    noise_per_step,
)
from fishmeasure.husbandry.temperature import (
    TemperatureForecast,
    cumulative_degree_days,
    growing_temperature_deg_c,
)
from fishmeasure.species import FarmedSpecies, farmed_species

MAX_DAYS = 1500


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GrowthProjection:
    """The mean weight on every day from the last sample.

    ``root_g`` and ``root_sd_g`` are (days + 1,): cube root of the mean weight and
    its sd.
    """

    species_key: str
    start: date
    root_g: FloatArray
    root_sd_g: FloatArray
    level: float
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def days(self) -> int:
        """Return how many days it reaches ahead."""
        return len(self.root_g) - 1

    def root_on(self, day: date) -> tuple[float, float]:
        """Return the cube root of the mean weight on a day, and its sd.

        Raises
        ------
        StockRangeError
            If the day is before the start or beyond the end.
        """
        offset = (day - self.start).days
        require("date", offset, "days after the start", 0.0, float(self.days))
        return float(self.root_g[offset]), float(self.root_sd_g[offset])

    def mean_weight_g(self, day: date) -> Estimate:
        """Return the mean weight on a day; raises as ``root_on``."""
        return cubed(*self.root_on(day), self.level)


def project_growth(
    *, fit: GrowthFit, temperature: TemperatureForecast, days: int
) -> GrowthProjection:
    """Return the mean weight ahead of the last sample.

    Errors: the present weight, the TGC and its drift, uneven growth ahead, and the
    temperature forecast's common error ``sd_deg_c``.

    Raises
    ------
    StockRangeError
        If ``days`` is below 0 or over 1500.
    """
    require("days ahead", days, "days", 0.0, float(MAX_DAYS))
    species = farmed_species(fit.species_key)
    steps = (
        cumulative_degree_days(
            forecast=temperature, start=fit.last_day, days=days, species=species
        )
        / 1000.0
    )
    tgc = max(fit.tgc_x1000.value, 0.0)
    temperature_sd = tgc * temperature.sd_deg_c * np.arange(days + 1) / 1000.0
    published_tgc = fit.published_tgc_x1000.value
    variance = (
        fit.root_sd_g**2
        + 2.0 * fit.root_tgc_covariance * steps
        + (fit.tgc_x1000.sd * steps) ** 2
        + noise_per_step(fit.step_spread, published_tgc) * steps
        + drift_per_step(published_tgc) * steps**3 / 3.0
        + temperature_sd**2
    )
    first = fit.last_day.toordinal()
    temps = [temperature.on(date.fromordinal(first + day)) for day in range(days + 1)]
    return GrowthProjection(
        species_key=fit.species_key,
        start=fit.last_day,
        root_g=frozen(fit.root_g + tgc * steps),
        root_sd_g=frozen(np.sqrt(variance)),
        level=fit.tgc_x1000.level,
        notes=fit.notes,
        problems=fit.problems
        + outside(
            "warmest forecast temperature",
            max(temps),
            "°C",
            0.0,
            species.growth.optimum_temperature_deg_c.value,
        )
        + _days_without_growth(temps[:days], species),
    )


def _days_without_growth(
    temperatures_deg_c: list[float], species: FarmedSpecies
) -> tuple[Problem, ...]:
    idle = sum(
        growing_temperature_deg_c(temp, species) == 0.0 for temp in temperatures_deg_c
    )
    if not idle:
        return ()
    low, high = (
        species.water.feeding_low_deg_c.value,
        species.water.feeding_high_deg_c.value,
    )
    return (
        Problem.of(
            "no-growth-temperature",
            idle_days=idle,
            days=len(temperatures_deg_c),
            low_deg_c=low,
            high_deg_c=high,
        ),
    )
