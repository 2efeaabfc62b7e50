"""The CV of the very fish in a unit, some of which were measured.

A fish that was measured has its own weight but for the errors of its length and its
condition; the others are drawn from the population (the predictive view of finite
populations, Royall 1970). So a census keeps those two errors alone, and its CV is that
of its own fish, not of the population they came from.

All weights are in those of a fish of the reference length, so that the stock's level
drops out.
"""

from dataclasses import dataclass

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model.lengths import Lengths
from fishmeasure.estimation.model.model import SampleModel
from fishmeasure.estimation.model.posterior import Posterior


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Sums:
    """Sums over fish of E w^k and of products of such, at each posterior point.

    ``count`` is how many fish they are of; ``product[i]`` of E w^i E w^k.
    """

    count: FloatArray
    first: FloatArray
    second: FloatArray
    third: FloatArray
    fourth: FloatArray
    first_first: FloatArray
    first_second: FloatArray
    second_second: FloatArray

    def plus(self, other: "_Sums") -> "_Sums":
        """Return the sums over both kinds of fish."""
        return _Sums(
            **{
                name: getattr(self, name) + getattr(other, name)
                for name in _Sums.__slots__
            }
        )


def finite_cv_points(
    model: SampleModel, posterior: Posterior, lengths: Lengths | None, count: int
) -> tuple[FloatArray, FloatArray]:
    """Return (3 n,) values of the CV of ``count`` fish, and their weights.

    Three for each point of the posterior (Gauss-Hermite), for the condition and the
    fish that were not measured.
    """
    measured = 0.0 if lengths is None else float(np.sum(1.0 - lengths.gross))
    kept = min(1.0, count / max(measured, 1e-9))
    sums = _others(model, posterior, count - kept * measured)
    if lengths is not None:
        sums = sums.plus(_measured(model, posterior, lengths, kept))
    total = sums.first / count
    variance_of_total = np.maximum(sums.second - sums.first_first, 0.0)
    spread = sums.second / count - total**2 - variance_of_total / count**2
    cv2 = np.maximum(spread / total**2, 1e-6)
    # CV^2 + 1 = N sum w^2 / (sum w)^2; by its first derivative on each fish's weight.
    ratio = sums.second / sums.first
    square = sums.fourth - sums.second_second
    cross = sums.third - sums.first_second
    variance = square - 4.0 * ratio * cross + 4.0 * ratio**2 * variance_of_total
    log_sd = np.sqrt(np.maximum(variance, 0.0)) * count / sums.first**2 / cv2
    # Of a log-normal CV^2 with this relative sd.
    log_sd = np.sqrt(np.log1p(log_sd**2))
    steps = np.array([-1.0, 0.0, 1.0]) * np.sqrt(3.0)
    middle = 0.5 * np.log(cv2) - 0.25 * log_sd**2
    values = np.exp(middle + 0.5 * steps[:, None] * log_sd)
    weights = np.array([1.0, 4.0, 1.0])[:, None] / 6.0 * posterior.weights
    return values.ravel(), weights.ravel()


def _others(model: SampleModel, posterior: Posterior, count: float) -> _Sums:
    """Return the sums of fish that were not measured."""
    log_variance = posterior.log_weight_variance
    lift = 0.5 * log_variance + posterior.on_grid(model.table.single)
    spread = log_variance + posterior.on_grid(model.table.spread)
    first = np.exp(posterior.b * posterior.mu + lift)
    second, third, fourth = (
        first**k * np.exp(0.5 * k * (k - 1) * spread) for k in (2, 3, 4)
    )
    return _Sums(
        count=np.full_like(first, count),
        first=count * first,
        second=count * second,
        third=count * third,
        fourth=count * fourth,
        first_first=count * first**2,
        first_second=count * first * second,
        second_second=count * second**2,
    )


def _measured(
    model: SampleModel, posterior: Posterior, lengths: Lengths, kept: float
) -> _Sums:
    """Return the sums of the measured fish, each as sure as its length is sound."""
    grid = model.grid
    sigma2 = grid.sigma[:, None] ** 2
    gain = sigma2 / (sigma2 + lengths.error_variance)
    means = model.means
    at = 0.0 if means is None else means.mean[:, lengths.net_of_fish]
    centre = (at + gain * (lengths.x - at))[:, None, :]
    left = (sigma2 * (1.0 - gain))[:, None, :]
    b = grid.b[:, None]
    power = [np.exp(k * b * centre + 0.5 * (k * b) ** 2 * left) for k in range(1, 5)]
    sound = kept * (1.0 - lengths.gross)
    s, _, _, b_at = posterior.cell
    kappa2 = posterior.kappa**2

    def of(values: FloatArray, on_kappa: float) -> FloatArray:
        """Return the sum at the posterior's points; condition multiplies it."""
        picked: FloatArray = (values @ sound)[s, b_at] * np.exp(on_kappa * kappa2)
        return picked

    return _Sums(
        count=np.full_like(kappa2, float(sound.sum())),
        first=of(power[0], 0.5),
        second=of(power[1], 2.0),
        third=of(power[2], 4.5),
        fourth=of(power[3], 8.0),
        first_first=of(power[0] ** 2, 1.0),
        first_second=of(power[0] * power[1], 2.5),
        second_second=of(power[1] ** 2, 4.0),
    )
