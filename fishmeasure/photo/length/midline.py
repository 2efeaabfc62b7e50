"""The midline of an outline, and the outline straightened along it.

The midline is a principal curve (Hastie and Stuetzle 1989, J. Am. Stat. Assoc.
84, 502-516): points inside the outline are projected on the curve, and the curve
is fitted again through their local means. Each point counts with the fourth power
of its distance from the outline, so that fins, being thin, hardly pull.
"""

from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray
from scipy.spatial import KDTree

from fishmeasure.base.arrays import ByteArray, FloatArray

RASTER_LENGTH = 240.0
"""Raster cells along a fish: fine enough for fins, at a few ms a fish."""
FINER = 8
"""Parts of a cell each way, of which its cover is the mean."""
DEGREE = 3
"""Of the curve in its parameter: an arc or an S, but not a wiggle."""
END_SHARE = 0.16
"""Left out of the fit at both ends: the tail fin takes 10 to 18 % of a fish."""
OVERHANG = 0.1
"""The curve runs on beyond the fish by this share of its length."""
ITERATIONS = 4
SEEN_TURN = (1.0 - 2.0 * END_SHARE) * 0.9
"""Of an arc's turn that its curve has: the part that is fitted, whose ends run on as
its last tenth lies, which is another tenth of its turn."""
STATIONS = 120
ACROSS = 121
DENSE = 1000
_EVEN_BASIS = legendre.legvander(np.linspace(-1.0, 1.0, STATIONS), DEGREE)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Midline:
    """A smooth curve through a fish, from one end to the other and beyond.

    Lengths are in the unit of the outline given.

    Attributes
    ----------
    points, along, normals
        (m, 2) evenly spaced points, their arc lengths (m,), and unit normals.
    contour, contour_along, contour_across
        (n, 2) the outline and its coordinates (n,) with regard to the curve.
    straight
        (across, stations) share of each cell that lies inside the outline.
    straight_along, straight_across
        Coordinates of the columns and rows of ``straight``.
    turn_rad
        Change of direction from one end to the other, with its sign, of an arc that is
        bent as the body between the end shares is.
    """

    points: FloatArray
    along: FloatArray
    normals: FloatArray
    contour: FloatArray
    contour_along: FloatArray
    contour_across: FloatArray
    straight: FloatArray
    straight_across: FloatArray
    turn_rad: float

    def at(self, along: FloatArray) -> FloatArray:
        """Return (k, 2) points of the curve at the arc lengths."""
        return _interpolate(along, self.along, self.points)

    def locate(self, points: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return the coordinates (along, across) of points (k, 2)."""
        return _to_curve(points, self.points, self.along, self.normals)

    def reversed(self) -> "Midline":
        """Return the same curve run through from its other end."""
        end = self.along[-1]
        return replace(
            self,
            points=self.points[::-1],
            along=end - self.along[::-1],
            normals=-self.normals[::-1],
            contour_along=end - self.contour_along,
            contour_across=-self.contour_across,
            straight=self.straight[::-1, ::-1],
        )


def trace_midline(contour: FloatArray) -> Midline:
    """Return the midline of a closed outline (n, 2), in either direction."""
    contour = _dense(contour)
    even = _evenly(np.vstack([contour, contour[:1]]), 601)[:-1]
    mask, scale, low = _raster(even)
    cells, depth = _inside(mask, scale, low)
    points = _split_midline(even, *_farthest_pair(even))
    for _ in range(ITERATIONS):
        points = _refit(points, cells, depth)
    along = _arc_length(points)
    tangents = np.gradient(points, along, axis=0)
    tangents /= np.linalg.norm(tangents, axis=1, keepdims=True)
    normals = np.column_stack([-tangents[:, 1], tangents[:, 0]])
    contour_along, contour_across = _to_curve(contour, points, along, normals)
    reach = 1.05 * float(np.abs(contour_across).max())
    across = np.linspace(-reach, reach, ACROSS)
    grid = points[None] + across[:, None, None] * normals[None]
    grid = ((grid - low) * scale + 2.0).astype(np.float32)
    straight = cv2.remap(mask, grid[..., 0], grid[..., 1], cv2.INTER_LINEAR)
    directions = np.unwrap(np.arctan2(tangents[:, 1], tangents[:, 0]))
    return Midline(
        points=points,
        along=along,
        normals=normals,
        contour=contour,
        contour_along=contour_along,
        contour_across=contour_across,
        straight=straight.astype(float) / 255.0,
        straight_across=across,
        turn_rad=float(directions[-1] - directions[0]) / SEEN_TURN,
    )


def _arc_length(curve: FloatArray) -> FloatArray:
    steps = np.hypot(*np.diff(curve, axis=0).T)
    return np.concatenate([[0.0], np.cumsum(steps)])


def _interpolate(
    wanted: FloatArray, along: FloatArray, points: FloatArray
) -> FloatArray:
    return np.column_stack([np.interp(wanted, along, points[:, k]) for k in (0, 1)])


def _evenly(curve: FloatArray, count: int) -> FloatArray:
    """Return ``count`` evenly spaced points of an open curve."""
    along = _arc_length(curve)
    return _interpolate(np.linspace(0.0, along[-1], count), along, curve)


def _dense(contour: FloatArray) -> FloatArray:
    """Return the closed outline with points put in between, its own kept."""
    closed = np.vstack([contour, contour[:1]])
    along = _arc_length(closed)
    even = np.linspace(0.0, along[-1], DENSE, endpoint=False)
    wanted = np.sort(np.concatenate([along[:-1], even[1:]]))
    return _interpolate(wanted, along, closed)


def _farthest_pair(contour: FloatArray) -> tuple[int, int]:
    """Return the indices of the two points of the outline farthest apart."""
    thin = contour[::4]
    around = cv2.convexHull(thin.astype(np.float32), returnPoints=False).ravel()
    corners = thin[around]
    gaps = np.sum((corners[:, None] - corners[None]) ** 2, axis=2)
    first, second = np.unravel_index(int(np.argmax(gaps)), gaps.shape)
    return int(around[first]) * 4, int(around[second]) * 4


def _split_midline(contour: FloatArray, first: int, second: int) -> FloatArray:
    """Return a rough midline: the mean of the outline's two sides."""
    low, high = sorted((first, second))
    one = contour[low : high + 1]
    other = np.vstack([contour[high:], contour[: low + 1]])[::-1]
    return _evenly((_evenly(one, 40) + _evenly(other, 40)) / 2.0, STATIONS)


def _raster(contour: FloatArray) -> tuple[ByteArray, float, FloatArray]:
    """Return the outline filled, cells per unit, and the origin's place."""
    low = contour.min(axis=0)
    scale = RASTER_LENGTH / float(np.hypot(*(contour.max(axis=0) - low)))
    shifted = (contour - low) * scale + 2.0
    columns, rows = (int(v) + 5 for v in shifted.max(axis=0))
    fine = np.zeros((rows * FINER, columns * FINER), np.uint8)
    # The first cell's centre is at 0, that of its first part at (1 / FINER - 1) / 2.
    fixed = np.round(((shifted + 0.5) * FINER - 0.5) * 16.0).astype(np.int32)
    # It fills whatever the outline touches, half a pixel too far: that half is cut.
    cv2.fillPoly(fine, [fixed], (255,), cv2.LINE_8, 4)
    cv2.polylines(
        fine, [fixed], isClosed=True, color=(128,), lineType=cv2.LINE_8, shift=4
    )
    mask = cv2.resize(fine, (columns, rows), interpolation=cv2.INTER_AREA)
    return np.asarray(mask, dtype=np.uint8), scale, low


def _inside(
    mask: ByteArray, scale: float, low: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return points inside the outline, (k, 2), and their distances from it."""
    filled = (mask > 127).astype(np.uint8)
    distance = cv2.distanceTransform(filled, cv2.DIST_L2, 5)
    rows, columns = np.nonzero(filled)
    some = (rows + 2 * columns) % 5 == 0  # an even lattice: enough for means
    rows, columns = rows[some], columns[some]
    cells = np.column_stack([columns, rows]).astype(float)
    depth = distance[rows, columns].astype(float) / scale
    return (cells - 2.0) / scale + low, depth


def _extend(curve: FloatArray, share: float) -> FloatArray:
    """Return the curve run straight on at both ends, evenly spaced."""
    reach = len(curve) // 10
    length = float(_arc_length(curve)[-1])
    start = curve[0] - curve[reach]
    end = curve[-1] - curve[-1 - reach]
    before = curve[0] + share * length * start / np.linalg.norm(start)
    after = curve[-1] + share * length * end / np.linalg.norm(end)
    return _evenly(np.vstack([before, curve, after]), STATIONS)


def _nearest(cells: FloatArray, points: FloatArray) -> NDArray[np.intp]:
    if len(cells) < 8:  # no tree pays for itself
        gaps = np.sum((cells[:, None] - points[None]) ** 2, axis=2)
        return np.asarray(np.argmin(gaps, axis=1), dtype=np.intp)
    return np.asarray(KDTree(points).query(cells)[1], dtype=np.intp)


def _refit(curve: FloatArray, cells: FloatArray, depth: FloatArray) -> FloatArray:
    """Return the curve through the depth-weighted local means of the cells.

    Only the body between the end shares is fitted: at the tail the means follow
    one lobe or the other. The curve runs straight on from there.
    """
    points = _extend(curve, OVERHANG)
    station = _nearest(cells, points)
    low, high = float(station.min()), float(station.max())
    cut = END_SHARE * (high - low)
    weights = depth**4
    count = len(points)
    total = np.bincount(station, weights, minlength=count)
    sums = [
        np.bincount(station, weights * cells[:, k], minlength=count) for k in (0, 1)
    ]
    index = np.arange(count)
    body = (total > 0) & (index >= low + cut) & (index <= high - cut)
    means = np.column_stack(sums)[body] / total[body, None]
    parameter = 2.0 * (index[body] - low - cut) / (high - low - 2.0 * cut) - 1.0
    basis = legendre.legvander(parameter, DEGREE)
    fit = np.linalg.lstsq(basis, means)[0]
    middle = np.asarray(_EVEN_BASIS @ fit, dtype=np.float64)
    return _extend(middle, (END_SHARE + OVERHANG) / (1.0 - 2.0 * END_SHARE))


def _to_curve(
    contour: FloatArray, points: FloatArray, along: FloatArray, normals: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return (along, across) of points, by the nearest point of the curve."""
    nearest = _nearest(contour, points)
    offset = contour - points[nearest]
    tangents = np.column_stack([normals[:, 1], -normals[:, 0]])[nearest]
    step = np.sum(offset * tangents, axis=1)
    return along[nearest] + step, np.sum(offset * normals[nearest], axis=1)
