"""Weights of a sample's fish by their own stock."""

from dataclasses import replace

import pytest

from fishmeasure.base.estimate import Estimate, UncertaintySource
from fishmeasure.photo.measurement import PhotoMeasurement, weighed
from fishmeasure.photo.stockweights import of_the_stock
from fishmeasure.species import load_species
from tests.photo.measured import fish_of_250_mm

TROUT = load_species("rainbow-trout")
RATIO = Estimate.normal(0.9, 0.018, 0.9)


def test_a_light_stocks_fish_weigh_less_and_are_better_known() -> None:
    """A tenth lighter than published, known to 2 %, where the published is to 25 %."""
    own = UncertaintySource(name="ends", relative_sd=0.01, scope="fish")
    fish = weighed(fish_of_250_mm(own), TROUT)
    assert fish.weight_g is not None
    assert fish.weight_se_g is not None
    photo = PhotoMeasurement(
        photo="net.jpg",
        width_px=10,
        height_px=10,
        fish=(fish, replace(fish, species="arctic-char")),
        mean_weight_g=fish.weight_g,
        mean_weight_interval_g=(1.0, 1000.0),
    )
    found = of_the_stock(photo, TROUT, RATIO)
    light, char = found.fish
    assert light.weight_g is not None
    assert light.weight_g == pytest.approx(0.9 * fish.weight_g, rel=1e-6)
    assert light.weight_se_g is not None
    assert light.weight_se_g / light.weight_g < 0.7 * fish.weight_se_g / fish.weight_g
    assert light.weight_low_g is not None
    assert light.weight_high_g is not None
    assert light.weight_low_g < light.weight_g < light.weight_high_g
    # Fish of another kind were not in the nets that told the ratio.
    assert char.weight_g == fish.weight_g
    assert found.mean_weight_interval_g is not None
    assert found.mean_weight_interval_g[0] > 0.5 * fish.weight_g
