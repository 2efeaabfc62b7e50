"""From marker corners to the ``PlaneScale`` of a photo."""

import math
from dataclasses import dataclass, replace

import numpy as np

from fishmeasure.base.arrays import FloatArray, frozen
from fishmeasure.base.errors import MarkersDisagreeError
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers.bundle import Solution, solve
from fishmeasure.photo.markers.camera import CameraPrior
from fishmeasure.photo.markers.edges import FittedMarker
from fishmeasure.photo.markers.layout import Layout
from fishmeasure.photo.markers.paper_edge import (
    contradicting_paper,
    paper_outline_mm,
)
from fishmeasure.photo.markers.pattern import CELLS
from fishmeasure.photo.plane import (
    FocalSource,
    MarkerLook,
    PlaneScale,
    carried_variance,
)

PRINT_UNCHECKED_SD = 0.003
PRINT_CHECKED_SD = 0.0015
"""Of the printed scale: of a printer set to 100 %, and of a 100 mm line read with a
ruler (the design's error budget: 'good' and 'best')."""

FITS_MM = 1.0
"""Largest root mean square of any marker's corners about a layout that explains them.
Loose cards miss a sheet's places by centimetres; a sheet that bulges by some
millimetres stays below, and its larger scatter widens the errors."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Choice:
    """The accepted fit, the markers it used, and other fits nearly as good."""

    best: Solution
    markers: tuple[FittedMarker, ...]
    others: tuple[Solution, ...]


def choose(
    name: str,
    markers: tuple[FittedMarker, ...],
    layouts: tuple[Layout, ...],
    prior: CameraPrior,
    print_scale: float,
) -> Choice:
    """Return the fit of the most trusted layouts that explain the markers.

    Layouts are grouped by method in the order given; within a method the best fit
    wins, and the others are kept to say how sure the choice is.

    Raises
    ------
    MarkersDisagreeError
        If none does.
    """
    least = math.inf
    for method in dict.fromkeys(layout.method for layout in layouts):
        same = tuple(layout for layout in layouts if layout.method == method)
        used = tuple(m for m in markers if m.marker_id in same[0].sides_mm)
        best, *others = solve(used, same, prior, print_scale)
        worst_mm = float(_rms_mm(best, used).max())
        ripple_mm = max(marker.ripple_mm for marker in used)
        if worst_mm <= FITS_MM + 3.0 * ripple_mm:
            return Choice(best=best, markers=used, others=tuple(others))
        least = min(least, worst_mm)
    raise MarkersDisagreeError(name, least)


def _rms_mm(solution: Solution, markers: tuple[FittedMarker, ...]) -> FloatArray:
    """Return (m,) root mean squares of each marker's corner coordinates."""
    per_mm = [_side_px(m) / solution.layout.sides_mm[m.marker_id] for m in markers]
    rms_px = np.sqrt(np.mean(solution.residuals_px**2, axis=(1, 2)))
    return np.asarray(rms_px / np.array(per_mm))


def plane_scale(
    photo: Photo, choice: Choice, prior: CameraPrior, print_scale: float
) -> PlaneScale:
    """Return the plane of the chosen fit, with its errors and their causes."""
    best = choice.best
    plane = _plane(choice, best, prior)
    checked = print_scale != 1.0
    print_sd = PRINT_CHECKED_SD if checked else PRINT_UNCHECKED_SD
    middle = plane.markers_px.reshape(-1, 2).mean(axis=0, keepdims=True)
    log_mm_per_px = float(plane.log_scale(middle).mean())
    ambiguity_sd = _ambiguity_sd(photo, plane, choice, prior)
    sources: tuple[UncertaintySource, ...] = (
        UncertaintySource(
            name="print scale as measured" if checked else "print scale unchecked",
            relative_sd=print_sd,
            scope="sample",
        ),
        UncertaintySource(
            name="which of two poses", relative_sd=ambiguity_sd, scope="photo"
        ),
    )
    by_paper = contradicting_paper(photo, plane, best.layout, print_scale)
    plane = replace(
        plane,
        px_per_mm=math.exp(-log_mm_per_px),
        look=_look(photo, choice),
        constant_relative_sd=math.hypot(
            *(source.relative_sd for source in sources),
            0.0 if by_paper is None else abs(by_paper / print_scale - 1.0),
        ),
        paper_px=_paper(plane, best, print_scale),
        print_scale_by_paper=by_paper,
    )
    if by_paper is not None:
        apart = UncertaintySource(
            name="print scale against the paper",
            relative_sd=abs(by_paper / print_scale - 1.0),
            scope="sample",
        )
        sources = (*sources, apart)
    return with_errors(photo, plane, sources)


def _look(photo: Photo, choice: Choice) -> MarkerLook:
    """Return how the markers used look, each figure of the worst one."""
    sides_px = np.array([_side_px(marker) for marker in choice.markers])
    sides_mm = [choice.best.layout.sides_mm[m.marker_id] for m in choice.markers]
    blurs_px = np.array([marker.blur_px for marker in choice.markers])
    blooms_px = np.array([marker.bloom_px for marker in choice.markers])
    return MarkerLook(
        side_raster_px=float(sides_px.min()) / photo.reduction,
        blur_mm=float((blurs_px / sides_px * sides_mm).max()),
        blur_cells=float((blurs_px / sides_px).max()) * CELLS,
        bloom_mm=float((blooms_px / sides_px * sides_mm).max()),
        contrast=min(marker.contrast for marker in choice.markers),
    )


