"""``fishmeasure sample``: photos and bulk weighings to mean weight and spread."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated
from uuid import uuid4

import typer

from fishmeasure.base.errors import BadOptionError, SampleNotEnteredError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli import options, output
from fishmeasure.cli.book_options import BookOption, opened, places
from fishmeasure.husbandry.cautions import ESTIMATE

if TYPE_CHECKING:
    from collections.abc import Mapping

    from rich.table import Table

    from fishmeasure.estimation.model import PopulationEstimate
    from fishmeasure.estimation.sample import Sample
    from fishmeasure.photo.measurement import PhotoMeasurement
    from fishmeasure.pipeline import PhotoSettings, SampleMeasurement


def sample_command(
    sample: Annotated[
        Path, typer.Argument(help="SAMPLE.toml: nets with weighings and photos.")
    ],
    *,
    species: Annotated[
        str | None, typer.Option(help="Species, in place of the one in the file.")
    ] = None,
    print_scale: options.PrintScale = 1.0,
    paper: options.Paper = None,
    lens: options.Lens = None,
    json_to: options.JsonTo = None,
    csv_to: options.CsvTo = None,
    overlay: options.Overlay = None,
    plots: Annotated[
        Path | None, typer.Option(help="Folder for plots of weights and lengths.")
    ] = None,
    record: Annotated[
        str | None,
        typer.Option(
            metavar="COHORT",
            help="Enter the sample in the book, as one of this cohort.",
        ),
    ] = None,
    save: Annotated[
        Path | None,
        typer.Option(
            help="Write the stock's own species file here (.toml), as the weighing of "
            "photographed nets tells it."
        ),
    ] = None,
    book: BookOption = None,
) -> None:
    """Estimate mean weight and spread from photos and bulk weighings of nets."""
    from fishmeasure.cli.photo import measure_file
    from fishmeasure.photo.measurement import csv_rows
    from fishmeasure.pipeline import measure_sample

    options.one_on_stdout(json_to, csv_to)
    wanted = read_sample_file(sample)
    settings = options.photo_settings(
        species=species or wanted.species or "rainbow-trout",
        print_scale=print_scale,
        paper=paper,
        known=None,
        lens=lens,
    )
    photos = {
        name: measure_file(sample.parent / name, name, settings)
        for name in output.tracked(wanted.photos, "Measuring")
    }
    result = measure_sample(wanted, settings.species, photos.__getitem__)
    if overlay is not None:
        result = _with_overlays(result, sample.parent, settings, overlay)
    if "-" not in {json_to, csv_to}:
        _show(wanted, result.estimate, tuple(photos.values()))
    for problem in result.problems:
        output.print_problem("", problem)
    if json_to is not None:
        output.write_json(json_to, result.to_json())
    if csv_to is not None:
        output.write_csv(csv_to, csv_rows(result.photos))
    if plots is not None:
        _write_plots(plots, result)
    if save is not None:
        _save_stock(save, result, settings, sample.name)
    if record is not None:
        measured = {sample.parent / name: photo for name, photo in photos.items()}
        _record(wanted, result, measured, settings, cohort=record, book=book)
    if any(problem.fatal for problem in result.problems):
        raise typer.Exit(output.STATUS_UNUSABLE_INPUT)


def _save_stock(
    path: Path, result: "SampleMeasurement", settings: "PhotoSettings", name: str
) -> None:
    """Write the stock that the weighings tell of, its line and its body."""
    from fishmeasure.pipeline import learned_stock
    from fishmeasure.species.fit import species_toml
    from fishmeasure.species.loader import read_own_stock

    line, body = learned_stock(result, settings.species, note=f"From {name}.")
    text = species_toml(settings.species, line, body)
    read_own_stock(text, path.name)  # what cannot be is not saved
    output.write_bytes(path, text.encode())
    typer.echo(wording("cli-stock-saved", file=path), err=True)


def _with_overlays(
    result: "SampleMeasurement",
    folder: Path,
    settings: "PhotoSettings",
    overlay: Path,
) -> "SampleMeasurement":
    """Draw the photos with the stock's own weights, which all nets told together."""
    from fishmeasure.cli.photo import write_overlay
    from fishmeasure.photo.image import read_photo

    drawn = []
    for one in result.photos:
        if one.width_px == 0:  # could not be read
            drawn.append(one)
            continue
        data = (folder / one.photo).read_bytes()
        photo = read_photo(data, one.photo, settings.limits)
        drawn.append(write_overlay(photo, one, overlay))
    return replace(result, photos=tuple(drawn))


def read_sample_file(path: Path) -> "Sample":
    """Return the sample in a file.

    Raises
    ------
    FishMeasureError
        If it cannot be read or says something that cannot be.
    """
    from fishmeasure.estimation.sample import read_sample

    return read_sample(options.read_text(path))


