"""The outlook's plots: growth, weights, limits, and the oxygen after a stop."""

from collections.abc import Callable
from datetime import timedelta
from functools import partial
from typing import Final

import numpy as np
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.dates import AutoDateLocator, date2num
from matplotlib.figure import Figure

from fishmeasure.base.words import wording
from fishmeasure.husbandry.harvest import WeightSpread
from fishmeasure.husbandry.outage import OutageResult
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.husbandry.stocking import Limit
from fishmeasure.outlook import CohortOutlook
from fishmeasure.outlook.unit import UnitOutlook
from fishmeasure.render.plots.axis_words import unit_shown, write_days, write_figures
from fishmeasure.render.plots.canvas import BLUE, GREEN, GREY, ORANGE, to_bytes

SIZE_IN: Final = (3.45, 2.15)  # two beside each other on a page
_COLOURS: Final = (BLUE, GREEN, ORANGE, GREY)
_AHEAD_DAYS: Final = 120
_SMALL: Final = 7


def outlook_plots(outlook: UnitOutlook) -> tuple[bytes, ...]:
    """Return the plots that the outlook has figures for, as PNG."""
    drawings: list[Callable[[Axes], None]] = []
    if any(item.projection is not None for item in outlook.cohorts):
        drawings.append(partial(_growth, outlook=outlook))
    if any(item.quantiles_g for item in outlook.cohorts):
        drawings.append(partial(_weights, outlook=outlook))
    if outlook.limits is not None:
        drawings.append(partial(_limits, limits=outlook.limits.load.limits))
    if outlook.outages is not None:
        drawings.append(partial(_oxygen, worst=outlook.outages.worst))
    return tuple(_drawn(draw) for draw in drawings)


def _drawn(draw: Callable[[Axes], None]) -> bytes:
    figure = Figure(figsize=SIZE_IN, layout="constrained", dpi=200)
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    axes.spines[["top", "right"]].set_visible(False)
    axes.tick_params(labelsize=_SMALL)
    draw(axes)
    axes.xaxis.label.set_fontsize(_SMALL)
    axes.yaxis.label.set_fontsize(_SMALL)
    return to_bytes(figure, "png")


def _growing(outlook: UnitOutlook) -> list[tuple[CohortOutlook, str]]:
    return [
        (item, _COLOURS[number % len(_COLOURS)])
        for number, item in enumerate(outlook.cohorts)
    ]


def _growth(axes: Axes, outlook: UnitOutlook) -> None:
    """Draw samples, the mean weight ahead with its interval, and plate size."""
    for item, colour in _growing(outlook):
        if item.projection is None:
            continue
        ahead = min(_AHEAD_DAYS, item.projection.days)
        days = [outlook.on + timedelta(days=n) for n in range(ahead + 1)]
        dates = np.asarray(date2num(days))
        root = item.projection.root_g[: ahead + 1]
        reach = z_score(item.projection.level) * item.projection.root_sd_g[: ahead + 1]
        low = np.maximum(root - reach, 0.0) ** 3
        axes.fill_between(
            dates, low, (root + reach) ** 3, color=colour, alpha=0.2, linewidth=0
        )
        axes.plot(dates, root**3, color=colour, linewidth=1.4, label=item.cohort.name)
        samples = [s for s in outlook.samples if s.cohort_id == item.cohort.id]
        if samples:
            means = np.array([s.mean_weight_g for s in samples])
            low_ends = [s.mean_weight_low_g for s in samples]
            high_ends = [s.mean_weight_high_g for s in samples]
            axes.errorbar(
                np.asarray(date2num([s.on for s in samples])),
                means,
                yerr=np.abs(np.array([low_ends, high_ends]) - means),
                fmt="o",
                color=colour,
                markersize=2.5,
                linewidth=0.9,
            )
        axes.axhline(item.plate_weight_g, color=colour, linestyle="--", linewidth=0.8)
    locator = AutoDateLocator(maxticks=6)
    write_days(axes.xaxis, locator)
    write_figures(axes.yaxis, "weight_g")
    axes.xaxis.get_offset_text().set_fontsize(_SMALL)
    axes.set_ylim(bottom=0.0)
    axes.set_ylabel(wording("plot-mean-weight"))
    axes.set_title(wording("plot-growth"), loc="left", fontsize=8)
    axes.legend(frameon=False, fontsize=6, loc="upper left")


