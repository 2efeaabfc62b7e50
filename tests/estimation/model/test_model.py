"""The closed forms against numpy's and scipy's general ones."""

from dataclasses import replace

import numpy as np
import pytest
from scipy import stats

from fishmeasure.estimation.model.estimate import prepare
from fishmeasure.estimation.model.grid import MU_SD
from fishmeasure.estimation.model.lengths import collect_lengths
from fishmeasure.estimation.model.model import SOUND, SampleModel
from fishmeasure.estimation.model.nets import (
    net_information,
    weighing_variance,
    weight_term,
)
from fishmeasure.estimation.model.shape import Shape, shape_table
from fishmeasure.estimation.nets import FishInNet, NetWeighing, SampleSettings
from tests.estimation.makers import Dip, Truth, draw, published_line


def model_of(nets: tuple[NetWeighing, ...]) -> SampleModel:
    return prepare(nets, published_line(), SampleSettings(), collect_lengths(nets))


def one_point(model: SampleModel) -> SampleModel:
    return model.sliced(9, [4], [3], 3)


def dense_posterior(
    small: SampleModel,
) -> tuple[np.ndarray, np.ndarray, float]:
    """Return mean and covariance of (mu, eta), and ln density of what was seen.

    All unknowns and observations as one normal vector, conditioned as any textbook
    does (Bishop 2006, 2.3.1): nothing of the model's own algebra.
    """
    nets = len(small.nets)
    tau2 = float(small.grid.tau[0] ** 2)
    level = small.level
    prior = np.diag(
        [MU_SD**2, float(level.alpha_variance[0]), level.drip_variance] + [tau2] * nets
    )
    centre = np.array([0.0, float(level.alpha[0]), level.drip] + [0.0] * nets)
    rows, seen, noise = [], [], []
    for index, net in enumerate(small.nets):
        j = small.measured_index.get(index)
        if j is not None and small.means is not None:
            row = np.zeros(3 + nets)
            row[0] = row[3 + index] = 1.0
            rows.append(row)
            seen.append(float(small.means.mean[0, j]))
            noise.append(float(small.means.variance[0, j]))
        if net.weight_g is not None:
            term = weight_term(small, index)
            row = np.zeros(3 + nets)
            row[0] = row[3 + index] = term.slope.item()
            row[1] = row[2] = 1.0
            rows.append(row)
            seen.append(np.log(net.weight_g) - term.constant.item())
            extra = weighing_variance(net, net.weight_g, small.settings, SOUND)
            noise.append(term.variance.item() + extra)
    design, values = np.array(rows), np.array(seen)
    spread = design @ prior @ design.T + np.diag(noise)
    gain = prior @ design.T @ np.linalg.inv(spread)
    mean = centre + gain @ (values - design @ centre)
    covariance = prior - gain @ design @ prior
    wanted = np.zeros((2, 3 + nets))
    wanted[0, 0] = wanted[1, 1] = wanted[1, 2] = 1.0
    density = stats.multivariate_normal(design @ centre, spread).logpdf(values)
    return wanted @ mean, wanted @ covariance @ wanted.T, float(density)


@pytest.mark.parametrize("seed", range(4))
def test_the_posterior_is_that_of_dense_conditioning(seed: int) -> None:
    """Mean, covariance and evidence agree with conditioning one big normal."""
    dips = [
        Dip(fish=8),
        Dip(fish=6, photographed=False),
        Dip(fish=9, weighed=False),
        Dip(fish=5),
    ]
    drawn = draw(Truth(), dips, np.random.default_rng(seed))
    small = one_point(model_of(drawn.nets))
    total = start = small.start()
    for index in range(len(small.nets)):
        total = total.plus(net_information(small, index))
    solution = small.solve(total)
    mean, covariance, density = dense_posterior(small)
    assert [solution.mu.item(), solution.eta.item()] == pytest.approx(mean, rel=1e-9)
    found = [
        [solution.mu_variance.item(), solution.covariance.item()],
        [solution.covariance.item(), solution.eta_variance.item()],
    ]
    assert np.array(found) == pytest.approx(covariance, rel=1e-7)
    evidence = solution.log_mass.item() - start.log_evidence.item()
    assert evidence == pytest.approx(density, abs=1e-8)


@pytest.mark.parametrize("measured", [0, 5, 8])
def test_a_nets_weight_has_the_moments_of_drawn_fish(measured: int) -> None:
    """ln of the sum agrees with 40 000 drawn nets, given the measured lengths."""
    rng = np.random.default_rng(5)
    seen = 250.0 * np.exp(rng.normal(0.0, 0.09, measured))
    net = NetWeighing(
        fish_count=8,
        net_g=2000.0,
        fish=tuple(FishInNet(fork_length_mm=float(mm)) for mm in seen),
        photo_relative_sd=1e-9,
    )
    # A second net, so that there is a length to refer to.
    other = NetWeighing(
        fish_count=2,
        fish=tuple(FishInNet(fork_length_mm=mm) for mm in (249.0, 251.0)),
    )
    small = one_point(model_of((net, other)))
    # The fish that were not measured are drawn as normal ones here.
    grid = small.grid
    small = replace(small, table=shape_table(Shape.usual(), grid.sigma, grid.b))
    b, sigma = float(small.grid.b[0]), float(small.grid.sigma[0])
    kappa, noise = float(small.grid.kappa[0]), 0.012
    # The term is linear about the mean that the lengths tell; there the moments hold.
    mean = 0.02 if small.sums is None else float(small.sums.at[0, 0])
    gross = np.zeros(measured)
    if measured and small.means is not None:
        lengths = collect_lengths((net, other))
        assert lengths is not None
        gross = lengths.gross[:measured]
    x = np.sort(np.log(seen / small.reference_mm))
    draws = 40_000
    keep = sigma**2 / (sigma**2 + noise**2)
    clean = mean + keep * (x - mean)
    loose = sigma**2 / (sigma**2 + noise**2 + 0.15**2)
    is_gross = rng.random((draws, measured)) < gross
    centre = np.where(is_gross, mean + loose * (x - mean), clean)
    spread = sigma * np.sqrt(np.where(is_gross, 1 - loose, 1 - keep))
    true_x = np.hstack(
        [
            centre + spread * rng.normal(size=(draws, measured)),
            rng.normal(mean, sigma, (draws, 8 - measured)),
        ]
    )
    weight = np.exp(b * true_x + kappa * rng.normal(size=true_x.shape)).sum(axis=1)
    term = weight_term(small, 0)
    predicted = term.constant.item() + term.slope.item() * mean
    assert predicted == pytest.approx(np.log(weight).mean(), abs=0.006)
    assert term.variance.item() == pytest.approx(np.log(weight).var(), rel=0.06)


def test_an_empty_net_says_nothing() -> None:
    """A net neither weighed nor measured has no information, only a place."""
    drawn = draw(Truth(), [Dip(fish=4, weighed=False)], np.random.default_rng(1))
    model = one_point(model_of((*drawn.nets, NetWeighing(fish_count=3))))
    nothing = net_information(model, 1)
    assert float(np.sum(np.abs(nothing.mm) + np.abs(nothing.ee))) == 0.0
