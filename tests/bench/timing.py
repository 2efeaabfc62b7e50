"""How the benchmarks take time."""

import time
from collections.abc import Callable

import cv2


def best_s(
    work: Callable[[], object],
    runs: int,
    clock: Callable[[], float] = time.perf_counter,
) -> float:
    """Return the shortest of some runs, in seconds: the least disturbed one."""
    times = []
    for _ in range(runs):
        start = clock()
        work()
        times.append(clock() - start)
    return min(times)


def best_ms(
    work: Callable[[], object],
    runs: int,
    clock: Callable[[], float] = time.perf_counter,
) -> float:
    """Return the same in milliseconds."""
    return 1000.0 * best_s(work, runs, clock)


def use_one_thread() -> None:
    """Keep OpenCV, which does most of the work, to one thread.

    The processor time of one thread is what a photo costs, on however many cores;
    the time on a clock depends on their number and on what else runs.
    """
    cv2.setNumThreads(1)


def processor_s(work: Callable[[], object], runs: int) -> float:
    """Return the processor time of the least disturbed of some runs, in seconds."""
    return best_s(work, runs, time.process_time)
