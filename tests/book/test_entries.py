"""Entries check themselves and survive being written as JSON."""

import contextlib
import csv
import io
import json
import math
from dataclasses import fields
from datetime import UTC, date, datetime, time
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fishmeasure.base.errors import BadEntryError
from fishmeasure.base.record import field_names, plain, read
from fishmeasure.base.record_help import field_help, is_text
from fishmeasure.book.entries import (
    ENTRY_KINDS,
    Cancelled,
    Counted,
    Died,
    Entry,
    Feed,
    Graded,
    GradeGroup,
    Harvested,
    Moved,
    Sample,
    Stocked,
    WaterReading,
    entry_from_plain,
    entry_to_plain,
)
from fishmeasure.book.order import in_force
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.husbandry.unit import UnitLimits
from fishmeasure.store.exchange import book_from_csv
from tests.book.build import cohort, day, same, tank
from tests.book.strategies import entries, records

DIED: dict[str, Any] = {
    "kind": "died",
    "id": "5f0c0b5e-0000-4000-8000-000000000001",
    "on": "2026-05-02",
    "unit_id": "5f0c0b5e-0000-4000-8000-000000000002",
    "cohort_id": "5f0c0b5e-0000-4000-8000-000000000003",
    "fish_count": 3,
}


@given(entries())
def test_entry_survives_json(entry: Entry) -> None:
    """An entry written as JSON text and read back is the same, its time too."""
    text = json.dumps(entry_to_plain(entry))
    back = entry_from_plain(json.loads(text))
    assert back == entry
    assert back.recorded_at == entry.recorded_at


@given(st.one_of(records(Unit), records(Cohort)))
def test_unit_and_cohort_survive_json(record: Unit | Cohort) -> None:
    """A unit or cohort written as JSON text and read back is the same."""
    back = read(type(record), json.loads(json.dumps(plain(record, sparse=True))))
    assert back == record
    assert back.recorded_at == record.recorded_at


@given(
    st.dictionaries(
        st.sampled_from(
            sorted(
                {name for kind in ENTRY_KINDS.values() for name in field_names(kind)}
            )
        )
        | st.text(max_size=5),
        st.recursive(
            st.none()
            | st.booleans()
            | st.integers()
            | st.floats()
            | st.text(max_size=20)
            | st.sampled_from(["2026-05-02", str(same(3)), "06:30", "1e999", "NaN"]),
            lambda inner: (
                st.lists(inner, max_size=3)
                | st.dictionaries(st.text(max_size=5), inner, max_size=3)
            ),
            max_leaves=6,
        ),
        max_size=12,
    ),
    st.sampled_from([*ENTRY_KINDS, "", None, 5]),
)
@settings(max_examples=300)
def test_whatever_arrives_is_an_entry_or_refused(plain: Any, kind: Any) -> None:
    """Any JSON object, however strange, makes an entry or is refused."""
    with contextlib.suppress(BadEntryError):
        made = entry_from_plain(plain | {"kind": kind})
        assert entry_from_plain(entry_to_plain(made)) == made


def test_defaults_may_be_written_out() -> None:
    """The full form has every field, the short one only what differs."""
    full = plain(tank("A"))
    assert tuple(full) == field_names(Unit)
    assert tuple(full["limits"]) == field_names(UnitLimits)
    assert "altitude_m" not in plain(tank("A"), sparse=True)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("fish_count", "3"),
        ("fish_count", True),
        ("fish_count", 2.5),
        ("fish_count", -1),
        ("fish_count", 10**12),
        ("fish_count", math.nan),
        ("fish_count", math.inf),
        ("fish_count", None),
        ("fish_count", [3]),
        ("on", "02.05.2026"),
        ("on", 20260502),
        ("on", "2026-13-01"),
        ("on", "0206-05-02"),
        ("on", "9999-05-02"),
        ("id", "not-a-uuid"),
        ("id", 7),
        ("replaces", "5f0c0b5e-0000-4000-8000-000000000001"),
        ("note", 5),
        ("note", "a\0b"),
        ("note", "\ud800"),
        ("note", "x" * 2001),
        ("recorded_at", "2026-05-02T10:00:00"),
        ("recorded_at", "yesterday"),
        ("recorded_at", "0001-01-01T00:00:00+14:00"),
        ("kind", "eaten"),
        ("kind", ["died"]),
        ("colour", "blue"),
    ],
)
def test_unusable_field_is_named(field: str, value: Any) -> None:
    """Whatever a field holds, the answer is one sentence that names it."""
    with pytest.raises(BadEntryError) as caught:
        entry_from_plain(DIED | {field: value})
    assert field in str(caught.value)
    assert field in str(caught.value.field)


