"""Records that cross a border: checked when made, read and written as plain values.

A record is a frozen dataclass whose annotations say everything once: the kind of each
field, its range (``between``), its longest text or list (``longest``). From them come
the checks, the reading of JSON, TOML and rows of a database, the writing, the schema
that the API publishes and the words of a command's help.

Made in Python, a record takes exactly its types; read from plain values it takes what
JSON has for them. Nothing is guessed: ``"5"`` and ``true`` are no numbers, and there is
no number that is not finite.
"""

import dataclasses
import difflib
import math
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime, time
from functools import cache
from typing import TYPE_CHECKING, Annotated, Any, Protocol, TypeVar, cast
from uuid import UUID

import pydantic.dataclasses
from pydantic import ConfigDict, Field, TypeAdapter, WithJsonSchema
from pydantic_core import ArgsKwargs, PydanticCustomError, ValidationError, core_schema

from fishmeasure.base.errors import BadFieldError
from fishmeasure.base.field_words import description
from fishmeasure.base.words import Message

__all__ = [
    "FIRST_DAY",
    "LAST_DAY",
    "ConditionFactor",
    "Count",
    "CountSd",
    "Day",
    "DegC",
    "Fraction",
    "Grams",
    "GramsSd",
    "Kilograms",
    "LPerMin",
    "LocalTime",
    "MgPerL",
    "Name",
    "Plain",
    "Refusal",
    "Text",
    "TubDepth",
    "between",
    "field_names",
    "first_fault",
    "json_schema",
    "longest",
    "misfit",
    "plain",
    "read",
    "record",
    "with_rules",
    "wrong",
]
Plain = Mapping[str, Any]
_R = TypeVar("_R")

# --- the kinds of figures, with what is sensible ------------------------------


def between(low: Any, high: Any) -> Any:
    """Return the rule of a number or day from low to high."""
    return Field(ge=low, le=high)


def longest(most: int) -> Any:
    """Return the rule of the longest text or list."""
    return Field(max_length=most)


Text = Annotated[str, longest(2000)]
Name = Annotated[str, longest(80)]
Count = Annotated[int, between(0, 10_000_000)]
CountSd = Annotated[float, between(0.0, 1e7)]
TubDepth = Annotated[float, between(10.0, 600.0)]
"""Of water, mm: more is a wrong unit, or no tub whose bottom one sees."""
Fraction = Annotated[float, between(0.0, 1.0)]
Grams = Annotated[float, between(0.001, 200_000.0)]
GramsSd = Annotated[float, between(0.0, 200_000.0)]
Kilograms = Annotated[float, between(0.0, 1e6)]
ConditionFactor = Annotated[float, between(0.05, 20.0)]
DegC = Annotated[float, between(-2.0, 45.0)]
MgPerL = Annotated[float, between(0.0, 1000.0)]
LPerMin = Annotated[float, between(0.0, 1e6)]
# A day outside is a typing error, and would cost a replay many years of days.
FIRST_DAY, LAST_DAY = date(1990, 1, 1), date(2100, 12, 31)
Day = Annotated[date, between(FIRST_DAY, LAST_DAY)]
# The format "time" of RFC 3339 would need a zone.
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


class Refusal(Protocol):
    """Makes the error that says which field is wrong and why."""

    def __call__(self, *, field: str, reason: Message) -> Exception:
        """Return the error."""


def wrong(wanted: Message) -> PydanticCustomError:
    """Return what a check of a value raises; the message says what is wanted."""
    return PydanticCustomError("wanted", "must be {wanted}", {"wanted": wanted})


def misfit(field: str, reason: Message) -> PydanticCustomError:
    """Return what a record raises in ``__post_init__`` that no single field shows."""
    told = {"field": field, "reason": reason}
    return PydanticCustomError("misfit", "{field} {reason}", told)


# --- the decorator ------------------------------------------------------------

if TYPE_CHECKING:
    # A type checker knows this one, its ``replace`` and ``fields`` as well.
    from dataclasses import dataclass as record
