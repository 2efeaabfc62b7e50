"""Where fish are in a photo, large and small: a first look, and nearer ones.

The first look shows the whole plane. Where it sees something fish-like that is no
fish of a good size, tiles of it are looked at again at twice the scale.
"""

from dataclasses import dataclass, replace

import cv2
import numpy as np

from fishmeasure.base.arrays import BoolArray, FloatArray
from fishmeasure.photo.image import Photo
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.learned.instances import (
    Instance,
    find_instances,
    fish_like,
)
from fishmeasure.photo.segment.learned.networks import run_detector
from fishmeasure.photo.segment.learned.view import Frame, rectify, whole_frame

MAX_PX = 140_000.0
"""Pixels of the first picture. On 380 rendered fish of 70 to 400 mm 0.14 megapixels
found as many, all of them, as 0.2 did, in two thirds of the time."""
MAX_PX_PER_MM = 1.0
LARGE_PX = 48.0
"""Fish of this length and more in the first picture need no nearer look."""
MIN_LENGTH_PX = 14.0
"""In the finest picture: a shorter fish is counted, not measured."""
MIN_LENGTH_RASTER_PX = 40.0
"""In the photo as it was read: of 13 to 24 pixels grass and gravel look like fish."""
TILE_MAGNIFICATION = 2
"""Scale of a nearer look over the first one's."""
_SAME = 0.05
"""Of the length: ends nearer than this are refined to the same fish anyhow."""
_PAD_PX = 16
_MAX_TILES_SHARE = 1.0  # of the first picture's area; beyond it all is looked at


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Candidates:
    """Where fish may be.

    Attributes
    ----------
    frame
        Of the first picture.
    fish_like
        (rows / 4, columns / 4) of the first picture: where it shows fish.
    ends_mm
        (2, 2) snout and fork on the plane for each, the likeliest first.
    too_small
        How many more there are that are too small to be measured.
    shortest_mm
        Length of the shortest fish that can be.
    """

    frame: Frame
    fish_like: BoolArray
    ends_mm: tuple[FloatArray, ...]
    too_small: int
    shortest_mm: float


def find_candidates(photo: Photo, plane: PlaneScale) -> Candidates:
    """Return where fish may be."""
    frame = whole_frame(photo, plane, MAX_PX, MAX_PX_PER_MM)
    output = run_detector(rectify(photo, plane, frame).rgb)
    first = find_instances(output)
    large = [one for one in first if one.length_px >= LARGE_PX]
    small = [one for one in first if one.length_px < LARGE_PX]
    likely = fish_like(output)
    rest = _unexplained(likely, large, small)
    tiles = _tiles(rest, frame) if _has_finer_detail(photo, plane, frame) else []
    ends = [frame.to_mm(np.array([one.snout, one.fork])) for one in large]
    if tiles:
        for tile in tiles:
            near = find_instances(run_detector(rectify(photo, plane, tile).rgb))
            ends += _new_ends(near, tile, ends)
        finest = frame.px_per_mm * TILE_MAGNIFICATION
    else:
        ends += [frame.to_mm(np.array([one.snout, one.fork])) for one in small]
        finest = frame.px_per_mm
    if _has_finer_detail(photo, plane, frame):
        finest = frame.px_per_mm * TILE_MAGNIFICATION
    shortest_mm = max(
        MIN_LENGTH_PX / finest, MIN_LENGTH_RASTER_PX * photo.reduction / plane.px_per_mm
    )
    lengths = [float(np.hypot(*(one[1] - one[0]))) for one in ends]
    kept = [one for one, mm in zip(ends, lengths, strict=True) if mm >= shortest_mm]
    return Candidates(
        frame=frame,
        fish_like=likely,
        ends_mm=tuple(kept),
        too_small=len(ends) - len(kept),
        shortest_mm=shortest_mm,
    )


def find_nearer(photo: Photo, plane: PlaneScale, first: Candidates) -> Candidates:
    """Return where else fish may be: all is looked at again at twice the scale.

    Of fish that lie on one another the first look shows too little: in eight rendered
    heaps it found 35 of 44 uncovered ones, and this one eight more. ``too_small`` of
    the first holds.
    """
    rows, columns = first.frame.shape
    if not _has_finer_detail(photo, plane, first.frame):
        return replace(first, ends_mm=())
    near = _magnified(first.frame, (0, 0, columns, rows))
    found = find_instances(run_detector(rectify(photo, plane, near).rgb))
    ends = [near.to_mm(np.array([one.snout, one.fork])) for one in found]
    longest = [float(np.hypot(*(one[1] - one[0]))) for one in ends]
    return replace(
        first,
        ends_mm=tuple(
            one
            for one, mm in zip(ends, longest, strict=True)
            if mm >= max(first.shortest_mm, LARGE_PX / near.px_per_mm)
            and all(_apart(one, other) > _SAME * mm for other in first.ends_mm)
        ),
    )


