"""Photos on disk, named by the hash of their content.

A file is written under another name, forced to disk, then renamed, so that a
photo is either whole or not there, and an acknowledged one survives a power cut.
"""

import contextlib
import hashlib
import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from api.errors import NotFoundError
from fishmeasure.base.files import sync_folder, write_durably
from fishmeasure.store.in_use import lock_at_once

_END_BYTES = 512
"""The smallest part of a disk that is written as a whole: a sector."""


@contextmanager
def upload_file(folder: Path) -> Iterator[IO[bytes]]:
    """Give a file for a photo as it was sent, with all that its tags tell.

    Nobody else may read it, and it is gone at the end. While its server lives it is
    locked, which tells it from one that a crash has left.
    """
    with tempfile.NamedTemporaryFile(dir=folder, prefix="upload-") as target:
        if sys.platform != "win32":  # where an open file cannot be removed anyway
            lock_at_once(target.fileno(), alone=True)
        yield target


def sweep_uploads(folder: Path) -> None:
    """Remove the uploads that a crash has left, however young: their tags are private.

    Those of another server that shares the folder are locked.
    """
    for left_over in folder.iterdir():
        with contextlib.suppress(OSError):  # gone meanwhile, or no file
            with left_over.open("rb+") as file:
                dead = sys.platform == "win32" or lock_at_once(
                    file.fileno(), alone=True
                )
            if dead:
                left_over.unlink()


class PhotoFiles:
    """A folder of immutable files; safe to use from many threads and processes."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    @property
    def parts(self) -> Path:
        """Where files are that are not finished; what a crash left there is rubbish."""
        return self.folder / "parts"

    def path(self, digest: str) -> Path:
        """Return the path of a content hash.

        Raises
        ------
        NotFoundError
            If the text is no SHA-256 in hexadecimal: no path is made of it.
        """
        if len(digest) != 64 or set(digest) - set("0123456789abcdef"):
            raise NotFoundError("photo", digest[:80])
        return self.folder / digest[:2] / digest

    def read(self, digest: str) -> bytes:
        """Return the content.

        Raises
        ------
        NotFoundError
            If it is not there.
        """
        try:
            return self.path(digest).read_bytes()
        except FileNotFoundError:
            raise NotFoundError("photo", digest) from None

    def is_there(self, digest: str) -> bool:
        """Return whether a file is there, and neither empty nor zeros at its end."""
        try:
            with self.path(digest).open("rb") as file:
                size = file.seek(0, os.SEEK_END)
                file.seek(max(size - _END_BYTES, 0))
                return bool(file.read().strip(b"\0"))
        except OSError:
            return False

    def add(self, data: bytes) -> str:
        """Keep the content and return its hash; the same content is kept once."""
        digest = hashlib.sha256(data).hexdigest()
        self.put(digest, data)
        return digest

    def remove(self, digest: str) -> None:
        """Remove a photo's file, if it is there, and see that it stays so."""
        path = self.path(digest)
        if path.exists():
            path.unlink()
            sync_folder(path.parent)

    def put(self, digest: str, data: bytes) -> None:
        """Keep content under a hash (its own, or that of what it was made from).

        A file that is there is written anew if a failing disk has changed it.
        """
        path = self.path(digest)
        if not path.exists() or path.read_bytes() != data:
            write_durably(path, data, self.parts)
