"""Nets to the population: the public function.

How another figure than length can tell weight. The model knows a fish by ``x``, the
log of its size over the sample's middle one, and ln weight is alpha + b x + N(0,
kappa^2). What is read of a fish goes in at one place, ``lengths.collect_lengths``: x,
its own ``error_variance``, and what is common to its photo (``photo_variance``);
common to the sample is ``SampleSettings.length_relative_sd``. What is known of the
line beforehand goes in at ``grid.make_grid`` (b, kappa), ``grid.level_prior`` (alpha)
and ``learn_from_weights`` (b, kappa). ``estimation.sizes`` so weighs fish by outline
and length.

What others join is ``PopulationEstimate.joint``: ln mean weight and ln CV with their
covariance.
"""

from dataclasses import replace
from typing import Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import EmptySampleError
from fishmeasure.estimation.model.faults import weigh_hypotheses
from fishmeasure.estimation.model.figures import Unit
from fishmeasure.estimation.model.grid import (
    SIGMA_LOG_SD,
    SIGMA_MEDIAN,
    SIGMA_POINTS,
    TAU_SCALE,
    level_prior,
    make_grid,
)
from fishmeasure.estimation.model.groups import find_size_groups
from fishmeasure.estimation.model.lengths import (
    Lengths,
    collect_lengths,
    net_means,
)
from fishmeasure.estimation.model.model import SampleModel
from fishmeasure.estimation.model.nets import measured_sums
from fishmeasure.estimation.model.netweight import learn_from_weights
from fishmeasure.estimation.model.posterior import gather
from fishmeasure.estimation.model.record import PopulationEstimate
from fishmeasure.estimation.model.report import make_estimate
from fishmeasure.estimation.model.shape import Shape, find_shape, shape_table
from fishmeasure.estimation.nets import NetWeighing, SampleSettings
from fishmeasure.species import LengthWeight

# Sigma below exp(-8) of the best length evidence is not looked at.
_EVIDENCE_RANGE: Final = 8.0
_WIDEST: Final = (0.012, 0.7)


def estimate_population(
    nets: tuple[NetWeighing, ...],
    *,
    published: LengthWeight,
    settings: SampleSettings | None = None,
    count_in_unit: int | None = None,
    count_in_unit_sd: float = 0.0,
) -> PopulationEstimate:
    """Return the fish of a unit from a sample of nets, with honest intervals.

    Works with nets that are weighed, photographed or both. Deterministic.

    Parameters
    ----------
    nets
        In any order; the answer does not depend on it.
    published
        The species' or the stock's own coefficients, for fork length
        (``Species.on_fork_length``).
    count_in_unit, count_in_unit_sd
        Fish in the unit before netting, for the finite population correction and
        the biomass.

    Raises
    ------
    EmptySampleError
        If no net has a weight or a complete fish.
    ValueError
        If ``published`` is not for fork length, or the count is below 1.
    """
    if published.length_kind != "fork":
        raise ValueError(published.length_kind)
    if count_in_unit is not None and count_in_unit < 1:
        raise ValueError(count_in_unit)
    settings = settings or SampleSettings()
    seen_once = tuple(_seen_once(net) for net in nets)
    used = tuple(net for net in seen_once if net.weighed or net.complete_fish)
    if not used:
        raise EmptySampleError
    lengths = collect_lengths(used)
    if lengths is not None:
        lengths = learn_from_weights(lengths, used, published, settings)
    groups = None if lengths is None else find_size_groups(lengths)
    model = prepare(used, published, settings, lengths)
    hypotheses = weigh_hypotheses(model)
    return make_estimate(
        model,
        gather(model, hypotheses),
        hypotheses,
        published=published,
        unit=Unit(
            all_nets=seen_once,
            repeated=tuple(
                net.label
                for net, once in zip(nets, seen_once, strict=True)
                if net is not once
            ),
            count=_believed(count_in_unit, count_in_unit_sd, seen_once),
            stated_count=count_in_unit,
            count_sd=count_in_unit_sd,
            lengths=lengths,
            groups=groups,
        ),
    )


