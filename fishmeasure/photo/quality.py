"""What is wrong with a photo, in words that a person can act on.

The thresholds come from drawn scenes with known truth (``tests/accuracy/quality``
prints them): the scale's error stays below 0.1 % up to the warning and jumps to
several per cent past the refusal.
"""

import math

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.errors import BlurredError, TooFarError, TooTiltedError
from fishmeasure.base.flags import Problem
from fishmeasure.photo.colour import SRGB_TO_LINEAR
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import MarkerLook, PlaneScale

TILT_WARN_DEG = 30.0
TILT_LIMIT_DEG = 45.0
"""The height of a fish's ends is known to about 2 mm (15 % of half the thickness of
a 250 mm fish); seen at the tilt t it shifts both ends by 2 tan(t) mm, which makes
0.65 % of the length at 30 degrees and 1.1 % at 45, over the target of 1 %."""

BLUR_WARN_CELLS = 0.2
BLUR_LIMIT_CELLS = 0.25
"""As measured, which falls short of the true blur above 0.2. Drawn scenes, four
markers: scale error 0.03 % at 0.19 cells, 0.1 % at 0.24, 1.6 % at 0.28; one marker:
0.1 % at 0.16, 0.8 % at 0.22, 4.8 % at 0.26."""

BLUR_WARN_MM = 1.0
"""Of a fish's ends: 1 mm at both ends is 0.5 % of 250 mm."""

SIDE_WARN_PX = 36.0
SIDE_LIMIT_PX = 24.0
"""Drawn scenes, pixels of the decoded raster: scale error 0.05 % at 49 px, 0.1 % at
25, 2 % at 16 (four markers); 0.2 % at 37 px, 0.4 % at 25, 7 % at 19 (one)."""

CONTRAST_WARN = 0.05
"""Of ink and paper in linear light. Drawn scenes with high noise: scale error 0.2 %
at 0.08, 0.5 % at 0.04, 0.8 % at 0.02 (one marker)."""

BLOOM_WARN_MM = 0.3
"""Paper bled that far into ink, so a fish on a white board lost it at both ends:
0.24 % of 250 mm, the whole allowed bias of 0.3 %."""

CLIPPED_CODE = 253
CLIPPED_WARN_FRACTION = 0.25
"""Share of the photo, paper left out, in which all colours are at their limit
(rule of thumb: glints of a few wet fish cover 1 to 3 %)."""

RESIDUAL_WARN_MM = 0.2
"""Corners about the fitted plane. Drawn flat scenes stay below 0.02 mm; one of four
cards 25 mm up shows 0.3 mm and makes the scale 1 % wrong."""

SCALE_SE_WARN = 0.03
"""Three times the target for single lengths; a weight is then 9 % uncertain."""

DARK_LIGHT = 0.03
"""Linear light of the brightest 2 % of a photo that is too dark (rule of thumb)."""

BLUR_LIMIT_FRACTION = 0.003
"""Of the photo's longer side, where no marker shows the scale: 2 mm on 700 mm."""


MURKY_LIMIT_SHARE = 0.3
MURKY_WARN_SHARE = 0.55
"""Of the paper's brightness, by which ink is darker; 0.85 to 0.95 in clear water. What
lies between weakens fish alike (rule of thumb, no source)."""
RIPPLES_WARN_MM = 1.5
RIPPLES_LIMIT_MM = 3.0
"""Of the markers' corners: both ends of a fish are moved as much, which makes 0.8 and
1.7 % of 250 mm."""
GLARE_LIMIT_FRACTION = 0.25
"""Of the photo burnt out (rule of thumb, as in air)."""


