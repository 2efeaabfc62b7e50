"""The ChArUco board from whose photos a lens profile is measured."""

from dataclasses import dataclass
from functools import cache

import cv2
import numpy as np

from fishmeasure.base.arrays import BoolArray, frozen


@dataclass(frozen=True, slots=True, kw_only=True)
class LensBoard:
    """Columns and rows of squares, and sizes in mm."""

    columns: int
    rows: int
    square_mm: float
    marker_mm: float

    def pattern(self) -> cv2.aruco.CharucoBoard:
        """Return the board for OpenCV's detector."""
        return cv2.aruco.CharucoBoard(
            (self.columns, self.rows), self.square_mm, self.marker_mm, _dictionary()
        )


BOARD = LensBoard(columns=9, rows=6, square_mm=29.0, marker_mm=21.0)
"""261 x 174 mm: fits A4 and US Letter. Its markers are of another dictionary than
those beside fish, so that the one is never taken for the other."""

_BITS = 5


@cache
def _dictionary() -> cv2.aruco.Dictionary:
    return cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_5X5_50)


@cache
def board_marker_cells(marker_id: int) -> BoolArray:
    """Return (7, 7) cells [row, column] of a board marker, True where white."""
    image = cv2.aruco.generateImageMarker(
        _dictionary(), marker_id, _BITS + 2, borderBits=1
    )
    return frozen(np.asarray(image) > 0)
