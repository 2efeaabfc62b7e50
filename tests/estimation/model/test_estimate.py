"""The estimate on drawn samples, in its three modes."""

import json
from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.errors import EmptySampleError
from fishmeasure.estimation.model import (
    PopulationEstimate,
    estimate_population,
    estimate_to_json,
)
from fishmeasure.estimation.nets import (
    FishInNet,
    Netting,
    NetWeighing,
    SampleSettings,
)
from tests.estimation.makers import Dip, Truth, draw, published_line


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
    estimate = estimate_population(drawn.nets, published=published_line())
    assert estimate.mode == mode
    mean = estimate.mean_weight_g
    assert mean.low < drawn.handled_mean_g < mean.high
    handled = estimate.handled_mean_weight_g
    assert handled.low < drawn.handled_mean_g < handled.high
    json.dumps(estimate_to_json(estimate), allow_nan=False)


def test_photos_alone_are_never_narrow() -> None:
    """A published level, +-25 %, stays in the interval however many fish are seen."""
    dips = [Dip(fish=30, weighed=False)] * 20
    drawn = draw(Truth(), dips, np.random.default_rng(6))
    mean = estimate_population(drawn.nets, published=published_line()).mean_weight_g
    assert (mean.high - mean.low) / (2 * mean.value) > 0.25


def test_a_sample_without_figures_is_refused() -> None:
    """There is no estimate from a mere count."""
    with pytest.raises(EmptySampleError):
        estimate_population((NetWeighing(fish_count=8),), published=published_line())


def test_a_unit_netted_empty_is_known_like_its_weighings() -> None:
    """With every fish handled, the population's mean is the handled fish's."""
    drawn = draw(Truth(), [Dip(fish=8)] * 5, np.random.default_rng(7))
    estimate = estimate_population(
        drawn.nets, published=published_line(), count_in_unit=40
    )
    mean, handled = estimate.mean_weight_g, estimate.handled_mean_weight_g
    assert (mean.low, mean.high) == pytest.approx((handled.low, handled.high))
    assert estimate.biomass_kg is not None
    assert estimate.biomass_kg.value == pytest.approx(0.040 * mean.value)
    total_kg = sum(w.sum() for w in drawn.weights_g) / 1000
    assert estimate.biomass_kg.low < total_kg < estimate.biomass_kg.high


def test_the_finite_population_correction_is_cochrans() -> None:
    """Nets of 8 from 160 fish: sampling error times sqrt(1 - 80/160)."""
    drawn = draw(Truth(), [Dip(fish=8)] * 10, np.random.default_rng(8))
    # No correction shrinks what a net that chooses by size does.
    fair = SampleSettings(netting=Netting(relative_sd=0.0))
    endless, finite = (
        estimate_population(
            drawn.nets, published=published_line(), settings=fair, count_in_unit=count
        )
        for count in (None, 160)
    )
    common = endless.handled_mean_weight_g.sd / endless.handled_mean_weight_g.value
    whole, part = (
        (e.mean_weight_g.sd / e.mean_weight_g.value) ** 2 - common**2
        for e in (endless, finite)
    )
    assert part / whole == pytest.approx(0.5, abs=0.06)


def test_an_unsure_count_widens_the_biomass_alone() -> None:
    """The relative errors of count and mean add as squares."""
    drawn = draw(Truth(), [Dip(fish=8)] * 4, np.random.default_rng(9))
    sure, unsure = (
        estimate_population(
            drawn.nets,
            published=published_line(),
            count_in_unit=500,
            count_in_unit_sd=sd,
        )
        for sd in (0.0, 50.0)
    )
    assert sure.mean_weight_g == unsure.mean_weight_g
    assert sure.biomass_kg is not None
    assert unsure.biomass_kg is not None
    # Mean weight times count, as a calculator has it, in both.
    for one in (sure, unsure):
        told = one.mean_weight_g.value * 500 / 1000
        assert one.biomass_kg is not None
        assert one.biomass_kg.value == pytest.approx(told)
    relative = [e.sd / e.value for e in (sure.biomass_kg, unsure.biomass_kg)]
    assert relative[1] ** 2 - relative[0] ** 2 == pytest.approx(0.01, rel=1e-6)


