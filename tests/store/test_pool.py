"""Who finds all connections in use is told to come again."""

from pathlib import Path

import pytest
from sqlalchemy import create_engine, pool

from fishmeasure.base.errors import BookBusyError
from fishmeasure.store.book import open_book
from fishmeasure.store.engine import reading, writing


def test_no_connection_left_is_a_busy_book(tmp_path: Path) -> None:
    """A typed error, which the server answers with 503, and never one of its own."""
    where = tmp_path / "book.db"
    open_book(where).close()
    engine = create_engine(
        f"sqlite:///{where}",
        poolclass=pool.QueuePool,
        pool_size=1,
        max_overflow=0,
        pool_timeout=0.05,
    )
    with reading(engine):
        for ask in (reading, writing):
            with pytest.raises(BookBusyError), ask(engine):
                pass
    engine.dispose()
