"""The estimate on drawn samples, in its three modes."""

import json

import numpy as np
import pytest

from fishmeasure.errors import EmptySampleError
from fishmeasure.netweigh import NetWeighing
from fishmeasure.population import estimate_population, estimate_to_json
from tests.core.population.makers import Dip, Truth, book, draw


@pytest.mark.parametrize(
    ("dips", "mode"),
    [
        ([Dip(fish=8)] * 4, "both"),
        ([Dip(fish=10, photographed=False)] * 4, "bulk-only"),
        ([Dip(fish=10, weighed=False)] * 4, "photo-only"),
    ],
)
def test_the_mean_is_found_in_each_mode(dips: list[Dip], mode: str) -> None:
    """The interval holds the handled fish's true mean, and says its mode."""
    drawn = draw(Truth(), dips, np.random.default_rng(5))
    estimate = estimate_population(drawn.nets, book=book())
    assert estimate.mode == mode
    mean = estimate.mean_weight_g
    assert mean.low < drawn.handled_mean_g < mean.high
    handled = estimate.handled_mean_weight_g
    assert handled.low < drawn.handled_mean_g < handled.high
    json.dumps(estimate_to_json(estimate), allow_nan=False)


def test_photos_alone_are_never_narrow() -> None:
    """A book's level, +-25 %, stays in the interval however many fish are seen."""
    dips = [Dip(fish=30, weighed=False)] * 20
    drawn = draw(Truth(), dips, np.random.default_rng(6))
    mean = estimate_population(drawn.nets, book=book()).mean_weight_g
    assert (mean.high - mean.low) / (2 * mean.value) > 0.25


def test_a_sample_without_figures_is_refused() -> None:
    """There is no estimate from a mere count."""
    with pytest.raises(EmptySampleError):
        estimate_population((NetWeighing(fish_count=8),), book=book())