def _weights(axes: Axes, outlook: UnitOutlook) -> None:
    """Draw how many fish are of which weight."""
    known = [
        (item, item.fish.mean_weight_g, colour)
        for item, colour in _growing(outlook)
        if item.fish.mean_weight_g is not None
    ]
    top = max(item.quantiles_g[-1][1] for item, _, _ in known) * 1.25
    unit = unit_shown("weight_g")
    step_g = 10.0 if unit is None else unit.metric(1.0)
    edges = np.linspace(0.0, top, 61)
    for item, mean, colour in known:
        spread = WeightSpread(mean_g=mean.value, cv=max(item.cv.value, 1e-3))
        above = np.array([spread.fraction_above(max(edge, 1e-6)) for edge in edges])
        fish = -np.diff(above) * item.fish.fish_count.value / np.diff(edges) * step_g
        middles = (edges[1:] + edges[:-1]) / 2.0
        axes.fill_between(middles, fish, color=colour, alpha=0.25, linewidth=0)
        axes.plot(middles, fish, color=colour, linewidth=1.2)
        axes.axvline(item.plate_weight_g, color=colour, linestyle="--", linewidth=0.8)
    axes.set_xlim(0.0, top)
    axes.set_ylim(bottom=0.0)
    write_figures(axes.xaxis, "weight_g")
    write_figures(axes.yaxis)
    axes.set_xlabel(wording("plot-weight-of-a-fish"))
    axes.set_ylabel(wording("plot-fish-in-each", step_g=step_g))
    axes.set_title(wording("plot-weights-today"), loc="left", fontsize=8)


def _limits(axes: Axes, limits: tuple[Limit, ...]) -> None:
    """Draw how much of each limit is used, with its interval; the fullest on top."""
    limits = limits[::-1]
    values = np.array([100.0 * limit.used_fraction.value for limit in limits])
    lows = np.array([100.0 * limit.used_fraction.low for limit in limits])
    highs = np.array([100.0 * limit.used_fraction.high for limit in limits])
    shown = np.minimum(values, 300.0)
    colours = [ORANGE if high > 100.0 else BLUE for high in highs]
    axes.barh(range(len(limits)), shown, color=colours, alpha=0.6, height=0.65)
    axes.errorbar(
        shown,
        range(len(limits)),
        xerr=np.abs(
            [shown - np.minimum(lows, 300.0), np.minimum(highs, 300.0) - shown]
        ),
        fmt="none",
        ecolor="black",
        linewidth=0.9,
        capsize=2,
    )
    axes.axvline(100.0, color="black", linewidth=0.9, linestyle="--")
    names = [
        wording("limit-within", case=limit.name.replace(" ", "-")) for limit in limits
    ]
    axes.set_yticks(range(len(limits)), names)
    axes.set_xlim(0.0, max(115.0, min(320.0, float(highs.max()) * 1.05)))
    write_figures(axes.xaxis)
    axes.set_xlabel(wording("plot-used"))
    axes.set_title(wording("plot-limits"), loc="left", fontsize=8)


def _oxygen(axes: Axes, worst: OutageResult) -> None:
    """Draw the oxygen after the stop that leaves least time."""
    hours = worst.course_min / 60.0
    axes.fill_between(
        hours,
        worst.course_low_mg_per_l,
        worst.course_high_mg_per_l,
        color=BLUE,
        alpha=0.2,
        linewidth=0,
    )
    axes.plot(hours, worst.course_mg_per_l, color=BLUE, linewidth=1.4)
    for name, time in (("caution", worst.to_caution), ("critical", worst.to_critical)):
        axes.axhline(time.level_mg_per_l, color=ORANGE, linestyle="--", linewidth=0.9)
        axes.annotate(
            wording("plot-level", case=name, level=time.level_mg_per_l),
            xy=(1.0, time.level_mg_per_l),
            xycoords=("axes fraction", "data"),
            xytext=(-2, 2),
            textcoords="offset points",
            horizontalalignment="right",
            fontsize=6,
        )
    axes.set_xlim(0.0, float(hours[-1]))
    axes.set_ylim(bottom=0.0)
    write_figures(axes.xaxis)
    write_figures(axes.yaxis)
    axes.set_xlabel(wording("chart-hours-after"))
    axes.set_ylabel(wording("plot-oxygen"))
    axes.set_title(wording("plot-tonight", name=worst.name), loc="left", fontsize=8)
