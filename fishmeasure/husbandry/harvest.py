"""Harvest: dates at plate size, fish above a weight, what a harvest leaves.

Weights within a cohort are taken as lognormal with a coefficient of variation that
stays the same while the fish grow, so that each keeps its rank.
"""

import math
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from pydantic import FiniteFloat
from scipy.special import ndtr, ndtri

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.projection import GrowthProjection
from fishmeasure.husbandry.propagation import (
    from_draws,
    lognormal,
    normal_scores,
    product,
    relative_sd,
    z_score,
)

FIRST, HALF, NEARLY_ALL = 0.05, 0.5, 0.95
_LEAST_SIGMA = 1e-9  # of ln weight: all fish alike


# --- the spread of weights ----------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightSpread:
    """Lognormal weights with a mean and a coefficient of variation."""

    mean_g: float
    cv: float

    @property
    def sigma(self) -> float:
        """Return the sd of ln weight, sqrt(ln(1 + CV^2))."""
        return math.sqrt(math.log1p(self.cv**2))

    def weight_at_rank_g(self, fraction_below: float) -> float:
        """Return the weight below which a share of the fish lies."""
        if self.sigma == 0.0:
            return self.mean_g
        median = self.mean_g * math.exp(-0.5 * self.sigma**2)
        return median * math.exp(self.sigma * float(ndtri(fraction_below)))

    def fraction_above(self, weight_g: float) -> float:
        """Return the share of fish above a weight."""
        means, cvs = np.array([self.mean_g]), np.array([self.cv])
        return float(_share_above(means, cvs, weight_g)[0])

    def mean_between_ranks_g(self, lowest: float, highest: float) -> float:
        """Return the mean weight of the fish between two ranks (shares below).

        Partial expectation of the lognormal, closed form.
        """
        low = float(ndtr(ndtri(lowest) - self.sigma))
        high = float(ndtr(ndtri(highest) - self.sigma))
        return self.mean_g * (high - low) / (highest - lowest)

    def cv_between_ranks(self, lowest: float, highest: float) -> float:
        """Return the CV of the fish between two ranks."""
        low = float(ndtr(ndtri(lowest) - 2.0 * self.sigma))
        high = float(ndtr(ndtri(highest) - 2.0 * self.sigma))
        square = (
            self.mean_g**2 * math.exp(self.sigma**2) * (high - low) / (highest - lowest)
        )
        mean = self.mean_between_ranks_g(lowest, highest)
        return math.sqrt(max(square - mean**2, 0.0)) / mean


def _share_above(means_g: FloatArray, cvs: FloatArray, weight_g: float) -> FloatArray:
    """Return the shares above a weight, one for each mean and CV."""
    sigmas = np.maximum(np.sqrt(np.log1p(cvs**2)), _LEAST_SIGMA)
    medians = means_g * np.exp(-0.5 * sigmas**2)
    shares: FloatArray = ndtr(np.log(medians / weight_g) / sigmas)
    return shares


# --- dates --------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class DateEstimate:
    """A date and its interval; None where it is beyond the projection."""

    day: date | None
    earliest: date | None
    latest: date | None
    level: FiniteFloat


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeDates:
    """When the first (5 %), half and nearly all (95 %) of the fish are at a size."""

    size_g: float
    first: DateEstimate
    half: DateEstimate
    nearly_all: DateEstimate
    notes: tuple[Message, ...] = ()


def dates_at_size(
    *, projection: GrowthProjection, cv: Estimate, size_g: float
) -> SizeDates:
    """Return when 5, 50 and 95 % of the cohort are at a size.

    The interval is that of the mean weight's projection and of the CV.

    Raises
    ------
    StockRangeError
        If the size is not above 0 or the CV not between 0 and 1.5.
    """
    require("size", size_g, "g", 0.1)
    require("coefficient of variation", cv.value, "", 0.0, 1.5)
    first, half, nearly = (
        _date_when(projection, cv, size_g, fraction)
        for fraction in (FIRST, HALF, NEARLY_ALL)
    )
    return SizeDates(
        size_g=size_g,
        first=first,
        half=half,
        nearly_all=nearly,
        notes=projection.notes,
    )


