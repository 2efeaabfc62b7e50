"""A stock's own constant c = W / V from a few fish photographed and weighed singly."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import LengthWeightDataError
from fishmeasure.base.words import Message, wording
from fishmeasure.species.figure import Figure
from fishmeasure.species.record import Species
from fishmeasure.species.size import BodyFigures, LengthWeight

FEWEST_PHOTOGRAPHED: Final = 3
USUAL_SD_LN: Final = 0.075
"""Of ln (W / V) of single fish by photos: 6 % of fish and 4 to 6 % of edges."""
USUAL_COUNT: Final = 8.0
"""Degrees of freedom that the usual spread counts for: few fish hardly tell theirs."""
THICKNESS_DRIFT: Final = 0.043
"""How far c of a stock moves between samplings: no figure was found, so the spread
between stocks of a species is taken, 4.3 % (three farmed species, private sets)."""
FATNESS_DRIFT: Final = 0.15
"""How far the condition of a stock moves over a season, which the outline sees and a
line does not: wild char 0.90 in winter and 1.00 in autumn, farmed trout 0.99 to 1.44
between farms. Common practice, no source."""
RIPE_RELATIVE_SD: Final = 0.17
"""Of weight by outline while fish are ripe: gonads are 14 to 20 % of a ripe female.
From memory."""
MOST_OFF: Final = 4.0
"""Spreads; a fish farther off is a slip of the pen or an outline gone wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyFit:
    """ln c as the mean of ln (W / V), in g per cubic centimetre.

    Attributes
    ----------
    relative_se
        Of c: of the fish, and of what the fish of a photo share.
    spread_ln
        Of ln (W / V) of single fish about it, theirs and the usual one together.
    left_out_error_percent, by_length_error_percent
        Mean absolute error of single weights, each told by the others' c, and by the
        others' W / L^3.
    outliers
        Indices of fish far off, to be looked at; they are in the fit.
    """

    c_g_per_cm3: float
    relative_se: float
    spread_ln: float
    fish_count: int
    photo_count: int
    left_out_error_percent: float
    by_length_error_percent: float
    outliers: tuple[int, ...]


def fit_body(
    squared_depth_mm3: FloatArray,
    length_mm: FloatArray,
    weight_g: FloatArray,
    *,
    photos: Sequence[str],
    photo_relative_sd: float,
    shared_relative_sd: float,
) -> BodyFit:
    """Return the constant of a few fish.

    Parameters
    ----------
    squared_depth_mm3, length_mm, weight_g
        (n,) each, in the same order.
    photos
        Of each fish.
    photo_relative_sd, shared_relative_sd
        Error of squared depth that the fish of a photo share, and that all share.

    Raises
    ------
    LengthWeightDataError
        If there are too few fish.
    """
    count = len(weight_g)
    if count < FEWEST_PHOTOGRAPHED:
        raise LengthWeightDataError(
            Message.of(
                "lw-data", case="few-outlines", fish=count, needed=FEWEST_PHOTOGRAPHED
            )
        )
    ratio = np.log(1000.0 * weight_g / squared_depth_mm3)
    off = ratio - ratio.mean()
    spread = math.sqrt(
        (USUAL_COUNT * USUAL_SD_LN**2 + float(np.sum(off**2)))
        / (USUAL_COUNT + count - 1)
    )
    shares = np.array(list(Counter(photos).values())) / count
    of_photos = photo_relative_sd * float(np.linalg.norm(shares))
    error = math.sqrt(spread**2 / count + of_photos**2 + shared_relative_sd**2)
    return BodyFit(
        c_g_per_cm3=float(np.exp(ratio.mean())),
        relative_se=error,
        spread_ln=spread,
        fish_count=count,
        photo_count=len(shares),
        left_out_error_percent=_left_out_percent(ratio),
        by_length_error_percent=_left_out_percent(
            np.log(weight_g) - 3.0 * np.log(length_mm)
        ),
        outliers=tuple(int(i) for i in np.flatnonzero(np.abs(off) > MOST_OFF * spread)),
    )


def _left_out_percent(ratio: FloatArray) -> float:
    off = (ratio - ratio.mean()) * len(ratio) / (len(ratio) - 1)
    return 100.0 * float(np.mean(np.abs(np.expm1(-off))))


def own_level(
    published: LengthWeight, length_mm: FloatArray, weight_g: FloatArray, *, note: str
) -> LengthWeight:
    """Return the published line at the level of a few fish; b stays the published one.

    Lengths are of the line's own kind. The spread of single fish stays the published
    one, and the error is that of the mean, of b between its middle and the line's, and
    how far a stock's condition moves until the next photo.
    """
    x = np.log(length_mm / 10.0)
    level = float(np.mean(np.log(weight_g) - published.b * x))
    low, high = float(length_mm.min()), float(length_mm.max())
    least, most = 0.8 * low, 1.25 * high
    middle = 0.5 * math.log(least * most / 100.0)
    error = math.sqrt(
        published.residual_sd_ln**2 / len(weight_g)
        + (published.b_sd * (middle - float(x.mean()))) ** 2
        + FATNESS_DRIFT**2
    )
    return replace(
        published,
        a_g_cm=math.exp(level),
        min_length_mm=least,
        max_length_mm=most,
        relative_sd=error,
        stock="farmed",
        status="seen",
        confidence="medium",
        source=wording("source-own-level", fish=len(weight_g), note=note).strip(),
    )


def level_of(
    published: LengthWeight, level_ratio: float, relative_se: float, *, source: str
) -> LengthWeight:
    """Return the published line at a level that weighings settled."""
    return replace(
        published,
        a_g_cm=published.a_g_cm * level_ratio,
        relative_sd=math.hypot(relative_se, FATNESS_DRIFT),
        stock="farmed",
        status="seen",
        confidence="medium",
        source=source,
    )


def own_body(fit: BodyFit, usual: BodyFigures, *, note: str) -> BodyFigures:
    """Return the figures of a stock whose c was fitted."""
    source = wording(
        "source-own-body", fish=fit.fish_count, photos=fit.photo_count, note=note
    ).strip()
    return body_of(fit.c_g_per_cm3, fit.relative_se, usual, source=source)


def body_of(
    c_g_per_cm3: float, relative_se: float, usual: BodyFigures, *, source: str
) -> BodyFigures:
    """Return the figures of a stock whose c is known from its own fish."""
    return replace(
        usual,
        c_g_per_cm3=Figure(
            value=c_g_per_cm3, relative_sd=relative_se, source=source, status="seen"
        ),
        stock_relative_sd=Figure(
            value=THICKNESS_DRIFT,
            relative_sd=0.5,
            source="spread between stocks of three farmed species (private sets), for "
            "how far one stock moves between samplings",
            status="stand-in",
        ),
    )


def ripened(species: Species) -> Species:
    """Return a species whose fish are ripe: no outline tells roe from flesh."""
    sd = species.body.stock_relative_sd
    wider = min(math.hypot(sd.value, RIPE_RELATIVE_SD), 0.5)
    return replace(
        species,
        body=replace(species.body, stock_relative_sd=replace(sd, value=wider)),
    )
