"""Posterior to a ``PopulationEstimate``."""

from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate
from fishmeasure.estimation.model import figures
from fishmeasure.estimation.model.agreement import net_reports
from fishmeasure.estimation.model.faults import Hypothesis
from fishmeasure.estimation.model.figures import Unit
from fishmeasure.estimation.model.handled import finite_mean, handled_mean
from fishmeasure.estimation.model.lengths import Lengths
from fishmeasure.estimation.model.mixture import points_estimate
from fishmeasure.estimation.model.model import SampleModel
from fishmeasure.estimation.model.notes import Facts, make_problems
from fishmeasure.estimation.model.posterior import Figure, Posterior, combine, offset
from fishmeasure.estimation.model.record import (
    DoubtfulLength,
    PopulationEstimate,
    SizeGroups,
    WeightQuantile,
)
from fishmeasure.estimation.model.shape import Law
from fishmeasure.species import LengthWeight

_QUANTILES: Final = (0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95)


def make_estimate(
    model: SampleModel,
    posterior: Posterior,
    hypotheses: tuple[Hypothesis, ...],
    *,
    published: LengthWeight,
    unit: Unit,
) -> PopulationEstimate:
    """Return the estimate of a solved model."""
    level = model.settings.level
    typical = figures.typical(model, posterior)
    standard = _standardised(model, posterior)
    handled, handled_count = handled_mean(model, posterior, hypotheses)
    mean = _mean_log_weight(model, posterior, typical, (handled, handled_count), unit)
    facts = Facts(
        mode=_mode(model),
        nets=unit.all_nets,
        repeated=unit.repeated,
        used=model.nets,
        reports=net_reports(model, posterior, hypotheses),
        doubtful=_doubtful(model, unit.lengths),
        groups=_group_weights(posterior, typical, unit),
        mean_weight_g=posterior.mixture(mean).exp_estimate(level),
        line=figures.line(model, posterior, published),
        published=published,
        count_in_unit=unit.stated_count,
        scale=model.settings.scale,
    )
    cvs = figures.cv_points(model, posterior, unit)
    between, within, condition = figures.medians(posterior, model.table)
    of_netted = posterior.mixture(handled).exp_estimate(level)
    return PopulationEstimate(
        mode=facts.mode,
        level=level,
        mean_weight_g=facts.mean_weight_g,
        handled_mean_weight_g=of_netted,
        cv=points_estimate(*cvs, level),
        joint=figures.joint(posterior, mean, cvs),
        fork_length_mean_mm=figures.length_mean(model, posterior, unit),
        condition_factor=figures.condition_factor(model, posterior, unit),
        line=facts.line,
        weight_quantiles_g=_quantiles(posterior, typical, standard, level),
        weight_share_above=figures.share_above(posterior, typical, standard, level),
        between_net_cv=between,
        within_net_cv=within,
        condition_sd=condition,
        fish_measured=sum(len(net.complete_fish) for net in model.nets),
        fish_weighed=sum(net.fish_count for net in model.nets if net.weighed),
        fish_handled=sum(net.fish_count for net in unit.all_nets),
        count_in_unit=unit.count,
        biomass_kg=_biomass(posterior, mean, level, unit),
        nets=facts.reports,
        corrections=figures.corrections(
            model, posterior, facts.mean_weight_g, of_netted
        ),
        doubtful_lengths=facts.doubtful,
        size_groups=facts.groups,
        sources=figures.sources(model, posterior, mean, unit, handled_count),
        problems=make_problems(facts),
    )


def _mean_log_weight(
    model: SampleModel,
    posterior: Posterior,
    typical: Figure,
    handled: tuple[Figure, FloatArray],
    unit: Unit,
) -> Figure:
    """Return the unit's mean, of which those handled are known better than the rest."""
    return finite_mean(
        posterior,
        combine((1.0, typical), (1.0, posterior.log_mean_lift(model.table))),
        *handled,
        table=model.table,
        count_in_unit=unit.count,
        net_load=float(np.mean([net.fish_count for net in model.nets])),
    )


def _standardised(model: SampleModel, posterior: Posterior) -> Law:
    """Return the shape of ln weight at the posterior's middle."""
    weights = posterior.weights
    sd = np.sqrt(float(np.sum(weights * posterior.log_weight_variance)))
    by_length = float(np.sum(weights * posterior.b * posterior.sigma))
    factor = min(by_length / sd, 1.0)
    return model.shape.smooth.widened(factor, float(np.sqrt(1.0 - factor**2)))


def _quantiles(
    posterior: Posterior, typical: Figure, standard: Law, level: float
) -> tuple[WeightQuantile, ...]:
    spread = np.sqrt(posterior.log_weight_variance)
    places = standard.quantiles(np.array(_QUANTILES))
    return tuple(
        WeightQuantile(
            below_fraction=fraction,
            weight_g=posterior.mixture(
                offset(typical, float(place) * spread)
            ).exp_estimate(level),
        )
        for fraction, place in zip(_QUANTILES, places, strict=True)
    )


def _mode(model: SampleModel) -> str:
    if model.means is None:
        return "bulk-only"
    return "both" if any(net.weighed for net in model.nets) else "photo-only"


def _biomass(
    posterior: Posterior, mean: Figure, level: float, unit: Unit
) -> Estimate | None:
    if unit.count is None:
        return None
    weight = posterior.mixture(mean)
    unsure = weight.shifted((unit.count_sd / unit.count) ** 2)
    # The median of a skewed figure moves a little as an error is added to it; told is
    # what a calculator makes of the mean weight and the count.
    moved = unsure.exp_estimate(level).value / weight.exp_estimate(level).value
    return unsure.exp_estimate(level, unit.count / 1000.0 / moved)


def _doubtful(
    model: SampleModel, lengths: Lengths | None
) -> tuple[DoubtfulLength, ...]:
    """Return the fish that are more likely wrongly measured than of that size."""
    if lengths is None:
        return ()
    probability = lengths.gross
    return tuple(
        DoubtfulLength(
            net=str(model.nets[int(lengths.net_ids[lengths.net_of_fish[i]])].label),
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
