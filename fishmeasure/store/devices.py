"""Paired devices: who they are, what they may do, until when they are let in.

Of a token its hash alone is kept. A device that is used is let in for as long again;
one that nobody has used for that long is paired anew.
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any, Final, Literal, TypeVar, get_args
from uuid import UUID

from sqlalchemy import Engine, Row, insert, select, update

from fishmeasure.base.errors import UnknownRecordError
from fishmeasure.book.entries import Entry
from fishmeasure.store import tables
from fishmeasure.store.engine import reading, writing

_E = TypeVar("_E", bound=Entry)
Role = Literal["reader", "worker", "owner"]
ROLES: Final[tuple[Role, ...]] = get_args(Role)
"""From the least to the most; each may do what those before it may."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Author:
    """Who wrote something: the device, and what it was called then.

    Both are empty where no device must be paired, and on the command line.
    """

    name: str = ""
    device_id: UUID | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """A phone or program that may use the server.

    ``last_seen_at`` and ``ends_at`` are None for one that an older program paired and
    that has not been used since.
    """

    id: UUID
    name: str
    paired_at: datetime
    role: Role = "owner"
    last_seen_at: datetime | None = None
    ends_at: datetime | None = None

    @property
    def author(self) -> Author:
        """Return it as the author of what it sends."""
        return Author(name=self.name, device_id=self.id)

    def may(self, least: Role) -> bool:
        """Return whether it may do what a role may."""
        return ROLES.index(self.role) >= ROLES.index(least)

    def has_ended(self, now: datetime) -> bool:
        """Return whether its token is worth nothing any more."""
        return self.ends_at is not None and self.ends_at <= now


def written_by(entry: _E, author: Author) -> _E:
    """Return an entry as its author's, whatever it says itself of when and by whom."""
    return replace(
        entry, recorded_at=None, recorded_by=author.name, device_id=author.device_id
    )


class Devices:
    """The paired devices of a book; as safe to share as ``Book``."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def add(self, device: Device, token_sha256: str) -> None:
        """Remember a device by the hash of its token."""
        with writing(self._engine) as connection:
            connection.execute(
                insert(tables.devices).values(
                    id=device.id,
                    name=device.name,
                    paired_at=device.paired_at,
                    token_sha256=token_sha256,
                    role=device.role,
                    last_seen_at=device.last_seen_at,
                    ends_at=device.ends_at,
                )
            )

    def all(self) -> tuple[Device, ...]:
        """Return the paired devices, oldest first."""
        table = tables.devices
        with reading(self._engine) as connection:
            rows = connection.execute(select(table).order_by(table.c.paired_at))
            return tuple(_device(row) for row in rows)

    def of_token(self, token_sha256: str) -> Device | None:
        """Return the device with that token, None where it is not paired."""
        table = tables.devices
        wanted = select(table).where(table.c.token_sha256 == token_sha256)
        with reading(self._engine) as connection:
            row = connection.execute(wanted).one_or_none()
        return None if row is None else _device(row)

    def seen(self, identity: UUID, now: datetime, lasts: timedelta) -> None:
        """Note that a device was used now, which lets it in for as long again."""
        self._change(identity, last_seen_at=now, ends_at=now + lasts)

    def change(self, identity: UUID, *, name: str, role: Role) -> Device:
        """Name a device otherwise, or let it do more or less.

        Raises
        ------
        UnknownRecordError
            If there is none of that id.
        """
        return self._change(identity, name=name, role=role)

    def remove(self, identity: UUID) -> None:
        """Forget a device; its token is worth nothing any more.

        Raises
        ------
        UnknownRecordError
            If there is none of that id.
        """
        table = tables.devices
        with writing(self._engine) as connection:
            gone = connection.execute(table.delete().where(table.c.id == identity))
            if gone.rowcount == 0:
                raise UnknownRecordError("device", str(identity))

    def _change(self, identity: UUID, **values: Any) -> Device:
        table = tables.devices
        with writing(self._engine) as connection:
            connection.execute(
                update(table).where(table.c.id == identity).values(values)
            )
            wanted = select(table).where(table.c.id == identity)
            row = connection.execute(wanted).one_or_none()
        if row is None:
            raise UnknownRecordError("device", str(identity))
        return _device(row)


def _device(row: Row[Any]) -> Device:
    return Device(
        id=row.id,
        name=row.name,
        paired_at=row.paired_at,
        role=row.role,
        last_seen_at=row.last_seen_at,
        ends_at=row.ends_at,
    )
