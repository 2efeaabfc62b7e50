"""What a net's weight says of a doubtful length, against Bayes' rule by hand.

One fish of the first net may be grossly wrong; the others were measured without error,
so all that is unknown is which of two sums the net's weight is. Both are normal in
the logarithm, and the odds between them are scipy's densities.
"""

from typing import Any, Final

import numpy as np
import pytest
from scipy import stats
from scipy.special import logit

from fishmeasure.estimation.model.lengths import Lengths
from fishmeasure.estimation.model.netweight import learn_from_weights
from fishmeasure.estimation.nets import DripWater, NetWeighing, SampleSettings, Scale
from tests.estimation.makers import published_line

SIGMA: Final = 0.1
SURE: Final = 40
"""Fish of the reference length; with so many the doubtful one moves no mean."""
LONG: Final = 0.8
"""ln of the doubtful fish's length over theirs."""
DOUBT: Final = 0.3
LEVEL_G: Final = 0.0138 * 20.0**3
"""Weight of a fish of 200 mm by the published line."""
DRIP: Final = DripWater(fraction=0.02, sd=0.0, net_sd=0.004)
USUAL: Final = float(np.exp(0.5 * (3.0 * SIGMA) ** 2))
"""Mean weight of a fish of its net's usual sizes: that of the log-normal."""


def lengths_of(nets: int = 1, error_variance: float = 0.0) -> Lengths:
    """Return SURE fish a net, and one that is doubtful in the first."""
    first = [0.0] * SURE + [LONG]
    x = np.array(first + [0.0] * SURE * (nets - 1))
    starts = np.array([0, SURE + 1])[:nets]
    doubtful = x == LONG
    return Lengths(
        x=x,
        error_variance=np.where(doubtful, error_variance, 0.0),
        photo_start=starts,
        photo_net=np.arange(nets),
        photo_variance=np.zeros(nets),
        net_start=np.arange(nets),
        net_ids=np.arange(nets),
        reference_mm=200.0,
        gross=np.where(doubtful, DOUBT, 0.0),
        first_sigma=SIGMA,
        counts=np.ones(len(x)),
    )


def net(
    fish: float, *, more: int = 0, doubtful: int = 1, **figures: Any
) -> NetWeighing:
    """Return a net that weighs as much as so many fish of the reference length."""
    return NetWeighing(
        fish_count=SURE + doubtful + more,
        net_g=fish * LEVEL_G * (1.0 + DRIP.fraction),
        **({"miscount_probability": 0.0} | figures),
    )


def log_odds(
    nets: tuple[NetWeighing, ...],
    *,
    published_sd: float,
    scale: Scale | None = None,
    error_variance: float = 0.0,
) -> float:
    """Return by how much the nets' weights change the log odds of a gross error."""
    found = learn_from_weights(
        lengths_of(len(nets), error_variance),
        nets,
        published_line(relative_sd=published_sd),
        SampleSettings(
            drip=DRIP,
            scale=scale or Scale(resolution_g=0.0, sd_g=0.0, relative_sd=0.0),
        ),
    )
    return float(logit(found.gross[SURE]) - logit(DOUBT))


def by_hand(fish: float, sums: tuple[float, float], variance: float) -> float:
    """Return ln of the densities' ratio, gross over sound; sums in fish."""
    sd = np.sqrt(variance)
    gross, sound = (stats.norm.logpdf(np.log(fish / s), scale=sd) for s in sums)
    return float(gross - sound)


def fish_for(odds: float, sums: tuple[float, float], variance: float) -> float:
    """Return the weight, in fish, for which the odds of a gross error are that.

    The densities' ratio is linear in ln weight, and nil in the middle of the sums.
    """
    low, high = np.log(sums)
    return float(np.exp((low + high) / 2.0 - odds * variance / (high - low)))


PLAIN: Final = 0.08**2 / (SURE + 1) + DRIP.net_sd**2
"""Variance of ln weight: single fish about the line, and drip water."""
SUMS: Final = (SURE + USUAL, SURE + np.exp(3.0 * LONG))


@pytest.mark.parametrize("fish", [SURE + 1.0, SURE + 6.0, SURE + 11.0])
def test_one_net_is_held_against_the_published_line(fish: float) -> None:
    """Long for a fish of its net it weighs as 11 of them (e^2.4), else as one."""
    told = log_odds((net(fish),), published_sd=0.1)
    assert told == pytest.approx(by_hand(fish, SUMS, PLAIN + 0.1**2), abs=0.05)


