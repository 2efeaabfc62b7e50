"""Rows of the book: records written and read within a transaction."""

import json
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import UTC, datetime, time, timedelta
from functools import lru_cache
from typing import Any, Literal, TypeVar, cast
from uuid import UUID

from sqlalchemy import ColumnElement, Connection, Row, Table, func, insert, select

from fishmeasure.base.errors import (
    AlreadyReplacedError,
    EntryConflictError,
    NameTakenError,
    UnknownRecordError,
    VersionConflictError,
)
from fishmeasure.base.record import LAST_DAY, plain, read
from fishmeasure.book.entries import Entry, entry_from_plain
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.store import tables
from fishmeasure.store.groups import note_entries

# How many identifiers one SQL statement names; SQLite's own limit is 32766.
_CHUNK = 500
Versioned = TypeVar("Versioned", Unit, Cohort)
_COMMON = ("id", "on", "unit_id", "cohort_id", "replaces", "recorded_at")


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """What became of entries that were sent.

    ``repeated`` were in the book already with the same content.
    """

    added: tuple[UUID, ...]
    repeated: tuple[UUID, ...]


def newest(versions: Iterable[Versioned]) -> tuple[Versioned, ...]:
    """Return the newest version of each unit or cohort, by name."""
    latest: dict[UUID, Versioned] = {}
    for record in versions:
        known = latest.get(record.id)
        if known is None or record.version > known.version:
            latest[record.id] = record
    return tuple(sorted(latest.values(), key=lambda record: record.name.casefold()))


def _tables_of(kind: type[Any]) -> tuple[Table, Table, Literal["unit", "cohort"]]:
    if kind is Unit:
        return tables.units, tables.unit_versions, "unit"
    return tables.cohorts, tables.cohort_versions, "cohort"


def versions_of(connection: Connection, kind: type[Versioned]) -> Iterator[Versioned]:
    """Yield all versions of all units or cohorts, oldest first."""
    _, table, _ = _tables_of(kind)
    for row in connection.execute(select(table).order_by(table.c.version, table.c.id)):
        yield _version_of(kind, row)


@lru_cache(maxsize=4096)
def _version(
    what: Literal["unit", "cohort"], key: tuple[UUID, int, datetime], body: str
) -> Unit | Cohort:
    """Return a version, read once: it never changes."""
    identity, version, recorded_at = key
    values = {"id": identity, "version": version, "recorded_at": recorded_at}
    whole = json.loads(body) | values
    return read(Unit, whole) if what == "unit" else read(Cohort, whole)


def _version_of(kind: type[Versioned], row: Row[Any]) -> Versioned:
    key = row.id, row.version, row.recorded_at
    found = _version(_tables_of(kind)[2], key, row.body)
    return cast("Versioned", found)


def newest_of(
    connection: Connection,
    kind: type[Versioned],
    identities: Collection[UUID] | None = None,
) -> tuple[Versioned, ...]:
    """Return the newest version of these units or cohorts, or of all, by name."""
    _, table, _ = _tables_of(kind)
    last = (
        select(table.c.id, func.max(table.c.version).label("version"))
        .group_by(table.c.id)
        .subquery()
    )
    query = select(table).join(
        last, (table.c.id == last.c.id) & (table.c.version == last.c.version)
    )
    found = [
        _version_of(kind, row)
        for row in connection.execute(query)
        if identities is None or row.id in identities
    ]
    return tuple(sorted(found, key=lambda record: (record.name.casefold(), record.id)))


