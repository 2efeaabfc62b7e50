"""The stocking calculations without a book: growth, feed, oxygen and the rest.

``from __future__ import annotations`` is left out: typer reads the annotations.
"""

from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, get_args

import typer

from fishmeasure.cli import stock_options as opt
from fishmeasure.cli.stock_output import number, span, write_json, write_lines

if TYPE_CHECKING:
    from fishmeasure.stock.growth import GrowthProjection
    from fishmeasure.stock.outage import OutageResult, TimeToLevel
    from fishmeasure.stock.stocking import StockingOutlook, UnitLimits
    from fishmeasure.stock.unit import RearingUnit
    from fishmeasure.uncertainty import Estimate

_DAY_ZERO = date(2000, 1, 1)  # any day: the temperature given is the same on all


def register(app: typer.Typer) -> None:
    """Add the commands of this module to the program."""
    for name, command in (
        ("growth", growth_command),
        ("harvest", harvest_command),
        ("feed", feed_command),
        ("conversion", conversion_command),
        ("oxygen", oxygen_command),
        ("outage", outage_command),
        ("ammonia", ammonia_command),
        ("nitrate", nitrate_command),
        ("plant-bed", plant_bed_command),
        ("stocking", stocking_command),
    ):
        app.command(name)(command)


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
    from fishmeasure.stock.growth import (
        fit_growth,
        project_growth,
        specific_growth_rate,
    )
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
        write_json({"fit": fit, "dates": dates, "projection": ahead})
        return

    first, last = samples[0], samples[-1]
    rates = []
    if last.day > first.day:
        sgr = specific_growth_rate(
            start_weight_g=first.mean_weight_g,
            end_weight_g=last.mean_weight_g,
            days=(last.day - first.day).days,
        )
        rates.append(f"Specific growth rate, first to last sample: {span(sgr)} %/day")

    def when(found: DateEstimate) -> str:
        if found.day is None:
            return f"after {ahead.start + timedelta(days=days)}"
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
            *rates,
            f"Mean weight on {fit.last_day}: {span(fit.mean_weight_g)} g",
            *course,
            f"At {dates.size_g:g} g: first (5 %) {when(dates.first)}",
            f"  half {when(dates.half)}",
            f"  nearly all (95 %) {when(dates.nearly_all)}",
        ),
        problems=ahead.problems,
        notes=notes,
    )


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
    from fishmeasure.stock.propagation import exact

    water = opt.read_forecast(temp, monthly, wave)
    takes = opt.read_takes(take)
    fit = fit_growth(
        samples=opt.read_samples(sample), temperature=water, species_key=species
    )
    last = max(day for day, _ in takes)
    ahead = project_growth(
        fit=fit, temperature=water, days=max((last - fit.last_day).days, 0)
    )
    plan = harvest_plan(
        projection=ahead,
        fish_count=opt.with_percent(count, count_error),
        cv=exact(cv),
        takes=takes,
    )
    if as_json:
        write_json(plan)
        return
    lines = [
        f"{h.day}: {h.taken_count} fish above {number(h.smallest_taken_g)} g, "
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
    from fishmeasure.stock.propagation import exact
    from fishmeasure.stock.temperature import ConstantTemperature

    water = ConstantTemperature(temp_c=temp)
    fit = fit_growth(
        samples=(WeightSample(day=_DAY_ZERO, mean_weight_g=exact(mean_weight)),),
        temperature=water,
        species_key=species,
    )
    plan = feed_plan(
        projection=project_growth(fit=fit, temperature=water, days=days),
        fish_count=opt.with_percent(biomass * 1000.0 / mean_weight, biomass_error),
        temperature=water,
        start=_DAY_ZERO,
        days=days,
    )
    if as_json:
        write_json(plan)
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
        write_json(found)
        return
    write_lines(
        (
            f"Biological feed conversion: {span(found.biological)}",
            f"Economic feed conversion: {span(found.economic)}",
            f"Gain: {span(found.gain_kg)} kg",
        ),
        notes=found.notes,
    )


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
        write_json(balance)
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
        from fishmeasure.stock.outage_chart import outage_figure

        outage_figure(result).savefig(chart)
    if as_json:
        write_json({"outage": result, "hours": hours, "biomass_for_hours_kg": load})
        return
    _write_outage(result, hours, load)


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

    found = ammonia_reading(
        species_key=species,
        tan_mg_per_l=opt.with_percent(tan, tan_error),
        ph=ph,
        temp_c=temp,
        salinity_g_per_kg=salinity,
    )
    if as_json:
        write_json(found)
        return
    write_lines(
        (
            f"Un-ionised share: {100.0 * found.unionised_fraction:.2f} %",
            f"Un-ionised ammonia nitrogen: {span(found.unionised_n_mg_per_l, 2)} mg/L",
            f"Of the limit: {span(found.limit_used_fraction, 2)}",
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
        write_json(trend)
        return
    when = "later or never"
    if trend.days_to_limit is not None:
        when = f"in {trend.days_to_limit} days"
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
            f"The limit of {trend.limit_n_mg_per_l:g} mg/L may be passed {when}",
        ),
        notes=trend.notes,
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
        write_json(found)
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
        write_json({"load": load, "outlook": outlook})
        return
    ahead = (
        f"Until day {days} a limit may be passed from day "
        f"{(outlook.first_day_over - _DAY_ZERO).days}: take out "
        f"{outlook.fish_to_take_out} fish"
        if outlook.first_day_over
        else f"Until day {days} there is room for {outlook.fingerlings} fingerlings "
        f"of {fingerling:g} g"
    )
    write_lines(
        (
            f"Density: {span(load.density_kg_per_m3)} kg/m³",
            *(
                f"  {limit.name}: {100.0 * limit.used_fraction.value:.0f} % used "
                f"(up to {100.0 * limit.used_fraction.high:.0f} %), carries "
                f"{span(limit.capacity_kg)} kg"
                for limit in load.limits
            ),
            f"Limited first by {load.limiting.name}; room {number(load.room_kg)} kg",
            ahead,
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
        sample = WeightSample(day=_DAY_ZERO, mean_weight_g=exact(weight_g))
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
            start=_DAY_ZERO,
            until=_DAY_ZERO + timedelta(days=days),
            temperature=forecast,
            fingerlings=growing(fingerling),
        ),
        limits=limits,
    )
