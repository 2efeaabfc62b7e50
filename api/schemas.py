"""What the API takes and gives; every figure's unit is in its name or text."""

from datetime import datetime
from typing import Annotated, Any, Generic, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field, FiniteFloat

from api.errors import ErrorBody
from fishmeasure.photo.plane import ScaleMethod

T = TypeVar("T")

PointPx = Annotated[
    list[FiniteFloat],
    Field(
        min_length=2,
        max_length=2,
        description="[x, y] in pixels of the photo as displayed; (0, 0) is the centre "
        "of the top-left pixel, x to the right, y down.",
        examples=[[812.4, 640.9]],
    ),
]


class In(BaseModel):
    """What is sent: unknown fields are refused, so that typing errors show."""

    model_config = ConfigDict(extra="forbid")


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


class ProblemOut(Out):
    """Something wrong with a photo or sample, said so that one can act."""

    model_config = ConfigDict(from_attributes=True)

    code: str = Field(description="A word for programs.", examples=["no-marker"])
    message: str = Field(description="What is wrong and what to do.")
    fatal: bool = Field(description="Whether no figure was given because of it.")


class ScaleOut(Out):
    """How large a pixel is, and how that is known."""

    model_config = ConfigDict(extra="allow")

    method: ScaleMethod = Field(description="What the scale came from.")
    marker_ids: list[int] = Field(description="Markers used.")
    tilt_deg: float = Field(
        description="Tilt of the camera from straight down, degrees."
    )
    camera_height_mm: float = Field(description="Of the camera over the plane, mm.")
    px_per_mm: float = Field(description="Pixels per millimetre amid the markers.")
    relative_se: float = Field(
        description="Standard error of the scale, as a fraction."
    )


class FishOut(Out):
    """One fish of a photo."""

    model_config = ConfigDict(extra="allow")

    fork_length_mm: float = Field(description="Snout to fork along the middle, mm.")
    fork_length_se_mm: float = Field(description="Its standard error, mm.")
    total_length_mm: float = Field(description="Snout to the tips of the tail, mm.")
    body_depth_mm: float = Field(description="Greatest depth without fins, mm.")
    weight_g: float | None = Field(
        description="Weight by the species' line, g; null where the fish is not used."
    )
    weight_se_g: float | None = Field(description="Its standard error, g.")
    species: str = Field(description="Key of the species.", examples=["rainbow-trout"])
    snout_px: PointPx
    fork_px: PointPx
    outline_px: list[list[float]] = Field(
        description="Closed polygon, pixels; empty for a fish added by two points."
    )
    complete: bool = Field(description="Whether its length may be used.")
    flags: list[str] = Field(description="Doubts, see `GET /v1/about`.")
    confidence: float = Field(description="0 to 1 that it is one whole fish.")


class MeasurementOut(Out):
    """What a photo gave."""

    photo: str = Field(description="File name.", examples=["tank_a_net_1.jpg"])
    width_px: int = Field(description="Width as displayed, pixels.")
    height_px: int = Field(description="Height as displayed, pixels.")
    scale: ScaleOut | None = Field(description="null where no scale was found.")
    fish: list[FishOut] = Field(description="In reading order.")
    problems: list[ProblemOut] = Field(description="Worst first.")


class KnownIn(In):
    """Two points of a photo a known distance apart."""

    points_px: list[PointPx] = Field(
        min_length=2, max_length=2, description="Both ends."
    )
    distance_mm: float = Field(
        gt=0, le=10_000, description="Between them, mm.", examples=[100.0]
    )


class PhotoSettingsIn(In):
    """How a photo is measured."""

    species: str = Field(
        default="",
        max_length=60,
        description="Key of the species; empty is the default.",
    )
    print_scale: float = Field(
        default=1.0,
        ge=0.5,
        le=2.0,
        description="Printed over nominal size: the check line in mm / 100.",
        examples=[0.97],
    )
    paper: Literal["A4", "A3", "Letter"] | None = Field(
        default=None, description="Paper of the sheet, where it cannot be seen."
    )
    lens: str | None = Field(
        default=None, max_length=60, description="Name of a lens profile."
    )
    known: KnownIn | None = Field(
        default=None, description="Scale by hand, in place of markers."
    )


class CorrectionIn(In):
    """One change by a person."""

    kind: Literal["move", "drop", "keep", "add", "species"] = Field(
        description="Move the ends of a fish, drop it, keep a doubtful one, add a "
        "missed one by two points, or change its species."
    )
    fish: int | None = Field(
        default=None,
        ge=0,
        le=10_000,
        description="Which, counted from 0 in the photo's measurement without "
        "corrections; added fish follow in order. Not for `add`.",
    )
    snout_px: PointPx | None = None
    fork_px: PointPx | None = None
    species: str | None = Field(
        default=None, max_length=60, description="For `species`, and for `add`."
    )


class CorrectionsIn(In):
    """All corrections of a photo: they replace those sent before."""

    corrections: list[CorrectionIn] = Field(max_length=500, description="In order.")


class PhotoOut(Out):
    """A photo that the server keeps."""

    id: str = Field(description="SHA-256 of the file as it was sent.")
    revision: int = Field(description="Grows with every change.")
    received_at: datetime = Field(description="When it came.")
    settings: PhotoSettingsIn = Field(description="How it was measured.")
    measurement: MeasurementOut = Field(description="With the corrections made.")
    corrections: list[dict[str, Any]] = Field(description="As sent.")
    links: dict[str, str] = Field(description="Of its pictures.")


class RefusedPhoto(Out):
    """A photo of an upload that could not be taken."""

    photo: str = Field(description="File name.")
    error: ErrorBody = Field(description="Why, and what to do.")


class UploadOut(Out):
    """What became of each photo of an upload, in order."""

    items: list[PhotoOut | RefusedPhoto] = Field(description="One for each file.")
