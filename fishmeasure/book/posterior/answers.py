"""Figures of a cohort from draws of its posterior."""

import math
from datetime import date
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.base.words import Message
from fishmeasure.book.posterior.fish import Group
from fishmeasure.book.posterior.follow import Follower
from fishmeasure.book.state import FedPeriod
from fishmeasure.husbandry.growth import STEP_SPREAD, GrowthFit, as_tuples, cubed
from fishmeasure.husbandry.propagation import z_score

_NOTHING: Final = 1e-12
# What nets choose is known where harvests and counts left less than this of its sd;
# common practice, no source.
_LEARNT_SHARE: Final = 0.8
TOLD_DAYS: Final = 183
"""Of feeding that is told period by period."""
# A draw in which fish hardly grew is as good as one in which they did not.
_LEAST_GAIN_SHARE: Final = 0.01


def figure(drawn: FloatArray, scores: FloatArray) -> Estimate:
    """Return a figure that cannot be below nothing, from its draws.

    The value is that of the likeliest unknowns, which come first. The ends are
    quantiles of the draws, at the ranks at which the part that is a straight line in
    the ``scores`` has its own known ends: that takes out the chance of the draws.
    """
    value, draws = max(0.0, float(drawn[0])), drawn[1:]
    sd = float(np.std(np.maximum(draws, 0.0)))
    if sd <= _NOTHING * max(1.0, value):
        return Estimate(value=value, sd=0.0, low=value, high=value)
    pairs = scores.shape[1]
    slope = scores @ (draws[:pairs] - draws[pairs:]) / (2.0 * pairs)
    line = slope @ scores
    ranks = (np.arange(2 * pairs) + 0.5) / (2 * pairs)
    reach = z_score(DEFAULT_LEVEL) * float(np.linalg.norm(slope))
    ends = np.interp((-reach, reach), np.sort(np.concatenate([line, -line])), ranks)
    low, high = np.interp(ends, ranks, np.sort(np.maximum(draws, 0.0)))
    return Estimate(
        value=value, sd=sd, low=min(value, float(low)), high=max(value, float(high))
    )


def spread(group: Group, scores: FloatArray) -> Estimate | None:
    """Return the CV of a group's weights, None until a sample showed it."""
    return figure(np.exp(group.log_cv), scores) if group.cv_seen else None


def samples_over_all(fish: Follower, scores: FloatArray) -> Estimate | None:
    """Return a weighed sample's mean weight over that of all fish.

    Drip beyond what a sample takes off, and which fish are netted, are alike in all
    samples of a cohort: fish weighed and counted when harvested, or when stocked, tell
    their product. None while they tell hardly more than was taken as likely.
    """
    usual = fish.history.assumptions
    sds = usual.netting_sd_fraction, usual.drip_sd_fraction
    names = ("netting", "drip")
    parts = [fish.unknown(name, sd) for name, sd in zip(names, sds, strict=True)]
    log_ratio = parts[0] + parts[1]
    sd = float(np.std(log_ratio[1:]))
    # Without a weighed sample nothing was met that could be told.
    if not _NOTHING < sd < _LEARNT_SHARE * math.hypot(*sds):
        return None
    return figure(np.exp(log_ratio), scores)


def fed_periods(
    fish: Follower, group: Group, scores: FloatArray
) -> tuple[FedPeriod, ...]:
    """Return what the last half year's feed became in a unit, from the same draws."""
    found = []
    first = fish.history.on.toordinal() - TOLD_DAYS
    for period in fish.history.periods:
        told = period.unit_id == group.unit_id and period.end > first
        gained = fish.gained(period) if told else None
        if gained is None or not np.any(gained[0]):
            continue
        grown = gained[0]
        gain_kg = figure(grown, scores)
        conversion = None
        if gain_kg.low > 0.0:  # else it has no end
            least = np.maximum(grown, _LEAST_GAIN_SHARE * gain_kg.value)
            conversion = figure(period.feed_kg / least, scores)
        found.append(
            FedPeriod(
                since=date.fromordinal(period.start),
                until=date.fromordinal(period.end),
                feed_kg=period.feed_kg,
                gain_kg=gain_kg,
                conversion=conversion,
            )
        )
    return tuple(found)


def growth_fit(fish: Follower, group: Group, scores: FloatArray) -> GrowthFit | None:
    """Return where a group's growth goes on from; None without figures or a weight."""
    figures = fish.history.figures
    if group.root is None or figures is None:
        return None
    growing, course = fish.growing, fish.history.course
    last = course.piece(fish.history.on.toordinal())
    deviation = growing.deviation(last)
    log_count = np.log(np.maximum(group.count, 1.0))
    columns = np.array(
        [
            np.broadcast_to(a, group.count.shape)
            for a in (group.root, growing.tgc, deviation, log_count)
        ]
    )[:, 1:]
    covariance = np.cov(columns, bias=True)
    book = figures.growth.tgc_x1000
    root = float(group.root[0])
    return GrowthFit(
        species_key=figures.key,
        last_day=fish.history.on,
        samples_used=group.samples,
        tgc_x1000=figure(growing.tgc, scores),
        published_tgc_x1000=Estimate.normal(book.value, book.value * book.relative_sd),
        root_g=root,
        root_sd_g=float(np.sqrt(covariance[0, 0])),
        deviation_x1000=float(deviation[0]),
        covariance=as_tuples(covariance),
        step_spread=STEP_SPREAD,
        mean_weight_g=cubed(root, float(np.sqrt(covariance[0, 0]))),
        residuals_sd=(),
        notes=(
            Message.of(
                "note-cohort-growth",
                name=fish.history.cohort.name,
                samples=group.samples,
                periods=len(fish.history.periods),
            ),
            book.note(Message.of("note-published-tgc", tgc=book.value)),
        ),
    )
