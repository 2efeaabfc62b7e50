"""How many nets of how many fish, before a sample and after it.

The relative variance of the mean of k nets of m fish, from N in the unit, is::

    (between^2 / k + within^2 / (k m)) (1 - k m / N) + common^2

with the CVs between nets beyond chance and within a net (two-stage sampling, Cochran
1977, chapter 10, the correction taken on the fish), and the error that more nets do
not shrink: drip water and scale.
"""

import json
import math
from dataclasses import dataclass
from typing import Final

from scipy.special import ndtri

from fishmeasure.base.errors import PlanError, SampleJsonError
from fishmeasure.estimation.model import PopulationEstimate

MOST_NETS: Final = 200
# Beyond these a file holds something else; common practice, no source.
MOST_CV: Final = 10.0
MOST_FISH: Final = 1_000_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How fish and nets differ: coefficients of variation, as fractions."""

    within_net_cv: float
    between_net_cv: float
    common_sd: float = 0.01


# Within: farmed trout, 375 +- 95 g (n = 130, AJAS abstract), 0.25. Between: common
# practice, no source, for nets from different places of a crowded unit.
TYPICAL: Final = Spread(within_net_cv=0.25, between_net_cv=0.09)

FAIR_NETTING: Final = (
    "Crowd the fish first, gently, so that all of them can be reached by the net.",
    "Take nets from several places and depths, not one net from the near corner.",
    "Do not let the first net alone stand for all: bold, hungry or slow fish lead.",
    "Stir no feed in to lure them: hungry fish come, the rest do not.",
    "Weigh and count every fish of a dip; picking some out of it is a choice by size.",
    "Use a mesh that holds the smallest fish: no interval covers a size it misses.",
    "Wet hands, short air exposure, cool water; no sampling in heat or at low oxygen.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A number of nets and what it would give.

    ``half_width_percent`` is that of the interval at ``level``, expected.
    """

    nets: int
    fish_per_net: int
    half_width_percent: float
    level: float

    @property
    def fish_count(self) -> int:
        """Fish handled."""
        return self.nets * self.fish_per_net


def spread_of(estimate: PopulationEstimate) -> Spread:
    """Return the spread that a sample showed."""
    common = [s.relative_sd for s in estimate.sources if s.scope == "sample"]
    return Spread(
        within_net_cv=estimate.within_net_cv,
        between_net_cv=estimate.between_net_cv,
        common_sd=math.hypot(*common) if common else TYPICAL.common_sd,
    )


def relative_sd(
    spread: Spread, *, nets: int, fish_per_net: int, count_in_unit: int | None = None
) -> float:
    """Return the expected relative standard error of the population's mean."""
    sampling = spread.between_net_cv**2 / nets + spread.within_net_cv**2 / (
        nets * fish_per_net
    )
    if count_in_unit is not None:
        sampling *= max(1.0 - nets * fish_per_net / count_in_unit, 0.0)
    return math.sqrt(sampling + spread.common_sd**2)


def plan_nets(
    spread: Spread,
    *,
    half_width: float,
    fish_per_net: int,
    level: float = 0.9,
    count_in_unit: int | None = None,
) -> Plan:
    """Return the fewest nets of so many fish that give +- ``half_width``.

    Raises
    ------
    PlanError
        If no number of nets does, with what the most would give.
    """
    if not 0.0 < half_width < 1.0 or fish_per_net < 1:
        raise PlanError.out_of_range(half_width, fish_per_net)
    z = float(ndtri(0.5 + level / 2.0))
    most = MOST_NETS
    if count_in_unit is not None:
        most = max(min(most, count_in_unit // fish_per_net), 1)
    reached = 1.0
    for nets in range(1, most + 1):
        reached = z * relative_sd(
            spread, nets=nets, fish_per_net=fish_per_net, count_in_unit=count_in_unit
        )
        if reached <= half_width:
            return Plan(
                nets=nets,
                fish_per_net=fish_per_net,
                half_width_percent=100.0 * reached,
                level=level,
            )
    raise PlanError.out_of_reach(half_width, most, reached)


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A sample already taken: its spread, size and interval."""

    spread: Spread
    nets: int
    fish_count: int
    half_width_percent: float
    level: float
    count_in_unit: int | None = None


def taken(estimate: PopulationEstimate) -> Taken:
    """Return what planning needs of an estimate."""
    mean = estimate.mean_weight_g
    return Taken(
        spread=spread_of(estimate),
        nets=len(estimate.nets),
        fish_count=estimate.fish_handled,
        half_width_percent=50.0 * (mean.high - mean.low) / mean.value,
        level=estimate.level,
        count_in_unit=estimate.count_in_unit,
    )


def taken_from_json(text: str, name: str) -> Taken:
    """Return what planning needs of the JSON of ``fishmeasure sample``.

    Parameters
    ----------
    text
        Content of the file.
    name
        Of the file, for messages.

    Raises
    ------
    SampleJsonError
        If the text is no sample's, or a figure cannot be.
    """
    try:
        values = json.loads(text)
        low, high = values["mean_weight_interval_g"]
        found = Taken(
            spread=Spread(
                within_net_cv=float(values["within_net_cv"]),
                between_net_cv=float(values["between_net_cv"]),
                common_sd=TYPICAL.common_sd,
            ),
            nets=len(values["nets"]),
            fish_count=int(values["fish_handled"]),
            half_width_percent=50.0 * (high - low) / float(values["mean_weight_g"]),
            level=float(values["level"]),
            count_in_unit=values["count_in_unit"],
        )
    except (ValueError, LookupError, TypeError, ArithmeticError, RecursionError):
        raise SampleJsonError(name) from None
    if not _can_be(found):
        raise SampleJsonError(name)
    return found


def _can_be(sample: Taken) -> bool:
    """Return whether the figures can be those of a sample; NaN is none."""
    count = sample.count_in_unit
    return (
        0.0 <= sample.spread.within_net_cv <= MOST_CV
        and 0.0 <= sample.spread.between_net_cv <= MOST_CV
        and 1 <= sample.nets <= sample.fish_count <= MOST_FISH
        and 0.0 < sample.half_width_percent < math.inf
        and 0.0 < sample.level < 1.0
        and (count is None or (type(count) is int and 1 <= count <= MOST_FISH))
    )


def one_more_net(sample: Taken, *, fish_per_net: int | None = None) -> Plan:
    """Return what one more net, weighed and photographed, would be expected to give.

    The interval shrinks as the planning formula says, from its present width; the
    new net is as large as the others were unless told otherwise. Photos alone leave
    the level to the published line, which no further photo improves: weigh a net.
    """
    before = _sampling_variance(sample, nets=sample.nets, fish=sample.fish_count)
    more = fish_per_net or max(round(sample.fish_count / sample.nets), 1)
    after = _sampling_variance(
        sample, nets=sample.nets + 1, fish=sample.fish_count + more
    )
    common = sample.spread.common_sd**2
    shrink = math.sqrt(min((after + common) / (before + common), 1.0))
    return Plan(
        nets=sample.nets + 1,
        fish_per_net=more,
        half_width_percent=sample.half_width_percent * shrink,
        level=sample.level,
    )


def _sampling_variance(sample: Taken, *, nets: int, fish: int) -> float:
    spread = sample.spread
    variance = spread.between_net_cv**2 / nets + spread.within_net_cv**2 / fish
    if sample.count_in_unit is not None:
        variance *= max(1.0 - fish / sample.count_in_unit, 0.0)
    return variance
