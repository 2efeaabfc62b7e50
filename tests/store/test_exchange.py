"""The book leaves and comes back without loss."""

import csv
import io
import json
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fishmeasure.base.cells import text_from_cell, text_to_cell
from fishmeasure.base.errors import ImportFileError
from fishmeasure.book.entries import Died, Stocked, entry_to_plain
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.store.book import BookContent, open_book
from fishmeasure.store.exchange import (
    book_from_csv,
    book_from_json,
    book_to_csv,
    book_to_json,
)
from tests.book.build import cohort, tank
from tests.book.strategies import entries, records

CONTENTS = st.builds(
    BookContent,
    units=st.lists(records(Unit), max_size=3).map(tuple),
    cohorts=st.lists(records(Cohort), max_size=3).map(tuple),
    entries=st.lists(entries(), max_size=6).map(tuple),
    remarks=st.dictionaries(
        st.text(alphabet="abc", min_size=1, max_size=40),
        st.text(alphabet="a, \n\"'é=+-@\t"),
    ).map(lambda remarks: tuple(sorted(remarks.items()))),
)


def times(content: BookContent) -> list[object]:
    """Return the moments of writing, which no comparison looks at."""
    return [
        *(unit.recorded_at for unit in content.units),
        *(item.recorded_at for item in content.cohorts),
        *(entry.recorded_at for entry in content.entries),
    ]


@given(CONTENTS)
@settings(max_examples=60, deadline=None)
def test_json_round_trip(content: BookContent) -> None:
    """Any book written as JSON and read back is the same, every moment too."""
    back = book_from_json(book_to_json(content))
    assert back == content
    assert times(back) == times(content)


@given(CONTENTS)
@settings(max_examples=60, deadline=None)
def test_csv_round_trip(content: BookContent) -> None:
    """Any book written as CSV and read back is the same, every moment too."""
    back = book_from_csv(book_to_csv(content))
    assert back == content
    assert times(back) == times(content)


@given(CONTENTS)
@settings(max_examples=20, deadline=None)
def test_csv_is_what_other_programs_read(content: BookContent) -> None:
    """Every table is a rectangle with one line of headings (RFC 4180)."""
    for text in book_to_csv(content).values():
        rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
        assert len({len(row) for row in rows}) == 1


def test_export_of_one_book_makes_another(tmp_path: Path) -> None:
    """A book on disk, exported and imported elsewhere, is the same book."""
    unit, fish = tank("Tank A"), cohort("trout")
    stocked = Stocked(
        id=unit.id,
        on=date(2026, 3, 1),
        unit_id=unit.id,
        cohort_id=fish.id,
        fish_count=200,
    )
    with open_book(tmp_path / "one.db") as one, open_book(tmp_path / "two.db") as two:
        one.save_unit(unit)
        one.save_cohort(fish)
        one.add(stocked)
        content = one.content()
        two.add_content(book_from_csv(book_to_csv(content)))
        two.add_content(book_from_json(book_to_json(content)))
        assert two.content() == content
        assert times(two.content()) == times(content)


def test_rows_written_by_hand() -> None:
    """Names stand for ids, and a row without an id always gets the same one."""
    unit, fish = tank("Tank A"), cohort("trout")
    book = BookContent(units=(unit,), cohorts=(fish,))
    table = (
        "\ufeffkind,on,unit_id,cohort_id,fish_count,cause\r\n"
        "died,2026-05-02,tank a,Trout,2,\r\n"
        "died,2026-05-02,tank a,Trout,2,\r\n"
        ",,,,,\r\n"
        "died,2026-05-03,tank a,Trout,1,heron\r\n"
    )
    first = book_from_csv({"entries": table}, book)
    assert first == book_from_csv({"entries": table}, book)
    died = [entry for entry in first.entries if isinstance(entry, Died)]
    assert [entry.fish_count for entry in died] == [2, 2, 1]
    assert len({entry.id for entry in died}) == 3
    assert {(entry.unit_id, entry.cohort_id) for entry in died} == {(unit.id, fish.id)}


@pytest.mark.parametrize(
    ("tables", "said"),
    [
        ({"fish": "a"}, "fish.csv"),
        ({"entries": 'kind,"on\n'}, "no CSV"),
        ({"entries": "kind,on\ndied,2026-05-02,7\n"}, "line 2"),
        ({"entries": 'kind,fish_count\ndied,"2,5"\n'}, "fish_count is '2,5'"),
        ({"entries": "kind,on\neaten,2026-05-02\n"}, "kind must be one of"),
        ({"entries": "kind,on,unit_id\nfeed,2026-05-02,Tank Z\n"}, "Tank Z"),
        ({"units": "name,volume_m3\nTank A,6\n"}, "are missing"),
        ({"units": "name,size\nTank A,6\n"}, "size"),
        ({"remarks": "value\nabout\n"}, "name is missing"),
    ],
)
def test_table_that_cannot_be_read(tables: dict[str, str], said: str) -> None:
    """The line or table at fault and the reason are named."""
    with pytest.raises(ImportFileError) as caught:
        book_from_csv(tables)
    assert said in str(caught.value)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "no JSON"),
        ("[" * 100_000, "no JSON"),
        ("[]", "does not say"),
        ('{"format": "other"}', "does not say"),
        ('{"format": "fishmeasure-book", "version": 2}', "version 2"),
        ('{"format": "fishmeasure-book", "version": 1, "units": 5}', "units"),
        ('{"format": "fishmeasure-book", "version": 1, "units": [5]}', "units"),
        ('{"format": "fishmeasure-book", "version": 1, "remarks": [5]}', "remarks"),
        (
            '{"format": "fishmeasure-book", "version": 1, "remarks": {"a": 5}}',
            "remarks",
        ),
        (
            '{"format": "fishmeasure-book", "version": 1, "entries": [{"kind": 5}]}',
            "entries 1: kind",
        ),
    ],
)
def test_json_that_cannot_be_read(text: str, said: str) -> None:
    """The item at fault and the reason are named."""
    with pytest.raises(ImportFileError) as caught:
        book_from_json(text)
    assert said in str(caught.value)


def test_export_has_no_default_values() -> None:
    """What nobody gave is not written, so that files stay readable."""
    died = Died(
        id=tank("A").id,
        on=date(2026, 5, 2),
        unit_id=tank("A").id,
        cohort_id=cohort("c").id,
        fish_count=1,
    )
    text = book_to_json(BookContent(entries=(died,)))
    assert json.loads(text)["entries"] == [entry_to_plain(died)]
    assert "replaces" not in text


@pytest.mark.parametrize(
    ("text", "cell"),
    [
        ("=1+1", "'=1+1"),
        ("+49", "'+49"),
        ("-5 fish", "'-5 fish"),
        ("@a", "'@a"),
        ("'=1", "''=1"),
        ("\uff1d1", "'\uff1d1"),
        ("'tis", "'tis"),
        ("5 - 1 = 4", "5 - 1 = 4"),
        ("", ""),
    ],
)
def test_a_text_is_no_formula_of_a_spreadsheet(text: str, cell: str) -> None:
    """OWASP, CSV injection; the reader takes the apostrophe away again."""
    assert text_to_cell(text) == cell
    assert text_from_cell(cell) == text
