"""Fish are neither lost nor made, in whatever order entries arrive."""

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import UUID

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from fishmeasure.book.entries import (
    Cancelled,
    Counted,
    Died,
    Entry,
    FishEntry,
    Graded,
    GradeGroup,
    Harvested,
    Moved,
    Sample,
    Sold,
    Stocked,
    Taken,
)
from fishmeasure.book.replay import Assumptions, replay
from fishmeasure.book.state import Balance
from fishmeasure.store.book import open_book
from tests.book.build import cohort, day, same, tank
from tests.book.strategies import records

UNITS = (tank("A", id=same(1)), tank("B", id=same(2)))
FISH = (cohort("char", id=same(11)), cohort("trout", id=same(12)))
LAST = day(60)
NOON = datetime(2026, 5, 1, 12, tzinfo=UTC)

_UNIT = st.sampled_from([unit.id for unit in UNITS])
_COHORT = st.sampled_from([item.id for item in FISH])
_COMMON: dict[str, st.SearchStrategy[Any]] = {
    "on": st.integers(0, 60).map(day),
    "unit_id": _UNIT,
    "cohort_id": _COHORT,
    "replaces": st.none(),
}
_FEW = st.integers(0, 400)
_SD = st.floats(0.0, 20.0)


def _of(kind: type[FishEntry], **fields: st.SearchStrategy[Any]) -> Any:
    return records(kind, **_COMMON, **fields)


MOVES = _of(Moved, to_unit_id=_UNIT, fish_count=_FEW, fish_count_sd=_SD)
LOSSES = st.one_of(
    _of(Died, fish_count=_FEW),
    _of(Harvested, fish_count=_FEW),
    _of(Sold, fish_count=_FEW),
)
STOCKED = _of(Stocked, fish_count=st.integers(0, 3000), fish_count_sd=_SD)
# Without kilograms, which beside a count and a mean weight tell of the count too.
COUNTED_IN = _of(
    Stocked,
    fish_count=st.integers(0, 3000),
    fish_count_sd=_SD,
    bulk_weight_kg=st.none(),
)
_UNWEIGHED: dict[str, Any] = {"weight_kg": st.none(), "weight_sd_kg": st.none()}
COUNTED_OUT = st.one_of(
    _of(Died, fish_count=_FEW),
    _of(Harvested, fish_count=_FEW, **_UNWEIGHED),
    _of(Sold, fish_count=_FEW, **_UNWEIGHED),
)
GROUPS = st.lists(
    records(GradeGroup, to_unit_id=_UNIT, fish_count=_FEW, fish_count_sd=_SD),
    min_size=1,
    max_size=2,
    unique_by=lambda group: group.to_unit_id,
).map(tuple)
CHECKS = st.one_of(
    _of(Counted, fish_count=st.integers(0, 3000), fish_count_sd=st.none() | _SD),
    _of(Graded, groups=GROUPS),
    _of(Sample),
    _of(Harvested, fish_count=st.none(), weight_kg=st.floats(0.0, 50.0)),
)
MOVING = st.lists(st.one_of(COUNTED_IN, MOVES, COUNTED_OUT), max_size=25)
ANY = st.lists(st.one_of(STOCKED, MOVES, LOSSES, CHECKS), max_size=25)


def balance(entries: Sequence[Entry]) -> Balance:
    """Return the balance on the last day."""
    return replay(UNITS, FISH, entries, on=LAST)


def fish_of(entries: Sequence[Entry], kind: type[FishEntry], fish: UUID) -> int:
    """Return the sum of the counts of a kind of entry, by plain addition."""
    return sum(
        getattr(entry, "fish_count", 0) or 0
        for entry in entries
        if isinstance(entry, kind) and entry.cohort_id == fish
    )


