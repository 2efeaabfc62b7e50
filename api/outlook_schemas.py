"""What is in a unit and what follows from it, as the API answers it.

The fields are named as the core's records are, which these models are read from.
"""

import datetime as dt
import math
from typing import Annotated, Any
from uuid import UUID

from pydantic import BeforeValidator, ConfigDict, Field

from api.schemas import Out
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import NOTHING, Message
from fishmeasure.book.units import Cohort, Unit


def _finite(value: Any) -> Any:
    """Return None for what has no end: JSON knows no infinity."""
    return None if isinstance(value, float) and not math.isfinite(value) else value


Finite = Annotated[float | None, BeforeValidator(_finite)]


class Record(Out):
    """Read from a record of the core with the same field names."""

    model_config = ConfigDict(from_attributes=True)


class EstimateOut(Record):
    """A figure with its interval, in the unit that the field's name ends in."""

    value: Finite = Field(
        description="Best figure, in the unit of the field.", examples=[182.0]
    )
    sd: Finite = Field(
        description="Standard error, in the unit of the field.", examples=[7.4]
    )
    low: Finite = Field(
        description="Low end of the interval, in the unit of the field.",
        examples=[170.1],
    )
    high: Finite = Field(
        description="High end of the interval, in the unit of the field.",
        examples=[194.5],
    )
    level: float = Field(
        description="Chance that the interval covers, 0 to 1.", examples=[0.9]
    )


class FigureOut(EstimateOut):
    """A figure that says its unit itself."""

    unit: str = Field(description="Unit of the figures.", examples=["kg"])


# --- the state of a unit --------------------------------------------------------


class ProvenanceOut(Record):
    """Where a figure comes from."""

    words: str = Field(description="For people.", examples=["the sample of 2026-04-28"])
    entry_ids: list[UUID] = Field(description="Entries of the book behind it.")


class CohortStateOut(Record):
    """One cohort's fish in a unit."""

    cohort: Cohort = Field(description="The cohort.")
    book_count: float = Field(
        description="Fish by plain addition since the last count.", examples=[236]
    )
    fish_count: EstimateOut = Field(
        description="Fish, with an allowance for losses that nobody saw."
    )
    count_from: ProvenanceOut = Field(description="Where the count comes from.")
    last_counted_on: dt.date | None = Field(description="Day of the last count.")
    mean_weight_g: EstimateOut | None = Field(
        description="Mean weight on the day, g; null until a weight is known."
    )
    weight_from: ProvenanceOut = Field(description="Where the weight comes from.")
    last_sampled_on: dt.date | None = Field(description="Day of the last sample.")
    cv: EstimateOut | None = Field(
        description="Standard deviation over mean of single weights, a fraction."
    )
    condition_factor: EstimateOut | None = Field(
        description="100 W / L^3 in g and cm, of the last sample."
    )
    biomass_kg: EstimateOut | None = Field(description="Of these fish, kg.")
    problems: list[Problem] = Field(description="Doubts about these figures.")


class FlowOut(Record):
    """Fish that came and went since the book began."""

    added_kg: float = Field(description="Stocked or moved in, kg.")
    taken_kg: float = Field(description="Harvested, sold or moved out, kg.")
    dead_kg: float = Field(description="Seen dead or found missing, kg.")
    fish_of_unknown_weight: float = Field(
        description="Fish that the kilograms leave out."
    )


class LatestOut(Record):
    """The newest reading of one quantity of the water."""

    value: float = Field(
        description="Reading, in the unit that its name ends in.", examples=[8.6]
    )
    on: dt.date = Field(description="Day of the reading.")
    at: dt.time | None = Field(default=None, description="Time of day, local.")
    entry_id: UUID = Field(description="Its entry in the book.")


class UnitStateOut(Record):
    """What is in a unit at the end of a day."""

    unit: Unit = Field(description="The unit.")
    on: dt.date = Field(description="The day.")
    about: str = Field(
        default="", description="What the book says of its data, to be shown."
    )
    cohorts: list[CohortStateOut] = Field(description="The fish, cohort by cohort.")
    fish_count: EstimateOut = Field(description="All fish in the unit.")
    biomass_kg: EstimateOut | None = Field(
        description="All fish, kg; null while a weight is not known."
    )
    flow: FlowOut = Field(description="Kilograms in and out.")
    water: dict[str, LatestOut] = Field(
        description="Newest readings, by the field of a water entry, whose name ends "
        "in the unit."
    )
    problems: list[Problem] = Field(description="Doubts about the unit's figures.")


