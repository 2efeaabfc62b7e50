"""What a sample says of the fish in the unit, as JSON has it."""

import math
from collections.abc import Mapping
from typing import Annotated, Any, Final

from pydantic import Field

from fishmeasure.base.estimate import Estimate, UncertaintySource
from fishmeasure.base.flags import Problem
from fishmeasure.base.record import field_names, plain, read, record
from fishmeasure.base.words import Message
from fishmeasure.estimation.model.record import (
    Allowance,
    DoubtfulLength,
    NetReport,
    PopulationEstimate,
    SizeGroups,
)

Json = dict[str, Any]
Number = float | None
Interval = tuple[Number, Number] | None
_DIGITS: Final = 6


def _said(words: str, **more: Any) -> Any:
    return Field(description=words, **more)


@record(frozen=True, slots=True, kw_only=True)
class NetAnswer:
    """One net beside what all nets say."""

    net: Annotated[str, _said("Its label or number.", examples=["net 1"])]
    fish: Annotated[int, _said("Fish in it.")]
    fish_measured: Annotated[int, _said("Fish of it that photos measured.")]
    weight_g: Annotated[Number, _said("Net weight without drip water, g.")]
    mean_weight_g: Annotated[Number, _said("Weight over count, g.")]
    residual_percent: Annotated[
        Number, _said("How far it lies from what the rest foretells, %.")
    ]
    residual_z: Annotated[Number, _said("The same, in standard errors.")]
    fault_probability: Annotated[
        Number, _said("Chance that something is wrong with it, 0 to 1.")
    ]
    flag: Annotated[str | None, _said("A word where it does not agree.")]
    reason: Annotated[Message | None, _said("The same as a sentence.")]


@record(frozen=True, slots=True, kw_only=True)
class SampleAnswer:
    """Mean weight and spread of the fish in the unit, each with its interval."""

    mode: Annotated[str, _said("What it rests on: weighings, lengths or both.")]
    level: float
    mean_weight_g: Annotated[
        float, _said("Of the fish in the unit, g.", examples=[163.0])
    ]
    mean_weight_interval_g: Annotated[
        tuple[float, float], _said("[low, high], g.", examples=[[151.0, 176.0]])
    ]
    handled_mean_weight_g: Annotated[Number, _said("Of the netted fish, g.")]
    handled_mean_weight_interval_g: Annotated[Interval, _said("[low, high], g.")]
    cv: Annotated[Number, _said("Spread of single weights, a fraction.")]
    cv_interval: Annotated[Interval, _said("[low, high], a fraction.")]
    fork_length_mean_mm: Annotated[Number, _said("Mean fork length, mm.")]
    fork_length_mean_interval_mm: Annotated[Interval, _said("[low, high], mm.")]
    condition_factor: Number
    condition_factor_interval: Annotated[Interval, _said("[low, high], g and cm.")]
    a: Annotated[Number, _said("Of W = a L^b, this stock's, g per cm^b.")]
    a_interval: Annotated[Interval, _said("[low, high], g per cm^b.")] = None
    b: Annotated[Number, _said("Exponent of W = a L^b, this stock's.")]
    b_interval: Annotated[Interval, _said("[low, high] of the exponent.")] = None
    published_a: Annotated[Number, _said("The published a, g per cm^b.")]
    published_b: Annotated[Number, _said("The published exponent.")]
    weight_over_published: Annotated[
        Number, _said("Weight over the published one at the same length, a fraction.")
    ] = None
    weight_over_published_interval: Annotated[
        Interval, _said("[low, high], a fraction.")
    ] = None
    weight_quantiles_g: Annotated[
        dict[str, Number], _said("Weight, g, by the share of fish that are lighter.")
    ]
    weight_quantile_intervals_g: Annotated[
        dict[str, Interval], _said("[low, high] of each, g.")
    ]
    between_net_cv: Annotated[Number, _said("Of nets' means, a fraction.")]
    within_net_cv: Annotated[Number, _said("Within a net, a fraction.")]
    condition_sd: Annotated[
        Number, _said("Of ln weight about the stock's line, a fraction.")
    ] = None
    fish_measured: Annotated[int, _said("Fish that photos measured.")]
    fish_weighed: Annotated[int, _said("Fish weighed.")]
    fish_handled: Annotated[int, _said("Fish in all nets.")] = 0
    count_in_unit: Annotated[int | None, _said("Fish in the unit, as sent.")]
    biomass_kg: Annotated[Number, _said("Fish in the unit, kg.")]
    biomass_interval_kg: Annotated[Interval, _said("[low, high], kg.")]
    nets: Annotated[tuple[NetAnswer, ...], _said("In the order sent.")]
    corrections: Annotated[
        tuple[Allowance, ...], _said("Taken off the weights as read.")
    ] = ()
    doubtful_lengths: Annotated[
        tuple[DoubtfulLength, ...], _said("To look at again.")
    ] = ()
    size_groups: Annotated[SizeGroups | None, _said("Where there are two.")] = None
    sources: Annotated[
        tuple[UncertaintySource, ...], _said("What the interval is made of.")
    ] = ()
    problems: Annotated[tuple[Problem, ...], _said("Told beside the estimate.")] = ()


