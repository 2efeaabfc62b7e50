"""The sample file: what it says is read, and every slip is a clear sentence."""

import datetime as dt
from typing import Any

import pytest

from fishmeasure.base.errors import SampleFileError
from fishmeasure.estimation.sample import read_sample
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.pipeline import measure_sample
from fishmeasure.species import load_species

WHOLE = """
date = 2026-05-02
unit = "Tank A"
species = "rainbow-trout"
count_in_unit = 240

[[net]]
fish = 8
gross_g = 1912
tare_g = 640
photos = ["a1.jpg"]

[[net]]
fish = 9
net_g = 1431
"""


def test_the_layout_of_the_contract_is_read() -> None:
    """The published example gives its own figures."""
    sample = read_sample(WHOLE)
    assert sample.date == dt.date(2026, 5, 2)
    assert sample.unit == "Tank A"
    assert sample.species == "rainbow-trout"
    assert sample.count_in_unit == 240
    assert sample.nets[0].photos == ("a1.jpg",)
    assert sample.weighings[0].weight_g == pytest.approx(1912 - 640)
    assert sample.weighings[1].weight_g == 1431
    assert [str(net.label) for net in sample.weighings] == ["net 1", "net 2"]


@pytest.mark.parametrize(
    ("line", "grams"),
    [
        ("net_kg = 1.5", 1500.0),
        # NIST Handbook 44 (2024), appendix C: 1 lb = 453.592 37 g exactly.
        ("net_lb = 3", 3 * 453.59237),
        # The same: 1 oz = 28.349 523 125 g exactly.
        ("net_oz = 10", 283.49523125),
        ("net_g = [1000, 1010]", 1005.0),
    ],
)
def test_weights_in_other_units_and_repeats(line: str, grams: float) -> None:
    """Units convert exactly, and a list is the mean of its readings."""
    sample = read_sample(f"[[net]]\nfish = 5\n{line}\n")
    assert sample.weighings[0].weight_g == pytest.approx(grams, rel=1e-12)


def test_lengths_stand_for_photos() -> None:
    """Lengths from a board become fish without a photo's common error."""
    sample = read_sample("[[net]]\nfish = 4\nlengths_mm = [250, 262.5]\n")
    weighing = sample.weighings[0]
    assert [fish.fork_length_mm for fish in weighing.fish] == [250.0, 262.5]
    assert weighing.photo_relative_sd == 0.0


def test_a_time_of_day_is_forgiven() -> None:
    """A date with a time keeps the date."""
    sample = read_sample("date = 2026-05-02T08:30:00\n[[net]]\nfish = 1\nnet_g = 9\n")
    assert sample.date == dt.date(2026, 5, 2)


def test_settings_change_the_defaults() -> None:
    """Scale, drip, count and lengths can be set."""
    sample = read_sample(
        "level = 0.8\n[scale]\nresolution_g = 5\n[drip]\nwet_tare = false\n"
        "[count]\nmiscount_probability = 0\n[lengths]\nfish_relative_sd = 0.02\n"
        "[[net]]\nfish = 2\nlengths_mm = [250]\n"
    )
    assert sample.settings.level == 0.8
    assert sample.settings.scale.resolution_g == 5.0
    assert sample.settings.drip.fraction > 0.01  # a dry tare leaves more water
    assert sample.weighings[0].miscount_probability == 0.0
    assert sample.weighings[0].fish[0].relative_sd == 0.02


