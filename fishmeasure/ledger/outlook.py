"""One unit's outlook: what a grower asks at the tank, answered for one day.

1. how heavy the fish are and how far apart, 2. how many kilograms, 3. growth and
harvest, 4. feed, 5. limits, 6. an outage, 7. grading and condition.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from fishmeasure.flags import Problem
from fishmeasure.ledger import answers
from fishmeasure.ledger.answers import (
    CohortOutlook,
    Feeding,
    Limits,
    Options,
    Outages,
    Water,
)
from fishmeasure.ledger.balance import Assumptions, Balance, replay
from fishmeasure.ledger.entries import Entry, Sample
from fishmeasure.ledger.order import in_force
from fishmeasure.ledger.state import UnitState
from fishmeasure.ledger.units import Cohort, Unit
from fishmeasure.stock import cautions

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
    """

    about: str
    state: UnitState
    water: Water
    cohorts: tuple[CohortOutlook, ...]
    feeding: Feeding | None
    limits: Limits | None
    outages: Outages | None
    samples: tuple[Sample, ...]
    problems: tuple[Problem, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...] = CAUTIONS

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
    valid = tuple(entry for entry in in_force(entries) if entry.on <= on)
    options = options or Options()

    def at(day: date) -> Balance:
        return replay(units, cohorts, entries, on=day, assumptions=Assumptions())

    state = at(on).unit(unit_id)
    here = tuple(entry for entry in valid if entry.place_id == unit_id)
    tried = answers.Attempts()
    for problem in state.problems:
        tried.problems.append(problem)
    water = answers.water_now(state)
    found = tuple(
        answers.cohort_outlook(fish, state, options, tried) for fish in state.cohorts
    )
    if not state.cohorts:
        tried.say(
            "no-fish",
            f"The book has no fish in {state.unit.name} on {on}. Enter what was "
            "stocked: how many fish, of what mean weight, on which day.",
        )
    feeding = tried.get(
        lambda: answers.feeding(
            found, state, here, lambda day: at(day).unit(unit_id), tried
        )
    )
    limits = tried.get(
        lambda: answers.limits(found, state, water, feeding, options, tried)
    )
    outages = tried.get(lambda: answers.outages(found, state, water, options, tried))
    present = {fish.cohort.id for fish in state.cohorts}
    return UnitOutlook(
        about=about,
        state=state,
        water=water,
        cohorts=found,
        feeding=feeding,
        limits=limits,
        outages=outages,
        samples=tuple(
            entry
            for entry in here
            if isinstance(entry, Sample) and entry.cohort_id in present
        ),
        problems=tuple({p.message: p for p in tried.problems}.values()),
        notes=answers.notes(found, feeding, limits, outages),
    )
