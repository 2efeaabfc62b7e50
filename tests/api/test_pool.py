"""The pool is bounded, and a worker's death costs one call."""

import asyncio
import os
import time

import pytest

from api.errors import BusyError
from api.pool import TooSlowError, WorkerPool, WorkerStoppedError


def double(number: int) -> int:
    return 2 * number


def die() -> None:
    os._exit(11)  # as a decoder does that crashes


def sleep(seconds: float) -> float:
    time.sleep(seconds)
    return seconds


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
