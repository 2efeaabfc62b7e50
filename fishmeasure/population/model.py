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

from fishmeasure.arrays import FloatArray
from fishmeasure.netweigh import NetWeighing, SampleSettings
from fishmeasure.population.lengths import Lengths, NetMeans
from fishmeasure.population.shape import Shape
from fishmeasure.species import LengthWeight

# Spread of ln length within a net. Median: farmed rainbow trout, n = 130, 30.0 +-
# 2.0 cm fork length and 375 +- 95 g (AJAS abstract), so 0.067 to 0.083; the wild
# and mixed batches of 03_lw_regressions reach 0.3. sd of its logarithm: 0.5.
SIGMA_MEDIAN: Final = 0.08
SIGMA_LOG_SD: Final = 0.5
# How far nets differ beyond chance, in ln length: half-t with 3 degrees of freedom,
# so that patchy fish can still show. Scale: common practice, no source.
TAU_SCALE: Final = 0.03
TAU_DEGREES: Final = 3.0
# Condition sd about the species file's figure: the residual sds of the 15 sets of 30
# fish or more in 03_lw_regressions differ by this much in logarithm (0.284).
KAPPA_LOG_SD: Final = 0.3
# Of mu about the reference length, which is taken from the sample: no information.
MU_SD: Final = 1.0

_TAU_GRID: Final = np.array(
    [0.0, 0.004, 0.009, 0.015, 0.022, 0.031, 0.043, 0.06, 0.085, 0.125, 0.19]
)
_KAPPA_POINTS: Final = 7
_B_POINTS: Final = 7
SIGMA_POINTS: Final = 19


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Grid:
    """Points of (sigma, tau, kappa, b) and the log prior mass of each (s, t, k, b)."""

    sigma: FloatArray
    tau: FloatArray
    kappa: FloatArray
    b: FloatArray
    log_prior: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LevelPrior:
    """Priors of alpha (per b) and of the drip water d = ln(1 + fraction).

    ``scale_variance`` is the part of alpha's that comes from the sample's common
    length error: bulk weights absorb it, but a itself stays wrong by it.
    """

    alpha: FloatArray
    book_variance: float
    scale_variance: FloatArray
    drip: float
    drip_variance: float

    @property
    def alpha_variance(self) -> FloatArray:
        """(b,) of alpha as the sample sees it."""
        return self.book_variance + self.scale_variance


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
class WeightTerm:
    """ln of a net's true weight is alpha + ``constant`` + ``slope`` m + noise.

    constant and variance (s, 1, k, b), slope (s, 1, 1, b).
    """

    constant: FloatArray
    slope: FloatArray
    variance: FloatArray


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

    def weight_term(self, index: int, state: NetState = SOUND) -> WeightTerm:
        """Return what a net's true weight is made of, under a supposition."""
        return _weight_term(self, index, state)

    def net_information(self, index: int, state: NetState = SOUND) -> Information:
        """Return what one net says of (mu, eta)."""
        return _net_information(self, index, state)

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


def make_grid(sigma: FloatArray, prior: LengthWeight) -> Grid:
    """Return the grid over ``sigma`` (spaced evenly in logarithm) and the rest."""
    log_sigma = -0.5 * (np.log(sigma / SIGMA_MEDIAN) / SIGMA_LOG_SD) ** 2
    tau_density = (1.0 + (_TAU_GRID / TAU_SCALE) ** 2 / TAU_DEGREES) ** (
        -0.5 * (TAU_DEGREES + 1.0)
    )
    log_tau = np.log(tau_density * _trapezoid_weights(_TAU_GRID))
    steps = np.linspace(-2.4, 2.4, _KAPPA_POINTS)
    kappa = prior.residual_sd_ln * np.exp(KAPPA_LOG_SD * steps)
    log_kappa = -0.5 * steps**2
    b_steps = np.linspace(-2.4, 2.4, _B_POINTS) if prior.b_sd > 0.0 else np.zeros(1)
    return Grid(
        sigma=sigma,
        tau=_TAU_GRID,
        kappa=kappa,
        b=prior.b + prior.b_sd * b_steps,
        log_prior=log_sigma[:, None, None, None]
        + log_tau[:, None, None]
        + log_kappa[:, None]
        - 0.5 * b_steps**2,
    )


