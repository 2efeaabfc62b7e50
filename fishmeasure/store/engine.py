"""Opening a database: SQLite set up to lose nothing, or PostgreSQL.

SQLite runs with a write-ahead log and ``synchronous=FULL``: when a write has
returned, it is on the disk. Writers queue for ``BUSY_TIMEOUT_S``.
"""

import re
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import (
    ArgumentError,
    DataError,
    DBAPIError,
    IntegrityError,
    NoSuchModuleError,
    ProgrammingError,
    TimeoutError,  # noqa: A004 - SQLAlchemy's, of its pool
)

from fishmeasure.base.errors import (
    BookBusyError,
    BookDamagedError,
    BookFullError,
    BookNewerError,
    BookUnreadableError,
    BookWriteError,
    LedgerError,
)
from fishmeasure.base.words import Message
from fishmeasure.store.tables import SCHEMA_REVISION

BUSY_TIMEOUT_S = 10.0
SQLITE_CONNECTIONS = 48
POOL_TIMEOUT_S = 30.0
CHECKED_BYTES = 256_000_000
"""Largest book that is read through when it is opened: about a second of a disk."""
# Any number will do, as long as every program that writes to a book uses it.
_WRITER_LOCK = 0x66697368
# Bugs of this package; anything else comes from the disk, server or network.
_BUGS = (IntegrityError, ProgrammingError, DataError)
_PASSWORD = re.compile(r"(://[^:/]*:).*@")  # of an address that cannot be taken apart
_MIGRATIONS = Path(__file__).parent / "migrations"


def _database_url(where: str) -> URL:
    """Return the address; anything without ``://`` is the path of a file."""
    if "://" not in where:
        return URL.create("sqlite", database=where)
    try:
        url = make_url(where)
    except (ArgumentError, ValueError):
        shown = _PASSWORD.sub(r"\1***@", where).partition("?")[0]
        raise BookUnreadableError(shown, Message.of("store-no-address")) from None
    if url.drivername in {"postgresql", "postgres"}:
        return url.set(drivername="postgresql+psycopg")
    return url


def _set_up_sqlite(engine: Engine, pragmas: tuple[str, ...]) -> None:
    """Give every connection its settings."""

    @event.listens_for(engine, "connect")
    def _settings(connection: Any, _record: Any) -> None:
        # The driver would begin transactions by its own rules; ours begin below.
        connection.isolation_level = None
        for pragma in pragmas:
            connection.execute(f"PRAGMA {pragma}")

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        writing = connection.get_execution_options().get("writing", False)
        # IMMEDIATE: one writer at a time, and nobody finds out at the end.
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


def open_engine(where: str) -> Engine:
    """Return an engine for a path or address; connects to nothing yet.

    Raises
    ------
    BookUnreadableError
        If the address is none, or its driver is not installed.
    """
    url = _database_url(where)
    try:
        if url.get_backend_name() == "sqlite":
            # One for each thread of a server, so that none waits for another's.
            engine = create_engine(
                url, pool_size=SQLITE_CONNECTIONS, hide_parameters=True
            )
            _set_up_sqlite(
                engine,
                (
                    f"busy_timeout={int(BUSY_TIMEOUT_S * 1000)}",
                    "journal_mode=WAL",
                    "synchronous=FULL",
                    "foreign_keys=ON",
                ),
            )
        else:
            engine = create_engine(
                url,
                pool_pre_ping=True,
                pool_timeout=POOL_TIMEOUT_S,
                hide_parameters=True,
            )
    except NoSuchModuleError:
        reason = Message.of("store-other-database", driver=url.drivername)
        raise BookUnreadableError(_shown(url), reason) from None
    except ModuleNotFoundError as error:
        reason = Message.of("store-no-driver", driver=error.name)
        raise BookUnreadableError(_shown(url), reason) from None
    return engine


def open_file_as_it_lies(path: Path) -> Engine:
    """Return an engine that reads a file of SQLite and needs nothing beside it.

    A book is otherwise opened with two more files beside it, which a full or
    read-only disk refuses. What another program writes meanwhile is not seen.
    https://www.sqlite.org/uri.html#uriimmutable
    """
    address = f"file:{quote(str(path.absolute()))}?immutable=1"

    def connect() -> sqlite3.Connection:
        return sqlite3.connect(address, uri=True, check_same_thread=False)

    url = URL.create("sqlite", database=str(path))
    engine = create_engine(url, creator=connect, hide_parameters=True)
    _set_up_sqlite(engine, ())
    return engine


