"""A backup is not put back under a running server."""

import signal
import subprocess
import sys
from pathlib import Path

import httpx2
import pytest

from fishmeasure.base.errors import BookInUseError
from fishmeasure.store.book import open_book
from fishmeasure.store.in_use import Hold
from tests.api.live import unit_body
from tests.api.running import running


def command(*arguments: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # noqa: S603 - this program
        [sys.executable, "-m", "fishmeasure", *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def test_nothing_entered_is_lost_to_a_restore(tmp_path: Path) -> None:
    """It is refused in one sentence while any server runs, and works after a crash."""
    data, file = tmp_path / "data", tmp_path / "old.tar"
    restore = ("restore", file, "--data", data, "--force")
    with (
        running(data, "--workers", "1") as one,
        running(data, "--workers", "1") as two,  # together they may, as before
    ):
        assert command("backup", file, "--data", data).returncode == 0
        assert one.stop(signal.SIGTERM) == 0
        refused = command(*restore)
        assert refused.returncode == 2
        assert "running server" in " ".join(refused.stderr.split())
        assert "Stop 'fishmeasure serve'" in " ".join(refused.stderr.split())
        assert "Traceback" not in refused.stderr
        path, unit = unit_body()
        assert httpx2.put(f"{two.url}{path}", json=unit, timeout=60).is_success
        found = httpx2.get(f"{two.url}/v1/units", timeout=60).json()["items"]
        assert [item["id"] for item in found] == [unit["id"]]
        two.stop(signal.SIGKILL)
    done = command(*restore)
    assert done.returncode == 0, done.stderr
    with running(data, "--workers", "1") as again:  # the book of before the unit
        assert httpx2.get(f"{again.url}/v1/units", timeout=60).json()["items"] == []


def test_servers_hold_a_book_together_and_a_restore_alone(tmp_path: Path) -> None:
    """By another name of the same file, too; another book is another matter."""
    book = tmp_path / "book.sqlite"
    link = tmp_path / "link"
    link.symlink_to(tmp_path, target_is_directory=True)
    with Hold(book), Hold(link / "book.sqlite"):
        with pytest.raises(BookInUseError, match="server"):
            Hold(book, alone=True)
        Hold(tmp_path / "other.sqlite", alone=True).close()
    with Hold(book, alone=True), pytest.raises(BookInUseError, match="put back"):
        Hold(link / "book.sqlite")
    Hold(book).close()
    assert not book.exists()


def test_no_backup_goes_over_a_book_that_a_command_has_open(tmp_path: Path) -> None:
    """What it enters would go into the old one; nor is one opened meanwhile."""
    book = tmp_path / "book.sqlite"
    open_book(book).close()
    with open_book(book) as entering:
        with pytest.raises(BookInUseError, match="another command"):
            Hold(book, alone=True)
        assert entering.units() == ()
    with Hold(book, alone=True), pytest.raises(BookInUseError, match="put back"):
        open_book(book)
