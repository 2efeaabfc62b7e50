"""From entries to what is in every unit on a day: pure, and in any order.

Entries are put in order first (``order.py``), so the order in which they arrive
here changes nothing. What they say together is worked out in ``posterior``.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from uuid import UUID

from fishmeasure.base.errors import (
    BadEntryError,
    FishMeasureError,
    UnknownStockSpeciesError,
)
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.record import FIRST_DAY, LAST_DAY
from fishmeasure.base.words import Message
from fishmeasure.book.climate import Climate, unit_temperature
from fishmeasure.book.entries import (
    Entry,
    Feed,
    FishEntry,
    Graded,
    Moved,
    Sample,
    Stocked,
    Taken,
    WaterReading,
)
from fishmeasure.book.order import in_force
from fishmeasure.book.posterior import Assumptions
from fishmeasure.book.posterior.answers import samples_over_all as learnt
from fishmeasure.book.posterior.course import Course
from fishmeasure.book.posterior.feeding import FeedPeriod, feed_periods
from fishmeasure.book.posterior.history import History
from fishmeasure.book.posterior.priors import FEED_SHARE_SD
from fishmeasure.book.posterior.solve import Peak, Posterior, appetite, posterior
from fishmeasure.book.state import Balance
from fishmeasure.book.summary import (
    Present,
    cohort_total,
    count_differences,
    unit_state,
)
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.species import (
    FarmedSpecies,
    LengthWeight,
    farmed_species,
    packaged_species,
)

__all__ = ["Assumptions", "Balance", "histories", "replay"]

_Meals = Mapping[int, float]  # kilograms by day, as an ordinal


def replay(
    units: Iterable[Unit],
    cohorts: Iterable[Cohort],
    entries: Iterable[Entry],
    *,
    on: date,
    assumptions: Assumptions | None = None,
) -> Balance:
    """Return the balance at the end of a day.

    Parameters
    ----------
    units, cohorts
        One version of each; every one that an entry names must be there.
    entries
        In any order; replaced and later ones are left out here.

    Raises
    ------
    BadEntryError
        If the day lies outside what entries may have.
    """
    if not FIRST_DAY <= on <= LAST_DAY:
        raise BadEntryError(
            field=Message.of("the-day"),
            reason=Message.of(
                "day-outside", first_on=FIRST_DAY, last_on=LAST_DAY, given_on=on
            ),
        )
    known_units = {unit.id: unit for unit in units}
    past = tuple(entry for entry in in_force(entries) if entry.on <= on)
    run = _Replay(known_units, past, on, assumptions or Assumptions())
    return run.balance(tuple(cohorts))


def histories(
    units: Iterable[Unit],
    cohorts: Iterable[Cohort],
    entries: Iterable[Entry],
    *,
    on: date,
) -> dict[UUID, History]:
    """Return what the posterior of each cohort is made from; as ``replay``."""
    known_units = {unit.id: unit for unit in units}
    past = tuple(entry for entry in in_force(entries) if entry.on <= on)
    run = _Replay(known_units, past, on, Assumptions())
    return run.histories(tuple(cohorts), {})


def samples_over_all(
    units: Iterable[Unit],
    cohorts: Iterable[Cohort],
    entries: Iterable[Entry],
    *,
    cohort_id: UUID,
    on: date,
) -> Estimate | None:
    """Return a cohort's weighed samples over all its fish; None where not known."""
    known_units = {unit.id: unit for unit in units}
    past = tuple(entry for entry in in_force(entries) if entry.on <= on)
    run = _Replay(known_units, past, on, Assumptions())
    known = run.posteriors(tuple(cohorts)).get(cohort_id)
    return None if known is None else learnt(known.drawn, known.scores)