def save_version(
    connection: Connection, record: Versioned, *, repeat_any: bool = False
) -> Versioned:
    """Write a unit or cohort; ``repeat_any`` takes an old version sent again."""
    kind = type(record)
    owners, versions, what = _tables_of(kind)
    known = tuple(versions_of(connection, kind))
    same = [other for other in known if other.id == record.id]
    sent_before = next((o for o in same if o.version == record.version), None)
    latest = max((other.version for other in same), default=0)
    may_repeat = repeat_any or record.version == latest
    if sent_before is not None and sent_before == record and may_repeat:
        return sent_before
    if record.version != latest + 1:
        raise VersionConflictError(what, record.name, record.version, latest)
    for other in newest(known):
        if other.id != record.id and other.name.casefold() == record.name.casefold():
            raise NameTakenError(what, record.name)
    if latest == 0:
        connection.execute(insert(owners).values(id=record.id))
    saved = replace(record, recorded_at=record.recorded_at or datetime.now(UTC))
    body = plain(saved, sparse=True)
    for name in ("id", "version", "recorded_at"):
        body.pop(name, None)
    connection.execute(
        insert(versions).values(
            id=saved.id,
            version=saved.version,
            recorded_at=saved.recorded_at,
            body=json.dumps(body, ensure_ascii=False),
        )
    )
    return saved


def find_named(
    records: tuple[Versioned, ...], what: str, name_or_id: str | UUID
) -> Versioned:
    """Return the record of a name or id.

    Raises
    ------
    UnknownRecordError
    """
    wanted = str(name_or_id).strip().casefold()
    for record in records:
        if wanted in {record.name.casefold(), str(record.id)}:
            return record
    names = tuple(record.name for record in records)
    raise UnknownRecordError(what, str(name_or_id), names)


def _to_row(entry: Entry, now: datetime) -> dict[str, Any]:
    body = plain(entry, sparse=True)
    for name in _COMMON:
        body.pop(name, None)
    return {
        "id": entry.id,
        "kind": entry.kind,
        "on_date": entry.on,
        "unit_id": entry.place_id,
        "cohort_id": entry.fish_id,
        "replaces": entry.replaces,
        "recorded_at": entry.recorded_at or now,
        "body": json.dumps(body, ensure_ascii=False),
    }


def _from_row(row: Row[Any]) -> Entry:
    values = json.loads(row.body)
    values["kind"] = row.kind
    values["id"] = row.id
    values["on"] = row.on_date
    values["recorded_at"] = row.recorded_at
    for name in ("unit_id", "cohort_id", "replaces"):
        value = getattr(row, name)
        if value is not None:
            values[name] = value
    return entry_from_plain(values)


def read_entries(connection: Connection) -> Iterator[Entry]:
    """Yield all entries in the order of their arrival."""
    return entries_where(connection)


def entries_where(
    connection: Connection, *conditions: ColumnElement[bool]
) -> Iterator[Entry]:
    """Yield the entries of which the conditions hold, in the order of their arrival."""
    table = tables.entries
    query = select(table).where(*conditions).order_by(table.c.seq)
    for row in connection.execute(query):
        yield _from_row(row)


def _chunks(values: Sequence[UUID]) -> Iterator[Sequence[UUID]]:
    for start in range(0, len(values), _CHUNK):
        yield values[start : start + _CHUNK]


def entries_by_id(
    connection: Connection, identities: Sequence[UUID]
) -> dict[UUID, Entry]:
    """Return those of the entries that are in the book."""
    table = tables.entries
    return {
        row.id: _from_row(row)
        for chunk in _chunks(identities)
        for row in connection.execute(select(table).where(table.c.id.in_(chunk)))
    }


def known_ids(connection: Connection, identities: Sequence[UUID]) -> set[UUID]:
    """Return those of the ids that entries of the book have."""
    table, found = tables.entries, set[UUID]()
    for chunk in _chunks(identities):
        named = select(table.c.id).where(table.c.id.in_(chunk))
        found.update(connection.execute(named).scalars())
    return found


def cancelled_at(
    connection: Connection, identities: Sequence[UUID]
) -> dict[UUID, datetime]:
    """Return when those of the entries that were taken back were."""
    table, found = tables.entries, dict[UUID, datetime]()
    for chunk in _chunks(identities):
        gone = select(table.c.replaces, table.c.recorded_at).where(
            table.c.replaces.in_(chunk), table.c.kind == "cancelled"
        )
        found.update(
            (row.replaces, row.recorded_at) for row in connection.execute(gone)
        )
    return found


