"""The outlook on one A4 page, to hang beside the tank."""

import io
from pathlib import Path
from typing import Final
from xml.sax.saxutils import escape

from reportlab.lib import colors
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import (
    Flowable,
    Image,
    KeepInFrame,
    Paragraph,
    SimpleDocTemplate,
    Spacer,
    Table,
)

from fishmeasure.base.errors import ReportWriteError
from fishmeasure.base.files import write_durably
from fishmeasure.base.words import system_reason, wording
from fishmeasure.outlook.unit import UnitOutlook
from fishmeasure.render.now_words import head
from fishmeasure.render.outlook_plots import SIZE_IN, outlook_plots
from fishmeasure.render.outlook_words import heading, sections

_MARGIN: Final = 12 * mm
_BODY: Final = ParagraphStyle(
    "body", fontName="Helvetica", fontSize=8, leading=9.8, alignment=TA_LEFT
)
_HEAD: Final = ParagraphStyle(
    "head", parent=_BODY, fontName="Helvetica-Bold", fontSize=8.5, spaceBefore=3
)
_TITLE: Final = ParagraphStyle(
    "title", parent=_BODY, fontName="Helvetica-Bold", fontSize=14, leading=17
)
_SMALL: Final = ParagraphStyle(
    "small",
    parent=_BODY,
    fontSize=6.3,
    leading=7.3,
    textColor=colors.HexColor("#333333"),
)
_WARNING: Final = ParagraphStyle(
    "warning", parent=_BODY, fontName="Helvetica-Bold", fontSize=7.6, leading=9.2
)

_NOW: Final = ParagraphStyle(
    "now", parent=_BODY, fontName="Helvetica-Bold", fontSize=10, leading=12.5
)
_ACT: Final = ParagraphStyle(
    "act", parent=_NOW, fontSize=12, leading=15, textColor=colors.HexColor("#b00000")
)


def outlook_pdf(outlook: UnitOutlook) -> bytes:
    """Return the page; the same outlook gives the same bytes."""
    buffer = io.BytesIO()
    width = A4[0] - 2 * _MARGIN
    height = A4[1] - 2 * _MARGIN
    document = SimpleDocTemplate(
        buffer,
        pagesize=A4,
        leftMargin=_MARGIN,
        rightMargin=_MARGIN,
        topMargin=_MARGIN,
        bottomMargin=_MARGIN,
        title=heading(outlook),
        author="fishmeasure",
        invariant=True,
    )
    # Whatever there is to say, it is one page: too much of it shrinks.
    page = KeepInFrame(
        width - 12, height - 12, _story(outlook, width - 12), mode="shrink"
    )
    document.build([page])
    return buffer.getvalue()


def write_pdf(outlook: UnitOutlook, path: Path) -> None:
    """Write the page to a file.

    Raises
    ------
    ReportWriteError
        If the file cannot be written.
    """
    data = outlook_pdf(outlook)
    try:
        write_durably(path.resolve(), data)
    except OSError as error:
        raise ReportWriteError(str(path), system_reason(error)) from None


def _story(outlook: UnitOutlook, width: float) -> list[Flowable]:
    story: list[Flowable] = [Paragraph(escape(heading(outlook)), _TITLE)]
    story += _head(outlook)
    if outlook.about:
        story.append(Paragraph(escape(outlook.about), _WARNING))
    for section in sections(outlook):
        story.append(Paragraph(escape(section.title), _HEAD))
        story += [Paragraph(escape(line), _BODY) for line in section.lines]
    story += [Spacer(1, 2 * mm), *_plots(outlook, width), Spacer(1, 1 * mm)]
    story.append(Paragraph(escape(" ".join(map(str, outlook.cautions))), _SMALL))
    notes = " ".join(map(str, outlook.notes))
    sources = wording("outlook-sources", notes=notes)
    story.append(Paragraph(escape(sources), _SMALL))
    return story


def _head(outlook: UnitOutlook) -> list[Flowable]:
    """Return what the water says now, in red where one must act, and all warnings."""
    first = head(outlook)
    story: list[Flowable] = [
        Paragraph(escape(first.headline), _ACT if first.verdict == "act" else _NOW)
    ]
    if first.do_now:
        story.append(Paragraph(escape(first.do_now), _NOW))
    story += [Paragraph(escape(line), _BODY) for line in first.lines]
    if first.warnings:
        story.append(Paragraph(wording("outlook-warnings"), _HEAD))
    story += [Paragraph(escape(line), _WARNING) for line in first.warnings]
    return story


def _plots(outlook: UnitOutlook, width: float) -> list[Flowable]:
    each = width / 2.0
    images = [
        Image(io.BytesIO(png), width=each, height=each * SIZE_IN[1] / SIZE_IN[0])
        for png in outlook_plots(outlook)
    ]
    if not images:
        return []
    rows: list[list[Flowable]] = [
        list(images[start : start + 2]) for start in range(0, len(images), 2)
    ]
    rows[-1] += [Spacer(0, 0)] * (2 - len(rows[-1]))
    edges = ("LEFT", "RIGHT", "TOP", "BOTTOM")
    style = [(f"{edge}PADDING", (0, 0), (-1, -1), 0) for edge in edges]
    return [Table(rows, colWidths=[each, each], style=style)]
