"""Where a fish's snout and fork are: two small looks at the photo as it is.

Each shows 0.15 of the fish's length, 640 pixels to the length: 0.2 to 0.4 mm a pixel
for fish of 130 to 260 mm.
"""

from dataclasses import dataclass

import cv2
import numpy as np

from fishmeasure.base.arrays import ByteArray, FloatArray
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.learned.networks import (
    PATCH_PX,
    PATCH_SHARE,
    EndOutput,
    run_end_finder,
)
from fishmeasure.photo.segment.learned.view import Frame, rectify

SNOUT, FORK, TAIL_TIP = 0, 1, 2
_REPEAT_SHIFT = 0.03
"""An end found this far from the patch's middle, in lengths, is looked at once more:
training gave its place to 0.006 to 0.03."""
SE_FACTOR = 1.2
SE_FLOOR_SHARES = (0.002, 0.001, 0.001)
"""What the learned error is multiplied by, and what is added to it for each kind of
end, in lengths: jaw open or shut, frayed rays. By 592 ends of 40 rendered photos, of
which every second was looked at; see the model card."""
_FINE = 2  # places averaged along either side of a pixel, as in training


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FishEnd:
    """One end of a fish on the plane.

    Attributes
    ----------
    place_mm
        (2,) on the plane.
    along_se_mm
        Standard error along the fish, which is that of its length.
    seen, shadow
        Logits, see ``EndOutput``.
    """

    place_mm: FloatArray
    along_se_mm: float
    seen: float
    shadow: float


def find_end(
    photo: Photo,
    plane: PlaneScale,
    expected_mm: FloatArray,
    other_mm: FloatArray,
    kind: int,
) -> FishEnd:
    """Return the end near ``expected_mm``, seen from the fish's other end."""
    end, moved = _look(photo, plane, expected_mm, other_mm, kind)
    if moved > _REPEAT_SHIFT and end.seen > 0.0:
        end, _ = _look(photo, plane, end.place_mm, other_mm, kind)
    return end


def end_frame(expected_mm: FloatArray, other_mm: FloatArray) -> Frame:
    """Return the patch's frame, of twice as many pixels, outward to the right."""
    outward = expected_mm - other_mm
    step = outward * (PATCH_SHARE / (PATCH_PX * _FINE))
    across = np.array([-step[1], step[0]])
    middle = (PATCH_PX * _FINE - 1) / 2
    corner = expected_mm - middle * (step + across)
    matrix = np.column_stack([step, across, corner])
    return Frame(matrix=matrix, shape=(PATCH_PX * _FINE, PATCH_PX * _FINE))


def _look(
    photo: Photo,
    plane: PlaneScale,
    expected_mm: FloatArray,
    other_mm: FloatArray,
    kind: int,
) -> tuple[FishEnd, float]:
    """Return the end, and how far it is from where it was expected, in lengths."""
    frame = end_frame(expected_mm, other_mm)
    fine = rectify(photo, plane, frame).rgb
    size = (PATCH_PX, PATCH_PX)
    rgb: ByteArray = np.asarray(
        cv2.resize(fine, size, interpolation=cv2.INTER_AREA), np.uint8
    )
    seen = run_end_finder(rgb, kind)
    place = (seen.place.astype(float) + 0.5) * _FINE - 0.5
    place_mm = frame.to_mm(place[None])[0]
    length_mm = float(np.hypot(*(expected_mm - other_mm)))
    end = FishEnd(
        place_mm=place_mm,
        along_se_mm=_along_se(seen, kind) * length_mm,
        seen=seen.seen,
        shadow=seen.shadow,
    )
    return end, float(np.hypot(*(place_mm - expected_mm))) / length_mm


def _along_se(seen: EndOutput, kind: int) -> float:
    """Return the standard error along the fish, in lengths, of a Laplace scale."""
    learned = float(np.sqrt(2.0) * seen.scale[0]) * PATCH_SHARE / PATCH_PX
    return float(np.hypot(SE_FACTOR * learned, SE_FLOOR_SHARES[kind]))
