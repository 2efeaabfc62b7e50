"""What one net says: its weight as a sum of its fish, and its information."""

from dataclasses import dataclass

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model.grid import TAU_SCALE
from fishmeasure.estimation.model.lengths import GROSS_SD, Lengths, NetMeans
from fishmeasure.estimation.model.model import (
    SOUND,
    Information,
    MeasuredSums,
    NetState,
    SampleModel,
)
from fishmeasure.estimation.nets import NetWeighing, SampleSettings


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WeightTerm:
    """ln of a net's true weight is alpha + ``constant`` + ``slope`` m + noise.

    constant and variance (s, 1, k, b), slope (s, 1, 1, b).
    """

    constant: FloatArray
    slope: FloatArray
    variance: FloatArray


def measured_sums(lengths: Lengths, means: NetMeans, b: FloatArray) -> MeasuredSums:
    """Return the sums over measured fish for each sigma and b."""
    at = _linearised_at(means)
    spread = means.sigma[:, None] ** 2
    # A fish whose length is no gross error keeps ``clean_gain`` of its departure
    # from the net's mean; a gross one keeps less.
    noise = lengths.error_variance
    clean_gain = spread / (spread + noise)
    gross_gain = spread / (spread + noise + GROSS_SD**2)
    net = lengths.net_of_fish
    departure = lengths.x - at[:, net]
    parts = []
    for gain, probability in (
        (clean_gain, lengths.counts * (1.0 - lengths.gross)),
        (gross_gain, lengths.counts * lengths.gross),
    ):
        left = spread * (1.0 - gain)
        centre = at[:, net] + gain * departure
        parts.append((gain, probability, left, centre))
    slope = b[None, :, None]
    expected = np.zeros((len(means.sigma), len(b), len(net)))
    second = np.zeros_like(expected)
    mean_slope = np.zeros_like(expected)
    photo_slope = np.zeros_like(expected)
    for gain, probability, left, centre in parts:
        growth = np.exp(slope * centre[:, None, :] + 0.5 * slope**2 * left[:, None, :])
        weighted = probability * growth
        expected += weighted
        second += weighted * growth * np.exp(slope**2 * left[:, None, :])
        mean_slope += slope * weighted * (1.0 - gain[:, None, :])
        photo_slope += slope * weighted * gain[:, None, :]
    fish_start = lengths.photo_start[lengths.net_start]
    return MeasuredSums(
        at=at,
        expected=np.add.reduceat(expected, fish_start, axis=2),
        second=np.add.reduceat(second, fish_start, axis=2),
        squared=np.add.reduceat(expected**2, fish_start, axis=2),
        mean_slope=np.add.reduceat(mean_slope, fish_start, axis=2),
        photo_slope=np.add.reduceat(photo_slope, lengths.photo_start, axis=2),
    )


def _linearised_at(means: NetMeans) -> FloatArray:
    """Return (s, j) net means drawn towards the sample's, to linearise about."""
    weight = 1.0 / (means.variance + TAU_SCALE**2)
    centre = np.sum(weight * means.mean, axis=1, keepdims=True) / np.sum(
        weight, axis=1, keepdims=True
    )
    keep = TAU_SCALE**2 / (TAU_SCALE**2 + means.variance)
    at: FloatArray = keep * means.mean + (1.0 - keep) * centre
    return at


def weight_term(model: SampleModel, index: int, state: NetState = SOUND) -> WeightTerm:
    """Return what a net's true weight is made of, under a supposition."""
    grid = model.grid
    b = grid.b[None, None, None, :]
    sigma = grid.sigma[:, None, None, None]
    kappa = grid.kappa[None, None, :, None]
    net = model.nets[index]
    count = max(net.fish_count + state.count_delta, 1)
    j = model.measured_index.get(index)
    if j is None or model.sums is None:
        spread = (b * sigma) ** 2 + kappa**2 + model.table.spread
        log_variance = np.log1p(np.expm1(spread) / count)
        log_mean = 0.5 * ((b * sigma) ** 2 + kappa**2) + model.table.single
        return WeightTerm(
            constant=np.log(count) + log_mean - 0.5 * log_variance,
            slope=np.broadcast_to(b, (len(grid.sigma), 1, 1, len(grid.b))),
            variance=log_variance,
        )
    sums = model.sums
    measured = len(net.complete_fish)
    missing = max(count - measured, 0)
    # More measured than the count: one of them was not in the net when weighed.
    shrink = min(count / measured, 1.0)

    def pick(values: FloatArray) -> FloatArray:
        return values[:, None, None, :, j]

    at = sums.at[:, j][:, None, None, None]
    other = np.exp(b * at + 0.5 * b**2 * sigma**2 + model.table.single)
    other_second = other**2 * np.exp((b * sigma) ** 2 + model.table.spread)
    expected = shrink * pick(sums.expected) + missing * other
    second = shrink * pick(sums.second) + missing * other_second
    squared = shrink * pick(sums.squared) + missing * other**2
    relative = (np.exp(kappa**2) * second - squared) / expected**2
    log_variance = np.log1p(np.maximum(relative, 0.0))
    slope = (shrink * pick(sums.mean_slope) + missing * b * other) / expected
    constant = np.log(expected) + 0.5 * kappa**2 - 0.5 * log_variance - slope * at
    return _with_photo_errors(
        model,
        j,
        shrink / expected,
        WeightTerm(constant=constant, slope=slope, variance=log_variance),
    )