@pytest.mark.parametrize("field", sorted(DIED.keys() - {"kind"}))
def test_missing_field_is_named(field: str) -> None:
    """A field that is needed and absent is named."""
    plain = {key: value for key, value in DIED.items() if key != field}
    with pytest.raises(BadEntryError, match=f"{field} is missing"):
        entry_from_plain(plain)


WATER: dict[str, Any] = {"id": same(9), "on": day(0), "unit_id": same(1)}
FISH: dict[str, Any] = WATER | {"cohort_id": same(2)}
WEIGHT = {"mean_weight_g": 9.0, "mean_weight_low_g": 8.0, "mean_weight_high_g": 11.0}
GROUP = GradeGroup(to_unit_id=same(1), fish_count=5)


@pytest.mark.parametrize(
    ("kind", "plain"),
    [
        (Died, FISH | {"fish_count": 2.0}),
        (Died, FISH | {"fish_count": 2, "on": datetime(2026, 5, 2, tzinfo=UTC)}),
        (Died, FISH | {"fish_count": 2, "unit_id": "tank"}),
        (Died, FISH | {"fish_count": 2, "recorded_at": datetime(2026, 5, 2)}),  # noqa: DTZ001
        (Died, FISH | {"fish_count": 2, "note": b"x"}),
        (Died, FISH | {"fish_count": 2, "replaces": same(9)}),
        (Stocked, FISH),
        (Stocked, FISH | {"bulk_weight_kg": 10.0}),
        (Stocked, FISH | {"mean_weight_g": 10.0}),
        (Stocked, FISH | {"fish_count": 100, "mean_weight_g": math.nan}),
        (Stocked, FISH | {"fish_count": 100, "mean_weight_g": "5"}),
        (Stocked, FISH | {"fish_count": 100, "mean_weight_g": True}),
        (Harvested, FISH),
        (Moved, FISH | {"to_unit_id": same(1), "fish_count": 5}),
        (Graded, FISH | {"groups": ()}),
        (Graded, FISH | {"groups": []}),
        (Graded, FISH | {"groups": (5,)}),
        (Graded, FISH | {"groups": (GROUP, GROUP)}),
        (Sample, FISH | WEIGHT | {"mean_weight_low_g": 10.0}),
        (WaterReading, WATER),
        (WaterReading, WATER | {"ph": 7.0, "at": time(6, tzinfo=UTC)}),
        (Cancelled, {"id": same(9), "on": day(0)}),
        (tank, {"name": " "}),
        (tank, {"name": "A", "monthly_temperature_deg_c": (8.0, 9.0)}),
        (tank, {"name": "A", "kind": "bathtub"}),
        (tank, {"name": "A", "inflow_by_gravity": "yes"}),
        (cohort, {"name": " "}),
    ],
)
def test_record_that_makes_no_sense_is_refused(kind: Any, plain: Any) -> None:
    """No record can be built that breaks its own rules."""
    with pytest.raises(BadEntryError):
        kind(**plain)


def test_nested_fields_are_read_strictly() -> None:
    """An object or list of the wrong shape inside an entry is refused."""
    plain = DIED | {"kind": "graded"}
    del plain["fish_count"]
    for groups in ("x", {"a": 1}, [1], [{"fish_count": 2}]):
        with pytest.raises(BadEntryError):
            entry_from_plain(plain | {"groups": groups})


def test_whole_number_may_be_written_as_float() -> None:
    """JSON writers that know only floats send 3.0; it is 3."""
    died = entry_from_plain(DIED | {"fish_count": 3.0})
    assert isinstance(died, Died)
    assert died.fish_count == 3


def test_number_too_large_for_a_float_is_refused() -> None:
    """A JSON integer of 400 digits is refused, not a crash."""
    plain = DIED | {"kind": "feed", "feed_kg": 10**400}
    del plain["fish_count"], plain["cohort_id"]
    with pytest.raises(BadEntryError, match="feed_kg"):
        entry_from_plain(plain)
    with pytest.raises(BadEntryError, match="feed_kg"):
        entry_from_plain(plain | {"feed_kg": "5"})


