"""Fish on boards, trays and paper, by what is unlike the background.

The photo is shrunk to about one pixel a millimetre. Colours that run along the
photo's edges, around the markers' cards, or over the paper are background; each
pixel gets its distance from the nearest of them in units of its own spread. What
is far enough, large enough and solid is outlined, and the outline is moved to the
sharpest edge of the full raster.
"""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.arrays import BoolArray, ByteArray, FloatArray, frozen
from fishmeasure.photo import Photo
from fishmeasure.plane import PlaneScale
from fishmeasure.segment.cut import cut_out
from fishmeasure.segment.outline import FishOutline
from fishmeasure.segment.refine import refine_contour

Floats = NDArray[np.float32]

PX_PER_MM = 1.0
CLUSTERS = 8
SAMPLES = 6000
FRAME_MM, PAPER_BAND_MM = 12.0, 10.0
"""Bands at the photo's edge and along the paper's, on its either side and around its
print, where background is looked for."""
BACKGROUND_SHARE = 0.04
"""Of such a band, from which a colour is taken for background."""
SENSOR_SD = (1.5, 0.8, 0.8)
"""Least spread of a background colour in L*, a*, b*: noise and compression."""
CALM_SLOPE, CALM_DISTANCE = 1.5, 25.0
"""Colour change (CIE76) a pixel under which background runs on into glare, shadow
and wet spots, whose borders are soft, up to this distance from any background."""
CALM_SEEDS = 0.3
"""Share of plain background in an area that such change holds together."""
COLOURED = 12.0
"""Chroma of a background on which a shadow is told from a fish by its colour."""
SHADE, NEUTRAL_SHADE = 0.6, 0.97
"""Darkest shade of a coloured background (k^(1/3); a fifth of the light), and of a
grey one, where darker may be fish."""
GROW, SEED = 3.0, 6.0
"""Distances in standard deviations: of anything that belongs to a fish, and of what
a fish must hold somewhere."""
MAX_HOLE_SHARE = 0.4
"""A larger hole is not a pale flank but what a line runs round, as a sheet's edge."""
SEED_SHARE = 0.25
MIN_AREA_MM2 = 400.0
"""A fish of 60 mm has about 500 mm2."""
MAX_AREA_SHARE = 0.5
MIN_SOLIDITY = 0.55
EDGE_MARGIN_PX = 2.5
LOW_CONTRAST = 5.0


@dataclass(frozen=True, slots=True)
class BoardSegmenter:
    """The classical method; needs fish apart from each other on calm ground."""

    name: str = "boards"

    def find(self, photo: Photo, plane: PlaneScale) -> tuple[FishOutline, ...]:
        """Return the outlines, in reading order; empty if there is no fish."""
        small = _Small.of(photo, plane)
        distance = _distance(small)
        mask = _solid(distance, small)
        outlines = [
            outline
            for contour in _contours(mask)
            if (outline := _outline(contour, distance, small, photo)) is not None
        ]
        return tuple(sorted(outlines, key=lambda each: _reading_order(each, photo)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Small:
    """The shrunk photo: colours, and what is known to be paper and print."""

    rgb: ByteArray
    lab: Floats
    paper: BoolArray
    print_: BoolArray
    px_per_mm: float
    factor: FloatArray  # (2,) pixels of the decoded raster a pixel, along x and y

    @classmethod
    def of(cls, photo: Photo, plane: PlaneScale) -> "_Small":
        per_mm = plane.px_per_mm / photo.reduction
        factor = max(1.0, per_mm / PX_PER_MM)
        rows, columns = photo.rgb.shape[:2]
        size = (round(columns / factor), round(rows / factor))
        shrunk = cv2.resize(photo.rgb, size, interpolation=cv2.INTER_AREA)
        lab = cv2.cvtColor(shrunk.astype(np.float32) / 255.0, cv2.COLOR_RGB2LAB)
        lab = cv2.GaussianBlur(lab, (0, 0), 0.7)
        exact = np.array([columns, rows]) / size

        def fill(polygons: list[FloatArray], grow_mm: float) -> BoolArray:
            mask = np.zeros(size[::-1], np.uint8)
            for polygon in polygons:
                points = (photo.to_raster(polygon) + 0.5) / exact - 0.5
                cv2.fillPoly(mask, [np.round(points).astype(np.int32)], (1,))
            return _morph(mask, cv2.MORPH_DILATE, grow_mm * per_mm / factor) > 0

        return cls(
            rgb=np.asarray(shrunk, np.uint8),
            lab=np.asarray(lab, np.float32),
            paper=fill(list(plane.paper_px), 0.0),
            print_=fill(list(plane.markers_px), 2.0),
            px_per_mm=per_mm / factor,
            factor=exact,
        )

    def to_raster(self, points: FloatArray) -> FloatArray:
        """Return raster points of the photo of (n, 2) points here."""
        return (points + 0.5) * self.factor - 0.5


def _morph(mask: ByteArray, operation: int, radius_px: float) -> ByteArray:
    """Return the mask after a morphological operation with a disc."""
    side = 2 * max(0, round(radius_px)) + 1
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))
    return cv2.morphologyEx(mask, operation, disc).astype(np.uint8)


