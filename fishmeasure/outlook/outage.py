"""Question 6: what happens when something stops."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.state import UnitState
from fishmeasure.husbandry.factors import FishGroup
from fishmeasure.husbandry.outage import OutageResult, biomass_for_hours
from fishmeasure.husbandry.outage import outages as outages_of
from fishmeasure.husbandry.outage_fall import OutageCase
from fishmeasure.husbandry.oxygen import oxygen_balance, oxygen_demand
from fishmeasure.husbandry.sources import oxygen_is_entered, transfer_of
from fishmeasure.outlook.attempts import Attempts, Options
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.limit_basis import oxygen_use
from fishmeasure.outlook.load import fish_groups
from fishmeasure.outlook.water import WORKED_OUT, Water


@dataclass(frozen=True, slots=True, kw_only=True)
class Outages:
    """Each thing that may stop, the soonest critical first.

    ``hours_biomass_kg`` is the load that would have given ``hours`` until the
    critical level in the first of them. ``inflow_taken_as_pumped`` says that new
    water was taken to stop with the power.
    """

    results: tuple[OutageResult, ...]
    hours: float
    hours_biomass_kg: Annotated[
        Estimate, Field(description="Fish with which `hours` would be left, kg.")
    ]
    start_from: Message
    inflow_taken_as_pumped: Annotated[
        bool,
        Field(
            description="Whether new water was taken to stop with the power, as it "
            "does where `inflow_by_gravity` of the unit was not said."
        ),
    ]

    @property
    def worst(self) -> OutageResult:
        """The one that leaves the least time."""
        return self.results[0]


def outages(
    cohorts: tuple[CohortOutlook, ...],
    state: UnitState,
    water: Water,
    options: Options,
    tried: Attempts,
) -> Outages | None:
    """Return what happens when anything that the unit has stops tonight.

    Where several cohorts share the water, all fish are taken to need as much as
    those that need most per kilogram: the safe side. None where nothing is entered
    that brings oxygen.
    """
    groups = fish_groups(cohorts)
    if not groups or state.biomass_kg is None:
        return None
    if not oxygen_is_entered(state.unit):
        tried.problems.append(Problem.of("no-oxygen-supply", unit=state.unit.name))
        return None
    for device in state.unit.aeration:
        if transfer_of(device).g_per_h <= 0.0:
            tried.problems.append(
                Problem.of("aerator-unknown", device=device.name, unit=state.unit.name)
            )
    needing = max(groups, key=lambda group: _need(group, water.temperature_deg_c))
    read = oxygen_use(state, water, groups)
    balance = oxygen_balance(
        unit=state.unit,
        species_key=needing.species_key,
        biomass_kg=state.biomass_kg,
        mean_weight_g=needing.mean_weight_g,
        temperature_deg_c=water.temperature_deg_c,
    ).steady_do_mg_per_l
    start, start_from = _start(water, balance)
    case = OutageCase(
        unit=state.unit,
        species_key=needing.species_key,
        biomass_kg=state.biomass_kg,
        mean_weight_g=needing.mean_weight_g,
        temperature_deg_c=water.temperature_deg_c,
        start_do_mg_per_l=start,
        caution_mg_per_l=state.unit.limits.min_do_mg_per_l,
        critical_mg_per_l=state.unit.limits.critical_do_mg_per_l,
        oxygen_use=None if read is None else read.factor,
    )
    results = outages_of(case)
    return Outages(
        results=results,
        hours=options.hours,
        hours_biomass_kg=biomass_for_hours(results[0].case, hours=options.hours),
        start_from=start_from,
        inflow_taken_as_pumped=_pumped_inflow(state),
    )


def _start(water: Water, balance: Estimate) -> tuple[Estimate, Message]:
    """Return the oxygen to begin from, the lower of reading and balance, and which.

    A reading of noon, or one of some days ago, may be higher than tonight's oxygen.
    """
    read, from_read = water.do_mg_per_l, water.do_from
    if read is None:
        return balance, WORKED_OUT
    if balance.value < read.value:
        return balance, Message.of(
            "figure-from",
            case="lower-than-read",
            other_mg_per_l=read.value,
            read=from_read,
        )
    return read, Message.of(
        "figure-from", case="read", other_mg_per_l=balance.value, read=from_read
    )


def _need(group: FishGroup, temperature_deg_c: float) -> float:
    demand = oxygen_demand(
        species_key=group.species_key,
        mean_weight_g=group.mean_weight_g,
        temperature_deg_c=temperature_deg_c,
    )
    return demand.rate_mg_per_kg_h.value


def _pumped_inflow(state: UnitState) -> bool:
    return state.unit.inflow_l_per_min > 0.0 and not state.unit.inflow_by_gravity
