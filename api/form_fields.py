"""Fields of a form, as a browser sends them with files, from the record they make."""

import inspect
from collections.abc import Callable
from dataclasses import fields
from typing import Annotated, Any, TypeVar, get_args, get_type_hints

from fastapi import Form

from fishmeasure.base.field_words import description
from fishmeasure.base.record import read

T = TypeVar("T")


def form_of(kind: type[T]) -> Callable[..., T]:
    """Return what reads a record from a form's fields; an empty one is its default.

    A field that is a record itself is sent as text, which its ``plain_from_text``
    reads.
    """
    hints = get_type_hints(kind, include_extras=True)
    as_text = {name: found for name in hints if (found := _text_record(hints[name]))}

    def filled(**given: Any) -> T:
        for name, inner in as_text.items():
            given[name] = inner.plain_from_text(given[name]) if given[name] else None
        return read(kind, given)

    filled.__signature__ = inspect.Signature(  # type: ignore[attr-defined]
        [
            inspect.Parameter(
                item.name,
                inspect.Parameter.KEYWORD_ONLY,
                default="" if item.name in as_text else item.default,
                annotation=Annotated[str, Form(description=description(item.name))]
                if item.name in as_text
                else Annotated[hints[item.name], Form()],
            )
            for item in fields(kind)  # type: ignore[arg-type]
        ]
    )
    return filled


def _text_record(hint: Any) -> Any:
    """Return the record in a field's annotation that has a form as text."""
    if hasattr(hint, "plain_from_text"):
        return hint
    inner = (_text_record(part) for part in get_args(hint))
    return next((found for found in inner if found is not None), None)
