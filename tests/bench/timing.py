"""How the benchmarks take time."""

import time
from collections.abc import Callable


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
