"""A unit's history on a phone's screen: growth, and how far apart the weights are."""

from datetime import date, timedelta
from typing import Final

import numpy as np
from matplotlib.axes import Axes
from matplotlib.dates import AutoDateLocator, date2num
from matplotlib.figure import Figure

from fishmeasure.base.words import wording
from fishmeasure.book.entries import Sample
from fishmeasure.husbandry.harvest import WeightSpread
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.outlook import USUAL_CV, CohortOutlook
from fishmeasure.outlook.unit import UnitOutlook
from fishmeasure.render.plots.axis_words import write_days, write_figures
from fishmeasure.render.plots.canvas import (
    BLUE,
    GREEN,
    GREY,
    ORANGE,
    PlotFormat,
    legend_below,
    new_axes,
    to_bytes,
)
from fishmeasure.render.plots.theme import Theme

_COLOURS: Final = (BLUE, GREEN, ORANGE, GREY)
_AHEAD_DAYS: Final = 120
_BESIDE_DAYS: Final = 4.0


def growth_plot(
    outlook: UnitOutlook,
    *,
    plot_format: PlotFormat = "svg",
    theme: Theme | None = None,
) -> bytes:
    """Return each cohort's samples and its mean weight ahead, with intervals."""
    figure, axes = new_axes()
    for item, colour in _coloured(outlook):
        _samples(axes, _samples_of(outlook, item), colour)
        _ahead(axes, outlook.on, item, colour)
    axes.axvline(_x(outlook.on), color=GREY, linewidth=0.8)
    _finish(figure, axes, wording("plot-mean-of-a-fish"), wording("plot-growth-so-far"))
    return to_bytes(figure, plot_format, theme)


def spread_plot(
    outlook: UnitOutlook,
    *,
    plot_format: PlotFormat = "svg",
    theme: Theme | None = None,
) -> bytes:
    """Return the spread of weights at each sample and on the day.

    A thin bar has nine in ten fish, a thick one half of them, a dot the middle.
    """
    figure, axes = new_axes()
    for number, (item, colour) in enumerate(_coloured(outlook)):
        rows = [
            (sample.on, sample.mean_weight_g, sample.cv)
            for sample in _samples_of(outlook, item)
        ]
        mean = item.fish.mean_weight_g
        if mean is not None:
            rows.append((outlook.on, mean.value, item.cv.value))
        for day, mean_g, cv in rows:
            spread = WeightSpread(mean_g=mean_g, cv=cv or USUAL_CV.value)
            # cohorts sampled on one day stand side by side
            _bar(axes, _x(day) + _BESIDE_DAYS * number, spread, colour)
        axes.plot([], [], "o", color=colour, label=item.cohort.name)
        if rows:
            axes.axhline(
                item.plate_weight_g, color=colour, linestyle="--", linewidth=0.9
            )
    _finish(
        figure,
        axes,
        wording("plot-weight-of-a-fish"),
        "\n".join(wording("plot-spread", case=case) for case in ("thin", "thick")),
    )
    return to_bytes(figure, plot_format, theme)


def _coloured(outlook: UnitOutlook) -> list[tuple[CohortOutlook, str]]:
    return [
        (item, _COLOURS[number % len(_COLOURS)])
        for number, item in enumerate(outlook.cohorts)
    ]


def _samples_of(outlook: UnitOutlook, item: CohortOutlook) -> list[Sample]:
    return [s for s in outlook.samples if s.cohort_id == item.cohort.id]


def _x(day: date) -> float:
    return float(date2num(day))


def _samples(axes: Axes, samples: list[Sample], colour: str) -> None:
    if not samples:
        return
    means = np.array([sample.mean_weight_g for sample in samples])
    ends = np.array([(s.mean_weight_low_g, s.mean_weight_high_g) for s in samples])
    axes.errorbar(
        [_x(sample.on) for sample in samples],
        means,
        yerr=np.abs(ends.T - means),
        fmt="o",
        color=colour,
        markersize=6,
        linewidth=1.6,
        capsize=3,
    )


def _ahead(axes: Axes, on: date, item: CohortOutlook, colour: str) -> None:
    ahead = item.projection
    if ahead is None:
        axes.plot([], [], color=colour, label=item.cohort.name)
        return
    last = min((on - ahead.start).days + _AHEAD_DAYS, ahead.days)
    days = np.array([_x(ahead.start + timedelta(days=n)) for n in range(last + 1)])
    root = ahead.root_g[: last + 1]
    reach = z_score(ahead.level) * ahead.root_sd_g[: last + 1]
    low = np.maximum(root - reach, 0.0) ** 3
    axes.fill_between(
        days, low, (root + reach) ** 3, color=colour, alpha=0.2, linewidth=0
    )
    percent = round(100.0 * ahead.level)
    axes.plot(
        days,
        root**3,
        color=colour,
        linewidth=2.0,
        label=wording("plot-interval", cohort=item.cohort.name, percent=percent),
    )
    axes.axhline(
        item.plate_weight_g,
        color=colour,
        linestyle="--",
        linewidth=0.9,
        label=wording("plot-plate-size", plate_g=item.plate_weight_g),
    )


def _bar(axes: Axes, at: float, spread: WeightSpread, colour: str) -> None:
    weight = spread.weight_at_rank_g
    axes.plot([at, at], [weight(0.05), weight(0.95)], color=colour, linewidth=1.6)
    axes.plot([at, at], [weight(0.25), weight(0.75)], color=colour, linewidth=6.0)
    axes.plot([at], [weight(0.5)], "o", color="#000000", markersize=3.5)


def _finish(figure: Figure, axes: Axes, y_label: str, title: str) -> None:
    locator = AutoDateLocator(minticks=3, maxticks=7)
    axes.xaxis_date()
    write_days(axes.xaxis, locator)
    write_figures(axes.yaxis, "weight_g")
    axes.set_ylim(bottom=0.0)
    axes.set_ylabel(y_label)
    axes.set_title(title, loc="left", fontsize=11)
    handles, _ = axes.get_legend_handles_labels()
    if handles:
        legend_below(figure)
    else:
        axes.text(
            0.5,
            0.5,
            wording("plot-no-fish"),
            transform=axes.transAxes,
            horizontalalignment="center",
        )
