"""The stocking calculations of the water: oxygen, outage, nitrogen, stocking."""

from datetime import timedelta
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, get_args

import typer

from fishmeasure.cli import stock_options as opt
from fishmeasure.cli.output import write_bytes, write_lines, write_record
from fishmeasure.errors import BadOptionError
from fishmeasure.words import number, percent, span

if TYPE_CHECKING:
    from fishmeasure.stock.growth import GrowthProjection
    from fishmeasure.stock.outage import OutageResult, TimeToLevel
    from fishmeasure.stock.stocking import StockingOutlook, UnitLimits, UnitLoad
    from fishmeasure.stock.unit import RearingUnit
    from fishmeasure.uncertainty import Estimate


def oxygen_command(
    species: opt.SpeciesArgument,
    mean_weight: opt.MeanWeight,
    temp: opt.Temp,
    biomass: opt.Biomass,
    volume: opt.Volume,
    biomass_error: opt.BiomassError = 10.0,
    surface: opt.Surface = 0.0,
    inflow: opt.Inflow = 0.0,
    inflow_do: opt.InflowDo = None,
    sotr: opt.Sotr = 0.0,
    altitude: opt.Altitude = 0.0,
    salinity: opt.Salinity = 0.0,
    wind: opt.Wind = None,
    water_use: opt.WaterUse = 0.0,
    unfed: opt.Unfed = False,
    as_json: opt.Json = False,
) -> None:
    """Hold oxygen demand against supply at the species' caution level."""
    from fishmeasure.stock import cautions
    from fishmeasure.stock.oxygen import oxygen_balance
    from fishmeasure.stock.unit import Aerator, RearingUnit

    balance = oxygen_balance(
        unit=RearingUnit(
            volume_m3=volume,
            surface_m2=surface,
            inflow_l_per_min=inflow,
            inflow_do_mg_per_l=inflow_do,
            aerators=(Aerator(name="aerator", sotr_kg_per_h=sotr),) if sotr else (),
            altitude_m=altitude,
            salinity_g_per_kg=salinity,
            water_respiration_mg_per_l_h=water_use,
        ),
        species_key=species,
        biomass_kg=opt.with_percent(biomass, biomass_error),
        mean_weight_g=mean_weight,
        temp_c=temp,
        feeding="fasted" if unfed else "fed",
        wind_m_per_s=wind,
    )
    if as_json:
        write_record(balance)
        return
    kept = balance.do_mg_per_l
    write_lines(
        (
            f"Saturation: {balance.saturation_mg_per_l:.2f} mg/L",
            f"The fish use {span(balance.demand_g_per_h)} g/h",
            *(
                f"  {name}: {span(figure)} g/h"
                for name, figure in balance.supplies_g_per_h
            ),
            f"Supply at {kept:g} mg/L: {span(balance.supply_g_per_h)} g/h",
            f"Balance to act on: {number(balance.unsafe_balance_g_per_h)} g/h",
            f"Oxygen settles at {span(balance.steady_do_mg_per_l)} mg/L",
            f"The supply carries {span(balance.max_biomass_kg)} kg",
        ),
        problems=balance.problems,
        cautions=(cautions.ESTIMATE, cautions.OXYGEN),
        notes=balance.notes,
    )


