"""What to tell the grower about a sample."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message, Reason, number
from fishmeasure.estimation.model.record import (
    DoubtfulLength,
    NetReport,
    SizeGroups,
    StockLine,
)
from fishmeasure.estimation.nets import NetWeighing, Scale
from fishmeasure.estimation.slips import likely_slips
from fishmeasure.species import LengthWeight

# Repeated readings further apart than this many sds of one reading are not repeats:
# the range of 2 to 4 normal readings exceeds 4 sd in 0.5 to 2.5 % of cases
# (studentised range tables).
_REPEAT_RANGE_SDS: Final = 4.5

# A stock's level over the published one, as a factor either way. Salmonids: K from 0.8
# (extremely poor) to 1.6 (trophy fish), a factor of 2 in all (Barnham & Baxter 1998,
# from memory, unchecked); a starved brown trout of 23 in and 1 lb 12 oz (Marquand
# 2018) has 0.33 of the published weight, and is one fish, not a stock's mean.
_UNUSUAL: Final = 1.5
_IMPOSSIBLE: Final = 3.0

_SOME_NET: Final = Message.of("some-net")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Facts:
    """All that the notes are made from."""

    mode: str
    nets: tuple[NetWeighing, ...]
    repeated: tuple[Reason, ...]
    used: tuple[NetWeighing, ...]
    reports: tuple[NetReport, ...]
    doubtful: tuple[DoubtfulLength, ...]
    groups: SizeGroups | None
    mean_weight_g: Estimate
    line: StockLine
    published: LengthWeight
    count_in_unit: int | None
    scale: Scale


def make_problems(facts: Facts) -> tuple[Problem, ...]:
    """Return the notes, the weightiest first."""
    return (
        *_about_level(facts),
        *_about_mode(facts),
        *likely_slips(facts.nets),
        *_about_nets(facts),
        *_about_heaps(facts),
        *_about_fish(facts),
        *_about_count(facts),
    )


def _about_level(facts: Facts) -> list[Problem]:
    """Say that weights and lengths do not belong to the same fish, or hardly."""
    ratios = _over_published(facts)
    if ratios and (min(ratios) > _IMPOSSIBLE or max(ratios) < 1.0 / _IMPOSSIBLE):
        return [
            Problem.of(
                "far-from-published",
                fatal=True,
                case="nets" if _differ(ratios) else "net",
                least=min(ratios),
                most=max(ratios),
            )
        ]
    level = facts.line.level_ratio
    if level.low > _UNUSUAL or level.high < 1.0 / _UNUSUAL:
        return [
            Problem.of(
                "far-from-published",
                case="heavy" if level.value > 1.0 else "light",
                times=level.value,
            )
        ]
    return []


def _over_published(facts: Facts) -> list[float]:
    """Return each net's weight over the published one of its lengths, plainly."""
    published, ratios = facts.published, []
    for net in facts.nets:
        if net.weight_g is not None and net.complete_fish:
            lengths_cm = np.array([f.fork_length_mm / 10 for f in net.complete_fish])
            published_g = (
                net.fish_count * published.a_g_cm * np.mean(lengths_cm**published.b)
            )
            ratios.append(float(net.weight_g / published_g))
    return ratios


def _differ(ratios: list[float]) -> bool:
    """Return whether they do in the digits that are told."""
    return number(min(ratios), 2) != number(max(ratios), 2)


def _about_mode(facts: Facts) -> list[Problem]:
    notes = []
    mean = facts.mean_weight_g
    if facts.mode == "photo-only":
        notes.append(
            Problem.of(
                "photo-only",
                case="own-line" if facts.published.relative_sd < 0.15 else "published",
                relative_sd=mean.sd / mean.value,
            )
        )
    if facts.mode == "bulk-only":
        notes.append(Problem.of("bulk-only"))
    if len(facts.used) == 1:
        notes.append(Problem.of("one-net"))
    return notes


def _about_nets(facts: Facts) -> list[Problem]:
    notes = [
        Problem.of("net-disagrees", net=r.label, reason=r.reason)
        for r in facts.reports
        if r.flag
    ]
    notes += [
        Problem.of("repeat-photos", net=label or _SOME_NET) for label in facts.repeated
    ]
    for net in facts.nets:
        name = net.label or _SOME_NET
        if not (net.weighed or net.complete_fish):
            notes.append(Problem.of("net-unused", net=name))
        if len(net.fish) > net.fish_count:
            notes.append(
                Problem.of(
                    "count-differs",
                    case="net",
                    net=name,
                    in_photos=len(net.fish),
                    counted=net.fish_count,
                )
            )
        readings = net.readings_g
        spread = max(readings) - min(readings) if readings else 0.0
        if spread > _REPEAT_RANGE_SDS * net.reading_sd_g(facts.scale):
            notes.append(Problem.of("repeats-differ", net=name, apart_g=spread))
    return notes


def _about_fish(facts: Facts) -> list[Problem]:
    notes = []
    if facts.groups is not None:
        groups = facts.groups
        notes.append(
            Problem.of(
                "two-size-groups",
                share=groups.small_fraction,
                small_g=groups.small_mean_weight_g,
                large_g=groups.large_mean_weight_g,
            )
        )
    if facts.doubtful:
        places = [
            Message.of(
                "length-in-net", length_mm=d.fork_length_mm, net=d.net or _SOME_NET
            )
            for d in facts.doubtful
        ]
        notes.append(Problem.of("doubtful-lengths", places=places))
    lengths = np.array(
        [f.fork_length_mm for net in facts.used for f in net.complete_fish]
    )
    low, high = facts.published.min_length_mm, facts.published.max_length_mm
    outside = int(np.sum((lengths < low) | (lengths > high))) if len(lengths) else 0
    if outside:
        notes.append(
            Problem.of(
                "outside-species-range",
                case="lengths",
                outside=outside,
                measured=len(lengths),
                least_mm=low,
                most_mm=high,
            )
        )
    mean, published = facts.mean_weight_g, facts.published
    least_g, most_g = (
        published.a_g_cm * (end / 10.0) ** published.b for end in (low, high)
    )
    if not len(lengths) and (mean.high < least_g or mean.low > most_g):
        notes.append(
            Problem.of(
                "outside-species-range",
                case="mean",
                mean_g=mean.value,
                least_g=least_g,
                most_g=most_g,
            )
        )
    return notes


def _about_heaps(facts: Facts) -> list[Problem]:
    """Say of which nets fish that could not be seen were allowed for."""
    return [
        Problem.of(
            "heap-net",
            net=net.label,
            measured=len(net.complete_fish),
            netted=net.fish_count,
        )
        for net in facts.used
        if net.heap and net.complete_fish
    ]


def _about_count(facts: Facts) -> list[Problem]:
    handled = sum(net.fish_count for net in facts.nets)
    if facts.count_in_unit is None or handled <= facts.count_in_unit:
        return []
    return [
        Problem.of(
            "count-in-unit-too-small",
            netted=handled,
            count_in_unit=facts.count_in_unit,
        )
    ]
