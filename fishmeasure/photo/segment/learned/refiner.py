"""A candidate, turned level and enlarged: its outline and ends refined."""

from dataclasses import dataclass

import cv2
import numpy as np
from skimage import measure

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.learned.networks import Floats, run_refiner
from fishmeasure.photo.segment.learned.view import Frame, View, rectify

# As in training (sample_images/training/crops.py).
ROWS, COLUMNS = 160, 320
SNOUT_X, MIDDLE_Y, LENGTH = 36.0, 80.0, 232.0
_EDGE_LEVEL = 0.5
_REPEAT_SHIFT = 0.09
"""Ends found this far, in lengths, from where they were expected are refined again.
Training moved them by 0.02 to 0.075."""
_MIN_PEAK = 0.1
_MIN_AREA_SHARE = 0.02
"""Of the squared length; whole fish have 0.1 to 0.4, eels 0.06."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RefinedFish:
    """A fish as the second network outlines it; points on the plane in mm.

    Attributes
    ----------
    contour_mm, body_mm
        The outline, and that of the body without fins; the latter None where the
        network sees none.
    logits
        Of the checks, see ``RefinerOutput``.
    peaks
        (2,) heights of the peaks at snout and fork.
    shift
        How far the ends lie from where they were expected, in lengths.
    edge_share
        Share of the outline that runs along the photo's edge.
    """

    contour_mm: FloatArray
    body_mm: FloatArray | None
    snout_mm: FloatArray
    fork_mm: FloatArray
    logits: Floats
    peaks: FloatArray
    shift: float
    edge_share: float


def crop_frame(snout_mm: FloatArray, fork_mm: FloatArray) -> Frame:
    """Return the frame that shows the fish level, head left, at a fixed length."""
    along = (fork_mm - snout_mm) / LENGTH
    across = np.array([-along[1], along[0]])
    corner = snout_mm - SNOUT_X * along - MIDDLE_Y * across
    return Frame(matrix=np.column_stack([along, across, corner]), shape=(ROWS, COLUMNS))


def refine(
    photo: Photo, plane: PlaneScale, snout_mm: FloatArray, fork_mm: FloatArray
) -> RefinedFish | None:
    """Return the fish whose ends are about there; None if nothing is there."""
    refined = _refine_once(photo, plane, snout_mm, fork_mm)
    if refined is None or refined.shift < _REPEAT_SHIFT:
        return refined
    again = _refine_once(photo, plane, refined.snout_mm, refined.fork_mm)
    return refined if again is None or again.shift > refined.shift else again


def _refine_once(
    photo: Photo, plane: PlaneScale, snout_mm: FloatArray, fork_mm: FloatArray
) -> RefinedFish | None:
    if np.hypot(*(fork_mm - snout_mm)) < 10.0:
        return None
    frame = crop_frame(snout_mm, fork_mm)
    view = rectify(photo, plane, frame)
    output = run_refiner(view.rgb)
    expected = np.array([[SNOUT_X, MIDDLE_Y], [SNOUT_X + LENGTH, MIDDLE_Y]])
    snout, snout_heat = _peak(output.snout, expected[0])
    fork, fork_heat = _peak(output.fork, expected[1])
    contour = _trace(output.cover)
    if contour is None:
        return None
    body = _trace(np.minimum(output.body, output.cover))
    ends = np.array([snout, fork])
    shift = float(np.hypot(*(ends - expected).T).max() / LENGTH)
    on_plane = frame.to_mm(ends)
    return RefinedFish(
        contour_mm=frame.to_mm(contour),
        body_mm=None if body is None else frame.to_mm(body),
        snout_mm=on_plane[0],
        fork_mm=on_plane[1],
        logits=output.logits,
        peaks=np.array([snout_heat, fork_heat]),
        shift=shift,
        edge_share=_edge_share(contour, view),
    )


def _peak(heat: Floats, expected: FloatArray) -> tuple[FloatArray, float]:
    """Return the heat's highest place, to a part of a pixel; else where expected."""
    row, column = np.unravel_index(int(np.argmax(heat)), heat.shape)
    peak = float(heat[row, column])
    if peak < _MIN_PEAK:
        return expected, peak
    top, left = max(int(row) - 3, 0), max(int(column) - 3, 0)
    around = heat[top : int(row) + 4, left : int(column) + 4].astype(float)
    around = np.where(around > 0.25 * peak, around, 0.0)
    ys, xs = np.mgrid[top : top + around.shape[0], left : left + around.shape[1]]
    centre = np.array([(xs * around).sum(), (ys * around).sum()]) / around.sum()
    place: FloatArray = centre * 2 + 0.5
    return place, peak


def _trace(cover: Floats) -> FloatArray | None:
    """Return the outline of the largest part; None where there is none."""
    solid = (cover > _EDGE_LEVEL).astype(np.uint8)
    count, label, stats, _ = cv2.connectedComponentsWithStats(solid, connectivity=4)
    if count < 2:
        return None
    areas = stats[1:, cv2.CC_STAT_AREA]
    largest = int(np.argmax(areas)) + 1
    near = cv2.dilate((label == largest).astype(np.uint8), np.ones((3, 3), np.uint8))
    share = np.pad(np.where(near > 0, cover, 0), 1)
    line = max(measure.find_contours(share, _EDGE_LEVEL), key=len)
    contour: FloatArray = (line[:-1, ::-1] - 1) * 2 + 0.5
    large = cv2.contourArea(contour.astype(np.float32)) > _MIN_AREA_SHARE * LENGTH**2
    return contour if large else None


def _edge_share(contour: FloatArray, view: View) -> float:
    """Return the share of the outline within two pixels of the photo's edge."""
    near = cv2.erode(view.inside.astype(np.uint8), np.ones((5, 5), np.uint8))
    columns = np.clip(np.round(contour[:, 0]).astype(int), 0, COLUMNS - 1)
    rows = np.clip(np.round(contour[:, 1]).astype(int), 0, ROWS - 1)
    return float(np.mean(near[rows, columns] == 0))
