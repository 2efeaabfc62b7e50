"""Whether an entry or a sample may go into the book, and whether it is there already.

What the book finds unlikely is asked about first (``book.asking``); the answer is a
token that is good for exactly these entries and this state of the book, or a yes.
"""

import hashlib
import json
import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, timedelta
from functools import cache, partial
from typing import Any, Final
from uuid import UUID

from fishmeasure.base.errors import (
    DoubtfulEntryError,
    FutureDayError,
    OtherSpeciesError,
    SampleElsewhereError,
    SpeciesError,
)
from fishmeasure.base.record import plain
from fishmeasure.base.words import Message, Parameters, shell_word
from fishmeasure.book.asking import Facts, Ledger, Question, ask
from fishmeasure.book.entries import Cancelled, Entry, Sample, entry_to_plain
from fishmeasure.book.units import Cohort
from fishmeasure.species import Species, load_species
from fishmeasure.store.book import Book, Part
from fishmeasure.store.rows import Added, newest

# Two places are at most 26 hours apart, so it may be tomorrow for who sends it.
_SLACK: Final = timedelta(days=1)
# What was weighed, counted and photographed comes out in these figures to the last
# digit; photos by another name, or in another folder, change none of them.
_FIGURES: Final = (
    "mean_weight_g",
    "mean_weight_low_g",
    "mean_weight_high_g",
    "level",
    "cv",
    "condition_factor",
    "condition_factor_low",
    "condition_factor_high",
    "fish_measured",
    "fish_weighed",
)
# The last digits differ between processors.
_SAME: Final = 1e-9


def check_day(on: date, today: date) -> None:
    """Refuse what is dated in the future; a day is left for time zones.

    Raises
    ------
    FutureDayError
    """
    if on > today + _SLACK:
        raise FutureDayError(on, today)


def check_species(species: Species, cohort: Cohort) -> None:
    """Refuse a sample of other fish than the cohort's.

    A stock of one's own is of its species' Latin name, whatever its key.

    Raises
    ------
    OtherSpeciesError
    """
    if species.key == cohort.species_key:
        return
    try:
        wanted = load_species(cohort.species_key)
    except SpeciesError:  # the book is older than what is known of species here
        pass
    else:
        if species.latin_name == wanted.latin_name:
            return
    raise OtherSpeciesError(species.key, cohort.name, cohort.species_key)


def find_same(book: Book, sample: Sample) -> Sample | None:
    """Return the entry in force that is this sample, if there is one.

    Raises
    ------
    SampleElsewhereError
        If the cohort has the sample on another day or in another unit.
    """
    same = [
        entry
        for entry in book.entries(cohort_id=sample.cohort_id, only_in_force=True)
        if isinstance(entry, Sample) and _is_same(entry, sample)
    ]
    for entry in same:
        if (entry.on, entry.unit_id) == (sample.on, sample.unit_id):
            return entry
    if not same:
        return None
    old, fields = same[0], []
    unit = book.unit(sample.unit_id).name
    if old.on != sample.on:
        fields.append(f"on={sample.on}")
    if old.unit_id != sample.unit_id:
        fields.append(f"unit={shell_word(unit)}")
    raise SampleElsewhereError(
        day=old.on,
        unit=book.unit(old.unit_id).name,
        identity=str(old.id),
        change=" ".join(fields),
    )


def _is_same(one: Sample, other: Sample) -> bool:
    for name in _FIGURES:
        first, second = getattr(one, name), getattr(other, name)
        if first is None or second is None:
            if first is not second:
                return False
        elif not math.isclose(first, second, rel_tol=_SAME):
            return False
    return True


# --- asking before believing ----------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is asked about entries, and the token of the answer that they are right."""

    questions: tuple[Question, ...]
    token: str

    def error(self) -> DoubtfulEntryError:
        """Return what is raised where nobody answers."""
        first = self.questions[0]
        doubts = tuple(
            Message(problem.code, Parameters(problem.parameters))
            for problem in first.doubts
        )
        details = tuple(question_json(question) for question in self.questions)
        return DoubtfulEntryError(doubts, first.slip, self.token, details)


