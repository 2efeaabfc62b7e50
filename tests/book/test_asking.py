"""Is an entry asked about before it is believed, and is the likeliest slip named?"""

from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import numpy as np
import pytest
from scipy.stats import t as student

from fishmeasure.base.flags import Problem
from fishmeasure.book.asking import Facts, Ledger, Question, ask
from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    Feed,
    Harvested,
    Moved,
    Sample,
    Sold,
    Stocked,
    Treated,
    WaterReading,
)
from fishmeasure.book.posterior.passing import with_tail
from fishmeasure.book.replay import replay
from tests.book.build import cohort, day, entry_about, same, tank

A, B = tank("A", id=same(1)), tank("B", id=same(2))
TROUT, CHAR = cohort("Trout", id=same(3)), cohort("Char", id=same(4))
TODAY = day(62)


def entry(kind: type[Entry], on: int, *, fish: Any = TROUT, **fields: Any) -> Any:
    """Return an entry about the trout in tank A."""
    return entry_about(A, fish, kind, on, **fields)


def sample(on: int, mean_g: float, **fields: Any) -> Any:
    """Return a sample known to 8 %."""
    low, high = 0.92 * mean_g, 1.08 * mean_g
    weights = {"mean_weight_low_g": low, "mean_weight_high_g": high}
    plain = {"fish_weighed": 40, "mean_weight_g": mean_g} | weights | fields
    return entry(Sample, on, **plain)


# 1,000 trout of 60 g; a month later 78 g: at 10 degrees, as published (TGC 1.5).
ENTRIES: tuple[Entry, ...] = (
    entry(Stocked, 0, fish_count=1000, bulk_weight_kg=60.0),
    sample(30, 78.0),
    *(entry(Feed, n, feed_kg=1.0) for n in range(20, 60, 2)),
    *(entry(Died, n, fish_count=2) for n in (5, 20, 40, 55)),
)
BOOK = Ledger(units=(A, B), cohorts=(TROUT, CHAR), entries=ENTRIES)


def asked(new: Entry, **more: Any) -> Question | None:
    """Return what is asked about an entry of that book."""
    return ask(BOOK, new, today=TODAY, **more)


def test_one_dead_fish_of_many_is_no_question() -> None:
    """It is what is entered most, also in a tank that usually loses more."""
    many = entry(Stocked, 0, fish_count=20_000, bulk_weight_kg=1200.0)
    few = [entry(Died, n, fish_count=1) for n in (5, 20, 40, 55)]
    book = Ledger(units=(A, B), cohorts=(TROUT, CHAR), entries=(many, *few))
    assert ask(book, entry(Died, 60, fish_count=1), today=TODAY) is None


@pytest.mark.parametrize(
    "right",
    [
        sample(60, 95.0),
        entry(Counted, 60, fish_count=985),
        entry(Harvested, 60, fish_count=50, weight_kg=4.8),
        entry(Harvested, 60, fish_count=990, weight_kg=94.0),
        entry(Sold, 60, weight_kg=20.0),
        entry(Died, 60, fish_count=9),
        entry(Moved, 60, fish_count=400, to_unit_id=B.id),
        entry(Feed, 60, feed_kg=1.6),
        entry(Feed, 60, feed_kg=0.0),
        entry(WaterReading, 60, temperature_deg_c=11.0, do_mg_per_l=2.0),
        entry(Stocked, 60, fish=CHAR, fish_count=300, mean_weight_g=15.0),
        entry(Counted, 60, fish=CHAR, fish_count=300),
    ],
    ids=lambda item: f"{item.kind}-{item.id.int}",
)
def test_what_is_likely_is_not_asked(right: Entry) -> None:
    """Right entries are stored without a word; low oxygen is no slip to be asked."""
    assert asked(right) is None


