"""Nitrogen: a reading of ammonia, nitrate ahead, the plant bed."""

from typing import Annotated, get_args

import typer

from fishmeasure.base.words import wording
from fishmeasure.cli.options import JsonTo
from fishmeasure.cli.output import data_only, write_lines
from fishmeasure.cli.stock import options as opt


def ammonia_command(
    species: opt.SpeciesArgument,
    tan: Annotated[float, typer.Option(help="help-tan")],
    ph: Annotated[float, typer.Option(help="help-ph")],
    temp: opt.Temp,
    tan_error: Annotated[float, typer.Option(help="help-tan-error")] = 10.0,
    salinity: opt.Salinity = 0.0,
    json_to: JsonTo = None,
) -> None:
    """Show the un-ionised ammonia of a reading beside the species' limit."""
    from fishmeasure.husbandry.nitrogen import ammonia_reading
    from fishmeasure.husbandry.propagation import scaled

    found = ammonia_reading(
        species_key=species,
        tan_mg_per_l=opt.with_percent(tan, tan_error, "total ammonia nitrogen", "mg/L"),
        ph=ph,
        temperature_deg_c=temp,
        salinity_g_per_kg=salinity,
    )
    if data_only(json_to, found):
        return
    write_lines(
        (
            wording("cli-unionised-share", share=found.unionised_fraction),
            wording("cli-unionised", unionised_n_mg_per_l=found.unionised_n_mg_per_l),
            wording(
                "cli-unionised-limit",
                limit_n_mg_per_l=found.limit_n_mg_per_l,
                percent=scaled(found.limit_used_fraction, 100.0),
            ),
        ),
        problems=found.problems,
        notes=found.notes,
    )


def nitrate_command(
    species: opt.SpeciesArgument,
    feed: Annotated[float, typer.Option(help="help-nitrate-feed")],
    volume: opt.Volume,
    start: Annotated[float, typer.Option(help="help-nitrate-start")] = 0.0,
    exchange: Annotated[float, typer.Option(help="help-exchange")] = 0.0,
    protein: Annotated[float | None, typer.Option(help="help-protein")] = None,
    bed: Annotated[float, typer.Option(help="help-bed")] = 0.0,
    crop: Annotated[str, typer.Option(help="help-crop")] = "leafy",
    days: Annotated[int, typer.Option(help="help-growth-days")] = 60,
    json_to: JsonTo = None,
) -> None:
    """Show where nitrate goes with this feed, water exchange and plant bed."""
    from fishmeasure.husbandry import nitrogen
    from fishmeasure.husbandry.propagation import exact
    from fishmeasure.species import farmed_species

    book = farmed_species(species).feed.protein_percent
    made = nitrogen.tan_g_per_day(
        feed_kg_per_day=exact(feed / 1000.0),
        protein_percent=book.value if protein is None else protein,
    )
    uptake = nitrogen.plant_uptake_g_per_day(
        crop=opt.choice("--crop", crop, get_args(nitrogen.Crop)), bed_m2=bed
    )
    trend = nitrogen.nitrate_trend(
        species_key=species,
        loop=nitrogen.NitrogenLoop(
            volume_m3=volume,
            exchange_m3_per_day=exchange,
            plant_uptake_g_per_day=uptake.value,
        ),
        start_n_mg_per_l=start,
        nitrogen_g_per_day=made,
        days=days,
    )
    if data_only(json_to, trend):
        return
    write_lines(
        (
            wording("cli-feed-nitrogen", made_g=made),
            wording("cli-plants-take", uptake_g=uptake),
            wording(
                "cli-nitrate",
                days=days,
                high_mg_per_l=trend.high_mg_per_l[-1],
                likely_mg_per_l=trend.nitrate_n_mg_per_l[-1],
            ),
            wording(
                "cli-nitrate-limit",
                case="never" if trend.days_to_limit is None else "passed",
                limit_mg_per_l=trend.limit_n_mg_per_l,
                days=trend.days_to_limit or 0,
            ),
        ),
        notes=(*trend.notes, nitrogen.UPTAKE_NOTE) if bed else trend.notes,
    )


def plant_bed_command(
    feed: Annotated[float, typer.Option(help="help-nitrate-feed")],
    bed: Annotated[float, typer.Option(help="help-bed")] = 0.0,
    crop: Annotated[str, typer.Option(help="help-crop")] = "leafy",
    json_to: JsonTo = None,
) -> None:
    """Show the plant bed that the feed carries, and the feed a bed takes up."""
    from fishmeasure.husbandry.nitrogen import Crop, bed_balance
    from fishmeasure.husbandry.propagation import exact

    found = bed_balance(
        crop=opt.choice("--crop", crop, get_args(Crop)),
        feed_kg_per_day=exact(feed / 1000.0),
        bed_m2=bed,
    )
    if data_only(json_to, found):
        return
    write_lines(
        (
            wording("cli-bed-needed", feed_g=feed, bed_m2=found.bed_needed_m2),
            wording("cli-bed-carries", bed_m2=bed, feed_kg=found.feed_carried_kg),
        ),
        notes=found.notes,
    )