# --- what it means ---------------------------------------------------------------


class DateOut(Record):
    """A day in the future with its interval."""

    day: dt.date | None = Field(description="Likeliest day; null beyond the horizon.")
    earliest: dt.date | None = Field(description="Early end of the interval.")
    latest: dt.date | None = Field(
        description="Late end of the interval; null beyond the horizon."
    )
    level: float = Field(description="Chance that the interval covers, 0 to 1.")


class PlateOut(Out):
    """When a cohort is at plate size."""

    cohort_id: UUID = Field(description="The cohort.")
    size_g: float = Field(description="Plate size, g.", examples=[300.0])
    first_on: dt.date | None = Field(description="The first fish; null beyond a year.")
    half_on: dt.date | None = Field(description="Half of them; null beyond a year.")
    nearly_all_on: dt.date | None = Field(description="Nearly all of them.")
    days_to_half: int | None = Field(
        description="Days from the day asked about until half are at plate size."
    )
    half: DateOut = Field(description="Half of them, with the interval.")


class OutageFigureOut(FigureOut):
    """How long the oxygen lasts when something stops."""

    cause: str = Field(
        description="What stops and leaves the least time, as in `outages`.",
        examples=["power"],
    )
    name: str = Field(
        description="What stops, in words.", examples=["Power cut"], default=""
    )
    inflow_taken_as_pumped: bool = Field(
        description="Whether new water was taken to stop with the power, as it "
        "does where `inflow_by_gravity` of the unit was not said."
    )


class ReasonOut(Record):
    """Why the water is judged as it is."""

    code: str = Field(description="For programs.", examples=["oxygen-low"])
    about: str = Field(
        description='"oxygen", "temperature", "ammonia", "nitrite", "ph", '
        '"alkalinity" or "nitrate".',
        examples=["oxygen"],
    )
    verdict: str = Field(description='"act", "watch" or "unknown".', examples=["act"])
    message: Message = Field(description="For people, with the reading and its age.")
    value: float | None = Field(
        description="The reading, in `unit`; null where there is none.", examples=[2.5]
    )
    limit: float | None = Field(
        description="The limit, in `unit`; null where nothing was read.", examples=[3.0]
    )
    unit: str = Field(description="Unit of value and limit.", examples=["mg/L"])
    source: Message = Field(description="Where the limit comes from.")
    do_now: list[Message] = Field(description="What to do, in this order.")
    stops: list[str] = Field(
        description='What must wait: "feeding", "handling", "adding".'
    )


class NowOut(Record):
    """What the water says now; it comes before everything else."""

    verdict: str = Field(
        description='"good", "watch", "act" or "unknown".', examples=["act"]
    )
    headline: Message = Field(description="The one sentence to read first.")
    do_now: Message = Field(description="What to do now, in order; empty for nothing.")
    reasons: list[ReasonOut] = Field(description="The worst first.")
    not_judged: list[Message] = Field(description="What else nothing is known of.")
    stops: list[str] = Field(
        description='What must wait for better water: "feeding", "handling", "adding". '
        "Feed, room and grading are taken out of the answers accordingly."
    )


class AdviceOut(Out):
    """What the figures mean for the grower on the day."""

    on: dt.date = Field(description="The day.")
    now: NowOut = Field(description="What the water says now, to be shown first.")
    feed: FigureOut | None = Field(description="Feed for the day, kg.")
    plate: PlateOut | None = Field(
        description="Plate size, of the cohort sampled or the first in the unit."
    )
    oxygen: FigureOut | None = Field(
        description="Oxygen that the fish need, % of what the unit can supply above "
        "its limit."
    )
    outage: OutageFigureOut | None = Field(
        description="Minutes until oxygen is critical, 1440 for a day or more; plan by "
        "the low end."
    )
    biomass: FigureOut | None = Field(description="All fish in the unit, kg.")
    problems: list[Problem] = Field(
        description="What is wrong, missing or doubtful in all answers, once each, "
        "the worst first."
    )
    cautions: list[Message] = Field(description="To be shown with the figures.")


