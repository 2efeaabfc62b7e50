"""Photos, samples in the making, and paired devices, beside the book.

Unlike entries these rows change: a photo gets corrections, a sample grows net by
net until it is recorded as an entry. Each change raises the row's ``revision``.
The photos' files are kept elsewhere; here are their measurements.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Connection, Engine, Row, Table, insert, select, update

from fishmeasure.base.errors import UnknownRecordError, VersionConflictError
from fishmeasure.store import tables
from fishmeasure.store.engine import reading, writing

Json = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredPhoto:
    """A photo's measurement and its corrections.

    Attributes
    ----------
    id
        SHA-256 of the file as it was sent, in hexadecimal.
    seq
        Order of arrival; grows.
    settings
        How it was measured: species, print scale and so on.
    measured
        As measured, without corrections, in the public format.
    measurement
        With corrections.
    """

    id: str
    seq: int
    revision: int
    name: str
    received_at: datetime
    settings: Json
    measured: Json
    measurement: Json
    corrections: list[Json]


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredSample:
    """A sample as it was sent, and what it gave."""

    id: UUID
    seq: int
    revision: int
    received_at: datetime
    body: Json
    result: Json | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """A phone or program that may use the server."""

    id: UUID
    name: str
    paired_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """Where a list goes on: rows below ``before``, newest first."""

    limit: int = 50
    before: int | None = None


class Archive:
    """The rows beside the book; as safe to share as ``Book``."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    # --- photos ------------------------------------------------------------------

    def photo(self, identity: str) -> StoredPhoto:
        """Return one photo.

        Raises
        ------
        UnknownRecordError
            If there is none of that id.
        """
        found = self.find_photo(identity)
        if found is None:
            raise UnknownRecordError("photo", identity)
        return found

    def find_photo(self, identity: str) -> StoredPhoto | None:
        """Return one photo, or None."""
        with reading(self._engine) as connection:
            row = _row(connection, tables.photos, identity)
        return None if row is None else _photo(row)

    def photos(self, page: Page) -> tuple[StoredPhoto, ...]:
        """Return a page of photos, newest first."""
        with reading(self._engine) as connection:
            return tuple(_photo(row) for row in _page(connection, tables.photos, page))

    def newest_photo_ids(self, limit: int) -> tuple[str, ...]:
        """Return the ids of the photos that came last, newest first."""
        table = tables.photos
        query = select(table.c.id).order_by(table.c.seq.desc()).limit(limit)
        with reading(self._engine) as connection:
            return tuple(connection.execute(query).scalars())

    def add_photo(
        self, identity: str, *, name: str, settings: Json, measured: Json
    ) -> StoredPhoto:
        """Add a photo; one that is there already stays as it is."""
        with writing(self._engine) as connection:
            row = _row(connection, tables.photos, identity)
            if row is None:
                connection.execute(
                    insert(tables.photos).values(
                        id=identity,
                        revision=1,
                        name=name,
                        received_at=datetime.now(UTC),
                        settings=_dump(settings),
                        measured=_dump(measured),
                        measurement=_dump(measured),
                        corrections="[]",
                    )
                )
            return _photo(_the_row(connection, tables.photos, identity))

    def change_photo(
        self, old: StoredPhoto, changes: Mapping[str, Json | list[Json]]
    ) -> StoredPhoto:
        """Replace ``settings``, ``measured``, ``measurement`` or ``corrections``.

        Raises
        ------
        VersionConflictError
            If the photo was changed since ``old`` was read.
        """
        values = {name: _dump(value) for name, value in changes.items()}
        with writing(self._engine) as connection:
            row = _changed(connection, tables.photos, old, values, old.name)
            return _photo(row)

    # --- samples -----------------------------------------------------------------

    def sample(self, identity: UUID) -> StoredSample:
        """Return one sample.

        Raises
        ------
        UnknownRecordError
            If there is none of that id.
        """
        found = self.find_sample(identity)
        if found is None:
            raise UnknownRecordError("sample", str(identity))
        return found

    def find_sample(self, identity: UUID) -> StoredSample | None:
        """Return one sample, or None."""
        with reading(self._engine) as connection:
            row = _row(connection, tables.samples, identity)
        return None if row is None else _sample(row)

    def samples(self, page: Page) -> tuple[StoredSample, ...]:
        """Return a page of samples, newest first."""
        with reading(self._engine) as connection:
            found = _page(connection, tables.samples, page)
            return tuple(_sample(row) for row in found)

    def put_sample(
        self,
        identity: UUID,
        *,
        body: Json,
        result: Json | None,
        based_on: int | None = None,
    ) -> StoredSample:
        """Add a sample or replace what it says.

        Raises
        ------
        VersionConflictError
            If ``based_on`` is given and is not the revision that is there.
        """
        values = {"body": _dump(body), "result": _dump(result)}
        with writing(self._engine) as connection:
            row = _row(connection, tables.samples, identity)
            if row is None:
                connection.execute(
                    insert(tables.samples).values(
                        id=identity,
                        revision=1,
                        received_at=datetime.now(UTC),
                        **values,
                    )
                )
                return _sample(_the_row(connection, tables.samples, identity))
            old = _sample(row)
            if based_on is not None and based_on != old.revision:
                raise VersionConflictError(
                    "sample", str(identity), based_on, old.revision
                )
            return _sample(
                _changed(connection, tables.samples, old, values, str(identity))
            )

    # --- devices -----------------------------------------------------------------

    def add_device(self, device: Device, token_sha256: str) -> None:
        """Remember a device by the hash of its token."""
        with writing(self._engine) as connection:
            connection.execute(
                insert(tables.devices).values(
                    id=device.id,
                    name=device.name,
                    paired_at=device.paired_at,
                    token_sha256=token_sha256,
                )
            )

    def devices(self) -> tuple[Device, ...]:
        """Return the paired devices, oldest first."""
        table = tables.devices
        with reading(self._engine) as connection:
            rows = connection.execute(select(table).order_by(table.c.paired_at))
            return tuple(_device(row) for row in rows)

    def device_of(self, token_sha256: str) -> Device | None:
        """Return the device with that token, None where it is not paired."""
        table = tables.devices
        wanted = select(table).where(table.c.token_sha256 == token_sha256)
        with reading(self._engine) as connection:
            row = connection.execute(wanted).one_or_none()
        return None if row is None else _device(row)

    def remove_device(self, identity: UUID) -> None:
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