def _grown(mask: BoolArray, radius_px: float) -> BoolArray:
    return _morph(mask.astype(np.uint8), cv2.MORPH_DILATE, radius_px) > 0


def _distance(small: _Small) -> Floats:
    """Return each pixel's distance from the background, in standard deviations."""
    board = ~small.paper
    rows, columns = board.shape
    band = max(2, round(FRAME_MM * small.px_per_mm))
    frame = np.ones_like(board)
    frame[band : rows - band, band : columns - band] = False
    near_paper = _grown(small.paper, PAPER_BAND_MM * small.px_per_mm)
    near_print = _grown(small.print_, PAPER_BAND_MM * small.px_per_mm)
    rim = _grown(board, PAPER_BAND_MM * small.px_per_mm)
    border = 1.5 * small.px_per_mm  # where a pixel may hold both colours
    mixed = _grown(small.paper, border) & _grown(board, border)
    unsure = mixed | small.print_
    distance = np.zeros(board.shape, np.float32)
    surfaces = (
        (board, frame | near_paper, COLOURED),
        (small.paper, near_print | rim, np.inf),  # paper is white, a cast or not
    )
    for surface, likely, coloured in surfaces:
        plain = surface & ~unsure
        if np.count_nonzero(plain) > 100:
            lab = _evened(small.lab, plain)
            colours = _background_colours(lab, plain, likely)
            nearest = _nearest_colour(lab, colours, coloured)
            np.copyto(distance, nearest, where=surface)
    distance[small.print_] = 0.0
    return distance


