"""What a power cut or a failing disk leaves of a book: said, and no more is lost.

That a write-ahead log counts up to its last whole commit is SQLite's promise:
https://www.sqlite.org/fileformat2.html#wal_file_format
"""

import random
import shutil
from pathlib import Path

import pytest

from fishmeasure.base.errors import BookDamagedError, BookUnreadableError
from fishmeasure.store.book import open_book
from tests.book.build import same, tank
from tests.store.test_durability import prepare
from tests.store.writing import BATCH, Writer

BATCHES = 30


@pytest.fixture(scope="module")
def crashed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a book whose writer was killed: its last entries are in the log."""
    folder = tmp_path_factory.mktemp("crashed")
    address = str(folder / "book.db")
    prepare(address)
    writer = Writer(address, 1000, 100_000)
    while writer.hear() < BATCHES - 1:
        pass
    writer.process.kill()
    writer.hear_all()
    assert (folder / "book.db-wal").stat().st_size > 0
    return folder


def copied(crashed: Path, target: Path) -> tuple[Path, Path]:
    """Return a copy of a book and its log; the third file is made anew from them."""
    target.mkdir()
    for name in ("book.db", "book.db-wal"):
        shutil.copy(crashed / name, target)
    return target / "book.db", target / "book.db-wal"


def entries(book: Path) -> list[int]:
    """Return the numbers of a book's entries, in the order in which they came."""
    with open_book(book) as open_:
        open_.check()
        return [entry.id.int for entry in open_.entries()]


@pytest.mark.parametrize("seed", range(12))
def test_a_torn_log_counts_up_to_its_last_whole_commit(
    crashed: Path, tmp_path: Path, seed: int
) -> None:
    """Cut off, zeroed or scribbled over from any byte on: what came before is there."""
    whole = entries(copied(crashed, tmp_path / "whole")[0])
    assert len(whole) >= BATCH * BATCHES
    chance = random.Random(seed)  # noqa: S311 - no secret
    book, log = copied(crashed, tmp_path / "torn")
    data = log.read_bytes()
    at = chance.randrange(len(data))
    lost = len(data) - at
    log.write_bytes(data[:at] + (b"", b"\0" * lost, chance.randbytes(lost))[seed % 3])
    found = entries(book)
    assert found == whole[: len(found)]
    assert len(found) % BATCH == 0
    with open_book(book) as open_:  # and it goes on
        open_.save_unit(tank("Later", id=same(9)))
    assert entries(book) == found


@pytest.mark.parametrize("rubbish", [b"\0" * 5000, b"\xa5" * 5000, b"\0"])
def test_rubbish_behind_the_log_harms_nothing(
    crashed: Path, tmp_path: Path, rubbish: bytes
) -> None:
    """A file that grew before its content was written: all that was said is there."""
    whole = entries(copied(crashed, tmp_path / "whole")[0])
    book, log = copied(crashed, tmp_path / "torn")
    with log.open("ab") as file:
        file.write(rubbish)
    assert entries(book) == whole


@pytest.mark.parametrize("gone", ["empty", "away"])
def test_an_emptied_book_is_not_taken_for_a_new_one(
    crashed: Path, tmp_path: Path, gone: str
) -> None:
    """SQLite would delete the log, and with it what it still has."""
    book, log = copied(crashed, tmp_path / "torn")
    data = log.read_bytes()
    if gone == "empty":
        book.write_bytes(b"")
    else:
        book.unlink()
    for to_read in (False, True):
        with pytest.raises(BookDamagedError, match="its log is not"):
            open_book(book, to_read=to_read)
    assert log.read_bytes() == data


@pytest.mark.parametrize("part", [0.3, 0.6, 0.9])
@pytest.mark.parametrize("how", ["cut", "zeroed"])
def test_a_torn_book_is_said_and_left_as_it_is(
    crashed: Path, tmp_path: Path, how: str, part: float
) -> None:
    """One sentence when it is opened to serve; the file is not touched."""
    whole, _ = copied(crashed, tmp_path / "whole")
    entries(whole)  # takes the log in
    bad = tmp_path / "bad.db"
    data = whole.read_bytes()
    at = int(part * len(data)) // 4096 * 4096
    bad.write_bytes(data[:at] + (b"" if how == "cut" else b"\0" * (len(data) - at)))
    before = bad.read_bytes()
    with pytest.raises(BookUnreadableError) as caught, open_book(bad) as book:
        book.check()
    assert "bad.db" in str(caught.value)
    assert bad.read_bytes() == before
