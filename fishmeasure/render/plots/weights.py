"""The distribution of weight in the unit."""

from typing import Final

import numpy as np
from matplotlib.axes import Axes

from fishmeasure.base.words import wording
from fishmeasure.estimation.model import PopulationEstimate
from fishmeasure.estimation.nets import NetWeighing
from fishmeasure.render.plots.axis_words import unit_shown, write_figures
from fishmeasure.render.plots.canvas import (
    BLUE,
    GREY,
    ORANGE,
    PlotFormat,
    legend_below,
    new_axes,
    to_bytes,
)
from fishmeasure.render.plots.theme import Theme

_BARS: Final = "#7db4d8"  # BLUE on white, without letting the mean's band through


def weight_plot(
    estimate: PopulationEstimate,
    nets: tuple[NetWeighing, ...] = (),
    *,
    title: str = "",
    plot_format: PlotFormat = "png",
    theme: Theme | None = None,
) -> bytes:
    """Return a picture of the weights in the unit, with the mean's interval.

    Bars are the fish expected in each class of weight; the grey lines above are the
    intervals of three quantiles; ticks below are the measured fish of ``nets``, by
    this stock's line.
    """
    figure, axes = new_axes()
    quantile = {q.below_fraction: q.weight_g.value for q in estimate.weight_quantiles_g}
    unit = unit_shown("weight_g")
    per = 1.0 if unit is None else unit.per
    step = _round_step(per * (quantile[0.95] - quantile[0.05]) / 8.0) / per
    low = max(np.floor(quantile[0.05] / step) - 1.0, 0.0) * step
    edges = np.arange(low, quantile[0.95] + 3.0 * step, step)
    above = [estimate.weight_share_above(max(float(edge), 1e-6)) for edge in edges]
    share = -np.diff([s.value for s in above])
    axes.bar(
        edges[:-1],
        100.0 * share,
        width=step * 0.94,
        align="edge",
        color=_BARS,
        label=wording("plot-fish-in-each", step_g=step),
    )
    mean = estimate.mean_weight_g
    percent = round(100.0 * estimate.level)
    axes.axvspan(mean.low, mean.high, color=ORANGE, alpha=0.25, linewidth=0, zorder=0.5)
    axes.axvline(
        mean.value,
        color=ORANGE,
        linewidth=2.0,
        label=wording(
            "plot-mean",
            mean_g=mean.value,
            percent=percent,
            low_g=mean.low,
            high_g=mean.high,
        ),
    )
    top = 100.0 * float(share.max())
    _draw_quantiles(axes, estimate, top=top)
    _draw_fish(axes, estimate, nets, height=-0.035 * top)
    axes.set_ylim(-0.09 * top, 1.6 * top)
    write_figures(axes.xaxis, "weight_g")
    write_figures(axes.yaxis)
    axes.set_xlabel(wording("plot-weight-of-a-fish"))
    axes.set_ylabel(wording("plot-share"))
    legend_below(figure)
    axes.set_title(title or wording("plot-weights-in-unit"), loc="left", fontsize=11)
    return to_bytes(figure, plot_format, theme)


def _draw_quantiles(axes: Axes, estimate: PopulationEstimate, *, top: float) -> None:
    quantiles = ((0.1, "tenth"), (0.5, "half"), (0.9, "nine-tenths"))
    # one above the other: side by side their lines and words would run together
    for number, (fraction, name) in enumerate(quantiles):
        height = (1.08 + 0.15 * number) * top
        entry = next(
            q for q in estimate.weight_quantiles_g if q.below_fraction == fraction
        )
        weight = entry.weight_g
        axes.plot([weight.low, weight.high], [height, height], color=GREY, lw=1.5)
        axes.plot([weight.value], [height], "o", color=GREY, markersize=5)
        axes.annotate(
            wording("plot-below", case=name, weight_g=weight.value),
            (weight.value, height),
            xytext=(0, 5),
            textcoords="offset points",
            ha="center",
            fontsize=8,
            color=GREY,
        )


def _draw_fish(
    axes: Axes,
    estimate: PopulationEstimate,
    nets: tuple[NetWeighing, ...],
    *,
    height: float,
) -> None:
    lengths = np.array([f.fork_length_mm for net in nets for f in net.complete_fish])
    if len(lengths):
        line = estimate.line
        weights = line.a_g_cm.value * (lengths / 10.0) ** line.b.value
        axes.plot(
            weights,
            np.full(len(weights), height),
            "|",
            color=BLUE,
            markersize=9,
            label=wording("plot-measured", fish=len(weights)),
        )


def _round_step(step: float) -> float:
    """Return 1, 2, 2.5 or 5 times a power of ten, near ``step``."""
    power = 10.0 ** np.floor(np.log10(step))
    for factor in (1.0, 2.0, 2.5, 5.0):
        if step <= factor * power * 1.2:
            return float(factor * power)
    return float(10.0 * power)
