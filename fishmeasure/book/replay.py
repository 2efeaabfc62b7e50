"""From entries to what is in every unit on a day: pure, and in any order.

Entries are put in order first (``order.py``), so the order in which they arrive
here changes nothing.
"""

import math
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import Final
from uuid import UUID

from fishmeasure.base.errors import BadEntryError, UnknownStockSpeciesError
from fishmeasure.base.record import FIRST_DAY, LAST_DAY
from fishmeasure.base.words import Message
from fishmeasure.book.climate import Climate, unit_temperature
from fishmeasure.book.cv_and_condition import condition_factor, weight_cv
from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    FishEntry,
    Graded,
    GradeGroup,
    Moved,
    Sample,
    Stocked,
    Taken,
    WaterReading,
)
from fishmeasure.book.groups import Assumptions, CohortGroups, Group
from fishmeasure.book.order import in_force
from fishmeasure.book.state import Balance, CountDifference
from fishmeasure.book.summary import (
    MORE_OUT,
    Present,
    cohort_total,
    count_estimate,
    unit_state,
)
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.species import FarmedSpecies, farmed_species

__all__ = ["Assumptions", "Balance", "replay"]

# A difference this large, in standard deviations, is told to the grower.
NOTABLE_SD: Final = 2.0


def replay(
    units: Iterable[Unit],
    cohorts: Iterable[Cohort],
    entries: Iterable[Entry],
    *,
    on: date,
    assumptions: Assumptions | None = None,
) -> Balance:
    """Return the balance at the end of a day.

    Parameters
    ----------
    units, cohorts
        One version of each; every one that an entry names must be there.
    entries
        In any order; replaced and later ones are left out here.

    Raises
    ------
    BadEntryError
        If the day lies outside what entries may have.
    """
    if not FIRST_DAY <= on <= LAST_DAY:
        raise BadEntryError(
            field=Message.of("the-day"),
            reason=Message.of(
                "day-outside", first_on=FIRST_DAY, last_on=LAST_DAY, given_on=on
            ),
        )
    known_units = {unit.id: unit for unit in units}
    valid = in_force(entries)
    past = tuple(entry for entry in valid if entry.on <= on)
    run = _Replay(known_units, tuple(cohorts), past, on, assumptions or Assumptions())
    for entry in past:
        run.take(entry)
    return run.balance()


