"""The same photo at 0.8, 0.6 and 0.4 of its size: what becomes of the lengths.

``python -m tests.accuracy.scaled FOLDER [...]`` shrinks each photo that has its truth
beside it and prints how far lengths of fish used at full size move, and how much of
that is the scale's (the same two points on both planes) and the ends' (both pairs of
points on one plane).
"""

import argparse
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import cv2
import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import FishMeasureError
from fishmeasure.photo.image import Photo
from fishmeasure.photo.length import FishLength, measure_between, measure_length
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment import SEGMENTERS
from tests.accuracy.lengths import SHAPE
from tests.accuracy.outlines import rendered

SIZES = (0.8, 0.6, 0.4)
WITHIN = 0.004
NEAR = 0.2
"""Of the length: the ends of one fish at two sizes are nearer than this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """How one fish's length moved, as fractions; None where it is not used."""

    photo: str
    size: float
    length: float | None = None
    scale: float = 0.0
    ends: float = 0.0


def shrunk(photo: Photo, size: float) -> Photo:
    """Return the photo at a part of its size."""
    picture = np.asarray(photo.rgb)
    rgb = cv2.resize(picture, None, fx=size, fy=size, interpolation=cv2.INTER_AREA)
    rows, columns = rgb.shape[:2]
    focal = photo.focal_length_px
    return replace(
        photo,
        rgb=np.asarray(rgb, np.uint8),
        width_px=columns,
        height_px=rows,
        reduction=1,
        focal_length_px=None if focal is None else focal * columns / photo.width_px,
    )


def measured(photo: Photo, plane: PlaneScale) -> list[FishLength]:
    outlines = SEGMENTERS["learned"].find(photo, plane)
    lengths = (measure_length(outline, plane, SHAPE) for outline in outlines)
    return [length for length in lengths if length.complete]


def ends_of(fish: FishLength, size: float) -> FloatArray:
    """Return (2, 2) snout and fork in pixels of the photo at full size."""
    return (np.array([fish.snout_px, fish.fork_px]) + 0.5) / size - 0.5


def between(ends_px: FloatArray, plane: PlaneScale, size: float) -> float:
    """Return the length between ends (2, 2) of the full size on a smaller's plane."""
    snout, fork = (ends_px + 0.5) * size - 0.5
    return measure_between(snout, fork, plane, SHAPE).fork_length_mm


def moved(photo: Photo, print_scale: float) -> Iterator[Moved]:
    """Yield how each fish of a photo moves at each size."""
    plane = find_plane(photo, print_scale=print_scale)
    fish = measured(photo, plane)
    for wanted in SIZES:
        small = shrunk(photo, wanted)
        size = small.width_px / photo.width_px
        try:
            small_plane = find_plane(small, print_scale=print_scale)
        except FishMeasureError as error:
            print(f"{photo.name} at {wanted}: no scale ({error.message})")
            continue
        others = measured(small, small_plane)
        for one in fish:
            ends = ends_of(one, 1.0)
            pairs = [(ends_of(other, size), other) for other in others]
            reach = NEAR * float(np.hypot(*(ends[1] - ends[0])))
            same = [p for p in pairs if np.hypot(*(p[0] - ends).T).max() < reach]
            if not same:
                yield Moved(photo=photo.name, size=wanted)
                continue
            theirs, other = same[0]
            full = between(ends, plane, 1.0)
            yield Moved(
                photo=photo.name,
                size=wanted,
                length=other.fork_length_mm / one.fork_length_mm - 1.0,
                scale=between(ends, small_plane, size) / full - 1.0,
                ends=between(theirs, plane, 1.0) / full - 1.0,
            )


def main() -> None:
    """Print a line for each size."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folders", nargs="+", type=Path)
    options = parser.parse_args()
    found = []
    for photo, truth in rendered(options.folders):
        found += list(moved(photo, truth["print_scale"] or 1.0))
    for size in SIZES:
        mine = [one for one in found if one.size == size]
        used = [one for one in mine if one.length is not None]
        print(f"{size}: {len(used)} of {len(mine)} fish used", end="; ")
        for name in ("length", "scale", "ends"):
            values = np.array([getattr(one, name) for one in used])
            rms = float(np.sqrt(np.mean(values**2)))
            print(f"{name} rms {100 * rms:.2f} %", end=", ")
        off = np.abs([one.length or 0.0 for one in used])
        print(f"most {100 * off.max():.2f} %, within 0.4 %: {np.sum(off <= WITHIN)}")


if __name__ == "__main__":
    main()
