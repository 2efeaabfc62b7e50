"""Whether a fish lies in a heap, by what it borders on.

What its own picture cannot show: another fish beside it of which a part is hidden,
or of which nothing but a part was found. Then it may lie on that fish and look too
long, or go on in another's tail.
"""

from collections.abc import Sequence
from dataclasses import replace

import cv2
import numpy as np

from fishmeasure.base.arrays import BoolArray
from fishmeasure.photo.segment.learned.verifier import Assessment

HIDDEN_SHARE = 0.03
"""Of a fish's area within two pixels of a hidden one: that is a border of about a
third of its length. A fish on another is nearer the camera by a thickness, and looks
3 to 5 % too long: 1.8 to 5.3 % on the rendered heaps."""
UNKNOWN_SHARE = 0.05
"""Of a fish's area: what borders on it, looks like fish and is part of none that was
found. 97 fish of 15 rendered photos, apart or touching, have 0.011 at most; a
half-hidden one of a heap, taken as whole and 13 % too long, had 0.074."""
_MIN_AREA_PX = 3 * 16
"""Three of the network's cells: less beside a small fish is its own blurred edge."""
_EDGE_PX = 4  # about an outline: its own fins and soft edge
_NEAR_PX = 6


def flag_heaped_fish(
    assessments: Sequence[Assessment], masks: Sequence[BoolArray], fish_like: BoolArray
) -> list[Assessment]:
    """Return the assessments, those without a doubt flagged where they border so.

    ``masks`` lie in the first picture, ``fish_like`` at a quarter of its size.
    """
    if not masks:
        return []
    hidden = np.zeros_like(masks[0])
    for assessment, mask in zip(assessments, masks, strict=True):
        if "hidden" in assessment.flags and "edge-cut" not in assessment.flags:
            hidden |= mask
    hidden = _grown(hidden, 2)
    unknown = _unknown(masks, fish_like)
    marked = []
    for assessment, mask in zip(assessments, masks, strict=True):
        area = float(mask.sum())
        doubtful = float((hidden & mask).sum()) > HIDDEN_SHARE * area
        least = max(UNKNOWN_SHARE * area, _MIN_AREA_PX)
        doubtful = doubtful or _beside(mask, unknown) > least
        new = doubtful and not assessment.flags
        marked.append(replace(assessment, flags=("touching",)) if new else assessment)
    return marked


def _unknown(masks: Sequence[BoolArray], fish_like: BoolArray) -> BoolArray:
    """Return what looks like fish in the first picture and is of no fish found."""
    rows, columns = masks[0].shape
    likely = cv2.resize(
        fish_like.astype(np.uint8), (columns, rows), interpolation=cv2.INTER_NEAREST
    )
    found = np.logical_or.reduce(masks)
    return np.asarray((likely > 0) & ~_grown(found, _EDGE_PX))


def _beside(mask: BoolArray, unknown: BoolArray) -> float:
    """Return the area of the pieces of ``unknown`` that the fish borders on."""
    if not unknown.any():
        return 0.0
    _, label, stats, _ = cv2.connectedComponentsWithStats(unknown.astype(np.uint8))
    touched = np.unique(label[_grown(mask, _NEAR_PX)])
    return float(stats[touched[touched > 0], cv2.CC_STAT_AREA].sum())


def _grown(mask: BoolArray, by_px: int) -> BoolArray:
    kernel = np.ones((2 * by_px + 1, 2 * by_px + 1), np.uint8)
    return np.asarray(cv2.dilate(mask.astype(np.uint8), kernel) > 0)
