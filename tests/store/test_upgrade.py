"""Books that older programs wrote are brought up to date with all that is in them.

``data/book_*.sql`` were written by the program as it was when each schema was new,
from the entries in ``data/old_book.json``, which were written by hand.
"""

import json
import random
import sqlite3
import time
from pathlib import Path
from uuid import UUID

import pytest

from api.routes.photos import photo_out
from fishmeasure.base.errors import BookUnreadableError, BookWriteError
from fishmeasure.base.record import read
from fishmeasure.book.entries import ENTRY_KINDS, entry_from_plain
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.photo.corrections import Correction, apply_corrections
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.species import load_species
from fishmeasure.store.book import open_book
from fishmeasure.store.tables import SCHEMA_REVISION
from tests.disks import SmallDisk, small_disk
from tests.store.writing import Writer

__all__ = ["small_disk"]  # the fixture

DATA = Path(__file__).parent / "data"
OLD = sorted(path.stem.removeprefix("book_") for path in DATA.glob("book_*.sql"))
WRITTEN = json.loads((DATA / "old_book.json").read_text("utf-8"))


def old_book(path: Path, revision: str) -> Path:
    """Return a book as a program of that schema left it."""
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA journal_mode=WAL")
    connection.executescript((DATA / f"book_{revision}.sql").read_text("utf-8"))
    connection.close()
    return path


def revision_of(path: Path) -> str:
    connection = sqlite3.connect(path)
    (found,) = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    connection.close()
    return str(found)


def check(path: Path) -> None:
    """Hold what is in the book against what was written by hand."""
    with open_book(path) as book:
        book.check()
        content = book.content()
    assert content.units == tuple(read(Unit, u) for u in WRITTEN["units"])
    assert content.cohorts == tuple(read(Cohort, c) for c in WRITTEN["cohorts"])
    assert content.entries == tuple(entry_from_plain(e) for e in WRITTEN["entries"])
    assert all(entry.recorded_at for entry in content.entries)
    assert revision_of(path) == SCHEMA_REVISION


def test_there_is_a_book_of_every_schema() -> None:
    """A new schema comes with a book of its own; all kinds of entries are in it."""
    assert OLD[-1] == SCHEMA_REVISION
    assert [int(revision) for revision in OLD] == list(range(1, len(OLD) + 1))
    kinds = {entry["kind"] for entry in WRITTEN["entries"]}
    assert len(kinds) >= 11  # all that there were; a kind added later needs no schema
    assert kinds <= set(ENTRY_KINDS)


@pytest.mark.parametrize("revision", OLD)
def test_an_old_book_keeps_all_that_is_in_it(tmp_path: Path, revision: str) -> None:
    """Opened twice, and written to in between."""
    path = old_book(tmp_path / "book.db", revision)
    assert revision_of(path) == revision
    check(path)
    check(path)


@pytest.mark.parametrize("revision", [name for name in OLD if name >= "0002"])
def test_old_photos_samples_and_devices_can_be_used(
    tmp_path: Path, revision: str
) -> None:
    """Shown, corrected and let in by today's server."""
    with open_book(old_book(tmp_path / "book.db", revision)) as book:
        photo = book.archive.photo("ab" * 32)
        assert [fish.complete for fish in photo_out(photo).measurement.fish] == [True]
        measured = PhotoMeasurement.from_json(photo.measured)
        drop = [Correction(kind="drop", fish=0)]
        corrected = apply_corrections(measured, drop, load_species, "rainbow-trout")
        assert not corrected.fish[0].complete
        sample = book.archive.sample(UUID("00000000-0000-4000-8000-000000000041"))
        assert sample.body["nets"] == [{"fish": 8, "net_g": 400.0}]
        device = book.devices.of_token("cd" * 32)
        assert device is not None
        assert (device.name, device.role, device.ends_at) == ("phone", "owner", None)


@pytest.mark.parametrize("revision", [name for name in OLD if name >= "0003"])
def test_who_wrote_what_is_still_known(tmp_path: Path, revision: str) -> None:
    """A device of each role, its entries, photos and samples."""
    with open_book(old_book(tmp_path / "book.db", revision)) as book:
        worker = book.devices.of_token("ef" * 32)
        assert worker is not None
        assert worker.role == "worker"
        written = {
            (entry.recorded_by, entry.device_id) for entry in book.content().entries
        }
        assert written == {("worker phone", worker.id)}
        assert book.archive.photo("ab" * 32).received == worker.author
        gone = book.archive.photo("12" * 32)
        assert (gone.deleted.name, gone.deleted_at is None) == ("phone", False)


def test_a_killed_upgrade_leaves_the_old_book_or_the_new(tmp_path: Path) -> None:
    """kill -9 at random instants of it, 20 times; the next opening completes it."""
    chance = random.Random(7)  # noqa: S311 - no secret
    states = set()
    for number in range(20):
        path = old_book(tmp_path / f"{number}.db", "0001")
        opener = Writer(str(path))
        time.sleep(chance.uniform(0.0, 0.3))
        opener.process.kill()
        opener.hear_all()
        connection = sqlite3.connect(path)
        tables = {
            name
            for (name,) in connection.execute(
                "SELECT name FROM sqlite_master WHERE type = 'table'"
            )
        }
        connection.close()
        states.add(revision_of(path))
        new = {"photos", "samples", "devices"}
        assert tables & new == (set() if revision_of(path) == "0001" else new)
        check(path)
    assert "0001" in states  # some were killed before its end


@pytest.mark.parametrize("trouble", ["full", "read-only"])
def test_an_upgrade_without_room_changes_nothing(
    small_disk: SmallDisk, trouble: str
) -> None:
    """One sentence; when there is room, it is done."""
    path = old_book(small_disk.path / "book.db", "0001")
    before = path.read_bytes()
    if trouble == "full":
        small_disk.fill()
    else:
        small_disk.refuse_writes()
    for to_read in (False, True):
        with pytest.raises((BookUnreadableError, BookWriteError)):
            open_book(path, to_read=to_read)
    assert path.read_bytes() == before
    if trouble == "full":
        small_disk.empty()
    else:
        small_disk.take_writes()
    check(path)