class _Replay:
    def __init__(
        self,
        units: Mapping[UUID, Unit],
        cohorts: tuple[Cohort, ...],
        past: tuple[Entry, ...],
        on: date,
        assumptions: Assumptions,
    ) -> None:
        self._units = units
        self._on = on
        self._assumptions = assumptions
        self._differences: list[CountDifference] = []
        self._readings: dict[UUID, list[WaterReading]] = {unit: [] for unit in units}
        for entry in past:
            if isinstance(entry, WaterReading):
                self._readings[entry.unit_id].append(entry)
        climate = Climate(
            {
                unit_id: unit_temperature(units[unit_id], readings)
                for unit_id, readings in self._readings.items()
            },
            past[0].on if past else on,
            on,
        )
        self._climate = climate
        self._cohorts = {
            cohort.id: CohortGroups(cohort, _figures(cohort), climate, assumptions)
            for cohort in cohorts
        }
        self._takers: Mapping[str, Callable[..., None]] = {
            "stocked": self._stocked,
            "died": self._died,
            "harvested": self._harvested,
            "sold": self._harvested,
            "moved": self._moved,
            "graded": self._graded,
            "counted": self._counted,
            "sample": self._sample,
        }

    def take(self, entry: Entry) -> None:
        """Take in the next entry."""
        if isinstance(entry, FishEntry):
            fish = self._cohorts[entry.cohort_id]
            group = fish.at(entry.unit_id, entry.on.toordinal())
            self._takers[entry.kind](entry, fish, group)

    # --- one method per kind ---------------------------------------------------

    def _stocked(self, entry: Stocked, fish: CohortGroups, group: Group) -> None:
        count, count_sd = self._stocked_count(entry)
        weight_g, weight_sd_g = self._stocked_weight(entry, count, count_sd)
        fish.stocked += count
        fish.add(group, count, count_sd**2)
        group.count_from.append(entry.id)
        if weight_g is not None:
            track = fish.track_of(
                weight_g, weight_sd_g, Group(unit_id=group.unit_id, day=group.day)
            )
            track.from_ids = [entry.id]
            fish.mix_in(group, count, track)
            group.flows.added_kg += count * weight_g / 1000.0
        else:
            group.flows.unknown_fish += count

    def _stocked_count(self, entry: Stocked) -> tuple[float, float]:
        usual = self._assumptions
        if entry.fish_count is not None:
            if entry.fish_count_sd is not None:
                return float(entry.fish_count), entry.fish_count_sd
            return float(entry.fish_count), usual.count_sd_fraction * entry.fish_count
        bulk_kg, mean_g = entry.bulk_weight_kg or 0.0, entry.mean_weight_g or math.inf
        count = bulk_kg * 1000.0 / mean_g
        relative = math.hypot(
            _relative(entry.bulk_weight_sd_kg, bulk_kg, usual.bulk_weight_sd_fraction),
            _relative(entry.mean_weight_sd_g, mean_g, usual.stocked_weight_sd_fraction),
        )
        return count, count * relative

    def _stocked_weight(
        self, entry: Stocked, count: float, count_sd: float
    ) -> tuple[float | None, float]:
        usual = self._assumptions
        if entry.mean_weight_g is not None:
            relative = _relative(
                entry.mean_weight_sd_g,
                entry.mean_weight_g,
                usual.stocked_weight_sd_fraction,
            )
            return entry.mean_weight_g, relative * entry.mean_weight_g
        if entry.bulk_weight_kg is not None and count > 0.0:
            mean_g = entry.bulk_weight_kg * 1000.0 / count
            relative = math.hypot(
                _relative(
                    entry.bulk_weight_sd_kg,
                    entry.bulk_weight_kg,
                    usual.bulk_weight_sd_fraction,
                ),
                count_sd / count,
            )
            return mean_g, relative * mean_g
        return None, 0.0

    def _died(self, entry: Died, fish: CohortGroups, group: Group) -> None:
        fish.died += entry.fish_count
        group.flows.dead_kg += group.kg(entry.fish_count)
        fish.add(group, -entry.fish_count, 0.0)
        group.count_from.append(entry.id)

    def _harvested(self, entry: Taken, fish: CohortGroups, group: Group) -> None:
        count, var = self._taken_count(entry, group)
        if entry.weight_kg is None:
            group.flows.taken_kg += group.kg(count)
        else:
            group.flows.taken_kg += entry.weight_kg
        if entry.weight_kg and entry.fish_count:
            fish.take_weight(group, count, entry.weight_kg * 1000.0 / count)
            if group.weight is not None:
                group.weight.from_ids.append(entry.id)
        fish.taken += count
        fish.add(group, -count, var)
        group.count_from.append(entry.id)

    def _taken_count(self, entry: Taken, group: Group) -> tuple[float, float]:
        if entry.fish_count is not None:
            return float(entry.fish_count), 0.0
        if group.weight is None:
            group.add_problem(
                "weight-unknown",
                f"{entry.weight_kg:g} kg were taken on {entry.on} while no mean weight "
                "was known, so their number is unknown. Correct the entry with a "
                "count, or count the fish.",
            )
            return 0.0, 0.0
        kg = entry.weight_kg or 0.0
        count = kg * 1000.0 / group.weight.weight_g
        relative = math.hypot(
            _relative(
                entry.weight_sd_kg, kg, self._assumptions.bulk_weight_sd_fraction
            ),
            group.weight.weight_sd_g / group.weight.weight_g,
        )
        return count, (count * relative) ** 2

    def _moved(self, entry: Moved, fish: CohortGroups, group: Group) -> None:
        target = fish.at(entry.to_unit_id, group.day)
        self._transfer(entry, fish, group, target, entry)

    def _transfer(
        self,
        entry: FishEntry,
        fish: CohortGroups,
        source: Group,
        target: Group,
        what: Moved | GradeGroup,
    ) -> None:
        """Move counted fish, with their weight, to another group."""
        track = None if source.weight is None else source.weight.copy()
        if what.mean_weight_g is not None:
            relative = _relative(
                what.mean_weight_sd_g,
                what.mean_weight_g,
                self._assumptions.moved_weight_sd_fraction,
            )
            track = fish.track_of(
                what.mean_weight_g, relative * what.mean_weight_g, source
            )
            fish.take_weight(source, what.fish_count, what.mean_weight_g)
        kg = 0.0 if track is None else what.fish_count * track.weight_g / 1000.0
        for flows in (source.flows, target.flows):
            flows.unknown_fish += what.fish_count if track is None else 0.0
        source.flows.taken_kg += kg
        target.flows.added_kg += kg
        fish.move(source, target, what.fish_count, what.fish_count_sd**2)
        fish.mix_in(target, what.fish_count, track)
        for group in (source, target):
            group.count_from.append(entry.id)
            if group.weight is not None:
                group.weight.from_ids.append(entry.id)
        target.cv = source.cv if target.cv is None else target.cv
        target.sampled_on = target.sampled_on or source.sampled_on

    def _graded(self, entry: Graded, fish: CohortGroups, group: Group) -> None:
        """Count all fish, then send the groups to their units."""
        total = sum(part.fish_count for part in entry.groups)
        var = sum(part.fish_count_sd**2 for part in entry.groups)
        self._compare(entry, fish, group, total, var)
        fish.adjusted += total - group.count
        fish.forget(group)
        group.count = float(total)
        staying = None
        for part in entry.groups:
            if part.to_unit_id == entry.unit_id:
                staying = part
                continue
            target = fish.at(part.to_unit_id, group.day)
            if target.count <= 0.0:
                target.counted_on = entry.on
            self._transfer(entry, fish, group, target, part)
        self._set_staying(entry, fish, group, staying)

    def _set_staying(
        self,
        entry: Graded,
        fish: CohortGroups,
        group: Group,
        staying: GradeGroup | None,
    ) -> None:
        """Every group was counted by itself: what stays has its own error."""
        fish.forget(group)
        group.cv = None  # sorted fish spread less than those sampled before
        if staying is None:
            group.count = 0.0
            return
        fish.add(group, 0.0, staying.fish_count_sd**2)
        if staying.mean_weight_g is not None:
            relative = _relative(
                staying.mean_weight_sd_g,
                staying.mean_weight_g,
                self._assumptions.moved_weight_sd_fraction,
            )
            fish.set_weight(
                group, staying.mean_weight_g, relative * staying.mean_weight_g
            )
            _track_ids(group).append(entry.id)

    def _counted(self, entry: Counted, fish: CohortGroups, group: Group) -> None:
        sd = entry.fish_count_sd
        if sd is None:
            sd = self._assumptions.count_sd_fraction * entry.fish_count
        self._compare(entry, fish, group, entry.fish_count, sd**2)

    def _compare(
        self,
        entry: Counted | Graded,
        fish: CohortGroups,
        group: Group,
        counted: float,
        var: float,
    ) -> None:
        """Take in a count and keep the difference."""
        expected = count_estimate(fish, group)
        difference = counted - group.count
        before = group.count
        in_sd = fish.observe(group, counted, var)
        if group.count < before:
            group.flows.dead_kg += group.kg(before - group.count)
        group.count_from = [entry.id]
        group.counted_on = entry.on
        group.problems.pop(MORE_OUT, None)
        group.problems.pop("count-differs", None)
        self._differences.append(
            CountDifference(
                entry_id=entry.id,
                cohort_id=entry.cohort_id,
                unit_id=entry.unit_id,
                on=entry.on,
                counted=counted,
                expected=expected,
                difference=difference,
                in_sd=in_sd,
            )
        )
        if abs(in_sd) > NOTABLE_SD:
            group.add_problem(
                "count-differs",
                f"On {entry.on} {counted:.0f} fish were counted where the book had "
                f"{expected.value:.0f} ({expected.low:.0f} to {expected.high:.0f}). "
                "Look for fish that died or left unseen, or a wrong entry.",
            )

    def _sample(self, entry: Sample, fish: CohortGroups, group: Group) -> None:
        z = z_score(entry.level)
        sd_g = (entry.mean_weight_high_g - entry.mean_weight_low_g) / (2.0 * z)
        group.problems.pop("sample-off-track", None)
        if group.weight is None:
            fish.set_weight(group, entry.mean_weight_g, sd_g)
        else:
            expected_g = group.weight.weight_g
            in_sd = group.weight.observe(entry.mean_weight_g, sd_g)
            if abs(in_sd) > NOTABLE_SD:
                group.add_problem(
                    "sample-off-track",
                    f"The sample of {entry.on} ({entry.mean_weight_g:.0f} g) is far "
                    f"from the {expected_g:.0f} g that growth would give. Check the "
                    "weighing, the feed and the temperature; take another sample.",
                )
        _track_ids(group)[:] = [entry.id]
        group.sampled_on = entry.on
        group.cv = weight_cv(entry) or group.cv
        group.condition_factor = condition_factor(entry) or group.condition_factor

    # --- the answer ------------------------------------------------------------

    def balance(self) -> Balance:
        """Return the state of everything on the last day."""
        here: dict[UUID, list[Present]] = {unit_id: [] for unit_id in self._units}
        for fish in self._cohorts.values():
            for unit_id in tuple(fish.groups):
                here[unit_id].append((fish, fish.at(unit_id, self._on.toordinal())))
        return Balance(
            on=self._on,
            units=tuple(
                unit_state(
                    unit,
                    here[unit.id],
                    self._on,
                    readings=self._readings[unit.id],
                    temperature=self._climate.forecasts[unit.id],
                )
                for unit in self._units.values()
            ),
            cohorts=tuple(cohort_total(fish) for fish in self._cohorts.values()),
            differences=tuple(self._differences),
        )


def _figures(cohort: Cohort) -> FarmedSpecies | None:
    try:
        return farmed_species(cohort.species_key)
    except UnknownStockSpeciesError:
        return None


def _relative(sd: float | None, value: float, usual: float) -> float:
    """Return the relative sd of a figure, stated or usual, 1 at most."""
    if sd is None:
        return usual
    return min(1.0, sd / value) if value else 0.0


def _track_ids(group: Group) -> list[UUID]:
    return [] if group.weight is None else group.weight.from_ids
