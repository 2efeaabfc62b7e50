"""Files that are whole or not there, and on the disk once they are; none is endless."""

import errno
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from uuid import uuid4

MOST_TEXT_BYTES = 500_000_000
"""Of a table, a book or settings: 1,000 sites write some 300 MB of entries a year."""


def read_at_most(path: Path, most_bytes: int = MOST_TEXT_BYTES) -> bytes:
    """Return a file's bytes.

    Raises
    ------
    OSError
        If it cannot be read, is larger (EFBIG), or the name cannot be one.
    """
    try:
        with path.open("rb") as file:
            data = file.read(most_bytes + 1)
    except ValueError:  # NUL in the name
        raise OSError(errno.EINVAL, os.strerror(errno.EINVAL)) from None
    if len(data) > most_bytes:
        raise OSError(errno.EFBIG, os.strerror(errno.EFBIG))
    return data


def write_durably(path: Path, data: bytes, parts: Path | None = None) -> None:
    """Write a file so that it is whole or not there, and on the disk on return.

    Parameters
    ----------
    path
        Of the file; its folder is made, a file that is there is replaced.
    data
        All of it.
    parts
        Folder, on the same disk, of what is not finished; else the file's own.
    """
    with taking_place(path, parts) as part, part.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


@contextmanager
def taking_place(path: Path, parts: Path | None = None) -> Iterator[Path]:
    """Give another name to write to; the file takes its place if all went well.

    A file that is there is replaced, and who may read it stays the same.
    """
    folder = parts or path.parent
    make_folder(path.parent)
    make_folder(folder)
    part = folder / f".part-{uuid4().hex}"
    try:
        yield part
        if path.exists():
            shutil.copymode(path, part)
        part.replace(path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    sync_folder(path.parent)


def make_folder(folder: Path) -> None:
    """Make a folder and those above it, each on the disk on return."""
    if not folder.is_dir():
        make_folder(folder.parent)
        folder.mkdir(exist_ok=True)
        sync_folder(folder.parent)


def sync_folder(folder: Path) -> None:
    """Force a folder's own entries to disk; without it a new name may be lost.

    Windows opens no folder as a file, and has no ``O_DIRECTORY``: there the file
    system alone sees to the names.
    """
    flag = getattr(os, "O_DIRECTORY", None)
    if flag is None:
        return
    handle = os.open(folder, os.O_RDONLY | flag)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
