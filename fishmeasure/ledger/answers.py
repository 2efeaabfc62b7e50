"""The answers of an outlook, one function each: the book meets the calculations."""

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from typing import Annotated, Final, TypeVar

from fishmeasure.errors import FishMeasureError, SpeciesError
from fishmeasure.flags import Problem
from fishmeasure.ledger.codec import Within, check_fields
from fishmeasure.ledger.entries import Cohort, Entry, Feed
from fishmeasure.ledger.rearing import backup_air, rearing_unit, without_pump
from fishmeasure.ledger.state import CohortInUnit, UnitState
from fishmeasure.species import packaged_species
from fishmeasure.stock.feed import FeedConversion, FeedPlan, feed_conversion, feed_plan
from fishmeasure.stock.figures import load_stock_figures
from fishmeasure.stock.growth import (
    GrowthFit,
    GrowthProjection,
    project_growth,
    specific_growth_rate,
)
from fishmeasure.stock.harvest import (
    Harvest,
    SizeDates,
    WeightSpread,
    count_above,
    dates_at_size,
    harvest_plan,
)
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
from fishmeasure.stock.outage import (
    OutageCase,
    OutageCause,
    OutageResult,
    biomass_for_hours,
    outage,
)
from fishmeasure.stock.oxygen import oxygen_balance, oxygen_demand
from fishmeasure.stock.propagation import exact, lognormal
from fishmeasure.stock.stocking import (
    FishGroup,
    StockedGroup,
    StockingOutlook,
    StockingQuestion,
    UnitLimits,
    UnitLoad,
    stocking_outlook,
    unit_load,
)
from fishmeasure.uncertainty import Estimate

_T = TypeVar("_T")

AHEAD_DAYS: Final = 365  # how far growth is projected
# A reading older than this says little of tonight; common practice, no source.
FRESH_DAYS: Final = 7
# CV of weight where no sample gave one: 0.257 rainbow, 0.206 brook trout
# (Rasmussen & Ostenfeld), the error wide enough for both.
USUAL_CV: Final = Estimate.normal(0.25, 0.05)
METER_SD_MG_PER_L: Final = 0.3  # of a DO meter; common practice, no source
TAN_RELATIVE_SD: Final = 0.15  # of a drop test; common practice, no source
RANKS: Final = (0.05, 0.5, 0.95)
# The tenth at either end is what a grading takes out; common practice, no source.
GRADE_RANKS: Final = (0.1, 0.9)
# Sorted trout had a CV of 0.128 (Janampa-Sarmiento 2020), unsorted ones 0.257.
GRADE_CV: Final = 0.257
# Condition against the book's at the same length: common practice, no source.
THIN, FAT = 0.85, 1.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """What the outlook is asked.

    ``stocking_days`` is how far ahead the room is asked for, ``hours`` how long an
    outage is to be survived.
    """

    harvest_days: tuple[Annotated[int, Within(0, AHEAD_DAYS)], ...] = (0, 28, 56, 84)
    stocking_days: Annotated[int, Within(1, AHEAD_DAYS)] = 90
    fingerling_weight_g: Annotated[float, Within(0.1, 5000.0)] = 20.0
    hours: Annotated[float, Within(0.1, 24.0)] = 4.0

    def __post_init__(self) -> None:
        check_fields(self)


@dataclass(slots=True)
class Attempts:
    """Answers that may fail, and why they did."""

    problems: list[Problem] = field(default_factory=list)

    def get(self, answer: Callable[[], _T]) -> _T | None:
        """Return the answer, or None and keep the reason."""
        try:
            return answer()
        except FishMeasureError as error:
            self.say(error.code, str(error))
            return None

    def say(self, code: str, message: str) -> None:
        """Keep a doubt."""
        self.problems.append(Problem(code=code, message=message))


