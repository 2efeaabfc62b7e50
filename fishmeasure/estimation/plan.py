"""How many nets of how many fish, before a sample and after it.

The relative variance of the mean of k nets of m fish, from N in the unit, is::

    (between^2 / k + within^2 / (k m)) (1 - k m / N) + common^2

with the CVs between nets beyond chance and within a net (two-stage sampling, Cochran
1977, chapter 10, the correction taken on the fish), and the error that more nets do
not shrink: drip water, scale, which fish are netted.

How far nets differ is told by few nets, so the interval is Student's, its degrees of
freedom those of the variance between nets among all of it (Satterthwaite 1946). A
spread that was seen in a pilot is not known either: a plan from one takes the spread
that is not exceeded in four of five pilots (the upper limit of Browne 1995, from
memory).
"""

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final, Literal

from scipy.special import chdtri, stdtrit

from fishmeasure.base.errors import PlanError, SampleJsonError
from fishmeasure.base.words import Message
from fishmeasure.estimation.model import PopulationEstimate

MOST_NETS: Final = 200
# Beyond these a file holds something else; common practice, no source.
MOST_CV: Final = 10.0
MOST_FISH: Final = 1_000_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How fish and nets differ: coefficients of variation, as fractions.

    ``pilot_nets`` and ``pilot_fish`` are those that told it, None where it is supposed.
    """

    within_net_cv: float
    between_net_cv: float
    common_sd: float = 0.022
    pilot_nets: int | None = None
    pilot_fish: int | None = None

    def assured(self) -> "Spread":
        """Return the spread that is not exceeded in four of five such pilots."""
        if self.pilot_nets is None or self.pilot_fish is None:
            return self
        between = self.pilot_nets - 1.0 + _PRIOR_FREEDOM
        within = max(self.pilot_fish - self.pilot_nets, 0.0) + _PRIOR_FREEDOM
        return replace(
            self,
            between_net_cv=self.between_net_cv * _upper(between),
            within_net_cv=self.within_net_cv * _upper(within),
            pilot_nets=None,
            pilot_fish=None,
        )


# What the estimate's prior of the spread between nets is worth, in nets (see ``grid``).
_PRIOR_FREEDOM: Final = 2.0
_ASSURANCE: Final = 0.8  # common practice


def _upper(freedom: float) -> float:
    """Return the sd over its estimate that is not exceeded so often (chi squared)."""
    return math.sqrt(freedom / float(chdtri(freedom, _ASSURANCE)))


# Within: farmed trout, 375 +- 95 g (n = 130, AJAS abstract), 0.25. Between: common
# practice, no source, for nets from different places of a crowded unit.
TYPICAL: Final = Spread(within_net_cv=0.25, between_net_cv=0.09)

FAIR_NETTING: Final = (
    Message.of("fair-netting", case="crowd"),
    Message.of("fair-netting", case="places"),
    Message.of("fair-netting", case="first"),
    Message.of("fair-netting", case="lure"),
    Message.of("fair-netting", case="whole-dip"),
    Message.of("fair-netting", case="mesh"),
    Message.of("fair-netting", case="welfare"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A number of nets and what it would give.

    ``half_width_percent`` is that of the interval at ``level``, expected; from a pilot,
    what four of five such plans keep.
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
        pilot_nets=len(estimate.nets),
        pilot_fish=max(estimate.fish_measured, len(estimate.nets)),
    )


def relative_sd(
    spread: Spread, *, nets: int, fish_per_net: float, count_in_unit: int | None = None
) -> float:
    """Return the expected relative standard error of the population's mean."""
    sampling = spread.between_net_cv**2 / nets + spread.within_net_cv**2 / (
        nets * fish_per_net
    )
    if count_in_unit is not None:
        sampling *= max(1.0 - nets * fish_per_net / count_in_unit, 0.0)
    return math.sqrt(sampling + spread.common_sd**2)


def half_width_of(
    spread: Spread,
    *,
    nets: int,
    fish_per_net: float,
    level: float = 0.9,
    count_in_unit: int | None = None,
) -> float:
    """Return the expected half width of the interval, a fraction of the mean."""
    sd = relative_sd(
        spread, nets=nets, fish_per_net=fish_per_net, count_in_unit=count_in_unit
    )
    left = 1.0
    if count_in_unit is not None:
        left = max(1.0 - nets * fish_per_net / count_in_unit, 0.0)
    between = left * spread.between_net_cv**2 / nets
    if between <= 0.0:
        return sd * student(math.inf, level)
    return sd * student(sd**4 / (between**2 / max(nets - 1, 1)), level)


def student(freedom: float, level: float) -> float:
    """Return Student's quantile of a two-sided interval at that level."""
    return float(stdtrit(min(freedom, _AS_GOOD_AS_NORMAL), 0.5 + level / 2.0))