# --- the whole outlook -----------------------------------------------------------


class TakenOut(Record):
    """A harvest of all fish that are surely at plate size."""

    taken_count: int = Field(description="Fish taken.")
    taken_kg: EstimateOut = Field(description="Weight taken, kg.")
    left_count: EstimateOut = Field(description="Fish left.")
    left_kg: EstimateOut = Field(description="Weight left, kg.")


class HarvestDayOut(Record):
    """What is ready on a day."""

    day: dt.date = Field(description="The day.")
    ready_count: EstimateOut = Field(description="Fish at plate size.")
    harvest: TakenOut | None = Field(description="null where none surely is.")


class ConditionOut(Record):
    """Condition factor against the published one at the same length."""

    condition_factor: EstimateOut = Field(description="100 W / L^3 in g and cm.")
    published_condition_factor: float = Field(description="As published, g and cm.")
    verdict: str = Field(description='"low", "normal" or "high".', examples=["normal"])


class GradingOut(Record):
    """Whether sorting by size is worth the handling."""

    small_g: float = Field(description="A tenth of the fish are lighter, g.")
    large_g: float = Field(description="A tenth of the fish are heavier, g.")
    small_mm: float = Field(description="Fork length of the small ones, mm.")
    large_mm: float = Field(description="Fork length of the large ones, mm.")
    advised: bool = Field(description="Whether grading is worth while.")


class WeightOnOut(Out):
    """The mean weight to expect on a day."""

    on: dt.date = Field(description="The day.")
    mean_weight_g: EstimateOut = Field(description="Mean weight, g.")


class CohortOutlookOut(Out):
    """A cohort's growth, harvest, grading and condition."""

    cohort_id: UUID = Field(description="The cohort.")
    name: str = Field(description="Its name.", examples=["Trout of the spring"])
    mean_weight_g: EstimateOut | None = Field(
        description="Mean weight of its fish, g; null where it is not known."
    )
    cv: EstimateOut = Field(description="Spread of single weights, a fraction.")
    cv_is_usual: bool = Field(description="Whether no sample gave one.")
    quantiles_g: dict[str, float] = Field(
        description="Weight, g, by the share of fish that are lighter.",
        examples=[{"0.05": 118.0, "0.5": 177.0, "0.95": 265.0}],
    )
    plate_weight_g: float = Field(description="Plate size, g.", examples=[300.0])
    sgr_percent_per_day: EstimateOut | None = Field(
        description="Specific growth rate of the next 30 days, % a day."
    )
    plate: PlateOut | None = Field(description="When they are at plate size.")
    course: list[WeightOnOut] = Field(description="Mean weight ahead, week by week.")
    harvests: list[HarvestDayOut] = Field(description="What is ready when.")
    condition: ConditionOut | None = Field(description="null where no sample gave it.")
    grading: GradingOut | None = Field(description="null where no weight is known.")


class FeedDayOut(Out):
    """Feed of a day."""

    on: dt.date = Field(description="The day.")
    feed_kg: float = Field(description="Feed of all fish, kg.", examples=[1.1])


class ConversionOut(Record):
    """What earlier feed became."""

    biological: EstimateOut = Field(description="kg of feed per kg grown.")
    economic: EstimateOut = Field(description="kg of feed per kg taken out or left.")
    gain_kg: EstimateOut = Field(description="Weight gained, kg.")


class FeedingOut(Record):
    """Feed of the unit."""

    today_kg: EstimateOut = Field(description="For the day, kg.")
    week_kg: EstimateOut = Field(description="For seven days from the day, kg.")
    given_week_kg: float = Field(description="Given in the last seven days, kg.")
    given_since_kg: float = Field(description="Given since `since`, kg.")
    since: dt.date | None = Field(description="Start of the feed conversion.")
    conversion: ConversionOut | None = Field(description="null where it is not known.")
    days: list[FeedDayOut] = Field(default=[], description="Feed day by day.")


class LimitOut(Record):
    """One limit of the unit."""

    name: str = Field(description="What is limited.", examples=["oxygen"])
    used_fraction: EstimateOut = Field(description="Of the limit; 1 is full.")
    capacity_kg: EstimateOut = Field(description="Fish that would fill it, kg.")
    note: Message = Field(description="Where the limit comes from.")


