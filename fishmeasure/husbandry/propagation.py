"""How errors are carried through the stocking calculations.

Deterministic, the simplest way that serves: a product of independent factors has
a lognormal interval whose relative variances add; growth is normal on the scale of
cube roots (``growth``); what is neither is evaluated on 1024 fixed points of a
Sobol sequence (no random numbers, so an answer never changes between two calls).
"""

import math
from collections.abc import Iterable
from functools import cache

import numpy as np
from scipy.special import ndtri

from fishmeasure.base.arrays import FloatArray, frozen
from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate

_SOBOL_POWER = 10


def z_score(level: float) -> float:
    """Return the normal deviate at the end of a central interval."""
    return float(ndtri(0.5 + level / 2.0))


def exact(value: float, level: float = DEFAULT_LEVEL) -> Estimate:
    """Return a figure without error, such as one that the user states."""
    return Estimate(value=value, sd=0.0, low=value, high=value, level=level)


def relative_sd(estimate: Estimate) -> float:
    """Return sd over value; 0 where the value is 0."""
    return estimate.sd / abs(estimate.value) if estimate.value else 0.0


def lognormal(
    value: float, relative_sd_: float, level: float = DEFAULT_LEVEL
) -> Estimate:
    """Return a positive figure whose error is a factor; ``value`` is the median."""
    spread = math.sqrt(math.log1p(relative_sd_**2)) * z_score(level)
    return Estimate(
        value=value,
        sd=value * relative_sd_,
        low=value * math.exp(-spread),
        high=value * math.exp(spread),
        level=level,
    )


def product(
    *factors: Estimate, scale: float = 1.0, level: float = DEFAULT_LEVEL
) -> Estimate:
    """Return scale times the product of independent positive figures."""
    value = scale * math.prod(factor.value for factor in factors)
    variance = sum(relative_sd(factor) ** 2 for factor in factors)
    return lognormal(value, math.sqrt(variance), level)


def total(*terms: Estimate, level: float = DEFAULT_LEVEL) -> Estimate:
    """Return the sum of independent figures."""
    return Estimate.normal(
        sum(term.value for term in terms),
        math.hypot(*(term.sd for term in terms)),
        level,
    )


def sum_common(parts: Iterable[Estimate], level: float = DEFAULT_LEVEL) -> Estimate:
    """Return the sum of figures that err alike, as by one chart or thermometer."""
    parts = tuple(parts)
    return Estimate(
        value=sum(part.value for part in parts),
        sd=sum(part.sd for part in parts),
        low=sum(part.low for part in parts),
        high=sum(part.high for part in parts),
        level=parts[0].level if parts else level,
    )


def difference(
    left: Estimate, right: Estimate, level: float = DEFAULT_LEVEL
) -> Estimate:
    """Return left less right, independent of each other."""
    return Estimate.normal(
        left.value - right.value, math.hypot(left.sd, right.sd), level
    )


def scaled(estimate: Estimate, factor: float) -> Estimate:
    """Return the estimate times a known factor above 0, such as a unit's."""
    return Estimate(
        value=estimate.value * factor,
        sd=estimate.sd * factor,
        low=estimate.low * factor,
        high=estimate.high * factor,
        level=estimate.level,
    )


@cache
def normal_scores(dimensions: int) -> FloatArray:
    """Return (1024, dimensions) standard normal deviates, Sobol, read-only."""
    from scipy.stats import qmc  # noqa: PLC0415 - slow to load and seldom needed

    points = qmc.Sobol(d=dimensions, scramble=False).random_base2(_SOBOL_POWER)
    centred = points + 0.5 / 2**_SOBOL_POWER  # the first point is 0, else -infinity
    scores: FloatArray = ndtri(centred)
    return frozen(scores)


def lognormal_draws(estimate: Estimate, scores: FloatArray) -> FloatArray:
    """Return draws of a positive figure at the given normal deviates."""
    sigma = math.sqrt(math.log1p(relative_sd(estimate) ** 2))
    draws: FloatArray = estimate.value * np.exp(sigma * scores)
    return draws


def from_draws(
    value: float, draws: FloatArray, level: float = DEFAULT_LEVEL
) -> Estimate:
    """Return an estimate with the interval of the draws and the value given."""
    tail = (1.0 - level) / 2.0
    low, high = np.quantile(draws, [tail, 1.0 - tail])
    return Estimate(
        value=value,
        sd=float(np.std(draws)),
        low=min(float(low), value),
        high=max(float(high), value),
        level=level,
    )
