"""What a balance says: counts, weights and biomass, and where they come from."""

from dataclasses import dataclass
from datetime import date, time
from uuid import UUID

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.husbandry.growth import GrowthFit
from fishmeasure.husbandry.temperature import TemperatureForecast


@dataclass(frozen=True, slots=True, kw_only=True)
class Provenance:
    """Where a figure comes from: in words, and the entries that made it."""

    words: Message
    entry_ids: tuple[UUID, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Latest:
    """The newest reading of one quantity; ``at`` where its time of day is known."""

    value: float
    on: date
    entry_id: UUID
    at: time | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CohortInUnit:
    """One cohort's fish in one unit.

    ``book_count`` is plain addition and subtraction since the last count;
    ``fish_count`` is what all entries together say, losses that nobody saw among them.
    ``mean_weight_g`` and ``biomass_kg`` are None until a weight is known, ``cv`` until
    a sample showed it; ``condition_factor`` is the last sample's. ``growth`` is where
    ``husbandry.growth`` projects from, None where the species has no growth figures.
    ``gain_kg`` is what the fish put on since they came, also those that died later,
    ``net_gain_kg`` what is alive or was taken of it.
    """

    cohort: Cohort
    unit_id: UUID
    book_count: float
    fish_count: Estimate
    count_from: Provenance
    last_counted_on: date | None
    mean_weight_g: Estimate | None
    weight_from: Provenance
    last_sampled_on: date | None
    cv: Estimate | None
    condition_factor: Estimate | None
    growth: GrowthFit | None
    biomass_kg: Estimate | None
    gain_kg: Estimate | None
    net_gain_kg: Estimate | None
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitFlow:
    """Kilograms that came into a unit and left it, since the book began.

    ``dead_kg`` were seen dead or went unseen. A figure is too low
    where ``fish_of_unknown_weight`` is above 0.
    """

    added_kg: float
    taken_kg: float
    dead_kg: float
    fish_of_unknown_weight: float


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitState:
    """What is in one unit at the end of a day.

    ``biomass_kg`` is None where fish are present whose weight is unknown.
    ``water`` has the newest reading of each quantity, by its field name.
    """

    unit: Unit
    on: date
    cohorts: tuple[CohortInUnit, ...]
    fish_count: Estimate
    biomass_kg: Estimate | None
    flow: UnitFlow
    water: dict[str, Latest]
    temperature: TemperatureForecast
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CohortTotal:
    """A cohort's fish over all units.

    stocked - died - taken + adjusted = fish_count.value, always: ``adjusted`` is
    what counts and gradings found more (or fewer) than the book.
    """

    cohort: Cohort
    stocked: float
    died: float
    taken: float
    adjusted: float
    fish_count: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class CountDifference:
    """What a count found against what all other entries say.

    ``in_sd`` is the difference in standard deviations of both together. Beyond
    three the book is taken to be wrong, and the count stands alone.
    """

    entry_id: UUID
    cohort_id: UUID
    unit_id: UUID
    on: date
    counted: float
    expected: Estimate
    difference: float
    in_sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """The whole book at the end of a day."""

    on: date
    units: tuple[UnitState, ...]
    cohorts: tuple[CohortTotal, ...]
    differences: tuple[CountDifference, ...]

    def unit(self, unit_id: UUID) -> UnitState:
        """Return one unit's state.

        Raises
        ------
        KeyError
            If the book has no such unit.
        """
        for state in self.units:
            if state.unit.id == unit_id:
                return state
        raise KeyError(unit_id)
