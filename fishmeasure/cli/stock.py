"""The stocking calculations without a book: growth, harvest, feed.

What concerns the water is in ``stock_water``. ``from __future__ import annotations``
is left out of both: typer reads the annotations.
"""

from datetime import timedelta
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.cli import stock_options as opt
from fishmeasure.cli import stock_water
from fishmeasure.cli.checked import CheckedCommand
from fishmeasure.cli.output import write_lines, write_record
from fishmeasure.errors import OptionFormatError
from fishmeasure.words import number, span

if TYPE_CHECKING:
    from fishmeasure.stock.growth import WeightSample
    from fishmeasure.stock.harvest import Harvest


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    for name, command in (
        ("growth", growth_command),
        ("harvest", harvest_command),
        ("feed", feed_command),
        ("conversion", conversion_command),
        ("oxygen", stock_water.oxygen_command),
        ("outage", stock_water.outage_command),
        ("ammonia", stock_water.ammonia_command),
        ("nitrate", stock_water.nitrate_command),
        ("plant-bed", stock_water.plant_bed_command),
        ("stocking", stock_water.stocking_command),
    ):
        app.command(name, cls=CheckedCommand)(command)


def growth_command(
    species: opt.SpeciesArgument,
    sample: opt.Samples,
    temp: opt.ForecastTemp = None,
    monthly: opt.Monthly = None,
    wave: opt.Wave = None,
    days: Annotated[int, typer.Option(help="Days ahead.")] = 180,
    size: Annotated[
        float | None, typer.Option(help="Plate size, g; else the species'.")
    ] = None,
    cv: Annotated[float, typer.Option(help="Spread of weights, CV.")] = 0.25,
    as_json: opt.Json = False,
) -> None:
    """Fit growth to a cohort's samples; weights and plate-size dates ahead."""
    from fishmeasure.stock.figures import load_stock_figures
    from fishmeasure.stock.growth import fit_growth, project_growth
    from fishmeasure.stock.harvest import DateEstimate, dates_at_size
    from fishmeasure.stock.propagation import lognormal

    water = opt.read_forecast(temp, monthly, wave)
    samples = sorted(opt.read_samples(sample), key=lambda found: found.day)
    fit = fit_growth(samples=tuple(samples), temperature=water, species_key=species)
    ahead = project_growth(fit=fit, temperature=water, days=days)
    plate = load_stock_figures(species).growth.plate_size_g
    dates = dates_at_size(
        projection=ahead, cv=lognormal(cv, 0.15), size_g=size or plate.value
    )
    if as_json:
        write_record({"fit": fit, "dates": dates, "projection": ahead})
        return

    def when(found: DateEstimate) -> str:
        if found.day is None:
            return f"after {ahead.start + timedelta(days=days)}"
        if found.earliest == found.latest == ahead.start:
            return f"now, {found.day}"
        return f"{found.day} ({found.earliest} to {found.latest or 'later'})"

    course = [
        f"  {day}  {span(ahead.mean_weight_g(day))} g"
        for day in (
            ahead.start + timedelta(days=step) for step in range(0, days + 1, 30)
        )
    ]
    notes = fit.notes
    if size is None:
        notes += (plate.note(f"Plate size {plate.value:g} g"),)
    write_lines(
        (
            f"Thermal growth coefficient x 1000: {span(fit.tgc_x1000)}",
            *_growth_rate(samples),
            f"Mean weight on {fit.last_day}: {span(fit.mean_weight_g)} g",
            *course,
            f"At {dates.size_g:g} g: first (5 %) {when(dates.first)}",
            f"  half {when(dates.half)}",
            f"  nearly all (95 %) {when(dates.nearly_all)}",
        ),
        problems=ahead.problems,
        notes=notes,
    )


def _growth_rate(samples: "list[WeightSample]") -> tuple[str, ...]:
    from fishmeasure.stock.growth import specific_growth_rate

    first, last = samples[0], samples[-1]
    if last.day == first.day:
        return ()
    rate = specific_growth_rate(
        start_weight_g=first.mean_weight_g,
        end_weight_g=last.mean_weight_g,
        days=(last.day - first.day).days,
    )
    return (f"Specific growth rate, first to last sample: {span(rate)} %/day",)


