"""No scale can be had from the photo, or no lens profile."""

from fishmeasure.base.errors.base import BadFieldError, FishMeasureError
from fishmeasure.base.words import Reason


class MarkerError(FishMeasureError):
    """No scale can be had from the photo."""


class LensError(FishMeasureError):
    """A lens profile cannot be made or read."""


class LensFileError(LensError):
    """The file is no lens profile."""

    code = "lens-file"

    def __init__(self, name: str, reason: Reason, field: str = "") -> None:
        case = "field" if field else "whole"
        super().__init__(case=case, name=name, field=field, reason=reason)


class MixedCamerasError(LensError):
    """The photos of the board are from more than one camera or setting."""

    code = "lens-photos"

    def __init__(self) -> None:
        super().__init__(case="mixed")


class TooFewBoardPhotosError(LensError):
    """Too few photos show the board well."""

    code = "lens-photos"

    def __init__(self, found: int, given: int, needed: int) -> None:
        super().__init__(case="few", found=found, given=given, needed=needed)


class BoardMisfitError(LensError):
    """The board's corners do not fit one lens."""

    code = "lens-photos"

    def __init__(self, rms_px: float) -> None:
        super().__init__(case="misfit", rms_px=rms_px)


class BoardPhotosAlikeError(LensError):
    """The photos of the board cannot tell the focal length."""

    code = "lens-photos"

    def __init__(self) -> None:
        super().__init__(case="alike")


class NoMarkerError(MarkerError):
    """No printed marker was found, or none that is one of the project's."""

    code = "no-marker"

    def __init__(self, name: str) -> None:
        super().__init__(name=name)


class SeveralSheetsError(MarkerError):
    """The same marker is in the photo twice."""

    code = "several-sheets"

    def __init__(self, name: str, marker_ids: tuple[int, ...]) -> None:
        super().__init__(name=name, marker_ids=marker_ids)


class MarkersDisagreeError(MarkerError):
    """The markers do not lie in one plane at their printed sizes."""

    code = "markers-disagree"

    def __init__(self, name: str, rms_mm: float) -> None:
        super().__init__(name=name, rms_mm=rms_mm)


class TooTiltedError(MarkerError):
    """The camera looks at the plane too much from the side."""

    code = "tilted"

    def __init__(self, name: str, tilt_deg: float, limit_deg: float) -> None:
        super().__init__(
            case="refused", name=name, tilt_deg=tilt_deg, limit_deg=limit_deg
        )


class BlurredError(MarkerError):
    """The photo is too blurred for its markers to be measured."""

    code = "blurred"

    def __init__(self, name: str, blur_mm: float) -> None:
        super().__init__(case="refused", name=name, edge_mm=4 * blur_mm)


class TooFarError(MarkerError):
    """The markers are too small in the photo."""

    code = "too-far"

    def __init__(self, name: str, side_px: float, limit_px: float) -> None:
        super().__init__(case="refused", name=name, side_px=side_px, limit_px=limit_px)


class KnownDistanceError(MarkerError):
    """The two points of a known distance cannot be used."""

    code = "known-distance"

    def __init__(self, name: str, distance_px: float, limit_px: float) -> None:
        super().__init__(name=name, distance_px=distance_px, limit_px=limit_px)


class PrintScaleError(BadFieldError):
    """No sheet is printed at such a scale."""

    code = "print-scale"
