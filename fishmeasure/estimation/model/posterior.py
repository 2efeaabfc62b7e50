"""Posterior of figures that are linear in mu, eta and the drip water."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model.faults import Hypothesis
from fishmeasure.estimation.model.lengths import IntArray
from fishmeasure.estimation.model.mixture import Mixture
from fishmeasure.estimation.model.model import SampleModel
from fishmeasure.estimation.model.shape import ShapeTable

# Grid points lighter than this times the heaviest are left out; together they hold
# less than 0.1 % of the mass.
_LIGHTEST: Final = 1e-4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Figure:
    """A figure linear in the unknowns, at each of n posterior points.

    value + on_mu (mu - its mean) + on_eta (eta - its mean) + on_split e + noise, where
    e is what of alpha eta leaves open (the drip water has -e). All (n,).
    """

    value: FloatArray
    on_mu: FloatArray
    on_eta: FloatArray
    on_split: FloatArray
    variance: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Posterior:
    """Points (n,) of the grid under the hypotheses, with their weights (sum 1)."""

    weights: FloatArray
    hypothesis: IntArray
    cell: tuple[IntArray, IntArray, IntArray, IntArray]
    sigma: FloatArray
    tau: FloatArray
    kappa: FloatArray
    b: FloatArray
    mu: FloatArray
    eta: FloatArray
    mu_variance: FloatArray
    covariance: FloatArray
    eta_variance: FloatArray
    alpha: FloatArray
    alpha_gain: FloatArray
    split_variance: FloatArray

    @property
    def log_weight_variance(self) -> FloatArray:
        """(n,) variance of ln weight of a fish of the population."""
        return self.b**2 * (self.sigma**2 + self.tau**2) + self.kappa**2

    def log_mean_lift(self, table: ShapeTable) -> Figure:
        """Return ln of the mean weight over that of the middle fish."""
        zero = np.zeros_like(self.mu)
        return Figure(
            value=0.5 * self.log_weight_variance + self.on_grid(table.single),
            on_mu=zero,
            on_eta=zero,
            on_split=zero,
            variance=zero,
        )

    def on_grid(self, values: FloatArray) -> FloatArray:
        """Return (n,) of values that are given for each (s, 1, 1, b)."""
        picked: FloatArray = values[self.cell[0], 0, 0, self.cell[3]]
        return picked

    def cv_points(self, table: ShapeTable) -> FloatArray:
        """Return (n,) values of the CV of an endless unit."""
        spread = self.log_weight_variance + self.on_grid(table.spread)
        values: FloatArray = np.sqrt(np.expm1(spread))
        return values

    def alpha_figure(self) -> Figure:
        """Return alpha."""
        one, zero = np.ones_like(self.mu), np.zeros_like(self.mu)
        return Figure(
            value=self.alpha,
            on_mu=zero,
            on_eta=self.alpha_gain,
            on_split=one,
            variance=zero,
        )

    def mu_figure(self) -> Figure:
        """Return mu."""
        one, zero = np.ones_like(self.mu), np.zeros_like(self.mu)
        return Figure(
            value=self.mu, on_mu=one, on_eta=zero, on_split=zero, variance=zero
        )

    def covariance_of(self, first: Figure, second: Figure) -> FloatArray:
        """Return (n,) covariance of two figures, their own noises left out."""
        value: FloatArray = (
            first.on_mu * second.on_mu * self.mu_variance
            + (first.on_mu * second.on_eta + first.on_eta * second.on_mu)
            * self.covariance
            + first.on_eta * second.on_eta * self.eta_variance
            + first.on_split * second.on_split * self.split_variance
        )
        return value

    def mixture(self, figure: Figure) -> Mixture:
        """Return the figure's posterior."""
        variance = self.covariance_of(figure, figure) + figure.variance
        return Mixture(
            weights=self.weights,
            means=figure.value,
            sds=np.sqrt(np.maximum(variance, 0.0)),
        )


def combine(*terms: tuple[FloatArray | float, Figure]) -> Figure:
    """Return the weighted sum of figures; their noises are independent."""
    first = terms[0][1]
    zero = np.zeros_like(first.value)
    value, on_mu, on_eta, on_split, variance = zero, zero, zero, zero, zero
    for factor, figure in terms:
        value = value + factor * figure.value
        on_mu = on_mu + factor * figure.on_mu
        on_eta = on_eta + factor * figure.on_eta
        on_split = on_split + factor * figure.on_split
        variance = variance + factor**2 * figure.variance
    return Figure(
        value=value, on_mu=on_mu, on_eta=on_eta, on_split=on_split, variance=variance
    )


def offset(figure: Figure, value: FloatArray | float) -> Figure:
    """Return the figure with a constant added."""
    return Figure(
        value=figure.value + value,
        on_mu=figure.on_mu,
        on_eta=figure.on_eta,
        on_split=figure.on_split,
        variance=figure.variance,
    )


def gather(model: SampleModel, hypotheses: tuple[Hypothesis, ...]) -> Posterior:
    """Return the points of all hypotheses that carry weight."""
    masses = [
        np.exp(h.solution.log_mass - np.max(h.solution.log_mass)) for h in hypotheses
    ]
    shares = [
        mass / mass.sum() * np.exp(h.log_weight)
        for mass, h in zip(masses, hypotheses, strict=True)
    ]
    heaviest = max(float(share.max()) for share in shares)
    cells = [np.nonzero(share > _LIGHTEST * heaviest) for share in shares]

    def flat(pick: "list[FloatArray]") -> FloatArray:
        return np.concatenate(
            [values[cell] for values, cell in zip(pick, cells, strict=True)]
        )

    weights = flat(shares)
    s, t, k, b = (np.concatenate(axis) for axis in zip(*cells, strict=True))
    eta = flat([h.solution.eta for h in hypotheses])
    level = model.level
    alpha_prior, alpha_variance = level.alpha[b], level.alpha_variance[b]
    gain = alpha_variance / (alpha_variance + level.drip_variance)
    return Posterior(
        weights=weights / weights.sum(),
        hypothesis=np.concatenate(
            [np.full(len(cell[0]), i) for i, cell in enumerate(cells)]
        ),
        cell=(s, t, k, b),
        sigma=model.grid.sigma[s],
        tau=model.grid.tau[t],
        kappa=model.grid.kappa[k],
        b=model.grid.b[b],
        mu=flat([h.solution.mu for h in hypotheses]),
        eta=eta,
        mu_variance=flat([h.solution.mu_variance for h in hypotheses]),
        covariance=flat([h.solution.covariance for h in hypotheses]),
        eta_variance=flat([h.solution.eta_variance for h in hypotheses]),
        alpha=alpha_prior + gain * (eta - alpha_prior - level.drip),
        alpha_gain=gain,
        split_variance=alpha_variance
        * level.drip_variance
        / (alpha_variance + level.drip_variance),
    )
