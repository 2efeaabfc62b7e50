"""Lens profiles: focal length and radial distortion of one camera model."""

import math
from dataclasses import dataclass

from fishmeasure.photo import Photo


@dataclass(frozen=True, slots=True, kw_only=True)
class LensProfile:
    """A camera's lens, measured from photos of a board.

    Attributes
    ----------
    name
        As the user calls it.
    camera_model
        EXIF make and model; the profile is for photos with the same one.
    focal_fraction
        Focal length over the photo's diagonal, so that it holds at every size.
    focal_relative_sd, k1, k1_sd
        See ``fishmeasure.plane.CameraModel``.
    """

    name: str
    camera_model: str
    focal_fraction: float
    focal_relative_sd: float
    k1: float
    k1_sd: float

    def fits(self, photo: Photo) -> bool:
        """Return whether the photo is from this camera (or tells no camera)."""
        return photo.camera_model in {"", self.camera_model}

    def focal_px(self, photo: Photo) -> float:
        """Return the focal length in the photo's full-size pixels."""
        return self.focal_fraction * math.hypot(photo.width_px, photo.height_px)
