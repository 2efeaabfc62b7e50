"""How each net agrees with the others, and why one does not."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from fishmeasure.base.words import Message
from fishmeasure.estimation.model.faults import (
    COUNT_HIGH,
    COUNT_LOW,
    OTHER_FISH,
    WRONG_WEIGHT,
    Hypothesis,
)
from fishmeasure.estimation.model.model import SOUND, Information, SampleModel
from fishmeasure.estimation.model.nets import (
    net_information,
    weighing_variance,
    weight_term,
)
from fishmeasure.estimation.model.posterior import Posterior
from fishmeasure.estimation.model.record import NetReport
from fishmeasure.estimation.nets import NetWeighing, net_label

# A net is flagged when a fault is more likely than chance.
_FLAG_ABOVE: Final = 0.5
_WORDS: Final = {
    COUNT_HIGH.word: "count",
    COUNT_LOW.word: "count",
    WRONG_WEIGHT.word: "weight",
    OTHER_FISH.word: "other-fish",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Residual:
    """ln of a net's weight (or of its mean length's) less the prediction."""

    log_ratio: float
    sd: float


def net_reports(
    model: SampleModel, posterior: Posterior, hypotheses: tuple[Hypothesis, ...]
) -> tuple[NetReport, ...]:
    """Return a report for each net of the model, in order."""
    best = max(hypotheses, key=lambda h: h.log_weight)
    residuals = _residuals(model, best)
    length_residuals = _length_residuals(model, best)
    reports = []
    for index, net in enumerate(model.nets):
        probabilities: dict[str, float] = {}
        for hypothesis in hypotheses:
            state = hypothesis.states.get(index, SOUND)
            if state != SOUND:
                mass = float(np.exp(hypothesis.log_weight))
                probabilities[state.word] = probabilities.get(state.word, 0.0) + mass
        fault = sum(probabilities.values())
        word = max(probabilities, key=lambda w: probabilities[w], default="")
        flagged = fault > _FLAG_ABOVE
        residual = residuals[index]
        if flagged and word == OTHER_FISH.word:
            residual = length_residuals[index] or residual
        reports.append(
            NetReport(
                label=net.label or net_label(index + 1),
                fish_count=net.fish_count,
                fish_measured=len(net.complete_fish),
                weight_g=net.weight_g,
                mean_weight_g=_mean_weight(model, posterior, index),
                residual_percent=None
                if residual is None
                else 100.0 * float(np.expm1(residual.log_ratio)),
                residual_z=None
                if residual is None
                else residual.log_ratio / residual.sd,
                fault_probability=float(fault),
                flag=_WORDS[word] if flagged else "",
                reason=_reason(model, index, word, residuals[index], residual)
                if flagged
                else None,
            )
        )
    return tuple(reports)


def _mean_weight(model: SampleModel, posterior: Posterior, index: int) -> float | None:
    """Return the mean weight of a net's fish at the posterior's middle."""
    net = model.nets[index]
    weights = posterior.weights
    if net.weight_g is not None:
        water = float(weights @ (posterior.eta - posterior.alpha))
        return net.weight_g / net.fish_count * float(np.exp(-water))
    if model.means is None:
        return None
    s, _, k, b = posterior.cell
    term = weight_term(model, index)
    j = model.measured_index[index]
    log_weight = (
        posterior.alpha
        + term.constant[s, 0, k, b]
        + term.slope[s, 0, 0, b] * model.means.mean[s, j]
    )
    return float(np.exp(weights @ log_weight)) / net.fish_count


def _middle(model: SampleModel, best: Hypothesis) -> SampleModel:
    """Return the model at the best grid point."""
    mass = best.solution.log_mass
    s, t, k, b = (int(i) for i in np.unravel_index(np.argmax(mass), mass.shape))
    return model.sliced(s, [t], [k], b)


def _residuals(model: SampleModel, best: Hypothesis) -> list[_Residual | None]:
    """Return each net against all the others and its own lengths."""
    if len(model.nets) < 2:
        return [None] * len(model.nets)
    small = _middle(model, best)
    parts, total = _totals(small, best)
    result: list[_Residual | None] = []
    for index, net in enumerate(small.nets):
        weight = net.weight_g
        if weight is None:
            result.append(_length_residual(small, total, parts, index))
            continue
        others = small.solve(total.minus(parts[index]))
        mu, eta = float(others.mu.item()), float(others.eta.item())
        term = weight_term(small, index)
        slope = float(term.slope.item())
        between = float(small.grid.tau[0] ** 2)
        keep = 0.0
        predicted_m, left = mu, between
        j = small.measured_index.get(index)
        if j is not None and small.means is not None:
            # Its own lengths say what the net's mean is; tau may be 0.
            error = float(small.means.variance[0, j])
            keep = between / (between + error)
            predicted_m = keep * float(small.means.mean[0, j]) + (1.0 - keep) * mu
            left = keep * error
        on_mu = slope * (1.0 - keep)
        variance = (
            float(others.eta_variance.item())
            + 2.0 * on_mu * float(others.covariance.item())
            + on_mu**2 * float(others.mu_variance.item())
            + slope**2 * left
            + float(term.variance.item())
            + weighing_variance(net, weight, small.settings, SOUND)
        )
        log_ratio = np.log(weight) - (
            eta + float(term.constant.item()) + slope * predicted_m
        )
        result.append(
            _Residual(log_ratio=float(log_ratio), sd=float(np.sqrt(variance)))
        )
    return result


def _length_residuals(model: SampleModel, best: Hypothesis) -> list[_Residual | None]:
    """Return each measured net's mean length against the others, as weight."""
    if len(model.nets) < 2:
        return [None] * len(model.nets)
    small = _middle(model, best)
    parts, total = _totals(small, best)
    return [
        _length_residual(small, total, parts, index) for index in range(len(small.nets))
    ]


