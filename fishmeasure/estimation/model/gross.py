"""Which measured lengths are gross errors, judged by the photo, not by being far out.

A fish is of one of three kinds: usual for its net, far out though rightly measured (a
runt, a fish of a second group, a long tail), or grossly wrong (an outline that took in
a neighbour's tail or lost the head). The last two look alike; what tells them apart is
how doubtful the photo holds the fish to be (``FishInNet.gross_probability``). So a fish
that the photo is sure of stays a fish, however far out, and its share of far-out fish
is learned from those that are measured surely.

Found by EM (Dempster, Laird & Rubin 1977) for a few shares of far-out fish and a few
factors on the photos' doubts, averaged by their evidence.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit, logit, logsumexp

from fishmeasure.base.arrays import FloatArray

IntArray = NDArray[np.intp]

# sd of ln length of a gross error, beside the fish's own spread. It spans a third of
# the fish lost and a half too much; seen with wrongly outlined fish in simulation.
GROSS_SD: Final = 0.15
# Shares of fish far out though rightly measured, and their prior weights: common
# practice, no source. Never 0, or else being far out alone would condemn a fish.
_FAR_OUT: Final = np.array([0.02, 0.06, 0.15])
_FAR_OUT_PRIOR: Final = np.array([0.4, 0.35, 0.25])
# The odds of all doubts of a sample may be off by a factor: a photo does not know how
# hard the others of its day are. Common practice, no source.
_ODDS_FACTORS: Final = np.array([1.0, 3.0, 8.0])
_ODDS_PRIOR: Final = np.array([0.5, 0.3, 0.2])
# How far a photo's mean may be from the sample's before its fish look wrong (the nets'
# own spread is fitted later).
LOCATING_SD: Final = 0.08
# Spread of ln length within a net that two fish's worth of prior say (see ``grid``).
_USUAL_SPREAD: Final = 0.08
_PRIOR_FISH: Final = 2.0
_STEPS: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Groups:
    """Fish in photos: where each photo's fish start, and how they are measured."""

    x: FloatArray
    error_variance: FloatArray
    start: IntArray
    photo_variance: FloatArray
    doubt: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Judged:
    """(n,) probability that each length is grossly wrong; sd of ln length in a net."""

    gross: FloatArray
    sigma: float


def find_gross_errors(fish: Groups) -> Judged:
    """Return how likely each fish's length is grossly wrong."""
    far, factor = (grid.ravel() for grid in np.meshgrid(_FAR_OUT, _ODDS_FACTORS))
    prior = np.log(np.outer(_ODDS_PRIOR, _FAR_OUT_PRIOR).ravel())
    gross_prior = expit(logit(fish.doubt) + np.log(factor)[:, None])
    far_prior = (1.0 - gross_prior) * far[:, None]
    core_prior = (1.0 - gross_prior) * (1.0 - far[:, None])
    owner = np.repeat(
        np.arange(len(fish.start)), np.diff(np.r_[fish.start, len(fish.x)])
    )
    location = np.tile(_middle(fish), (len(far), 1))
    sigma2 = np.full((len(far), 1), _first_spread(fish, location[0][owner]) ** 2)
    gross = gross_prior
    log_density = np.zeros_like(gross)
    for _ in range(_STEPS):
        core = sigma2 + fish.error_variance
        squared = (fish.x - location[:, owner]) ** 2
        log_core = -0.5 * np.log(core) - 0.5 * squared / core
        wide = core + GROSS_SD**2
        log_wide = -0.5 * np.log(wide) - 0.5 * squared / wide
        log_real = np.logaddexp(
            np.log(core_prior) + log_core, np.log(far_prior) + log_wide
        )
        log_gross = np.log(gross_prior) + log_wide
        gross = expit(log_gross - log_real)
        log_density = np.logaddexp(log_real, log_gross)
        location, kept = _locations(fish, (1.0 - gross) / core)
        squared = (fish.x - location[:, owner]) ** 2
        free = (1.0 - gross).sum(axis=1) - kept
        excess = ((1.0 - gross) * (squared - fish.error_variance)).sum(axis=1)
        total = np.maximum(excess, 0.0) + _PRIOR_FISH * _USUAL_SPREAD**2
        sigma2 = (total / (np.maximum(free, 0.0) + _PRIOR_FISH))[:, None]
    evidence = prior + log_density.sum(axis=1)
    share = np.exp(evidence - logsumexp(evidence))
    return Judged(gross=share @ gross, sigma=float(np.sqrt(share @ sigma2[:, 0])))


def _middle(fish: Groups) -> FloatArray:
    """Return (p,) medians of the photos, drawn towards the sample's."""
    parts = np.split(fish.x, fish.start[1:])
    medians = np.array([np.median(part) for part in parts])
    counts = np.array([len(part) for part in parts])
    # 0.1 is a typical sd of ln length within a net (weight CV 30 %).
    keep = LOCATING_SD**2 / (LOCATING_SD**2 + 0.1**2 / counts)
    start: FloatArray = keep * medians + (1.0 - keep) * np.median(fish.x)
    return start


def _first_spread(fish: Groups, location: FloatArray) -> float:
    spread = 1.4826 * float(np.median(np.abs(fish.x - location)))
    return max(spread, 0.25 * _USUAL_SPREAD)


def _locations(fish: Groups, weight: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return (c, p) photos' means drawn towards the sample's, and what they fit."""
    precision = np.maximum(np.add.reduceat(weight, fish.start, axis=1), 1e-9)
    mean = np.add.reduceat(weight * fish.x, fish.start, axis=1) / precision
    variance = 1.0 / precision + fish.photo_variance
    between = 1.0 / (variance + LOCATING_SD**2)
    centre = np.sum(between * mean, axis=1, keepdims=True) / np.sum(
        between, axis=1, keepdims=True
    )
    keep = LOCATING_SD**2 / (LOCATING_SD**2 + variance)
    fitted = keep.sum(axis=1) + (1.0 - keep.mean(axis=1))
    return keep * mean + (1.0 - keep) * centre, fitted