# --- the water now ------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """The water of the day: readings of the last week, else what is to be expected.

    ``from_words`` says where temperature and oxygen come from. ``do_mg_per_l`` is
    None where nobody measured; the outage then starts from the balance.
    """

    temp_c: float
    temp_from: str
    do_mg_per_l: Estimate | None
    do_from: str
    ph: float | None
    tan_mg_per_l: float | None
    nitrate_n_mg_per_l: float | None


def water_now(state: UnitState) -> Water:
    """Return the water on the day of the state."""

    def fresh(name: str) -> float | None:
        latest = state.water.get(name)
        if latest is None or (state.on - latest.on).days > FRESH_DAYS:
            return None
        return latest.value

    def read_on(name: str) -> str:
        return f"read on {state.water[name].on}"

    temp_c, do = fresh("temperature_deg_c"), fresh("do_mg_per_l")
    return Water(
        temp_c=state.temperature.on(state.on) if temp_c is None else temp_c,
        temp_from="expected" if temp_c is None else read_on("temperature_deg_c"),
        do_mg_per_l=None if do is None else Estimate.normal(do, METER_SD_MG_PER_L),
        do_from="worked out" if do is None else read_on("do_mg_per_l"),
        ph=fresh("ph"),
        tan_mg_per_l=fresh("tan_mg_per_l"),
        nitrate_n_mg_per_l=fresh("nitrate_n_mg_per_l"),
    )


# --- 1, 3 and 7: the fish of a cohort --------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class HarvestDay:
    """What is ready on a day: fish at plate size, and what taking them leaves.

    ``harvest`` takes as many as are there at the low end; None if that is none.
    """

    day: date
    ready_count: Estimate
    harvest: Harvest | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """Condition factor against the book's at the same length.

    ``verdict`` is "thin", "well" or "fat".
    """

    condition_factor: float
    book_condition_factor: float
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Grading:
    """The tenths at either end, and whether sorting is worth the handling.

    Lengths are fork lengths for the grader's gap, from the condition factor.
    """

    small_g: float
    large_g: float
    small_mm: float
    large_mm: float
    advised: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CohortOutlook:
    """A cohort's part of the outlook; None where the weight is not known.

    ``quantiles_g`` are (share below, weight). ``sgr_percent_per_day`` is that of
    the 30 days ahead.
    """

    fish: CohortInUnit
    cv: Estimate
    cv_is_usual: bool
    quantiles_g: tuple[tuple[float, float], ...]
    plate_weight_g: float
    projection: GrowthProjection | None
    sgr_percent_per_day: Estimate | None
    plate_dates: SizeDates | None
    harvests: tuple[HarvestDay, ...]
    condition: Condition | None
    grading: Grading | None

    @property
    def cohort(self) -> Cohort:
        """The cohort."""
        return self.fish.cohort


def cohort_outlook(
    fish: CohortInUnit, state: UnitState, options: Options, tried: Attempts
) -> CohortOutlook:
    """Return weights, growth, harvest and condition of a cohort's fish."""
    cv = fish.cv or USUAL_CV
    mean = fish.mean_weight_g
    if mean is None:
        tried.say(
            "no-weight",
            f"No weight is known of {fish.cohort.name}. Take a net sample.",
        )
    plate_g = _plate_weight_g(fish.cohort)
    projection = None
    if fish.growth is not None:
        growth = fish.growth
        projection = tried.get(
            lambda: project_growth(
                fit=growth, temperature=state.temperature, days=AHEAD_DAYS
            )
        )
    spread = None if mean is None else WeightSpread(mean_g=mean.value, cv=cv.value)
    condition = None if mean is None else _condition(fish, mean.value)
    return CohortOutlook(
        fish=fish,
        cv=cv,
        cv_is_usual=fish.cv is None,
        quantiles_g=()
        if spread is None
        else tuple((rank, spread.weight_at_rank_g(rank)) for rank in RANKS),
        plate_weight_g=plate_g,
        projection=projection,
        sgr_percent_per_day=None if projection is None else _sgr(projection),
        plate_dates=None
        if projection is None
        else dates_at_size(projection=projection, cv=cv, size_g=plate_g),
        harvests=()
        if projection is None or fish.fish_count.value < 1.0
        else tuple(
            _harvest_day(
                projection, fish.fish_count, cv, plate_g, state.on + timedelta(days=n)
            )
            for n in options.harvest_days
        ),
        condition=condition,
        grading=None if spread is None else _grading(spread, condition, cv),
    )


def _plate_weight_g(cohort: Cohort) -> float:
    if cohort.plate_weight_g is not None:
        return cohort.plate_weight_g
    try:
        return load_stock_figures(cohort.species_key).growth.plate_size_g.value
    except FishMeasureError:
        return 300.0  # pan size of trout; common practice, no source


def _sgr(projection: GrowthProjection) -> Estimate:
    """Return the growth rate of the next 30 days, without the start's own error."""
    days = min(30, projection.days)
    start = projection.mean_weight_g(projection.start)
    end = projection.mean_weight_g(projection.start + timedelta(days=days))
    rate = specific_growth_rate(
        start_weight_g=exact(start.value), end_weight_g=exact(end.value), days=days
    )
    growth_sd = math.sqrt(
        max(0.0, projection.root_sd_g[days] ** 2 - projection.root_sd_g[0] ** 2)
    )
    relative = 3.0 * growth_sd / float(projection.root_g[days])
    return Estimate.normal(rate.value, 100.0 * relative / days)


