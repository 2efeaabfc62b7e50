"""What cannot be is told, and empties no unit: feed, weights, harvests, water.

3,000 trout were put in and 100 died, so that 2,900 are there but for the few that go
unseen (0.6 % a month); what they weigh was sampled. Whatever is entered besides, the
book must not say otherwise.
"""

import math
from functools import partial
from typing import Any, Final

import pytest

from fishmeasure.book.entries import (
    Died,
    Entry,
    Feed,
    Harvested,
    Sample,
    Stocked,
    WaterReading,
)
from fishmeasure.book.replay import replay
from fishmeasure.book.state import CohortInUnit, UnitState
from tests.book.build import cohort, day, entry_about, same, tank

A: Final = tank("A", id=same(1), monthly_temperature_deg_c=(10.0,) * 12)
TROUT: Final = cohort("trout", id=same(11))
entry = partial(entry_about, A, TROUT)
LEFT: Final = 2900.0


def sampled(on: int, weight_g: float, **fields: Any) -> Entry:
    """Return a sample whose mean weight is known to 5 % either way."""
    found: Entry = entry(
        Sample,
        on,
        mean_weight_g=weight_g,
        mean_weight_low_g=0.95 * weight_g,
        mean_weight_high_g=1.05 * weight_g,
        fish_measured=60,
        fish_weighed=60,
        **fields,
    )
    return found


STOCKED: Final = (
    entry(Stocked, 0, fish_count=3000, mean_weight_g=200.0),
    entry(Died, 5, fish_count=100),
    sampled(20, 249.0),
)


def fed(kg: float, start: int = 20, end: int = 50) -> list[Entry]:
    """Return feed of so many kilograms, a share of it each day."""
    return [entry(Feed, on, feed_kg=kg / (end - start)) for on in range(start, end)]


def unit(*entries: Entry, on: int = 50) -> UnitState:
    return replay((A,), (TROUT,), entries, on=day(on)).unit(A.id)


def known(*entries: Entry, on: int = 50) -> CohortInUnit:
    (found,) = unit(*entries, on=on).cohorts
    return found


def told(found: CohortInUnit | UnitState) -> set[str]:
    return {problem.code for problem in found.problems}


def all_there(found: CohortInUnit) -> bool:
    """Return whether the fish are still there, and their interval holds them."""
    count = found.fish_count
    return abs(count.value / LEFT - 1.0) < 0.04 and count.low < LEFT < count.high


@pytest.mark.parametrize("kg", [0.03, 0.5, 2.0, 20.0, 1500.0, 15_000.0, 150_000.0])
def test_feed_that_cannot_be_is_told_and_empties_no_unit(kg: float) -> None:
    """81 g gained by 2,900 fish are 235 kg, at 0.8 to 1.2 kg of feed for each.

    Feed of a tenth or ten times as much is a slip (kilograms for tonnes, grams for
    kilograms), not fewer fish or other fish.
    """
    found = known(*STOCKED, *fed(kg), sampled(50, 330.0))
    assert "feed-off-track" in told(found)
    assert all_there(found)
    assert found.mean_weight_g is not None
    assert found.mean_weight_g.value == pytest.approx(330.0, rel=0.05)


@pytest.mark.parametrize("kg", [190.0, 235.0, 280.0])
def test_feed_that_can_be_is_not_told(kg: float) -> None:
    """235 kg of gain at 0.8 to 1.2 kg for each."""
    found = known(*STOCKED, *fed(kg), sampled(50, 330.0))
    assert "feed-off-track" not in told(found)
    assert found.fish_count.low < LEFT < found.fish_count.high


@pytest.mark.parametrize("kg", [0.5, 2.0, 1500.0, 150_000.0])
def test_feed_that_cannot_be_is_told_where_no_sample_came_after(kg: float) -> None:
    """A 249 g trout at 10 deg C gains: hardly any feed is no sure sign of none.

    By the published coefficient 1.75 it weighs (6.291 + 1.75 x 0.3)^3 = 317 g after 300
    degree-days; the interval must hold that.
    """
    found = known(*STOCKED, *fed(kg))
    assert "feed-off-track" in told(found)
    assert all_there(found)
    weight_g = found.mean_weight_g
    assert weight_g is not None
    assert weight_g.low < (math.cbrt(249.0) + 1.75 * 0.3) ** 3 < weight_g.high


def test_one_meal_in_grams_is_told_by_its_day() -> None:
    """7.5 kg a day, but 7,500 on the tenth."""
    slip = entry(Feed, 30, feed_kg=7500.0)
    meals = [*fed(75.0, 20, 30), slip, *fed(142.5, 31, 50)]
    found = known(*STOCKED, *meals, sampled(50, 330.0))
    (problem,) = (p for p in found.problems if p.code == "feed-off-track")
    assert problem.parameters is not None
    assert problem.parameters["most_on"] == day(30).isoformat()
    assert all_there(found)


def test_half_of_every_meal_not_entered_makes_no_fish_fewer() -> None:
    """A year of samples along the published coefficient; feed of half their gain."""
    root, entries = math.cbrt(249.0), list(STOCKED)
    for month in range(1, 12):
        before, root = root**3, root + 1.75 * 0.3
        start = 30 * month - 10
        gained_kg = LEFT * (root**3 - before) / 1000.0
        entries += fed(0.5 * gained_kg, start, start + 30)
        entries.append(sampled(start + 30, root**3))
    found = known(*entries, on=350)
    assert "feed-off-track" in told(found)
    assert found.fish_count.value > 0.9 * LEFT  # but for 11 months unseen at 0.6 %


# --- its neighbours ------------------------------------------------------------------


@pytest.mark.parametrize("meals", [[], fed(180.0)])
@pytest.mark.parametrize("weight_g", [33.0, 3300.0])
def test_a_confirmed_sample_ten_times_off_is_told(
    weight_g: float, meals: list[Entry]
) -> None:
    """What all else says of the fish stays within what trout may gain."""
    found = known(*STOCKED, *meals, sampled(50, weight_g, confirmed=True))
    assert "sample-off-track" in told(found)
    assert all_there(found)
    assert found.mean_weight_g is not None
    assert 249.0 < found.mean_weight_g.value < 400.0


@pytest.mark.parametrize("weight_kg", [1500.0, 7000.0])
def test_a_harvest_of_more_than_there_is_is_told(weight_kg: float) -> None:
    """2,900 of less than 0.4 kg are less than 1,160 kg."""
    taken = entry(Harvested, 45, weight_kg=weight_kg, confirmed=True)
    assert "more-out-than-in" in told(known(*STOCKED, *fed(180.0), taken))


@pytest.mark.parametrize("water_deg_c", [0.0, 28.0])
def test_wrong_water_moves_no_count(water_deg_c: float) -> None:
    """Ice and a warm bath: fish that gained a third did not live there."""
    read = [
        entry(WaterReading, on, temperature_deg_c=water_deg_c) for on in range(0, 50, 5)
    ]
    found = known(*STOCKED, *read, *fed(180.0), sampled(50, 330.0))
    assert told(found) & {"sample-off-track", "feed-off-track"}
    assert all_there(found)
