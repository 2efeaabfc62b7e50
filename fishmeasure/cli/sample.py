"""``fishmeasure sample``: photos and bulk weighings to mean weight and spread."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated
from uuid import uuid4

import typer

from fishmeasure.base.errors import BadOptionError, SampleNotEnteredError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli import options, output
from fishmeasure.cli.asking import ConfirmOption, entered
from fishmeasure.cli.book_options import BookOption, opened, places
from fishmeasure.husbandry.cautions import ESTIMATE, TUB

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from rich.table import Table

    from fishmeasure.base.estimate import Estimate
    from fishmeasure.book.state import CohortInUnit
    from fishmeasure.estimation.model import PopulationEstimate
    from fishmeasure.estimation.sample import Sample
    from fishmeasure.photo.measurement import PhotoMeasurement
    from fishmeasure.pipeline import PhotoSettings, SampleMeasurement


def sample_command(
    sample: Annotated[Path, typer.Argument(help="help-sample-sample")],
    *,
    species: Annotated[str | None, typer.Option(help="help-sample-species")] = None,
    print_scale: options.PrintScale = None,
    paper: options.Paper = None,
    lens: options.Lens = None,
    json_to: options.JsonTo = None,
    csv_to: options.CsvTo = None,
    overlay: options.Overlay = None,
    plots: Annotated[Path | None, typer.Option(help="help-plots")] = None,
    record: Annotated[
        str | None,
        typer.Option(
            metavar="COHORT",
            help="help-record",
        ),
    ] = None,
    save: Annotated[
        Path | None,
        typer.Option(help="help-sample-save"),
    ] = None,
    confirm: ConfirmOption = False,
    book: BookOption = None,
) -> None:
    """Estimate mean weight and spread from photos and bulk weighings of nets."""
    from fishmeasure.cli.photo import measure_file
    from fishmeasure.photo.measurement import csv_rows
    from fishmeasure.pipeline import measure_sample

    options.one_on_stdout(json_to, csv_to)
    wanted = read_sample_file(sample)
    settings = options.photo_settings(
        species=species or wanted.species,
        print_scale=print_scale,
        paper=paper,
        known=None,
        lens=lens,
    )
    if record is not None:
        wanted, settings = _of_its_stock(wanted, settings, record, book)
    photos = {
        name: measure_file(
            sample.parent / name, name, in_its_water(settings, wanted, name)
        )
        for name in output.tracked(wanted.photos, wording("cli-measuring"))
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
        where = _Where(cohort=record, book=book, confirm=confirm)
        _record(wanted, result, measured, settings, where)
    if any(problem.fatal for problem in result.problems):
        raise typer.Exit(output.STATUS_UNUSABLE_INPUT)


def _of_its_stock(
    wanted: "Sample", settings: "PhotoSettings", cohort: str, book: str | None
) -> "tuple[Sample, PhotoSettings]":
    """Return sample and settings as the book knows the cohort's own fish.

    A stock's file that was named goes before it.
    """
    from fishmeasure.book.entries import Sample as SampleEntry
    from fishmeasure.book.stock import stock_known

    if settings.species.is_own_stock or wanted.date is None:
        return wanted, settings
    with opened(book) as open_:
        fish = open_.cohort(cohort)
        if fish.species_key != settings.species.key:  # asked about when it is entered
            return wanted, settings
        entries = [  # entered once more, a sample is not to have taught itself
            entry
            for entry in open_.entries(cohort_id=fish.id, only_in_force=True)
            if not (isinstance(entry, SampleEntry) and entry.on == wanted.date)
        ]
    known = stock_known(settings.species, entries, cohort_id=fish.id, on=wanted.date)
    ripe = wanted.ripe or known.is_ripe
    return replace(wanted, ripe=ripe), replace(settings, species=known.species)


def in_its_water(
    settings: "PhotoSettings", sample: "Sample", photo: str
) -> "PhotoSettings":
    """Return the settings of a sample's photo, in the tub if its net is."""
    net = sample.net_of(photo)
    if net is None or not net.in_water:
        return settings
    return replace(settings, in_water=True, water_depth_mm=net.water_depth_mm)


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
    from fishmeasure.estimation.sample_table import sample_from_table

    text = options.read_text(path)
    is_table = path.suffix.lower() in {".csv", ".tsv", ".txt"}
    return sample_from_table(text) if is_table else read_sample(text)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Where:
    """Where a sample is entered, and whether it is whatever the book expects."""

    cohort: str
    book: str | None
    confirm: bool


