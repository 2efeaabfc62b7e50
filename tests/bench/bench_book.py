"""How long the book takes to answer; prints milliseconds and ratios.

Usage: python -m tests.bench.bench_book [--large 100000] [--rounds 5]

A year of two units, six cohorts and 2,000 entries: every question at most 200 ms.
Fifty times as many entries over ten years: at most in proportion.
"""

import argparse
import platform
import random
import tempfile
import time
from datetime import date, timedelta
from pathlib import Path
from typing import Any
from uuid import UUID

from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    Feed,
    Harvested,
    Moved,
    Sample,
    Stocked,
    WaterReading,
)
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.render.outlook_words import sections
from fishmeasure.store.book import Book, BookContent, open_book
from tests.bench.timing import best_ms

START = date(2016, 1, 1)
LIMIT_MS = 200.0
MONTHS_C = (6.5, 6.5, 7.0, 8.0, 9.5, 11.0, 12.0, 12.0, 11.0, 9.5, 8.0, 7.0)


def content(entry_count: int, years: int, cohort_count: int) -> BookContent:
    """Return a book of two units with random, plausible entries."""
    chance = random.Random(20260101)  # noqa: S311 - no secret
    units = tuple(
        Unit(
            id=UUID(int=number),
            name=f"Tank {number}",
            kind="tank",
            volume_m3=30.0,
            depth_m=1.2,
            inflow_l_per_min=60.0,
            plant_bed_area_m2=10.0,
            monthly_temperature_deg_c=MONTHS_C,
        )
        for number in (1, 2)
    )
    cohorts = tuple(
        Cohort(id=UUID(int=10 + n), name=f"Cohort {n}", species_key="rainbow-trout")
        for n in range(cohort_count)
    )
    days = 365 * years
    per_cohort = days / cohort_count
    entries: list[Entry] = [
        Stocked(
            id=UUID(int=10_000_000 + number),
            on=START + timedelta(days=int(number * per_cohort * 0.5)),
            unit_id=units[number % 2].id,
            cohort_id=item.id,
            fish_count=1000,
            mean_weight_g=30.0,
        )
        for number, item in enumerate(cohorts)
    ]
    while len(entries) < entry_count:
        entries.append(_random_entry(chance, len(entries), days, units, cohorts))
    return BookContent(units=units, cohorts=cohorts, entries=tuple(entries))


def _random_entry(
    chance: random.Random,
    number: int,
    days: int,
    units: tuple[Unit, ...],
    cohorts: tuple[Cohort, ...],
) -> Entry:
    identity = UUID(int=20_000_000 + number)
    on = START + timedelta(days=chance.randrange(days))
    here, other = chance.sample(units, 2)
    kind = chance.random()
    if kind < 0.45:
        return Feed(id=identity, on=on, unit_id=here.id, feed_kg=chance.uniform(0.5, 5))
    if kind < 0.70:
        return WaterReading(
            id=identity,
            on=on,
            unit_id=here.id,
            temperature_deg_c=MONTHS_C[on.month - 1] + chance.gauss(0.0, 0.4),
            do_mg_per_l=chance.uniform(7.0, 9.0),
        )
    fish = chance.choice(cohorts)
    about: dict[str, Any] = {
        "id": identity,
        "on": on,
        "unit_id": here.id,
        "cohort_id": fish.id,
    }
    return _fish_entry(kind, about, other)


def _fish_entry(kind: float, about: dict[str, Any], other: Unit) -> Entry:
    if kind < 0.90:
        return Died(**about, fish_count=1)
    if kind < 0.93:
        return Harvested(**about, fish_count=5, weight_kg=1.2)
    if kind < 0.95:
        return Moved(**about, to_unit_id=other.id, fish_count=20)
    if kind < 0.97:
        return Counted(**about, fish_count=600)
    return Sample(
        **about,
        mean_weight_g=200.0,
        mean_weight_low_g=180.0,
        mean_weight_high_g=220.0,
        cv=0.25,
        condition_factor=1.2,
    )


def questions(book: Book, last: date, rounds: int) -> dict[str, float]:
    """Return how long each question takes, from the disk to the answer."""
    return {
        "entries": best_ms(book.entries, rounds),
        "balance on the last day": best_ms(lambda: book.balance(last), rounds),
        "balance half way": best_ms(
            lambda: book.balance(START + (last - START) / 2), rounds
        ),
        "outlook with all seven answers": best_ms(
            lambda: sections(book.outlook("Tank 1", last)), rounds
        ),
    }


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--large", type=int, default=100_000)
    parser.add_argument("--rounds", type=int, default=5)
    options = parser.parse_args()
    print(f"Python {platform.python_version()}, {platform.machine()}")
    found: dict[int, dict[str, float]] = {}
    for entry_count, years, cohorts in ((2_000, 1, 6), (options.large, 10, 60)):
        with tempfile.TemporaryDirectory() as folder:
            made = content(entry_count, years, cohorts)
            last = START + timedelta(days=365 * years - 1)
            with open_book(Path(folder) / "book.db") as book:
                begin = time.perf_counter()
                book.add_content(made)
                written_ms = 1000.0 * (time.perf_counter() - begin)
                rounds = options.rounds if entry_count <= 10_000 else 2
                found[entry_count] = questions(book, last, rounds)
        print(f"\n{entry_count} entries, {years} years; written in {written_ms:.0f} ms")
        for name, ms in found[entry_count].items():
            print(f"  {name:32} {ms:8.1f} ms")
    small, large = found.values()
    growth = options.large / 2_000
    worst_ms = max(small.values())
    print(f"\nslowest question at 2,000 entries: {worst_ms:.0f} ms of {LIMIT_MS:.0f}")
    print(f"{growth:.0f} times the entries take:")
    for name, ms in large.items():
        print(f"  {name:32} {ms / small[name]:6.1f} times as long")


if __name__ == "__main__":
    main()