def _harvest_day(
    projection: GrowthProjection,
    fish_count: Estimate,
    cv: Estimate,
    size_g: float,
    day: date,
) -> HarvestDay:
    ready = count_above(
        projection=projection, fish_count=fish_count, cv=cv, size_g=size_g, day=day
    )
    sure = math.floor(ready.low)
    plan = harvest_plan(
        projection=projection,
        fish_count=fish_count,
        cv=cv,
        takes=((day, sure),) if sure > 0 else (),
    )
    return HarvestDay(
        day=day,
        ready_count=ready,
        harvest=plan.harvests[0] if plan.harvests else None,
    )


def _condition(fish: CohortInUnit, mean_g: float) -> Condition | None:
    if fish.condition_factor is None:
        return None
    try:
        line = packaged_species(fish.cohort.species_key).on_fork_length()
    except SpeciesError:
        return None
    length_cm = (mean_g / line.a_g_cm) ** (1.0 / line.b)
    book = 100.0 * mean_g / length_cm**3
    share = fish.condition_factor / book
    return Condition(
        condition_factor=fish.condition_factor,
        book_condition_factor=book,
        verdict="thin" if share < THIN else "fat" if share > FAT else "well",
    )


def _grading(
    spread: WeightSpread, condition: Condition | None, cv: Estimate
) -> Grading:
    small_g, large_g = (spread.weight_at_rank_g(rank) for rank in GRADE_RANKS)
    factor = 1.1 if condition is None else condition.condition_factor
    return Grading(
        small_g=small_g,
        large_g=large_g,
        small_mm=10.0 * math.cbrt(100.0 * small_g / factor),
        large_mm=10.0 * math.cbrt(100.0 * large_g / factor),
        advised=cv.value > GRADE_CV,
    )


# --- 4: feed -------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding:
    """Feed of the unit: today, the week ahead, and what earlier feed became.

    ``plans`` has one for each cohort, in the order of the outlook.
    ``conversion`` is None where it cannot be told; it runs from ``since``.
    """

    today_kg: Estimate
    week_kg: Estimate
    plans: tuple[FeedPlan, ...]
    given_week_kg: float
    given_since_kg: float
    since: date | None
    conversion: FeedConversion | None


def feeding(
    cohorts: tuple[CohortOutlook, ...],
    state: UnitState,
    here: tuple[Entry, ...],
    state_on: Callable[[date], UnitState],
    tried: Attempts,
) -> Feeding | None:
    """Return the feed plan; None where no cohort's growth is known.

    ``here`` are the unit's entries; ``state_on`` its state on an earlier day.
    """
    plans = tuple(
        feed_plan(
            projection=item.projection,
            fish_count=item.fish.fish_count,
            temperature=state.temperature,
            start=state.on,
            tgc_x1000=None if item.fish.growth is None else item.fish.growth.tgc_x1000,
        )
        for item in cohorts
        if item.projection is not None
    )
    if not plans:
        return None
    feeds = [entry for entry in here if isinstance(entry, Feed)]
    week_ago = state.on - timedelta(days=7)
    since = _conversion_start(state, here)
    given_since = sum(
        feed.feed_kg for feed in feeds if since is not None and feed.on > since
    )
    conversion = None
    if since is not None and given_since > 0.0:
        earlier = state_on(since)
        conversion = tried.get(lambda: _conversion(earlier, state, given_since))
    return Feeding(
        today_kg=_sum_common(tuple(plan.days[0].feed_kg for plan in plans)),
        week_kg=_sum_common(tuple(plan.total_kg for plan in plans)),
        plans=plans,
        given_week_kg=sum(feed.feed_kg for feed in feeds if feed.on > week_ago),
        given_since_kg=given_since,
        since=since,
        conversion=conversion,
    )


def _conversion_start(state: UnitState, here: tuple[Entry, ...]) -> date | None:
    """Return the first day on which fish were in the unit."""
    return next(
        (entry.on for entry in here if entry.kind == "stocked" and entry.on < state.on),
        None,
    )


def _conversion(
    earlier: UnitState, state: UnitState, feed_kg: float
) -> FeedConversion | None:
    if earlier.biomass_kg is None or state.biomass_kg is None:
        return None
    return feed_conversion(
        feed_kg=feed_kg,
        start_biomass_kg=earlier.biomass_kg,
        end_biomass_kg=state.biomass_kg,
        removed_kg=state.flow.taken_kg - earlier.flow.taken_kg,
        dead_kg=state.flow.dead_kg - earlier.flow.dead_kg,
        added_kg=state.flow.added_kg - earlier.flow.added_kg,
    )


