"""The book on disk: add and read units, cohorts and entries.

``open_book`` gives a ``Book`` that any number of threads and processes may use
at once: it keeps no state but a connection pool, every call is one transaction,
and writers take turns. What a call has returned is on the disk.
"""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from datetime import UTC, date, datetime
from pathlib import Path
from types import TracebackType
from typing import Any, Literal, Self, TypeVar
from uuid import UUID

from sqlalchemy import Connection, Engine, Row, Table, insert, select

from fishmeasure.errors import (
    AlreadyReplacedError,
    BookUnreadableError,
    EntryConflictError,
    NameTakenError,
    UnknownRecordError,
    VersionConflictError,
)
from fishmeasure.ledger import tables
from fishmeasure.ledger.archive import Archive
from fishmeasure.ledger.balance import Assumptions, Balance, replay
from fishmeasure.ledger.codec import from_plain, to_plain
from fishmeasure.ledger.engine import (
    migrate,
    open_engine,
    open_to_read,
    reading,
    writing,
)
from fishmeasure.ledger.entries import (
    Cohort,
    Entry,
    Unit,
    entry_from_plain,
    in_force,
)
from fishmeasure.ledger.outlook import Options, UnitOutlook, unit_outlook

# How many identifiers one SQL statement names; SQLite's own limit is 32766.
_CHUNK = 500
_Versioned = TypeVar("_Versioned", Unit, Cohort)
_COMMON = ("id", "on", "unit_id", "cohort_id", "replaces", "recorded_at")


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """What became of entries that were sent.

    ``repeated`` were in the book already with the same content.
    """

    added: tuple[UUID, ...]
    repeated: tuple[UUID, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BookContent:
    """Everything in the book, at one moment.

    ``units`` and ``cohorts`` have all their versions, oldest first; entries are
    in the order in which they arrived.
    """

    units: tuple[Unit, ...] = ()
    cohorts: tuple[Cohort, ...] = ()
    entries: tuple[Entry, ...] = ()
    remarks: tuple[tuple[str, str], ...] = ()


def newest(versions: Iterable[_Versioned]) -> tuple[_Versioned, ...]:
    """Return the newest version of each unit or cohort, by name."""
    latest: dict[UUID, _Versioned] = {}
    for record in versions:
        known = latest.get(record.id)
        if known is None or record.version > known.version:
            latest[record.id] = record
    return tuple(sorted(latest.values(), key=lambda record: record.name.casefold()))


def open_book(where: str | Path, *, to_read: bool = False) -> "Book":
    """Open a book, making or upgrading it if needed.

    Parameters
    ----------
    where
        Path of a file, or an address such as ``postgresql://user@host/book``.
    to_read
        Whether a book on a disk that takes no writes is opened all the same; then
        each write raises ``BookWriteError``.

    Raises
    ------
    BookUnreadableError
        If it is no book, or cannot be reached.
    BookNewerError
        If a newer program wrote it.
    """
    if isinstance(where, Path) or "://" not in where:
        try:
            Path(where).expanduser().parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise BookUnreadableError(str(where), error.strerror or "") from None
        where = str(Path(where).expanduser())
    if to_read:
        return Book(open_to_read(where))
    engine = open_engine(where)
    try:
        migrate(engine)
    except BaseException:
        engine.dispose()
        raise
    return Book(engine)


class Book:
    """The stock book; see ``open_book``.

    Safe to share between threads, and to open in several processes at once.
    Close it, or use it in a ``with`` statement.
    """

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the database."""
        self._engine.dispose()

    @property
    def archive(self) -> Archive:
        """Photos, samples in the making and devices, in the same database."""
        return Archive(self._engine)

    # --- units and cohorts ---------------------------------------------------

    def save_unit(self, unit: Unit) -> Unit:
        """Add a unit, or the next version of one; returns it as saved.

        Sending the newest version again changes nothing.

        Raises
        ------
        VersionConflictError
            If ``unit.version`` is not one more than the newest in the book.
        NameTakenError
            If another unit has the name.
        """
        with writing(self._engine) as connection:
            return _save_version(connection, unit)

    def save_cohort(self, cohort: Cohort) -> Cohort:
        """Add a cohort, or the next version of one; as ``save_unit``."""
        with writing(self._engine) as connection:
            return _save_version(connection, cohort)

    def units(self) -> tuple[Unit, ...]:
        """Return the newest version of every unit, by name."""
        with reading(self._engine) as connection:
            return newest(_versions(connection, Unit))

    def cohorts(self) -> tuple[Cohort, ...]:
        """Return the newest version of every cohort, by name."""
        with reading(self._engine) as connection:
            return newest(_versions(connection, Cohort))

    def unit(self, name_or_id: str | UUID) -> Unit:
        """Return the unit of that name or id.

        Raises
        ------
        UnknownRecordError
            Naming the units that there are.
        """
        return _find(self.units(), "unit", name_or_id)

    def cohort(self, name_or_id: str | UUID) -> Cohort:
        """Return the cohort of that name or id; as ``unit``."""
        return _find(self.cohorts(), "cohort", name_or_id)

    # --- entries ---------------------------------------------------------------

    def add(self, *entries: Entry) -> Added:
        """Write entries: all of them, or none.

        An entry that is in the book already, with the same content, is left as
        it is, so that a queue may be sent again after a broken connection.

        Raises
        ------
        EntryConflictError
            If an id is in the book with other content.
        AlreadyReplacedError
            If another entry replaces the same one.
        UnknownRecordError
            If a unit, cohort or replaced entry is not in the book.
        """
        with writing(self._engine) as connection:
            return _add(connection, entries)

    def entries(
        self,
        *,
        unit_id: UUID | None = None,
        cohort_id: UUID | None = None,
        only_in_force: bool = False,
    ) -> tuple[Entry, ...]:
        """Return the entries, by date and kind.

        ``unit_id`` takes moves to the unit as well; ``only_in_force`` leaves out
        what was replaced or taken back.
        """
        with reading(self._engine) as connection:
            found: Sequence[Entry] = tuple(_read_entries(connection))
        if only_in_force:
            found = in_force(found)
        else:
            found = sorted(found, key=lambda entry: (entry.on, entry.id.int))
        return tuple(
            entry
            for entry in found
            if (cohort_id is None or entry.fish_id == cohort_id)
            and (
                unit_id is None
                or entry.place_id == unit_id
                or unit_id in entry.other_place_ids
            )
        )

    def entry(self, identity: UUID) -> Entry:
        """Return one entry.

        Raises
        ------
        UnknownRecordError
            If the book has none of that id.
        """
        with reading(self._engine) as connection:
            found = _entries_by_id(connection, [identity])
        if identity not in found:
            raise UnknownRecordError("entry", str(identity))
        return found[identity]

    # --- all of it ---------------------------------------------------------------

    def content(self) -> BookContent:
        """Return everything, as of one moment."""
        with reading(self._engine) as connection:
            return BookContent(
                units=tuple(_versions(connection, Unit)),
                cohorts=tuple(_versions(connection, Cohort)),
                entries=tuple(_read_entries(connection)),
                remarks=tuple(_remarks(connection)),
            )

    def add_content(self, content: BookContent) -> Added:
        """Write a whole book's content: all of it, or nothing.

        What is there already with the same content is left as it is.

        Raises
        ------
        LedgerError
            As ``add`` and ``save_unit``.
        """
        with writing(self._engine) as connection:
            for unit in sorted(content.units, key=lambda item: item.version):
                _save_version(connection, unit, repeat_any=True)
            for cohort in sorted(content.cohorts, key=lambda item: item.version):
                _save_version(connection, cohort, repeat_any=True)
            known = dict(_remarks(connection))
            for name, value in content.remarks:
                if name not in known:
                    connection.execute(
                        insert(tables.remarks).values(name=name, value=value)
                    )
            return _add(connection, content.entries)

    def remark(self, name: str) -> str:
        """Return what the book says of itself, or an empty text."""
        with reading(self._engine) as connection:
            return dict(_remarks(connection)).get(name, "")

    def outlook(
        self, name_or_id: str | UUID, on: date, options: Options | None = None
    ) -> UnitOutlook:
        """Return one unit's outlook at the end of a day.

        Raises
        ------
        UnknownRecordError
            Naming the units that there are.
        """
        content = self.content()
        units = newest(content.units)
        return unit_outlook(
            units,
            newest(content.cohorts),
            content.entries,
            unit_id=_find(units, "unit", name_or_id).id,
            on=on,
            options=options,
            about=dict(content.remarks).get("about", ""),
        )

    def balance(self, on: date, assumptions: Assumptions | None = None) -> Balance:
        """Return what is in every unit at the end of a day."""
        content = self.content()
        return replay(
            newest(content.units),
            newest(content.cohorts),
            content.entries,
            on=on,
            assumptions=assumptions or Assumptions(),
        )


# --- units and cohorts ------------------------------------------------------------


def _tables_of(kind: type[Any]) -> tuple[Table, Table, Literal["unit", "cohort"]]:
    if kind is Unit:
        return tables.units, tables.unit_versions, "unit"
    return tables.cohorts, tables.cohort_versions, "cohort"


def _versions(connection: Connection, kind: type[_Versioned]) -> Iterator[_Versioned]:
    _, table, _ = _tables_of(kind)
    for row in connection.execute(select(table).order_by(table.c.version, table.c.id)):
        plain = json.loads(row.body)
        plain |= {"id": row.id, "version": row.version, "recorded_at": row.recorded_at}
        yield from_plain(kind, plain)


def _save_version(
    connection: Connection, record: _Versioned, *, repeat_any: bool = False
) -> _Versioned:
    """Write a unit or cohort; ``repeat_any`` takes an old version sent again."""
    kind = type(record)
    owners, versions, what = _tables_of(kind)
    known = tuple(_versions(connection, kind))
    same = [other for other in known if other.id == record.id]
    sent_before = next((o for o in same if o.version == record.version), None)
    latest = max((other.version for other in same), default=0)
    may_repeat = repeat_any or record.version == latest
    if sent_before is not None and sent_before == record and may_repeat:
        return sent_before
    if record.version != latest + 1:
        raise VersionConflictError(
            what.capitalize(), record.name, record.version, latest
        )
    for other in newest(known):
        if other.id != record.id and other.name.casefold() == record.name.casefold():
            raise NameTakenError(what, record.name)
    if latest == 0:
        connection.execute(insert(owners).values(id=record.id))
    saved = replace(record, recorded_at=record.recorded_at or datetime.now(UTC))
    body = to_plain(saved)
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


def _find(
    records: tuple[_Versioned, ...], what: str, name_or_id: str | UUID
) -> _Versioned:
    wanted = str(name_or_id).strip().casefold()
    for record in records:
        if wanted in {record.name.casefold(), str(record.id)}:
            return record
    names = tuple(record.name for record in records)
    raise UnknownRecordError(what, str(name_or_id), names)


# --- entries ----------------------------------------------------------------------


def _to_row(entry: Entry, now: datetime) -> dict[str, Any]:
    body = to_plain(entry)
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
    plain = json.loads(row.body)
    plain["kind"] = row.kind
    plain["id"] = row.id
    plain["on"] = row.on_date
    plain["recorded_at"] = row.recorded_at
    for name in ("unit_id", "cohort_id", "replaces"):
        value = getattr(row, name)
        if value is not None:
            plain[name] = value
    return entry_from_plain(plain)


def _read_entries(connection: Connection) -> Iterator[Entry]:
    table = tables.entries
    for row in connection.execute(select(table).order_by(table.c.seq)):
        yield _from_row(row)


def _chunks(values: Sequence[UUID]) -> Iterator[Sequence[UUID]]:
    for start in range(0, len(values), _CHUNK):
        yield values[start : start + _CHUNK]


def _entries_by_id(
    connection: Connection, identities: Sequence[UUID]
) -> dict[UUID, Entry]:
    table = tables.entries
    return {
        row.id: _from_row(row)
        for chunk in _chunks(identities)
        for row in connection.execute(select(table).where(table.c.id.in_(chunk)))
    }


def _differing(one: Entry, other: Entry) -> tuple[str, ...]:
    if one.kind != other.kind:
        return ("kind",)
    return tuple(
        item.name
        for item in fields(one)
        if item.compare and getattr(one, item.name) != getattr(other, item.name)
    )


def _add(connection: Connection, sent: Sequence[Entry]) -> Added:
    new: dict[UUID, Entry] = {}
    repeated: list[UUID] = []
    present = _entries_by_id(connection, [entry.id for entry in sent])
    for entry in sent:
        known = present.get(entry.id) or new.get(entry.id)
        if known is None:
            new[entry.id] = entry
        elif known == entry:
            repeated.append(entry.id)
        else:
            raise EntryConflictError("entry", str(entry.id), _differing(known, entry))
    _check_references(connection, new)
    now = datetime.now(UTC)
    rows = [_to_row(entry, now) for entry in new.values()]
    if rows:
        connection.execute(insert(tables.entries), rows)
    return Added(added=tuple(new), repeated=tuple(repeated))


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
        named = select(table.c.id).where(table.c.id.in_(chunk))
        present = set(connection.execute(named).scalars())
        for identity in chunk:
            if identity not in present and identity not in new:
                raise UnknownRecordError("entry", str(identity))
        taken = select(table.c.replaces, table.c.id).where(table.c.replaces.in_(chunk))
        for row in connection.execute(taken):
            raise AlreadyReplacedError(str(row.replaces), str(row.id))


def _remarks(connection: Connection) -> Iterator[tuple[str, str]]:
    for row in connection.execute(
        select(tables.remarks).order_by(tables.remarks.c.name)
    ):
        yield row.name, row.value