def _length_residual(
    small: SampleModel, total: Information, parts: list[Information], index: int
) -> _Residual | None:
    j = small.measured_index.get(index)
    if j is None or small.means is None:
        return None
    others = small.solve(total.minus(parts[index]))
    b = float(small.grid.b[0])
    variance = (
        float(others.mu_variance.item())
        + float(small.grid.tau[0]) ** 2
        + float(small.means.variance[0, j])
    )
    departure = float(small.means.mean[0, j]) - float(others.mu.item())
    return _Residual(log_ratio=b * departure, sd=b * float(np.sqrt(variance)))


def _totals(
    small: SampleModel, best: Hypothesis
) -> tuple[list[Information], Information]:
    parts = [
        net_information(small, i, best.states.get(i, SOUND))
        for i in range(len(small.nets))
    ]
    total = small.start()
    for part in parts:
        total = total.plus(part)
    return parts, total


def _reason(
    model: SampleModel,
    index: int,
    word: str,
    residual: _Residual | None,
    shown: _Residual | None,
) -> Message:
    """Return what is wrong with a flagged net, and what to do."""
    if residual is None or shown is None:
        # A single net can only disagree with the published line.
        return Message.of("net-reason", case="alone")
    net = model.nets[index]
    apart = float(np.expm1(shown.log_ratio))
    off = Message.of("net-off", case="above" if apart > 0 else "below", by=abs(apart))
    if word == OTHER_FISH.word:
        return Message.of("net-reason", case="other-fish", off=off)
    if word == WRONG_WEIGHT.word:
        return _weight_reason(model, net, residual, off)
    count = net.fish_count
    likely = count + (1 if word == COUNT_LOW.word else -1)
    return Message.of(
        "net-reason", case="count", off=off, fish_count=count, likely_count=likely
    )


def _weight_reason(
    model: SampleModel, net: NetWeighing, residual: _Residual, off: Message
) -> Message:
    weight = net.weight_g or 0.0
    excess = weight - weight * float(np.exp(-residual.log_ratio))
    error = weight * float(np.exp(-residual.log_ratio)) * residual.sd
    tares = sorted({t for n in model.nets if (t := n.tare_g) is not None and t > 0.0})
    for tare in tares:
        if not net.tare_g and abs(excess - tare) < 2.0 * error:
            return Message.of(
                "net-reason",
                case="tare-forgotten",
                off=off,
                excess_g=excess,
                tare_g=tare,
            )
        if abs(excess + tare) < 2.0 * error:
            return Message.of(
                "net-reason",
                case="tare-twice",
                off=off,
                missing_g=-excess,
                tare_g=tare,
            )
    return Message.of("net-reason", case="weight", off=off)
