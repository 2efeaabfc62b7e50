"""Question 4: feed."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from fishmeasure.base.estimate import Estimate
from fishmeasure.book.entries import Entry, Feed
from fishmeasure.book.state import UnitState
from fishmeasure.husbandry.feed import (
    FeedConversion,
    FeedPlan,
    conversion_of_gain,
    feed_plan,
)
from fishmeasure.husbandry.propagation import sum_common, total
from fishmeasure.outlook.attempts import Attempts
from fishmeasure.outlook.fish import CohortOutlook

PROTEIN: Final = (0.05, 0.8)  # what can be fish feed; outside it is a typing error


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding:
    """Feed of the unit: today, the week ahead, and what earlier feed became.

    ``protein_percent`` is that of the feed of the last month, by weight; None where
    no entry says. ``plans`` has one for each cohort, in the order of the outlook.
    ``conversion`` is None where it cannot be told, as before fish of every cohort were
    weighed again; it runs from ``since``.
    """

    today_kg: Estimate
    week_kg: Estimate
    plans: tuple[FeedPlan, ...]
    given_week_kg: float
    given_since_kg: float
    since: date | None
    conversion: FeedConversion | None
    protein_percent: float | None = None


def feeding(
    cohorts: tuple[CohortOutlook, ...],
    state: UnitState,
    here: tuple[Entry, ...],
    tried: Attempts,
) -> Feeding | None:
    """Return the feed plan; None where no cohort's growth is known.

    ``here`` are the unit's entries.
    """
    plans = tuple(
        feed_plan(
            projection=item.projection,
            fish_count=item.fish.fish_count,
            temperature=state.temperature,
            start=state.on,
            tgc_x1000=None
            if item.fish.growth is None
            else item.fish.growth.present_tgc_x1000,
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
    if since is not None and given_since > 0.0 and _sampled_since(state, since):
        conversion = tried.get(lambda: _conversion(state, given_since))
    return Feeding(
        today_kg=sum_common(plan.days[0].feed_kg for plan in plans),
        week_kg=sum_common(plan.total_kg for plan in plans),
        plans=plans,
        given_week_kg=sum(feed.feed_kg for feed in feeds if feed.on > week_ago),
        given_since_kg=given_since,
        since=since,
        conversion=conversion,
        protein_percent=_protein_percent(feeds, state.on),
    )


def _protein_percent(feeds: list[Feed], on: date) -> float | None:
    month_ago = on - timedelta(days=30)
    known = [
        (feed.feed_kg, feed.protein_fraction)
        for feed in feeds
        if feed.protein_fraction is not None
        and PROTEIN[0] <= feed.protein_fraction <= PROTEIN[1]
        and feed.feed_kg > 0.0
        and feed.on > month_ago
    ]
    weight = sum(kg for kg, _ in known)
    if not weight:
        return None
    return 100.0 * sum(kg * fraction for kg, fraction in known) / weight


def _conversion_start(state: UnitState, here: tuple[Entry, ...]) -> date | None:
    """Return the first day on which fish were in the unit."""
    return next(
        (entry.on for entry in here if entry.kind == "stocked" and entry.on < state.on),
        None,
    )


def _sampled_since(state: UnitState, since: date) -> bool:
    """Return whether the gain was weighed: growth by the book proves no conversion."""
    return all(
        fish.last_sampled_on is not None and fish.last_sampled_on > since
        for fish in state.cohorts
    )


def _conversion(state: UnitState, feed_kg: float) -> FeedConversion | None:
    """Return what all feed became, by all that is known of the fish together."""
    gains = tuple(fish.gain_kg for fish in state.cohorts if fish.gain_kg is not None)
    net = tuple(fish.net_gain_kg for fish in state.cohorts if fish.net_gain_kg)
    if state.biomass_kg is None or not gains:
        return None
    return conversion_of_gain(
        feed_kg=feed_kg, gain_kg=total(*gains), net_gain_kg=total(*net)
    )
