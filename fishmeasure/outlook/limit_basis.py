"""What a unit's limits are worked out from: its own, its water system, readings."""

from dataclasses import dataclass
from typing import Final

from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.state import UnitState
from fishmeasure.book.system import loops, system_note, water_system
from fishmeasure.husbandry.factors import FishGroup, LimitBasis
from fishmeasure.husbandry.measured_use import (
    DIFFERS_SD,
    CombinedUse,
    combine,
    measured_oxygen_g_per_h,
    measured_tan_g_per_day,
)
from fishmeasure.husbandry.nitrogen import (
    Nitrification,
    tan_g_per_day,
    tan_per_feed_g_per_kg,
)
from fishmeasure.husbandry.oxygen import oxygen_demand
from fishmeasure.husbandry.propagation import exact, lognormal, product
from fishmeasure.husbandry.sources import oxygen_is_entered, running
from fishmeasure.outlook.attempts import Attempts
from fishmeasure.outlook.feed import Feeding
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.water import Water
from fishmeasure.species import farmed_species

TAN_RELATIVE_SD: Final = 0.15  # of a drop test; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownBasis:
    """The limits, with what readings added to them.

    ``no_room`` says that nobody knows whether more fish could be borne.
    """

    basis: LimitBasis
    no_room: bool
    notes: tuple[Message, ...]


def limit_basis(
    state: UnitState,
    water: Water,
    cohorts: tuple[CohortOutlook, ...],
    groups: tuple[FishGroup, ...],
    feed: Feeding | None,
    tried: Attempts,
) -> KnownBasis:
    """Return what the unit's limits are worked out from; doubts go to ``tried``.

    Ammonia worked out from feed counts in water that flows through, and in a loop
    whose biofilter is known; elsewhere only what is read is judged. A plant bed takes
    nitrogen out and limits no fish. The flow index stands for the oxygen that new water
    alone brings, near saturation (Piper et al. 1982): with aerators, or where oxygen
    was read, the oxygen itself is known better.
    """
    unit = state.unit
    supplied = oxygen_is_entered(unit)
    through = water_system(unit) == "flow-through"
    read = _oxygen_read(state, water, groups)
    oxygen = oxygen_use(state, water, groups) or _at_most(state, water, read)
    tan = _tan_use(state, water, cohorts, feed) if through else None
    uses = [
        (what, use)
        for what, use in (("oxygen", oxygen), ("ammonia", tan))
        if use is not None
    ]
    tried.problems += [_differs(state, use, what) for what, use in uses if use.differs]
    no_room = _room_unknown(state, water, read if oxygen is None else None)
    if no_room is not None:
        tried.problems.append(no_room)
    basis = LimitBasis(
        own=unit.limits,
        ph=water.ph if (through and supplied) or _filter_known(state) else None,
        nitrification=_nitrification(state, cohorts, feed),
        with_oxygen=supplied,
        with_flow_index=through and oxygen is None and not unit.aeration,
        condition_factor=_condition_factor(cohorts),
        protein_percent=None if feed is None else feed.protein_percent,
        oxygen_use=None if oxygen is None else oxygen.factor,
        tan_use=None if tan is None else tan.factor,
    )
    # Without a supply of oxygen there would be no limit but the space: see ``outages``,
    # which asks for one.
    return KnownBasis(
        basis=basis,
        no_room=no_room is not None or not supplied,
        notes=(system_note(unit), *(_weighed_note(use, what) for what, use in uses)),
    )


def protein_percent(cohorts: tuple[CohortOutlook, ...], feed: Feeding | None) -> float:
    """Return the protein of the feed: as entered, or the richest of the species'."""
    if feed is not None and feed.protein_percent is not None:
        return feed.protein_percent
    return max(
        farmed_species(item.cohort.species_key).feed.protein_percent.value
        for item in cohorts
    )


def _condition_factor(cohorts: tuple[CohortOutlook, ...]) -> float | None:
    """Return that of the first fish that have one."""
    found = (item.fish.condition_factor for item in cohorts)
    return next((factor.value for factor in found if factor is not None), None)


def _room_unknown(
    state: UnitState, water: Water, unweighed: CombinedUse | None
) -> Problem | None:
    """Return why nobody knows whether more fish could be borne; None where one does.

    ``unweighed`` is a use by a reading that does not count in the limit. In a pond a
    reading also holds what plants, water and bottom make and use.
    """
    pond = water_system(state.unit) == "pond"
    short = unweighed is not None and unweighed.in_sd > DIFFERS_SD and not pond
    return _pond_use_unknown(state) or (
        _aerators_fall_short(state, water) if short else _filter_unknown(state, water)
    )


def _filter_unknown(state: UnitState, water: Water) -> Problem | None:
    """Return why a loop's room cannot be given; None where it can."""
    if not loops(state.unit):
        return None
    if _filter_known(state):
        return None if water.ph is not None else _ph_unknown(state)
    return Problem.of("biofilter-unknown", case="size", unit=state.unit.name)


