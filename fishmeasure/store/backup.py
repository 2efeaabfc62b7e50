"""The whole of a server's data in one file, and back, checked byte by byte.

A backup is a tar file: the book as SQLite's online backup gives it, the photos and
lens profiles as they are, and last ``manifest.json`` with the size and SHA-256 of
each. It can be made while the server works: the book is copied first, and a photo's
file is on disk before the book knows of it, so every photo of the book is there.
"""

import errno
import hashlib
import io
import json
import os
import re
import shutil
import sqlite3
import tarfile
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection, Engine, Select, inspect, select, text

from fishmeasure.base.errors import (
    BackupDamagedError,
    BackupError,
    BookUnreadableError,
    NoBackupError,
)
from fishmeasure.base.files import sync_folder, taking_place
from fishmeasure.base.words import Message, system_reason
from fishmeasure.store import tables
from fishmeasure.store.engine import open_file_as_it_lies, reading
from fishmeasure.store.in_use import Hold
from fishmeasure.store.tables import SCHEMA_REVISION

FORMAT: Final = "fishmeasure-backup"
FORMAT_VERSION: Final = 1
BOOK: Final = "book.sqlite"
MANIFEST: Final = "manifest.json"
_MANIFEST_BYTES: Final = 100_000_000  # of a million photos
_CHUNK_BYTES: Final = 1 << 20
_NO_ROOM: Final = {errno.ENOSPC, errno.EDQUOT, errno.EROFS}
# Nothing else is taken out of a backup, so no name can lead anywhere else.
_FILE = re.compile(
    r"photos/([0-9a-f]{2})/\1[0-9a-f]{62}|lenses/[A-Za-z0-9_-]{1,60}\.json"
)

# Views and triggers, which no book has, would run what somebody else wrote.
_STRANGE: Final = "SELECT name FROM sqlite_master WHERE type NOT IN ('table', 'index')"


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupContent:
    """What a backup holds.

    ``missing`` are photos that the book names but that have no file.
    """

    made_at: str
    photo_count: int
    size_bytes: int
    missing: tuple[str, ...] = ()


class _Hashing:
    """A file's bytes on their way into or out of a tar, counted and hashed."""

    def __init__(self, file: Any) -> None:
        self._file = file
        self._digest = hashlib.sha256()
        self.size = 0

    def read(self, size: int = -1) -> bytes:
        data: bytes = self._file.read(size)
        self._digest.update(data)
        self.size += len(data)
        return data

    def entry(self) -> dict[str, Any]:
        return {"bytes": self.size, "sha256": self._digest.hexdigest()}


# --- making one --------------------------------------------------------------------


def make_backup(engine: Engine, data_dir: Path, target: Path) -> BackupContent:
    """Write a backup of a book and the files beside it, and check it.

    Parameters
    ----------
    engine
        Of the book; SQLite.
    data_dir
        The server's folder, with ``photos`` and ``lenses``.
    target
        The file; must not exist. It appears under its name only when it is whole.

    Raises
    ------
    BackupError
        If the book is not SQLite, or the file exists or cannot be written.
    """
    if engine.dialect.name != "sqlite":
        raise BackupError.of_server()
    if target.exists():
        raise BackupError.of_existing(str(target))
    part = target.with_name(f".{target.name}.part")
    try:
        with tempfile.TemporaryDirectory(dir=target.parent, prefix=".backup-") as spare:
            book = Path(spare) / BOOK
            _copy_book(engine, book)
            with part.open("wb") as file:
                _write(file, book, data_dir)
                file.flush()
                os.fsync(file.fileno())
        content = check_backup(part)
        part.replace(target)
        sync_folder(target.parent)
    except OSError as error:
        raise BackupError.of_disk(str(target), system_reason(error)) from None
    finally:
        part.unlink(missing_ok=True)
    return content


def _copy_book(engine: Engine, target: Path) -> None:
    with reading(engine):
        pass  # a book that cannot be read says so in its own words
    connection = engine.raw_connection()
    try:
        # One consistent state, without keeping writers out.
        connection.cursor().execute("VACUUM INTO ?", (str(target),))
    except sqlite3.OperationalError as error:
        raise BackupError.of_disk(str(target.parent.parent), str(error)) from None
    except sqlite3.DatabaseError as error:
        raise BookUnreadableError(str(engine.url.database), str(error)) from None
    finally:
        connection.close()


