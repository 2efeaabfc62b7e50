"""Whether the book can be read, found out beside all other work.

Requests share some dozens of threads, which all may wait for a locked database; what
asks whether the server lives must not wait behind them.
"""

import asyncio
import time
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor

from fishmeasure.base.errors import BookBusyError

ANSWER_WITHIN_S = 0.08
"""Of the 100 ms in which an answer is promised."""
GOOD_FOR_S = 10.0
"""A reading that does not come in time is no fault where one of this age came: as long
as a write may hold the book (``store.engine.BUSY_TIMEOUT_S``)."""


class Readiness:
    """Reads from the book in a thread of its own, once at a time."""

    def __init__(self, read: Callable[[], object]) -> None:
        self._read = read
        self._thread = ThreadPoolExecutor(1, thread_name_prefix="ready")
        self._reading: Future[None] | None = None
        self._fault: Exception | None = None
        self._good_until = float("-inf")

    async def check(self) -> None:
        """Return if the book was read, now or a moment ago.

        Raises
        ------
        BookBusyError
            If reading it takes too long.
        LedgerError
            If it cannot be read.
        """
        if self._reading is None or self._reading.done():
            self._reading = self._thread.submit(self._try)
        reading = asyncio.wrap_future(self._reading)
        # Others may wait for the same reading: it is not cancelled with this one.
        done, _ = await asyncio.wait({reading}, timeout=ANSWER_WITHIN_S)
        late = not done and time.monotonic() > self._good_until
        # What comes too late for one answer is told in the next.
        if self._fault is not None and (done or late):
            raise self._fault
        if late:
            raise BookBusyError(ANSWER_WITHIN_S)

    def _try(self) -> None:
        try:
            self._read()
        except Exception as error:  # noqa: BLE001 - told by whoever asks
            self._fault = error
        else:
            self._fault = None
            self._good_until = time.monotonic() + GOOD_FOR_S

    def close(self) -> None:
        """End the thread once it is done with what it reads."""
        self._thread.shutdown(wait=False, cancel_futures=True)
