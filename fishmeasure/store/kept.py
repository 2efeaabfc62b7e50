"""What was worked out of the book, kept while nothing new touches it.

The replay of a group of units that share fish is kept with the last entry that touched
each of them, the versions of its units and cohorts and the day: while all are the same
it is the same replay, and one entry that is new makes another. What is kept is in this
process alone, so another program version never meets it, and it is bounded: the least
lately asked goes first. Who asks for what another thread is working out waits for it.
"""

import threading
from collections import OrderedDict
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field
from datetime import date
from typing import Final
from uuid import UUID

from sqlalchemy import Connection, Engine

from fishmeasure.book.entries import Entry, FeedBought
from fishmeasure.book.order import in_force
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.outlook.farm import (
    FarmOutlook,
    FarmPart,
    farm_of,
    farm_part,
    first_bought,
)
from fishmeasure.outlook.unit import UnitOutlook, outlooks_of
from fishmeasure.store.engine import reading
from fishmeasure.store.entry_lists import Wanted, listed, of_groups
from fishmeasure.store.groups import Group, all_groups, groups_of
from fishmeasure.store.rows import newest_of, read_remarks

MOST_UNITS: Final = 1000
"""Outlooks of units that are kept; each is 20 to 60 kB."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupOutlook:
    """Units that share fish, on a day."""

    units: dict[UUID, UnitOutlook]
    part: FarmPart


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What tells whether a group's outlook still holds."""

    group: Group
    units: tuple[Unit, ...]
    versions: tuple[tuple[UUID, int], ...]
    on: date
    about: str
    bought_since: date | None

    def key(self) -> tuple[object, ...]:
        """Return what is compared; versions stand for units, which cannot change."""
        return self.group, self.versions, self.on, self.about, self.bought_since

    def slot(self) -> tuple[UUID, date]:
        """Return where it is kept: one outlook of a group for a day."""
        return self.group.last_entries[0][0], self.on


@dataclass(slots=True)
class _Kept:
    asked: Asked
    found: Future[GroupOutlook] = field(default_factory=Future)


@dataclass(slots=True)
class _Work:
    asked: Asked
    cohorts: tuple[Cohort, ...]
    entries: tuple[Entry, ...]
    found: Future[GroupOutlook] = field(default_factory=Future)


class Kept:
    """Outlooks of one book; for any number of threads."""

    def __init__(self, engine: Engine, most_units: int = MOST_UNITS) -> None:
        self._engine = engine
        self._most_units = most_units
        self._lock = threading.Lock()
        self._kept: OrderedDict[tuple[UUID, date], _Kept] = OrderedDict()

    def unit(self, find: Callable[[tuple[Unit, ...]], Unit], on: date) -> UnitOutlook:
        """Return the outlook of the unit that is found among all, on a day."""
        with reading(self._engine) as connection:
            unit = find(newest_of(connection, Unit))
            groups = groups_of(connection, [unit.id])
            alone = () if groups else (unit,)
            work = self._begin(connection, groups, alone, on, _bought(connection, on))
        (found,) = self._done(work)
        return found.units[unit.id]

    def farm(self, on: date) -> FarmOutlook:
        """Return all units on a day, the most urgent first."""
        with reading(self._engine) as connection:
            bought = _bought(connection, on)
            groups = all_groups(connection)
            joined = {member for group in groups for member in group.member_ids}
            units = newest_of(connection, Unit)
            alone = [unit for unit in units if unit.id not in joined]
            work = self._begin(connection, groups, alone, on, bought)
            about = dict(read_remarks(connection)).get("about", "")
        parts = [found.part for found in self._done(work)]
        return farm_of(parts, bought, on=on, about=about)

    def _begin(
        self,
        connection: Connection,
        groups: Iterable[Group],
        alone: Iterable[Unit],
        on: date,
        bought: Sequence[FeedBought],
    ) -> list[Future[GroupOutlook] | _Work]:
        """Return what is kept, and for what is not all that it is made from."""
        about = dict(read_remarks(connection)).get("about", "")
        units, cohorts = newest_of(connection, Unit), newest_of(connection, Cohort)
        everything = [
            *groups,
            *(Group(last_entries=((unit.id, unit.id),)) for unit in alone),
        ]
        begun: list[Future[GroupOutlook] | _Work] = []
        try:
            for group in everything:
                members = group.member_ids  # in the order of their names
                of_group = [unit for unit in units if unit.id in members]
                fish = [cohort for cohort in cohorts if cohort.id in members]
                asked = Asked(
                    group=group,
                    units=tuple(of_group),
                    versions=_versions(*of_group, *fish),
                    on=on,
                    about=about,
                    bought_since=first_bought(bought),
                )
                found, mine = self._claim(asked)
                if mine:
                    work = _Work(asked, tuple(fish), (), found)
                    begun.append(work)
                    work.entries = of_groups(connection, [group])
                else:
                    begun.append(found)
        except BaseException as error:
            self._give_up(begun, error)
            raise
        return begun

    def _done(self, begun: list[Future[GroupOutlook] | _Work]) -> list[GroupOutlook]:
        """Work out what nobody has, then wait for what others do."""
        try:
            for work in begun:
                if isinstance(work, _Work):
                    work.found.set_result(_worked_out(work))
        except BaseException as error:
            self._give_up(begun, error)
            raise
        return [
            (one.found if isinstance(one, _Work) else one).result() for one in begun
        ]

    def _claim(self, asked: Asked) -> tuple[Future[GroupOutlook], bool]:
        """Return what is kept, or whose work it now is to make it."""
        slot = asked.slot()
        with self._lock:
            kept = self._kept.get(slot)
            if kept is not None and kept.asked.key() == asked.key():
                self._kept.move_to_end(slot)
                return kept.found, False
            fresh = _Kept(asked)  # in the place of what no longer holds
            self._kept[slot] = fresh
            self._kept.move_to_end(slot)
            size = sum(len(one.asked.units) for one in self._kept.values())
            while size > self._most_units and len(self._kept) > 1:
                _, gone = self._kept.popitem(last=False)
                size -= len(gone.asked.units)
            return fresh.found, True

    def _give_up(
        self, begun: list[Future[GroupOutlook] | _Work], error: BaseException
    ) -> None:
        """Let others work out what failed here."""
        for work in begun:
            if isinstance(work, _Work) and not work.found.done():
                with self._lock:
                    kept = self._kept.get(work.asked.slot())
                    if kept is not None and kept.found is work.found:
                        del self._kept[work.asked.slot()]
                work.found.set_exception(error)


def _versions(*records: Unit | Cohort) -> tuple[tuple[UUID, int], ...]:
    return tuple(sorted((record.id, record.version) for record in records))


def _worked_out(work: _Work) -> GroupOutlook:
    asked, entries = work.asked, work.entries
    outlooks = outlooks_of(
        asked.units, work.cohorts, entries, on=asked.on, about=asked.about
    )
    counting = [entry for entry in in_force(entries) if entry.on <= asked.on]
    return GroupOutlook(
        units={outlook.unit.id: outlook for outlook in outlooks},
        part=farm_part(outlooks, counting, bought_since=asked.bought_since),
    )


def _bought(connection: Connection, on: date) -> tuple[FeedBought, ...]:
    """Return the purchases of feed up to a day that count."""
    wanted = Wanted(kinds=("feed-bought",), until=on, only_in_force=True)
    found = listed(connection, wanted)
    return tuple(entry for entry in found if isinstance(entry, FeedBought))
