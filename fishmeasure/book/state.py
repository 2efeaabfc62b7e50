"""What a balance says: counts, weights and biomass, and where they come from."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated
from uuid import UUID

from pydantic import Field

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.record import LocalTime
from fishmeasure.base.words import Message
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.husbandry.growth import GrowthFit
from fishmeasure.husbandry.temperature import TemperatureForecast


@dataclass(frozen=True, slots=True, kw_only=True)
class Provenance:
    """Where a figure comes from: in words, and the entries that made it."""

    words: Annotated[Message, Field(description="For people.")]
    entry_ids: Annotated[
        tuple[UUID, ...], Field(description="Entries of the book behind it.")
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Latest:
    """The newest reading of one quantity; ``at`` where its time of day is known."""

    value: Annotated[
        float, Field(description="Reading, in the unit that its name ends in.")
    ]
    on: date
    entry_id: UUID
    at: LocalTime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FedPeriod:
    """What a cohort was fed in a period of regular feeding, and what it became.

    ``conversion`` is feed over gain of all fish, also those that died later, by
    samples, feed and what is usual together; None where they may not have grown.
    """

    since: Annotated[date, Field(description="First day of the period.")]
    until: Annotated[date, Field(description="Day after its last.")]
    feed_kg: Annotated[float, Field(description="Fed in the period, kg.")]
    gain_kg: Annotated[Estimate, Field(description="What the fish put on, kg.")]
    conversion: Annotated[
        Estimate | None,
        Field(description="Kilograms of feed for a kilogram of gain."),
    ]


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
    book_count: Annotated[
        float, Field(description="Fish by plain addition since the last count.")
    ]
    fish_count: Annotated[
        Estimate,
        Field(description="Fish, with an allowance for losses that nobody saw."),
    ]
    count_from: Provenance
    last_counted_on: date | None
    mean_weight_g: Annotated[
        Estimate | None,
        Field(description="Mean weight on the day, g; null until a weight is known."),
    ]
    weight_from: Provenance
    last_sampled_on: date | None
    cv: Estimate | None
    condition_factor: Annotated[
        Estimate | None,
        Field(description="100 W / L^3 in g and cm, of the last sample."),
    ]
    growth: GrowthFit | None
    biomass_kg: Estimate | None
    gain_kg: Estimate | None
    net_gain_kg: Estimate | None
    problems: tuple[Problem, ...]
    fed: Annotated[
        tuple[FedPeriod, ...],
        Field(
            description="Periods of regular feeding of half a year, the newest last."
        ),
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitFlow:
    """Kilograms that came into a unit and left it, since the book began.

    ``dead_kg`` were seen dead or went unseen. A figure is too low
    where ``fish_of_unknown_weight`` is above 0.
    """

    added_kg: Annotated[float, Field(description="Stocked or moved in, kg.")]
    taken_kg: Annotated[float, Field(description="Harvested, sold or moved out, kg.")]
    dead_kg: Annotated[float, Field(description="Seen dead or found missing, kg.")]
    fish_of_unknown_weight: Annotated[
        float, Field(description="Fish that the kilograms leave out.")
    ]


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
    biomass_kg: Annotated[
        Estimate | None,
        Field(description="All fish, kg; null while a weight is not known."),
    ]
    flow: UnitFlow
    water: Annotated[
        dict[str, Latest],
        Field(
            description="Newest readings, by the field of a water entry, whose name "
            "ends in the unit."
        ),
    ]
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
