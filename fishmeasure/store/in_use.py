"""Who works with a book's file: servers together, or one restore alone.

A lock of the operating system on a file beside the book says so: it ends with the
process that holds it, however that ends. The file itself stays and means nothing.
"""

import errno
import os
import sys
from pathlib import Path
from typing import Final, Self

from fishmeasure.base.errors import BookInUseError

# Windows locks bytes, each for one holder: a server takes one of these, a restore all.
_PLACES: Final = 64
# Network file systems without locks: serving there was and is possible.
_NO_LOCKS: Final = {errno.ENOLCK, errno.EOPNOTSUPP, errno.ENOSYS, errno.EINVAL}


class Hold:
    """A hold on a book's file, until it is closed or the process ends.

    Parameters
    ----------
    book
        Path of the book; it need not be there yet, its folder must be.
    alone
        Whether nobody else may hold it.

    Raises
    ------
    BookInUseError
        If somebody else holds it, and one of the two wants to be alone.
    OSError
        If the file beside it cannot be made.
    """

    def __init__(self, book: Path, *, alone: bool = False) -> None:
        book = book.resolve()
        # Not "book.sqlite...": those are SQLite's own files and books set aside.
        beside = book.with_name(f".{book.name}.in-use")
        self._handle = os.open(beside, os.O_RDWR | os.O_CREAT, 0o666)
        try:
            taken = lock_at_once(self._handle, alone=alone)
        except OSError as error:
            if error.errno not in _NO_LOCKS:
                os.close(self._handle)
                raise
            taken = True
        if not taken:
            os.close(self._handle)
            raise BookInUseError(str(book), by_servers=alone)

    def close(self) -> None:
        """Let go."""
        os.close(self._handle)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def lock_at_once(handle: int, *, alone: bool) -> bool:
    """Return whether an open file could be locked; closing it lets go."""
    if sys.platform == "win32":
        import msvcrt  # noqa: PLC0415 - only there

        places = [(0, _PLACES)] if alone else [(i, 1) for i in range(_PLACES)]
        for first, count in places:
            os.lseek(handle, first, os.SEEK_SET)
            try:
                msvcrt.locking(handle, msvcrt.LK_NBLCK, count)
            except OSError:
                continue
            return True
        return False
    import fcntl  # noqa: PLC0415 - not on Windows

    kind = fcntl.LOCK_EX if alone else fcntl.LOCK_SH
    try:
        fcntl.flock(handle, kind | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
