"""The fish of a photo weighed together: which outlines to trust, what they share."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from statistics import median
from typing import Final

import numpy as np
from scipy.spatial import KDTree

from fishmeasure.base.estimate import DEFAULT_LEVEL, Estimate, UncertaintySource
from fishmeasure.base.flags import Problem
from fishmeasure.photo.length import FishLength
from fishmeasure.photo.measurement import (
    MeasuredFish,
    PhotoMeasurement,
    weighed,
)
from fishmeasure.photo.weight import (
    FishWeight,
    condition_factor,
    fish_weight,
    with_condition_of,
)
from fishmeasure.species import Species

MOST_SAG: Final = 0.05
"""Of the length: straightened, a fish bent more is too slim on one side."""
LEAST_PX: Final = 300.0
"""Of the fork length in the photo: a pixel on either side is then 10 % of weight."""
NEAR_SHARE: Final = 0.015
"""Of the length: edges as near to another fish may lie in its shadow, or under it."""
MOST_NEAR: Final = 0.1
"""Of the outline that may run so near to other fish: two fish that touch at one place
have 5 %; of rendered fish with more, squared depth was off by 3 to 25 %."""
BESIDE_MEDIAN: Final = (0.7, 1.4)
"""Condition by outline over the median of the photo's fish: four and more times the
spread of a stock's condition, 6.5 to 9 %."""
FEWEST_FOR_MEDIAN: Final = 3
FEWEST_TO_TELL: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoWeights:
    """Mean weight and condition of the fish used, errors they share counted once."""

    mean_weight_g: Estimate
    condition_factor: Estimate


def with_weights(
    measurement: PhotoMeasurement, species: Callable[[str], Species]
) -> PhotoMeasurement:
    """Return the measurement with its fish weighed together, and their mean.

    Fish of several species have no mean: it would be nobody's.
    """
    fish = weigh_together(measurement.fish, species)
    kinds = {one.species for one in fish if one.complete}
    found = photo_weights(fish, species(kinds.pop())) if len(kinds) == 1 else None
    if found is None:
        return replace(
            measurement,
            fish=fish,
            mean_weight_g=None,
            mean_weight_interval_g=None,
            condition_factor=None,
            condition_factor_interval=None,
        )
    weight, condition = found.mean_weight_g, found.condition_factor
    return replace(
        measurement,
        fish=fish,
        mean_weight_g=weight.value,
        mean_weight_interval_g=(weight.low, weight.high),
        condition_factor=condition.value,
        condition_factor_interval=(condition.low, condition.high),
    )


NOT_VALIDATED: Final = "not-validated"


def with_validation(
    measurement: PhotoMeasurement, species: Callable[[str], Species]
) -> PhotoMeasurement:
    """Return the measurement, which says of which species no real photo was tested."""
    others = (one for one in measurement.problems if one.code != NOT_VALIDATED)
    keys = dict.fromkeys(one.species for one in measurement.complete_fish)
    untested = (
        Problem.of("not-validated", species=kind.said)
        for kind in map(species, keys)
        if kind.photos.real_count == 0
    )
    return replace(measurement, problems=(*others, *untested))


def weigh_together(
    fish: Sequence[MeasuredFish], species: Callable[[str], Species]
) -> tuple[MeasuredFish, ...]:
    """Return the fish of a photo weighed again, by length where an outline is doubtful.

    Parameters
    ----------
    fish
        Of one photo, whole and doubtful alike.
    species
        Returns the species of a key.
    """
    doubtful = [
        one.squared_depth_mm3 is not None
        and (_sag(one) > MOST_SAG or _length_px(one) < LEAST_PX)
        for one in fish
    ]
    beside = _beside_others(fish)
    doubtful = [one or two for one, two in zip(doubtful, beside, strict=True)]
    odd = _odd_ones(fish, doubtful)
    doubtful = [one or two for one, two in zip(doubtful, odd, strict=True)]
    found = _weights(fish, species, doubtful)
    return tuple(
        weighed(one, species(one.species), weight)
        for one, weight in zip(fish, found, strict=True)
    )


def _weights(
    fish: Sequence[MeasuredFish],
    species: Callable[[str], Species],
    doubtful: Sequence[bool],
) -> list[FishWeight | None]:
    """Return the weight of each fish that is used, doubtful ones as fat as the others.

    One outline of its kind is too few to say how fat they are.
    """
    sure: dict[str, list[FishWeight]] = {}
    found: list[FishWeight | None] = []
    for one, doubt in zip(fish, doubtful, strict=True):
        weight = None
        if one.complete:
            weight = fish_weight(one, species(one.species), by_outline=not doubt)
            if weight.share > 0.0:
                sure.setdefault(one.species, []).append(weight)
        found.append(weight)
    for place, (one, doubt) in enumerate(zip(fish, doubtful, strict=True)):
        weight, others = found[place], sure.get(one.species, [])
        if weight is None or not doubt:
            continue
        if len(others) >= FEWEST_TO_TELL:
            weight = with_condition_of(one, species(one.species), others)
        found[place] = replace(weight, flags=(*weight.flags, "outline-doubtful"))
    return found