else:

    def record(**options: bool) -> Callable[[type], type]:
        """Make a class a record; to be given frozen, slots and kw_only."""

        def made(kind: type) -> type:
            kind.__get_pydantic_core_schema__ = classmethod(_strict_schema)
            result = pydantic.dataclasses.dataclass(
                **options,
                config=ConfigDict(extra="forbid", json_schema_extra=_describe),
            )(kind)
            result.__init__ = _checked_init(result)
            return result

        return made


def _checked_init(kind: Any) -> Callable[..., None]:
    refusal = getattr(kind, "refusal", BadFieldError)

    def __init__(self: Any, **values: Any) -> None:  # noqa: N807 - it becomes one
        try:
            kind.__pydantic_validator__.validate_python(
                ArgsKwargs((), values), strict=True, self_instance=self
            )
        except ValidationError as error:
            raise _told(error, refusal, kind) from None

    return __init__


def _describe(schema: dict[str, Any], kind: Any) -> None:
    """Give each field of a published schema its words, from its name.

    A field of one value, the kind of an entry, is what kinds are told apart by: it is
    to be sent. ``needs`` of a record are the fields of which one set must be there.
    """
    if needs := getattr(kind, "needs", ()):
        schema["anyOf"] = [{"required": list(names)} for names in needs]
    for name, field in schema.get("properties", {}).items():
        if "const" in field:
            field.setdefault("description", "Tells the kinds apart.")
            schema["required"] = [name, *schema.get("required", ())]
        field.setdefault("description", description(name))


def _strict_schema(_: Any, source: Any, handler: Any) -> Any:
    return with_rules(handler(source), _STRICT)  # taken as it is or not at all


def with_rules(schema: Any, rules: Mapping[str, Callable[[Any], Any]]) -> Any:
    """Return a schema of pydantic's, each value in it under the rule of its kind."""
    if isinstance(schema, list):
        return [with_rules(item, rules) for item in schema]
    if not isinstance(schema, dict):
        return schema
    if schema.get("type") in rules:
        return rules[schema["type"]](schema)
    return {
        key: value if key in _OPAQUE else with_rules(value, rules)
        for key, value in schema.items()
    }


_MOMENT = Message.of("wanted", case="moment")
_TIME = Message.of("wanted", case="time")
_DATE = Message.of("wanted", case="date")
_ZONELESS = Message.of("wanted", case="zoneless")
_TEXT = Message.of("wanted", case="no-nul")
_UNICODE = Message.of("wanted", case="unicode")
# What a schema holds that is no schema.
_OPAQUE = {"cls", "config", "default", "expected", "metadata", "serialization"}


def _read_before(
    schema: Any, read: Callable[[Any], Any], after: Callable[[Any], Any] | None = None
) -> Any:
    """Return the schema of a kind that plain values have another form for."""
    strict = schema | {"strict": True}
    if after is not None:
        strict = core_schema.no_info_after_validator_function(after, strict)
    return core_schema.lax_or_strict_schema(
        lax_schema=core_schema.no_info_before_validator_function(read, strict),
        strict_schema=strict,
    )


def _whole(value: Any) -> Any:
    """Take 3.0, which writers of JSON send that know no whole numbers."""
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value


def _parser(kind: type, parse: Callable[[str], Any], wanted: Message) -> Any:
    def read(value: Any) -> Any:
        if type(value) is kind:  # a row of a database has it already
            return value
        if not isinstance(value, str):
            raise wrong(wanted)
        try:
            return parse(value)
        except ValueError:
            raise wrong(wanted) from None

    return read


def _can_be_kept(value: str) -> str:
    if "\0" in value:  # PostgreSQL has no way to keep it
        raise wrong(_TEXT)
    if not value.isascii():
        try:
            value.encode()
        except UnicodeEncodeError:  # half a surrogate pair; no database keeps it
            raise wrong(_UNICODE) from None
    return value


def _without_zone(value: time) -> time:
    if value.tzinfo is not None:
        raise wrong(_ZONELESS)
    return value


def _utc(value: datetime) -> datetime:
    if value.tzinfo is None:
        raise wrong(_MOMENT)
    try:
        return value.astimezone(UTC)
    except OverflowError:
        raise wrong(_MOMENT) from None


