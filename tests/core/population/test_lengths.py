"""The robust length likelihood against exact sums and drawn fish."""

import numpy as np
import pytest
from scipy import stats
from scipy.special import logsumexp

from fishmeasure.estimation.model.lengths import (
    GROSS_FRACTIONS,
    GROSS_PRIOR,
    GROSS_SD,
    Lengths,
    collect_lengths,
    net_means,
)
from fishmeasure.estimation.nets import FishInNet, NetWeighing
from tests.core.population.makers import Dip, Truth, draw

SIGMA = np.geomspace(0.05, 0.14, 31)


def lengths_of(truth: Truth, dips: list[Dip], seed: int) -> Lengths:
    lengths = collect_lengths(draw(truth, dips, np.random.default_rng(seed)).nets)
    assert lengths is not None
    return lengths


def exact_log_evidence(lengths: Lengths) -> np.ndarray:
    """Sum the mixture over one net's mean on a fine grid, for each sigma."""
    mean = np.linspace(-0.08, 0.08, 401)
    clean = SIGMA[:, None, None] ** 2 + 0.012**2
    gross = clean + GROSS_SD**2
    total = []
    for fraction, prior in zip(GROSS_FRACTIONS, GROSS_PRIOR, strict=True):
        density = (1 - fraction) * stats.norm.pdf(
            lengths.x, mean[None, :, None], np.sqrt(clean)
        ) + fraction * stats.norm.pdf(lengths.x, mean[None, :, None], np.sqrt(gross))
        total.append(np.log(density).sum(axis=2) + np.log(prior))
    result: np.ndarray = logsumexp(total, axis=(0, 2))
    return result


@pytest.mark.parametrize("gross_fraction", [0.0, 0.08])
def test_the_spread_is_that_of_the_exact_mixture(gross_fraction: float) -> None:
    """The touching normals give the sigma that the exact likelihood gives."""
    truth = Truth(gross_fraction=gross_fraction, photo_sd=0.0)
    lengths = lengths_of(truth, [Dip(fish=40)], seed=3)
    exact = exact_log_evidence(lengths)
    found = net_means(lengths, SIGMA).log_evidence
    weights = [np.exp(e - logsumexp(e)) for e in (exact, found)]
    assert weights[1] @ SIGMA == pytest.approx(weights[0] @ SIGMA, rel=0.01)


def test_without_gross_errors_a_net_mean_is_the_plain_mean() -> None:
    """With hardly any gross errors supposed, the weights are all alike."""
    lengths = lengths_of(Truth(), [Dip(fish=12)], seed=4)
    hardly = np.array([1e-12] * len(GROSS_FRACTIONS))
    hardly[0] = 1.0
    means = net_means(lengths, SIGMA, gross_prior=hardly)
    assert means.mean[15, 0] == pytest.approx(lengths.x.mean(), abs=1e-3)


def test_two_photos_of_a_net_share_nothing_but_the_net() -> None:
    """The net's mean has both photos' errors in it, each with its own weight."""
    fish = tuple(
        FishInNet(fork_length_mm=250.0 + i + 5.0 * photo, photo=photo)
        for photo in (0, 1)
        for i in range(6)
    )
    net = NetWeighing(fish_count=12, fish=fish, photo_relative_sd=0.02)
    lengths = collect_lengths((net,))
    assert lengths is not None
    means = net_means(lengths, SIGMA)
    within = 1.0 / (1.0 / (SIGMA[0] ** 2 / 6 + 0.02**2) * 2)
    assert means.variance[0, 0] == pytest.approx(within, rel=0.1)
    assert means.photo_gain.shape == (31, 2)


def test_a_gross_length_is_known_as_one() -> None:
    """A fish a third too short is doubted; the net's mean hardly moves."""
    lengths = (251, 240, 262, 247, 255, 244, 258)
    good = tuple(FishInNet(fork_length_mm=mm) for mm in lengths)
    wrong = FishInNet(fork_length_mm=160.0)
    pair = [
        collect_lengths((NetWeighing(fish_count=8, fish=fish),))
        for fish in (good, (*good, wrong))
    ]
    assert pair[0] is not None
    assert pair[1] is not None
    clean, dirty = (net_means(lengths, np.array([0.06])) for lengths in pair if lengths)
    assert dirty.gross[0].max() > 0.95
    moved = (
        dirty.mean[0, 0]
        + np.log(pair[1].reference_mm)
        - clean.mean[0, 0]
        - np.log(pair[0].reference_mm)
    )
    # The plain mean would move by ln(160 / 251) / 8 = -5.6 %.
    assert abs(moved) < 0.015
