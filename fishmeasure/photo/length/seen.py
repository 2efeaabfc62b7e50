"""What is seen of one fish on the plane, before it is said how high it was."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.base.flags import is_complete
from fishmeasure.photo.length.budget import Course, error_sources
from fishmeasure.photo.length.ends import Ends
from fishmeasure.photo.length.midline import Midline
from fishmeasure.photo.length.parallax import Camera, Pose
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.outline import FishOutline


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Seen:
    """One outline, its ends and the course between them."""

    outline: FishOutline
    plane: PlaneScale
    camera: Camera
    midline: Midline
    ends: Ends
    course: Course
    flags: tuple[str, ...]

    @property
    def outlined_mm2(self) -> float:
        """Area within the outline as seen on the plane."""
        return area_of(self.plane.to_plane_mm(self.outline.contour_px))

    def sources(self, pose: Pose, tail_sd: float) -> tuple[UncertaintySource, ...]:
        """Return the causes of error of the length along the course."""
        return error_sources(
            self.course,
            self.camera,
            pose,
            self.plane,
            tail_sd=tail_sd,
            ends_se_mm=self.outline.ends_se_mm,
        )

    def common(self) -> dict[str, Any]:
        """Return the fields of ``FishLength`` that no height changes."""
        outline, plane, ends = self.outline, self.plane, self.ends
        odds = 1.0 + float(np.exp(-ends.tail_odds_ln))
        return {
            "bend_deg": float(abs(np.rad2deg(self.midline.turn_rad))),
            "outline_px": outline.contour_px,
            "midline_px": plane.to_photo_px(self.course.points_mm),
            "snout_px": plane.to_photo_px(ends.snout[None])[0],
            "fork_px": plane.to_photo_px(ends.fork[None])[0],
            "ends_se_mm": outline.ends_se_mm,
            "posture": outline.posture,
            "confidence": outline.confidence / odds,
            "complete": is_complete(self.flags),
            "flags": self.flags,
        }


def area_of(contour_mm: FloatArray) -> float:
    """Return the area within an outline (n, 2)."""
    x, y = contour_mm.T
    return 0.5 * abs(float(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1))))
