"""Fish of a heap: which of them are seen whole depends on their size.

Fish that fall on a fish at random leave it uncovered with a probability
p = exp(-c (L / mean)^k): the longer it is, the more places there are to lie on it. With
v of the net's fish seen whole, c is -ln v, and p goes with length as
exp(k ln v (x - mean)), x being ln length. So fish that are seen count by the inverse of
that, and k's error goes into the photo's.
"""

import math
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray

SLOPE, SLOPE_SD = 0.4, 0.5
"""k: 0.3 to 0.6 in 3,000 drawn heaps of 10 to 45 flat fish that fell at random
(computed, ``tests.accuracy.heap_sizes``). Of real heaps nothing is known: where small
fish slip between large ones it is below 0, hence the error. Stand-in."""
LEAST_SEEN: Final = 0.1
MOST_WEIGHT: Final = 3.0
"""No fish counts more than so many times as much as usual, or less."""


def seen_slope(measured: int, counted: int) -> tuple[float, float]:
    """Return how ln p changes with ln length, and the error of that.

    Parameters
    ----------
    measured, counted
        Fish of the net that are measured, and all of them.
    """
    share = min(max(measured / max(counted, 1), LEAST_SEEN), 1.0)
    return SLOPE * math.log(share), SLOPE_SD * -math.log(share)


def inverse_weights(x: FloatArray, slope: float) -> FloatArray:
    """Return how much each fish counts, 1 on average; x is ln length."""
    raw = np.exp(-slope * (x - x.mean()))
    bounded = np.clip(raw, 1.0 / MOST_WEIGHT, MOST_WEIGHT)
    counts: FloatArray = bounded / bounded.mean()
    return counts
