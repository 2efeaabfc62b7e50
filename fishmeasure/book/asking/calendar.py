"""What the days of the book say against an entry: long ago, entered twice."""

from collections.abc import Iterable, Iterator
from dataclasses import fields, replace
from datetime import date
from typing import Final

from fishmeasure.base.errors import BadEntryError
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.asking.records import Question
from fishmeasure.book.entries import Entry, Sample
from fishmeasure.book.units import Unit

_LONG_AGO_DAYS: Final = 60
"""Older than what was entered last by so much: common practice, no source."""
_ONCE: Final = frozenset(
    ("stocked", "harvested", "sold", "moved", "graded", "counted", "sample")
)
_NO_CONTENT: Final = frozenset(("id", "note", "replaces"))


def of_the_calendar(
    entry: Entry, past: Iterable[Entry], unit: Unit | None, today: date
) -> Question | None:
    """Return what is odd about the day of an entry, or about its being there twice."""
    here = [e for e in past if e.place_id == entry.place_id or _same_fish(e, entry)]
    for question in (
        _twice(entry, here),
        _photo_twice(entry, past, unit),
        _long_ago(entry, here, today),
    ):
        if question is not None:
            return question
    return None


def _same_fish(one: Entry, other: Entry) -> bool:
    return one.fish_id is not None and one.fish_id == other.fish_id


def _twice(entry: Entry, here: list[Entry]) -> Question | None:
    if entry.kind not in _ONCE or entry.replaces is not None:
        return None
    for other in here:
        if type(other) is type(entry) and _content(other) == _content(entry):
            said = Problem.of("doubt-twice", on=other.on)
            return Question(entry=entry, doubts=(said,))
    return None


def _content(entry: Entry) -> tuple[object, ...]:
    return tuple(
        getattr(entry, item.name)
        for item in fields(entry)
        if item.compare and item.name not in _NO_CONTENT
    )


def _photo_twice(
    entry: Entry, past: Iterable[Entry], unit: Unit | None
) -> Question | None:
    """Ask about a photo of two samples, which shows the same fish twice."""
    if not isinstance(entry, Sample) or not entry.photos:
        return None
    for other in past:
        if isinstance(other, Sample) and set(other.photos) & set(entry.photos):
            said = Problem.of(
                "doubt-photo-twice",
                on=other.on,
                photos=len(set(other.photos) & set(entry.photos)),
                unit="" if unit is None else unit.name,
            )
            return Question(entry=entry, doubts=(said,))
    return None


def _long_ago(entry: Entry, here: list[Entry], today: date) -> Question | None:
    """Ask about an entry long before what was entered last; old notes are in a row."""
    recorded = [e for e in here if e.recorded_at is not None]
    if not recorded or (today - entry.on).days <= _LONG_AGO_DAYS:
        return None
    last = max(recorded, key=lambda e: str(e.recorded_at))
    if entry.replaces is not None or (last.on - entry.on).days <= _LONG_AGO_DAYS:
        return None
    said = Problem.of("doubt-long-ago", on=entry.on, last_on=last.on)
    meant = min(
        _likely_days(entry.on, today),
        key=lambda day: abs((day - last.on).days),
        default=None,
    )
    if meant is None or abs((meant - last.on).days) > _LONG_AGO_DAYS:
        return Question(entry=entry, doubts=(said,))
    try:
        other = replace(entry, on=meant)
    except BadEntryError:
        other = None
    return Question(
        entry=entry,
        doubts=(said,),
        slip=Message.of("slip-day", right_on=meant),
        slip_chance=0.5,
        corrected=other,
    )


def _likely_days(on: date, today: date) -> Iterator[date]:
    """Yield the days that may have been meant: year, or day and month, mistyped."""
    for year in (today.year, today.year - 1):
        for month, day in ((on.month, on.day), (on.day, on.month)):
            try:
                found = date(year, month, day)
            except ValueError:
                continue
            if on < found <= today:
                yield found
