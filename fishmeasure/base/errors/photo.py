"""The photo, or a correction of it, cannot be used."""

from fishmeasure.base.errors.base import FishMeasureError


class PhotoError(FishMeasureError):
    """The photo cannot be used."""


class BadCorrectionError(FishMeasureError):
    """A person's correction of a photo cannot be made."""

    code = "bad-correction"

    def __init__(self, number: int, reason: str) -> None:
        super().__init__(
            f"Correction {number} cannot be made: {reason}.",
            "Load the photo again and repeat it.",
        )


class NotAnImageError(PhotoError):
    """The bytes are not a picture that can be read."""

    code = "not-an-image"

    def __init__(self, name: str, reason: str = "") -> None:
        detail = f" ({reason})" if reason else ""
        super().__init__(
            f"{name} is not a picture that can be read{detail}.",
            "Send the photo as the phone saved it: JPEG, PNG, WebP or HEIC.",
        )


class PhotoTooLargeError(PhotoError):
    """The photo is over the limit in bytes or pixels."""

    code = "too-large"

    def __init__(self, name: str, size: str, limit: str) -> None:
        super().__init__(
            f"{name} is too large: {size}, the limit is {limit}.",
            "Take it with the phone's normal setting, not as a panorama or scan.",
        )


class PhotoTooSmallError(PhotoError):
    """The photo has too few pixels for any figure."""

    code = "too-small"

    def __init__(self, name: str, width_px: int, height_px: int) -> None:
        super().__init__(
            f"{name} is only {width_px} x {height_px} pixels.",
            "Send the original photo, not a preview or a cut-out.",
        )


class NotDrawnError(PhotoError):
    """The photo is too long and narrow for a picture with its fish drawn in."""

    code = "not-drawn"

    def __init__(self, name: str, width_px: int, height_px: int) -> None:
        super().__init__(
            f"No picture of {name} was drawn: with {width_px} x {height_px} pixels it "
            "is too long and narrow for labels that can be read.",
            "Send the photo as the phone took it, not a strip of it.",
        )


class ThroughWaterError(PhotoError):
    """Photos of fish in water cannot be measured yet."""

    code = "through-water"

    def __init__(self) -> None:
        super().__init__(
            "Photos through water are not measured yet: the water bends the light, and "
            "lengths would be wrong by several per cent.",
            "Lay the fish out of the water, on a wet board beside the sheet.",
        )
