"""The stocking calculations as the API offers them: one line each in ``CALCULATIONS``.

A calculation's parameters are the request's fields, so the description of the API
follows the code. Where the core takes records that a client would have to build in
steps, a small function here takes them flat.
"""

import datetime as dt
import inspect
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, get_type_hints

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    Field,
    FiniteFloat,
    WithJsonSchema,
    create_model,
)

from api.schemas import FiniteIn, In
from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.base.field_words import description
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry import (
    growth,
    growth_rates,
    harvest,
    nitrogen,
    oxygen,
    stocking,
)
from fishmeasure.husbandry.factors import FishGroup
from fishmeasure.husbandry.feed import Ration, feed_conversion, ration
from fishmeasure.husbandry.outage import OutageResult, biomass_for_hours, outage
from fishmeasure.husbandry.outage_fall import OutageCase, OutageCause
from fishmeasure.husbandry.oxygen import Feeding
from fishmeasure.husbandry.projection import GrowthProjection, project_growth
from fishmeasure.husbandry.propagation import exact
from fishmeasure.husbandry.saturation import Water, oxygen_saturation_mg_per_l
from fishmeasure.husbandry.temperature import (
    ConstantTemperature,
    MonthlyTemperature,
    TemperatureForecast,
)
from fishmeasure.husbandry.unit import RearingUnit
from fishmeasure.husbandry.weekly import WeeklyHarvest, weekly_plan


def _float(number: float) -> float:
    try:
        return float(number)
    except OverflowError:
        message = "a number with hundreds of digits"
        raise ValueError(message) from None


def _estimate(given: Any) -> Any:
    """Return what was sent as an estimate: a number is exact, an sd is normal."""
    if isinstance(given, int | float) and not isinstance(given, bool):
        return exact(_float(given))
    if isinstance(given, Mapping) and not {"low", "high"} & set(given):
        numbers = [given.get("value"), given.get("sd", 0.0)]
        level = given.get("level", DEFAULT_LEVEL)
        if isinstance(level, float) and 0.0 < level < 1.0:
            plain = [_float(x) for x in numbers if isinstance(x, int | float)]
            if len(plain) == len(numbers):
                return Estimate.normal(plain[0], plain[1], level)
    return given


def _checked(estimate: Estimate) -> Estimate:
    """Return a figure that can be one; its interval may be given apart from its sd."""
    numbers = (estimate.value, estimate.sd, estimate.low, estimate.high)
    if not all(math.isfinite(number) for number in numbers) or estimate.sd < 0.0:
        message = "a figure is finite and its standard error is not below 0"
        raise ValueError(message)
    if not estimate.low <= estimate.value <= estimate.high:
        message = "a figure lies in its interval"
        raise ValueError(message)
    if not 0.0 < estimate.level < 1.0:
        message = "a level is above 0 and below 1"
        raise ValueError(message)
    return estimate


Figure = Annotated[
    Estimate,
    AfterValidator(_checked),
    BeforeValidator(_estimate),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "number"},
                {
                    "type": "object",
                    "properties": {
                        "value": {"type": "number"},
                        "sd": {"type": "number", "minimum": 0},
                        "low": {"type": "number"},
                        "high": {"type": "number"},
                        "level": {
                            "type": "number",
                            "exclusiveMinimum": 0,
                            "exclusiveMaximum": 1,
                        },
                    },
                    "required": ["value"],
                },
            ],
            "examples": [{"value": 48.0, "sd": 3.0}],
        }
    ),
]


MOST_ITEMS = 500
SpeciesKey = Annotated[str, Field(max_length=60)]
Day = Annotated[dt.date, Field(ge=dt.date(1950, 1, 1), le=dt.date(2200, 1, 1))]


class GroupIn(In):
    """Fish of one species and size in a unit."""

    species_key: SpeciesKey = Field(description="Key of the species.")
    biomass_kg: Figure = Field(description="Of the group, kg.")
    mean_weight_g: FiniteFloat = Field(description="Of its fish, g.")


class MeanWeightIn(In):
    """A mean weight on a day."""

    day: Day = Field(description="Of the sample.")
    mean_weight_g: Figure = Field(description="With its standard error, g.")


