"""A printed fish of known length, to check a camera, a sheet and a tub with.

Seen from above, as fish in a tub are: broad behind the head, breast fins spread, the
tail on edge. Its widths are drawn by hand, no species' measures.
"""

from typing import Final

import numpy as np
from scipy.interpolate import PchipInterpolator

from fishmeasure.base.arrays import FloatArray

LENGTH_MM: Final = 200.0
_SHARES: Final = (0.0, 0.02, 0.06, 0.15, 0.3, 0.45, 0.65, 0.85, 0.9, 1.0)
_HALF_WIDTHS: Final = (
    0.0,
    0.022,
    0.038,
    0.053,
    0.060,
    0.057,
    0.041,
    0.016,
    0.010,
    0.007,
)
"""Of the length."""
_FIN: Final = ((0.19, 0.05), (0.23, 0.115), (0.28, 0.135), (0.29, 0.055))
"""Corners of a breast fin: along the length and to the side."""


def body_mm() -> FloatArray:
    """Return (n, 2) the outline of the body, the snout at 0, 0 and the tail along x."""
    share = np.unique(np.concatenate([np.linspace(0.0, 1.0, 101), _SHARES]))
    half = PchipInterpolator(_SHARES, _HALF_WIDTHS)(share)
    upper = np.column_stack([share, half])
    lower = np.column_stack([share, -half])[::-1]
    outline: FloatArray = LENGTH_MM * np.vstack([upper, lower])
    return outline


def fins_mm() -> tuple[FloatArray, FloatArray]:
    """Return the outlines of both breast fins."""
    fin = LENGTH_MM * np.array(_FIN)
    return fin, fin * np.array([1.0, -1.0])
