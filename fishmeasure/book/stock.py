"""What the book knows of a stock's own shape and weight, for its later photos.

A cohort's fish that were photographed and weighed, one by one or by the net, say how
heavy its bodies are for their outlines (c). Each telling counts by its error and by how
far c moves from one sampling to the next. None is carried across spawning: gonads make
up to a fifth of a ripe female and are gone afterwards.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final
from uuid import UUID

from fishmeasure.base.words import wording
from fishmeasure.book.entries import Entry, Sample, Spawning, StockMeasured
from fishmeasure.species import Species
from fishmeasure.species.body_fit import THICKNESS_DRIFT, body_of, level_of, ripened
from fishmeasure.species.figure import Figure
from fishmeasure.species.size import LengthWeight, Shape

SPAWNING_DAYS: Final = timedelta(days=60)
"""Before and after the day on which ripe fish were seen: how long a stock takes to
ripen, spawn and mend. Common practice, no source."""
_Z90: Final = 1.645


@dataclass(frozen=True, slots=True, kw_only=True)
class StockKnown:
    """What is known of a cohort's stock on a day.

    Attributes
    ----------
    tellings
        Entries that c is from, newest first.
    ripe_on
        The last day at hand on which its fish were ripe or spawned.
    is_ripe
        Whether that is so near that they may be so still.
    """

    species: Species
    tellings: tuple[Sample | StockMeasured, ...] = ()
    ripe_on: date | None = None
    is_ripe: bool = False

    @property
    def of_photos(self) -> Species:
        """The species by which photos of that day are weighed."""
        return ripened(self.species) if self.is_ripe else self.species


def stock_known(
    usual: Species,
    entries: Iterable[Entry],
    *,
    cohort_id: UUID,
    on: date,
    without: UUID | None = None,
) -> StockKnown:
    """Return the species as this cohort's own fish have taught it.

    Parameters
    ----------
    usual
        The cohort's species, as published.
    entries
        In force, of any cohort.
    on
        Day of the photo or the sample; what is later teaches nothing.
    without
        An entry that is not to teach itself.
    """
    own = [e for e in entries if e.fish_id == cohort_id and e.id != without]
    ripe = [e.on for e in own if _is_ripe(e)]
    before = max((day for day in ripe if day <= on), default=None)
    told = [
        entry
        for entry in sorted(own, key=lambda one: one.on, reverse=True)
        if isinstance(entry, Sample | StockMeasured)
        and entry.on <= on
        and (before is None or entry.on > before)
        and not entry.ripe
    ]
    ruled = [
        entry
        for entry in own
        if isinstance(entry, StockMeasured) and entry.snout_height and entry.on <= on
    ]
    species = replace(usual, shape=_shape(usual.shape, ruled))
    tellings = tuple(one for one in told if one.c_g_per_cm3 and one.c_relative_sd)
    if tellings:
        species = _taught(species, tellings)
    is_ripe = any(abs(day - on) <= SPAWNING_DAYS for day in ripe)
    return StockKnown(
        species=species,
        tellings=tellings,
        ripe_on=before,
        is_ripe=is_ripe,
    )


def _is_ripe(entry: Entry) -> bool:
    if isinstance(entry, Spawning):
        return True
    return isinstance(entry, Sample | StockMeasured) and entry.ripe


def _taught(usual: Species, tellings: Sequence[Sample | StockMeasured]) -> Species:
    """Return the species with the mean of what was told, and the newest line."""
    weights = [
        1.0 / ((one.c_relative_sd or 0.0) ** 2 + THICKNESS_DRIFT**2) for one in tellings
    ]
    total = sum(weights)
    mean_ln = sum(
        weight * math.log(one.c_g_per_cm3 or 1.0)
        for weight, one in zip(weights, tellings, strict=True)
    )
    error = math.sqrt(
        sum(
            (weight * (one.c_relative_sd or 0.0)) ** 2
            for weight, one in zip(weights, tellings, strict=True)
        )
    )
    source = wording(
        "source-own-book", entries=len(tellings), newest=tellings[0].on, note=""
    ).strip()
    line = next(filter(None, (_line(usual, one, source) for one in tellings)), None)
    return replace(
        usual,
        length_weight=line or usual.on_fork_length(),
        body=body_of(
            math.exp(mean_ln / total), error / total, usual.body, source=source
        ),
        is_own_stock=True,
    )


def _line(
    usual: Species, told: Sample | StockMeasured, source: str
) -> LengthWeight | None:
    """Return the stock's line as an entry has it."""
    published = usual.on_fork_length()
    if told.a_g_cm is None or told.b is None:
        return None
    if isinstance(told, StockMeasured):
        return replace(
            published,
            a_g_cm=told.a_g_cm,
            b=told.b,
            min_length_mm=told.min_length_mm or published.min_length_mm,
            max_length_mm=told.max_length_mm or published.max_length_mm,
            relative_sd=max(told.level_relative_sd or published.relative_sd, 0.001),
            source=source,
            status="seen",
        )
    low, high = told.condition_factor_low, told.condition_factor_high
    if not low or not high:
        return None
    middle_cm = published.reference_length_mm / 10.0
    ratio = told.a_g_cm / published.a_g_cm * middle_cm ** (told.b - published.b)
    return level_of(published, ratio, math.log(high / low) / 2.0 / _Z90, source=source)


def _shape(usual: Shape, ruled: Sequence[StockMeasured]) -> Shape:
    """Return the shape with the heights that a ruler told last."""
    if not ruled:
        return usual
    newest = max(ruled, key=lambda one: one.on)
    source = wording("source-own-book", entries=1, newest=newest.on, note="").strip()

    def figure(value: float | None, sd: float | None, known: Figure) -> Figure:
        if value is None:
            return known
        relative = known.relative_sd if sd is None else sd
        return Figure(value=value, relative_sd=relative, source=source, status="seen")

    return replace(
        usual,
        snout_height=figure(
            newest.snout_height, newest.snout_height_relative_sd, usual.snout_height
        ),
        fork_height=figure(
            newest.fork_height, newest.fork_height_relative_sd, usual.fork_height
        ),
    )
