"""A record takes what its annotations say, and says what is wrong with the rest."""

import json
import math
from dataclasses import FrozenInstanceError, field, replace
from datetime import UTC, date, datetime, time
from typing import Any, Literal
from uuid import UUID

import pytest

from fishmeasure.base.errors import BadFieldError
from fishmeasure.base.record import (
    Count,
    Day,
    Grams,
    Name,
    field_names,
    json_schema,
    plain,
    read,
    record,
)
from fishmeasure.base.words import Message

ID = UUID("5f0c0b5e-0000-4000-8000-000000000001")


@record(frozen=True, slots=True, kw_only=True)
class Basket:
    """Some fish of one weighing."""

    weight_g: Grams
    fish_count: Count = 1


@record(frozen=True, slots=True, kw_only=True)
class Weighing:
    """A day of weighing."""

    id: UUID
    on: Day
    at: time | None = None
    written: datetime | None = field(default=None, compare=False)
    how: Literal["hand", "net"] = "net"
    sure: bool = False
    name: Name = ""
    baskets: tuple[Basket, ...] = ()


GOOD: dict[str, Any] = {"id": str(ID), "on": "2026-05-02"}
TEXTS = {
    "at": "06:30:00",
    "written": "2026-05-02T10:00:00Z",
    "how": "hand",
    "sure": True,
    "name": "first",
    "baskets": [{"weight_g": 500.0, "fish_count": 3}],
}


def test_plain_values_are_read_and_written_back() -> None:
    """What JSON has for an id, a day, a time and a list is read and written again."""
    made = read(Weighing, json.loads(json.dumps(GOOD | TEXTS)))
    assert made.id == ID
    assert made.on == date(2026, 5, 2)
    assert made.at == time(6, 30)
    assert made.baskets == (Basket(weight_g=500.0, fish_count=3),)
    assert json.loads(json.dumps(plain(made))) == GOOD | TEXTS


def test_sparse_leaves_out_defaults() -> None:
    """The short form has what is needed and what differs, the long one all."""
    made = read(Weighing, GOOD)
    assert plain(made, sparse=True) == GOOD
    assert tuple(plain(made)) == field_names(Weighing)


def test_whole_number_may_be_written_as_float() -> None:
    """Writers of JSON that know only floats send 3.0; a record keeps 3."""
    basket = read(Basket, {"weight_g": 10, "fish_count": 3.0})
    assert type(basket.fish_count) is int
    assert type(basket.weight_g) is float


def test_database_rows_have_their_types_already() -> None:
    """A day, a time, a moment or an id may come as such."""
    now = datetime(2026, 5, 2, 10, tzinfo=UTC)
    row = {"id": ID, "on": now.date(), "at": time(6), "written": now, "baskets": ()}
    assert read(Weighing, row).written == now


@pytest.mark.parametrize(
    ("changed", "named", "reason"),
    [
        ({"on": "02.05.2026"}, "on", "must be a date (2026-05-02), not '02.05.2026'"),
        ({"on": 20260502}, "on", "must be a date (2026-05-02), not 20260502"),
        ({"on": "0206-05-02"}, "on", "must be 1990-01-01 or later, not 0206-05-02"),
        ({"on": "9999-05-02"}, "on", "must be 2100-12-31 or earlier, not 9999-05-02"),
        ({"id": "tank"}, "id", "must be a UUID, not 'tank'"),
        ({"id": 7}, "id", "must be a UUID, not 7"),
        ({"at": "six"}, "at", "must be a time (06:30), not 'six'"),
        ({"at": "06:30+02:00"}, "at", "must be a time of day without a zone"),
        ({"written": "2026-05-02T10:00:00"}, "written", "a date and time with its"),
        ({"written": "0001-01-01T00:00:00+14:00"}, "written", "a date and time with"),
        ({"how": "eye"}, "how", "must be one of hand, net, not 'eye'"),
        ({"how": ["net"]}, "how", "must be one of hand, net, not ['net']"),
        ({"sure": "yes"}, "sure", "must be true or false, not 'yes'"),
        ({"sure": 1}, "sure", "must be true or false, not 1"),
        ({"name": 5}, "name", "must be text, not 5"),
        ({"name": b"x"}, "name", "must be text, not b'x'"),
        ({"name": "a\0b"}, "name", "must be text without NUL characters"),
        ({"name": "\ud800"}, "name", "must be valid Unicode text"),
        ({"name": "x" * 81}, "name", "must be at most 80 long, not 81"),
        ({"name": None}, "name", "must be text, not None"),
        ({"colour": "blue"}, "'colour'", "is not known here"),
        ({"baskets": "x"}, "baskets", "must be a list, not 'x'"),
        ({"baskets": [5]}, "baskets[0]", "must be an object, not 5"),
        ({"baskets": [{}]}, "baskets[0].weight_g", "is missing"),
    ],
)
def test_unusable_field_is_named(
    changed: dict[str, Any], named: str, reason: str
) -> None:
    """The answer names the field, what it must be and what it is."""
    with pytest.raises(BadFieldError) as caught:
        read(Weighing, GOOD | changed)
    assert caught.value.field == named
    assert reason in str(caught.value.reason)


