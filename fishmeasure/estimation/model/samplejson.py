"""A ``PopulationEstimate`` as the JSON of ``fishmeasure sample``."""

import math
from typing import Any, Final

from fishmeasure.base.estimate import Estimate
from fishmeasure.estimation.model.record import NetReport, PopulationEstimate

Json = dict[str, Any]

_DIGITS: Final = 6


def estimate_to_json(estimate: PopulationEstimate) -> Json:
    """Return the public fields; those that don't apply are null."""
    line = estimate.line
    return {
        "mode": estimate.mode,
        "level": estimate.level,
        **_figure("mean_weight", "_g", estimate.mean_weight_g),
        **_figure("handled_mean_weight", "_g", estimate.handled_mean_weight_g),
        **_figure("cv", "", estimate.cv),
        **_figure("fork_length_mean", "_mm", estimate.fork_length_mean_mm),
        **_figure("condition_factor", "", estimate.condition_factor),
        **_figure("a", "", line.a_g_cm),
        **_figure("b", "", line.b),
        "published_a": _number(line.published_a_g_cm),
        "published_b": _number(line.published_b),
        **_figure("weight_over_published", "", line.level_ratio),
        "weight_quantiles_g": {
            f"{q.below_fraction:g}": _number(q.weight_g.value)
            for q in estimate.weight_quantiles_g
        },
        "weight_quantile_intervals_g": {
            f"{q.below_fraction:g}": _interval(q.weight_g)
            for q in estimate.weight_quantiles_g
        },
        "between_net_cv": _number(estimate.between_net_cv),
        "within_net_cv": _number(estimate.within_net_cv),
        "condition_sd": _number(estimate.condition_sd),
        "fish_measured": estimate.fish_measured,
        "fish_weighed": estimate.fish_weighed,
        "fish_handled": estimate.fish_handled,
        "count_in_unit": estimate.count_in_unit,
        **_figure("biomass", "_kg", estimate.biomass_kg),
        "nets": [_net(report) for report in estimate.nets],
        **_findings(estimate),
        "problems": [
            {"code": problem.code, "message": problem.message}
            for problem in estimate.problems
        ],
    }


_RENAMED: Final = {
    "book_a": "published_a",
    "book_b": "published_b",
    "weight_over_book": "weight_over_published",
    "weight_over_book_interval": "weight_over_published_interval",
}


def estimate_as_today(stored: Json) -> Json:
    """Return stored JSON of an estimate with the names of today."""
    return {_RENAMED.get(name, name): value for name, value in stored.items()}


def _findings(estimate: PopulationEstimate) -> Json:
    """Return the doubtful lengths, the size groups and the sources of error."""
    return {
        "doubtful_lengths": [
            {
                "net": fish.net,
                "fork_length_mm": _number(fish.fork_length_mm),
                "probability": _number(fish.probability),
            }
            for fish in estimate.doubtful_lengths
        ],
        "size_groups": None
        if estimate.size_groups is None
        else {
            "small_fraction": _number(estimate.size_groups.small_fraction),
            "small_mean_weight_g": _number(estimate.size_groups.small_mean_weight_g),
            "large_mean_weight_g": _number(estimate.size_groups.large_mean_weight_g),
        },
        "sources": [
            {
                "name": source.name,
                "relative_sd": _number(source.relative_sd),
                "scope": source.scope,
            }
            for source in estimate.sources
        ],
    }


def _net(report: NetReport) -> Json:
    return {
        "net": report.label,
        "fish": report.fish_count,
        "fish_measured": report.fish_measured,
        "weight_g": _number(report.weight_g),
        "mean_weight_g": _number(report.mean_weight_g),
        "residual_percent": _number(report.residual_percent),
        "residual_z": _number(report.residual_z),
        "fault_probability": _number(report.fault_probability),
        "flag": report.flag or None,
        "reason": report.reason or None,
    }


def _figure(name: str, unit: str, estimate: Estimate | None) -> Json:
    return {
        f"{name}{unit}": None if estimate is None else _number(estimate.value),
        f"{name}_interval{unit}": None if estimate is None else _interval(estimate),
    }


def _interval(estimate: Estimate) -> list[float | None]:
    return [_number(estimate.low), _number(estimate.high)]


def _number(value: float | None) -> float | None:
    """Return the number to six figures; JSON has no infinities."""
    if value is None or not math.isfinite(value):
        return None
    return float(f"{value:.{_DIGITS}g}")
