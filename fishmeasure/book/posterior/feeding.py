"""Feed as evidence of growth: periods of regular feeding, and what feed becomes.

Feed = maintenance + partial conversion x gain, so that winter feed is no growth.
"""

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from statistics import median
from typing import Final
from uuid import UUID

from fishmeasure.book.posterior.priors import (
    CONVERSION_AT_G,
    FEED_KJ_PER_KG,
    FEED_PERIOD_SD,
    KJ_PER_G_OXYGEN,
    RESTING_SHARE,
)
from fishmeasure.husbandry.oxygen import fasted_use_mg_per_kg_h
from fishmeasure.species import FarmedSpecies, farmed_species

_PERIOD_DAYS: Final = 21
_LEAST_MEALS: Final = 3
# A longer silence, or one of four usual gaps, is a diary not kept rather than a fast.
_SILENCE_DAYS: Final = 7
_USUAL_GAPS: Final = 4
# Of taking maintenance off a feed conversion, which is of no stated weight and warmth;
# common practice, no source.
_PARTIAL_SD: Final = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedPeriod:
    """Feed of one cohort in one unit from one day to another, as ordinals.

    ``sd_fraction`` is the error of what was eaten, of the period's ends and of the
    cohort's share; ``most_on`` the day on which most was fed.
    """

    unit_id: UUID
    start: int
    end: int
    feed_kg: float
    sd_fraction: float
    most_on: int


def feed_periods(
    unit_id: UUID,
    by_day: Mapping[int, float],
    on: int,
    share_sd: float = 0.0,
) -> list[FeedPeriod]:
    """Return the periods of regular feeding up to a day.

    What is fed on the last day has become no growth yet. A silence ends a period:
    that nothing was entered is no proof that nothing was given.
    """
    days = sorted(day for day, kg in by_day.items() if kg > 0.0)
    if len(days) < _LEAST_MEALS:
        return []
    gaps = [later - day for day, later in itertools.pairwise(days)]
    usual = max(1, round(median(gaps)))
    found: list[FeedPeriod] = []
    meals: list[int] = []

    def close(end: int) -> None:
        end = min(end, on)
        fed = [day for day in meals if day < end]
        if len(fed) >= _LEAST_MEALS:
            error = math.hypot(FEED_PERIOD_SD, 0.5 / len(fed), share_sd)
            kg = sum(by_day[day] for day in fed)
            found.append(
                FeedPeriod(
                    unit_id=unit_id,
                    start=fed[0],
                    end=end,
                    feed_kg=kg,
                    sd_fraction=error,
                    most_on=max(fed, key=by_day.__getitem__),
                )
            )
        meals.clear()

    for day in days:
        if meals and day - meals[-1] > max(_SILENCE_DAYS, _USUAL_GAPS * usual):
            close(meals[-1] + usual)
        elif len(meals) >= _LEAST_MEALS and day - meals[0] >= _PERIOD_DAYS:
            close(day)
        meals.append(day)
    close(meals[-1] + usual)
    return found


def maintenance_per_day(
    figures: FarmedSpecies, weight_g: float, temperature_deg_c: float
) -> float:
    """Return the feed that keeps a kilogram of fish as it is, in kg a day.

    What fasted fish burn, in energy of feed.
    """
    use = fasted_use_mg_per_kg_h(figures, weight_g, temperature_deg_c)
    grams = RESTING_SHARE * use * 24.0 / 1000.0
    return grams * KJ_PER_G_OXYGEN / FEED_KJ_PER_KG


@cache
def partial_conversion(species_key: str) -> tuple[float, float]:
    """Return the feed per gain above maintenance, and the sd of its ln.

    The species' feed conversion less the maintenance of fish that grow by the
    published coefficient at their optimum.
    """
    figures = farmed_species(species_key)
    fcr, warmth = figures.feed.fcr, figures.growth.optimum_temperature_deg_c.value
    root = math.cbrt(CONVERSION_AT_G)
    gain = 3.0 * figures.growth.tgc_x1000.value / 1000.0 * warmth / root
    kept = maintenance_per_day(figures, CONVERSION_AT_G, warmth) / gain
    sd = math.hypot(fcr.relative_sd, _PARTIAL_SD)
    return max(fcr.value - kept, 0.5 * fcr.value), sd
