"""Feed: the ration, and the conversion of a period."""

from typing import Annotated

import typer

from fishmeasure.base.words import wording
from fishmeasure.cli.groups import grouped
from fishmeasure.cli.options import JsonTo
from fishmeasure.cli.output import data_only, write_lines
from fishmeasure.cli.stock import options as opt


@grouped
def feed_command(
    fish: opt.FishOptions,
    days: Annotated[int, typer.Option(help="help-feed-days")] = 7,
    json_to: JsonTo = None,
) -> None:
    """Show the ration and the kilograms of feed for today and the days ahead."""
    from fishmeasure.husbandry.feed import feed_plan
    from fishmeasure.husbandry.growth import WeightSample, fit_growth
    from fishmeasure.husbandry.projection import project_growth
    from fishmeasure.husbandry.propagation import exact
    from fishmeasure.husbandry.temperature import ConstantTemperature

    water = ConstantTemperature(temperature_deg_c=fish.temp)
    sample = WeightSample(day=opt.DAY_ZERO, mean_weight_g=exact(fish.mean_weight))
    fit = fit_growth(samples=(sample,), temperature=water, species_key=fish.species)
    plan = feed_plan(
        projection=project_growth(fit=fit, temperature=water, days=days),
        fish_count=fish.count(),
        temperature=water,
        start=opt.DAY_ZERO,
        days=days,
    )
    if data_only(json_to, plan):
        return
    first = plan.days[0]
    write_lines(
        (
            wording("cli-ration", percent=first.percent_per_day),
            wording("cli-feed-today", feed_kg=first.feed_kg),
            wording("cli-feed-ahead", days=days, feed_kg=plan.total_kg),
        ),
        problems=plan.problems,
        notes=plan.notes,
    )


def conversion_command(
    feed: Annotated[float, typer.Option(help="help-feed")],
    start: Annotated[float, typer.Option(help="help-start")],
    end: Annotated[float, typer.Option(help="help-end")],
    removed: Annotated[float, typer.Option(help="help-removed")] = 0.0,
    dead: Annotated[float, typer.Option(help="help-dead")] = 0.0,
    added: Annotated[float, typer.Option(help="help-added")] = 0.0,
    biomass_error: opt.BiomassError = 5.0,
    json_to: JsonTo = None,
) -> None:
    """Show the feed conversion ratio of a period, biological and economic."""
    from fishmeasure.husbandry.feed import feed_conversion

    found = feed_conversion(
        feed_kg=feed,
        start_biomass_kg=opt.with_percent(start, biomass_error),
        end_biomass_kg=opt.with_percent(end, biomass_error),
        removed_kg=removed,
        dead_kg=dead,
        added_kg=added,
    )
    if data_only(json_to, found):
        return
    write_lines(
        (
            wording("cli-conversion", case="biological", ratio=found.biological),
            wording("cli-conversion", case="economic", ratio=found.economic),
            wording("cli-gain", gain_kg=found.gain_kg),
        ),
        notes=found.notes,
    )
