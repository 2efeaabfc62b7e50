"""Two nets whose photos were exchanged: each net's weight fits the other's lengths.

Two pairings of weights with photos are held against each other by their likelihoods.
Under each, ln of a net's weight over that of its lengths is the stock's level and the
errors of both, with Student's tails: a length or a weight that is grossly wrong speaks
for neither. The level is integrated out, so two nets suffice. How many fish a photo
shows speaks as well.
"""

import math
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
from fishmeasure.estimation.model.grid import B_BATCH_SD
from fishmeasure.estimation.nets import NetWeighing, SampleSettings
from fishmeasure.species import LengthWeight

# Tails of a net's weight over its lengths: some nets hold a gross error of a third of a
# length, or a count that is off by one. Common practice, no source.
_DEGREES: Final = 4.0
# Of how many fish a photo shows: one in 20 lies hidden, a photo of a part of the net is
# as likely as not where it shows fewer. Common practice, no source.
_HIDDEN: Final = 0.05
_PART: Final = 0.3
_TOO_MANY: Final = 0.02
# Spread of ln length within a net where the nets do not tell it (see ``model.grid``).
_USUAL_SPREAD: Final = 0.08
_STEPS: Final = np.linspace(-4.0, 4.0, 161)  # of the level, in its sd


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Nets:
    """Of each net of both kinds: ln mean weight, and ln mean weight of its lengths.

    ``of_weight`` and ``of_lengths`` are the variances of their errors.
    """

    weight: FloatArray
    of_weight: FloatArray
    lengths: FloatArray
    of_lengths: FloatArray
    counted: tuple[int, ...]
    seen: tuple[int, ...]


def exchanged_photos(
    nets: tuple[NetWeighing, ...], line: LengthWeight, settings: SampleSettings
) -> list[Problem]:
    """Return a problem for the two nets whose photos are likelier exchanged than not.

    Parameters
    ----------
    nets
        With the fish of their photos; lengths, or sizes that photos weigh them by.
    line
        As published, for those lengths or sizes.
    settings
        Of the sample.
    """
    both = [net for net in nets if net.weight_g and net.complete_fish]
    if len(both) < 2:
        return []
    known = _known(both, line, settings)
    levels = math.hypot(line.relative_sd, line.b * settings.length_relative_sd) * _STEPS
    terms = np.stack([_log_fit(known, levels, at, at) for at in range(len(both))])
    fits = {
        (one, other): _log_sum(
            terms.sum(axis=0)
            - terms[one]
            - terms[other]
            + _log_fit(known, levels, one, other)
            + _log_fit(known, levels, other, one)
        )
        for one in range(len(both))
        for other in range(one + 1, min(one + 1 + NEARBY, len(both)))
    }
    prior = MIXED_PRIOR * len(both) / len(fits) / 2.0
    slips = [
        Slip(name="", prior=prior, log_likelihood=fit, harm=MIXED_HARM)
        for fit in fits.values()
    ]
    if not judge(_log_sum(terms.sum(axis=0)), [], slips).asks:
        return []
    one, other = max(fits, key=lambda pair: fits[pair])
    return [_said(known, both, one, other)]


def _said(known: _Nets, nets: list[NetWeighing], one: int, other: int) -> Problem:
    """Return the problem, with how far either net is off its photo."""
    off = known.weight - known.lengths
    usual = 0.5 * float(off[one] + off[other])
    heavy = float(off[one]) > usual
    apart = abs(float(off[one]) - usual)
    more, less = math.expm1(apart), -math.expm1(-apart)
    return Problem.of(
        "photos-exchanged",
        case="heavy" if heavy else "light",
        net=nets[one].label,
        other=nets[other].label,
        net_off=more if heavy else less,
        other_off=less if heavy else more,
    )


def _known(
    nets: list[NetWeighing], line: LengthWeight, settings: SampleSettings
) -> _Nets:
    x = [np.log([f.fork_length_mm / 10.0 for f in net.complete_fish]) for net in nets]
    squares = sum(float(np.sum((each - each.mean()) ** 2)) for each in x)
    free = sum(len(each) - 1 for each in x)
    spread2 = (squares + 2.0 * _USUAL_SPREAD**2) / (free + 2.0)
    b2 = line.b**2 + B_BATCH_SD**2
    weight, of_weight, lengths, of_lengths = [], [], [], []
    for net, each in zip(nets, x, strict=True):
        grams, count, measured = net.weight_g or 0.0, net.fish_count, len(each)
        reading = min(net.weight_sd_g(settings.scale) / grams, 2.0)
        counted = math.hypot(net.count_sd, math.sqrt(net.miscount_probability)) / count
        weight.append(math.log(grams / count) - math.log1p(settings.drip.fraction))
        of_weight.append(
            reading**2
            + settings.drip.net_sd**2
            + counted**2
            + line.residual_sd_ln**2 / count
        )
        lengths.append(
            math.log(line.a_g_cm) + float(logsumexp(line.b * each) - math.log(measured))
        )
        own = float(np.mean([f.relative_sd**2 for f in net.complete_fish]))
        left = max(1.0 - measured / count, 0.0)
        of_lengths.append(
            b2 * ((own + left * spread2) / measured + net.photo_relative_sd**2)
        )
    return _Nets(
        weight=np.array(weight),
        of_weight=np.array(of_weight),
        lengths=np.array(lengths),
        of_lengths=np.array(of_lengths),
        counted=tuple(net.fish_count for net in nets),
        seen=tuple(len(net.fish) for net in nets),
    )


def _log_fit(nets: _Nets, levels: FloatArray, net: int, photo: int) -> FloatArray:
    """Return ln of the likelihood, at each level, of a net's weight with a photo."""
    sd = math.sqrt(float(nets.of_weight[net] + nets.of_lengths[photo]))
    z = (nets.weight[net] - nets.lengths[photo] - levels) / sd
    tail: FloatArray = -0.5 * (_DEGREES + 1.0) * np.log1p(z**2 / _DEGREES)
    return tail - math.log(sd) + _log_shown(nets.seen[photo], nets.counted[net])


def _log_sum(terms: FloatArray) -> float:
    """Return the sum over the levels, normal about the published one."""
    return float(logsumexp(terms - 0.5 * _STEPS**2))


def _log_shown(seen: int, count: int) -> float:
    """Return ln of how likely a photo of so many fish shows so many."""
    if seen > count:
        more = seen - count
        return math.log(_TOO_MANY) - more * math.log(2.0)
    hidden = count - seen
    whole = math.comb(count, hidden) * _HIDDEN**hidden * (1.0 - _HIDDEN) ** seen
    return math.log((1.0 - _PART) * whole + _PART / (count + 1))
