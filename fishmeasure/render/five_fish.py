"""The page that says how to photograph and weigh five fish, with a table to fill in."""

import io
from typing import Final

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.units import mm
from reportlab.lib.utils import simpleSplit
from reportlab.pdfgen.canvas import Canvas

from fishmeasure.base.words import wording

PAPERS: Final = {"A4": A4, "Letter": LETTER}
ROWS: Final = 10
_STEPS: Final = 7
_SIZE_PT: Final = 10.5
_INDENT: Final = 3 * mm


def five_fish_pdf(paper: str) -> bytes:
    """Return the page, the same bytes each time.

    Raises
    ------
    KeyError
        If the paper is not one of ``PAPERS``.
    """
    width, height = PAPERS[paper]
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(width, height), invariant=1, pageCompression=1)
    title = wording("five-fish-title")
    canvas.setTitle(title)
    canvas.setAuthor("fishmeasure")
    left, top = 20 * mm, height - 25 * mm
    canvas.setFont("Helvetica-Bold", 18)
    canvas.drawString(left, top, title)
    canvas.setFont("Helvetica", _SIZE_PT)
    level = top - 12 * mm
    for step in range(_STEPS):
        text = wording("five-fish", case=f"step-{step}")
        lines = simpleSplit(text, "Helvetica", _SIZE_PT, width - 40 * mm - _INDENT)
        for number, line in enumerate(lines):
            canvas.drawString(left + (_INDENT if number else 0.0), level, line)
            level -= 5.6 * mm
    _table(canvas, left, level - 4 * mm, width - 40 * mm)
    canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _table(canvas: Canvas, left: float, top: float, width: float) -> None:
    columns = ("date", "photo", "fish", "weight", "notes")
    heads = [wording("five-fish-column", case=column) for column in columns]
    shares = (0.15, 0.3, 0.1, 0.17, 0.28)
    row = 9 * mm
    canvas.setFont("Helvetica-Bold", 10)
    place = left
    for head, share in zip(heads, shares, strict=True):
        canvas.drawString(place + 2 * mm, top - 6 * mm, head)
        place += share * width
    bottom = top - (ROWS + 1) * row
    canvas.setLineWidth(0.5)
    for index in range(ROWS + 2):
        level = top - index * row
        canvas.line(left, level, left + width, level)
    place = left
    for share in (0.0, *shares):
        place += share * width
        canvas.line(place, top, place, bottom)
