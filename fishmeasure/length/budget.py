"""Where the error of one fork length comes from, and how much each cause adds."""

from dataclasses import dataclass, replace

import numpy as np

from fishmeasure.arrays import FloatArray
from fishmeasure.length.parallax import (
    FORK_SHARE_SD,
    SNOUT_SHARE_SD,
    Camera,
    Lie,
)
from fishmeasure.plane import PlaneScale
from fishmeasure.uncertainty import Scope, UncertaintySource

THICKNESS_SPECIES_SD = 0.10
THICKNESS_FISH_SD = 0.10
"""Relative, of the thickness over the depth: between species as tabled and real,
and between fish. From memory; no table of thickness was found."""
END_PX = 0.8
END_SHARE = 0.003
"""Standard deviation of one end point: in pixels of the photo, and as a share of the
fork length (jaw open or shut, frayed middle rays)."""
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

    def length_mm(self, camera: Camera, lie: Lie) -> float:
        """Return the length at the true height, the bend straightened."""
        arc, chord = self._arc_and_chord(camera, lie)
        return chord + self.bend_share * (arc - chord)

    def bend_excess(self, camera: Camera, lie: Lie) -> float:
        """Return what the bend adds to the straight distance, as a fraction."""
        arc, chord = self._arc_and_chord(camera, lie)
        return (arc - chord) / chord

    def _arc_and_chord(self, camera: Camera, lie: Lie) -> tuple[float, float]:
        heights = lie.heights_mm(np.linspace(0.0, 1.0, len(self.points_mm)))
        lifted = np.column_stack([camera.lift(self.points_mm, heights), heights])
        arc = float(np.sum(np.linalg.norm(np.diff(lifted, axis=0), axis=1)))
        return arc, float(np.linalg.norm(lifted[-1] - lifted[0]))


def error_sources(
    course: Course, camera: Camera, lie: Lie, plane: PlaneScale
) -> tuple[UncertaintySource, ...]:
    """Return the causes of error of a fork length, as fractions of it."""
    length = course.length_mm(camera, lie)

    def change(other_camera: Camera, other: Lie) -> float:
        return abs(course.length_mm(other_camera, other) / length - 1.0)

    thicker = replace(lie, half_thickness_mm=1.1 * lie.half_thickness_mm)
    thickness = change(camera, thicker) / 0.1
    snout_up = replace(lie, snout_share=lie.snout_share + SNOUT_SHARE_SD)
    fork_up = replace(lie, fork_share=lie.fork_share + FORK_SHARE_SD)
    higher = replace(camera, height_mm=1.01 * camera.height_mm)
    focal = 100.0 * change(higher, lie) * plane.camera.focal_relative_sd
    end_mm = np.hypot(END_PX / plane.px_per_mm, END_SHARE * length)
    bend = BEND_SHARE_SD * course.bend_excess(camera, lie)
    lie_change = float(np.hypot(change(camera, snout_up), change(camera, fork_up)))
    own: tuple[tuple[str, float, Scope], ...] = (
        ("thickness of the species", thickness * THICKNESS_SPECIES_SD, "species"),
        ("camera height", focal, "photo"),
        ("thickness of the fish", thickness * THICKNESS_FISH_SD, "fish"),
        ("how head and tail lie", lie_change, "fish"),
        ("end points", float(np.sqrt(2.0) * end_mm / length), "fish"),
        ("bend", bend, "fish"),
    )
    return (
        *_scale_sources(plane),
        *(
            UncertaintySource(name=name, relative_sd=sd, scope=scope)
            for name, sd, scope in own
        ),
    )


def _scale_sources(plane: PlaneScale) -> tuple[UncertaintySource, ...]:
    """Return the plane's own sources; what they leave of its error is 'scale'."""
    known = total_relative_sd(plane.sources)
    rest = float(np.sqrt(max(plane.relative_se**2 - known**2, 0.0)))
    if rest < 1e-6:
        return plane.sources
    scale = UncertaintySource(name="scale", relative_sd=rest, scope="photo")
    return (*plane.sources, scale)


def total_relative_sd(sources: tuple[UncertaintySource, ...]) -> float:
    """Return the root sum of squares of the sources."""
    return float(np.sqrt(sum(source.relative_sd**2 for source in sources)))
