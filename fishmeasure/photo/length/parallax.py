"""How high a fish's midline is over the board, and what that does to a length.

A fish on its side rests on its thickest part: its middle plane lies half a
thickness up there, and hangs down towards the board at the snout and the tail.
Seen from a camera H up, a point h up looks too far from the camera's foot by the
factor H / (H - h): 2.5 % for a 29 mm thick fish from 600 mm.

A snout is round from above, so that a slanting view sees round it: what stands out
farthest is no longer its tip.
"""

from dataclasses import dataclass, replace

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.water import Water

OWN_POSE_SHARE_SD = 0.08
"""How far the height of one fish's snout, and of its fork, is from what the fish of
its photo share, over the half thickness. Common practice, no source."""
ENDS_TOGETHER = 0.5
"""Correlation of the two heights between photos: a limp fish lays both ends down, but
nobody measured how much they go together. Common practice, no source."""
STIFF = (0.25, 0.5)
"""Shares of the fork length between which the middle lies level."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Camera:
    """Where the camera is over the plane: its foot (2,) and its height.

    Through ``water`` the height is the apparent one.
    """

    foot_mm: FloatArray
    height_mm: float
    water: Water | None = None

    @classmethod
    def of(cls, plane: PlaneScale) -> "Camera":
        """Return the camera of a plane."""
        centre = -plane.rotation.T @ plane.translation_mm
        return cls(foot_mm=centre[:2], height_mm=float(-centre[2]), water=plane.water)

    @property
    def rise_mm(self) -> float:
        """Height over which a small rise makes things look larger by its share.

        Under water a rise of z looks like one of z / n.
        """
        return self.height_mm * (1.0 if self.water is None else self.water.index)

    def lift(self, points_mm: FloatArray, heights_mm: FloatArray) -> FloatArray:
        """Return where (n, 2) points seen as if on the plane are, so far up."""
        if self.water is not None:
            return self._lift_under(points_mm, heights_mm, self.water)
        share = (heights_mm / self.height_mm)[:, None]
        lifted: FloatArray = points_mm + (self.foot_mm - points_mm) * share
        return lifted

    def _lift_under(
        self, points_mm: FloatArray, heights_mm: FloatArray, water: Water
    ) -> FloatArray:
        away = points_mm - self.foot_mm
        reach = np.hypot(*away.T) + 1e-6  # at the foot only the ratio's limit exists
        tangents = water.tangents(reach, self.height_mm)
        nearer = water.reach_mm(tangents, self.height_mm, heights_mm) / reach
        lifted: FloatArray = self.foot_mm + away * nearer[:, None]
        return lifted

    def slope(self, point_mm: FloatArray, direction: FloatArray) -> float:
        """Return the tangent of the view's slant along a unit vector (2,)."""
        return float((self.foot_mm - point_mm) @ direction) / self.rise_mm

    def beyond_tip_mm(
        self, tip_mm: FloatArray, outward: FloatArray, radius_mm: float
    ) -> float:
        """Return how far beyond its tip (2,) a round end seems to reach.

        The end is a ball: seen with a tangent t along the fish, from before or behind,
        its edge is r sqrt(1 + t^2) from its centre, its tip r.
        """
        slope = self.slope(tip_mm, outward)
        return radius_mm * (float(np.hypot(1.0, slope)) - 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """How a fish lies on the board, or swims over it.

    The shares and their errors are its species' of a fish on its side, and those of
    ``swimming`` of an upright one.

    Attributes
    ----------
    half_thickness_mm
        Of the body from below to above: half the depth of an upright fish.
    snout_share, fork_share
        Heights over the half thickness.
    snout_share_sd, fork_share_sd
        How far those of a photo's fish, limp or stiff, are from them.
    snout_radius_share, snout_radius_share_sd
        Radius of the snout as seen on a fish that swims, from above, over the half
        thickness, and its error; nothing where the tip is the point seen.
    aslope_shorter, aslope_sd, tilt_sd
        Of a fish that lies on others: how much shorter it looks, and the errors of that
        and of its ends' difference in height over the length; see ``piled``.
    own_share_sd
        How far one fish's are from those of the others of its photo.
    clear_mm, clear_own_sd_mm, clear_photo_sd_mm
        How high its lowest point is over the plane, and the errors of that, its own
        and what the fish of the photo share.
    """

    half_thickness_mm: float
    snout_share: float
    fork_share: float
    snout_share_sd: float = 0.0
    fork_share_sd: float = 0.0
    snout_radius_share: float = 0.0
    snout_radius_share_sd: float = 0.0
    own_share_sd: float = OWN_POSE_SHARE_SD
    clear_mm: float = 0.0
    clear_own_sd_mm: float = 0.0
    clear_photo_sd_mm: float = 0.0
    aslope_shorter: float = 0.0
    aslope_sd: float = 0.0
    tilt_sd: float = 0.0

    def stiffer(self, sds: float) -> "Pose":
        """Return how a fish lies that is stiffer by so many of a photo's errors."""
        return replace(
            self,
            snout_share=max(self.snout_share + sds * self.snout_share_sd, 0.0),
            fork_share=max(self.fork_share + sds * self.fork_share_sd, 0.0),
        )

    def heights_mm(self, share: FloatArray) -> FloatArray:
        """Return heights of the midline at shares (snout 0, fork 1) of its length."""
        levels = (self.snout_share, 1.0, 1.0, self.fork_share)
        heights: FloatArray = np.interp(share, (0.0, *STIFF, 1.0), levels)
        return self.clear_mm + self.half_thickness_mm * heights


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