_STRICT: dict[str, Callable[[Any], Any]] = {
    "float": lambda schema: schema | {"strict": True, "allow_inf_nan": False},
    "bool": lambda schema: schema | {"strict": True},
    "str": lambda schema: core_schema.no_info_after_validator_function(
        _can_be_kept, schema | {"strict": True}
    ),
    "int": lambda schema: _read_before(schema, _whole),
    "date": lambda schema: _read_before(
        schema, _parser(date, date.fromisoformat, _DATE)
    ),
    "time": lambda schema: _read_before(
        schema, _parser(time, time.fromisoformat, _TIME), _without_zone
    ),
    "datetime": lambda schema: _read_before(
        schema, _parser(datetime, datetime.fromisoformat, _MOMENT), _utc
    ),
}

# --- reading and writing ------------------------------------------------------


@cache
def _adapter(kind: Any) -> TypeAdapter[Any]:
    return TypeAdapter(kind)


def read(kind: type[_R], data: Any, refusal: Refusal | None = None) -> _R:
    """Return the record that plain values describe, as JSON or TOML has them.

    Parameters
    ----------
    kind
        The record.
    data
        Objects, lists, numbers, words; dates and times may be such already.
    refusal
        Makes the error; else the record says which, by its ``refusal``.

    Raises
    ------
    BadFieldError
        Or what ``refusal`` makes: it names the first field that is missing, unknown
        or unusable, what it must be, and what it is.
    """
    told: Any = refusal or getattr(kind, "refusal", BadFieldError)
    try:
        return cast("_R", _adapter(cast("Any", kind)).validate_python(data))
    except ValidationError as error:
        raise _told(error, told, kind) from None


def plain(value: Any, *, sparse: bool = False) -> Any:
    """Return a record, or a result that holds some, as JSON has it.

    A figure that is not finite is null, and functions are left out: some results
    carry one beside their figures.

    Parameters
    ----------
    value
        A record, a dataclass, or what JSON knows.
    sparse
        Whether to leave out what a record has by default.
    """
    kind: Any = type(value)
    if hasattr(kind, "__pydantic_validator__"):
        return _adapter(kind).dump_python(value, mode="json", exclude_defaults=sparse)
    if hasattr(value, "as_plain"):
        value = value.as_plain()
    elif dataclasses.is_dataclass(kind):
        fields = ((name, getattr(value, name)) for name in field_names(kind))
        value = {name: item for name, item in fields if not callable(item)}
    elif hasattr(value, "tolist"):  # numpy's, whose import not everyone can wait for
        value = value.tolist()
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [plain(item) for item in value]
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return str(value) if isinstance(value, date | time | UUID) else value


def json_schema(kind: Any) -> dict[str, Any]:
    """Return the JSON Schema of a record, with units and ranges."""
    return _adapter(kind).json_schema()


def field_names(kind: Any) -> tuple[str, ...]:
    """Return the names of a record's fields, in order."""
    return tuple(item.name for item in dataclasses.fields(kind))


# --- what is wrong, in words --------------------------------------------------


def _told(error: ValidationError, refusal: Refusal, kind: Any) -> Exception:
    """Return the project's error for the first thing that is wrong."""
    field, reason = first_fault(error.errors(include_url=False), kind)
    return refusal(field=field, reason=reason)


def first_fault(items: Sequence[Any], kind: Any = None) -> tuple[str, Message]:
    """Return the field that is wrong, and what is wrong with it, to follow its name.

    Parameters
    ----------
    items
        The errors as pydantic lists them.
    kind
        The record, where a name that is not known may be a misspelt one.
    """
    missing = [_path(item["loc"]) for item in items if item["type"] == "missing"]
    for item in items:
        path = _path(item["loc"])
        match item["type"]:
            case "missing":
                continue
            case "unexpected_keyword_argument" | "extra_forbidden":
                near = "" if kind is None else _near(path, kind)
                told = Message.of("field-unknown", case="near", near=near)
                return repr(path), told if near else _NOT_KNOWN
            case "misfit":
                return _path((*item["loc"], item["ctx"]["field"])), item["ctx"][
                    "reason"
                ]
        return path, reason_of(item)
    reason = Message.of("field-missing", fields=len(missing))
    return ", ".join(sorted(missing)), reason