def test_more_handled_than_the_unit_holds_is_noted() -> None:
    """A count that cannot be is not used: it would make the intervals vanish."""
    drawn = draw(Truth(), [Dip(fish=8)] * 4, np.random.default_rng(9))
    estimate = estimate_population(
        drawn.nets, published=published_line(), count_in_unit=20
    )
    assert "count-in-unit-too-small" in {p.code for p in estimate.problems}
    endless = estimate_population(drawn.nets, published=published_line())
    assert estimate.mean_weight_g == endless.mean_weight_g
    assert estimate.cv == endless.cv
    assert estimate.biomass_kg is None


def test_notes_say_what_stands_on_what() -> None:
    """Photo-only, bulk-only, unused nets and fish outside the published range."""
    rng = np.random.default_rng(10)
    photos = draw(Truth(), [Dip(fish=8, weighed=False)] * 2, rng).nets
    bulk = draw(Truth(), [Dip(fish=8, photographed=False)] * 2, rng).nets
    empty = NetWeighing(fish_count=5)
    by_photos = estimate_population(
        (*photos, empty), published=published_line(max_length_mm=240.0)
    )
    assert {p.code for p in by_photos.problems} >= {
        "photo-only",
        "net-unused",
        "outside-species-range",
    }
    assert by_photos.fish_handled == 21
    by_bulk = estimate_population(bulk, published=published_line())
    assert {p.code for p in by_bulk.problems} == {"bulk-only"}
    assert by_bulk.fork_length_mean_mm is None
    assert by_bulk.condition_factor is None
    own = estimate_population(
        photos, published=published_line(relative_sd=0.06, b_sd=0.0)
    )
    note = next(p for p in own.problems if p.code == "photo-only")
    assert "this length-weight line" in note.message
    assert (own.line.b.low, own.line.b.high) == pytest.approx((3.0, 3.0))


def of_condition(factor: float) -> PopulationEstimate:
    """Return the estimate of two nets of fish with a condition factor of 1.38 x."""
    lengths_mm = (231.0, 240.0, 222.0, 251.0, 236.0, 244.0, 229.0, 238.0)
    fish = tuple(FishInNet(fork_length_mm=length) for length in lengths_mm)
    weight_g = factor * 0.0138 * sum((length / 10.0) ** 3 for length in lengths_mm)
    net = NetWeighing(fish_count=8, net_g=weight_g, fish=fish)
    return estimate_population((net, net), published=published_line())


@pytest.mark.parametrize(
    ("factor", "fatal"),
    [
        # K from 0.8 to 1.6 is what salmonids have (Barnham & Baxter 1998, from memory)
        (1.6 / 1.38, []),
        (1.0 / 1.38, []),
        (2.0, [False]),
        (0.5, [False]),
        (4.0, [True]),
        (1.0 / 4.0, [True]),
        (28.35, [True]),  # ounces that were entered as grams
        (1.0 / 1000.0, [True]),  # kilograms that were
    ],
)
def test_weights_that_no_fish_of_these_lengths_has(
    factor: float, fatal: list[bool]
) -> None:
    """Unusual ones are doubted, those that cannot be are no figures to use."""
    found = [p for p in of_condition(factor).problems if p.code == "far-from-published"]
    assert [problem.fatal for problem in found] == fatal


def test_a_mean_beyond_the_species_is_doubted_without_lengths() -> None:
    """8 fish of 90 kg together: kilograms of another fish, or grams mistaken."""
    for net_g, outside in ((90_000.0, True), (8.0, True), (1600.0, False)):
        estimate = estimate_population(
            (NetWeighing(fish_count=8, net_g=net_g),), published=published_line()
        )
        codes = {problem.code for problem in estimate.problems}
        assert ("outside-species-range" in codes) == outside


