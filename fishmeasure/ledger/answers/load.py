"""Question 5: limits."""

import math
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from fishmeasure.ledger.answers.ask import Attempts, Options
from fishmeasure.ledger.answers.feed import Feeding
from fishmeasure.ledger.answers.fish import CohortOutlook
from fishmeasure.ledger.answers.water import Water
from fishmeasure.ledger.rearing import oxygen_is_entered, rearing_unit
from fishmeasure.ledger.state import UnitState
from fishmeasure.stock.factors import FishGroup, UnitLimits
from fishmeasure.stock.figures import load_stock_figures
from fishmeasure.stock.growth import GrowthFit
from fishmeasure.stock.nitrogen import (
    AmmoniaReading,
    BedBalance,
    NitrateTrend,
    NitrogenLoop,
    ammonia_reading,
    bed_balance,
    nitrate_trend,
    plant_uptake_g_per_day,
    tan_g_per_day,
)
from fishmeasure.stock.projection import GrowthProjection, project_growth
from fishmeasure.stock.propagation import lognormal
from fishmeasure.stock.stocking import UnitLoad, unit_load
from fishmeasure.stock.stocking_ahead import (
    StockedGroup,
    StockingOutlook,
    StockingQuestion,
    stocking_outlook,
)

TAN_RELATIVE_SD: Final = 0.15  # of a drop test; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How near the unit is to its limits, now and ahead."""

    load: UnitLoad
    ahead: StockingOutlook
    until: date
    fingerling_weight_g: float
    ammonia: AmmoniaReading | None
    nitrate: NitrateTrend | None
    bed: BedBalance | None


def limits(
    cohorts: tuple[CohortOutlook, ...],
    state: UnitState,
    water: Water,
    feed: Feeding | None,
    options: Options,
    tried: Attempts,
) -> Limits | None:
    """Return the limits; None where no fish of known weight are there."""
    known = tuple(
        item
        for item in cohorts
        if item.projection is not None and item.fish.fish_count.value > 0.0
    )
    groups = fish_groups(known)
    if not groups:
        return None
    if state.biomass_kg is None:
        tried.say(
            "load-incomplete",
            f"Fish of unknown weight in {state.unit.name} are left out of feed and "
            "limits, which are nearer than shown. Take a net sample.",
        )
    unit = rearing_unit(state.unit)
    held = _unit_limits(state, water, known)
    until = state.on + timedelta(days=options.stocking_days)
    projections = tuple(item.projection for item in known if item.projection)
    fits = tuple(item.fish.growth for item in known if item.fish.growth)
    question = StockingQuestion(
        start=state.on,
        until=until,
        temperature=state.temperature,
        fingerlings=_fingerlings(fits[0], state, options),
    )
    ahead = stocking_outlook(
        unit=unit,
        groups=tuple(
            StockedGroup(fish_count=item.fish.fish_count, projection=projection)
            for item, projection in zip(known, projections, strict=True)
        ),
        question=question,
        limits=held,
    )
    load = unit_load(unit=unit, groups=groups, temp_c=water.temp_c, limits=held)
    tried.problems.extend(load.problems)
    species = known[0].cohort.species_key
    return Limits(
        load=load,
        ahead=ahead,
        until=until,
        fingerling_weight_g=options.fingerling_weight_g,
        ammonia=tried.get(lambda: _ammonia(state, water, species)),
        nitrate=tried.get(lambda: _nitrate(state, water, species, feed)),
        bed=_bed(state, feed),
    )


def fish_groups(cohorts: tuple[CohortOutlook, ...]) -> tuple[FishGroup, ...]:
    """Return the fish whose weight is known, for the calculations."""
    return tuple(
        FishGroup(
            species_key=item.cohort.species_key,
            biomass_kg=item.fish.biomass_kg,
            mean_weight_g=item.fish.mean_weight_g.value,
        )
        for item in cohorts
        if item.fish.biomass_kg is not None
        and item.fish.mean_weight_g is not None
        and item.fish.biomass_kg.value > 0.0
    )


def _unit_limits(
    state: UnitState, water: Water, cohorts: tuple[CohortOutlook, ...]
) -> UnitLimits:
    own = state.unit.limits
    supplied = oxygen_is_entered(state.unit)
    has_bed = state.unit.plant_bed_area_m2 > 0.0
    return UnitLimits(
        density_kg_per_m3=own.max_density_kg_per_m3,
        do_mg_per_l=own.min_do_mg_per_l,
        ph=water.ph if supplied else None,  # ammonia leaves with the same water
        with_oxygen=supplied,
        condition_factor=next(
            (
                item.fish.condition_factor.value
                for item in cohorts
                if item.fish.condition_factor is not None
            ),
            None,
        ),
        crop=state.unit.plant_bed_kind if has_bed else None,
    )


def _fingerlings(
    fit: GrowthFit, state: UnitState, options: Options
) -> GrowthProjection:
    """Return the growth of fingerlings of the same species by the book."""
    book = fit.book_tgc_x1000
    start = lognormal(options.fingerling_weight_g, 0.05)
    root = math.cbrt(start.value)
    young = replace(
        fit,
        samples_used=0,
        tgc_x1000=book,
        root_g=root,
        root_sd_g=start.sd / (3.0 * root**2),
        root_tgc_covariance=0.0,
        mean_weight_g=start,
    )
    return project_growth(
        fit=young, temperature=state.temperature, days=options.stocking_days
    )


def _ammonia(state: UnitState, water: Water, species_key: str) -> AmmoniaReading | None:
    if water.tan_mg_per_l is None or water.ph is None:
        return None
    return ammonia_reading(
        species_key=species_key,
        tan_mg_per_l=lognormal(water.tan_mg_per_l, TAN_RELATIVE_SD),
        ph=water.ph,
        temp_c=water.temp_c,
        salinity_g_per_kg=state.unit.salinity_g_per_kg,
    )


def _nitrate(
    state: UnitState, water: Water, species_key: str, feed: Feeding | None
) -> NitrateTrend | None:
    """Return nitrate ahead; the bed counts only where its water comes back."""
    if feed is None or water.nitrate_n_mg_per_l is None:
        return None
    unit = state.unit
    protein = load_stock_figures(species_key).feed.protein_percent.value
    uptake = 0.0
    if unit.recirculated_l_per_min > 0.0:
        uptake = plant_uptake_g_per_day(
            crop=unit.plant_bed_kind,
            bed_m2=unit.plant_bed_area_m2,
            protein_percent=protein,
        ).value
    return nitrate_trend(
        species_key=species_key,
        loop=NitrogenLoop(
            volume_m3=unit.volume_m3,
            exchange_m3_per_day=unit.inflow_l_per_min * 1.44,
            plant_uptake_g_per_day=uptake,
        ),
        start_n_mg_per_l=water.nitrate_n_mg_per_l,
        nitrogen_g_per_day=tan_g_per_day(
            feed_kg_per_day=feed.today_kg, protein_percent=protein
        ),
        days=60,
    )


def _bed(state: UnitState, feed: Feeding | None) -> BedBalance | None:
    if feed is None or state.unit.plant_bed_area_m2 == 0.0:
        return None
    return bed_balance(
        crop=state.unit.plant_bed_kind,
        feed_kg_per_day=feed.today_kg,
        bed_m2=state.unit.plant_bed_area_m2,
    )
