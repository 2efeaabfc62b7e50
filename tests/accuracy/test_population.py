"""Floors of the population estimate's accuracy; the whole table is a command.

Targets: 90 % intervals cover 88-93 %, root mean square error of the mean at most
1.05 times that of knowing every handled fish's weight, CV bias at most 5 % also with
8 % gross lengths. Here fewer replicates, so three standard errors are allowed.
"""

import numpy as np
import pytest

from tests.accuracy.population_table import simulate

REPLICATES = 120
LOWEST_COVER = 90.0 - 3.0 * 100.0 * np.sqrt(0.9 * 0.1 / REPLICATES)


@pytest.mark.accuracy
@pytest.mark.slow
@pytest.mark.parametrize(
    "name",
    ["4x8 usual", "4x8+3w+2p usual", "4x8+3w+2p priors", "4x8 8 % gross"],
)
def test_intervals_cover_and_errors_are_those_of_sampling(name: str) -> None:
    """Mean, CV and level: covered as promised, and no worse than sampling."""
    found = simulate(name, REPLICATES, first_seed=10_000)
    for figure in ("cover", "cv cover", "a cover"):
        assert found[figure] > LOWEST_COVER
    assert found["/floor"] < 1.08
    assert abs(found["cv bias"]) < 5.0 + 3.0 * found["cv rmse"] / np.sqrt(REPLICATES)
    assert found["false"] < 5.0
