"""Whether a photo was taken through water, and whether that was said.

A fish in a tub is measured wrong by several per cent if nobody said that water stands
over it. Of each fish the network tells how likely it is seen through water, and that
its back is seen, which fish out of the water seldom show; ripples move the markers.
"""

import math
from collections.abc import Sequence
from statistics import median
from typing import Final

from fishmeasure.base.flags import Problem
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.outline import FishOutline, Segmentation

BACK_LOGIT: Final = 2.0
"""What it adds, at most, that backs are seen: a catfish may lie on its belly."""
RIPPLE_LOGIT: Final = 1.5
RIPPLED_MM: Final = 0.15
"""What it adds, at most, that the corners of the markers scatter, and by how much they
do then. Sheets on 66 rendered boards scatter by 0.03 mm, on tubs' bottoms by 0.3 and
more; a curled sheet in the air does so, too, and is no proof."""
DRY_LOGIT: Final = -1.5
STILL_MM: Final = 0.1
"""Below both, with no back seen, a photo said to be through water does not look it: all
66 rendered photos on boards are below the first."""


def water_problem(found: Segmentation, plane: PlaneScale) -> Problem | None:
    """Return what is said where photo and settings differ over the water."""
    told = [one for one in found if one.water_share is not None]
    if not told:
        return None
    if plane.water is None:
        if wet_logit(told, plane) < 0.0:
            return None
        wet = sum(_of_the_fish(one) > 0.0 for one in told)
        return Problem.of(
            "in-water", fatal=True, wet_count=max(wet, 1), fish_count=len(told)
        )
    dry = wet_logit(told, plane) < DRY_LOGIT
    upright = any(one.posture == "upright" for one in told)
    if dry and not upright and plane.rms_residual_mm < STILL_MM:
        return Problem.of("no-water", fish_count=len(told))
    return None


def wet_logit(fish: Sequence[FishOutline], plane: PlaneScale) -> float:
    """Return how much photo and fish look as if through water: over 0 they do.

    On 66 rendered photos on boards, in heaps and on one wet board it is -1.5 at most,
    and above -2.5 on five of them.
    """
    ripples = RIPPLE_LOGIT * min(plane.rms_residual_mm / RIPPLED_MM, 1.0)
    return ripples + median(_of_the_fish(one) for one in fish)


def _of_the_fish(one: FishOutline) -> float:
    back = min(max(_logit(one.upright_share or 0.0), 0.0), BACK_LOGIT)
    return _logit(one.water_share or 0.0) + back


def _logit(share: float) -> float:
    share = min(max(share, 1e-6), 1.0 - 1e-6)
    return math.log(share / (1.0 - share))
