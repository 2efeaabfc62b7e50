"""What stands along the axes: figures and months as the reader writes them."""

from functools import partial
from typing import Any, Final

import numpy as np
from babel.dates import get_month_names
from matplotlib.axis import Axis
from matplotlib.dates import AutoDateLocator, ConciseDateFormatter
from matplotlib.ticker import FuncFormatter, MaxNLocator

from fishmeasure.base.words import voice, wording
from fishmeasure.base.words.locales import locale_of
from fishmeasure.base.words.units import Unit, unit_of

# matplotlib's own is not typed.
_Formatter: Any = ConciseDateFormatter
_ENGLISH: Final = get_month_names("abbreviated", locale="en")


def unit_shown(name: str) -> Unit | None:
    """Return the unit of a figure where it is a US one; None where it is metric."""
    unit = unit_of(name)
    return unit if unit is not None and unit.us and voice().units == "us" else None


def write_figures(axis: Axis, name: str = "") -> None:
    """Have an axis' ticks at round figures of the reader's unit, in the reader's way.

    What is drawn stays metric; ``name`` is that of its figure, such as ``weight_g``.
    """
    unit = unit_shown(name)
    if unit is not None:
        axis.set_major_locator(_UnitLocator(unit))
    axis.set_major_formatter(FuncFormatter(partial(_figure, unit)))


def _figure(unit: Unit | None, value: float, _place: int | None) -> str:
    shown = value if unit is None else unit.shown(value)
    # What a conversion leaves of a round figure is no figure.
    return wording("plot-tick", figure=float(f"{shown:.6g}") + 0.0)


class _UnitLocator(MaxNLocator):
    """Ticks at round figures of another unit than that of the data."""

    def __init__(self, unit: Unit) -> None:
        super().__init__(nbins=9, steps=[1, 2, 2.5, 5, 10])
        self._unit = unit

    def tick_values(self, vmin: float, vmax: float) -> Any:
        """Return where the ticks are, in the unit of the data."""
        shown = super().tick_values(self._unit.shown(vmin), self._unit.shown(vmax))
        return (np.asarray(shown) - self._unit.plus) / self._unit.per


def write_days(axis: Axis, locator: AutoDateLocator) -> None:
    """Have an axis of days with months in the reader's language."""
    axis.set_major_locator(locator)
    own: Any = _Days
    axis.set_major_formatter(own(locator))


class _Days(_Formatter):  # type: ignore[misc]
    """Days in few words."""

    def format_ticks(self, values: Any) -> list[str]:
        """Return what stands at the ticks."""
        return [_month(text) for text in super().format_ticks(values)]

    def get_offset(self) -> str:
        """Return what stands once for all ticks."""
        return _month(super().get_offset())


def _month(text: str) -> str:
    own = get_month_names("abbreviated", locale=locale_of(voice().language))
    for number, english in _ENGLISH.items():
        text = text.replace(english, own[number])
    return text
