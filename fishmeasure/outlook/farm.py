"""All units on a day: what is most urgent first, and what the farm has and needs."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final, Literal
from uuid import UUID

from pydantic import Field

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.entries import Entry, Feed, FeedBought
from fishmeasure.book.order import in_force
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.book.withdrawal import Withdrawal
from fishmeasure.husbandry.harvest import DateEstimate, count_above
from fishmeasure.husbandry.now import Now
from fishmeasure.husbandry.propagation import sum_common, total
from fishmeasure.husbandry.stocking import Limit
from fishmeasure.outlook.fish import CohortOutlook
from fishmeasure.outlook.unit import CAUTIONS, UnitOutlook, outlooks_of

SAMPLE_EVERY_DAYS: Final = 30
"""Growing fish are sampled once a month; common practice, no source."""
FEED_AHEAD_DAYS: Final = 28
_MOST_PROBLEMS: Final = 5
_ENOUGH_FED: Final = 0.5
"""Of the ration: less than half of it by now is still to be fed. Our own choice."""
_URGENCY: Final = ("act", "watch", "unknown", "good")

DueCode = Literal["feed", "sample", "plate-size"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """What is to be done or known in a unit today."""

    code: DueCode
    message: Annotated[Message, Field(description="One line, to be shown.")]


@dataclass(frozen=True, slots=True, kw_only=True)
class FarmFish:
    """A cohort's fish in a unit, in short."""

    cohort_id: UUID
    cohort: str
    species_key: str
    fish_count: Estimate
    mean_weight_g: Estimate | None
    biomass_kg: Estimate | None
    plate_weight_g: float
    ready_count: Annotated[
        Estimate | None,
        Field(description="Fish at plate size today; null where it is not known."),
    ]
    half_at_plate_size: Annotated[
        DateEstimate | None, Field(description="When half of them are.")
    ]
    last_sampled_on: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FarmUnit:
    """A unit, in short: a row of the farm's page and a card of the phone's."""

    unit_id: UUID
    name: str
    kind: str
    now: Annotated[Now, Field(description="What the water says now.")]
    due: Annotated[tuple[Due, ...], Field(description="What is due today.")]
    fish: tuple[FarmFish, ...]
    fish_count: Estimate
    biomass_kg: Annotated[
        Estimate | None, Field(description="Null where a weight is not known.")
    ]
    ration_kg: Annotated[
        Estimate | None, Field(description="Feed for the day, kg; null where unknown.")
    ]
    fed_today_kg: float
    last_feed: Annotated[Feed | None, Field(description="The last one entered.")]
    fullest_limit: Limit | None
    withdrawals: Annotated[
        tuple[Withdrawal, ...],
        Field(description="Medicines because of which no fish may be taken for food."),
    ]
    problems: Annotated[
        tuple[Problem, ...], Field(description="The worst first, five at most.")
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedLot:
    """Feed of one name: bought, given and left."""

    feed_name: str
    pellet_mm: Annotated[
        float | None, Field(description="Pellet size of the last purchase, mm.")
    ]
    bought_kg: float
    fed_kg: float
    left_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedStore:
    """Feed bought and not yet given, and how long it lasts.

    ``counted_since`` is the day of the first purchase: what was fed before came out of
    feed that nobody entered.
    """

    counted_since: date
    bought_kg: float
    fed_kg: float
    left_kg: Annotated[
        float, Field(description="Below 0 where more was fed than bought.")
    ]
    days_left: Annotated[
        float | None,
        Field(description="Days at today's rations; null where none is known."),
    ]
    to_buy_kg: Annotated[
        Estimate | None, Field(description="What four weeks take beyond what is left.")
    ]
    lots: Annotated[
        tuple[FeedLot, ...], Field(description="By name, where purchases have one.")
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class FarmOutlook:
    """The whole farm on a day.

    ``units`` are the most urgent first. The sums leave out what is not known;
    ``units_unknown`` says in how many units.
    """

    on: date
    about: Annotated[str, Field(description="What the book says of its data.")]
    units: tuple[FarmUnit, ...]
    fish_count: Estimate
    biomass_kg: Estimate
    ration_kg: Estimate
    units_unknown: Annotated[
        int, Field(description="Units with fish whose kilograms are not known.")
    ]
    feed: Annotated[FeedStore | None, Field(description="Null before a purchase.")]
    cautions: tuple[Message, ...] = CAUTIONS


@dataclass(frozen=True, slots=True, kw_only=True)
class FarmPart:
    """What the farm's page has of units that share fish with no others.

    ``fed_kg`` is by name of the feed, since the first purchase.
    """

    rows: tuple[FarmUnit, ...]
    biomass_kg: tuple[Estimate, ...]
    week_kg: tuple[Estimate, ...]
    fed_kg: Mapping[str, float]


def farm_outlook(
    units: Iterable[Unit],
    cohorts: Iterable[Cohort],
    entries: Iterable[Entry],
    *,
    on: date,
    about: str = "",
) -> FarmOutlook:
    """Return all units of a farm at the end of a day, by one replay of the book."""
    units, entries = tuple(units), tuple(entries)
    outlooks = outlooks_of(units, tuple(cohorts), entries, on=on, about=about)
    counting = tuple(entry for entry in in_force(entries) if entry.on <= on)
    bought = tuple(entry for entry in counting if isinstance(entry, FeedBought))
    part = farm_part(outlooks, counting, bought_since=first_bought(bought))
    return farm_of((part,), bought, on=on, about=about)


def first_bought(bought: Iterable[FeedBought]) -> date | None:
    """Return the day of the first purchase of feed."""
    return min((entry.on for entry in bought), default=None)


def farm_part(
    outlooks: Iterable[UnitOutlook],
    counting: Iterable[Entry],
    *,
    bought_since: date | None,
) -> FarmPart:
    """Return what the farm's page has of some units.

    Parameters
    ----------
    counting
        Entries in force up to the day, in the order in which they count.
    """
    outlooks = tuple(outlooks)
    feeds: dict[UUID, list[Feed]] = {one.unit.id: [] for one in outlooks}
    fed: dict[str, float] = {}
    for entry in counting:
        if isinstance(entry, Feed):
            feeds[entry.unit_id].append(entry)
            if bought_since is not None and entry.on >= bought_since:
                name = entry.feed_name.casefold()
                fed[name] = fed.get(name, 0.0) + entry.feed_kg
    weeks = (one.feeding.week_kg for one in outlooks if one.feeding is not None)
    return FarmPart(
        rows=tuple(_unit(one, feeds[one.unit.id]) for one in outlooks),
        biomass_kg=tuple(_biomass(outlooks)),
        week_kg=tuple(weeks),
        fed_kg=fed,
    )


def farm_of(
    parts: Iterable[FarmPart],
    bought: Iterable[FeedBought],
    *,
    on: date,
    about: str = "",
) -> FarmOutlook:
    """Return the farm of all its parts.

    Parameters
    ----------
    bought
        Purchases of feed in force up to the day, in the order in which they count.
    """
    parts = tuple(parts)
    rows = sorted((row for part in parts for row in part.rows), key=_urgency)
    return FarmOutlook(
        on=on,
        about=about,
        units=tuple(rows),
        fish_count=total(*(row.fish_count for row in rows)),
        biomass_kg=total(*(one for part in parts for one in part.biomass_kg)),
        ration_kg=sum_common(row.ration_kg for row in rows if row.ration_kg),
        units_unknown=sum(
            row.biomass_kg is None and row.fish_count.high > 0.0 for row in rows
        ),
        feed=_feed_store(parts, tuple(bought)),
    )


def _urgency(row: FarmUnit) -> tuple[int, int, str]:
    empty = row.fish_count.high <= 0.0
    rank = len(_URGENCY) if empty else _URGENCY.index(row.now.verdict)
    return rank, -len(row.due), row.name.casefold()


def _unit(outlook: UnitOutlook, feeds: Sequence[Feed]) -> FarmUnit:
    unit, on = outlook.unit, outlook.on
    fed_kg = sum(feed.feed_kg for feed in feeds if feed.on == on)
    fish = tuple(_fish(one, on) for one in outlook.cohorts)
    waits = tuple(one for one in outlook.withdrawals if one.holds_on(on))
    load = None if outlook.limits is None else outlook.limits.load
    return FarmUnit(
        unit_id=unit.id,
        name=unit.name,
        kind=unit.kind,
        now=outlook.now,
        due=tuple(_due(outlook, fish, fed_kg, may_be_taken=not waits)),
        fish=fish,
        fish_count=outlook.fish_count,
        biomass_kg=outlook.biomass_kg,
        ration_kg=outlook.ration_kg,
        fed_today_kg=fed_kg,
        last_feed=feeds[-1] if feeds else None,
        fullest_limit=load.limits[0] if load is not None and load.limits else None,
        withdrawals=waits,
        problems=outlook.problems[:_MOST_PROBLEMS],
    )


def _fish(one: CohortOutlook, on: date) -> FarmFish:
    ready = None
    if one.projection is not None and one.fish.fish_count.value > 0.0:
        ready = count_above(
            projection=one.projection,
            fish_count=one.fish.fish_count,
            cv=one.cv,
            size_g=one.plate_weight_g,
            day=on,
        )
    return FarmFish(
        cohort_id=one.cohort.id,
        cohort=one.cohort.name,
        species_key=one.cohort.species_key,
        fish_count=one.fish.fish_count,
        mean_weight_g=one.mean_weight_g,
        biomass_kg=one.fish.biomass_kg,
        plate_weight_g=one.plate_weight_g,
        ready_count=ready,
        half_at_plate_size=None if one.plate_dates is None else one.plate_dates.half,
        last_sampled_on=one.fish.last_sampled_on,
    )


def _due(
    outlook: UnitOutlook,
    fish: tuple[FarmFish, ...],
    fed_kg: float,
    *,
    may_be_taken: bool,
) -> Iterable[Due]:
    ration = outlook.ration_kg
    if ration is not None and fed_kg < _ENOUGH_FED * ration.value:
        told = Message.of("due-feed", ration_kg=ration.value, fed_kg=fed_kg)
        yield Due(code="feed", message=told)
    stopped = outlook.now.stopped_by("handling") is not None
    for one in fish:
        last = one.last_sampled_on
        late = last is None or (outlook.on - last).days >= SAMPLE_EVERY_DAYS
        if late and one.fish_count.high > 0.0 and not stopped:
            case = "never" if last is None else "late"
            told = Message.of("due-sample", case=case, cohort=one.cohort, on=last)
            yield Due(code="sample", message=told)
        # The low end: what surely is ready.
        ready = one.ready_count
        if ready is not None and ready.low >= 1.0 and may_be_taken:
            told = Message.of(
                "due-plate-size",
                fish_count=int(ready.low),
                cohort=one.cohort,
                plate_g=one.plate_weight_g,
            )
            yield Due(code="plate-size", message=told)


def _biomass(outlooks: Iterable[UnitOutlook]) -> Iterable[Estimate]:
    """Yield the kilograms of each cohort's fish of known weight.

    One sample weighs a cohort in all its units, so these err alike; cohorts do not.
    """
    by_cohort: dict[UUID, list[Estimate]] = {}
    for outlook in outlooks:
        for one in outlook.state.cohorts:
            if one.biomass_kg is not None:
                by_cohort.setdefault(one.cohort.id, []).append(one.biomass_kg)
    return (sum_common(parts) for parts in by_cohort.values())


def _feed_store(
    parts: tuple[FarmPart, ...], bought: tuple[FeedBought, ...]
) -> FeedStore | None:
    since = first_bought(bought)
    if since is None:
        return None
    fed: dict[str, float] = {}
    for part in parts:
        for name, kg in part.fed_kg.items():
            fed[name] = fed.get(name, 0.0) + kg
    bought_kg = sum(entry.feed_kg for entry in bought)
    fed_kg = sum(fed.values())
    left_kg = bought_kg - fed_kg
    known = (row.ration_kg for part in parts for row in part.rows)
    rations = [ration.value for ration in known if ration is not None]
    weeks = [week_kg for part in parts for week_kg in part.week_kg]
    ahead = sum_common(weeks)
    weeks_ahead = FEED_AHEAD_DAYS / 7.0
    return FeedStore(
        counted_since=since,
        bought_kg=bought_kg,
        fed_kg=fed_kg,
        left_kg=left_kg,
        days_left=max(0.0, left_kg) / sum(rations) if sum(rations) > 0.0 else None,
        to_buy_kg=_beyond(ahead, weeks_ahead, left_kg) if weeks else None,
        lots=tuple(_lots(bought, fed)),
    )


def _lots(bought: Sequence[FeedBought], fed: Mapping[str, float]) -> Iterable[FeedLot]:
    """Yield what was bought and given by name; capitals make no other feed."""
    for key in dict.fromkeys(one.feed_name.casefold() for one in bought):
        if not key:
            continue
        own = [one for one in bought if one.feed_name.casefold() == key]
        sizes = [one.pellet_mm for one in own if one.pellet_mm is not None]
        bought_kg = sum(one.feed_kg for one in own)
        fed_kg = fed.get(key, 0.0)
        yield FeedLot(
            feed_name=own[-1].feed_name,
            pellet_mm=sizes[-1] if sizes else None,
            bought_kg=bought_kg,
            fed_kg=fed_kg,
            left_kg=bought_kg - fed_kg,
        )


def _beyond(week_kg: Estimate, weeks: float, left_kg: float) -> Estimate:
    """Return what is still to be had when so much is there; never less than none."""
    ends = [
        max(0.0, weeks * end - max(0.0, left_kg))
        for end in (week_kg.value, week_kg.low, week_kg.high)
    ]
    return Estimate(value=ends[0], sd=weeks * week_kg.sd, low=ends[1], high=ends[2])
