"""Length and weight: the published line beside this stock's."""

import numpy as np
from matplotlib.axes import Axes

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.words import wording
from fishmeasure.estimation.model import PopulationEstimate
from fishmeasure.estimation.nets import NetWeighing, net_label
from fishmeasure.render.plots.axis_words import write_figures
from fishmeasure.render.plots.canvas import (
    BLUE,
    GREEN,
    GREY,
    ORANGE,
    PlotFormat,
    new_axes,
    to_bytes,
)
from fishmeasure.render.plots.theme import Theme
from fishmeasure.species import LengthWeight
from fishmeasure.species.fit import LengthWeightFit


def fit_plot(
    length_mm: FloatArray,
    weight_g: FloatArray,
    fit: LengthWeightFit,
    *,
    published: LengthWeight | None = None,
    plot_format: PlotFormat = "png",
) -> bytes:
    """Return single fish with their fitted line and, if given, the published one."""
    figure, axes = new_axes()
    axes.plot(length_mm, weight_g, "o", color=BLUE, markersize=4, alpha=0.7)
    _mark_outliers(axes, length_mm, weight_g, fit.outliers)
    span = np.geomspace(fit.min_length_mm * 0.95, fit.max_length_mm * 1.05, 100)
    line = fit.a_g_cm * (span / 10.0) ** fit.b
    spread = np.exp(2.0 * fit.residual_sd_ln)
    axes.fill_between(
        span, line / spread, line * spread, color=BLUE, alpha=0.13, linewidth=0
    )
    axes.plot(
        span,
        line,
        color=BLUE,
        label=wording(
            "plot-own-line",
            a=f"{fit.a_g_cm:.4g}",
            b=fit.b,
            fish=fit.fish_count,
        ),
    )
    if published is not None:
        a, b = published.a_g_cm, published.b
        label = wording("plot-published-line", a=f"{a:.4g}", b=b)
        axes.plot(span, a * (span / 10.0) ** b, "--", color=GREY, label=label)
    _finish(
        axes,
        wording("plot-length", case=fit.length_kind),
        wording("plot-single-fish"),
    )
    return to_bytes(figure, plot_format)


def sample_line_plot(
    estimate: PopulationEstimate,
    nets: tuple[NetWeighing, ...],
    *,
    plot_format: PlotFormat = "png",
    theme: Theme | None = None,
) -> bytes:
    """Return the nets that were measured and weighed, with both lines.

    A net stands at the length whose cube is its fish's mean cube, so that a mixed
    net is not drawn too light.
    """
    figure, axes = new_axes()
    line = estimate.line
    lengths = [line.at_length_mm, *_draw_nets(axes, estimate, nets)]
    span = np.geomspace(0.9 * min(lengths), 1.1 * max(lengths), 100)
    if estimate.level_is_measured:
        _draw_own_line(axes, estimate, span)
    axes.plot(
        span,
        line.published_a_g_cm * (span / 10.0) ** line.published_b,
        "--",
        color=GREY,
        label=wording("plot-published"),
    )
    _finish(axes, wording("plot-length", case="fork"), wording("plot-nets"))
    return to_bytes(figure, plot_format, theme)


def _draw_own_line(axes: Axes, estimate: PopulationEstimate, span: FloatArray) -> None:
    """Draw the stock's own line with its interval."""
    line, ratio = estimate.line, estimate.line.level_ratio
    middle = line.a_g_cm.value * (span / 10.0) ** line.b.value
    axes.fill_between(
        span,
        middle * ratio.low / ratio.value,
        middle * ratio.high / ratio.value,
        color=BLUE,
        alpha=0.2,
        linewidth=0,
    )
    axes.plot(
        span,
        middle,
        color=BLUE,
        label="\n".join(  # a phone is narrow
            (
                wording("plot-on-published", off=f"{100 * (ratio.value - 1):+.0f}"),
                wording("plot-shaded", percent=round(100 * estimate.level)),
            )
        ),
    )


def _mark_outliers(
    axes: Axes, length_mm: FloatArray, weight_g: FloatArray, outliers: tuple[int, ...]
) -> None:
    """Ring the fish that are to be looked at again."""
    for index in outliers:
        axes.plot(
            length_mm[index],
            weight_g[index],
            "o",
            markersize=11,
            markerfacecolor="none",
            markeredgecolor=ORANGE,
            markeredgewidth=1.6,
        )
        axes.annotate(
            wording("plot-look-again", fish=index + 1),
            (length_mm[index], weight_g[index]),
            xytext=(-8, -10),
            textcoords="offset points",
            ha="right",
            fontsize=8,
            color=ORANGE,
        )


def _draw_nets(
    axes: Axes, estimate: PopulationEstimate, nets: tuple[NetWeighing, ...]
) -> list[float]:
    """Draw the nets that were measured and weighed; return how long their fish are."""
    flagged = {report.label for report in estimate.nets if report.flag}
    reports = {report.label: report for report in estimate.nets}
    lengths: list[float] = []
    for number, net in enumerate(nets, 1):
        label = net.label or net_label(number)
        report = reports.get(label)
        fish = np.array([f.fork_length_mm for f in net.complete_fish])
        if report is None or report.mean_weight_g is None or not len(fish):
            continue
        if not net.weighed:
            continue
        length = float(np.mean(fish**3) ** (1.0 / 3.0))
        lengths += [float(fish.min()), float(fish.max())]
        colour = ORANGE if label in flagged else GREEN
        axes.plot(length, report.mean_weight_g, "o", color=colour, markersize=7)
        if label in flagged:
            axes.annotate(
                wording("plot-disagrees", net=label),
                (length, report.mean_weight_g),
                xytext=(7, -3),
                textcoords="offset points",
                fontsize=8,
                color=colour,
            )
    return lengths


def _finish(axes: Axes, x_label: str, title: str) -> None:
    write_figures(axes.xaxis, "length_mm")
    write_figures(axes.yaxis, "weight_g")
    axes.set_xlabel(x_label)
    axes.set_ylabel(wording("plot-weight"))
    axes.set_ylim(bottom=0.0)
    axes.legend(frameon=False, fontsize=9, loc="upper left")
    axes.set_title(title, loc="left", fontsize=11)
