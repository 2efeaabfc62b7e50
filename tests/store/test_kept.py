"""What is kept of a book is what a replay of all of it says.

Random books: fish that move between units, corrections that put an entry elsewhere,
entries taken back and put in again, late ones, new versions of units, in any order and
a few at a time; after each, every unit is asked for and compared.
"""

import math
import random
from dataclasses import replace
from datetime import date
from typing import Any
from uuid import uuid4

import pytest

from fishmeasure.base.record import plain
from fishmeasure.book.entries import (
    Cancelled,
    Counted,
    Died,
    Entry,
    Feed,
    FeedBought,
    Graded,
    GradeGroup,
    Harvested,
    Moved,
    Sample,
    Stocked,
    Treated,
    WaterReading,
)
from fishmeasure.outlook.farm import farm_outlook
from fishmeasure.outlook.unit import outlooks_of
from fishmeasure.store.book import Book
from fishmeasure.store.rows import newest
from tests.book.build import cohort, day, same, tank

UNITS = tuple(tank(f"Tank {n}", id=same(n)) for n in range(1, 7))
FISH = tuple(cohort(f"fish {n}", id=same(10 + n)) for n in range(1, 5))
LAST = day(60)


def _same(one: Any, other: Any) -> bool:
    """Return whether two answers in plain values agree but for rounding."""
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-5, abs_tol=1e-6)
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(
            _same(one[key], other[key]) for key in one
        )
    if isinstance(one, list) and isinstance(other, list):
        pairs = zip(one, other, strict=False)
        return len(one) == len(other) and all(_same(a, b) for a, b in pairs)
    return bool(one == other)


class Grower:
    """Somebody who enters at random, not always rightly."""

    def __init__(self, seed: int) -> None:
        self._chance = random.Random(seed)  # noqa: S311 - no secret
        self._in_force: list[Entry] = []

    def entry(self) -> Entry:
        """Return any entry; the first ones bring fish."""
        chance = self._chance
        found = self._any()
        if self._in_force and chance.random() < 0.25:
            old = self._in_force.pop(chance.randrange(len(self._in_force)))
            if chance.random() < 0.5:
                found = Cancelled(id=uuid4(), on=LAST, replaces=old.id)
            else:  # with other figures, or another unit, or another kind even
                found = replace(found, replaces=old.id)
        self._in_force.append(found)
        return found

    def _any(self) -> Entry:
        chance = self._chance
        # Three tanks and two cohorts beside the others, until a move joins them.
        half = chance.randrange(2)
        unit, other = chance.sample(UNITS[3 * half : 3 * half + 3], 2)
        if chance.random() < 0.03:
            other = chance.choice([one for one in UNITS if one != unit])
        fish = chance.choice(FISH[2 * half : 2 * half + 2])
        about: dict[str, Any] = {"id": uuid4(), "on": day(chance.randrange(60))}
        here = about | {"unit_id": unit.id}
        of_fish = here | {"cohort_id": fish.id}
        mean = chance.uniform(40.0, 90.0)
        weighed: dict[str, Any] = {
            "mean_weight_g": mean,
            "mean_weight_low_g": 0.95 * mean,
            "mean_weight_high_g": 1.05 * mean,
        }
        parts = (
            GradeGroup(to_unit_id=unit.id, fish_count=120),
            GradeGroup(to_unit_id=other.id, fish_count=90),
        )
        makers: tuple[tuple[int, Any], ...] = (
            (4, lambda: Stocked(**of_fish, fish_count=300, mean_weight_g=mean)),
            (3, lambda: Died(**of_fish, fish_count=chance.randrange(5))),
            (2, lambda: Moved(**of_fish, to_unit_id=other.id, fish_count=40)),
            (1, lambda: Graded(**of_fish, groups=parts)),
            (1, lambda: Counted(**of_fish, fish_count=chance.randrange(150, 350))),
            (2, lambda: Sample(**of_fish, **weighed)),
            (1, lambda: Harvested(**of_fish, fish_count=10, weight_kg=0.7)),
            (1, lambda: Treated(**here, product="bath", withdrawal_days=20)),
            (6, lambda: Feed(**here, feed_kg=chance.uniform(0.1, 1.0))),
            (4, lambda: WaterReading(**here, temperature_deg_c=chance.uniform(5, 12))),
            (1, lambda: FeedBought(**about, feed_kg=25.0, feed_name="pellets")),
        )
        weights = [weight for weight, _ in makers]
        ((_, make),) = chance.choices(makers, weights)
        made: Entry = make()
        return made


def _all_as_replayed(book: Book, on: date) -> None:
    """Ask what is kept, and work all of it out anew from all entries."""
    content = book.content()
    units, cohorts = newest(content.units), newest(content.cohorts)
    for whole in outlooks_of(units, cohorts, content.entries, on=on):
        kept = book.outlook(whole.unit.id, on)
        assert _same(plain(kept), plain(whole)), whole.unit.name


@pytest.mark.parametrize("seed", range(2))
def test_what_is_kept_is_what_a_replay_says(book: Book, seed: int) -> None:
    """After every few entries, each of which may touch what is kept."""
    grower = Grower(seed)
    for unit in UNITS:
        book.save_unit(unit)
    for fish in FISH:
        book.save_cohort(fish)
    for number in range(4):
        book.add(*(grower.entry() for _ in range(8)))
        book.add(grower.entry())
        _all_as_replayed(book, LAST)
        if number == 2:
            anew = {"id": UNITS[0].id, "version": 2, "volume_m3": 3.0}
            book.save_unit(tank("Tank 1", **anew))
            _all_as_replayed(book, day(30))
    content = book.content()
    units, cohorts = newest(content.units), newest(content.cohorts)
    farm = farm_outlook(units, cohorts, content.entries, on=day(30))
    assert _same(plain(book.farm(day(30))), plain(farm))
