"""What the API takes and gives; every figure's unit is in its name or text."""

from collections.abc import Callable
from datetime import datetime
from typing import Annotated, Any, Generic, TypeVar

from pydantic import BaseModel, ConfigDict, Field
from pydantic_core import PydanticKnownError, core_schema

from api.errors import ErrorBody
from fishmeasure.base.record import with_rules
from fishmeasure.photo.corrections import Correction
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.photo.settings import PhotoChoices

T = TypeVar("T")

Confirm = Annotated[
    str | None,
    Field(
        max_length=64,
        description="The token of a `doubtful-entry`, to store what was asked about as "
        "it is; it is good for exactly this and for the state of the book that it was "
        "asked by.",
    ),
]


def _no_truth(value: Any) -> Any:
    if isinstance(value, bool):  # to Python, false is 0
        raise PydanticKnownError("float_type")
    return value


def _number(schema: Any) -> Any:
    return core_schema.no_info_before_validator_function(_no_truth, schema)


class In(BaseModel):
    """What is sent: unknown fields are refused, so that typing errors show.

    Yes and no are no numbers, as they are none in records.
    """

    model_config = ConfigDict(extra="forbid")

    @classmethod
    def __get_pydantic_core_schema__(
        cls, source: Any, handler: Callable[[Any], Any]
    ) -> Any:
        """Return the schema with a check of each number."""
        return with_rules(handler(source), {"int": _number, "float": _number})


class FiniteIn(In):
    """What is sent to calculate with."""

    model_config = ConfigDict(allow_inf_nan=False)


class Out(BaseModel):
    """What is answered: fields may be added in later versions."""


class Items(Out, Generic[T]):
    """One page of a list, newest first."""

    items: list[T] = Field(description="This page.")
    next: int | None = Field(
        default=None,
        description="Send it as `cursor` for the next page; null at the end.",
    )


# --- photos -------------------------------------------------------------------


class CorrectionsIn(In):
    """All corrections of a photo: they replace those sent before."""

    corrections: list[Correction] = Field(max_length=500, description="In order.")


class LightPhoto(Out):
    """A photo in a list, without its measurement."""

    id: str = Field(description="SHA-256 of the file as it was sent.")
    revision: int = Field(description="Grows with every change.")
    name: str = Field(description="Name of the file.")
    received_at: datetime = Field(description="When it first came.")
    received_by: str = Field(
        default="", description="Device that sent it; empty where none is paired."
    )
    deleted_at: datetime | None = Field(
        default=None, description="When the owner deleted its file."
    )
    links: dict[str, str] = Field(description="Pictures; none once deleted.")


class PhotoOut(Out):
    """A photo that the server keeps."""

    id: str = Field(description="SHA-256 of the file as it was sent.")
    revision: int = Field(description="Grows with every change.")
    received_at: datetime = Field(description="When it came.")
    received_by: str = Field(
        default="", description="Device that sent it; empty where none is paired."
    )
    changed_by: str = Field(
        default="", description="Device that corrected it or measured it anew last."
    )
    deleted_at: datetime | None = Field(
        default=None, description="When its file was deleted; null while it is there."
    )
    deleted_by: str = Field(default="", description="Device that deleted it.")
    settings: PhotoChoices = Field(description="How it was measured.")
    measurement: PhotoMeasurement = Field(description="With the corrections made.")
    corrections: list[Correction] = Field(description="As sent.")
    links: dict[str, str] = Field(
        description="Of its pictures; none once the file was deleted."
    )


class RefusedPhoto(Out):
    """A photo of an upload that could not be taken."""

    photo: str = Field(description="File name.")
    error: ErrorBody = Field(description="Why, and what to do.")


class UploadOut(Out):
    """What became of each photo of an upload, in order."""

    items: list[PhotoOut | RefusedPhoto] = Field(description="One for each file.")
