"""Feed: ration by weight and temperature, kilograms ahead, feed conversion."""

import math
from bisect import bisect_right
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

from fishmeasure.base.errors import GainNotKnownError
from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import outside, require, require_temperature
from fishmeasure.husbandry.projection import GrowthProjection
from fishmeasure.husbandry.propagation import (
    exact,
    lognormal,
    product,
    relative_sd,
    scaled,
    sum_common,
)
from fishmeasure.husbandry.temperature import (
    TemperatureForecast,
    feeding_problems,
    growing_temperature_deg_c,
)
from fishmeasure.species import farmed_species, water_of
from fishmeasure.species.feed_chart import load_feed_chart

CHART_RELATIVE_SD = 0.15  # between charts and farms; common practice, no source
_CHART_NOTE = Message.of("note-feed-chart")


@dataclass(frozen=True, slots=True, kw_only=True)
class Ration:
    """Feed a day as % of body weight."""

    percent_per_day: Estimate
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()


# --- the trout chart ----------------------------------------------------------


@cache
def _chart_columns() -> tuple[tuple[float, ...], dict[int, tuple[float, ...]]]:
    """Return ln weight at the middle of each size class, and rows by °F.

    The first class has no lower and the last no upper weight; their known end
    stands for them.
    """
    rows: dict[int, list[float]] = {}
    middles: dict[str, float] = {}
    for cell in load_feed_chart():
        known = [w for w in (cell.min_weight_g, cell.max_weight_g) if w is not None]
        middles[cell.size_class_in] = math.log(math.prod(known)) / len(known)
        rows.setdefault(cell.temperature_deg_f, []).append(cell.percent_per_day)
    return tuple(middles.values()), {temp: tuple(row) for temp, row in rows.items()}


def chart_percent_per_day(*, mean_weight_g: float, temperature_deg_c: float) -> float:
    """Return the chart's ration between its cells, linear in ln weight and °F.

    At whole °F and a size class's middle weight (geometric mean of its limits) it
    is the printed cell. Weights beyond the end classes take those; temperatures
    outside 36-68 °F take the nearest row.
    """
    middles, rows = _chart_columns()
    temperature_deg_f = min(max(temperature_deg_c * 1.8 + 32.0, min(rows)), max(rows))
    log_weight = min(max(math.log(mean_weight_g), middles[0]), middles[-1])
    column = min(bisect_right(middles, log_weight), len(middles) - 1)
    across = (log_weight - middles[column - 1]) / (
        middles[column] - middles[column - 1]
    )
    row = min(math.floor(temperature_deg_f + 1e-9), max(rows) - 1)
    down = temperature_deg_f - row

    def at_row(temp: int) -> float:
        left, right = rows[temp][column - 1], rows[temp][column]
        return left + across * (right - left)

    return at_row(row) + down * (at_row(row + 1) - at_row(row))


# --- ration -------------------------------------------------------------------


def _chart_ration(
    mean_weight_g: float, temperature_deg_c: float, level: float
) -> Ration:
    _, rows = _chart_columns()
    low_deg_c, high_deg_c = (round((f - 32.0) / 1.8, 1) for f in (min(rows), max(rows)))
    percent = chart_percent_per_day(
        mean_weight_g=mean_weight_g, temperature_deg_c=temperature_deg_c
    )
    return Ration(
        percent_per_day=lognormal(percent, CHART_RELATIVE_SD, level),
        notes=(_CHART_NOTE,),
        problems=outside(
            "water temperature", temperature_deg_c, "°C", low_deg_c, high_deg_c
        ),
    )


def _no_ration(
    species_key: str, temperature_deg_c: float, level: float
) -> Ration | None:
    """Return a ration of nothing where the species does not feed, else None."""
    problems = feeding_problems(species_key, temperature_deg_c)
    if not problems:
        return None
    band = water_of(species_key)
    end = (
        band.feeding_high_deg_c
        if temperature_deg_c > band.feeding_high_deg_c.value
        else band.feeding_low_deg_c
    )
    return Ration(
        percent_per_day=exact(0.0, level),
        notes=(end.note(Message.of("note-feeding-ends", end_deg_c=end.value)),),
        problems=problems,
    )


def ration(
    *,
    species_key: str,
    mean_weight_g: float,
    temperature_deg_c: float,
    tgc_x1000: Estimate | None = None,
    level: float = DEFAULT_LEVEL,
) -> Ration:
    """Return the day's ration of a species.

    Trout (rainbow, brown, brook): the chart of Leitritz & Lewis. Others, the
    stated simpler rule: the day's expected growth (``tgc_x1000``, by default the
    published one) times the feed conversion ratio. Nothing outside the temperatures at
    which the species feeds (``WaterFigures``).

    Raises
    ------
    UnknownStockSpeciesError, StockRangeError
    """
    require("mean weight", mean_weight_g, "g", 0.01, 50_000.0)
    require_temperature(temperature_deg_c)
    figures = farmed_species(species_key)
    nothing = _no_ration(species_key, temperature_deg_c, level)
    if nothing is not None:
        return nothing
    if figures.feed.rule == "chart":
        return _chart_ration(mean_weight_g, temperature_deg_c, level)
    published, fcr = figures.growth.tgc_x1000, figures.feed.fcr
    if tgc_x1000 is None:
        tgc, tgc_spread = published.value, published.relative_sd
    else:
        tgc, tgc_spread = max(tgc_x1000.value, 0.0), relative_sd(tgc_x1000)
    warmth = growing_temperature_deg_c(temperature_deg_c, figures)
    gain = (1.0 + tgc * warmth / 1000.0 / math.cbrt(mean_weight_g)) ** 3 - 1.0
    spread = math.hypot(fcr.relative_sd, tgc_spread)
    notes = [
        Message.of("note-ration-by-growth"),
        fcr.note(Message.of("note-feed-conversion", fcr=fcr.value)),
    ]
    if tgc_x1000 is None:
        notes.append(published.note(Message.of("note-tgc", tgc=published.value)))
    return Ration(
        percent_per_day=lognormal(100.0 * gain * fcr.value, spread, level),
        notes=tuple(notes),
    )