def _differing(one: Entry, other: Entry) -> tuple[str, ...]:
    if one.kind != other.kind:
        return ("kind",)
    return tuple(
        item.name
        for item in fields(one)
        if item.compare and getattr(one, item.name) != getattr(other, item.name)
    )


def add_entries(connection: Connection, sent: Sequence[Entry]) -> Added:
    """Write entries; one that was sent before, unchanged, is left.

    Raises
    ------
    EntryConflictError, UnknownRecordError, AlreadyReplacedError
    """
    new: dict[UUID, Entry] = {}
    repeated: list[UUID] = []
    present = entries_by_id(connection, [entry.id for entry in sent])
    for entry in sent:
        known = present.get(entry.id) or new.get(entry.id)
        if known is None:
            new[entry.id] = entry
        elif known == entry:
            repeated.append(entry.id)
        else:
            raise EntryConflictError("entry", str(entry.id), _differing(known, entry))
    _check_references(connection, new)
    first = _next_moment(connection)
    rows = [
        _to_row(entry, first + timedelta(microseconds=place))
        for place, entry in enumerate(new.values())
    ]
    if rows:
        connection.execute(insert(tables.entries), rows)
        note_entries(connection, new)
    return Added(added=tuple(new), repeated=tuple(repeated))


def _next_moment(connection: Connection) -> datetime:
    """Return now, or later than every entry of the book if the clock went back.

    Each entry has a later moment than the one before, so that entries of one day
    keep their order also in a copy of the book.
    """
    recorded = tables.entries.c.recorded_at
    last_day = datetime.combine(LAST_DAY, time.min, UTC)  # no copied moment overflows
    newest_moment: datetime | None = connection.execute(
        select(func.max(recorded)).where(recorded < last_day)
    ).scalar()
    now = datetime.now(UTC)
    if newest_moment is None:
        return now
    return max(now, newest_moment + timedelta(microseconds=1))


def _check_references(connection: Connection, new: Mapping[UUID, Entry]) -> None:
    """Refuse entries that name what is not in the book."""
    for table, what, named in (
        (
            tables.units,
            "unit",
            {i for e in new.values() for i in (e.place_id, *e.other_place_ids)},
        ),
        (tables.cohorts, "cohort", {e.fish_id for e in new.values()}),
    ):
        wanted = named - {None}
        if not wanted:
            continue
        known = set(connection.execute(select(table.c.id)).scalars())
        for identity in sorted(str(i) for i in wanted - known):
            raise UnknownRecordError(what, identity)
    by_old: dict[UUID, Entry] = {}
    for entry in new.values():
        if entry.replaces is not None:
            if entry.replaces in by_old:
                first = by_old[entry.replaces]
                raise AlreadyReplacedError(str(entry.replaces), str(first.id))
            by_old[entry.replaces] = entry
    _check_replaced(connection, new, tuple(by_old))


def _check_replaced(
    connection: Connection, new: Mapping[UUID, Entry], old: Sequence[UUID]
) -> None:
    table = tables.entries
    for chunk in _chunks(old):
        present = known_ids(connection, chunk)
        for identity in chunk:
            if identity not in present and identity not in new:
                raise UnknownRecordError("entry", str(identity))
        taken = select(table.c.replaces, table.c.id).where(table.c.replaces.in_(chunk))
        for row in connection.execute(taken):
            raise AlreadyReplacedError(str(row.replaces), str(row.id))


def read_remarks(connection: Connection) -> Iterator[tuple[str, str]]:
    """Yield what the book says of itself."""
    for row in connection.execute(
        select(tables.remarks).order_by(tables.remarks.c.name)
    ):
        yield row.name, row.value
