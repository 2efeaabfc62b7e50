"""Which outlines are two parts of one fish that lies under another.

Head and tail on either side of a fish across it are seen apart, and each tells
where the whole fish's snout and fork are, so both are found. They lie along one line,
the same way round.
"""

from collections.abc import Sequence

import numpy as np

from fishmeasure.base.arrays import FloatArray

MAX_ANGLE_DEG = 25.0
MAX_ASIDE = 0.2
"""Of the longer length: how far the ends of one lie from the line of the other, seen
from whichever fits better."""
MIN_ALONG = 0.5
"""Of the shorter one: how far they overlap along the line. Of 13 such pairs in 23
rendered photos of heaps and tubs eleven are joined, and none of 40 pairs of fish that
lie along one another."""


def are_one(one_mm: FloatArray, other_mm: FloatArray) -> bool:
    """Return whether two parts, (2, 2) snout and fork each, are of the same fish."""
    first, second = one_mm[1] - one_mm[0], other_mm[1] - other_mm[0]
    lengths = float(np.hypot(*first)), float(np.hypot(*second))
    if min(lengths) <= 0.0:
        return False
    along = float(first @ second) / (lengths[0] * lengths[1])
    if along < np.cos(np.radians(MAX_ANGLE_DEG)):
        return False
    aside = min(_aside(one_mm, other_mm), _aside(other_mm, one_mm))
    places = (other_mm - one_mm[0]) @ first / lengths[0]
    shared = min(lengths[0], places.max()) - max(0.0, places.min())
    return bool(aside < MAX_ASIDE * max(lengths) and shared > MIN_ALONG * min(lengths))


def _aside(of_mm: FloatArray, ends_mm: FloatArray) -> float:
    """Return how far the worse of two ends lies from the line of another fish."""
    along = (of_mm[1] - of_mm[0]) / np.hypot(*(of_mm[1] - of_mm[0]))
    across = np.array([-along[1], along[0]])
    return float(np.abs((ends_mm - of_mm[0]) @ across).max())


def first_of_each(ends_mm: Sequence[FloatArray], hidden: Sequence[bool]) -> list[int]:
    """Return the places of the fish, of the parts of one fish that of the first.

    Parameters
    ----------
    ends_mm
        (2, 2) snout and fork of each, the surest first.
    hidden
        Whether a part of it is covered: another is whole.
    """
    kept: list[int] = []
    for at, mine in enumerate(ends_mm):
        parts = (k for k in kept if hidden[k]) if hidden[at] else ()
        if not any(are_one(ends_mm[k], mine) for k in parts):
            kept.append(at)
    return kept
