"""Length, weight and shape of a species, as published."""

import math
from typing import Annotated, Final

from fishmeasure.base.record import record
from fishmeasure.base.words import Message
from fishmeasure.species.figure import (
    Confidence,
    Figure,
    LengthKind,
    NotNegative,
    Positive,
    Source,
    Sourced,
    Status,
    StockKind,
    described,
    refuse,
    within,
)


@record(frozen=True, slots=True, kw_only=True)
class LengthWeight(Sourced):
    """W = a L^b with W in grams and L in centimetres.

    ``a_g_cm`` is that of the median line, as a log-log fit gives it.
    ``relative_sd`` is the error of the level for an unknown stock (about 0.25
    for published coefficients); ``residual_sd_ln`` the spread of ln W of single
    fish about their own stock's line; ``b_sd`` the spread of b between stocks.
    ``min_length_mm`` to ``max_length_mm`` is where a and b hold, in that same length.
    """

    a_g_cm: Positive
    b: float
    length_kind: LengthKind
    min_length_mm: Positive
    max_length_mm: Positive
    relative_sd: NotNegative
    residual_sd_ln: NotNegative
    b_sd: NotNegative
    source: Source
    confidence: Confidence
    stock: StockKind = "wild"
    status: Status = "seen"

    def __post_init__(self) -> None:
        if self.min_length_mm >= self.max_length_mm:
            refuse(Message.of("species-slip", case="lengths"))

    @property
    def reference_length_mm(self) -> float:
        """Length at which errors of level and of b are independent.

        The geometric middle of the range: published a and b trade off about the
        middle of the fish they were fitted to.
        """
        return math.sqrt(self.min_length_mm * self.max_length_mm)


# Limits that catch a slip of unit or decimal point, not an odd fish. a: eels 0.001,
# pufferfish 0.05 (FishBase's range, from memory); b: Froese 2006 finds 2.5-3.5 for
# most; depth: eel 0.05, bream 0.46 (Brofeldt 1917), moonfish above.
_LINE_LIMITS: Final = {
    "a_g_cm": (0.0002, 0.2),
    "b": (2.0, 4.0),
    "min_length_mm": (5.0, 5000.0),
    "max_length_mm": (5.0, 5000.0),
    "relative_sd": (0.001, 1.0),
    "residual_sd_ln": (0.001, 1.0),
    "b_sd": (0.0, 0.5),
}


def as_entered(line: LengthWeight) -> LengthWeight:
    """Check a line as it is published; on another kind of length it may lie outside."""
    for name, (low, high) in _LINE_LIMITS.items():
        value = getattr(line, name)
        if not low <= value <= high:
            refuse(
                Message.of(
                    "figure-outside-named", name=name, value=value, low=low, high=high
                )
            )
    return line


@record(frozen=True, slots=True, kw_only=True)
class Shape:
    """Proportions of the body, and their spread between fish.

    Where the spread of the two length ratios was not measured it is that of 86 lake
    trout (Arctic LTER), 56 perch (Brofeldt 1917) and 100 bluegill (Lake Mary): 0.8 to
    2.1 % for the fork, from 1.7 % for the standard length.

    Attributes
    ----------
    fork_per_total, standard_per_total
        Length ratios (fork length / total length; 1 where the tail has no fork).
    thickness_per_depth
        Side-to-side thickness over body depth, for the height of the midline.
    depth_per_fork_length
        Typical body depth over fork length.
    snout_height, fork_height
        Over the board, as shares of half the thickness, of a fish on its side; their
        error is how far the fish of a photo, limp or stiff, are from it.
    snout_radius
        Of the snout from above (as a ball), as a share of half the thickness: a
        slanting view sees round it, and outlines reach beyond its tip.
    """

    fork_per_total: Annotated[
        Figure, within(0.6, 1.0), described("Fork length over total length")
    ]
    standard_per_total: Annotated[
        Figure, within(0.5, 1.0), described("Standard length over total length")
    ]
    thickness_per_depth: Annotated[
        Figure, within(0.05, 2.0), described("Thickness over body depth")
    ]
    depth_per_fork_length: Annotated[
        Figure, within(0.02, 1.0), described("Body depth over fork length")
    ]
    snout_height: Annotated[
        Figure, within(0.0, 2.0), described("Snout over the board, per half thickness")
    ]
    fork_height: Annotated[
        Figure, within(0.0, 2.0), described("Fork over the board, per half thickness")
    ]
    snout_radius: Annotated[
        Figure,
        within(0.0, 3.0),
        described("Radius of the snout from above, per half thickness"),
    ]

    def __post_init__(self) -> None:
        if self.standard_per_total.value > self.fork_per_total.value:
            refuse(Message.of("species-slip", case="standard"))


@record(frozen=True, slots=True, kw_only=True)
class BodyFigures:
    """What weighs a fish by the depth of its body: W = c V, see ``photo.length.depth``.

    V is the integral of the squared depth across the midline, without fins, from the
    snout to the base of the tail fin; c is in g per cubic centimetre of V.

    Attributes
    ----------
    c_g_per_cm3
        Its ``relative_sd`` is how well it is known for the species' stocks on average;
        None where no fish of the species were weighed beside their outlines.
    stock_relative_sd, fish_relative_sd
        Spread of c between stocks of a species, and between fish of a stock.
    squared_depth_per_cubed_length
        Usual V over cubed fork length, of fish of the published line at its
        ``reference_length_mm``; None where it follows from the usual depth.
    squared_depth_per_depth2_length
        V over greatest squared depth times fork length.
    """

    c_g_per_cm3: Annotated[
        Annotated[Figure, within(0.05, 2.0)] | None,
        described("Weight over squared depth along the body, g/cm³"),
    ] = None
    stock_relative_sd: Annotated[
        Figure, within(0.0, 0.5), described("Its spread between stocks, fraction")
    ]
    fish_relative_sd: Annotated[
        Figure, within(0.0, 0.5), described("Its spread between fish, fraction")
    ]
    squared_depth_per_cubed_length: Annotated[
        Annotated[Figure, within(0.001, 0.5)] | None,
        described("Squared depth along the body over cubed fork length"),
    ] = None
    squared_depth_per_depth2_length: Annotated[
        Figure,
        within(0.2, 1.0),
        described("Squared depth along the body over depth squared times fork length"),
    ]

    def usual_squared_depth(self, depth_per_fork_length: Figure) -> tuple[float, float]:
        """Return V over cubed fork length as usual, and its relative error."""
        if (own := self.squared_depth_per_cubed_length) is not None:
            return own.value, own.relative_sd
        fill, depth = self.squared_depth_per_depth2_length, depth_per_fork_length
        return (
            fill.value * depth.value**2,
            math.hypot(fill.relative_sd, 2.0 * depth.relative_sd),
        )
