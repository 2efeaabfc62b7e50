"""Files take their place as a whole, and as what they replace."""

import os
from pathlib import Path

import pytest

from fishmeasure.base.files import taking_place, write_durably
from fishmeasure.cli.output import write_bytes


def test_a_replaced_file_keeps_its_readers(tmp_path: Path) -> None:
    """Its mode stays; a new one has what the user's mask gives (umask(2))."""
    path = tmp_path / "a.json"
    write_durably(path, b"old")
    usual = 0o666 & ~_mask()
    assert path.stat().st_mode & 0o777 == usual
    path.chmod(0o600)
    write_durably(path, b"new")
    assert (path.read_bytes(), path.stat().st_mode & 0o777) == (b"new", 0o600)
    assert [item.name for item in tmp_path.iterdir()] == ["a.json"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    """What it leads to is replaced."""
    path, link = tmp_path / "real" / "a.json", tmp_path / "a.json"
    write_durably(path, b"old")
    link.symlink_to(path)
    write_bytes(link, b"new")
    assert link.is_symlink()
    assert path.read_bytes() == b"new"


def test_a_failure_leaves_what_was_there(tmp_path: Path) -> None:
    """And nothing beside it."""
    path = tmp_path / "a.json"
    write_durably(path, b"old")

    def half() -> None:
        with taking_place(path) as part:
            part.write_bytes(b"ne")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        half()
    assert path.read_bytes() == b"old"
    assert [item.name for item in tmp_path.iterdir()] == ["a.json"]


def test_a_system_that_opens_no_folder_keeps_the_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Windows: os.open of a folder is refused, os.O_DIRECTORY is not there."""
    usual = os.open

    def only_files(path: Path, *how: int) -> int:
        if Path(path).is_dir():
            raise PermissionError
        return usual(path, *how)

    monkeypatch.delattr(os, "O_DIRECTORY")
    monkeypatch.setattr(os, "open", only_files)
    write_durably(tmp_path / "new" / "a.json", b"all")
    assert (tmp_path / "new" / "a.json").read_bytes() == b"all"


def test_a_device_is_written_to(tmp_path: Path) -> None:
    """Not replaced by a file."""
    os.mkfifo(tmp_path / "pipe")
    reader = os.open(tmp_path / "pipe", os.O_RDONLY | os.O_NONBLOCK)
    write_bytes(tmp_path / "pipe", b"content")
    assert os.read(reader, 100) == b"content"
    os.close(reader)
    assert (tmp_path / "pipe").is_fifo()


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
