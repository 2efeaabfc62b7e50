"""What is known where and when an entry is made, as the book has it without it."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from statistics import median
from typing import Final
from uuid import UUID

from fishmeasure.base.estimate import Estimate
from fishmeasure.book.entries import Died, Entry, Feed, Sample, Stocked
from fishmeasure.book.state import CohortInUnit, UnitState
from fishmeasure.book.units import Unit
from fishmeasure.husbandry.propagation import z_score

_NONE: Final = 0.5  # fewer fish than this are none
_LATE_MEALS: Final = 10
_FEW_MEALS: Final = 3
_LATE_DAYS: Final = 30
_LATE_DEATHS: Final = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """When a cohort in a unit was last weighed, and what it was fed since.

    ``fed_kg`` is None where the diary of feed is not kept up, or others ate of it.
    """

    on: date
    mean_g: float
    relative_sd: float
    fed_kg: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A cohort in a unit on a day; ``fish`` is None where none are by the book."""

    unit: Unit
    on: date
    cohort_id: UUID | None
    fish: CohortInUnit | None
    state: UnitState
    usual_dead: float | None
    usual_feed_kg: float | None
    last_sample: Sample | None
    weighed: Weighed | None

    @property
    def present(self) -> CohortInUnit | None:
        """The fish, where there are any."""
        if self.fish is None or self.fish.fish_count.value < _NONE:
            return None
        return self.fish


def place_of(state: UnitState, cohort_id: UUID | None, past: Iterable[Entry]) -> Place:
    """Return what is known in a unit; ``past`` are the entries up to the day."""
    fish = next((c for c in state.cohorts if c.cohort.id == cohort_id), None)
    here = [e for e in past if e.place_id == state.unit.id]
    own = [e for e in here if e.fish_id == cohort_id and cohort_id is not None]
    dead = [e.fish_count for e in own if isinstance(e, Died) and e.fish_count]
    samples = [e for e in own if isinstance(e, Sample)]
    return Place(
        unit=state.unit,
        on=state.on,
        cohort_id=cohort_id,
        fish=fish,
        state=state,
        usual_dead=median(dead[-_LATE_DEATHS:]) if dead else None,
        usual_feed_kg=usual_feed_kg(here, state.on),
        last_sample=samples[-1] if samples else None,
        weighed=_weighed(state, own, here),
    )


def usual_feed_kg(here: Iterable[Entry], on: date) -> float | None:
    """Return what a meal of late was, None where there were few."""
    meals = [
        e.feed_kg
        for e in here
        if isinstance(e, Feed)
        and e.feed_kg > 0.0
        and 0 <= (on - e.on).days < _LATE_DAYS
    ][-_LATE_MEALS:]
    return median(meals) if len(meals) >= _FEW_MEALS else None


def spread_of(estimate: Estimate) -> float:
    """Return the sd of ln of a figure, from its interval."""
    if estimate.low > 0.0:
        return math.log(estimate.high / estimate.low) / (2.0 * z_score(estimate.level))
    return min(1.0, estimate.sd / estimate.value) if estimate.value > 0.0 else 1.0


def sample_sd(sample: Sample) -> float:
    """Return the sd of ln mean weight that a sample states."""
    reach = sample.mean_weight_high_g - sample.mean_weight_low_g
    return reach / (2.0 * z_score(sample.level)) / sample.mean_weight_g


def _weighed(state: UnitState, own: list[Entry], here: list[Entry]) -> Weighed | None:
    last = next(
        (
            e
            for e in reversed(own)
            if isinstance(e, Sample | Stocked) and _mean_g(e) is not None
        ),
        None,
    )
    if last is None:
        return None
    mean_g = _mean_g(last) or 0.0
    sd = sample_sd(last) if isinstance(last, Sample) else 0.1
    meals = [e for e in here if isinstance(e, Feed) and last.on <= e.on < state.on]
    days = (state.on - last.on).days
    kept_up = days > 0 and len({e.on for e in meals}) >= 0.7 * days
    alone = len(state.cohorts) == 1
    fed = sum(e.feed_kg for e in meals) if kept_up and alone else None
    return Weighed(on=last.on, mean_g=mean_g, relative_sd=sd, fed_kg=fed)


def _mean_g(entry: Sample | Stocked) -> float | None:
    if isinstance(entry, Sample) or entry.mean_weight_g is not None:
        return entry.mean_weight_g
    if entry.bulk_weight_kg and entry.fish_count:
        return entry.bulk_weight_kg * 1000.0 / entry.fish_count
    return None
