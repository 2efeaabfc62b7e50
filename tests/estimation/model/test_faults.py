"""Nets that do not agree are flagged with the right reason, and kept."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from scipy.special import logsumexp

from fishmeasure.base.words import Message
from fishmeasure.estimation.model import (
    PopulationEstimate,
    answer_from_json,
    estimate_population,
    estimate_to_json,
)
from fishmeasure.estimation.model.estimate import prepare
from fishmeasure.estimation.model.faults import (
    Hypothesis,
    suppositions,
    weigh_hypotheses,
)
from fishmeasure.estimation.model.lengths import collect_lengths
from fishmeasure.estimation.model.model import SOUND, NetState
from fishmeasure.estimation.model.nets import net_information
from fishmeasure.estimation.nets import FishInNet, NetWeighing, SampleSettings
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


def with_two_faults() -> tuple[NetWeighing, ...]:
    """Return one net 700 g too heavy, another of fish a half longer, and six sound."""
    nets = sound_nets(nets=8)
    assert nets[0].net_g is not None
    longer = draw(Truth(length_mm=375.0), [Dip(fish=8)], np.random.default_rng(8)).nets
    return (replace(nets[0], net_g=nets[0].net_g + 700.0), *nets[1:7], *longer)


def test_two_faults_of_one_sample_are_both_found() -> None:
    estimate = estimate_population(with_two_faults(), published=published_line())
    flags = [report.flag for report in estimate.nets]
    assert flags == ["weight", *[""] * 6, "other-fish"]


@pytest.mark.parametrize(
    ("seen", "weighed", "count", "low", "high"),
    [
        (0, True, 8, 0.02, 0.02),  # half of the 4 % either way
        (8, True, 8, 0.004, 0.004),  # the photo agrees: a fifth
        (9, True, 8, 0.5, 0.02),  # one more in the photo
        (7, True, 8, 0.02, 0.1),  # one less: it may lie hidden
        (6, True, 8, 0.02, 0.02),
        (0, True, 1, 0.02, None),  # a net of no fish is none
        (8, False, 8, None, None),  # nothing that a count would be divided into
    ],
)
def test_what_may_be_wrong_with_a_net_beforehand(
    seen: int, *, weighed: bool, count: int, low: float | None, high: float | None
) -> None:
    fish = tuple(FishInNet(fork_length_mm=250.0 + i) for i in range(seen))
    net = NetWeighing(
        fish_count=count,
        net_g=1000.0 if weighed else None,
        fish=fish,
        miscount_probability=0.04,
    )
    found = {state.word: p for state, p in suppositions(net)}
    assert found.pop("other-fish") == 0.01
    assert found.pop("weight", None) == (0.01 if weighed else None)
    wanted = {"count-low": low, "count-high": high}
    assert found == pytest.approx({k: v for k, v in wanted.items() if v is not None})


def test_a_count_that_cannot_be_wrong_is_not_supposed_to_be() -> None:
    net = NetWeighing(fish_count=8, net_g=1000.0, miscount_probability=0.0)
    assert {state.word for state, _ in suppositions(net)} == {"other-fish", "weight"}
    seven = tuple(FishInNet(fork_length_mm=250.0 + i) for i in range(7))
    words = {state.word for state, _ in suppositions(replace(net, fish=seven))}
    assert words == {"other-fish", "weight"}


def test_odds_of_faults_are_prior_odds_times_evidence() -> None:
    """Bayes' rule for each hypothesis by itself, each net's information put in anew.

    Each photo shows as many as were counted, so a count is off with 0.03 / 2 x 0.2
    either way, and a net is sound with 1 - 0.01 - 0.01 - 0.006 = 0.974.
    """
    nets = with_two_faults()
    lengths = collect_lengths(nets)
    assert lengths is not None
    model = prepare(nets, published_line(), SampleSettings(), lengths)
    prior = {"other-fish": 0.01, "weight": 0.01, "count-low": 0.003}
    prior["count-high"] = 0.003

    def log_posterior(hypothesis: Hypothesis) -> float:
        total = model.start()
        for i in range(len(nets)):
            state = hypothesis.states.get(i, SOUND)
            total = total.plus(net_information(model, i, state))
        odds = [np.log(prior[s.word] / 0.974) for s in hypothesis.states.values()]
        return float(logsumexp(model.solve(total).log_mass) + sum(odds))

    found = weigh_hypotheses(model)
    assert max(len(h.states) for h in found) >= 2
    assert sum(np.exp(h.log_weight) for h in found) == pytest.approx(1.0, abs=0.01)
    wanted = np.array([log_posterior(h) for h in found])
    told = np.array([h.log_weight for h in found])
    assert told - told.max() == pytest.approx(wanted - wanted.max(), abs=1e-6)


def only_weighed(*times: float) -> tuple[NetWeighing, ...]:
    """Return 12 nets of 12 fish of 103 g, give or take 5 %, the first so much off."""
    scores = np.random.default_rng(1).standard_normal(12)
    factors = np.r_[times, np.ones(12 - len(times))]
    return tuple(
        NetWeighing(fish_count=12, net_g=float(1239.0 * np.exp(0.05 * z) * factor))
        for z, factor in zip(scores, factors, strict=True)
    )


@pytest.mark.parametrize("times", [(10.0, 10.0), (3.0, 0.3), (10.0, 0.1)])
def test_faults_that_hide_each_other_are_found(times: tuple[float, float]) -> None:
    """Bayes' rule for all single faults and all pairs, each net's part put in anew.

    Uncounted in photos, a count is off with 0.03 / 2 either way, and a net is sound
    with 1 - 0.01 - 0.01 - 0.03 = 0.95. No fault alone is likelier than none.
    """
    nets = only_weighed(*times)
    model = prepare(nets, published_line(), SampleSettings(), None)
    prior = {"other-fish": 0.01, "weight": 0.01}
    states = [state for state, _ in suppositions(nets[0]) if state.word in prior]
    sound = [net_information(model, i) for i in range(12)]
    total = model.start()
    for part in sound:
        total = total.plus(part)

    def log_posterior(faults: dict[int, NetState]) -> float:
        changed, odds = total, 0.0
        for i, state in faults.items():
            changed = changed.minus(sound[i]).plus(net_information(model, i, state))
            odds += np.log(prior[state.word] / 0.95)
        return float(logsumexp(model.solve(changed).log_mass) + odds)

    none = log_posterior({})
    faults = [(i, state) for i in range(12) for state in states]
    assert all(log_posterior(dict([one])) < none for one in faults)
    # Of the 264 pairs only those of the first two nets are likelier than none.
    pairs = [dict(pair) for pair in combinations(faults, 2) if pair[0][0] != pair[1][0]]
    logs = [log_posterior(pair) for pair in pairs]
    likelier = [p for p, each in zip(pairs, logs, strict=True) if each > none]
    assert {tuple(sorted(pair)) for pair in likelier} == {(0, 1)}
    found = max(weigh_hypotheses(model), key=lambda h: h.log_weight)
    assert found.states == pairs[int(np.argmax(logs))]
    estimate = estimate_population(nets, published=published_line())
    assert [i for i, r in enumerate(estimate.nets) if r.flag] == [0, 1]
    fair = estimate_population(only_weighed(), published=published_line())
    assert estimate.mean_weight_g.value == pytest.approx(
        fair.mean_weight_g.value, rel=0.02
    )


def test_three_faults_that_hide_each_other_are_found() -> None:
    """Three of twelve nets ten times too heavy, also in another order."""
    nets = only_weighed(10.0, 10.0, 10.0)
    for order in (nets, nets[::-1]):
        estimate = estimate_population(order, published=published_line())
        flagged = {
            net.net_g for net, r in zip(order, estimate.nets, strict=True) if r.flag
        }
        assert flagged == {net.net_g for net in nets[:3]}


def test_a_net_is_so_far_off_as_its_weight_over_the_others() -> None:
    """Five nets of 8 fish of 200 g, the sixth of 230 or 174 g: 15 % above, 13 below."""
    alike = tuple(NetWeighing(fish_count=8, net_g=1600.0) for _ in range(5))
    for grams, percent in ((230.0, 15.0), (174.0, -13.0)):
        nets = (*alike, NetWeighing(fish_count=8, net_g=8 * grams))
        report = estimate_population(nets, published=published_line()).nets[-1]
        assert report.residual_percent == pytest.approx(percent, abs=0.5)
        assert report.mean_weight_g == pytest.approx(grams, rel=0.02)
        assert report.residual_z is not None
        assert report.residual_z * percent > 0.0


@pytest.mark.parametrize(
    ("word", "ratio"), [("above", 1.35), ("below", 0.62), ("above", 1.0)]
)
def test_it_is_said_which_way_a_net_is_off(word: str, ratio: float) -> None:
    """Longer fish are above, shorter ones below; so is a weight with 700 g too much.

    By so much as the third power of their mean lengths' ratio, on this line.
    """
    nets = sound_nets(nets=8)
    first = nets[0]
    assert first.net_g is not None
    if ratio == 1.0:
        wrong = replace(first, net_g=first.net_g + 700.0)
    else:
        fish = tuple(
            replace(one, fork_length_mm=one.fork_length_mm * ratio)
            for one in first.fish
        )
        wrong = replace(first, fish=fish, net_g=first.net_g * ratio**3)
    report = with_first(wrong, nets).nets[0]
    assert f"% {word} " in str(report.reason)
    if ratio != 1.0:
        assert report.reason is not None
        own, others = (
            np.mean([np.log(fish.fork_length_mm) for net in of for fish in net.fish])
            for of in ([wrong], nets[1:])
        )
        off = report.reason.parameters["off"]
        assert isinstance(off, Message)
        assert off.parameters["by"] == pytest.approx(
            abs(np.expm1(3.0 * (own - others))), rel=0.1
        )
