"""Lens profiles: focal length and radial distortion of one camera model."""

import json
import math
from dataclasses import asdict, dataclass, fields

from fishmeasure.base.errors import LensFileError
from fishmeasure.photo.image import Photo


@dataclass(frozen=True, slots=True, kw_only=True)
class LensProfile:
    """A camera's lens, measured from photos of a board.

    Attributes
    ----------
    name
        As the user calls it.
    camera_model
        EXIF make and model; the profile is for photos with the same one. "" where
        the photos told none: then it is for every photo.
    focal_fraction
        Focal length over the photo's diagonal, so that it holds at every size.
    focal_relative_sd, k1, k1_sd
        See ``fishmeasure.photo.plane.CameraModel``.
    photo_count, rms_px
        How many photos it is from, and how well they fit.
    """

    name: str
    camera_model: str
    focal_fraction: float
    focal_relative_sd: float
    k1: float
    k1_sd: float
    photo_count: int = 0
    rms_px: float = 0.0

    def fits(self, photo: Photo) -> bool:
        """Return whether the photo is from this camera, or one of them is unknown."""
        return "" in {photo.camera_model, self.camera_model} or (
            photo.camera_model == self.camera_model
        )

    def focal_px(self, photo: Photo) -> float:
        """Return the focal length in the photo's full-size pixels."""
        return self.focal_fraction * math.hypot(photo.width_px, photo.height_px)


def lens_to_text(profile: LensProfile) -> str:
    """Return the profile as the text of its JSON file."""
    return json.dumps(asdict(profile), indent=2, ensure_ascii=False) + "\n"


def read_lens(text: str, name: str) -> LensProfile:
    """Return the profile in a JSON file.

    Parameters
    ----------
    text
        Content of the file.
    name
        Of the file, for messages.

    Raises
    ------
    LensFileError
        If the text is no profile, or a value cannot be.
    """
    try:
        data = json.loads(text)
    except (ValueError, RecursionError):
        raise LensFileError(name, "it is not JSON") from None
    known = {field.name: field.type for field in fields(LensProfile)}
    if not isinstance(data, dict) or set(data) - set(known):
        raise LensFileError(name, "it is not a lens profile")
    for key in ("name", "camera_model"):
        if not isinstance(data.get(key), str):
            raise LensFileError(name, f"{key} is missing")
    limits = {
        "focal_fraction": (0.2, 20.0),
        "focal_relative_sd": (1e-4, 0.3),
        "k1": (-0.6, 0.6),
        "k1_sd": (1e-4, 0.3),
        "photo_count": (0, 100_000),
        "rms_px": (0.0, 1000.0),
    }
    for key, (low, high) in limits.items():
        value = data.get(key, None if key in _REQUIRED else 0)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise LensFileError(name, f"{key} is not a number")
        if not low <= value <= high:
            raise LensFileError(name, f"{key} must be from {low:g} to {high:g}")
    return LensProfile(**data)


_REQUIRED = {"focal_fraction", "focal_relative_sd", "k1", "k1_sd"}
