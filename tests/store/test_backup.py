"""Backups: whole, checked, made while serving, and never put over anything."""

import hashlib
import io
import json
import sqlite3
import sys
import tarfile
import threading
from datetime import date
from pathlib import Path
from uuid import uuid4

import pytest
from sqlalchemy import text

from fishmeasure import cli
from fishmeasure.base.errors import BackupDamagedError, BackupError, FishMeasureError
from fishmeasure.store.backup import (
    BOOK,
    MANIFEST,
    check_backup,
    make_backup,
    restore_backup,
)
from fishmeasure.store.book import open_book
from fishmeasure.store.demo import demo_book
from fishmeasure.store.engine import open_engine
from tests.book.build import tank

PHOTOS = [b"first photo" * 1000, b"second photo" * 9]


def digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def photo_path(folder: Path, data: bytes) -> Path:
    return folder / "photos" / digest(data)[:2] / digest(data)


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Return a server's folder with a book, two photos, a lens and a torn upload."""
    folder = tmp_path / "data"
    folder.mkdir()
    with open_book(folder / BOOK) as book:
        book.add_content(demo_book(date(2026, 6, 1)))
        for photo in PHOTOS:
            path = photo_path(folder, photo)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(photo)
            book.archive.add_photo(
                digest(photo), name="a.jpg", settings={}, measured={}
            )
    (folder / "lenses").mkdir()
    (folder / "lenses" / "phone.json").write_text("{}", encoding="utf-8")
    (path.parent / ".part-x").write_bytes(b"torn")
    return folder


def backup(folder: Path, target: Path) -> None:
    engine = open_engine(str(folder / BOOK))
    made = make_backup(engine, folder, target)
    engine.dispose()
    assert made.photo_count == len(PHOTOS)
    assert made.missing == ()


def test_all_comes_back(data: Path, tmp_path: Path) -> None:
    """Book and photos are the same, byte for byte; leftovers are not taken."""
    backup(data, tmp_path / "b.tar")
    new = tmp_path / "new"
    restore_backup(tmp_path / "b.tar", new, new / BOOK)
    with open_book(data / BOOK) as old, open_book(new / BOOK) as book:
        assert book.content() == old.content()
        for photo in PHOTOS:
            assert book.archive.photo(digest(photo)).name == "a.jpg"
    files = sorted(p for p in new.rglob("*") if p.is_file() and "book" not in p.name)
    assert [p.read_bytes() for p in files if "photos" in p.parts] == [
        photo_path(data, p).read_bytes() for p in sorted(PHOTOS, key=digest)
    ]
    assert (new / "lenses" / "phone.json").read_text("utf-8") == "{}"
    assert len(files) == len(PHOTOS) + 1


def test_plain_tar_reads_it_and_sha256_agrees(data: Path, tmp_path: Path) -> None:
    """The manifest's sums are those of hashlib over what tarfile takes out."""
    backup(data, tmp_path / "b.tar")
    with tarfile.open(tmp_path / "b.tar") as archive:
        taken = {m.name: archive.extractfile(m) for m in archive.getmembers()}
        content = {name: file.read() for name, file in taken.items() if file}
    listed = json.loads(content.pop(MANIFEST))["files"]
    assert {n: e["sha256"] for n, e in listed.items()} == {
        n: digest(c) for n, c in content.items()
    }


def test_nothing_is_overwritten(data: Path, tmp_path: Path) -> None:
    """Neither a file by a backup, nor a book by putting one back, unless forced."""
    target = tmp_path / "b.tar"
    backup(data, target)
    with pytest.raises(BackupError, match="there already"):
        backup(data, target)
    with open_book(data / BOOK) as book:
        book.save_unit(tank("Later"))
        later = book.content()
    with pytest.raises(BackupError, match="there already"):
        restore_backup(target, data, data / BOOK)
    with open_book(data / BOOK) as book:
        assert book.content() == later
    restore_backup(target, data, data / BOOK, force=True)
    with open_book(data / BOOK) as book:
        assert "Later" not in {unit.name for unit in book.units()}
    kept = [p for p in data.glob(f"{BOOK}.before-*") if p.name[-4:] not in "-wal-shm"]
    with open_book(kept[0]) as book:
        assert book.content() == later


