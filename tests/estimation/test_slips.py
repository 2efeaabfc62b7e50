"""Slips with scales and counts, each made on purpose and once corrected."""

from dataclasses import replace

import pytest

from fishmeasure.estimation.nets import NetWeighing
from fishmeasure.estimation.slips import likely_slips

GOOD = tuple(
    NetWeighing(fish_count=8, net_g=grams, label=f"net {number}")
    for number, grams in enumerate((530.0, 551.0, 522.0, 540.0, 610.0), 1)
)


def named(*nets: NetWeighing) -> list[str]:
    """Return the slips that are named."""
    told = [problem.parameters for problem in likely_slips(nets)]
    return [str(figures["slip"]) for figures in told if figures is not None]


def test_nets_as_chance_has_them_are_left_alone() -> None:
    """A net of fish a fifth heavier than the others' is no slip."""
    assert named(*GOOD) == []
    assert named(*GOOD[:4], replace(GOOD[4], net_g=660.0)) == []


@pytest.mark.parametrize(
    ("wrong", "slip"),
    [
        ({"fish_count": 80}, "count-tenfold"),
        ({"net_g": 0.522}, "grams-for-kilograms"),
        ({"net_g": 522_000.0}, "kilograms-for-grams"),
        ({"net_g": 522.0 * 2.2046}, "kilograms-for-pounds"),
        ({"net_g": 522.0 / 2.2046}, "pounds-for-kilograms"),
        ({"net_g": 5220.0}, "weight-tenfold"),
    ],
)
def test_a_slip_is_named(wrong: dict[str, float], slip: str) -> None:
    """One net of five, with what a grower could have typed."""
    nets = [*GOOD]
    nets[2] = replace(nets[2], **wrong)  # type: ignore[arg-type]
    assert named(*nets) == [slip]


def test_a_forgotten_tare_is_named() -> None:
    """A wet net of 600 g left in the weight of 522 g of fish."""
    nets = [
        replace(n, net_g=None, gross_g=(n.net_g or 0.0) + 600.0, tare_g=600.0)
        for n in GOOD
    ]
    nets[2] = NetWeighing(fish_count=8, gross_g=1122.0, tare_g=0.0, label="net 3")
    assert named(*nets) == ["tare-forgotten"]


@pytest.mark.parametrize("gross_g", [18_790.0, 1879.0 / 0.453_592_37])
def test_a_slip_on_the_gross_reading_comes_before_the_tare(gross_g: float) -> None:
    """Twelve fish of 103 g and a net of 640 g weigh 1,879 g; 18,790 g less 640 g is
    14.6 times too much, and a tenth of that, 1,815 g, would be no such fish.
    """
    grams = (1239.0, 1270.0, 1205.0, 1250.0, 1221.0)
    nets = [
        NetWeighing(fish_count=12, gross_g=g + 640.0, tare_g=640.0, label=f"net {i}")
        for i, g in enumerate(grams, 1)
    ]
    nets[0] = replace(nets[0], gross_g=gross_g)
    (problem,) = likely_slips(tuple(nets))
    assert problem.parameters is not None
    assert problem.parameters["slip"] == "gross"
    assert problem.parameters["right_gross_g"] == pytest.approx(1879.0)
    assert "1879 g, it would fit" in problem.message


def test_a_count_of_a_tenth_is_known_by_the_others_counts() -> None:
    """Two fish of together 1,350 g beside nets of twenty: the count, not the weight."""
    nets = [replace(n, fish_count=20, net_g=(n.net_g or 0.0) * 2.5) for n in GOOD]
    nets[2] = replace(nets[2], fish_count=2)
    assert named(*nets) == ["count-tenth"]


def test_two_nets_name_none() -> None:
    """Of two that differ nobody knows which is wrong."""
    assert named(GOOD[0], replace(GOOD[1], fish_count=80)) == []
