"""What a net costs beside a fish, and nets from several places or depths.

Both are of two-stage and stratified sampling (Cochran 1977, chapters 5 and 10, sections
from memory); the errors are those of ``plan``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from fishmeasure.estimation.plan import Spread, relative_sd

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
