"""How high a fish's midline is over the board, and what that does to a length.

A fish on its side rests on its thickest part: its middle plane lies half a
thickness up there, and hangs down towards the board at the snout and the tail.
Seen from a camera H up, a point h up looks too far from the camera's foot by the
factor H / (H - h): 2.5 % for a 29 mm thick fish from 600 mm.
"""

from dataclasses import dataclass

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.plane import PlaneScale

SNOUT_SHARE, SNOUT_SHARE_SD = 0.65, 0.2
FORK_SHARE, FORK_SHARE_SD = 0.2, 0.2
"""Heights over the half thickness, midway between a stiff fish, that lies level, and
a limp one, of which every part touches the board (the fin's rays bend in either).
Reasoned, not measured: no published figure was found."""
OWN_LIE_SHARE_SD = 0.08
"""Of the two spreads, what is a fish's own. The rest is shared by a photo: rigor, and
how its fish were laid. Reasoned, not measured."""
STIFF = (0.25, 0.5)
"""Shares of the fork length between which the middle lies level."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Camera:
    """Where the camera is over the plane: its foot (2,) and its height."""

    foot_mm: FloatArray
    height_mm: float

    @classmethod
    def of(cls, plane: PlaneScale) -> "Camera":
        """Return the camera of a plane."""
        centre = -plane.rotation.T @ plane.translation_mm
        return cls(foot_mm=centre[:2], height_mm=float(-centre[2]))

    def lift(self, points_mm: FloatArray, heights_mm: FloatArray) -> FloatArray:
        """Return where (n, 2) points seen as if on the plane are, so far up."""
        share = (heights_mm / self.height_mm)[:, None]
        lifted: FloatArray = points_mm + (self.foot_mm - points_mm) * share
        return lifted

    def slope(self, point_mm: FloatArray, direction: FloatArray) -> float:
        """Return the tangent of the view's slant along a unit vector (2,)."""
        return float((self.foot_mm - point_mm) @ direction) / self.height_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """How a fish lies on the board."""

    half_thickness_mm: float
    snout_share: float = SNOUT_SHARE
    fork_share: float = FORK_SHARE

    def heights_mm(self, share: FloatArray) -> FloatArray:
        """Return heights of the midline at shares (snout 0, fork 1) of its length."""
        levels = (self.snout_share, 1.0, 1.0, self.fork_share)
        heights: FloatArray = np.interp(share, (0.0, *STIFF, 1.0), levels)
        return self.half_thickness_mm * heights


def true_depth_mm(
    seen_mm: float, slope: float, thickness_per_depth: float, camera_height_mm: float
) -> float:
    """Return the depth of a body seen obliquely as if flat on the plane.

    The body's section is taken as an ellipse: from a slant with tangent ``slope``
    across it, its silhouette is wider by sqrt(1 + (t/d)^2 slope^2), and it lies half
    a thickness up.
    """
    level = seen_mm / float(np.hypot(1.0, thickness_per_depth * slope))
    # depth = level (1 - k depth / (2 H)), solved for the depth
    return level / (1.0 + 0.5 * thickness_per_depth * level / camera_height_mm)
