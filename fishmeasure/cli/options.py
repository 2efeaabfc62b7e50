"""Options that several commands share, and what they mean."""

from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, get_args

import typer

from fishmeasure.base.errors import (
    BadOptionError,
    DataFileError,
    NoFileError,
    OptionFormatError,
)
from fishmeasure.base.files import read_at_most
from fishmeasure.base.words import Message, system_reason, wording

if TYPE_CHECKING:
    from fishmeasure.pipeline import PhotoSettings

PHOTO_SUFFIXES = frozenset((".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif"))
NO_DATA = PHOTO_SUFFIXES | {".toml"}
"""Files that are measured: none is overwritten where a file name was left out."""

Species = Annotated[
    str | None,
    typer.Option(help="help-options-species"),
]
PrintScale = Annotated[
    float | None,
    typer.Option(help="help-print-scale"),
]
Paper = Annotated[
    str | None,
    typer.Option(help="help-paper"),
]
Known = Annotated[
    str | None,
    typer.Option(
        metavar="X1,Y1,X2,Y2=MM",
        help="help-known",
    ),
]
Lens = Annotated[Path | None, typer.Option(help="help-lens")]

InWater = Annotated[
    bool,
    typer.Option(
        "--water",
        help="help-water",
    ),
]
WaterDepth = Annotated[
    float | None,
    typer.Option(
        "--water-depth-mm",
        help="help-water-depth",
    ),
]


def _data_file(given: str | None) -> str | None:
    """Return the name of a file for data, if no other word stands there by mistake."""
    if given is None or given == "-":
        return given
    if given.startswith("-") or Path(given).suffix.lower() in NO_DATA:
        raise DataFileError(given)
    return given


JsonTo = Annotated[
    str | None,
    typer.Option(
        "--json",
        metavar="FILE",
        callback=_data_file,
        help="help-json-to",
    ),
]
CsvTo = Annotated[
    str | None,
    typer.Option(
        "--csv",
        metavar="FILE",
        callback=_data_file,
        help="help-csv-to",
    ),
]
Overlay = Annotated[Path | None, typer.Option(help="help-overlay")]

THE_FILE = Message.of("cli-the-file")


def photo_settings(
    *,
    species: str | None,
    print_scale: float | None,
    paper: str | None,
    known: str | None,
    lens: Path | None,
    water: tuple[bool, float | None] | None = None,
) -> "PhotoSettings":
    """Return the settings that the options stand for, else those that are kept.

    ``water`` is whether the fish are in a tub, and how deep the water is, mm.

    Raises
    ------
    FishMeasureError
        If one of them cannot be used.
    """
    from fishmeasure.base.record import read
    from fishmeasure.cli.kept import kept, usual_species
    from fishmeasure.photo.lens import read_lens
    from fishmeasure.photo.markers import KnownDistance
    from fishmeasure.photo.settings import MeasuringSettings, Paper
    from fishmeasure.pipeline import PhotoSettings
    from fishmeasure.species import load_species

    usual = kept()
    if print_scale is None:
        print_scale = 1.0 if usual.print_scale is None else usual.print_scale
        if print_scale != 1.0:
            said = wording("cli-print-scale-kept", print_scale=print_scale)
            typer.echo(said, err=True)
    papers = {name.lower(): name for name in get_args(Paper)}
    given: dict[str, object] = {
        "print_scale": print_scale,
        "paper": paper and papers.get(paper.lower(), paper),
        "known": known and KnownDistance.plain_from_text(known),
    }
    if water is not None:
        given |= {"in_water": water[0], "water_depth_mm": water[1]}
    return PhotoSettings.of(
        read(MeasuringSettings, given),
        load_species(usual_species(species)),
        None if lens is None else read_lens(read_text(lens), lens.name),
    )


def one_on_stdout(json_to: str | None, csv_to: str | None) -> None:
    """Refuse to mix JSON and CSV.

    Raises
    ------
    BadOptionError
        If both are to be written to stdout.
    """
    if json_to == csv_to == "-":
        wanted = Message.of("cli-wanted", case="two-on-screen")
        raise BadOptionError("--csv", "-", wanted)


def read_day(option: str, given: str | None) -> date:
    """Return a day written as 2026-05-02, or as the language has it; else today.

    Raises
    ------
    OptionFormatError
    """
    if given is None:
        return date.today()  # noqa: DTZ011 - the grower's own day
    try:
        return date.fromisoformat(given)
    except ValueError:
        own = wording("day-format")
    for letters, code in (("yyyy", "%Y"), ("MM", "%m"), ("dd", "%d")):
        own = own.replace(letters, code)
    try:
        return datetime.strptime(given, own).date()  # noqa: DTZ007 - a day
    except ValueError:
        raise OptionFormatError(option, given, "2026-05-02") from None


def read_text(path: Path) -> str:
    """Return a text file's content.

    Raises
    ------
    BadOptionError, NoFileError
        If it cannot be read.
    """
    try:
        return read_bytes(path).decode("utf-8-sig")
    except UnicodeDecodeError:
        wanted = Message.of("cli-wanted", case="text")
        raise BadOptionError(THE_FILE, str(path), wanted) from None


def read_bytes(path: Path) -> bytes:
    """Return a file's bytes.

    Raises
    ------
    BadOptionError, NoFileError
        If it cannot be read.
    """
    try:
        return read_at_most(path)
    except FileNotFoundError:
        raise NoFileError(str(path)) from None
    except OSError as error:
        reason = system_reason(error)
        wanted = Message.of("cli-wanted", case="readable", reason=reason)
        raise BadOptionError(THE_FILE, str(path), wanted) from None
