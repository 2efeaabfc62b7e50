"""Nets weighed and photographed in a tub: views, counts, and the weight's error."""

import math
from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.errors import SampleFileError
from fishmeasure.estimation.nets import NetWeighing, Scale
from fishmeasure.estimation.sample import read_sample
from fishmeasure.estimation.sample_table import sample_from_table
from fishmeasure.estimation.views import best_photos, doubts_of_net
from fishmeasure.photo.count import FishCount, count_of
from fishmeasure.photo.length import measure_between, shape_of
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement, weighed
from fishmeasure.pipeline import measure_sample
from fishmeasure.species import load_species
from tests.photo.length.test_measure import seen_from

TROUT = load_species("rainbow-trout")
TUB = """
date = 2026-05-02
[[net]]
fish = 4
gross_g = 9850
tare_g = 9200
photos = ["a.jpg", "b.jpg"]
in_water = true
water_depth_mm = 90
scale_division_g = 5
"""


def fish(length_px: float, *flags: str) -> MeasuredFish:
    ends = np.array([[1500.0, 1500.0], [1500.0 + length_px, 1500.0]])
    length = measure_between(ends[0], ends[1], seen_from(), shape_of(TROUT))
    return weighed(replace(length, flags=flags, complete=not flags), TROUT)


def photo(name: str, *some: MeasuredFish) -> PhotoMeasurement:
    count = count_of(some, 0, in_water=True)
    return PhotoMeasurement(
        photo=name, width_px=4000, height_px=3000, fish=some, fish_count=count
    )


WHOLE = photo("a.jpg", fish(1100), fish(1150), fish(1000), fish(1050))
PARTS = photo("b.jpg", fish(1100), fish(1150, "hidden"), fish(990, "touching"))


def test_of_a_tub_only_its_best_photo_counts() -> None:
    """The same fish have swum elsewhere in the other: none counts twice."""
    net = NetWeighing(fish_count=4, in_water=True)
    assert best_photos([PARTS, WHOLE], net) == [WHOLE]
    estimate = measure_sample(
        read_sample(TUB), TROUT, {"a.jpg": WHOLE, "b.jpg": PARTS}.__getitem__
    ).estimate
    assert estimate.fish_measured == 4


def test_photos_in_the_air_are_parts_of_a_net_unless_they_show_too_many() -> None:
    assert best_photos([PARTS, WHOLE], NetWeighing(fish_count=5)) == [PARTS, WHOLE]
    assert best_photos([PARTS, WHOLE], NetWeighing(fish_count=4)) == [WHOLE]


@pytest.mark.parametrize(
    ("entered", "codes"), [(4, []), (3, []), (8, ["count-unlike-photo"])]
)
def test_a_count_is_held_against_the_photo(entered: int, codes: list[str]) -> None:
    net = NetWeighing(fish_count=entered, in_water=True, label="net 1")
    found = doubts_of_net([PARTS, WHOLE], net)
    assert [problem.code for problem in found] == codes
    if found:
        assert "8 fish were entered" in found[0].message
        assert "shows 4" in found[0].message


def test_a_photo_in_the_air_may_show_a_part_of_the_net() -> None:
    assert not doubts_of_net([WHOLE], NetWeighing(fish_count=30))


def test_the_weight_in_a_tub_has_its_own_error() -> None:
    """By hand: two readings, 1 % of 650 g carried in, 10 g splashed out.

    Of 2 g and 5 / sqrt(12) = 1.443 g each: 2^2 + 1.443^2 = 6.083;
    sqrt(2 x 6.083 + 6.5^2 + 10^2) = 12.43 g.
    """
    net = read_sample(TUB).weighings[0]
    assert net.weight_g == 650.0
    assert net.weight_sd_g(Scale()) == pytest.approx(12.43, abs=0.01)
    dry = replace(net, in_water=False)
    assert dry.weight_sd_g(Scale()) == pytest.approx(math.sqrt(2 * 6.083), abs=0.01)


def test_the_scale_s_division_is_asked_for() -> None:
    text = TUB.replace("scale_division_g = 5\n", "")
    result = measure_sample(
        read_sample(text), TROUT, {"a.jpg": WHOLE, "b.jpg": PARTS}.__getitem__
    )
    asked = [one for one in result.problems if one.code == "scale-division"]
    assert len(asked) == 1
    assert "10 g" in asked[0].message


def test_a_depth_without_water_is_a_slip() -> None:
    with pytest.raises(SampleFileError, match="tub"):
        read_sample(TUB.replace("in_water = true\n", ""))


def test_a_table_may_say_that_a_net_is_in_the_tub() -> None:
    text = (
        "date,fish,gross_g,tare_g,in water\n2026-05-02,4,9850,9200,yes\n,4,900,300,no"
    )
    sample = sample_from_table(text)
    assert [net.in_water for net in sample.nets] == [True, False]


def test_a_count_covers_what_doubtful_fish_may_hide() -> None:
    """Ten plain fish are ten; half hidden ones make it less sure."""
    plain = count_of([fish(1000)] * 10, 0)
    assert plain == FishCount(value=10, low=9, high=11)
    heap = count_of([fish(1000, "hidden")] * 10, 0)
    assert heap.value == 10
    assert heap.high - heap.low > plain.high - plain.low
    assert plain.shifted(-2) == FishCount(value=8, low=7, high=9)
