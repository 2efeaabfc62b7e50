"""What the printed markers look like: OpenCV ArUco, dictionary DICT_4X4_50."""

from dataclasses import dataclass
from functools import cache

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.arrays import BoolArray, FloatArray, frozen

CELLS = 6
"""Cells along a side: four of code and one of black border at each end."""

UNIT_CORNERS: FloatArray = frozen(
    np.array([[0.0, 0.0], [CELLS, 0.0], [CELLS, CELLS], [0.0, CELLS]])
)
"""Corners in cells, clockwise from the top-left one, as OpenCV reports them."""


@cache
def dictionary() -> cv2.aruco.Dictionary:
    """Return the dictionary that all printed markers are from."""
    return cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)


@cache
def marker_cells(marker_id: int) -> BoolArray:
    """Return (6, 6) cells [row, column] of a marker, True where white."""
    image = cv2.aruco.generateImageMarker(dictionary(), marker_id, CELLS, borderBits=1)
    return frozen(np.asarray(image) > 0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CellEdges:
    """The sides of cells at which a marker turns from black to white.

    Attributes
    ----------
    middle
        (n, 2) middles of the sides, in cells.
    along
        (n, 2) unit vectors along the sides.
    to_white
        (n, 2) unit vectors across them, from black to white.
    outer
        (n,) True on the outside of the black border.
    """

    middle: FloatArray
    along: FloatArray
    to_white: FloatArray
    outer: NDArray[np.bool_]


@cache
def cell_edges(marker_id: int) -> CellEdges:
    """Return all black-to-white cell sides of a marker."""
    white = np.pad(marker_cells(marker_id), 1, constant_values=True)
    middle, along, to_white, outer = [], [], [], []
    for step in (np.array([0, 1]), np.array([1, 0])):  # [row, column] to a neighbour
        for row in range(CELLS + 1):
            for column in range(CELLS + 1):
                here = np.array([row, column])
                there = here + step
                if max(there) > CELLS + 1 or white[tuple(here)] == white[tuple(there)]:
                    continue
                across = step[::-1].astype(float)  # x, y
                # Cell (row, column) of the padded pattern spans row-1..row.
                middle.append((here + there)[::-1] / 2.0 - 0.5)
                along.append(step.astype(float))
                to_white.append(-across if white[tuple(here)] else across)
                ends = (here, there)
                outer.append(any(min(e) == 0 or max(e) == CELLS + 1 for e in ends))
    return CellEdges(
        middle=frozen(np.array(middle)),
        along=frozen(np.array(along)),
        to_white=frozen(np.array(to_white)),
        outer=frozen(np.array(outer)),
    )
