"""The photo, or a correction of it, cannot be used."""

from fishmeasure.base.errors.base import FishMeasureError
from fishmeasure.base.words import Reason


class PhotoError(FishMeasureError):
    """The photo cannot be used."""


class BadCorrectionError(FishMeasureError):
    """A person's correction of a photo cannot be made."""

    code = "bad-correction"

    def __init__(self, number: int, reason: Reason) -> None:
        super().__init__(number=number, reason=reason)


class NotAnImageError(PhotoError):
    """The bytes are not a picture that can be read."""

    code = "not-an-image"

    def __init__(self, name: str, reason: Reason = "") -> None:
        super().__init__(case="reason" if reason else "plain", name=name, reason=reason)


class PhotoTooLargeError(PhotoError):
    """The photo is over the limit in bytes or pixels."""

    code = "too-large"

    def __init__(self, name: str, size: Reason, limit: Reason) -> None:
        super().__init__(case="photo", name=name, size=size, limit=limit)


class PhotoTooSmallError(PhotoError):
    """The photo has too few pixels for any figure."""

    code = "too-small"

    def __init__(self, name: str, width_px: int, height_px: int) -> None:
        super().__init__(name=name, width_px=width_px, height_px=height_px)


class NotDrawnError(PhotoError):
    """The photo is too long and narrow for a picture with its fish drawn in."""

    code = "not-drawn"

    def __init__(self, name: str, width_px: int, height_px: int) -> None:
        super().__init__(name=name, width_px=width_px, height_px=height_px)
