"""Printable pages: the geometry of the PDF itself."""

import json
from pathlib import Path

import cv2
import numpy as np
import pypdfium2
import pytest

from fishmeasure.base.arrays import ByteArray
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers import find_plane
from fishmeasure.render.sheet import (
    PAGE_KINDS,
    PAPERS,
    design_page,
    page_facts,
    page_pdf,
)

CALIBRATION = Path(__file__).parents[2] / "calibration"
DPI = 254  # 10 dots a mm: all sides of these papers are whole
PER_MM = DPI / 25.4

# ISO 216:2007 trimmed sizes A3 and A4; ANSI/ASME Y14.1 size A is 8.5 x 11 in.
PORTRAIT_MM = {"A4": (210, 297), "A3": (297, 420), "Letter": (8.5 * 25.4, 11 * 25.4)}


def render(pdf: bytes, dpi: float = DPI) -> ByteArray:
    page = pypdfium2.PdfDocument(pdf)[0]
    grey = page.render(scale=dpi / 72, grayscale=True).to_numpy()
    return np.asarray(grey[:, :, 0] if grey.ndim == 3 else grey, np.uint8)


def markers_mm(grey: ByteArray, name: int) -> dict[int, np.ndarray]:
    """Return OpenCV's own corners, in mm from the page's top-left corner."""
    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    dictionary = cv2.aruco.getPredefinedDictionary(name)
    found, ids, _ = cv2.aruco.ArucoDetector(dictionary, settings).detectMarkers(grey)
    return {
        int(marker_id): (np.asarray(quad).reshape(4, 2) + 0.5) / PER_MM
        for quad, marker_id in zip(found, np.ravel(np.asarray(ids)), strict=True)
    }


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", PAGE_KINDS)
def test_page_size_is_the_standards(kind: str, paper: str) -> None:
    """The PDF's page is the paper, and asks not to be scaled."""
    pdf = page_pdf(design_page(kind, paper))  # type: ignore[arg-type]
    size_mm = [side / 72 * 25.4 for side in pypdfium2.PdfDocument(pdf)[0].get_size()]
    expected = PORTRAIT_MM[paper]
    if kind in {"sheet", "lens-board", "tub", "dummy"}:
        expected = expected[::-1]
    assert size_mm == pytest.approx(expected, abs=0.01)
    assert b"/PrintScaling /None" in pdf


@pytest.mark.parametrize("paper", PAPERS)
def test_sheet_markers_are_40_mm_and_15_mm_in(paper: str) -> None:
    """Sides 40 mm, outer corners 15 mm in from both edges, ids clockwise."""
    found = markers_mm(
        render(page_pdf(design_page("sheet", paper))), cv2.aruco.DICT_4X4_50
    )
    height, width = PORTRAIT_MM[paper]
    assert sorted(found) == [0, 1, 2, 3]
    lefts = {0: 15, 1: width - 55, 2: width - 55, 3: 15}
    tops = {0: 15, 1: 15, 2: height - 55, 3: height - 55}
    for marker_id, corners in found.items():
        x, y = lefts[marker_id], tops[marker_id]
        expected = [[x, y], [x + 40, y], [x + 40, y + 40], [x, y + 40]]
        assert np.allclose(corners, expected, atol=0.1)


def test_cards_and_single_marker_have_their_sizes() -> None:
    """Four 40 mm markers; one of 60 mm with the id 10."""
    cards = markers_mm(
        render(page_pdf(design_page("cards", "A4"))), cv2.aruco.DICT_4X4_50
    )
    assert sorted(cards) == [0, 1, 2, 3]
    for corners in cards.values():
        sides = np.linalg.norm(corners - np.roll(corners, -1, axis=0), axis=1)
        assert sides == pytest.approx([40] * 4, abs=0.1)
    single = markers_mm(
        render(page_pdf(design_page("single", "Letter"))), cv2.aruco.DICT_4X4_50
    )
    corners = single.pop(10)
    assert not single
    sides = np.linalg.norm(corners - np.roll(corners, -1, axis=0), axis=1)
    assert sides == pytest.approx([60] * 4, abs=0.1)


def test_lens_board_is_read_by_opencv() -> None:
    """All 40 inner corners of OpenCV's own ChArUco board, 29 mm apart."""
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_5X5_50)
    board = cv2.aruco.CharucoBoard((9, 6), 29.0, 21.0, dictionary)
    grey = render(page_pdf(design_page("lens-board", "A4")))
    found, ids, _, _ = cv2.aruco.CharucoDetector(board).detectBoard(grey)
    corners_mm = (np.asarray(found).reshape(-1, 2) + 0.5) / PER_MM
    places = np.asarray(board.getChessboardCorners())[np.ravel(np.asarray(ids)), :2]
    assert len(places) == 40
    offsets = corners_mm - places
    assert np.ptp(offsets, axis=0) == pytest.approx([0, 0], abs=0.15)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("kind", PAGE_KINDS)
def test_check_lines_have_their_length(kind: str, paper: str) -> None:
    """100 mm from tick to tick; on US Letter also 4 in."""
    page = design_page(kind, paper)  # type: ignore[arg-type]
    grey = render(page_pdf(page), 600)
    lengths_mm = []
    for x1, x2, y in page.check_lines_mm:
        row = grey[round(y * 600 / 25.4 - 0.5)]
        dark = np.flatnonzero(row[: round((x2 + 1) * 600 / 25.4)] < 200)
        dark = dark[dark > (x1 - 1) * 600 / 25.4]
        lengths_mm.append(np.ptp(dark) / 600 * 25.4)
    expected = [100.0] if paper == "A4" else [100.0, 4 * 25.4]
    assert lengths_mm == pytest.approx(expected, abs=0.25)  # with half a line's width


@pytest.mark.parametrize("paper", PAPERS)
def test_printed_sheet_gives_the_scale(paper: str) -> None:
    """A photo square above the sheet: 10 pixels a mm at 254 dpi."""
    grey = render(page_pdf(design_page("sheet", paper)))
    photo = Photo(
        name="scan",
        rgb=np.repeat(grey[:, :, None], 3, axis=2),
        width_px=grey.shape[1],
        height_px=grey.shape[0],
    )
    plane = find_plane(photo)
    assert plane.method == "sheet"
    assert plane.px_per_mm == pytest.approx(PER_MM, rel=5e-4)
    assert plane.to_plane_mm(np.array([[-0.5, -0.5]]))[0] == pytest.approx(
        [0, 0], abs=0.1
    )


def committed() -> list[Path]:
    return sorted(CALIBRATION.glob("*.pdf"))


@pytest.mark.parametrize("path", committed(), ids=lambda path: path.stem)
def test_committed_pages_are_what_the_program_writes(path: Path) -> None:
    """The PDFs in calibration/ and their JSON are up to date."""
    kind, paper = path.stem.rsplit("-", 1)
    page = design_page(kind, {"a4": "A4", "a3": "A3", "letter": "Letter"}[paper])  # type: ignore[arg-type]
    facts = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    assert facts == json.loads(json.dumps(page_facts(page)))
    assert np.array_equal(render(path.read_bytes(), 72), render(page_pdf(page), 72))


def test_all_pages_are_committed() -> None:
    """Every page that the program writes is there to print at once."""
    assert len(committed()) == 16
