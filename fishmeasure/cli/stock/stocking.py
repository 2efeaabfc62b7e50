"""How full a unit is by each limit, and what may be added or must go."""

from datetime import timedelta
from typing import TYPE_CHECKING, Annotated

import typer

from fishmeasure.base.words import share_used, wording
from fishmeasure.cli.groups import grouped
from fishmeasure.cli.options import JsonTo
from fishmeasure.cli.output import data_only, write_lines
from fishmeasure.cli.stock import options as opt

if TYPE_CHECKING:
    from fishmeasure.husbandry.factors import LimitBasis
    from fishmeasure.husbandry.projection import GrowthProjection
    from fishmeasure.husbandry.stocking import UnitLoad
    from fishmeasure.husbandry.stocking_ahead import StockingOutlook
    from fishmeasure.husbandry.unit import RearingUnit


@grouped
def stocking_command(
    fish: opt.FishOptions,
    water: opt.UnitOptions,
    ph: Annotated[float | None, typer.Option(help="help-stocking-ph")] = None,
    density: Annotated[
        float | None,
        typer.Option(help="help-density"),
    ] = None,
    condition: Annotated[
        float | None,
        typer.Option(help="help-condition"),
    ] = None,
    days: Annotated[int, typer.Option(help="help-stocking-days")] = 60,
    fingerling: Annotated[float, typer.Option(help="help-fingerlings")] = 10.0,
    json_to: JsonTo = None,
) -> None:
    """Show how near each limit is, the room left, or how many fish must go."""
    from fishmeasure.husbandry.factors import FishGroup, LimitBasis
    from fishmeasure.husbandry.stocking import unit_load

    unit = water.unit()
    basis = LimitBasis(
        own=opt.own_limits(density),
        ph=ph,
        condition_factor=condition,
    )
    group = FishGroup(
        species_key=fish.species,
        biomass_kg=fish.biomass_kg(),
        mean_weight_g=fish.mean_weight,
    )
    load = unit_load(
        unit=unit, groups=(group,), temperature_deg_c=fish.temp, basis=basis
    )
    outlook = _outlook(unit, basis, fish, days=days, fingerling_g=fingerling)
    if data_only(json_to, {"load": load, "outlook": outlook}):
        return
    _write_stocking(load, outlook, fingerling)


def _write_stocking(
    load: "UnitLoad", outlook: "StockingOutlook", fingerling_g: float
) -> None:
    days = (outlook.days[-1].day - opt.DAY_ZERO).days
    if outlook.first_day_over is None:
        ahead = wording(
            "cli-room-ahead",
            days=days,
            fish=outlook.fingerlings,
            weight_g=fingerling_g,
        )
    else:
        over = (outlook.first_day_over - opt.DAY_ZERO).days
        ahead = wording(
            "cli-over-ahead",
            case="later" if over else "now",
            over_days=over,
            fish=outlook.fish_to_take_out,
            days=days,
        )
    write_lines(
        (
            wording("cli-density", density_kg_per_m3=load.density_kg_per_m3),
            *(
                "  "
                + wording(
                    "cli-limit",
                    name=limit.name,
                    used=share_used(limit.used_fraction),
                    capacity_kg=limit.capacity_kg,
                )
                for limit in load.limits
            ),
            wording(
                "cli-limiting",
                case="over" if load.room_kg < 0.0 else "room",
                name=load.limiting.name,
                room_kg=abs(load.room_kg),
            ),
            ahead,
        ),
        problems=load.problems,
        cautions=load.cautions,
        notes=tuple(limit.note for limit in load.limits),
    )


def _outlook(
    unit: "RearingUnit",
    basis: "LimitBasis",
    fish: opt.FishOptions,
    *,
    days: int,
    fingerling_g: float,
) -> "StockingOutlook":
    """Return the outlook of one group of fish that grows as the book says."""
    from fishmeasure.husbandry.growth import WeightSample, fit_growth
    from fishmeasure.husbandry.projection import project_growth
    from fishmeasure.husbandry.propagation import exact
    from fishmeasure.husbandry.stocking_ahead import (
        StockedGroup,
        StockingQuestion,
        stocking_outlook,
    )
    from fishmeasure.husbandry.temperature import ConstantTemperature

    forecast = ConstantTemperature(temperature_deg_c=fish.temp)

    def growing(weight_g: float) -> "GrowthProjection":
        sample = WeightSample(day=opt.DAY_ZERO, mean_weight_g=exact(weight_g))
        fit = fit_growth(
            samples=(sample,), temperature=forecast, species_key=fish.species
        )
        return project_growth(fit=fit, temperature=forecast, days=days)

    stocked = StockedGroup(
        fish_count=fish.count(), projection=growing(fish.mean_weight)
    )
    return stocking_outlook(
        unit=unit,
        groups=(stocked,),
        question=StockingQuestion(
            start=opt.DAY_ZERO,
            until=opt.DAY_ZERO + timedelta(days=days),
            temperature=forecast,
            fingerlings=growing(fingerling_g),
        ),
        basis=basis,
    )
