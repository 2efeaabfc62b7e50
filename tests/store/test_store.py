"""The book keeps what it is given, once, whole, or not at all."""

import threading
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest

from fishmeasure.base.errors import (
    AlreadyReplacedError,
    BookUnreadableError,
    EntryConflictError,
    NameTakenError,
    UnknownRecordError,
    VersionConflictError,
)
from fishmeasure.book.entries import (
    Cancelled,
    Counted,
    Died,
    Feed,
    Graded,
    GradeGroup,
    Moved,
    Stocked,
)
from fishmeasure.store.book import Book, BookContent, open_book
from fishmeasure.store.rows import Added, newest
from tests.book.build import cohort, day, tank

TANK_A, TANK_B, TROUT = tank("Tank A"), tank("Tank B"), cohort("trout")


@pytest.fixture
def filled(book: Book) -> Book:
    """Return a book with two tanks and a cohort."""
    for unit in (TANK_A, TANK_B):
        book.save_unit(unit)
    book.save_cohort(TROUT)
    return book


def died(fish: int = 1, **fields: Any) -> Died:
    """Return deaths in tank A."""
    plain: dict[str, Any] = {
        "id": uuid4(),
        "on": day(3),
        "unit_id": TANK_A.id,
        "cohort_id": TROUT.id,
        "fish_count": fish,
    }
    return Died(**(plain | fields))


def test_entries_come_back_by_date(filled: Book) -> None:
    """Entries are read back as they were written, oldest day first."""
    late, early = died(on=day(9)), died(on=day(2))
    assert filled.add(late, early) == Added(added=(late.id, early.id), repeated=())
    assert filled.entries() == (early, late)
    assert filled.entry(late.id) == late
    assert filled.entry(late.id).recorded_at is not None


def test_repeated_entry_is_one_entry(filled: Book) -> None:
    """A phone that sends its queue twice, or one entry twice in it, adds it once."""
    one, two = died(1), died(2)
    filled.add(one)
    assert filled.add(one, two, two) == Added(
        added=(two.id,), repeated=(one.id, two.id)
    )
    assert len(filled.entries()) == 2


def test_same_id_with_other_content_is_a_conflict(filled: Book) -> None:
    """An id that comes with other content changes nothing and says what differs."""
    one = died(1)
    filled.add(one)
    with pytest.raises(EntryConflictError, match="fish_count") as caught:
        filled.add(died(5), replace(one, fish_count=7))
    assert caught.value.code == "entry-conflict"
    assert filled.entries() == (one,)
    fed = Feed(id=one.id, on=one.on, unit_id=TANK_A.id, feed_kg=1.0)
    with pytest.raises(EntryConflictError, match="kind"):
        filled.add(fed)


def test_entry_is_corrected_once(filled: Book) -> None:
    """Of two corrections of one entry the second is told of the first."""
    wrong = died(30)
    right = died(3, replaces=wrong.id)
    filled.add(wrong)
    filled.add(right)
    late = died(4, replaces=wrong.id)
    with pytest.raises(AlreadyReplacedError, match=str(right.id)):
        filled.add(late)
    with pytest.raises(AlreadyReplacedError):
        filled.add(died(5, replaces=right.id), died(6, replaces=right.id))
    assert filled.entries(only_in_force=True) == (right,)
    filled.add(Cancelled(id=uuid4(), on=day(4), replaces=right.id))
    assert filled.entries(only_in_force=True) == ()
    assert len(filled.entries()) == 3


def test_correction_may_come_before_what_it_corrects(filled: Book) -> None:
    """In one batch the order does not matter."""
    wrong = died(30)
    filled.add(died(3, replaces=wrong.id), wrong)
    assert len(filled.entries(only_in_force=True)) == 1


