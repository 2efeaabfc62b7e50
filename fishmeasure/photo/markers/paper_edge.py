"""The print scale that a sheet's own paper tells: its edges beside its markers.

Paper is cut to standard sizes whatever is printed on it, so a sheet printed at 97 % has
its markers nearer to one another than its edges say. ISO 216 allows +-2 mm on sides of
150 to 600 mm; the two ways across agree or nothing is said.
"""

import math
from dataclasses import dataclass
from typing import Final

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.colour import SRGB_TO_LINEAR
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers.layout import UNIT_SQUARE, Layout
from fishmeasure.photo.plane import PlaneScale

WORTH_SAYING: Final = 0.015
"""A print scale further off spoils lengths more than cutting paper explains."""
_SURE_SDS: Final = 3.0
# Half of the tolerance of ISO 216 as a standard deviation, for each way across.
_CUT_SD_MM: Final = 1.0
_LOOK_MM: Final = 16.0
"""How far beyond and within its place an edge is looked for: 297 mm at 92 %."""
_STEP_MM: Final = 0.25
_PLACES: Final = 48
"""Profiles a side; corners are left out, where paper curls."""
_NEAR_MM: Final = 0.6
"""Of a straight edge: fibres and curl; our own choice."""
_FEWEST: Final = 0.5
"""Of a side's profiles that must lie on its edge: the rest may hold fish."""
_SMOOTH_SD_CELLS, _SMOOTH_CELLS = 2.0, 17
"""Blur along a profile; four standard deviations to either side are all of it."""
_MOST_FALLS: Final = 3
"""Of a profile: the paper's edge, a print's, a shadow's."""
_LEAST_STEP: Final = 0.06
"""Of paper over board in linear light, as a share of the paper: less is no edge."""
_AGREE_SDS: Final = 2.5
_MOST_SLANT: Final = 0.02  # of an edge against the print; paper is drawn in straight


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperEdges:
    """What the paper says: print over nominal size, and how sure that is."""

    print_scale: float
    sd: float

    def contradicts(self, stated: float) -> bool:
        """Return whether another print scale than the one stated is sure."""
        apart = abs(self.print_scale / stated - 1.0)
        return apart > max(WORTH_SAYING, _SURE_SDS * self.sd)


def contradicting_paper(
    photo: Photo, plane: PlaneScale, layout: Layout, print_scale: float
) -> float | None:
    """Return the print scale by the paper where it contradicts the one stated."""
    edges = print_scale_by_paper(photo, plane, layout, print_scale)
    if edges is None or not edges.contradicts(print_scale):
        return None
    return edges.print_scale


def print_scale_by_paper(
    photo: Photo, plane: PlaneScale, layout: Layout, print_scale: float
) -> PaperEdges | None:
    """Return the print scale by the paper's edges.

    None where fewer than two opposite edges are seen, or the two ways across disagree:
    paper that curls, a board as bright as it, fish over the edges.

    Parameters
    ----------
    plane
        As found with ``print_scale``.
    layout
        Of the sheet, with its paper.
    """
    if layout.paper_mm is None:
        return None
    outline = paper_outline_mm(layout.paper_mm, print_scale)
    ways = []
    for across_mm, corners in (
        (layout.paper_mm[0], ((0, 3), (1, 2))),
        (layout.paper_mm[1], ((0, 1), (3, 2))),
    ):
        places = [
            _edge_mm(photo, plane, outline[start], outline[end], outline.mean(axis=0))
            for start, end in corners
        ]
        if any(place is None for place in places):
            continue
        seen_mm = across_mm + sum(place for place in places if place is not None)
        ways.append((print_scale * across_mm / seen_mm, _CUT_SD_MM / across_mm))
    if not ways:
        return None
    scales, sds = np.array(ways).T
    if len(ways) == 2 and abs(scales[0] - scales[1]) > _AGREE_SDS * math.hypot(*sds):
        return None
    weights = 1.0 / sds**2
    mean = float(np.sum(weights * scales) / weights.sum())
    return PaperEdges(print_scale=mean, sd=float(1.0 / math.sqrt(weights.sum())))


