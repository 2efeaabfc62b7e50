"""Measured lengths to net means, whatever the shape of the sizes.

ln length of a fish is its net's mean plus a departure of sd sigma, its own error
N(0, s^2), and, with the probability that ``gross`` gives it, a gross error. Each fish
counts with the probability that it has none.

A net's mean is the mean of its fish, so it needs no shape. How well the lengths tell
sigma depends on it: the log likelihood of normal fish is multiplied by ``temper`` (see
``shape``), 1 for normal fish and less for long tails, whose spread few fish show.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.heaped import inverse_weights, seen_slope
from fishmeasure.estimation.model.gross import (
    GROSS_SD,
    Groups,
    IntArray,
    find_gross_errors,
)
from fishmeasure.estimation.nets import NetWeighing

__all__ = [
    "GROSS_SD",
    "IntArray",
    "Lengths",
    "NetMeans",
    "collect_lengths",
    "net_means",
]

# A photo whose fish are all doubtful still has a place.
_LEAST_SOUND: Final = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lengths:
    """The complete fish of all nets, sorted by net and photo.

    Attributes
    ----------
    x
        (n,) ln(length / reference length).
    error_variance
        (n,) of x, the fish's own.
    photo_start, photo_net
        (p,) index of each photo's first fish; index of its net among ``net_ids``.
    photo_variance
        (p,) common error of the photo's fish.
    net_start
        (j,) index of each measured net's first photo.
    net_ids
        (j,) index of each measured net in the sample.
    reference_mm
        Length at which x is 0.
    gross
        (n,) probability that a length is grossly wrong.
    first_sigma
        A first figure of the sd of x within a net.
    counts
        (n,) how much each fish counts: not alike in a heap, see ``estimation.heaped``.
    """

    x: FloatArray
    error_variance: FloatArray
    photo_start: IntArray
    photo_net: IntArray
    photo_variance: FloatArray
    net_start: IntArray
    net_ids: IntArray
    reference_mm: float
    gross: FloatArray
    first_sigma: float
    counts: FloatArray

    @property
    def photo_of_fish(self) -> IntArray:
        """(n,) index of each fish's photo."""
        return _owners(self.photo_start, len(self.x))

    @property
    def net_of_fish(self) -> IntArray:
        """(n,) index of each fish's net among ``net_ids``."""
        nets: IntArray = self.photo_net[self.photo_of_fish]
        return nets


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NetMeans:
    """What the lengths say of each measured net, for each sigma (first axis s).

    Attributes
    ----------
    sigma
        (s,) within-net sd of ln length.
    mean, variance
        (s, j) normal likelihood of each net's mean of x.
    photo_gain, photo_mean
        (s, p) how much of a photo's departure from its net's mean is taken for the
        photo's own error, and that photo's mean.
    photo_rest
        (s, p) variance of the photo's error that is left.
    log_evidence
        (s,) of the lengths within nets.
    """

    sigma: FloatArray
    mean: FloatArray
    variance: FloatArray
    photo_gain: FloatArray
    photo_mean: FloatArray
    photo_rest: FloatArray
    log_evidence: FloatArray

    def sliced(self, s: int) -> "NetMeans":
        """Return the same for one sigma."""
        return NetMeans(
            sigma=self.sigma[[s]],
            mean=self.mean[[s]],
            variance=self.variance[[s]],
            photo_gain=self.photo_gain[[s]],
            photo_mean=self.photo_mean[[s]],
            photo_rest=self.photo_rest[[s]],
            log_evidence=self.log_evidence[[s]],
        )


