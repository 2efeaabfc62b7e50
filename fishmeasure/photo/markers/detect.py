"""Find the printed markers in a photo, to about a pixel."""

from dataclasses import dataclass

import cv2
import numpy as np

from fishmeasure.base.arrays import ByteArray, FloatArray
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers.pattern import dictionary

# Detection takes 7-8 ms on 0.8 MP and 23-38 ms on 3.2 MP (two photos of fish); a
# 40 mm marker on a 600 mm wide scene still has 11 pixels a cell there.
_QUICK_PIXELS = 1_000_000
_SURE_SIDE_PX = 40.0
"""Where the smallest marker found in the quick look is that large, none is missed
for its size: in drawn scenes all four are found down to a side of 24 px."""

_WHOLE_SET = frozenset(range(4))
"""The ids of a sheet; loose cards have the same."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RoughMarker:
    """A marker as detected: ``corners`` (4, 2) in raster pixels."""

    marker_id: int
    corners: FloatArray


def find_markers(photo: Photo) -> tuple[RoughMarker, ...]:
    """Return the markers in the photo, in the order of their ids.

    A quick look at a reduced raster comes first; the whole raster is searched where
    that finds none, or only small ones and not all four of a set.
    """
    grey = cv2.cvtColor(np.asarray(photo.rgb), cv2.COLOR_RGB2GRAY)
    factor = 1
    while grey.size / factor**2 > 1.5 * _QUICK_PIXELS:
        factor += 1
    quick = _detect(np.asarray(grey, np.uint8), factor)
    smallest_px = min((_side_px(m) for m in quick), default=0.0) / factor
    all_there = {marker.marker_id for marker in quick} >= _WHOLE_SET
    if factor == 1 or all_there or smallest_px >= _SURE_SIDE_PX:
        return quick
    return _merge(quick, _detect(np.asarray(grey, np.uint8), 1))


def _detect(grey: ByteArray, factor: int) -> tuple[RoughMarker, ...]:
    rows, columns = (side // factor * factor for side in grey.shape)
    small = cv2.resize(
        grey[:rows, :columns],
        (columns // factor, rows // factor),
        interpolation=cv2.INTER_AREA,
    )
    corners, ids, _ = _detector().detectMarkers(small)
    if len(corners) == 0:
        return ()
    found = [
        RoughMarker(
            marker_id=int(marker_id),
            corners=(np.asarray(quad, np.float64).reshape(4, 2) + 0.5) * factor - 0.5,
        )
        for quad, marker_id in zip(corners, np.asarray(ids).ravel(), strict=True)
    ]
    return tuple(sorted(found, key=lambda marker: marker.marker_id))


def _detector() -> cv2.aruco.ArucoDetector:
    settings = cv2.aruco.DetectorParameters()
    # No bit may be wrong: with the default (60 % of the code's correction) other
    # dictionaries' tags are taken for ours now and then.
    settings.errorCorrectionRate = 0.0
    # Bits by the inner third of a cell at 8 samples a side, since paper bleeds into
    # the rest. On 240 drawn markers with 1.3 to 2.4 px a mm and up to 1.9 px of blur
    # this finds all, OpenCV's own setting (4 samples, two thirds) 197.
    settings.perspectiveRemovePixelPerCell = 8
    settings.perspectiveRemoveIgnoredMarginPerCell = 0.33
    settings.minMarkerPerimeterRate = 0.02
    # A net's meshes pass for squares at the default of 0.03 of their outline, and all
    # squares are compared in pairs. Corners of 114 markers in 164 photos stayed where
    # they were to 0.004 px.
    settings.polygonalApproxAccuracyRate = 0.02
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_NONE
    return cv2.aruco.ArucoDetector(dictionary(), settings)


def _side_px(marker: RoughMarker) -> float:
    steps = np.roll(marker.corners, -1, axis=0) - marker.corners
    return float(np.linalg.norm(steps, axis=1).mean())


def _merge(
    first: tuple[RoughMarker, ...], second: tuple[RoughMarker, ...]
) -> tuple[RoughMarker, ...]:
    """Return both, each marker once (same id and nearly the same place)."""
    merged = list(second)
    for marker in first:
        near_px = _side_px(marker) / 2.0
        if not any(
            other.marker_id == marker.marker_id
            and np.linalg.norm((other.corners - marker.corners).mean(axis=0)) < near_px
            for other in second
        ):
            merged.append(marker)
    return tuple(sorted(merged, key=lambda marker: marker.marker_id))
