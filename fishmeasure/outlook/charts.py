"""What a unit's charts are drawn from: figures with intervals, ready to be told."""

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Final
from uuid import UUID

from pydantic import Field

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.words import Message
from fishmeasure.book.entries import Sample
from fishmeasure.husbandry.factors import LimitName
from fishmeasure.husbandry.harvest import counts_between
from fishmeasure.husbandry.outage import OutageResult
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.unit import UnitOutlook

AHEAD_DAYS: Final = 120
_WEEK: Final = timedelta(days=7)
_BARS: Final = 16  # at most so many sizes; more cannot be touched on a phone
_STEPS: Final = (1.0, 2.0, 5.0, 10.0)
_OXYGEN_POINTS: Final = 31


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightOn:
    """The mean weight of a cohort on a day."""

    day: date
    mean_weight_g: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthChart:
    """A cohort's samples so far and its mean weight ahead, week by week."""

    cohort_id: UUID
    cohort: Annotated[str, Field(description="Name of the cohort.")]
    plate_weight_g: float
    samples: Annotated[
        tuple[WeightOn, ...], Field(description="Each sample by itself.")
    ]
    ahead: Annotated[
        tuple[WeightOn, ...], Field(description="By the book, from the day on.")
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class FishBetween:
    """Fish that weigh between two figures on the day."""

    from_g: Annotated[float, Field(description="Lightest, g.")]
    to_g: Annotated[float, Field(description="Heaviest, g.")]
    fish_count: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class SizesChart:
    """How many fish of a cohort are of which weight on the day."""

    cohort_id: UUID
    cohort: Annotated[str, Field(description="Name of the cohort.")]
    plate_weight_g: float
    sizes: Annotated[tuple[FishBetween, ...], Field(description="The lightest first.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadOn:
    """Kilograms of fish on a day, and what the nearest limit bears then."""

    day: date
    biomass_kg: Estimate
    limit: Annotated[LimitName, Field(description="Limit that is reached first.")]
    capacity_kg: Annotated[
        Estimate,
        Field(description="Fish of that day's kind at that limit, kg; `low` is safe."),
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenAfter:
    """Oxygen some time after something has stopped."""

    after_min: Annotated[float, Field(description="Minutes since it stopped.")]
    do_mg_per_l: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class OxygenChart:
    """The oxygen after the stop that leaves least time."""

    name: Annotated[Message, Field(description="What has stopped, in words.")]
    caution_mg_per_l: float
    critical_mg_per_l: float
    course: Annotated[tuple[OxygenAfter, ...], Field(description="In time.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitCharts:
    """The charts of a unit on a day; empty or None where figures are not known."""

    on: Annotated[date, Field(description="Day of the charts.")]
    growth: Annotated[
        tuple[GrowthChart, ...], Field(description="One for each cohort.")
    ]
    sizes: Annotated[
        tuple[SizesChart, ...],
        Field(description="One for each cohort of known growth."),
    ]
    load: Annotated[tuple[LoadOn, ...], Field(description="Week by week.")]
    oxygen: Annotated[
        OxygenChart | None,
        Field(description="Null where nothing brings oxygen, or it is not known."),
    ]


def unit_charts(outlook: UnitOutlook) -> UnitCharts:
    """Return what the charts of a unit's outlook are drawn from."""
    sizes = (_sizes(item, outlook.on) for item in outlook.cohorts)
    return UnitCharts(
        on=outlook.on,
        growth=tuple(_growth(item, outlook) for item in outlook.cohorts),
        sizes=tuple(chart for chart in sizes if chart is not None),
        load=_load(outlook),
        oxygen=None if outlook.outages is None else _oxygen(outlook.outages.worst),
    )


def _growth(item: CohortOutlook, outlook: UnitOutlook) -> GrowthChart:
    samples = [one for one in outlook.samples if one.cohort_id == item.cohort.id]
    return GrowthChart(
        cohort_id=item.cohort.id,
        cohort=item.cohort.name,
        plate_weight_g=item.plate_weight_g,
        samples=tuple(
            WeightOn(day=one.on, mean_weight_g=_weighed(one)) for one in samples
        ),
        ahead=_ahead(item, outlook.on),
    )


def _weighed(sample: Sample) -> Estimate:
    low, high = sample.mean_weight_low_g, sample.mean_weight_high_g
    return _within(sample.mean_weight_g, low, high, sample.level)


def _within(value: float, low: float, high: float, level: float) -> Estimate:
    """Return a figure of which the interval is known, its sd that of a normal one."""
    sd = (high - low) / (2.0 * z_score(level))
    return Estimate(value=value, sd=sd, low=low, high=high, level=level)


def _ahead(item: CohortOutlook, on: date) -> tuple[WeightOn, ...]:
    projection = item.projection
    if projection is None:
        return ()
    last = min(AHEAD_DAYS, projection.days - (on - projection.start).days)
    days = [on + week * _WEEK for week in range(last // 7 + 1)]
    return tuple(
        WeightOn(day=day, mean_weight_g=projection.mean_weight_g(day)) for day in days
    )


def _sizes(item: CohortOutlook, on: date) -> SizesChart | None:
    if item.projection is None or not item.quantiles_g:
        return None
    edges = _edges(max(1.2 * item.quantiles_g[-1][1], item.plate_weight_g))
    counts = counts_between(
        projection=item.projection,
        fish_count=item.fish.fish_count,
        cv=item.cv,
        edges_g=edges,
        day=on,
    )
    return SizesChart(
        cohort_id=item.cohort.id,
        cohort=item.cohort.name,
        plate_weight_g=item.plate_weight_g,
        sizes=tuple(
            FishBetween(from_g=edges[n], to_g=edges[n + 1], fish_count=count)
            for n, count in enumerate(counts)
        ),
    )


def _edges(top_g: float) -> tuple[float, ...]:
    """Return round weights from 0 to beyond the heaviest fish."""
    least = top_g / _BARS
    scale = 10.0 ** math.floor(math.log10(least))
    step = scale * next(one for one in _STEPS if one * scale >= least)
    return tuple(n * step for n in range(math.ceil(top_g / step) + 1))


def _load(outlook: UnitOutlook) -> tuple[LoadOn, ...]:
    """Return today's limit by the water as read, later ones by its usual year."""
    if outlook.limits is None:
        return ()
    now = outlook.limits.load
    today, *later = outlook.limits.ahead.days
    first = LoadOn(
        day=today.day,
        biomass_kg=today.biomass_kg,
        limit=now.limiting.name,
        capacity_kg=now.limiting.capacity_kg,
    )
    return (
        first,
        *(
            LoadOn(
                day=one.day,
                biomass_kg=one.biomass_kg,
                limit=one.limiting,
                capacity_kg=one.capacity_kg,
            )
            for one in later
        ),
    )


def _oxygen(worst: OutageResult) -> OxygenChart:
    level = worst.to_critical.minutes.level
    points = len(worst.course_min)
    wanted = sorted(
        {round(n * (points - 1) / (_OXYGEN_POINTS - 1)) for n in range(_OXYGEN_POINTS)}
    )
    return OxygenChart(
        name=worst.name,
        caution_mg_per_l=worst.to_caution.level_mg_per_l,
        critical_mg_per_l=worst.to_critical.level_mg_per_l,
        course=tuple(
            OxygenAfter(
                after_min=float(worst.course_min[n]),
                do_mg_per_l=_within(
                    float(worst.course_mg_per_l[n]),
                    float(worst.course_low_mg_per_l[n]),
                    float(worst.course_high_mg_per_l[n]),
                    level,
                ),
            )
            for n in wanted
        ),
    )