def harvest_command(
    species: opt.SpeciesArgument,
    sample: opt.Samples,
    count: Annotated[int, typer.Option(help="Fish in the cohort.")],
    take: Annotated[
        list[str], typer.Option(help="DATE=NUMBER of the largest fish; repeat it.")
    ],
    temp: opt.ForecastTemp = None,
    monthly: opt.Monthly = None,
    wave: opt.Wave = None,
    cv: Annotated[float, typer.Option(help="Spread of weights, CV.")] = 0.25,
    count_error: Annotated[
        float, typer.Option(help="Standard error of the count, %.")
    ] = 2.0,
    as_json: opt.Json = False,
) -> None:
    """Show what taking the largest fish on some days yields and leaves."""
    from fishmeasure.stock import cautions
    from fishmeasure.stock.growth import fit_growth, project_growth
    from fishmeasure.stock.harvest import harvest_plan
    from fishmeasure.stock.propagation import lognormal

    water = opt.read_forecast(temp, monthly, wave)
    takes = opt.read_takes(take)
    fit = fit_growth(
        samples=opt.read_samples(sample), temperature=water, species_key=species
    )
    first, last = min(takes)[0], max(takes)[0]
    if first < fit.last_day:
        raise OptionFormatError(
            "--take", str(first), f"{fit.last_day}=60, no day before the last sample"
        )
    ahead = project_growth(
        fit=fit, temperature=water, days=max((last - fit.last_day).days, 0)
    )
    plan = harvest_plan(
        projection=ahead,
        fish_count=opt.with_percent(count, count_error, "number of fish", ""),
        cv=lognormal(cv, 0.15),
        takes=takes,
    )
    if as_json:
        write_record(plan)
        return
    lines = [
        f"{h.day}: the {h.taken_count} largest fish{_above(h)} yield "
        f"{span(h.taken_kg)} kg; left {number(h.left_count.value)} fish, "
        f"{span(h.left_kg)} kg"
        for h in plan.harvests
    ]
    if plan.shortfall_count:
        lines.append(f"{plan.shortfall_count} of the fish asked for are not there.")
    write_lines(
        tuple(lines),
        problems=ahead.problems,
        cautions=cautions.HARVEST,
        notes=plan.notes,
    )


def _above(harvest: "Harvest") -> str:
    smallest = harvest.smallest_taken_g
    return f", those over {number(smallest)} g," if smallest > 0.0 else ""


def feed_command(
    species: opt.SpeciesArgument,
    mean_weight: opt.MeanWeight,
    temp: opt.Temp,
    biomass: opt.Biomass,
    biomass_error: opt.BiomassError = 10.0,
    days: Annotated[int, typer.Option(help="Days of feed.")] = 7,
    as_json: opt.Json = False,
) -> None:
    """Show the ration and the kilograms of feed for today and the days ahead."""
    from fishmeasure.stock.feed import feed_plan
    from fishmeasure.stock.growth import WeightSample, fit_growth, project_growth
    from fishmeasure.stock.propagation import exact, scaled
    from fishmeasure.stock.temperature import ConstantTemperature

    water = ConstantTemperature(temp_c=temp)
    fit = fit_growth(
        samples=(WeightSample(day=opt.DAY_ZERO, mean_weight_g=exact(mean_weight)),),
        temperature=water,
        species_key=species,
    )
    plan = feed_plan(
        projection=project_growth(fit=fit, temperature=water, days=days),
        fish_count=scaled(
            opt.with_percent(biomass, biomass_error), 1000.0 / mean_weight
        ),
        temperature=water,
        start=opt.DAY_ZERO,
        days=days,
    )
    if as_json:
        write_record(plan)
        return
    first = plan.days[0]
    write_lines(
        (
            f"Ration today: {span(first.percent_per_day)} % of body weight",
            f"Feed today: {span(first.feed_kg)} kg",
            f"Feed in {days} days: {span(plan.total_kg)} kg",
        ),
        problems=plan.problems,
        notes=plan.notes,
    )


def conversion_command(
    feed: Annotated[float, typer.Option(help="Feed given, kg.")],
    start: Annotated[float, typer.Option(help="Biomass at the start, kg.")],
    end: Annotated[float, typer.Option(help="Biomass at the end, kg.")],
    removed: Annotated[float, typer.Option(help="Sold or moved out, kg.")] = 0.0,
    dead: Annotated[float, typer.Option(help="Died, kg.")] = 0.0,
    added: Annotated[float, typer.Option(help="Stocked or moved in, kg.")] = 0.0,
    biomass_error: opt.BiomassError = 5.0,
    as_json: opt.Json = False,
) -> None:
    """Show the feed conversion ratio of a period, biological and economic."""
    from fishmeasure.stock.feed import feed_conversion

    found = feed_conversion(
        feed_kg=feed,
        start_biomass_kg=opt.with_percent(start, biomass_error),
        end_biomass_kg=opt.with_percent(end, biomass_error),
        removed_kg=removed,
        dead_kg=dead,
        added_kg=added,
    )
    if as_json:
        write_record(found)
        return
    write_lines(
        (
            f"Biological feed conversion: {span(found.biological)}",
            f"Economic feed conversion: {span(found.economic)}",
            f"Gain: {span(found.gain_kg)} kg",
        ),
        notes=found.notes,
    )
