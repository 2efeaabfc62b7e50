"""Growth: the cohort's own, from its samples and the species' published figure.

The thermal growth coefficient (TGC x 1000) makes the cube root of weight a
straight line over degree-days (Iwama & Tautz 1981, Can J Fish Aquat Sci
38:649-656): W^(1/3) = W0^(1/3) + TGC/1000 x degree-days. On that scale errors are
carried exactly; interval ends are cubed back.
"""

import math
from dataclasses import dataclass
from datetime import date
from typing import Annotated

import numpy as np
from pydantic import Field

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import NoSamplesError
from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.growth_rates import root_sd_of
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.husbandry.temperature import (
    TemperatureForecast,
    cumulative_degree_days,
)
from fishmeasure.species import FarmedSpecies, Figure, farmed_species

# How growth strays from a stock's own TGC, as fractions of the published one: unevenly
# from step to step of 400 degree-days (spread), and by a deviation that comes and goes
# (a stationary Ornstein-Uhlenbeck process of this spread, which forgets by 1/e in these
# degree-days), so that growth comes back to the stock's own and a date has an end.
# Computed: on a grid of 0.05-0.4 by 0-0.8 by 200-8000 degree-days the likelihood of
# seven published series from 5 g to 1 kg (rainbow trout Davidson 2014, Yanik 2002,
# Weatherley & Gill 1981; char Yanik 2002; barramundi Schipp 2007; tilapia Bhujel 2007,
# two; 4 % sample error assumed) is within 0.35 of its greatest at 0.05, 0.35 and 400;
# without a deviation it is far less likely.
STEP_SPREAD = 0.05
DEVIATION_SPREAD = 0.35
DEVIATION_DEGREE_DAYS = 400.0
# What 30 days add to the cube root of the weight at any temperature, as a share of it:
# fish that are not fed fall off, in winter some eat. 3 % of weight; common practice,
# no source.
STANDING_SPREAD = 0.01
_STEP_SPREAD_LN_SD = 0.6
_STEP_DEGREE_DAYS = 400.0
_FORGETS = DEVIATION_DEGREE_DAYS / 1000.0
_STEP_SPREAD_GRID = np.geomspace(0.0125, 0.2, 13)
_DISAGREES = 3.0  # standardised difference at which a sample is questioned
# No weighing is exact, and two that were, of one day, would leave nothing to weigh
# them by. Small enough to change no figure.
_LEAST_RELATIVE_SD = 1e-6
_MOST_G = 1e6  # more is a wrong unit


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightSample:
    """A mean weight with its error, on a day."""

    day: date
    mean_weight_g: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthFit:
    """Where the cohort is on the day of its last sample, and how fast it grows.

    Attributes
    ----------
    tgc_x1000
        Of this stock in the long run: the published figure moved by the samples.
    deviation_x1000
        What is added to it now; growth comes back to the stock's own.
    root_g, root_sd_g
        Cube root of the mean weight on ``last_day``, in g^(1/3).
    covariance
        (4, 4), of the cube root, the TGC, its deviation, and ln of the count where that
        is known together with them.
    step_spread
        Spread of growth about the TGC over 400 degree-days, as a fraction of it.
    mean_weight_g
        On ``last_day``, all samples considered.
    residuals_sd
        Each sample's difference from what the ones before it foretold, in its
        standard deviations; 0 for the first.
    """

    species_key: str
    last_day: date
    samples_used: int
    tgc_x1000: Estimate
    published_tgc_x1000: Estimate
    root_g: float
    root_sd_g: float
    deviation_x1000: float
    covariance: tuple[tuple[float, ...], ...]
    step_spread: Annotated[
        float,
        Field(
            description="Spread of growth about the TGC over 400 degree-days, a "
            "fraction."
        ),
    ]
    mean_weight_g: Estimate
    residuals_sd: tuple[float, ...]
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def present_tgc_x1000(self) -> Estimate:
        """How fast the fish grow now: the stock's own TGC and its deviation."""
        rows = (row[1:3] for row in self.covariance[1:3])
        var = sum(sum(row) for row in rows)
        return Estimate.normal(
            self.tgc_x1000.value + self.deviation_x1000,
            math.sqrt(max(0.0, var)),
            self.tgc_x1000.level,
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Filtered:
    state: FloatArray
    covariance: FloatArray
    log_likelihood: float
    residuals_sd: tuple[float, ...]


def _filter(
    roots: FloatArray,
    root_sds: FloatArray,
    passed: FloatArray,
    prior: tuple[float, float],
    spread: float,
) -> _Filtered:
    """Kalman filter of (root, TGC, deviation).

    ``passed`` are (samples, 2), degree-days/1000 and days before each; ``prior`` the
    TGC's mean and sd; ``spread`` that of the steps, see ``STEP_SPREAD``.
    """
    tgc, tgc_sd = prior
    state = np.array([roots[0], tgc, 0.0])
    covariance = np.diag([root_sds[0] ** 2, tgc_sd**2, (DEVIATION_SPREAD * tgc) ** 2])
    log_likelihood, residuals = 0.0, [0.0]
    for root, root_sd, (step, days) in zip(
        roots[1:], root_sds[1:], passed[1:], strict=True
    ):
        move = growth_move(step)
        state = move @ state
        covariance = move @ covariance @ move.T
        covariance += process_covariance(spread, tgc, step)
        covariance[0, 0] += standing_var(days) * root**2
        variance = covariance[0, 0] + root_sd**2
        gain = covariance[:, 0] / variance
        surprise = root - state[0]
        state = state + gain * surprise
        covariance = covariance - np.outer(gain, covariance[0])
        log_likelihood -= 0.5 * (math.log(variance) + surprise**2 / variance)
        residuals.append(float(surprise / math.sqrt(variance)))
    return _Filtered(
        state=state,
        covariance=covariance,
        log_likelihood=log_likelihood,
        residuals_sd=tuple(residuals),
    )


def noise_per_step(spread: float, tgc: float) -> float:
    """Return the walk's variance in cube roots per 1000 degree-days."""
    step = _STEP_DEGREE_DAYS / 1000.0
    return float((spread * tgc * step) ** 2 / step)


def standing_var(days: float) -> float:
    """Return the variance that days add to the cube root, as a share of its square."""
    return STANDING_SPREAD**2 * days / 30.0


def growth_move(step: float) -> FloatArray:
    """Return (3, 3): what a step makes of (root, TGC x 1000, deviation x 1000)."""
    kept = math.exp(-step / _FORGETS)
    return np.array(
        [[1.0, step, _FORGETS * (1.0 - kept)], [0.0, 1.0, 0.0], [0.0, 0.0, kept]]
    )


def process_covariance(spread: float, tgc: float, step: float) -> FloatArray:
    """Return what a step adds to the (3, 3) covariance of what ``growth_move`` moves.

    The root walks by ``noise_per_step``; the deviation is an Ornstein-Uhlenbeck process
    and carries the root with it (its integral's variance is in any textbook).
    ``step`` is degree-days/1000, ``tgc`` the published one.
    """
    var, kept = (DEVIATION_SPREAD * tgc) ** 2, math.exp(-step / _FORGETS)
    carried = var * _FORGETS * (1.0 - kept) ** 2
    added = np.zeros((3, 3))
    added[0, 0] = noise_per_step(spread, tgc) * step + var * _FORGETS**2 * (
        2.0 * step / _FORGETS - 3.0 + 4.0 * kept - kept**2
    )
    added[0, 2] = added[2, 0] = carried
    added[2, 2] = var * (1.0 - kept**2)
    return added


def fit_growth(
    *,
    samples: tuple[WeightSample, ...],
    temperature: TemperatureForecast,
    species_key: str,
    level: float = DEFAULT_LEVEL,
) -> GrowthFit:
    """Return the cohort's growth from its own samples.

    Cube roots of the mean weights over degree-days, weighted by their errors, with
    uneven growth between samples and a TGC that strays and comes back (generalised
    least squares with process noise, computed as a Kalman filter). The species'
    TGC is the prior, so one sample is enough; the uneven growth is averaged over a
    grid (deterministic), its own prior from seven published series.

    Raises
    ------
    NoSamplesError, UnknownStockSpeciesError, StockRangeError
    """
    if not samples:
        raise NoSamplesError
    ordered = sorted(samples, key=lambda sample: sample.day)
    for sample in ordered:
        require("mean weight", sample.mean_weight_g.value, "g", 1e-3, _MOST_G)
        require("its standard error", sample.mean_weight_g.sd, "g", 0.0)
    species = farmed_species(species_key)
    published = species.growth.tgc_x1000
    roots = np.array([math.cbrt(sample.mean_weight_g.value) for sample in ordered])
    root_sds = np.array([root_sd_of(sample.mean_weight_g) for sample in ordered])
    root_sds = np.maximum(root_sds, _LEAST_RELATIVE_SD * roots)
    passed = _passed(ordered, temperature, species)
    prior = (published.value, published.sd)
    fits = [
        _filter(roots, root_sds, passed, prior, float(spread))
        for spread in _STEP_SPREAD_GRID
    ]
    weights, state, covariance = _averaged(fits)
    best = fits[int(np.argmax(weights))]
    return GrowthFit(
        species_key=species_key,
        last_day=ordered[-1].day,
        samples_used=len(ordered),
        tgc_x1000=Estimate.normal(state[1], math.sqrt(covariance[1, 1]), level),
        published_tgc_x1000=Estimate.normal(prior[0], prior[1], level),
        root_g=float(state[0]),
        root_sd_g=math.sqrt(covariance[0, 0]),
        deviation_x1000=float(state[2]),
        covariance=as_tuples(np.pad(covariance, (0, 1))),
        step_spread=float(weights @ _STEP_SPREAD_GRID),
        mean_weight_g=cubed(float(state[0]), math.sqrt(covariance[0, 0]), level),
        residuals_sd=best.residuals_sd,
        notes=_growth_notes(published, len(ordered)),
        problems=_sample_problems(ordered, best.residuals_sd),
    )


def _passed(
    ordered: list[WeightSample],
    temperature: TemperatureForecast,
    species: FarmedSpecies,
) -> FloatArray:
    """Return (n, 2) degree-days, in thousands, and days from the sample before."""
    first = ordered[0].day
    days = [(sample.day - first).days for sample in ordered]
    course = cumulative_degree_days(
        forecast=temperature, start=first, days=days[-1], species=species
    )
    steps = np.diff([course[day] for day in days], prepend=0.0) / 1000.0
    return np.column_stack([steps, np.diff(days, prepend=0)])


def _averaged(fits: list[_Filtered]) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return the weights of the grid's step spreads, and state and covariance by them.

    The covariance has what the fits differ by as well.
    """
    log_prior = (
        -0.5 * (np.log(_STEP_SPREAD_GRID / STEP_SPREAD) / _STEP_SPREAD_LN_SD) ** 2
    )
    log_weight = log_prior + np.array([fit.log_likelihood for fit in fits])
    weights = np.exp(log_weight - log_weight.max())
    weights /= weights.sum()
    state = weights @ np.array([fit.state for fit in fits])
    apart = np.array([fit.state - state for fit in fits])
    covariances = np.array([fit.covariance for fit in fits])
    covariance = np.tensordot(weights, covariances, axes=1)
    return weights, state, covariance + (weights * apart.T) @ apart


def as_tuples(matrix: FloatArray) -> tuple[tuple[float, ...], ...]:
    """Return a matrix as a record holds it."""
    return tuple(tuple(float(value) for value in row) for row in matrix)


def cubed(root_g: float, root_sd_g: float, level: float = DEFAULT_LEVEL) -> Estimate:
    """Return a weight from its cube root and the root's sd."""
    reach = z_score(level) * root_sd_g
    return Estimate(
        value=max(root_g, 0.0) ** 3,
        sd=3.0 * root_g**2 * root_sd_g,
        low=max(root_g - reach, 0.0) ** 3,
        high=max(root_g + reach, 0.0) ** 3,
        level=level,
    )


def _growth_notes(published: Figure, sample_count: int) -> tuple[Message, ...]:
    start = published.note(Message.of("note-published-tgc", tgc=published.value))
    return (
        Message.of(
            "note-growth",
            case="published" if sample_count == 1 else "fitted",
            samples=sample_count,
            start=start,
        ),
    )


def _sample_problems(
    samples: list[WeightSample], residuals_sd: tuple[float, ...]
) -> tuple[Problem, ...]:
    return tuple(
        Problem.of(
            "sample-disagrees",
            case="above" if residual > 0 else "below",
            on=sample.day,
            standard_errors=abs(residual),
        )
        for sample, residual in zip(samples, residuals_sd, strict=True)
        if abs(residual) > _DISAGREES
    )
