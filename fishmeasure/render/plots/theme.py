"""A plot's colours for a dark page: the figure is made light, then changed."""

from collections.abc import Mapping
from typing import Any, Final, Literal

from matplotlib.collections import Collection
from matplotlib.colors import to_hex, to_rgba
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch
from matplotlib.text import Text

Theme = Literal["light", "dark"]

# Counterparts that stand out on a dark ground as much as the others on white, from
# the same palette (Okabe & Ito 2008) where it has one.
_DARK: Final[Mapping[str, str]] = {
    "#000000": "#e8e8e8",
    "#595959": "#b5b5b5",
    "#d9d9d9": "#454545",
    "#0072b2": "#56b4e9",
    "#7db4d8": "#2f6f99",
    "#d55e00": "#e69f00",
    "#009e73": "#3fc79a",
    "#cccccc": "#454545",
}


def set_theme(figure: Figure, theme: Theme) -> None:
    """Give the figure a clear ground and, for a dark page, light ink."""
    for axes in figure.axes:
        axes.patch.set_alpha(0.0)
        if theme == "dark":
            axes.tick_params(colors=_DARK["#000000"], which="both")
    figure.patch.set_alpha(0.0)
    if theme == "light":
        return
    figure.canvas.draw()  # ticks and legends get their artists here
    for artist in figure.findobj():
        _recolour(artist)


def _dark(colour: Any) -> Any:
    """Return the counterpart of a colour, its transparency kept."""
    red, green, blue, alpha = to_rgba(colour)
    found = _DARK.get(to_hex((red, green, blue)))
    return (red, green, blue, alpha) if found is None else to_rgba(found, alpha)


def _recolour(artist: Any) -> None:
    if isinstance(artist, Text):
        artist.set_color(_dark(artist.get_color()))
    elif isinstance(artist, Line2D):
        marker = artist.get_markerfacecolor(), artist.get_markeredgecolor()
        artist.set_color(_dark(artist.get_color()))
        artist.set_markerfacecolor(_dark(marker[0]))
        artist.set_markeredgecolor(_dark(marker[1]))
    elif isinstance(artist, Patch):
        face, edge = artist.get_facecolor(), artist.get_edgecolor()
        artist.set_facecolor(_dark(face))
        artist.set_edgecolor(_dark(edge))
    elif isinstance(artist, Collection):
        faces, edges = artist.get_facecolor(), artist.get_edgecolor()
        artist.set_facecolor([_dark(colour) for colour in faces])
        artist.set_edgecolor([_dark(colour) for colour in edges])
