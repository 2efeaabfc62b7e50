"""The likelihood of lengths against exact sums, and which fish are doubted."""

from dataclasses import replace

import numpy as np
import pytest
from scipy import stats
from scipy.special import logsumexp

from fishmeasure.estimation.model.lengths import (
    Lengths,
    collect_lengths,
    net_means,
)
from fishmeasure.estimation.nets import FishInNet, NetWeighing
from tests.estimation.makers import Dip, Truth, draw

SIGMA = np.geomspace(0.05, 0.14, 31)


def lengths_of(truth: Truth, dips: list[Dip], seed: int) -> Lengths:
    lengths = collect_lengths(draw(truth, dips, np.random.default_rng(seed)).nets)
    assert lengths is not None
    return lengths


def exact_log_evidence(lengths: Lengths) -> np.ndarray:
    """Sum normal fish over one net's mean on a fine grid, for each sigma."""
    mean = np.linspace(-0.08, 0.08, 401)
    variance = SIGMA[:, None, None] ** 2 + lengths.error_variance
    density = stats.norm.logpdf(lengths.x, mean[None, :, None], np.sqrt(variance))
    # A fish counts with the probability that its length is no gross error.
    result: np.ndarray = logsumexp(density @ (1.0 - lengths.gross), axis=1)
    return result


@pytest.mark.parametrize("gross_fraction", [0.0, 0.08])
def test_the_spread_is_that_of_the_exact_sum(gross_fraction: float) -> None:
    """The closed form gives the sigma that summing over the mean gives."""
    truth = Truth(gross_fraction=gross_fraction, photo_sd=0.0)
    lengths = lengths_of(truth, [Dip(fish=40)], seed=3)
    lengths = replace(lengths, photo_variance=0.0 * lengths.photo_variance)
    exact = exact_log_evidence(lengths)
    found = net_means(lengths, SIGMA).log_evidence
    weights = [np.exp(e - logsumexp(e)) for e in (exact, found)]
    assert weights[1] @ SIGMA == pytest.approx(weights[0] @ SIGMA, rel=0.001)


def test_without_doubts_a_net_mean_is_the_plain_mean() -> None:
    """With no gross errors supposed, the weights are all alike."""
    lengths = lengths_of(Truth(), [Dip(fish=12)], seed=4)
    lengths = replace(lengths, gross=0.0 * lengths.gross)
    means = net_means(lengths, SIGMA)
    assert means.mean[15, 0] == pytest.approx(lengths.x.mean(), abs=1e-12)


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


def with_one_short(doubt: float) -> tuple[Lengths, Lengths]:
    """Return seven fish, and the same with one a third too short and so doubtful."""
    lengths = (251, 240, 262, 247, 255, 244, 258)
    good = tuple(FishInNet(fork_length_mm=mm) for mm in lengths)
    wrong = FishInNet(fork_length_mm=160.0, gross_probability=doubt)
    pair = [
        collect_lengths((NetWeighing(fish_count=8, fish=fish),))
        for fish in (good, (*good, wrong))
    ]
    assert pair[0] is not None
    assert pair[1] is not None
    return pair[0], pair[1]


def test_a_doubtful_length_far_out_is_a_gross_error() -> None:
    """A fish a third too short that the photo doubts hardly moves the net's mean."""
    pair = with_one_short(0.4)
    assert pair[1].gross.max() > 0.8
    clean, dirty = (net_means(lengths, np.array([0.06])) for lengths in pair)
    moved = (
        dirty.mean[0, 0]
        + np.log(pair[1].reference_mm)
        - clean.mean[0, 0]
        - np.log(pair[0].reference_mm)
    )
    # The plain mean would move by ln(160 / 251) / 8 = -5.6 %.
    assert abs(moved) < 0.015


def test_being_far_out_alone_condemns_no_fish() -> None:
    """The same fish is a runt where the photo is sure of it."""
    assert with_one_short(0.005)[1].gross.max() < 0.25


def test_where_sure_fish_are_far_out_a_doubtful_one_may_be_too() -> None:
    """Runts that are measured surely lower the odds against one that is not."""
    common = [250.0 + 3.0 * i for i in range(-8, 9)]

    def doubt(runts: int) -> float:
        fish = [FishInNet(fork_length_mm=mm, gross_probability=0.01) for mm in common]
        fish += [
            FishInNet(fork_length_mm=150.0 + i, gross_probability=0.005)
            for i in range(runts)
        ]
        fish.append(FishInNet(fork_length_mm=155.0, gross_probability=0.1))
        lengths = collect_lengths((NetWeighing(fish_count=30, fish=tuple(fish)),))
        assert lengths is not None
        place = int(np.argmin(np.abs(lengths.reference_mm * np.exp(lengths.x) - 155.0)))
        return float(lengths.gross[place])

    assert doubt(4) < 0.6 * doubt(0)


def test_a_length_that_is_surely_wrong_counts_for_nothing() -> None:
    """The net's mean and its variance are those of the seven others alone.

    However sure a photo is, some doubt of that is left, so that all is finite.
    """
    pair = with_one_short(1.0)
    assert pair[1].gross.max() == pytest.approx(1.0, abs=1e-4)
    clean, dirty = (net_means(lengths, np.array([0.06])) for lengths in pair)
    logs = [np.log(pair[i].reference_mm) for i in (0, 1)]
    wanted = clean.mean[0, 0] + logs[0]
    assert dirty.mean[0, 0] + logs[1] == pytest.approx(wanted, abs=1e-3)
    assert dirty.variance[0, 0] == pytest.approx(clean.variance[0, 0], rel=0.03)
    sure = with_one_short(0.0)[1]
    assert np.all((sure.gross > 0.0) & (sure.gross < 0.25))
