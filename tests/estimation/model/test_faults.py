"""Nets that do not agree are flagged with the right reason, and kept."""

from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.estimation.model import (
    PopulationEstimate,
    answer_from_json,
    estimate_population,
    estimate_to_json,
)
from fishmeasure.estimation.nets import FishInNet, NetWeighing
from tests.estimation.makers import Dip, Truth, draw, published_line


def sound_nets(seed: int = 3, nets: int = 6) -> tuple[NetWeighing, ...]:
    return draw(Truth(), [Dip(fish=8)] * nets, np.random.default_rng(seed)).nets


def with_first(
    change: NetWeighing, nets: tuple[NetWeighing, ...]
) -> PopulationEstimate:
    return estimate_population((change, *nets[1:]), published=published_line())


@pytest.mark.parametrize("seed", range(8))
def test_sound_nets_are_not_flagged(seed: int) -> None:
    """Chance alone flags no net of these samples."""
    estimate = estimate_population(sound_nets(seed), published=published_line())
    assert not any(report.flag for report in estimate.nets)
    assert all(abs(report.residual_z or 0.0) < 3.5 for report in estimate.nets)


@pytest.mark.parametrize(("error", "fits"), [(1, "fits 8"), (-1, "fits 8")])
def test_a_count_off_by_one_is_said(error: int, fits: str) -> None:
    """The weight of eight fish noted as seven or nine."""
    nets = sound_nets()
    estimate = with_first(replace(nets[0], fish_count=8 + error), nets)
    report = estimate.nets[0]
    assert report.flag == "count"
    assert fits in str(report.reason)
    assert [p.code for p in estimate.problems].count("net-disagrees") == 1
    sound = estimate_population(nets, published=published_line()).mean_weight_g
    assert estimate.mean_weight_g.value == pytest.approx(sound.value, rel=0.02)


def test_a_forgotten_tare_is_named() -> None:
    """The excess is the other nets' tare."""
    nets = tuple(
        replace(net, gross_g=net.net_g + 640, tare_g=640.0, net_g=None)
        for net in sound_nets()
        if net.net_g is not None
    )
    estimate = with_first(replace(nets[0], tare_g=None), nets)
    report = estimate.nets[0]
    assert report.flag == "weight"
    assert "tare of 640 g that was not taken off" in str(report.reason)
    assert report.residual_percent is not None
    assert report.residual_percent > 20


def test_a_reason_is_kept_as_a_sentence_and_read_as_it_was_said() -> None:
    """Also one that an earlier program kept, in words of its own."""
    nets = sound_nets()
    stored = estimate_to_json(with_first(replace(nets[0], fish_count=9), nets))
    first = stored["nets"][0]
    assert "the count is probably off by one" in first["reason"]
    assert str(answer_from_json(stored).nets[0].reason) == first["reason"]
    assert answer_from_json(stored).nets[1].reason is None
    first["reason"] = "Count it again (2 of 3)."
    assert str(answer_from_json(stored).nets[0].reason) == "Count it again (2 of 3)."


def test_a_tare_taken_off_twice_is_named() -> None:
    """The missing weight is the tare."""
    nets = tuple(
        replace(net, gross_g=net.net_g + 640, tare_g=640.0, net_g=None)
        for net in sound_nets()
        if net.net_g is not None
    )
    first = nets[0]
    assert first.gross_g is not None
    estimate = with_first(replace(first, gross_g=first.gross_g - 640), nets)
    assert "taken off twice" in str(estimate.nets[0].reason)


def test_a_slipped_digit_is_a_wrong_weight() -> None:
    """No tare explains it, so the figure itself is to be looked at."""
    nets = sound_nets()
    assert nets[0].net_g is not None
    estimate = with_first(replace(nets[0], net_g=nets[0].net_g * 1.9), nets)
    assert estimate.nets[0].flag == "weight"
    assert "check the tare, the scale's unit" in str(estimate.nets[0].reason)
    sound = estimate_population(nets, published=published_line())
    handled = estimate.handled_mean_weight_g.value
    assert handled == pytest.approx(sound.handled_mean_weight_g.value, rel=0.02)


@pytest.mark.parametrize("weighed", [True, False])
def test_another_cohort_is_said(*, weighed: bool) -> None:
    """Fish a third longer than in the other nets, weight and lengths agreeing."""
    nets = sound_nets(nets=8)
    first = nets[0]
    assert first.net_g is not None
    longer = tuple(
        replace(fish, fork_length_mm=fish.fork_length_mm * 1.35) for fish in first.fish
    )
    other = replace(
        first, fish=longer, net_g=first.net_g * 1.35**3 if weighed else None
    )
    estimate = with_first(other, nets)
    assert estimate.nets[0].flag == "other-fish"
    assert "another cohort" in str(estimate.nets[0].reason)
    assert not any(report.flag for report in estimate.nets[1:])


def test_more_fish_in_the_photo_than_counted_is_noted() -> None:
    """The photo's count stands against the hand's."""
    nets = sound_nets()
    estimate = with_first(replace(nets[0], fish_count=7), nets)
    assert "count-differs" in {p.code for p in estimate.problems}


def test_a_single_net_has_nothing_to_be_compared_with() -> None:
    """No residual, no flag, and a note."""
    estimate = estimate_population(sound_nets()[:1], published=published_line())
    assert estimate.nets[0].residual_percent is None
    assert "one-net" in {p.code for p in estimate.problems}


def test_readings_that_differ_are_noted() -> None:
    """Repeated weighings 60 g apart are no repeats."""
    nets = sound_nets()
    assert nets[0].net_g is not None
    estimate = with_first(replace(nets[0], repeats_g=(nets[0].net_g + 60,)), nets)
    assert "repeats-differ" in {p.code for p in estimate.problems}


def test_a_wrong_length_is_named_and_hardly_counts() -> None:
    """One fish read as half its length is pointed at."""
    nets = sound_nets()
    fish = (FishInNet(fork_length_mm=125.0), *nets[0].fish[1:])
    estimate = with_first(replace(nets[0], fish=fish), nets)
    assert [round(d.fork_length_mm) for d in estimate.doubtful_lengths] == [125]
    note = next(p for p in estimate.problems if p.code == "doubtful-lengths")
    assert "125 mm in net 1" in note.message
    sound = estimate_population(nets, published=published_line())
    assert estimate.cv.value == pytest.approx(sound.cv.value, rel=0.1)


def test_a_single_net_can_contradict_the_book() -> None:
    """A weight six times what any condition gives is flagged without others."""
    net = sound_nets()[0]
    assert net.net_g is not None
    estimate = estimate_population(
        (replace(net, net_g=6 * net.net_g),), published=published_line()
    )
    assert estimate.nets[0].flag == "weight"
    assert "do not go together" in str(estimate.nets[0].reason)
