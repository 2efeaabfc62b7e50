"""What to tell the grower about a sample."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from fishmeasure.flags import Problem
from fishmeasure.netweigh import NetWeighing, Scale
from fishmeasure.population.record import (
    DoubtfulLength,
    NetReport,
    SizeGroups,
    StockLine,
)
from fishmeasure.species import LengthWeight
from fishmeasure.uncertainty import Estimate

# Repeated readings further apart than this many sds of one reading are not repeats:
# the range of 2 to 4 normal readings exceeds 4 sd in 0.5 to 2.5 % of cases
# (studentised range tables).
_REPEAT_RANGE_SDS: Final = 4.5


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
    book: LengthWeight
    count_in_unit: int | None
    scale: Scale


def make_problems(facts: Facts) -> tuple[Problem, ...]:
    """Return the notes, the weightiest first."""
    return (
        *_about_mode(facts),
        *_about_nets(facts),
        *_about_fish(facts),
        *_about_count(facts),
    )


def _about_mode(facts: Facts) -> list[Problem]:
    notes = []
    mean = facts.mean_weight_g
    percent = 50.0 * (mean.high - mean.low) / mean.value
    if facts.mode == "photo-only":
        notes.append(
            Problem(
                code="photo-only",
                message="No net was weighed, so the weights stand on "
                f"{'this' if facts.book.relative_sd < 0.15 else 'a book'} "
                f"length-weight line alone: about +-{percent:.0f} %. Weigh one counted "
                "net of the same fish to settle the level.",
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
    low, high = facts.book.min_length_mm, facts.book.max_length_mm
    outside = int(np.sum((lengths < low) | (lengths > high))) if len(lengths) else 0
    if outside:
        notes.append(
            Problem(
                code="outside-species-range",
                message=f"{outside} of {len(lengths)} fish are outside the "
                f"{low:.0f}-{high:.0f} mm for which the species' coefficients hold.",
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
