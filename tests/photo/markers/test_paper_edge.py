"""The print scale that the paper's edges tell, on drawn sheets.

The drawing follows ISO 216: paper of 297 x 210 mm whatever is printed on it, the print
shrunk about its middle, seen by a pinhole camera (OpenCV's projection).
"""

import cv2
import numpy as np
import pytest

from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.plane import PlaneScale

BOARD, PAPER, INK = 70, 235, 25
PER_MM = 4.0  # of the drawing
SIZE_PX = (1600, 1200)


def as_drawn(print_scale: float) -> float:
    """Return the print scale that whole pixels of the drawing make of one."""
    return round(40 * print_scale * PER_MM) / (40 * PER_MM)


def drawn(
    print_scale: float,
    *,
    board: int = BOARD,
    tilt_deg: float = 8.0,
    cover_mm: float = 0.0,
) -> Photo:
    """Return a photo of an A4 sheet on a board, printed at a scale."""
    ground = np.full((1400, 1800), board, np.uint8)
    left, top = 300, 280
    paper = np.full((int(210 * PER_MM), int(297 * PER_MM)), PAPER, np.uint8)
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    for marker_id, (x, y) in enumerate(((35, 35), (262, 35), (262, 175), (35, 175))):
        side = round(40 * print_scale * PER_MM)
        exact = side / (40 * PER_MM)  # to whole pixels; the places follow it
        marker = cv2.aruco.generateImageMarker(dictionary, marker_id, 600)
        marker = cv2.resize(marker, (side, side), interpolation=cv2.INTER_AREA)
        middle = np.array([148.5, 105.0]) + (np.array([x, y]) - [148.5, 105.0]) * exact
        x0, y0 = np.round(middle * PER_MM - side / 2).astype(int)
        paper[y0 : y0 + side, x0 : x0 + side] = np.maximum(marker, INK)
    ground[top : top + paper.shape[0], left : left + paper.shape[1]] = paper
    if cover_mm:  # a fish over one edge
        ground[
            top + 200 : top + 200 + int(cover_mm * PER_MM), left - 60 : left + 60
        ] = 30
    tilt = np.radians(tilt_deg)
    focal, high = 1300.0, 520.0
    turn = np.array(
        [[1, 0, 0], [0, np.cos(tilt), -np.sin(tilt)], [0, np.sin(tilt), np.cos(tilt)]]
    )
    to_mm = np.array([[1 / PER_MM, 0, -225.0], [0, 1 / PER_MM, -175.0], [0, 0, 1]])
    camera = np.array([[focal, 0, 799.5], [0, focal, 599.5], [0, 0, 1]])
    pose = np.column_stack([turn[:, :2], [0.0, 0.0, high]])
    grey = cv2.warpPerspective(
        ground, camera @ pose @ to_mm, SIZE_PX, borderValue=float(board)
    )
    blurred = cv2.GaussianBlur(grey, (0, 0), 0.7)
    rgb = np.asarray(cv2.cvtColor(blurred, cv2.COLOR_GRAY2RGB), dtype=np.uint8)
    rgb.setflags(write=False)
    return Photo(
        name="drawn", rgb=rgb, width_px=1600, height_px=1200, focal_length_px=focal
    )


def seen(photo: Photo, print_scale: float = 1.0) -> PlaneScale:
    return find_plane(photo, print_scale=print_scale, paper="A4")


@pytest.mark.parametrize("true", [0.95, 0.97, 1.025])
def test_a_sheet_printed_at_another_scale_is_told(true: float) -> None:
    exact = as_drawn(true)
    found = seen(drawn(true))
    assert found.print_scale_by_paper == pytest.approx(exact, abs=0.004)
    assert found.relative_se >= 0.8 * abs(exact - 1.0)
    assert any(
        source.name == "print scale against the paper" for source in found.sources
    )


def test_it_is_not_told_where_the_right_one_was_given() -> None:
    assert seen(drawn(0.97), as_drawn(0.97)).print_scale_by_paper is None


@pytest.mark.parametrize("tilt_deg", [0.0, 8.0, 20.0])
def test_a_sheet_printed_rightly_is_left_in_peace(tilt_deg: float) -> None:
    assert seen(drawn(1.0, tilt_deg=tilt_deg)).print_scale_by_paper is None


def test_fish_over_an_edge_do_not_mislead() -> None:
    assert seen(drawn(1.0, cover_mm=60.0)).print_scale_by_paper is None


def test_a_board_as_bright_as_paper_says_nothing() -> None:
    assert seen(drawn(0.95, board=PAPER)).print_scale_by_paper is None
