"""The shape of ln length within a net: skewed, in groups, cut by grading, with runts.

The law of the standardised departure z is that of a Dirichlet process (Ferguson 1973):
the fish that were measured, each with how surely its length is no gross error, joined
by a few supposed fish of a usual batch. So no family of shapes is chosen; few fish are
drawn towards a usual batch, many speak for themselves.

``temper`` is how much less such fish say of their spread than normal ones do: the
variance of the influence function of ln CV^2 (Huber 1981; of the variance of ln length
it would be the kurtosis + 2), 2 for normal fish whose spread is small.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.special import ndtr

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model.grid import TAU_SCALE
from fishmeasure.estimation.model.lengths import Lengths, net_means

# The supposed fish of a usual batch, which is normal. Common practice, no source.
_SUPPOSED_FISH: Final = 3.0
# How sure the spread is, is asked of a law with a tail on either side as well, 2.4 sd
# out: few fish that show no tail do not show that there is none. Likewise.
_TAIL_FISH: Final = 0.2
_TAIL: Final = 2.4
# A fish stands for sizes about its own, in sds: enough to join 30 fish to a curve.
_KERNEL: Final = 0.3
_TEMPER: Final = (0.15, 1.2)
_ALIKE: Final = 1e-3  # 0.1 % of length: typed in as one figure, no shape to see
_FEWEST_FISH: Final = 3
_HALVINGS: Final = 40


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Law:
    """A distribution of mean 0 and sd 1: normals with shares (k,), places and sds."""

    shares: FloatArray
    places: FloatArray
    sds: FloatArray

    def log_moment(self, slope: FloatArray) -> FloatArray:
        """Return ln E exp(slope z)."""
        inside = (
            slope[..., None] * self.places + 0.5 * (slope[..., None] * self.sds) ** 2
        )
        value: FloatArray = np.log(np.exp(inside) @ self.shares)
        return value

    def excess(self, slope: FloatArray) -> FloatArray:
        """Return ln E exp(slope z) less what a normal z would have."""
        return self.log_moment(slope) - 0.5 * slope**2

    def widened(self, factor: float, sd: float) -> "Law":
        """Return the law of factor z + N(0, sd^2)."""
        return Law(
            shares=self.shares,
            places=factor * self.places,
            sds=np.sqrt((factor * self.sds) ** 2 + sd**2),
        )

    def below(self, value: FloatArray) -> FloatArray:
        """Return the fraction below values."""
        sds = np.maximum(self.sds, 1e-9)
        fraction: FloatArray = (
            ndtr((value[..., None] - self.places) / sds) @ self.shares
        )
        return fraction

    def quantiles(self, fractions: FloatArray) -> FloatArray:
        """Return the values that ``fractions`` stay below."""
        low = np.full(fractions.shape, -20.0)
        high = np.full(fractions.shape, 20.0)
        for _ in range(_HALVINGS):
            middle = 0.5 * (low + high)
            under = self.below(middle) < fractions
            low, high = np.where(under, middle, low), np.where(under, high, middle)
        found: FloatArray = 0.5 * (low + high)
        return found


def _normal() -> Law:
    return Law(shares=np.ones(1), places=np.zeros(1), sds=np.ones(1))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shape:
    """The law of a sample, and how much its lengths say of their spread.

    ``smooth`` is the law with each fish standing for sizes about its own.
    """

    law: Law
    smooth: Law
    temper: float = 1.0

    @staticmethod
    def usual() -> "Shape":
        """Return the shape of a batch none of which was measured."""
        return Shape(law=_normal(), smooth=_normal())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShapeTable:
    """ln moments of weight within a net less a normal's, (s, 1, 1, b).

    ``single`` is of weight, ``double`` of its square.
    """

    single: FloatArray
    double: FloatArray

    def sliced(self, s: int, b: int) -> "ShapeTable":
        """Return the table for one sigma and one b."""
        return ShapeTable(
            single=self.single[[s]][..., [b]], double=self.double[[s]][..., [b]]
        )

    @property
    def spread(self) -> FloatArray:
        """Ln (1 + CV^2) of weight by length, less that of normal fish."""
        return self.double - 2.0 * self.single


def shape_table(shape: Shape, sigma: FloatArray, b: FloatArray) -> ShapeTable:
    """Return the table on a grid."""
    slope = (sigma[:, None] * b)[:, None, None, :]
    return ShapeTable(
        single=shape.law.excess(slope), double=shape.law.excess(2.0 * slope)
    )


def find_shape(lengths: Lengths, b: float) -> Shape:
    """Return the shape within nets; weight goes with length to the power ``b``."""
    sigma = np.array([max(lengths.first_sigma, 1e-6)])
    means = net_means(lengths, sigma)
    keep = TAU_SCALE**2 / (TAU_SCALE**2 + means.variance[0])
    precision = 1.0 / (means.variance[0] + TAU_SCALE**2)
    centre = float(precision @ means.mean[0] / precision.sum())
    at = keep * means.mean[0] + (1.0 - keep) * centre
    departure = lengths.x - at[lengths.net_of_fish]
    sound = 1.0 - lengths.gross
    spread = float(np.sqrt(sound @ departure**2 / max(float(sound.sum()), 1e-9)))
    # A pair about its own mean is always symmetric; two fish show no shape.
    deepest = int(np.max(np.bincount(lengths.net_of_fish)))
    if spread < _ALIKE or len(sound) < _FEWEST_FISH or deepest < _FEWEST_FISH:
        return Shape.usual()
    z = departure / spread
    slope = b * float(sigma[0])
    tailed = _joined(
        np.concatenate([z, [-_TAIL, _TAIL]]),
        np.concatenate([sound, [_TAIL_FISH, _TAIL_FISH]]),
        0.0,
    )
    return Shape(
        law=_joined(z, sound, 0.0),
        smooth=_joined(z, sound, _KERNEL),
        temper=_temper(tailed, slope),
    )


def _joined(z: FloatArray, sound: FloatArray, kernel: float) -> Law:
    """Return measured and supposed fish as a law of mean 0 and sd 1."""
    weights = np.concatenate([sound, [_SUPPOSED_FISH]])
    shares = weights / weights.sum()
    places = np.concatenate([z, [0.0]])
    sds = np.concatenate([np.full(len(z), kernel), [1.0]])
    mean = float(shares @ places)
    sd = float(np.sqrt(shares @ ((places - mean) ** 2 + sds**2)))
    return Law(shares=shares, places=(places - mean) / sd, sds=sds / sd)


def _temper(law: Law, slope: float) -> float:
    """Return 2 over the variance of the influence function of ln CV^2."""
    first, second, third, fourth = (
        float(np.exp(law.log_moment(np.array(order * slope)))) for order in range(1, 5)
    )
    ratio = second / first**2
    # IF = ratio / (ratio - 1) (w^2 / E w^2 - 2 w / E w + 1), of mean 0.
    variance = fourth / second**2 + 4.0 * ratio - 4.0 * third / (second * first) - 1.0
    variance *= (ratio / (ratio - 1.0)) ** 2
    return float(np.clip(2.0 / variance, *_TEMPER))
