"""Growth between two weighings, and the condition factor."""

import math

from fishmeasure.base.estimate import Estimate
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.propagation import lognormal, relative_sd


def specific_growth_rate(
    *, start_weight_g: Estimate, end_weight_g: Estimate, days: float
) -> Estimate:
    """Return the SGR, 100 (ln W1 - ln W0) / days, in % a day.

    Raises
    ------
    StockRangeError
        If a weight or the days are not above 0.
    """
    require("days between the samples", days, "days", 0.01)
    require("start weight", start_weight_g.value, "g", 1e-4)
    require("end weight", end_weight_g.value, "g", 1e-4)
    value = 100.0 * math.log(end_weight_g.value / start_weight_g.value) / days
    sd = 100.0 * math.hypot(relative_sd(start_weight_g), relative_sd(end_weight_g))
    return Estimate.normal(value, sd / days, end_weight_g.level)


def thermal_growth_coefficient(
    *, start_weight_g: Estimate, end_weight_g: Estimate, degree_days: float
) -> Estimate:
    """Return TGC x 1000 = 1000 (W1^(1/3) - W0^(1/3)) / degree-days.

    Raises
    ------
    StockRangeError
        If the degree-days are not above 0 or a weight is below 0.
    """
    require("degree-days", degree_days, "°C·days", 0.1)
    require("start weight", start_weight_g.value, "g", 1e-4)
    require("end weight", end_weight_g.value, "g", 1e-4)
    roots = math.cbrt(end_weight_g.value) - math.cbrt(start_weight_g.value)
    sd = math.hypot(root_sd_of(start_weight_g), root_sd_of(end_weight_g))
    return Estimate.normal(
        1000.0 * roots / degree_days, 1000.0 * sd / degree_days, end_weight_g.level
    )


def condition_factor(*, weight_g: Estimate, fork_length_mm: Estimate) -> Estimate:
    """Return K = 100 W / L^3 with g and cm (Fulton)."""
    require("length", fork_length_mm.value, "mm", 1.0)
    spread = math.hypot(relative_sd(weight_g), 3.0 * relative_sd(fork_length_mm))
    value = 100.0 * weight_g.value / (fork_length_mm.value / 10.0) ** 3
    return lognormal(value, spread, weight_g.level)


def root_sd_of(weight_g: Estimate) -> float:
    """Return the sd of the cube root of a weight."""
    return weight_g.sd / (3.0 * math.cbrt(weight_g.value) ** 2)
