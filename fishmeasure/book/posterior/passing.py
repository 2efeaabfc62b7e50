"""A cohort's fish as time passes: they grow, eat, and are lost unseen."""

import math
from typing import Final
from uuid import UUID

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.book.posterior.course import Growing
from fishmeasure.book.posterior.feeding import (
    FeedPeriod,
    maintenance_per_day,
    partial_conversion,
)
from fishmeasure.book.posterior.fish import Flows, Group
from fishmeasure.book.posterior.history import History, Observation
from fishmeasure.book.posterior.priors import (
    CV_BY_LN_WEIGHT,
    CV_BY_LN_WEIGHT_SD,
    DAYS_PER_MONTH,
    KEEP_SD,
    UNSEEN_LN_SD,
    USUAL_CV,
    USUAL_CV_LN_SD,
)
from fishmeasure.book.posterior.unknowns import Unknowns

# No count and no weighing is exact; small enough to change no figure.
LEAST_SD: Final = 1e-6

# A surprise that was asked about and confirmed is no slip, but may be odd fish or an
# odd net: its error is Student's t with so many degrees of freedom (Lange, Little &
# Taylor 1989, J Am Stat Assoc 84:881-896, find 4 to serve where they are not estimated;
# from memory). A count stands or breaks with all else by itself.
_TAIL_DEGREES: Final = 4.0
_TAILED: Final = frozenset(("sample", "taken-weight", "stocked-weight", "cv", "level"))


def with_tail(misfit: FloatArray) -> FloatArray:
    """Return the misfit whose square is twice minus ln of Student's t."""
    square = (_TAIL_DEGREES + 1.0) * np.log1p(misfit * misfit / _TAIL_DEGREES)
    found: FloatArray = np.sign(misfit) * np.sqrt(square)
    return found


