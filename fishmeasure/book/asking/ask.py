"""Whether an entry is asked about before it is stored, and what is asked."""

from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final

from fishmeasure.base.flags import Problem
from fishmeasure.book.asking.calendar import of_the_calendar
from fishmeasure.book.asking.expected import said_of
from fishmeasure.book.asking.judging import Judged, judged
from fishmeasure.book.asking.place import Place, place_of, usual_feed_kg
from fishmeasure.book.asking.records import Question
from fishmeasure.book.asking.slips import FIELDS, corrected, elsewhere
from fishmeasure.book.asking.told import problem_of, slip_elsewhere, slip_of
from fishmeasure.book.entries import (
    Cancelled,
    Entry,
    Feed,
    FishEntry,
    Harvested,
    Sample,
    Sold,
    Treated,
    WaterReading,
)
from fishmeasure.book.order import in_force
from fishmeasure.book.replay import replay
from fishmeasure.book.state import Balance
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.book.withdrawal import withdrawal_problems, withdrawals

if TYPE_CHECKING:
    from collections.abc import Callable

_BRINGS: Final = frozenset(("stocked", "counted", "graded", "moved"))
ASKING_PROBLEMS: Final = frozenset(
    (
        "count-differs",
        "count-in-unit-too-small",
        "likely-slip",
        "photos-exchanged",
        "same-fish",
    )
)
"""Doubts of a sample's own nets that are asked about before it is entered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What is known of a sample beside its entry."""

    problems: tuple[Problem, ...] = ()
    count_in_unit: int | None = None
    count_in_unit_sd: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ledger:
    """The book, or the part of it that an entry's fish ever met, without the entry.

    ``same_photos`` are samples of the rest of the book with photos of the entry;
    ``whole`` gets the whole book, which is needed only to find where else an odd entry
    would fit. What was replayed is kept for the next entry of a request.
    """

    units: tuple[Unit, ...]
    cohorts: tuple[Cohort, ...]
    entries: tuple[Entry, ...]
    same_photos: tuple[Sample, ...] = ()
    whole: "Callable[[], Ledger] | None" = None
    replayed: dict[tuple[object, ...], tuple[object, Balance]] = field(
        default_factory=dict
    )

    def with_entry(self, *entries: Entry) -> "Ledger":
        """Return the book with an entry more, or several."""
        return replace(self, entries=(*self.entries, *entries))

    def has_all_of(self, entry: Entry) -> bool:
        """Return whether the units and fish that an entry names are in the book.

        The book itself refuses it else.
        """
        units = {None, *(unit.id for unit in self.units)}
        fish = {None, *(cohort.id for cohort in self.cohorts)}
        places = {entry.place_id, *entry.other_place_ids}
        return places <= units and entry.fish_id in fish


def ask(
    book: Ledger, entry: Entry, *, today: date, facts: Facts | None = None
) -> Question | None:
    """Return what is to be asked about an entry, None where nothing is.

    Parameters
    ----------
    book
        Without the entry; one that it replaces is left out here.
    today
        Where the fish are.
    facts
        Of a sample.
    """
    if isinstance(entry, Cancelled) or not book.has_all_of(entry):
        return None
    past = tuple(e for e in in_force((*book.entries, entry)) if e.id != entry.id)
    units = {unit.id: unit for unit in book.units}
    unit = None if entry.place_id is None else units.get(entry.place_id)
    if unit is None:  # feed that was bought
        return None
    facts = facts or Facts()
    first = of_the_calendar(entry, (*past, *book.same_photos), unit, today)
    about_fish = _about_figures(book, entry, past, unit, facts)
    found = [q for q in (about_fish, first) if q is not None]
    doubts = tuple(problem for question in found for problem in question.doubts)
    doubts += _withdrawal(book, entry, past)
    doubts += tuple(p for p in facts.problems if p.code in ASKING_PROBLEMS)
    if not doubts:
        return None
    named = next((q for q in found if q.slip is not None), None)
    if named is None:
        return Question(entry=entry, doubts=doubts)
    return replace(named, doubts=doubts)


def _about_figures(
    book: Ledger, entry: Entry, past: tuple[Entry, ...], unit: Unit, facts: Facts
) -> Question | None:
    if entry.kind not in FIELDS:  # no figure of it is held against another
        return None
    before = tuple(e for e in past if e.on <= entry.on)
    place = _place(book, before, entry, unit)
    if isinstance(entry, FishEntry) and place.present is None:
        if _may_start(entry, past):
            return _judged_question(book, before, entry, place)
        return _no_fish(book, before, entry, place)
    question = _judged_question(book, before, entry, place)
    more = _later(book, entry, past) or _count_stated(facts, place)
    if more is None:
        return question
    if question is None:
        return Question(entry=entry, doubts=(more,))
    return replace(question, doubts=(*question.doubts, more))


