"""The likeliest values of the unknowns, and how they may vary together.

Gauss-Newton on the log posterior: the unknowns are standard normal and each observation
misses by a standard normal error, so both are squares. Derivatives are differences, all
in one pass (a column for each). Errors are those of the normal
approximation at the maximum (Laplace); figures of draws from it, followed through the
entries themselves, so that what is not a straight line keeps its shape. Nothing is
random: the draws are fixed ones, made to have exactly the mean and the variances.
"""

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final
from uuid import UUID

import numpy as np
from scipy.linalg import cho_factor, cho_solve, solve_triangular

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate
from fishmeasure.book.posterior.follow import Follower
from fishmeasure.book.posterior.history import History, Observation
from fishmeasure.book.posterior.priors import SURPRISE_SD
from fishmeasure.book.posterior.unknowns import Unknowns

_STEP: Final = 1e-5
_ROUNDS: Final = 15
_ENOUGH: Final = 1e-6
_MOST_BREAKS: Final = 5
_MOST_MISFIT: Final = 1e9  # in sd; what is farther off is no better known
_PAIRS: Final = 256  # of draws, each with its opposite


@dataclass(frozen=True, slots=True, kw_only=True)
class Surprise:
    """What all other entries say of an observation, and how far it lies from that."""

    expected: Estimate
    in_sd: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Posterior:
    """A cohort at draws from its posterior, the likeliest in the first column.

    ``scores`` are those of the draws, (unknowns, draws / 2): each has its opposite.
    """

    drawn: Follower
    scores: FloatArray
    surprises: dict[tuple[str, UUID], Surprise]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Peak:
    """The likeliest unknowns, and how misfits change about them."""

    unknown: Unknowns
    best: FloatArray
    lower: FloatArray  # Cholesky factor of the inverse covariance
    jacobian: FloatArray
    misfit: FloatArray
    observations: list[Observation]

    @property
    def shape(self) -> tuple[int, list[tuple[str, UUID | None]]]:
        """How many unknowns there are here, and what is observed."""
        return len(self.best), [(o.kind, o.entry_id) for o in self.observations]


def posterior(history: History, near: Peak | None = None) -> Posterior:
    """Return what all entries of a cohort say together.

    A count that lies far from all else breaks with it: it stands alone, and teaches
    nothing of what was before. ``near`` is the peak of a history that differs little.
    """
    surprises: dict[tuple[str, UUID], Surprise] = {}
    while True:
        near = climb(history, near)
        found = _surprises(near)
        surprises |= found
        counts = [item for item in found.items() if item[0][0] == "count"]
        worst = max(counts, key=lambda item: abs(item[1].in_sd), default=None)
        if worst is None or abs(worst[1].in_sd) <= SURPRISE_SD:
            break
        if len(history.breaks) >= _MOST_BREAKS:
            break
        history = replace(history, breaks=history.breaks | {worst[0][1]})
    _draw(history, near)
    return Posterior(
        drawn=Follower(history, near.unknown, whole=True).run(),
        scores=_scores(len(near.best)),
        surprises=surprises,
    )


def appetite(history: History) -> tuple[Peak, dict[UUID, list[tuple[int, int, float]]]]:
    """Return the peak without the feed, and what the fish would eat by it.

    By unit: first day, last day and kilograms a day.
    """
    peak = climb(history)
    peak.unknown.at(peak.best[:, None])
    return peak, Follower(history, peak.unknown).run().eaten


def climb(history: History, near: Peak | None = None) -> Peak:
    """Return the maximum of a history's posterior.

    Which observations there are, and which unknowns, goes by the likeliest fish (there
    are none left to compare a count with, say): the slopes are always those of the
    point that is returned, never of one before it.
    """
    unknown = Unknowns() if near is None else near.unknown
    start = np.zeros(0) if near is None else near.best
    unknown.at(start[:, None])
    Follower(history, unknown).run()  # to meet every unknown
    peak = _linear(history, unknown, start)
    for _ in range(_ROUNDS):
        cost = float(peak.misfit @ peak.misfit + peak.best @ peak.best)
        slope = peak.jacobian.T @ peak.misfit + peak.best
        step = -cho_solve((peak.lower, True), slope)
        share, lower_cost = _shorten(history, unknown, peak.best, step, cost)
        if share == 0.0:
            break
        seen = peak.shape
        peak = _linear(history, unknown, peak.best + share * step)
        if cost - lower_cost <= _ENOUGH * (1.0 + cost) and peak.shape == seen:
            break
    return peak


