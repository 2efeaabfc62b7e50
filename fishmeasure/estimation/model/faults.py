"""Suppositions that something is wrong with a net, weighed against chance.

Each supposition is a ``NetState`` with a prior probability. Those that the data
favour are carried into the answer with their posterior probability, as averages
over models (Madigan & Raftery 1994 keep, as here, only those within a window of
the best); none of the nets is dropped.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.special import logsumexp

from fishmeasure.estimation.model.model import (
    SOUND,
    Information,
    NetState,
    SampleModel,
    Solution,
)
from fishmeasure.estimation.model.nets import net_information
from fishmeasure.estimation.nets import NetWeighing

COUNT_HIGH: Final = NetState(word="count-high", count_delta=-1)
COUNT_LOW: Final = NetState(word="count-low", count_delta=1)
# A forgotten tare, a slipped digit: the weight is off by about half its value.
WRONG_WEIGHT: Final = NetState(word="weight", weight_sd=0.5)
# Fish of another cohort or a graded group: a third longer or shorter.
OTHER_FISH: Final = NetState(word="other-fish", mean_sd=0.3)
WRONG_WEIGHT_PROBABILITY: Final = 0.01  # common practice, no source
OTHER_FISH_PROBABILITY: Final = 0.01  # likewise
# A count that agrees with the fish seen in the photo is rarely wrong; one more in the
# photo than counted is as likely a miscount as a thing taken for a fish; one less is
# mostly a fish that lies hidden. Common practice, no source.
_PHOTO_AGREES: Final = 0.2
_PHOTO_SHOWS_MORE: Final = 0.5
_PHOTO_SHOWS_LESS: Final = 0.1

# Suppositions whose odds against chance are below this are not carried along.
_WINDOW: Final = 0.03
# A net that fits costs the supposition that anything may be wrong with it the logs
# of how much wider than chance that is, 3 to 5. One that gains by it more than this
# may fit some supposition; a sharper one, of the count, gains at most e^3 more.
_ANYTHING: Final = NetState(word="anything", weight_sd=0.5, mean_sd=0.3)
_UNSUSPICIOUS: Final = -2.5
_MOST_FAULTS: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Hypothesis:
    """Which nets are supposed faulty, and the posterior under it."""

    states: dict[int, NetState]
    solution: Solution
    log_weight: float


def weigh_hypotheses(model: SampleModel) -> tuple[Hypothesis, ...]:
    """Return the hypotheses that matter, with log weights that sum to one.

    Two faulty nets look like chance when only one of them is supposed faulty, so the
    search goes on from the likeliest fault though "all sound" be likelier still; what
    it came by on its way and no longer needs is dropped again.
    """
    parts = [net_information(model, i) for i in range(len(model.nets))]
    total = model.start()
    for part in parts:
        total = total.plus(part)
    found = [_hypothesis(model, total, {})]
    base_total, base = total, found[0]
    for _ in range(_MOST_FAULTS):
        grown = _grow(model, parts, base_total, base)
        if not grown:
            break
        base, base_total = max(grown, key=lambda pair: pair[0].log_weight)
        found += _worth_carrying(found, [hypothesis for hypothesis, _ in grown])
    found += _worth_carrying(found, _shrink(model, parts, base_total, base, found))
    norm = logsumexp([h.log_weight for h in found])
    return tuple(
        Hypothesis(
            states=h.states, solution=h.solution, log_weight=float(h.log_weight - norm)
        )
        for h in found
        if h.log_weight - norm > np.log(1e-3)
    )


def _grow(
    model: SampleModel,
    parts: list[Information],
    total: Information,
    base: Hypothesis,
) -> list[tuple[Hypothesis, Information]]:
    """Return the hypotheses with one more faulty net that might matter."""
    grown = []
    for index, state in _candidates(model, base):
        changed = total.minus(parts[index]).plus(net_information(model, index, state))
        states = base.states | {index: state}
        grown.append((_hypothesis(model, changed, states), changed))
    return grown


def _shrink(
    model: SampleModel,
    parts: list[Information],
    total: Information,
    base: Hypothesis,
    found: list[Hypothesis],
) -> list[Hypothesis]:
    """Return the hypotheses with one fault fewer that were not met yet."""
    seen = [hypothesis.states for hypothesis in found]
    shrunk = []
    for index, state in base.states.items():
        states = {i: s for i, s in base.states.items() if i != index}
        if states not in seen:
            back = total.minus(net_information(model, index, state)).plus(parts[index])
            shrunk.append(_hypothesis(model, back, states))
    return shrunk


def _worth_carrying(
    found: list[Hypothesis], more: list[Hypothesis]
) -> list[Hypothesis]:
    """Return those within a window of the likeliest found before."""
    likeliest = max(hypothesis.log_weight for hypothesis in found)
    return [h for h in more if h.log_weight > likeliest + np.log(_WINDOW)]


def _hypothesis(
    model: SampleModel,
    total: Information,
    states: dict[int, NetState],
) -> Hypothesis:
    solution = model.solve(total)
    return Hypothesis(
        states=states,
        solution=solution,
        log_weight=_evidence(solution) + _log_prior(model, states),
    )


def _evidence(solution: Solution) -> float:
    return float(logsumexp(solution.log_mass))


def _log_prior(model: SampleModel, states: dict[int, NetState]) -> float:
    """Return the log prior odds of the states against all sound."""
    total = 0.0
    for index, state in states.items():
        probability = dict(suppositions(model.nets[index]))[state]
        sound = 1.0 - sum(p for _, p in suppositions(model.nets[index]))
        total += np.log(probability / sound)
    return float(total)


def suppositions(net: NetWeighing) -> list[tuple[NetState, float]]:
    """Return what may be wrong with a net, with prior probabilities."""
    result = [(OTHER_FISH, OTHER_FISH_PROBABILITY)]
    if not net.weighed:
        return result
    result.append((WRONG_WEIGHT, WRONG_WEIGHT_PROBABILITY))
    low = high = 0.5 * net.miscount_probability
    seen = len(net.fish)
    if seen == net.fish_count:
        low, high = low * _PHOTO_AGREES, high * _PHOTO_AGREES
    elif seen == net.fish_count + 1:
        low = _PHOTO_SHOWS_MORE
    elif seen == net.fish_count - 1 and seen > 0 and high > 0.0:
        high = _PHOTO_SHOWS_LESS
    if low > 0.0:
        result.append((COUNT_LOW, low))
    if high > 0.0 and net.fish_count > 1:
        result.append((COUNT_HIGH, high))
    return result


def _candidates(model: SampleModel, base: Hypothesis) -> list[tuple[int, NetState]]:
    """Return the suppositions that might matter, by a look at few grid points.

    A faulty net inflates tau and kappa until it looks like chance, so the look is
    taken at the best grid point and at smaller tau and kappa too.
    """
    shape = base.solution.log_mass.shape
    s, t, k, b = (
        int(i) for i in np.unravel_index(np.argmax(base.solution.log_mass), shape)
    )
    small = model.sliced(s, sorted({t, shape[1] // 3}), sorted({k, shape[2] // 3}), b)
    parts = [
        net_information(small, i, base.states.get(i, SOUND))
        for i in range(len(model.nets))
    ]
    total = small.start()
    for part in parts:
        total = total.plus(part)
    before = small.solve(total).log_mass
    result = []
    for index, net in enumerate(model.nets):
        if index in base.states:
            continue
        without = total.minus(parts[index])

        def gain(
            state: NetState, index: int = index, without: Information = without
        ) -> float:
            changed = without.plus(net_information(small, index, state))
            return float(np.max(small.solve(changed).log_mass - before))

        if gain(_ANYTHING) < _UNSUSPICIOUS:
            continue
        result += [
            (index, state)
            for state, probability in suppositions(net)
            if gain(state) + np.log(probability) > np.log(_WINDOW)
        ]
    return result
