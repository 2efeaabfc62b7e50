"""``fishmeasure fit``: single fish to a stock's own line, and to W = c V by photos."""

import csv
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from fishmeasure.base.errors import BadOptionError, LengthWeightDataError
from fishmeasure.base.files import read_at_most
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
            help="CSV with weight_g (or weight_kg) and either length_mm (or length_cm) "
            "and, if measured, depth_mm, or photo and, where a photo shows several, "
            "fish (its number); a row a fish.",
            show_default=False,
        ),
    ] = None,
    *,
    species: Annotated[
        str, typer.Option(help="The species that the stock is of.")
    ] = "rainbow-trout",
    length: Annotated[
        Literal["fork", "total", "standard"],
        typer.Option(help="Which length was measured."),
    ] = "fork",
    save: Annotated[
        Path | None,
        typer.Option(help="Write the stock's own species file here (.toml)."),
    ] = None,
    plot: Annotated[
        Path | None, typer.Option(help="Write a plot here (.png, .pdf or .svg).")
    ] = None,
    print_scale: options.PrintScale = 1.0,
    instructions: Annotated[
        Path | None,
        typer.Option(
            help="Write a page to print here (.pdf): photograph and weigh five fish."
        ),
    ] = None,
) -> None:
    """Fit a stock to fish weighed one by one, by their lengths or their photos."""
    if instructions is not None:
        from fishmeasure.render.five_fish import five_fish_pdf

        write_bytes(instructions, five_fish_pdf("A4"))
        print(f"Wrote {instructions}: print it at any size.")
    if table is None:
        if instructions is None:
            raise BadOptionError("TABLE", "", "a CSV, or --instructions FILE")
        return
    rows = _rows(_text(table), table.name)
    if rows and "photo" in rows[0]:
        from fishmeasure.cli.fit_photos import fit_photos

        settings = options.photo_settings(
            species=species, print_scale=print_scale, paper=None, known=None, lens=None
        )
        weights = _columns_of(rows, table.name, ("weight_g",))["weight_g"]
        fit_photos(rows, weights.tolist(), table, settings, save)
    else:
        columns = _columns_of(rows, table.name, _SIZED)
        _fit_lengths(columns, species, length, save, plot, table.name)


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
        print(f"Saved {save}: use it as --species {save}.")
    if plot is not None:
        from fishmeasure.render.plots import fit_plot, plot_format_of

        suffix = plot_format_of(plot.name)
        if suffix is None:
            raise BadOptionError("--plot", plot.name, "a file in .png, .svg or .pdf")
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
        why = getattr(error, "strerror", None) or "it is not text"
        reason = f"{path.name[:80]} cannot be read ({why.lower()})"
        raise LengthWeightDataError(reason) from error


def _rows(text: str, file_name: str) -> list[dict[str, str]]:
    try:
        return list(csv.DictReader(text.splitlines()))
    except csv.Error as error:
        reason = f"{file_name} is no CSV ({error})"
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
            reason = f"{file_name} has no column {column}"
            raise LengthWeightDataError(reason)
    columns = {}
    for name, (column, factor) in names.items():
        values = []
        for number, row in enumerate(rows, 1):
            try:
                values.append(float(row[name]) * factor)
            except (TypeError, ValueError) as error:
                reason = f'fish {number} has "{row[name]}" for {name}'
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
}


def _print(fit: "LengthWeightFit", columns: "dict[str, FloatArray]") -> None:
    from fishmeasure.species.fit import second_predictor

    print(
        f"W = {fit.a_g_cm:.5g} L^{fit.b:.4f} (g, cm {fit.length_kind} length), "
        f"{fit.fish_count} fish of {fit.min_length_mm:.0f}-{fit.max_length_mm:.0f} mm"
    )
    print(f"b ± {fit.b_se:.3f} (standard error), R2 {fit.r_squared:.4f}")
    print(
        f"Single fish scatter by {100 * fit.residual_sd_ln:.1f} % about it; the mean "
        f"weight at a length is {fit.mean_factor:.4f} times the line "
        f"(smearing: {fit.smearing_factor:.4f})."
    )
    print(
        "A fish left out of the fit is predicted to "
        f"{fit.left_out_error_percent:.1f} % on average."
    )
    for index in fit.outliers:
        print(f"Fish {index + 1} is far off the line: look at its figures again.")
    if "depth_mm" in columns:
        print(
            second_predictor(
                columns["length_mm"], columns["depth_mm"], columns["weight_g"]
            ).sentence
        )
