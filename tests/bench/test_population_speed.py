"""The estimate's speed, as processor time: other work on the machine is not ours."""

import numpy as np
import pytest

from tests.bench.bench_population import measure
from tests.core.population.makers import Dip, Truth, draw


@pytest.mark.bench
def test_twenty_nets_of_thirty_take_a_tenth_of_a_second() -> None:
    """The target of 100 ms; the ratio to scipy's bootstrap is printed beside it."""
    nets = draw(Truth(), [Dip(fish=30)] * 20, np.random.default_rng(1)).nets
    _, processor, floor = measure(nets)
    print(f"{1000 * processor:.0f} ms, {processor / floor:.1f} x scipy's bootstrap")
    assert processor < 0.1
