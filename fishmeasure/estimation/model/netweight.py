"""What a net's weight says of the doubtful lengths in it.

With a length grossly wrong, the fish of a net would weigh more or less than they do. So
the odds of each doubt are multiplied by how much better the net's weight is explained
if the fish is of its net's usual size than if it is as long as measured, all else being
as likely as it is (the mean-field step of variational Bayes, Bishop 2006, 10.1). The
level of weight at length is that of the other nets, or the published one where there
are none.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.special import expit, logit

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model.lengths import IntArray, Lengths
from fishmeasure.estimation.nets import NetWeighing, SampleSettings
from fishmeasure.species import LengthWeight

_ROUNDS: Final = 3
# A fish of a miscounted net, a forgotten tare: the weight is no witness beyond this.
_MOST_LOG_ODDS: Final = 4.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Fish:
    """Expected weights of the fish, in those of the reference length, (n,)."""

    measured: FloatArray
    usual: FloatArray
    net: IntArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Weighed:
    """Of each measured net (j,): ln weight, its variance, fish not measured.

    ``published`` is ln of the published weight at the reference length.
    """

    log_weight: FloatArray
    variance: FloatArray
    missing: FloatArray
    known: FloatArray
    published: float


def learn_from_weights(
    lengths: Lengths,
    nets: tuple[NetWeighing, ...],
    line: LengthWeight,
    settings: SampleSettings,
) -> Lengths:
    """Return the lengths with their doubts as the nets' weights leave them."""
    weighed = _weighed(lengths, nets, line, settings)
    if not weighed.known.any() or len(lengths.x) < 2:
        return lengths
    b, spread = line.b, lengths.first_sigma**2
    net = lengths.net_of_fish
    first = np.clip(lengths.gross, 1e-9, 1.0 - 1e-9)
    gross = first
    count = len(lengths.net_ids)
    for _ in range(_ROUNDS):
        sound = np.maximum(1.0 - gross, 1e-3)
        mean = np.bincount(net, sound * lengths.x, count) / np.bincount(net, sound)
        keep = spread / (spread + lengths.error_variance)
        middle = mean[net]
        fish = _Fish(
            measured=np.exp(
                b * (middle + keep * (lengths.x - middle))
                + 0.5 * b**2 * spread * (1.0 - keep)
            ),
            usual=np.exp(b * middle + 0.5 * b**2 * spread),
            net=net,
        )
        said = _log_odds(fish, gross, weighed, line)
        gross = expit(logit(first) + np.clip(said, -_MOST_LOG_ODDS, _MOST_LOG_ODDS))
    return replace(lengths, gross=gross)


def _weighed(
    lengths: Lengths,
    nets: tuple[NetWeighing, ...],
    line: LengthWeight,
    settings: SampleSettings,
) -> _Weighed:
    of_nets = [nets[int(index)] for index in lengths.net_ids]
    measured = np.bincount(lengths.net_of_fish, minlength=len(of_nets))
    counts = np.array([float(net.fish_count) for net in of_nets])
    known = np.array([net.weight_g is not None for net in of_nets])
    weights = np.array([net.weight_g or 1.0 for net in of_nets])
    reading = np.array([net.weight_sd_g(settings.scale) for net in of_nets]) / weights
    # One fish more or less is another explanation of a weight that is off.
    miscount = np.array([net.miscount_probability for net in of_nets]) / counts**2
    variance = (
        np.minimum(reading, 2.0) ** 2
        + settings.drip.net_sd**2
        + line.residual_sd_ln**2 / counts
        + miscount
        + (np.array([net.count_sd for net in of_nets]) / counts) ** 2
    )
    return _Weighed(
        log_weight=np.log(weights),
        variance=variance,
        missing=np.maximum(counts - measured, 0.0),
        known=known,
        published=float(
            np.log(line.a_g_cm)
            + line.b * np.log(lengths.reference_mm / 10.0)
            + np.log1p(settings.drip.fraction)
        ),
    )


def _log_odds(
    fish: _Fish, gross: FloatArray, weighed: _Weighed, line: LengthWeight
) -> FloatArray:
    """Return the log odds that each net's weight gives for its fish's doubts."""
    count = len(weighed.known)
    expected = (1.0 - gross) * fish.measured + gross * fish.usual
    doubtful = gross * (1.0 - gross) * (fish.measured - fish.usual) ** 2
    fish_sum = np.bincount(fish.net, expected, count)
    other = np.bincount(fish.net, fish.usual, count) / np.bincount(fish.net)
    total = fish_sum + weighed.missing * other
    missing = weighed.missing * other**2 * 0.1  # weight CV of about 30 %
    variance = (
        weighed.variance + (np.bincount(fish.net, doubtful, count) + missing) / total**2
    )
    ratio = weighed.log_weight - np.log(total)
    precision = np.where(weighed.known, 1.0 / variance, 0.0)
    published = 1.0 / line.relative_sd**2
    others = precision.sum() - precision + published
    level = ((precision * ratio).sum() - precision * ratio) / others
    level = level + published * weighed.published / others
    level_variance = 1.0 / others
    net = fish.net
    rest = total[net] - expected
    own = variance[net] - doubtful / total[net] ** 2 + level_variance[net]
    off = weighed.log_weight[net] - level[net]
    as_measured = off - np.log(rest + fish.measured)
    as_usual = off - np.log(rest + fish.usual)
    said = 0.5 * (as_measured**2 - as_usual**2) / own
    return np.where(weighed.known[net], said, 0.0)
