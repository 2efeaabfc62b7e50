"""Marker corners to a few hundredths of a pixel, free of the paper's bleeding.

Across every side of a cell at which the marker turns from black to white, the
profile of *linear* light is sampled; the edge is where it crosses half of its own
step. Blur of any symmetric shape leaves that point in place, while the same point
in sRGB codes moves into the black: white looks larger. What remains (clipped
paper, a tone curve other than sRGB, print gain) moves every edge by the same
distance towards black or white. The outer edges alone cannot tell that from a
smaller marker, but the inner edges can, since it widens white cells and narrows
black ones: so each marker's homography and one shift are fitted to all edges.
"""

import math
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.arrays import BoolArray, FloatArray
from fishmeasure.photo.colour import srgb_to_linear
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers.detect import RoughMarker
from fishmeasure.photo.markers.pattern import CELLS, UNIT_CORNERS, CellEdges, cell_edges

_REACH_CELLS = 0.55  # of a profile to each side: the middle of the next cell
_PLATEAU_CELLS = 0.38  # from here on outwards the profile is level unless blurred
_STEP_PX = 0.4
_MIN_FOUND = 0.75
"""Share of the edges; the outer ones alone are 0.5 to 0.6 of a marker's."""

_RAGGED_CELLS = 0.12
"""Scatter of the edges beyond which it is no print: 0.04 in drawn photos that are
too blurred to use, 0.01 and less in sharp ones."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FittedMarker:
    """A marker with refined corners, in pixels of the displayed photo.

    Attributes
    ----------
    marker_id, corners_px
        (4, 2) clockwise from the marker's own top-left.
    covariance_px2
        (8, 8) of the corners (x0, y0, x1, ...), from the scatter of the edges.
    bloom_px
        How far edges stand on the black side; positive where paper bleeds.
    blur_px
        Standard deviation of the edges' blur, the raster's own included: the worse
        of the marker's two directions.
    rms_px
        Of the edge points about the fit.
    contrast
        Median step from ink to paper in linear light, 0-1.
    edge_fraction
        Of the expected edge points that were found.
    ripple_mm
        Standard deviation with which water over it moves its corners.
    """

    marker_id: int
    corners_px: FloatArray
    covariance_px2: FloatArray
    bloom_px: float
    blur_px: float
    rms_px: float
    contrast: float
    edge_fraction: float
    ripple_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _EdgePoints:
    """Edge points: ``base`` (n, 2) in cells, found ``shift`` (n,) cells to white."""

    base: FloatArray
    to_white: FloatArray
    shift: FloatArray
    px_per_cell: FloatArray
    found: BoolArray
    contrast: FloatArray
    blur_px: FloatArray
    outer: BoolArray


def fit_marker(photo: Photo, rough: RoughMarker) -> FittedMarker | None:
    """Return the marker with refined corners, or None where it is not one.

    None: fewer than three quarters of its edges are where they should be, or they
    are ragged.
    """
    light, offset = _window(photo, rough.corners)
    homography = _homography(rough.corners - offset)
    for _ in range(2):  # the second pass samples along the refined edges
        points = _edge_points(light, homography, cell_edges(rough.marker_id))
        if np.count_nonzero(points.found) < _MIN_FOUND * len(points.found):
            return None
        fit = _fit(points)
        homography = homography @ np.linalg.inv(fit.correction)
    cell_px = float(np.median(points.px_per_cell))
    if abs(fit.bloom_px) > 0.45 * cell_px or fit.rms_px > _RAGGED_CELLS * cell_px:
        return None
    return _fitted(photo, rough.marker_id, points, fit, (homography, offset))


def _window(
    photo: Photo, corners: FloatArray
) -> tuple[NDArray[np.float32], FloatArray]:
    """Return linear light around the marker, and its raster offset (x, y).

    Of the green channel alone: print and paper have no colour, sensors sample green
    most finely, and colour fringes of the lens stay out.
    """
    margin = float(np.max(np.ptp(corners, axis=0))) / CELLS + 4.0
    rows, columns = photo.rgb.shape[:2]
    low = np.maximum(np.floor(corners.min(axis=0) - margin), 0.0).astype(int)
    high = np.ceil(corners.max(axis=0) + margin).astype(int)
    high = np.minimum(high, [columns - 1, rows - 1])
    patch = photo.rgb[low[1] : high[1] + 1, low[0] : high[0] + 1, 1]
    return srgb_to_linear(patch), low.astype(np.float64)


def _homography(corners: FloatArray) -> FloatArray:
    matrix = cv2.getPerspectiveTransform(
        UNIT_CORNERS.astype(np.float32), corners.astype(np.float32)
    )
    return np.asarray(matrix, dtype=np.float64)


def _apply(homography: FloatArray, points: FloatArray) -> FloatArray:
    mapped = points @ homography[:, :2].T + homography[:, 2]
    return np.asarray(mapped[..., :2] / mapped[..., 2:])


def _edge_points(
    light: NDArray[np.float32], homography: FloatArray, edges: CellEdges
) -> _EdgePoints:
    side_px = np.linalg.norm(
        np.diff(_apply(homography, UNIT_CORNERS), axis=0), axis=1
    ).mean()
    cell_px = float(side_px) / CELLS
    count = int(np.clip(cell_px / 1.5, 2, 6))
    # Ends are left out: there the next cell's colour, or a corner, bends the edge.
    along = np.linspace(-0.22, 0.22, count)
    steps = int(np.clip(2 * _REACH_CELLS * cell_px / _STEP_PX, 9, 61)) | 1
    across = np.linspace(-_REACH_CELLS, _REACH_CELLS, steps)

    base = edges.middle[:, None, :] + along[None, :, None] * edges.along[:, None, :]
    normal = np.broadcast_to(edges.to_white[:, None, :], base.shape)
    positions = base[:, :, None, :] + across[:, None] * normal[:, :, None, :]
    pixels = _apply(homography, positions)
    x, y = np.moveaxis(pixels.reshape(-1, steps, 2).astype(np.float32), -1, 0)
    sampled = cv2.remap(
        light,
        x,
        y,
        cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )
    profiles = np.asarray(sampled, np.float32).reshape(len(base), count, steps)
    low, high = _levels(profiles, across)
    shift, slope = _crossings(profiles, across, (low + high) / 2.0)
    px_per_cell = np.linalg.norm(pixels[:, :, -1] - pixels[:, :, 0], axis=2) / (
        2 * _REACH_CELLS
    )
    contrast = np.broadcast_to(high - low, shift.shape)
    inside = np.all(
        (pixels >= 0) & (pixels <= np.array(light.shape[::-1]) - 1), axis=(2, 3)
    )
    with np.errstate(invalid="ignore", divide="ignore"):
        # The middle slope of a step blurred by a Gaussian is contrast/(sd sqrt(2 pi)).
        blur_px = contrast / slope / np.sqrt(2 * np.pi) * px_per_cell
    return _EdgePoints(
        base=base.reshape(-1, 2),
        to_white=normal.reshape(-1, 2),
        shift=shift.ravel(),
        px_per_cell=px_per_cell.ravel(),
        found=(inside & np.isfinite(shift) & (contrast > 0.01)).ravel(),
        contrast=contrast.ravel(),
        blur_px=blur_px.ravel(),
        outer=np.repeat(edges.outer, count),
    )


def _levels(
    profiles: NDArray[np.float32], across: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return ink and paper level (n, 1), one for each cell side."""
    low = np.median(profiles[:, :, across < -_PLATEAU_CELLS], axis=(1, 2))
    high = np.median(profiles[:, :, across > _PLATEAU_CELLS], axis=(1, 2))
    return low.astype(np.float64)[:, None], high.astype(np.float64)[:, None]


