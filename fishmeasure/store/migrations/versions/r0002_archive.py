"""Photos, samples in the making and paired devices."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

_SEQUENCE = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
_MOMENT = sa.DateTime(timezone=True)


def _stored(name: str, identity: sa.Column[object], *texts: str) -> None:
    op.create_table(
        name,
        sa.Column("seq", _SEQUENCE, autoincrement=True, nullable=False),
        identity,
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("received_at", _MOMENT, nullable=False),
        *(sa.Column(text, sa.Text(), nullable=False) for text in texts),
        sa.PrimaryKeyConstraint("seq", name=f"pk_{name}"),
        sa.UniqueConstraint("id", name=f"uq_{name}_id"),
    )


def upgrade() -> None:
    """Make the tables beside the book."""
    _stored(
        "photos",
        sa.Column("id", sa.String(64), nullable=False),
        *("name", "settings", "measured", "measurement", "corrections"),
    )
    _stored("samples", sa.Column("id", sa.Uuid(), nullable=False), "body", "result")
    op.create_table(
        "devices",
        sa.Column("id", sa.Uuid(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("paired_at", _MOMENT, nullable=False),
        sa.Column("token_sha256", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_devices"),
        sa.UniqueConstraint("token_sha256", name="uq_devices_token_sha256"),
    )