def collect_lengths(nets: tuple[NetWeighing, ...]) -> Lengths | None:
    """Return the complete fish of all nets; None if there is none."""
    rows = sorted(
        (
            index,
            fish.photo,
            fish.fork_length_mm,
            fish.relative_sd,
            fish.gross_probability,
        )
        for index, net in enumerate(nets)
        for fish in net.complete_fish
    )
    if not rows:
        return None
    table = np.array(rows)
    log_length = np.log(table[:, 2])
    reference = float(np.median(log_length))
    net_of, photo_of = table[:, 0].astype(int), table[:, 1].astype(int)
    new_photo = np.r_[True, (np.diff(net_of) != 0) | (np.diff(photo_of) != 0)]
    photo_start = np.flatnonzero(new_photo)
    photo_net_id = net_of[photo_start]
    net_start = np.flatnonzero(np.r_[True, np.diff(photo_net_id) != 0])
    photo_variance = np.array([nets[i].photo_relative_sd ** 2 for i in photo_net_id])
    found = find_gross_errors(
        Groups(
            x=log_length - reference,
            error_variance=table[:, 3] ** 2,
            start=photo_start,
            photo_variance=photo_variance,
            doubt=np.clip(table[:, 4], 1e-6, 1.0 - 1e-6),
        )
    )
    counts, of_heaps = _of_heaps(nets, net_of, log_length - reference, found.sigma)
    return Lengths(
        x=log_length - reference,
        error_variance=table[:, 3] ** 2,
        photo_start=photo_start,
        photo_net=_owners(net_start, len(photo_start)),
        photo_variance=photo_variance + of_heaps[photo_start],
        net_start=net_start,
        net_ids=photo_net_id[net_start],
        reference_mm=float(np.exp(reference)),
        gross=found.gross,
        first_sigma=found.sigma,
        counts=counts,
    )


def _of_heaps(
    nets: tuple[NetWeighing, ...], net_of: IntArray, x: FloatArray, sigma: float
) -> tuple[FloatArray, FloatArray]:
    """Return how much each fish counts, and what its net's mean errs by for that."""
    counts, variance = np.ones(len(x)), np.zeros(len(x))
    for index in np.unique(net_of):
        net, mine = nets[int(index)], net_of == index
        if net.heap:
            slope, slope_sd = seen_slope(int(mine.sum()), net.fish_count)
            counts[mine] = inverse_weights(x[mine], slope)
            variance[mine] = (slope_sd * sigma**2) ** 2
    return counts, variance


def net_means(lengths: Lengths, sigma: FloatArray, *, temper: float = 1.0) -> NetMeans:
    """Return the normal likelihoods of the nets' means for each of ``sigma``.

    ``temper`` multiplies what the lengths say of sigma, not what of the means.
    """
    photo_mean, photo_variance, log_evidence = _photo_means(lengths, sigma)
    total = photo_variance + lengths.photo_variance
    mean, variance = _combine(photo_mean, total, lengths.net_start)
    spread = photo_mean - mean[:, lengths.photo_net]
    log_evidence = log_evidence + np.sum(
        0.5 * np.log(photo_variance / total) - 0.5 * spread**2 / total, axis=1
    )
    log_evidence = log_evidence + 0.5 * np.sum(np.log(2 * np.pi * variance), axis=1)
    gain = lengths.photo_variance / total
    return NetMeans(
        sigma=sigma,
        mean=mean,
        variance=variance,
        photo_gain=gain,
        photo_mean=photo_mean,
        photo_rest=(1.0 - gain) * lengths.photo_variance,
        log_evidence=temper * log_evidence,
    )


def _photo_means(
    lengths: Lengths, sigma: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return mean, variance (s, p) and log evidence (s,) of the photos' fish.

    The likelihood of a photo's mean m is exp(evidence - (m - mean)^2 / (2 variance)).
    """
    sound = np.maximum(1.0 - lengths.gross, _LEAST_SOUND)
    variance = sigma[:, None] ** 2 + lengths.error_variance
    weight = lengths.counts * sound / variance
    start = lengths.photo_start
    precision = np.add.reduceat(weight, start, axis=1)
    mean = np.add.reduceat(weight * lengths.x, start, axis=1) / precision
    squared = (lengths.x - mean[:, lengths.photo_of_fish]) ** 2
    log_density = -0.5 * (sound * np.log(2 * np.pi * variance) + weight * squared)
    return mean, 1.0 / precision, log_density.sum(axis=1)


def _combine(
    mean: FloatArray, variance: FloatArray, starts: IntArray
) -> tuple[FloatArray, FloatArray]:
    """Return (s, j) precision-weighted means of groups of photos."""
    precision = np.add.reduceat(1.0 / variance, starts, axis=1)
    total = np.add.reduceat(mean / variance, starts, axis=1)
    return total / precision, 1.0 / precision


def _owners(starts: IntArray, count: int) -> IntArray:
    """Return which group each of ``count`` sorted things belongs to."""
    return np.repeat(np.arange(len(starts)), np.diff(np.r_[starts, count]))