def _dump(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _row(connection: Connection, table: Table, identity: Any) -> Row[Any] | None:
    return connection.execute(select(table).where(table.c.id == identity)).one_or_none()


def _the_row(connection: Connection, table: Table, identity: Any) -> Row[Any]:
    return connection.execute(select(table).where(table.c.id == identity)).one()


def _page(connection: Connection, table: Table, page: Page) -> list[Row[Any]]:
    query = select(table).order_by(table.c.seq.desc()).limit(page.limit)
    if page.before is not None:
        query = query.where(table.c.seq < page.before)
    return list(connection.execute(query))


def _changed(
    connection: Connection,
    table: Table,
    old: StoredPhoto | StoredSample,
    values: Mapping[str, str],
    name: str,
) -> Row[Any]:
    """Change a row whose revision is still the old one."""
    done = connection.execute(
        update(table)
        .where(table.c.id == old.id, table.c.revision == old.revision)
        .values(revision=old.revision + 1, **values)
    )
    row = _row(connection, table, old.id)
    if done.rowcount == 0 or row is None:
        found = 0 if row is None else int(row.revision)
        what = "photo" if isinstance(old, StoredPhoto) else "sample"
        raise VersionConflictError(what, name, old.revision, found)
    return row


def _photo(row: Row[Any]) -> StoredPhoto:
    return StoredPhoto(
        id=row.id,
        seq=row.seq,
        revision=row.revision,
        name=row.name,
        received_at=row.received_at,
        settings=json.loads(row.settings),
        measured=json.loads(row.measured),
        measurement=json.loads(row.measurement),
        corrections=json.loads(row.corrections),
    )


def _sample(row: Row[Any]) -> StoredSample:
    return StoredSample(
        id=row.id,
        seq=row.seq,
        revision=row.revision,
        received_at=row.received_at,
        body=json.loads(row.body),
        result=json.loads(row.result),
    )


def _device(row: Row[Any]) -> Device:
    return Device(id=row.id, name=row.name, paired_at=row.paired_at)