class Passing:
    """The groups of a cohort, and how far observations lie from what they come to."""

    def __init__(
        self, history: History, unknown: Unknowns, *, whole: bool = False
    ) -> None:
        self.history, self.unknown, self.whole = history, unknown, whole
        # What only the answers need is left out while the maximum is looked for.
        self._weighs_growth = whole or bool(history.periods) or bool(history.shared)
        self.usual = history.assumptions
        home = history.entries[0].unit_id
        self.growing = Growing(history.course, unknown, home)
        self.groups: dict[UUID, Group] = {}
        self.observations: list[Observation] = []
        self.eaten: dict[UUID, list[tuple[int, int, float]]] = {}
        self._confirmed = {entry.id for entry in history.entries if entry.confirmed}
        self._losses: dict[tuple[UUID, int], FloatArray] = {}
        self._marks: dict[tuple[UUID, int], tuple[FloatArray, FloatArray]] = {}

    # --- time ------------------------------------------------------------------

    def at(self, unit_id: UUID, day: int) -> Group:
        """Return the group in a unit, brought forward to a day."""
        group = self.groups.get(unit_id)
        if group is None:
            spread = self.unknown(("cv", unit_id), USUAL_CV_LN_SD)
            group = self.groups[unit_id] = Group(
                unit_id=unit_id,
                day=day,
                since=day,
                count=self.none(),
                unseen=self.none(),
                log_cv=math.log(USUAL_CV) + spread,
                cv_day=day,
                flows=Flows(
                    added_kg=self.none(),
                    taken_kg=self.none(),
                    dead_kg=self.none(),
                    grown_kg=self.none(),
                    kept_up_kg=self.none(),
                ),
            )
        for part in self.history.course.parts(group.day, day):
            self._pass(group, part)
        group.day = max(group.day, day)
        return group

    def _pass(self, group: Group, part: tuple[int, int, int]) -> None:
        _, start, end = part
        present = group.count[0] > 0.0
        before = group.weight_g
        if group.root is not None and before is not None:
            root = group.root
            group.root = self.growing.grown(root, group.unit_id, part)
            if group.cv_seen:
                self._spread_with_growth(group, root)
            if present and self._weighs_growth:
                each_kg = (group.root * group.root * group.root - before) / 1000.0
                group.flows.grown_kg = group.flows.grown_kg + group.count * each_kg
                self._keep_up(group, before, start, end)
        if present and self.usual.unseen_loss_per_month > 0.0:
            lost = group.count * self._lost(group.unit_id, end - start)
            if self.whole and group.root is not None:
                group.flows.dead_kg = group.flows.dead_kg + group.kg(lost)
            group.count = group.count - lost
            group.unseen = group.unseen + lost

    def _spread_with_growth(self, group: Group, before: FloatArray) -> None:
        """Let the spread change as the fish grow; one not seen yet is of any weight."""
        if group.root is not None:
            gained = 3.0 * np.log(group.root / before)
            pace = CV_BY_LN_WEIGHT + self.unknown("cv-growth", CV_BY_LN_WEIGHT_SD)
            group.log_cv = group.log_cv + pace * gained

    def _lost(self, unit_id: UUID, days: int) -> FloatArray:
        """Return the share of the fish that go unseen in some days."""
        if (unit_id, days) not in self._losses:
            spread = self.unknown(("unseen", unit_id), UNSEEN_LN_SD)
            rate = self.usual.unseen_loss_per_month * np.exp(spread)
            self._losses[unit_id, days] = -np.expm1(-rate * days / DAYS_PER_MONTH)
        return self._losses[unit_id, days]

    def _keep_up(
        self, group: Group, weight_g: FloatArray, start: int, end: int
    ) -> None:
        """Add the feed that kept the fish as they were."""
        figures, shared = self.history.figures, self.history.shared
        if figures is None or not (self.history.periods or shared):
            return
        warmth = self.history.course.temperature_deg_c(group.unit_id, start)
        each = maintenance_per_day(figures, max(0.1, float(weight_g[0])), warmth)
        kg = group.count * weight_g / 1000.0
        group.flows.kept_up_kg = group.flows.kept_up_kg + kg * (each * (end - start))
        if group.unit_id in shared and group.root is not None:
            gain = float(group.root[0] ** 3 - weight_g[0]) / 1000.0 / (end - start)
            usual, _ = partial_conversion(figures.key)
            a_day = float(kg[0]) * each + usual * float(group.count[0]) * max(gain, 0.0)
            self.eaten.setdefault(group.unit_id, []).append((start, end, a_day))

    def mark(self, day: int, unit_id: UUID, today: int) -> None:
        """Note what fish have put on and burned up to a day, nothing on their first.

        Fish that come later than a period begins were not there to eat all of it.
        """
        if unit_id in self.groups:
            flows = self.at(unit_id, day).flows
            self._marks[unit_id, day] = (flows.grown_kg, flows.kept_up_kg)
        elif day == today:
            self._marks[unit_id, day] = (self.none(), self.none())

    def gained(self, period: FeedPeriod) -> tuple[FloatArray, FloatArray] | None:
        """Return what fish put on and burned in a period, in kg; None without fish."""
        begin = self._marks.get((period.unit_id, period.start))
        end = self._marks.get((period.unit_id, period.end))
        if begin is None or end is None:
            return None
        return end[0] - begin[0], end[1] - begin[1]

    def weigh_feed(self) -> None:
        """Hold what was fed against what the fish put on and burned."""
        figures = self.history.figures
        if figures is None:
            return
        usual, spread = partial_conversion(figures.key)
        conversion = usual * np.exp(self.unknown("conversion", spread))
        for period in self.history.periods:
            gained = self.gained(period)
            if gained is None or period in self.history.far_feed:
                continue
            grown, kept = gained
            if not float(grown[0]):  # no fish of known weight
                continue
            # Where little is fed, maintenance is what is known least.
            own, keep = period.sd_fraction * period.feed_kg, KEEP_SD * float(kept[0])
            sd = math.hypot(own, keep)
            eaten = conversion * grown + kept
            self.observe("feed", None, period.feed_kg, sd, eaten, period=period)

    def scatter(self, group: Group, name: object) -> None:
        """Let the number that went unseen scatter about its rate, as whole fish do."""
        lost = max(0.0, float(group.unseen[0]))
        scatter = self.unknown((name, group.unit_id, "chance"), math.sqrt(lost))
        if lost > 0.0:
            group.count = group.count - scatter
        group.unseen = self.none()

    # --- small parts -----------------------------------------------------------

    def none(self) -> FloatArray:
        """Return nothing, in every column."""
        return np.zeros(self.unknown.columns)

    def observe(
        self,
        kind: str,
        entry_id: UUID | None,
        observed: float,
        sd: float,
        follows: FloatArray,
        *,
        period: FeedPeriod | None = None,
    ) -> None:
        """Keep how far an observation lies from what follows from the unknowns."""
        sd = max(sd, LEAST_SD * max(1.0, abs(observed)))
        plain = (observed - follows) / sd
        sure = entry_id in self._confirmed and kind in _TAILED
        self.observations.append(
            Observation(
                kind=kind,
                entry_id=entry_id,
                observed=observed,
                sd=sd,
                misfit=with_tail(plain) if sure else plain,
                plain=plain,
                period=period,
            )
        )

    def figure(
        self, value: float, sd: float | None, usual: float, *name: object
    ) -> FloatArray:
        """Return a figure as stated, with its error or else the usual share."""
        error = usual * value if sd is None else min(sd, value)
        found: FloatArray = np.maximum(
            value + self.unknown(name, error), min(value, 1e-6)
        )
        return found
