"""Processor time of a unit's state at about 200 entries.

Usage: python -m tests.bench.bench_unit [--rounds 5]

Half a year: daily feed, monthly samples and deaths; one cohort alone, two that share a
tank and its feed, and one that is graded into two tanks. 0.3 s a unit is the goal.
"""

import argparse
from datetime import date, timedelta
from functools import partial
from typing import Any

from fishmeasure.book.entries import (
    Died,
    Entry,
    Feed,
    Graded,
    GradeGroup,
    Harvested,
    Sample,
    Stocked,
)
from fishmeasure.book.replay import replay
from tests.bench.timing import processor_s
from tests.book.build import cohort, same, tank

START, DAYS = date(2026, 3, 1), 168
GOAL_MS = 300.0
A, B = (tank(name, id=same(n)) for n, name in ((1, "A"), (2, "B")))
ONE, TWO = (cohort(name, id=same(n)) for n, name in ((11, "one"), (12, "two")))


def _stock(fish: Any, ids: Any) -> list[Entry]:
    """Return what was entered of a cohort, feed apart."""
    place: dict[str, Any] = {"unit_id": A.id, "cohort_id": fish.id}
    found: list[Entry] = [
        Stocked(
            id=same(next(ids)), on=START, fish_count=1000, bulk_weight_kg=40.0, **place
        )
    ]
    for number in range(1, 7):
        on, grams = START + timedelta(days=28 * number), 40.0 * 1.38**number
        found += [
            Sample(
                id=same(next(ids)),
                on=on,
                mean_weight_g=grams,
                mean_weight_low_g=0.9 * grams,
                mean_weight_high_g=1.1 * grams,
                cv=0.27,
                fish_measured=32,
                fish_weighed=32,
                **place,
            ),
            Died(id=same(next(ids)), on=on, fish_count=2, **place),
        ]
    last = START + timedelta(days=DAYS)
    return [
        *found,
        Harvested(id=same(next(ids)), on=last, fish_count=50, weight_kg=16.0, **place),
    ]


def _feed(ids: Any, cohorts: int) -> list[Entry]:
    return [
        Feed(
            id=same(next(ids)),
            on=START + timedelta(days=day),
            unit_id=A.id,
            feed_kg=round(cohorts * 0.6 * 1.012**day, 2),
        )
        for day in range(DAYS)
    ]


def _graded(ids: Any) -> Entry:
    groups = (
        GradeGroup(to_unit_id=A.id, fish_count=500, fish_count_sd=5.0),
        GradeGroup(to_unit_id=B.id, fish_count=480, fish_count_sd=5.0),
    )
    on = START + timedelta(days=100)
    return Graded(
        id=same(next(ids)), on=on, unit_id=A.id, cohort_id=ONE.id, groups=groups
    )


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=5)
    rounds = parser.parse_args().rounds
    ids = iter(range(100, 100_000))
    cases = {
        "one cohort": ((ONE,), [*_stock(ONE, ids), *_feed(ids, 1)]),
        "two cohorts of one tank": (
            (ONE, TWO),
            [*_stock(ONE, ids), *_stock(TWO, ids), *_feed(ids, 2)],
        ),
        "graded into two tanks": (
            (ONE,),
            [*_stock(ONE, ids), *_feed(ids, 1), _graded(ids)],
        ),
    }
    last = START + timedelta(days=DAYS)
    for name, (cohorts, entries) in cases.items():
        work = partial(replay, (A, B), cohorts, entries, on=last)
        took = 1000.0 * processor_s(work, rounds)
        word = "within" if took <= GOAL_MS else "OVER"
        print(
            f"{name:24} {len(entries):4} entries {took:6.0f} ms, {word} {GOAL_MS:.0f}"
        )


if __name__ == "__main__":
    main()