def _withdrawal(
    book: Ledger, entry: Entry, past: tuple[Entry, ...]
) -> tuple[Problem, ...]:
    """Return the withdrawal periods in which fish would be taken for food."""
    before = tuple(e for e in past if e.on <= entry.on)
    if not isinstance(entry, Harvested | Sold):
        return ()
    if not any(isinstance(e, Treated) for e in before):
        return ()
    read = (e for e in before if isinstance(e, WaterReading))  # temperatures alone
    states = replay(book.units, (), read, on=entry.on).units
    waits = withdrawals(before, {state.unit.id: state.temperature for state in states})
    here = [wait for wait in waits if wait.unit_id == entry.unit_id]
    return withdrawal_problems(here, entry.on)


def _may_start(entry: FishEntry, past: tuple[Entry, ...]) -> bool:
    """Return whether fish may be there that the book does not have.

    They come by this entry, or came before the book began, or a count puts it right
    that the book has too few.
    """
    if entry.kind == "stocked" or getattr(entry, "fish_count", None) == 0:
        return True
    own = [e for e in past if e.fish_id == entry.cohort_id]
    if not any(e.kind in _BRINGS for e in own):
        return True
    been = any(
        e.on <= entry.on and entry.unit_id in {e.place_id, *e.other_place_ids}
        for e in own
    )
    return been and entry.kind == "counted"


def _judged_question(
    book: Ledger, before: tuple[Entry, ...], entry: Entry, place: Place
) -> Question | None:
    said = said_of(entry)
    found = judged(entry.kind, said, place)
    if not found.verdict.asks:
        return None
    others = _others(book, before, entry) if isinstance(entry, FishEntry) else []
    if others:
        found = judged(entry.kind, said, place, others)
    return _question(entry, found, place)


def _question(entry: Entry, found: Judged, place: Place) -> Question:
    doubts = tuple(problem_of(check, place) for check in found.odd)
    slip, right = None, None
    if found.change is not None:
        slip, right = slip_of(found.change), corrected(entry, found.change)
    elif found.place is not None and isinstance(entry, FishEntry):
        day = found.place.on
        slip = slip_elsewhere(found.place, other_day=day != entry.on)
        right = elsewhere(entry, found.place)
        right = None if right is None else replace(right, on=day)
    return Question(
        entry=entry,
        doubts=doubts,
        slip=slip,
        slip_chance=found.chance,
        corrected=right,
    )


def _no_fish(
    book: Ledger, before: tuple[Entry, ...], entry: FishEntry, place: Place
) -> Question:
    """Ask about fish that by the book are not there."""
    said = said_of(entry)
    cohort = next((c.name for c in book.cohorts if c.id == entry.cohort_id), "")
    later = [
        e.on
        for e in book.entries
        if e.fish_id == entry.cohort_id
        and e.on > entry.on
        and entry.unit_id in {e.place_id, *e.other_place_ids}
    ]
    doubt = Problem.of(
        "doubt-no-fish",
        case="later" if later else "never",
        unit=place.unit.name,
        cohort=cohort,
        on=entry.on,
        first_on=min(later, default=entry.on),
    )
    fits = [
        (sum(c.log_likelihood for c in found.odd), there)
        for there in _others(book, before, entry, days=())
        for found in (judged(entry.kind, said, there),)
        if found.odd and not found.verdict.asks
    ]
    if len(fits) != 1:
        return Question(entry=entry, doubts=(doubt,))
    there = fits[0][1]
    return Question(
        entry=entry,
        doubts=(doubt,),
        slip=slip_elsewhere(there, other_day=False),
        slip_chance=0.5,
        corrected=elsewhere(entry, there),
    )


