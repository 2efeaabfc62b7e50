"""Whether the tail of a fish seen from above can be told from the bottom under it.

Seen on edge a tail fin is a line of the back's own tone. On a bottom of the same tone
it cannot be seen, and the fish reads short by its whole tail.
"""

from dataclasses import replace
from typing import Final

import cv2
import numpy as np

from fishmeasure.base.arrays import ByteArray, FloatArray
from fishmeasure.photo.colour import SRGB_TO_LINEAR
from fishmeasure.photo.image import Photo
from fishmeasure.photo.segment.outline import FishOutline, Segmentation

FAINT_LN: Final = 0.4
"""Of the tail's light over the bottom's, in logarithms: a factor of 1.5. Of 33 upright
fish in eleven rendered tubs, those of light and coloured tubs have 0.49 to 2.3 and read
0.1 % long on average; those of black tubs have 0.22 at most and read 5 % short."""
TAIL: Final = (0.1, 0.35)
"""Of the length from the tip: where the tone of the narrow part is taken."""
AROUND: Final = 0.15
"""Of the length: how far about the tip the tone of the bottom is taken."""
_LEAST_PX = 12


def with_faint_tails(photo: Photo, found: Segmentation) -> tuple[Segmentation, int]:
    """Return the fish, those doubtful whose tail the bottom hides, and their number."""
    if all(one.posture != "upright" for one in found):
        return found, 0
    fish = np.zeros(photo.rgb.shape[:2], np.uint8)
    for one in found:
        _fill(fish, photo, one, 1)
    fish = np.asarray(cv2.dilate(fish, np.ones((5, 5), np.uint8)), np.uint8)
    contrasts = [_contrast_ln(photo, one, fish) for one in found]
    faint = [value is not None and abs(value) < FAINT_LN for value in contrasts]
    marked = tuple(
        replace(one, flags=tuple(dict.fromkeys((*one.flags, "ends-doubtful"))))
        if hidden
        else one
        for one, hidden in zip(found, faint, strict=True)
    )
    return replace(found, outlines=marked), sum(faint)


def _contrast_ln(photo: Photo, one: FishOutline, fish: ByteArray) -> float | None:
    """Return the log of the tail's light over that of the bottom about its tip."""
    if one.posture != "upright" or one.snout_px is None or one.fork_px is None:
        return None
    ends = photo.to_raster(np.vstack([one.snout_px, one.fork_px]))
    length = float(np.linalg.norm(ends[0] - ends[1]))
    reach = int(TAIL[1] * length) + 2
    left, top = np.maximum(np.round(ends[1]).astype(int) - reach, 0)
    part = (slice(top, top + 2 * reach), slice(left, left + 2 * reach))
    rgb = photo.rgb[part]
    if rgb.size == 0:
        return None
    light = SRGB_TO_LINEAR[rgb].mean(axis=2)
    own = np.zeros(photo.rgb.shape[:2], np.uint8)
    _fill(own, photo, one, 1)
    rows, columns = np.indices(light.shape)
    away = np.stack([columns + left, rows + top], axis=-1) - ends[1]
    along = away @ ((ends[0] - ends[1]) / length)
    tail = (own[part] > 0) & (along > TAIL[0] * length) & (along < TAIL[1] * length)
    bottom = (fish[part] == 0) & (np.linalg.norm(away, axis=-1) < AROUND * length)
    if min(tail.sum(), bottom.sum()) < _LEAST_PX:
        return None
    return float(np.log(_tone(light, tail) / _tone(light, bottom)))


def _tone(light: FloatArray, where: ByteArray) -> float:
    return max(float(np.median(light[where])), 1e-4)


def _fill(mask: ByteArray, photo: Photo, one: FishOutline, value: int) -> None:
    points = np.round(photo.to_raster(one.contour_px)).astype(np.int32)
    cv2.fillPoly(mask, [points], (value,))
