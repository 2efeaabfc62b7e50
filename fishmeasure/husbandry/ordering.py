"""Fingerlings to order for a harvest: how many, of what size, and when."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Final, Literal

from pydantic import Field

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.growth import WeightSample, fit_growth
from fishmeasure.husbandry.harvest import DateEstimate
from fishmeasure.husbandry.projection import MAX_DAYS, GrowthProjection, project_growth
from fishmeasure.husbandry.propagation import exact
from fishmeasure.husbandry.temperature import TemperatureForecast

SURVIVAL: Final = Estimate(value=0.85, sd=0.06, low=0.75, high=0.95)
"""From fingerling to plate; common practice, no source: say your own."""
_G_PER_KG: Final = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FingerlingOrder:
    """What to order so that a harvest is had on a day.

    Attributes
    ----------
    fish_count
        Fish to stock; ``high`` is what the low end of survival needs.
    stock_on
        When fish of this size must come at the latest; its ``earliest`` is when slow
        growth needs them, ``latest`` when fast growth does. None within the time that
        is left: fish must be larger then.
    fingerling_g
        Size at which they come.
    weight_kg
        Of the order.
    """

    harvest_kg: float
    harvest_on: date
    plate_g: float
    fish_count: Estimate
    stock_on: DateEstimate
    fingerling_g: float
    weight_kg: float
    survival: Estimate
    notes: tuple[Message, ...] = ()
    problems: Annotated[
        tuple[Problem, ...], Field(description="What is doubtful about it.")
    ] = ()


def order_fingerlings(
    *,
    species_key: str,
    temperature: TemperatureForecast,
    harvest_kg: float,
    harvest_on: date,
    plate_g: float,
    fingerling_g: float,
    today: date,
    survival: Estimate = SURVIVAL,
) -> FingerlingOrder:
    """Return how many fingerlings of a size must come, and when.

    The mean weight is to be at plate size on the day of the harvest. Growth is by the
    species' published coefficient and this water; its interval is that of the date.

    Raises
    ------
    StockRangeError
        If a figure is out of range, or the harvest is not ahead within 1500 days.
    UnknownStockSpeciesError
        If the species has no growth figures.
    """
    require("kilograms of the harvest", harvest_kg, "kg", 0.1, 1e6)
    require("days to the harvest", (harvest_on - today).days, "days", 1.0, MAX_DAYS)
    require("plate size", plate_g, "g", 1.0, 200_000.0)
    require("weight of the fingerlings", fingerling_g, "g", 0.05, plate_g * 0.99)
    require("survival", survival.low, "", 0.05, 1.0)

    def grown(start: date) -> GrowthProjection:
        fit = fit_growth(
            samples=(WeightSample(day=start, mean_weight_g=exact(fingerling_g)),),
            temperature=temperature,
            species_key=species_key,
        )
        days = (harvest_on - start).days
        return project_growth(fit=fit, temperature=temperature, days=days)

    latest = _latest_start(grown, today, harvest_on, plate_g, "value")
    fish = harvest_kg * _G_PER_KG / plate_g
    count = Estimate(
        value=fish / survival.value,
        sd=fish / survival.value * survival.sd / survival.value,
        low=fish / survival.high,
        high=fish / survival.low,
        level=survival.level,
    )
    ahead = grown(latest or today)
    return FingerlingOrder(
        harvest_kg=harvest_kg,
        harvest_on=harvest_on,
        plate_g=plate_g,
        fish_count=count,
        stock_on=DateEstimate(
            day=latest,
            earliest=_latest_start(grown, today, harvest_on, plate_g, "low"),
            latest=_latest_start(grown, today, harvest_on, plate_g, "high"),
            level=ahead.level,
        ),
        fingerling_g=fingerling_g,
        weight_kg=count.value * fingerling_g / _G_PER_KG,
        survival=survival,
        notes=ahead.notes,
        problems=(
            *ahead.problems,
            *(() if latest else (_too_late(ahead, harvest_on, plate_g),)),
        ),
    )


def _latest_start(
    grown: Callable[[date], GrowthProjection],
    today: date,
    harvest_on: date,
    plate_g: float,
    end: Literal["value", "low", "high"],
) -> date | None:
    """Return the last day from which the fish are at plate size in time."""
    first, last = 0, (harvest_on - today).days - 1
    if getattr(grown(today).mean_weight_g(harvest_on), end) < plate_g:
        return None
    while first < last:
        middle = (first + last + 1) // 2
        start = today + timedelta(days=middle)
        if getattr(grown(start).mean_weight_g(harvest_on), end) >= plate_g:
            first = middle
        else:
            last = middle - 1
    return today + timedelta(days=first)


def _too_late(ahead: GrowthProjection, harvest_on: date, plate_g: float) -> Problem:
    reached = ahead.mean_weight_g(harvest_on)
    return Problem.of(
        "too-late-to-order", reached_g=reached.value, on=harvest_on, plate_g=plate_g
    )
