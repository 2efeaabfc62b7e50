"""What finding fish costs; prints milliseconds, ratios and memory.

Usage: python -m tests.bench.bench_outline [PHOTO] [--rounds 5] [--threads 2]

The networks may take at most 400 ms on two cores and at most four times one full
decode of a 12-megapixel JPEG; peak memory over imports at most 300 MB. Ratios say
more than milliseconds on a busy machine.
"""

import argparse
import io
import platform
import resource
import time
from pathlib import Path
from unittest.mock import patch

import cv2
import numpy as np
from PIL import Image

from fishmeasure.photo.image import read_photo
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.segment import LearnedSegmenter
from fishmeasure.photo.segment.learned import refiner
from fishmeasure.photo.segment.learned.candidates import MAX_PX, MAX_PX_PER_MM
from fishmeasure.photo.segment.learned.networks import (
    PATCH_PX,
    run_detector,
    run_end_finder,
    run_refiner,
)
from fishmeasure.photo.segment.learned.refiner import COLUMNS, ROWS
from fishmeasure.photo.segment.learned.view import rectify, whole_frame
from tests.bench.timing import best_ms

SAMPLE = Path(__file__).parents[2] / "sample_images" / "tank_a_net1.jpg"
TWELVE_MEGAPIXELS = (4032, 3024)


def large_jpeg(photo: Path) -> bytes:
    """Return the photo at 12 megapixels."""
    packed = io.BytesIO()
    with Image.open(photo) as image:
        image.convert("RGB").resize(TWELVE_MEGAPIXELS).save(packed, "JPEG", quality=90)
    return packed.getvalue()


def peak_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> None:
    parser = argparse.ArgumentParser(prog="tests.bench.bench_outline")
    parser.add_argument("photo", nargs="?", type=Path, default=SAMPLE)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--threads", type=int, default=2)
    given = parser.parse_args()
    cv2.setNumThreads(given.threads)
    data = given.photo.read_bytes()
    photo = read_photo(data, given.photo.name)
    plane = find_plane(photo)
    before_mb = peak_mb()
    with patch.object(refiner, "run_refiner", wraps=run_refiner) as asked:
        outlines = LearnedSegmenter().find(photo, plane)
    passes = asked.call_count
    after_mb = peak_mb()
    view = rectify(photo, plane, whole_frame(photo, plane, MAX_PX, MAX_PX_PER_MM))
    level = np.full((ROWS, COLUMNS, 3), 128, np.uint8)
    patch_rgb = np.full((PATCH_PX, PATCH_PX, 3), 128, np.uint8)
    large = np.frombuffer(large_jpeg(given.photo), np.uint8)
    decode = best_ms(lambda: cv2.imdecode(large, cv2.IMREAD_COLOR), given.rounds)
    first = best_ms(lambda: run_detector(view.rgb), given.rounds)
    second = best_ms(lambda: run_refiner(level), given.rounds)
    third = best_ms(lambda: run_end_finder(patch_rgb, 0), given.rounds)
    whole = best_ms(lambda: LearnedSegmenter().find(photo, plane), given.rounds)
    networks = first + second * passes + third * 2 * len(outlines)
    cpu = best_ms(lambda: run_detector(view.rgb), given.rounds, time.process_time)
    cpu += passes * best_ms(lambda: run_refiner(level), given.rounds, time.process_time)
    print(f"OpenCV {cv2.__version__}, {given.threads} threads, {platform.machine()}")
    print(f"decode 12 MP           {decode:7.0f} ms")
    print(f"first network          {first:7.0f} ms  {view.rgb.shape[:2]}")
    print(f"second network         {second:7.0f} ms  a pass")
    print(f"  passes made          {passes:7}     for {len(outlines)} fish")
    print(f"third network          {third:7.0f} ms  an end")
    print(
        f"all networks           {networks:7.0f} ms  {networks / decode:.1f} x decode"
    )
    print(f"  processor time       {cpu:7.0f} ms  of all threads")
    print(f"find, all of it        {whole:7.0f} ms  {whole / decode:.1f} x decode")
    here_mb = after_mb - before_mb
    print(f"peak memory            {after_mb:7.0f} MB, {here_mb:.0f} MB of it here")


if __name__ == "__main__":
    main()
