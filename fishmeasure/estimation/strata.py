"""What a net costs beside a fish, and nets from several places or depths.

Both are of two-stage and stratified sampling (Cochran 1977, chapters 5 and 10, sections
from memory); the errors are those of ``plan``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from fishmeasure.base.errors import PlanError
from fishmeasure.estimation.plan import (
    MOST_NETS,
    Spread,
    relative_sd,
    student,
)

MOST_FISH_PER_NET: Final = 30
"""More fish than this lie on each other in a photo; common practice, no source."""


def best_fish_per_net(
    spread: Spread, *, minutes_per_net: float, minutes_per_fish: float
) -> int:
    """Return the fish a net that tell most in the time there is.

    The optimum of two-stage sampling, m = (within / between) sqrt(net / fish) in what
    each costs (Cochran 1977, section 10.6); no net is smaller than one fish.
    """
    if not spread.between_net_cv > 0.0:
        return MOST_FISH_PER_NET
    ratio = spread.within_net_cv / spread.between_net_cv
    best = ratio * math.sqrt(minutes_per_net / minutes_per_fish)
    return int(min(max(round(best), 1), MOST_FISH_PER_NET))


@dataclass(frozen=True, slots=True, kw_only=True)
class Stratum:
    """A part of the unit that is netted apart: a depth, a place.

    ``share`` is its part of all fish, ``mean`` its mean weight over the unit's.
    """

    share: float
    spread: Spread
    nets: int
    fish_per_net: int
    mean: float = 1.0


def stratified_sd(strata: Sequence[Stratum]) -> float:
    """Return the relative standard error of the mean of all strata.

    The mean is that of the strata, each by its share (Cochran 1977, 5.3); what they
    differ by is no error then. The common error is shared, that of the largest.
    """
    parts = [
        (one.share * one.mean) ** 2
        * relative_sd(
            replace(one.spread, common_sd=0.0),
            nets=one.nets,
            fish_per_net=one.fish_per_net,
        )
        ** 2
        for one in strata
    ]
    common = max(one.spread.common_sd for one in strata)
    return math.sqrt(sum(parts) + common**2)


def share_out(strata: Sequence[Stratum], nets: int) -> tuple[int, ...]:
    """Return how many of so many nets go to each stratum, at least one each.

    By share times the sd of a net's mean (Neyman's allocation, Cochran 1977, 5.5), each
    net going where it lowers the error most.
    """
    wanted = [
        one.share
        * one.mean
        * relative_sd(
            replace(one.spread, common_sd=0.0), nets=1, fish_per_net=one.fish_per_net
        )
        for one in strata
    ]
    given = [1] * len(strata)
    for _ in range(nets - len(strata)):
        gains = [w**2 / (n * (n + 1)) for w, n in zip(wanted, given, strict=True)]
        given[gains.index(max(gains))] += 1
    return tuple(given)


@dataclass(frozen=True, slots=True, kw_only=True)
class StrataPlan:
    """How many nets of each stratum, in their order, and what they would give.

    ``half_width_percent`` is that of the interval of the mean of all at ``level``.
    """

    nets: tuple[int, ...]
    half_width_percent: float
    level: float


def plan_strata(
    strata: Sequence[Stratum], *, half_width: float, level: float = 0.9
) -> StrataPlan:
    """Return the fewest nets of all strata that give +- ``half_width``, shared out.

    Each stratum shows by its own nets how they differ, so the interval is Student's
    with the degrees of freedom of Satterthwaite (1946), as in ``plan``. What their
    spread leaves uncertain is allowed for there too.

    Raises
    ------
    PlanError
        If no number of nets does, with what the most would give.
    """
    if not 0.0 < half_width < 1.0:
        raise PlanError.out_of_range(half_width, strata[0].fish_per_net)
    strata = [replace(one, spread=one.spread.assured()) for one in strata]
    reached = 1.0
    for nets in range(len(strata), MOST_NETS + 1):
        shared = share_out(strata, nets)
        with_nets = [
            replace(one, nets=n) for one, n in zip(strata, shared, strict=True)
        ]
        reached = stratified_half_width(with_nets, level)
        if reached <= half_width:
            return StrataPlan(
                nets=shared, half_width_percent=100.0 * reached, level=level
            )
    raise PlanError.out_of_reach(half_width, MOST_NETS, reached)


def stratified_half_width(strata: Sequence[Stratum], level: float) -> float:
    """Return the expected half width of the interval, a fraction of the mean."""
    sd = stratified_sd(strata)
    told = sum(
        ((one.share * one.mean * one.spread.between_net_cv) ** 2 / one.nets) ** 2
        / max(one.nets - 1, 1)
        for one in strata
    )
    return sd * student(sd**4 / told if told > 0.0 else math.inf, level)