def refuse_unusable(photo: Photo, plane: PlaneScale) -> None:
    """Raise where the markers give a scale, but no honest figure.

    Raises
    ------
    TooTiltedError, TooFarError, BlurredError
        With the measured figure.
    """
    look = plane.look
    if plane.tilt_deg > TILT_LIMIT_DEG:
        raise TooTiltedError(photo.name, plane.tilt_deg, TILT_LIMIT_DEG)
    if look is None:
        return
    if look.side_raster_px < SIDE_LIMIT_PX:
        raise TooFarError(
            photo.name,
            look.side_raster_px * photo.reduction,
            SIDE_LIMIT_PX * photo.reduction,
        )
    if look.blur_cells > BLUR_LIMIT_CELLS:
        raise BlurredError(photo.name, look.blur_mm)


def check_photo(photo: Photo, plane: PlaneScale | None) -> tuple[Problem, ...]:
    """Return what is wrong with a photo, none of it fatal.

    Parameters
    ----------
    photo
        The photo.
    plane
        Its scale; None where none was found, when the photo as a whole is judged,
        to say why no marker was seen.
    """
    if plane is None:
        return _without_scale(photo)
    problems = []
    if plane.tilt_deg > TILT_WARN_DEG:
        problems.append(Problem.of("tilted", case="doubtful", tilt_deg=plane.tilt_deg))
    if plane.look is not None:
        problems += _by_look(plane.look)
    problems += _by_markers(plane)
    clipped = _clipped_fraction(photo, plane)
    if plane.water is not None:
        problems += _through_water(photo, plane, clipped)
    bloom_mm = plane.look.bloom_mm if plane.look else 0.0
    if clipped > CLIPPED_WARN_FRACTION or bloom_mm > BLOOM_WARN_MM:
        problems.append(_overexposed(clipped))
    return tuple(problems)


def _through_water(photo: Photo, plane: PlaneScale, clipped: float) -> list[Problem]:
    """Return whether ripples, murk or glare hide the fish, or make them unsure."""
    problems = []
    rms_mm, share = plane.rms_residual_mm, _ink_share(photo, plane)
    if rms_mm > RIPPLES_WARN_MM:
        fatal = rms_mm > RIPPLES_LIMIT_MM
        case = "ripples" if fatal else "rippled"
        problems.append(_unclear(case, fatal=fatal, rms_mm=rms_mm))
    if share is not None and share < MURKY_WARN_SHARE:
        fatal = share < MURKY_LIMIT_SHARE
        case = "murky" if fatal else "cloudy"
        problems.append(_unclear(case, fatal=fatal, share=share))
    if clipped > GLARE_LIMIT_FRACTION:
        problems.append(_unclear("glare", fatal=True, share=clipped))
    return problems


def _unclear(case: str, *, fatal: bool, **figures: float) -> Problem:
    return Problem.of("water-unclear", fatal=fatal, case=case, **figures)


def _ink_share(photo: Photo, plane: PlaneScale) -> float | None:
    """Return by how much ink is darker than paper, over the paper's brightness."""
    if plane.look is None:
        return None
    mask = np.zeros(photo.rgb.shape[:2], np.uint8)
    for paper in plane.paper_px:
        cv2.fillPoly(mask, [np.round(photo.to_raster(paper)).astype(np.int32)], [1])
    if not mask.any():
        return None
    green = SRGB_TO_LINEAR[photo.rgb[..., 1][mask > 0]]
    paper_light = float(np.percentile(green, 75.0))
    return plane.look.contrast / max(paper_light, 1e-6)


def _by_look(look: MarkerLook) -> list[Problem]:
    problems = []
    if look.blur_cells > BLUR_WARN_CELLS or look.blur_mm > BLUR_WARN_MM:
        problems.append(
            Problem.of("blurred", case="doubtful", edge_mm=4 * look.blur_mm)
        )
    if look.side_raster_px < SIDE_WARN_PX:
        problems.append(Problem.of("too-far", case="doubtful"))
    if look.contrast < CONTRAST_WARN:
        problems.append(_too_dark())
    return problems


