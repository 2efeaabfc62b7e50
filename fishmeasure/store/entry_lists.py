"""Entries by what is asked of them: filtered by the database, a page at a time."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final
from uuid import UUID

from sqlalchemy import ColumnElement, Connection, func, or_, select
from sqlalchemy.orm import aliased

from fishmeasure.book.entries import Cancelled, Entry, Stocked
from fishmeasure.book.order import in_order
from fishmeasure.store import tables
from fishmeasure.store.groups import Group
from fishmeasure.store.rows import entries_by_id, entries_where

_CHUNK: Final = 500
_TAKEN_BACK: Final = "cancelled"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which entries: those of a unit (moves to it as well), of a cohort, of days.

    ``photos`` are samples with any of these.
    """

    unit_id: UUID | None = None
    cohort_id: UUID | None = None
    since: date | None = None
    until: date | None = None
    only_in_force: bool = False
    kinds: tuple[str, ...] = ()
    photos: tuple[str, ...] = ()


def listed(connection: Connection, wanted: Wanted) -> tuple[Entry, ...]:
    """Return the entries in the order in which they count."""
    found = tuple(entries_where(connection, *_conditions(wanted)))
    return _chosen(connection, in_their_order(connection, found), wanted)


def page(
    connection: Connection, wanted: Wanted, *, limit: int, offset: int
) -> tuple[tuple[Entry, ...], bool]:
    """Return some entries, newest first, and whether there are more.

    The order goes by day before all else, so whole days are read, and no more of them
    than the page needs.
    """
    days = _days(connection, wanted, limit=limit, offset=offset)
    skipped, lasts, total = 0, [], 0
    for on, count in days:
        if total + count <= offset:
            skipped += count
        else:
            lasts.append(on)
        total += count
    if not lasts:
        return (), False
    conditions = _conditions(wanted)
    on_date = tables.entries.c.on_date
    conditions += [on_date >= lasts[-1], on_date <= lasts[0]]
    read = tuple(entries_where(connection, *conditions))
    found = _chosen(connection, in_their_order(connection, read), wanted)[::-1]
    start = offset - skipped
    return found[start : start + limit], total > offset + limit


def of_groups(connection: Connection, groups: Iterable[Group]) -> tuple[Entry, ...]:
    """Return all entries that touch a unit of these groups, as they arrived."""
    members = {member for group in groups for member in group.member_ids}
    return tuple(_touching(connection, sorted(members)))


def _touching(connection: Connection, units: Sequence[UUID]) -> Iterable[Entry]:
    table, touched = tables.entries, tables.entry_units
    found: dict[UUID, Entry] = {}
    for start in range(0, len(units), _CHUNK):
        chunk = units[start : start + _CHUNK]
        seqs = select(touched.c.seq).where(touched.c.unit_id.in_(chunk))
        for entry in entries_where(connection, table.c.seq.in_(seqs)):
            found[entry.id] = entry
    return found.values()


def _days(
    connection: Connection, wanted: Wanted, *, limit: int, offset: int
) -> list[tuple[date, int]]:
    """Return the newest days with their entries, as many as reach the page's end."""
    table = tables.entries
    conditions = _conditions(wanted)
    if wanted.only_in_force:
        later = aliased(table)
        replaced = select(later.c.id).where(later.c.replaces == table.c.id).exists()
        conditions += [~replaced, table.c.kind != _TAKEN_BACK]
    query = (
        select(table.c.on_date, func.count())
        .where(*conditions)
        .group_by(table.c.on_date)
        .order_by(table.c.on_date.desc())
        .limit(offset + limit + 1)
    )
    days: list[tuple[date, int]] = []
    total = 0
    for on, count in connection.execute(query):
        days.append((on, count))
        total += count
        if total > offset + limit:
            break
    return days


def _conditions(wanted: Wanted) -> list[ColumnElement[bool]]:
    """Return what the database is asked; whether in force is looked at apart."""
    table, touched = tables.entries, tables.entry_units
    found: list[ColumnElement[bool]] = []
    if wanted.unit_id is not None:
        named = touched.c.named.is_(True), touched.c.unit_id == wanted.unit_id
        found.append(table.c.seq.in_(select(touched.c.seq).where(*named)))
    if wanted.cohort_id is not None:
        found.append(table.c.cohort_id == wanted.cohort_id)
    if wanted.since is not None:
        found.append(table.c.on_date >= wanted.since)
    if wanted.until is not None:
        found.append(table.c.on_date <= wanted.until)
    if wanted.kinds:
        found.append(table.c.kind.in_(wanted.kinds))
    if wanted.photos:
        as_kept = (json.dumps(one, ensure_ascii=False) for one in wanted.photos)
        has = (table.c.body.contains(one, autoescape=True) for one in as_kept)
        found += [table.c.kind == "sample", or_(*has)]
    return found


def in_their_order(
    connection: Connection, entries: Iterable[Entry]
) -> tuple[Entry, ...]:
    """Return entries of the book in the order in which they count in the whole of it.

    What decides it beside them is read too: what they correct, and when their fish
    first came.
    """
    wanted = {entry.id: entry for entry in entries}
    known: dict[UUID, Entry] = dict(wanted)
    while missing := {e.replaces for e in known.values() if e.replaces} - known.keys():
        older = entries_by_id(connection, sorted(missing))
        if not older:
            break
        known |= older
    stocked = {e.cohort_id for e in known.values() if isinstance(e, Stocked)}
    known |= _first_of(connection, sorted(stocked))
    return tuple(entry for entry in in_order(known.values()) if entry.id in wanted)


def _first_of(connection: Connection, cohorts: Sequence[UUID]) -> dict[UUID, Entry]:
    """Return the entries of the first day of each cohort."""
    table = tables.entries
    found: dict[UUID, Entry] = {}
    for start in range(0, len(cohorts), _CHUNK):
        first = (
            select(table.c.cohort_id, func.min(table.c.on_date).label("on_date"))
            .where(table.c.cohort_id.in_(cohorts[start : start + _CHUNK]))
            .group_by(table.c.cohort_id)
            .subquery()
        )
        same: tuple[Any, ...] = (
            table.c.cohort_id == first.c.cohort_id,
            table.c.on_date == first.c.on_date,
        )
        found |= {entry.id: entry for entry in entries_where(connection, *same)}
    return found


def _chosen(
    connection: Connection, entries: tuple[Entry, ...], wanted: Wanted
) -> tuple[Entry, ...]:
    """Leave out what was replaced or taken back, if that is wanted."""
    if not wanted.only_in_force:
        return entries
    table = tables.entries
    gone: set[UUID] = set()
    ids = [entry.id for entry in entries]
    for start in range(0, len(ids), _CHUNK):
        chunk = ids[start : start + _CHUNK]
        query = select(table.c.replaces).where(table.c.replaces.in_(chunk))
        gone.update(connection.execute(query).scalars())
    return tuple(
        entry
        for entry in entries
        if entry.id not in gone and not isinstance(entry, Cancelled)
    )
