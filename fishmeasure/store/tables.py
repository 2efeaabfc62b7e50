"""The tables of the book.

Of the book proper, rows are only ever added. A unit or cohort is a row of its own
and one row per version; an entry's common fields are columns, the rest is JSON text
whose fields ``entries.py`` checks.
"""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    Date,
    DateTime,
    Dialect,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    TypeDecorator,
    Uuid,
)

SCHEMA_REVISION = "0004"
"""The newest migration; a test compares it with the migrations' own head."""


class UtcDateTime(TypeDecorator[datetime]):
    """A moment, kept in UTC; SQLite alone would forget the zone."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> Any:  # noqa: ARG002
        """Turn any zone into UTC."""
        return value if value is None else value.astimezone(UTC)

    def process_result_value(self, value: Any, dialect: Dialect) -> Any:  # noqa: ARG002
        """Return the moment with its zone."""
        if value is None or value.tzinfo is not None:
            return value
        return value.replace(tzinfo=UTC)


metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)

# SQLite counts up only an INTEGER PRIMARY KEY.
_Sequence = BigInteger().with_variant(Integer(), "sqlite")


def _versions(name: str, owner: str) -> Table:
    return Table(
        name,
        metadata,
        Column("id", Uuid(), ForeignKey(f"{owner}.id"), primary_key=True),
        Column("version", Integer(), primary_key=True),
        Column("recorded_at", UtcDateTime(), nullable=False),
        Column("body", Text(), nullable=False),
    )


units = Table("units", metadata, Column("id", Uuid(), primary_key=True))
unit_versions = _versions("unit_versions", "units")
cohorts = Table("cohorts", metadata, Column("id", Uuid(), primary_key=True))
cohort_versions = _versions("cohort_versions", "cohorts")

entries = Table(
    "entries",
    metadata,
    Column("seq", _Sequence, primary_key=True, autoincrement=True),
    Column("id", Uuid(), nullable=False, unique=True),
    Column("kind", String(20), nullable=False),
    Column("on_date", Date(), nullable=False),
    Column("unit_id", Uuid(), ForeignKey("units.id")),
    Column("cohort_id", Uuid(), ForeignKey("cohorts.id")),
    # Unique: of two corrections of one entry, the second is told of the first.
    # Deferred: a correction may come in one batch with, and before, the corrected.
    Column(
        "replaces",
        Uuid(),
        ForeignKey("entries.id", deferrable=True, initially="DEFERRED"),
        unique=True,
    ),
    Column("recorded_at", UtcDateTime(), nullable=False),
    Column("body", Text(), nullable=False),
    Index("ix_entries_on_date", "on_date"),
    Index("ix_entries_cohort_id", "cohort_id", "on_date"),
    Index("ix_entries_kind", "kind", "on_date"),
    Index("ix_entries_recorded_at", "recorded_at"),
)

# What follows from the entries, so that a question reads what it needs, see
# ``groups.py``: the units that each touches, ``named`` where it does so itself and not
# only by what it replaces;
entry_units = Table(
    "entry_units",
    metadata,
    Column(
        "seq",
        _Sequence,
        ForeignKey("entries.seq"),
        primary_key=True,
        autoincrement=False,
    ),
    Column("unit_id", Uuid(), ForeignKey("units.id"), primary_key=True),
    Column("named", Boolean(), nullable=False),
    Index("ix_entry_units_unit_id", "unit_id", "seq"),
)
# and the units and cohorts that share fish, with the last entry that touches each.
group_members = Table(
    "group_members",
    metadata,
    Column("member_id", Uuid(), primary_key=True),
    Column("group_id", Uuid(), nullable=False),
    Column("last_entry_id", Uuid(), nullable=False),
    Index("ix_group_members_group_id", "group_id"),
)

# What the book says of itself, such as that its data are invented.
remarks = Table(
    "remarks",
    metadata,
    Column("name", String(40), primary_key=True),
    Column("value", Text(), nullable=False),
)


def _by(what: str) -> tuple[Column[Any], ...]:
    """Return the columns of who did something: a device, and its name then."""
    return (
        Column(f"{what}_by", Text(), nullable=False, server_default=""),
        Column(f"{what}_device_id", Uuid()),
    )


def _stored(name: str, identity: Any, texts: tuple[str, ...], *more: Any) -> Table:
    return Table(
        name,
        metadata,
        Column("seq", _Sequence, primary_key=True, autoincrement=True),
        Column("id", identity, nullable=False, unique=True),
        Column("revision", Integer(), nullable=False),
        Column("received_at", UtcDateTime(), nullable=False),
        *(Column(text, Text(), nullable=False) for text in texts),
        *_by("received"),
        *_by("changed"),
        *more,
    )


# Beside the book, see ``archive.py``; these rows change.
photos = _stored(
    "photos",
    String(64),
    ("name", "settings", "measured", "measurement", "corrections"),
    *_by("deleted"),
    Column("deleted_at", UtcDateTime()),
)
samples = _stored(
    "samples", Uuid(), ("body", "result"), Column("taken_back_at", UtcDateTime())
)
devices = Table(
    "devices",
    metadata,
    Column("id", Uuid(), primary_key=True),
    Column("name", Text(), nullable=False),
    Column("paired_at", UtcDateTime(), nullable=False),
    Column("token_sha256", String(64), nullable=False, unique=True),
    Column("role", String(10), nullable=False, server_default="owner"),
    Column("last_seen_at", UtcDateTime()),
    Column("ends_at", UtcDateTime()),
)
