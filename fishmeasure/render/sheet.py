"""Printable pages in true scale: sheet, loose cards, single card, lens board.

Positions are millimetres from the page's top-left corner, y down, as in the
markers' layouts; PDF counts points from the bottom-left. Every page has a check
line, since a printer set to "fit to page" changes every length.
"""

import io
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from fishmeasure.base.arrays import BoolArray
from fishmeasure.base.words import wording
from fishmeasure.photo.lens_board import BOARD, LensBoard, board_marker_cells
from fishmeasure.photo.markers import loose, sheet, single
from fishmeasure.photo.markers.pattern import marker_cells
from fishmeasure.render import dummy

PageKind = Literal[
    "sheet", "cards", "single", "lens-board", "tub", "tub-cards", "dummy"
]
PAGE_KINDS: tuple[PageKind, ...] = (
    "sheet",
    "cards",
    "single",
    "lens-board",
    "tub",
    "tub-cards",
    "dummy",
)
LANDSCAPE: frozenset[PageKind] = frozenset({"sheet", "lens-board", "tub", "dummy"})
PAPERS = tuple(sheet.PAPERS_MM)

CHECK_LINE_MM = 100.0
INCH_LINE_MM = 101.6
"""4 in, for rulers without millimetres; on US Letter pages."""

_LINE_FROM_BOTTOM_MM = 14.0  # off the strip that some printers leave blank
_MARGIN_MM = 7.0  # that no printer leaves blank
_GREY = 0.45  # text lighter than ink, so that it is never taken for part of a fish


@dataclass(frozen=True, slots=True, kw_only=True)
class PageMarker:
    """A printed marker: id, centre and side in mm."""

    marker_id: int
    x_mm: float
    y_mm: float
    side_mm: float
    card_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """What is on a page, apart from its words.

    ``check_lines_mm`` are (x1, x2, y) of level lines; ``board`` is where the lens
    board's top-left corner is, or None.
    """

    kind: PageKind
    paper: str
    width_mm: float
    height_mm: float
    markers: tuple[PageMarker, ...]
    check_lines_mm: tuple[tuple[float, float, float], ...]
    board: tuple[float, float] | None = None


def design_page(kind: PageKind, paper: str) -> Page:
    """Return what is on the page.

    Raises
    ------
    KeyError
        If the paper is not one of ``PAPERS``.
    """
    long_mm, short_mm = sheet.PAPERS_MM[paper]
    landscape = kind in LANDSCAPE
    width, height = (long_mm, short_mm) if landscape else (short_mm, long_mm)
    left, level = width / 2.0 - CHECK_LINE_MM / 2.0, height - _LINE_FROM_BOTTOM_MM
    lines = [(left, left + CHECK_LINE_MM, level)]
    if paper == "Letter":
        lines.append((left, left + INCH_LINE_MM, level - 5.0))
    return Page(
        kind=kind,
        paper=paper,
        width_mm=width,
        height_mm=height,
        markers=_MARKERS[kind](paper, width),
        check_lines_mm=tuple(lines),
        board=_board_corner(width, height) if kind == "lens-board" else None,
    )


def page_pdf(page: Page) -> bytes:
    """Return the page as a PDF, the same bytes each time."""
    stream = io.BytesIO()
    size = (page.width_mm * mm, page.height_mm * mm)
    canvas = Canvas(stream, pagesize=size, invariant=1, pageCompression=1)
    canvas.setTitle(f"fishmeasure {page.kind} {page.paper}")
    canvas.setAuthor("fishmeasure")
    # Asks viewers not to scale by default (ISO 32000-1, 12.2, PrintScaling).
    canvas.setViewerPreference("PrintScaling", "None")
    draw = _Drawing(canvas=canvas, height_mm=page.height_mm)
    for marker in page.markers:
        draw.marker(marker)
    if page.board is not None:
        draw.board(BOARD, page.board)
    if page.kind == "dummy":
        draw.dummy(_dummy_snout(page))
    for x1, x2, y in page.check_lines_mm:
        draw.check_line(x1, x2, y)
    draw.words(page)
    canvas.showPage()
    canvas.save()
    return stream.getvalue()


