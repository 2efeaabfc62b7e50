"""Pictures of printed markers as a camera would see them, with what is true of them.

Each is drawn from the sheet's own measures through a pinhole, so that corners and tilt
are known without any detector.
"""

import json
import math
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np

from fishmeasure.base.arrays import ByteArray, FloatArray
from fishmeasure.photo.markers import sheet, single
from fishmeasure.photo.markers.layout import UNIT_SQUARE

WIDTH, HEIGHT = 800, 600
FINER = 3  # drawn so much finer, then reduced
PX_PER_MM = 4
FOCAL_PX = 26.0 / math.hypot(36.0, 24.0) * math.hypot(WIDTH, HEIGHT)
DESK, PAPER, INK = 120, 225, 35  # grey values


@dataclass(frozen=True, kw_only=True)
class View:
    """How a picture is taken."""

    name: str
    turn_deg: float = 20.0
    tilt_deg: float = 0.0
    height_mm: float = 600.0
    blur_mm: float = 0.0
    light: float = 1.0
    ids: tuple[int, ...] = sheet.IDS
    tags: int = cv2.aruco.DICT_4X4_50


VIEWS = (
    View(name="straight"),
    View(name="turned", turn_deg=200.0, tilt_deg=10.0),
    View(name="tilted", tilt_deg=40.0, height_mm=700.0),
    View(name="dark", light=0.04),
    View(name="blurred", blur_mm=1.3),
    View(name="far", height_mm=1100.0),
    View(name="covered", ids=(0, 1, 3)),
    View(name="single", ids=(single.ID,), height_mm=500.0),
    View(name="of-others", ids=(4, 5, 6, 7)),
    View(name="other-tags", tags=cv2.aruco.DICT_APRILTAG_16H5),
)


def write_views(folder: Path) -> None:
    """Write each picture's grey values, and a list of what is true of them."""
    told = []
    for view in VIEWS:
        grey, corners = draw(view)
        (folder / f"{view.name}.grey").write_bytes(grey.tobytes())
        told.append(
            {
                "name": view.name,
                "width": WIDTH,
                "height": HEIGHT,
                "tilt_deg": view.tilt_deg,
                "corners": {str(i): c.tolist() for i, c in corners.items()},
            }
        )
    (folder / "views.json").write_text(json.dumps(told))


def draw(view: View) -> tuple[ByteArray, dict[int, FloatArray]]:
    """Return a picture, and the corners of each marker, clockwise from top-left."""
    paper_mm = sheet.PAPERS_MM["A4"]
    places = sheet.sheet_layout("A4").centres_mm
    side = single.SIDE_MM if view.ids == (single.ID,) else sheet.SIDE_MM
    flat = np.full([round(mm * PX_PER_MM) for mm in paper_mm[::-1]], PAPER, np.uint8)
    corners_mm = {}
    for number, marker_id in enumerate(view.ids):
        centre = np.array(places.get(marker_id, places[number % 4]))
        if side == single.SIDE_MM:
            centre = np.array(paper_mm) / 2
        corners_mm[marker_id] = UNIT_SQUARE * side + centre
        size = round(side * PX_PER_MM)
        tag = cv2.aruco.generateImageMarker(
            cv2.aruco.getPredefinedDictionary(view.tags), marker_id, size, borderBits=1
        )
        x, y = np.round(corners_mm[marker_id][0] * PX_PER_MM).astype(int)
        flat[y : y + size, x : x + size] = np.where(tag > 0, PAPER, INK)
    plane = homography(view, paper_mm)
    # From the flat sheet's pixels, whose centres are at (i + 0.5) / PX_PER_MM.
    to_mm = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, PX_PER_MM]]) / PX_PER_MM
    finer = np.array(
        [[FINER, 0, (FINER - 1) / 2], [0, FINER, (FINER - 1) / 2], [0, 0, 1]]
    )
    large = cv2.warpPerspective(
        flat,
        finer @ plane @ to_mm,
        (WIDTH * FINER, HEIGHT * FINER),
        borderValue=DESK,
    )
    # Light is dimmed and blurred; grey values are its power of 1 / 2.2 (sRGB's,
    # nearly).
    light = np.asarray((large / 255.0) ** 2.2 * view.light, np.float64)
    if view.blur_mm:
        px = view.blur_mm * FOCAL_PX / view.height_mm * FINER
        light = np.asarray(cv2.GaussianBlur(light, (0, 0), px), np.float64)
    small = cv2.resize(light, (WIDTH, HEIGHT), interpolation=cv2.INTER_AREA)
    noise = np.random.default_rng(1).normal(0.0, 1.5, small.shape)
    grey = np.clip(255.0 * small ** (1 / 2.2) + noise, 0, 255).astype(np.uint8)
    return grey, {
        marker_id: cv2.perspectiveTransform(c[None], plane)[0]
        for marker_id, c in corners_mm.items()
    }


def homography(view: View, paper_mm: tuple[float, float]) -> FloatArray:
    """Return millimetres of the sheet to pixels, its middle in the picture's middle."""
    turn, tilt = math.radians(view.turn_deg), math.radians(view.tilt_deg)
    about_z = np.array(
        [
            [math.cos(turn), -math.sin(turn), 0],
            [math.sin(turn), math.cos(turn), 0],
            [0, 0, 1],
        ]
    )
    about_x = np.array(
        [
            [1, 0, 0],
            [0, math.cos(tilt), -math.sin(tilt)],
            [0, math.sin(tilt), math.cos(tilt)],
        ]
    )
    rotation = about_x @ about_z
    middle = rotation @ np.array([*paper_mm, 0.0]) / 2
    shift = np.array([0.0, 0.0, view.height_mm]) - middle
    camera = np.array(
        [
            [FOCAL_PX, 0, (WIDTH - 1) / 2],
            [0, FOCAL_PX, (HEIGHT - 1) / 2],
            [0, 0, 1],
        ]
    )
    plane: FloatArray = camera @ np.column_stack(
        [rotation[:, 0], rotation[:, 1], shift]
    )
    return plane