def _write(file: Any, book: Path, data_dir: Path) -> None:
    listed: dict[str, Any] = {}
    with tarfile.open(fileobj=file, mode="w", format=tarfile.PAX_FORMAT) as archive:
        for name, path in ((BOOK, book), *_files_of(data_dir)):
            try:
                opened = path.open("rb")
            except FileNotFoundError:
                continue  # removed meanwhile
            with opened as source:
                info = tarfile.TarInfo(name)
                info.size = os.fstat(source.fileno()).st_size
                info.mtime = int(path.stat().st_mtime)
                hashing = _Hashing(source)
                archive.addfile(info, hashing)
                listed[name] = hashing.entry()
        manifest = {
            "format": FORMAT,
            "version": FORMAT_VERSION,
            "made_at": datetime.now(UTC).isoformat(timespec="seconds"),
            "schema": SCHEMA_REVISION,
            "files": listed,
        }
        data = json.dumps(manifest, indent=1).encode()
        info = tarfile.TarInfo(MANIFEST)
        info.size = len(data)
        archive.addfile(info, io.BytesIO(data))


def _files_of(data_dir: Path) -> Iterator[tuple[str, Path]]:
    for folder in ("photos", "lenses"):
        for path in sorted((data_dir / folder).rglob("*")):
            name = path.relative_to(data_dir).as_posix()
            if _FILE.fullmatch(name) and path.is_file():
                yield name, path


# --- reading one -------------------------------------------------------------------


def check_backup(source: Path) -> BackupContent:
    """Read a backup through and return what it holds; nothing is kept.

    Raises
    ------
    BackupDamagedError
        If anything in it is not as its manifest says.
    """
    with tempfile.TemporaryDirectory(dir=source.parent, prefix=".backup-") as spare:
        return _unpack(source, Path(spare), only_book=True)


def restore_backup(
    source: Path, data_dir: Path, book: Path, *, force: bool = False
) -> BackupContent:
    """Put a backup's book and files in place, after all of it has been checked.

    Parameters
    ----------
    source
        The backup.
    data_dir
        The server's folder; the server must not be running.
    book
        Path of the book.
    force
        Whether a book that is there may be replaced; it is kept beside the new one
        under a name with the time in it.

    Raises
    ------
    BackupDamagedError
        If the backup is not whole; nothing was changed.
    BackupError
        If there is a book already, or the disk refuses.
    BookInUseError
        If a server is running on the book.
    """
    _check_is_backup(source)
    if book.exists() and not force:
        raise BackupError.of_existing(str(book))
    try:
        data_dir.mkdir(parents=True, exist_ok=True)
        book.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=data_dir, prefix=".restore-") as spare:
            content = _unpack(source, Path(spare), only_book=False)
            with Hold(book, alone=True):
                _put_in_place(Path(spare), data_dir, book)
    except OSError as error:
        raise BackupError.of_disk(str(data_dir), system_reason(error)) from None
    return content


def _put_in_place(spare: Path, data_dir: Path, book: Path) -> None:
    for path in sorted(spare.rglob("*")):
        name = path.relative_to(spare).as_posix()
        if _FILE.fullmatch(name):
            with taking_place(data_dir / name) as part:
                _copy(path, part)
    with taking_place(book) as part:
        _copy(spare / BOOK, part)
        _set_aside(book)  # once there is room for the new one


def _check_is_backup(source: Path) -> None:
    """Refuse another kind of file before anything is said of the book."""
    try:
        if not tarfile.is_tarfile(source):
            raise NoBackupError(source.name)
    except OSError as error:
        raise BackupError.of_disk(str(source), system_reason(error)) from None


def _set_aside(book: Path) -> None:
    """Rename a book and its write-ahead log."""
    stamp = datetime.now(UTC).strftime("%Y%m%d-%H%M%S-%f")
    for ending in ("", "-wal", "-shm"):
        path = book.with_name(book.name + ending)
        if path.exists():
            path.rename(book.with_name(f"{book.name}.before-{stamp}{ending}"))


def _copy(path: Path, target: Path) -> None:
    """Copy a file onto the disk; it may be another one than the source's."""
    shutil.copyfile(path, target)
    with target.open("rb+") as file:
        os.fsync(file.fileno())


@contextmanager
def _damage(name: str) -> Iterator[None]:
    """Turn what a broken tar or JSON raises into the error that says so."""
    try:
        yield
    except (tarfile.TarError, EOFError, ValueError, LookupError, TypeError) as error:
        reason = Message.of("backup-unread", case="told", told=str(error))
        raise BackupDamagedError(name, reason) from None
    except RecursionError:
        reason = Message.of("backup-unread", case="bare")
        raise BackupDamagedError(name, reason) from None


