"""A fish that is seen from above, upright: how high its ends are, and its fork.

Its back is what is seen, and its tail fin on edge: the hindmost point is the tip of the
upper lobe, so total length is measured, and the fork, which lies under the tip, follows
from the proportions of its kind. Swimming fish keep some way over the bottom.
"""

import math
from typing import Final

import numpy as np

from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.photo.length.budget import total_relative_sd
from fishmeasure.photo.length.parallax import Camera, Pose
from fishmeasure.photo.length.piled import piled
from fishmeasure.photo.length.record import FishLength, FishShape
from fishmeasure.photo.length.seen import Seen
from fishmeasure.photo.water import Water

CLEAR_MM: Final = (3.0, 30.0)
"""Between belly and bottom in a tub, all heights between alike. Common practice, no
source: none was found for trout in tubs."""
OVER_BACK_MM: Final = 5.0
"""Least water over the back of a fish that swims. Common practice, no source."""
TAIL_SPAN: Final = 0.213
"""Of the length, upper to lower tip: 0.18 L^1.05 (cm) of swimming rainbow trout, 6.4 cm
at 30 cm (Webb et al. 1984, J. Exp. Biol. 109:77-95, abstract). The upper tip is half of
it over the axis."""
SNOUT_SHARE, SNOUT_SHARE_SD = 0.9, 0.1
"""Height of the snout over the belly, in half depths: a little under the axis. Common
practice, no source."""
TIP_SHARE_SD: Final = 0.2
"""Of the tail tip's height between stocks, in half depths: lobes half folded. Common
practice, no source."""
PITCH_SHARE_SD: Final = 0.15
"""Of either end of one fish, in half depths: it swims up or down by two degrees. Common
practice, no source."""
PRESSED_RELATIVE_SD: Final = 0.01
"""Of total length between lobes as the fish carries them and pressed together, as some
of the tables have it. Common practice, no source."""
RATIO: Final = "fork over total length"
FORK_FISH_SD: Final = 0.008
"""Of fork over total length between fish of a stock: 86 lake trout (Arctic LTER)."""


def swimming(
    shape: FishShape, seen_mm: float, camera: Camera, water: Water | None
) -> Pose:
    """Return how an upright fish is over the plane: swimming, or belly on a board.

    Parameters
    ----------
    shape
        Of its kind; its depth is not seen.
    seen_mm
        Its total length as seen on the plane.
    camera, water
        What it is seen through; ``None`` in air.
    """
    fork_mm = shape.fork_per_total * seen_mm
    half_mm = 0.5 * shape.depth_per_fork_length * fork_mm
    for _ in range(3):  # nearer the camera it looks longer than it is
        middle_mm = half_mm + _clear_mm(half_mm, water)[0]
        half_mm = 0.5 * shape.depth_per_fork_length * fork_mm
        half_mm *= 1.0 - middle_mm / camera.rise_mm
    clear_mm, sd_mm = _clear_mm(half_mm, water)
    tip_share = 1.0 + 0.5 * TAIL_SPAN / (0.5 * shape.depth_per_fork_length)
    return Pose(
        half_thickness_mm=half_mm,
        snout_share=SNOUT_SHARE,
        fork_share=tip_share,
        snout_share_sd=SNOUT_SHARE_SD,
        fork_share_sd=TIP_SHARE_SD,
        own_share_sd=PITCH_SHARE_SD,
        clear_mm=clear_mm,
        clear_own_sd_mm=sd_mm * math.sqrt(0.5),
        clear_photo_sd_mm=sd_mm * math.sqrt(0.5),
    )


def _clear_mm(half_depth_mm: float, water: Water | None) -> tuple[float, float]:
    """Return how high a belly is over the plane, and the error of that.

    A known depth of water leaves a fish no more room than its back needs.
    """
    if water is None:
        return 0.0, 1.0
    low, high = CLEAR_MM
    if water.depth_known:
        room_mm = water.depth_mm - 2.0 * half_depth_mm - OVER_BACK_MM
        high = min(high, max(room_mm, low))
    return 0.5 * (low + high), max((high - low) / math.sqrt(12.0), 1.0)


def of_the_fork(shape: FishShape) -> tuple[UncertaintySource, ...]:
    """Return what is added by taking the fork length from the total length."""
    ratio_sd = math.hypot(shape.fork_per_total_relative_sd, PRESSED_RELATIVE_SD)
    return (
        UncertaintySource(name=RATIO, relative_sd=ratio_sd, scope="species"),
        UncertaintySource(name=RATIO, relative_sd=FORK_FISH_SD, scope="fish"),
    )


def of_upright(seen: Seen, shape: FishShape) -> FishLength:
    """Return the lengths of an upright fish: its total length is seen, to the tip.

    What is seen across it is its thickness; its depth is that of its kind.
    """
    ends, camera = seen.ends, seen.camera
    seen_mm = ends.fork_along - ends.snout_along
    pose = swimming(shape, seen_mm, camera, seen.plane.water)
    pose = piled(pose, seen.outline.raised_share)
    total_mm = seen.course.length_mm(camera, pose)
    of_total = seen.sources(pose, 0.0)
    total_sd = total_relative_sd(of_total)
    sources = (*of_total, *of_the_fork(shape))
    fork_mm = shape.fork_per_total * total_mm
    fork_sd = total_relative_sd(sources)
    standard_mm = shape.standard_per_total * total_mm
    depth_mm = 2.0 * pose.half_thickness_mm
    depth_sd = shape.depth_per_fork_length_sd / shape.depth_per_fork_length
    nearer = 1.0 - (pose.clear_mm + pose.half_thickness_mm) / camera.rise_mm
    return FishLength(
        fork_length_mm=fork_mm,
        fork_length_se_mm=fork_sd * fork_mm,
        total_length_mm=total_mm,
        total_length_se_mm=total_sd * total_mm,
        standard_length_mm=standard_mm,
        standard_length_se_mm=float(np.hypot(fork_sd, FORK_FISH_SD)) * standard_mm,
        body_depth_mm=depth_mm,
        body_depth_se_mm=depth_sd * depth_mm,
        thickness_mm=ends.depth * nearer,
        area_mm2=seen.outlined_mm2 * nearer**2,
        sources=sources,
        **seen.common(),
    )