def _ph_unknown(state: UnitState) -> Problem:
    return Problem.of("biofilter-unknown", case="ph", unit=state.unit.name)


def _pond_use_unknown(state: UnitState) -> Problem | None:
    """Return why an aerated pond's room cannot be given; None where it can."""
    unit = state.unit
    if water_system(unit) != "pond" or not oxygen_is_entered(unit):
        return None
    if unit.water_respiration_mg_per_l_h > 0.0:
        return None
    return Problem.of("pond-use-unknown", unit=unit.name)


def _aerators_fall_short(state: UnitState, water: Water) -> Problem:
    read = water.do_mg_per_l
    return Problem.of(
        "aeration-short",
        unit=state.unit.name,
        read_mg_per_l=read.value if read else 0.0,
    )


def oxygen_use(
    state: UnitState, water: Water, groups: tuple[FishGroup, ...]
) -> CombinedUse | None:
    """Return the oxygen of the fish as modelled and as the reading has it.

    None without a reading or an inflow, where an old reading would add room, and with
    aerators: whether they ran, and what they bring in this water, is known less well
    than what the fish use.
    """
    if running(state.unit):
        return None
    return _may_only_warn(_oxygen_read(state, water, groups), "do_mg_per_l", water)


def _at_most(
    state: UnitState, water: Water, read: CombinedUse | None
) -> CombinedUse | None:
    """Return the use by a reading with aerators, where that is less than the model's.

    Whether all of them ran is not known, so by the reading the fish use at most what
    inflow and aerators bring at that oxygen: it can lower the model's figure, not raise
    it. Not in ponds, where plants make oxygen by day, nor by an old reading.
    """
    if read is None or water_system(state.unit) == "pond":
        return None
    fresh = "do_mg_per_l" in water.fresh
    return read if fresh and read.factor.value < 1.0 else None


def _may_only_warn(
    use: CombinedUse | None, name: str, water: Water
) -> CombinedUse | None:
    """Return a use by a reading, None where it is old and would add room."""
    if use is None or name in water.fresh or use.factor.value >= 1.0:
        return use
    return None


def _oxygen_read(
    state: UnitState, water: Water, groups: tuple[FishGroup, ...]
) -> CombinedUse | None:
    """Return both figures, aerators taken to run as entered."""
    if water.do_mg_per_l is None or not groups:
        return None
    parts = [
        product(
            group.biomass_kg,
            oxygen_demand(
                species_key=group.species_key,
                mean_weight_g=group.mean_weight_g,
                temperature_deg_c=water.temperature_deg_c,
            ).rate_mg_per_kg_h,
            scale=1e-3,
        )
        for group in groups
    ]
    modelled = sum(part.value for part in parts)
    if modelled <= 0.0:
        return None
    # The rates of all groups err together.
    spread = sum(part.sd for part in parts) / modelled
    return combine(
        lognormal(modelled, spread),
        measured_oxygen_g_per_h(
            unit=state.unit,
            temperature_deg_c=water.temperature_deg_c,
            do_mg_per_l=water.do_mg_per_l,
        ),
    )


def _tan_use(
    state: UnitState,
    water: Water,
    cohorts: tuple[CohortOutlook, ...],
    feed: Feeding | None,
) -> CombinedUse | None:
    """Return the ammonia of the feed that was given, modelled and read."""
    if water.tan_mg_per_l is None or feed is None or feed.given_week_kg <= 0.0:
        return None
    use = combine(
        tan_g_per_day(
            feed_kg_per_day=exact(feed.given_week_kg / 7.0),
            protein_percent=protein_percent(cohorts, feed),
        ),
        measured_tan_g_per_day(
            exchange_m3_per_day=state.unit.inflow_l_per_min * 1.44,
            tan_mg_per_l=lognormal(water.tan_mg_per_l, TAN_RELATIVE_SD),
        ),
    )
    return _may_only_warn(use, "tan_mg_per_l", water)


def _filter_known(state: UnitState) -> bool:
    return loops(state.unit) and state.unit.biofilter_feed_kg_per_day is not None


def _nitrification(
    state: UnitState, cohorts: tuple[CohortOutlook, ...], feed: Feeding | None
) -> Nitrification | None:
    """Return what the filter takes out: the ammonia of the feed it was sized for."""
    sized_for_kg = state.unit.biofilter_feed_kg_per_day
    if sized_for_kg is None or not loops(state.unit):
        return None
    each = tan_per_feed_g_per_kg(protein_percent=protein_percent(cohorts, feed))
    return Nitrification(removal_g_per_day=sized_for_kg * each.value)


def _weighed_note(use: CombinedUse, what: str) -> Message:
    return Message.of(
        "note-weighed-use",
        case="oxygen" if what == "oxygen" else "ammonia",
        modelled=use.modelled,
        measured=use.measured,
        weighed=use.combined,
    )


def _differs(state: UnitState, use: CombinedUse, what: str) -> Problem:
    return Problem.of(
        "oxygen-use-differs" if what == "oxygen" else "ammonia-use-differs",
        unit=state.unit.name,
        measured=use.measured,
        modelled=use.modelled,
    )