@pytest.mark.parametrize(
    ("entry", "what"),
    [
        (died(unit_id=uuid4()), "unit"),
        (died(cohort_id=uuid4()), "cohort"),
        (died(replaces=uuid4()), "entry"),
        (
            Moved(
                id=uuid4(),
                on=day(1),
                unit_id=TANK_A.id,
                cohort_id=TROUT.id,
                to_unit_id=uuid4(),
                fish_count=1,
            ),
            "unit",
        ),
        (
            Graded(
                id=uuid4(),
                on=day(1),
                unit_id=TANK_A.id,
                cohort_id=TROUT.id,
                groups=(GradeGroup(to_unit_id=uuid4(), fish_count=1),),
            ),
            "unit",
        ),
    ],
)
def test_entry_about_something_unknown_is_refused(
    filled: Book, entry: Died, what: str
) -> None:
    """An entry that names what the book has not is refused, with all sent with it."""
    with pytest.raises(UnknownRecordError, match=f"no {what} "):
        filled.add(died(), entry)
    assert filled.entries() == ()


def test_unknown_entry_is_refused(filled: Book) -> None:
    """Asking for an entry that is not there is one clear sentence."""
    with pytest.raises(UnknownRecordError, match="no entry"):
        filled.entry(uuid4())


def test_entries_of_a_unit_take_moves_to_it(filled: Book) -> None:
    """The entries of a unit are those in it and those that bring fish to it."""
    common: dict[str, Any] = {"on": day(1), "cohort_id": TROUT.id}
    stocked = Stocked(id=uuid4(), unit_id=TANK_A.id, fish_count=100, **common)
    moved = Moved(
        id=uuid4(), unit_id=TANK_A.id, to_unit_id=TANK_B.id, fish_count=40, **common
    )
    fed = Feed(id=uuid4(), on=day(2), unit_id=TANK_B.id, feed_kg=1.0)
    filled.add(stocked, moved, fed)
    assert set(filled.entries(unit_id=TANK_B.id)) == {moved, fed}
    assert set(filled.entries(cohort_id=TROUT.id)) == {stocked, moved}


def test_unit_changes_are_versions(filled: Book) -> None:
    """A change of a unit is its next version; a change of an old one is refused."""
    deeper = replace(TANK_A, version=2, depth_m=1.5)
    assert filled.save_unit(deeper) == deeper
    assert filled.save_unit(deeper) == deeper  # sent again
    assert filled.unit("tank a") == deeper
    with pytest.raises(VersionConflictError, match="version 2"):
        filled.save_unit(replace(TANK_A, version=2, depth_m=1.8))
    with pytest.raises(VersionConflictError, match="version 2"):
        filled.save_unit(TANK_A)
    with pytest.raises(VersionConflictError):
        filled.save_unit(replace(TANK_A, version=9))
    assert [unit.version for unit in filled.content().units] == [1, 1, 2]


def test_newest_version_counts_in_any_order() -> None:
    """Of several versions of a unit the highest one is the unit."""
    second = replace(TANK_A, version=2)
    assert newest([second, TANK_A]) == newest([TANK_A, second]) == (second,)


def test_names_are_unique(filled: Book) -> None:
    """Two units, or two cohorts, of one name cannot be told apart."""
    with pytest.raises(NameTakenError, match="TANK A"):
        filled.save_unit(tank("TANK A"))
    with pytest.raises(NameTakenError):
        filled.save_cohort(cohort("Trout"))
    filled.save_unit(replace(TANK_A, version=2, name="Old tank"))
    filled.save_unit(tank("Tank A"))
    assert [unit.name for unit in filled.units()] == ["Old tank", "Tank A", "Tank B"]


def test_find_by_name_or_id(filled: Book) -> None:
    """Units and cohorts are found by either; the answer to a wrong name lists them."""
    assert filled.unit(TANK_B.id) == TANK_B
    assert filled.cohort(" TROUT ") == TROUT
    with pytest.raises(UnknownRecordError, match="Tank A, Tank B"):
        filled.unit("Tank C")


