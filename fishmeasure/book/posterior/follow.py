"""A cohort followed through its entries at many values of the unknowns at once."""

import math
from typing import TYPE_CHECKING, Final

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.flags import Problem
from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    FishEntry,
    Graded,
    GradeGroup,
    Moved,
    Stocked,
    Taken,
)
from fishmeasure.book.posterior.fish import Group
from fishmeasure.book.posterior.history import History
from fishmeasure.book.posterior.netted import Netted
from fishmeasure.book.posterior.passing import Passing
from fishmeasure.book.posterior.priors import (
    BREAK_LN_SD,
    SORTED_CV,
    SORTED_CV_LN_SD,
)
from fishmeasure.book.posterior.unknowns import Unknowns

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

MORE_OUT: Final = "more-out-than-in"
"""The doubt where a cohort's fish in a unit come to less than none."""
# Count, kilograms and mean weight farther apart than this are a slip, not an error.
_SAME_FISH_SD: Final = 4.0
_LEAST_SHARE: Final = 0.01
_NONE: Final = 0.5  # fewer fish than this are none


class Follower(Passing):
    """What the entries come to."""

    def __init__(
        self, history: History, unknown: Unknowns, *, whole: bool = False
    ) -> None:
        super().__init__(history, unknown, whole=whole)
        self.stocked = self.died = self.taken = self.none()
        self.netted = Netted(history, unknown, self.observe)
        self._takers: Mapping[str, Callable[..., None]] = {
            "stocked": self._stocked,
            "died": self._died,
            "harvested": self._taken,
            "sold": self._taken,
            "moved": self._moved,
            "graded": self._graded,
            "counted": self._counted,
            "sample": self.netted.sample,
        }

    def run(self) -> "Follower":
        """Follow the cohort to the last day."""
        marks = sorted(
            {(day, p.unit_id) for p in self.history.periods for day in (p.start, p.end)}
        )
        for entry in self.history.entries:
            today = entry.on.toordinal()
            while marks and marks[0][0] <= today:
                self.mark(*marks.pop(0), today)
            self._takers[entry.kind](entry, self.at(entry.unit_id, today))
        last = self.history.on.toordinal()
        for mark in marks:
            self.mark(*mark, last)
        for unit_id in tuple(self.groups):
            group = self.at(unit_id, last)
            self.scatter(group, "now")
            self.netted.let_spread_drift(group, "now")
        self.weigh_feed()
        # Growth ahead starts from what it is now, though none may have passed yet.
        self.growing.deviation(self.history.course.piece(self.history.on.toordinal()))
        return self

    # --- fish that come --------------------------------------------------------

    def _stocked(self, entry: Stocked, group: Group) -> None:
        count, weight_g = self._as_stocked(entry, group)
        self.stocked = self.stocked + count
        if weight_g is None:
            group.flows.unknown_fish += float(count[0])
            root = None
        else:
            group.flows.added_kg = group.flows.added_kg + count * weight_g / 1000.0
            root = np.cbrt(weight_g)
        if group.count[0] <= _NONE:
            group.samples, group.weight_from, group.cv_seen = 0, [], False
        group.mix_in(count, root, group.log_cv)
        if root is not None:
            group.weight_from.append(entry.id)
        group.count = group.count + count
        stated = entry.fish_count
        group.book += float(count[0]) if stated is None else float(stated)
        group.count_from.append(entry.id)

    def _as_stocked(
        self, entry: Stocked, group: Group
    ) -> tuple[FloatArray, FloatArray | None]:
        """Return count and mean weight: two of count, kilograms and weight make all."""
        usual = self.usual
        count = weight_g = kg = None
        together = self._fit_together(entry)
        if not together:
            group.add_problem(
                Problem.of(
                    "weight-implausible",
                    case="stocked",
                    fish_count=entry.fish_count,
                    weight_g=entry.mean_weight_g,
                    bulk_weight_kg=entry.bulk_weight_kg,
                    on=entry.on,
                )
            )
        if entry.fish_count is not None:
            share = usual.stocked_count_sd_fraction
            given = entry.fish_count, entry.fish_count_sd
            count = self.figure(*given, share, entry.id, "count")
        if entry.bulk_weight_kg is not None and together:
            given_kg = entry.bulk_weight_kg, entry.bulk_weight_sd_kg
            kg = self.figure(*given_kg, usual.bulk_weight_sd_fraction, entry.id, "bulk")
        if entry.mean_weight_g is not None:
            given_g = entry.mean_weight_g, entry.mean_weight_sd_g
            share = usual.stocked_weight_sd_fraction
            if kg is not None and count is not None and count[0] > 0.0:
                # Stated beside both others: one more observation of their ratio.
                sd = share * given_g[0] if given_g[1] is None else given_g[1]
                self.observe(
                    "stocked-weight", entry.id, given_g[0], sd, kg * 1000.0 / count
                )
            else:
                weight_g = self.figure(*given_g, share, entry.id, "weight")
        if count is None:
            if kg is None or weight_g is None:
                return self.none(), weight_g
            count = kg * 1000.0 / weight_g
        elif kg is not None and weight_g is None and count[0] > 0.0:
            weight_g = kg * 1000.0 / count
        return count, weight_g

    def _fit_together(self, entry: Stocked) -> bool:
        """Return whether count, kilograms and mean weight can be of the same fish."""
        given = (entry.fish_count, entry.bulk_weight_kg, entry.mean_weight_g)
        count, kg, weight_g = given
        if not count or kg is None or not weight_g:
            return True
        usual = self.usual
        shares = (
            (entry.fish_count_sd, count, usual.stocked_count_sd_fraction),
            (entry.bulk_weight_sd_kg, kg, usual.bulk_weight_sd_fraction),
            (entry.mean_weight_sd_g, weight_g, usual.stocked_weight_sd_fraction),
        )
        relative = (u if sd is None else min(1.0, sd / v) for sd, v, u in shares)
        apart = abs(math.log(kg * 1000.0 / (count * weight_g)))
        return apart <= _SAME_FISH_SD * max(math.hypot(*relative), _LEAST_SHARE)

    # --- fish that go ----------------------------------------------------------

    def _leave(self, group: Group, fish: FloatArray | float, entry: Entry) -> None:
        group.count = group.count - fish
        group.book -= float(np.ravel(fish)[0])
        group.count_from.append(entry.id)

    def _died(self, entry: Died, group: Group) -> None:
        self.died = self.died + entry.fish_count
        group.flows.dead_kg = group.flows.dead_kg + group.kg(entry.fish_count)
        self._leave(group, entry.fish_count, entry)

    def _taken(self, entry: Taken, group: Group) -> None:
        if entry.fish_count is None and group.weight_g is None:
            group.add_problem(
                Problem.of("weight-unknown", weight_kg=entry.weight_kg, on=entry.on)
            )
            group.count_from.append(entry.id)
            return
        if entry.fish_count is not None:
            count = self.none() + entry.fish_count
            if entry.weight_kg and entry.fish_count:
                self._weighed_out(entry, group, count)
        else:
            each_g = self._size_taken(entry, group)
            count = (entry.weight_kg or 0.0) * 1000.0 / each_g
            group.take_out(count, each_g)
        if entry.weight_kg is None:
            kg = group.kg(count)
        else:
            kg = self.none() + entry.weight_kg
        group.flows.taken_kg = group.flows.taken_kg + kg
        self.taken = self.taken + count
        self._leave(group, count, entry)

    def _size_taken(self, entry: Taken, group: Group) -> FloatArray:
        """Return the mean weight of fish that were weighed out uncounted."""
        weight_g = group.weight_g
        if weight_g is None:
            msg = "fish of unknown weight are no number of fish"
            raise ValueError(msg)
        kg = entry.weight_kg or 0.0
        own = self.usual.bulk_weight_sd_fraction
        scale = min(1.0, entry.weight_sd_kg / kg) if entry.weight_sd_kg and kg else own
        error = math.hypot(self.usual.taken_size_sd_fraction, scale)
        found: FloatArray = weight_g * np.exp(self.unknown((entry.id, "size"), error))
        return found

    def _weighed_out(self, entry: Taken, group: Group, count: FloatArray) -> None:
        """Take in the mean weight of counted fish: of all fish, the surer the more.

        Of all fish taken it is their own; of a few, how they were chosen adds to it.
        """
        mean_g = (entry.weight_kg or 0.0) * 1000.0 / float(count[0])
        weight_g = group.weight_g
        chosen = self.usual.taken_size_sd_fraction
        scale = self.usual.bulk_weight_sd_fraction
        if entry.weight_sd_kg is not None and entry.weight_kg:
            scale = min(1.0, entry.weight_sd_kg / entry.weight_kg)
        if weight_g is None:
            error = self.unknown((entry.id, "size"), math.hypot(chosen, scale))
            group.root = np.cbrt(mean_g * np.exp(error))
        else:
            there = max(float(group.count[0]), float(count[0]))
            sd = math.hypot(chosen * (1.0 - float(count[0]) / there), scale)
            self.observe(
                "taken-weight",
                entry.id,
                math.log(mean_g),
                sd,
                np.log(np.maximum(weight_g, 1e-9)),
            )
            group.take_out(count, self.none() + mean_g)
        group.weight_from.append(entry.id)

    # --- fish that move --------------------------------------------------------

    def _moved(self, entry: Moved, group: Group) -> None:
        self._transfer(entry, entry, group)

    def _transfer(
        self, entry: FishEntry, what: Moved | GradeGroup, source: Group
    ) -> None:
        """Move counted fish, with their weight, to another unit."""
        target = self.at(what.to_unit_id, source.day)
        key = (entry.id, what.to_unit_id)
        fish = self.figure(what.fish_count, what.fish_count_sd, 0.0, *key, "count")
        root = source.root
        if what.mean_weight_g is not None:
            weight_g = self.figure(
                what.mean_weight_g,
                what.mean_weight_sd_g,
                self.usual.moved_weight_sd_fraction,
                *key,
                "weight",
            )
            source.take_out(fish, weight_g)
            root = np.cbrt(weight_g)
        if root is None:
            for group in (source, target):
                group.flows.unknown_fish += float(fish[0])
        else:
            kg = fish * root**3 / 1000.0
            source.flows.taken_kg = source.flows.taken_kg + kg
            target.flows.added_kg = target.flows.added_kg + kg
        known = target.cv_seen and target.count[0] > _NONE
        target.mix_in(fish, root, source.log_cv)
        target.cv_seen = known or source.cv_seen
        target.samples = max(target.samples, source.samples)
        target.sampled_on = target.sampled_on or source.sampled_on
        self._leave(source, fish, entry)
        target.count = target.count + fish
        target.book += float(fish[0])
        target.count_from.append(entry.id)
        for group in (source, target):
            if group.root is not None:
                group.weight_from.append(entry.id)

    def _graded(self, entry: Graded, group: Group) -> None:
        """Count all fish, then send the groups to their units, each with its error."""
        total = float(sum(part.fish_count for part in entry.groups))
        sd = math.hypot(*(part.fish_count_sd for part in entry.groups))
        self._compare(entry, group, total, sd)
        group.count = self.none() + total
        group.book = total
        staying = None
        for part in entry.groups:
            if part.to_unit_id == entry.unit_id:
                staying = part
                continue
            target = self.at(part.to_unit_id, group.day)
            if target.count[0] <= 0.0:
                target.counted_on = entry.on
            self._transfer(entry, part, group)
            self._sorted(entry, target)
        self._stay(entry, group, staying)

    def _stay(self, entry: Graded, group: Group, part: GradeGroup | None) -> None:
        """Every group was counted by itself: what stays has its own error."""
        self._sorted(entry, group)
        if part is None:
            group.count, group.book = self.none(), 0.0
            return
        group.count = self.figure(
            part.fish_count, part.fish_count_sd, 0.0, entry.id, entry.unit_id, "count"
        )
        group.book = float(part.fish_count)
        if part.mean_weight_g is not None:
            usual = self.usual.moved_weight_sd_fraction
            given = part.mean_weight_g, part.mean_weight_sd_g
            group.root = np.cbrt(
                self.figure(*given, usual, entry.id, entry.unit_id, "weight")
            )
            group.weight_from.append(entry.id)

    def _sorted(self, entry: Graded, group: Group) -> None:
        """Sorted fish spread less than those sampled before."""
        spread = self.unknown((entry.id, group.unit_id, "cv"), SORTED_CV_LN_SD)
        group.log_cv = math.log(SORTED_CV) + spread
        group.cv_seen, group.cv_day = False, group.day

    # --- counts ----------------------------------------------------------------

    def _counted(self, entry: Counted, group: Group) -> None:
        sd = entry.fish_count_sd
        if sd is None:
            sd = self.usual.count_sd_fraction * entry.fish_count
        self._compare(entry, group, float(entry.fish_count), sd)

    def _compare(
        self, entry: Counted | Graded, group: Group, counted: float, sd: float
    ) -> None:
        """Hold a count against what there should be.

        Where nothing explains it the fish are taken as counted, and what was lost or
        found goes by the weight of the day.
        """
        self.scatter(group, entry.id)
        before = group.count
        there = float(before[0])
        if entry.id in self.history.breaks or there <= _NONE or counted <= 0.0:
            if entry.id not in self.history.breaks and there > _NONE:
                self.observe("count", entry.id, counted, max(sd, 1.0), before)
            if there > _NONE and counted > 0.0:
                gone = np.exp(self.unknown((entry.id, "break"), BREAK_LN_SD))
                group.count = counted * gone
                self.observe("broken-count", entry.id, counted, sd, group.count)
            else:
                group.count = self.none() + counted
                group.count = group.count + self.unknown((entry.id, "anew"), sd)
            lost = np.maximum(before - group.count, 0.0)
            if lost[0] > 0.0:
                group.flows.dead_kg = group.flows.dead_kg + group.kg(lost)
        else:
            self.observe("count", entry.id, counted, sd, before)
        group.book = counted
        group.count_from = [entry.id]
        group.counted_on = entry.on
        group.problems.pop(MORE_OUT, None)
        group.problems.pop("count-differs", None)