def test_errors_are_told_by_their_scope() -> None:
    """With bulk weights sampling leads; with photos alone the species' a does."""
    rng = np.random.default_rng(11)
    both = estimate_population(
        draw(Truth(), [Dip(fish=8)] * 4, rng).nets, published=published_line()
    )
    photos = estimate_population(
        draw(Truth(), [Dip(fish=30, weighed=False)] * 6, rng).nets,
        published=published_line(),
    )
    largest = [
        max(e.sources, key=lambda s: s.relative_sd).scope for e in (both, photos)
    ]
    assert largest == ["fish", "species"]
    assert {s.scope for s in photos.sources} == {
        "fish",
        "net",
        "photo",
        "sample",
        "species",
    }
    for estimate in (both, photos):
        total = np.sqrt(sum(s.relative_sd**2 for s in estimate.sources))
        mean = estimate.mean_weight_g
        assert total == pytest.approx(mean.sd / mean.value, rel=0.15)


def test_a_partly_measured_net_counts_all_its_fish() -> None:
    """Fish not complete are in the weight and the count, not in the lengths."""
    drawn = draw(Truth(), [Dip(fish=10)] * 4, np.random.default_rng(12))
    nets = tuple(
        replace(
            net,
            fish=tuple(
                replace(fish, complete=number >= 4)
                for number, fish in enumerate(net.fish)
            ),
        )
        for net in drawn.nets
    )
    estimate = estimate_population(nets, published=published_line())
    assert estimate.fish_measured == 24
    assert estimate.fish_handled == 40
    handled = estimate.handled_mean_weight_g
    assert handled.value == pytest.approx(drawn.handled_mean_g, rel=0.02)
    assert estimate.line.level_ratio.low < 1.0 < estimate.line.level_ratio.high


def test_a_book_for_total_length_is_a_bug_of_the_caller() -> None:
    """Lengths are fork lengths here."""
    drawn = draw(Truth(), [Dip(fish=8)], np.random.default_rng(1))
    with pytest.raises(ValueError, match="total"):
        estimate_population(drawn.nets, published=published_line(length_kind="total"))
    with pytest.raises(ValueError, match="0"):
        estimate_population(drawn.nets, published=published_line(), count_in_unit=0)


def test_intervals_hold_the_truth_as_often_as_they_say() -> None:
    """Of 40 samples 31 or more hold mean, CV, level and condition factor.

    By chance it is fewer in 1 % of cases. The mean condition factor of the truth is
    100 x 0.0138 x level x exp(kappa^2 / 2), b being 3.

    The full table is ``tests/accuracy/population_table.py``.
    """
    held = np.zeros(4)
    truth = Truth(level=0.9)
    condition = 1.38 * truth.level * np.exp(truth.kappa**2 / 2)
    for seed in range(40):
        drawn = draw(truth, [Dip(fish=8)] * 4, np.random.default_rng([seed, 77]))
        estimate = estimate_population(drawn.nets, published=published_line())
        line, factor = estimate.line, estimate.condition_factor
        assert factor is not None
        level = truth.weight_at(line.at_length_mm) / (
            0.0138 * (line.at_length_mm / 10) ** 3
        )
        held += [
            estimate.mean_weight_g.low
            < truth.mean_weight_g
            < estimate.mean_weight_g.high,
            estimate.cv.low < truth.cv < estimate.cv.high,
            line.level_ratio.low < level < line.level_ratio.high,
            factor.low < condition < factor.high,
        ]
    assert held.min() >= 31


