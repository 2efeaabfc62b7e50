"""What a posterior is made from: a cohort, its entries and its units' feed."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from fishmeasure.base.arrays import FloatArray
from fishmeasure.book.entries import FishEntry
from fishmeasure.book.posterior.course import Course
from fishmeasure.book.posterior.feeding import FeedPeriod
from fishmeasure.book.posterior.priors import Assumptions
from fishmeasure.book.units import Cohort
from fishmeasure.species import FarmedSpecies, LengthWeight


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class History:
    """All that was entered of a cohort up to a day, in the order in which it counts.

    ``line`` is the published weight at a fork length, None for an unknown species;
    ``ponds`` are the units in which a net takes what is near it; ``shared`` those whose
    feed other cohorts eat too, for which appetites are noted. ``breaks`` are counts
    that nothing else explains, ``far_feed`` feed; see ``solve``.
    """

    cohort: Cohort
    figures: FarmedSpecies | None
    line: LengthWeight | None
    entries: tuple[FishEntry, ...]
    periods: tuple[FeedPeriod, ...]
    on: date
    course: Course
    assumptions: Assumptions
    ponds: frozenset[UUID]
    shared: frozenset[UUID] = frozenset()
    breaks: frozenset[UUID] = frozenset()
    far_feed: frozenset[FeedPeriod] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Observation:
    """One figure that was observed: (observed - what follows) / its sd, per column.

    ``sd`` is in the figure's own unit. ``plain`` is the misfit before the tail of a
    surprise that was confirmed made it less. ``period`` is that of feed.
    """

    kind: str
    entry_id: UUID | None
    observed: float
    sd: float
    misfit: FloatArray
    plain: FloatArray
    period: FeedPeriod | None = None