def _believed(
    count: int | None, count_sd: float, nets: tuple[NetWeighing, ...]
) -> int | None:
    """Return the count of the unit, None where more fish were netted than it.

    Such a count says nothing of the fish that are left, and would make the interval
    vanish. One fish more may be a miscount.
    """
    handled = sum(net.fish_count for net in nets)
    if count is None or handled > count + max(1.0, 2.0 * count_sd):
        return None
    return count


def _seen_once(net: NetWeighing) -> NetWeighing:
    """Return the net with one photo's fish where its photos show the same ones.

    Photos of different fish of a net show together no more than were counted (one
    more may be a miscount). Those that show more are repeats, and the one with most
    fish measured is used: a fish counts once.
    """
    photos = {fish.photo for fish in net.fish}
    by_photo = {p: tuple(f for f in net.fish if f.photo == p) for p in sorted(photos)}
    if len(by_photo) < 2 or len(net.fish) <= net.fish_count + 1:
        return net
    best = max(by_photo.values(), key=lambda fish: sum(f.complete for f in fish))
    return replace(net, fish=best)


def prepare(
    nets: tuple[NetWeighing, ...],
    published: LengthWeight,
    settings: SampleSettings,
    lengths: Lengths | None,
) -> SampleModel:
    """Return the model of a sample, ready to be solved."""
    shape = Shape.usual() if lengths is None else find_shape(lengths, published.b)
    if lengths is None:
        steps = np.linspace(-2.4, 2.4, SIGMA_POINTS)
        sigma = SIGMA_MEDIAN * np.exp(SIGMA_LOG_SD * steps)
        reference_mm = _bulk_reference(nets, published)
    else:
        sigma = _sigma_points(lengths, shape.temper)
        reference_mm = lengths.reference_mm
    grid = make_grid(sigma, published)
    means = sums = None
    measured_index: dict[int, int] = {}
    photos_of_net: tuple[slice, ...] = ()
    if lengths is not None:
        means = net_means(lengths, sigma, temper=shape.temper)
        sums = measured_sums(lengths, means, grid.b)
        measured_index = {int(net): j for j, net in enumerate(lengths.net_ids)}
        ends = np.r_[lengths.net_start[1:], len(lengths.photo_start)]
        photos_of_net = tuple(
            slice(int(start), int(end))
            for start, end in zip(lengths.net_start, ends, strict=True)
        )
    return SampleModel(
        nets=nets,
        settings=settings,
        grid=grid,
        level=level_prior(grid, published, reference_mm, settings),
        reference_mm=reference_mm,
        means=means,
        sums=sums,
        measured_index=measured_index,
        photos_of_net=photos_of_net,
        shape=shape,
        table=shape_table(shape, grid.sigma, grid.b),
    )


def _bulk_reference(nets: tuple[NetWeighing, ...], published: LengthWeight) -> float:
    """Return the length in mm of a fish of the mean weight by the published line."""
    weight = sum(net.weight_g or 0.0 for net in nets)
    count = sum(net.fish_count for net in nets if net.weighed)
    return float(10.0 * (weight / count / published.a_g_cm) ** (1.0 / published.b))


def _sigma_points(lengths: Lengths, temper: float) -> FloatArray:
    """Return the sigmas that the lengths leave possible, evenly in logarithm."""
    low, high = _WIDEST
    for points in (16, 12):
        sigma = np.geomspace(low, high, points)
        means = net_means(lengths, sigma, temper=temper)
        variance = means.variance + TAU_SCALE**2
        precision = np.sum(1.0 / variance, axis=1)
        centre = np.sum(means.mean / variance, axis=1) / precision
        log_mass = (
            means.log_evidence
            - 0.5 * (np.log(sigma / SIGMA_MEDIAN) / SIGMA_LOG_SD) ** 2
            - 0.5 * np.sum(np.log(variance), axis=1)
            - 0.5 * np.log(precision)
            - 0.5 * np.sum((means.mean - centre[:, None]) ** 2 / variance, axis=1)
        )
        kept = np.flatnonzero(log_mass > log_mass.max() - _EVIDENCE_RANGE)
        low = float(sigma[max(kept[0] - 1, 0)])
        high = float(sigma[min(kept[-1] + 1, points - 1)])
    return np.geomspace(low, high, SIGMA_POINTS)
