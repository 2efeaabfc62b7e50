"""The estimate's speed, as a ratio of processor times in one run."""

import numpy as np
import pytest

from tests.bench.bench_population import measure
from tests.estimation.makers import Dip, Truth, draw


@pytest.mark.bench
def test_twenty_nets_of_thirty_cost_at_most_a_hundred_bootstraps() -> None:
    """24 to 44 of scipy's bootstraps were seen, 97 to 127 ms: a target of 100 ms.

    The time itself is no test: a neighbour on the same core moves it by a quarter.
    ``python -m tests.bench.bench_population`` prints it.
    """
    nets = draw(Truth(), [Dip(fish=30)] * 20, np.random.default_rng(1)).nets
    _, processor, floor = measure(nets)
    print(f"{1000 * processor:.0f} ms, {processor / floor:.1f} x scipy's bootstrap")
    assert processor / floor < 100.0
