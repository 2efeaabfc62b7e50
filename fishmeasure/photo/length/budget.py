"""Where the error of one fork length comes from, and how much each cause adds."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Scope, UncertaintySource
from fishmeasure.photo.length.parallax import (
    ENDS_TOGETHER,
    Camera,
    Pose,
)
from fishmeasure.photo.length.record import FishLength
from fishmeasure.photo.plane import PlaneScale

THICKNESS_SPECIES_SD = 0.10
THICKNESS_FISH_SD = 0.10
"""Relative, of the thickness over the depth: between species as tabled and real,
and between fish. From memory; no table of thickness was found."""
END_PX = 0.8
END_SHARE = 0.003
"""Standard deviation of one end point that was put by hand or is the outline's: in
pixels of the photo, and as a share of the fork length (jaw open or shut, frayed middle
rays)."""
COMMON_ENDS_SHARE = 0.0027
"""Of the fork length: what the ends of one photo's fish have in common, its light and
board. Means of 40 rendered photos scatter by 0.25 % at the snout, 0.1 % at the fork."""
HEAD_STATIONS: Final = 8
"""The head points to where it begins: an eighth of the course."""
ROUND: Final = "how round the snout is"
LAID: Final = "how fish were laid"
SWIMS: Final = "how high fish swim"
ON_OTHERS: Final = "fish below it"
BEND_SHARE_SD = 0.08
"""Of what the bend adds: how well the middle of the outline follows the backbone."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Course:
    """The midline from snout to fork as seen on the plane, mm.

    Attributes
    ----------
    points_mm
        (m, 2), snout first.
    bend_share
        How much of its curvature is a bend of the fish, and not its shape.
    """

    points_mm: FloatArray
    bend_share: float = 0.0

    def length_mm(self, camera: Camera, pose: Pose) -> float:
        """Return the length at the true height, the bend straightened.

        It is taken parallel to the board, as a measuring board reads it: that a tail
        hangs down to the board makes no fish longer.
        """
        arc, chord = self._arc_and_chord(camera, pose)
        seen_mm = chord + self.bend_share * (arc - chord)
        return seen_mm * (1.0 + pose.aslope_shorter)

    def bend_excess(self, camera: Camera, pose: Pose) -> float:
        """Return what the bend adds to the straight distance, as a fraction."""
        arc, chord = self._arc_and_chord(camera, pose)
        return (arc - chord) / chord

    def _arc_and_chord(self, camera: Camera, pose: Pose) -> tuple[float, float]:
        heights = pose.heights_mm(np.linspace(0.0, 1.0, len(self.points_mm)))
        lifted = camera.lift(self.points_mm, heights)
        lifted[0] -= self._beyond_snout_mm(camera, pose)
        arc = float(np.sum(np.linalg.norm(np.diff(lifted, axis=0), axis=1)))
        return arc, float(np.linalg.norm(lifted[-1] - lifted[0]))

    def _beyond_snout_mm(self, camera: Camera, pose: Pose) -> FloatArray:
        """Return (2,) from the snout's tip to what of it is seen outermost."""
        snout = self.points_mm[0]
        outward = snout - self.points_mm[len(self.points_mm) // HEAD_STATIONS]
        outward = outward / max(float(np.linalg.norm(outward)), 1e-9)
        radius_mm = pose.snout_radius_share * pose.half_thickness_mm
        beyond: FloatArray = outward * camera.beyond_tip_mm(snout, outward, radius_mm)
        return beyond


def error_sources(
    course: Course,
    camera: Camera,
    pose: Pose,
    plane: PlaneScale,
    *,
    tail_sd: float = 0.0,
    ends_se_mm: tuple[float, float] | None = None,
) -> tuple[UncertaintySource, ...]:
    """Return the causes of error of a fork length, as fractions of it.

    ``tail_sd`` is what it costs that the tail may be at the other end; ``ends_se_mm``
    are the errors of snout and fork, where they are known.
    """
    length = course.length_mm(camera, pose)

    def change(other_camera: Camera, other: Pose) -> float:
        return abs(course.length_mm(other_camera, other) / length - 1.0)

    thicker = replace(pose, half_thickness_mm=1.1 * pose.half_thickness_mm)
    thickness = change(camera, thicker) / 0.1
    higher = replace(camera, height_mm=1.01 * camera.height_mm)
    focal = 100.0 * change(higher, pose) * plane.camera.focal_relative_sd
    end_mm = float(np.hypot(END_PX / plane.px_per_mm, END_SHARE * length))
    ends = float(np.hypot(*(ends_se_mm or (end_mm, end_mm)))) / length
    common = 0.0 if ends_se_mm is None else COMMON_ENDS_SHARE
    radius = pose.snout_radius_share + pose.snout_radius_share_sd
    rounder = change(camera, replace(pose, snout_radius_share=radius))
    bend = BEND_SHARE_SD * course.bend_excess(camera, pose)
    pose_own, pose_photo = _pose_sds(partial(change, camera), pose)
    own: tuple[tuple[str, float, Scope], ...] = (
        ("thickness of the species", thickness * THICKNESS_SPECIES_SD, "species"),
        ("camera height", focal, "photo"),
        (ROUND, rounder, "species"),
        ("thickness of the fish", thickness * THICKNESS_FISH_SD, "fish"),
        (LAID, pose_photo, "photo"),
        ("how head and tail lie", pose_own, "fish"),
        ("end points", ends, "fish"),
        ("light at the end points", common, "photo"),
        ("bend", bend, "fish"),
        ("which end is the tail", tail_sd, "fish"),
    )
    if pose.aslope_sd > 0.0:
        own = (*own, *_of_a_pile(change, camera, pose, plane, length))
    if plane.water is not None:
        own = (*own, *_of_water(change, camera, pose, plane, length))
    return (
        *_scale_sources(course.points_mm, plane),
        *(
            UncertaintySource(name=name, relative_sd=sd, scope=scope)
            for name, sd, scope in own
        ),
    )


def _of_a_pile(
    change: Callable[[Camera, Pose], float],
    camera: Camera,
    pose: Pose,
    plane: PlaneScale,
    length_mm: float,
) -> tuple[tuple[str, float, Scope], ...]:
    """Return what is added where a fish may lie on others: how high, how aslope.

    Through water the height is among those at which fish swim.
    """
    per_mm = change(camera, replace(pose, clear_mm=pose.clear_mm + 5.0)) / 5.0
    height = per_mm * pose.clear_own_sd_mm if plane.water is None else 0.0
    lean = 0.5 * pose.tilt_sd * length_mm / max(pose.half_thickness_mm, 1e-6)
    tilt = 0.5 * sum(
        change(
            camera,
            replace(
                pose,
                snout_share=pose.snout_share - way * lean,
                fork_share=pose.fork_share + way * lean,
            ),
        )
        for way in (1.0, -1.0)
    )
    return ((ON_OTHERS, math.hypot(height, pose.aslope_sd, tilt), "fish"),)


def _of_water(
    change: Callable[[Camera, Pose], float],
    camera: Camera,
    pose: Pose,
    plane: PlaneScale,
    length_mm: float,
) -> tuple[tuple[str, float, Scope], ...]:
    """Return what is added through water: heights over the bottom, and ripples.

    Ripples move a fish's ends as they move the markers' corners.
    """
    per_mm = change(camera, replace(pose, clear_mm=pose.clear_mm + 5.0)) / 5.0
    ripples = math.sqrt(2.0) * plane.rms_residual_mm / length_mm
    return (
        (SWIMS, per_mm * pose.clear_photo_sd_mm, "photo"),
        (SWIMS, per_mm * pose.clear_own_sd_mm, "fish"),
        ("ripples", ripples, "fish"),
    )


def _pose_sds(change: Callable[[Pose], float], pose: Pose) -> tuple[float, float]:
    """Return the error from a fish's own pose, and from what a photo's fish share.

    Where the camera is beyond an end, ends that are both higher partly undo each other
    in the length.
    """
    snout, fork = (
        np.array(
            [change(replace(pose, **{name: getattr(pose, name) + sd})) for sd in sds]
        )
        for name, sds in (
            ("snout_share", (pose.own_share_sd, pose.snout_share_sd)),
            ("fork_share", (pose.own_share_sd, pose.fork_share_sd)),
        )
    )
    own, apart = np.hypot(snout, fork)
    together = change(pose.stiffer(1.0))
    shared = ENDS_TOGETHER * together**2 + (1.0 - ENDS_TOGETHER) * apart**2
    return float(own), float(np.sqrt(shared))


def _scale_sources(
    points_mm: FloatArray, plane: PlaneScale
) -> tuple[UncertaintySource, ...]:
    """Return the plane's sources, those of the photo set to where the fish lies."""
    points_px = plane.to_photo_px(points_mm[:: max(1, len(points_mm) // 6)])
    here = float(np.mean(plane.relative_se_at(points_px) ** 2))
    common = tuple(source for source in plane.sources if source.scope != "photo")
    local = tuple(source for source in plane.sources if source.scope == "photo")
    wanted = np.sqrt(max(here - total_relative_sd(common) ** 2, 0.0))
    given = total_relative_sd(local)
    factor = float(wanted) / given if given > 0.0 else 0.0
    moved = (
        replace(source, relative_sd=factor * source.relative_sd) for source in local
    )
    return (*common, *moved)


OF_THE_ENDS: Final = frozenset(
    {
        "end points",
        "light at the end points",
        "which end is the tail",
        "how head and tail lie",
        LAID,
        ROUND,
        "ripples",
    }
)
"""Causes that move an end: they change the squared depth along the body little, a fork
1 % off by 0.4 % (19 outlines of salmon parr). Others change it as a volume."""
ENDS_FACTOR: Final = 0.4
VOLUME_FACTOR: Final = 3.0
EDGE_SHARE: Final = 0.0038
"""Of the fork length, of both edges of a body together: of a fish, and the same again
shared by the fish of a photo. On 214 rendered fish of 38 photos, a third of them apart
from training, squared depth scattered by 4 to 6 % within photos and 4.0 to 4.6 %
between them; 2.9 % for a pixel on either side of a fish of 1,000 pixels is the same (19
outlines of salmon parr)."""


def squared_depth_sources(
    length: FishLength,
) -> tuple[tuple[UncertaintySource, float], ...]:
    """Return what squared depth errs by: each cause, and what it does to the length.

    Both are relative standard errors and go the same way, so that what they share is
    counted once.
    """
    if length.squared_depth_mm3 is None:
        return ()
    shared = tuple(
        (
            replace(
                source,
                relative_sd=source.relative_sd
                * (ENDS_FACTOR if source.name in OF_THE_ENDS else VOLUME_FACTOR),
            ),
            source.relative_sd,
        )
        for source in length.sources
    )
    depth_share = np.sqrt(length.squared_depth_mm3 / length.fork_length_mm**3)
    edges = 2.0 * EDGE_SHARE / float(depth_share)
    scopes: tuple[Scope, Scope] = ("fish", "photo")
    own = (
        UncertaintySource(name="edges of the body", relative_sd=edges, scope=scope)
        for scope in scopes
    )
    return (*shared, *((source, 0.0) for source in own))


def total_relative_sd(sources: tuple[UncertaintySource, ...]) -> float:
    """Return the root sum of squares of the sources."""
    return float(np.sqrt(sum(source.relative_sd**2 for source in sources)))