_AS_GOOD_AS_NORMAL: Final = 1e6


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
    spread = spread.assured()
    most = MOST_NETS
    if count_in_unit is not None:
        most = max(min(most, count_in_unit // fish_per_net), 1)
    reached = 1.0
    for nets in range(1, most + 1):
        reached = half_width_of(
            spread,
            nets=nets,
            fish_per_net=fish_per_net,
            level=level,
            count_in_unit=count_in_unit,
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
        found = taken_of_answer(json.loads(text))
    except (ValueError, LookupError, TypeError, ArithmeticError, RecursionError):
        raise SampleJsonError(name) from None
    if not _can_be(found):
        raise SampleJsonError(name)
    return found


def taken_of_answer(values: Mapping[str, Any]) -> Taken:
    """Return what planning needs of a sample's JSON."""
    low, high = values["mean_weight_interval_g"]
    return Taken(
        spread=spread_of_answer(values),
        nets=len(values["nets"]),
        fish_count=int(values["fish_handled"]),
        half_width_percent=50.0 * (high - low) / float(values["mean_weight_g"]),
        level=float(values["level"]),
        count_in_unit=values["count_in_unit"],
    )


def spread_of_answer(values: Mapping[str, Any]) -> Spread:
    """Return the spread in a sample's JSON; what it does not tell is typical."""
    nets = len(values["nets"])
    return Spread(
        within_net_cv=_known(values["within_net_cv"], TYPICAL.within_net_cv),
        between_net_cv=_known(values["between_net_cv"], TYPICAL.between_net_cv),
        common_sd=TYPICAL.common_sd,
        pilot_nets=nets,
        pilot_fish=max(int(values.get("fish_measured", nets)), nets),
    )


def _known(value: float | None, typical: float) -> float:
    """Return the figure; nets that were only weighed tell none, so the typical one."""
    if value is None:
        return typical
    if not math.isfinite(value):
        raise ValueError(value)
    return value


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
    more = fish_per_net or max(round(sample.fish_count / sample.nets), 1)
    before = _taken_half_width(sample, nets=sample.nets, fish=sample.fish_count)
    after = _taken_half_width(
        sample, nets=sample.nets + 1, fish=sample.fish_count + more
    )
    shrink = min(after / before, 1.0)
    return Plan(
        nets=sample.nets + 1,
        fish_per_net=more,
        half_width_percent=sample.half_width_percent * shrink,
        level=sample.level,
    )


def _taken_half_width(sample: Taken, *, nets: int, fish: int) -> float:
    """Return what the formula gives for so many nets and fish in all."""
    return half_width_of(
        sample.spread,
        nets=nets,
        fish_per_net=fish / nets,
        level=sample.level,
        count_in_unit=sample.count_in_unit,
    )


# --- after each net ---------------------------------------------------------------

# A net that shrinks the interval by less than this is hardly worth the fish's stress;
# common practice, no source.
_HARDLY: Final = 0.05
USUAL_AIM: Final = 0.10
"""Half width that is aimed at where none is said: +- 10 %, common practice."""
_MOST_MORE: Final = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Next:
    """Whether one more net is worth it.

    Attributes
    ----------
    verdict
        "enough": the aim is reached. "worth-it": it is not, and more nets reach it.
        "out-of-reach": so many more would be needed, or none would do, that another
        way is better (weigh the whole unit, or live with the interval).
    nets_more
        Nets that reach the aim, expected; 0 where it is reached, None out of reach.
    one_more
        What the next net alone would give.
    """

    verdict: Literal["enough", "worth-it", "out-of-reach"]
    nets_more: int | None
    one_more: Plan


def next_net(
    sample: Taken, *, aim: float = USUAL_AIM, fish_per_net: int | None = None
) -> Next:
    """Return whether one more net is worth it, after each net of a sample.

    The aim is a fraction of the mean. Stopping when it is reached is looking at the
    interval again and again; as its width, not its place, decides, it stays honest
    (the rule of Chow & Robbins 1965, from memory).
    """
    one_more = one_more_net(sample, fish_per_net=fish_per_net)
    if sample.half_width_percent <= 100.0 * aim:
        return Next(verdict="enough", nets_more=0, one_more=one_more)
    grown = sample
    for more in range(1, _MOST_MORE + 1):
        then = one_more_net(grown, fish_per_net=fish_per_net)
        if then.half_width_percent <= 100.0 * aim:
            return Next(verdict="worth-it", nets_more=more, one_more=one_more)
        if then.half_width_percent > (1.0 - 0.1 * _HARDLY) * grown.half_width_percent:
            break
        grown = replace(
            grown,
            nets=then.nets,
            fish_count=grown.fish_count + then.fish_per_net,
            half_width_percent=then.half_width_percent,
        )
    return Next(verdict="out-of-reach", nets_more=None, one_more=one_more)
