"""The fish of a cohort in one unit, at many values of the unknowns at once."""

from dataclasses import dataclass, field
from datetime import date
from typing import Final
from uuid import UUID

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem

MOST_WEIGHT_CHANGE: Final = 3.0
"""Times by which fish that go may change the mean weight of those left; common
practice, no source."""


@dataclass(slots=True, kw_only=True)
class Flows:
    """Kilograms that came into a unit and left it, since the book began.

    ``dead`` are those seen dead and those that went unseen. ``grown`` is what the fish
    put on, also those that died later. ``unknown`` counts fish of unknown weight.
    """

    added_kg: FloatArray
    taken_kg: FloatArray
    dead_kg: FloatArray
    grown_kg: FloatArray
    kept_up_kg: FloatArray  # of feed that only kept them as they were
    unknown_fish: float = 0.0


@dataclass(slots=True, kw_only=True)
class Group:
    """One cohort in one unit, on the day ``day`` (an ordinal).

    Arrays have a column for each value of the unknowns, the likeliest first. ``book``
    is plain arithmetic since the last count, ``unseen`` the fish that have gone unseen
    since then; ``log_cv`` is a mere prior until ``cv_seen``.
    """

    unit_id: UUID
    day: int
    since: int
    count: FloatArray
    unseen: FloatArray
    log_cv: FloatArray
    flows: Flows
    cv_day: int
    root: FloatArray | None = None
    book: float = 0.0
    cv_seen: bool = False
    samples: int = 0
    condition_factor: Estimate | None = None
    counted_on: date | None = None
    sampled_on: date | None = None
    count_from: list[UUID] = field(default_factory=list)
    weight_from: list[UUID] = field(default_factory=list)
    problems: dict[str, Problem] = field(default_factory=dict)

    @property
    def weight_g(self) -> FloatArray | None:
        """The mean weight, None where nothing is known of it."""
        return None if self.root is None else self.root * self.root * self.root

    def kg(self, fish: FloatArray | float) -> FloatArray:
        """Return the weight of some of the fish; notes it where it is unknown."""
        weight_g = self.weight_g
        if weight_g is None:
            self.flows.unknown_fish += abs(float(np.ravel(fish)[0]))
            return np.zeros_like(self.count)
        found: FloatArray = fish * weight_g / 1000.0
        return found

    def add_problem(self, problem: Problem) -> None:
        """Note a doubt once; the newest figures stay."""
        self.problems[problem.code] = problem

    def mix_in(
        self, fish: FloatArray, root: FloatArray | None, log_cv: FloatArray
    ) -> None:
        """Change mean weight and spread as fish come; before the count changes."""
        here = np.maximum(self.count, 0.0)
        if here[0] <= 0.0:
            self.root, self.log_cv = root, log_cv
            return
        if root is None or self.root is None:
            self.root = self.root if root is None else root
            return
        total = np.maximum(here + fish, 1e-9)
        own, new = here / total, fish / total
        mean = own * self.root**3 + new * root**3
        square = own * self.root**6 * (1.0 + np.exp(2.0 * self.log_cv))
        square = square + new * root**6 * (1.0 + np.exp(2.0 * log_cv))
        self.root = np.cbrt(np.maximum(mean, 1e-9))
        self.log_cv = 0.5 * np.log(np.maximum(square / mean**2 - 1.0, 1e-4))

    def take_out(self, fish: FloatArray, weight_g: FloatArray) -> None:
        """Change the mean weight of those left as others than average go.

        Before the count changes. What is left cannot weigh less than nothing, so an
        impossible weight is noted and changes nothing.
        """
        left = self.count - fish
        if self.root is None or left[0] < 1.0 or fish[0] <= 0.0:
            return
        mean_g = self.root**3
        left = np.maximum(left, 1.0)
        rest_g = (self.count * mean_g - fish * weight_g) / left
        most = MOST_WEIGHT_CHANGE
        if not 1.0 / most < rest_g[0] / mean_g[0] < most:
            self.add_problem(
                Problem.of(
                    "weight-implausible",
                    case="taken",
                    weight_g=weight_g[0],
                    mean_g=mean_g[0],
                )
            )
            return
        self.root = np.cbrt(np.clip(rest_g, mean_g / most, most * mean_g))
