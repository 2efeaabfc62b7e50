"""What is known of a fish's shape beforehand, and the lengths of one fish."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.base.record import Fraction, record
from fishmeasure.base.wire import Word
from fishmeasure.base.written import ArrayOf, rounded
from fishmeasure.photo.plane import PolygonPx
from fishmeasure.photo.segment.outline import Posture
from fishmeasure.species.record import Species

Mm = Annotated[float, rounded(2)]
MmError = Annotated[
    float, rounded(3), Field(description="Standard error of the length before it, mm.")
]
PointPx = Annotated[FloatArray, ArrayOf(2, digits=2)]


@dataclass(frozen=True, slots=True, kw_only=True)
class FishShape:
    """Proportions of a kind of fish; the fields are those of ``Species``.

    The defaults are for a fish of unknown kind, between a trout and a carp, with
    a wide spread; they are guesses and carry no source.
    """

    fork_per_total: float = 0.95
    fork_per_total_relative_sd: float = 0.03
    standard_per_total: float = 0.84
    thickness_per_depth: float = 0.5
    depth_per_fork_length: float = 0.27
    depth_per_fork_length_sd: float = 0.08
    snout_height: float = 0.70
    snout_height_sd: float = 0.175
    fork_height: float = 0.275
    fork_height_sd: float = 0.10
    snout_radius: float = 0.35
    snout_radius_sd: float = 0.14


def shape_of(species: Species) -> FishShape:
    """Return the proportions of a species."""
    return FishShape(
        fork_per_total=species.shape.fork_per_total.value,
        fork_per_total_relative_sd=species.shape.fork_per_total.relative_sd,
        standard_per_total=species.shape.standard_per_total.value,
        thickness_per_depth=species.shape.thickness_per_depth.value,
        depth_per_fork_length=species.shape.depth_per_fork_length.value,
        depth_per_fork_length_sd=species.shape.depth_per_fork_length.sd,
        snout_height=species.shape.snout_height.value,
        snout_height_sd=species.shape.snout_height.sd,
        fork_height=species.shape.fork_height.value,
        fork_height_sd=species.shape.fork_height.sd,
        snout_radius=species.shape.snout_radius.value,
        snout_radius_sd=species.shape.snout_radius.sd,
    )


@record(frozen=True, slots=True, kw_only=True, eq=False)
class FishLength:
    """The size of one fish, parallax removed, each length with its standard error.

    The fields are those of its JSON, so that a new one is said here alone; it needs a
    default, for fish that were stored before.

    Attributes
    ----------
    flags, complete
        See ``fishmeasure.base.flags``.
    sources
        Causes of error of the fork length.
    """

    fork_length_mm: Annotated[
        Mm, Field(description="Snout to fork along the middle, mm.")
    ]
    fork_length_se_mm: MmError
    total_length_mm: Annotated[
        Mm, Field(description="Snout to the tips of the tail, mm.")
    ]
    total_length_se_mm: MmError
    standard_length_mm: Annotated[
        Mm, Field(description="Snout to the base of the tail fin, mm.")
    ]
    standard_length_se_mm: MmError
    body_depth_mm: Annotated[
        Mm, Field(description="Greatest depth across the midline without fins, mm.")
    ]
    body_depth_se_mm: MmError
    thickness_mm: Annotated[
        Mm,
        Field(
            description="Assumed side to side, mm; half of it is the midline's height."
        ),
    ]
    area_mm2: Annotated[
        float,
        rounded(1),
        Field(description="Of the outline at the height of the midline, square mm."),
    ]
    bend_deg: Annotated[
        float,
        rounded(2),
        Field(description="Turn of the midline from head to tail, degrees."),
    ]
    snout_px: Annotated[PointPx, Field(description="[x, y] of the snout, pixels.")]
    fork_px: Annotated[PointPx, Field(description="[x, y] of the fork, pixels.")]
    outline_px: Annotated[
        PolygonPx,
        Field(
            description="Closed polygon, pixels; empty for a fish added by two points."
        ),
    ]
    midline_px: Annotated[PolygonPx, Field(description="From snout to fork, pixels.")]
    complete: Annotated[bool, Field(description="Whether its length may be used.")]
    confidence: Annotated[
        Fraction,
        rounded(4),
        Field(description="0 to 1 that it is one whole fish."),
    ]
    flags: Annotated[
        tuple[Word, ...], Field(description="Doubts, see `GET /v1/about`.")
    ] = ()
    sources: Annotated[
        tuple[UncertaintySource, ...],
        Field(description="What the fork length's error comes from."),
    ] = ()
    ends_se_mm: Annotated[
        tuple[Annotated[float, rounded(3)], Annotated[float, rounded(3)]] | None,
        Field(
            description="Standard errors of snout and fork along the fish, mm; null "
            "where they are not known."
        ),
    ] = None
    posture: Annotated[
        Posture, Field(description="Whether it lies on its side or its back is seen.")
    ] = "side"
    squared_depth_mm3: Annotated[
        Annotated[float, rounded(0)] | None,
        Field(
            description="Integral of the squared depth across the midline without "
            "fins, snout to the base of the tail fin, cubic mm; null where the body "
            "was not seen."
        ),
    ] = None

    @property
    def seen_depth_per_length(self) -> float | None:
        """Body depth over fork length; None where its side was not seen."""
        if not len(self.outline_px) or self.posture == "upright":
            return None
        return self.body_depth_mm / self.fork_length_mm
