"""Fish of known size on a plane, drawn quickly, for tests and speed figures.

The body is a row of ellipses standing across a midline that lies at its own
height over the board, seen from the true camera, so that parallax and the wider
silhouette of a thick body are real. The proportions are invented; no species is
meant.
"""

from dataclasses import dataclass

import cv2
import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.plane import PlaneScale

# Shares of the fork length; half depth and half thickness over their greatest.
_STATIONS = (0.0, 0.01, 0.04, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.88, 0.92)
_DEPTHS = (0.0, 0.17, 0.36, 0.6, 0.86, 1.0, 0.98, 0.78, 0.48, 0.36, 0.36)
_THICKNESSES = (0.0, 0.2, 0.42, 0.7, 0.92, 1.0, 0.95, 0.72, 0.4, 0.22, 0.1)
_SHADOW, _SHADOW_MM = 0.5, 2.0  # at a fish's foot: share of the light, softness
_FINE = 4  # sub-samples a side for the coverage of one pixel


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnFish:
    """One fish, its middle at (x, y) mm on the plane, head towards ``heading_deg``.

    ``bend_deg`` is the midline's turn. ``snout_share`` and ``fork_share`` are heights
    of the ends over the half thickness. ``tip_share`` and ``tail_spread`` are how far
    the lobes reach beyond the fork and to each side, over the fork length. Colours
    are linear light, 0-1.
    """

    fork_length_mm: float = 250.0
    x_mm: float = 0.0
    y_mm: float = 0.0
    heading_deg: float = 0.0
    bend_deg: float = 0.0
    depth_share: float = 0.22
    thickness_per_depth: float = 0.5
    snout_share: float = 0.65
    fork_share: float = 0.2
    tip_share: float = 0.05
    tail_spread: float = 0.09
    back: tuple[float, float, float] = (0.05, 0.06, 0.05)
    belly: tuple[float, float, float] = (0.45, 0.45, 0.42)

    @property
    def half_thickness_mm(self) -> float:
        """Half of the greatest thickness."""
        return 0.5 * self.thickness_per_depth * self.depth_share * self.fork_length_mm


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FishTruth:
    """What is true of a drawn fish in a photo; names as in ``FishLength``."""

    fork_length_mm: float
    body_depth_mm: float
    outline_px: FloatArray
    snout_px: FloatArray
    fork_px: FloatArray


def place(fish: DrawnFish, share: FloatArray, across_mm: FloatArray) -> FloatArray:
    """Return (n, 2) mm on the plane of points off the midline, by share and offset."""
    grid = np.linspace(-0.1, 1.3, 1401)
    headings = _headings(fish, grid)
    middles = (headings[1:] + headings[:-1]) / 2.0
    steps = np.column_stack([np.cos(middles), np.sin(middles)])
    steps *= fish.fork_length_mm * np.diff(grid)[:, None]
    course = np.vstack([[0.0, 0.0], np.cumsum(steps, axis=0)])
    course += np.array([fish.x_mm, fish.y_mm]) - course[600]  # where grid is 0.5
    middle = np.column_stack([np.interp(share, grid, course[:, k]) for k in (0, 1)])
    return middle + across_mm[:, None] * _normals(fish, share)


def _headings(fish: DrawnFish, share: FloatArray) -> FloatArray:
    """Return the direction of the midline, from snout to tail."""
    turn = np.radians(fish.bend_deg) * (share - 0.5)
    directions: FloatArray = np.radians(fish.heading_deg) + np.pi + turn
    return directions


def _normals(fish: DrawnFish, share: FloatArray) -> FloatArray:
    directions = _headings(fish, share)
    return np.column_stack([-np.sin(directions), np.cos(directions)])


def heights_mm(fish: DrawnFish, share: FloatArray) -> FloatArray:
    """Return heights of the midline over the plane."""
    levels = (fish.snout_share, 1.0, 1.0, fish.fork_share)
    heights: FloatArray = np.interp(share, (0.0, 0.25, 0.45, 1.0), levels)
    return fish.half_thickness_mm * heights


def true_fish(fish: DrawnFish, plane: PlaneScale) -> FishTruth:
    """Return the fish's outline and end points as the camera sees them."""
    body = _STATIONS[-1] * np.linspace(0.0, 1.0, 160) ** 1.6  # close at the snout
    reach = _half_depth_mm(fish, plane, body)
    across = fish.fork_length_mm * fish.tail_spread
    tip = 1.0 + fish.tip_share
    tail = _project(
        fish, plane, np.array([tip, 1.0, tip]), np.array([across, 0.0, -across])
    )
    upper = _project(fish, plane, body, reach)
    lower = _project(fish, plane, body, -reach)
    ends = _project(fish, plane, np.array([0.0, 1.0]), np.zeros(2))
    return FishTruth(
        fork_length_mm=fish.fork_length_mm,
        body_depth_mm=fish.depth_share * fish.fork_length_mm,
        outline_px=np.vstack([upper, tail, lower[:0:-1]]),
        snout_px=ends[0],
        fork_px=ends[1],
    )


