"""Lens profiles: focal length and radial distortion of one camera model."""

import json
import math
from functools import partial
from typing import Annotated

from pydantic import Field

from fishmeasure.base.errors import LensFileError
from fishmeasure.base.record import between, longest, plain, read, record
from fishmeasure.base.words import Message
from fishmeasure.photo.image import Photo

_RelativeSd = Annotated[float, between(1e-4, 0.3)]


@record(frozen=True, slots=True, kw_only=True)
class LensFigures:
    """A camera's lens, as `fishmeasure lens` measures it from photos of a board.

    ``camera_model`` is "" where the photos told none: then it is for every photo.
    ``focal_fraction`` is over the diagonal, so that it holds at every size. For the
    others see ``fishmeasure.photo.plane.CameraModel``.
    """

    camera_model: Annotated[
        str, longest(200), Field(description="EXIF make and model.")
    ]
    focal_fraction: Annotated[
        float,
        between(0.2, 20.0),
        Field(description="Focal length over the photo's diagonal, a fraction."),
    ]
    focal_relative_sd: Annotated[
        _RelativeSd, Field(description="Its standard error, a fraction.")
    ]
    k1: Annotated[
        float,
        between(-0.6, 0.6),
        Field(description="Radial distortion, a fraction at the focal length."),
    ]
    k1_sd: Annotated[_RelativeSd, Field(description="Its standard error, a fraction.")]
    photo_count: Annotated[
        int, between(0, 100_000), Field(description="Board photos it is from.")
    ] = 0
    rms_px: Annotated[
        float, between(0.0, 1000.0), Field(description="Residual of corners, px.")
    ] = 0.0


@record(frozen=True, slots=True, kw_only=True)
class LensProfile(LensFigures):
    """A lens profile and its name."""

    name: Annotated[
        str,
        longest(200),
        Field(description="For photos' settings."),
    ]

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
    return json.dumps(plain(profile), indent=2, ensure_ascii=False) + "\n"


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
        raise LensFileError(name, Message.of("lens-not-json")) from None
    return read(LensProfile, data, partial(LensFileError, name))