def _later(book: Ledger, entry: Entry, past: tuple[Entry, ...]) -> Problem | None:
    """Return it where an entry of the past leaves too few fish for what came after."""
    if not isinstance(entry, FishEntry) or entry.kind not in {
        "died",
        "harvested",
        "sold",
        "moved",
    }:
        return None
    last = max((e.on for e in past if e.fish_id == entry.cohort_id), default=entry.on)
    if last <= entry.on:
        return None
    unit = next(u for u in book.units if u.id == entry.unit_id)
    without = _place(book, past, replace(entry, on=last), unit)
    known = (*past, entry)
    place = _place(book, known, replace(entry, on=last), unit)
    if any(p.code == "more-out-than-in" for p in _problems(without)):
        return None
    return next((p for p in _problems(place) if p.code == "more-out-than-in"), None)


def _problems(place: Place) -> tuple[Problem, ...]:
    return () if place.fish is None else place.fish.problems


def _count_stated(facts: Facts, place: Place) -> Problem | None:
    """Hold the count that a sample was worked out with against the book's."""
    stated, fish = facts.count_in_unit, place.present
    if stated is None or fish is None:
        return None
    said = {"fish_count": float(stated), "fish_count_sd": facts.count_in_unit_sd}
    found = judged("counted", said, place)
    if not found.verdict.asks:
        return None
    return Problem.of(
        "doubt-count",
        case="stated",
        entered_fish=stated,
        expected_fish=fish.fish_count,
        unit=place.unit.name,
    )


# --- what is where ---------------------------------------------------------------


def _place(book: Ledger, past: tuple[Entry, ...], entry: Entry, unit: Unit) -> Place:
    """Return what is known where an entry is made, of the cohorts that matter alone."""
    if isinstance(entry, WaterReading):
        past = tuple(e for e in past if isinstance(e, WaterReading))
    units, cohorts, needed = _around(book, past, entry)
    known = [e for e in needed if e.on <= entry.on]
    if isinstance(entry, Feed):
        here = [e for e in known if e.place_id == unit.id]
        if usual_feed_kg(here, entry.on) is not None:  # which alone is looked at
            units, cohorts = (unit,), ()
            needed = tuple(e for e in here if isinstance(e, WaterReading))
    key = entry.on, *(id(record) for record in (*units, *cohorts, *needed))
    if key not in book.replayed:
        found = replay(units, cohorts, needed, on=entry.on)
        book.replayed[key] = (units, cohorts, needed), found
    _, balance = book.replayed[key]
    return place_of(balance.unit(unit.id), entry.fish_id, known)


def _around(
    book: Ledger, past: tuple[Entry, ...], entry: Entry
) -> tuple[tuple[Unit, ...], tuple[Cohort, ...], tuple[Entry, ...]]:
    """Return the part of the book that says something of an entry's fish."""
    places = {entry.place_id}
    for each in past:
        if each.fish_id is not None and each.fish_id == entry.fish_id:
            places |= {each.place_id, *each.other_place_ids}
    fish = {entry.fish_id} | {
        e.fish_id for e in past if {e.place_id, *e.other_place_ids} & places
    }
    needed = tuple(
        e
        for e in past
        if e.fish_id in fish or (e.fish_id is None and e.place_id in places)
    )
    used = places | {i for e in needed for i in (e.place_id, *e.other_place_ids)}
    return (
        tuple(unit for unit in book.units if unit.id in used),
        tuple(cohort for cohort in book.cohorts if cohort.id in fish),
        needed,
    )


def _others(
    book: Ledger,
    before: tuple[Entry, ...],
    entry: FishEntry,
    days: tuple[int, ...] = (-30, 30, 365),
) -> list[Place]:
    """Return where else fish are that day, and for a sample other days there."""
    all_of_it, known = book, before
    if book.whole is not None:
        all_of_it = book.whole()
        counting = in_force((*all_of_it.entries, entry))
        known = tuple(e for e in counting if e.on <= entry.on and e.id != entry.id)
    state = replay(all_of_it.units, all_of_it.cohorts, known, on=entry.on)
    found = [
        place_of(unit, fish.cohort.id, known)
        for unit in state.units
        for fish in unit.cohorts
        if (unit.unit.id, fish.cohort.id) != (entry.unit_id, entry.cohort_id)
    ]
    found = [place for place in found if place.present is not None]
    if entry.kind != "sample":
        return found
    unit = next(u for u in book.units if u.id == entry.unit_id)
    first = min((e.on for e in before if e.fish_id == entry.cohort_id), default=None)
    last = max((e.on for e in book.entries), default=entry.on)
    for step in days:
        on = entry.on + timedelta(days=step)
        if first is not None and first < on <= last:
            past = tuple(e for e in in_force(book.entries) if e.on <= on)
            found.append(_place(book, past, replace(entry, on=on), unit))
    return found