@given(MOVING)
@settings(max_examples=150, deadline=None)
def test_moved_fish_are_neither_lost_nor_made(entries: list[Entry]) -> None:
    """Whatever is moved, a cohort has what was stocked less what was taken."""
    state = replay(
        UNITS, FISH, entries, on=LAST, assumptions=Assumptions(unseen_loss_per_month=0)
    )
    for total in state.cohorts:
        here = total.cohort.id
        left = (
            fish_of(entries, Stocked, here)
            - fish_of(entries, Died, here)
            - fish_of(entries, Taken, here)  # harvested or sold
        )
        assert math.isclose(total.fish_count.value, max(0, left), abs_tol=1e-6)
        in_units = sum(
            item.book_count
            for unit in state.units
            for item in unit.cohorts
            if item.cohort.id == here
        )
        assert math.isclose(in_units, left, abs_tol=1e-6)


@given(ANY)
@settings(max_examples=150, deadline=None)
def test_every_difference_is_accounted_for(entries: list[Entry]) -> None:
    """Stocked less died less taken, and what counts found, is what is there."""
    for total in balance(entries).cohorts:
        left = total.stocked - total.died - total.taken + total.adjusted
        assert math.isclose(
            max(0.0, left), total.fish_count.value, rel_tol=1e-9, abs_tol=1e-6
        )


@given(ANY.flatmap(lambda made: st.tuples(st.just(made), st.permutations(made))))
@settings(max_examples=150, deadline=None)
def test_order_of_arrival_changes_nothing(
    both: tuple[list[Entry], list[Entry]],
) -> None:
    """Entries in any order give one and the same balance, to the last digit.

    Some have a moment at which a book recorded them, some share one, some have none.
    """
    moments = {
        entry.id: NOON + timedelta(seconds=number % 3) if number % 4 else None
        for number, entry in enumerate(both[0])
    }
    one, other = (
        [replace(entry, recorded_at=moments[entry.id]) for entry in side]
        for side in both
    )
    assert repr(balance(one)) == repr(balance(other))


@given(ANY)
@settings(max_examples=100, deadline=None)
def test_figures_make_sense(entries: list[Entry]) -> None:
    """Whatever is written, no figure is negative, infinite or outside its interval."""
    state = balance(entries)
    figures = [total.fish_count for total in state.cohorts]
    for unit in state.units:
        figures += [item.fish_count for item in unit.cohorts]
        figures += [item.mean_weight_g for item in unit.cohorts if item.mean_weight_g]
        figures += [item.biomass_kg for item in unit.cohorts if item.biomass_kg]
    for figure in figures:
        assert 0.0 <= figure.low <= figure.value <= figure.high
        assert math.isfinite(figure.high)
        assert math.isfinite(figure.sd)


@given(ANY, st.randoms(use_true_random=False))
@settings(
    max_examples=8, deadline=None, phases=[Phase.generate]
)  # each is a disk's work
def test_order_of_writing_to_disk_changes_nothing(
    tmp_path_factory: Any, entries: list[Entry], chance: Any
) -> None:
    """Batches of another book, in any order, some twice, give its balance."""
    folder = tmp_path_factory.mktemp("book")
    entries = [
        replace(entry, recorded_at=NOON + timedelta(seconds=chance.randrange(9)))
        for entry in entries
    ]
    shuffled = list(entries)
    chance.shuffle(shuffled)
    with open_book(folder / "book.db") as book:
        for unit in UNITS:
            book.save_unit(unit)
        for item in FISH:
            book.save_cohort(item)
        book.add(*shuffled[::2])
        book.add(*shuffled[1::2])
        book.add(*entries)
        written = book.balance(LAST)
    for mine, theirs in zip(written.units, balance(entries).units, strict=True):
        assert replace(mine, temperature=theirs.temperature) == theirs


@given(ANY.filter(bool))
@settings(max_examples=50, deadline=None)
def test_cancelled_entries_leave_no_trace(entries: list[Entry]) -> None:
    """A book whose every entry was taken back is an empty one."""
    gone = [
        Cancelled(id=UUID(int=n), on=LAST, replaces=entry.id)
        for n, entry in enumerate(entries)
    ]
    state = balance([*entries, *gone])
    assert [total.fish_count.value for total in state.cohorts] == [0, 0]
