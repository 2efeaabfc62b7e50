"""The shape of sizes against closed forms and drawn fish."""

import numpy as np
import pytest
from scipy import stats

from fishmeasure.estimation.model.lengths import collect_lengths
from fishmeasure.estimation.model.shape import Law, Shape, find_shape
from fishmeasure.estimation.nets import FishInNet, NetWeighing

B = 3.0


def law_of(z: np.ndarray) -> Law:
    """Return the law of drawn fish, standardised."""
    z = (z - z.mean()) / z.std()
    n = len(z)
    return Law(shares=np.full(n, 1.0 / n), places=z, sds=np.zeros(n))


def shape_of(x: np.ndarray, per_net: int) -> Shape:
    nets = tuple(
        NetWeighing(
            fish_count=per_net,
            fish=tuple(
                FishInNet(
                    fork_length_mm=float(250 * np.exp(v)),
                    relative_sd=0.003,
                    gross_probability=0.001,
                )
                for v in part
            ),
        )
        for part in x.reshape(-1, per_net)
    )
    lengths = collect_lengths(nets)
    assert lengths is not None
    return find_shape(lengths, B)


def test_a_normal_law_has_no_excess() -> None:
    """ln E exp(t z) of a normal is t^2 / 2."""
    law = Law(shares=np.ones(1), places=np.zeros(1), sds=np.ones(1))
    assert law.excess(np.array([0.3, 0.6])) == pytest.approx([0.0, 0.0], abs=1e-12)
    assert law.quantiles(np.array([0.05, 0.5, 0.9])) == pytest.approx(
        stats.norm.ppf([0.05, 0.5, 0.9]), abs=1e-9
    )


def test_two_groups_are_the_mixture_of_two_normals() -> None:
    """A third at -1, two thirds at 0.5, of one spread: by hand and by scipy."""
    shares, places = np.array([1 / 3, 2 / 3]), np.array([-1.0, 0.5])
    sd = np.sqrt(1.0 - shares @ places**2)
    law = Law(shares=shares, places=places, sds=np.full(2, sd))
    at = np.array([-1.2, 0.1, 0.9])
    exact = sum(
        share * stats.norm.cdf(at, place, sd)
        for share, place in zip(shares, places, strict=True)
    )
    assert law.below(at) == pytest.approx(exact, abs=1e-12)
    assert law.quantiles(exact) == pytest.approx(at, abs=1e-9)
    # E exp(0.4 z) = exp(0.08 sd^2) (exp(-0.4) / 3 + 2 exp(0.2) / 3)
    moment = np.exp(0.08 * sd**2) * (np.exp(-0.4) / 3.0 + 2.0 * np.exp(0.2) / 3.0)
    assert law.log_moment(np.array(0.4)) == pytest.approx(np.log(moment), rel=1e-12)


def test_a_skewed_batch_has_the_moments_of_its_gamma_distribution() -> None:
    """600 fish of skewness 1.3 about their nets: mean and CV of exp(3 x) agree.

    ln E exp(t (x - mean)) of a gamma of shape k and scale s is -k ln(1 - t s) - t k s.
    """
    k = 4.0 / 1.3**2
    scale = 0.085 / np.sqrt(k)
    x = np.random.default_rng(3).gamma(k, scale, 600)
    slope = np.array([B, 2.0 * B]) * 0.085
    exact = -k * np.log1p(-slope / np.sqrt(k)) - slope * np.sqrt(k) - 0.5 * slope**2
    found = shape_of(x, 30).law.excess(slope)
    spread, exact_spread = (e[1] - 2.0 * e[0] for e in (found, exact))
    assert spread == pytest.approx(exact_spread, abs=0.007)


def test_long_tails_say_less_of_their_spread() -> None:
    """Normal fish say nearly all, a long right tail less, two groups more.

    For weights about in proportion to x the factor is 2 / (kurtosis - 1): 1, 0.45 for
    the gamma of skewness 1.3 (kurtosis 3 + 1.5 * 1.3^2), and beyond 1 for two groups.
    """
    rng = np.random.default_rng(7)
    k = 4.0 / 1.3**2
    normal = shape_of(0.03 * rng.standard_normal(600), 30).temper
    skewed = shape_of(0.03 * rng.gamma(k, size=600) / np.sqrt(k), 30).temper
    groups = shape_of(
        rng.normal(0.0, 0.01, 600) + 0.06 * (rng.random(600) < 0.5), 30
    ).temper
    assert normal == pytest.approx(0.93, abs=0.15)
    assert skewed < 0.6
    assert groups > normal


def test_few_fish_are_drawn_towards_a_usual_batch() -> None:
    """Of eight fish less is claimed than they show; two in a net show nothing."""
    x = np.array([0.0, 0.01, 0.02, 0.02, 0.03, 0.04, 0.1, 0.25])
    shown = float(law_of(x).excess(np.array(0.5)))
    found = float(shape_of(x, 8).law.excess(np.array(0.5)))
    assert 0.0 < found < shown
    assert shape_of(np.random.default_rng(4).normal(0, 0.1, 20), 2).temper == 1.0


def test_fish_typed_in_as_one_figure_have_no_shape() -> None:
    """No spread, no shape, and no division by it."""
    assert shape_of(np.zeros(16), 8).law.places == pytest.approx([0.0])
