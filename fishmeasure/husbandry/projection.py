"""The mean weight ahead of the last sample, day by day."""

import math
from dataclasses import dataclass
from datetime import date
from typing import Annotated

import numpy as np
from pydantic import Field

from fishmeasure.base.arrays import FloatArray, frozen
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import outside, require
from fishmeasure.husbandry.growth import (
    GrowthFit,
    cubed,
    growth_move,
    process_covariance,
    standing_var,
)
from fishmeasure.husbandry.propagation import lognormal, relative_sd
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
    its sd; ``log_count_covariance`` is the root's with ln of the count, of the variance
    ``log_count_variance``: the two are known together, as fish weighed in by the
    kilogram are fewer where they are heavier.
    """

    species_key: str
    start: date
    root_g: FloatArray
    root_sd_g: FloatArray
    level: float
    log_count_covariance: FloatArray | None = None
    log_count_variance: Annotated[
        float | None,
        Field(description="Variance of ln of the fish count, a fraction squared."),
    ] = None
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

    def biomass_kg(self, day: date, fish_count: Estimate) -> Estimate:
        """Return the kilograms of fish of this weight; raises as ``root_on``."""
        root, sd = self.root_on(day)
        covariance = self._with_count(day)
        variance = self.log_count_variance
        if variance is None:
            variance = relative_sd(fish_count) ** 2
        if root > 0.0:
            variance += (3.0 * sd / root) ** 2 + 6.0 * covariance / root
        return lognormal(
            fish_count.value * root**3 / 1000.0,
            math.sqrt(max(0.0, variance)),
            self.level,
        )

    def correlation(self, day: date, fish_count: Estimate) -> float:
        """Return how the errors of weight and count go together, -1 to 1."""
        _, sd = self.root_on(day)
        both = sd * relative_sd(fish_count)
        if both <= 0.0:
            return 0.0
        return min(1.0, max(-1.0, self._with_count(day) / both))

    def _with_count(self, day: date) -> float:
        if self.log_count_covariance is None:
            return 0.0
        return float(self.log_count_covariance[(day - self.start).days])


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
    roots, variances, covariances = _ahead(fit, tgc, steps)
    first = fit.last_day.toordinal()
    temps = [temperature.on(date.fromordinal(first + day)) for day in range(days + 1)]
    return GrowthProjection(
        species_key=fit.species_key,
        start=fit.last_day,
        root_g=frozen(roots),
        root_sd_g=frozen(np.sqrt(variances + temperature_sd**2)),
        log_count_covariance=frozen(covariances),
        log_count_variance=fit.covariance[3][3] or None,
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


def _ahead(
    fit: GrowthFit, tgc: float, steps: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return the root, its variance and its covariance with ln count, day by day."""
    published = fit.published_tgc_x1000.value
    # A step of many days at once: each day's own move from the start.
    moves = np.array([growth_move(float(step))[0] for step in steps])
    added = np.array(
        [
            process_covariance(fit.step_spread, published, float(step))[0, 0]
            for step in steps
        ]
    )
    roots = moves @ np.array([fit.root_g, tgc, fit.deviation_x1000])
    covariance = np.array(fit.covariance)
    variances = np.einsum("ij,jk,ik->i", moves, covariance[:3, :3], moves) + added
    standing = np.array([standing_var(float(day)) for day in range(len(steps))])
    variances = variances + standing * roots**2
    # Fish that grow slower than not at all stand still.
    roots = np.maximum.accumulate(roots)
    return roots, np.maximum(variances, 0.0), moves @ covariance[:3, 3]


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
