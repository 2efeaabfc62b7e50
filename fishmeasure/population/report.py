"""Posterior to the figures of a ``PopulationEstimate``."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.special import ndtri

from fishmeasure.arrays import FloatArray
from fishmeasure.netweigh import NetWeighing
from fishmeasure.population.agreement import net_reports
from fishmeasure.population.faults import WRONG_WEIGHT, Hypothesis
from fishmeasure.population.groups import Split
from fishmeasure.population.lengths import IntArray, Lengths
from fishmeasure.population.mixture import points_estimate, weighted_quantiles
from fishmeasure.population.model import SOUND, SampleModel, weighing_variance
from fishmeasure.population.notes import Facts, make_problems
from fishmeasure.population.posterior import Figure, Posterior, combine, offset
from fishmeasure.population.record import (
    DoubtfulLength,
    PopulationEstimate,
    SizeGroups,
    StockLine,
    WeightQuantile,
)
from fishmeasure.population.shape import Standardised
from fishmeasure.species import LengthWeight
from fishmeasure.uncertainty import Estimate, Scope, UncertaintySource

_QUANTILES: Final = (0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Unit:
    """What the model need not know: all nets, the unit's count, the raw lengths."""

    all_nets: tuple[NetWeighing, ...]
    count: int | None
    count_sd: float
    lengths: Lengths | None
    groups: Split | None


def make_estimate(
    model: SampleModel,
    posterior: Posterior,
    hypotheses: tuple[Hypothesis, ...],
    *,
    book: LengthWeight,
    unit: Unit,
) -> PopulationEstimate:
    """Return the estimate of a solved model."""
    level = model.settings.level
    typical = combine((1.0, posterior.alpha_figure()), (posterior.b, _mu(posterior)))
    variance = posterior.log_weight_variance
    standard = model.shape.standardised(
        float(np.sum(posterior.weights * posterior.b)),
        float(np.sum(posterior.weights * posterior.sigma)),
        float(np.sum(posterior.weights * variance)),
    )
    handled, handled_count = _handled(model, posterior, hypotheses)
    mean = _finite_mean(
        posterior,
        combine((1.0, typical), (1.0, posterior.log_mean_lift(model.shape))),
        handled,
        handled_count,
        unit=unit,
        net_load=float(np.mean([net.fish_count for net in model.nets])),
    )
    mean_estimate = posterior.mixture(mean).exp_estimate(level)
    reports = net_reports(model, posterior, hypotheses)
    doubtful = _doubtful(model, posterior, unit.lengths)
    groups = _group_weights(posterior, typical, unit)
    line = _line(model, posterior, book)
    medians = _medians(posterior)
    mode = _mode(model)
    facts = Facts(
        mode=mode,
        nets=unit.all_nets,
        used=model.nets,
        reports=reports,
        doubtful=doubtful,
        groups=groups,
        mean_weight_g=mean_estimate,
        line=line,
        book=book,
        count_in_unit=unit.count,
        scale=model.settings.scale,
    )
    return PopulationEstimate(
        mode=mode,
        level=level,
        mean_weight_g=mean_estimate,
        handled_mean_weight_g=posterior.mixture(handled).exp_estimate(level),
        cv=_cv(model, posterior, unit, handled_count),
        fork_length_mean_mm=_length_mean(model, posterior, unit),
        condition_factor=_condition_factor(model, posterior, unit),
        line=line,
        weight_quantiles_g=tuple(
            WeightQuantile(
                below_fraction=fraction,
                weight_g=posterior.mixture(
                    offset(typical, standard.quantile(fraction) * np.sqrt(variance))
                ).exp_estimate(level),
            )
            for fraction in _QUANTILES
        ),
        weight_share_above=_share_above(posterior, typical, standard, level),
        between_net_cv=medians[0],
        within_net_cv=medians[1],
        condition_sd=medians[2],
        fish_measured=sum(len(net.complete_fish) for net in model.nets),
        fish_weighed=sum(net.fish_count for net in model.nets if net.weighed),
        fish_handled=sum(net.fish_count for net in unit.all_nets),
        count_in_unit=unit.count,
        biomass_kg=_biomass(posterior, mean, level, unit),
        nets=reports,
        doubtful_lengths=doubtful,
        size_groups=groups,
        sources=_sources(model, posterior, mean, unit, handled_count),
        problems=make_problems(facts),
    )


def _mu(posterior: Posterior) -> Figure:
    return posterior.mu_figure()


def _mode(model: SampleModel) -> str:
    if model.means is None:
        return "bulk-only"
    return "both" if any(net.weighed for net in model.nets) else "photo-only"