def _trapezoid_weights(points: FloatArray) -> FloatArray:
    gaps = np.diff(points)
    weights: FloatArray = 0.5 * (np.r_[gaps, 0.0] + np.r_[0.0, gaps])
    return weights


def level_prior(
    grid: Grid, book: LengthWeight, reference_mm: float, settings: SampleSettings
) -> LevelPrior:
    """Return the priors of the level at the reference length.

    A book's a and b trade off about the middle of its fish, so its level is held
    there, whatever b is.
    """
    pivot_cm = np.sqrt(book.min_length_mm * book.max_length_mm) / 10.0
    log_pivot_weight = np.log(book.a_g_cm) + book.b * np.log(pivot_cm)
    drip = settings.drip
    drip_sd = np.hypot(drip.sd, settings.scale.relative_sd) / (1.0 + drip.fraction)
    return LevelPrior(
        alpha=log_pivot_weight + grid.b * np.log(reference_mm / 10.0 / pivot_cm),
        book_variance=book.relative_sd**2,
        scale_variance=(grid.b * settings.length_relative_sd) ** 2,
        drip=float(np.log1p(drip.fraction)),
        drip_variance=float(max(drip_sd, 1e-6) ** 2),
    )


def measured_sums(lengths: Lengths, means: NetMeans, b: FloatArray) -> MeasuredSums:
    """Return the sums over measured fish for each sigma and b."""
    at = _linearised_at(means)
    spread = means.sigma[:, None] ** 2
    # A fish whose length is no gross error keeps ``clean_gain`` of its departure
    # from the net's mean; a gross one keeps less.
    noise = lengths.error_variance
    clean_gain = spread / (spread + noise)
    gross_gain = spread / (spread + noise + _GROSS_VARIANCE)
    net = lengths.net_of_fish
    departure = lengths.x - at[:, net]
    parts = []
    for gain, probability in (
        (clean_gain, 1.0 - means.gross),
        (gross_gain, means.gross),
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
        weighted = probability[:, None, :] * growth
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


_GROSS_VARIANCE: Final = 0.15**2


def _linearised_at(means: NetMeans) -> FloatArray:
    """Return (s, j) net means drawn towards the sample's, to linearise about."""
    weight = 1.0 / (means.variance + TAU_SCALE**2)
    centre = np.sum(weight * means.mean, axis=1, keepdims=True) / np.sum(
        weight, axis=1, keepdims=True
    )
    keep = TAU_SCALE**2 / (TAU_SCALE**2 + means.variance)
    at: FloatArray = keep * means.mean + (1.0 - keep) * centre
    return at


def _weight_term(model: SampleModel, index: int, state: NetState) -> WeightTerm:
    grid = model.grid
    b = grid.b[None, None, None, :]
    sigma = grid.sigma[:, None, None, None]
    kappa = grid.kappa[None, None, :, None]
    net = model.nets[index]
    count = max(net.fish_count + state.count_delta, 1)
    j = model.measured_index.get(index)
    if j is None or model.sums is None or model.means is None:
        spread = model.shape.log_spread(b, sigma, kappa)
        log_variance = np.log1p(np.expm1(spread) / count)
        return WeightTerm(
            constant=np.log(count)
            + 0.5 * (b**2 * sigma**2 + kappa**2)
            + model.shape.excess(b, sigma)
            - 0.5 * log_variance,
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
    other = np.exp(b * at + 0.5 * b**2 * sigma**2 + model.shape.excess(b, sigma))
    other_second = other**2 * np.exp(model.shape.log_spread(b, sigma, np.zeros(1)))
    expected = shrink * pick(sums.expected) + missing * other
    second = shrink * pick(sums.second) + missing * other_second
    squared = shrink * pick(sums.squared) + missing * other**2
    relative = (np.exp(kappa**2) * second - squared) / expected**2
    log_variance = np.log1p(np.maximum(relative, 0.0))
    slope = (shrink * pick(sums.mean_slope) + missing * b * other) / expected
    constant = np.log(expected) + 0.5 * kappa**2 - 0.5 * log_variance - slope * at
    photos = model.photos_of_net[j]
    for p in range(photos.start, photos.stop):
        photo_slope = shrink * sums.photo_slope[:, None, None, :, p] / expected
        gain, photo_mean, rest = (
            values[:, p][:, None, None, None]
            for values in (
                model.means.photo_gain,
                model.means.photo_mean,
                model.means.photo_rest,
            )
        )
        constant = constant - photo_slope * gain * photo_mean
        slope = slope + photo_slope * gain
        log_variance = log_variance + photo_slope**2 * rest
    return WeightTerm(constant=constant, slope=slope, variance=log_variance)


def _net_information(model: SampleModel, index: int, state: NetState) -> Information:
    """Return one net's information, its own departure from mu integrated out."""
    grid = model.grid
    between = grid.tau[None, :, None, None] ** 2 + state.mean_sd**2
    j = model.measured_index.get(index)
    net = model.nets[index]
    if j is not None and model.means is not None:
        seen = model.means.mean[:, j][:, None, None, None]
        seen_variance = model.means.variance[:, j][:, None, None, None]
    else:
        seen, seen_variance = None, None
    weight = net.weight_g
    if weight is None:
        if seen is None or seen_variance is None:
            return _nothing()
        precision = 1.0 / (between + seen_variance)
        return Information(
            mm=precision,
            me=np.zeros(1),
            ee=np.zeros(1),
            m=precision * seen,
            e=np.zeros(1),
            log_evidence=0.5 * np.log(precision / (2 * np.pi))
            - 0.5 * precision * seen**2,
        )
    term = _weight_term(model, index, state)
    z = np.log(weight) - term.constant
    slope = term.slope
    noise = term.variance + weighing_variance(net, weight, model.settings, state)
    if seen is None or seen_variance is None:
        precision = 1.0 / (slope**2 * between + noise)
        return Information(
            mm=slope**2 * precision,
            me=slope * precision,
            ee=precision,
            m=slope * precision * z,
            e=precision * z,
            log_evidence=0.5 * np.log(precision / (2 * np.pi)) - 0.5 * precision * z**2,
        )
    first = between + seen_variance
    both = slope * between
    last = slope**2 * between + noise
    determinant = first * last - both**2
    p11, p12, p22 = last / determinant, -both / determinant, first / determinant
    r1, r2 = p11 * seen + p12 * z, p12 * seen + p22 * z
    return Information(
        mm=p11 + 2.0 * slope * p12 + slope**2 * p22,
        me=p12 + slope * p22,
        ee=p22,
        m=r1 + slope * r2,
        e=r2,
        log_evidence=-np.log(2 * np.pi)
        - 0.5 * np.log(determinant)
        - 0.5 * (seen * r1 + z * r2),
    )


def _nothing() -> Information:
    zero = np.zeros(1)
    return Information(mm=zero, me=zero, ee=zero, m=zero, e=zero, log_evidence=zero)


def weighing_variance(
    net: NetWeighing, weight_g: float, settings: SampleSettings, state: NetState
) -> float:
    """Return the variance of ln weight from scale, drip and an estimated count."""
    reading = net.weight_sd_g(settings.scale) / weight_g
    # A net without photos can't show an ordinary miscount, so that is mere noise.
    miscount = 0.0 if net.fish else net.miscount_probability
    counted = np.hypot(net.count_sd, np.sqrt(miscount)) / net.fish_count
    return float(reading**2 + settings.drip.net_sd**2 + counted**2 + state.weight_sd**2)
