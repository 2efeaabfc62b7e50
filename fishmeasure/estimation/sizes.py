"""Fish that photos weigh by their outlines, as sizes that the model of a sample takes.

The model knows a fish by its length: ln W = alpha + b ln L. A fish weighed by outline
and length goes in as the length at which the published line has that weight. Its errors
are those of that weight over b, b has none, what single fish scatter by is what the
outline does not see, and the error of the level is that of the stock's thickness, which
a bulk weighing then corrects. What is said of real lengths is put back afterwards.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from statistics import fmean, median
from typing import Final

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.problem import Problem
from fishmeasure.estimation.model import PopulationEstimate
from fishmeasure.estimation.nets import FishInNet, NetWeighing, SampleSettings
from fishmeasure.species import LengthWeight


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoWeight:
    """What a photo says a fish weighs; all sds are relative.

    Attributes
    ----------
    weight_g
        Median of such fish.
    own_sd, photo_sd, sample_sd, stock_sd
        Errors of the fish itself, and those that photo, sample and stock share.
    unseen_sd
        What fish of one outline truly differ by.
    """

    weight_g: float
    own_sd: float
    photo_sd: float
    sample_sd: float
    stock_sd: float
    unseen_sd: float


Key = tuple[int, int]
"""Place of a net in the sample, and of a fish in the net."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """A sample whose fish have sizes for lengths.

    Attributes
    ----------
    nets, published, settings
        For ``estimate_population``.
    line
        As published, for real lengths.
    per_size
        Real length over size, of the fish in the mean, and its relative error.
    lengths_mm
        Real length by size.
    """

    nets: tuple[NetWeighing, ...]
    published: LengthWeight
    settings: SampleSettings
    line: LengthWeight
    per_size: tuple[float, float]
    lengths_mm: Mapping[float, float]


def sized(
    nets: tuple[NetWeighing, ...],
    weights: Mapping[Key, PhotoWeight],
    line: LengthWeight,
    settings: SampleSettings,
) -> Sized | None:
    """Return the sample in sizes; None where no fish was weighed by its outline.

    Fish of which only the length is known are as fat as the others, but for the spread
    between fish.

    Parameters
    ----------
    nets
        With the fish of their photos.
    weights
        Of the complete fish whose outline may be used.
    line
        As published, for fork length.
    settings
        Of the sample; the scale's error of the weights replaces that of lengths.
    """
    if not weights:
        return None
    per_size = {
        key: nets[key[0]].fish[key[1]].fork_length_mm / _size_mm(one.weight_g, line)
        for key, one in weights.items()
    }
    usual = math.exp(fmean(math.log(ratio) for ratio in per_size.values()))
    lengths_mm: dict[float, float] = {}
    new = []
    for at, net in enumerate(nets):
        fish = []
        for place, one in enumerate(net.fish):
            size = _sized_fish(one, weights.get((at, place)), usual, line)
            lengths_mm[size.fork_length_mm] = one.fork_length_mm
            fish.append(size)
        mine = [one.photo_sd for key, one in weights.items() if key[0] == at]
        photo_sd = max(median(mine) / line.b if mine else 0.0, net.photo_relative_sd)
        new.append(replace(net, fish=tuple(fish), photo_relative_sd=photo_sd))
    found = tuple(weights.values())
    stock_sd = median(one.stock_sd for one in found)
    return Sized(
        nets=tuple(new),
        published=replace(
            line,
            relative_sd=_as_far_as_weighed(new, found, line, settings, stock_sd),
            residual_sd_ln=max(median(one.unseen_sd for one in found), 0.001),
            b_sd=0.0,
        ),
        settings=replace(
            settings,
            length_relative_sd=max(
                median(one.sample_sd for one in found) / line.b,
                settings.length_relative_sd,
            ),
        ),
        line=line,
        per_size=(usual, _ratio_sd(nets, weights) / line.b),
        lengths_mm=lengths_mm,
    )


STOCK_DEGREES: Final = 4.0
"""Of freedom of Student's t for how far a stock's thickness is from the species': of
eight lots told by others one was 17 % off, where the rest make 7 %."""


def _as_far_as_weighed(
    nets: list[NetWeighing],
    weights: tuple[PhotoWeight, ...],
    line: LengthWeight,
    settings: SampleSettings,
    stock_sd: float,
) -> float:
    """Return the sd of the stock's factor, wider where the weighings say it is far off.

    Student's t is a normal of unknown variance: the variance most likely, given the
    factor that the weighed nets show, by expectation and maximisation (Lange, Little
    and Taylor 1989, J. Am. Stat. Assoc. 84:881-896, from memory). Without a weighing it
    is as it was.
    """
    unseen = median(one.unseen_sd for one in weights)
    own = median(one.own_sd for one in weights)
    photo = median(one.photo_sd for one in weights)
    factors, precisions = [], []
    for net in nets:
        sizes = [fish.fork_length_mm for fish in net.complete_fish]
        if net.weight_g is None or len(sizes) < 0.5 * net.fish_count:
            continue
        told_g = fmean(line.a_g_cm * (mm / 10.0) ** line.b for mm in sizes)
        dry_g = net.weight_g / (1.0 + settings.drip.fraction)
        variance = (unseen**2 + own**2) / len(sizes) + photo**2 + settings.drip.sd**2
        factors.append(math.log(dry_g / (net.fish_count * told_g)))
        precisions.append(1.0 / variance)
    if not factors:
        return stock_sd
    precision = sum(precisions)
    seen = sum(f * p for f, p in zip(factors, precisions, strict=True)) / precision
    scale = stock_sd**2 * (STOCK_DEGREES - 2.0) / STOCK_DEGREES
    variance = stock_sd**2
    for _ in range(20):
        left = 1.0 / (precision + 1.0 / variance)
        square = (left * precision * seen) ** 2 + left
        variance = (STOCK_DEGREES * scale + square) / (STOCK_DEGREES + 1.0)
    return math.sqrt(variance)


def _size_mm(weight_g: float, line: LengthWeight) -> float:
    return float(10.0 * (weight_g / line.a_g_cm) ** (1.0 / line.b))


def _sized_fish(
    fish: FishInNet, weight: PhotoWeight | None, usual: float, line: LengthWeight
) -> FishInNet:
    if weight is not None:
        size = _size_mm(weight.weight_g, line)
        return replace(fish, fork_length_mm=size, relative_sd=weight.own_sd / line.b)
    unlike = line.residual_sd_ln / line.b
    return replace(
        fish,
        fork_length_mm=fish.fork_length_mm / usual,
        relative_sd=math.hypot(fish.relative_sd, unlike),
    )


def _ratio_sd(
    nets: tuple[NetWeighing, ...], weights: Mapping[Key, PhotoWeight]
) -> float:
    """Return the error of the mean weight at a length that no weighing corrects."""
    photos: dict[tuple[int, int], list[PhotoWeight]] = {}
    for (at, place), one in weights.items():
        photos.setdefault((at, nets[at].fish[place].photo), []).append(one)
    count = len(weights)
    own = sum(one.own_sd**2 for one in weights.values())
    shared = sum((len(of) * of[0].photo_sd) ** 2 for of in photos.values())
    return math.sqrt(own + shared) / count


# --- back to real lengths ---------------------------------------------------------


def with_lengths(estimate: PopulationEstimate, sample: Sized) -> PopulationEstimate:
    """Return the estimate with what it says of lengths in real ones.

    Where a net was weighed the level has the edges' error already, and that of the
    sizes over the lengths is the same again, the other way round.
    """
    ratio, error = sample.per_size
    if estimate.mode != "photo-only":
        error = 0.0
    b = sample.line.b
    line = estimate.line
    per_length = ratio**-b
    return replace(
        estimate,
        fork_length_mean_mm=_times(estimate.fork_length_mean_mm, ratio, error),
        condition_factor=_times(estimate.condition_factor, ratio**-3.0, 3.0 * error),
        line=replace(
            line,
            a_g_cm=_some(line.a_g_cm, per_length, b * error),
            b=Estimate.normal(b, sample.line.b_sd, line.b.level),
            level_ratio=_some(line.level_ratio, per_length, b * error),
            at_length_mm=line.at_length_mm * ratio,
        ),
        doubtful_lengths=tuple(
            replace(
                one,
                fork_length_mm=sample.lengths_mm.get(
                    one.fork_length_mm, one.fork_length_mm * ratio
                ),
            )
            for one in estimate.doubtful_lengths
        ),
        problems=tuple(
            _by_outlines(sample.published.relative_sd)
            if problem.code == "photo-only"
            else problem
            for problem in estimate.problems
        ),
    )


def _by_outlines(relative_sd: float) -> Problem:
    """Return what is said of a sample that no net of was weighed."""
    return Problem.of("photo-only", case="outlines", relative_sd=relative_sd)


def _times(figure: Estimate | None, factor: float, error: float) -> Estimate | None:
    return None if figure is None else _some(figure, factor, error)


def _some(figure: Estimate, factor: float, error: float) -> Estimate:
    """Return a figure times a factor that errs, its interval in the logarithm."""
    wider = Estimate.normal(0.0, error, figure.level).high
    down = math.log(figure.value / figure.low) if figure.low > 0.0 else 0.0
    up = math.log(figure.high / figure.value)
    value = figure.value * factor
    return Estimate(
        value=value,
        sd=value * math.hypot(figure.sd / figure.value, error),
        low=value * math.exp(-math.hypot(down, wider)) if figure.low > 0.0 else 0.0,
        high=value * math.exp(math.hypot(up, wider)),
        level=figure.level,
    )
