"""Two groups of sizes in one sample."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.special import expit

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model.lengths import Lengths

# Twice the log likelihood ratio of two normals of one variance over one; of normal
# samples of 20 to 600 less than 1 % reach it (tests/estimation/model/test_groups.py).
_RATIO: Final = 13.0
# Ashman, Bird & Zepf 1994: means more than 2 sd apart are cleanly two.
_SEPARATION: Final = 2.2
_SMALLEST_SHARE: Final = 0.1
# A skewed batch is fitted by two normals as well; two groups leave a valley at least
# this much lower than the smaller peak.
_VALLEY: Final = 0.85
_FEWEST_FISH: Final = 12
_ALIKE: Final = 1e-3  # 0.1 % of length: typed in as one figure, no spread to split
_EM_STEPS: Final = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """Two normals of one sd in ln length; ``low_fraction`` is the smaller fish's."""

    low_fraction: float
    low: float
    high: float
    sd: float


def find_size_groups(lengths: Lengths) -> Split | None:
    """Return the two groups, or None where one will do."""
    x = lengths.x
    if len(x) < _FEWEST_FISH:
        return None
    # The far tails are left to the gross errors: a few wrong outlines are no group.
    middle, spread = np.median(x), np.subtract(*np.percentile(x, [75, 25])) / 1.349
    x = x[np.abs(x - middle) < 4.0 * max(float(spread), 1e-3)]
    if float(np.std(x)) < _ALIKE:
        return None
    one = -0.5 * len(x) * np.log(np.var(x))
    best, split = max(
        (_fit(x, start) for start in (0.2, 0.5, 0.8)), key=lambda pair: pair[0]
    )
    minor = min(split.low_fraction, 1.0 - split.low_fraction)
    clear = (
        2.0 * (best - one) > _RATIO
        and split.high - split.low > _SEPARATION * split.sd
        and minor >= _SMALLEST_SHARE
        and _valley(split) < _VALLEY
    )
    return split if clear else None


def _valley(split: Split) -> float:
    """Return the density between the groups over that of the smaller peak."""
    x = np.linspace(split.low, split.high, 81)
    density = split.low_fraction * np.exp(-0.5 * ((x - split.low) / split.sd) ** 2)
    density = density + (1.0 - split.low_fraction) * np.exp(
        -0.5 * ((x - split.high) / split.sd) ** 2
    )
    return float(density.min() / min(density[0], density[-1]))


def _fit(x: FloatArray, start: float) -> tuple[float, Split]:
    """Return log likelihood (less a constant) and two normals by EM."""
    cut = np.quantile(x, start)
    member = (x > cut).astype(float)
    low, high, sd, fraction = 0.0, 0.0, 1.0, 0.5
    for _ in range(_EM_STEPS):
        total = np.clip(member.sum(), 1e-6, len(x) - 1e-6)
        fraction = total / len(x)
        high = float(member @ x / total)
        low = float((1.0 - member) @ x / (len(x) - total))
        variance = (member @ (x - high) ** 2 + (1.0 - member) @ (x - low) ** 2) / len(x)
        sd = max(float(np.sqrt(variance)), 1e-4)
        member = expit(
            np.log(fraction / (1.0 - fraction))
            + 0.5 * ((x - low) ** 2 - (x - high) ** 2) / sd**2
        )
    log_density = np.logaddexp(
        np.log(fraction) - 0.5 * ((x - high) / sd) ** 2,
        np.log1p(-fraction) - 0.5 * ((x - low) / sd) ** 2,
    ) - np.log(sd)
    # -0.5 n log(variance) of the single normal leaves out the same -n/2.
    return float(log_density.sum() + 0.5 * len(x)), Split(
        low_fraction=float(1.0 - fraction), low=low, high=high, sd=sd
    )