def _evened(lab: Floats, surface: BoolArray) -> Floats:
    """Return the colours with the light's slow fall-off over a surface taken out.

    A quadratic in the place is fitted to L* by least squares with weights that let
    go of what lies off it (fish, print).
    """
    rows, columns = np.nonzero(surface)
    pick = slice(None, None, max(1, len(rows) // SAMPLES))
    y, x = (np.linspace(-1.0, 1.0, n) for n in surface.shape)
    terms = _quadratic(x[columns[pick]], y[rows[pick]])
    lightness = lab[rows[pick], columns[pick], 0].astype(float)
    weights = np.ones_like(lightness)
    fit = np.zeros(6)
    for _ in range(6):
        root = np.sqrt(weights)[:, None]
        fit = np.linalg.lstsq(terms * root, lightness * root[:, 0], rcond=None)[0]
        off = np.abs(lightness - terms @ fit)
        weights = 1.0 / (1.0 + (off / max(2.0, float(np.median(off)))) ** 2)
    smooth = (
        fit[0]
        + fit[1] * x[None]
        + fit[2] * y[:, None]
        + fit[3] * x[None] ** 2
        + fit[4] * y[:, None] ** 2
        + fit[5] * x[None] * y[:, None]
    )
    evened = lab.copy()
    evened[..., 0] += (np.median(lightness) - smooth).astype(np.float32)
    return evened


def _quadratic(x: FloatArray, y: FloatArray) -> FloatArray:
    return np.column_stack([np.ones_like(x), x, y, x * x, y * y, x * y])


def _background_colours(
    lab: Floats, surface: BoolArray, likely: BoolArray
) -> list[tuple[Floats, Floats]]:
    """Return (mean, root of the inverse covariance) of the colours that are background.

    The surface's colours are put into clusters; a cluster is background if it makes
    up enough of where background is likely.
    """
    colours = lab[surface]
    thin = colours[:: max(1, len(colours) // SAMPLES)]
    criteria = (cv2.TERM_CRITERIA_MAX_ITER + cv2.TERM_CRITERIA_EPS, 20, 0.2)
    cv2.setRNGSeed(1)
    count, labels = min(CLUSTERS, len(thin)), np.zeros(len(thin), np.int32)
    centres = np.asarray(
        cv2.kmeans(thin, count, labels, criteria, 2, cv2.KMEANS_PP_CENTERS)[2],
        np.float32,
    )
    inside = lab[surface & likely]
    inside = inside[:: max(1, len(inside) // SAMPLES)]
    share = np.bincount(_closest(inside, centres), minlength=len(centres))
    kept = np.flatnonzero(share >= BACKGROUND_SHARE * len(inside))
    member = _closest(inside, centres)
    found = []
    for index in kept:
        own = inside[member == index]
        spread = np.cov(own.T) if len(own) > 10 else np.zeros((3, 3))
        spread = spread + np.diag(np.square(SENSOR_SD))
        root = np.linalg.cholesky(np.linalg.inv(spread)).astype(np.float32)
        found.append((own.mean(axis=0).astype(np.float32), root))
    return found


def _closest(colours: Floats, centres: Floats) -> NDArray[np.intp]:
    gaps = np.sum((colours[:, None] - centres[None]) ** 2, axis=2)
    nearest: NDArray[np.intp] = np.argmin(gaps, axis=1)
    return nearest


def _nearest_colour(
    lab: Floats, colours: list[tuple[Floats, Floats]], coloured: float
) -> Floats:
    """Return the distance of each pixel from the nearest background colour.

    A colour counts with its shades: CIELAB's cube roots put light dimmed by k on the
    ray to (-16, 0, 0), at the share k^(1/3) (CIE 15).
    """
    best = np.full(lab.shape[:2], np.inf, np.float32)
    black = np.array([-16.0, 0.0, 0.0], np.float32)  # where all shades of a colour meet
    from_black = lab - black
    for mean, root in colours:
        full = mean - black
        along = (full / np.dot(full, full))[None]
        darkest = SHADE if np.hypot(mean[1], mean[2]) > coloured else NEUTRAL_SHADE
        shade = np.clip(cv2.transform(from_black, along), darkest, 1.0)
        off = np.asarray(
            cv2.transform(from_black - shade[..., None] * full, root.T), np.float32
        )
        np.minimum(best, _square_sum(off), out=best)
    return np.sqrt(best)


def _square_sum(channels: Floats) -> Floats:
    """Return the sum over the channels of their squares; far faster than np.sum."""
    ones = np.ones((1, 3), np.float32)
    return np.asarray(cv2.transform(channels * channels, ones), np.float32)


def _solid(distance: Floats, small: _Small) -> ByteArray:
    """Return what is unlike the background, holes filled and threads cut."""
    grown = ((distance > GROW) & ~_soft(distance, small.lab)).astype(np.uint8)
    grown = _morph(grown, cv2.MORPH_CLOSE, 1.5 * small.px_per_mm)
    contours, tree = cv2.findContours(grown, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_SIMPLE)
    areas = [cv2.contourArea(contour) for contour in contours]
    for index, (_, _, _, parent) in enumerate(np.reshape(tree, (-1, 4))):
        if parent >= 0 and areas[index] < MAX_HOLE_SHARE * areas[parent]:
            cv2.drawContours(grown, contours, index, (1,), cv2.FILLED)
    return _morph(grown, cv2.MORPH_OPEN, 2.0 * small.px_per_mm)


def _soft(distance: Floats, lab: Floats) -> BoolArray:
    """Return where the background runs on without an edge: glare, shadow, wet."""
    smooth = cv2.GaussianBlur(lab, (0, 0), 0.8)
    slopes = [
        np.asarray(cv2.Sobel(smooth, cv2.CV_32F, *axis, scale=0.125), np.float32)
        for axis in ((1, 0), (0, 1))
    ]
    slope = np.sqrt(_square_sum(slopes[0]) + _square_sum(slopes[1]))
    plain = distance < GROW
    open_ = (plain | (slope < CALM_SLOPE)) & (distance < CALM_DISTANCE)
    count, label = cv2.connectedComponents(open_.astype(np.uint8), connectivity=4)
    size = np.bincount(label.ravel(), minlength=count)
    seeds = np.bincount(label[plain], minlength=count)
    runs_on: BoolArray = (seeds > CALM_SEEDS * size)[label] & open_
    return runs_on


def _contours(mask: ByteArray) -> list[FloatArray]:
    contours, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    return [contour.reshape(-1, 2).astype(float) for contour in contours]


def _outline(
    blob: FloatArray, distance: Floats, small: _Small, photo: Photo
) -> FishOutline | None:
    """Return the outline of a blob, or None if it cannot be a fish."""
    if not _may_be_fish(blob, distance, small):
        return None
    contour = cut_out(small.rgb, blob, distance > SEED, small.px_per_mm)
    if contour is None or not _may_be_fish(contour, distance, small):
        contour = blob
    contrast = float(np.median(distance[_within(contour, distance.shape) > 0]))
    refined = refine_contour(
        photo.rgb, small.to_raster(contour), float(small.factor[0])
    )
    size = np.array([photo.rgb.shape[1], photo.rgb.shape[0]])
    margin = EDGE_MARGIN_PX * small.factor
    cut = bool(np.any((refined < margin) | (refined > size - 1 - margin)))
    doubts = (("edge-cut", cut), ("low-contrast", contrast < LOW_CONTRAST))
    return FishOutline(
        contour_px=frozen(photo.to_display(refined)),
        confidence=float(np.clip(contrast / 8.0, 0.3, 0.95)),
        flags=tuple(word for word, holds in doubts if holds),
    )


def _may_be_fish(contour: FloatArray, distance: Floats, small: _Small) -> bool:
    """Return whether a blob has a fish's size, is solid and stands out."""
    points = contour.astype(np.float32)
    area = cv2.contourArea(points)
    if (
        area < MIN_AREA_MM2 * small.px_per_mm**2
        or area > MAX_AREA_SHARE * distance.size
    ):
        return False
    solidity = area / cv2.contourArea(cv2.convexHull(points))
    within = distance[_within(contour, distance.shape) > 0]
    return bool(solidity > MIN_SOLIDITY and np.mean(within > SEED) > SEED_SHARE)


def _within(contour: FloatArray, shape: tuple[int, ...]) -> ByteArray:
    mask = np.zeros(shape, np.uint8)
    cv2.fillPoly(mask, [np.round(contour).astype(np.int32)], (1,))
    return mask


def _reading_order(outline: FishOutline, photo: Photo) -> tuple[int, float]:
    """Return the row band and column of an outline's middle."""
    x, y = outline.contour_px.mean(axis=0)
    return int(6.0 * y / photo.height_px), float(x)