def _side_px(marker: FittedMarker) -> float:
    steps = np.roll(marker.corners_px, -1, axis=0) - marker.corners_px
    return float(np.linalg.norm(steps, axis=1).mean())


def _plane(choice: Choice, solution: Solution, prior: CameraPrior) -> PlaneScale:
    rotation = solution.rotation
    focal_sd = math.sqrt(solution.covariance[0, 0])
    source: FocalSource = prior.source
    if focal_sd < 0.5 * prior.focal_relative_sd:
        source = "markers"
    return PlaneScale(
        method=solution.layout.method,
        marker_ids=tuple(marker.marker_id for marker in choice.markers),
        camera=replace(
            solution.camera, focal_relative_sd=focal_sd, focal_source=source
        ),
        rotation=frozen(rotation),
        translation_mm=frozen(solution.translation_mm),
        tilt_deg=math.degrees(math.acos(min(1.0, abs(rotation[2, 2])))),
        camera_height_mm=float(rotation[:, 2] @ solution.translation_mm),
        px_per_mm=0.0,
        relative_se=0.0,
        rms_residual_mm=math.sqrt(np.mean(_rms_mm(solution, choice.markers) ** 2)),
        markers_px=frozen(np.stack([m.corners_px for m in choice.markers])),
        covariance=frozen(solution.covariance),
    )


def with_errors(
    photo: Photo, plane: PlaneScale, sources: tuple[UncertaintySource, ...]
) -> PlaneScale:
    """Return the plane with ``relative_se`` and all ``sources`` filled in."""
    points = summary_points(photo)
    gradients = plane.scale_gradients(points)
    # Known focal length and distortion leave the conditional covariance.
    given = plane.covariance.copy()
    lens_part = given[:2, :2]
    if lens_part.any():
        gain = given[:, :2] @ np.linalg.pinv(lens_part, hermitian=True)
        given -= gain @ given[:2, :]
    geometry, pose = (
        math.sqrt(float(carried_variance(gradients, covariance).mean()))
        for covariance in (plane.covariance, given)
    )
    lens = math.sqrt(max(geometry**2 - pose**2, 0.0))
    total = math.hypot(geometry, plane.constant_relative_sd)
    causes = (
        UncertaintySource(name="marker corners", relative_sd=pose, scope="photo"),
        UncertaintySource(name="lens", relative_sd=lens, scope="photo"),
        *(source for source in sources if source.relative_sd > 0.0),
    )
    return replace(plane, relative_se=total, sources=causes)


def summary_points(photo: Photo) -> FloatArray:
    """Return (9, 2) points spread over the middle two thirds of the photo."""
    x, y = np.meshgrid(
        np.linspace(1 / 6, 5 / 6, 3) * photo.width_px - 0.5,
        np.linspace(1 / 6, 5 / 6, 3) * photo.height_px - 0.5,
    )
    return np.column_stack([x.ravel(), y.ravel()])


def _ambiguity_sd(
    photo: Photo, plane: PlaneScale, choice: Choice, prior: CameraPrior
) -> float:
    """Return the relative sd that other fits (pose, paper) add to a length.

    Each fit has the weight exp(-chi2 / 2); their log scales are compared over the
    middle of the photo.
    """
    points = summary_points(photo)
    mine = plane.log_scale(points)
    best = choice.best
    total, squared = 1.0, 0.0
    for other in choice.others:
        weight = math.exp(-0.5 * (other.chi2 - best.chi2))
        if weight < 1e-4:
            continue
        theirs = _plane(choice, other, prior).log_scale(points)
        total += weight
        squared += weight * float(np.mean((theirs - mine) ** 2))
    return math.sqrt(squared / total)


def _paper(
    plane: PlaneScale, solution: Solution, print_scale: float
) -> tuple[FloatArray, ...]:
    """Return the outlines of the sheet or the cards, several points a side."""
    layout = solution.layout
    if layout.paper_mm is not None:
        outlines = [paper_outline_mm(layout.paper_mm, print_scale)]
    else:
        outlines = [
            middle + (corners - middle) * layout.cards_mm[i] / layout.sides_mm[i]
            for i, corners in zip(plane.marker_ids, solution.corners_mm, strict=True)
            for middle in (corners.mean(axis=0),)
        ]
    return tuple(frozen(plane.to_photo_px(_subdivided(line))) for line in outlines)


def _subdivided(corners: FloatArray) -> FloatArray:
    share = np.linspace(0.0, 1.0, 4, endpoint=False)[:, None]
    following = np.roll(corners, -1, axis=0)
    return np.concatenate(
        [
            start + (end - start) * share
            for start, end in zip(corners, following, strict=True)
        ]
    )
