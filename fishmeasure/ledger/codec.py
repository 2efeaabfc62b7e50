"""Records to plain values and back, and the checks on every field.

A record's annotations are the only table: its types say how a field is read,
``Within`` and ``MaxLength`` say what is refused. Plain values are what JSON has.
"""

import json
import math
import types
from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, dataclass, fields
from datetime import UTC, date, datetime, time
from functools import cache
from typing import (
    Annotated,
    Any,
    Literal,
    TypeVar,
    Union,
    cast,
    get_args,
    get_origin,
    get_type_hints,
)
from uuid import UUID

from fishmeasure.errors import BadEntryError

Plain = Mapping[str, Any]
_R = TypeVar("_R")


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


@dataclass(frozen=True, slots=True)
class JsonObject:
    """The text is a JSON object, or empty."""


class _RefusedError(Exception):
    """A value does not suit its field; the text completes "<field> ..."."""

    def __init__(self, *, wanted: str, value: Any) -> None:
        super().__init__(f"must be {wanted}, not {value!r:.60}")


@dataclass(frozen=True, slots=True)
class _Codec:
    check: Callable[[Any], None]
    encode: Callable[[Any], Any]
    decode: Callable[[Any], Any]


def _same(value: Any) -> Any:
    return value


def _check_text(value: Any) -> None:
    if not isinstance(value, str):
        raise _RefusedError(wanted="text", value=value)
    if "\0" in value or not value.isascii():
        try:
            value.encode()
        except UnicodeEncodeError:
            raise _RefusedError(wanted="valid Unicode text", value=value) from None
        if "\0" in value:  # PostgreSQL has no way to keep it
            raise _RefusedError(wanted="text without NUL characters", value=value)


def _check_float(value: Any) -> None:
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if not number or not math.isfinite(value):
        raise _RefusedError(wanted="a number", value=value)


def _check_int(value: Any) -> None:
    if type(value) is not int:
        raise _RefusedError(wanted="a whole number", value=value)


def _decode_float(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise _RefusedError(wanted="a number", value=value)
    try:
        return float(value)
    except OverflowError:
        raise _RefusedError(wanted="a number", value=value) from None


def _decode_int(value: Any) -> int:
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, bool) or not isinstance(value, int):
        raise _RefusedError(wanted="a whole number", value=value)
    return value


def _check_time(value: Any) -> None:
    if not isinstance(value, time) or value.tzinfo is not None:
        raise _RefusedError(wanted="a time of day without a zone", value=value)


def _check_datetime(value: Any) -> None:
    if not isinstance(value, datetime) or value.tzinfo is None:
        raise _RefusedError(wanted="a date and time with its zone", value=value)


def _check_date(value: Any) -> None:
    if type(value) is not date:
        raise _RefusedError(wanted="a date", value=value)


def _instance(kind: type, what: str) -> Callable[[Any], None]:
    def check(value: Any) -> None:
        if not isinstance(value, kind):
            raise _RefusedError(wanted=what, value=value)

    return check


def _parser(kind: type, parse: Callable[[str], Any], what: str) -> Callable[[Any], Any]:
    def decode(value: Any) -> Any:
        if isinstance(value, kind):  # a database column has its type already
            return value
        if not isinstance(value, str):
            raise _RefusedError(wanted=what, value=value)
        try:
            return parse(value)
        except ValueError:
            raise _RefusedError(wanted=what, value=value) from None

    return decode


def _utc(text: str) -> datetime:
    moment = datetime.fromisoformat(text)
    if moment.tzinfo is None:
        raise ValueError(text)
    try:
        return moment.astimezone(UTC)
    except OverflowError:
        raise ValueError(text) from None


