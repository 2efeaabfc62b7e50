"""``fishmeasure fit``: single fish to a stock's own line, and to W = c V by photos."""

import csv
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from fishmeasure.base.errors import BadOptionError, LengthWeightDataError
from fishmeasure.base.files import read_at_most
from fishmeasure.base.words import Message, system_reason, wording
from fishmeasure.cli import options
from fishmeasure.cli.output import write_bytes

if TYPE_CHECKING:
    from fishmeasure.base.arrays import FloatArray
    from fishmeasure.species import LengthKind
    from fishmeasure.species.fit import LengthWeightFit


def fit_command(
    table: Annotated[
        Path | None,
        typer.Argument(
            help="help-table",
            show_default=False,
        ),
    ] = None,
    *,
    species: Annotated[str | None, typer.Option(help="help-species")] = None,
    length: Annotated[
        Literal["fork", "total", "standard"],
        typer.Option(help="help-length"),
    ] = "fork",
    save: Annotated[
        Path | None,
        typer.Option(help="help-save"),
    ] = None,
    plot: Annotated[Path | None, typer.Option(help="help-plot")] = None,
    print_scale: options.PrintScale = None,
    instructions: Annotated[
        Path | None,
        typer.Option(help="help-instructions"),
    ] = None,
) -> None:
    """Fit a stock to fish weighed or measured one by one, by lengths or photos."""
    if instructions is not None:
        from fishmeasure.render.five_fish import five_fish_pdf

        write_bytes(instructions, five_fish_pdf("A4"))
        print(wording("cli-fit-instructions", file=instructions))
    if table is None:
        if instructions is None:
            wanted = Message.of("cli-wanted", case="table")
            raise BadOptionError("TABLE", "", wanted)
        return
    rows = _rows(_text(table), table.name)
    if rows and "photo" in rows[0]:
        from fishmeasure.cli.fit_photos import fit_photos

        settings = options.photo_settings(
            species=species, print_scale=print_scale, paper=None, known=None, lens=None
        )
        needed = () if "fork_length_mm" in rows[0] else ("weight_g",)
        fit_photos(rows, _columns_of(rows, table.name, needed), table, settings, save)
    else:
        from fishmeasure.cli.kept import usual_species

        columns = _columns_of(rows, table.name, _SIZED)
        _fit_lengths(columns, usual_species(species), length, save, plot, table.name)


def _fit_lengths(
    columns: "dict[str, FloatArray]",
    species: str,
    length: "LengthKind",
    save: Path | None,
    plot: Path | None,
    name: str,
) -> None:
    """Fit W = a L^b, print it, save the stock and draw it."""
    from fishmeasure.species import load_species
    from fishmeasure.species.fit import (
        fit_length_weight,
        own_line,
        published_for,
        species_toml,
    )
    from fishmeasure.species.loader import read_own_stock

    kind = load_species(species)
    fit = fit_length_weight(
        columns["length_mm"], columns["weight_g"], length_kind=length
    )
    _print(fit, columns)
    published = published_for(kind, length)
    if save is not None:
        line = own_line(fit, published, note=f"From {name}.")
        text = species_toml(kind, line)
        read_own_stock(text, save.name)  # what cannot be is not saved
        write_bytes(save, text.encode())
        print(wording("cli-stock-saved", file=save))
    if plot is not None:
        from fishmeasure.render.plots import fit_plot, plot_format_of

        suffix = plot_format_of(plot.name)
        if suffix is None:
            wanted = Message.of("cli-wanted", case="picture")
            raise BadOptionError("--plot", plot.name, wanted)
        drawn = fit_plot(
            columns["length_mm"],
            columns["weight_g"],
            fit,
            published=published,
            plot_format=suffix,
        )
        write_bytes(plot, drawn)


def _text(path: Path) -> str:
    try:
        return read_at_most(path).decode("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        told = (
            system_reason(error)
            if isinstance(error, OSError)
            else Message.of("cli-not-text")
        )
        reason = Message.of("cli-table-unread", name=path.name[:80], reason=told)
        raise LengthWeightDataError(reason) from error


def _rows(text: str, file_name: str) -> list[dict[str, str]]:
    try:
        return list(csv.DictReader(text.splitlines()))
    except csv.Error as error:
        reason = Message.of("cli-table-no-csv", name=file_name, told=str(error))
        raise LengthWeightDataError(reason) from error


def _columns(text: str, file_name: str) -> "dict[str, FloatArray]":
    """Return the columns of fish measured and weighed one by one."""
    return _columns_of(_rows(text, file_name), file_name, _SIZED)


def _columns_of(
    rows: list[dict[str, str]], file_name: str, needed: tuple[str, ...]
) -> "dict[str, FloatArray]":
    """Return the columns as arrays, lengths in mm."""
    import numpy as np

    names = {name: _NAMES[name] for name in (rows[0] if rows else {}) if name in _NAMES}
    wanted = {column for column, _ in names.values()}
    for column in needed:
        if column not in wanted:
            reason = Message.of("cli-table-column", name=file_name, column=column)
            raise LengthWeightDataError(reason)
    columns = {}
    for name, (column, factor) in names.items():
        values = []
        for number, row in enumerate(rows, 1):
            try:
                values.append(float(row[name]) * factor)
            except (TypeError, ValueError) as error:
                reason = Message.of(
                    "cli-table-cell", number=number, given=str(row[name]), name=name
                )
                raise LengthWeightDataError(reason) from error
        columns[column] = np.array(values)
    return columns


_SIZED = ("length_mm", "weight_g")
_NAMES = {
    "length_mm": ("length_mm", 1.0),
    "length_cm": ("length_mm", 10.0),
    "weight_g": ("weight_g", 1.0),
    "weight_kg": ("weight_g", 1000.0),
    "depth_mm": ("depth_mm", 1.0),
    "depth_cm": ("depth_mm", 10.0),
    "fork_length_mm": ("fork_length_mm", 1.0),
}


def _print(fit: "LengthWeightFit", columns: "dict[str, FloatArray]") -> None:
    from fishmeasure.species.fit import second_predictor

    print(
        wording(
            "cli-fit-line",
            a=f"{fit.a_g_cm:.5g}",
            b=fit.b,
            length_kind=fit.length_kind,
            fish_count=fit.fish_count,
            least_mm=fit.min_length_mm,
            most_mm=fit.max_length_mm,
        )
    )
    print(wording("cli-fit-b", b_se=fit.b_se, r_squared=fit.r_squared))
    print(
        wording(
            "cli-fit-scatter",
            share=fit.residual_sd_ln,
            factor=fit.mean_factor,
            smearing=fit.smearing_factor,
        )
    )
    print(wording("cli-fit-left-out", share=fit.left_out_error_percent / 100.0))
    for index in fit.outliers:
        print(wording("cli-fit-outlier", number=index + 1))
    if "depth_mm" in columns:
        print(
            second_predictor(
                columns["length_mm"], columns["depth_mm"], columns["weight_g"]
            ).sentence
        )
