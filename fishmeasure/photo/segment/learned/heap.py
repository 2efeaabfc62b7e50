"""Whether fish lie on one another, and which of them may be used all the same.

A fish on another is nearer the camera and looks longer; how likely it lies there is
told by its own picture and by what it borders on: hidden fish, or what looks like fish
and is part of none that was found. The length allows for it (``photo.length.piled``).
Where no two lie so, one that does, or may go on in another's tail, is not used.
"""

from collections.abc import Sequence
from dataclasses import replace

import cv2
import numpy as np
from scipy.special import expit

from fishmeasure.base.arrays import BoolArray
from fishmeasure.photo.segment.learned.verifier import (
    PILED_CONFIDENCE,
    Assessment,
)

HIDDEN_SHARE = 0.03
"""Of a fish's area within two pixels of a hidden one: that is a border of about a
third of its length. A fish on another is nearer the camera by a thickness, and looks
3 to 5 % too long: 1.8 to 5.3 % on the rendered heaps."""
UNKNOWN_SHARE = 0.05
"""Of a fish's area: what borders on it, looks like fish and is part of none that was
found. 97 fish of 15 rendered photos, apart or touching, have 0.011 at most; a
half-hidden one of a heap, taken as whole and 13 % too long, had 0.074."""
PILED_FISH = 2
"""So many that lie on others or under them make a heap."""
RAISED_SLOPE, RAISED, RAISED_BESIDE = 1.0, 0.0, 1.0
"""Log odds that a fish of a heap lies on others, by the network's logit for that, and
whether it borders so. On eight rendered heaps upper fish have 0.83 on average, lower
ones 0.3."""
ON_OTHERS_SHARE = 0.3
"""From here on it is said of the fish."""
_MIN_AREA_PX = 3 * 16
"""Three of the network's cells: less beside a small fish is its own blurred edge."""
_EDGE_PX = 4  # about an outline: its own fins and soft edge
_NEAR_PX = 6


def flag_heaped_fish(
    assessments: Sequence[Assessment],
    masks: Sequence[BoolArray],
    fish_like: BoolArray,
    *,
    in_water: bool = False,
) -> list[Assessment]:
    """Return the assessments, with how likely each fish lies on others.

    ``masks`` lie in the first picture, ``fish_like`` at a quarter of its size. Upright
    fish swim where the photo is ``in_water``; elsewhere they lie like all others.
    """
    if not masks:
        return []
    hidden = np.zeros_like(masks[0])
    for assessment, mask in zip(assessments, masks, strict=True):
        if "hidden" in assessment.flags and "edge-cut" not in assessment.flags:
            hidden |= mask
    hidden = _grown(hidden, 2)
    piled = sum(one.covering for one in assessments) >= PILED_FISH
    unknown = _unknown(masks, fish_like)
    marked = []
    for one, mask in zip(assessments, masks, strict=True):
        area = float(mask.sum())
        beside_hidden = float((hidden & mask).sum()) > HIDDEN_SHARE * area
        least = max(UNKNOWN_SHARE * area, _MIN_AREA_PX)
        beside = beside_hidden or _beside(mask, unknown) > least
        swims = in_water and one.posture == "upright"
        # Beside a swimming fish lies its shadow, which may look like another fish.
        share = _raised_share(one, beside=beside and not swims) if piled else 0.0
        strict = piled and (not swims or share > ON_OTHERS_SHARE)
        if not piled:
            word = "touching" if beside or one.raised > 0.0 else None
        elif strict and one.confidence < PILED_CONFIDENCE[one.posture]:
            word = "touching"
        else:
            word = "on-others" if share > ON_OTHERS_SHARE else None
        sound = set(one.flags) <= {"under-water"}  # that alone is no doubt of a shape
        flags = (*one.flags, word) if word is not None and sound else one.flags
        marked.append(replace(one, flags=flags, raised_share=share, strict=strict))
    return marked


def _raised_share(one: Assessment, *, beside: bool) -> float:
    """Return how likely a fish lies on others, where some do."""
    logit = RAISED_SLOPE * one.raised + (RAISED_BESIDE if beside else RAISED)
    return float(expit(logit))


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