def _unpack(source: Path, folder: Path, *, only_book: bool) -> BackupContent:
    """Unpack and compare all with the manifest; ``only_book`` keeps no photos."""
    found: dict[str, Any] = {}
    manifest: dict[str, Any] = {}
    try:
        with _damage(source.name), tarfile.open(source, "r:") as archive:
            for member in archive:
                stream = archive.extractfile(member)
                # A few hundred bytes of a sparse member can stand for terabytes; a
                # length below 0 leads back to where it was read.
                odd = member.issparse() or member.size < 0
                if stream is None or odd or not member.isreg():
                    reason = Message.of("backup-content", case="more-than-files")
                    raise BackupDamagedError(source.name, reason)
                if member.name == MANIFEST:
                    manifest = json.loads(stream.read(_MANIFEST_BYTES))
                    continue
                if member.name != BOOK and not _FILE.fullmatch(member.name):
                    reason = Message.of("backup-content", case="strange-name")
                    raise BackupDamagedError(source.name, reason)
                keep = member.name == BOOK or not only_book
                target = folder / member.name if keep else None
                found[member.name] = _take(stream, target)
            files = _listed(source.name, manifest)
    except OSError as error:
        if error.errno in _NO_ROOM:  # where it is unpacked to
            raise
        # Also what tarfile raises where a member is cut off.
        raise BackupError.of_disk(str(source), system_reason(error)) from None
    if found != files:
        wrong = sorted(n for n in found | files if found.get(n) != files.get(n))
        reason = Message.of("backup-file-changed", file=wrong[0])
        raise BackupDamagedError(source.name, reason)
    return BackupContent(
        made_at=str(manifest.get("made_at", "")),
        photo_count=sum(name.startswith("photos/") for name in found),
        size_bytes=sum(entry["bytes"] for entry in found.values()),
        missing=_missing(source.name, folder / BOOK, found),
    )


def _listed(name: str, manifest: dict[str, Any]) -> dict[str, Any]:
    """Return the manifest's files."""
    if not manifest:
        reason = Message.of("backup-content", case="end-missing")
        raise BackupDamagedError(name, reason)
    if manifest.get("format") != FORMAT or manifest.get("version") != FORMAT_VERSION:
        reason = Message.of("backup-format", format=FORMAT, version=FORMAT_VERSION)
        raise BackupDamagedError(name, reason)
    files: dict[str, Any] = manifest["files"]
    if BOOK not in files:
        reason = Message.of("backup-content", case="no-book")
        raise BackupDamagedError(name, reason)
    return files


def _take(stream: Any, target: Path | None) -> dict[str, Any]:
    hashing = _Hashing(stream)
    if target is None:
        while hashing.read(_CHUNK_BYTES):
            pass
    else:
        target.parent.mkdir(parents=True, exist_ok=True)
        with target.open("wb") as file:
            shutil.copyfileobj(hashing, file, _CHUNK_BYTES)
    return hashing.entry()


def _kept_photos(connection: Connection) -> Select[str]:
    """Return the question for photos that have files; an old book deleted none."""
    table = tables.photos
    wanted = select(table.c.id)
    there = inspect(connection)
    if not there.has_table(table.name):  # said when the question is put
        return wanted
    columns = {item["name"] for item in there.get_columns(table.name)}
    if table.c.deleted_at.name not in columns:
        return wanted
    return wanted.where(table.c.deleted_at.is_(None))


def _missing(name: str, book: Path, found: dict[str, Any]) -> tuple[str, ...]:
    """Return the photos of the book that have no file; the book is checked."""
    engine = open_file_as_it_lies(book)
    try:
        with reading(engine) as connection:
            state = connection.execute(text("PRAGMA quick_check")).scalar_one()
            if state != "ok":
                reason = Message.of("backup-content", case="book-damaged")
                raise BackupDamagedError(name, reason)
            if connection.execute(text(_STRANGE)).first() is not None:
                reason = Message.of("backup-content", case="book-strange")
                raise BackupDamagedError(name, reason)
            photos = connection.execute(_kept_photos(connection)).scalars().all()
    except BookUnreadableError:
        reason = Message.of("backup-content", case="book-unread")
        raise BackupDamagedError(name, reason) from None
    finally:
        engine.dispose()
    return tuple(p for p in photos if f"photos/{p[:2]}/{p}" not in found)