@pytest.mark.parametrize(
    ("figures", "scale_sd_g", "more"),
    [
        ({"count_sd": 1.0}, 0.0, (1.0 / 41) ** 2),
        ({"miscount_probability": 0.25}, 0.0, 0.25 / 41**2),
        ({}, 100.0, 100.0**2),
    ],
)
def test_what_makes_the_weight_unsure_makes_it_say_less(
    figures: dict[str, Any], scale_sd_g: float, more: float
) -> None:
    """A weight that says 3 says more than 4 where the error is left out."""
    if scale_sd_g:  # of about 45 fish; the share is the variance of ln weight
        more /= (45.5 * LEVEL_G * (1.0 + DRIP.fraction)) ** 2
    variance = PLAIN + 0.01**2 + more
    fish = fish_for(3.0, SUMS, variance)
    assert by_hand(fish, SUMS, variance - more) > 4.0
    scale = Scale(resolution_g=0.0, sd_g=scale_sd_g, relative_sd=0.0)
    told = log_odds((net(fish, **figures),), published_sd=0.01, scale=scale)
    assert told == pytest.approx(3.0, abs=0.1)


def test_a_length_that_errs_is_drawn_towards_the_nets_usual_one() -> None:
    """Error as large as the spread: half of it is believed, and half the variance left.

    ln W is then normal about 3 x 0.4 with variance 9 x 0.01 / 2, its mean
    e^(1.2 + 0.0225) = 3.4 (normal prior and likelihood in any textbook).
    """
    sound = SURE + np.exp(3.0 * LONG / 2.0 + 0.5 * 9.0 * SIGMA**2 / 2.0)
    told = log_odds((net(SURE + 1.0),), published_sd=0.05, error_variance=SIGMA**2)
    wanted = by_hand(SURE + 1.0, (SURE + USUAL, sound), PLAIN + 0.05**2)
    assert told == pytest.approx(wanted, abs=0.03)


@pytest.mark.parametrize("odds", [-2.0, 3.0])
def test_the_other_nets_say_how_heavy_the_stock_is(odds: float) -> None:
    """Fish 30 % over the line in both nets, and a line of which little is known.

    The level is the other net's, so its variance is added; a count that may be 2 off
    is most of it, (2 / 40)^2.
    """
    other = net(1.3 * SURE, doubtful=0, count_sd=2.0)
    of_other = 0.08**2 / SURE + DRIP.net_sd**2 + (2.0 / SURE) ** 2
    fish = fish_for(odds, SUMS, PLAIN + of_other)
    told = log_odds((net(1.3 * fish), other), published_sd=50.0)
    assert told == pytest.approx(odds, abs=0.1)


@pytest.mark.parametrize("odds", [-2.0, 3.0])
def test_the_line_and_the_other_nets_are_weighed_by_their_errors(odds: float) -> None:
    """Precisions add, and the level is the mean that they weigh."""
    other = net(1.3 * SURE, doubtful=0, count_sd=2.0)
    by_net = 1.0 / (0.08**2 / SURE + DRIP.net_sd**2 + (2.0 / SURE) ** 2)
    by_line = 1.0 / 0.04**2
    level = np.exp(np.log(1.3) * by_net / (by_net + by_line))
    fish = fish_for(odds, SUMS, PLAIN + 1.0 / (by_net + by_line))
    told = log_odds((net(level * fish), other), published_sd=0.04)
    assert told == pytest.approx(odds, abs=0.15)


def test_fish_without_a_length_are_of_usual_size_and_widen_it() -> None:
    """Thirty more fish weigh USUAL each, with a CV of 0.3 about it: 30 x 0.1.

    Of the one that is doubtful 0.9 is gross in the end, odds of 3 from 0.3.
    """
    sums = (SUMS[0] + 30.0 * USUAL, SUMS[1] + 30.0 * USUAL)
    unseen = 30.0 * 0.1 * USUAL**2 / (0.9 * sums[0] + 0.1 * sums[1]) ** 2
    variance = 0.08**2 / (SURE + 31) + DRIP.net_sd**2 + 0.03**2
    fish = fish_for(3.0, sums, variance + unseen)
    assert by_hand(fish, sums, variance) > 4.0
    told = log_odds((net(fish, more=30),), published_sd=0.03)
    assert told == pytest.approx(3.0, abs=0.25)


def test_a_weight_is_no_witness_beyond_four() -> None:
    assert log_odds((net(SURE + 1.0),), published_sd=0.001) == pytest.approx(4.0)
    assert log_odds((net(SURE + 11.0),), published_sd=0.001) == pytest.approx(-4.0)


def test_a_net_that_was_not_weighed_says_nothing() -> None:
    unweighed = NetWeighing(fish_count=SURE + 1)
    assert log_odds((unweighed,), published_sd=0.1) == pytest.approx(0.0, abs=1e-9)
    other = net(1.3 * SURE, doubtful=0)
    assert log_odds((unweighed, other), published_sd=0.1) == pytest.approx(0.0)
