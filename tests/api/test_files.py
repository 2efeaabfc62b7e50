"""Photo files are whole or absent, kept once, and never outside their folder."""

import hashlib
import os
from pathlib import Path

import pytest

from api.errors import NotFoundError
from api.files import PhotoFiles


def test_content_comes_back_by_its_hash(tmp_path: Path) -> None:
    """The name is the SHA-256 of the content (FIPS 180-4 example, "abc")."""
    files = PhotoFiles(tmp_path)
    digest = files.add(b"abc")
    # FIPS 180-4 test vector, NIST example values
    assert digest == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert files.read(digest) == b"abc"


def test_the_same_content_is_kept_once(tmp_path: Path) -> None:
    """A repeat writes nothing."""
    files = PhotoFiles(tmp_path)
    first = files.path(files.add(b"x")).stat().st_mtime_ns
    assert files.path(files.add(b"x")).stat().st_mtime_ns == first
    assert len([p for p in tmp_path.rglob("*") if p.is_file()]) == 1


@pytest.mark.parametrize("name", ["../../etc/passwd", "", "g" * 64, "A" * 64, "a" * 63])
def test_a_name_that_is_no_hash_makes_no_path(tmp_path: Path, name: str) -> None:
    """Nothing a client sends can point elsewhere."""
    with pytest.raises(NotFoundError):
        PhotoFiles(tmp_path).read(name)


def test_a_failed_write_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk raises and leaves no half file."""

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    files = PhotoFiles(tmp_path)
    with pytest.raises(OSError, match="No space"):
        files.add(b"y")
    assert not [p for p in tmp_path.rglob("*") if p.is_file()]
    with pytest.raises(NotFoundError):
        files.read(hashlib.sha256(b"y").hexdigest())
