"""A few histories of another make than the model's; ``histories.py`` has them all."""

import pytest

from tests.accuracy.histories import CASES, table

_BY_NAME = {case.name: case for case in CASES}


# Of 12 runs nine in ten hold the truth; fewer than eight would be one in 200 by chance.
@pytest.mark.accuracy
@pytest.mark.parametrize("name", ["steady", "steady, with feed"])
def test_intervals_hold_a_truth_of_another_make(name: str) -> None:
    """Weight, count, biomass and date lie in their intervals about 9 in 10 times."""
    for figure, (cover, _, _) in table(_BY_NAME[name], 12).items():
        assert cover >= 8 / 12, figure
