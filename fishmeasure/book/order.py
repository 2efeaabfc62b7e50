"""The order in which entries count: by day, and within a day as they were made.

Within a day entries follow ``recorded_at``, which the book gives, later to each
next one. Entries of one moment (a batch of an older program) and those that no book
has recorded yet follow by kind, then by id; the latter come after the others. So a
replay is the same in whatever order entries arrive. On top of that:

- a correction takes the place of what it corrects;
- readings of a unit with a time of day share out their places among themselves by it;
- fish are stocked before anything else of their first day.
"""

from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime, time
from typing import Final
from uuid import UUID

from fishmeasure.book.entries import ENTRY_KINDS, Cancelled, Entry, Stocked

# Of entries of one moment, fish come before they are sorted, moved, lost or counted,
# and are counted before they are sampled.
_KIND_ORDER = {kind: order for order, kind in enumerate(ENTRY_KINDS)}
_NOT_RECORDED: Final = datetime.max.replace(tzinfo=UTC)
_Key = tuple[date, bool, datetime, int, int, datetime, int]


def in_order(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return the entries in the order in which they count."""
    known = {entry.id: entry for entry in entries}
    first_days: dict[UUID | None, date] = {}
    for entry in known.values():
        day = first_days.get(entry.fish_id, entry.on)
        first_days[entry.fish_id] = min(day, entry.on)

    def key(entry: Entry) -> _Key:
        made = _first_written(entry, known)
        first = isinstance(entry, Stocked) and entry.on == first_days[entry.fish_id]
        return (
            entry.on,
            not first,
            made.recorded_at or _NOT_RECORDED,
            _KIND_ORDER[entry.kind],
            made.id.int,
            entry.recorded_at or _NOT_RECORDED,
            entry.id.int,
        )

    return _by_time_of_day(sorted(known.values(), key=key))


def in_force(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return the entries that no other one replaces, in order."""
    known = tuple(entries)
    gone = {entry.replaces for entry in known if entry.replaces is not None}
    return tuple(
        entry
        for entry in in_order(known)
        if entry.id not in gone and not isinstance(entry, Cancelled)
    )


def _first_written(entry: Entry, known: Mapping[UUID, Entry]) -> Entry:
    """Return what an entry corrects, at the end of the chain of corrections."""
    seen = {entry.id}
    while entry.replaces is not None and entry.replaces not in seen:
        corrected = known.get(entry.replaces)
        if corrected is None:
            break
        entry = corrected
        seen.add(entry.id)
    return entry


def _by_time_of_day(entries: list[Entry]) -> tuple[Entry, ...]:
    """Return the entries, a unit's with a time put right among those of their day."""
    places: dict[tuple[date, UUID | None], list[int]] = {}
    for place, entry in enumerate(entries):
        if _at(entry) is not None:
            places.setdefault((entry.on, entry.place_id), []).append(place)
    found = list(entries)
    for day in places.values():
        timed = sorted((entries[place] for place in day), key=lambda e: str(_at(e)))
        for place, entry in zip(day, timed, strict=True):
            found[place] = entry
    return tuple(found)


def _at(entry: Entry) -> time | None:
    at: time | None = getattr(entry, "at", None)
    return at