def _record(
    wanted: "Sample",
    result: "SampleMeasurement",
    photos: "Mapping[Path, PhotoMeasurement]",
    settings: "PhotoSettings",
    *,
    cohort: str,
    book: str | None,
) -> None:
    """Enter the sample in the book and keep its photos; again, it changes nothing."""
    from fishmeasure.book.entry_of_sample import sample_entry
    from fishmeasure.cli.keeping import keep_photos
    from fishmeasure.store.entering import check_day, check_species, find_same

    if any(problem.fatal for problem in result.estimate.problems):
        raise SampleNotEnteredError
    if wanted.date is None or not wanted.unit:
        lacking = Message.of("cli-wanted", case="record")
        raise BadOptionError("--record", cohort, lacking)
    check_day(wanted.date, options.read_day("date", None))
    folder, _ = places(book=book)
    with opened(book) as open_:
        fish = open_.cohort(cohort)
        check_species(settings.species, fish)
        entry = sample_entry(
            identity=uuid4(),
            on=wanted.date,
            unit_id=open_.unit(wanted.unit).id,
            cohort_id=fish.id,
            estimate=result.to_json(),
        )
        same = find_same(open_, entry)
        kept = keep_photos(open_.archive, folder, photos, settings)
        if same is None:
            open_.add(replace(entry, photos=kept))
    said = (
        wording("cli-sample-entered", entry=entry.id)
        if same is None
        else wording("cli-sample-there", on=same.on, entry=same.id)
    )
    output.error_console().print(said)


def _show(
    wanted: "Sample",
    estimate: "PopulationEstimate",
    photos: "tuple[PhotoMeasurement, ...]",
) -> None:
    from rich.markup import escape
    from rich.table import Table

    level = f"{100 * estimate.level:.0f} %"
    table = Table(box=None, show_header=False, padding=(0, 2, 0, 0))
    rows = [
        ("mean weight in the unit", output.interval(estimate.mean_weight_g, 0, "g")),
        (
            "  of the netted fish",
            output.interval(estimate.handled_mean_weight_g, 0, "g"),
        ),
    ]
    if estimate.spread_is_measured:
        rows += [
            ("spread (CV)", output.interval(estimate.cv, 2)),
            ("middle 80 % of the fish", _middle(estimate)),
        ]
    if estimate.fork_length_mean_mm is not None:
        rows.append(
            ("mean fork length", output.interval(estimate.fork_length_mean_mm, 0, "mm"))
        )
    if estimate.condition_factor is not None:
        rows.append(
            ("condition factor K", output.interval(estimate.condition_factor, 2))
        )
    if estimate.spread_is_measured:
        ratio = output.interval(estimate.line.level_ratio, 2)
        rows.append(("weight over published", ratio))
    if estimate.biomass_kg is not None:
        rows.append(("biomass", output.interval(estimate.biomass_kg, 1, "kg")))
    rows[2:2] = [
        (f"  {_TAKEN_OFF[c.name]}", f"{100 * c.fraction:.1f} %: {c.taken_off_g:.0f} g")
        for c in estimate.corrections
    ]
    for row in rows:
        table.add_row(*row)
    where = " ".join(str(part) for part in (wanted.unit, wanted.date) if part)
    output.console().print(
        escape(where or "Sample") + f", {level} intervals", style="bold"
    )
    output.console().print(table)
    output.console().print(_nets(estimate))
    seen = ""
    if photos:
        fish = sum(len(photo.fish) for photo in photos)
        seen = f" ({fish} seen in {len(photos)} photos)"
    output.console().print(
        f"\n{estimate.fish_measured} fish measured{seen}, {estimate.fish_weighed} "
        f"weighed. {_one_more(estimate)}{ESTIMATE}"
    )


_TAKEN_OFF = {
    "drip": "drip water taken off the nets",
    "netting": "taken off the mean, as netted fish are heavier",
}


def _one_more(estimate: "PopulationEstimate") -> str:
    from fishmeasure.estimation.plan import USUAL_AIM, next_net, taken

    now = taken(estimate)
    found = next_net(now)
    then = found.one_more
    more = wording(
        "cli-sample-more",
        now=now.half_width_percent / 100.0,
        fish_count=then.fish_per_net,
        then=then.half_width_percent / 100.0,
    )
    worth = wording(
        "cli-sample-worth",
        verdict=found.verdict,
        aim=USUAL_AIM,
        nets=found.nets_more,
    )
    return f"{more} {worth} "


def _middle(estimate: "PopulationEstimate") -> str:
    by_fraction = {q.below_fraction: q.weight_g for q in estimate.weight_quantiles_g}
    return f"{by_fraction[0.1].value:.0f} to {by_fraction[0.9].value:.0f} g"


def _nets(estimate: "PopulationEstimate") -> "Table":
    from rich.markup import escape
    from rich.table import Table

    table = Table(box=None, padding=(0, 2, 0, 0))
    for column in ("net", "fish", "measured", "weight g", "against the rest"):
        table.add_column(column, justify="right", no_wrap=True)
    table.add_column("doubt")
    for net in estimate.nets:
        residual = net.residual_percent
        table.add_row(
            escape(net.label),
            str(net.fish_count),
            str(net.fish_measured),
            "-" if net.weight_g is None else f"{net.weight_g:.0f}",
            "-" if residual is None else f"{residual:+.1f} %",
            escape(str(net.reason or "")),
        )
    return table


def _write_plots(folder: Path, result: "SampleMeasurement") -> None:
    from fishmeasure.render.plots import sample_line_plot, weight_plot

    weights = weight_plot(result.estimate, result.nets)
    output.write_bytes(folder / "weights.png", weights)
    line = sample_line_plot(result.estimate, result.nets)
    output.write_bytes(folder / "length_weight.png", line)
