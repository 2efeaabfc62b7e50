"""What a harvest or a whole tank teaches of drip water and of which fish are netted.

A sample's mean as weighed is too high by the water weighed with its fish (drip) and
by how much heavier the netted fish are than those of the unit (netting). All fish of
a unit, weighed and counted, tell the true mean, so the sample's mean over it tells
the product of the two. Weighed drained, they tell both of that product; weighed as
wet as the nets, the water is in both means and the netting alone is told. The lengths
of the whole tank beside those of the nets tell the netting too, without a scale: then
what is left of the product is the drip.

Both are small, so their logarithms are taken as normal, and each figure is joined to
what was known before (the prior) by the rule for linear observations of a normal
vector (Bishop 2006, 2.3.3).
"""

import math
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.nets import DripWater, Netting

DRIP_AND_NETTING: Final = (1.0, 1.0)
NETTING_ALONE: Final = (0.0, 1.0)
DRIP_ALONE: Final = (1.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Learnt:
    """Drip and netting as they are known now, and how they go together.

    ``correlation`` is near -1 where only their product is known.
    """

    drip: DripWater
    netting: Netting
    correlation: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A sample's mean over that of all fish of its unit, on the same day.

    Attributes
    ----------
    ratio, relative_sd
        The sample's mean as weighed, nothing taken off, over that of all fish; the
        error of the ratio: chance of which fish were netted, and both scales.
    of
        Of what it tells: ``DRIP_AND_NETTING`` where all fish were weighed drained,
        ``NETTING_ALONE`` where they were weighed as wet as the nets or where lengths
        were compared (as a ratio of mean weights), ``DRIP_ALONE`` where the same fish
        were weighed twice, wet and drained.
    """

    ratio: float
    relative_sd: float
    of: tuple[float, float]


def learn(known: Learnt, told: tuple[Told, ...]) -> Learnt:
    """Return drip and netting after what was told, in any order."""
    mean, covariance = _logs(known)
    for one in told:
        row = np.array(one.of)
        spread = float(row @ covariance @ row) + one.relative_sd**2
        gain = covariance @ row / spread
        mean = mean + gain * (math.log(one.ratio) - float(row @ mean))
        covariance = covariance - np.outer(gain, row @ covariance)
    drip_sd, netting_sd = (math.sqrt(max(v, 0.0)) for v in np.diag(covariance))
    both = drip_sd * netting_sd
    return Learnt(
        drip=replace(
            known.drip,
            fraction=max(math.expm1(float(mean[0])), 0.0),
            sd=drip_sd * math.exp(float(mean[0])),
        ),
        netting=Netting(heavier=math.expm1(float(mean[1])), relative_sd=netting_sd),
        correlation=float(covariance[0, 1]) / both if both > 0.0 else 0.0,
    )


def _logs(known: Learnt) -> tuple[FloatArray, FloatArray]:
    """Return mean and covariance of ln (1 + drip) and ln (1 + netting)."""
    drip, netting = known.drip, known.netting
    mean = np.array([math.log1p(drip.fraction), math.log1p(netting.heavier)])
    sds = np.array([drip.sd / (1.0 + drip.fraction), netting.relative_sd])
    covariance = np.diag(sds**2)
    covariance[0, 1] = covariance[1, 0] = known.correlation * sds[0] * sds[1]
    return mean, covariance
