"""The printed calibration paper: the sheet, the loose cards, the single card.

Ink is coloured faces of the paper's own plane, so that every edge lies exactly
where the truth says.
"""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from sample_images.generator.mesh import Mesh

Array = NDArray[np.float64]

PAPER_LIFT_MM = 0.1  # thickness of the paper
SHEET_SIZE_MM = (297.0, 210.0)
SHEET_MARKER_MM = 40.0
SHEET_INSET_MM = 15.0
CARD_SIZE_MM = 60.0
SINGLE_ID, SINGLE_MARKER_MM, SINGLE_CARD_MM = 10, 60.0, 80.0
PAPER_COLOUR = (0.80, 0.80, 0.79)
INK_COLOUR = (0.035, 0.035, 0.037)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Paper:
    """One piece of paper on the board.

    ``corners_mm`` holds per marker id the (4, 3) ink corners, clockwise as printed
    from the marker's own top-left.
    """

    mesh: Mesh
    outline_mm: Array
    corners_mm: dict[int, Array]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSpec:
    """What lies where: kind "sheet", "card" or "single"; ``marker_id`` for cards.

    ``lift_mm`` is the height of its face above the board; on a net it lies higher.
    """

    kind: str
    position_mm: tuple[float, float] = (0.0, 0.0)
    rotation_deg: float = 0.0
    marker_id: int = 0
    print_scale: float = 1.0
    lift_mm: float = PAPER_LIFT_MM


def _bits(marker_id: int) -> NDArray[np.bool_]:
    """Return the 6 x 6 cells of a marker, True for ink."""
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    image = cv2.aruco.generateImageMarker(dictionary, marker_id, 6)
    return np.asarray(image) < 128


def _layout(
    spec: PaperSpec,
) -> tuple[tuple[float, float], dict[int, tuple[float, float, float]]]:
    """Return the paper's size and per id (left, top, side), y down from the top."""
    if spec.kind == "sheet":
        w, h = SHEET_SIZE_MM
        far_x = w - SHEET_INSET_MM - SHEET_MARKER_MM
        far_y = h - SHEET_INSET_MM - SHEET_MARKER_MM
        near, side = SHEET_INSET_MM, SHEET_MARKER_MM
        return SHEET_SIZE_MM, {
            0: (near, near, side),
            1: (far_x, near, side),
            2: (far_x, far_y, side),
            3: (near, far_y, side),
        }
    if spec.kind == "card":
        inset = (CARD_SIZE_MM - SHEET_MARKER_MM) / 2
        return (CARD_SIZE_MM,) * 2, {spec.marker_id: (inset, inset, SHEET_MARKER_MM)}
    inset = (SINGLE_CARD_MM - SINGLE_MARKER_MM) / 2
    return (SINGLE_CARD_MM,) * 2, {SINGLE_ID: (inset, inset, SINGLE_MARKER_MM)}


def _ink_rectangles(
    markers: dict[int, tuple[float, float, float]], size: tuple[float, float]
) -> list[tuple[float, float, float, float]]:
    """Return ink as (left, top, right, bottom): markers and the check line."""
    rectangles = []
    for marker_id, (left, top, side) in markers.items():
        cell = side / 6
        rectangles += [
            (
                left + c * cell,
                top + r * cell,
                left + (c + 1) * cell,
                top + (r + 1) * cell,
            )
            for r, c in np.argwhere(_bits(marker_id))
        ]
    if size == SHEET_SIZE_MM:  # the 100 mm check line with end ticks
        x, y = size[0] / 2 - 50, size[1] - 14
        rectangles += [(x, y - 0.2, x + 100, y + 0.2)]
        rectangles += [(t - 0.2, y - 3, t + 0.2, y + 3) for t in (x, x + 100)]
    return rectangles


def build(spec: PaperSpec) -> Paper:
    """Return the paper's mesh and where its ink corners are."""
    size, markers = _layout(spec)
    middle = np.array(size) / 2

    def printed(points: Array) -> Array:
        """Return where the printer put points: the paper keeps its cut size."""
        return np.asarray(middle + (points - middle) * spec.print_scale)

    rectangles = [
        tuple(printed(np.array(corners).reshape(2, 2)).ravel())
        for corners in _ink_rectangles(markers, size)
    ]
    xs = np.unique(np.round([0, size[0], *(v for r in rectangles for v in r[::2])], 6))
    ys = np.unique(np.round([0, size[1], *(v for r in rectangles for v in r[1::2])], 6))
    mid_x, mid_y = (xs[:-1] + xs[1:]) / 2, (ys[:-1] + ys[1:]) / 2
    ink = np.zeros((len(mid_y), len(mid_x)), dtype=bool)
    for left, top, right, bottom in rectangles:
        in_x = (mid_x > left) & (mid_x < right)
        ink |= np.outer((mid_y > top) & (mid_y < bottom), in_x)

    def place(points: Array) -> Array:
        """Return scene points of paper points (x right, y down from top-left)."""
        local = (points - middle) * [1, -1]
        angle = np.radians(spec.rotation_deg)
        turn = np.array(
            [[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]]
        )
        flat = local @ turn.T + np.array(spec.position_mm)
        return np.column_stack([flat, np.full(len(flat), spec.lift_mm)])

    vertices: list[tuple[float, float]] = []
    faces: list[tuple[int, int, int]] = []
    colours: list[tuple[float, float, float]] = []
    for row in range(len(mid_y)):
        for col in range(len(mid_x)):
            base = len(vertices)
            vertices += [
                (xs[col], ys[row]),
                (xs[col], ys[row + 1]),
                (xs[col + 1], ys[row + 1]),
                (xs[col + 1], ys[row]),
            ]
            faces += [(base, base + 1, base + 2), (base, base + 2, base + 3)]
            colours += [INK_COLOUR if ink[row, col] else PAPER_COLOUR] * 2
    flat = np.array(vertices)
    corner = np.array([[0.0, 0.0], [1, 0], [1, 1], [0, 1]])
    return Paper(
        mesh=Mesh(
            vertices_mm=place(flat),
            faces=np.array(faces),
            uv=flat / np.array(size),
            face_colours=np.array(colours),
        ),
        outline_mm=place(corner * np.array(size)),
        corners_mm={
            marker_id: place(printed(np.array([left, top]) + corner * side))
            for marker_id, (left, top, side) in markers.items()
        },
    )