class TakeIn(In):
    """A harvest of the largest fish."""

    day: Day = Field(description="Of the harvest.")
    fish_count: int = Field(ge=1, le=10**7, description="Fish taken.")


Groups = Annotated[list[GroupIn], Field(max_length=MOST_ITEMS)]
Samples = Annotated[list[MeanWeightIn], Field(max_length=MOST_ITEMS)]
Takes = Annotated[list[TakeIn], Field(max_length=MOST_ITEMS)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Saturation:
    """Oxygen of water in balance with air."""

    do_mg_per_l: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """Fish that a unit may hold."""

    biomass_kg: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightOn:
    """A mean weight on a day."""

    day: dt.date
    mean_weight_g: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowthAhead:
    """Growth by a cohort's samples; ``course`` is weekly."""

    tgc_x1000: Estimate
    course: tuple[WeightOn, ...]
    dates_at_size: harvest.SizeDates | None
    notes: tuple[Message, ...]
    problems: tuple[Problem, ...]


def oxygen_saturation(*, water: Water) -> Saturation:
    """Oxygen saturation of water (Benson & Krause 1984)."""
    return Saturation(do_mg_per_l=oxygen_saturation_mg_per_l(water))


def outage_times(
    *,
    unit: RearingUnit,
    species_key: str,
    biomass_kg: Figure,
    mean_weight_g: float,
    temperature_deg_c: float,
    start_do_mg_per_l: Figure,
    cause: OutageCause = "power",
    device: SpeciesKey = "",
    feeding: Feeding = "fed",
    exchange_l_per_min: float | None = None,
) -> OutageResult:
    """Oxygen after something stops: how long, and what buys time."""
    case = OutageCase(
        unit=unit,
        species_key=species_key,
        biomass_kg=biomass_kg,
        mean_weight_g=mean_weight_g,
        temperature_deg_c=temperature_deg_c,
        start_do_mg_per_l=start_do_mg_per_l,
        cause=cause,
        device=device,
        feeding=feeding,
    )
    return outage(case, exchange_l_per_min=exchange_l_per_min)


def load_for_hours(
    *,
    unit: RearingUnit,
    species_key: str,
    mean_weight_g: float,
    temperature_deg_c: float,
    start_do_mg_per_l: Figure,
    hours: float,
    cause: OutageCause = "power",
) -> Load:
    """Fish that would have so many hours until oxygen is critical."""
    case = OutageCase(
        unit=unit,
        species_key=species_key,
        biomass_kg=exact(1.0),
        mean_weight_g=mean_weight_g,
        temperature_deg_c=temperature_deg_c,
        start_do_mg_per_l=start_do_mg_per_l,
        cause=cause,
    )
    return Load(biomass_kg=biomass_for_hours(case, hours=hours))


def growth_ahead(
    *,
    species_key: str,
    samples: Samples,
    temperature: ConstantTemperature | MonthlyTemperature,
    days: int = 180,
    size_g: float | None = None,
    cv: float = 0.25,
) -> GrowthAhead:
    """Growth fitted to a cohort's samples, and its weights and plate-size dates."""
    fit, projection = _projection(species_key, samples, temperature, days)
    dates = None
    if size_g is not None:
        dates = harvest.dates_at_size(
            projection=projection, cv=exact(cv), size_g=size_g
        )
    every_week = range(0, projection.days + 1, 7)
    course = [projection.start + dt.timedelta(days=day) for day in every_week]
    return GrowthAhead(
        tgc_x1000=fit.tgc_x1000,
        course=tuple(
            WeightOn(day=day, mean_weight_g=projection.mean_weight_g(day))
            for day in course
        ),
        dates_at_size=dates,
        notes=fit.notes,
        problems=projection.problems,
    )


def harvest_ahead(
    *,
    species_key: str,
    samples: Samples,
    temperature: ConstantTemperature | MonthlyTemperature,
    fish_count: Figure,
    takes: Takes,
    cv: float = 0.25,
) -> harvest.HarvestPlan:
    """Harvests of the largest fish on each day: what they yield and leave."""
    last = max((take.day for take in takes), default=dt.date.max)
    first = max((sample.day for sample in samples), default=last)
    days = min(max((last - first).days, 0), 1500)
    _, projection = _projection(species_key, samples, temperature, days)
    return harvest.harvest_plan(
        projection=projection,
        fish_count=fish_count,
        cv=exact(cv),
        takes=tuple((take.day, take.fish_count) for take in takes),
    )


def weekly_harvest(
    *,
    species_key: str,
    samples: Samples,
    temperature: ConstantTemperature | MonthlyTemperature,
    fish_count: Figure,
    weekly: WeeklyHarvest,
    cv: float = 0.25,
) -> harvest.HarvestPlan:
    """Weekly harvests of the largest fish: a number, so many kg, or all at a size."""
    first = max((sample.day for sample in samples), default=weekly.until)
    days = min(max((weekly.until - first).days, 0), 1500)
    _, projection = _projection(species_key, samples, temperature, days)
    return weekly_plan(
        projection=projection, fish_count=fish_count, cv=exact(cv), weekly=weekly
    )


def _projection(
    species_key: str,
    samples: list[MeanWeightIn],
    temperature: TemperatureForecast,
    days: int,
) -> tuple[growth.GrowthFit, GrowthProjection]:
    found = sorted(samples, key=lambda sample: sample.day)
    fit = growth.fit_growth(
        samples=tuple(
            growth.WeightSample(day=s.day, mean_weight_g=s.mean_weight_g) for s in found
        ),
        temperature=temperature,
        species_key=species_key,
    )
    ahead = project_growth(fit=fit, temperature=temperature, days=days)
    return fit, ahead


def unit_load(
    *, unit: RearingUnit, groups: Groups, temperature_deg_c: float
) -> stocking.UnitLoad:
    """How full a unit is by each limit, and the room left."""
    fish = tuple(FishGroup(**dict(group)) for group in groups)
    return stocking.unit_load(
        unit=unit, groups=fish, temperature_deg_c=temperature_deg_c
    )


def daily_ration(
    *,
    species_key: str,
    mean_weight_g: float,
    temperature_deg_c: float,
    tgc_x1000: Figure | None = None,
) -> Ration:
    """Feed in per cent of body weight a day."""
    return ration(
        species_key=species_key,
        mean_weight_g=mean_weight_g,
        temperature_deg_c=temperature_deg_c,
        tgc_x1000=tgc_x1000,
    )


CALCULATIONS: dict[str, Callable[..., Any]] = {
    "specific-growth-rate": growth_rates.specific_growth_rate,
    "thermal-growth-coefficient": growth_rates.thermal_growth_coefficient,
    "condition-factor": growth_rates.condition_factor,
    "growth": growth_ahead,
    "harvest": harvest_ahead,
    "weekly-harvest": weekly_harvest,
    "ration": daily_ration,
    "feed-conversion": feed_conversion,
    "oxygen-saturation": oxygen_saturation,
    "oxygen-demand": oxygen.oxygen_demand,
    "oxygen-balance": oxygen.oxygen_balance,
    "outage": outage_times,
    "load-for-hours": load_for_hours,
    "ammonia": nitrogen.ammonia_reading,
    "nitrate": nitrogen.nitrate_trend,
    "plant-bed": nitrogen.bed_balance,
    "unit-load": unit_load,
}


# What the core's own types are as a request's.
KINDS: dict[Any, Any] = {Estimate: Figure, str: SpeciesKey}


def title_of(name: str) -> str:
    """Return the start of the names of a calculation's models."""
    return "".join(part.capitalize() for part in name.split("-"))


def input_model(name: str) -> type[BaseModel]:
    """Return the model of a calculation's request."""
    function = CALCULATIONS[name]
    hints = get_type_hints(function, include_extras=True)
    fields: dict[str, Any] = {}
    for item in inspect.signature(function).parameters.values():
        hint = KINDS.get(hints[item.name], hints[item.name])
        default = ... if item.default is inspect.Parameter.empty else item.default
        fields[item.name] = (
            hint,
            Field(default=default, description=description(item.name)),
        )
    return create_model(f"{title_of(name)}In", __base__=FiniteIn, **fields)
