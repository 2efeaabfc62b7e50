"""What is not known of a cohort, as standard normal figures with names.

Everything that a history depends on is a known function of these. A history that is
followed for many values of them at once (one column each) gives, by differences, how
every figure hangs on every unknown; followed at draws from their posterior it gives
the figures' distribution.
"""

from collections.abc import Hashable

import numpy as np

from fishmeasure.base.arrays import FloatArray


class Unknowns:
    """The unknowns that were met so far, and the values at which to follow."""

    def __init__(self) -> None:
        self._rows: dict[Hashable, int] = {}
        self._values = np.zeros((0, 1))

    def __len__(self) -> int:
        return len(self._rows)

    def at(self, values: FloatArray) -> None:
        """Follow the history at these values, (unknowns, columns)."""
        self._values = values

    @property
    def values(self) -> FloatArray:
        """Return the values at which the history is followed."""
        return self._values

    @property
    def columns(self) -> int:
        """Return at how many values the history is followed at once."""
        return int(self._values.shape[1])

    def __call__(self, name: Hashable, sd: float = 1.0) -> FloatArray:
        """Return sd times the unknown of that name: (columns,)."""
        if sd <= 0.0:
            return np.zeros(self.columns)
        row = self._rows.setdefault(name, len(self._rows))
        if row >= len(self._values):  # met for the first time: at its middle
            return np.zeros(self.columns)
        found: FloatArray = sd * self._values[row]
        return found
