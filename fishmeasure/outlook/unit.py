"""One unit's outlook: what a grower asks at the tank, answered for one day.

Before all else stands what the water says now; it gates the rest. Then
1. how heavy the fish are and how far apart, 2. how many kilograms, 3. growth and
harvest, 4. feed, 5. limits, 6. an outage, 7. grading and condition.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Annotated
from uuid import UUID

from pydantic import Field

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.asking import Bound, bounds
from fishmeasure.book.entries import Entry, Sample
from fishmeasure.book.order import in_force
from fishmeasure.book.replay import replay
from fishmeasure.book.state import UnitState
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.book.withdrawal import (
    Withdrawal,
    withdrawal_problems,
    withdrawals,
)
from fishmeasure.husbandry import cautions
from fishmeasure.husbandry.now import Now
from fishmeasure.outlook import collect, feed, fish, load, now, outage, sources, water
from fishmeasure.outlook.attempts import Attempts, Options
from fishmeasure.outlook.feed import Feeding
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.load import Limits
from fishmeasure.outlook.outage import Outages
from fishmeasure.outlook.waiting import without_harvests
from fishmeasure.outlook.water import Water

__all__ = ["Options", "UnitOutlook", "unit_outlook"]

CAUTIONS = (
    cautions.ESTIMATE,
    cautions.OXYGEN,
    cautions.ELECTRICAL,
    cautions.HANDLING,
    cautions.ANAESTHETICS,
    cautions.SLAUGHTER,
    cautions.DEAD_FISH,
    cautions.PERMITS,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitOutlook:
    """The answers for a unit on a day.

    An answer is None where it cannot be given; ``problems`` then says why and
    what to do. ``about`` is what the book says of itself, such as that its data
    are invented. ``samples`` are those of the unit's fish, for the plot.

    ``now`` heads the page, and what must wait for the water is taken out of all that
    follows: see ``outlook.now.hold``, also for ``ration_kg`` and ``room_kg``.
    ``biomass_kg`` is None where fish of unknown weight are present.
    ``problems`` are those of every answer, once each, the worst first.
    """

    now: Annotated[
        Now, Field(description="What the water says now, to be shown first.")
    ]
    problems: Annotated[
        tuple[Problem, ...],
        Field(
            description="What is wrong, missing or doubtful in all answers, once "
            "each, the worst first."
        ),
    ]
    ration_kg: Annotated[
        Estimate | None,
        Field(
            description="Feed for the day, kg; 0 where the water stops feeding, null "
            "where it is not known."
        ),
    ]
    room_kg: Annotated[
        Estimate | None,
        Field(
            description="How much more fish by the nearest limit, kg: `value` and "
            "`low` at the unsafe end, `high` by the likely figures; 0 "
            "where the water stops adding, null where it is not known."
        ),
    ]
    biomass_kg: Annotated[
        Estimate | None,
        Field(
            description="All fish in the unit, kg; null where the weight of some is "
            "not known."
        ),
    ]
    fish_count: Estimate
    about: Annotated[
        str, Field(description="What the book says of its data, to be shown.")
    ]
    state: UnitState
    water: Water
    cohorts: tuple[CohortOutlook, ...]
    feeding: Feeding | None
    limits: Limits | None
    outages: Annotated[
        Outages | None,
        Field(
            description="The soonest critical first; null where nothing brings oxygen."
        ),
    ]
    samples: Annotated[
        tuple[Sample, ...], Field(description="Of the fish in the unit.")
    ]
    withdrawals: Annotated[
        tuple[Withdrawal, ...],
        Field(description="Medicines of its fish, with the end of their periods."),
    ]
    asks: Annotated[
        tuple[Bound, ...],
        Field(
            description="Outside what an entry of the day is asked about before it is "
            "stored: for who has no reach of the server."
        ),
    ]
    notes: Annotated[
        tuple[Message, ...],
        Field(description="Sources and allowances behind the figures."),
    ]
    cautions: Annotated[
        tuple[Message, ...], Field(description="To be shown with the figures.")
    ] = CAUTIONS

    @property
    def unit(self) -> Unit:
        """The unit, as it was when asked."""
        return self.state.unit

    @property
    def on(self) -> date:
        """The day."""
        return self.state.on


def unit_outlook(
    units: Iterable[Unit],
    cohorts: Iterable[Cohort],
    entries: Iterable[Entry],
    *,
    unit_id: UUID,
    on: date,
    options: Options | None = None,
    about: str = "",
) -> UnitOutlook:
    """Return a unit's outlook at the end of a day.

    Parameters
    ----------
    units, cohorts, entries
        As ``replay`` takes them.
    about
        What to say of the data wherever they are shown.

    Raises
    ------
    KeyError
        If there is no such unit.
    """
    units, cohorts, entries = tuple(units), tuple(cohorts), tuple(entries)
    balance = replay(units, cohorts, entries, on=on)
    counting = tuple(entry for entry in in_force(entries) if entry.on <= on)
    temperatures = {state.unit.id: state.temperature for state in balance.units}
    return outlook_of(
        balance.unit(unit_id),
        counting,
        withdrawals(counting, temperatures),
        options or Options(),
        about=about,
    )


def outlooks_of(
    units: Iterable[Unit],
    cohorts: Iterable[Cohort],
    entries: Iterable[Entry],
    *,
    on: date,
    about: str = "",
) -> tuple[UnitOutlook, ...]:
    """Return the outlooks of all these units by one replay, in their order."""
    entries = tuple(entries)
    balance = replay(units, cohorts, entries, on=on)
    counting = tuple(entry for entry in in_force(entries) if entry.on <= on)
    temperatures = {state.unit.id: state.temperature for state in balance.units}
    waits = withdrawals(counting, temperatures)
    here: dict[UUID | None, list[Entry]] = {}
    for entry in counting:
        here.setdefault(entry.place_id, []).append(entry)
    return tuple(
        outlook_of(state, here.get(state.unit.id, ()), waits, Options(), about=about)
        for state in balance.units
    )


def outlook_of(
    state: UnitState,
    counting: Iterable[Entry],
    waits: Iterable[Withdrawal],
    options: Options,
    *,
    about: str = "",
) -> UnitOutlook:
    """Return the outlook of a unit whose state is known.

    Parameters
    ----------
    state
        By the replay of the book.
    counting
        Entries in force up to the day, in the order in which they count.
    waits
        Withdrawal periods of all units.
    """
    tried, unit_id = Attempts(), state.unit.id
    here = tuple(entry for entry in counting if entry.place_id == unit_id)
    waiting = tuple(wait for wait in waits if wait.unit_id == unit_id)
    on_the_day = water.water_now(state)
    of_fish = _fish(state, options, tried)
    fed = tried.get(lambda: feed.feeding(of_fish, state, here, tried))
    limits = tried.get(
        lambda: load.limits(of_fish, state, on_the_day, fed, options, tried)
    )
    outages = tried.get(
        lambda: outage.outages(of_fish, state, on_the_day, options, tried)
    )
    verdict = now.unit_now(state)
    of_water = now.now_problems(verdict)
    held = now.hold(verdict, state, of_fish, fed, limits)
    notes = sources.notes(of_fish, fed, limits, outages)
    return UnitOutlook(
        now=verdict,
        problems=collect.collected(
            (
                tuple(of_water),
                state,
                held,
                outages,
                tried,
                withdrawal_problems(waiting, state.on),
            ),
            of_water,
        ),
        ration_kg=held.ration_kg,
        room_kg=held.room_kg,
        biomass_kg=state.biomass_kg,
        fish_count=state.fish_count,
        about=about,
        state=state,
        water=on_the_day,
        cohorts=without_harvests(held.cohorts, waiting),
        feeding=held.feeding,
        limits=held.limits,
        outages=outages,
        samples=_samples(here, state),
        withdrawals=waiting,
        asks=bounds(state, here),
        notes=(*now.now_notes(verdict), *notes),
    )


def _fish(
    state: UnitState, options: Options, tried: Attempts
) -> tuple[CohortOutlook, ...]:
    """Return the answers for each cohort; that there is none is said."""
    if not state.cohorts:
        tried.problems.append(
            Problem.of("no-fish", case="unit", unit=state.unit.name, on=state.on)
        )
    return tuple(
        fish.cohort_outlook(one, state, options, tried) for one in state.cohorts
    )


def _samples(here: tuple[Entry, ...], state: UnitState) -> tuple[Sample, ...]:
    """Return the samples of the fish that are there, for the plot."""
    present = {one.cohort.id for one in state.cohorts}
    return tuple(
        entry
        for entry in here
        if isinstance(entry, Sample) and entry.cohort_id in present
    )