@pytest.mark.parametrize(
    ("value", "reason"),
    [
        ("3", "must be a number, not '3'"),
        (True, "must be a number, not True"),
        (math.nan, "must be a number, not nan"),
        (math.inf, "must be a number, not inf"),
        (10**400, "must be a number, not 1000000"),
        (None, "must be a number, not None"),
        (0, "must be 0.001 or more, not 0"),
        (200_000.5, "must be 200000 or less, not 200000.5"),
    ],
)
def test_number_is_finite_and_in_its_range(value: Any, reason: str) -> None:
    """A number is none of the things that look like one, nested or not."""
    data = GOOD | {"baskets": [{"weight_g": 5.0}, {"weight_g": value}]}
    with pytest.raises(BadFieldError) as caught:
        read(Weighing, data)
    assert caught.value.field == "baskets[1].weight_g"
    assert str(caught.value.reason).startswith(reason)
    with pytest.raises(BadFieldError, match="weight_g"):
        Basket(weight_g=value)


@pytest.mark.parametrize("value", ["3", True, 2.5, -1, 10**12, 10**400, math.nan])
def test_count_is_a_whole_number_in_its_range(value: Any) -> None:
    """A count is a whole number; made in Python it is no float at all."""
    with pytest.raises(BadFieldError, match="fish_count"):
        read(Basket, {"weight_g": 5.0, "fish_count": value})
    with pytest.raises(BadFieldError, match=r"must be a whole number, not 2\.0"):
        Basket(weight_g=5.0, fish_count=2.0)  # type: ignore[arg-type]


def test_all_missing_fields_are_named() -> None:
    """What is missing is said at once."""
    with pytest.raises(BadFieldError, match="id, on are missing"):
        read(Weighing, {})
    with pytest.raises(BadFieldError, match="must be an object"):
        read(Weighing, [1])


@pytest.mark.parametrize(
    "changed",
    [
        {"id": str(ID)},
        {"on": "2026-05-02"},
        {"on": datetime(2026, 5, 2, tzinfo=UTC)},
        {"at": time(6, tzinfo=UTC)},
        {"written": datetime(2026, 5, 2)},  # noqa: DTZ001 - it is to be refused
        {"baskets": [Basket(weight_g=5.0)]},
        {"baskets": ({"weight_g": 5.0},)},
    ],
)
def test_made_in_python_it_takes_its_own_types(changed: dict[str, Any]) -> None:
    """What is read leniently from JSON is a slip in Python."""
    with pytest.raises(BadFieldError, match=next(iter(changed))):
        _weighing(changed)


def _weighing(changed: dict[str, Any]) -> Weighing:
    values: dict[str, Any] = {"id": ID, "on": date(2026, 5, 2)}
    return Weighing(**(values | changed))


def test_it_is_a_frozen_dataclass() -> None:
    """It cannot change, is copied with a change, and compares by its content."""
    basket = Basket(weight_g=5.0)
    with pytest.raises(FrozenInstanceError):
        basket.fish_count = 3  # type: ignore[misc]
    assert replace(basket, fish_count=3) == Basket(weight_g=5.0, fish_count=3)
    with pytest.raises(BadFieldError, match="must be 0 or more, not -3"):
        replace(basket, fish_count=-3)
    first = Weighing(id=ID, on=date(2026, 5, 2))
    assert first == replace(first, written=datetime(2026, 5, 2, tzinfo=UTC))
    assert hash(first) == hash(replace(first))


def test_reader_may_name_its_own_error() -> None:
    """Whoever reads says which error it is."""

    class OtherError(Exception):
        def __init__(self, *, field: str, reason: Message) -> None:
            super().__init__(f"net 2: {field} {reason}")

    with pytest.raises(OtherError, match="net 2: weight_g is missing"):
        read(Basket, {}, OtherError)


def test_schema_has_ranges_and_words() -> None:
    """The published schema has each range, unit and choice."""
    schema = json_schema(Weighing)
    weight = schema["$defs"]["Basket"]["properties"]["weight_g"]
    assert (weight["minimum"], weight["maximum"]) == (0.001, 200_000.0)
    assert weight["description"] == "Weight, g."
    assert schema["properties"]["how"]["enum"] == ["hand", "net"]
    assert schema["required"] == ["id", "on"]
    assert schema["additionalProperties"] is False
