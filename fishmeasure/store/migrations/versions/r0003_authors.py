"""Roles and ends of devices; who wrote photos and samples; what was taken back.

Devices that were paired before are the owner's.
"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"

_MOMENT = sa.DateTime(timezone=True)


def _add(table: str, *columns: sa.Column[object]) -> None:
    for column in columns:
        op.add_column(table, column)


def _by(what: str) -> tuple[sa.Column[object], ...]:
    """Return the columns of who did something."""
    return (
        sa.Column(f"{what}_by", sa.Text(), nullable=False, server_default=""),
        sa.Column(f"{what}_device_id", sa.Uuid()),
    )


def upgrade() -> None:
    """Add the columns."""
    _add(
        "devices",
        sa.Column("role", sa.String(10), nullable=False, server_default="owner"),
        sa.Column("last_seen_at", _MOMENT),
        sa.Column("ends_at", _MOMENT),
    )
    _add("photos", *_by("received"), *_by("changed"), *_by("deleted"))
    _add("photos", sa.Column("deleted_at", _MOMENT))
    _add("samples", *_by("received"), *_by("changed"))
    _add("samples", sa.Column("taken_back_at", _MOMENT))
