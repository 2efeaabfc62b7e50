"""How a cohort grows: a stock's own coefficient, and how growth strays from it.

Time is cut where fish are weighed, and every three weeks between. Within a piece growth
is even; each piece has a deviation common to the cohort, which comes back to nil
(``husbandry.growth``), and an unevenness of each unit.
"""

import math
from bisect import bisect_right
from collections.abc import Iterable
from functools import cached_property
from typing import Final
from uuid import UUID

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.book.climate import Climate
from fishmeasure.book.posterior.unknowns import Unknowns
from fishmeasure.husbandry.growth import (
    DEVIATION_DEGREE_DAYS,
    DEVIATION_SPREAD,
    STEP_SPREAD,
    noise_per_step,
    standing_var,
)
from fishmeasure.species import FarmedSpecies

_LONGEST_DAYS: Final = 21
_SHORTEST_DAYS: Final = 5
# Histories of years are cut less finely, or an answer would take longer than it is
# worth: then a piece is a 40th of the whole.
_MOST_PIECES: Final = 40
_LEAST_SHARE: Final = 0.2  # of its root that a fish keeps, whatever the figures say


class Course:
    """The pieces of a cohort's time, and growth in each."""

    def __init__(
        self,
        first: int,
        last: int,
        weighed: Iterable[int],
        climate: Climate,
        figures: FarmedSpecies | None,
    ) -> None:
        self.figures = figures
        self._climate = climate
        self._ends = _cuts(first, last, weighed)
        self._begins = [first, *self._ends[:-1]]
        self._wholes: dict[tuple[UUID, int], tuple[float, int]] = {}

    def piece(self, day: int) -> int:
        """Return the piece in which the night after a day lies."""
        return min(bisect_right(self._ends, day), len(self._ends) - 1)

    def parts(self, start: int, end: int) -> list[tuple[int, int, int]]:
        """Return (piece, first day, last day) of what lies between two days."""
        found = []
        while start < end:
            piece = self.piece(start)
            stop = min(end, self._ends[piece]) if start < self._ends[piece] else end
            found.append((piece, start, stop))
            start = stop
        return found

    def degree_days(self, unit_id: UUID, start: int, end: int) -> float:
        """Return the growing degree-days; none without figures of the species."""
        if self.figures is None:
            return 0.0
        return self._climate.degree_days(unit_id, self.figures, start, end)

    def temperature_deg_c(self, unit_id: UUID, day: int) -> float:
        """Return the water's temperature on a day."""
        return self._climate.temperature_deg_c(unit_id, day)

    def of_piece(self, unit_id: UUID, piece: int) -> tuple[float, int]:
        """Return the degree-days and the days of a whole piece."""
        key = (unit_id, piece)
        if key not in self._wholes:
            begin, end = self._begins[piece], self._ends[piece]
            whole = self.degree_days(unit_id, begin, end)
            self._wholes[key] = (whole, max(1, end - begin))
        return self._wholes[key]

    @cached_property
    def published(self) -> float:
        """The species' published TGC x 1000, 0 without one."""
        return 0.0 if self.figures is None else self.figures.growth.tgc_x1000.value


class Growing:
    """Growth of a cohort at the values of the unknowns."""

    def __init__(self, course: Course, unknown: Unknowns, home: UUID) -> None:
        self.course, self._unknown, self._home = course, unknown, home
        book = course.figures.growth.tgc_x1000 if course.figures else None
        relative = 0.0 if book is None else book.relative_sd
        self.tgc = course.published * (1.0 + unknown("tgc", relative))
        self._deviations: list[FloatArray] = []
        self._paces: dict[tuple[UUID, int], tuple[FloatArray, FloatArray]] = {}

    def deviation(self, piece: int) -> FloatArray:
        """Return what is added to the stock's TGC x 1000 in a piece."""
        while len(self._deviations) <= piece:
            number = len(self._deviations)
            spread = DEVIATION_SPREAD if self.course.published else 0.0
            new = self._unknown(("deviation", number), spread)
            if number and spread:
                kept = math.exp(-self._apart(number) / DEVIATION_DEGREE_DAYS)
                before = self._deviations[-1] / self.course.published
                new = kept * before + math.sqrt(1.0 - kept**2) * new
            self._deviations.append(self.course.published * new)
        return self._deviations[piece]

    def _apart(self, piece: int) -> float:
        """Return the degree-days between the middles of a piece and the one before."""
        both = (self.course.of_piece(self._home, n)[0] for n in (piece - 1, piece))
        return sum(both) / 2.0

    def grown(
        self, root: FloatArray, unit_id: UUID, part: tuple[int, int, int]
    ) -> FloatArray:
        """Return the cube root of the weight at the end of a part of a piece."""
        piece, start, end = part
        if not self.course.published:
            return root
        if (unit_id, piece) not in self._paces:
            self._paces[unit_id, piece] = self._pace(root, unit_id, piece)
        rate, uneven = self._paces[unit_id, piece]
        step = self.course.degree_days(unit_id, start, end) / 1000.0
        found: FloatArray = root + (rate * step + uneven * (end - start))
        return np.maximum(found, _LEAST_SHARE * root)

    def _pace(
        self, root: FloatArray, unit_id: UUID, piece: int
    ) -> tuple[FloatArray, FloatArray]:
        """Return growth of the root per 1000 degree-days, and uneven growth a day."""
        whole, days = self.course.of_piece(unit_id, piece)
        rate = self.tgc + _mean_share(whole) * self.deviation(piece)
        walk = noise_per_step(STEP_SPREAD, self.course.published) * whole / 1000.0
        spread = np.sqrt(walk + standing_var(days) * root * root) / days
        return rate, spread * self._unknown(("uneven", unit_id, piece))


def _mean_share(degree_days: float) -> float:
    """Return the sd of a deviation's mean over a piece, as a share of its own.

    Of a stationary Ornstein-Uhlenbeck process; in any textbook.
    """
    reach = degree_days / DEVIATION_DEGREE_DAYS
    if reach < 1e-3:
        return 1.0
    return math.sqrt(2.0 * (reach - 1.0 + math.exp(-reach))) / reach


def _cuts(first: int, last: int, weighed: Iterable[int]) -> list[int]:
    """Return the days at which pieces end, the last day last."""
    longest = max(_LONGEST_DAYS, (last - first) // (_MOST_PIECES // 2))
    shortest = max(_SHORTEST_DAYS, (last - first) // _MOST_PIECES)
    ends: list[int] = []
    at = first
    for day in (*sorted(set(weighed)), last):
        if not first < day <= last or (day - at < shortest and day != last):
            continue
        number = math.ceil((day - at) / longest)
        ends += [at + (day - at) * n // number for n in range(1, number + 1)]
        at = day
    return ends or [max(last, first + 1)]