def _handled(
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
            term = model.weight_term(index, state)
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


def _finite_mean(
    posterior: Posterior,
    endless: Figure,
    handled: Figure,
    handled_count: FloatArray,
    *,
    unit: Unit,
    net_load: float,
) -> Figure:
    """Return ln of the mean weight in the unit.

    With N fish of which n were handled, it is n/N of the handled fish's mean and
    the rest of a mean drawn from the endless population: Royall's (1970) predictor,
    whose error has the finite population correction in it.
    """
    if unit.count is None:
        return endless
    fraction = np.minimum(handled_count / unit.count, 1.0)
    left = np.maximum(unit.count - handled_count, 0.0)
    part = fraction * np.exp(handled.value)
    rest = (1.0 - fraction) * np.exp(endless.value)
    share = part / (part + rest)
    blended = combine((share, handled), (1.0 - share, endless))
    within = np.expm1(posterior.b**2 * posterior.sigma**2 + posterior.kappa**2)
    between = (posterior.b * posterior.tau) ** 2
    chance = (within + between * net_load) / np.maximum(left, 1.0)
    return Figure(
        value=np.log(part + rest),
        on_mu=blended.on_mu,
        on_eta=blended.on_eta,
        on_split=blended.on_split,
        variance=blended.variance + (1.0 - share) ** 2 * chance,
    )


def _cv(
    model: SampleModel, posterior: Posterior, unit: Unit, handled_count: FloatArray
) -> Estimate:
    """Return the CV; the part of the unit that was measured is known."""
    level = model.settings.level
    estimate = points_estimate(*posterior.cv_points(model.shape), level)
    if unit.count is None:
        return estimate
    # The finite population correction sqrt(1 - n/N) of any such figure.
    measured = 0.0 if unit.lengths is None else float(len(unit.lengths.x))
    measured = min(measured, float(posterior.weights @ handled_count))
    shrink = float(np.sqrt(max(1.0 - measured / unit.count, 0.0)))
    middle = estimate.value
    return Estimate(
        value=middle,
        sd=estimate.sd * shrink,
        low=middle + (estimate.low - middle) * shrink,
        high=middle + (estimate.high - middle) * shrink,
        level=level,
    )


def _length_mean(
    model: SampleModel, posterior: Posterior, unit: Unit
) -> Estimate | None:
    if unit.lengths is None:
        return None
    spread = 0.5 * (posterior.sigma**2 + posterior.tau**2)
    mixture = posterior.mixture(offset(posterior.mu_figure(), spread))
    return mixture.shifted(model.settings.length_relative_sd**2).exp_estimate(
        model.settings.level, model.reference_mm
    )


def _condition_factor(
    model: SampleModel, posterior: Posterior, unit: Unit
) -> Estimate | None:
    """Return the mean of 100 W / L^3; the common length error enters as its cube."""
    if unit.lengths is None:
        return None
    excess = posterior.b - 3.0
    log_mean = 0.5 * (
        excess**2 * (posterior.sigma**2 + posterior.tau**2) + posterior.kappa**2
    )
    figure = combine((1.0, posterior.alpha_figure()), (excess, posterior.mu_figure()))
    mixture = posterior.mixture(offset(figure, log_mean))
    return mixture.shifted(9.0 * model.settings.length_relative_sd**2).exp_estimate(
        model.settings.level, 100.0 / (model.reference_mm / 10.0) ** 3
    )


def _line(model: SampleModel, posterior: Posterior, book: LengthWeight) -> StockLine:
    level = model.settings.level
    b = points_estimate(posterior.b, posterior.weights, level)
    # Not the median: the grid of b is coarse, its mean is not.
    b_mean = float(posterior.weights @ posterior.b)
    b = Estimate(
        value=b_mean,
        sd=b.sd,
        low=min(b.low, b_mean),
        high=max(b.high, b_mean),
        level=level,
    )
    # alpha as the sample sees it has the common length error in it; the part of
    # their sum that this error can be takes it out again.
    prior = model.level.alpha[posterior.cell[3]]
    scale = model.level.scale_variance[posterior.cell[3]]
    keep = model.level.book_variance / (model.level.book_variance + scale)
    alpha = posterior.alpha_figure()
    true = Figure(
        value=prior + keep * (alpha.value - prior),
        on_mu=alpha.on_mu,
        on_eta=keep * alpha.on_eta,
        on_split=keep * alpha.on_split,
        variance=keep * scale,
    )
    mixture = posterior.mixture(true)
    reference_cm = model.reference_mm / 10.0
    book_weight = book.a_g_cm * reference_cm**book.b
    return StockLine(
        a_g_cm=mixture.exp_estimate(level, reference_cm**-b_mean),
        b=b,
        book_a_g_cm=book.a_g_cm,
        book_b=book.b,
        level_ratio=mixture.exp_estimate(level, 1.0 / book_weight),
        at_length_mm=model.reference_mm,
    )


def _medians(posterior: Posterior) -> tuple[float, float, float]:
    """Return between-net CV, within-net CV and condition sd."""
    within = np.sqrt(
        np.expm1((posterior.b * posterior.sigma) ** 2 + posterior.kappa**2)
    )
    return (
        float(
            weighted_quantiles(posterior.b * posterior.tau, posterior.weights, (0.5,))[
                0
            ]
        ),
        float(weighted_quantiles(within, posterior.weights, (0.5,))[0]),
        float(weighted_quantiles(posterior.kappa, posterior.weights, (0.5,))[0]),
    )


def _share_above(
    posterior: Posterior, typical: Figure, standard: Standardised, level: float
) -> Callable[[float], Estimate]:
    spread = np.sqrt(posterior.log_weight_variance)

    def share_above(weight_g: float) -> Estimate:
        place = combine((-1.0 / spread, offset(typical, -np.log(weight_g))))
        quantiles = posterior.mixture(place).quantiles(
            (0.5 + level / 2, 0.5, 0.5 - level / 2)
        )
        low, middle, high = (1.0 - standard.below(float(q)) for q in quantiles)
        sd = (high - low) / (2.0 * float(ndtri(0.5 + level / 2)))
        return Estimate(value=middle, sd=sd, low=low, high=high, level=level)

    return share_above


def _biomass(
    posterior: Posterior, mean: Figure, level: float, unit: Unit
) -> Estimate | None:
    if unit.count is None:
        return None
    relative = unit.count_sd / unit.count
    return (
        posterior.mixture(mean)
        .shifted(relative**2)
        .exp_estimate(level, unit.count / 1000.0)
    )


def _doubtful(
    model: SampleModel, posterior: Posterior, lengths: Lengths | None
) -> tuple[DoubtfulLength, ...]:
    """Return the fish that are more likely wrongly measured than of that size."""
    if lengths is None or model.means is None:
        return ()
    by_sigma = np.bincount(
        posterior.cell[0], weights=posterior.weights, minlength=len(model.grid.sigma)
    )
    probability = by_sigma @ model.means.gross
    return tuple(
        DoubtfulLength(
            net=model.nets[int(lengths.net_ids[lengths.net_of_fish[i]])].label,
            fork_length_mm=float(lengths.reference_mm * np.exp(lengths.x[i])),
            probability=float(probability[i]),
        )
        for i in np.flatnonzero(probability > 0.5)
    )


def _group_weights(
    posterior: Posterior, typical: Figure, unit: Unit
) -> SizeGroups | None:
    """Return the groups' mean weights, by this stock's line."""
    if unit.groups is None:
        return None
    split = unit.groups
    alpha = float(posterior.weights @ (typical.value - posterior.b * posterior.mu))
    b = float(posterior.weights @ posterior.b)
    kappa = float(posterior.weights @ posterior.kappa)
    lift = 0.5 * (b**2 * split.sd**2 + kappa**2)
    return SizeGroups(
        small_fraction=split.low_fraction,
        small_mean_weight_g=float(np.exp(alpha + b * split.low + lift)),
        large_mean_weight_g=float(np.exp(alpha + b * split.high + lift)),
    )


def _sources(
    model: SampleModel,
    posterior: Posterior,
    mean: Figure,
    unit: Unit,
    handled_count: FloatArray,
) -> tuple[UncertaintySource, ...]:
    """Return what the mean's error is made of, at the posterior's middle."""
    weights = posterior.weights
    b = float(weights @ posterior.b)
    total = posterior.mixture(mean).moments()[1] ** 2
    left = 1.0
    if unit.count is not None:
        left = max(1.0 - float(weights @ handled_count) / unit.count, 0.0)
    handled = float(weights @ handled_count)
    log_within = (posterior.b * posterior.sigma) ** 2 + posterior.kappa**2
    within = float(weights @ np.expm1(log_within))
    between = float(weights @ (posterior.b * posterior.tau) ** 2)
    parts: dict[tuple[str, Scope], float] = {
        ("size of single fish", "fish"): left * within / handled,
        ("nets that differ", "net"): left * between / len(model.nets),
    }
    if unit.lengths is not None and not any(net.weighed for net in model.nets):
        photos = unit.lengths.photo_variance
        parts["photo scale", "photo"] = float(b**2 * photos.mean() / len(photos))
        parts["length scale of the sample", "sample"] = float(
            b**2 * model.settings.length_relative_sd**2
        )
    if any(net.weighed for net in model.nets):
        parts["drip water and scale", "sample"] = model.level.drip_variance
    known = float(sum(parts.values()))
    parts["condition of the stock", "species"] = max(total - known, 0.0)
    return tuple(
        UncertaintySource(name=name, relative_sd=float(np.sqrt(part)), scope=scope)
        for (name, scope), part in parts.items()
    )
