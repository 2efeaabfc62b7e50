"""The book on disk: add and read units, cohorts and entries.

``open_book`` gives a ``Book`` that any number of threads and processes may use
at once: it keeps no state but a connection pool and what ``kept.py`` can tell is
still so, every call is one transaction, and writers take turns. What a call has
returned is on the disk.
"""

import contextlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from types import TracebackType
from typing import Self
from uuid import UUID

from sqlalchemy import Connection, Engine, insert

from fishmeasure.base.errors import BookUnreadableError, NoBookError, UnknownRecordError
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words import system_reason
from fishmeasure.book.entries import Entry, Sample
from fishmeasure.book.register import KINDS, Register, fish_register
from fishmeasure.book.replay import (
    Assumptions,
    Balance,
    replay,
    samples_over_all,
)
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.outlook.farm import FarmOutlook
from fishmeasure.outlook.unit import Options, UnitOutlook, unit_outlook
from fishmeasure.store import tables
from fishmeasure.store.archive import Archive
from fishmeasure.store.devices import Devices
from fishmeasure.store.engine import (
    check,
    migrate,
    open_engine,
    open_to_read,
    reading,
    writing,
)
from fishmeasure.store.entry_lists import Wanted, listed, of_groups, page
from fishmeasure.store.groups import groups_of, named_by, units_touched
from fishmeasure.store.in_use import Hold
from fishmeasure.store.kept import Kept
from fishmeasure.store.rows import (
    Added,
    add_entries,
    cancelled_at,
    entries_by_id,
    find_named,
    known_ids,
    newest,
    newest_of,
    read_entries,
    read_remarks,
    save_version,
    versions_of,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Units that share fish, their cohorts and entries; see ``Book.around``.

    Units and cohorts are the newest versions, entries in the order of their arrival.
    """

    units: tuple[Unit, ...] = ()
    cohorts: tuple[Cohort, ...] = ()
    entries: tuple[Entry, ...] = ()
    about: str = ""

    @property
    def versions(self) -> tuple[tuple[str, int], ...]:
        """Units and cohorts, each with its version."""
        units = tuple((str(unit.id), unit.version) for unit in self.units)
        return units + tuple((str(fish.id), fish.version) for fish in self.cohorts)


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
    BookInUseError
        If a backup is being put back over it.
    """
    if isinstance(where, Path) or "://" not in where:
        try:
            Path(where).expanduser().parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            reason = system_reason(error)
            raise BookUnreadableError(str(where), reason) from None
        where = str(Path(where).expanduser())
    hold = _held(where)
    try:
        return Book(open_to_read(where) if to_read else _migrated(where), hold)
    except BaseException:
        if hold is not None:
            hold.close()
        raise


def _migrated(where: str) -> Engine:
    engine = open_engine(where)
    try:
        migrate(engine)
    except BaseException:
        engine.dispose()
        raise
    return engine


def _held(where: str) -> Hold | None:
    """Keep a backup from being put back over a book that is open."""
    path = Path(where)
    if "://" in where or not path.exists():
        return None
    with contextlib.suppress(OSError):  # a folder that takes no file: read it at least
        return Hold(path)
    return None


def open_existing(where: str) -> "Book":
    """Open a book that is there; one on a full or broken disk can be read.

    Raises
    ------
    NoBookError
        If there is none; nothing is made.
    """
    path = Path(where).expanduser()
    log = path.with_name(f"{path.name}-wal")  # left of a book whose file is lost
    if not ("://" in where or path.exists() or log.exists()):
        raise NoBookError(where)
    return open_book(where, to_read=True)


def _part(connection: Connection, named: set[UUID]) -> Part:
    """Return all that entries join to these units and cohorts."""
    groups = groups_of(connection, named)
    wanted = named.union(*(group.member_ids for group in groups))
    return Part(
        units=newest_of(connection, Unit, wanted),
        cohorts=newest_of(connection, Cohort, wanted),
        entries=of_groups(connection, groups),
        about=dict(read_remarks(connection)).get("about", ""),
    )


class Book:
    """The stock book; see ``open_book``.

    Safe to share between threads, and to open in several processes at once.
    Close it, or use it in a ``with`` statement.
    """

    def __init__(self, engine: Engine, hold: Hold | None = None) -> None:
        self._engine = engine
        self._hold = hold
        self._kept = Kept(engine)

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
        if self._hold is not None:
            self._hold.close()

    def check(self) -> None:
        """Look whether the file is whole.

        Raises
        ------
        BookDamagedError
            If it is not.
        """
        check(self._engine)

    @property
    def archive(self) -> Archive:
        """Photos and samples in the making, in the same database."""
        return Archive(self._engine)

    @property
    def devices(self) -> Devices:
        """The paired devices, in the same database."""
        return Devices(self._engine)

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
            return save_version(connection, unit)

    def save_cohort(self, cohort: Cohort) -> Cohort:
        """Add a cohort, or the next version of one; as ``save_unit``."""
        with writing(self._engine) as connection:
            return save_version(connection, cohort)

    def units(self) -> tuple[Unit, ...]:
        """Return the newest version of every unit, by name."""
        with reading(self._engine) as connection:
            return newest_of(connection, Unit)

    def cohorts(self) -> tuple[Cohort, ...]:
        """Return the newest version of every cohort, by name."""
        with reading(self._engine) as connection:
            return newest_of(connection, Cohort)

    def unit(self, name_or_id: str | UUID) -> Unit:
        """Return the unit of that name or id.

        Raises
        ------
        UnknownRecordError
            Naming the units that there are.
        """
        return find_named(self.units(), "unit", name_or_id)

    def cohort(self, name_or_id: str | UUID) -> Cohort:
        """Return the cohort of that name or id; as ``unit``."""
        return find_named(self.cohorts(), "cohort", name_or_id)

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
            return add_entries(connection, entries)

    def entries(
        self,
        *,
        unit_id: UUID | None = None,
        cohort_id: UUID | None = None,
        only_in_force: bool = False,
    ) -> tuple[Entry, ...]:
        """Return the entries, by day and within it as they were made.

        ``unit_id`` takes moves to the unit as well; ``only_in_force`` leaves out
        what was replaced or taken back.
        """
        wanted = Wanted(
            unit_id=unit_id, cohort_id=cohort_id, only_in_force=only_in_force
        )
        with reading(self._engine) as connection:
            return listed(connection, wanted)

    def entry_page(
        self, wanted: Wanted, *, limit: int, offset: int
    ) -> tuple[tuple[Entry, ...], bool]:
        """Return some entries, newest first, and whether there are more."""
        with reading(self._engine) as connection:
            return page(connection, wanted, limit=limit, offset=offset)

    def entry(self, identity: UUID) -> Entry:
        """Return one entry.

        Raises
        ------
        UnknownRecordError
            If the book has none of that id.
        """
        with reading(self._engine) as connection:
            found = entries_by_id(connection, [identity])
        if identity not in found:
            raise UnknownRecordError("entry", str(identity))
        return found[identity]

    def has_entries(self, identities: Iterable[UUID]) -> frozenset[UUID]:
        """Return those of the ids that entries of the book have."""
        with reading(self._engine) as connection:
            return frozenset(known_ids(connection, tuple(identities)))

    def cancelled_at(self, identities: Iterable[UUID]) -> dict[UUID, datetime]:
        """Return when those of the entries that were taken back were."""
        with reading(self._engine) as connection:
            return cancelled_at(connection, tuple(identities))

    # --- all of it ---------------------------------------------------------------

    def content(self) -> BookContent:
        """Return everything, as of one moment."""
        with reading(self._engine) as connection:
            return BookContent(
                units=tuple(versions_of(connection, Unit)),
                cohorts=tuple(versions_of(connection, Cohort)),
                entries=tuple(read_entries(connection)),
                remarks=tuple(read_remarks(connection)),
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
                save_version(connection, unit, repeat_any=True)
            for cohort in sorted(content.cohorts, key=lambda item: item.version):
                save_version(connection, cohort, repeat_any=True)
            known = dict(read_remarks(connection))
            for name, value in content.remarks:
                if name not in known:
                    connection.execute(
                        insert(tables.remarks).values(name=name, value=value)
                    )
            return add_entries(connection, content.entries)

    def remark(self, name: str) -> str:
        """Return what the book says of itself, or an empty text."""
        with reading(self._engine) as connection:
            return dict(read_remarks(connection)).get(name, "")

    def outlook(
        self, name_or_id: str | UUID, on: date, options: Options | None = None
    ) -> UnitOutlook:
        """Return one unit's outlook at the end of a day.

        Raises
        ------
        UnknownRecordError
            Naming the units that there are.
        """

        def find(units: tuple[Unit, ...]) -> Unit:
            return find_named(units, "unit", name_or_id)

        if options is None:
            return self._kept.unit(find, on)
        part = self.around(units=(find(self.units()).id,))
        return unit_outlook(
            part.units,
            part.cohorts,
            part.entries,
            unit_id=find(part.units).id,
            on=on,
            options=options,
            about=part.about,
        )

    def farm(self, on: date) -> FarmOutlook:
        """Return all units at the end of a day, the most urgent first."""
        return self._kept.farm(on)

    def around(
        self,
        *,
        units: Iterable[UUID] = (),
        cohorts: Iterable[UUID] = (),
        entries: Iterable[UUID] = (),
    ) -> Part:
        """Return the part of the book in which these, and all their fish, ever were.

        What is in its units follows from it alone. Those that the book has not are
        not in it.
        """
        with reading(self._engine) as connection:
            known = units_touched(connection, sorted(entries))
            named = {*units, *cohorts, *(u for found in known.values() for u in found)}
            return _part(connection, named)

    def parts_of(self, entries: Sequence[Entry]) -> tuple[Part, ...]:
        """Return, for each entry, the part of the book that says something of it.

        Those of the same units and fish get the same part, as of one moment.
        """
        found: list[Part] = []
        parts: list[tuple[set[UUID], Part]] = []
        joined: dict[UUID, set[UUID]] = {}
        with reading(self._engine) as connection:
            replaced = sorted({e.replaces for e in entries if e.replaces is not None})
            touched = units_touched(connection, replaced)
            for entry in entries:
                named = named_by(entry)
                if named:
                    named |= touched.get(entry.replaces or entry.id, set())
                if entry.fish_id is not None:  # with where it is said to be before
                    joined.setdefault(entry.fish_id, {entry.fish_id}).update(named)
                    named = set(joined[entry.fish_id])
                fits = (part for ids, part in reversed(parts) if named <= ids)
                part = next(fits, None)
                if part is None:
                    part = _part(connection, named)
                    has = {UUID(identity) for identity, _ in part.versions}
                    parts.append((named | has, part))
                found.append(part)
        return tuple(found)

    def samples_with_photos(self, entry: Entry) -> tuple[Sample, ...]:
        """Return the samples in force, anywhere, with a photo of this one."""
        if not isinstance(entry, Sample) or not entry.photos:
            return ()
        wanted = Wanted(photos=entry.photos, only_in_force=True)
        with reading(self._engine) as connection:
            found = listed(connection, wanted)
        return tuple(
            one
            for one in found
            if isinstance(one, Sample) and one.id not in {entry.id, entry.replaces}
        )

    def register(self, since: date, until: date) -> Register:
        """Return the register of fish of a period, both days included."""
        wanted = Wanted(since=since, until=until, only_in_force=True, kinds=KINDS)
        with reading(self._engine) as connection:
            units, cohorts = newest_of(connection, Unit), newest_of(connection, Cohort)
            found = listed(connection, wanted)
        names = {unit.id: unit.name for unit in units}
        return fish_register(
            found,
            names | {cohort.id: cohort.name for cohort in cohorts},
            since=since,
            until=until,
        )

    def samples_over_all(self, cohort_id: UUID, on: date) -> Estimate | None:
        """Return a cohort's weighed samples over all its fish, as harvests show it."""
        part = self.around(cohorts=(cohort_id,))
        return samples_over_all(
            part.units,
            part.cohorts,
            part.entries,
            cohort_id=cohort_id,
            on=on,
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
