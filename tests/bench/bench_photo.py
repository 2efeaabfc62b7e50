"""The whole photo pipeline against one full decode of the same 12 MP JPEG.

Prints the processor time of each stage on one thread, as milliseconds and as decodes,
which say the same on another machine, the median of the whole over a photo with a net,
a cluttered and a plain one, and the memory that measuring takes over what importing
takes. Photos of another size are enlarged to 12 megapixels.

    python -m tests.bench.bench_photo [--photo FILE ...] [--runs 9]
"""

import argparse
import io
import os
import platform
import resource
import statistics
from functools import partial
from pathlib import Path
from typing import Any

import cv2
import numpy as np
from PIL import Image

from fishmeasure.photo.image import read_photo
from fishmeasure.photo.length import FishLength, FishShape, measure_length, shape_of
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment import SEGMENTERS, FishOutline
from fishmeasure.pipeline import PhotoSettings, measure_photo
from tests.bench.timing import processor_s, use_one_thread

SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"
PHOTOS = ("tank_a_net1.jpg", "clutter_wood.jpg", "wood_sheet.jpg")
TWELVE_MEGAPIXELS = (4032, 3024)
GOAL_DECODES = 6.0


def twelve_megapixels(path: Path) -> bytes:
    """Return the photo at a phone's size, its Exif kept."""
    packed = io.BytesIO()
    with Image.open(path) as image:
        if image.size in {TWELVE_MEGAPIXELS, TWELVE_MEGAPIXELS[::-1]}:
            return path.read_bytes()
        large = image.convert("RGB").resize(TWELVE_MEGAPIXELS)
        large.save(packed, "JPEG", quality=90, exif=image.getexif())
    return packed.getvalue()


def peak_mb() -> float:
    """Return the most memory that this process has held, in MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000.0


def full_decode(data: bytes) -> Any:
    """Return the photo as an array, decoded at full size by OpenCV."""
    return cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_COLOR)


def measure_all(
    outlines: tuple[FishOutline, ...], plane: PlaneScale, shape: FishShape
) -> list[FishLength]:
    """Return the lengths of all outlines."""
    return [measure_length(outline, plane, shape) for outline in outlines]


def report(data: bytes, runs: int) -> float:
    """Print the table; return the whole in decodes."""
    settings = PhotoSettings()
    photo = read_photo(data, "photo")
    plane = find_plane(photo)
    shape = shape_of(settings.species)
    decode_s = processor_s(partial(full_decode, data), runs)
    rows = [
        ("one full decode", decode_s),
        ("read (reduced decode)", processor_s(partial(read_photo, data, "p"), runs)),
        ("markers and plane", processor_s(partial(find_plane, photo), runs)),
    ]
    for name, segmenter in SEGMENTERS.items():
        outlines = segmenter.find(photo, plane).outlines
        find = partial(segmenter.find, photo, plane)
        lengths = partial(measure_all, outlines, plane, shape)
        whole = partial(measure_photo, data, "p", settings, segmenter)
        rows += [
            (f"outlines: {name}", processor_s(find, runs)),
            (f"lengths of {len(outlines)} fish", processor_s(lengths, runs)),
            (f"whole pipeline: {name}", processor_s(whole, runs)),
        ]
    print(
        f"{photo.width_px} x {photo.height_px} px, best of {runs} runs, "
        "processor time on one thread"
    )
    print(
        f"Python {platform.python_version()}, OpenCV {cv2.__version__}, "
        f"{os.cpu_count()} cores"
    )
    for name, seconds in rows:
        print(f"{name:32} {1000 * seconds:7.0f} ms {seconds / decode_s:6.2f} x decode")
    return rows[-1][1] / decode_s


def main() -> None:
    """Read the options and print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    photos = [SAMPLES / name for name in PHOTOS]
    parser.add_argument("--photo", type=Path, nargs="+", default=photos)
    parser.add_argument("--runs", type=int, default=9)
    options = parser.parse_args()
    use_one_thread()
    imported_mb = peak_mb()
    measure_photo(options.photo[0].read_bytes(), "photo")
    print(f"memory over imports: {peak_mb() - imported_mb:.0f} MB")
    wholes = []
    for path in options.photo:
        print(f"\n{path.name}")
        wholes.append(report(twelve_megapixels(path), options.runs))
    middle = statistics.median(wholes)
    print(f"\nmedian of {len(wholes)}: {middle:.1f} decodes, goal {GOAL_DECODES:.0f}")


if __name__ == "__main__":
    main()