def _record(
    wanted: "Sample",
    result: "SampleMeasurement",
    photos: "Mapping[Path, PhotoMeasurement]",
    settings: "PhotoSettings",
    where: "_Where",
) -> None:
    """Enter the sample in the book and keep its photos; again, it changes nothing."""
    from fishmeasure.book.asking import Facts
    from fishmeasure.book.entry_of_sample import sample_entry
    from fishmeasure.cli.keeping import keep_photos, keep_sample
    from fishmeasure.pipeline import learned_body
    from fishmeasure.store.entering import check_day, check_species, find_same

    if any(problem.fatal for problem in result.estimate.problems):
        raise SampleNotEnteredError
    if wanted.date is None or not wanted.unit:
        lacking = Message.of("cli-wanted", case="record")
        raise BadOptionError("--record", where.cohort, lacking)
    check_day(wanted.date, options.read_day("date", None))
    folder, _ = places(book=where.book)
    with opened(where.book) as open_:
        fish = open_.cohort(where.cohort)
        check_species(settings.species, fish)
        entry = sample_entry(
            identity=uuid4(),
            on=wanted.date,
            unit_id=open_.unit(wanted.unit).id,
            cohort_id=fish.id,
            estimate=result.to_json(),
            body=learned_body(result, settings.species),
            ripe=result.ripe,
        )
        same, saved = find_same(open_, entry), entry.id
        kept = keep_photos(open_.archive, folder, photos, settings)
        if same is None:
            facts = Facts(
                problems=result.estimate.problems,
                count_in_unit=wanted.count_in_unit,
                count_in_unit_sd=wanted.count_in_unit_sd,
            )
            saved = entered(
                open_,
                replace(entry, photos=tuple(kept.values())),
                today=options.read_day("date", None),
                confirm=where.confirm,
                facts=facts,
            )
            ids = {photos[path].photo: name for path, name in kept.items()}
            keep_sample(open_.archive, replace(entry, id=saved), wanted, result, ids)
        learnt = open_.samples_over_all(fish.id, options.read_day("date", None))
        balance = open_.balance(wanted.date)
    said = (
        wording("cli-sample-entered", entry=saved)
        if same is None
        else wording("cli-sample-there", on=same.on, entry=same.id)
    )
    output.error_console().print(said)
    for one in balance.unit(entry.unit_id).cohorts:
        if one.cohort.id == fish.id:
            _say_joined(wanted.date, one)
    if learnt is not None and entry.fish_weighed:
        _say_netted(fish.name, learnt, entry.mean_weight_g)


def _say_joined(on: "dt.date", fish: "CohortInUnit") -> None:
    """Say what the book makes of the sample and all else together."""
    if fish.mean_weight_g is not None:
        output.error_console().print(
            wording(
                "cli-sample-joined",
                cohort=fish.cohort.name,
                on=on,
                mean_g=fish.mean_weight_g,
            )
        )


def _say_netted(cohort: str, learnt: "Estimate", mean_g: float) -> None:
    """Say what harvests tell of the nets of a cohort."""
    output.error_console().print(
        wording(
            "cli-sample-netted",
            cohort=cohort,
            case="heavier" if learnt.value >= 1.0 else "lighter",
            by=abs(learnt.value - 1.0),
            low=learnt.low - 1.0,
            high=learnt.high - 1.0,
            mean_g=mean_g,
            less_g=mean_g / learnt.value,
        )
    )


def _show(
    wanted: "Sample",
    estimate: "PopulationEstimate",
    photos: "tuple[PhotoMeasurement, ...]",
) -> None:
    from rich.markup import escape
    from rich.table import Table

    table = Table(box=None, show_header=False, padding=(0, 2, 0, 0))
    for row in _rows(estimate):
        table.add_row(*row)
    where = " ".join(str(part) for part in (wanted.unit, wanted.date) if part)
    title = wording(
        "cli-sample-title",
        where=escape(where) if where else Message.of("cli-sample-unnamed"),
        level=estimate.level,
    )
    output.console().print(title, style="bold")
    output.console().print(table)
    output.console().print(_nets(estimate))
    measured = wording(
        "cli-sample-fish",
        case="photos" if photos else "weighed",
        measured=estimate.fish_measured,
        weighed=estimate.fish_weighed,
        seen=sum(len(photo.fish) for photo in photos),
        photos=len(photos),
    )
    output.console().print(f"\n{measured} {one_more(estimate)}{ESTIMATE}")
    if any(net.in_water for net in wanted.nets):
        output.console().print(f"\n{TUB}", highlight=False)


def _rows(estimate: "PopulationEstimate") -> "Iterator[tuple[str, str]]":
    """Yield what is told of the fish, each figure with its name."""
    mean, handled = estimate.mean_weight_g, estimate.handled_mean_weight_g
    yield wording("cli-sample-row", case="mean"), output.grams(mean)
    yield f"  {wording('cli-sample-row', case='netted')}", output.grams(handled)
    for one in estimate.corrections:
        yield (
            f"  {wording('cli-sample-row', case=one.name)}",
            wording(
                "cli-figure",
                case="taken-off",
                share=one.fraction,
                off_g=one.taken_off_g,
            ),
        )
    if estimate.spread_is_measured:
        yield wording("cli-sample-row", case="spread"), output.bare(estimate.cv)
        yield wording("cli-sample-row", case="middle"), _middle(estimate)
    length, condition = estimate.fork_length_mean_mm, estimate.condition_factor
    if length is not None:
        yield wording("cli-sample-row", case="length"), output.millimetres(length)
    if condition is not None:
        yield wording("cli-sample-row", case="condition"), output.bare(condition)
    if estimate.level_is_measured:
        ratio = estimate.line.level_ratio
        yield wording("cli-sample-row", case="level"), output.bare(ratio)
    if estimate.biomass_kg is not None:
        kg = estimate.biomass_kg
        yield wording("cli-sample-row", case="biomass"), output.kilograms(kg)


def one_more(estimate: "PopulationEstimate") -> str:
    """Say whether one more net is worth it."""
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
    low, high = by_fraction[0.1].value, by_fraction[0.9].value
    return wording("cli-figure", case="middle", low_g=low, high_g=high)


def _nets(estimate: "PopulationEstimate") -> "Table":
    from rich.markup import escape
    from rich.table import Table

    table = Table(box=None, padding=(0, 2, 0, 0))
    *columns, last = output.columns(wording("cli-columns", case="nets"))
    for column in columns:
        table.add_column(column, justify="right", no_wrap=True)
    table.add_column(last)
    for net in estimate.nets:
        residual = net.residual_percent
        table.add_row(
            escape(str(net.label)),
            str(net.fish_count),
            str(net.fish_measured),
            "-" if net.weight_g is None else output.weight_cell(net.weight_g),
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