_SIMPLE: dict[Any, _Codec] = {
    str: _Codec(_check_text, _same, _same),
    bool: _Codec(_instance(bool, "true or false"), _same, _same),
    float: _Codec(_check_float, _same, _decode_float),
    int: _Codec(_check_int, _same, _decode_int),
    UUID: _Codec(_instance(UUID, "a UUID"), str, _parser(UUID, UUID, "a UUID")),
    date: _Codec(
        _check_date,
        date.isoformat,
        _parser(date, date.fromisoformat, "a date (2026-05-02)"),
    ),
    time: _Codec(
        _check_time, time.isoformat, _parser(time, time.fromisoformat, "a time (06:30)")
    ),
    datetime: _Codec(
        _check_datetime,
        lambda moment: moment.astimezone(UTC).isoformat(),
        _parser(datetime, _utc, "a date and time with its zone"),
    ),
}


_WORDS: dict[Any, str] = {
    str: "text",
    bool: "true or false",
    float: "number",
    int: "whole number",
    UUID: "id",
    date: "date",
    time: "time",
    datetime: "date and time",
}


def _limit(inner: _Codec, rule: Within | DateWithin | MaxLength | JsonObject) -> _Codec:
    """Add one rule of an ``Annotated`` type."""

    def within(value: Any) -> None:
        inner.check(value)
        if not low <= value <= high:
            raise _RefusedError(wanted=f"between {low:g} and {high:g}", value=value)

    def sensible(value: Any) -> None:
        inner.check(value)
        if not first <= value <= last:
            raise _RefusedError(wanted=f"from {first} to {last}", value=str(value))

    def short(value: Any) -> None:
        inner.check(value)
        if len(value) > longest:
            raise _RefusedError(wanted=f"at most {longest} long", value=len(value))

    def json_object(value: Any) -> None:
        inner.check(value)
        try:
            good = value == "" or isinstance(json.loads(value), dict)
        except (ValueError, RecursionError):
            good = False
        if not good:
            raise _RefusedError(wanted="a JSON object", value=value)

    if isinstance(rule, Within):
        low, high = rule.low, rule.high
        return _Codec(within, inner.encode, inner.decode)
    if isinstance(rule, DateWithin):
        first, last = rule.first, rule.last
        return _Codec(sensible, inner.encode, inner.decode)
    if isinstance(rule, MaxLength):
        longest = rule.length
        return _Codec(short, inner.encode, inner.decode)
    return _Codec(json_object, inner.encode, inner.decode)


def _optional(inner: _Codec) -> _Codec:
    def check(value: Any) -> None:
        if value is not None:
            inner.check(value)

    return _Codec(
        check,
        lambda value: None if value is None else inner.encode(value),
        lambda value: None if value is None else inner.decode(value),
    )


def _tuple_of(inner: _Codec) -> _Codec:
    def check(value: Any) -> None:
        if not isinstance(value, tuple):
            raise _RefusedError(wanted="a tuple", value=value)
        for item in value:
            inner.check(item)

    def decode(value: Any) -> tuple[Any, ...]:
        if not isinstance(value, (list, tuple)):
            raise _RefusedError(wanted="a list", value=value)
        return tuple(inner.decode(item) for item in value)

    return _Codec(check, lambda value: [inner.encode(item) for item in value], decode)


def _choice(choices: tuple[Any, ...]) -> _Codec:
    def check(value: Any) -> None:
        if value not in choices:
            raise _RefusedError(wanted="one of " + ", ".join(choices), value=value)

    return _Codec(check, _same, _same)


def _nested(kind: type) -> _Codec:
    def decode(value: Any) -> Any:
        if not isinstance(value, Mapping):
            raise _RefusedError(wanted="an object", value=value)
        return from_plain(kind, value)

    return _Codec(_instance(kind, f"a {kind.__name__}"), to_plain, decode)


@cache
def _codec(hint: Any) -> _Codec:
    if hint in _SIMPLE:
        return _SIMPLE[hint]
    origin, args = get_origin(hint), get_args(hint)
    if origin is Annotated:
        codec = _codec(args[0])
        for rule in args[1:]:
            codec = _limit(codec, rule)
        return codec
    if origin in {types.UnionType, Union}:  # Annotated makes the older kind
        return _optional(_codec(next(a for a in args if a is not types.NoneType)))
    if origin is tuple:
        return _tuple_of(_codec(args[0]))
    if origin is Literal:
        return _choice(args)
    return _nested(hint)


