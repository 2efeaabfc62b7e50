"""Outline to lengths: midline, snout, fork, tail, parallax."""

from dataclasses import dataclass

from fishmeasure.arrays import FloatArray
from fishmeasure.uncertainty import Estimate, UncertaintySource


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FishLength:
    """The size of one fish, parallax removed.

    Attributes
    ----------
    fork_length_mm, total_length_mm, standard_length_mm, body_depth_mm
        Along the midline (depth: greatest, across it, fins left out).
    thickness_mm
        Assumed side-to-side thickness; half of it is the height of the midline.
    contour_px
        (n, 2) the outline it came from, photo pixels.
    midline_px
        (m, 2) from snout to fork, photo pixels.
    snout_px, fork_px
        (2,) photo pixels.
    area_mm2
        Of the outline on the plane of the midline, tail included.
    bend_deg
        Turn of the midline from head to tail.
    flags, complete
        See ``fishmeasure.flags``.
    confidence
        0 to 1.
    sources
        Causes of error of the fork length.
    """

    fork_length_mm: Estimate
    total_length_mm: Estimate
    standard_length_mm: Estimate
    body_depth_mm: Estimate
    thickness_mm: float
    area_mm2: float
    bend_deg: float
    contour_px: FloatArray
    midline_px: FloatArray
    snout_px: FloatArray
    fork_px: FloatArray
    confidence: float
    complete: bool
    flags: tuple[str, ...] = ()
    sources: tuple[UncertaintySource, ...] = ()