def _unexplained(
    cells: BoolArray, large: list[Instance], small: list[Instance]
) -> BoolArray:
    """Return the fish-like cells that belong to no large fish.

    Those beside one are its own edge, unless they voted for a small fish.
    """
    taken = np.zeros(cells.shape, np.uint8)
    for one in large:
        taken[one.rows, one.columns] = 1
    rest = cells & (cv2.dilate(taken, np.ones((7, 7), np.uint8)) == 0)
    for one in small:
        rest[one.rows, one.columns] = True
    return np.asarray(rest)


def _has_finer_detail(photo: Photo, plane: PlaneScale, frame: Frame) -> bool:
    """Return whether the photo shows more than the first picture does."""
    raster_px_per_mm = plane.px_per_mm / photo.reduction
    return raster_px_per_mm > 1.2 * frame.px_per_mm


def _new_ends(
    near: tuple[Instance, ...], tile: Frame, known: list[FloatArray]
) -> list[FloatArray]:
    """Return the ends of small fish in a tile that are not known already."""
    new: list[FloatArray] = []
    for one in near:
        if one.length_px > 1.5 * TILE_MAGNIFICATION * LARGE_PX:
            continue  # a part of a large fish
        ends = tile.to_mm(np.array([one.snout, one.fork]))
        reach = 0.3 * float(np.hypot(*(ends[1] - ends[0])))
        if all(_apart(ends, other) > reach for other in (*known, *new)):
            new.append(ends)
    return new


def _apart(one: FloatArray, other: FloatArray) -> float:
    """Return how far the ends of two fish are apart, the worse of the two."""
    same = np.hypot(*(one - other).T).max()
    turned = np.hypot(*(one - other[::-1]).T).max()
    return float(min(same, turned))


def _tiles(cells: BoolArray, frame: Frame) -> list[Frame]:
    """Return nearer frames that show all of the cells (at a quarter) that are set."""
    if not cells.any():
        return []
    grown = cv2.dilate(cells.astype(np.uint8), np.ones((5, 5), np.uint8))
    count, _, stats, _ = cv2.connectedComponentsWithStats(grown, connectivity=8)
    rows, columns = frame.shape
    boxes = [
        (
            max(0, 4 * int(left) - _PAD_PX),
            max(0, 4 * int(top) - _PAD_PX),
            min(columns, 4 * int(left + wide) + _PAD_PX),
            min(rows, 4 * int(top + high) + _PAD_PX),
        )
        for left, top, wide, high, _ in stats[1:count]
    ]
    boxes = _joined(boxes)
    area = sum((x1 - x0) * (y1 - y0) for x0, y0, x1, y1 in boxes)
    if area > _MAX_TILES_SHARE * rows * columns:
        boxes = [(0, 0, columns, rows)]
    return [_magnified(frame, box) for box in boxes]


def _joined(boxes: list[tuple[int, int, int, int]]) -> list[tuple[int, int, int, int]]:
    """Return the boxes, those that overlap made one."""
    joined: list[tuple[int, int, int, int]] = []
    for new in boxes:
        box, again = new, True
        while again:
            again = False
            for other in joined:
                if (
                    box[0] < other[2]
                    and other[0] < box[2]
                    and box[1] < other[3]
                    and other[1] < box[3]
                ):
                    joined.remove(other)
                    box = (
                        min(box[0], other[0]),
                        min(box[1], other[1]),
                        max(box[2], other[2]),
                        max(box[3], other[3]),
                    )
                    again = True
                    break
        joined.append(box)
    return joined


def _magnified(frame: Frame, box: tuple[int, int, int, int]) -> Frame:
    """Return a frame of a box of another, at ``TILE_MAGNIFICATION`` times its scale."""
    x0, y0, x1, y1 = box
    rows, columns = (
        max(64, -(-side * TILE_MAGNIFICATION // 32) * 32) for side in (y1 - y0, x1 - x0)
    )
    step = frame.matrix[:, :2] / TILE_MAGNIFICATION
    corner = np.array([x0, y0]) - 0.5 + 0.5 / TILE_MAGNIFICATION
    start = frame.matrix[:, :2] @ corner + frame.matrix[:, 2]
    return Frame(matrix=np.column_stack([step, start]), shape=(rows, columns))
