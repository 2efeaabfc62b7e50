"""The pool is bounded, and a worker's death costs one call."""

import asyncio
import os
import signal
import struct
import sys
import time
import zlib
from multiprocessing import forkserver
from pathlib import Path

import pytest

from api import worker
from api.errors import BusyError, WorkersLostError
from api.pool import (
    TooMuchMemoryError,
    TooSlowError,
    WorkerPool,
    WorkerStoppedError,
)
from fishmeasure.base.words import NEUTRAL
from fishmeasure.pipeline import PhotoSettings


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


def take(size_bytes: int) -> int:
    return len(bytearray(size_bytes))


def peak_mb() -> float:
    """Return the most memory that this process had at once."""
    status = Path("/proc/self/status").read_text()
    return int(status.partition("VmHWM:")[2].split()[0]) / 1000.0


def large_png(path: Path, width_px: int, height_px: int) -> None:
    """Write a grey-blue PNG of three colours, a row at a time."""
    packed = zlib.compressobj(1)
    row = b"\0" + b"\x60\x70\x80" * width_px
    rows = [packed.compress(row) for _ in range(height_px)] + [packed.flush()]
    head = struct.pack(">IIBBBBB", width_px, height_px, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", b"".join(rows)), (b"IEND", b""))
    with path.open("wb") as file:
        file.write(b"\x89PNG\r\n\x1a\n")
        for kind, body in chunks:
            file.write(struct.pack(">I", len(body)) + kind + body)
            file.write(struct.pack(">I", zlib.crc32(kind + body)))


@pytest.mark.skipif(sys.platform != "linux", reason="memory is bounded on Linux")
def test_a_worker_has_so_much_memory_and_no_more() -> None:
    """What asks for more is told so; the worker is replaced, the next call runs."""

    async def scenario() -> None:
        pool = WorkerPool(workers=1, queue=1, timeout_s=30)
        first = await pool.run(os.getpid)
        assert await pool.run(take, 100_000_000) == 100_000_000
        with pytest.raises(TooMuchMemoryError, match=r"850 MB"):
            await pool.run(take, 2_000_000_000)
        assert await pool.run(os.getpid) != first
        pool.close()

    asyncio.run(scenario())


@pytest.mark.skipif(sys.platform != "linux", reason="memory is measured on Linux")
def test_the_largest_photo_takes_less_than_800_mb(tmp_path: Path) -> None:
    """A PNG of 120 megapixels is measured, drawn and made small; it took 1.5 GB."""
    path = tmp_path / "large.png"
    large_png(path, 12_000, 10_000)

    async def scenario() -> None:
        pool = WorkerPool(workers=1, queue=1, timeout_s=300)
        taken = await pool.run(
            worker.take_in, path, path.name, PhotoSettings(), tmp_path
        )
        assert isinstance(taken, dict), taken
        assert taken["problems"][0]["code"] == "no-marker"
        for small in (
            await pool.run(worker.draw, path, taken, NEUTRAL),
            await pool.run(worker.shrink, path, 4000),
        ):
            assert len(small) > 10_000
        assert await pool.run(peak_mb) < 800.0
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
