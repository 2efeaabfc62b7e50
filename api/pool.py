"""A bounded pool of worker processes, one executor a worker.

Photos are decoded and measured in other processes: a decoder that crashes or
hangs costs one photo and one worker, which is replaced, never the server. More
work than workers and queue can hold is refused at once, so memory is bounded.
"""

import asyncio
import contextlib
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from typing import ParamSpec, TypeVar

from api.errors import BusyError
from fishmeasure.base.errors import PhotoError
from fishmeasure.batch import start_processes

P = ParamSpec("P")
T = TypeVar("T")


class WorkerStoppedError(PhotoError):
    """The worker crashed on this photo."""

    code = "measuring-failed"

    def __init__(self) -> None:
        super().__init__(case="server")


class TooSlowError(PhotoError):
    """The photo took longer than the limit."""

    code = "too-slow"

    def __init__(self, seconds: float) -> None:
        super().__init__(limit_s=seconds)


def _new_executor() -> ProcessPoolExecutor:
    return start_processes(1, preload="api.worker")


class Place:
    """A place in the pool, held from before the work's data are read."""

    def __init__(self, pool: "WorkerPool") -> None:
        self._pool = pool

    async def run(
        self, function: Callable[P, T], *args: P.args, **kwargs: P.kwargs
    ) -> T:
        """Return ``function(*args, **kwargs)`` from a worker.

        Raises
        ------
        WorkerStoppedError, TooSlowError
            If the worker died or took too long.
        """
        return await self._pool.run_placed(function, *args, **kwargs)


class WorkerPool:
    """Runs functions in ``workers`` processes; at most ``queue`` calls wait."""

    def __init__(self, workers: int, queue: int, timeout_s: float) -> None:
        self._limit = workers + queue
        self._timeout_s = timeout_s
        self._in_flight = 0
        self._idle: asyncio.Queue[ProcessPoolExecutor] = asyncio.Queue()
        for _ in range(workers):
            self._idle.put_nowait(_new_executor())

    @property
    def limit(self) -> int:
        """Calls that can run or wait at once."""
        return self._limit

    @property
    def in_flight(self) -> int:
        """Calls that run or wait."""
        return self._in_flight

    @contextlib.contextmanager
    def place(self) -> Iterator[Place]:
        """Hold a place, so that no more data are read than can be worked on.

        Raises
        ------
        BusyError
            If workers and queue are full.
        """
        if self._in_flight >= self._limit:
            raise BusyError
        self._in_flight += 1
        try:
            yield Place(self)
        finally:
            self._in_flight -= 1

    async def run(
        self, function: Callable[P, T], *args: P.args, **kwargs: P.kwargs
    ) -> T:
        """Return ``function(*args, **kwargs)`` from a worker, in a place of its own.

        Raises
        ------
        BusyError
            If workers and queue are full.
        WorkerStoppedError, TooSlowError
            If the worker died or took too long.
        """
        with self.place() as place:
            return await place.run(function, *args, **kwargs)

    async def run_placed(
        self, function: Callable[P, T], *args: P.args, **kwargs: P.kwargs
    ) -> T:
        """Do what ``Place.run`` says; the caller holds a place."""
        executor = await self._idle.get()
        try:
            future = executor.submit(function, *args, **kwargs)
            return await asyncio.wait_for(asyncio.wrap_future(future), self._timeout_s)
        except BrokenProcessPool:
            executor = _replaced(executor)
            raise WorkerStoppedError from None
        except TimeoutError:
            executor = _replaced(executor)
            raise TooSlowError(self._timeout_s) from None
        except asyncio.CancelledError:
            executor = _replaced(executor)
            raise
        finally:
            self._idle.put_nowait(executor)

    def close(self) -> None:
        """End all workers."""
        with contextlib.suppress(asyncio.QueueEmpty):
            while True:
                _kill(self._idle.get_nowait())


def _replaced(executor: ProcessPoolExecutor) -> ProcessPoolExecutor:
    _kill(executor)
    return _new_executor()


def _kill(executor: ProcessPoolExecutor) -> None:
    # The executor has no public way to end a worker that does not return
    # (kill_workers is new in Python 3.14).
    for process in list((executor._processes or {}).values()):  # noqa: SLF001
        process.kill()
    executor.shutdown(wait=False, cancel_futures=True)