def open_to_read(where: str) -> Engine:
    """Return an engine for a book, brought up to date if that can be.

    Where the disk takes no writes, the book is read as it lies. That is all of it
    if there is no write-ahead log beside it, as after a program that ended well.

    Raises
    ------
    BookUnreadableError, BookNewerError
        As for ``open_engine`` and ``migrate``.
    """
    engine = open_engine(where)
    try:
        migrate(engine)
    except BookUnreadableError:
        engine.dispose()
        book = Path(where)
        log = book.with_name(f"{book.name}-wal")
        if not book.is_file() or (log.exists() and log.stat().st_size):
            raise
    except BaseException:
        engine.dispose()
        raise
    else:
        return engine
    engine = open_file_as_it_lies(book)
    try:
        migrate(engine)
    except BaseException:
        engine.dispose()
        raise
    return engine


def _shown(url: URL) -> str:
    """Return where a book is, without its password.

    Nor with the query: a driver takes a password, or a file with one, from there too.
    """
    if url.get_backend_name() == "sqlite":
        return str(url.database)
    return url.set(query={}).render_as_string(hide_password=True)


def _as_book_error(
    engine: Engine, error: DBAPIError, *, write_begun: bool
) -> LedgerError:
    """Return the error that says what a grower can do about it."""
    reason = " ".join(str(error.orig).split())
    if "locked" in reason:
        return BookBusyError(BUSY_TIMEOUT_S)
    if "disk is full" in reason or "No space left" in reason:
        return BookFullError()
    if "malformed" in reason:
        return BookDamagedError(_shown(engine.url), Message.of("store-part-lost"))
    if write_begun or "readonly" in reason:
        return BookWriteError(reason)
    return BookUnreadableError(_shown(engine.url), reason)


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """Give a connection that sees one state of the book."""
    try:
        with engine.connect() as connection, connection.begin():
            if engine.dialect.name == "postgresql":
                connection.execute(
                    text("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
                )
            yield connection
    except _BUGS:
        raise
    except TimeoutError as error:  # other threads have all connections
        raise BookBusyError(POOL_TIMEOUT_S) from error
    except DBAPIError as error:
        raise _as_book_error(engine, error, write_begun=False) from error


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """Give the one writer's connection; all of it is saved, or nothing."""
    begun = False
    try:
        with (
            engine.connect().execution_options(writing=True) as connection,
            connection.begin(),
        ):
            if engine.dialect.name == "postgresql":
                connection.execute(
                    text("SELECT pg_advisory_xact_lock(:key)"), {"key": _WRITER_LOCK}
                )
            begun = True
            yield connection
    except _BUGS:
        raise
    except TimeoutError as error:  # other threads have all connections
        raise BookBusyError(POOL_TIMEOUT_S) from error
    except DBAPIError as error:
        raise _as_book_error(engine, error, write_begun=begun) from error


def _revision(connection: Connection) -> str | None:
    """Return the schema's revision without loading Alembic, which is slow."""
    dialect = connection.engine.dialect
    if not dialect.has_table(connection, "alembic_version"):
        return None
    found = connection.execute(text("SELECT version_num FROM alembic_version"))
    return found.scalar_one_or_none()


def check(engine: Engine) -> None:
    """Look whether a file is whole, where that takes about a second at most.

    Raises
    ------
    BookDamagedError
        If it is not.
    """
    if engine.dialect.name != "sqlite" or not engine.url.database:
        return
    if Path(engine.url.database).stat().st_size > CHECKED_BYTES:
        return
    with reading(engine) as connection:
        found = connection.execute(text("PRAGMA quick_check(1)")).scalar_one()
    if found != "ok":
        raise BookDamagedError(engine.url.database, Message.of("store-part-lost"))


def _refuse_emptied(engine: Engine) -> None:
    """Keep SQLite from taking an emptied book for a new one, and its log away."""
    if engine.dialect.name != "sqlite" or not engine.url.database:
        return
    book = Path(engine.url.database)
    log = book.with_name(f"{book.name}-wal")
    if not (log.exists() and log.stat().st_size):
        return
    if not book.exists() or book.stat().st_size == 0:
        raise BookDamagedError(str(book), Message.of("store-emptied"))


def migrate(engine: Engine) -> None:
    """Bring the schema up to date, once, whoever comes first.

    Raises
    ------
    BookNewerError
        If a newer program has changed the schema.
    BookDamagedError
        If the file has lost its content.
    """
    _refuse_emptied(engine)
    with reading(engine) as connection:
        if _revision(connection) == SCHEMA_REVISION:
            return
    from alembic import command  # noqa: PLC0415
    from alembic.config import Config  # noqa: PLC0415
    from alembic.script import ScriptDirectory  # noqa: PLC0415

    config = Config()
    config.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    known = {
        item.revision for item in ScriptDirectory.from_config(config).walk_revisions()
    }
    with writing(engine) as connection:
        revision = _revision(connection)
        if revision is not None and revision not in known:
            raise BookNewerError(revision)
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
