"""Errors carried through: closed forms and random draws must agree."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from fishmeasure.husbandry.propagation import (
    difference,
    exact,
    from_draws,
    lognormal,
    lognormal_draws,
    normal_scores,
    product,
    relative_sd,
    scaled,
    total,
    z_score,
)


def test_lognormal_interval_is_scipys() -> None:
    """Ends are the 5 and 95 % points of the lognormal of that relative sd."""
    found = lognormal(100.0, 0.25)
    sigma = math.sqrt(math.log(1.0 + 0.25**2))
    low, high = stats.lognorm(s=sigma, scale=100.0).ppf([0.05, 0.95])
    assert found.low == pytest.approx(low)
    assert found.high == pytest.approx(high)


def test_product_agrees_with_random_draws() -> None:
    """Three factors multiplied: interval of 400,000 drawn products, to 2 %."""
    factors = (lognormal(2.0, 0.1), lognormal(30.0, 0.3), lognormal(0.5, 0.05))
    rng = np.random.default_rng(4)
    drawn = np.prod(
        [lognormal_draws(f, rng.standard_normal(400_000)) for f in factors], axis=0
    )
    found = product(*factors, scale=10.0)
    low, high = 10.0 * np.quantile(drawn, [0.05, 0.95])
    assert found.value == pytest.approx(300.0)
    assert found.low == pytest.approx(low, rel=0.02)
    assert found.high == pytest.approx(high, rel=0.02)


def test_fixed_points_stand_for_random_draws() -> None:
    """Mean 0, sd 1, no correlation, and 5 and 95 % points of the normal."""
    scores = normal_scores(5)
    assert scores.shape == (1024, 5)
    np.testing.assert_allclose(scores.mean(axis=0), 0.0, atol=0.01)
    np.testing.assert_allclose(scores.std(axis=0), 1.0, atol=0.02)
    np.testing.assert_allclose(np.corrcoef(scores.T), np.eye(5), atol=0.06)
    ends = np.quantile(scores, [0.05, 0.95], axis=0)
    np.testing.assert_allclose(ends[1], z_score(0.9), atol=0.03)
    assert not scores.flags.writeable


def test_interval_of_draws_holds_the_value() -> None:
    """Even a value that lies beside its draws stays inside its own interval."""
    found = from_draws(5.0, np.linspace(0.0, 1.0, 101))
    assert found.low == pytest.approx(0.05)
    assert found.value == found.high == 5.0


@given(
    left=st.floats(1.0, 1e3),
    right=st.floats(1.0, 1e3),
    spread=st.floats(0.001, 0.5),
    factor=st.floats(0.01, 100.0),
)
def test_sums_and_scales_keep_their_errors(
    left: float, right: float, spread: float, factor: float
) -> None:
    """Variances add in sum and difference alike; a known factor changes no ratio."""
    a, b = lognormal(left, spread), lognormal(right, spread)
    both = total(a, b)
    assert both.value == pytest.approx(left + right)
    assert both.sd == pytest.approx(math.hypot(a.sd, b.sd))
    assert difference(a, b).sd == pytest.approx(both.sd)
    assert relative_sd(scaled(a, factor)) == pytest.approx(spread)
    assert scaled(a, factor).high == pytest.approx(a.high * factor)


def test_what_is_known_has_no_interval() -> None:
    """A stated figure, and nothing at all, have no error."""
    assert exact(3.0).low == exact(3.0).high == 3.0
    assert relative_sd(exact(0.0)) == 0.0
