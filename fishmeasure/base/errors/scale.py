"""No scale can be had from the photo, or no lens profile."""

from fishmeasure.base.errors.base import FishMeasureError


class MarkerError(FishMeasureError):
    """No scale can be had from the photo."""


class LensError(FishMeasureError):
    """A lens profile cannot be made or read."""


class LensFileError(LensError):
    """The file is no lens profile."""

    code = "lens-file"

    def __init__(self, name: str, reason: str) -> None:
        super().__init__(
            f"{name} cannot be used as a lens profile: {reason}.",
            "Make one from photos of the printed lens board.",
        )


class MixedCamerasError(LensError):
    """The photos of the board are from more than one camera or setting."""

    code = "lens-photos"

    def __init__(self) -> None:
        super().__init__(
            "These photos are not from one camera at one size, so they give no lens "
            "profile.",
            "Give photos taken with the same phone, lens and setting.",
        )


class TooFewBoardPhotosError(LensError):
    """Too few photos show the board well."""

    code = "lens-photos"

    def __init__(self, found: int, given: int, needed: int) -> None:
        super().__init__(
            f"The lens board is seen well in {found} of {given} photos; {needed} are "
            "needed.",
            "Take more photos of the printed lens board, flat and sharp.",
        )


class BoardMisfitError(LensError):
    """The board's corners do not fit one lens."""

    code = "lens-photos"

    def __init__(self, rms_px: float) -> None:
        super().__init__(
            f"The photos of the board do not fit one lens (off by {rms_px:.1f} "
            "pixels).",
            "Glue the board to something flat, hold the phone still, do not zoom.",
        )


class BoardPhotosAlikeError(LensError):
    """The photos of the board cannot tell the focal length."""

    code = "lens-photos"

    def __init__(self) -> None:
        super().__init__(
            "The photos of the board are too alike to tell the focal length.",
            "Tilt the phone by 20 to 40 degrees to each side for some of them.",
        )


class NoMarkerError(MarkerError):
    """No printed marker was found, or none that is one of the project's."""

    code = "no-marker"

    def __init__(self, name: str) -> None:
        super().__init__(
            f"No calibration marker can be seen in {name}, so nothing gives its scale.",
            "Lay the printed sheet or marker flat beside the fish, wholly in view "
            "and dry, and take the photo again.",
        )


class SeveralSheetsError(MarkerError):
    """The same marker is in the photo twice."""

    code = "several-sheets"

    def __init__(self, name: str, marker_ids: tuple[int, ...]) -> None:
        listed = ", ".join(str(marker_id) for marker_id in marker_ids)
        super().__init__(
            f"{name} shows marker {listed} more than once.",
            "Leave one sheet, or one of each card, in view.",
        )


class MarkersDisagreeError(MarkerError):
    """The markers do not lie in one plane at their printed sizes."""

    code = "markers-disagree"

    def __init__(self, name: str, rms_mm: float) -> None:
        super().__init__(
            f"The markers in {name} do not fit one flat plane "
            f"(off by {rms_mm:.1f} mm).",
            "Use markers of one print at one scale, and lay all of them flat on the "
            "surface that the fish lie on.",
        )


class TooTiltedError(MarkerError):
    """The camera looks at the plane too much from the side."""

    code = "tilted"

    def __init__(self, name: str, tilt_deg: float, limit_deg: float) -> None:
        super().__init__(
            f"{name} was taken at {tilt_deg:.0f} degrees from straight down; "
            f"over {limit_deg:.0f} no length can be trusted.",
            "Hold the phone flat, straight above the fish.",
        )


class BlurredError(MarkerError):
    """The photo is too blurred for its markers to be measured."""

    code = "blurred"

    def __init__(self, name: str, blur_mm: float) -> None:
        super().__init__(
            f"{name} is blurred: an edge is smeared over about {4 * blur_mm:.0f} mm.",
            "Hold the phone still, tap on the fish to focus, use more light, wipe the "
            "lens.",
        )


class TooFarError(MarkerError):
    """The markers are too small in the photo."""

    code = "too-far"

    def __init__(self, name: str, side_px: float, limit_px: float) -> None:
        super().__init__(
            f"The marker in {name} is only {side_px:.0f} pixels wide; "
            f"{limit_px:.0f} are needed.",
            "Go nearer, or send the photo at its full size.",
        )


class KnownDistanceError(MarkerError):
    """The two points of a known distance cannot be used."""

    code = "known-distance"

    def __init__(self, name: str, distance_px: float, limit_px: float) -> None:
        super().__init__(
            f"The two points in {name} cannot give a scale: they are "
            f"{distance_px:.0f} pixels apart; {limit_px:.0f} are needed, both in the "
            "photo, and a length above 0 mm.",
            "Give two points in the photo, far apart, and the millimetres between "
            "them.",
        )


class PrintScaleError(MarkerError):
    """No sheet is printed at such a scale."""

    code = "print-scale"

    def __init__(self, print_scale: float) -> None:
        super().__init__(
            f"The print scale {print_scale:g} is not a ratio from 0.5 to 2.",
            "Measure the sheet's check line and give its mm over 100: 0.97 for 97 mm.",
        )