def _date_when(
    projection: GrowthProjection, cv: Estimate, size_g: float, fraction: float
) -> DateEstimate:
    """Return when a share of the fish is at the size.

    The fish of that rank weighs mean x factor, so the mean's cube root must reach
    (size / factor)^(1/3).
    """

    def log_factor(cv_value: float) -> float:
        spread = WeightSpread(mean_g=1.0, cv=max(cv_value, 0.0))
        return math.log(spread.weight_at_rank_g(1.0 - fraction))

    factor = log_factor(cv.value)
    factor_sd = abs(log_factor(cv.value + cv.sd) - log_factor(cv.value - cv.sd)) / 2.0
    target = math.cbrt(size_g / math.exp(factor))
    sd = np.hypot(projection.root_sd_g, target * factor_sd / 3.0)
    reach = z_score(projection.level) * sd

    def first_day(ahead: np.ndarray[tuple[int], np.dtype[np.float64]]) -> date | None:
        days = np.flatnonzero(ahead >= target)
        return projection.start + timedelta(days=int(days[0])) if days.size else None

    return DateEstimate(
        day=first_day(projection.root_g),
        earliest=first_day(projection.root_g + reach),
        latest=first_day(projection.root_g - reach),
        level=projection.level,
    )


def count_above(
    *,
    projection: GrowthProjection,
    fish_count: Estimate,
    cv: Estimate,
    size_g: float,
    day: date,
) -> Estimate:
    """Return how many fish are above a weight on a day.

    Raises
    ------
    StockRangeError
        If the day lies outside the projection.
    """
    require("size", size_g, "g", 0.1)
    draws = _Draws.of(projection, fish_count, cv, day)
    return from_draws(
        fish_count.value * draws.share_above(size_g),
        draws.counts * _share_above(draws.means, draws.cvs, size_g),
        projection.level,
    )