def _crossings(
    profiles: NDArray[np.float32], across: FloatArray, half: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return where (cells) and how steeply (per cell) profiles rise through half.

    The crossing nearest the middle; NaN where there is none.
    """
    above = profiles - half[:, :, None]
    left, right = above[:, :, :-1], above[:, :, 1:]
    rises = (left < 0) & (right >= 0)
    distance = np.where(rises, np.abs(across[:-1] + across[1:]), np.inf)
    at = np.argmin(distance, axis=2)[:, :, None]
    below = np.take_along_axis(left, at, axis=2)[:, :, 0].astype(np.float64)
    rise = np.take_along_axis(right, at, axis=2)[:, :, 0] - below
    step = across[1] - across[0]
    with np.errstate(invalid="ignore", divide="ignore"):
        shift = across[at[:, :, 0]] - below / rise * step
    shift[~np.take_along_axis(rises, at, axis=2)[:, :, 0]] = np.nan
    return shift, rise / step


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Fit:
    """``correction`` (3, 3) acts on cell coordinates as seen through the rough fit."""

    correction: FloatArray
    covariance: FloatArray  # (8, 8) of the corrections
    bloom_px: float
    rms_px: float


def _displacement(points: FloatArray) -> FloatArray:
    """Return (n, 2, 8): how points move for small changes of a homography."""
    u, v = (points / CELLS).T  # near 0..1, for conditioning
    one, zero = np.ones_like(u), np.zeros_like(u)
    in_u = np.column_stack([u, v, one, zero, zero, zero, -u * u, -u * v])
    in_v = np.column_stack([zero, zero, zero, u, v, one, -v * u, -v * v])
    return np.stack([in_u, in_v], axis=1) * CELLS


def _fit(points: _EdgePoints) -> _Fit:
    """Fit a homography correction and one shift towards black to all edges.

    Linear in the nine unknowns; Huber weights by iteration.
    """
    keep = points.found
    normal, scale = points.to_white[keep], points.px_per_cell[keep]
    moves = np.einsum("ni,nij->nj", normal, _displacement(points.base[keep]))
    # In pixels: found + moved by the correction = where the model has it, 0 - bloom.
    design = np.column_stack([moves * scale[:, None], np.ones(len(scale))])
    target = -points.shift[keep] * scale
    weight = np.ones(len(scale))
    for _ in range(6):
        weighted = design * weight[:, None]
        solution = np.linalg.solve(design.T @ weighted, weighted.T @ target)
        residual = target - design @ solution
        sd = max(1.4826 * float(np.median(np.abs(residual))), 0.01)
        weight = np.minimum(1.0, 1.5 * sd / np.maximum(np.abs(residual), 1e-9))
    normal_matrix = design.T @ (design * weight[:, None])
    freedom = max(float(weight.sum()) - 9.0, 1.0)
    variance = float(weight @ residual**2) / freedom
    unit = np.append(solution[:8], 0.0).reshape(3, 3)
    scaling = np.diag([CELLS, CELLS, 1.0])
    return _Fit(
        correction=np.eye(3) + scaling @ unit @ np.linalg.inv(scaling),
        covariance=np.asarray(np.linalg.inv(normal_matrix)[:8, :8] * variance),
        bloom_px=float(solution[8]),
        rms_px=float(np.sqrt(np.mean(residual**2))),
    )


def _blur_px(points: _EdgePoints) -> float:
    """Return the larger of the median blurs across upright and level edges."""
    chosen = points.found & points.outer
    upright = np.abs(points.to_white[:, 0]) > 0.5
    medians = [
        float(np.median(points.blur_px[chosen & group]))
        for group in (upright, ~upright)
        if (chosen & group).any()
    ]
    return max(medians, default=math.inf)


def _fitted(
    photo: Photo,
    marker_id: int,
    points: _EdgePoints,
    fit: _Fit,
    frame: tuple[FloatArray, FloatArray],
) -> FittedMarker:
    homography, offset = frame
    corners = _apply(homography, UNIT_CORNERS)
    # Corners move against the correction; cells to pixels by finite differences.
    moves = _displacement(UNIT_CORNERS)
    small = 1e-4
    to_px = np.stack(
        [
            (_apply(homography, UNIT_CORNERS + np.eye(2)[axis] * small) - corners)
            for axis in range(2)
        ],
        axis=2,
    )
    jacobian = (np.einsum("nij,njk->nik", to_px / small, moves)).reshape(8, 8)
    reduction = photo.reduction
    keep = points.found
    return FittedMarker(
        marker_id=marker_id,
        corners_px=photo.to_display(corners + offset),
        covariance_px2=jacobian @ fit.covariance @ jacobian.T * reduction**2,
        bloom_px=fit.bloom_px * reduction,
        blur_px=_blur_px(points) * reduction,
        rms_px=fit.rms_px * reduction,
        contrast=float(np.median(points.contrast[keep])),
        edge_fraction=float(np.mean(keep)),
    )
