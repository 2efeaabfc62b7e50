"""Plots as PNG or PDF bytes, drawn without any state that threads would share."""

from fishmeasure.render.plots.canvas import PlotFormat, plot_format_of
from fishmeasure.render.plots.length_weight import fit_plot, sample_line_plot
from fishmeasure.render.plots.theme import Theme
from fishmeasure.render.plots.weights import weight_plot

__all__ = [
    "PlotFormat",
    "Theme",
    "fit_plot",
    "plot_format_of",
    "sample_line_plot",
    "weight_plot",
]
