"""The handled fish, and the unit that they were taken from."""

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.estimation.model.faults import WRONG_WEIGHT, Hypothesis
from fishmeasure.estimation.model.lengths import IntArray
from fishmeasure.estimation.model.model import SOUND, SampleModel
from fishmeasure.estimation.model.nets import weighing_variance, weight_term
from fishmeasure.estimation.model.posterior import Figure, Posterior, combine
from fishmeasure.estimation.model.shape import ShapeTable


def handled_mean(
    model: SampleModel, posterior: Posterior, hypotheses: tuple[Hypothesis, ...]
) -> tuple[Figure, FloatArray]:
    """Return ln of the handled fish's mean weight, and their number, per point."""
    parts = [
        _handled_under(model, posterior, h, np.flatnonzero(posterior.hypothesis == i))
        for i, h in enumerate(hypotheses)
    ]
    order = np.concatenate(
        [np.flatnonzero(posterior.hypothesis == i) for i in range(len(hypotheses))]
    )
    back = np.argsort(order)
    fields = ("value", "on_mu", "on_eta", "on_split", "variance")
    figure = Figure(
        **{
            name: np.concatenate([getattr(f, name) for f, _ in parts])[back]
            for name in fields
        }
    )
    counts = np.concatenate([np.full(len(f.value), float(n)) for f, n in parts])[back]
    return figure, counts


def _handled_under(
    model: SampleModel, posterior: Posterior, hypothesis: Hypothesis, at: IntArray
) -> tuple[Figure, int]:
    """Return the same under one hypothesis, at the posterior points ``at``."""
    s, _, k, b = (axis[at] for axis in posterior.cell)
    alpha, mu = posterior.alpha[at], posterior.mu[at]
    water = posterior.eta[at] - alpha
    weighed_g, weighed_variance, count = 0.0, 0.0, 0
    lines: list[tuple[FloatArray, FloatArray, FloatArray]] = []
    for index, net in enumerate(model.nets):
        state = hypothesis.states.get(index, SOUND)
        weight = net.weight_g
        if weight is not None and state != WRONG_WEIGHT:
            weighed_g += weight
            weighed_variance += weight**2 * weighing_variance(
                net, weight, model.settings, SOUND
            )
        elif index in model.measured_index and model.means is not None:
            j = model.measured_index[index]
            term = weight_term(model, index, state)
            slope = term.slope[s, 0, 0, b]
            seen, error = model.means.mean[s, j], model.means.variance[s, j]
            between = posterior.tau[at] ** 2 + state.mean_sd**2
            keep = between / (between + error)
            value = (
                alpha
                + term.constant[s, 0, k, b]
                + slope * (keep * seen + (1.0 - keep) * mu)
            )
            noise = term.variance[s, 0, k, b] + slope**2 * keep * error
            lines.append((np.exp(value), slope * (1.0 - keep), noise))
        else:
            continue
        count += net.fish_count + state.count_delta
    dry = weighed_g * np.exp(-water)
    total = dry + sum((line[0] for line in lines), np.zeros_like(dry))
    share = dry / total
    on_mu, variance = np.zeros_like(dry), np.zeros_like(dry)
    for weight_g, slope, noise in lines:
        on_mu = on_mu + weight_g / total * slope
        variance = variance + (weight_g / total) ** 2 * noise
    if weighed_g > 0.0:
        variance = variance + share**2 * weighed_variance / weighed_g**2
    gain = posterior.alpha_gain[at]
    return Figure(
        value=np.log(total / max(count, 1)),
        on_mu=on_mu,
        on_eta=(1.0 - share) * gain - share * (1.0 - gain),
        on_split=np.ones_like(dry),
        variance=variance,
    ), max(count, 1)


def finite_mean(
    posterior: Posterior,
    endless: Figure,
    handled: Figure,
    handled_count: FloatArray,
    *,
    table: ShapeTable,
    count_in_unit: int | None,
    net_load: float,
) -> Figure:
    """Return ln of the mean weight in the unit.

    With N fish of which n were handled, it is n/N of the handled fish's mean and
    the rest of a mean drawn from the endless population: Royall's (1970) predictor,
    whose error has the finite population correction in it.
    """
    if count_in_unit is None:
        return endless
    fraction = np.minimum(handled_count / count_in_unit, 1.0)
    left = np.maximum(count_in_unit - handled_count, 0.0)
    part = fraction * np.exp(handled.value)
    rest = (1.0 - fraction) * np.exp(endless.value)
    share = part / (part + rest)
    blended = combine((share, handled), (1.0 - share, endless))
    log_within = posterior.b**2 * posterior.sigma**2 + posterior.kappa**2
    within = np.expm1(log_within + posterior.on_grid(table.spread))
    between = (posterior.b * posterior.tau) ** 2
    chance = (within + between * net_load) / np.maximum(left, 1.0)
    return Figure(
        value=np.log(part + rest),
        on_mu=blended.on_mu,
        on_eta=blended.on_eta,
        on_split=blended.on_split,
        variance=blended.variance + (1.0 - share) ** 2 * chance,
    )
