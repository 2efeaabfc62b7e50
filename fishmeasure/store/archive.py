"""Photos and samples in the making, beside the book.

Unlike entries these rows change: a photo gets corrections, a sample grows net by
net until it is recorded as an entry. Each change raises the row's ``revision`` and
notes who made it. The photos' files are kept elsewhere; here are their measurements,
which stay when a photo is deleted: samples and the book rest on them.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import UTC, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import (
    ColumnElement,
    Connection,
    Engine,
    Row,
    Table,
    insert,
    select,
    update,
)

from fishmeasure.base.errors import UnknownRecordError, VersionConflictError
from fishmeasure.store import tables
from fishmeasure.store.devices import Author
from fishmeasure.store.engine import reading, writing

Json = dict[str, Any]
NOBODY = Author()


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
    received, changed
        Who sent it, and who corrected it or measured it anew last.
    deleted, deleted_at
        Who deleted the file, and when; None while it is there.
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
    received: Author = NOBODY
    changed: Author = NOBODY
    deleted: Author = NOBODY
    deleted_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LightPhoto:
    """A photo as a list has it: all but how it was measured, and what came out."""

    id: str
    seq: int
    revision: int
    name: str
    received_at: datetime
    received_by: str
    deleted_at: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredSample:
    """A sample as it was sent, and what it gave; who began it and who went on."""

    id: UUID
    seq: int
    revision: int
    received_at: datetime
    body: Json
    result: Json | None
    received: Author = NOBODY
    changed: Author = NOBODY
    taken_back_at: datetime | None = None


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

    def light_photos(self, page: Page) -> tuple[LightPhoto, ...]:
        """Return a page of photos without what was measured, newest first."""
        columns = (tables.photos.c[item.name] for item in fields(LightPhoto))
        with reading(self._engine) as connection:
            rows = _page(connection, tables.photos, page, columns=tuple(columns))
            return tuple(LightPhoto(**row._mapping) for row in rows)  # noqa: SLF001

    def newest_photo_ids(self, limit: int) -> tuple[str, ...]:
        """Return the ids of the photos that came last and are kept, newest first."""
        table = tables.photos
        kept = select(table.c.id).where(table.c.deleted_at.is_(None))
        query = kept.order_by(table.c.seq.desc()).limit(limit)
        with reading(self._engine) as connection:
            return tuple(connection.execute(query).scalars())

    def deleted_photo_ids(self) -> tuple[str, ...]:
        """Return the ids of the photos whose files were deleted."""
        table = tables.photos
        query = select(table.c.id).where(table.c.deleted_at.is_not(None))
        with reading(self._engine) as connection:
            return tuple(connection.execute(query).scalars())

    def add_photo(
        self,
        identity: str,
        *,
        name: str,
        settings: Json,
        measured: Json,
        by: Author = NOBODY,
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
                        **_who("received", by),
                    )
                )
            return _photo(_the_row(connection, tables.photos, identity))

    def change_photo(
        self,
        old: StoredPhoto,
        changes: Mapping[str, Json | list[Json]],
        by: Author = NOBODY,
    ) -> StoredPhoto:
        """Replace ``settings``, ``measured``, ``measurement`` or ``corrections``.

        Raises
        ------
        VersionConflictError
            If the photo was changed since ``old`` was read.
        """
        values = {name: _dump(value) for name, value in changes.items()}
        with writing(self._engine) as connection:
            whole = {**values, **_who("changed", by)}
            row = _changed(connection, tables.photos, old, whole, old.name)
            return _photo(row)

    def delete_photo(self, old: StoredPhoto, by: Author = NOBODY) -> StoredPhoto:
        """Note that a photo's file is deleted, by whom and when; do so first.

        Raises
        ------
        VersionConflictError
            If the photo was changed since ``old`` was read.
        """
        values = {"deleted_at": datetime.now(UTC), **_who("deleted", by)}
        with writing(self._engine) as connection:
            return _photo(_changed(connection, tables.photos, old, values, old.name))

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

    def open_samples(self, page: Page) -> tuple[StoredSample, ...]:
        """Return a page of samples that are neither in the book nor taken back."""
        table, recorded = tables.samples, tables.entries
        done = select(recorded.c.id).where(recorded.c.id == table.c.id).exists()
        still = (table.c.taken_back_at.is_(None), ~done)
        with reading(self._engine) as connection:
            found = _page(connection, table, page, *still)
            return tuple(_sample(row) for row in found)

    def put_sample(
        self,
        identity: UUID,
        *,
        body: Json,
        result: Json | None,
        based_on: int | None = None,
        by: Author | None = None,
    ) -> StoredSample:
        """Add a sample or replace what it says; one taken back is there again.

        Without ``by`` it is nobody's change, as when its photos give another estimate.

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
                        **_who("received", by or NOBODY),
                        **_who("changed", by or NOBODY),
                    )
                )
                return _sample(_the_row(connection, tables.samples, identity))
            old = _sample(row)
            if based_on is not None and based_on != old.revision:
                raise VersionConflictError(
                    "sample", str(identity), based_on, old.revision
                )
            whole: dict[str, Any] = dict(values)
            if by is not None:
                whole |= {**_who("changed", by), "taken_back_at": None}
            return _sample(
                _changed(connection, tables.samples, old, whole, str(identity))
            )

    def take_back_sample(self, old: StoredSample, by: Author = NOBODY) -> StoredSample:
        """Note that a sample is taken back; what it says stays on record.

        Raises
        ------
        VersionConflictError
            If the sample was changed since ``old`` was read.
        """
        values = {"taken_back_at": datetime.now(UTC), **_who("changed", by)}
        with writing(self._engine) as connection:
            return _sample(
                _changed(connection, tables.samples, old, values, str(old.id))
            )


def _dump(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _who(what: str, by: Author) -> dict[str, Any]:
    """Return the columns of who did something."""
    return {f"{what}_by": by.name, f"{what}_device_id": by.device_id}


def _author(name: str, device_id: UUID | None) -> Author:
    return Author(name=name, device_id=device_id)


def _row(connection: Connection, table: Table, identity: Any) -> Row[Any] | None:
    return connection.execute(select(table).where(table.c.id == identity)).one_or_none()


def _the_row(connection: Connection, table: Table, identity: Any) -> Row[Any]:
    return connection.execute(select(table).where(table.c.id == identity)).one()


def _page(
    connection: Connection,
    table: Table,
    page: Page,
    *only: ColumnElement[bool],
    columns: tuple[ColumnElement[Any], ...] = (),
) -> list[Row[Any]]:
    wanted = select(*columns) if columns else select(table)
    query = wanted.where(*only).order_by(table.c.seq.desc()).limit(page.limit)
    if page.before is not None:
        query = query.where(table.c.seq < page.before)
    return list(connection.execute(query))


def _changed(
    connection: Connection,
    table: Table,
    old: StoredPhoto | StoredSample,
    values: Mapping[str, Any],
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
        received=_author(row.received_by, row.received_device_id),
        changed=_author(row.changed_by, row.changed_device_id),
        deleted=_author(row.deleted_by, row.deleted_device_id),
        deleted_at=row.deleted_at,
    )


def _sample(row: Row[Any]) -> StoredSample:
    return StoredSample(
        id=row.id,
        seq=row.seq,
        revision=row.revision,
        received_at=row.received_at,
        body=json.loads(row.body),
        result=json.loads(row.result),
        received=_author(row.received_by, row.received_device_id),
        changed=_author(row.changed_by, row.changed_device_id),
        taken_back_at=row.taken_back_at,
    )
