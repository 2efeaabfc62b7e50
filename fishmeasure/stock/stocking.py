"""Stocking: how near a unit is to each limit, the room left, when fish must go.

Every limit is drawn up as used over capacity, with the capacity at the water of
that day; 1 is full. Decisions go by the upper end.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from fishmeasure.flags import Problem
from fishmeasure.stock import cautions
from fishmeasure.stock.checks import require
from fishmeasure.stock.feed import ration
from fishmeasure.stock.figures import load_stock_figures
from fishmeasure.stock.growth import GrowthProjection
from fishmeasure.stock.nitrogen import (
    TAN_NOTE,
    Crop,
    Nitrification,
    feed_for_ammonia_kg_per_day,
    feed_per_bed_g_per_m2_day,
)
from fishmeasure.stock.oxygen import oxygen_demand, unit_supplies
from fishmeasure.stock.propagation import (
    exact,
    lognormal,
    product,
    relative_sd,
    total,
)
from fishmeasure.stock.temperature import TemperatureForecast
from fishmeasure.stock.unit import RearingUnit
from fishmeasure.uncertainty import Estimate
from fishmeasure.words import percent

LimitName = Literal[
    "density", "density index", "flow index", "oxygen", "ammonia", "plant bed"
]

LB_PER_KG = 2.2046226
KG_PER_M3_PER_LB_PER_FT3 = 16.018463
L_PER_GALLON = 3.785412
DENSITY_INDEX_LIMIT = 0.5  # lb/ft3 per inch, Piper et al. 1982 (SRAC 222: 0.5-1.0)
FLOW_INDEX_LIMIT = 1.5  # lb/(in gpm) at 50 °F, Piper p. 70; SRAC 222: 0.5-1.0


# --- indices ------------------------------------------------------------------


def density_index(
    *, biomass_kg: float, volume_m3: float, fork_length_mm: float
) -> float:
    """Return lb/ft3 per inch of length (Piper et al. 1982)."""
    require("water volume", volume_m3, "m³", 0.01)
    require("length", fork_length_mm, "mm", 1.0)
    return biomass_kg / volume_m3 / KG_PER_M3_PER_LB_PER_FT3 / (fork_length_mm / 25.4)


def flow_index(
    *, biomass_kg: float, inflow_l_per_min: float, fork_length_mm: float
) -> float:
    """Return lb per inch of length and gallon (US) a minute (Piper et al. 1982)."""
    require("inflow", inflow_l_per_min, "L/min", 0.01)
    require("length", fork_length_mm, "mm", 1.0)
    gallons = inflow_l_per_min / L_PER_GALLON
    return biomass_kg * LB_PER_KG / (fork_length_mm / 25.4) / gallons


def flow_index_at_inflow(
    *,
    flow_index_: float,
    from_mg_per_l: float,
    to_mg_per_l: float,
    floor_mg_per_l: float,
) -> float:
    """Return a permitted flow index after the inflow's oxygen has changed.

    In proportion to the oxygen above the floor (Piper et al. 1982 p. 70: 11 to 8
    mg/L with a floor of 5 halves it).
    """
    require("oxygen of the inflow", from_mg_per_l, "mg/L", floor_mg_per_l + 1e-6)
    return (
        flow_index_
        * max(to_mg_per_l - floor_mg_per_l, 0.0)
        / (from_mg_per_l - floor_mg_per_l)
    )


# --- limits now ---------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class FishGroup:
    """Fish of one species and about one size in a unit."""

    species_key: str
    biomass_kg: Estimate
    mean_weight_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitLimits:
    """What the unit is held against.

    Attributes
    ----------
    density_kg_per_m3
        None takes the strictest of the species' figures.
    ph
        None leaves ammonia out.
    condition_factor
        K, to turn weights into lengths for the two indices; None leaves them out.
    crop
        With a plant bed; None leaves the bed out.
    protein_percent
        None takes the species' figure.
    """

    density_kg_per_m3: float | None = None
    do_mg_per_l: float | None = None
    ph: float | None = None
    nitrification: Nitrification | None = None
    condition_factor: float | None = None
    crop: Crop | None = None
    protein_percent: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One limit of a unit.

    Attributes
    ----------
    used_fraction
        1 is full.
    capacity_kg
        Fish of the present kind at the limit.
    """

    name: LimitName
    used_fraction: Estimate
    capacity_kg: Estimate
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitLoad:
    """All limits of a unit, the fullest first (upper end)."""

    biomass_kg: Estimate
    density_kg_per_m3: Estimate
    limits: tuple[Limit, ...]
    room_kg: float
    problems: tuple[Problem, ...] = ()
    cautions: tuple[str, ...] = cautions.STOCKING

    @property
    def limiting(self) -> Limit:
        """Return the limit that is reached first."""
        return self.limits[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Factor:
    """A capacity and what a kilogram of a group's fish uses of it."""

    name: LimitName
    capacity: Estimate
    use_per_kg: Callable[[FishGroup], Estimate]
    note: str


def _fork_length_mm(mean_weight_g: float, condition_factor: float) -> float:
    return 10.0 * math.cbrt(100.0 * mean_weight_g / condition_factor)


def _index_factors(unit: RearingUnit, condition_factor: float) -> tuple[_Factor, ...]:
    require("condition factor", condition_factor, "", 0.3, 4.0)

    def per_kg(group: FishGroup) -> Estimate:
        length = _fork_length_mm(group.mean_weight_g, condition_factor) / 25.4
        return lognormal(1.0 / length, 0.03)  # 10 % of condition is 3 % of length

    density = _Factor(
        name="density index",
        capacity=lognormal(
            DENSITY_INDEX_LIMIT * KG_PER_M3_PER_LB_PER_FT3 * unit.volume_m3, 0.0
        ),
        use_per_kg=per_kg,
        note="Density index 0.5 lb/ft3 per inch: Piper et al. 1982; SRAC 222 to 1.0.",
    )
    if unit.inflow_l_per_min == 0.0:
        return (density,)
    gallons = unit.inflow_l_per_min / L_PER_GALLON
    flow = _Factor(
        name="flow index",
        capacity=lognormal(FLOW_INDEX_LIMIT * gallons / LB_PER_KG, 0.05),
        use_per_kg=per_kg,
        note=(
            "Flow index 1.5 lb/(in gpm) at 10 °C: Piper et al. 1982; SRAC 222 gives "
            "0.5-1.0. Oxygen, drawn up apart, is the better guide."
        ),
    )
    return (density, flow)


def _oxygen_factor(
    unit: RearingUnit, limits: UnitLimits, species: tuple[str, ...], temp_c: float
) -> _Factor:
    kept = limits.do_mg_per_l
    if kept is None:
        kept = max(
            load_stock_figures(key).oxygen.caution_mg_per_l.value for key in species
        )
    supply = total(*(s.at_g_per_h(kept) for s in unit_supplies(unit, temp_c)))
    water_use = unit.water_respiration_mg_per_l_h * unit.volume_m3
    for_fish = max(supply.value - water_use, 0.0)

    def per_kg(group: FishGroup) -> Estimate:
        rate = oxygen_demand(
            species_key=group.species_key,
            mean_weight_g=group.mean_weight_g,
            temp_c=temp_c,
        ).rate_mg_per_kg_h
        return product(rate, scale=1e-3)

    return _Factor(
        name="oxygen",
        capacity=lognormal(for_fish, supply.sd / for_fish if for_fish else 0.0),
        use_per_kg=per_kg,
        note=f"Oxygen supply at {kept:g} mg/L against fed fish.",
    )


def _feed_factors(
    unit: RearingUnit, limits: UnitLimits, species: tuple[str, ...], temp_c: float
) -> tuple[_Factor, ...]:
    def per_kg(group: FishGroup) -> Estimate:
        percent = ration(
            species_key=group.species_key,
            mean_weight_g=group.mean_weight_g,
            temp_c=temp_c,
        ).percent_per_day
        return product(percent, scale=0.01)

    factors: list[_Factor] = []
    if limits.ph is not None:
        exchange = unit.inflow_l_per_min * 1.44
        carried = min(
            (
                feed_for_ammonia_kg_per_day(
                    species_key=key,
                    ph=limits.ph,
                    temp_c=temp_c,
                    exchange_m3_per_day=exchange,
                    protein_percent=limits.protein_percent
                    or load_stock_figures(key).feed.protein_percent.value,
                    nitrification=limits.nitrification,
                )
                for key in species
            ),
            key=lambda feed: feed.value,
        )
        factors.append(
            _Factor(
                name="ammonia",
                capacity=carried,
                use_per_kg=per_kg,
                note=f"Feed for the ammonia limit at pH {limits.ph:g}. {TAN_NOTE}",
            )
        )
    if limits.crop is not None and unit.plant_bed_m2 > 0.0:
        ratio = feed_per_bed_g_per_m2_day(limits.crop)
        factors.append(
            _Factor(
                name="plant bed",
                capacity=product(ratio, scale=unit.plant_bed_m2 / 1000.0),
                use_per_kg=per_kg,
                note=f"Feed that the {limits.crop} bed takes up.",
            )
        )
    return tuple(factors)


def _factors(
    unit: RearingUnit, limits: UnitLimits, species: tuple[str, ...], temp_c: float
) -> tuple[_Factor, ...]:
    kept = limits.density_kg_per_m3
    if kept is not None:
        require("density limit", kept, "kg/m³", 0.1, 1000.0)
    note = "Density limit as set for the unit."
    if kept is None:
        strictest = min(
            (load_stock_figures(key).limits.density_kg_per_m3 for key in species),
            key=lambda figure: figure.value,
        )
        kept = strictest.value
        note = strictest.note(f"Density limit {kept:g} kg/m3")
    density = _Factor(
        name="density",
        capacity=lognormal(kept * unit.volume_m3, 0.0),
        use_per_kg=lambda _group: lognormal(1.0, 0.0),
        note=note,
    )
    indices: tuple[_Factor, ...] = ()
    if limits.condition_factor is not None:
        indices = _index_factors(unit, limits.condition_factor)
    return (
        density,
        *indices,
        _oxygen_factor(unit, limits, species, temp_c),
        *_feed_factors(unit, limits, species, temp_c),
    )


_FULL = 1e9  # used over a capacity of nothing, so that it sorts as the fullest


def _used(factor: _Factor, groups: tuple[FishGroup, ...]) -> Estimate | None:
    """Return used over capacity; the rates of all groups err together.

    None where the fish use nothing of it, as of the feed in water too warm to feed.
    """
    uses = [product(group.biomass_kg, factor.use_per_kg(group)) for group in groups]
    use = sum(u.value for u in uses)
    if use == 0.0:
        return None
    if factor.capacity.value <= 0.0:
        return Estimate(value=_FULL, sd=0.0, low=_FULL, high=_FULL)
    spread = math.hypot(sum(u.sd for u in uses) / use, relative_sd(factor.capacity))
    return lognormal(use / factor.capacity.value, spread)


def unit_load(
    *,
    unit: RearingUnit,
    groups: tuple[FishGroup, ...],
    temp_c: float,
    limits: UnitLimits | None = None,
) -> UnitLoad:
    """Return how full the unit is by each limit.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
        Also if there are no fish.
    """
    require("water volume", unit.volume_m3, "m³", 0.01)
    require("number of groups of fish", len(groups), "", 1.0)
    for group in groups:
        require("biomass", group.biomass_kg.value, "kg", 1e-6)
    species = tuple(sorted({group.species_key for group in groups}))
    biomass = total(*(group.biomass_kg for group in groups))
    found = []
    for factor in _factors(unit, limits or UnitLimits(), species, temp_c):
        used = _used(factor, groups)
        if used is None:
            continue
        found.append(
            Limit(
                name=factor.name,
                used_fraction=used,
                capacity_kg=_capacity_kg(biomass.value, used),
                note=factor.note,
            )
        )
    found.sort(key=lambda limit: limit.used_fraction.high, reverse=True)
    fullest = found[0].used_fraction.high
    return UnitLoad(
        biomass_kg=biomass,
        density_kg_per_m3=product(biomass, scale=1.0 / unit.volume_m3),
        limits=tuple(found),
        room_kg=biomass.value * (1.0 / fullest - 1.0),
        problems=_load_problems(found),
    )


def _capacity_kg(biomass_kg: float, used: Estimate) -> Estimate:
    if used.value >= _FULL:
        return exact(0.0, used.level)
    return Estimate(
        value=biomass_kg / used.value,
        sd=biomass_kg / used.value * relative_sd(used),
        low=biomass_kg / used.high,
        high=biomass_kg / used.low,
        level=used.level,
    )


def _load_problems(limits: list[Limit]) -> tuple[Problem, ...]:
    return tuple(
        Problem(
            code="over-limit" if limit.used_fraction.value > 1.0 else "near-limit",
            message=(
                f"{limit.name.capitalize()}: {percent(limit.used_fraction.value)} of "
                f"the limit is used, it may be {percent(limit.used_fraction.high)}. "
                "Take fish out, feed less or add to what limits."
            ),
        )
        for limit in limits
        if limit.used_fraction.high > 1.0
    )


# --- ahead --------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class StockedGroup:
    """A cohort with its projection."""

    fish_count: Estimate
    projection: GrowthProjection


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadDay:
    """The fullest limit on a day."""

    day: date
    biomass_kg: Estimate
    limiting: LimitName
    used_fraction: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class StockingOutlook:
    """The unit until a date.

    Attributes
    ----------
    days
        Once a week and on the last day.
    first_day_over
        First of them on which a limit may be passed (upper end); None if none.
    fish_to_take_out
        Of all the fish, so that no limit may be passed by the last day; 0 if none.
    fingerlings, fingerlings_kg
        That may be added now, growing until the last day; 0 if none.
    """

    days: tuple[LoadDay, ...]
    first_day_over: date | None
    fish_to_take_out: int
    fingerlings: int
    fingerlings_kg: float
    cautions: tuple[str, ...] = cautions.STOCKING


@dataclass(frozen=True, slots=True, kw_only=True)
class StockingQuestion:
    """Until when, and which fingerlings are thought of.

    ``fingerlings`` is the projection of such fish from ``start``; None asks for no
    room.
    """

    start: date
    until: date
    temperature: TemperatureForecast
    fingerlings: GrowthProjection | None = None


def _week_days(start: date, until: date) -> tuple[date, ...]:
    days = [start + timedelta(weeks=week) for week in range((until - start).days // 7)]
    return (*days, until)


def stocking_outlook(
    *,
    unit: RearingUnit,
    groups: tuple[StockedGroup, ...],
    question: StockingQuestion,
    limits: UnitLimits | None = None,
) -> StockingOutlook:
    """Return until a date: the limits, the room, or how many fish must go and when.

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
        Also if a day lies outside a projection.
    """
    require("days until the date", (question.until - question.start).days, "days", 0.0)
    fish = sum(group.fish_count.value for group in groups)
    days: list[LoadDay] = []
    fits: list[float] = []
    for day in _week_days(question.start, question.until):
        temp_c = question.temperature.on(day)
        present = tuple(_on_day(group, day) for group in groups)
        load = unit_load(unit=unit, groups=present, temp_c=temp_c, limits=limits)
        days.append(
            LoadDay(
                day=day,
                biomass_kg=load.biomass_kg,
                limiting=load.limiting.name,
                used_fraction=load.limiting.used_fraction,
            )
        )
        fits.append(_fingerlings_that_fit(unit, limits, question, present, day))
    highest = max(day.used_fraction.high for day in days)
    over = next((day.day for day in days if day.used_fraction.high > 1.0), None)
    room = max(0, math.floor(min(fits)))
    weight = question.fingerlings
    each_kg = weight.mean_weight_g(question.start).value / 1e3 if weight else 0.0
    return StockingOutlook(
        days=tuple(days),
        first_day_over=over,
        fish_to_take_out=math.ceil(fish * max(0.0, 1.0 - 1.0 / highest)),
        fingerlings=room,
        fingerlings_kg=room * each_kg,
    )


def _on_day(group: StockedGroup, day: date) -> FishGroup:
    mean = group.projection.mean_weight_g(day)
    return FishGroup(
        species_key=group.projection.species_key,
        biomass_kg=product(group.fish_count, mean, scale=1e-3),
        mean_weight_g=mean.value,
    )


def _fingerlings_that_fit(
    unit: RearingUnit,
    limits: UnitLimits | None,
    question: StockingQuestion,
    present: tuple[FishGroup, ...],
    day: date,
) -> float:
    """Return how many more fish the tightest limit takes on a day, may be below 0."""
    if question.fingerlings is None:
        return 0.0
    mean = question.fingerlings.mean_weight_g(day)
    one = FishGroup(
        species_key=question.fingerlings.species_key,
        biomass_kg=product(mean, scale=1e-3),
        mean_weight_g=mean.value,
    )
    species = tuple(sorted({g.species_key for g in (*present, one)}))
    room = math.inf
    for factor in _factors(
        unit, limits or UnitLimits(), species, question.temperature.on(day)
    ):
        used, each = _used(factor, present), _used(factor, (one,))
        if used is not None and each is not None:
            room = min(room, (1.0 - used.high) / each.high)
    return room
