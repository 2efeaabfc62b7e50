"""Models of the core's records as answers, so that the API describes each figure."""

import types
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

import numpy as np
from pydantic import BaseModel, Field, create_model

from api.outlook_schemas import EstimateOut
from api.schemas import Out
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.field_words import description
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message

_KNOWN: dict[Any, Any] = {
    Estimate: EstimateOut,
    Problem: Problem,
    Message: str,
    float: float | None,  # JSON knows no infinity
}


@cache
def result_of(kind: Any) -> type[BaseModel]:
    """Return the model of a record as ``plain`` gives it."""
    if kind in _KNOWN:
        known: type[BaseModel] = _KNOWN[kind]
        return known
    hints = get_type_hints(kind)
    definitions: dict[str, Any] = {
        item.name: (
            _type_of(hints[item.name]),
            Field(description=description(item.name)),
        )
        for item in fields(kind)
        if get_origin(hints[item.name]) is not Callable
    }
    return create_model(f"{kind.__name__}Result", __base__=Out, **definitions)


def _type_of(hint: Any) -> Any:
    origin, args = get_origin(hint), get_args(hint)
    found: Any = hint
    if hint in _KNOWN:
        found = _KNOWN[hint]
    elif origin is Annotated:
        found = _type_of(args[0])
    elif origin in {Union, types.UnionType}:
        inner = [_type_of(arg) for arg in args if arg is not types.NoneType]
        found = Union[(*inner, None)]
    elif origin is tuple:
        inner = [_type_of(arg) for arg in args if arg is not Ellipsis]
        found = list[Union[tuple(inner)]]  # type: ignore[misc] # noqa: UP007
    elif origin is np.ndarray:
        found = list[float | None]
    elif isinstance(hint, type) and is_dataclass(hint):
        found = result_of(hint)
    return found
