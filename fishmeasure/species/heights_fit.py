"""How high a stock's snouts and forks lie, from fish measured by photo and by ruler.

The one figure that lengths tell is how stiff the fish lay: snout and fork both higher,
or both lower, than the species', in standard deviations of its ``Shape``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import HeightsError
from fishmeasure.base.words import wording
from fishmeasure.species.figure import Figure
from fishmeasure.species.size import Shape

FEWEST_RULED: Final = 3
"""One slip of the pen among fewer would be taken for how the fish lie."""
RULER_SD_MM: Final = 1.0
"""Of a fork length read on a ruler. Common practice, no source."""
BETWEEN_PHOTOS: Final = 0.5
"""How far the photos of one stock are apart, in the species' standard deviations: fish
dead for an hour are stiffer than fresh ones. Common practice, no source."""
LEAST_INFORMATION: Final = 1.0 / (BETWEEN_PHOTOS**-2 - 1.0)
"""Inverse variance, below which the stock's next photo would be no surer than one of
the species (see ``own_shape``): 1 / 3."""
MOST_OFF: Final = 0.06
"""Of the length: no height explains it, so a fish, a scale or a figure is wrong."""

MOST_RELATIVE: Final = 0.9
"""Of a height's error: no lower height is written, as none is below the board."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RuledFish:
    """A fish of a photo, read on a ruler too.

    Attributes
    ----------
    length_mm
        Fork length by photo, at the species' heights.
    slope
        Of its logarithm: what one standard deviation more of both heights changes.
    own_sd, photo_sd, shared_sd
        Relative errors of the photo's length but for the heights: its own, its
        photo's, and that of all photos.
    camera_mm, thickness_mm
        Height of the camera, and of the fish.
    """

    photo: str
    length_mm: float
    ruler_mm: float
    slope: float
    own_sd: float
    photo_sd: float
    shared_sd: float
    camera_mm: float
    thickness_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HeightsFit:
    """How stiff the fish lay, in standard deviations of the species' heights.

    Attributes
    ----------
    stiffness, stiffness_se
        By least squares; 0 is as the species has it.
    """

    stiffness: float
    stiffness_se: float
    fish_count: int
    photo_count: int


def fit_heights(fish: Sequence[RuledFish]) -> HeightsFit:
    """Return how stiff the fish lay, by generalised least squares.

    Errors of a photo and of the scale are the same for all its fish, so that more fish
    do not make these smaller.

    Raises
    ------
    HeightsError
        If there are too few fish, a length cannot be, or the heights matter too little.
    """
    if len(fish) < FEWEST_RULED:
        raise HeightsError.too_few(len(fish), FEWEST_RULED)
    for number, one in enumerate(fish, 1):
        off = abs(one.length_mm / one.ruler_mm - 1.0) if one.ruler_mm > 0.0 else 1.0
        if not off <= MOST_OFF:
            raise HeightsError.far_off(number, one.photo, one.ruler_mm, one.length_mm)
    ratio = np.log([one.ruler_mm / one.length_mm for one in fish])
    slope = np.array([one.slope for one in fish])
    weighted = np.linalg.solve(_covariance(fish), slope)
    information = float(slope @ weighted)
    if information <= LEAST_INFORMATION:
        raise HeightsError.untold(
            len(fish),
            thickness_mm=float(np.median([one.thickness_mm for one in fish])),
            camera_mm=float(np.median([one.camera_mm for one in fish])),
            share=float(np.mean(np.abs(slope))),
        )
    return HeightsFit(
        stiffness=float(weighted @ ratio) / information,
        stiffness_se=information**-0.5,
        fish_count=len(fish),
        photo_count=len({one.photo for one in fish}),
    )


def _covariance(fish: Sequence[RuledFish]) -> FloatArray:
    """Return that of ln(ruler / photo), what photos differ by in stiffness included."""
    names = np.array([one.photo for one in fish])
    of_photo = np.array([one.photo_sd for one in fish])
    stiff = BETWEEN_PHOTOS * np.array([one.slope for one in fish])
    shared = np.array([one.shared_sd for one in fish])
    own = [one.own_sd**2 + (RULER_SD_MM / one.ruler_mm) ** 2 for one in fish]
    same = names[:, None] == names[None, :]
    both = np.outer(of_photo, of_photo) + np.outer(stiff, stiff)
    covariance: FloatArray = np.diag(own) + same * both + np.outer(shared, shared)
    return covariance


def own_shape(fit: HeightsFit, usual: Shape, *, note: str) -> Shape:
    """Return a stock's shape with its own heights.

    What the ruler says is weighed with what was known before, a stiffness of 0 with
    the standard deviation 1, and the stock's other photos differ from these.
    """
    known = 1.0 / (1.0 + fit.stiffness_se**2)
    stiffness = known * fit.stiffness
    error = math.hypot(math.sqrt(1.0 - known), BETWEEN_PHOTOS)
    source = wording(
        "source-own-heights", fish=fit.fish_count, photos=fit.photo_count, note=note
    ).strip()

    def own(figure: Figure) -> Figure:
        sd = error * figure.sd
        value = max(figure.value + stiffness * figure.sd, sd / MOST_RELATIVE)
        return Figure(
            value=value,
            relative_sd=sd / value,
            source=source,
            status="computed",
        )

    return replace(
        usual, snout_height=own(usual.snout_height), fork_height=own(usual.fork_height)
    )