def page_facts(page: Page) -> dict[str, Any]:
    """Return what is true about the printed page, for its JSON file."""
    facts: dict[str, Any] = {
        "kind": page.kind,
        "paper": page.paper,
        "page_mm": [page.width_mm, page.height_mm],
        "origin": "top-left corner of the page, x to the right, y down",
        "dictionary": "OpenCV ArUco DICT_4X4_50, one black border cell",
        "markers": [
            {
                "id": marker.marker_id,
                "side_mm": marker.side_mm,
                "card_mm": marker.card_mm or None,
                "corners_mm": _corners(marker),
            }
            for marker in page.markers
        ],
        "check_lines_mm": [
            {"from": [x1, y], "to": [x2, y], "length_mm": round(x2 - x1, 3)}
            for x1, x2, y in page.check_lines_mm
        ],
    }
    if page.board is not None:
        facts["dictionary"] = "OpenCV ArUco DICT_5X5_50, ChArUco board"
        facts["board"] = {
            "corner_mm": list(page.board),
            "squares": [BOARD.columns, BOARD.rows],
            "square_mm": BOARD.square_mm,
            "marker_mm": BOARD.marker_mm,
        }
    if page.kind == "dummy":
        x, y = _dummy_snout(page)
        facts["fish"] = {
            "snout_mm": [round(x, 3), round(y, 3)],
            "tail_mm": [round(x + dummy.LENGTH_MM, 3), round(y, 3)],
            "length_mm": dummy.LENGTH_MM,
        }
    return facts


def _dummy_snout(page: Page) -> tuple[float, float]:
    """Return where the dummy's snout is."""
    return (page.width_mm - dummy.LENGTH_MM) / 2.0, page.height_mm / 2.0


def _corners(marker: PageMarker) -> list[list[float]]:
    half = marker.side_mm / 2.0
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return [
        [round(marker.x_mm + sx * half, 3), round(marker.y_mm + sy * half, 3)]
        for sx, sy in signs
    ]


def _sheet_markers(paper: str, _width: float) -> tuple[PageMarker, ...]:
    layout = sheet.sheet_layout(paper)
    return tuple(
        PageMarker(marker_id=marker_id, x_mm=x, y_mm=y, side_mm=sheet.SIDE_MM)
        for marker_id, (x, y) in layout.centres_mm.items()
    )


def _card_markers(_paper: str, width: float) -> tuple[PageMarker, ...]:
    step = loose.CARD_MM + 10.0  # room between the cut lines
    return tuple(
        PageMarker(
            marker_id=marker_id,
            x_mm=width / 2.0 + (column - 0.5) * step,
            y_mm=85.0 + row * step,
            side_mm=sheet.SIDE_MM,
            card_mm=loose.CARD_MM,
        )
        for marker_id, (row, column) in zip(
            sheet.IDS, ((0, 0), (0, 1), (1, 1), (1, 0)), strict=True
        )
    )


def _single_marker(_paper: str, width: float) -> tuple[PageMarker, ...]:
    marker = PageMarker(
        marker_id=single.ID,
        x_mm=width / 2.0,
        y_mm=110.0,
        side_mm=single.SIDE_MM,
        card_mm=single.CARD_MM,
    )
    return (marker,)


_MARKERS: dict[PageKind, Callable[[str, float], tuple[PageMarker, ...]]] = {
    "sheet": _sheet_markers,
    "cards": _card_markers,
    "single": _single_marker,
    "lens-board": lambda _paper, _width: (),
    "tub": _sheet_markers,
    "tub-cards": _card_markers,
    "dummy": lambda _paper, _width: (),
}


def _board_corner(width: float, height: float) -> tuple[float, float]:
    board_height = BOARD.rows * BOARD.square_mm
    x = (width - BOARD.columns * BOARD.square_mm) / 2.0
    return x, min((height - board_height) / 2.0, 12.0)