class _Replay:
    def __init__(
        self,
        units: Mapping[UUID, Unit],
        past: tuple[Entry, ...],
        on: date,
        assumptions: Assumptions,
    ) -> None:
        self._units, self._past, self._on = units, past, on
        self._assumptions = assumptions
        self._readings: dict[UUID, list[WaterReading]] = {unit: [] for unit in units}
        self._feed: dict[UUID, dict[int, float]] = {unit: {} for unit in units}
        self._of_fish: dict[UUID, list[FishEntry]] = {}
        for entry in past:
            if isinstance(entry, WaterReading):
                self._readings[entry.unit_id].append(entry)
            elif isinstance(entry, Feed):
                meals, day = self._feed[entry.unit_id], entry.on.toordinal()
                meals[day] = meals.get(day, 0.0) + entry.feed_kg
            elif isinstance(entry, FishEntry):
                self._of_fish.setdefault(entry.cohort_id, []).append(entry)
        self._climate = Climate(
            {
                unit_id: unit_temperature(units[unit_id], readings)
                for unit_id, readings in self._readings.items()
            },
            past[0].on if past else on,
            on,
        )

    def balance(self, cohorts: tuple[Cohort, ...]) -> Balance:
        """Return the state of everything on the last day."""
        found = self.posteriors(cohorts)
        here: dict[UUID, list[Present]] = {unit_id: [] for unit_id in self._units}
        for known in found.values():
            for unit_id, group in known.drawn.groups.items():
                here[unit_id].append((known, group))
        return Balance(
            on=self._on,
            units=tuple(
                unit_state(
                    unit,
                    here[unit.id],
                    self._on,
                    readings=self._readings[unit.id],
                    temperature=self._climate.forecasts[unit.id],
                )
                for unit in self._units.values()
            ),
            cohorts=tuple(cohort_total(item, found.get(item.id)) for item in cohorts),
            differences=count_differences(self._past, found),
        )

    def posteriors(self, cohorts: tuple[Cohort, ...]) -> dict[UUID, Posterior]:
        """Return what is known of each cohort that has entries."""
        peaks: dict[UUID, Peak] = {}
        found = self.histories(cohorts, peaks)
        return {key: posterior(one, peaks.get(key)) for key, one in found.items()}

    def histories(
        self, cohorts: tuple[Cohort, ...], peaks: dict[UUID, Peak]
    ) -> dict[UUID, History]:
        """Return the history of each cohort that has entries, with what it was fed.

        ``peaks`` gets those of cohorts that share a unit, found without their feed.
        """
        found = {
            item.id: self._history(item, self._of_fish[item.id])
            for item in cohorts
            if item.id in self._of_fish
        }
        there: dict[UUID, list[UUID]] = {}
        for key, history in found.items():
            for unit_id in _units_of(history):
                if self._feed[unit_id]:
                    there.setdefault(unit_id, []).append(key)
        shared = frozenset(unit for unit, keys in there.items() if len(keys) > 1)
        eaten = self._shares(found, shared, peaks)
        for unit_id, (key, *others) in there.items():
            if not others:
                eaten.setdefault(key, {})[unit_id] = self._feed[unit_id]
        return {
            key: replace(one, periods=self._periods(eaten.get(key, {}), shared))
            for key, one in found.items()
        }

    def _shares(
        self,
        found: Mapping[UUID, History],
        shared: frozenset[UUID],
        peaks: dict[UUID, Peak],
    ) -> dict[UUID, dict[UUID, dict[int, float]]]:
        """Return the feed of units with several cohorts, by cohort, unit and day.

        Divided by what each would eat by all that is known without that feed.
        """
        eaten: dict[UUID, dict[UUID, dict[int, float]]] = {}
        appetites: dict[UUID, dict[UUID, list[tuple[int, int, float]]]] = {}
        for key, history in found.items():
            if _units_of(history) & shared:
                peaks[key], appetites[key] = appetite(replace(history, shared=shared))
        for unit_id in shared:
            for day, kg in self._feed[unit_id].items():
                wanted = {
                    key: _on_day(eats.get(unit_id, []), day)
                    for key, eats in appetites.items()
                }
                total = sum(wanted.values())
                for key, kg_a_day in wanted.items():
                    if kg_a_day > 0.0:
                        meals = eaten.setdefault(key, {}).setdefault(unit_id, {})
                        meals[day] = kg * kg_a_day / total
        return eaten

    def _periods(
        self, eaten: Mapping[UUID, _Meals], shared: frozenset[UUID]
    ) -> tuple[FeedPeriod, ...]:
        last = self._on.toordinal()
        return tuple(
            period
            for unit_id, meals in eaten.items()
            for period in feed_periods(
                unit_id, meals, last, FEED_SHARE_SD if unit_id in shared else 0.0
            )
        )

    def _history(self, cohort: Cohort, entries: list[FishEntry]) -> History:
        figures = _figures(cohort)
        course = Course(
            entries[0].on.toordinal(),
            self._on.toordinal(),
            (entry.on.toordinal() for entry in entries if _weighs(entry)),
            self._climate,
            figures,
        )
        return History(
            cohort=cohort,
            figures=figures,
            line=_line(cohort),
            entries=tuple(entries),
            periods=(),
            on=self._on,
            course=course,
            assumptions=self._assumptions,
            ponds=frozenset(u.id for u in self._units.values() if u.kind == "pond"),
        )


def _on_day(eaten: list[tuple[int, int, float]], day: int) -> float:
    """Return kilograms a day, of pieces of (first day, last day, kilograms a day)."""
    return next((each for start, end, each in eaten if start <= day < end), 0.0)


def _units_of(history: History) -> set[UUID]:
    return {
        unit_id
        for entry in history.entries
        for unit_id in (entry.unit_id, *entry.other_place_ids)
    }


def _weighs(entry: FishEntry) -> bool:
    """Return whether an entry tells of a weight, so that growth is cut there."""
    return isinstance(entry, Stocked | Sample | Moved | Graded) or (
        isinstance(entry, Taken) and entry.weight_kg is not None
    )


def _figures(cohort: Cohort) -> FarmedSpecies | None:
    try:
        return farmed_species(cohort.species_key)
    except UnknownStockSpeciesError:
        return None


def _line(cohort: Cohort) -> LengthWeight | None:
    try:
        return packaged_species(cohort.species_key).on_fork_length()
    except FishMeasureError:
        return None