def _half_depth_mm(fish: DrawnFish, plane: PlaneScale, share: FloatArray) -> FloatArray:
    """Return how far the silhouette of the ellipses reaches across."""
    half = np.interp(share, _STATIONS, _DEPTHS)
    half = half * 0.5 * fish.depth_share * fish.fork_length_mm
    thick = fish.half_thickness_mm * np.interp(share, _STATIONS, _THICKNESSES)
    camera = -(plane.rotation.T @ plane.translation_mm)
    middle = place(fish, share, np.zeros(len(share)))
    slant = np.sum((camera[:2] - middle) * _normals(fish, share), axis=1) / -camera[2]
    reach: FloatArray = np.hypot(half, thick * slant)
    return reach


def _project(
    fish: DrawnFish, plane: PlaneScale, share: FloatArray, across_mm: FloatArray
) -> FloatArray:
    points_mm = place(fish, share, across_mm)
    return plane.to_photo_px(points_mm, heights_mm(fish, share))


def draw_fish(
    linear: FloatArray, fish: DrawnFish, plane: PlaneScale, rng: np.random.Generator
) -> FishTruth:
    """Draw a fish into a photo of linear light (rows, columns, 3), in place.

    It has a soft shadow at its foot, a dark back, a light belly, spots, and is
    darker where its side curves away.
    """
    truth = true_fish(fish, plane)
    soft_px = _SHADOW_MM * plane.px_per_mm
    reach = int(3 * soft_px) + 2
    size = np.array([linear.shape[1], linear.shape[0]])
    low = np.floor(truth.outline_px.min(axis=0)).astype(int) - reach
    high = np.ceil(truth.outline_px.max(axis=0)).astype(int) + 1 + reach
    low, high = np.maximum(low, 0), np.minimum(high, size)
    columns, rows = (int(n) for n in high - low)
    if columns <= 0 or rows <= 0:
        return truth
    cover = np.zeros((rows * _FINE, columns * _FINE), np.uint8)
    fine = (truth.outline_px - low + 0.5) * _FINE - 0.5
    cv2.fillPoly(cover, [np.round(fine * 16).astype(np.int32)], (255,), cv2.LINE_8, 4)
    share = np.asarray(
        cv2.resize(cover, (columns, rows), interpolation=cv2.INTER_AREA) / 255.0
    )
    shadow = 1.0 - _SHADOW * cv2.GaussianBlur(share, (0, 0), soft_px)[..., None]
    grid = np.stack(np.meshgrid(np.arange(columns), np.arange(rows)), axis=-1) + low
    skin = _skin(fish, plane, grid.astype(float), rng)
    alpha = share[..., None]
    patch = linear[low[1] : high[1], low[0] : high[0]]
    patch[:] = (1.0 - alpha) * patch * shadow + alpha * skin
    return truth


def _skin(
    fish: DrawnFish, plane: PlaneScale, pixels: FloatArray, rng: np.random.Generator
) -> FloatArray:
    """Return linear colours (rows, columns, 3) of the side."""
    shape = pixels.shape[:2]
    points = plane.to_plane_mm(pixels.reshape(-1, 2), fish.half_thickness_mm)
    grid = np.linspace(0.0, 1.0, 60)
    course = place(fish, grid, np.zeros(60))
    gaps = np.sum(course**2, axis=1)[None] - 2.0 * points @ course.T
    nearest = np.argmin(gaps, axis=1)
    normals = _normals(fish, grid)[nearest]
    across = np.sum((points - course[nearest]) * normals, axis=1)
    half = np.interp(grid, _STATIONS, _DEPTHS)[nearest] * 0.5 * fish.depth_share
    side = np.clip(across / (half * fish.fork_length_mm + 1.0), -1.0, 1.0)
    level = ((side + 1.0) / 2.0)[:, None]
    colours = level * np.array(fish.back) + (1.0 - level) * np.array(fish.belly)
    colours *= 0.5 + 0.5 * np.sqrt(1.0 - side**2)[:, None]
    grain = rng.normal(size=shape)
    spots = cv2.GaussianBlur(grain, (0, 0), 0.8 * plane.px_per_mm)
    scales = cv2.GaussianBlur(grain, (0, 0), 0.3 * plane.px_per_mm)
    tone = (1.0 - 0.5 * (spots > 1.6 * spots.std())) * (
        1.0 + 0.1 * scales / scales.std()
    )
    skin: FloatArray = colours.reshape(*shape, 3) * tone[..., None]
    return skin
