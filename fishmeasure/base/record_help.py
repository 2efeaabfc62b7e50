"""What the fields of a record take, in words, from its schema."""

from collections.abc import Mapping
from functools import cache
from typing import Any

from fishmeasure.base.record import json_schema
from fishmeasure.base.words import wording

_Schema = Mapping[str, Any]


@cache
def _schema(kind: Any) -> _Schema:
    return json_schema(kind)


def _given(field: _Schema) -> _Schema:
    """Return the schema of a field that is given: null aside."""
    choices = field.get("anyOf", (field,))
    found: _Schema = next(choice for choice in choices if choice.get("type") != "null")
    return found


def is_text(kind: type, name: str) -> bool:
    """Return whether the plain value of the field is always text."""
    return bool(_given(_schema(kind)["properties"][name]).get("type") == "string")


def field_help(kind: type) -> dict[str, str]:
    """Return what each field takes, in words; kinds' own names are left out."""
    schema = _schema(kind)
    needed = schema.get("required", ())
    return {
        name: _words(field, schema.get("$defs", {}))
        + (wording("field-needed") if name in needed else "")
        for name, field in schema["properties"].items()
        if "const" not in field
    }


def _words(field: _Schema, records: _Schema) -> str:
    field = _given(field)
    if "$ref" in field:
        inner = records[field["$ref"].rsplit("/", 1)[-1]]
        return wording("field-kind", case="object", names=tuple(inner["properties"]))
    if "enum" in field:
        return wording("field-kind", case="choice", names=tuple(field["enum"]))
    if field["type"] == "array":
        each = _words(field["items"], records)
        return wording("field-kind", case="list", each=each)
    case = field.get("format", "")
    if "06:30" in field.get("examples", ()):
        case = "time"
    word = wording("field-kind", case=case or field["type"])
    if "minimum" in field:
        low, high = f"{field['minimum']:.12g}", f"{field['maximum']:.12g}"
        word += wording("field-range", low=low, high=high)
    return word
