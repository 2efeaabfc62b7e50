"""Nets: units, readings and their errors, and figures that cannot be."""

import math
from typing import Any

import pytest

from fishmeasure.base.errors import SampleFileError
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.estimation.nets import (
    NetWeighing,
    Scale,
    fish_in_net,
    shared_length_sd,
    to_grams,
)
from fishmeasure.estimation.sample import Net
from fishmeasure.photo.length import FishLength
from tests.photo.measured import fish_of_250_mm


@pytest.mark.parametrize(
    ("value", "unit", "grams"),
    [
        # NIST Handbook 44 (2024), appendix C: exact by definition.
        (1.0, "lb", 453.59237),
        (16.0, "oz", 453.59237),
        (1.0, "oz", 28.349523125),
        (2.5, "kg", 2500.0),
    ],
)
def test_units_are_exact(value: float, unit: str, grams: float) -> None:
    """Pounds and ounces are the legal ones."""
    assert to_grams(value, unit) == pytest.approx(grams, rel=1e-15)


def test_an_unknown_unit_is_a_bug_of_the_caller() -> None:
    """Units are checked where text is read, not here."""
    with pytest.raises(ValueError, match="stone"):
        to_grams(1.0, "stone")


def test_rounding_is_a_rectangular_error() -> None:
    """JCGM 100:2008, 4.3.7: half-width a has the variance a^2/3."""
    scale = Scale(resolution_g=10.0, sd_g=0.0)
    assert scale.reading_sd_g() == pytest.approx(5.0 / math.sqrt(3.0))


def test_repeats_shrink_the_reading_but_not_the_tare() -> None:
    """Four readings halve their own error; the one tare keeps its own."""
    scale = Scale(resolution_g=0.0, sd_g=2.0)
    once = NetWeighing(fish_count=5, net_g=1000.0)
    often = NetWeighing(fish_count=5, net_g=1000.0, repeats_g=(1002.0, 998.0, 1000.0))
    tared = NetWeighing(fish_count=5, gross_g=1500.0, tare_g=500.0)
    assert often.weight_g == 1000.0
    assert once.weight_sd_g(scale) == pytest.approx(2.0)
    assert often.weight_sd_g(scale) == pytest.approx(1.0)
    assert tared.weight_g == 1000.0
    assert tared.weight_sd_g(scale) == pytest.approx(math.sqrt(8.0))


@pytest.mark.parametrize(
    "figures",
    [
        {"fish": 0, "net_g": (100.0,)},
        {"fish": 3},
        {"fish": 3, "net_g": (0.0,)},
        {"fish": 3, "net_g": (math.nan,)},
        {"fish": 3, "gross_g": (math.inf,)},
        {"fish": 3, "gross_g": (100.0,), "net_g": (90.0,)},
        {"fish": 3, "gross_g": (100.0,), "tare_g": 100.0},
        {"fish": 3, "gross_g": (100.0,), "tare_g": -1.0},
        {"fish": 3, "net_g": (100.0, -1.0)},
        {"fish": 3, "net_g": (1e-4,)},
        {"fish": 3, "lengths_mm": (-250.0,)},
        {"fish": 3, "lengths_mm": (math.nan,)},
    ],
)
def test_figures_that_cannot_be_are_refused(figures: dict[str, Any]) -> None:
    """In Python as in a file or the API."""
    with pytest.raises(SampleFileError):
        Net(**figures)


def measured(*, fish: float, photo: float) -> FishLength:
    return fish_of_250_mm(
        UncertaintySource(name="end points", relative_sd=fish, scope="fish"),
        UncertaintySource(name="noise", relative_sd=fish, scope="fish"),
        UncertaintySource(name="scale", relative_sd=photo, scope="photo"),
    )


def test_only_a_fishs_own_error_goes_with_the_fish() -> None:
    """What the fish of a photo share is kept apart from what each has alone."""
    lengths = [measured(fish=0.01, photo=0.004), measured(fish=0.01, photo=0.006)]
    fish = fish_in_net(lengths, photo=2)
    assert fish[0].relative_sd == pytest.approx(0.01 * math.sqrt(2.0))
    assert fish[0].photo == 2
    assert shared_length_sd(lengths, "photo") == 0.006
    assert shared_length_sd(lengths, "sample") is None
