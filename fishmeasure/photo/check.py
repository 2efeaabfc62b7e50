"""How far a photo is off on something of known length: a dummy, a stiff fish."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.length.budget import COMMON_ENDS_SHARE
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.photo.plane import PlaneScale

NEAR_SHARE: Final = 0.25
"""Of the known length: what differs by more is another fish."""
HEIGHT_SD_MM: Final = 3.0
"""Of a height over the sheet that was read on a ruler. Common practice, no source."""
POINT_PX: Final = 1.5
"""Standard deviation of an end put by hand, in pixels of the photo."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthCheck:
    """What a known length reads in a photo.

    Attributes
    ----------
    known_mm, read_mm
        From end to end.
    relative_sd
        Standard error that a photo like this may have.
    """

    known_mm: float
    read_mm: float
    relative_sd: float

    @property
    def off(self) -> float:
        """How much too long it reads, as a fraction."""
        return self.read_mm / self.known_mm - 1.0

    @property
    def within(self) -> bool:
        """Whether that is within twice the standard error."""
        return abs(self.off) <= 2.0 * self.relative_sd


def check_length(
    measurement: PhotoMeasurement,
    known_mm: float,
    height_mm: float,
    ends_px: FloatArray | None = None,
) -> LengthCheck | None:
    """Return what the known thing reads; None where no fish is about as long.

    Parameters
    ----------
    measurement
        Of the photo; what is known must be level, and straight.
    known_mm
        From end to end.
    height_mm
        Of both ends over the sheet.
    ends_px
        (2, 2) both ends, where a person put them.
    """
    plane = measurement.scale
    if plane is None:
        return None
    errors_mm: tuple[float, ...] = (POINT_PX / plane.px_per_mm,) * 2
    if ends_px is None:
        found = [
            (abs(_between(plane, ends, height_mm) / known_mm - 1.0), ends, fish)
            for fish in measurement.fish
            for ends in (np.vstack([fish.snout_px, fish.fork_px]),)
        ]
        if not found:
            return None
        miss, ends_px, best = min(found, key=lambda one: one[0])
        if miss > NEAR_SHARE:
            return None
        errors_mm = best.ends_se_mm or errors_mm
    read_mm = _between(plane, ends_px, height_mm)
    higher = _between(plane, ends_px, height_mm + HEIGHT_SD_MM)
    ripples = 0.0 if plane.water is None else math.sqrt(2.0) * plane.rms_residual_mm
    causes = (
        float(np.sqrt(np.mean(plane.relative_se_at(ends_px) ** 2))),
        math.hypot(*errors_mm) / read_mm,
        ripples / read_mm,
        higher / read_mm - 1.0,
        COMMON_ENDS_SHARE,
    )
    return LengthCheck(
        known_mm=known_mm, read_mm=read_mm, relative_sd=math.hypot(*causes)
    )


def _between(plane: PlaneScale, ends_px: FloatArray, height_mm: float) -> float:
    ends = plane.to_plane_mm(ends_px, height_mm)
    return float(np.linalg.norm(ends[1] - ends[0]))