NET = "[[net]]\nfish = 8\n"


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("", "net"),
        ("net = []", "net"),
        ("net = 3", "net"),
        ("this is not TOML", "valid TOML"),
        ("a = " + "[" * 5000, ""),
        (NET, "net 1"),
        ("[[net]]\nnet_g = 100", "net 1, fish"),
        (NET + "net_g = nan", "net 1, net_g"),
        (NET + "net_g = inf", "net 1, net_g"),
        (NET + "net_g = -5", "net 1, net_g"),
        (NET + "net_g = 0", "net 1, net_g"),
        (NET + "net_g = true", "net 1, net_g"),
        (NET + 'net_g = "900"', "net 1, net_g"),
        (NET + "net_g = 1e12", "net 1, net_g"),
        (NET + "net_g = []", "net 1, net_g"),
        (NET + "net_g = [1, nan]", "net 1, net_g"),
        (NET + "net_g = 9\nnet_kg = 9", "net 1, net"),
        (NET + "net_g = 9\ngross_g = 9", "net 1, net"),
        (NET + "tare_g = 9\nnet_g = 5", "net 1, tare"),
        (NET + "gross_g = 100\ntare_g = 200", "net 1"),
        (NET + "gross_g = 300\ntare_g = [2, 3]", "net 1, tare"),
        (NET + "net_g = 900\ncolour = 1", "net 1, colour"),
        (NET + "photos = 'a.jpg'", "net 1, photos"),
        (NET + "photos = [3]", "net 1, photos"),
        (NET + "photos = ['a', 'a']", "net 1, photos"),
        (NET + "photos = ['a']\nlengths_mm = [250]", "net 1, lengths_mm"),
        (NET + "lengths_mm = [250, 0]", "net 1, lengths_mm"),
        (NET + "lengths_mm = 250", "net 1, lengths_mm"),
        ("[[net]]\nfish = 1\nlengths_mm = [250, 260]", "net 1, lengths_mm"),
        ("[[net]]\nfish = 0\nnet_g = 9", "net 1, fish"),
        ("[[net]]\nfish = 8.5\nnet_g = 9", "net 1, fish"),
        ("[[net]]\nfish = -8\nnet_g = 9", "net 1, fish"),
        (NET + "net_g = 9\n[[net]]\nfish = true\nnet_g = 9", "net 2, fish"),
        ("date = '2 May'\n" + NET + "net_g = 9", "date"),
        ("unit = 5\n" + NET + "net_g = 9", "unit"),
        ("species = ''\n" + NET + "net_g = 9", "species"),
        ("count_in_unit = 0\n" + NET + "net_g = 9", "count_in_unit"),
        (NET + "net_kg = 2000", "look at the unit"),
        ("level = 90\n" + NET + "net_g = 9", "level"),
        ("scale = 4\n" + NET + "net_g = 9", "scale"),
        (NET + "net_g = 9\n[drip]\nfraction = 3", "[drip], fraction"),
        (NET + "net_g = 9\n[drip]\nwet_tare = 1", "[drip], wet_tare"),
        (NET + "net_g = 9\n[scale]\nstep = 3", "[scale], step"),
    ],
)
def test_every_slip_is_named(text: str, place: str) -> None:
    """A wrong file is refused with the place of what is wrong in it."""
    with pytest.raises(SampleFileError) as caught:
        read_sample(text)
    assert place in str(caught.value)


def test_a_misspelt_key_is_guessed() -> None:
    """The nearest key is offered."""
    with pytest.raises(SampleFileError, match="is gross_g meant"):
        read_sample("[[net]]\nfish = 8\ngros_g = 900\n")


def test_a_prior_is_no_result() -> None:
    """Lengths alone tell no K and no level; one net does not tell how nets differ."""
    lengths = "lengths_mm = [262, 243, 251, 236, 262, 228, 246, 239]"
    net = f"[[net]]\nfish = 8\n{lengths}\n"
    alone = answered(net * 2)
    assert alone["cv"] is not None
    nothing = ("condition_factor", "a", "b", "weight_over_published")
    assert [alone[name] for name in nothing] == [None] * 4
    weighed = answered(f"{net}net_g = 1910\n")
    assert None not in [weighed[name] for name in nothing]
    assert weighed["between_net_cv"] is None
    assert answered(f"{net}net_g = 1910\n{net}")["between_net_cv"] is not None
    assert weighed["condition_sd"] is None
    assert answered(f"{net}net_g = 1910\n" * 7)["condition_sd"] is not None


@pytest.mark.parametrize("second_g", [1610, 2300])
def test_a_calculator_agrees_with_the_netted_fish(second_g: int) -> None:
    """The weights, less what is told to be taken off, over the fish: also where one net
    is half as heavy again as its lengths and the other net say.
    """
    lengths = "[262, 243, 251, 236, 262, 228, 246, 239]"
    found = answered(
        f"[[net]]\nfish = 8\nnet_g = 1530\nlengths_mm = {lengths}\n"
        f"[[net]]\nfish = 8\nnet_g = {second_g}\nlengths_mm = {lengths}\n"
        f"[[net]]\nfish = 8\nnet_g = 1570\nlengths_mm = {lengths}\n"
    )
    off = {one["name"]: one["taken_off_g"] for one in found["corrections"]}
    assert ("doubt" in off) == (second_g == 2300)
    mean_g = (1530 + second_g + 1570 - off["drip"]) / 24 - off.get("doubt", 0.0)
    assert found["handled_mean_weight_g"] == pytest.approx(mean_g, rel=0.0035)


def answered(text: str) -> dict[str, Any]:
    """Return the JSON of a sample without photos."""

    def no_photo(_: str) -> PhotoMeasurement:
        raise AssertionError

    sample = read_sample(text)
    return measure_sample(sample, load_species("rainbow-trout"), no_photo).to_json()
