"""A pydantic model for a record of the book, so that the API describes each field."""

import types
from collections.abc import Iterable
from dataclasses import MISSING, fields, is_dataclass
from datetime import time
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, ConfigDict, Field, WithJsonSchema, create_model

from fishmeasure.base.field_words import description
from fishmeasure.book.values import MaxLength, Within

# Local time of day; the format "time" of RFC 3339 would need a zone.
LocalTime = Annotated[
    time,
    WithJsonSchema(
        {
            "type": "string",
            "pattern": r"^[0-2]\d:[0-5]\d(:[0-5]\d(\.\d{1,6})?)?$",
            "examples": ["06:30"],
        }
    ),
]


def _type_of(hint: Any) -> tuple[Any, dict[str, Any]]:
    """Return the pydantic type of an annotation, and the limits of its field."""
    origin, args = get_origin(hint), get_args(hint)
    if hint is time:
        return LocalTime, {}
    if origin is Annotated:
        kind, limits = _type_of(args[0])
        for rule in args[1:]:
            if isinstance(rule, Within):
                limits |= {"ge": rule.low, "le": rule.high}
            elif isinstance(rule, MaxLength):
                limits |= {"max_length": rule.length}
        return Annotated[kind, Field(**limits)] if limits else kind, {}
    if origin in {Union, types.UnionType}:
        inner = next(arg for arg in args if arg is not types.NoneType)
        return _type_of(inner)[0] | None, {}
    if origin is tuple:
        return list[_type_of(args[0])[0]], {}  # type: ignore[misc]
    if is_dataclass(hint) and isinstance(hint, type):
        return model_of(hint), {}
    return hint, {}


def model_of(kind: Any, *, tag: str = "") -> type[BaseModel]:
    """Return a model with the fields of a record; ``tag`` adds its ``kind``."""
    hints = get_type_hints(kind, include_extras=True)
    definitions: dict[str, Any] = {}
    if tag:
        definitions["kind"] = (Literal[tag], Field(description="Kind of the entry."))
    for item in fields(kind):
        has_default = item.default is not MISSING or item.default_factory is not MISSING
        default: Any = ...
        if item.default is not MISSING:
            is_list = isinstance(item.default, tuple)
            default = list(item.default) if is_list else item.default
        elif has_default:
            default = None
        field_type = _type_of(hints[item.name])[0]
        if default is None:
            field_type |= None
        definitions[item.name] = (
            field_type,
            Field(default=default, description=description(item.name)),
        )
    return create_model(
        kind.__name__,
        __config__=ConfigDict(extra="forbid", from_attributes=True),
        **definitions,
    )


def union_of(models: Iterable[type[BaseModel]]) -> Any:
    """Return the union of models told apart by their ``kind``."""
    return Annotated[Union[tuple(models)], Field(discriminator="kind")]  # noqa: UP007


def plain(model: BaseModel) -> dict[str, Any]:
    """Return what was sent, as the book's own reader takes it."""
    return model.model_dump(mode="json", exclude_unset=True, exclude_none=True)
