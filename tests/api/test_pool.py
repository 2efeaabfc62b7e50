"""The pool is bounded, and a worker's death costs one call."""

import asyncio
import os
import signal
import time
from multiprocessing import forkserver
from pathlib import Path

import pytest

from api.errors import BusyError, WorkersLostError
from api.pool import TooSlowError, WorkerPool, WorkerStoppedError


def double(number: int) -> int:
    return 2 * number


def die() -> None:
    os._exit(11)  # as a decoder does that crashes


def sleep(seconds: float) -> float:
    time.sleep(seconds)
    return seconds


def killed(times: int, marks: Path) -> int:
    """End as a process does for which there is no memory, the first ``times`` times."""
    tried = len(list(marks.iterdir()))
    (marks / str(tried)).touch()
    if tried < times:
        os.kill(os.getpid(), signal.SIGKILL)
    return tried


def test_a_result_comes_back_from_another_process() -> None:
    """Work is done, and not in the server's own process."""

    async def scenario() -> None:
        pool = WorkerPool(workers=1, queue=1, timeout_s=30)
        assert await pool.run(double, 4) == 8
        assert await pool.run(os.getpid) != os.getpid()
        pool.close()

    asyncio.run(scenario())


def test_a_crash_costs_one_call() -> None:
    """After a crash the caller is told and the next call succeeds."""

    async def scenario() -> None:
        pool = WorkerPool(workers=1, queue=4, timeout_s=30)
        outcomes = await asyncio.gather(
            pool.run(die), pool.run(double, 5), return_exceptions=True
        )
        assert isinstance(outcomes[0], WorkerStoppedError)
        assert outcomes[1] == 10
        pool.close()

    asyncio.run(scenario())


def test_a_hang_is_ended() -> None:
    """A call over the limit is stopped and its worker replaced."""

    async def scenario() -> None:
        pool = WorkerPool(workers=1, queue=1, timeout_s=30)
        await pool.run(double, 1)  # the worker is up; only the call is timed
        pool._timeout_s = 0.3
        with pytest.raises(TooSlowError):
            await pool.run(sleep, 60.0)
        pool._timeout_s = 30
        assert await pool.run(double, 2) == 4
        pool.close()

    asyncio.run(scenario())


def test_more_than_fits_is_refused_at_once() -> None:
    """The call beyond workers and queue is refused; those inside succeed."""

    async def scenario() -> None:
        pool = WorkerPool(workers=1, queue=2, timeout_s=30)
        calls = [asyncio.create_task(pool.run(sleep, 0.2)) for _ in range(5)]
        outcomes = await asyncio.gather(*calls, return_exceptions=True)
        assert [o for o in outcomes if o == 0.2] == [0.2] * 3
        assert sum(isinstance(o, BusyError) for o in outcomes) == 2
        assert pool.in_flight == 0
        pool.close()

    asyncio.run(scenario())


def test_a_worker_killed_while_idle_costs_no_photo() -> None:
    """By an operator, or for want of memory; before it is noticed and after."""

    async def scenario(wait_s: float) -> None:
        pool = WorkerPool(workers=1, queue=1, timeout_s=30)
        os.kill(await pool.run(os.getpid), signal.SIGKILL)
        await asyncio.sleep(wait_s)
        assert await pool.run(double, 4) == 8
        pool.close()

    asyncio.run(scenario(0.0))
    asyncio.run(scenario(0.5))


def test_a_dead_fork_server_costs_no_photo() -> None:
    """Neither of a worker that it started before, nor of the next one."""

    async def scenario() -> None:
        pool = WorkerPool(workers=2, queue=4, timeout_s=30)
        await asyncio.gather(pool.run(sleep, 0.1), pool.run(sleep, 0.1))
        server = forkserver._forkserver._forkserver_pid  # type: ignore[attr-defined]
        os.kill(server, signal.SIGKILL)
        calls = [pool.run(double, number) for number in range(5)]
        assert await asyncio.gather(*calls) == [0, 2, 4, 6, 8]
        pool.close()

    asyncio.run(scenario())


def test_a_call_whose_worker_is_killed_is_tried_again(tmp_path: Path) -> None:
    """Killed each time, it is the server's failure and not the photo's."""

    async def scenario() -> None:
        pool = WorkerPool(workers=1, queue=1, timeout_s=30)
        for name, times in (("twice", 2), ("always", 99)):
            (tmp_path / name).mkdir()
            call = pool.run(killed, times, tmp_path / name)
            if name == "twice":
                assert await call == 2
            else:
                with pytest.raises(WorkersLostError):
                    await call
        assert await pool.run(double, 4) == 8
        pool.close()

    asyncio.run(scenario())