# The weights of k nets beside their lengths tell the sd of condition to 1 / sqrt(2 (k -
# 1)) of itself; with fewer it is what is typical, which is known to 0.3 (``grid``).
_NETS_FOR_CONDITION: Final = 7


def answer_of(estimate: PopulationEstimate) -> SampleAnswer:
    """Return the public figures; those that don't apply are None."""
    line = estimate.line
    quantiles = {
        f"{q.below_fraction:g}": q.weight_g
        for q in estimate.weight_quantiles_g
        if estimate.spread_is_measured
    }
    measured, level = estimate.spread_is_measured, estimate.level_is_measured
    several = measured and len(estimate.nets) > 1  # one net shows not how nets differ
    both = sum(
        1 for net in estimate.nets if net.weight_g is not None and net.fish_measured
    )
    figures: Json = {
        **_figure("mean_weight", "_g", estimate.mean_weight_g),
        **_figure("handled_mean_weight", "_g", estimate.handled_mean_weight_g),
        **_figure("cv", "", estimate.cv if measured else None),
        **_figure("fork_length_mean", "_mm", estimate.fork_length_mean_mm),
        **_figure("condition_factor", "", estimate.condition_factor),
        **_figure("a", "", line.a_g_cm if level else None),
        **_figure("b", "", line.b if level else None),
        **_figure("weight_over_published", "", line.level_ratio if level else None),
        **_figure("biomass", "_kg", estimate.biomass_kg),
    }
    return SampleAnswer(
        **figures,
        **{name: getattr(estimate, name) for name in _AS_IT_IS},
        published_a=_number(line.published_a_g_cm),
        published_b=_number(line.published_b),
        weight_quantiles_g={k: _number(q.value) for k, q in quantiles.items()},
        weight_quantile_intervals_g={k: _interval(q) for k, q in quantiles.items()},
        between_net_cv=_number(estimate.between_net_cv if several else None),
        within_net_cv=_number(estimate.within_net_cv if measured else None),
        condition_sd=_number(
            estimate.condition_sd if both >= _NETS_FOR_CONDITION else None
        ),
        nets=tuple(_net(report) for report in estimate.nets),
    )


def estimate_to_json(estimate: PopulationEstimate) -> Json:
    """Return the public figures as JSON has them; those that don't apply are null."""
    data: Json = plain(answer_of(estimate))
    return data


_AS_IT_IS: Final = (
    "mode",
    "level",
    "fish_measured",
    "fish_weighed",
    "fish_handled",
    "count_in_unit",
    "corrections",
    "doubtful_lengths",
    "size_groups",
    "sources",
    "problems",
)


def _net(report: NetReport) -> NetAnswer:
    return NetAnswer(
        net=str(report.label),
        fish=report.fish_count,
        fish_measured=report.fish_measured,
        weight_g=_number(report.weight_g),
        mean_weight_g=_number(report.mean_weight_g),
        residual_percent=_number(report.residual_percent),
        residual_z=_number(report.residual_z),
        fault_probability=_number(report.fault_probability),
        flag=report.flag or None,
        reason=report.reason,
    )


def _figure(name: str, unit: str, estimate: Estimate | None) -> Json:
    return {
        f"{name}{unit}": None if estimate is None else _number(estimate.value),
        f"{name}_interval{unit}": None if estimate is None else _interval(estimate),
    }


def _interval(estimate: Estimate) -> tuple[Number, Number]:
    return _number(estimate.low), _number(estimate.high)


def _number(value: Number) -> Number:
    """Return the number to six figures; JSON has no infinities."""
    if value is None or not math.isfinite(value):
        return None
    return float(f"{value:.{_DIGITS}g}")


_RENAMED: Final = {
    "book_a": "published_a",
    "book_b": "published_b",
    "weight_over_book": "weight_over_published",
    "weight_over_book_interval": "weight_over_published_interval",
}


def answer_from_json(stored: Mapping[str, Any]) -> SampleAnswer:
    """Return the answer that this or an earlier program wrote."""
    known = field_names(SampleAnswer)
    values = {_RENAMED.get(name, name): value for name, value in stored.items()}
    return read(SampleAnswer, {k: v for k, v in values.items() if k in known})
