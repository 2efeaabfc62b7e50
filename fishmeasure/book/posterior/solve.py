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
from fishmeasure.book.posterior.feeding import FeedPeriod
from fishmeasure.book.posterior.follow import Follower
from fishmeasure.book.posterior.history import History, Observation
from fishmeasure.book.posterior.priors import (
    FAR_FEED_SD,
    KEEP_SD,
    LEAST_OF_KEEP,
    ODD_SD,
    SURPRISE_SD,
)
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
    far_feed: dict[FeedPeriod, Surprise]


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
    def cost(self) -> float:
        """Return minus twice the log posterior, but for a constant."""
        return float(self.misfit @ self.misfit + self.best @ self.best)

    @property
    def shape(self) -> tuple[int, list[tuple[str, UUID | None]]]:
        """How many unknowns there are here, and what is observed."""
        return len(self.best), [(o.kind, o.entry_id) for o in self.observations]


def posterior(history: History, near: Peak | None = None) -> Posterior:
    """Return what all entries of a cohort say together.

    Feed is first held against all else: what the fish cannot have eaten is left out,
    for a wrong feed entry must not make them fewer. ``near`` is the peak of a history
    that differs little.
    """
    far: dict[FeedPeriod, Surprise] = {}
    if history.periods:
        far, near = _far_feed(history, near)
        history = replace(history, far_feed=frozenset(far))
    history, near, surprises = _settle(history, near)
    _draw(history, near)
    return Posterior(
        drawn=Follower(history, near.unknown, whole=True).run(),
        scores=_scores(len(near.best)),
        surprises=surprises,
        far_feed=far,
    )


def _settle(
    history: History, near: Peak | None
) -> tuple[History, Peak, dict[tuple[str, UUID], Surprise]]:
    """Return the peak, and the history with its breaks.

    A count that lies far from all else breaks with it: it stands alone, and teaches
    nothing of what was before.
    """
    surprises: dict[tuple[str, UUID], Surprise] = {}
    while True:
        near = climb(history, near)
        found = _surprises(near)
        surprises |= found
        counts = [item for item in found.items() if item[0][0] == "count"]
        worst = max(counts, key=lambda item: abs(item[1].in_sd), default=None)
        if worst is None or abs(worst[1].in_sd) <= SURPRISE_SD:
            return history, near, surprises
        if len(history.breaks) >= _MOST_BREAKS:
            return history, near, surprises
        history = replace(history, breaks=history.breaks | {worst[0][1]})


def _far_feed(
    history: History, near: Peak | None
) -> tuple[dict[FeedPeriod, Surprise], Peak]:
    """Return the feed that is left out, and a peak to go on from.

    Where another entry is odd by itself (a sample of other fish, say), the feed may be
    right and that one wrong: all stay, unless slips in the feed are likelier.
    """
    without, peak, surprises = _settle(replace(history, periods=()), near)
    far = _feed_off(replace(without, periods=history.periods), peak)
    odd = [name for name, one in surprises.items() if abs(one.in_sd) > ODD_SD]
    if far and odd:
        _, joint, then = _settle(history, None)
        blamed = any(n in then and abs(then[n].in_sd) > SURPRISE_SD for n in odd)
        if blamed and joint.cost <= peak.cost + len(far) * SURPRISE_SD**2:
            return {}, joint
    return far, peak


def _feed_off(history: History, without: Peak) -> dict[FeedPeriod, Surprise]:
    """Return the feed that lies far from what all else says the fish ate.

    ``without`` is the peak of all else. A unit's feed is held against it period by
    period, and all together: half of every meal not entered is far only in the sum.
    Fish may be held on what keeps them, but no regular feeding goes by on far less.
    """
    peak = _linear(history, without.unknown, without.best)
    lower = _factor(peak.jacobian[[o.period is None for o in peak.observations], :])
    fed: dict[UUID, dict[FeedPeriod, Observation]] = {}
    for seen in peak.observations:
        if seen.period is not None:
            fed.setdefault(seen.period.unit_id, {})[seen.period] = seen
    found: dict[FeedPeriod, Surprise] = {}
    for here in fed.values():
        each = {period: _eaten(lower, [seen]) for period, seen in here.items()}
        # Where the error is above this share of the feed, it is that of a keep that is
        # larger than the feed.
        most = KEEP_SD / LEAST_OF_KEEP
        far = {
            period: eaten
            for period, eaten in each.items()
            if abs(eaten.in_sd) > FAR_FEED_SD or here[period].sd > most * period.feed_kg
        }
        near = [seen for period, seen in here.items() if period not in far]
        if len(near) > 1 and abs(_eaten(lower, near).in_sd) > FAR_FEED_SD:
            far = each
        found |= far
    return found


def _eaten(lower: FloatArray, fed: list[Observation]) -> Surprise:
    """Return what fish ate of all that was fed, by all else, and how far that lies."""
    misfit = sum((seen.plain * seen.sd for seen in fed), np.zeros(1))
    slope = (misfit[1:] - misfit[0]) / _STEP
    spread = float(np.linalg.norm(solve_triangular(lower, slope, lower=True)))
    given, own = sum(o.observed for o in fed), math.hypot(*(o.sd for o in fed))
    return Surprise(
        expected=Estimate.normal(given - float(misfit[0]), spread),
        in_sd=float(misfit[0]) / math.hypot(spread, own),
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
        cost = peak.cost
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
