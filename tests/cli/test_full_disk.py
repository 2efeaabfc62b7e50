"""Commands on a disk that is really full, or read-only: a sentence, nothing lost."""

import hashlib
import json
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from fishmeasure import cli
from tests.disks import SmallDisk, small_disk

__all__ = ["small_disk"]  # the fixture

ROOT = Path(__file__).resolve().parents[2]
REASONS = ("no space left", "is full", "read-only", "readonly", "cannot be opened")
PHOTO = ROOT / "sample_images" / "tank_a_net2.jpg"
SAMPLE = """
date = 2026-05-02
unit = "Tank A"
species = "rainbow-trout"

[[net]]
fish = 8
gross_g = 1912
tare_g = 640

[[net]]
fish = 9
net_g = 1431
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A disk with a server's folder on it, and a folder elsewhere."""

    disk: SmallDisk
    elsewhere: Path
    monkeypatch: pytest.MonkeyPatch
    capsys: pytest.CaptureFixture[str]

    def run(self, *words: object) -> tuple[int, str, str]:
        """Run a command; return its status, its output and its last word on errors."""
        self.monkeypatch.setattr(sys, "argv", ["fishmeasure", *map(str, words)])
        self.capsys.readouterr()
        with pytest.raises(SystemExit) as caught:
            cli.main()
        out, err = self.capsys.readouterr()
        return int(caught.value.code or 0), out, err.strip().rpartition("\n")[2]

    def content(self) -> list[tuple[str, str]]:
        """Return the name and hash of each file on the disk."""
        return sorted(
            (path.name, hashlib.sha256(path.read_bytes()).hexdigest())
            for path in self.disk.path.rglob("*")
            if path.is_file()
            and path.name != "filler"
            # Beside a book, and without content of it once it was closed.
            and not path.name.endswith(("-shm", "-wal"))
            # The lock that a server or a restore holds; nothing is ever in it.
            and not (path.name.endswith(".in-use") and path.stat().st_size == 0)
            # SQLite makes a file before it writes; to open it is to make the book.
            and (path.suffix != ".sqlite" or path.stat().st_size > 0)
        )


