"""What is taken off the weights as read, against sums by hand."""

import numpy as np
import pytest

from fishmeasure.estimation.model import PopulationEstimate, estimate_population
from fishmeasure.estimation.nets import DripWater, Netting, SampleSettings
from tests.estimation.makers import Dip, Truth, draw, published_line

HEAVIER = 0.05


def estimated(dip: Dip, drip: float, heavier: float = 0.0) -> PopulationEstimate:
    """Return an estimate with drip and netting that are known surely."""
    nets = draw(Truth(), [dip] * 4, np.random.default_rng(5)).nets
    settings = SampleSettings(
        drip=DripWater(fraction=drip, sd=0.0, net_sd=0.003),
        netting=Netting(heavier=heavier, relative_sd=0.0),
    )
    return estimate_population(nets, published=published_line(), settings=settings)


def test_drip_water_is_a_share_of_what_was_weighed() -> None:
    """Of wet fish of 1.04 parts, 0.04 is water."""
    nets = draw(Truth(), [Dip(fish=8)] * 4, np.random.default_rng(5)).nets
    wet_g = sum(net.net_g or 0.0 for net in nets)
    (drip,) = estimated(Dip(fish=8), 0.04).corrections
    assert drip.name == "drip"
    assert drip.fraction == pytest.approx(0.04, rel=0.02)
    assert drip.taken_off_g == pytest.approx(wet_g * 0.04 / 1.04, rel=0.02)


def test_where_nothing_was_weighed_no_water_is_taken_off() -> None:
    assert estimated(Dip(fish=8, weighed=False), 0.04).corrections == ()


def test_netted_fish_that_are_heavier_make_those_of_the_unit_lighter() -> None:
    """The netted weigh 1.05 times the others: 0.05 of the unit's mean is taken off."""
    alike, heavier = (estimated(Dip(fish=8), 0.04, h) for h in (0.0, HEAVIER))
    (found,) = (c for c in heavier.corrections if c.name == "netting")
    assert found.fraction == HEAVIER
    mean_g = alike.mean_weight_g.value / (1.0 + HEAVIER)
    assert heavier.mean_weight_g.value == pytest.approx(mean_g, rel=1e-3)
    assert found.taken_off_g == pytest.approx(HEAVIER * mean_g, rel=1e-3)
    # Lengths go with the cube root of weights on this line, of exponent 3.
    assert alike.fork_length_mean_mm is not None
    assert heavier.fork_length_mean_mm is not None
    shorter = heavier.fork_length_mean_mm.value / alike.fork_length_mean_mm.value
    assert shorter == pytest.approx((1.0 + HEAVIER) ** (-1.0 / 3.0), rel=2e-3)
    handled = (e.handled_mean_weight_g.value for e in (alike, heavier))
    assert next(handled) == pytest.approx(next(handled))
