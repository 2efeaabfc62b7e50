"""What all plots share: a figure of one size, colours, and its bytes."""

import io
from typing import Final, Literal

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from fishmeasure.render.plots.theme import Theme, set_theme

PlotFormat = Literal["png", "pdf", "svg"]

# Okabe & Ito 2008: told apart by people with any colour vision.
BLUE: Final = "#0072B2"
ORANGE: Final = "#D55E00"
GREEN: Final = "#009E73"
GREY: Final = "#595959"

_SIZE_IN: Final = (7.2, 4.6)  # reads on a phone held across and fits a page's width
# A card of the phone page is some 330 CSS px wide: its 8 pt text has 11 px there.
_PHONE_SIZE_IN: Final = (3.3, 3.6)
_DPI: Final = 150


def new_axes() -> tuple[Figure, Axes]:
    """Return a figure with one set of axes, owned by the caller alone."""
    figure = Figure(figsize=_SIZE_IN, layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    axes.spines[["top", "right"]].set_visible(False)
    axes.grid(visible=True, color="#d9d9d9", linewidth=0.6)
    axes.set_axisbelow(True)
    return figure, axes


def legend_below(figure: Figure) -> None:
    """Draw the legend under the axes: on a phone's screen it would cover the data."""
    figure.legend(
        frameon=False, fontsize=9, loc="outside lower left", borderaxespad=0.0
    )


def to_bytes(
    figure: Figure, plot_format: PlotFormat, theme: Theme | None = None
) -> bytes:
    """Return the figure's file, without a date in it: same input, same bytes.

    ``theme`` is that of the phone page that shows it; None is for paper.
    """
    if theme is not None:
        figure.set_size_inches(*_PHONE_SIZE_IN)
        set_theme(figure, theme)
    buffer = io.BytesIO()
    dates: dict[str, dict[str, str | None]] = {
        "png": {},
        "pdf": {"CreationDate": None},
        "svg": {"Date": None},
    }
    figure.savefig(
        buffer, format=plot_format, dpi=_DPI, metadata=dates[plot_format] or None
    )
    return buffer.getvalue()


def plot_format_of(file_name: str) -> PlotFormat | None:
    """Return the format that a file's ending asks for, None if there is none."""
    endings: dict[str, PlotFormat] = {".png": "png", ".pdf": "pdf", ".svg": "svg"}
    return next(
        (
            plot_format
            for ending, plot_format in endings.items()
            if file_name.lower().endswith(ending)
        ),
        None,
    )
