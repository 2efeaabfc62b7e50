"""Seconds of one population estimate, beside scipy's bootstrap of the same mean.

Run ``python -m tests.bench.bench_population``.
"""

import platform
import time
from collections.abc import Callable

import numpy as np
import scipy
from scipy import stats

from fishmeasure.estimation.model import estimate_population
from fishmeasure.estimation.nets import NetWeighing
from tests.estimation.makers import Dip, Truth, draw, published_line

REPEATS = 9


def best(work: Callable[[], object]) -> tuple[float, float]:
    """Return the shortest wall and processor time, in seconds."""
    walls, processors = [], []
    for _ in range(REPEATS):
        wall, processor = time.perf_counter(), time.process_time()
        work()
        walls.append(time.perf_counter() - wall)
        processors.append(time.process_time() - processor)
    return min(walls), min(processors)


def measure(nets: tuple[NetWeighing, ...]) -> tuple[float, float, float]:
    """Return wall and processor time of the estimate, and bootstrap's processor."""
    means = np.array([net.weight_g or 0.0 for net in nets]) / nets[0].fish_count
    wall, processor = best(
        lambda: estimate_population(nets, published=published_line())
    )

    def bootstrap() -> object:
        return stats.bootstrap(
            (means,),
            np.mean,
            n_resamples=9999,
            confidence_level=0.9,
            rng=np.random.default_rng(1),
        )

    return wall, processor, best(bootstrap)[1]


def main() -> None:
    """Print the table."""
    print(f"python {platform.python_version()}, numpy {np.__version__}, ", end="")
    print(f"scipy {scipy.__version__}, {platform.machine()}; best of {REPEATS}")
    print("| nets x fish | wall ms | processor ms | over scipy's bootstrap (9999) |")
    print("| --- | --- | --- | --- |")
    for count, fish in ((4, 8), (20, 30), (40, 60)):
        nets = draw(Truth(), [Dip(fish=fish)] * count, np.random.default_rng(1)).nets
        wall, processor, floor = measure(nets)
        print(
            f"| {count} x {fish} | {1000 * wall:.0f} | {1000 * processor:.0f} "
            f"| {processor / floor:.1f} |"
        )


if __name__ == "__main__":
    main()