def test_every_damage_is_refused(data: Path, tmp_path: Path) -> None:
    """Cut off anywhere, or with any byte of a file changed: nothing is put back."""
    target, bad = tmp_path / "b.tar", tmp_path / "bad.tar"
    backup(data, target)
    whole = target.read_bytes()
    with tarfile.open(target) as archive:
        members = archive.getmembers()
    places = [m.offset_data + m.size // 2 for m in members if m.size]
    broken = [
        whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :] for at in places[:-1]
    ]
    last = members[-1].offset_data + members[-1].size
    broken += [whole[: last * part // 40] for part in range(40)]
    for content in broken:
        bad.write_bytes(content)
        with pytest.raises(FishMeasureError):
            check_backup(bad)
        with pytest.raises((BackupDamagedError, BackupError)):
            restore_backup(bad, tmp_path / "new", tmp_path / "new" / BOOK)
        assert not any((tmp_path / "new").iterdir())


@pytest.mark.parametrize(
    "name",
    [
        "../evil",
        "/evil",
        "photos/../../evil",
        "photos/aa/..",
        "photos/ab/" + "a" * 64,
    ],
)
def test_names_that_lead_elsewhere_are_refused(tmp_path: Path, name: str) -> None:
    """Whatever the manifest says of them."""
    bad = tmp_path / "in" / "bad.tar"
    bad.parent.mkdir()
    with tarfile.open(bad, "w") as archive:
        info = tarfile.TarInfo(name)
        info.size = 4
        archive.addfile(info, io.BytesIO(b"evil"))
    with pytest.raises(BackupDamagedError):
        restore_backup(bad, tmp_path / "in" / "new", tmp_path / "in" / "new" / BOOK)
    assert [p.name for p in tmp_path.rglob("*evil*")] == []


def test_links_are_refused(tmp_path: Path) -> None:
    """A link in a backup could point anywhere."""
    bad = tmp_path / "bad.tar"
    with tarfile.open(bad, "w") as archive:
        info = tarfile.TarInfo(BOOK)
        info.type, info.linkname = tarfile.SYMTYPE, "/etc/passwd"
        archive.addfile(info)
    with pytest.raises(BackupDamagedError):
        restore_backup(bad, tmp_path / "new", tmp_path / "new" / BOOK)


def test_a_photo_without_its_file_is_told(data: Path, tmp_path: Path) -> None:
    """The backup is made all the same, and says what the book lacks."""
    photo_path(data, PHOTOS[0]).unlink()
    engine = open_engine(str(data / BOOK))
    made = make_backup(engine, data, tmp_path / "b.tar")
    engine.dispose()
    assert made.missing == (digest(PHOTOS[0]),)


def test_made_while_the_book_is_written(data: Path, tmp_path: Path) -> None:
    """Each backup is one state of the book: what came before is in it."""
    stop = threading.Event()
    names: list[str] = []

    def write() -> None:
        with open_book(data / BOOK) as book:
            while not stop.is_set():
                name = str(uuid4())
                book.save_unit(tank(name))
                names.append(name)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        for number in range(3):
            before = len(names)
            backup(data, tmp_path / f"{number}.tar")
            folder = tmp_path / f"new{number}"
            restore_backup(tmp_path / f"{number}.tar", folder, folder / BOOK)
            with open_book(folder / BOOK) as book:
                assert {unit.name for unit in book.units()} >= set(names[:before])
    finally:
        stop.set()
        writer.join()


def test_server_books_are_left_to_its_own_tools(
    postgres_url: str, tmp_path: Path
) -> None:
    """The advice names pg_dump."""
    engine = open_engine(postgres_url)
    with pytest.raises(BackupError, match="pg_dump"):
        make_backup(engine, tmp_path, tmp_path / "b.tar")
    engine.dispose()


def run(monkeypatch: pytest.MonkeyPatch, *arguments: object) -> int:
    monkeypatch.setattr(sys, "argv", ["fishmeasure", *map(str, arguments)])
    with pytest.raises(SystemExit) as caught:
        cli.main()
    return int(caught.value.code or 0)


def test_the_commands(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    data: Path,
    tmp_path: Path,
) -> None:
    """Status 0 and a sentence; 2 and a sentence where it cannot be."""
    monkeypatch.delenv("FISHMEASURE_BOOK", raising=False)
    target, new = tmp_path / "b.tar", tmp_path / "new"
    assert run(monkeypatch, "backup", target, "--data", data) == 0
    assert run(monkeypatch, "restore", target, "--data", new) == 0
    said = capsys.readouterr().out
    assert "2 photos" in said
    assert "all checked" in said
    assert run(monkeypatch, "restore", target, "--data", new) == 2
    assert run(monkeypatch, "restore", tmp_path / "none.tar", "--data", tmp_path) == 2
    assert run(monkeypatch, "backup", target, "--data", tmp_path / "nothing") == 2
    assert len(capsys.readouterr().err.strip().splitlines()) == 3


def test_what_is_no_backup_is_said_first(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    data: Path,
    tmp_path: Path,
) -> None:
    """Before anything is said of the book that is there."""
    picture = tmp_path / "text.jpg"
    picture.write_text("no picture either", encoding="utf-8")
    for force in ((), ("--force",)):
        words = "restore", picture, "--data", data, *force
        assert run(monkeypatch, *words) == 2
        assert "text.jpg is no backup of a book." in capsys.readouterr().err


def test_a_book_in_another_place_is_named(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    data: Path,
    tmp_path: Path,
) -> None:
    """The photos are back in the folder, the book where the environment says."""
    monkeypatch.delenv("FISHMEASURE_BOOK", raising=False)
    target, new, book = tmp_path / "b.tar", tmp_path / "new", tmp_path / "my.sqlite"
    assert run(monkeypatch, "backup", target, "--data", data) == 0
    monkeypatch.setenv("FISHMEASURE_BOOK", str(book))
    assert run(monkeypatch, "restore", target, "--data", new) == 0
    assert f"are back in {new}, the book at {book}." in capsys.readouterr().out
    assert book.exists()


@pytest.mark.parametrize(
    "statement",
    [
        "CREATE TRIGGER t AFTER INSERT ON entries BEGIN DELETE FROM units; END",
        "CREATE VIEW v AS SELECT * FROM devices",
    ],
)
def test_a_book_that_would_run_something_is_not_restored(
    data: Path, tmp_path: Path, statement: str
) -> None:
    """A backup of somebody else's brings tables and nothing that acts."""
    engine = open_engine(str(data / BOOK))
    with engine.begin() as connection:
        connection.execute(text(statement))
    engine.dispose()
    with pytest.raises(BackupDamagedError, match="more than tables"):
        backup(data, tmp_path / "a.tar")


def test_a_deleted_photo_is_neither_saved_nor_missed(
    data: Path, tmp_path: Path
) -> None:
    """Its file is gone and its row says so; after restoring as well."""
    with open_book(data / BOOK) as book:
        book.archive.delete_photo(book.archive.photo(digest(PHOTOS[0])))
    photo_path(data, PHOTOS[0]).unlink()
    engine = open_engine(str(data / BOOK))
    made = make_backup(engine, data, tmp_path / "b.tar")
    engine.dispose()
    assert (made.photo_count, made.missing) == (1, ())
    new = tmp_path / "new"
    restore_backup(tmp_path / "b.tar", new, new / BOOK)
    assert not photo_path(new, PHOTOS[0]).exists()
    with open_book(new / BOOK) as book:
        assert book.archive.deleted_photo_ids() == (digest(PHOTOS[0]),)


@pytest.mark.parametrize("schema", ["0002", "0003"])
def test_a_backup_of_an_older_schema_is_put_back(tmp_path: Path, schema: str) -> None:
    """As the program made it then; a lost photo is still told."""
    path, backed = tmp_path / "old.db", tmp_path / "b.tar"
    connection = sqlite3.connect(path)
    written = Path(__file__).parent / "data" / f"book_{schema}.sql"
    connection.executescript(written.read_text("utf-8"))
    connection.close()
    engine = open_engine(str(path))
    assert make_backup(engine, tmp_path, backed).missing == ("ab" * 32,)
    engine.dispose()
    new = tmp_path / "new"
    restore_backup(backed, new, new / BOOK)
    with open_book(new / BOOK) as book:
        device = book.devices.of_token("cd" * 32)
        assert device is not None
        assert device.role == "owner"