def _with_photo_errors(
    model: SampleModel, j: int, per_weight: FloatArray, term: WeightTerm
) -> WeightTerm:
    """Return the term with the common errors of the net's photos integrated out.

    A photo's error, given its fish, departs from 0 by ``photo_gain`` times its
    mean's departure from the net's.
    """
    if model.sums is None or model.means is None:
        return term
    constant, slope, variance = term.constant, term.slope, term.variance
    photos = model.photos_of_net[j]
    for p in range(photos.start, photos.stop):
        on_photo = model.sums.photo_slope[:, None, None, :, p] * per_weight
        gain, photo_mean, rest = (
            values[:, p][:, None, None, None]
            for values in (
                model.means.photo_gain,
                model.means.photo_mean,
                model.means.photo_rest,
            )
        )
        constant = constant - on_photo * gain * photo_mean
        slope = slope + on_photo * gain
        variance = variance + on_photo**2 * rest
    return WeightTerm(constant=constant, slope=slope, variance=variance)


def net_information(
    model: SampleModel, index: int, state: NetState = SOUND
) -> Information:
    """Return what one net says of (mu, eta), its own departure integrated out."""
    between = model.grid.tau[None, :, None, None] ** 2 + state.mean_sd**2
    net, weight = model.nets[index], model.nets[index].weight_g
    j = model.measured_index.get(index)
    seen = None
    if j is not None and model.means is not None:
        seen = _Seen(
            mean=model.means.mean[:, j][:, None, None, None],
            variance=model.means.variance[:, j][:, None, None, None],
        )
    if weight is None:
        return _nothing() if seen is None else _from_lengths(seen, between)
    term = weight_term(model, index, state)
    weighed = _Weighed(
        z=np.log(weight) - term.constant,
        slope=term.slope,
        noise=term.variance + weighing_variance(net, weight, model.settings, state),
    )
    if seen is None:
        return _from_weight(weighed, between)
    return _from_both(seen, weighed, between)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Seen:
    """A net's mean as its lengths tell it: m + N(0, variance)."""

    mean: FloatArray
    variance: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Weighed:
    """A net's ln weight less its constant: eta + slope m + N(0, noise)."""

    z: FloatArray
    slope: FloatArray
    noise: FloatArray


def _from_lengths(seen: _Seen, between: FloatArray) -> Information:
    precision = 1.0 / (between + seen.variance)
    zero = np.zeros(1)
    return Information(
        mm=precision,
        me=zero,
        ee=zero,
        m=precision * seen.mean,
        e=zero,
        log_evidence=0.5 * np.log(precision / (2 * np.pi))
        - 0.5 * precision * seen.mean**2,
    )


def _from_weight(weighed: _Weighed, between: FloatArray) -> Information:
    slope, z = weighed.slope, weighed.z
    precision = 1.0 / (slope**2 * between + weighed.noise)
    return Information(
        mm=slope**2 * precision,
        me=slope * precision,
        ee=precision,
        m=slope * precision * z,
        e=precision * z,
        log_evidence=0.5 * np.log(precision / (2 * np.pi)) - 0.5 * precision * z**2,
    )


def _from_both(seen: _Seen, weighed: _Weighed, between: FloatArray) -> Information:
    slope, z = weighed.slope, weighed.z
    first = between + seen.variance
    both = slope * between
    last = slope**2 * between + weighed.noise
    determinant = first * last - both**2
    p11, p12, p22 = last / determinant, -both / determinant, first / determinant
    r1, r2 = p11 * seen.mean + p12 * z, p12 * seen.mean + p22 * z
    return Information(
        mm=p11 + 2.0 * slope * p12 + slope**2 * p22,
        me=p12 + slope * p22,
        ee=p22,
        m=r1 + slope * r2,
        e=r2,
        log_evidence=-np.log(2 * np.pi)
        - 0.5 * np.log(determinant)
        - 0.5 * (seen.mean * r1 + z * r2),
    )


def _nothing() -> Information:
    zero = np.zeros(1)
    return Information(mm=zero, me=zero, ee=zero, m=zero, e=zero, log_evidence=zero)


def weighing_variance(
    net: NetWeighing, weight_g: float, settings: SampleSettings, state: NetState
) -> float:
    """Return the variance of ln weight from scale, drip and an estimated count."""
    # A weight below the scale's error says nothing; more sds would say no less.
    reading = min(net.weight_sd_g(settings.scale) / weight_g, 2.0)
    # A net without photos can't show an ordinary miscount, so that is mere noise.
    miscount = 0.0 if net.fish else net.miscount_probability
    counted = np.hypot(net.count_sd, np.sqrt(miscount)) / net.fish_count
    return float(reading**2 + settings.drip.net_sd**2 + counted**2 + state.weight_sd**2)