def test_photos_of_the_same_fish_count_once() -> None:
    """A second photo of a net's fish adds no fish."""
    drawn = draw(Truth(), [Dip(fish=8)] * 3, np.random.default_rng(14))
    again = tuple(replace(fish, photo=1) for fish in drawn.nets[0].fish[1:])
    twice = replace(drawn.nets[0], fish=drawn.nets[0].fish + again)
    once = estimate_population(drawn.nets, published=published_line())
    estimate = estimate_population((twice, *drawn.nets[1:]), published=published_line())
    assert estimate.fish_measured == 24
    assert estimate.mean_weight_g == once.mean_weight_g
    assert {p.code for p in estimate.problems} == {"repeat-photos"}


def test_two_photos_of_different_fish_count_all() -> None:
    """Half of a net on each photo is the whole net."""
    drawn = draw(Truth(), [Dip(fish=8)] * 3, np.random.default_rng(14))
    halves = replace(
        drawn.nets[0],
        fish=tuple(
            replace(fish, photo=number // 4)
            for number, fish in enumerate(drawn.nets[0].fish)
        ),
    )
    estimate = estimate_population(
        (halves, *drawn.nets[1:]), published=published_line()
    )
    assert estimate.fish_measured == 24
    assert not estimate.problems


@pytest.mark.parametrize("count", [None, 60])
def test_the_joint_figures_are_those_said_alone(count: int | None) -> None:
    """ln mean and ln CV have their estimates' sds, and a covariance that can be."""
    drawn = draw(Truth(), [Dip(fish=8)] * 4, np.random.default_rng(5))
    estimate = estimate_population(
        drawn.nets, published=published_line(), count_in_unit=count
    )
    joint = estimate.joint
    mean = estimate.mean_weight_g
    assert joint.log_mean_weight_g == pytest.approx(np.log(mean.value), abs=0.01)
    assert np.sqrt(joint.mean_variance) == pytest.approx(mean.sd / mean.value, rel=0.01)
    assert joint.log_cv == pytest.approx(np.log(estimate.cv.value), abs=0.03)
    assert np.sqrt(joint.cv_variance) == pytest.approx(
        estimate.cv.sd / estimate.cv.value, rel=0.2
    )
    assert joint.covariance**2 < joint.mean_variance * joint.cv_variance


def test_a_census_keeps_length_and_condition_error_alone() -> None:
    """Of three fish, all measured: their own CV, by hand, and an interval about it.

    Fork lengths 220, 250 and 285 mm at b = 3: weights go as 0.681, 1 and 1.482, mean
    1.054, sd (over 3) 0.329, CV 0.312. Condition adds 0.08^2 x 2/3 on average: 0.318.
    """
    fish = tuple(
        FishInNet(fork_length_mm=mm, gross_probability=0.001) for mm in (220, 250, 285)
    )
    net = NetWeighing(fish_count=3, net_g=640.0, fish=fish)
    estimate = estimate_population((net,), published=published_line(), count_in_unit=3)
    assert estimate.cv.value == pytest.approx(0.318, abs=0.03)
    # The largest fish's own condition, 0.08, alone moves it by 0.05.
    assert 0.1 < estimate.cv.low < 0.25
    assert 0.38 < estimate.cv.high < 0.5


def test_handled_fish_of_which_half_were_weighed_err_as_they_say() -> None:
    """Twelve nets, every second one weighed: the true mean of all their fish is known.

    Errors over the standard errors said have a mean square of 1; of 16 samples it is
    within 0.4 and 2.0 in 98 of 100 (chi squared).
    """
    dips = [Dip(fish=8, weighed=bool(number % 2)) for number in range(12)]
    squares = []
    for seed in range(16):
        drawn = draw(Truth(), dips, np.random.default_rng(seed))
        found = estimate_population(drawn.nets, published=published_line())
        mean = found.handled_mean_weight_g
        squares.append(((mean.value - drawn.handled_mean_g) / mean.sd) ** 2)
    assert 0.4 < np.mean(squares) < 2.0