def _sum_common(parts: tuple[Estimate, ...]) -> Estimate:
    """Return the sum of figures that one chart and one thermometer make err alike."""
    return Estimate(
        value=sum(part.value for part in parts),
        sd=sum(part.sd for part in parts),
        low=sum(part.low for part in parts),
        high=sum(part.high for part in parts),
    )


# --- 5: limits -------------------------------------------------------------------


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
    has_bed = state.unit.plant_bed_area_m2 > 0.0
    return UnitLimits(
        density_kg_per_m3=own.max_density_kg_per_m3,
        do_mg_per_l=own.min_do_mg_per_l,
        ph=water.ph,
        condition_factor=next(
            (
                item.fish.condition_factor
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


# --- 6: outage -------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Outages:
    """Each thing that may stop, the soonest critical first.

    ``hours_biomass_kg`` is the load that would have given ``hours`` until the
    critical level in the first of them.
    """

    results: tuple[OutageResult, ...]
    hours: float
    hours_biomass_kg: Estimate
    start_from: str

    @property
    def worst(self) -> OutageResult:
        """The one that leaves the least time."""
        return self.results[0]


def outages(
    cohorts: tuple[CohortOutlook, ...],
    state: UnitState,
    water: Water,
    options: Options,
) -> Outages | None:
    """Return what happens when power, pump or blower stops tonight.

    Where several cohorts share the water, all fish are taken to need as much as
    those that need most per kilogram: the safe side.
    """
    groups = fish_groups(cohorts)
    if not groups or state.biomass_kg is None:
        return None
    unit = rearing_unit(state.unit)
    needing = max(groups, key=lambda group: _need(group, water.temp_c))
    start = water.do_mg_per_l
    if start is None:
        start = oxygen_balance(
            unit=unit,
            species_key=needing.species_key,
            biomass_kg=state.biomass_kg,
            mean_weight_g=needing.mean_weight_g,
            temp_c=water.temp_c,
        ).steady_do_mg_per_l
    case = OutageCase(
        unit=unit,
        species_key=needing.species_key,
        biomass_kg=state.biomass_kg,
        mean_weight_g=needing.mean_weight_g,
        temp_c=water.temp_c,
        start_do_mg_per_l=start,
        caution_mg_per_l=state.unit.limits.min_do_mg_per_l,
        critical_mg_per_l=state.unit.limits.critical_do_mg_per_l,
    )
    results = [
        outage(
            replace(
                case, cause=cause, unit=without_pump(unit) if cause == "pump" else unit
            ),
            backup=backup_air(state.unit),
        )
        for cause in _causes(state)
    ]
    results.sort(key=lambda result: result.to_critical.minutes.low)
    return Outages(
        results=tuple(results),
        hours=options.hours,
        hours_biomass_kg=biomass_for_hours(results[0].case, hours=options.hours),
        start_from=water.do_from,
    )


def _need(group: FishGroup, temp_c: float) -> float:
    demand = oxygen_demand(
        species_key=group.species_key, mean_weight_g=group.mean_weight_g, temp_c=temp_c
    )
    return demand.rate_mg_per_kg_h.value


def _causes(state: UnitState) -> tuple[OutageCause, ...]:
    """Return what can stop in this unit; power always can."""
    causes: tuple[OutageCause, ...] = ("power",)
    unit = state.unit
    if unit.recirculated_l_per_min > 0.0 or (
        unit.inflow_l_per_min > 0.0 and not unit.inflow_by_gravity
    ):
        causes += ("pump",)
    if unit.aeration:
        causes += ("blower",)
    return causes


# --- sources ---------------------------------------------------------------------


def notes(
    cohorts: tuple[CohortOutlook, ...],
    feed: Feeding | None,
    limit: Limits | None,
    outage_: Outages | None,
) -> tuple[str, ...]:
    """Return where the figures come from, each sentence once."""
    found: list[str] = []
    for item in cohorts:
        if item.cv_is_usual:
            found.append(
                "Spread of weights: CV 0.25, typical of unsorted trout (Rasmussen & "
                "Ostenfeld); no sample gave one."
            )
        if item.projection is not None:
            found.extend(item.projection.notes)
    if feed is not None:
        for plan in feed.plans:
            found.extend(plan.notes)
    if limit is not None:
        found.extend(item.note for item in limit.load.limits)
        for part in (limit.ammonia, limit.nitrate, limit.bed):
            if part is not None:
                found.extend(part.notes)
    if outage_ is not None:
        found.extend(outage_.worst.notes)
    found.append(
        "Unseen losses (1 % a month) and tolerances that no entry states are common "
        "practice, no source."
    )
    return tuple(dict.fromkeys(found))
