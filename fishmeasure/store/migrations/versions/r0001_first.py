"""Units, cohorts, entries and remarks."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

_SEQUENCE = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
_MOMENT = sa.DateTime(timezone=True)


def _owner_and_versions(owner: str, versions: str) -> None:
    op.create_table(
        owner,
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=f"pk_{owner}"),
    )
    op.create_table(
        versions,
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("recorded_at", _MOMENT, nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", "version", name=f"pk_{versions}"),
        sa.ForeignKeyConstraint(["id"], [f"{owner}.id"], name=f"fk_{versions}_id"),
    )


def upgrade() -> None:
    """Make the first tables."""
    _owner_and_versions("units", "unit_versions")
    _owner_and_versions("cohorts", "cohort_versions")
    op.create_table(
        "entries",
        sa.Column("seq", _SEQUENCE, autoincrement=True, nullable=False),
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("unit_id", sa.Uuid()),
        sa.Column("cohort_id", sa.Uuid()),
        sa.Column("replaces", sa.Uuid()),
        sa.Column("recorded_at", _MOMENT, nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_entries"),
        sa.UniqueConstraint("id", name="uq_entries_id"),
        sa.UniqueConstraint("replaces", name="uq_entries_replaces"),
        sa.ForeignKeyConstraint(["unit_id"], ["units.id"], name="fk_entries_unit_id"),
        sa.ForeignKeyConstraint(
            ["cohort_id"], ["cohorts.id"], name="fk_entries_cohort_id"
        ),
        sa.ForeignKeyConstraint(
            ["replaces"],
            ["entries.id"],
            name="fk_entries_replaces",
            deferrable=True,
            initially="DEFERRED",
        ),
    )
    op.create_index("ix_entries_on_date", "entries", ["on_date"])
    op.create_table(
        "remarks",
        sa.Column("name", sa.String(40), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_remarks"),
    )