def outage_command(
    species: opt.SpeciesArgument,
    mean_weight: opt.MeanWeight,
    temp: opt.Temp,
    biomass: opt.Biomass,
    volume: opt.Volume,
    oxygen: Annotated[float, typer.Option(help="Oxygen at the stop, mg/L.")],
    biomass_error: opt.BiomassError = 10.0,
    surface: opt.Surface = 0.0,
    inflow: opt.Inflow = 0.0,
    inflow_do: opt.InflowDo = None,
    spring: Annotated[
        bool, typer.Option(help="The inflow runs without power.")
    ] = False,
    sotr: opt.Sotr = 0.0,
    altitude: opt.Altitude = 0.0,
    salinity: opt.Salinity = 0.0,
    wind: opt.Wind = None,
    water_use: opt.WaterUse = 0.0,
    unfed: opt.Unfed = False,
    cause: Annotated[str, typer.Option(help="power, pump or blower.")] = "power",
    backup_sotr: Annotated[
        float, typer.Option(help="Backup air, standard transfer rate, kg/h.")
    ] = 0.0,
    hours: Annotated[float, typer.Option(help="Hours to ask the fish load for.")] = 4.0,
    chart: Annotated[
        Path | None, typer.Option(help="Write the chart to a PNG, SVG or PDF.")
    ] = None,
    as_json: opt.Json = False,
) -> None:
    """Show how long oxygen lasts when power or pump stops, and what buys time."""
    from fishmeasure.stock.outage import OutageCase, OutageCause, biomass_for_hours
    from fishmeasure.stock.outage import outage as outage_
    from fishmeasure.stock.unit import Aerator, RearingUnit
    from fishmeasure.uncertainty import Estimate

    case = OutageCase(
        unit=RearingUnit(
            volume_m3=volume,
            surface_m2=surface,
            inflow_l_per_min=inflow,
            inflow_do_mg_per_l=inflow_do,
            inflow_pumped=not spring,
            aerators=(Aerator(name="aerator", sotr_kg_per_h=sotr),) if sotr else (),
            altitude_m=altitude,
            salinity_g_per_kg=salinity,
            water_respiration_mg_per_l_h=water_use,
        ),
        species_key=species,
        biomass_kg=opt.with_percent(biomass, biomass_error),
        mean_weight_g=mean_weight,
        temp_c=temp,
        start_do_mg_per_l=Estimate.normal(oxygen, 0.2),
        cause=opt.choice("--cause", cause, get_args(OutageCause)),
        feeding="fasted" if unfed else "fed",
        wind_m_per_s=wind,
    )
    backup = Aerator(name="backup air", sotr_kg_per_h=backup_sotr)
    result = outage_(case, backup=backup if backup_sotr else None)
    load = biomass_for_hours(case, hours=hours)
    if chart is not None:
        _write_chart(result, chart)
    if as_json:
        write_record({"outage": result, "hours": hours, "biomass_for_hours_kg": load})
        return
    _write_outage(result, hours, load)


def _write_chart(result: "OutageResult", target: Path) -> None:
    from fishmeasure.plots.canvas import plot_format_of
    from fishmeasure.stock.outage_chart import outage_figure

    drawn = BytesIO()
    plot_format = plot_format_of(target.name)
    if plot_format is None:
        raise BadOptionError("--chart", target.name, "a file in .png, .svg or .pdf")
    outage_figure(result).savefig(drawn, format=plot_format)
    write_bytes(target, drawn.getvalue())


def _write_outage(result: "OutageResult", hours: float, load: "Estimate") -> None:
    from fishmeasure.stock.outage import time_words

    def reached(name: str, time: "TimeToLevel") -> str:
        low, high = time_words(time.minutes.low), time_words(time.minutes.high)
        middle = time_words(time.minutes.value)
        return f"{name}, {time.level_mg_per_l:g} mg/L, in {middle} ({low} to {high})"

    measures = (
        f"  {m.name}: {time_words(m.gained_min.value)} more "
        f"(at least {time_words(m.gained_min.low)})"
        for m in result.measures
    )
    air, water = result.holding_air_sotr_kg_per_h, result.holding_water_l_per_min
    write_lines(
        (
            reached("Caution", result.to_caution),
            reached("Critical", result.to_critical),
            "What buys time until critical:",
            *measures,
            "The caution level would be held by",
            f"  backup air of {span(air)} kg/h standard transfer rate,",
            f"  or {span(water)} L/min of fresh water",
            f"Fish that would last {hours:g} h: {span(load)} kg",
        ),
        problems=result.problems,
        cautions=result.cautions,
        notes=result.notes,
    )


def ammonia_command(
    species: opt.SpeciesArgument,
    tan: Annotated[float, typer.Option(help="Total ammonia nitrogen, mg/L.")],
    ph: Annotated[float, typer.Option(help="pH.")],
    temp: opt.Temp,
    tan_error: Annotated[
        float, typer.Option(help="Standard error of the reading, %.")
    ] = 10.0,
    salinity: opt.Salinity = 0.0,
    as_json: opt.Json = False,
) -> None:
    """Hold a reading's un-ionised ammonia against the species' limit."""
    from fishmeasure.stock.nitrogen import ammonia_reading
    from fishmeasure.stock.propagation import scaled

    found = ammonia_reading(
        species_key=species,
        tan_mg_per_l=opt.with_percent(tan, tan_error, "total ammonia nitrogen", "mg/L"),
        ph=ph,
        temp_c=temp,
        salinity_g_per_kg=salinity,
    )
    if as_json:
        write_record(found)
        return
    used = span(scaled(found.limit_used_fraction, 100.0), 2)
    write_lines(
        (
            f"Un-ionised share: {100.0 * found.unionised_fraction:.2f} %",
            f"Un-ionised ammonia nitrogen: {span(found.unionised_n_mg_per_l, 2)} mg/L",
            f"Of the limit of {found.limit_n_mg_per_l:g} mg/L: {used} %",
            "Act on the highest figure.",
        ),
        problems=found.problems,
        notes=found.notes,
    )


