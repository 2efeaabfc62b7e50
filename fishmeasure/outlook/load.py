"""Question 5: limits."""

import math
from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np

from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.state import UnitState
from fishmeasure.book.system import loops
from fishmeasure.husbandry.factors import FishGroup
from fishmeasure.husbandry.growth import DEVIATION_SPREAD, GrowthFit, as_tuples
from fishmeasure.husbandry.nitrogen import (
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
from fishmeasure.husbandry.projection import GrowthProjection, project_growth
from fishmeasure.husbandry.propagation import lognormal
from fishmeasure.husbandry.stocking import UnitLoad, unit_load
from fishmeasure.husbandry.stocking_ahead import (
    StockedGroup,
    StockingOutlook,
    StockingQuestion,
    stocking_outlook,
)
from fishmeasure.outlook.attempts import Attempts, Options
from fishmeasure.outlook.feed import Feeding
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.limit_basis import (
    TAN_RELATIVE_SD,
    limit_basis,
    protein_percent,
)
from fishmeasure.outlook.water import Water
from fishmeasure.species import farmed_species


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How near the unit is to its limits, now and ahead.

    Fingerlings are thought of as of the first cohort's species.

    ``room_known`` is False where nobody knows whether more fish could be borne; then
    none may be added.
    """

    load: UnitLoad
    ahead: StockingOutlook
    until: date
    fingerling_weight_g: float
    fingerling_species_key: str
    ammonia: AmmoniaReading | None
    nitrate: NitrateTrend | None
    bed: BedBalance | None
    room_known: bool = True
    notes: tuple[Message, ...] = ()


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
        tried.problems.append(Problem.of("load-incomplete", unit=state.unit.name))
    found = limit_basis(state, water, known, groups, feed, tried)
    fit = next(item.fish.growth for item in known if item.fish.growth)
    question = StockingQuestion(
        start=state.on,
        until=state.on + timedelta(days=options.stocking_days),
        temperature=state.temperature,
        fingerlings=_fingerlings(fit, state, options),
    )
    ahead = stocking_outlook(
        unit=state.unit,
        groups=_stocked(known),
        question=question,
        basis=found.basis,
    )
    load = unit_load(
        unit=state.unit,
        groups=groups,
        temperature_deg_c=water.temperature_deg_c,
        basis=found.basis,
    )
    if found.no_room:
        ahead = replace(ahead, fingerlings=0, fingerlings_kg=0.0)
        load = replace(load, room_kg=min(load.room_kg, 0.0))
    return Limits(
        load=load,
        ahead=ahead,
        until=question.until,
        fingerling_weight_g=options.fingerling_weight_g,
        fingerling_species_key=fit.species_key,
        ammonia=tried.get(lambda: _ammonia(state, water, known)),
        nitrate=tried.get(lambda: _nitrate(state, water, known, feed)),
        bed=_bed(state, feed),
        room_known=not found.no_room,
        notes=found.notes,
    )


def _stocked(cohorts: tuple[CohortOutlook, ...]) -> tuple[StockedGroup, ...]:
    """Return the fish whose growth is foretold."""
    return tuple(
        StockedGroup(fish_count=item.fish.fish_count, projection=item.projection)
        for item in cohorts
        if item.projection is not None
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


def _fingerlings(
    fit: GrowthFit, state: UnitState, options: Options
) -> GrowthProjection:
    """Return the growth of fingerlings of the same species, as published."""
    start = lognormal(options.fingerling_weight_g, 0.05)
    root, book = math.cbrt(start.value), fit.published_tgc_x1000
    young = replace(
        fit,
        samples_used=0,
        tgc_x1000=book,
        root_g=root,
        root_sd_g=start.sd / (3.0 * root**2),
        deviation_x1000=0.0,
        covariance=as_tuples(
            np.diag(
                [
                    (start.sd / (3.0 * root**2)) ** 2,
                    book.sd**2,
                    (DEVIATION_SPREAD * book.value) ** 2,
                    0.0,
                ]
            )
        ),
        mean_weight_g=start,
    )
    return project_growth(
        fit=young, temperature=state.temperature, days=options.stocking_days
    )


def _ammonia(
    state: UnitState, water: Water, cohorts: tuple[CohortOutlook, ...]
) -> AmmoniaReading | None:
    """Return the reading against the limit of the species that bears least."""
    if water.tan_mg_per_l is None or water.ph is None:
        return None
    return ammonia_reading(
        species_key=min(
            (item.cohort.species_key for item in cohorts),
            key=lambda key: (
                farmed_species(key).water.unionised_ammonia_n_act_mg_per_l.value
            ),
        ),
        own_limit_mg_per_l=state.unit.limits.max_unionised_ammonia_mg_per_l,
        tan_mg_per_l=lognormal(water.tan_mg_per_l, TAN_RELATIVE_SD),
        ph=water.ph,
        temperature_deg_c=water.temperature_deg_c,
        salinity_g_per_kg=state.unit.salinity_g_per_kg,
    )


def _nitrate(
    state: UnitState,
    water: Water,
    cohorts: tuple[CohortOutlook, ...],
    feed: Feeding | None,
) -> NitrateTrend | None:
    """Return nitrate ahead; the bed counts only where its water comes back.

    The limit is that of the species that bears least.
    """
    if feed is None or water.nitrate_n_mg_per_l is None:
        return None
    if "nitrate_n_mg_per_l" not in water.fresh:  # too old to begin a course with
        return None
    unit = state.unit
    protein = protein_percent(cohorts, feed)
    uptake = 0.0
    if loops(unit):
        uptake = plant_uptake_g_per_day(
            crop=unit.plant_bed_kind,
            bed_m2=unit.plant_bed_area_m2,
            protein_percent=protein,
        ).value
    return nitrate_trend(
        species_key=min(
            (item.cohort.species_key for item in cohorts),
            key=lambda key: farmed_species(key).water.nitrate_n_watch_mg_per_l.value,
        ),
        own_limit_mg_per_l=unit.limits.max_nitrate_n_mg_per_l,
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
