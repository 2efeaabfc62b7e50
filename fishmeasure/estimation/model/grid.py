"""The grid of what is not linear, and the priors."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.nets import SampleSettings
from fishmeasure.species import LengthWeight

# Spread of ln length within a net. Median: farmed rainbow trout, n = 130, 30.0 +-
# 2.0 cm fork length and 375 +- 95 g (AJAS abstract), so 0.067 to 0.083. A graded
# batch (122 +- 15.6 g, Janampa-Sarmiento 2020, abstract) has about 0.035, the wild and
# mixed ones of 03_lw_regressions reach 0.3: sd of its logarithm 0.7, so that neither
# is odd.
SIGMA_MEDIAN: Final = 0.08
SIGMA_LOG_SD: Final = 0.7
# How far nets differ beyond chance, in ln length, for a first look at the nets.
TAU_SCALE: Final = 0.03
# The same over the spread within a net: half-t, of so few degrees of freedom that
# patchy fish can still show. An intraclass correlation of 0.3 is a ratio of 0.65.
# Common practice, no source.
TAU_RATIO: Final = 0.45
TAU_DEGREES: Final = 2.0
# Condition sd about the species file's figure: the residual sds of the 15 sets of 30
# fish or more in 03_lw_regressions differ by this much in logarithm (0.284).
KAPPA_LOG_SD: Final = 0.3
# How far the exponent of one batch's fish is from its species', as where condition
# rises with length. Stand-in: the fits to the 17 sets of 30 fish or more in
# 03_lw_regressions scatter by 0.22 over species and stocks (computed), of which a part
# is the species'.
B_BATCH_SD: Final = 0.15
# Of mu about the reference length, which is taken from the sample: no information.
MU_SD: Final = 1.0

_TAU_GRID: Final = np.array(
    [0.0, 0.004, 0.009, 0.015, 0.022, 0.031, 0.043, 0.06, 0.085, 0.125, 0.19, 0.3]
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
    published_variance: float
    scale_variance: FloatArray
    drip: float
    drip_variance: float

    @property
    def alpha_variance(self) -> FloatArray:
        """(b,) of alpha as the sample sees it."""
        return self.published_variance + self.scale_variance


def make_grid(sigma: FloatArray, prior: LengthWeight) -> Grid:
    """Return the grid over ``sigma`` (spaced evenly in logarithm) and the rest."""
    log_sigma = -0.5 * (np.log(sigma / SIGMA_MEDIAN) / SIGMA_LOG_SD) ** 2
    scale = TAU_RATIO * sigma[:, None]
    log_tau = (
        -0.5 * (TAU_DEGREES + 1.0) * np.log1p((_TAU_GRID / scale) ** 2 / TAU_DEGREES)
        - np.log(scale)
        + np.log(_trapezoid_weights(_TAU_GRID))
    )
    steps = np.linspace(-2.4, 2.4, _KAPPA_POINTS)
    kappa = prior.residual_sd_ln * np.exp(KAPPA_LOG_SD * steps)
    log_kappa = -0.5 * steps**2
    b_steps = np.linspace(-2.4, 2.4, _B_POINTS) if prior.b_sd > 0.0 else np.zeros(1)
    return Grid(
        sigma=sigma,
        tau=_TAU_GRID,
        kappa=kappa,
        b=prior.b + _b_sd(prior) * b_steps,
        log_prior=log_sigma[:, None, None, None]
        + log_tau[:, :, None, None]
        + log_kappa[:, None]
        - 0.5 * b_steps**2,
    )


def _b_sd(prior: LengthWeight) -> float:
    """Return how little b is known; a stock's own line may have it fixed."""
    return float(np.hypot(prior.b_sd, B_BATCH_SD)) if prior.b_sd > 0.0 else 0.0


def _trapezoid_weights(points: FloatArray) -> FloatArray:
    gaps = np.diff(points)
    weights: FloatArray = 0.5 * (np.r_[gaps, 0.0] + np.r_[0.0, gaps])
    return weights


def level_prior(
    grid: Grid, published: LengthWeight, reference_mm: float, settings: SampleSettings
) -> LevelPrior:
    """Return the priors of the level at the reference length.

    A published a and b trade off about the middle of its fish, so its level is held
    there, whatever b is. What b departs from the species' own in this batch turns
    about the batch's own fish, so it moves no level.
    """
    pivot_cm = np.sqrt(published.min_length_mm * published.max_length_mm) / 10.0
    log_pivot_weight = np.log(published.a_g_cm) + published.b * np.log(pivot_cm)
    drip = settings.drip
    drip_sd = np.hypot(drip.sd, settings.scale.relative_sd) / (1.0 + drip.fraction)
    of_species = published.b_sd**2 / max(_b_sd(published) ** 2, 1e-12)
    away = np.log(reference_mm / 10.0 / pivot_cm)
    left = (1.0 - of_species) * (published.b_sd * away) ** 2
    return LevelPrior(
        alpha=log_pivot_weight
        + (published.b + of_species * (grid.b - published.b)) * away,
        published_variance=published.relative_sd**2 + float(left),
        scale_variance=(grid.b * settings.length_relative_sd) ** 2,
        drip=float(np.log1p(drip.fraction)),
        drip_variance=float(max(drip_sd, 1e-6) ** 2),
    )