def _by_markers(plane: PlaneScale) -> list[Problem]:
    problems = []
    count = len(plane.marker_ids)
    if plane.method in {"sheet", "loose-markers"} and count < 4:
        problems.append(Problem.of("marker-missing", markers=count))
    if plane.water is None and plane.rms_residual_mm > RESIDUAL_WARN_MM:
        problems.append(Problem.of("not-flat", rms_mm=plane.rms_residual_mm))
    if plane.print_scale_by_paper is not None:
        seen = plane.print_scale_by_paper
        problems.append(Problem.of("print-scale-differs", print_scale=seen))
    elif plane.relative_se > SCALE_SE_WARN:
        problems.append(Problem.of("rough-scale", share=plane.relative_se))
    return problems


def _without_scale(photo: Photo) -> tuple[Problem, ...]:
    grey = np.asarray(cv2.cvtColor(np.asarray(photo.rgb), cv2.COLOR_RGB2GRAY))
    problems = []
    if SRGB_TO_LINEAR[int(np.percentile(grey[::4, ::4], 98.0))] < DARK_LIGHT:
        problems.append(_too_dark())
    blur_px = edge_blur_px(np.asarray(grey, np.float32))
    if blur_px is not None and blur_px > BLUR_LIMIT_FRACTION * max(grey.shape):
        problems.append(Problem.of("blurred", case="whole"))
    clipped = _clipped_fraction(photo, None)
    if clipped > CLIPPED_WARN_FRACTION:
        problems.append(_overexposed(clipped))
    return tuple(problems)


def _too_dark() -> Problem:
    return Problem.of("too-dark")


def _overexposed(clipped: float) -> Problem:
    return Problem.of(
        "overexposed", case="much" if clipped > 0.05 else "parts", share=clipped
    )


def _clipped_fraction(photo: Photo, plane: PlaneScale | None) -> float:
    """Return the share of burnt-out pixels, known paper left out."""
    step = max(1, round(math.sqrt(photo.rgb.size / 3 / 250_000)))
    small = photo.rgb[::step, ::step]
    clipped = small.min(axis=2) >= CLIPPED_CODE
    counted = np.ones(clipped.shape, np.uint8)
    for paper in plane.paper_px if plane else ():
        outline = photo.to_raster(paper) / step
        cv2.fillPoly(counted, [np.round(outline).astype(np.int32)], [0])
    inside = counted.astype(bool)
    return float(clipped[inside].mean()) if inside.any() else 0.0


_SIGMAS = (1.5, 3.0)


def edge_blur_px(grey: NDArray[np.float32]) -> float | None:
    """Return the blur (standard deviation, px) of the photo's sharpest edges.

    A step edge blurred by s has the steepest slope C / sqrt(2 pi (s^2 + r^2)) after
    smoothing by r; two r's give s. On 21 real photos blurred by 2, 3, 4 and 6 px it
    gave 1.1 to 1.8, 1.5 to 2.8, 2.4 to 3.9, 4.2 to 5.3; below 1 px it says 0 to 1.
    None where the photo has too few edges.
    """
    slopes = []
    for sigma in _SIGMAS:
        smooth = cv2.GaussianBlur(grey, (0, 0), sigma)
        slopes.append(
            cv2.magnitude(
                cv2.Sobel(smooth, cv2.CV_32F, 1, 0, ksize=1),
                cv2.Sobel(smooth, cv2.CV_32F, 0, 1, ksize=1),
            )
        )
    fine, coarse = (np.asarray(slope, np.float32) for slope in slopes)
    strong = max(float(np.percentile(coarse[::3, ::3], 99.0)), 6.0)
    peaks = (coarse >= cv2.dilate(coarse, np.ones((5, 5)))) & (coarse > strong)
    if np.count_nonzero(peaks) < 30:
        return None
    ratio = float(np.percentile(fine[peaks] / coarse[peaks], 90.0)) ** 2
    small, large = (sigma**2 for sigma in _SIGMAS)
    return math.sqrt(max((large - small * ratio) / max(ratio - 1.0, 1e-6), 0.0))