def test_a_sample_that_kept_the_whole_answer_is_still_read() -> None:
    """Nothing ever read ``result_json``; books and exports may hold it."""
    plain = DIED | WEIGHT | {"kind": "sample", "result_json": '{"fish": []}'}
    del plain["fish_count"]
    (listed,) = book_from_csv({"entries": _csv(plain)}).entries
    for made in (entry_from_plain(plain), listed):
        assert isinstance(made, Sample)
        assert made.mean_weight_g == WEIGHT["mean_weight_g"]
        assert "result_json" not in entry_to_plain(made)


def _csv(plain: dict[str, Any]) -> str:
    out = io.StringIO()
    writer = csv.DictWriter(out, list(plain))
    writer.writeheader()
    writer.writerow(plain)
    return out.getvalue()


def test_correction_and_cancellation() -> None:
    """An entry counts unless another names it; a cancellation never counts."""
    common: dict[str, Any] = {"on": day(1), "unit_id": same(1), "cohort_id": same(2)}
    wrong = Died(id=same(11), **common, fish_count=30)
    right = Died(id=same(12), **common, fish_count=3, replaces=wrong.id)
    other = Counted(id=same(13), **common, fish_count=90)
    gone = Cancelled(id=same(14), on=day(2), replaces=other.id)
    assert in_force([gone, other, right, wrong]) == (right,)


def test_entries_say_what_they_touch() -> None:
    """Every entry names its unit, its cohort and the other units it touches."""
    common: dict[str, Any] = {"id": same(9), "on": day(1)}
    other = GradeGroup(to_unit_id=same(3), fish_count=5)
    graded = Graded(**common, unit_id=same(1), cohort_id=same(2), groups=(GROUP, other))
    assert (graded.place_id, graded.fish_id) == (same(1), same(2))
    assert graded.other_place_ids == (same(1), same(3))
    feed = Feed(**common, unit_id=same(1), feed_kg=1.0)
    assert (feed.place_id, feed.fish_id, feed.other_place_ids) == (same(1), None, ())
    cancelled = Cancelled(**common, replaces=same(4))
    assert (cancelled.place_id, cancelled.fish_id) == (None, None)


def test_text_columns_are_known() -> None:
    """CSV needs to know which fields are text and which are JSON."""
    assert is_text(Unit, "name")
    assert is_text(Unit, "kind")
    assert is_text(Sample, "on")
    assert is_text(WaterReading, "at")
    assert not is_text(Sample, "photos")
    assert not is_text(Stocked, "fish_count")


def test_fields_are_told_in_words() -> None:
    """What a field takes is said with its range; what is needed too."""
    died = field_help(Died)
    assert died["fish_count"] == "whole number from 0 to 10000000, needed"
    assert died["id"] == "id, needed"
    assert died["on"] == "date, needed"
    assert died["cause"] == "text"
    assert field_help(WaterReading)["at"] == "time"
    assert field_help(WaterReading)["ph"] == "number from 2 to 12"
    groups = field_help(Graded)["groups"]
    assert groups.startswith("list of (object with to_unit_id, fish_count, ")
    unit = field_help(Unit)
    assert unit["kind"] == "tank or pond or raceway or cage, needed"
    assert unit["monthly_temperature_deg_c"] == "list of (number from -2 to 45)"
    assert unit["inflow_by_gravity"] == "true or false"
    assert unit["recorded_at"] == "date and time"


def test_every_float_names_its_unit() -> None:
    """A number's name ends in its unit, with a short list of pure numbers."""
    pure = {"level", "cv", "b", "ph"}
    pure |= {f"condition_factor{end}" for end in ("", "_low", "_high")}
    pure |= {"snout_height", "fork_height"}  # of half the thickness
    endings = (
        *("_g", "_kg", "_m", "_m2", "_m3", "_w", "_deg_c", "_hpa", "_fraction"),
        *("_g_per_h", "_g_per_kg", "_l_per_min", "_mg_per_l", "_mg_per_l_h"),
        *("_kg_per_m3", "_count_sd", "_g_cm", "_kg_per_day", "_mm", "_days"),
        *("_g_per_cm3", "_relative_sd"),
    )
    for kind in (*ENTRY_KINDS.values(), Unit, Cohort, GradeGroup):
        for item in fields(kind):
            if "float" in str(item.type):
                assert item.name in pure or item.name.endswith(endings), item.name


def test_dates_are_dates() -> None:
    """A plain date is taken; a date with a time is not mistaken for one."""
    assert Cancelled(id=same(1), on=date(2026, 1, 1), replaces=same(2)).on.year == 2026
