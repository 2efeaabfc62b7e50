"""The linear-Gaussian model of a sample, on a grid of what is not linear.

For net j of n fish, x being ln(length / reference) and m_j its mean::

    m_j ~ N(mu, tau^2)                     nets differ
    lengths of net j -> N(m_j, U_j)        see ``lengths``
    ln w = alpha + b x + N(0, kappa^2)     a stock's line, and single fish about it
    ln W_j = alpha + d + c_j + H_j m_j + N(0, Q_j)   net weight, with drip water d

c, H and Q follow from the log-normal sum of the net's fish: its mean and variance
given the measured lengths of the fish that were measured and given m_j of those
that were not (moments matched, Fenton 1960). Given (sigma, tau, kappa, b) all is
linear in (mu, eta = alpha + d), with normal priors on mu, alpha and d, so the
posterior and the evidence are closed forms; they are summed over the grid.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model.grid import MU_SD, Grid, LevelPrior
from fishmeasure.estimation.model.lengths import NetMeans
from fishmeasure.estimation.model.shape import Shape, ShapeTable
from fishmeasure.estimation.nets import NetWeighing, SampleSettings


@dataclass(frozen=True, slots=True, kw_only=True)
class NetState:
    """A supposition about one net.

    ``count_delta`` is the true count less the one given; the two sds widen the
    net's ln weight and its mean's departure from the population.
    """

    word: str = ""
    count_delta: int = 0
    weight_sd: float = 0.0
    mean_sd: float = 0.0


SOUND: Final = NetState()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredSums:
    """Sums over the measured fish of each measured net, at alpha = kappa = 0.

    All (s, b, j) but ``photo_slope`` (s, b, p) and ``at`` (s, j), the net mean at
    which they hold: expected weight, second moment, squared expectation, and their
    first's slopes on the net's mean and on each photo's error.
    """

    at: FloatArray
    expected: FloatArray
    second: FloatArray
    squared: FloatArray
    mean_slope: FloatArray
    photo_slope: FloatArray

    def sliced(self, s: int, b: int) -> "MeasuredSums":
        """Return the sums for one sigma and one b."""
        return MeasuredSums(
            at=self.at[[s]],
            expected=self.expected[[s]][:, [b]],
            second=self.second[[s]][:, [b]],
            squared=self.squared[[s]][:, [b]],
            mean_slope=self.mean_slope[[s]][:, [b]],
            photo_slope=self.photo_slope[[s]][:, [b]],
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Information:
    """Information matrix and vector of (mu, eta), and the log evidence.

    All (s, t, k, b) or broadcastable to it.
    """

    mm: FloatArray
    me: FloatArray
    ee: FloatArray
    m: FloatArray
    e: FloatArray
    log_evidence: FloatArray

    def plus(self, other: "Information") -> "Information":
        """Return the sum."""
        return self._combine(other, 1.0)

    def minus(self, other: "Information") -> "Information":
        """Return the difference."""
        return self._combine(other, -1.0)

    def _combine(self, other: "Information", sign: float) -> "Information":
        return Information(
            mm=self.mm + sign * other.mm,
            me=self.me + sign * other.me,
            ee=self.ee + sign * other.ee,
            m=self.m + sign * other.m,
            e=self.e + sign * other.e,
            log_evidence=self.log_evidence + sign * other.log_evidence,
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solution:
    """Posterior of (mu, eta) at each grid point, and its log mass (not normalised)."""

    mu: FloatArray
    eta: FloatArray
    mu_variance: FloatArray
    covariance: FloatArray
    eta_variance: FloatArray
    log_mass: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SampleModel:
    """A sample made ready: grid, priors, and what is known of each net."""

    nets: tuple[NetWeighing, ...]
    settings: SampleSettings
    grid: Grid
    level: LevelPrior
    reference_mm: float
    means: NetMeans | None
    sums: MeasuredSums | None
    measured_index: dict[int, int]
    photos_of_net: tuple[slice, ...]
    shape: Shape
    table: ShapeTable

    def sliced(self, s: int, t: list[int], k: list[int], b: int) -> "SampleModel":
        """Return the model on a few points of its grid."""
        one_s, one_b = [s], [b]
        grid, level = self.grid, self.level
        return replace(
            self,
            grid=Grid(
                sigma=grid.sigma[one_s],
                tau=grid.tau[t],
                kappa=grid.kappa[k],
                b=grid.b[one_b],
                log_prior=grid.log_prior[np.ix_(one_s, t, k, one_b)],
            ),
            level=replace(
                level,
                alpha=level.alpha[one_b],
                scale_variance=level.scale_variance[one_b],
            ),
            means=None if self.means is None else self.means.sliced(s),
            sums=None if self.sums is None else self.sums.sliced(s, b),
            table=self.table.sliced(s, b),
        )

    def start(self) -> Information:
        """Return the information before any net: prior mass and length evidence."""
        shape = self.grid.log_prior.shape
        log_evidence = self.grid.log_prior
        if self.means is not None:
            log_evidence = log_evidence + self.means.log_evidence[:, None, None, None]
        zero = np.zeros(shape)
        return Information(
            mm=zero, me=zero, ee=zero, m=zero, e=zero, log_evidence=log_evidence
        )

    def solve(self, information: Information) -> Solution:
        """Return the posterior of (mu, eta) at each grid point."""
        prior_mean = self.level.alpha + self.level.drip
        prior_variance = self.level.alpha_variance + self.level.drip_variance
        mm = information.mm + 1.0 / MU_SD**2
        ee = information.ee + 1.0 / prior_variance
        me = information.me
        m = information.m
        e = information.e + prior_mean / prior_variance
        determinant = mm * ee - me**2
        mu = (ee * m - me * e) / determinant
        eta = (mm * e - me * m) / determinant
        log_mass = (
            information.log_evidence
            + 0.5 * (mu * m + eta * e)
            - 0.5 * np.log(determinant)
            - 0.5 * prior_mean**2 / prior_variance
            - 0.5 * np.log(prior_variance)
            - np.log(MU_SD)
        )
        return Solution(
            mu=mu,
            eta=eta,
            mu_variance=ee / determinant,
            covariance=-me / determinant,
            eta_variance=mm / determinant,
            log_mass=log_mass,
        )
