"""Records to plain values and back, by the codec of each field's type.

A record's annotations are the only table: its types say how a field is read,
``Within`` and ``MaxLength`` say what is refused. Plain values are what JSON has.
"""

import types
from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, dataclass, fields
from datetime import date, datetime, time
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

from fishmeasure.base.errors import BadEntryError
from fishmeasure.book.values import (
    SIMPLE,
    RefusedError,
    ValueCodec,
    Within,
    check_of,
    choice_of,
    limited,
    optional,
    tuple_of,
)

Plain = Mapping[str, Any]
_R = TypeVar("_R")


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


def _nested(kind: type) -> ValueCodec:
    def decode(value: Any) -> Any:
        if not isinstance(value, Mapping):
            raise RefusedError(wanted="an object", value=value)
        return from_plain(kind, value)

    return ValueCodec(check_of(kind, f"a {kind.__name__}"), to_plain, decode)


@cache
def _codec(hint: Any) -> ValueCodec:
    if hint in SIMPLE:
        return SIMPLE[hint]
    origin, args = get_origin(hint), get_args(hint)
    if origin is Annotated:
        codec = _codec(args[0])
        for rule in args[1:]:
            codec = limited(codec, rule)
        return codec
    if origin in {types.UnionType, Union}:  # Annotated makes the older kind
        return optional(_codec(next(a for a in args if a is not types.NoneType)))
    if origin is tuple:
        return tuple_of(_codec(args[0]))
    if origin is Literal:
        return choice_of(args)
    return _nested(hint)


@dataclass(frozen=True, slots=True)
class _Plan:
    names: tuple[str, ...]
    checks: tuple[tuple[str, Callable[[Any], None]], ...]
    codecs: Mapping[str, ValueCodec]
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
        except RefusedError as refused:
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
        except RefusedError as refused:
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
        tail = "".join(f" from {rule.low:.12g} to {rule.high:.12g}" for rule in limits)
        return _words(args[0]) + tail
    if origin in {types.UnionType, Union}:
        return _words(next(a for a in args if a is not types.NoneType))
    if origin is tuple:
        return f"list of ({_words(args[0])})"
    if origin is Literal:
        return " or ".join(args)
    if hint in SIMPLE:
        return _WORDS[hint]
    return "object with " + ", ".join(field_names(hint))