@pytest.fixture
def place(
    small_disk: SmallDisk,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Place:
    """Return a disk with a book, a photo and results, and room for more."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    place = Place(
        disk=small_disk, elsewhere=elsewhere, monkeypatch=monkeypatch, capsys=capsys
    )
    data = small_disk.path / "data"
    monkeypatch.setenv("FISHMEASURE_DATA_DIR", str(data))
    monkeypatch.setenv("FISHMEASURE_BOOK", str(data / "book.sqlite"))
    photo = PHOTO.read_bytes()
    name = hashlib.sha256(photo).hexdigest()
    kept = data / "photos" / name[:2] / name
    kept.parent.mkdir(parents=True)
    kept.write_bytes(photo)
    assert place.run("demo", "--book", data / "book.sqlite")[0] == 0
    assert place.run("backup", elsewhere / "good.tar")[0] == 0
    (elsewhere / "sample.toml").write_text(SAMPLE)
    folder = elsewhere / "photos"
    folder.mkdir()
    (folder / "a.jpg").symlink_to(PHOTO)
    (small_disk.path / "old.json").write_text('{"old": 1}')
    return place


def full(disk: SmallDisk) -> Callable[[], None]:
    """Fill it; return what makes room."""
    disk.fill()
    return disk.empty


def read_only(disk: SmallDisk) -> Callable[[], None]:
    """Set it read-only; return what takes that back."""
    disk.refuse_writes()
    return disk.take_writes


@pytest.mark.parametrize("trouble", [full, read_only])
def test_what_cannot_be_written_is_said_and_nothing_is_lost(
    place: Place, trouble: Callable[[SmallDisk], Callable[[], None]]
) -> None:
    """Status 2 and one line with the reason; files are as before, none is half.

    The reasons are those of errno(3) ENOSPC and EROFS, and of SQLite's result codes
    13 (full), 8 (read-only): https://www.sqlite.org/rescode.html
    """
    disk = place.disk.path
    sample = place.elsewhere / "sample.toml"
    good = place.elsewhere / "good.tar"
    batch = ("batch", place.elsewhere / "photos", "--workers", 1)
    commands: list[tuple[object, ...]] = [
        ("photo", PHOTO, "--json", disk / "old.json"),
        ("photo", PHOTO, "--csv", disk / "new.csv"),
        ("photo", PHOTO, "--overlay", disk),
        ("sample", sample, "--json", disk / "new.json"),
        ("sample", sample, "--record", "Trout of the spring", "--confirm"),
        ("sheet", "--out", disk / "sheet.pdf"),
        (*batch, "--results", disk / "new.jsonl"),
        ("book", "add", "unit", "name=Pond", "kind=pond", "volume_m3=60", "depth_m=1"),
        ("book", "export", disk / "book.json"),
        ("outlook", "Tank A", "--pdf", disk / "outlook.pdf"),
        ("backup", disk / "backup.tar"),
        ("restore", good, "--force"),
        ("demo", "--book", disk / "demo.sqlite"),
    ]
    before = place.content()
    mend = trouble(place.disk)
    for command in commands:
        status, _, said = place.run(*command)
        assert (status, said[:13]) == (2, "fishmeasure: "), (command, said)
        assert any(reason in said.lower() for reason in REASONS), (command, said)
        assert place.content() == before, command
    mend()
    for command in commands:
        assert place.run(*command)[0] == 0, command
    found = json.loads((disk / "old.json").read_text())
    assert len(found["photos"][0]["fish"]) == 8  # the truth of the rendered photo


@pytest.mark.parametrize("trouble", [full, read_only])
def test_a_book_there_can_be_read_and_saved_elsewhere(
    place: Place, trouble: Callable[[SmallDisk], Callable[[], None]]
) -> None:
    """What a grower wants first of a disk that fails."""
    asked = [("book", "state"), ("book", "entries", "--json"), ("outlook", "Tank A")]
    before = [place.run(*words) for words in asked]
    mend = trouble(place.disk)
    assert [place.run(*words) for words in asked] == before
    saved, new = place.elsewhere / "saved.tar", place.elsewhere / "new"
    assert "1 photos" in place.run("backup", saved)[1]
    assert place.run("book", "export", place.elsewhere / "book.json")[0] == 0
    where = ("--data", new, "--book", new / "book.sqlite")
    assert place.run("restore", saved, *where)[0] == 0
    assert place.run("book", "state", *where[2:]) == before[0]
    mend()


def test_output_to_a_full_disk_is_said(place: Place) -> None:
    """Also where the shell has opened the file: status 2 and one line."""
    place.disk.fill()
    for words in (("photo", str(PHOTO), "--json", "-"), ("species",)):
        with (place.disk.path / "out.txt").open("w") as out:
            done = subprocess.run(  # noqa: S603 - our own interpreter
                [sys.executable, "-m", "fishmeasure", *words],
                stdout=out,
                stderr=subprocess.PIPE,
                text=True,
                check=False,
            )
        assert done.returncode == 2, done
        (said,) = done.stderr.strip().splitlines()[-1:]
        assert "the output cannot be written: no space left on device" in said
        assert "Traceback" not in done.stderr
        assert "Exception ignored" not in done.stderr


def test_a_batch_goes_on_when_there_is_room(place: Place) -> None:
    """What was written before the disk was full counts; nothing is measured twice."""
    folder, results = place.elsewhere / "photos", place.disk.path / "results.jsonl"
    batch = ("batch", folder, "--workers", 1, "--results", results)
    assert place.run(*batch)[0] == 0
    first = results.read_bytes()
    for number in range(40):
        (folder / f"more{number}.jpg").write_text("no photo")
    place.disk.fill()
    status, _, said = place.run(*batch)
    assert (status, "no space left on device" in said) == (2, True)
    assert results.read_bytes().startswith(first)
    place.disk.empty()
    place.run(*batch)
    lines = results.read_bytes().splitlines(keepends=True)
    assert lines[0] == first
    assert len({json.loads(line)["path"] for line in lines}) == len(lines) == 41


@pytest.mark.parametrize("command", ["backup", "restore", "export", "record"])
def test_a_disk_that_fills_midway_leaves_the_old_or_the_new(
    place: Place, command: str
) -> None:
    """With ever more room: refused and all as before, until there is enough."""
    disk, good = place.disk, place.elsewhere / "good.tar"
    words: dict[str, tuple[object, ...]] = {
        "backup": ("backup", disk.path / "backup.tar"),
        "restore": ("restore", good, "--force"),
        "export": ("book", "export", disk.path / "book.json"),
        "record": (
            *("sample", place.elsewhere / "sample.toml"),
            *("--record", "Trout of the spring", "--confirm"),
        ),
    }
    before = place.content()
    state = place.run("book", "state")
    refused = 0
    for leave in (0, *(1 << power for power in range(12, 23))):
        disk.fill(leave)
        status, _, said = place.run(*words[command])
        disk.empty()
        if status == 0:
            break
        refused += 1
        assert any(reason in said.lower() for reason in REASONS), said
        assert place.content() == before, leave
        assert place.run("book", "state") == state
    else:
        pytest.fail("never enough room")
    assert refused > 0
    if command != "record":
        assert place.run("book", "state") == state