def test_content_of_one_book_fills_another(filled: Book, tmp_path: Path) -> None:
    """All of a book, written into an empty one twice, gives the same book."""
    filled.save_unit(replace(TANK_A, version=2, depth_m=1.5))
    wrong = died(30, recorded_at=datetime(2026, 3, 4, 5, 6, 7, 89, tzinfo=UTC))
    filled.add(wrong, died(3, replaces=wrong.id))
    content = filled.content()
    marked = replace(content, remarks=(("about", "A test."),))
    with open_book(tmp_path / "other" / "copy.db") as copy:
        copy.add_content(marked)
        again = copy.add_content(marked)
        assert (len(again.added), len(again.repeated)) == (0, 2)
        assert copy.content() == marked
        times = [entry.recorded_at for entry in copy.content().entries]
        assert times == [entry.recorded_at for entry in content.entries]
        assert times[0] == wrong.recorded_at
        assert copy.remark("about") == "A test."
        assert copy.remark("else") == ""
        copy.add_content(BookContent())


def test_nothing_is_written_when_something_is_wrong(
    filled: Book, tmp_path: Path
) -> None:
    """A content with one bad entry leaves the other book as it was."""
    filled.add(died())
    content = filled.content()
    broken = replace(content, entries=(*content.entries, died(unit_id=uuid4())))
    with open_book(tmp_path / "copy.db") as copy:
        with pytest.raises(UnknownRecordError):
            copy.add_content(broken)
        assert copy.content() == BookContent()


def test_balance_is_replayed_from_the_book(filled: Book) -> None:
    """The balance of a day is of all entries up to that day."""
    stocked = Stocked(
        id=uuid4(),
        on=day(0),
        unit_id=TANK_A.id,
        cohort_id=TROUT.id,
        fish_count=100,
        mean_weight_g=50.0,
    )
    filled.add(
        stocked,
        died(3),
        Counted(
            id=uuid4(), on=day(20), unit_id=TANK_A.id, cohort_id=TROUT.id, fish_count=80
        ),
    )
    state = filled.balance(day(10)).unit(TANK_A.id)
    assert state.fish_count.value == pytest.approx(97, rel=0.005)
    with pytest.raises(KeyError):
        filled.balance(day(10)).unit(uuid4())


def test_many_entries_in_one_batch(filled: Book) -> None:
    """A batch may be larger than what one SQL statement can name."""
    batch = [died() for _ in range(1200)]
    filled.add(*batch)
    assert len(filled.add(*batch).repeated) == 1200


def test_threads_share_a_book(filled: Book) -> None:
    """One book may be used by many threads at once."""
    failures: list[BaseException] = []

    def write() -> None:
        try:
            for _ in range(10):
                filled.add(died())
                filled.balance(day(5))
        except BaseException as error:  # noqa: BLE001 - any failure counts
            failures.append(error)

    threads = [threading.Thread(target=write) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not failures
    assert len(filled.entries()) == 60


@pytest.mark.parametrize(
    "where",
    [
        "mysql://localhost/x",
        "nonsense://x",
        "postgresql://localhost:notaport/x",
        "postgresql://nobody@127.0.0.1:1/x",
    ],
)
def test_address_that_cannot_be_a_book(where: str) -> None:
    """A wrong address is one clear sentence."""
    with pytest.raises(BookUnreadableError):
        open_book(where)


def test_file_that_is_no_book(tmp_path: Path) -> None:
    """A photo given as a book is not a book, and stays as it was."""
    path = tmp_path / "photo.jpg"
    path.write_bytes(b"\xff\xd8\xff" + bytes(5000))
    with pytest.raises(BookUnreadableError, match=r"photo\.jpg"):
        open_book(path)
    assert path.read_bytes() == b"\xff\xd8\xff" + bytes(5000)
    with pytest.raises(BookUnreadableError):
        open_book(tmp_path)
    with pytest.raises(BookUnreadableError):
        open_book(path / "book.db")
