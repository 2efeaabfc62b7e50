"""A process that writes to a book and says what it has written.

Started through a server that has the imports done, so that a round of killing
takes a fraction of a second; each writer is a process of its own all the same.
"""

import multiprocessing
from datetime import date
from multiprocessing.connection import Connection
from typing import TYPE_CHECKING
from uuid import UUID

from fishmeasure.book.entries import Died
from fishmeasure.store.book import open_book

if TYPE_CHECKING:
    from multiprocessing.process import BaseProcess

BATCH = 3
_CONTEXT = multiprocessing.get_context("forkserver")
_CONTEXT.set_forkserver_preload(["fishmeasure.store.book", "alembic.command"])


def write(said: Connection, address: str, start: int, batches: int) -> None:
    """Write batches of three deaths; send each batch's number when it is written."""
    with open_book(address) as book:
        for number in range(batches):
            first = start + BATCH * number
            book.add(
                *(
                    Died(
                        id=UUID(int=first + part),
                        on=date(2026, 3, 1),
                        unit_id=UUID(int=1),
                        cohort_id=UUID(int=2),
                        fish_count=1,
                    )
                    for part in range(BATCH)
                )
            )
            said.send(number)


def open_only(said: Connection, address: str) -> None:
    """Open a book, which makes it if it is new."""
    open_book(address).close()
    said.send(0)


class Writer:
    """A running process and what it has said so far."""

    def __init__(self, address: str, start: int = 0, batches: int = 0) -> None:
        self._heard, said = _CONTEXT.Pipe(duplex=False)
        if batches:
            self.process: BaseProcess = _CONTEXT.Process(
                target=write, args=(said, address, start, batches)
            )
        else:
            self.process = _CONTEXT.Process(target=open_only, args=(said, address))
        self.process.start()
        said.close()

    def hear(self) -> int:
        """Wait for the next message."""
        return int(self._heard.recv())

    def hear_all(self) -> list[int]:
        """Wait for the end of the process; return all messages not heard yet."""
        numbers = []
        try:
            while True:
                numbers.append(self.hear())
        except (EOFError, OSError):
            pass
        self.process.join(timeout=120)
        self._heard.close()
        return numbers
