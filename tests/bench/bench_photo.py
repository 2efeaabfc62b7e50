"""The whole photo pipeline against one full decode of the same 12 MP JPEG.

Prints the processor time of each stage on one thread, as milliseconds and as decodes,
which say the same on another machine, and the memory that measuring takes over what
importing takes.

    python -m tests.bench.bench_photo [--photo FILE] [--runs 7]
"""

import argparse
import os
import platform
import resource
from functools import partial
from pathlib import Path
from typing import Any

import cv2
import numpy as np

from fishmeasure.photo.image import read_photo
from fishmeasure.photo.length import FishLength, FishShape, measure_length, shape_of
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment import SEGMENTERS, FishOutline
from fishmeasure.pipeline import PhotoSettings, measure_photo
from tests.bench.timing import processor_s, use_one_thread

SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"


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


def report(data: bytes, runs: int) -> None:
    """Print the table."""
    use_one_thread()
    imported_mb = peak_mb()
    measure_photo(data, "photo")
    measured_mb = peak_mb()
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
        outlines = segmenter.find(photo, plane)
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
    print(f"{'memory over imports':32} {measured_mb - imported_mb:7.0f} MB")


def main() -> None:
    """Read the options and print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--photo", type=Path, default=SAMPLES / "tank_a_net1.jpg")
    parser.add_argument("--runs", type=int, default=7)
    options = parser.parse_args()
    report(options.photo.read_bytes(), options.runs)


if __name__ == "__main__":
    main()
