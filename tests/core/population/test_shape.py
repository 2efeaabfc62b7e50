"""Skewed and two-humped distributions against drawn ones."""

import numpy as np
import pytest
from scipy import stats

from fishmeasure.estimation.model.groups import Split
from fishmeasure.estimation.model.lengths import collect_lengths, net_means
from fishmeasure.estimation.model.shape import Shape, Standardised, find_shape
from fishmeasure.estimation.nets import FishInNet, NetWeighing

B, SIGMA = np.array([3.0]), np.array([0.09])


def test_the_moments_of_a_skewed_batch() -> None:
    """Mean and CV of exp(3 x) for a gamma x of skewness 0.5, in closed form."""
    k = 16.0  # skewness 2 / sqrt(k)
    theta = 0.09 / np.sqrt(k)

    def log_moment(order: float) -> float:
        """Return ln E exp(order (x - mean)) of the gamma distribution."""
        return float(-k * np.log1p(-order * theta) - order * k * theta)

    shape = Shape(skewness=0.5)
    normal = 0.5 * (3.0 * 0.09) ** 2
    assert normal + shape.excess(B, SIGMA)[0] == pytest.approx(
        log_moment(3.0), abs=0.0005
    )
    spread = shape.log_spread(B, SIGMA, np.zeros(1))[0]
    assert spread == pytest.approx(log_moment(6.0) - 2 * log_moment(3.0), rel=0.02)


def test_the_quantiles_of_a_skewed_batch() -> None:
    """Within 0.02 sd of Pearson's type III, as scipy has it."""
    exact = stats.pearson3(0.4)
    found = Standardised(skewness=0.4)
    for fraction in (0.05, 0.25, 0.5, 0.75, 0.95):
        value = found.quantile(fraction)
        assert value == pytest.approx(exact.ppf(fraction), abs=0.02)
        assert found.below(value) == pytest.approx(fraction, abs=1e-9)


@pytest.mark.parametrize(("skewness", "value"), [(1.0, -40.0), (-1.0, 40.0)])
def test_beyond_the_skewed_distributions_end(skewness: float, value: float) -> None:
    """All or none of the fish are below."""
    assert Standardised(skewness=skewness).below(value) == float(value > 0)


def test_two_groups_have_the_moments_of_their_mixture() -> None:
    """200 000 drawn fish agree with mean, CV and shares."""
    split = Split(low_fraction=0.3, low=-0.2, high=0.1, sd=0.06)
    rng = np.random.default_rng(1)
    small = rng.random(200_000) < 0.3
    x = np.where(small, -0.2, 0.1) + rng.normal(0.0, 0.06, 200_000)
    shape = Shape(split=split)
    sd = np.array([x.std()])
    weight = np.exp(3.0 * (x - x.mean()))
    log_mean = 0.5 * (3.0 * sd) ** 2 + shape.excess(B, sd)
    assert np.exp(log_mean[0]) == pytest.approx(weight.mean(), rel=0.005)
    spread = shape.log_spread(B, sd, np.zeros(1))[0]
    assert np.sqrt(np.expm1(spread)) == pytest.approx(
        weight.std() / weight.mean(), rel=0.01
    )
    standard = shape.standardised(3.0, float(sd[0]), float((3.0 * sd[0]) ** 2))
    z = (x - x.mean()) / x.std()
    for fraction in (0.1, 0.3, 0.5, 0.9):
        place = standard.quantile(fraction)
        assert place == pytest.approx(float(np.quantile(z, fraction)), abs=0.04)
        assert standard.below(place) == pytest.approx(fraction, abs=1e-6)


def shape_of(x: np.ndarray, per_net: int) -> Shape:
    nets = tuple(
        NetWeighing(
            fish_count=per_net,
            fish=tuple(FishInNet(fork_length_mm=float(250 * np.exp(v))) for v in part),
        )
        for part in x.reshape(-1, per_net)
    )
    lengths = collect_lengths(nets)
    assert lengths is not None
    return find_shape(lengths, net_means(lengths, np.geomspace(0.05, 0.14, 20)), None)


def test_skewness_is_found_with_enough_fish_only() -> None:
    """Of 600 fish most of it is seen; of 16 nearly nothing is claimed."""
    rng = np.random.default_rng(3)
    x = 0.09 * stats.pearson3(0.6).rvs(600, random_state=rng)
    many, few = shape_of(x, 30), shape_of(x[:16], 8)
    assert many.skewness == pytest.approx(0.6, abs=0.25)
    assert many.skewness_sd < 0.12
    assert abs(few.skewness) < 0.5
    assert few.skewness_sd > 0.35


def test_pairs_say_nothing_of_skewness() -> None:
    """Two fish about their mean are always symmetric."""
    assert shape_of(np.random.default_rng(4).normal(0, 0.1, 20), 2).skewness == 0.0


def test_groups_need_a_split() -> None:
    """Asking a single group for its parts is a bug."""
    with pytest.raises(ValueError, match="None"):
        Shape()._groups()
    with pytest.raises(ValueError, match="0"):
        Standardised()._below_groups(0.0)
