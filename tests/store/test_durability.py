"""What was acknowledged is on the disk; two writers do each other no harm."""

import random
import time
from pathlib import Path

import pytest
from sqlalchemy import text

from fishmeasure.book.entries import Died
from fishmeasure.store.book import open_book
from fishmeasure.store.engine import open_engine
from tests.book.build import cohort, day, same, tank
from tests.store.writing import BATCH, Writer

UNIT, FISH = tank("Tank A", id=same(1)), cohort("trout", id=same(2))


def prepare(address: str) -> None:
    """Make the book that the writers write to."""
    with open_book(address) as book:
        book.save_unit(UNIT)
        book.save_cohort(FISH)


def kill_rounds(address: str, rounds: int, seed: int) -> int:
    """Kill a writer at a random instant, again and again; nothing said is lost.

    Returns how many entries were acknowledged in all.
    """
    chance = random.Random(seed)  # noqa: S311 - no secret
    prepare(address)
    acknowledged: set[int] = set()
    for number in range(rounds):
        start = 1_000_000 * (number + 1)
        writer = Writer(address, start, 100_000)
        done = [writer.hear()]  # it is running
        time.sleep(chance.uniform(0.0, 0.06))
        writer.process.kill()
        done += writer.hear_all()
        assert writer.process.exitcode == -9
        acknowledged |= {
            start + BATCH * n + part for n in done for part in range(BATCH)
        }
        with open_book(address) as book:
            found = {entry.id.int for entry in book.entries()}
            assert acknowledged <= found
            batches = {(i // 1_000_000, i % 1_000_000 // BATCH) for i in found}
            assert len(found) == BATCH * len(batches)  # whole ones, or none at all
            book.add(*(_died(BATCH * number + part) for part in range(BATCH)))
    return len(acknowledged)


def _died(number: int) -> Died:
    return Died(
        id=same(number), on=day(0), unit_id=UNIT.id, cohort_id=FISH.id, fish_count=1
    )


def test_killed_writer_loses_nothing_that_it_acknowledged(book_address: str) -> None:
    """kill -9 during writes, 20 rounds: no acknowledged entry is missing."""
    assert kill_rounds(book_address, rounds=20, seed=20260301) >= 20 * BATCH


@pytest.mark.slow
def test_killed_writer_loses_nothing_often(tmp_path: Path) -> None:
    """The same, 200 rounds."""
    address = str(tmp_path / "book.db")
    assert kill_rounds(address, rounds=200, seed=20260302) >= 200 * BATCH


def test_writers_at_once(book_address: str) -> None:
    """Four processes write at once: every entry of each is there, once."""
    prepare(book_address)
    starts = [1000 * number for number in range(1, 5)]
    writers = [Writer(book_address, start, 25) for start in starts]
    for writer in writers:
        assert writer.hear_all() == list(range(25))
        assert writer.process.exitcode == 0
    with open_book(book_address) as book:
        found = sorted(entry.id.int for entry in book.entries())
    assert found == sorted(start + n for start in starts for n in range(25 * BATCH))


def test_writers_of_the_same_entries(book_address: str) -> None:
    """Phones that send the same queue at once write it once."""
    prepare(book_address)
    writers = [Writer(book_address, 1000, 40) for _ in range(3)]
    for writer in writers:
        assert writer.hear_all() == list(range(40))
        assert writer.process.exitcode == 0
    with open_book(book_address) as book:
        assert len(book.entries()) == 40 * BATCH


def test_new_book_opened_by_several_at_once(book_address: str) -> None:
    """Whoever comes first makes the tables, the others wait for it."""
    openers = [Writer(book_address) for _ in range(4)]
    for opener in openers:
        assert opener.hear_all() == [0]
        assert opener.process.exitcode == 0
    prepare(book_address)


def test_sqlite_is_set_up_to_lose_nothing(tmp_path: Path) -> None:
    """Write-ahead log, full synchronisation, checked references, on every connection.

    synchronous=2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous
    """
    path = tmp_path / "book.db"
    open_book(path).close()
    engine = open_engine(str(path))
    with engine.connect() as connection:
        values = {
            name: connection.execute(text(f"PRAGMA {name}")).scalar_one()
            for name in ("journal_mode", "synchronous", "foreign_keys")
        }
        assert values == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
        check = connection.execute(text("PRAGMA integrity_check")).scalar_one()
        assert check == "ok"
    engine.dispose()


def test_reader_is_not_held_up_by_a_writer(tmp_path: Path) -> None:
    """While one connection writes, others read the state before it."""
    path = tmp_path / "book.db"
    prepare(str(path))
    engine = open_engine(str(path))
    with open_book(path) as book, engine.connect() as connection:
        connection.execution_options(writing=True)
        with connection.begin():
            connection.execute(text("DELETE FROM cohort_versions"))
            assert len(book.cohorts()) == 1
    engine.dispose()
