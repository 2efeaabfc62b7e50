"""Spread and condition of an entered sample, with their errors."""

from typing import Any

import numpy as np
import pytest

from fishmeasure.base.errors import BadEntryError
from fishmeasure.book.cv_and_condition import condition_factor, weight_cv
from fishmeasure.book.entries import Sample
from tests.book.build import day, same


def sample(**fields: Any) -> Sample:
    """Return a sample of 200 g on average."""
    plain: dict[str, Any] = {
        "id": same(1),
        "on": day(0),
        "unit_id": same(2),
        "cohort_id": same(3),
        "mean_weight_g": 200.0,
        "mean_weight_low_g": 185.0,
        "mean_weight_high_g": 216.0,
    }
    return Sample(**(plain | fields))


@pytest.mark.parametrize("fish_count", [8, 30, 200])
def test_interval_of_k_is_that_of_simulated_samples(fish_count: int) -> None:
    """K = 100 W / L^3 of 4,000 drawn net samples scatters as much as is said.

    Fork lengths of 25 cm with the log sd 0.085 between fish; ln W = ln(1.2 L^3 / 100)
    and 0.10 of scatter (Gregory & Arismendi 2020); all lengths of a sample share an
    error of 0.8 %, its weighing one of 1 %. W and L are the means of the same fish.
    """
    rng = np.random.default_rng(17)
    lengths_cm = 25.0 * np.exp(rng.normal(0.0, 0.085, (4000, fish_count)))
    scatter = np.exp(rng.normal(0.0, 0.10, lengths_cm.shape))
    weights_g = 1.2 * lengths_cm**3 / 100.0 * scatter
    cubes = (lengths_cm**3).mean(axis=1) * np.exp(3.0 * rng.normal(0.0, 0.008, 4000))
    factors = 100.0 * weights_g.mean(axis=1) * np.exp(rng.normal(0, 0.01, 4000)) / cubes
    found = condition_factor(sample(condition_factor=1.2, fish_measured=fish_count))
    assert found is not None
    assert found.sd / found.value == pytest.approx(np.log(factors).std(), rel=0.06)
    low, high = np.quantile(factors / np.median(factors), [0.05, 0.95])
    assert found.low / found.value == pytest.approx(low, abs=0.006)
    assert found.high / found.value == pytest.approx(high, abs=0.006)


def test_a_stated_interval_of_k_is_kept() -> None:
    """What measured the fish knows more than the book."""
    found = condition_factor(
        sample(
            condition_factor=1.24,
            condition_factor_low=1.18,
            condition_factor_high=1.30,
            level=0.95,
        )
    )
    assert found is not None
    assert (found.value, found.low, found.high, found.level) == (1.24, 1.18, 1.3, 0.95)
    # the normal 95 % interval is 1.96 standard errors either way
    assert found.sd == pytest.approx(0.12 / (2 * 1.96), rel=1e-3)


def test_what_a_sample_does_not_say_stays_unknown() -> None:
    """No K, no interval; no CV, none made up."""
    assert condition_factor(sample()) is None
    assert weight_cv(sample()) is None


@pytest.mark.parametrize(
    ("factor", "low", "high"),
    [(1.2, 1.1, None), (None, 1.1, 1.3), (1.4, 1.1, 1.3)],
)
def test_half_an_interval_is_refused(
    factor: float | None, low: float | None, high: float | None
) -> None:
    """Both ends, and the figure between them."""
    with pytest.raises(BadEntryError, match="must lie from"):
        sample(
            condition_factor=factor,
            condition_factor_low=low,
            condition_factor_high=high,
        )
