"""Weekly harvests: so many fish, so many kilograms, or all that are at a size."""

import math
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from fishmeasure.base.errors import WeeklyHarvestError
from fishmeasure.base.estimate import Estimate
from fishmeasure.husbandry.checks import require
from fishmeasure.husbandry.harvest import HarvestPlan, WeightSpread, harvest_plan
from fishmeasure.husbandry.projection import GrowthProjection

_MAX_DAYS = 1500.0  # of a projection of growth


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeklyHarvest:
    """A harvest of the largest fish every seven days, from a day to a day.

    Exactly one of the three says how many each time.

    Attributes
    ----------
    fish_count
        The same number every week.
    biomass_kg
        As few fish as are expected to weigh so much.
    size_g
        All that are expected to be at this weight, so that each leaves at it.

    Raises
    ------
    WeeklyHarvestError, StockRangeError
    """

    start: date
    until: date
    fish_count: int | None = None
    biomass_kg: float | None = None
    size_g: float | None = None

    def __post_init__(self) -> None:
        given = (self.fish_count, self.biomass_kg, self.size_g)
        if sum(figure is not None for figure in given) != 1:
            raise WeeklyHarvestError
        days = (self.until - self.start).days
        require("time from the first to the last harvest", days, "days", 0, _MAX_DAYS)
        require("fish a week", self.fish_count or 0, "", 0.0)
        if self.biomass_kg is not None:
            require("harvest of a week", self.biomass_kg, "kg", 0.001)
        if self.size_g is not None:
            require("size", self.size_g, "g", 0.1)

    @property
    def days(self) -> tuple[date, ...]:
        """The days of harvest."""
        weeks = (self.until - self.start).days // 7
        return tuple(self.start + timedelta(weeks=week) for week in range(weeks + 1))


def weekly_plan(
    *,
    projection: GrowthProjection,
    fish_count: Estimate,
    cv: Estimate,
    weekly: WeeklyHarvest,
) -> HarvestPlan:
    """Return how many fish to take each week, and what that yields and leaves.

    Numbers are those of the expected weights; ranks are kept, as in ``harvest_plan``.

    Raises
    ------
    StockRangeError
        If a day lies outside the projection.
    """
    require("number of fish", fish_count.value, "", 1.0)
    require("coefficient of variation", cv.value, "", 0.0, 1.5)
    spreads = [
        WeightSpread(mean_g=projection.mean_weight_g(day).value, cv=cv.value)
        for day in weekly.days
    ]
    count = math.floor(fish_count.value + 1e-9)
    gone = [0]  # fish taken until then
    for spread in spreads:
        gone.append(min(_gone(spread, gone[-1], fish_count.value, weekly), count))
    return harvest_plan(
        projection=projection,
        fish_count=fish_count,
        cv=cv,
        takes=tuple(
            (day, after - before)
            for day, (before, after) in zip(weekly.days, pairwise(gone), strict=True)
        ),
    )


def _gone(
    spread: WeightSpread, gone: int, fish_count: float, weekly: WeeklyHarvest
) -> int:
    """Return how many fish will be gone after a day's harvest."""
    if weekly.size_g is not None:
        at_size = math.floor(fish_count * spread.fraction_above(weekly.size_g))
        return max(at_size, gone)
    if weekly.biomass_kg is not None:
        return gone + _fewest(spread, gone, fish_count, weekly.biomass_kg)
    return gone + (weekly.fish_count or 0)


def _fewest(spread: WeightSpread, gone: int, fish_count: float, wanted: float) -> int:
    """Return the fewest of the largest fish left that weigh so many kilograms."""
    enough_g = 1000.0 * wanted * (1.0 - 1e-9)  # what rounding may take away
    fewest, most = 0, math.floor(fish_count + 1e-9) - gone
    while fewest < most:
        middle = (fewest + most) // 2
        upper = 1.0 - gone / fish_count
        lower = max(upper - middle / fish_count, 0.0)
        mean_g = spread.mean_between_ranks_g(lower, upper) if middle else 0.0
        if middle * mean_g >= enough_g:
            most = middle
        else:
            fewest = middle + 1
    return fewest