def _width_pt(words: str, points: float) -> float:
    return float(stringWidth(words, "Helvetica", points))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawing:
    """Draws in mm from the top-left corner."""

    canvas: Canvas
    height_mm: float

    def rectangles(
        self, boxes: list[tuple[float, float, float, float]], grey: float
    ) -> None:
        """Fill boxes (x, y, width, height) as one path, which leaves no seams."""
        path = self.canvas.beginPath()
        for x, y, width, height in boxes:
            bottom = self.height_mm - y - height
            path.rect(x * mm, bottom * mm, width * mm, height * mm)
        self.canvas.setFillGray(grey)
        self.canvas.drawPath(path, stroke=0, fill=1)

    def cells(self, white: BoolArray, x: float, y: float, side: float) -> None:
        """Fill a black square and its white cells."""
        cell = side / len(white)
        self.rectangles([(x, y, side, side)], 0.0)
        boxes = [
            (x + column * cell, y + row * cell, cell, cell)
            for row, column in np.argwhere(white).tolist()
        ]
        self.rectangles(boxes, 1.0)

    def marker(self, marker: PageMarker) -> None:
        half = marker.side_mm / 2.0
        cells = marker_cells(marker.marker_id)
        self.cells(cells, marker.x_mm - half, marker.y_mm - half, marker.side_mm)
        if marker.card_mm:
            corner = marker.card_mm / 2.0
            self.canvas.setStrokeGray(0.6)
            self.canvas.setLineWidth(0.15 * mm)
            self.canvas.setDash(1.5 * mm, 1.5 * mm)
            self.canvas.rect(
                (marker.x_mm - corner) * mm,
                (self.height_mm - marker.y_mm - corner) * mm,
                marker.card_mm * mm,
                marker.card_mm * mm,
            )
            self.canvas.setDash()

    def dummy(self, snout: tuple[float, float]) -> None:
        """Draw the fish of known length: dark, its fins paler."""
        shapes = [(fin, 0.55) for fin in dummy.fins_mm()]
        for outline, grey in (*shapes, (dummy.body_mm(), 0.2)):
            path = self.canvas.beginPath()
            for index, (x, y) in enumerate(outline.tolist()):
                place = ((snout[0] + x) * mm, (self.height_mm - snout[1] - y) * mm)
                (path.lineTo if index else path.moveTo)(*place)
            path.close()
            self.canvas.setFillGray(grey)
            self.canvas.drawPath(path, stroke=0, fill=1)

    def board(self, board: LensBoard, corner: tuple[float, float]) -> None:
        x0, y0 = corner
        size = board.square_mm
        black, marker_id = [], 0
        inset = (size - board.marker_mm) / 2.0
        places = []
        for row in range(board.rows):
            for column in range(board.columns):
                x, y = x0 + column * size, y0 + row * size
                if (row + column) % 2 == 0:
                    black.append((x, y, size, size))
                else:
                    places.append((marker_id, x + inset, y + inset))
                    marker_id += 1
        self.rectangles(black, 0.0)
        for marker, x, y in places:
            self.cells(board_marker_cells(marker), x, y, board.marker_mm)

    def check_line(self, x1: float, x2: float, y: float) -> None:
        level = (self.height_mm - y) * mm
        self.canvas.setStrokeGray(_GREY)
        self.canvas.setLineWidth(0.2 * mm)
        self.canvas.line(x1 * mm, level, x2 * mm, level)
        for x in (x1, x2):
            self.canvas.line(x * mm, level - 1.4 * mm, x * mm, level + 1.4 * mm)
        inches = abs(x2 - x1 - INCH_LINE_MM) < 0.01
        label = "4 in" if inches else f"{CHECK_LINE_MM:.0f} mm"
        self.text(x2 + 2.0, y + 0.8, label, 7.0)

    def text(self, x: float, y: float, words: str, points: float) -> None:
        self.canvas.setFillGray(_GREY)
        self.canvas.setFont("Helvetica", points)
        self.canvas.drawString(x * mm, (self.height_mm - y) * mm, words)

    def centred(self, y: float, words: str, points: float, middle: float) -> None:
        # A language whose line is longer than the page is wide has it smaller.
        room, needed = 2.0 * (middle - _MARGIN_MM) * mm, _width_pt(words, points)
        points *= min(1.0, room / needed) if needed else 1.0
        self.canvas.setFillGray(_GREY)
        self.canvas.setFont("Helvetica", points)
        self.canvas.drawCentredString(middle * mm, (self.height_mm - y) * mm, words)

    def words(self, page: Page) -> None:
        """Write how to print and use the page, out of the way of fish."""
        middle = page.width_mm / 2.0
        below = page.height_mm - _LINE_FROM_BOTTOM_MM + 4.0
        roomy = page.kind in {"cards", "single", "tub-cards"}
        first, points, step = (20.0, 9.0, 5.0) if roomy else (10.0, 6.5, 3.0)
        if page.board is None:
            self.centred(below, wording("sheet-words", case="check"), 6.5, middle)
        else:
            first = below
        for index, case in enumerate(_LINES[page.kind]):
            line = wording("sheet-words", case=case)
            self.centred(first + index * step, line, points, middle)


# The lines of each kind of page, of the catalogue's ``sheet-words``.
_LINES: dict[PageKind, tuple[str, ...]] = {
    "sheet": ("print", "sheet"),
    "cards": ("print", "cards", "cards-laid"),
    "single": ("print", "single", "single-laid"),
    "lens-board": ("lens-board",),
    "tub": ("tub-print", "tub", "tub-still"),
    "tub-cards": ("tub-print", "tub-cards", "tub-cards-laid"),
    "dummy": ("dummy-print", "dummy", "dummy-laid"),
}
