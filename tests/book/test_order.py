"""Entries of one day count in the order in which they were made."""

from datetime import UTC, datetime, time, timedelta
from functools import partial
from itertools import permutations
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest

from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    Harvested,
    Sample,
    Stocked,
    WaterReading,
)
from fishmeasure.book.order import in_force, in_order
from fishmeasure.book.replay import replay
from fishmeasure.store import rows
from fishmeasure.store.book import Book, open_book
from tests.book.build import cohort, day, entry_about, same, tank

TANK, TROUT = tank("A", id=same(1)), cohort("trout", id=same(11))
NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)
entry = partial(entry_about, TANK, TROUT)


def made(minute: int, *what: Any, **fields: Any) -> Entry:
    """Return an entry that the book recorded some minutes after noon."""
    found: Entry = entry(
        *what, recorded_at=NOON + timedelta(minutes=minute), id=uuid4(), **fields
    )
    return found


def sample(minute: int, mean_g: float) -> Entry:
    """Return a sample of the second day with an interval of 2 %."""
    return made(
        minute,
        Sample,
        2,
        mean_weight_g=mean_g,
        mean_weight_low_g=0.98 * mean_g,
        mean_weight_high_g=1.02 * mean_g,
    )


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Return a book with a tank of trout."""
    found = open_book(tmp_path / "book.db")
    found.save_unit(TANK)
    found.save_cohort(TROUT)
    return found


@pytest.mark.parametrize("_again", range(6))
@pytest.mark.parametrize("together", [True, False])
def test_newer_reading_of_a_day_is_used(
    book: Book, _again: int, *, together: bool
) -> None:
    """Six equal books with two readings of one day all use the second."""
    readings = [
        entry(WaterReading, 2, id=uuid4(), do_mg_per_l=value) for value in (7.0, 3.0)
    ]
    if together:
        book.add(*readings)
    else:
        for reading in readings:
            book.add(reading)
    assert book.balance(day(2)).units[0].water["do_mg_per_l"].value == 3.0
    book.close()


def test_harvest_after_the_sample_of_its_day_uses_the_new_weight() -> None:
    """60 kg taken at 120 g are 500 fish, before the sample some more.

    At 100 g, as stocked, they were 600; that fish of 120 g were left tells of those
    taken hours before, short of how far the size of a few lies from that of all.
    """
    fish = made(-9999, Stocked, 2, fish_count=2000, mean_weight_g=100.0)
    for minute, first, last in ((5, 480, 520), (-5, 520, 590)):
        taken = made(minute, Harvested, 2, weight_kg=60.0)
        for entries in permutations((fish, sample(0, 120.0), taken)):
            found = replay([TANK], [TROUT], entries, on=day(2))
            assert first < found.cohorts[0].taken < last


def test_fish_come_before_all_else_of_their_first_day() -> None:
    """Who enters a count before the stocking of that day has those fish once."""
    counted = made(0, Counted, 1, fish_count=480)
    stocked = made(5, Stocked, 1, fish_count=500, mean_weight_g=20.0)
    again = made(9, Stocked, 2, fish_count=100, mean_weight_g=20.0)
    emptied = made(8, Counted, 2, fish_count=0, fish_count_sd=0.0)
    found = in_force((again, emptied, stocked, counted))
    assert found == (stocked, counted, emptied, again)
    (unit,) = replay([TANK], [TROUT], found, on=day(2)).units
    assert unit.fish_count.value == pytest.approx(100.0, abs=1.0)


def test_correction_takes_the_place_of_what_it_corrects() -> None:
    """A stocking corrected after the count of its day still comes before it."""
    early = made(-99, Stocked, 0, fish_count=10, mean_weight_g=20.0)
    wrong = made(0, Stocked, 1, fish_count=5000, mean_weight_g=20.0)
    counted = made(5, Counted, 1, fish_count=490)
    right = made(9, Stocked, 1, fish_count=500, mean_weight_g=20.0, replaces=wrong.id)
    assert in_force((counted, right, wrong, early)) == (early, right, counted)
    assert in_order((counted, right, wrong, early)) == (early, wrong, right, counted)


def test_readings_with_a_time_are_put_right_among_themselves() -> None:
    """The 17 o'clock reading is newer than that of 8 o'clock entered after it."""
    late = made(0, WaterReading, 1, do_mg_per_l=5.0, at=time(17))
    died = made(1, Died, 1, fish_count=1)
    early = made(2, WaterReading, 1, do_mg_per_l=8.0, at=time(8))
    last = made(3, WaterReading, 1, do_mg_per_l=4.0)
    assert in_order((last, early, died, late)) == (early, died, late, last)


def test_entries_not_yet_recorded_come_last_of_their_day() -> None:
    """By kind and then by id: fish before their loss, whatever comes first."""
    lost = entry(Died, 1, fish_count=2)
    fish = entry(Stocked, 1, fish_count=9, mean_weight_g=5.0)
    recorded = made(0, Stocked, 0, fish_count=9, mean_weight_g=5.0)
    count = made(0, Counted, 1, fish_count=9)
    for entries in permutations((lost, fish, recorded, count)):
        assert in_order(entries) == (recorded, count, fish, lost)


def test_a_clock_that_goes_back_keeps_the_order(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A later entry has a later moment, also on a machine that lost its clock."""
    moments = [NOON, NOON - timedelta(days=9000)]

    class Clock(datetime):
        @classmethod
        def now(cls, tz: Any = None) -> Any:  # noqa: ARG003
            return moments.pop(0)

    monkeypatch.setattr(rows, "datetime", Clock)
    first, second = (
        entry(WaterReading, 2, id=uuid4(), ph=value) for value in (7.0, 8.0)
    )
    book.add(first)
    book.add(second)
    assert book.entries() == (first, second)
    book.close()
