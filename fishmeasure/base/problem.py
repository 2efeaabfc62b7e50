"""Something wrong with a photo, a sample or a unit, beside the figures."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Self, cast

from pydantic_core import core_schema

from fishmeasure.base.wire import ProblemWire
from fishmeasure.base.words import Message, Parameters, can_say, say, wording

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue

    from fishmeasure.base.errors import FishMeasureError

_IN_PHOTO = "in_photo"
"""The parameter that any problem has where it is told of a photo of a sample."""


@dataclass(frozen=True, slots=True, init=False)
class Problem:
    """Something wrong with a photo or a sample, said so that one can act.

    Attributes
    ----------
    code
        A word for programs.
    parameters
        The figures and names of its sentence; None where only the sentence was kept,
        by a version that kept no parameters.
    fatal
        Whether no figure was given because of it.
    kept
        The sentence that was kept, in the words of then.
    """

    code: str
    parameters: Parameters | None
    fatal: bool
    kept: str

    def __init__(
        self,
        *,
        code: str,
        message: str = "",
        parameters: Mapping[str, Any] | None = None,
        fatal: bool = False,
    ) -> None:
        wire = ProblemWire(code=code, message=message, fatal=fatal)
        told = None if parameters is None else Parameters(parameters)
        object.__setattr__(self, "code", wire.code)
        object.__setattr__(self, "parameters", told)
        object.__setattr__(self, "fatal", wire.fatal)
        object.__setattr__(self, "kept", wire.message if told is None else "")

    @classmethod
    def of(cls, code: str, /, *, fatal: bool = False, **parameters: Any) -> Self:
        """Return the problem of a code; its sentence stands in the catalogue."""
        return cls(code=code, parameters=parameters, fatal=fatal)

    @classmethod
    def of_error(cls, error: "FishMeasureError", *, fatal: bool = False) -> Self:
        """Return an error as a problem of what is measured beside it."""
        return cls(code=error.code, parameters=error.said.parameters, fatal=fatal)

    def in_photo(self, name: str) -> Self:
        """Return it as one of a sample's, which names the photo."""
        if self.parameters is None:
            told = wording("in-photo", photo=name, told=self.kept)
            return type(self)(code=self.code, message=told, fatal=self.fatal)
        parameters = {**self.parameters, _IN_PHOTO: name}
        return type(self)(code=self.code, parameters=parameters, fatal=self.fatal)

    @property
    def said(self) -> Message | None:
        """Its code with its parameters; None where only the sentence was kept."""
        if self.parameters is None:
            return None
        return Message(self.code, self.parameters)

    @property
    def message(self) -> str:
        """What is wrong and what to do, in the present voice."""
        if self.parameters is None:
            return self.kept
        told = say(Message(self.code, self.parameters))
        photo = self.parameters.get(_IN_PHOTO)
        return told if photo is None else wording("in-photo", photo=photo, told=told)

    def as_plain(self) -> dict[str, Any]:
        """Return it as JSON has it."""
        parameters = None if self.parameters is None else self.parameters.as_plain()
        return {
            "code": self.code,
            "message": self.message,
            "parameters": parameters,
            "fatal": self.fatal,
        }

    @classmethod
    def __get_pydantic_core_schema__(
        cls, _source: Any, handler: "GetCoreSchemaHandler"
    ) -> core_schema.CoreSchema:
        """Return how it is read and written."""
        wire = handler.generate_schema(ProblemWire)
        itself = core_schema.is_instance_schema(cls)
        read = core_schema.no_info_after_validator_function(cls._read, wire)
        return core_schema.lax_or_strict_schema(
            lax_schema=core_schema.union_schema([itself, read]),
            strict_schema=itself,
            serialization=core_schema.plain_serializer_function_ser_schema(
                cls.as_plain
            ),
            ref=f"{cls.__module__}.{cls.__qualname__}:{id(cls)}",
        )

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: core_schema.CoreSchema, handler: "GetJsonSchemaHandler"
    ) -> "JsonSchemaValue":
        """Return what JSON has for it."""
        wire = handler(cast("Any", schema)["lax_schema"]["choices"][1])
        return {**handler.resolve_ref_schema(wire), "title": cls.__name__}

    @classmethod
    def _read(cls, wire: ProblemWire) -> Self:
        """Return what was kept, said in the words of today where they are known."""
        parameters = wire.parameters
        if parameters is not None and not can_say(Message(wire.code, parameters)):
            parameters = None
        return cls(
            code=wire.code,
            message=wire.message,
            parameters=parameters,
            fatal=wire.fatal,
        )
