"""``fishmeasure sheet``: printable markers in true scale."""

import json
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from fishmeasure.base.words import wording


class Kind(StrEnum):
    """Pages of ``fishmeasure.render.sheet.PAGE_KINDS``."""

    SHEET = "sheet"
    CARDS = "cards"
    SINGLE = "single"
    LENS_BOARD = "lens-board"
    TUB = "tub"
    TUB_CARDS = "tub-cards"
    DUMMY = "dummy"


class Paper(StrEnum):
    """Papers of ``fishmeasure.render.sheet.PAPERS``."""

    A4 = "A4"
    A3 = "A3"
    LETTER = "Letter"


def sheet_command(
    kind: Annotated[
        Kind,
        typer.Argument(help="help-sheet-kind"),
    ] = Kind.SHEET,
    paper: Annotated[Paper, typer.Option(help="help-sheet-paper")] = Paper.A4,
    out: Annotated[
        Path | None,
        typer.Option(help="help-sheet-out"),
    ] = None,
    *,
    tub: Annotated[
        bool,
        typer.Option("--tub", help="help-sheet-tub"),
    ] = False,
    dummy: Annotated[
        bool,
        typer.Option("--dummy", help="help-sheet-dummy"),
    ] = False,
    every: Annotated[
        bool,
        typer.Option("--all", help="help-every"),
    ] = False,
) -> None:
    """Write a page to print at 100 %, and a JSON file of what is true about it."""
    if tub or dummy:
        wanted = (Kind.TUB, Kind.TUB_CARDS) if tub else ()
        for page in (*wanted, *((Kind.DUMMY,) if dummy else ())):
            _write(page, paper, (out or Path()) / _name(page, paper))
        typer.echo(wording("cli-sheet"))
    elif every:
        folder = out or Path()
        for one_kind in Kind:
            for one_paper in Paper:
                # The small pages need no A3.
                if one_paper != Paper.A3 or one_kind in {Kind.SHEET, Kind.TUB}:
                    _write(one_kind, one_paper, folder / _name(one_kind, one_paper))
    else:
        _write(kind, paper, out or Path(_name(kind, paper)))
        typer.echo(wording("cli-sheet"))


def _name(kind: Kind, paper: Paper) -> str:
    return f"{kind}-{paper.lower()}.pdf"


def _write(kind: Kind, paper: Paper, path: Path) -> None:
    from fishmeasure.cli.output import write_bytes
    from fishmeasure.render.sheet import design_page, page_facts, page_pdf

    page = design_page(kind.value, paper.value)
    write_bytes(path, page_pdf(page))
    facts = json.dumps(page_facts(page), indent=2) + "\n"
    write_bytes(path.with_suffix(".json"), facts.encode())
    typer.echo(f"{path}")
