"""Reading and scale of a 12 MP photo, against one full decode of it.

``python -m tests.bench.bench_optics [-n 7]``; best of n, one thread.
"""

import argparse
import io
import platform

import cv2
import numpy as np
from PIL import Image

from fishmeasure.photo.image import read_photo
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.quality import check_photo
from sample_images.synth.plane import PlaneScene, draw_plane, sheet_cards
from tests.bench.timing import best_ms

SCENE = PlaneScene(
    width_px=4032,
    height_px=3024,
    focal_px=3050.0,
    blur_px=1.5,
    tilt_deg=8.0,
    roll_deg=3.0,
    cards=sheet_cards("A4"),
)


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("-n", "--repeats", type=int, default=7)
    repeats = parser.parse_args().repeats
    cv2.setNumThreads(1)
    buffer = io.BytesIO()
    rgb = draw_plane(SCENE, np.random.default_rng(1))
    Image.fromarray(rgb).save(buffer, "JPEG", quality=92)
    data = buffer.getvalue()
    photo = read_photo(data, "drawn.jpg")
    plane = find_plane(photo)
    full = best_ms(lambda: np.asarray(Image.open(io.BytesIO(data))), repeats)
    print(
        f"Python {platform.python_version()}, OpenCV {cv2.__version__}, "
        f"{len(data)} bytes"
    )
    for name, call in (
        ("full decode", lambda: np.asarray(Image.open(io.BytesIO(data)))),
        ("read_photo (half size)", lambda: read_photo(data, "drawn.jpg")),
        ("find_plane", lambda: find_plane(photo)),
        ("check_photo", lambda: check_photo(photo, plane)),
    ):
        took = best_ms(call, repeats)
        print(f"{name:24}{took:8.1f} ms {took / full:6.2f} of a full decode")


if __name__ == "__main__":
    main()