class LimitsOut(Out):
    """How near the unit is to its limits, now and ahead."""

    density_kg_per_m3: EstimateOut = Field(description="Fish per water, kg per m3.")
    limits: list[LimitOut] = Field(description="The fullest first.")
    room_kg: float = Field(description="Room at the unsafe end, kg; below 0: too much.")
    until: dt.date = Field(description="How far ahead it was looked.")
    first_day_over: dt.date | None = Field(description="When a limit is passed.")
    fish_to_take_out: int = Field(description="Fish that must go by `until`.")
    fingerlings: int = Field(description="Fingerlings that may be added.")
    fingerling_weight_g: float = Field(description="Weight of one of them, g.")
    fingerling_species_key: str = Field(
        description="Their species, that of the first cohort.",
        examples=["rainbow-trout"],
    )
    unionised_ammonia_n_mg_per_l: EstimateOut | None = Field(
        description="Un-ionised ammonia as nitrogen, mg per litre; null if not read."
    )
    nitrate_days_to_limit: int | None = Field(
        description="Days until nitrate is at its limit; null if not within 60 days."
    )
    bed_needed_m2: EstimateOut | None = Field(
        description="Plant bed that the feed carries, m2."
    )


class TimeOut(Record):
    """When oxygen falls to a level."""

    level_mg_per_l: float = Field(description="The level, mg per litre.")
    minutes: EstimateOut = Field(description="Until then, minutes.")


class MeasureOut(Record):
    """Something that buys time."""

    name: Message = Field(description="What is done.", examples=["stop feeding"])
    gained_min: EstimateOut | None = Field(
        description="Time that it buys, minutes; null where nobody knows for how long "
        "it runs."
    )
    note: Message = Field(
        description="For how long it runs.",
        examples=["its battery lasts 10 to 18 h"],
        default=NOTHING,
    )


class StopOut(Record):
    """What happens when something stops."""

    cause: str = Field(
        description='"power", "pump", "intake" (intake or screen blocked, supply cut), '
        '"blower" (all aerators), "device" (one of them alone) or "oxygen" (its supply '
        "is empty)."
    )
    device: str = Field(
        description='The aerator that stops alone, with the cause "device".', default=""
    )
    name: Message = Field(description="What stops, in words.", examples=["Power cut"])
    to_caution: TimeOut = Field(description="Until the caution level.")
    to_critical: TimeOut = Field(description="Until the critical level.")
    measures: list[MeasureOut] = Field(description="What buys time, the surest first.")
    holding_air_standard_transfer_g_per_h: EstimateOut = Field(
        description="Backup air that holds the caution level, g of oxygen an hour "
        "at the standard rate."
    )
    holding_water_l_per_min: EstimateOut = Field(
        description="Fresh water that holds the caution level, litres per minute."
    )


class OutlookOut(AdviceOut):
    """All that the book says of a unit on a day."""

    ration_kg: EstimateOut | None = Field(
        description="Feed for the day, kg; 0 where the water stops feeding, null where "
        "it is not known."
    )
    room_kg: EstimateOut | None = Field(
        description="How much more fish by the nearest limit, kg: `value` and `low` at "
        "the unsafe end, `high` by the likely figures; 0 where the water stops "
        "adding, null where it is not known."
    )
    biomass_kg: EstimateOut | None = Field(
        description="All fish in the unit, kg; null where the weight of some is not "
        "known."
    )
    fish_count: EstimateOut = Field(description="Fish in the unit.")
    unit_id: UUID = Field(description="The unit.")
    about: str = Field(
        description="What the book says of its data, to be shown.",
        examples=["The spring tanks: invented data to try things on."],
    )
    water: dict[str, str | float | None] = Field(
        description="The water calculated with: readings that still count or what is "
        "to be expected; names end in the unit."
    )
    cohorts: list[CohortOutlookOut] = Field(description="The fish, cohort by cohort.")
    feeding: FeedingOut | None = Field(description="null where no growth is known.")
    limits: LimitsOut | None = Field(description="null where no weight is known.")
    outages: list[StopOut] = Field(description="The soonest critical first.")
    notes: list[Message] = Field(
        description="Sources and allowances behind the figures."
    )
