"""The command line: one module per group of commands.

Modules are imported for their commands only, so their own imports of numpy and
OpenCV stay inside the functions: ``fishmeasure --help`` must be quick.
"""

import errno
import io
import os
import sys
from contextlib import suppress
from dataclasses import replace
from typing import Annotated

import typer

from fishmeasure import __version__
from fishmeasure.base.errors import (
    BadOptionError,
    DoubtfulEntryError,
    FishMeasureError,
    ReportWriteError,
)
from fishmeasure.base.words import (
    Message,
    Voice,
    set_voice,
    speaking,
    system_reason,
    voice,
)
from fishmeasure.base.words.sources import languages
from fishmeasure.base.words.voice import Units, of_locale
from fishmeasure.cli import output, stock
from fishmeasure.cli.backup import backup_command, restore_command
from fishmeasure.cli.batch import batch_command
from fishmeasure.cli.book import book_app
from fishmeasure.cli.book_options import kept_units
from fishmeasure.cli.check import check_command
from fishmeasure.cli.checked import CheckedTyper
from fishmeasure.cli.count import count_command
from fishmeasure.cli.explain import explain_command
from fishmeasure.cli.farm import farm_command, order_command
from fishmeasure.cli.fit import fit_command
from fishmeasure.cli.lens import lens_command
from fishmeasure.cli.outlook import demo_command, outlook_command
from fishmeasure.cli.photo import photo_command
from fishmeasure.cli.plan import plan_command
from fishmeasure.cli.sample import sample_command
from fishmeasure.cli.serve import serve_command
from fishmeasure.cli.settings import settings_command
from fishmeasure.cli.sheet import sheet_command
from fishmeasure.cli.species import species_command
from fishmeasure.cli.weigh import weigh_command

_DISK_FAILURES = {errno.ENOSPC, errno.EDQUOT, errno.EROFS, errno.EFBIG, errno.EIO}

app = CheckedTyper(
    name="fishmeasure",
    help="help-app",
    add_completion=False,
    pretty_exceptions_enable=False,
)


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"fishmeasure {__version__}")
        raise typer.Exit


def _speak(wanted: str | None) -> None:
    if wanted is None:
        return
    if wanted not in languages():
        known = ", ".join(languages())
        choice = Message.of("wanted", case="choice", choices=known)
        raise BadOptionError("--language", wanted, choice)
    set_voice(replace(voice(), language=wanted))


@app.callback()
def _root(
    _version: Annotated[
        bool,
        typer.Option(
            "--version",
            callback=_show_version,
            is_eager=True,
            help="help-version",
        ),
    ] = False,
    _language: Annotated[
        str | None,
        typer.Option(
            "--language",
            metavar="LANGUAGE",
            callback=_speak,
            is_eager=True,
            help="help-language",
        ),
    ] = None,
    units: Annotated[
        str | None,
        typer.Option("--units", metavar="metric|us", help="help-units"),
    ] = None,
) -> None:
    set_voice(replace(voice(), units=_units(units)))


def _units(wanted: str | None) -> Units:
    """Return the system of units: the option's, the environment's, or that kept."""
    given = wanted or os.environ.get("FISHMEASURE_UNITS")
    if given in {"us", "metric"}:
        return "us" if given == "us" else "metric"
    if given:
        name = "--units" if wanted else "FISHMEASURE_UNITS"
        choice = Message.of("wanted", case="choice", choices="metric, us")
        raise BadOptionError(name, given, choice)
    return kept_units()


app.command("photo")(photo_command)
app.command("count")(count_command)
app.command("check")(check_command)
app.command("weigh")(weigh_command)
app.command("sample")(sample_command)
app.command("sheet")(sheet_command)
app.command("lens")(lens_command)
app.command("batch")(batch_command)
app.command("serve")(serve_command)
app.command("species")(species_command)
app.command("plan")(plan_command)
app.command("fit")(fit_command)
app.add_typer(book_app, name="book")
app.command("backup")(backup_command)
app.command("restore")(restore_command)
app.command("settings")(settings_command)
app.command("explain")(explain_command)
app.command("demo")(demo_command)
app.command("outlook")(outlook_command)
app.command("farm")(farm_command)
app.command("order")(order_command)
stock.register(app)


def main() -> None:
    """Run the command line; bad input is one clear line and status 2.

    An entry that waits for an answer is status 3.
    """
    with speaking(Voice(language=of_locale(os.environ), teller="cli")):
        try:
            _run()
        except FishMeasureError as error:
            said = f"fishmeasure: {error.message} {error.advice}"
            sys.stderr.write(said.rstrip() + "\n")
            asks = isinstance(error, DoubtfulEntryError)
            sys.exit(output.STATUS_ASKS if asks else output.STATUS_UNUSABLE_INPUT)


def _run() -> None:
    """Run the command line; a disk that takes no output is a sentence, too."""
    try:
        try:
            app()
        finally:
            sys.stdout.flush()
    except OSError as error:
        if error.errno not in _DISK_FAILURES:
            raise
        # What is still to be written would fail again when Python ends.
        with suppress(io.UnsupportedOperation):  # where it goes to no file
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        where = error.filename and str(error.filename)
        output_itself = Message.of("cli-the-output")
        raise ReportWriteError(where or output_itself, system_reason(error)) from None