def photo_weights(
    fish: Sequence[MeasuredFish], species: Species, level: float = DEFAULT_LEVEL
) -> PhotoWeights | None:
    """Return mean weight and mean condition factor; None where no fish may be used.

    The errors of single fish shrink with their number; those that a photo, a sample or
    the species shares do not. A scale 1 % too long makes 3 % of weight by the outline,
    of which the condition factor, W over L cubed, keeps none.
    """
    used = [one for one in fish if one.complete and one.species == species.key]
    if not used:
        return None
    doubtful = ["outline-doubtful" in one.flags for one in used]
    weights, conditions = [], []
    for one, found in zip(
        used, _weights(used, lambda _: species, doubtful), strict=True
    ):
        if found is None:
            continue
        of_length = {(s.name, s.scope): s.relative_sd for s in one.sources}
        weights.append((found.weight_g.value, found.sources))
        lessened = tuple(
            UncertaintySource(
                name=source.name,
                relative_sd=abs(
                    source.relative_sd
                    - 3.0 * of_length.get((source.name, source.scope), 0.0)
                ),
                scope=source.scope,
            )
            for source in found.sources
        )
        value = condition_factor(found.weight_g.value, one.fork_length_mm)
        conditions.append((value, lessened))
    return PhotoWeights(
        mean_weight_g=_mean(weights, level), condition_factor=_mean(conditions, level)
    )


def _mean(
    figures: Sequence[tuple[float, tuple[UncertaintySource, ...]]], level: float
) -> Estimate:
    """Return the mean of figures and its lognormal interval, shared causes once."""
    mean = sum(value for value, _ in figures) / len(figures)
    own = 0.0
    shared: dict[tuple[str, str], float] = {}
    for value, sources in figures:
        weight = value / mean / len(figures)
        for source in sources:
            if source.scope == "fish":
                own += (weight * source.relative_sd) ** 2
            else:
                key = source.name, source.scope
                shared[key] = shared.get(key, 0.0) + weight * source.relative_sd
    relative = math.sqrt(own + sum(sd**2 for sd in shared.values()))
    normal = Estimate.normal(0.0, math.sqrt(math.log1p(relative**2)), level)
    return Estimate(
        value=mean,
        sd=mean * relative,
        low=mean * math.exp(normal.low),
        high=mean * math.exp(normal.high),
        level=level,
    )


# --- which outlines to trust ------------------------------------------------------


def _length_px(fish: FishLength) -> float:
    return float(np.hypot(*(fish.fork_px - fish.snout_px)))


def _sag(fish: FishLength) -> float:
    """Return how far the midline bows out from its chord, over the chord."""
    line = fish.midline_px
    if len(line) < 3:
        return 0.0
    chord = line[-1] - line[0]
    length = max(float(np.hypot(*chord)), 1e-9)
    off = (line - line[0]) @ np.array([-chord[1], chord[0]]) / length
    return float(np.abs(off).max()) / length


def _beside_others(fish: Sequence[MeasuredFish]) -> list[bool]:
    """Return whether much of a fish's outline runs along other fish."""
    result = []
    for index, one in enumerate(fish):
        others = [
            other.outline_px
            for place, other in enumerate(fish)
            if place != index and len(other.outline_px)
        ]
        if one.squared_depth_mm3 is None or not others or not len(one.outline_px):
            result.append(False)
            continue
        reach = NEAR_SHARE * _length_px(one)
        gaps, _ = KDTree(np.vstack(others)).query(one.outline_px)
        result.append(float(np.mean(gaps < reach)) > MOST_NEAR)
    return result


def _odd_ones(fish: Sequence[MeasuredFish], doubtful: Sequence[bool]) -> list[bool]:
    """Return whose condition by outline is unlike that of the photo's others."""

    def ratio(one: FishLength) -> float | None:
        seen = one.squared_depth_mm3
        return None if seen is None else seen / one.fork_length_mm**3

    kinds: dict[str, list[float]] = {}
    for one, doubt in zip(fish, doubtful, strict=True):
        if one.complete and not doubt and (value := ratio(one)) is not None:
            kinds.setdefault(one.species, []).append(value)
    low, high = BESIDE_MEDIAN
    result = []
    for one in fish:
        value, usual = ratio(one), kinds.get(one.species, [])
        known = value is not None and len(usual) >= FEWEST_FOR_MEDIAN
        result.append(
            known and value is not None and not low <= value / median(usual) <= high
        )
    return result
