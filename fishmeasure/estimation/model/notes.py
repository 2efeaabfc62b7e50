"""What to tell the grower about a sample."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import number
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


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Facts:
    """All that the notes are made from."""

    mode: str
    nets: tuple[NetWeighing, ...]
    repeated: tuple[str, ...]
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
        *_about_fish(facts),
        *_about_count(facts),
    )


def _about_level(facts: Facts) -> list[Problem]:
    """Say that weights and lengths do not belong to the same fish, or hardly."""
    check = "Check the scale's unit, tare, counts, print scale and species"
    ratios = _over_published(facts)
    if ratios and (min(ratios) > _IMPOSSIBLE or max(ratios) < 1.0 / _IMPOSSIBLE):
        message = (
            f"At its lengths a net weighs {_times(ratios)} times what is "
            f"published, which no stock does. {check}; do not use these figures."
        )
        return [Problem(code="far-from-published", message=message, fatal=True)]
    level = facts.line.level_ratio
    if level.low > _UNUSUAL or level.high < 1.0 / _UNUSUAL:
        shape = "heavy" if level.value > 1.0 else "light"
        message = (
            f"At these lengths the fish weigh {number(level.value, 2)} times "
            f"what is published. {check}. If all is right, these fish are unusually "
            f"{shape} for their length."
        )
        return [Problem(code="far-from-published", message=message)]
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


def _times(ratios: list[float]) -> str:
    low, high = (number(end, 2) for end in (min(ratios), max(ratios)))
    return low if low == high else f"{low} to {high}"


def _about_mode(facts: Facts) -> list[Problem]:
    notes = []
    mean = facts.mean_weight_g
    percent = 100.0 * mean.sd / mean.value
    if facts.mode == "photo-only":
        notes.append(
            Problem(
                code="photo-only",
                message="No net was weighed, so the weights stand on "
                f"{'this' if facts.published.relative_sd < 0.15 else 'a published'} "
                f"length-weight line alone: standard error {percent:.0f} %. "
                "Weigh one counted net of the same fish to settle the level.",
            )
        )
    if facts.mode == "bulk-only":
        notes.append(
            Problem(
                code="bulk-only",
                message="No fish was measured, so the spread of sizes is that of "
                "typical batches, not this one's. Photograph a net to see it.",
            )
        )
    if len(facts.used) == 1:
        notes.append(
            Problem(
                code="one-net",
                message="One net cannot show how nets differ; that part of the error "
                "is typical, not measured. Take another from another place.",
            )
        )
    return notes


def _about_nets(facts: Facts) -> list[Problem]:
    notes = [
        Problem(code="net-disagrees", message=f"{_named(r.label)}: {r.reason}")
        for r in facts.reports
        if r.flag
    ]
    notes += [
        Problem(
            code="repeat-photos",
            message=f"{_named(label or 'a net')}: its photos show more fish together "
            "than were counted, so they show the same ones. The photo with most fish "
            "measured was used.",
        )
        for label in facts.repeated
    ]
    for net in facts.nets:
        name = _named(net.label or "a net")
        if not (net.weighed or net.complete_fish):
            notes.append(
                Problem(
                    code="net-unused",
                    message=f"{name} has no weight and no fish whose length can be "
                    "used, so it tells nothing.",
                )
            )
        if len(net.fish) > net.fish_count:
            notes.append(
                Problem(
                    code="count-differs",
                    message=f"{name}: the photos show {len(net.fish)} fish but "
                    f"{net.fish_count} were counted. Correct the one that is wrong.",
                )
            )
        readings = net.readings_g
        spread = max(readings) - min(readings) if readings else 0.0
        if spread > _REPEAT_RANGE_SDS * facts.scale.reading_sd_g():
            notes.append(
                Problem(
                    code="repeats-differ",
                    message=f"{name}: the repeated weighings are {spread:.0f} g apart, "
                    "more than this scale explains. Weigh it once more.",
                )
            )
    return notes


def _about_fish(facts: Facts) -> list[Problem]:
    notes = []
    if facts.groups is not None:
        groups = facts.groups
        share = 100.0 * groups.small_fraction
        notes.append(
            Problem(
                code="two-size-groups",
                message=f"There are two groups of sizes: about {share:.0f} % near "
                f"{groups.small_mean_weight_g:.0f} g and the rest near "
                f"{groups.large_mean_weight_g:.0f} g. One mean describes neither; "
                "consider grading.",
            )
        )
    if facts.doubtful:
        places = ", ".join(
            f"{d.fork_length_mm:.0f} mm in {d.net or 'a net'}" for d in facts.doubtful
        )
        notes.append(
            Problem(
                code="doubtful-lengths",
                message=f"These lengths are more likely wrong than real and count "
                f"little: {places}. Look at the outlines.",
            )
        )
    lengths = np.array(
        [f.fork_length_mm for net in facts.used for f in net.complete_fish]
    )
    low, high = facts.published.min_length_mm, facts.published.max_length_mm
    outside = int(np.sum((lengths < low) | (lengths > high))) if len(lengths) else 0
    if outside:
        notes.append(
            Problem(
                code="outside-species-range",
                message=f"{outside} of {len(lengths)} fish are outside the "
                f"{low:.0f}-{high:.0f} mm for which the species' coefficients hold.",
            )
        )
    mean, published = facts.mean_weight_g, facts.published
    least_g, most_g = (
        published.a_g_cm * (end / 10.0) ** published.b for end in (low, high)
    )
    if not len(lengths) and (mean.high < least_g or mean.low > most_g):
        notes.append(
            Problem(
                code="outside-species-range",
                message=f"The mean of {number(mean.value)} g is outside the "
                f"{least_g:.0f} to {most_g:.0f} g for which the species' coefficients "
                "hold. Check "
                "the scale's unit, the tare and the counts.",
            )
        )
    return notes


def _about_count(facts: Facts) -> list[Problem]:
    handled = sum(net.fish_count for net in facts.nets)
    if facts.count_in_unit is None or handled <= facts.count_in_unit:
        return []
    return [
        Problem(
            code="count-in-unit-too-small",
            message=f"{handled} fish were netted but the unit is said to hold "
            f"{facts.count_in_unit}. Correct the count of the unit; a count that is "
            "too small by more than its error is not used.",
        )
    ]


def _named(label: str) -> str:
    return label[:1].upper() + label[1:]