# --- kilograms ahead ----------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedDay:
    """One day of a feed plan."""

    day: date
    temperature_deg_c: float
    mean_weight_g: Estimate
    percent_per_day: Estimate
    feed_kg: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedPlan:
    """Feed on each day and in all, growing with the fish between samples."""

    days: tuple[FeedDay, ...]
    total_kg: Estimate
    notes: tuple[Message, ...] = ()
    problems: tuple[Problem, ...] = ()


def daily_feed_kg(*, biomass_kg: Estimate, ration_: Ration) -> Estimate:
    """Return kilograms of feed a day."""
    return product(
        biomass_kg, ration_.percent_per_day, scale=0.01, level=biomass_kg.level
    )


def feed_plan(
    *,
    projection: GrowthProjection,
    fish_count: Estimate,
    temperature: TemperatureForecast,
    start: date,
    days: int = 7,
    tgc_x1000: Estimate | None = None,
) -> FeedPlan:
    """Return the feed of the days ahead, by the projected weight of each day.

    The errors of count, weight and chart are common to all days, so those of the
    days add and do not average out. ``tgc_x1000`` is the cohort's own, for species
    without a chart; None takes the published one.

    Raises
    ------
    StockRangeError
        If the days run out of the projection.
    """
    require("days of feed", days, "days", 1.0, 400.0)
    plan: list[FeedDay] = []
    notes: tuple[Message, ...] = ()
    problems: dict[str, Problem] = {}
    for offset in range(days):
        day = start + timedelta(days=offset)
        mean = projection.mean_weight_g(day)
        temperature_deg_c = temperature.on(day)
        today = ration(
            species_key=projection.species_key,
            mean_weight_g=mean.value,
            temperature_deg_c=temperature_deg_c,
            tgc_x1000=tgc_x1000,
            level=projection.level,
        )
        biomass = projection.biomass_kg(day, fish_count)
        plan.append(
            FeedDay(
                day=day,
                temperature_deg_c=temperature_deg_c,
                mean_weight_g=mean,
                percent_per_day=today.percent_per_day,
                feed_kg=daily_feed_kg(biomass_kg=biomass, ration_=today),
            )
        )
        notes = today.notes
        problems.update({problem.code: problem for problem in today.problems})
    return FeedPlan(
        days=tuple(plan),
        total_kg=sum_common(day.feed_kg for day in plan),
        notes=notes,
        problems=tuple(problems.values()),
    )


# --- feed conversion ----------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedConversion:
    """Kilograms of feed per kilogram gained.

    ``biological`` counts the weight that the dead fish had gained, ``economic``
    only what is alive or sold, so it is never the lower of the two.
    """

    biological: Estimate
    economic: Estimate
    gain_kg: Estimate
    notes: tuple[Message, ...] = ()


def feed_conversion(
    *,
    feed_kg: float,
    start_biomass_kg: Estimate,
    end_biomass_kg: Estimate,
    removed_kg: float = 0.0,
    dead_kg: float = 0.0,
    added_kg: float = 0.0,
) -> FeedConversion:
    """Return the feed conversion ratio of a period.

    Parameters
    ----------
    removed_kg
        Harvested, sold or moved away alive.
    dead_kg
        Weight of the fish that died.
    added_kg
        Stocked or moved in.

    Raises
    ------
    GainNotKnownError
        If the lower end of the gain's interval is not above 0.
    StockRangeError
        If a weight is below 0.
    """
    for name, value in (
        ("feed", feed_kg),
        ("weight removed", removed_kg),
        ("weight of the dead", dead_kg),
        ("weight added", added_kg),
    ):
        require(name, value, "kg", 0.0)
    sd = math.hypot(start_biomass_kg.sd, end_biomass_kg.sd)
    level = end_biomass_kg.level
    net = end_biomass_kg.value + removed_kg - added_kg - start_biomass_kg.value
    return conversion_of_gain(
        feed_kg=feed_kg,
        gain_kg=Estimate.normal(net + dead_kg, sd, level),
        net_gain_kg=Estimate.normal(net, sd, level),
    )


def conversion_of_gain(
    *, feed_kg: float, gain_kg: Estimate, net_gain_kg: Estimate
) -> FeedConversion:
    """Return the feed conversion ratio where the gain is known.

    Parameters
    ----------
    gain_kg
        Of all fish, also those that died later.
    net_gain_kg
        What is alive or was taken of it.

    Raises
    ------
    GainNotKnownError
        If the lower end of the net gain's interval is not above 0.
    """
    if net_gain_kg.low <= 0.0:
        raise GainNotKnownError(net_gain_kg.value, net_gain_kg.sd)
    return FeedConversion(
        biological=_feed_over(feed_kg, gain_kg),
        economic=_feed_over(feed_kg, net_gain_kg),
        gain_kg=net_gain_kg,
        notes=(Message.of("note-feed-weighed"),),
    )


def _feed_over(feed_kg: float, gain_kg: Estimate) -> Estimate:
    inverse = Estimate(
        value=1.0 / gain_kg.value,
        sd=gain_kg.sd / gain_kg.value**2,
        low=1.0 / gain_kg.high,
        high=1.0 / gain_kg.low,
        level=gain_kg.level,
    )
    return scaled(inverse, feed_kg)
