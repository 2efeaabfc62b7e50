"""Which units and cohorts share fish, so that a question reads no more than it needs.

A group is all units and cohorts that entries join: fish that are in a unit, or were, or
moved between two. What is in a unit follows from the entries of its group alone. Groups
only grow together: an entry that was taken back leaves them joined, which costs a
little and changes no figure. Each member has the last entry that touches it: while none
is new, all that was worked out of the group holds.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, Row, bindparam, insert, select, update

from fishmeasure.book.entries import Entry
from fishmeasure.store import tables

_CHUNK = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Units and cohorts that share fish, each with the last entry that touches it."""

    last_entries: tuple[tuple[UUID, UUID], ...]

    @property
    def member_ids(self) -> frozenset[UUID]:
        """Units and cohorts."""
        return frozenset(member for member, _ in self.last_entries)


def all_groups(connection: Connection) -> tuple[Group, ...]:
    """Return all groups; units and cohorts without entries are in none."""
    table = tables.group_members
    return _groups(connection.execute(select(table).order_by(table.c.member_id)))


def groups_of(connection: Connection, members: Iterable[UUID]) -> tuple[Group, ...]:
    """Return the groups that any of these units and cohorts are in."""
    table, found = tables.group_members, set[UUID]()
    for chunk in _chunks(sorted(members)):
        named = select(table.c.group_id).where(table.c.member_id.in_(chunk))
        found.update(connection.execute(named).scalars())
    rows: list[Row[Any]] = []
    for chunk in _chunks(sorted(found)):
        of_group = select(table).where(table.c.group_id.in_(chunk))
        rows += connection.execute(of_group.order_by(table.c.member_id)).all()
    return _groups(rows)


def _groups(rows: Iterable[Row[Any]]) -> tuple[Group, ...]:
    found: dict[UUID, list[tuple[UUID, UUID]]] = {}
    for row in rows:
        member = row.member_id, row.last_entry_id
        found.setdefault(row.group_id, []).append(member)
    return tuple(Group(last_entries=tuple(members)) for members in found.values())


def units_touched(
    connection: Connection, entry_ids: Sequence[UUID]
) -> dict[UUID, set[UUID]]:
    """Return the units that entries of the book touch, or what they replace does."""
    entries, touched = tables.entries, tables.entry_units
    found: dict[UUID, set[UUID]] = {}
    for chunk in _chunks(entry_ids):
        query = (
            select(entries.c.id, touched.c.unit_id)
            .join(touched, touched.c.seq == entries.c.seq)
            .where(entries.c.id.in_(chunk))
        )
        for row in connection.execute(query):
            found.setdefault(row.id, set()).add(row.unit_id)
    return found


def note_entries(connection: Connection, new: Mapping[UUID, Entry]) -> None:
    """Note what entries touch that were just written, in the same transaction."""
    if not new:
        return
    units = _all_touched(connection, new)
    seqs: dict[UUID, int] = {}
    for chunk in _chunks(tuple(new)):
        table = tables.entries
        query = select(table.c.id, table.c.seq).where(table.c.id.in_(chunk))
        seqs.update((row.id, row.seq) for row in connection.execute(query))
    rows = [
        {"seq": seqs[key], "unit_id": unit, "named": unit in named_by(new[key])}
        for key, touched in units.items()
        for unit in touched
    ]
    if rows:
        connection.execute(insert(tables.entry_units), rows)
    _join(connection, [(key, _members(new[key], units[key])) for key in new])


def named_by(entry: Entry) -> set[UUID]:
    """Return the units that an entry names itself."""
    return {unit for unit in (entry.place_id, *entry.other_place_ids) if unit}


def _members(entry: Entry, units: set[UUID]) -> set[UUID]:
    return units if entry.fish_id is None else {*units, entry.fish_id}


def _all_touched(
    connection: Connection, new: Mapping[UUID, Entry]
) -> dict[UUID, set[UUID]]:
    """Return the units that new entries touch: own ones, and of all they replace."""
    older = {e.replaces for e in new.values() if e.replaces is not None} - new.keys()
    known = units_touched(connection, sorted(older))
    found: dict[UUID, set[UUID]] = {}
    for key, entry in new.items():
        touched, seen = named_by(entry), {key}
        replaced = entry.replaces
        while replaced is not None and replaced not in seen:
            seen.add(replaced)
            before = new.get(replaced)
            if before is None:
                touched |= known.get(replaced, set())
                break
            touched |= named_by(before)
            replaced = before.replaces
        found[key] = touched
    return found


def _join(connection: Connection, together: Sequence[tuple[UUID, set[UUID]]]) -> None:
    """Join the members of each entry into one group, and note it as their last."""
    table = tables.group_members
    last = {member: key for key, members in together for member in members}
    known: dict[UUID, UUID] = {}
    for chunk in _chunks(sorted(last)):
        query = select(table.c.member_id, table.c.group_id)
        found = connection.execute(query.where(table.c.member_id.in_(chunk)))
        known.update((row.member_id, row.group_id) for row in found)
    above: dict[UUID, UUID] = {}

    def top(group: UUID) -> UUID:
        while (higher := above.get(group, group)) != group:
            above[group] = above.get(higher, higher)
            group = higher
        return group

    for _, members in together:
        groups = sorted({top(known.get(member, member)) for member in members})
        for other in groups[1:]:
            above[other] = groups[0]
    for group in sorted(set(known.values())):
        if top(group) != group:
            connection.execute(
                update(table)
                .where(table.c.group_id == group)
                .values(group_id=top(group))
            )
    rows = [
        {"key": member, "group": top(known.get(member, member)), "last": last[member]}
        for member in sorted(last)
    ]
    fresh = [row for row in rows if row["key"] not in known]
    if fresh:
        named = ("member_id", "group_id", "last_entry_id")
        values = [dict(zip(named, row.values(), strict=True)) for row in fresh]
        connection.execute(insert(table), values)
    old = [
        {"key": row["key"], "last": row["last"]} for row in rows if row["key"] in known
    ]
    if old:
        connection.execute(
            update(table)
            .where(table.c.member_id == bindparam("key"))
            .values(last_entry_id=bindparam("last")),
            old,
        )


def _chunks(values: Sequence[UUID]) -> Iterator[Sequence[UUID]]:
    for start in range(0, len(values), _CHUNK):
        yield values[start : start + _CHUNK]
