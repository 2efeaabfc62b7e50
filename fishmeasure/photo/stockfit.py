"""A stock's own figures from fish of photos that were weighed, or read on a ruler."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fishmeasure.photo.length import ruled_fish, shape_of, squared_depth_sources
from fishmeasure.photo.measurement import MeasuredFish
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.species import LengthWeight, Species
from fishmeasure.species.body_fit import BodyFit, fit_body, own_body, own_level
from fishmeasure.species.fit import FEWEST_FISH, fit_length_weight, own_line
from fishmeasure.species.heights_fit import HeightsFit, fit_heights, own_shape
from fishmeasure.species.size import BodyFigures, Shape

LENGTHS_APART = 1.3
"""The longest fish over the shortest: nearer lengths say nothing of b."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedFish:
    """A fish of a photo with the weight, or the length on a ruler, that was read."""

    photo: str
    fish: MeasuredFish
    scale: PlaneScale
    weight_g: float | None = None
    ruler_mm: float | None = None

    @property
    def outlined(self) -> bool:
        """Whether its outline may teach c."""
        seen = self.fish.squared_depth_mm3 is not None
        return seen and "outline-doubtful" not in self.fish.flags


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightFit:
    """A stock's line and body, the fit of c, and the fish whose outline is doubtful."""

    line: LengthWeight
    body: BodyFigures
    fit: BodyFit
    left: tuple[WeighedFish, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeFit:
    """A stock's proportions with its own heights of snout and fork, and their fit."""

    shape: Shape
    fit: HeightsFit


def fit_weights(
    weighed: Sequence[WeighedFish], species: Species, *, note: str = ""
) -> WeightFit:
    """Return what fish weighed one by one tell of their stock.

    Its line is fitted where lengths differ enough; else the published one is put at
    their level.

    Raises
    ------
    LengthWeightDataError
        If too few outlines may be used, or a weight cannot be.
    """
    used = [one for one in weighed if one.outlined]
    fit = fit_body(
        np.array([one.fish.squared_depth_mm3 for one in used], dtype=float),
        np.array([one.fish.fork_length_mm for one in used], dtype=float),
        np.array([one.weight_g for one in used], dtype=float),
        photos=[one.photo for one in used],
        photo_relative_sd=_shared_sd(used, "photo"),
        shared_relative_sd=_shared_sd(used, "sample"),
    )
    lengths = np.array([one.fish.fork_length_mm for one in weighed], dtype=float)
    weights = np.array([one.weight_g for one in weighed], dtype=float)
    line = species.on_fork_length()
    if len(weights) >= FEWEST_FISH and lengths.max() > LENGTHS_APART * lengths.min():
        line = own_line(fit_length_weight(lengths, weights), line, note=note)
    else:
        line = own_level(line, lengths, weights, note=note)
    return WeightFit(
        line=line,
        body=own_body(fit, species.body, note=note),
        fit=fit,
        left=tuple(one for one in weighed if not one.outlined),
    )


def fit_shape(
    ruled: Sequence[WeighedFish], species: Species, *, note: str = ""
) -> ShapeFit:
    """Return how high snout and fork of a stock lie, by lengths read on a ruler.

    Raises
    ------
    HeightsError
        If the lengths tell too little, or one cannot be.
    """
    fit = fit_heights(
        [
            ruled_fish(
                one.fish,
                one.scale,
                shape_of(species),
                photo=one.photo,
                ruler_mm=one.ruler_mm or 0.0,
            )
            for one in ruled
        ]
    )
    return ShapeFit(shape=own_shape(fit, species.shape, note=note), fit=fit)


def stock_of(
    species: Species,
    weights: WeightFit | None,
    shape: ShapeFit | None,
) -> Species:
    """Return the species with what was learned of a stock; its key stays."""
    if shape is not None:
        species = replace(species, shape=shape.shape)
    if weights is None:
        return species
    return replace(
        species, length_weight=weights.line, body=weights.body, is_own_stock=True
    )


def _shared_sd(weighed: Sequence[WeighedFish], scope: str) -> float:
    """Return the largest error of squared depth of a scope, 0 where none is."""
    found = (
        math.sqrt(
            sum(
                source.relative_sd**2
                for source, _ in squared_depth_sources(one.fish)
                if source.scope == scope
            )
        )
        for one in weighed
    )
    return max(found, default=0.0)
