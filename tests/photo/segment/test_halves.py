"""Parts of one covered fish are joined; fish beside or across it are not."""

import numpy as np
import pytest

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.segment.learned.halves import are_one, first_of_each


def ends(x: float, y: float, length: float = 200.0, deg: float = 0.0) -> FloatArray:
    """Return snout and fork of a fish whose snout lies at (x, y)."""
    turn = np.radians(deg)
    along = length * np.array([np.cos(turn), np.sin(turn)])
    return np.array([[x, y], [x + along[0], y + along[1]]])


WHOLE = ends(0.0, 0.0)


@pytest.mark.parametrize(
    ("part", "same"),
    [
        (ends(0.0, 0.0, 150.0), True),  # its head tells too short a fish
        (ends(60.0, 10.0, 140.0, 5.0), True),  # its tail, a little aside
        (ends(0.0, 70.0), False),  # beside it, a body's depth of 0.2 and more away
        (ends(200.0, 0.0, 200.0, 180.0), False),  # the other way round
        (ends(60.0, -80.0, 200.0, 60.0), False),  # across it
        (ends(170.0, 0.0), False),  # behind it: they share 30 of 200 mm
        (ends(10.0, 10.0, 0.0), False),  # no length
    ],
)
def test_parts_lie_along_one_line(part: FloatArray, *, same: bool) -> None:
    assert are_one(WHOLE, part) is same
    assert are_one(part, WHOLE) is same


def test_only_covered_fish_have_parts() -> None:
    part = ends(0.0, 0.0, 150.0)
    assert first_of_each([WHOLE, part], [True, True]) == [0]
    assert first_of_each([WHOLE, part], [False, True]) == [0, 1]
    assert first_of_each([WHOLE, part], [True, False]) == [0, 1]
    assert first_of_each([], []) == []
