"""The register of fish and the farm on paper."""

import io
from typing import Final
from xml.sax.saxutils import escape

from reportlab.lib import colors
from reportlab.lib.pagesizes import A4, landscape
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import (
    Flowable,
    Paragraph,
    SimpleDocTemplate,
    Spacer,
    Table,
    TableStyle,
)

from fishmeasure.base.words import wording
from fishmeasure.book.register import Register
from fishmeasure.outlook.farm import FarmOutlook
from fishmeasure.render.farm_words import (
    register_cells,
    sum_lines,
    total_lines,
    unit_lines,
    unit_row,
)

_MARGIN: Final = 12 * mm
_BODY: Final = ParagraphStyle("body", fontName="Helvetica", fontSize=8, leading=10)
_HEAD: Final = ParagraphStyle("head", parent=_BODY, fontName="Helvetica-Bold")
_TITLE: Final = ParagraphStyle("title", parent=_HEAD, fontSize=14, leading=18)
_GRID: Final = TableStyle(
    [
        ("GRID", (0, 0), (-1, -1), 0.3, colors.HexColor("#888888")),
        ("BACKGROUND", (0, 0), (-1, 0), colors.HexColor("#eeeeee")),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("TOPPADDING", (0, 0), (-1, -1), 1.5),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.5),
    ]
)


def farm_pdf(farm: FarmOutlook, register: Register) -> bytes:
    """Return the farm and its register; the same input gives the same bytes."""
    buffer = io.BytesIO()
    width = landscape(A4)[0] - 2 * _MARGIN
    title = wording("farm-title", on=farm.on)
    document = SimpleDocTemplate(
        buffer,
        pagesize=landscape(A4),
        leftMargin=_MARGIN,
        rightMargin=_MARGIN,
        topMargin=_MARGIN,
        bottomMargin=_MARGIN,
        title=title,
        author="fishmeasure",
        invariant=True,
    )
    document.build(
        [
            _text(title, _TITLE),
            *([_text(farm.about, _HEAD)] if farm.about else []),
            *_units(farm, width),
            *(_text(line) for line in sum_lines(farm)),
            Spacer(1, 4 * mm),
            *_register(register, width),
            Spacer(1, 3 * mm),
            _text(" ".join(map(str, farm.cautions))),
        ]
    )
    return buffer.getvalue()


def _units(farm: FarmOutlook, width: float) -> list[Flowable]:
    headings = wording("farm-columns").split(" | ")
    rows = [unit_row(unit) for unit in farm.units]
    story: list[Flowable] = [_table(headings, rows, width)]
    for unit in farm.units:
        lines = " ".join(unit_lines(unit))
        if lines:
            story.append(_text(f"{unit.name}: {lines}"))
    return [*story, Spacer(1, 2 * mm)]


def _register(register: Register, width: float) -> list[Flowable]:
    title = wording("register-title", since=register.since, until=register.until)
    headings = wording("register-columns").split(" | ")
    rows = [register_cells(row) for row in register.rows]
    return [
        _text(title, _HEAD),
        _table(headings, rows, width),
        *(_text(line) for line in total_lines(register)),
    ]


def _table(headings: list[str], rows: list[tuple[str, ...]], width: float) -> Flowable:
    cells = [[_text(heading, _HEAD) for heading in headings]]
    cells += [[_text(cell) for cell in row] for row in rows]
    columns = [width / len(headings)] * len(headings)
    return Table(cells, colWidths=columns, repeatRows=1, style=_GRID)


def _text(text: str, style: ParagraphStyle = _BODY) -> Paragraph:
    return Paragraph(escape(text), style)
