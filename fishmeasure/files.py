"""Files that are whole or not there, and on the disk once they are."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from uuid import uuid4


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
    """Give another name to write to; the file takes its place if all went well."""
    folder = parts or path.parent
    make_folder(path.parent)
    make_folder(folder)
    part = folder / f".part-{uuid4().hex}"
    try:
        yield part
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
    """Force a folder's own entries to disk; without it a new name may be lost."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