def counts_between(
    *,
    projection: GrowthProjection,
    fish_count: Estimate,
    cv: Estimate,
    edges_g: tuple[float, ...],
    day: date,
) -> tuple[Estimate, ...]:
    """Return how many fish are between each weight and the next on a day.

    Raises
    ------
    StockRangeError
        If the day lies outside the projection.
    """
    for edge in edges_g:
        require("size", edge, "g", 0.0)
    draws = _Draws.of(projection, fish_count, cv, day)
    edges = [max(edge, 1e-6) for edge in edges_g]
    central = [draws.share_above(edge) for edge in edges]
    above = [_share_above(draws.means, draws.cvs, edge) for edge in edges]
    return tuple(
        from_draws(
            fish_count.value * (central[n] - central[n + 1]),
            draws.counts * (above[n] - above[n + 1]),
            projection.level,
        )
        for n in range(len(edges) - 1)
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Draws:
    """Mean weight, CV and count of fish together, as far as they are not known."""

    middle: WeightSpread
    means: FloatArray
    cvs: FloatArray
    counts: FloatArray

    @classmethod
    def of(
        cls, projection: GrowthProjection, fish_count: Estimate, cv: Estimate, day: date
    ) -> "_Draws":
        root, root_sd = projection.root_on(day)
        scores = normal_scores(3)
        common = projection.correlation(day, fish_count)
        # Losses that nobody saw make the count less sure, but no larger than its
        # high end.
        counts = np.clip(
            fish_count.value
            + fish_count.sd
            * (common * scores[:, 0] + math.sqrt(1.0 - common**2) * scores[:, 2]),
            0.0,
            fish_count.high,
        )
        return cls(
            middle=WeightSpread(mean_g=root**3, cv=cv.value),
            means=np.maximum(root + root_sd * scores[:, 0], 1e-3) ** 3,
            cvs=np.maximum(cv.value + cv.sd * scores[:, 1], 1e-3),
            counts=counts,
        )

    def share_above(self, weight_g: float) -> float:
        return self.middle.fraction_above(weight_g)


# --- taking fish out ----------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Harvest:
    """The largest fish taken out on a day, and what is left.

    ``smallest_taken_g`` is the weight to grade at.
    """

    day: date
    taken_count: int
    taken_kg: Estimate
    taken_mean_g: float
    smallest_taken_g: float
    left_count: Estimate
    left_kg: Estimate
    left_mean_g: float
    left_cv: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HarvestPlan:
    """Harvests in order; ``shortfall_count`` fish asked for were not there.

    ``taken_kg`` is all harvests', their errors taken as shared: they come from one
    mean weight, one spread and one count.
    """

    harvests: tuple[Harvest, ...]
    taken_count: int
    taken_kg: Estimate
    shortfall_count: int
    notes: tuple[Message, ...] = ()


def harvest_plan(
    *,
    projection: GrowthProjection,
    fish_count: Estimate,
    cv: Estimate,
    takes: tuple[tuple[date, int], ...],
) -> HarvestPlan:
    """Return what taking the n largest on each day yields and leaves.

    Ranks are kept, so the fish left are the cohort's lower ranks, a truncated
    lognormal that grows on. The count is not changed by deaths in between.

    Parameters
    ----------
    takes
        (day, number of fish), any order; see ``weekly`` for every week.

    Raises
    ------
    StockRangeError
        If a day lies outside the projection or a number is below 0.
    """
    require("number of fish", fish_count.value, "", 1.0)
    require("coefficient of variation", cv.value, "", 0.0, 1.5)
    left, shortfall, done = fish_count.value, 0, []
    for day, asked in sorted(takes):
        require("number to take", asked, "", 0.0)
        taken = min(asked, math.floor(left + 1e-9))
        shortfall += asked - taken
        if taken == 0:
            continue
        mean = projection.mean_weight_g(day)
        upper = left / fish_count.value
        lower = max((left - taken) / fish_count.value, 0.0)
        done.append(_harvest(day, mean, fish_count, cv, (lower, upper)))
        left -= taken
    taken_kg = sum(harvest.taken_kg.value for harvest in done)
    error = sum(harvest.taken_kg.sd for harvest in done) / taken_kg if done else 0.0
    return HarvestPlan(
        harvests=tuple(done),
        taken_count=sum(harvest.taken_count for harvest in done),
        taken_kg=lognormal(taken_kg, error, projection.level),
        shortfall_count=shortfall,
        notes=projection.notes,
    )


def _harvest(
    day: date,
    mean: Estimate,
    fish_count: Estimate,
    cv: Estimate,
    ranks: tuple[float, float],
) -> Harvest:
    lower, upper = ranks
    spread = WeightSpread(mean_g=mean.value, cv=cv.value)
    taken = round((upper - lower) * fish_count.value)
    taken_mean = spread.mean_between_ranks_g(lower, upper)
    taken_error = _relative_sd_of_mean(mean, cv, ranks)
    left = Estimate.normal(lower * fish_count.value, fish_count.sd, mean.level)
    left_mean, left_error = 0.0, 0.0
    if lower > 0.0:
        left_mean = spread.mean_between_ranks_g(0.0, lower)
        left_error = _relative_sd_of_mean(mean, cv, (0.0, lower))
    return Harvest(
        day=day,
        taken_count=taken,
        taken_kg=lognormal(taken * taken_mean / 1000.0, taken_error, mean.level),
        taken_mean_g=taken_mean,
        smallest_taken_g=spread.weight_at_rank_g(lower),
        left_count=left,
        left_kg=product(
            left,
            lognormal(left_mean, left_error, mean.level),
            scale=1e-3,
            level=mean.level,
        ),
        left_mean_g=left_mean,
        left_cv=spread.cv_between_ranks(0.0, lower) if lower > 0.0 else 0.0,
    )


def _relative_sd_of_mean(
    mean: Estimate, cv: Estimate, ranks: tuple[float, float]
) -> float:
    """Return the relative sd of a mean between ranks, from the mean and the CV."""
    ends = [
        WeightSpread(mean_g=1.0, cv=max(value, 0.0)).mean_between_ranks_g(*ranks)
        for value in (cv.value - cv.sd, cv.value + cv.sd)
    ]
    return math.hypot(relative_sd(mean), (ends[1] - ends[0]) / (ends[1] + ends[0]))
