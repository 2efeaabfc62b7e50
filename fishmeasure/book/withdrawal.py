"""Withdrawal periods: until when fish that had a medicine are no food.

The period goes with the fish: a unit into which treated ones were moved or graded waits
as they do. How long it is, the product's label or the veterinarian says; where it is in
degree-days, daily mean temperatures above 0 °C are added up from the day after the
treatment (as labels for fish state it; common practice, no source).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, Final
from uuid import UUID

from pydantic import Field

from fishmeasure.base.flags import Problem
from fishmeasure.book.entries import Entry, FishEntry, Treated
from fishmeasure.husbandry.temperature import TemperatureForecast

_FARTHEST_DAYS: Final = 3 * 366
"""Water that has not gathered the degree-days by then is taken never to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawal:
    """A withdrawal period that holds for the fish in a unit."""

    unit_id: UUID
    entry_id: Annotated[UUID, Field(description="Entry of the treatment.")]
    product: str
    treated_on: Annotated[date, Field(description="Last day of the treatment.")]
    ends_on: Annotated[
        date | None,
        Field(
            description="First day on which its fish may be taken for food; null where "
            "the water does not gather the degree-days within three years."
        ),
    ]

    def holds_on(self, day: date) -> bool:
        """Return whether fish may not be taken for food on a day."""
        return self.treated_on <= day and (self.ends_on is None or day < self.ends_on)


def withdrawals(
    entries: Iterable[Entry], temperatures: Mapping[UUID, TemperatureForecast]
) -> tuple[Withdrawal, ...]:
    """Return every withdrawal period, also those that have passed.

    Parameters
    ----------
    entries
        Those in force, in the order in which they count.
    temperatures
        Of each unit.
    """
    found: list[Withdrawal] = []
    for entry in entries:
        if isinstance(entry, Treated):
            ends_on = _ends_on(entry, temperatures[entry.unit_id])
            found.append(_of(entry, entry.unit_id, ends_on))
        elif isinstance(entry, FishEntry):
            found += _carried(entry, found)
    return tuple(dict.fromkeys(found))


def withdrawal_problems(waits: Iterable[Withdrawal], on: date) -> tuple[Problem, ...]:
    """Return what each period that holds on a day forbids, and until when."""
    return tuple(
        Problem.of(
            "withdrawal-period",
            case="never" if wait.ends_on is None else "until",
            product=wait.product,
            ends_on=wait.ends_on,
        )
        for wait in waits
        if wait.holds_on(on)
    )


def _of(treated: Treated, unit_id: UUID, ends_on: date | None) -> Withdrawal:
    return Withdrawal(
        unit_id=unit_id,
        entry_id=treated.id,
        product=treated.product,
        treated_on=treated.on,
        ends_on=ends_on,
    )


def _carried(entry: FishEntry, before: Iterable[Withdrawal]) -> list[Withdrawal]:
    """Return the periods that fish took with them to other units."""
    return [
        Withdrawal(
            unit_id=unit_id,
            entry_id=one.entry_id,
            product=one.product,
            treated_on=one.treated_on,
            ends_on=one.ends_on,
        )
        for one in before
        if one.unit_id == entry.unit_id and one.holds_on(entry.on)
        for unit_id in entry.other_place_ids
    ]


def _ends_on(treated: Treated, temperature: TemperatureForecast) -> date | None:
    ends = treated.on + timedelta(days=treated.withdrawal_days or 0)
    if treated.withdrawal_degree_days is None:
        return ends
    left = treated.withdrawal_degree_days
    for days in range(_FARTHEST_DAYS):
        if left <= 0.0:
            return max(ends, treated.on + timedelta(days=days))
        left -= max(0.0, temperature.on(treated.on + timedelta(days=days + 1)))
    return None
