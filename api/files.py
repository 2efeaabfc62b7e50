"""Photos on disk, named by the hash of their content.

A file is written under another name, forced to disk, then renamed, so that a
photo is either whole or not there, and an acknowledged one survives a power cut.
"""

import hashlib
import os
import tempfile
from pathlib import Path

from api.errors import NotFoundError


class PhotoFiles:
    """A folder of immutable files; safe to use from many threads and processes."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

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

    def add(self, data: bytes) -> str:
        """Keep the content and return its hash; the same content is kept once."""
        digest = hashlib.sha256(data).hexdigest()
        self.put(digest, data)
        return digest

    def put(self, digest: str, data: bytes) -> None:
        """Keep content under a hash (its own, or that of what it was made from)."""
        path = self.path(digest)
        if not path.exists():
            write_durably(path, data)


def write_durably(path: Path, data: bytes) -> None:
    """Write a file so that it is whole or not there, and on the disk on return."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".part-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    _sync_folder(path.parent)


def _sync_folder(folder: Path) -> None:
    """Force the folder's own entry to disk; without it the rename may be lost."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
