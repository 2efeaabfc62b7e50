"""A bounded pool of worker processes, one executor a worker.

Photos are decoded and measured in other processes: a decoder that crashes or
hangs costs one photo and one worker, which is replaced, never the server. More
work than workers and queue can hold is refused at once, so memory is bounded.

Only a worker that crashes by itself says something about its photo. One that was
killed from outside (for want of memory, by an operator, with its fork server) does
not: its call is tried again by a new one.
"""

import asyncio
import contextlib
import logging
import signal
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from multiprocessing.process import BaseProcess
from typing import ParamSpec, TypeVar

from api.errors import BusyError, WorkersLostError
from fishmeasure.base.errors import PhotoError
from fishmeasure.batch import start_processes

log = logging.getLogger(__name__)

P = ParamSpec("P")
T = TypeVar("T")

TRIES = 3
"""Workers that are tried for one call when each is killed from outside with it."""
STARTS = 4
"""Workers that are tried until one takes a call. A fork server that dies costs two:
the one that ends with it, and one that it is asked for before it is seen to be dead."""
MEMORY_BYTES = 850_000_000
"""Of a worker beyond its start. The largest photos that are taken, 120 megapixels with
a clear layer, took 640 MB, and a worker at work some 800 MB in all."""
UNKNOWN_END = 255
"""What Python says of a worker whose fork server is gone and cannot tell its end."""
KILLED = frozenset((-signal.SIGKILL, -signal.SIGTERM, UNKNOWN_END))
"""Ends that a worker does not come to by a photo: a decoder's crash has another
signal (SIGSEGV, SIGBUS, SIGABRT)."""
_NO_MEMORY = ("Insufficient memory", "Failed to allocate", "bad_alloc")
"""How OpenCV and ONNX Runtime say it."""
_LOST = (BrokenProcessPool, OSError, EOFError)


class WorkerStoppedError(PhotoError):
    """The worker crashed on this photo."""

    code = "measuring-failed"

    def __init__(self) -> None:
        super().__init__(case="server")


class TooMuchMemoryError(PhotoError):
    """The photo needs more memory than a worker may have."""

    code = "too-large"

    def __init__(self) -> None:
        super().__init__(case="memory", limit_mb=MEMORY_BYTES / 1e6)


class TooSlowError(PhotoError):
    """The photo took longer than the limit."""

    code = "too-slow"

    def __init__(self, seconds: float) -> None:
        super().__init__(limit_s=seconds)


class _Worker:
    """One worker process, and those that take its place.

    The executor has no public way to its process, nor to end one that does not
    return (``kill_workers`` is new in Python 3.14).
    """

    def __init__(self) -> None:
        self._executor = _new_executor()
        self._processes: list[BaseProcess] = []

    async def start(self, call: Callable[[], T]) -> Future[T]:
        """Hand the call to a process that lives.

        Raises
        ------
        WorkersLostError
            If none could be started.
        """
        for _ in range(STARTS):
            executor = self._executor
            # In a thread: a fork server that died takes seconds to come back.
            started = asyncio.ensure_future(asyncio.to_thread(executor.submit, call))
            try:
                future = await asyncio.shield(started)
            except _LOST as error:  # while it was idle, or as it was started
                log.warning("a worker was lost before its call: %r", error)
                self.replace()
            except asyncio.CancelledError:
                self._executor = _new_executor()
                started.add_done_callback(partial(_end_started, executor))
                raise
            else:
                self._processes = _processes(executor)
                return future
        raise WorkersLostError

    async def crashed(self) -> bool:
        """Return whether the lost process came to its end by itself; replace it."""
        broken, self._executor = self._executor, _new_executor()
        # How it ended is read once, by the executor's thread: wait for that.
        await asyncio.to_thread(broken.shutdown, wait=True, cancel_futures=True)
        ends = [process.exitcode for process in self._processes]
        log.warning("a worker was lost with its call; exit status %s", ends)
        return not KILLED.intersection(ends)

    def replace(self) -> None:
        """End the process; another one takes its place."""
        self.end()
        self._executor = _new_executor()

    def end(self) -> None:
        """End the process, whatever it does."""
        _end(self._executor)


def _within_memory(call: Callable[[], T]) -> T:
    """Return what a call returns; that memory was short is told by one error.

    Raises
    ------
    MemoryError
        Also where a library has its own error for it.
    """
    try:
        return call()
    except Exception as error:
        told = str(error)
        if isinstance(error, MemoryError) or any(said in told for said in _NO_MEMORY):
            raise MemoryError from None
        raise


def _new_executor() -> ProcessPoolExecutor:
    return start_processes(1, preload="api.worker", memory_bytes=MEMORY_BYTES)


def _processes(executor: ProcessPoolExecutor) -> list[BaseProcess]:
    return list((executor._processes or {}).values())  # noqa: SLF001


def _end_started(executor: ProcessPoolExecutor, _: object) -> None:
    _end(executor)


def _end(executor: ProcessPoolExecutor) -> None:
    for process in _processes(executor):
        process.kill()
    executor.shutdown(wait=False, cancel_futures=True)


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
        WorkerStoppedError, TooSlowError, TooMuchMemoryError
            If the worker crashed, took too long or needed too much.
        WorkersLostError
            If worker after worker was killed from outside.
        """
        return await self._pool.run_placed(function, *args, **kwargs)


class WorkerPool:
    """Runs functions in ``workers`` processes; at most ``queue`` calls wait."""

    def __init__(self, workers: int, queue: int, timeout_s: float) -> None:
        self._limit = workers + queue
        self._timeout_s = timeout_s
        self._in_flight = 0
        self._idle: asyncio.Queue[_Worker] = asyncio.Queue()
        for _ in range(workers):
            self._idle.put_nowait(_Worker())

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
        WorkerStoppedError, TooSlowError, TooMuchMemoryError
            If the worker crashed, took too long or needed too much.
        WorkersLostError
            If worker after worker was killed from outside.
        """
        with self.place() as place:
            return await place.run(function, *args, **kwargs)

    async def run_placed(
        self, function: Callable[P, T], *args: P.args, **kwargs: P.kwargs
    ) -> T:
        """Do what ``Place.run`` says; the caller holds a place."""
        call = partial(_within_memory, partial(function, *args, **kwargs))
        worker = await self._idle.get()
        try:
            for _ in range(TRIES):
                future = await worker.start(call)
                try:
                    answer = asyncio.wrap_future(future)
                    return await asyncio.wait_for(answer, self._timeout_s)
                except BrokenProcessPool:
                    if await worker.crashed():
                        raise WorkerStoppedError from None
                except MemoryError:
                    worker.replace()  # what it holds is in pieces now
                    raise TooMuchMemoryError from None
                except TimeoutError:
                    worker.replace()
                    raise TooSlowError(self._timeout_s) from None
                except asyncio.CancelledError:
                    worker.replace()
                    raise
            raise WorkersLostError
        finally:
            self._idle.put_nowait(worker)

    def close(self) -> None:
        """End all workers."""
        with contextlib.suppress(asyncio.QueueEmpty):
            while True:
                self._idle.get_nowait().end()
