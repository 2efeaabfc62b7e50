"""Two nets' photos exchanged, and one net photographed as two."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from fishmeasure.base.flags import Problem
from fishmeasure.estimation.exchanged import exchanged_photos
from fishmeasure.estimation.nets import FishInNet, NetWeighing, SampleSettings
from fishmeasure.estimation.same_fish import same_fish
from tests.accuracy.mixed_photos import Design, asked, share
from tests.estimation.makers import published_line

# Three nets of eight; weights are 0.0138 L^3 (L in cm) of the first lengths, times 1.01
# of drip water: 1,550 g, 1,976 g and 1,612 g.
LENGTHS = (
    (212, 243, 251, 236, 262, 228, 246, 239),
    (263, 271, 248, 255, 281, 239, 266, 258),
    (231, 252, 244, 268, 239, 257, 222, 229),
)


def net(number: int, lengths: tuple[float, ...], weigh: tuple[float, ...]) -> Any:
    """Return a net whose fish are as long as its photo says, or as another's."""
    grams = 1.01 * sum(0.0138 * (mm / 10.0) ** 3 for mm in weigh)
    return NetWeighing(
        fish_count=len(weigh),
        net_g=round(grams),
        fish=tuple(
            FishInNet(fork_length_mm=mm + 0.137, relative_sd=0.006) for mm in lengths
        ),
        label=f"net {number}",
    )


NETS = tuple(net(n, each, each) for n, each in enumerate(LENGTHS, 1))


def exchanged(*nets: NetWeighing) -> list[Problem]:
    """Return what is said of their photos."""
    return exchanged_photos(nets, published_line(), SampleSettings())


def test_right_nets_are_left_alone() -> None:
    """Each weighs what its lengths say."""
    assert exchanged(*NETS) == []
    assert same_fish(NETS, {}) == []


@pytest.mark.parametrize("others", [0, 1])
def test_exchanged_photos_are_named_with_how_far_off_they_are(others: int) -> None:
    """1,550 g beside lengths of 1,976 g is 1 - 1550 / 1976 = 21.6 % too light, and
    1,976 g beside lengths of 1,550 g is 27.5 % too heavy.
    """
    assert (NETS[0].net_g, NETS[1].net_g) == (1550.0, 1976.0)
    wrong = (net(1, LENGTHS[1], LENGTHS[0]), net(2, LENGTHS[0], LENGTHS[1]))
    (found,) = exchanged(*wrong, *NETS[2 : 2 + others])
    told = dict(found.parameters or {})
    assert (told["case"], told["net"], told["other"]) == ("light", "net 1", "net 2")
    assert told["net_off"] == pytest.approx(0.216, abs=0.002)
    assert told["other_off"] == pytest.approx(0.275, abs=0.002)
    assert "net 1 is too light by 22 %" in found.message


def test_one_net_that_is_off_is_no_exchange() -> None:
    """A count of 80 for 8, or a tare left in: no other photo explains it."""
    ten_times = replace(NETS[0], fish_count=80)
    assert exchanged(ten_times, *NETS[1:]) == []
    assert exchanged(replace(NETS[0], net_g=2227.0), *NETS[1:]) == []


def test_a_picture_saved_twice_is_named() -> None:
    """The same lengths to a third of a millimetre, in another order."""
    lengths = tuple(mm + 0.3 * (-1) ** at for at, mm in enumerate(reversed(LENGTHS[0])))
    twice = net(2, lengths, LENGTHS[1])
    (found,) = same_fish((NETS[0], twice, NETS[2]), {})
    assert "photo of net 2 are as long, one by one, as those of net 1" in found.message


def test_lengths_written_down_in_steps_are_not_one_net() -> None:
    """In steps of 10 mm most lengths of two nets are the same figure."""
    rng = np.random.default_rng(5)
    for _ in range(20):
        lengths = 10.0 * np.round(rng.normal(25.0, 2.0, (2, 8)))
        nets = tuple(
            NetWeighing(
                fish_count=8,
                fish=tuple(
                    FishInNet(fork_length_mm=float(mm), relative_sd=0.004) for mm in row
                ),
                label=f"net {at}",
            )
            for at, row in enumerate(lengths, 1)
        )
        assert same_fish(nets, {}) == []


def test_how_many_are_asked() -> None:
    """The table of ``tests.accuracy.mixed_photos`` in small."""
    usual = Design(length_sd=0.006)
    assert share(usual, "right", 25)[2] <= 0.08
    assert all(asked(usual, "saved twice", seed)[0] for seed in range(8))
    assert share(usual, "exchanged", 25)[1] >= 0.25
