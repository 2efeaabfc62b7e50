"""How a photo is measured: what files, the API, the page and the commands may set."""

from typing import Annotated, ClassVar, Literal
from uuid import UUID

from pydantic import Field

from fishmeasure.base.errors import BadFieldError, PrintScaleError
from fishmeasure.base.record import Refusal, TubDepth, between, longest, misfit, record
from fishmeasure.base.words import Message
from fishmeasure.photo.markers.known import KnownDistance
from fishmeasure.photo.water import Water

Paper = Literal["A4", "A3", "Letter"]
PRINT_SCALES = (0.5, 2.0)
"""Printed over nominal size: more or less is a typing error."""


def _refuse(*, field: str, reason: Message) -> BadFieldError:
    wrong = PrintScaleError if field == "print_scale" else BadFieldError
    return wrong(field=field, reason=reason)


@record(frozen=True, slots=True, kw_only=True)
class MeasuringSettings:
    """What is set for a photo beside its species and its lens."""

    refusal: ClassVar[Refusal] = _refuse
    print_scale: Annotated[
        float,
        between(*PRINT_SCALES),
        Field(
            description="Printed over nominal size: the check line in mm / 100; 1 is "
            "not checked.",
            examples=[0.97],
        ),
    ] = 1.0
    paper: Annotated[
        Paper | None, Field(description="Paper of the sheet, where it cannot be seen.")
    ] = None
    known: Annotated[
        KnownDistance | None,
        Field(description="Scale by hand, in place of markers."),
    ] = None
    in_water: Annotated[
        bool,
        Field(
            description="Whether the fish are in a tub of water, with the sheet or "
            "cards on its bottom."
        ),
    ] = False
    water_depth_mm: Annotated[
        TubDepth | None,
        Field(
            description="From the water's surface to the sheet, mm; null where nobody "
            "measured it."
        ),
    ] = None

    def __post_init__(self) -> None:
        if self.water_depth_mm is not None and not self.in_water:
            reason = Message.of("water-depth-alone")
            raise misfit("water_depth_mm", reason)

    @property
    def water(self) -> Water | None:
        """What stands over markers and fish."""
        return Water.of(self.water_depth_mm) if self.in_water else None


@record(frozen=True, slots=True, kw_only=True)
class PhotoChoices(MeasuringSettings):
    """How a photo is measured, its species and its lens by their names."""

    species: Annotated[
        str,
        longest(60),
        Field(description="Key of the species; empty is the default."),
    ] = ""
    lens: Annotated[
        str | None, longest(60), Field(description="Name of a lens profile.")
    ] = None
    cohort_id: Annotated[
        UUID | None,
        Field(
            description="Cohort of the book whose fish they are: weighed by what its "
            "own fish have taught."
        ),
    ] = None
