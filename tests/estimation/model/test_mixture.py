"""Quantiles of mixtures against scipy's distribution functions."""

import numpy as np
import pytest
from scipy import stats
from scipy.optimize import brentq

from fishmeasure.estimation.model.mixture import (
    Mixture,
    points_estimate,
    weighted_quantiles,
)

PROBABILITIES = (0.05, 0.25, 0.5, 0.75, 0.95)


def test_a_single_normal_has_scipys_quantiles() -> None:
    """One component is known by its closed form."""
    mixture = Mixture(
        weights=np.ones(400) / 400, means=np.full(400, 3.0), sds=np.full(400, 0.5)
    )
    assert mixture.quantiles(PROBABILITIES) == pytest.approx(
        stats.norm(3.0, 0.5).ppf(PROBABILITIES), abs=0.001 * 0.5
    )


def test_many_components_have_the_mixtures_quantiles() -> None:
    """Root-finding on the sum of scipy's distribution functions agrees."""
    rng = np.random.default_rng(1)
    weights = rng.dirichlet(np.ones(300))
    means, sds = rng.normal(5.0, 0.1, 300), rng.uniform(0.05, 0.4, 300)
    mixture = Mixture(weights=weights, means=means, sds=sds)
    for probability, found in zip(
        PROBABILITIES, mixture.quantiles(PROBABILITIES), strict=True
    ):
        exact = brentq(
            lambda q, p=probability: weights @ stats.norm.cdf(q, means, sds) - p, 0, 10
        )
        assert found == pytest.approx(exact, abs=0.001 * 0.27)


def test_points_have_numpys_quantiles() -> None:
    """Equal weights give numpy's quantiles to a bin's width."""
    values = np.random.default_rng(2).normal(size=5000)
    found = weighted_quantiles(values, np.ones(5000), PROBABILITIES)
    assert found == pytest.approx(np.quantile(values, PROBABILITIES), abs=0.01)


def test_points_that_agree_have_no_spread() -> None:
    """A point mass is its own interval."""
    estimate = points_estimate(np.full(5, 2.0), np.ones(5), 0.9)
    assert (estimate.low, estimate.value, estimate.high) == (2.0, 2.0, 2.0)


def test_an_added_error_widens_as_variances_add() -> None:
    """The sd of the shifted mixture is the root of the sum of squares."""
    mixture = Mixture(
        weights=np.array([0.5, 0.5]), means=np.zeros(2), sds=np.full(2, 0.3)
    )
    assert mixture.shifted(0.16).moments()[1] == pytest.approx(0.5)


def test_two_components_have_the_mixtures_quantiles() -> None:
    """Few components are used as they are; by symmetry the median is the middle."""
    mixture = Mixture(
        weights=np.array([0.5, 0.5]), means=np.array([-1.0, 1.0]), sds=np.full(2, 0.5)
    )
    low, middle, high = mixture.quantiles((0.2, 0.5, 0.8))
    assert middle == pytest.approx(0.0, abs=1e-6)
    assert low == pytest.approx(-high, abs=1e-6)
