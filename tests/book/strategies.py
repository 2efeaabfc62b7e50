"""Hypothesis strategies for any record, from its own annotations."""

import types
from collections.abc import Callable
from dataclasses import MISSING, fields
from datetime import UTC, date, datetime, time
from typing import (
    Annotated,
    Any,
    Literal,
    TypeVar,
    Union,
    get_args,
    get_origin,
    get_type_hints,
)
from uuid import UUID

from hypothesis import strategies as st
from pydantic.fields import FieldInfo

from fishmeasure.base.errors import BadEntryError, BadFieldError
from fishmeasure.book.entries import ENTRY_KINDS, Entry, Sample

_T = TypeVar("_T")
# Any Unicode text that both databases can keep.
_TEXT = st.text(
    alphabet=st.characters(exclude_categories=["Cs"], exclude_characters="\0"),
    max_size=30,
)
_DATES = st.dates(min_value=date(2020, 1, 1), max_value=date(2030, 12, 31))
_SIMPLE: dict[Any, st.SearchStrategy[Any]] = {
    str: _TEXT,
    bool: st.booleans(),
    float: st.floats(allow_nan=False, allow_infinity=False),
    int: st.integers(),
    UUID: st.uuids(),
    date: _DATES,
    time: st.times(),
    datetime: st.datetimes(
        min_value=datetime(2020, 1, 1),  # noqa: DTZ001 - the strategy adds the zone
        max_value=datetime(2030, 1, 1),  # noqa: DTZ001
        timezones=st.just(UTC),
    ),
}


def of_hint(hint: Any) -> st.SearchStrategy[Any]:
    """Return values that a field of this type takes."""
    if hint in _SIMPLE:
        return _SIMPLE[hint]
    origin, args = get_origin(hint), get_args(hint)
    if origin is Annotated:
        return _limited(args[0], args[1:])
    if origin in {types.UnionType, Union}:
        inner = next(arg for arg in args if arg is not types.NoneType)
        return st.none() | of_hint(inner)
    if origin is tuple:
        return st.lists(of_hint(args[0]), max_size=3).map(tuple)
    if origin is Literal:
        return st.sampled_from(args)
    return records(hint)


def _limited(inner: Any, rules: tuple[Any, ...]) -> st.SearchStrategy[Any]:
    limits: dict[str, Any] = {}
    for rule in rules:
        for limit in rule.metadata if isinstance(rule, FieldInfo) else ():
            limits |= {name: getattr(limit, name) for name in limit.__slots__}
    if inner is int and "ge" in limits:
        return st.integers(limits["ge"], limits["le"])
    if inner is float and "ge" in limits:
        return st.floats(limits["ge"], limits["le"])
    if inner is str and "max_length" in limits:
        return _TEXT.filter(lambda text: bool(text.strip()))
    return of_hint(inner)


def records(kind: type[_T], **fixed: st.SearchStrategy[Any]) -> st.SearchStrategy[_T]:
    """Return records of a kind, every field drawn or left at its default."""
    hints = get_type_hints(kind, include_extras=True)
    needed: dict[str, st.SearchStrategy[Any]] = {}
    optional: dict[str, st.SearchStrategy[Any]] = {}
    for item in fields(kind):  # type: ignore[arg-type]
        bare = item.default is MISSING and item.default_factory is MISSING
        given = item.name in fixed
        chosen = fixed[item.name] if given else of_hint(hints[item.name])
        (needed if bare or item.name in fixed else optional)[item.name] = chosen
    drawn = st.fixed_dictionaries(needed, optional=optional)
    return drawn.map(lambda plain: _built(kind, plain)).filter(_is_record)


def _is_record(value: Any) -> bool:
    return value is not None


def _built(kind: Callable[..., _T], plain: dict[str, Any]) -> Any:
    if kind is Sample:
        names = ("mean_weight_low_g", "mean_weight_g", "mean_weight_high_g")
        ordered = sorted(plain[name] for name in names)
        plain = plain | dict(zip(names, ordered, strict=True))
    try:
        return kind(**plain)
    except (BadEntryError, BadFieldError):
        return None


def entries(**fixed: st.SearchStrategy[Any]) -> st.SearchStrategy[Entry]:
    """Return entries of every kind."""
    return st.one_of(
        *(
            records(
                kind,
                **{
                    name: drawn
                    for name, drawn in fixed.items()
                    if name in {item.name for item in fields(kind)}
                },
            )
            for kind in ENTRY_KINDS.values()
        )
    )
