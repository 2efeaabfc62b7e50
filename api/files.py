"""Photos on disk, named by the hash of their content.

A file is written under another name, forced to disk, then renamed, so that a
photo is either whole or not there, and an acknowledged one survives a power cut.
"""

import hashlib
import os
from pathlib import Path

from api.errors import NotFoundError
from fishmeasure.files import write_durably

_END_BYTES = 512
"""The smallest part of a disk that is written as a whole: a sector."""


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

    def put(self, digest: str, data: bytes) -> None:
        """Keep content under a hash (its own, or that of what it was made from).

        A file that is there is written anew if a failing disk has changed it.
        """
        path = self.path(digest)
        if not path.exists() or path.read_bytes() != data:
            write_durably(path, data, self.parts)
