"""Height fields of a scene: what lies on the board, and what presses on it."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import map_coordinates

from sample_images.generator.mesh import Mesh

Array = NDArray[np.float64]

CELL_MM = 0.8
SPAN_MM = 1200.0  # side of the square covered, centred on the scene's origin


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeightField:
    """Heights in mm on a raster of the board; row 0 is y = -SPAN_MM / 2."""

    heights_mm: Array

    @classmethod
    def flat(cls, height_mm: float) -> "HeightField":
        """Return the same height everywhere."""
        size = int(SPAN_MM / CELL_MM)
        return cls(heights_mm=np.full((size, size), height_mm, dtype=np.float32))

    def fill(self, outline_mm: Array, height_mm: float) -> None:
        """Set the height within an outline (n, 2 or more columns)."""
        cv2.fillPoly(self.heights_mm, [_cells(outline_mm)], height_mm, cv2.LINE_8, 4)

    def add(self, mesh: Mesh) -> None:
        """Raise the field to the top of a mesh."""
        corners = mesh.vertices_mm[mesh.faces]
        a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
        normals = np.cross(b - a, c - a)
        corners = corners[normals[:, 2] > 0]
        heights = corners[..., 2].mean(axis=1)
        fixed = _cells(corners)
        # From low to high: what is drawn last is what lies on top.
        for k in np.argsort(heights):
            cv2.fillConvexPoly(
                self.heights_mm, fixed[k], float(heights[k]), cv2.LINE_8, 4
            )

    def surround(self, size_mm: tuple[float, float], height_mm: float) -> None:
        """Set the height of all that lies outside a rectangle: a tray's rim."""
        half = np.array(size_mm) / 2
        corner = np.array([[-1.0, -1], [1, -1], [1, 1], [-1, 1]])
        wall = 12.0  # as thick as the renderer's
        self.fill(corner * (half + wall), height_mm)
        self.fill(corner * half, 0.0)

    def at(self, points_mm: Array) -> Array:
        """Return heights under (n, 2) or (n, 3) points."""
        places = (points_mm[:, :2].T + SPAN_MM / 2) / CELL_MM
        return np.asarray(
            map_coordinates(self.heights_mm, places[::-1], order=1, mode="nearest"),
            dtype=np.float64,
        )


def _cells(points_mm: Array) -> NDArray[np.int32]:
    """Return raster points in sixteenths of a cell."""
    cells = (points_mm[..., :2] + SPAN_MM / 2) / CELL_MM
    fixed: NDArray[np.int32] = np.round(cells * 16).astype(np.int32)
    return fixed


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Room:
    """The gap in which a net may lie: above ``floor``, below ``ceiling``."""

    floor: HeightField
    ceiling: HeightField
