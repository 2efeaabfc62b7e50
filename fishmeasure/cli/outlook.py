"""``fishmeasure outlook`` and ``fishmeasure demo``."""

import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import wording
from fishmeasure.cli.book_options import BookOption, opened, places
from fishmeasure.cli.options import JsonTo, read_day
from fishmeasure.cli.output import data_only

if TYPE_CHECKING:
    from fishmeasure.outlook.unit import UnitOutlook

DEMO_BOOK = "demo.sqlite"
"""Beside the grower's own book, where no other file is named."""

# The words say it too, so nothing hangs on the colour.
_STYLES = {
    "act": "bold red",
    "watch": "bold yellow",
    "unknown": "bold",
    "good": "bold green",
}


def outlook_command(
    unit: Annotated[str, typer.Argument(help="help-outlook-unit", metavar="UNIT")],
    on: Annotated[str | None, typer.Option("--on", help="help-on")] = None,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="help-pdf")] = None,
    hours: Annotated[
        float,
        typer.Option("--hours", help="help-hours"),
    ] = 4.0,
    fingerlings: Annotated[
        float,
        typer.Option("--fingerlings", help="help-fingerlings"),
    ] = 20.0,
    days: Annotated[int, typer.Option("--days", help="help-days")] = 90,
    json_to: JsonTo = None,
    book: BookOption = None,
) -> None:
    """Show one unit on one page: weight, biomass, harvest, feed, limits, outage."""
    from fishmeasure.husbandry.checks import require
    from fishmeasure.outlook import AHEAD_DAYS
    from fishmeasure.outlook.unit import Options

    day = read_day("--on", on)
    require("hours", hours, "h", 0.1, 24.0)
    require("weight of the fingerlings", fingerlings, "g", 0.1, 5000.0)
    require("days ahead", days, "", 1.0, float(AHEAD_DAYS))
    options = Options(hours=hours, fingerling_weight_g=fingerlings, stocking_days=days)
    with opened(book) as open_:
        outlook = open_.outlook(unit, day, options)
    if pdf is not None:
        from fishmeasure.render.outlook_pdf import write_pdf

        write_pdf(outlook, pdf)
    if not data_only(json_to, outlook) and pdf is None:
        _print(outlook)


def _print(outlook: "UnitOutlook") -> None:
    from rich.console import Console
    from rich.padding import Padding
    from rich.rule import Rule

    from fishmeasure.base.words import wording
    from fishmeasure.render.now_words import head
    from fishmeasure.render.outlook_words import heading, sections

    console = Console(highlight=False, markup=False, emoji=False)
    console.print(Rule(heading(outlook), style="default"))
    first = head(outlook)
    console.print(first.headline, style=_STYLES[first.verdict])
    if first.do_now:
        console.print(first.do_now, style="bold")
    for line in first.lines:
        console.print(Padding(line, (0, 0, 0, 3)))
    if first.warnings:
        console.print(wording("outlook-warnings"), style="bold")
    for line in first.warnings:
        console.print(Padding(line, (0, 0, 0, 3)))
    if outlook.about:
        console.print(outlook.about, style="italic")
    for section in sections(outlook):
        console.print(section.title, style="bold")
        for line in section.lines:
            console.print(Padding(line, (0, 0, 0, 3)))
    for title, lines in (
        (wording("outlook-cautions"), (" ".join(map(str, outlook.cautions)),)),
        (wording("outlook-sources-head"), (" ".join(map(str, outlook.notes)),)),
    ):
        if lines:
            console.print(title, style="bold")
        for line in lines:
            console.print(Padding(line, (0, 0, 0, 3)))


def demo_command(
    on: Annotated[
        str | None,
        typer.Option("--on", help="help-demo-on"),
    ] = None,
    book: BookOption = None,
) -> None:
    """Fill a book of its own with the invented spring tanks, to try things on."""
    from fishmeasure.base.errors import BookNotEmptyError
    from fishmeasure.store.demo import about, demo_book

    day = read_day("--on", on)
    content = demo_book(day)
    book = book or str(places()[0] / DEMO_BOOK)  # never the grower's own
    with opened(book, may_be_new=True) as open_:
        there = {unit.id for unit in open_.units()}
        if content.units[0].id in there:
            print(wording("cli-demo-there"))
            return
        if there or open_.content().entries:
            raise BookNotEmptyError
        open_.add_content(content)
    print(about())
    where = f" --book {shlex.quote(book)}"
    print(wording("cli-demo-try", where=where))
