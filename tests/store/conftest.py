"""A book on either database."""

import os
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.engine import make_url

from fishmeasure.store.book import Book, open_book

_NAMES = count()


def _postgres_url() -> str:
    server = os.environ.get("FISHMEASURE_TEST_POSTGRES_URL")
    if server:
        return server
    reason = "no FISHMEASURE_TEST_POSTGRES_URL; see .ci/postgres.sh"
    if os.environ.get("CI"):
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture
def postgres_url() -> Iterator[str]:
    """Return the address of a fresh database."""
    server = make_url(_postgres_url()).set(drivername="postgresql+psycopg")
    name = f"book_{os.getpid()}_{next(_NAMES)}"
    engine = create_engine(server, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
    yield server.set(database=name).render_as_string(hide_password=False)
    with engine.connect() as connection:
        connection.execute(text(f"DROP DATABASE {name} WITH (FORCE)"))
    engine.dispose()


@pytest.fixture(params=["sqlite", "postgres"])
def book_address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Return where a fresh book of each database may be made."""
    if request.param == "sqlite":
        return str(tmp_path / "book.db")
    return str(request.getfixturevalue("postgres_url"))


@pytest.fixture
def book(book_address: str) -> Iterator[Book]:
    """Return a fresh, empty book."""
    with open_book(book_address) as fresh:
        yield fresh