@pytest.mark.parametrize(
    ("wrong", "code", "right"),
    [
        (sample(60, 950.0), "doubt-weight", ("mean_weight_g", 95.0)),
        (sample(60, 0.095), "doubt-weight", ("mean_weight_g", 95.0)),
        (sample(60, 95.0 / 0.45359), "doubt-weight", ("mean_weight_g", 95.0)),
        (entry(Counted, 60, fish_count=9850), "doubt-count", ("fish_count", 985)),
        (entry(Counted, 60, fish_count=98), "doubt-count", ("fish_count", 980)),
        (
            entry(Harvested, 60, fish_count=500, weight_kg=4.8),
            "doubt-weight",
            None,  # 50 fish, or 48 kg
        ),
        (
            entry(Harvested, 60, fish_count=50, weight_kg=4800.0),
            "doubt-weight",
            ("weight_kg", 4.8),
        ),
        (entry(Feed, 60, feed_kg=1200.0), "doubt-feed", ("feed_kg", 1.2)),
        (entry(Feed, 60, feed_kg=12.0), "doubt-feed", ("feed_kg", 1.2)),
        (
            entry(WaterReading, 60, temperature_deg_c=42.8),
            "doubt-temperature",
            ("temperature_deg_c", 6.0),
        ),
        (entry(Died, 60, fish_count=5000), "doubt-count", None),
        (entry(Sold, 60, weight_kg=240.0), "doubt-kilograms", None),
        (sample(60, 62.0), "doubt-weight", None),
        (sample(60, 230.0), "doubt-weight", None),
    ],
    ids=lambda item: item.kind if isinstance(item, Entry) else None,
)
def test_slips_are_asked_and_named(
    wrong: Entry, code: str, right: tuple[str, float] | None
) -> None:
    """What is expected is told with its interval, and the corrected entry is there."""
    question = asked(wrong)
    assert question is not None
    assert question.doubts[0].code == code
    assert question.doubts[0].message
    if right is not None:
        assert question.slip is not None
        assert str(question.slip)
        assert getattr(question.corrected, right[0]) == pytest.approx(right[1], 0.001)
        assert asked(question.corrected) is None  # type: ignore[arg-type]


def test_a_fall_is_said_as_such() -> None:
    """The weight before, and its day, stand beside what is expected."""
    question = asked(sample(60, 60.0))
    assert question is not None
    assert "they weighed 78.0 g on 2026-03-31" in question.doubts[0].message


def test_a_forgotten_tare_is_named_without_a_figure() -> None:
    """Nobody knows what the bucket weighs, so that nothing is corrected unasked."""
    question = asked(entry(Harvested, 60, fish_count=50, weight_kg=4.8 + 4.0))
    assert question is not None
    assert question.slip is not None
    assert (question.slip.code, question.corrected) == ("slip-tare", None)


def test_the_wrong_tank_is_named() -> None:
    """Fish that are not there, but fit the other tank's."""
    there = entry(Stocked, 10, fish=CHAR, fish_count=500, mean_weight_g=400.0)
    book = BOOK.with_entry(replace(there, unit_id=B.id))
    question = ask(
        book, entry(Harvested, 60, fish_count=10, weight_kg=4.2), today=TODAY
    )
    assert question is not None
    assert question.slip is not None
    assert question.slip.code == "slip-place"
    assert question.corrected is not None
    assert (question.corrected.place_id, question.corrected.fish_id) == (B.id, CHAR.id)


def test_fish_that_are_not_there_are_asked_about() -> None:
    """Tank B never had trout; before they came there were none in A either."""
    question = asked(entry(Harvested, 60, unit_id=B.id, fish_count=60))
    assert question is not None
    assert [doubt.code for doubt in question.doubts] == ["doubt-no-fish"]
    assert question.corrected is not None
    assert question.corrected.place_id == A.id
    early = asked(entry(Died, -3, fish_count=1))
    assert early is not None
    assert "before 2026-03-01" in early.doubts[0].message


def test_what_was_taken_since_counts() -> None:
    """A harvest noted late leaves too few fish for those noted since."""
    book = BOOK.with_entry(entry(Harvested, 58, fish_count=700, weight_kg=66.0))
    late = entry(Harvested, 32, fish_count=600, weight_kg=48.0)
    question = ask(book, late, today=TODAY)
    assert question is not None
    assert [doubt.code for doubt in question.doubts] == ["more-out-than-in"]


def test_twice_is_asked() -> None:
    """The same harvest, or a photo in two samples; two equal meals are two."""
    book = BOOK.with_entry(entry(Harvested, 60, fish_count=50, weight_kg=4.8))
    again = entry(Harvested, 60, fish_count=50, weight_kg=4.8)
    question = ask(book, again, today=TODAY)
    assert question is not None
    assert [doubt.code for doubt in question.doubts] == ["doubt-twice"]
    book = BOOK.with_entry(sample(59, 94.0, photos=("a", "b")))
    question = ask(book, sample(60, 95.0, photos=("b",)), today=TODAY)
    assert question is not None
    assert [doubt.code for doubt in question.doubts] == ["doubt-photo-twice"]
    assert asked(entry(Feed, 58, feed_kg=1.0)) is None