def _shorten(
    history: History, unknown: Unknowns, best: FloatArray, step: FloatArray, cost: float
) -> tuple[float, float]:
    """Return how much of a step lowers the cost most, and to what."""
    shares = np.array([0.0, 1.0, 0.6, 0.3, 0.1, 0.03])
    unknown.at(best[:, None] + shares * step[:, None])
    misfits = _stacked(Follower(history, unknown).run().observations, len(shares))
    values = unknown.values
    costs = np.sum(misfits**2, axis=0) + np.sum(values**2, axis=0)
    costs = np.where(np.isfinite(costs), costs, math.inf)
    costs[0] = cost
    chosen = int(np.argmin(costs))
    return float(shares[chosen]), float(costs[chosen])


def _linear(history: History, unknown: Unknowns, best: FloatArray) -> Peak:
    """Return what is observed at a point, and how misfits change about it."""
    while True:
        size = len(unknown)
        best = np.pad(best, (0, size - len(best)))
        middle = best[:, None]
        unknown.at(np.hstack([middle, middle + _STEP * np.eye(size)]))
        found = Follower(history, unknown).run().observations
        if len(unknown) == size:  # else one more was met, known only off the middle
            break
    misfits = _stacked(found, size + 1)
    jacobian = (misfits[:, 1:] - misfits[:, :1]) / _STEP
    return Peak(
        unknown=unknown,
        best=best,
        lower=_factor(jacobian),
        jacobian=jacobian,
        misfit=misfits[:, 0],
        observations=found,
    )


def _factor(jacobian: FloatArray) -> FloatArray:
    """Return the Cholesky factor of jacobian' jacobian + 1.

    By QR: where something was observed all but exactly the 1 would be lost in the
    squares, and the sum have no factor.
    """
    size = jacobian.shape[1]
    upper = np.linalg.qr(np.vstack([jacobian, np.eye(size)]), mode="r")
    signs = np.where(np.diagonal(upper) < 0.0, -1.0, 1.0)
    lower: FloatArray = (signs[:, None] * upper).T
    return lower


def _stacked(observations: list[Observation], columns: int) -> FloatArray:
    if not observations:
        return np.zeros((0, columns))
    found = np.array([np.broadcast_to(o.misfit, columns) for o in observations])
    kept: FloatArray = np.clip(np.nan_to_num(found), -_MOST_MISFIT, _MOST_MISFIT)
    return kept


def _surprises(peak: Peak) -> dict[tuple[str, UUID], Surprise]:
    """Return each observation beside what the others say: deletion residuals."""
    observations = peak.observations
    if not observations:
        return {}
    reach = solve_triangular(peak.lower, peak.jacobian.T, lower=True)
    leverage = np.minimum(np.sum(reach**2, axis=0), 1.0 - 1e-9)
    found = {}
    for seen, lever in zip(observations, leverage, strict=True):
        if seen.entry_id is None:
            continue
        left = 1.0 - float(lever)
        misfit = float(seen.plain[0])
        sd = seen.sd * math.sqrt(float(lever) / left)
        found[seen.kind, seen.entry_id] = Surprise(
            expected=Estimate.normal(seen.observed - misfit / left * seen.sd, sd),
            in_sd=misfit / math.sqrt(left),
        )
    return found


def _draw(history: History, peak: Peak) -> None:
    """Set the unknowns to the maximum and draws about it, in pairs.

    Each draw is then moved by one Gauss-Newton step to where its misfits are those that
    a straight line would have given: what was observed closely stays so.
    """
    unknown, best, lower = peak.unknown, peak.best, peak.lower
    away = solve_triangular(lower.T, _scores(len(best)), lower=False)
    away = np.hstack([np.zeros((len(best), 1)), away, -away])
    unknown.at(best[:, None] + away)
    misfits = _stacked(Follower(history, unknown).run().observations, away.shape[1])
    bent = misfits - (misfits[:, :1] + peak.jacobian @ away)
    unknown.at(unknown.values - cho_solve((lower, True), peak.jacobian.T @ bent))


@lru_cache(maxsize=32)
def _scores(size: int) -> FloatArray:
    """Return (size, pairs) standard normal scores, uncorrelated and of variance one."""
    pairs = max(_PAIRS, size)
    raw = np.random.default_rng(1).standard_normal((pairs, size))
    if size == 0:
        return np.zeros((0, pairs))
    factor = cho_factor(raw.T @ raw / pairs, lower=True)
    found: FloatArray = solve_triangular(factor[0], raw.T, lower=True)
    return found