def question_json(question: Question) -> dict[str, Any]:
    """Return a question as JSON has it."""
    right, slip = question.corrected, question.slip
    return {
        "id": str(question.entry.id),
        "doubts": [plain(problem) for problem in question.doubts],
        "slip": None if slip is None else {"code": slip.code, "message": str(slip)},
        "slip_chance": round(question.slip_chance, 3),
        "corrected": None if right is None else plain(entry_to_plain(right)),
    }


def questions_about(
    book: Book,
    entries: Sequence[Entry],
    *,
    today: date,
    facts: Mapping[UUID, Facts] | None = None,
) -> Asked:
    """Return what is to be asked about entries that are not in the book yet.

    Each is held against what the book has of its fish, with the entries of those fish
    that are sent before it. What else is sent with it changes what is expected too
    little to be worked out anew for each: one replay does for all entries of a day
    about units that share fish.
    """
    there = book.has_entries(entry.id for entry in entries)
    new = [entry for entry in entries if entry.id not in there]
    whole = cache(partial(_whole, book))
    ledgers: dict[int, Ledger] = {}
    found, parts = [], book.parts_of(new)
    for number, (entry, part) in enumerate(zip(new, parts, strict=True)):
        known = ledgers.setdefault(
            id(part),
            Ledger(units=part.units, cohorts=part.cohorts, entries=part.entries),
        )
        sent = new[:number]
        before = (e for e in sent if known.has_all_of(e) and _counts_for(entry, e))
        known = replace(
            known.with_entry(*before),
            same_photos=book.samples_with_photos(entry),
            whole=partial(_whole_with, whole, sent),
        )
        question = ask(known, entry, today=today, facts=(facts or {}).get(entry.id))
        if question is not None:
            found.append(question)
    return Asked(questions=tuple(found), token=_token(parts, entries))


def _whole(book: Book) -> Ledger:
    content = book.content()
    return Ledger(
        units=newest(content.units),
        cohorts=newest(content.cohorts),
        entries=content.entries,
    )


def _whole_with(whole: Callable[[], Ledger], sent: Sequence[Entry]) -> Ledger:
    found = whole()
    return found.with_entry(*(e for e in sent if found.has_all_of(e)))


def _counts_for(entry: Entry, before: Entry) -> bool:
    """Return whether an entry that is sent before another one counts for it."""
    if isinstance(before, Cancelled) or before.id == entry.replaces:
        return True
    if before.fish_id is not None:
        return before.fish_id == entry.fish_id
    return before.place_id == entry.place_id and before.kind == entry.kind


def enter(
    book: Book,
    entries: Sequence[Entry],
    *,
    today: date,
    confirm: str | bool = False,
    facts: Mapping[UUID, Facts] | None = None,
) -> Added:
    """Write entries: all of them or none, each that is doubtful once it is confirmed.

    Parameters
    ----------
    confirm
        The token of the question, or True for whatever may be asked.

    Raises
    ------
    DoubtfulEntryError
        If something is to be asked; nothing is written then.
    LedgerError
        As ``Book.add``.
    """
    asked = questions_about(book, entries, today=today, facts=facts)
    doubted = {question.entry.id for question in asked.questions}
    if doubted and confirm is not True and confirm != asked.token:
        raise asked.error()
    return book.add(
        *(replace(entry, confirmed=entry.id in doubted) for entry in entries)
    )


def _token(parts: Iterable[Part], entries: Sequence[Entry]) -> str:
    """Return the digest of entries and of what the book has of their fish and units."""
    sent = [
        [(f.name, str(getattr(entry, f.name))) for f in fields(entry) if f.compare]
        for entry in entries
    ]
    near = {str(entry.id) for part in parts for entry in part.entries}
    versions = {version for part in parts for version in part.versions}
    said = json.dumps([sent, sorted(near), sorted(versions)])
    return hashlib.sha256(said.encode()).hexdigest()