def nitrate_command(
    species: opt.SpeciesArgument,
    feed: Annotated[float, typer.Option(help="Feed a day, g.")],
    volume: opt.Volume,
    start: Annotated[float, typer.Option(help="Nitrate nitrogen now, mg/L.")] = 0.0,
    exchange: Annotated[float, typer.Option(help="Water exchanged, m³/day.")] = 0.0,
    protein: Annotated[
        float | None, typer.Option(help="Protein of the feed, %; else the species'.")
    ] = None,
    bed: Annotated[float, typer.Option(help="Plant bed, m².")] = 0.0,
    crop: Annotated[str, typer.Option(help="leafy, fruiting, raft or nft.")] = "leafy",
    days: Annotated[int, typer.Option(help="Days ahead.")] = 60,
    as_json: opt.Json = False,
) -> None:
    """Show where nitrate goes with this feed, water exchange and plant bed."""
    from fishmeasure.stock import nitrogen
    from fishmeasure.stock.figures import load_stock_figures
    from fishmeasure.stock.propagation import exact

    book = load_stock_figures(species).feed.protein_percent
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
    if as_json:
        write_record(trend)
        return
    reached = "is not reached in that time"
    if trend.days_to_limit is not None:
        reached = f"may be passed in {trend.days_to_limit} days"
    low, middle, high = (
        number(course[-1])
        for course in (
            trend.low_mg_per_l,
            trend.nitrate_n_mg_per_l,
            trend.high_mg_per_l,
        )
    )
    write_lines(
        (
            f"The feed makes {span(made)} g nitrogen a day",
            f"The plants take up {span(uptake)} g a day",
            f"Nitrate nitrogen in {days} days: {middle} ({low} to {high}) mg/L",
            f"The limit of {trend.limit_n_mg_per_l:g} mg/L {reached}",
        ),
        notes=(*trend.notes, nitrogen.UPTAKE_NOTE) if bed else trend.notes,
    )


def plant_bed_command(
    feed: Annotated[float, typer.Option(help="Feed a day, g.")],
    bed: Annotated[float, typer.Option(help="Plant bed, m².")] = 0.0,
    crop: Annotated[str, typer.Option(help="leafy, fruiting, raft or nft.")] = "leafy",
    as_json: opt.Json = False,
) -> None:
    """Show the plant bed that the feed carries, and the feed a bed takes up."""
    from fishmeasure.stock.nitrogen import Crop, bed_balance
    from fishmeasure.stock.propagation import exact

    found = bed_balance(
        crop=opt.choice("--crop", crop, get_args(Crop)),
        feed_kg_per_day=exact(feed / 1000.0),
        bed_m2=bed,
    )
    if as_json:
        write_record(found)
        return
    write_lines(
        (
            f"{feed:g} g of feed a day carries {span(found.bed_needed_m2)} m²",
            f"{bed:g} m² takes up {span(found.feed_carried_kg)} kg of feed a day",
        ),
        notes=found.notes,
    )


