"""The fish of one cohort in one unit while a replay runs.

Counts of a cohort's groups are followed together, with their covariances: a move
of 100 give or take 10 fish leaves the cohort's total as sure as it was, and a
count in one tank then teaches the other.
"""

import math
from dataclasses import dataclass, field
from datetime import date
from uuid import UUID

from fishmeasure.base.estimate import Estimate
from fishmeasure.base.flags import Problem
from fishmeasure.book.climate import Climate
from fishmeasure.book.units import Cohort
from fishmeasure.book.weights import WeightTrack
from fishmeasure.species import FarmedSpecies

# A count this far from the book, in standard deviations, replaces it outright.
SURPRISE_SD = 3.0
MOST_WEIGHT_CHANGE = 3.0
"""Times by which fish that go may change the mean weight of those left; common
practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumptions:
    """Errors that entries do not state; each is common practice, no source.

    For the count: hatchery lots at their first inventory were found 11.5 % below
    to 10.3 % above the book (Wyoming Game and Fish, one station).

    Attributes
    ----------
    unseen_loss_per_month
        Share of the fish that may have gone unseen in a month (dead and eaten,
        taken by birds, escaped): the standard deviation of what is missing.
    """

    count_sd_fraction: float = 0.03
    bulk_weight_sd_fraction: float = 0.01
    stocked_weight_sd_fraction: float = 0.10
    moved_weight_sd_fraction: float = 0.05
    unseen_loss_per_month: float = 0.01


@dataclass(slots=True, kw_only=True)
class Flows:
    """Kilograms that came into a unit and left it, since the book began.

    ``dead`` are those seen dead and those that a count found missing.
    ``unknown`` counts fish whose weight nobody knew.
    """

    added_kg: float = 0.0
    taken_kg: float = 0.0
    dead_kg: float = 0.0
    unknown_fish: float = 0.0


@dataclass(slots=True, kw_only=True)
class Group:
    """One cohort in one unit, on the day ``day`` (an ordinal)."""

    unit_id: UUID
    day: int
    count: float = 0.0
    unseen_sd: float = 0.0
    weight: WeightTrack | None = None
    cv: Estimate | None = None
    condition_factor: Estimate | None = None
    counted_on: date | None = None
    sampled_on: date | None = None
    count_from: list[UUID] = field(default_factory=list)
    flows: Flows = field(default_factory=Flows)
    problems: dict[str, Problem] = field(default_factory=dict)

    def kg(self, fish: float) -> float:
        """Return the weight of some of the fish; notes it where it is unknown."""
        if self.weight is None:
            self.flows.unknown_fish += abs(fish)
            return 0.0
        return fish * self.weight.weight_g / 1000.0

    def add_problem(self, code: str, message: str) -> None:
        """Note a doubt once; the newest wording stays."""
        self.problems[code] = Problem(code=code, message=message)


class CohortGroups:
    """All groups of one cohort."""

    def __init__(
        self,
        cohort: Cohort,
        figures: FarmedSpecies | None,
        climate: Climate,
        assumptions: Assumptions,
    ) -> None:
        self.cohort = cohort
        self.figures = figures
        self.stocked = self.died = self.taken = self.adjusted = 0.0
        self.groups: dict[UUID, Group] = {}
        self._climate = climate
        self._assumptions = assumptions
        self._cov: dict[UUID, dict[UUID, float]] = {}

    # --- time ------------------------------------------------------------------

    def at(self, unit_id: UUID, day: int) -> Group:
        """Return the group in a unit, brought forward to a day."""
        group = self.groups.get(unit_id)
        if group is None:
            group = self.groups[unit_id] = Group(unit_id=unit_id, day=day)
            self._cov[unit_id] = {}
        days = day - group.day
        if days > 0:
            share = self._assumptions.unseen_loss_per_month * days / 30.0
            group.unseen_sd += share * max(0.0, group.count)
            if group.weight is not None and self.figures is not None:
                degree_days = self._climate.degree_days(
                    unit_id, self.figures, group.day, day
                )
                group.weight.advance(degree_days)
            group.day = day
        return group

    # --- counts ----------------------------------------------------------------

    def variance(self, unit_id: UUID, other_id: UUID | None = None) -> float:
        """Return the variance of a count, or the covariance of two."""
        return self._cov[unit_id].get(other_id or unit_id, 0.0)

    def _add_cov(self, one: UUID, other: UUID, change: float) -> None:
        self._cov[one][other] = self._cov[one].get(other, 0.0) + change
        if one != other:
            self._cov[other][one] = self._cov[one][other]

    def add(self, group: Group, fish: float, var: float) -> None:
        """Add fish to a group, or with a negative number take some."""
        group.count += fish
        if var > 0.0:
            self._add_cov(group.unit_id, group.unit_id, var)

    def move(self, source: Group, target: Group, fish: float, var: float) -> None:
        """Move fish between groups: none is lost or made."""
        source.count -= fish
        target.count += fish
        if var > 0.0:
            self._add_cov(source.unit_id, source.unit_id, var)
            self._add_cov(target.unit_id, target.unit_id, var)
            self._add_cov(source.unit_id, target.unit_id, -var)

    def observe(self, group: Group, fish: float, var: float) -> float:
        """Take in a count; return how many sd it lay from the book."""
        home = group.unit_id
        row = dict(self._cov[home])
        row[home] = row.get(home, 0.0) + group.unseen_sd**2
        difference = fish - group.count
        error_var = row[home] + var
        in_sd = _in_sd(difference, error_var)
        if abs(in_sd) > SURPRISE_SD or error_var <= 0.0:
            # The book is wrong here, so its errors teach nothing elsewhere.
            self.forget(group)
            self.adjusted += difference
            group.count = fish
            self._add_cov(home, home, var)
        else:
            self._cov[home] = row
            for unit_id, cov in row.items():
                change = cov / error_var * difference
                self.groups[unit_id].count += change
                self.adjusted += change
            before = tuple(row.items())
            for one, cov_one in before:
                for other, cov_other in before:
                    self._cov[one][other] = (
                        self._cov[one].get(other, 0.0) - cov_one * cov_other / error_var
                    )
        group.unseen_sd = 0.0
        return in_sd

    def forget(self, group: Group) -> None:
        """Drop what ties a group's count to those of others."""
        for other in tuple(self._cov[group.unit_id]):
            self._cov[other].pop(group.unit_id, None)
        self._cov[group.unit_id] = {}

    def total_variances(self) -> tuple[float, float]:
        """Return the variance of the cohort's total, and that of unseen losses."""
        known = sum(sum(row.values()) for row in self._cov.values())
        unseen = sum(group.unseen_sd for group in self.groups.values())
        return max(0.0, known), unseen**2

    # --- weights ---------------------------------------------------------------

    def set_weight(self, group: Group, weight_g: float, sd_g: float) -> None:
        """Give a group a weight that replaces what was known."""
        if group.weight is None:
            group.weight = WeightTrack.start(weight_g, sd_g, self.figures)
        else:
            group.weight.set_weight(weight_g, sd_g)

    def mix_in(self, group: Group, fish: float, track: WeightTrack | None) -> None:
        """Change the mean weight of a group that just received fish."""
        here = max(0.0, group.count - fish)
        if track is None:
            if here <= 0.0:
                group.weight = None
            return
        if group.weight is None or here <= 0.0:
            group.weight = track
            return
        total = here + fish
        own, new = here / total, fish / total
        mean_g = own * group.weight.weight_g + new * track.weight_g
        sd_g = math.hypot(own * group.weight.weight_sd_g, new * track.weight_sd_g)
        group.weight.set_weight(mean_g, sd_g)
        group.weight.tgc = own * group.weight.tgc + new * track.tgc
        group.weight.tgc_var = own * group.weight.tgc_var + new * track.tgc_var

    def take_weight(self, group: Group, fish: float, weight_g: float) -> None:
        """Change the mean weight of those left when others than average go.

        Called before the count changes. What is left cannot weigh less than
        nothing, so an impossible weight is noted and changes nothing.
        """
        left = group.count - fish
        if group.weight is None or left < 1.0 or fish <= 0.0:
            return
        mean_g = group.weight.weight_g
        rest_g = (group.count * mean_g - fish * weight_g) / left
        most = MOST_WEIGHT_CHANGE
        if not mean_g / most < rest_g < mean_g * most:
            group.add_problem(
                "weight-implausible",
                f"Fish of {weight_g:.0f} g taken from a mean of {mean_g:.0f} g "
                "do not fit; the mean was left as it was. Take a sample.",
            )
            return
        group.weight.set_weight(
            rest_g, group.weight.weight_sd_g / mean_g * rest_g * group.count / left
        )

    def track_of(self, weight_g: float, sd_g: float, like: Group) -> WeightTrack:
        """Return a track of a stated weight, growing as another group does."""
        if like.weight is None:
            return WeightTrack.start(weight_g, sd_g, self.figures)
        track = like.weight.copy()
        track.set_weight(weight_g, sd_g)
        return track


def _in_sd(difference: float, var: float) -> float:
    if var > 0.0:
        return difference / math.sqrt(var)
    return math.copysign(math.inf, difference) if difference else 0.0
