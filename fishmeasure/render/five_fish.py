"""The page that says how to photograph and weigh five fish, with a table to fill in."""

import io
from typing import Final

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

PAPERS: Final = {"A4": A4, "Letter": LETTER}
ROWS: Final = 10
_TITLE: Final = "Photograph and weigh five fish"
_STEPS: Final = """\
This teaches the program the body of your stock: then a photo alone tells the weight.
1. Take five fish of the sizes that you keep, not the five largest. Fasted for a day;
   no ripe fish and no swollen bellies: an outline cannot tell them from fat.
2. Wet the board. Lay the printed sheet or cards flat, and one fish, or a few apart, on
   its side beside them: belly and back free, fins down, no hard shadow along it.
3. Photograph from straight above, the fish at least a quarter of the photo's width.
   Two or more photos are better than one: light and edges are a photo's own.
4. Weigh each of them at once, wiped, to 1 g or 1 % (the finer), and write down here the
   photo and which fish in it, counted from the top, row by row, left to right
   ("fishmeasure photo PHOTO --overlay FOLDER" draws the numbers).
5. Type the table into a file five.csv with the head photo,fish,weight_g and run
   fishmeasure fit five.csv --species SPECIES --save my_stock.toml
6. Use my_stock.toml as the species from then on. Weigh five again after spawning, after
   a change of feed, and when a bulk weighing disagrees."""


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
    canvas.setTitle(_TITLE)
    canvas.setAuthor("fishmeasure")
    left, top = 20 * mm, height - 25 * mm
    canvas.setFont("Helvetica-Bold", 18)
    canvas.drawString(left, top, _TITLE)
    canvas.setFont("Helvetica", 10.5)
    level = top - 12 * mm
    for line in _STEPS.splitlines():
        canvas.drawString(left, level, line)
        level -= 5.6 * mm
    _table(canvas, left, level - 4 * mm, width - 40 * mm)
    canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _table(canvas: Canvas, left: float, top: float, width: float) -> None:
    heads = ("date", "photo", "fish", "weight, g", "notes")
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
