"""Single figures of a ``PopulationEstimate`` from the posterior."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.special import ndtri

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate, Scope, UncertaintySource
from fishmeasure.base.words import Reason
from fishmeasure.estimation.model.finitecv import finite_cv_points
from fishmeasure.estimation.model.groups import Split
from fishmeasure.estimation.model.lengths import Lengths
from fishmeasure.estimation.model.mixture import points_estimate, weighted_quantiles
from fishmeasure.estimation.model.model import SampleModel
from fishmeasure.estimation.model.posterior import Figure, Posterior, combine, offset
from fishmeasure.estimation.model.record import (
    Allowance,
    JointSize,
    StockLine,
)
from fishmeasure.estimation.model.shape import Law, ShapeTable
from fishmeasure.estimation.nets import NetWeighing
from fishmeasure.species import LengthWeight


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Unit:
    """What the model need not know: all nets, the unit's count, the raw lengths.

    ``count`` is None where the one stated cannot be.
    """

    all_nets: tuple[NetWeighing, ...]
    repeated: tuple[Reason, ...]
    count: int | None
    stated_count: int | None
    count_sd: float
    lengths: Lengths | None
    groups: Split | None


def typical(model: SampleModel, posterior: Posterior) -> Figure:
    """Return ln weight of the unit's middle fish: netting may choose by size."""
    netting = model.settings.netting
    netted = combine(
        (1.0, posterior.alpha_figure()), (posterior.b, posterior.mu_figure())
    )
    there = offset(netted, -float(np.log1p(netting.heavier)))
    return replace(there, variance=there.variance + netting.relative_sd**2)


# What a net that may be wrong moves the netted fish's mean by, if it is to be told.
_TOLD: Final = 0.003


def corrections(
    model: SampleModel, posterior: Posterior, mean: Estimate, handled: Estimate
) -> tuple[Allowance, ...]:
    """Return what was taken off the weights as read, and off the means."""
    found = []
    weighed_g = sum(net.weight_g or 0.0 for net in model.nets)
    log_water = float(posterior.weights @ (posterior.eta - posterior.alpha))
    dry_g = weighed_g * float(np.exp(-log_water))
    plain_g = dry_g / sum(net.fish_count for net in model.nets)
    doubted = plain_g / handled.value - 1.0
    if weighed_g > 0.0 and log_water != 0.0:
        found.append(
            Allowance(
                name="drip",
                fraction=float(np.expm1(log_water)),
                taken_off_g=weighed_g * -float(np.expm1(-log_water)),
            )
        )
    if all(net.weighed for net in model.nets) and abs(doubted) > _TOLD:
        found.append(
            Allowance(
                name="doubt", fraction=doubted, taken_off_g=plain_g - handled.value
            )
        )
    heavier = model.settings.netting.heavier
    if heavier != 0.0:
        found.append(
            Allowance(
                name="netting", fraction=heavier, taken_off_g=mean.value * heavier
            )
        )
    return tuple(found)


def cv_points(
    model: SampleModel, posterior: Posterior, unit: Unit
) -> tuple[FloatArray, FloatArray]:
    """Return (k n,) values of the CV, k for each posterior point, and weights.

    Of the fish in the unit; of an endless one without a count.
    """
    if unit.count is None:
        return posterior.cv_points(model.table), posterior.weights
    return finite_cv_points(model, posterior, unit.lengths, unit.count)


def joint(
    posterior: Posterior, mean: Figure, cvs: tuple[FloatArray, FloatArray]
) -> JointSize:
    """Return ln mean weight and ln CV together."""
    values, weights = cvs
    log_cv = np.log(values)
    log_mean, sd = posterior.mixture(mean).moments()
    centre = float(weights @ log_cv)
    repeated = np.tile(mean.value, len(values) // len(mean.value))
    return JointSize(
        log_mean_weight_g=log_mean,
        log_cv=centre,
        mean_variance=sd**2,
        cv_variance=float(weights @ (log_cv - centre) ** 2),
        covariance=float(weights @ ((log_cv - centre) * (repeated - log_mean))),
    )


def length_mean(
    model: SampleModel, posterior: Posterior, unit: Unit
) -> Estimate | None:
    """Return the mean fork length in mm; None where none was measured."""
    if unit.lengths is None:
        return None
    spread = 0.5 * (posterior.sigma**2 + posterior.tau**2)
    mixture = posterior.mixture(offset(posterior.mu_figure(), spread))
    settings, b = model.settings, float(posterior.weights @ posterior.b)
    netted = settings.netting
    error = settings.length_relative_sd**2 + (netted.relative_sd / b) ** 2
    return mixture.shifted(error).exp_estimate(
        settings.level, model.reference_mm * (1.0 + netted.heavier) ** (-1.0 / b)
    )


def condition_factor(
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


def line(
    model: SampleModel, posterior: Posterior, published: LengthWeight
) -> StockLine:
    """Return the stock's line beside the published one."""
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
    keep = model.level.published_variance / (model.level.published_variance + scale)
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
    published_weight = published.a_g_cm * reference_cm**published.b
    return StockLine(
        a_g_cm=mixture.exp_estimate(level, reference_cm**-b_mean),
        b=b,
        published_a_g_cm=published.a_g_cm,
        published_b=published.b,
        level_ratio=mixture.exp_estimate(level, 1.0 / published_weight),
        at_length_mm=model.reference_mm,
    )


def medians(posterior: Posterior, table: ShapeTable) -> tuple[float, float, float]:
    """Return between-net CV, within-net CV and condition sd."""
    by_length = (posterior.b * posterior.sigma) ** 2
    within = np.sqrt(
        np.expm1(by_length + posterior.kappa**2 + posterior.on_grid(table.spread))
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


def share_above(
    posterior: Posterior, typical: Figure, standard: Law, level: float
) -> Callable[[float], Estimate]:
    """Return the function of a weight that gives the fraction of fish above it."""
    spread = np.sqrt(posterior.log_weight_variance)

    def share_above(weight_g: float) -> Estimate:
        place = combine((-1.0 / spread, offset(typical, -np.log(weight_g))))
        quantiles = posterior.mixture(place).quantiles(
            (0.5 + level / 2, 0.5, 0.5 - level / 2)
        )
        low, middle, high = (float(f) for f in 1.0 - standard.below(quantiles))
        sd = (high - low) / (2.0 * float(ndtri(0.5 + level / 2)))
        return Estimate(value=middle, sd=sd, low=low, high=high, level=level)

    return share_above


def sources(
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
    log_within = log_within + posterior.on_grid(model.table.spread)
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
    parts["which fish are netted", "sample"] = (
        left * model.settings.netting.relative_sd
    ) ** 2
    known = float(sum(parts.values()))
    parts["condition of the stock", "species"] = max(total - known, 0.0)
    return tuple(
        UncertaintySource(name=name, relative_sd=float(np.sqrt(part)), scope=scope)
        for (name, scope), part in parts.items()
    )
