"""What is known of the camera before any marker is looked at."""

import math
from dataclasses import dataclass

from fishmeasure.photo.image import FILM_DIAGONAL_MM, Photo
from fishmeasure.photo.lens import LensProfile
from fishmeasure.photo.plane import CameraModel, FocalSource

EXIF_FOCAL_RELATIVE_SD = 0.03
"""Whole millimetres (0.3 mm sd at 26 mm: 1.1 %), diagonal or width (4 % apart on a
4:3 sensor), and focus breathing at half a metre (about 1 % by the thin lens law)."""

TYPICAL_FOCAL_35MM = 26.0
TYPICAL_FOCAL_RELATIVE_SD = 0.25
"""Of a photo that says nothing of it. Main cameras of phones have 23 to 28 mm (common
practice, no source), which is as if 33 to 40 in a picture cut to 0.7 of its sides; a
zoom of 2, 52 mm, is within two and a half standard deviations."""
CUT_FOCAL_35MM = 36.0
CUT_FOCAL_RELATIVE_SD = 0.35
"""Of one whose sides are in no proportion in which cameras photograph: it was cut."""
_CAMERA_ASPECTS = (1.0, 4 / 3, 1.5, 16 / 9)
_ASPECT_SLACK = 0.015

K1_SD = 0.05
"""Of an unknown lens; published tables for phones were not found, see the design's
error budget, which takes |k1| <= 0.03 for phones that correct in the camera. With 0.02
the scale of 28 rendered photos was off by 0.25 % instead of 0.08: a sheet's markers
know k1 better than that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CameraPrior:
    """Expected focal length and first radial coefficient, with their sds."""

    focal_px: float
    focal_relative_sd: float
    k1: float
    k1_sd: float
    centre_x_px: float
    centre_y_px: float
    source: FocalSource

    def model(self, focal_px: float, k1: float) -> CameraModel:
        """Return the camera with other values and the same centre."""
        return CameraModel(
            focal_px=focal_px,
            k1=k1,
            centre_x_px=self.centre_x_px,
            centre_y_px=self.centre_y_px,
        )


def camera_prior(photo: Photo, lens: LensProfile | None = None) -> CameraPrior:
    """Return what is known: the lens profile, else EXIF, else a typical phone.

    Each is only where the fit begins, with its error: the markers' own perspective
    goes before it where that tells more (``bundle``). A profile is of the whole
    picture, so that it says nothing of one that was cut. The optical axis is taken to
    meet the middle of the photo.
    """
    diagonal_px = math.hypot(photo.width_px, photo.height_px)
    focal_35mm, relative_sd = _typical_focal(photo)
    focal_px = focal_35mm / FILM_DIAGONAL_MM * diagonal_px
    k1, k1_sd = 0.0, K1_SD
    source: FocalSource = "typical"
    if lens is not None and lens.fits(photo) and not _may_be_cut(photo):
        focal_px = lens.focal_px(photo)
        relative_sd, k1, k1_sd = lens.focal_relative_sd, lens.k1, lens.k1_sd
        source = "lens-profile"
    elif photo.focal_length_px is not None:
        focal_px, relative_sd = photo.focal_length_px, EXIF_FOCAL_RELATIVE_SD
        source = "exif"
    return CameraPrior(
        focal_px=focal_px,
        focal_relative_sd=relative_sd,
        k1=k1,
        k1_sd=k1_sd,
        centre_x_px=(photo.width_px - 1) / 2.0,
        centre_y_px=(photo.height_px - 1) / 2.0,
        source=source,
    )


def _may_be_cut(photo: Photo) -> bool:
    """Return whether it is a part of a picture, by EXIF or, without, its sides."""
    if photo.was_cut or photo.focal_length_px is not None:
        return photo.was_cut
    long_px, short_px = sorted((photo.width_px, photo.height_px), reverse=True)
    aspect = long_px / short_px
    return all(abs(aspect / known - 1.0) >= _ASPECT_SLACK for known in _CAMERA_ASPECTS)


def _typical_focal(photo: Photo) -> tuple[float, float]:
    """Return the focal length of a photo that tells none, and its relative sd."""
    if _may_be_cut(photo):
        return CUT_FOCAL_35MM, CUT_FOCAL_RELATIVE_SD
    return TYPICAL_FOCAL_35MM, TYPICAL_FOCAL_RELATIVE_SD
