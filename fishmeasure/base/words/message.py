"""What is to be told: a code with its parameters, before any language."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time
from pathlib import PurePath
from typing import TYPE_CHECKING, Any, Protocol, Union, runtime_checkable
from uuid import UUID

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue
    from pydantic_core import CoreSchema


@runtime_checkable
class Interval(Protocol):
    """A figure with its interval, as ``Estimate`` is."""

    @property
    def value(self) -> float:
        """The best figure."""

    @property
    def low(self) -> float:
        """The low end."""

    @property
    def high(self) -> float:
        """The high end."""


Value = Union[str, int, float, bool, None, "Message", Interval, tuple["Value", ...]]
"""What a parameter may be: plain, so that it goes to JSON and back as it is.

A day or a time of day is its text in ISO 8601.
"""


class Parameters(dict[str, Value]):
    """The figures and names of a sentence; nobody changes them once made."""

    __slots__ = ()

    def __init__(self, given: Mapping[str, Any] | None = None) -> None:
        super().__init__(
            {name: _plain_value(item) for name, item in (given or {}).items()}
        )

    def __hash__(self) -> int:  # type: ignore[override]
        return hash(frozenset(self.items()))

    def __reduce__(self) -> tuple[Any, ...]:
        return Parameters, (dict(self),)

    def as_plain(self) -> dict[str, Any]:
        """Return them as JSON has them; a message among them keeps its code."""
        return {name: _json_value(item) for name, item in self.items()}

    @classmethod
    def __get_pydantic_core_schema__(
        cls, _source: Any, _handler: "GetCoreSchemaHandler"
    ) -> "CoreSchema":
        """Return how they are read from JSON and written."""
        from pydantic_core import core_schema  # noqa: PLC0415 - slow to import

        return core_schema.no_info_plain_validator_function(
            cls._read,
            serialization=core_schema.plain_serializer_function_ser_schema(
                cls.as_plain
            ),
        )

    @classmethod
    def __get_pydantic_json_schema__(
        cls, _schema: "CoreSchema", _handler: "GetJsonSchemaHandler"
    ) -> "JsonSchemaValue":
        """Return what JSON has for them."""
        return {"type": "object", "additionalProperties": True}

    @classmethod
    def _read(cls, value: Any) -> "Parameters":
        if not isinstance(value, Mapping):
            message = "parameters must be an object"
            raise ValueError(message)  # noqa: TRY004 - what pydantic understands
        return cls(value)


@dataclass(frozen=True, slots=True)
class Message:
    """A code of the catalogue with its parameters.

    As a parameter of another message it is told inside its sentence. Where one code
    has several sentences, the parameter ``case`` tells which.
    """

    code: str
    parameters: Parameters

    @classmethod
    def of(cls, code: str, /, **parameters: Any) -> "Message":
        """Return the message of a code."""
        return cls(code, Parameters(parameters))

    def __str__(self) -> str:
        """Return the sentence in the present voice, without what to do."""
        from fishmeasure.base.words.catalogue import what  # noqa: PLC0415 - a circle else

        return what(self)

    @classmethod
    def __get_pydantic_core_schema__(
        cls, _source: Any, _handler: "GetCoreSchemaHandler"
    ) -> "CoreSchema":
        """Return how it is written: as the sentence; read, it stays as it was said."""
        from pydantic_core import core_schema  # noqa: PLC0415 - slow to import

        said = core_schema.no_info_after_validator_function(
            cls._as_said, core_schema.str_schema()
        )
        return core_schema.union_schema(
            [core_schema.is_instance_schema(cls), said],
            serialization=core_schema.plain_serializer_function_ser_schema(str),
        )

    @classmethod
    def __get_pydantic_json_schema__(
        cls, _schema: "CoreSchema", _handler: "GetJsonSchemaHandler"
    ) -> "JsonSchemaValue":
        """Return what JSON has for it."""
        return {"type": "string"}

    @classmethod
    def _as_said(cls, text: str) -> "Message":
        return cls.of("as-said", text=text)

    def as_plain(self) -> str:
        """Return a note or a caution of a record as JSON has it: the sentence."""
        return str(self)


Reason = str | Message
"""Why, as a part of a sentence; a text only where it was said elsewhere."""

_CODED = {"code", "parameters"}
_INTERVAL = {"value", "low", "high"}


def _plain_value(given: Any) -> Value:
    """Return a parameter of the kinds that are kept."""
    if hasattr(given, "tolist"):  # numpy's
        given = given.tolist()
    if isinstance(given, str):
        # The name of a file need not be any text; what is kept and written is.
        return given if given.isascii() else given.encode("utf-8", "replace").decode()
    if given is None or isinstance(given, int | float | Message):
        return given
    if isinstance(given, Mapping):
        return _from_object(given)
    if isinstance(given, list | tuple):
        return tuple(_plain_value(item) for item in given)
    if isinstance(given, date | time | UUID | PurePath):
        return str(given)
    if isinstance(given, Interval):
        return given
    message = f"no sentence can hold a {type(given).__name__}"
    raise TypeError(message)


def _from_object(given: Mapping[str, Any]) -> Value:
    """Return the message or the interval that an object of JSON stands for."""
    if set(given) == _CODED:
        return Message(given["code"], Parameters(given["parameters"]))
    if set(given) >= _INTERVAL:
        from fishmeasure.base.estimate import Estimate  # noqa: PLC0415 - a circle else

        return Estimate(**given)
    message = f"no sentence can hold an object with {', '.join(sorted(given))}"
    raise ValueError(message)


def _json_value(item: Value) -> Any:
    from fishmeasure.base.record import plain  # noqa: PLC0415 - a circle else

    if isinstance(item, Message):
        return {"code": item.code, "parameters": item.parameters.as_plain()}
    if isinstance(item, tuple):
        return [_json_value(part) for part in item]
    return plain(item)


NOTHING = Message.of("nothing")
"""Where there is nothing to say."""
