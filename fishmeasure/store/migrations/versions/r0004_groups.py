"""Which units each entry touches, and which units and cohorts share fish.

From these the book reads what a question needs and no more. What they say follows from
the entries; here it is worked out once for those that are there.
"""

import json
from collections.abc import Iterator
from typing import Any
from uuid import UUID

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"

_SEQUENCE = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
_CHUNK = 1000


def upgrade() -> None:
    """Make the tables and fill them."""
    touched = op.create_table(
        "entry_units",
        sa.Column("seq", _SEQUENCE, autoincrement=False, nullable=False),
        sa.Column("unit_id", sa.Uuid(), nullable=False),
        sa.Column("named", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("seq", "unit_id", name="pk_entry_units"),
        sa.ForeignKeyConstraint(["seq"], ["entries.seq"], name="fk_entry_units_seq"),
        sa.ForeignKeyConstraint(["unit_id"], ["units.id"], name="fk_entry_units_unit"),
    )
    op.create_index("ix_entry_units_unit_id", "entry_units", ["unit_id", "seq"])
    members = op.create_table(
        "group_members",
        sa.Column("member_id", sa.Uuid(), nullable=False),
        sa.Column("group_id", sa.Uuid(), nullable=False),
        sa.Column("last_entry_id", sa.Uuid(), nullable=False),
        sa.PrimaryKeyConstraint("member_id", name="pk_group_members"),
    )
    op.create_index("ix_group_members_group_id", "group_members", ["group_id"])
    op.create_index("ix_entries_cohort_id", "entries", ["cohort_id", "on_date"])
    op.create_index("ix_entries_kind", "entries", ["kind", "on_date"])
    op.create_index("ix_entries_recorded_at", "entries", ["recorded_at"])
    rows = _Rows()
    for row in _entries():
        rows.take(row)
    for table, found in ((touched, rows.touched()), (members, rows.members())):
        for start in range(0, len(found), _CHUNK):
            op.bulk_insert(table, found[start : start + _CHUNK])


def _entries() -> Iterator[Any]:
    table = sa.table(
        "entries",
        sa.column("seq", _SEQUENCE),
        sa.column("id", sa.Uuid()),
        sa.column("kind", sa.String()),
        sa.column("unit_id", sa.Uuid()),
        sa.column("cohort_id", sa.Uuid()),
        sa.column("replaces", sa.Uuid()),
        sa.column("body", sa.Text()),
    )
    # The newest last; what an entry replaces may also have come after it.
    yield from op.get_bind().execute(sa.select(table).order_by(table.c.seq)).all()


def _named(row: Any) -> set[UUID]:
    """Return the units that an entry names."""
    named = set() if row.unit_id is None else {row.unit_id}
    if row.kind == "moved":
        named.add(UUID(json.loads(row.body)["to_unit_id"]))
    if row.kind == "graded":
        groups = json.loads(row.body)["groups"]
        named |= {UUID(group["to_unit_id"]) for group in groups}
    return named


class _Rows:
    """What the new tables have of the entries."""

    def __init__(self) -> None:
        self._seqs: dict[UUID, int] = {}
        self._named: dict[UUID, set[UUID]] = {}
        self._fish: dict[UUID, UUID] = {}
        self._replaces: dict[UUID, UUID] = {}
        self._above: dict[UUID, UUID] = {}

    def take(self, row: Any) -> None:
        """Take in an entry."""
        self._seqs[row.id], self._named[row.id] = row.seq, _named(row)
        if row.cohort_id is not None:
            self._fish[row.id] = row.cohort_id
        if row.replaces is not None:
            self._replaces[row.id] = row.replaces

    def _units(self, entry: UUID) -> set[UUID]:
        """Return the units of an entry and of all that it replaces."""
        found, seen = set(self._named[entry]), {entry}
        while (replaced := self._replaces.get(entry)) is not None:
            if replaced in seen:
                break
            seen.add(replaced)
            found |= self._named[replaced]
            entry = replaced
        return found

    def touched(self) -> list[dict[str, Any]]:
        """Return a row for each unit that an entry touches."""
        return [
            {"seq": seq, "unit_id": unit, "named": unit in self._named[entry]}
            for entry, seq in self._seqs.items()
            for unit in self._units(entry)
        ]

    def members(self) -> list[dict[str, Any]]:
        """Return a row for each unit and cohort that an entry touches."""
        last: dict[UUID, UUID] = {}
        for entry in self._seqs:
            together = self._units(entry)
            if entry in self._fish:
                together.add(self._fish[entry])
            for member in together:
                last[member] = entry
                self._join(member, min(together))
        return [
            {"member_id": key, "group_id": self._top(key), "last_entry_id": entry}
            for key, entry in last.items()
        ]

    def _top(self, member: UUID) -> UUID:
        while (above := self._above.get(member, member)) != member:
            self._above[member] = self._above.get(above, above)
            member = above
        return member

    def _join(self, one: UUID, other: UUID) -> None:
        first, second = sorted((self._top(one), self._top(other)))
        self._above[second] = first