def _near(path: str, kind: Any) -> str:
    """Return the known field of like name; empty where there is none."""
    schema = json_schema(kind)
    records = (schema, *schema.get("$defs", {}).values())
    names = {name for item in records for name in item.get("properties", ())}
    close = difflib.get_close_matches(path.rpartition(".")[2], sorted(names), n=1)
    return close[0] if close else ""


def _path(where: tuple[int | str, ...]) -> str:
    """Return where a value is: ``groups[0].fish_count``."""
    path = ""
    for part in where:
        dot = "." if path else ""
        path += f"[{part}]" if isinstance(part, int) else f"{dot}{part}"
    return path


_WANTED = {
    "float": Message.of("wanted", case="number"),
    "finite": Message.of("wanted", case="number"),
    "int": Message.of("wanted", case="whole-number"),
    "bool": Message.of("wanted", case="true-or-false"),
    "uuid": Message.of("wanted", case="uuid"),
    "is": Message.of("wanted", case="uuid"),  # "is instance of": only of UUIDs
    "date": Message.of("wanted", case="day"),
    "time": Message.of("wanted", case="time-of-day"),
    "datetime": _MOMENT,
    "tuple": Message.of("wanted", case="list"),
    "dataclass": Message.of("wanted", case="object"),
    "dict": Message.of("wanted", case="object"),
    "string_type": Message.of("wanted", case="text"),
    "string_unicode": _UNICODE,
}
_LIMITS = {
    "greater_than_equal": "ge",
    "greater_than": "gt",
    "less_than_equal": "le",
    "less_than": "lt",
}
_LENGTHS = {
    "string_too_long": "max_length",
    "too_long": "max_length",
    "string_too_short": "min_length",
    "too_short": "min_length",
}
_NOT_KNOWN = Message.of("field-unknown", case="far", near="")
_ALWAYS = {
    "missing": Message.of("field-missing", fields=1),
    "unexpected_keyword_argument": _NOT_KNOWN,
    "extra_forbidden": _NOT_KNOWN,
}


def _shown(value: object) -> str | Message:
    """Return the start of what was given."""
    try:
        return f"{value!r:.60}"
    except ValueError:  # Python writes no number of more than 4300 digits
        return Message.of("too-many-digits")


def _limited(word: str, limit: Any, value: Any) -> Message:
    if isinstance(limit, int | float):
        shown = format(limit, ".12g")
        return Message.of("field-limit", word=word, limit=shown, given=_shown(value))
    return Message.of("field-limit-day", word=word, limit_on=limit, given=str(value))


def reason_of(item: Mapping[str, Any]) -> Message:
    """Return what is wrong with a value, to follow the name of its field.

    Parameters
    ----------
    item
        One of the errors as pydantic lists them.
    """
    kind, limits = item["type"], item.get("ctx", {})
    value: Any = item.get("input")
    if kind in _ALWAYS:
        return _ALWAYS[kind]
    if kind in {"misfit", "slip"}:
        return cast("Message", limits["reason"])
    if kind in _LIMITS:
        return _limited(_LIMITS[kind], limits[_LIMITS[kind]], value)
    if kind in _LENGTHS:
        word = _LENGTHS[kind]
        return Message.of(
            "field-length", word=word, limit=limits[word], length=len(value)
        )
    wanted = _wanted(kind, limits)
    if wanted is None:
        return Message.of("field-other", told=str(item["msg"])[:300])
    return Message.of("field-wanted", wanted=wanted, given=_shown(value))


def _wanted(kind: str, limits: Mapping[str, Any]) -> Message | None:
    if kind == "wanted":
        return cast("Message", limits["wanted"])
    if kind == "literal_error":
        choices = _choices(limits["expected"])
        return Message.of("wanted", case="choice", choices=choices)
    return _WANTED.get(kind) or _WANTED.get(kind.split("_", maxsplit=1)[0])


def _choices(expected: str) -> str:
    """Return the words of a choice; pydantic quotes them."""
    return expected.replace(" or ", ", ").replace("'", "")