def stocking_command(
    species: opt.SpeciesArgument,
    mean_weight: opt.MeanWeight,
    temp: opt.Temp,
    biomass: opt.Biomass,
    volume: opt.Volume,
    biomass_error: opt.BiomassError = 10.0,
    surface: opt.Surface = 0.0,
    inflow: opt.Inflow = 0.0,
    inflow_do: opt.InflowDo = None,
    sotr: opt.Sotr = 0.0,
    altitude: opt.Altitude = 0.0,
    salinity: opt.Salinity = 0.0,
    ph: Annotated[float | None, typer.Option(help="pH, for the ammonia.")] = None,
    density: Annotated[
        float | None, typer.Option(help="Own density limit, kg/m³.")
    ] = None,
    condition: Annotated[
        float | None, typer.Option(help="Condition factor K, for the indices.")
    ] = None,
    bed: Annotated[float, typer.Option(help="Plant bed, m².")] = 0.0,
    crop: Annotated[str, typer.Option(help="leafy, fruiting, raft or nft.")] = "leafy",
    days: Annotated[int, typer.Option(help="Days ahead, to find room or harm.")] = 60,
    fingerling: Annotated[
        float, typer.Option(help="Weight of the fingerlings thought of, g.")
    ] = 10.0,
    as_json: opt.Json = False,
) -> None:
    """Show how near each limit is, the room left, or how many fish must go."""
    from fishmeasure.stock.nitrogen import Crop
    from fishmeasure.stock.stocking import FishGroup, UnitLimits, unit_load
    from fishmeasure.stock.unit import Aerator, RearingUnit

    unit = RearingUnit(
        volume_m3=volume,
        surface_m2=surface,
        inflow_l_per_min=inflow,
        inflow_do_mg_per_l=inflow_do,
        aerators=(Aerator(name="aerator", sotr_kg_per_h=sotr),) if sotr else (),
        altitude_m=altitude,
        salinity_g_per_kg=salinity,
        plant_bed_m2=bed,
    )
    limits = UnitLimits(
        density_kg_per_m3=density,
        ph=ph,
        condition_factor=condition,
        crop=opt.choice("--crop", crop, get_args(Crop)),
    )
    load = unit_load(
        unit=unit,
        groups=(
            FishGroup(
                species_key=species,
                biomass_kg=opt.with_percent(biomass, biomass_error),
                mean_weight_g=mean_weight,
            ),
        ),
        temp_c=temp,
        limits=limits,
    )
    outlook = _outlook(
        unit,
        limits,
        (species, temp, days),
        ((mean_weight, opt.with_percent(biomass, biomass_error)), fingerling),
    )
    if as_json:
        write_record({"load": load, "outlook": outlook})
        return
    _write_stocking(load, outlook, fingerling)


def _write_stocking(
    load: "UnitLoad", outlook: "StockingOutlook", fingerling_g: float
) -> None:
    room = f"room for {number(load.room_kg)} kg more"
    if load.room_kg < 0.0:
        room = f"{number(-load.room_kg)} kg too much at the unsafe end"
    until = f"Until day {(outlook.days[-1].day - opt.DAY_ZERO).days}"
    if outlook.first_day_over is None:
        ahead = f"there is room for {outlook.fingerlings} fingerlings"
        ahead += f" of {fingerling_g:g} g"
    else:
        over = (outlook.first_day_over - opt.DAY_ZERO).days
        ahead = f"a limit may be passed from day {over} on: take out"
        ahead += f" {outlook.fish_to_take_out} fish"
    write_lines(
        (
            f"Density: {span(load.density_kg_per_m3)} kg/m³",
            *(
                f"  {limit.name}: {percent(limit.used_fraction.value)} used "
                f"(may be {percent(limit.used_fraction.high)}), carries "
                f"{span(limit.capacity_kg)} kg"
                for limit in load.limits
            ),
            f"Limited first by {load.limiting.name}; {room}",
            f"{until} {ahead}",
        ),
        problems=load.problems,
        cautions=load.cautions,
        notes=tuple(limit.note for limit in load.limits),
    )


def _outlook(
    unit: "RearingUnit",
    limits: "UnitLimits",
    water: tuple[str, float, int],
    fish: tuple[tuple[float, "Estimate"], float],
) -> "StockingOutlook":
    """Return the outlook of one group of fish that grows as the book says."""
    from fishmeasure.stock.growth import WeightSample, fit_growth, project_growth
    from fishmeasure.stock.propagation import exact, scaled
    from fishmeasure.stock.stocking import (
        StockedGroup,
        StockingQuestion,
        stocking_outlook,
    )
    from fishmeasure.stock.temperature import ConstantTemperature

    species, temp, days = water
    (mean_weight, biomass), fingerling = fish
    forecast = ConstantTemperature(temp_c=temp)

    def growing(weight_g: float) -> "GrowthProjection":
        sample = WeightSample(day=opt.DAY_ZERO, mean_weight_g=exact(weight_g))
        fit = fit_growth(samples=(sample,), temperature=forecast, species_key=species)
        return project_growth(fit=fit, temperature=forecast, days=days)

    return stocking_outlook(
        unit=unit,
        groups=(
            StockedGroup(
                fish_count=scaled(biomass, 1000.0 / mean_weight),
                projection=growing(mean_weight),
            ),
        ),
        question=StockingQuestion(
            start=opt.DAY_ZERO,
            until=opt.DAY_ZERO + timedelta(days=days),
            temperature=forecast,
            fingerlings=growing(fingerling),
        ),
        limits=limits,
    )