def test_long_ago_is_asked_with_the_day_that_was_meant() -> None:
    """Last year's date in January's habit; a correction keeps its day unasked."""
    book = replace(
        BOOK, entries=tuple(replace(e, recorded_at=_noon(e.on)) for e in ENTRIES)
    )
    wrong = replace(entry(Feed, 60, feed_kg=1.0), on=date(2025, 4, 30))
    question = ask(book, wrong, today=TODAY)
    assert question is not None
    assert question.doubts[-1].code == "doubt-long-ago"
    assert question.corrected is not None
    assert question.corrected.on == date(2026, 4, 30)


def _noon(on: date) -> datetime:
    return datetime(on.year, on.month, on.day, 12, tzinfo=UTC)


def test_a_correction_is_asked_about_without_what_it_corrects() -> None:
    """A count that was entered ten times too high does not excuse its like."""
    wrong = entry(Counted, 58, fish_count=9850)
    book = BOOK.with_entry(wrong)
    right = entry(Counted, 58, fish_count=985, replaces=wrong.id)
    assert ask(book, right, today=TODAY) is None
    same_again = entry(Counted, 58, fish_count=9870, replaces=wrong.id)
    assert ask(book, same_again, today=TODAY) is not None


def test_what_a_sample_finds_doubtful_itself_is_asked() -> None:
    """Its nets' doubts, and a count in the unit that is not the book's."""
    slip = Problem.of(
        "likely-slip", slip="count-tenfold", net="net 2", fish=90, weight_g=900.0,
        right_fish=9, right_weight_g=900.0, others_g=95.0,
    )  # fmt: skip
    question = asked(sample(60, 95.0), facts=Facts(problems=(slip,)))
    assert question is not None
    assert question.doubts == (slip,)
    question = asked(sample(60, 95.0), facts=Facts(count_in_unit=240))
    assert question is not None
    assert "worked out for 240 fish in A" in question.doubts[0].message


def test_a_confirmed_surprise_keeps_a_heavier_tail() -> None:
    """It moves the figures less; its square is that of Student's t of 4 degrees."""
    misfit = np.array([0.0, 1.0, -3.0, 8.0])
    found = with_tail(misfit) ** 2
    assert found == pytest.approx(
        -2.0 * (student.logpdf(misfit, 4) - student.logpdf(0.0, 4))
    )
    wrong = sample(60, 140.0)
    believed, confirmed = (
        replay(
            BOOK.units, BOOK.cohorts, (*ENTRIES, replace(wrong, confirmed=mark)),
            on=TODAY,
        ).unit(A.id).cohorts[0].mean_weight_g
        for mark in (False, True)
    )  # fmt: skip
    without = replay(BOOK.units, BOOK.cohorts, ENTRIES, on=TODAY)
    expected = without.unit(A.id).cohorts[0].mean_weight_g
    assert believed is not None
    assert confirmed is not None
    assert expected is not None
    assert expected.value < confirmed.value < believed.value


@pytest.mark.parametrize(("on", "waits"), [(49, True), (50, False)])
def test_a_harvest_within_a_withdrawal_period_is_asked_about(
    on: int, *, waits: bool
) -> None:
    """A medicine on day 29, 21 days' withdrawal: from day 50 on fish are food again."""
    medicine = Treated(
        id=same(77), on=day(29), unit_id=A.id, product="bath", withdrawal_days=21
    )
    book = replace(BOOK, entries=(*ENTRIES, medicine))
    taken = entry(Harvested, on, fish_count=50, weight_kg=4.3)
    question = ask(book, taken, today=TODAY)
    codes = () if question is None else tuple(p.code for p in question.doubts)
    assert codes == (("withdrawal-period",) if waits else ())


def test_nothing_is_asked_about_what_the_book_does_not_know() -> None:
    """It refuses the entry itself; those after it are asked about all the same."""
    elsewhere = replace(entry(Died, 60, fish_count=900), unit_id=same(99))
    assert not BOOK.has_all_of(elsewhere)
    assert asked(elsewhere) is None
    away = entry(Moved, 60, fish_count=900, to_unit_id=same(99))
    assert asked(away) is None