@dataclass(frozen=True, slots=True)
class _Plan:
    names: tuple[str, ...]
    checks: tuple[tuple[str, Callable[[Any], None]], ...]
    codecs: Mapping[str, _Codec]
    needed: frozenset[str]
    defaults: Mapping[str, Any]


def _default(item: Field[Any]) -> Any:
    return item.default_factory() if callable(item.default_factory) else item.default


@cache
def _plan(kind: Any) -> _Plan:
    hints = get_type_hints(kind, include_extras=True)
    all_fields = fields(kind)
    codecs = {item.name: _codec(hints[item.name]) for item in all_fields}
    defaults = {item.name: _default(item) for item in all_fields}
    return _Plan(
        names=tuple(codecs),
        checks=tuple((name, codec.check) for name, codec in codecs.items()),
        codecs=codecs,
        needed=frozenset(n for n, value in defaults.items() if value is MISSING),
        defaults=defaults,
    )


def check_fields(record: Any) -> None:
    """Check every field of a record; for its ``__post_init__``.

    Raises
    ------
    BadEntryError
        Naming the field, the value and what is allowed.
    """
    for name, check in _plan(cast("Any", type(record))).checks:
        try:
            check(getattr(record, name))
        except _RefusedError as refused:
            raise BadEntryError(field=name, reason=str(refused)) from None


def to_plain(record: Any, *, sparse: bool = True) -> dict[str, Any]:
    """Return the fields as JSON has them; ``sparse`` leaves out the defaults."""
    plan = _plan(cast("Any", type(record)))
    result = {}
    for name, codec in plan.codecs.items():
        value = getattr(record, name)
        if sparse and name not in plan.needed and value == plan.defaults[name]:
            continue
        result[name] = codec.encode(value)
    return result


def from_plain(kind: type[_R], plain: Plain) -> _R:
    """Return the record that the plain values describe.

    Raises
    ------
    BadEntryError
        Naming the first field that is missing, unknown or unusable.
    """
    plan = _plan(cast("Any", kind))
    values = {}
    for name, value in plain.items():
        codec = plan.codecs.get(name)
        if codec is None:
            raise BadEntryError(field=repr(name), reason="is not known here")
        try:
            values[name] = codec.decode(value)
        except _RefusedError as refused:
            raise BadEntryError(field=name, reason=str(refused)) from None
    missing = plan.needed - values.keys()
    if missing:
        verb = "is" if len(missing) == 1 else "are"
        raise BadEntryError(field=", ".join(sorted(missing)), reason=f"{verb} missing")
    return kind(**values)


def field_names(kind: type) -> tuple[str, ...]:
    """Return the names of a record's fields, in order."""
    return _plan(kind).names


def is_text(kind: type, name: str) -> bool:
    """Return whether the plain value of the field is always text."""
    hint = get_type_hints(kind, include_extras=True)[name]
    while get_origin(hint) in {Annotated, types.UnionType, Union}:
        hint = get_args(hint)[0]
    return hint in {str, UUID, date, time, datetime} or get_origin(hint) is Literal


def field_help(kind: type) -> dict[str, str]:
    """Return what each field takes, in words."""
    plan = _plan(cast("Any", kind))
    hints = get_type_hints(kind, include_extras=True)
    return {
        name: _words(hints[name]) + (", needed" if name in plan.needed else "")
        for name in plan.names
    }


def _words(hint: Any) -> str:
    origin, args = get_origin(hint), get_args(hint)
    if origin is Annotated:
        limits = [rule for rule in args[1:] if isinstance(rule, Within)]
        tail = "".join(f" from {rule.low:g} to {rule.high:g}" for rule in limits)
        return _words(args[0]) + tail
    if origin in {types.UnionType, Union}:
        return _words(next(a for a in args if a is not types.NoneType))
    if origin is tuple:
        return f"list of ({_words(args[0])})"
    if origin is Literal:
        return " or ".join(args)
    if hint in _SIMPLE:
        return _WORDS[hint]
    return "object with " + ", ".join(field_names(hint))
