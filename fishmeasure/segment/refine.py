"""An outline moved to the sharpest edge near it, to parts of a pixel."""

import cv2
import numpy as np

from fishmeasure.arrays import ByteArray, FloatArray
from fishmeasure.colour import srgb_to_linear

STEP = 0.5
"""Spacing of the samples along a normal, in pixels of the raster."""


def refine_contour(rgb: ByteArray, contour: FloatArray, reach_px: float) -> FloatArray:
    """Return the contour (n, 2), evenly spaced, on the edge within ``reach_px``.

    ``contour`` is a closed polygon in pixels of ``rgb``. Along the normal of each
    point the strongest change of linear light is looked for; the shifts are made
    smooth along the outline, so that corners stay where the contour has them.
    """
    points, normals = _even(contour)
    reach = max(2.0, 1.5 * reach_px)
    offsets = np.arange(-reach - 1.0, reach + 1.0 + STEP / 2, STEP)
    grid = points[:, None] + offsets[None, :, None] * normals[:, None]
    low = np.maximum(np.floor(points.min(axis=0) - reach - 3).astype(int), 0)
    high = np.ceil(points.max(axis=0) + reach + 4).astype(int)
    patch = srgb_to_linear(rgb[low[1] : high[1], low[0] : high[0]])
    local = (grid - low).astype(np.float32)
    light = cv2.remap(
        patch,
        local[..., 0],
        local[..., 1],
        cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )
    light = cv2.GaussianBlur(light, (0, 0), 1.2)  # along the outline and across it
    slope = np.linalg.norm(np.gradient(light, axis=1), axis=2)
    slope = slope * np.exp(-0.5 * (offsets / reach) ** 2)  # the near edge first
    shifts = _peaks(slope[:, 2:-2], offsets[2:-2])
    return points + _steady(shifts)[:, None] * normals


def _even(contour: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return evenly spaced points of the smoothed polygon, and its outward normals."""
    closed = np.vstack([contour, contour[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    count = max(40, int(along[-1] / 2.0))
    wanted = np.linspace(0.0, along[-1], count, endpoint=False)
    points = np.column_stack([np.interp(wanted, along, closed[:, k]) for k in (0, 1)])
    points = _circular_mean(points, 1)
    tangents = np.roll(points, -2, axis=0) - np.roll(points, 2, axis=0)
    tangents /= np.maximum(np.linalg.norm(tangents, axis=1, keepdims=True), 1e-9)
    return points, np.column_stack([tangents[:, 1], -tangents[:, 0]])


def _circular_mean(values: FloatArray, half: int) -> FloatArray:
    total = sum(np.roll(values, k, axis=0) for k in range(-half, half + 1))
    return np.asarray(total / (2 * half + 1), dtype=np.float64)


def _peaks(slope: FloatArray, offsets: FloatArray) -> FloatArray:
    """Return where each row of slopes is highest, between samples by a parabola."""
    best = np.clip(np.argmax(slope, axis=1), 1, slope.shape[1] - 2)
    row = np.arange(len(slope))
    before, at, after = (slope[row, best + k] for k in (-1, 0, 1))
    curvature = before - 2.0 * at + after
    part = np.where(curvature < 0.0, 0.5 * (before - after) / (curvature - 1e-12), 0.0)
    peaks: FloatArray = offsets[best] + STEP * np.clip(part, -0.5, 0.5)
    return peaks


def _steady(shifts: FloatArray) -> FloatArray:
    """Return the shifts without the few that jump to another edge."""
    window = np.stack([np.roll(shifts, k) for k in range(-4, 5)])
    middle = np.median(window, axis=0)
    return _circular_mean(middle, 2)
