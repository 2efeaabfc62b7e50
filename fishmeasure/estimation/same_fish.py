"""One net's fish in the photos of two: the same net photographed twice.

The lengths (and the shapes, where outlines tell them) of two nets' fish are held
against two suppositions. Of two nets they are drawn from the sizes of the sample, each
for itself. Of one net each fish was seen in either photo, or in one of them alone, and
its two lengths differ by their errors. Which fish is which is not known, so the
likelihood is the sum over all ways to pair them, here by belief propagation, whose sum
is not above the true one where fish may stay single (Williams & Lau 2014, from memory).
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.special import logsumexp

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.flags import Problem
from fishmeasure.estimation.hypotheses import (
    MIXED_HARM,
    MIXED_PRIOR,
    NEARBY,
    Slip,
    judge,
)
from fishmeasure.estimation.nets import NetWeighing
from fishmeasure.estimation.sizes import Key, PhotoWeight

# A fish of a photo can be used in another one of it so often, and either length is
# grossly wrong so often. Common practice, no source.
_SEEN_AGAIN: Final = 0.9
_GROSS: Final = 0.03
# The errors of two photos of one net: as stated; smaller, where the fish lie as they
# lay; or those of one picture saved twice, a fraction of length. Common practice, no
# source.
_AS_STATED: Final = (1.0, 0.4)
_COPY_SD: Final = 0.001
_SHIFTS: Final = np.array([-1.2, 0.0, 1.2])  # of a photo's scale, in its sd
# The sizes of the sample as a curve: each fish stands for so much about its own, in sds
# (Silverman 1986, 3.31: 0.9 n^(-1/5); from memory).
_KERNEL: Final = 0.9
_LEAST_SPREAD: Final = 0.02
_LEAST_SHAPE_SD: Final = 0.04
_FEWEST_FISH: Final = 3
# More are not compared, so that a sample costs no more than a second or two.
_MOST_FISH: Final = 60  # of a photo
_MOST_NETS: Final = 60
_MOST_PLACES: Final = 40
_ROUNDS: Final = 12
# Steps in which lengths from a board are written down, mm.
_STEPS_MM: Final = (10.0, 5.0, 2.0, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Fish:
    """The usable fish of a net: ln length and ln shape, with their errors."""

    net: NetWeighing
    x: FloatArray
    error: FloatArray
    copy: FloatArray
    shape: FloatArray
    shape_error: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Sizes:
    """The sizes of all fish of a sample."""

    places: FloatArray
    kernel: float
    shape: float
    shape_sd: float


def same_fish(
    nets: tuple[NetWeighing, ...], shapes: Mapping[Key, tuple[float, float]]
) -> list[Problem]:
    """Return a problem for each net whose fish are likelier another's.

    Parameters
    ----------
    nets
        With the fish of their photos.
    shapes
        Ln of weight by outline over length cubed, and its own error, of the fish of
        which it is known.
    """
    fish = [
        _fish(net, at, shapes)
        for at, net in enumerate(nets)
        if _FEWEST_FISH <= len(net.complete_fish) <= _MOST_FISH
    ]
    if not 2 <= len(fish) <= _MOST_NETS:
        return []
    sizes = _sizes(fish)
    found = []
    pairs = [
        (one, other)
        for at, other in enumerate(fish)
        for one in fish[max(at - NEARBY, 0) : at]
    ]
    prior = MIXED_PRIOR * len(fish) / len(pairs)
    for one, other in pairs:
        fit = log_ratio(one, other, sizes)
        slip = Slip(name="", prior=prior, log_likelihood=fit, harm=MIXED_HARM)
        if judge(0.0, [], [slip]).asks:
            found.append(
                Problem.of(
                    "same-fish",
                    net=other.net.label,
                    other=one.net.label,
                    fish=min(len(one.x), len(other.x)),
                    apart=_apart(one, other),
                )
            )
    return found


def shapes_of(
    nets: tuple[NetWeighing, ...], weights: Mapping[Key, PhotoWeight]
) -> dict[Key, tuple[float, float]]:
    """Return ln of weight by outline over length cubed, with its own error."""
    return {
        (at, place): (
            math.log(one.weight_g / nets[at].fish[place].fork_length_mm ** 3),
            one.own_sd,
        )
        for (at, place), one in weights.items()
    }


def _fish(
    net: NetWeighing, at: int, shapes: Mapping[Key, tuple[float, float]]
) -> _Fish:
    places = [place for place, fish in enumerate(net.fish) if fish.complete]
    mm = np.array([net.fish[place].fork_length_mm for place in places])
    told = [shapes.get((at, place), (math.nan, math.nan)) for place in places]
    # A board is read in steps: two fish of one step are no sign that they are one.
    steps = [step for step in _STEPS_MM if np.all(np.abs(mm % step) < 1e-9)]
    step = steps[0] if steps else 0.0
    rounded = step / math.sqrt(12.0) / mm
    stated = np.array([net.fish[place].relative_sd for place in places])
    return _Fish(
        net=net,
        x=np.log(mm),
        error=np.maximum(stated, rounded),
        copy=np.full(len(mm), _COPY_SD) if step == 0.0 else np.maximum(stated, rounded),
        shape=np.array([value for value, _ in told]),
        shape_error=np.array([sd for _, sd in told]),
    )


def _sizes(fish: list[_Fish]) -> _Sizes:
    x = np.concatenate([each.x for each in fish])
    shape = np.concatenate([each.shape for each in fish])
    error = np.concatenate([each.shape_error for each in fish])
    known = np.isfinite(shape)
    spread = max(float(np.std(x)), _LEAST_SPREAD)
    variance = _LEAST_SHAPE_SD**2
    if known.any():
        own = float(np.var(shape[known]) - np.mean(error[known] ** 2))
        variance = max(own, variance)
    return _Sizes(
        places=x
        if len(x) <= _MOST_PLACES
        else np.quantile(x, (np.arange(_MOST_PLACES) + 0.5) / _MOST_PLACES),
        kernel=_KERNEL * spread * float(len(x)) ** -0.2,
        shape=float(np.mean(shape[known])) if known.any() else 0.0,
        shape_sd=math.sqrt(variance),
    )


def log_ratio(one: _Fish, other: _Fish, sizes: _Sizes) -> float:
    """Return ln of how much likelier two photos are of one net than of two."""
    shift_sd = math.hypot(one.net.photo_relative_sd, other.net.photo_relative_sd)
    ways = [(factor, shift) for factor in _AS_STATED for shift in _SHIFTS]
    apart = one.x[:, None] - other.x[None, :]
    stated = one.error[:, None] ** 2 + other.error[None, :] ** 2
    copied = one.copy[:, None] ** 2 + other.copy[None, :] ** 2
    near = [
        _normal(apart + shift * shift_sd, factor**2 * stated) for factor, shift in ways
    ]
    near.append(_normal(apart, copied))
    # Half of it is for a picture saved twice.
    shares = np.exp(-0.5 * np.array([shift for _, shift in ways]) ** 2)
    log_shares = np.log(0.5 * np.append(shares / shares.sum(), 1.0))
    ratios = np.array(near) * _as_common(one, other, sizes)
    logs = _all_pairings(ratios * _shape_ratio(one, other, sizes), one, other)
    return float(logsumexp(log_shares + logs))


def _as_common(one: _Fish, other: _Fish, sizes: _Sizes) -> FloatArray:
    """Return (a, b) how common a fish of both lengths is, over fish of either.

    Times the density of their difference it is the density of two lengths of one fish
    over that of two fish's.
    """
    x_var, y_var = one.error[:, None] ** 2, other.error[None, :] ** 2
    middle = (one.x[:, None] * y_var + other.x[None, :] * x_var) / (x_var + y_var)
    left = x_var * y_var / (x_var + y_var)
    h2 = sizes.kernel**2
    away = middle[..., None] - sizes.places
    together = np.mean(_normal(away, (h2 + left)[..., None]), axis=-1)
    alone_x = _mixed(one.x, sizes, h2 + one.error**2)
    alone_y = _mixed(other.x, sizes, h2 + other.error**2)
    ratio: FloatArray = together / (alone_x[:, None] * alone_y[None, :])
    return ratio


def _mixed(x: FloatArray, sizes: _Sizes, variance: FloatArray) -> FloatArray:
    away = x[:, None] - sizes.places
    density: FloatArray = np.mean(_normal(away, variance[:, None]), axis=1)
    return density


def _normal(distance: FloatArray, variance: FloatArray | float) -> FloatArray:
    density: FloatArray = np.exp(-0.5 * distance**2 / variance) / np.sqrt(
        2.0 * math.pi * variance
    )
    return density


def _shape_ratio(one: _Fish, other: _Fish, sizes: _Sizes) -> FloatArray:
    """Return (a, b) the same of shapes; 1 where one of them is not known."""
    x, y = one.shape[:, None] - sizes.shape, other.shape[None, :] - sizes.shape
    own = sizes.shape_sd**2
    x_var, y_var = own + one.shape_error[:, None] ** 2, own + other.shape_error**2
    determinant = x_var * y_var - own**2
    square = (y_var * x**2 - 2.0 * own * x * y + x_var * y**2) / determinant
    log_together = -0.5 * square - 0.5 * np.log(determinant)
    log_alone = -0.5 * (x**2 / x_var + y**2 / y_var) - 0.5 * np.log(x_var * y_var)
    ratio: FloatArray = np.exp(log_together - log_alone)
    return np.where(np.isfinite(ratio), ratio, 1.0)


def _all_pairings(ratio: FloatArray, one: _Fish, other: _Fish) -> FloatArray:
    """Return ln of the likelihood ratio summed over all ways to pair the fish.

    Of ``count`` fish each is usable in a photo so often as the counts say: of pairs
    and of single fish that makes independent numbers, whose weights multiply.
    """
    count = float(max(len(one.x), len(other.x), one.net.fish_count))
    usable = max(min(len(one.x), len(other.x)) / count, 0.1) * _SEEN_AGAIN
    missed = 1.0 - usable
    weight = (_GROSS + (1.0 - _GROSS) * ratio) / (count * missed**2)
    to_row = np.ones_like(weight)
    to_column = np.ones_like(weight)
    for _ in range(_ROUNDS):
        inward = weight * to_row
        to_column = 1.0 / (1.0 + inward.sum(axis=2, keepdims=True) - inward)
        inward = weight * to_column
        to_row = 1.0 / (1.0 + inward.sum(axis=1, keepdims=True) - inward)
    log_sum = (
        np.log1p((weight * to_row).sum(axis=2)).sum(axis=1)
        + np.log1p((weight * to_column).sum(axis=1)).sum(axis=1)
        - np.log1p(weight * to_row * to_column).sum(axis=(1, 2))
    )
    singles = (len(one.x) + len(other.x)) * math.log(missed)
    total: FloatArray = log_sum + singles + count * usable**2
    return total


def _apart(one: _Fish, other: _Fish) -> float:
    """Return the typical difference of the nearest lengths, a fraction."""
    nearest = np.min(np.abs(one.x[:, None] - other.x[None, :]), axis=1)
    return float(np.expm1(np.median(nearest)))
