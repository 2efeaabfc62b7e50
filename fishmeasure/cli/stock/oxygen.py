"""Oxygen: demand against supply, and what happens when the power stops."""

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, get_args

import typer

from fishmeasure.base.errors import BadOptionError
from fishmeasure.base.words import Message, wording
from fishmeasure.cli.groups import grouped
from fishmeasure.cli.options import JsonTo
from fishmeasure.cli.output import data_only, write_bytes, write_lines
from fishmeasure.cli.stock import options as opt

if TYPE_CHECKING:
    from fishmeasure.base.estimate import Estimate
    from fishmeasure.husbandry.outage import OutageResult
    from fishmeasure.husbandry.unit import RearingUnit


@grouped
def oxygen_command(
    fish: opt.FishOptions,
    water: opt.UnitOptions,
    wind: opt.Wind = None,
    fasted: opt.Fasted = False,
    json_to: JsonTo = None,
) -> None:
    """Show the oxygen that the fish use beside what comes in, at the caution level."""
    from fishmeasure.husbandry import cautions
    from fishmeasure.husbandry.oxygen import oxygen_balance
    from fishmeasure.husbandry.temperature import feeding_problems

    balance = oxygen_balance(
        unit=water.unit(),
        species_key=fish.species,
        biomass_kg=fish.biomass_kg(),
        mean_weight_g=fish.mean_weight,
        temperature_deg_c=fish.temp,
        feeding="fasted" if fasted else "fed",
        wind_m_per_s=wind,
    )
    if data_only(json_to, balance):
        return
    kept = balance.do_mg_per_l
    write_lines(
        (
            wording("cli-saturation", full_mg_per_l=balance.saturation_mg_per_l),
            wording("cli-oxygen-use", use_g_per_h=balance.demand_g_per_h),
            *(
                "  "
                + wording("cli-oxygen-source", name=str(name), brings_g_per_h=figure)
                for name, figure in balance.supplies_g_per_h
            ),
            wording(
                "cli-oxygen-supply",
                kept_mg_per_l=kept,
                supply_g_per_h=balance.supply_g_per_h,
            ),
            _balance(balance.unsafe_balance_g_per_h),
            wording("cli-oxygen-settles", steady_mg_per_l=balance.steady_do_mg_per_l),
            wording("cli-oxygen-carries", most_kg=balance.max_biomass_kg),
        ),
        problems=(*balance.problems, *feeding_problems(fish.species, fish.temp)),
        cautions=(cautions.ESTIMATE, cautions.OXYGEN),
        notes=balance.notes,
    )


def _balance(unsafe_g_per_h: float) -> str:
    return wording(
        "cli-oxygen-balance",
        case="missing" if unsafe_g_per_h < 0.0 else "spare",
        balance_g_per_h=abs(unsafe_g_per_h),
    )


@grouped
def outage_command(
    fish: opt.FishOptions,
    water: opt.UnitOptions,
    oxygen: Annotated[float, typer.Option(help="help-oxygen")],
    inflow_by_gravity: Annotated[
        bool,
        typer.Option("--inflow-by-gravity", help="help-inflow-by-gravity"),
    ] = False,
    wind: opt.Wind = None,
    fasted: opt.Fasted = False,
    cause: Annotated[
        str,
        typer.Option(help="help-cause"),
    ] = "",
    backup_transfer: Annotated[float, typer.Option(help="help-backup-transfer")] = 0.0,
    backup_hours: Annotated[
        float | None, typer.Option(help="help-backup-hours")
    ] = None,
    hours: Annotated[float, typer.Option(help="help-outage-hours")] = 4.0,
    chart: Annotated[
        Path | None,
        typer.Option(help="help-chart"),
    ] = None,
    json_to: JsonTo = None,
) -> None:
    """Show how long oxygen lasts when something stops, and what buys time."""
    from fishmeasure.base.estimate import Estimate
    from fishmeasure.husbandry.outage import biomass_for_hours, outages
    from fishmeasure.husbandry.outage import outage as outage_
    from fishmeasure.husbandry.outage_fall import OutageCase, OutageCause

    backup = {
        "name": wording("device-name", case="backup-air"),
        "standard_transfer_g_per_h": backup_transfer,
        "backup_hours": backup_hours,
        "standby": True,
    }
    case = OutageCase(
        unit=water.unit(
            (backup,) if backup_transfer else (), inflow_by_gravity=inflow_by_gravity
        ),
        species_key=fish.species,
        biomass_kg=fish.biomass_kg(),
        mean_weight_g=fish.mean_weight,
        temperature_deg_c=fish.temp,
        start_do_mg_per_l=Estimate.normal(oxygen, 0.2),
        cause=opt.choice("--cause", cause or "power", get_args(OutageCause)),
        feeding="fasted" if fasted else "fed",
        wind_m_per_s=wind,
    )
    found = (outage_(case),) if cause else outages(case) or (outage_(case),)
    load = biomass_for_hours(found[0].case, hours=hours)
    if chart is not None:
        _write_chart(found[0], chart)
    answers = {
        "outage": found[0],
        "outages": found,
        "hours": hours,
        "biomass_for_hours_kg": load,
    }
    if data_only(json_to, answers):
        return
    _write_outages(found, hours, load)


def _write_chart(result: "OutageResult", target: Path) -> None:
    from fishmeasure.husbandry.outage_chart import outage_figure
    from fishmeasure.render.plots.canvas import plot_format_of

    drawn = BytesIO()
    plot_format = plot_format_of(target.name)
    if plot_format is None:
        wanted = Message.of("cli-wanted", case="picture")
        raise BadOptionError("--chart", target.name, wanted)
    outage_figure(result).savefig(drawn, format=plot_format)
    write_bytes(target, drawn.getvalue())


def _write_outages(
    found: "tuple[OutageResult, ...]", hours: float, load: "Estimate"
) -> None:
    from fishmeasure.husbandry.outage_words import measure_line, outage_lines

    worst = found[0]
    air, water = (
        worst.holding_air_standard_transfer_g_per_h,
        worst.holding_water_l_per_min,
    )
    write_lines(
        (
            *outage_lines(found),
            wording("cli-outage-measures", name=str(worst.name)),
            *(f"  {measure_line(measure)}" for measure in worst.measures),
            wording("cli-outage-held"),
            "  " + wording("cli-outage-air", air_g_per_h=air),
            "  " + wording("cli-outage-water", water_l_per_min=water),
            wording("cli-outage-load", hours=hours, load_kg=load),
        ),
        problems=worst.problems,
        cautions=worst.cautions,
        notes=(*_assumed(worst.case.unit), *worst.notes),
    )


def _assumed(unit: "RearingUnit") -> tuple[Message, ...]:
    if unit.inflow_l_per_min == 0.0 or unit.inflow_by_gravity:
        return ()
    return (Message.of("cli-taken-as-pumped"),)
