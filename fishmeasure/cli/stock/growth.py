"""Growth ahead, and what harvests of the largest fish yield and leave."""

from datetime import timedelta
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.cli.output import write_lines, write_record
from fishmeasure.cli.stock import options as opt
from fishmeasure.errors import OptionFormatError
from fishmeasure.words import number, span

if TYPE_CHECKING:
    from fishmeasure.stock.growth import WeightSample
    from fishmeasure.stock.harvest import Harvest


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
