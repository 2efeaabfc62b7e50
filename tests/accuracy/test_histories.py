"""A few histories of another make than the model's; ``histories.py`` has them all."""

import numpy as np
import pytest

from tests.accuracy.histories import CASES, table
from tests.accuracy.sampler import compared

_BY_NAME = {case.name: case for case in CASES}


# Of 12 runs nine in ten hold the truth; fewer than eight would be one in 200 by chance.
@pytest.mark.accuracy
@pytest.mark.parametrize("name", ["steady", "steady, with feed"])
def test_intervals_hold_a_truth_of_another_make(name: str) -> None:
    """Weight, count, biomass and date lie in their intervals about 9 in 10 times."""
    for figure, row in table(_BY_NAME[name], 12).items():
        assert row.cover >= 8 / 12, figure


# Every sixth of what ``python -m tests.accuracy.sampler`` compares.
@pytest.mark.accuracy
@pytest.mark.parametrize("number", [0, 7, 10, 13, 16])
def test_a_sampler_of_the_same_posterior_agrees(number: int) -> None:
    """Means within 0.3 of the sampler's sd, standard deviations within 15 %."""
    found = compared(CASES[number % len(CASES)], 1000 + number, 6000)
    assert found.worth > 1000
    assert np.abs(found.apart_sd).max() < 0.3
    assert found.sd_ratio.min() > 0.85
    assert found.sd_ratio.max() < 1.15
