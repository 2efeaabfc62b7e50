"""One value of a record: how it is checked, written and read."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from typing import Any
from uuid import UUID


@dataclass(frozen=True, slots=True)
class Within:
    """The closed range of a number."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class DateWithin:
    """The first and last day that make sense."""

    first: date
    last: date


@dataclass(frozen=True, slots=True)
class MaxLength:
    """The longest text or list."""

    length: int


class RefusedError(Exception):
    """A value does not suit its field; the text completes "<field> ..."."""

    def __init__(self, *, wanted: str, value: Any) -> None:
        super().__init__(f"must be {wanted}, not {value!r:.60}")


@dataclass(frozen=True, slots=True)
class ValueCodec:
    """How a value of a field is checked, written as plain value, and read."""

    check: Callable[[Any], None]
    encode: Callable[[Any], Any]
    decode: Callable[[Any], Any]


def unchanged(value: Any) -> Any:
    """Return what is plain already."""
    return value


def _check_text(value: Any) -> None:
    if not isinstance(value, str):
        raise RefusedError(wanted="text", value=value)
    if "\0" in value or not value.isascii():
        try:
            value.encode()
        except UnicodeEncodeError:
            raise RefusedError(wanted="valid Unicode text", value=value) from None
        if "\0" in value:  # PostgreSQL has no way to keep it
            raise RefusedError(wanted="text without NUL characters", value=value)


def _check_float(value: Any) -> None:
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if not number or not math.isfinite(value):
        raise RefusedError(wanted="a number", value=value)


def _check_int(value: Any) -> None:
    if type(value) is not int:
        raise RefusedError(wanted="a whole number", value=value)


def _decode_float(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise RefusedError(wanted="a number", value=value)
    try:
        return float(value)
    except OverflowError:
        raise RefusedError(wanted="a number", value=value) from None


def _decode_int(value: Any) -> int:
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, bool) or not isinstance(value, int):
        raise RefusedError(wanted="a whole number", value=value)
    return value


def _check_time(value: Any) -> None:
    if not isinstance(value, time) or value.tzinfo is not None:
        raise RefusedError(wanted="a time of day without a zone", value=value)


def _check_datetime(value: Any) -> None:
    if not isinstance(value, datetime) or value.tzinfo is None:
        raise RefusedError(wanted="a date and time with its zone", value=value)


def _check_date(value: Any) -> None:
    if type(value) is not date:
        raise RefusedError(wanted="a date", value=value)


def check_of(kind: type, what: str) -> Callable[[Any], None]:
    """Return the check that a value is of a kind; ``what`` names it."""

    def check(value: Any) -> None:
        if not isinstance(value, kind):
            raise RefusedError(wanted=what, value=value)

    return check


def _parser(kind: type, parse: Callable[[str], Any], what: str) -> Callable[[Any], Any]:
    def decode(value: Any) -> Any:
        if isinstance(value, kind):  # a database column has its type already
            return value
        if not isinstance(value, str):
            raise RefusedError(wanted=what, value=value)
        try:
            return parse(value)
        except ValueError:
            raise RefusedError(wanted=what, value=value) from None

    return decode


def _utc(text: str) -> datetime:
    moment = datetime.fromisoformat(text)
    if moment.tzinfo is None:
        raise ValueError(text)
    try:
        return moment.astimezone(UTC)
    except OverflowError:
        raise ValueError(text) from None


SIMPLE: dict[Any, ValueCodec] = {
    str: ValueCodec(_check_text, unchanged, unchanged),
    bool: ValueCodec(check_of(bool, "true or false"), unchanged, unchanged),
    float: ValueCodec(_check_float, unchanged, _decode_float),
    int: ValueCodec(_check_int, unchanged, _decode_int),
    UUID: ValueCodec(check_of(UUID, "a UUID"), str, _parser(UUID, UUID, "a UUID")),
    date: ValueCodec(
        _check_date,
        date.isoformat,
        _parser(date, date.fromisoformat, "a date (2026-05-02)"),
    ),
    time: ValueCodec(
        _check_time, time.isoformat, _parser(time, time.fromisoformat, "a time (06:30)")
    ),
    datetime: ValueCodec(
        _check_datetime,
        lambda moment: moment.astimezone(UTC).isoformat(),
        _parser(datetime, _utc, "a date and time with its zone"),
    ),
}


def limited(inner: ValueCodec, rule: Within | DateWithin | MaxLength) -> ValueCodec:
    """Add one rule of an ``Annotated`` type."""

    def within(value: Any) -> None:
        inner.check(value)
        if not low <= value <= high:
            less = f"{low:.12g} or more" if value < low else f"{high:.12g} or less"
            raise RefusedError(wanted=less, value=value)

    def sensible(value: Any) -> None:
        inner.check(value)
        if not first <= value <= last:
            raise RefusedError(wanted=f"from {first} to {last}", value=str(value))

    def short(value: Any) -> None:
        inner.check(value)
        if len(value) > longest:
            raise RefusedError(wanted=f"at most {longest} long", value=len(value))

    if isinstance(rule, Within):
        low, high = rule.low, rule.high
        return ValueCodec(within, inner.encode, inner.decode)
    if isinstance(rule, DateWithin):
        first, last = rule.first, rule.last
        return ValueCodec(sensible, inner.encode, inner.decode)
    longest = rule.length
    return ValueCodec(short, inner.encode, inner.decode)


def optional(inner: ValueCodec) -> ValueCodec:
    """Return the codec that takes None as well."""

    def check(value: Any) -> None:
        if value is not None:
            inner.check(value)

    return ValueCodec(
        check,
        lambda value: None if value is None else inner.encode(value),
        lambda value: None if value is None else inner.decode(value),
    )


def tuple_of(inner: ValueCodec) -> ValueCodec:
    """Return the codec of a list of such values."""

    def check(value: Any) -> None:
        if not isinstance(value, tuple):
            raise RefusedError(wanted="a tuple", value=value)
        for item in value:
            inner.check(item)

    def decode(value: Any) -> tuple[Any, ...]:
        if not isinstance(value, (list, tuple)):
            raise RefusedError(wanted="a list", value=value)
        return tuple(inner.decode(item) for item in value)

    return ValueCodec(
        check, lambda value: [inner.encode(item) for item in value], decode
    )


def choice_of(choices: tuple[Any, ...]) -> ValueCodec:
    """Return the codec of one of some words."""

    def check(value: Any) -> None:
        if value not in choices:
            raise RefusedError(wanted="one of " + ", ".join(choices), value=value)

    return ValueCodec(check, unchanged, unchanged)