def paper_outline_mm(paper_mm: tuple[float, float], print_scale: float) -> FloatArray:
    """Return (4, 2) corners of the paper, in the print's own frame.

    A printer that shrinks keeps the print's middle; the paper stays as it was cut.
    """
    middle = np.array(paper_mm) / 2.0 * print_scale
    return np.asarray(middle + UNIT_SQUARE * np.array(paper_mm))


def _edge_mm(
    photo: Photo,
    plane: PlaneScale,
    start_mm: FloatArray,
    end_mm: FloatArray,
    middle_mm: FloatArray,
) -> float | None:
    """Return how far outside its place an edge lies; None where it is not seen."""
    along = np.linspace(0.12, 0.88, _PLACES)[:, None]
    points = start_mm + (end_mm - start_mm) * along
    outward = np.array([end_mm[1] - start_mm[1], start_mm[0] - end_mm[0]])
    outward = outward / np.linalg.norm(outward)
    if outward @ (points.mean(axis=0) - middle_mm) < 0.0:
        outward = -outward
    offsets = np.arange(-_LOOK_MM, _LOOK_MM + _STEP_MM / 2.0, _STEP_MM)
    light = _light(photo, plane, points[:, None, :] + offsets[:, None] * outward)
    if light is None:
        return None
    profiles, places = _falls(light)
    return _straight(np.column_stack([along[profiles, 0], offsets[places]]))


def _light(photo: Photo, plane: PlaneScale, points_mm: FloatArray) -> FloatArray | None:
    """Return linear light at (n, k, 2) points of the plane; None out of the photo."""
    flat = photo.to_raster(plane.to_photo_px(points_mm.reshape(-1, 2)))
    rows, columns = photo.rgb.shape[:2]
    inside = (flat >= 0.0).all(axis=1) & (flat <= [columns - 1, rows - 1]).all(axis=1)
    if inside.mean() < _FEWEST:
        return None
    maps = flat.astype(np.float32).reshape(*points_mm.shape)
    sampled = cv2.remap(
        np.asarray(photo.rgb),
        maps[..., 0],
        maps[..., 1],
        cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )
    light: FloatArray = SRGB_TO_LINEAR[sampled].mean(axis=-1)
    return np.where(inside.reshape(light.shape), light, np.nan)


def _falls(light: FloatArray) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return where light falls most, going out from the paper to the board.

    The three steepest places of each profile (n, k) that is whole: which profile, and
    where in it.
    """
    whole = np.flatnonzero(~np.isnan(light).any(axis=1))
    if not len(whole):
        return whole, whole
    smooth = cv2.GaussianBlur(light[whole], (_SMOOTH_CELLS, 1), _SMOOTH_SD_CELLS)
    fall = -np.gradient(smooth, _STEP_MM, axis=1)
    paper = np.maximum(np.quantile(light[whole], 0.9, axis=1, keepdims=True), 1e-3)
    inner = (fall[:, 1:-1] >= fall[:, :-2]) & (fall[:, 1:-1] > fall[:, 2:])
    rows, columns = np.nonzero(inner & (fall[:, 1:-1] > _LEAST_STEP * paper))
    order = np.lexsort((-fall[rows, columns + 1], rows))
    rows, columns = rows[order], columns[order]
    rank = np.arange(len(rows)) - np.searchsorted(rows, rows)
    return whole[rows[rank < _MOST_FALLS]], columns[rank < _MOST_FALLS] + 1


def _straight(seen: FloatArray) -> float | None:
    """Return the offset, amid the side, of the straight edge of most profiles."""
    if len(seen) < _FEWEST * _PLACES:
        return None
    best: FloatArray | None = None
    for slant in np.linspace(-_MOST_SLANT, _MOST_SLANT, 9) * 200.0:
        level = seen[:, 1] - slant * (seen[:, 0] - 0.5)
        ordered = np.sort(level)
        counts = np.searchsorted(ordered, ordered + 2.0 * _NEAR_MM) - np.arange(
            len(ordered)
        )
        top = int(np.argmax(counts))
        centre = ordered[top : top + counts[top]].mean()
        near = seen[np.abs(level - centre) <= _NEAR_MM]
        if best is None or len(near) > len(best):
            best = near
    if best is None or len(np.unique(best[:, 0])) < _FEWEST * _PLACES:
        return None
    line = np.polynomial.polynomial.polyfit(best[:, 0] - 0.5, best[:, 1], 1)
    return float(line[0])
