"""Models of the core's records as answers, so that the API describes each figure.

What a field means stands at the record, as ``Field(description=...)``, or else follows
from its name.
"""

import types
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

import numpy as np
from pydantic import BaseModel, Field, FiniteFloat, create_model
from pydantic.fields import FieldInfo

from api.schemas import Out
from fishmeasure.base.field_words import description
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
from fishmeasure.book.units import Unit
from fishmeasure.husbandry.unit import RearingUnit

_KNOWN: dict[Any, Any] = {
    Message: str,
    Problem: Problem,
    float: float | None,  # JSON knows no infinity
    RearingUnit: Unit | RearingUnit,  # of the book, or sent for one calculation
}


@cache
def result_of(kind: Any) -> type[BaseModel]:
    """Return the model of a record as ``plain`` gives it."""
    if hasattr(kind, "__pydantic_validator__"):
        known: type[BaseModel] = kind
        return known
    hints = get_type_hints(kind, include_extras=True)
    definitions: dict[str, Any] = {
        item.name: (
            _type_of(hints[item.name]),
            Field(description=_said(item.name, hints[item.name])),
        )
        for item in fields(kind)
        if get_origin(hints[item.name]) is not Callable
    }
    return create_model(f"{kind.__name__}Result", __base__=Out, **definitions)


def _said(name: str, hint: Any) -> str:
    for mark in getattr(hint, "__metadata__", ()):
        if isinstance(mark, FieldInfo) and mark.description:
            return mark.description
    return description(name)


def _type_of(hint: Any) -> Any:
    origin, args = get_origin(hint), get_args(hint)
    found: Any = hint
    if hint == FiniteFloat:
        found = float
    elif origin is Annotated:  # its marks, as of a local time, say more than its kind
        inner = _type_of(args[0])
        found = hint if inner == args[0] else inner
    elif hint in _KNOWN:
        found = _KNOWN[hint]
    elif origin in {Union, types.UnionType}:
        inner = [_type_of(arg) for arg in args if arg is not types.NoneType]
        found = Union[(*inner, None)]
    elif origin is dict:
        found = dict[str, _type_of(args[1])]  # type: ignore[misc]
    elif origin is tuple:
        inner = [_type_of(arg) for arg in args if arg is not Ellipsis]
        found = list[Union[tuple(inner)]]  # type: ignore[misc] # noqa: UP007
    elif origin is np.ndarray:
        found = list[float | None]
    elif getattr(hint, "_is_protocol", False):
        found = dict[str, Any]  # one of several records, which differ in their fields
    elif isinstance(hint, type) and is_dataclass(hint):
        found = result_of(hint)
    return found
