"""Questions 1, 3 and 7: the fish of a cohort."""

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Final

from pydantic import Field

from fishmeasure.base.errors import FishMeasureError, SpeciesError
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.book.state import CohortInUnit, UnitState
from fishmeasure.book.units import Cohort
from fishmeasure.husbandry.growth_rates import specific_growth_rate
from fishmeasure.husbandry.harvest import (
    Harvest,
    SizeDates,
    WeightSpread,
    count_above,
    dates_at_size,
    harvest_plan,
)
from fishmeasure.husbandry.projection import GrowthProjection, project_growth
from fishmeasure.husbandry.propagation import exact
from fishmeasure.outlook.attempts import (
    AHEAD_DAYS,
    DATES_AHEAD_DAYS,
    Attempts,
    Options,
)
from fishmeasure.species import farmed_species, packaged_species

# CV of weight where no sample gave one: 0.257 rainbow, 0.206 brook trout
# (Rasmussen & Ostenfeld), the error wide enough for both.
USUAL_CV: Final = Estimate.normal(0.25, 0.05)
RANKS: Final = (0.05, 0.5, 0.95)
# The tenth at either end is what a grading takes out; common practice, no source.
GRADE_RANKS: Final = (0.1, 0.9)
# Sorted trout had a CV of 0.128 (Janampa-Sarmiento 2020), unsorted ones 0.257.
GRADE_CV: Final = 0.257
# Condition against the published one at the same length: common practice, no source.
LOW, HIGH = 0.85, 1.2


@dataclass(frozen=True, slots=True, kw_only=True)
class HarvestDay:
    """What is ready on a day: fish at plate size, and what taking them leaves.

    ``harvest`` takes as many as are there at the low end; None if that is none.
    """

    day: date
    ready_count: Estimate
    harvest: Annotated[
        Harvest | None,
        Field(description="Taking all that surely are ready; null where none is."),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """Condition factor against the published one at the same length.

    ``verdict`` is "low", "normal" or "high".
    """

    condition_factor: Estimate
    published_condition_factor: Annotated[
        float, Field(description="As published at that length, g and cm.")
    ]
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Grading:
    """The tenths at either end, and whether sorting is worth the handling.

    Lengths are fork lengths for the grader's gap, from the condition factor.
    """

    small_g: Annotated[float, Field(description="A tenth of the fish are lighter, g.")]
    large_g: Annotated[float, Field(description="A tenth of the fish are heavier, g.")]
    small_mm: Annotated[float, Field(description="Fork length of the small ones, mm.")]
    large_mm: Annotated[float, Field(description="Fork length of the large ones, mm.")]
    advised: Annotated[bool, Field(description="Whether grading is worth while.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class CohortOutlook:
    """A cohort's part of the outlook; None where the weight is not known.

    ``quantiles_g`` are (share below, weight). ``sgr_percent_per_day`` is that of
    the 30 days ahead.
    """

    fish: CohortInUnit
    mean_weight_g: Estimate | None
    cv: Estimate
    cv_is_usual: Annotated[bool, Field(description="Whether no sample gave one.")]
    quantiles_g: Annotated[
        tuple[tuple[float, float], ...],
        Field(description="[share of fish that are lighter, weight in g]."),
    ]
    plate_weight_g: float
    projection: Annotated[
        GrowthProjection | None,
        Field(description="Growth ahead, day by day; null where it is not known."),
    ]
    sgr_percent_per_day: Annotated[
        Estimate | None,
        Field(description="Specific growth rate of the next 30 days, % a day."),
    ]
    plate_dates: SizeDates | None
    harvests: Annotated[
        tuple[HarvestDay, ...], Field(description="What is ready when.")
    ]
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
        tried.problems.append(Problem.of("no-weight", cohort=fish.cohort.name))
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
        mean_weight_g=mean,
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
        else _plate_dates(fish, state, projection, cv, plate_g),
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


def _plate_dates(
    fish: CohortInUnit,
    state: UnitState,
    projection: GrowthProjection,
    cv: Estimate,
    size_g: float,
) -> SizeDates:
    """Return when fish are at a size; looked for farther ahead where it has no end."""
    found = dates_at_size(projection=projection, cv=cv, size_g=size_g)
    ends = (found.first.latest, found.half.latest, found.nearly_all.latest)
    if None not in ends or fish.growth is None:
        return found
    far = project_growth(
        fit=fish.growth, temperature=state.temperature, days=DATES_AHEAD_DAYS
    )
    return dates_at_size(projection=far, cv=cv, size_g=size_g)


def _plate_weight_g(cohort: Cohort) -> float:
    if cohort.plate_weight_g is not None:
        return cohort.plate_weight_g
    try:
        return farmed_species(cohort.species_key).growth.plate_size_g.value
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
    published = 100.0 * mean_g / length_cm**3
    share = fish.condition_factor.value / published
    return Condition(
        condition_factor=fish.condition_factor,
        published_condition_factor=published,
        verdict="low" if share < LOW else "high" if share > HIGH else "normal",
    )


def _grading(
    spread: WeightSpread, condition: Condition | None, cv: Estimate
) -> Grading:
    small_g, large_g = (spread.weight_at_rank_g(rank) for rank in GRADE_RANKS)
    factor = 1.1 if condition is None else condition.condition_factor.value
    return Grading(
        small_g=small_g,
        large_g=large_g,
        small_mm=10.0 * math.cbrt(100.0 * small_g / factor),
        large_mm=10.0 * math.cbrt(100.0 * large_g / factor),
        advised=cv.value > GRADE_CV,
    )
