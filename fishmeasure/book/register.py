"""The register of fish: what came, died, left and was treated, by day and unit.

As entered: a count or weight that nobody wrote down stays empty, none is made up.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final
from uuid import UUID

from pydantic import Field

from fishmeasure.book.entries import (
    Died,
    Entry,
    Graded,
    Moved,
    Stocked,
    Taken,
    Treated,
)

KINDS: Final = (
    "stocked",
    "moved",
    "graded",
    "died",
    "harvested",
    "sold",
    "treated",
)
"""Entries that are in the register, in the order of its totals."""
_G_PER_KG: Final = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RegisterRow:
    """A line of the register."""

    on: date
    unit: str
    cohort: Annotated[str, Field(description="Empty for a treatment.")]
    kind: Annotated[str, Field(description="Kind of the entry.")]
    fish_count: Annotated[int | None, Field(description="As entered.")] = None
    weight_kg: Annotated[float | None, Field(description="As entered, kg.")] = None
    to_unit: Annotated[str, Field(description="Where moved or graded fish went.")] = ""
    remark: Annotated[str, Field(description="Cause, product or note.")] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RegisterTotal:
    """What the lines of one kind add up to, and how many say no count or no weight."""

    kind: str
    lines: int
    fish_count: int
    weight_kg: float
    without_count: int
    without_weight: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Register:
    """All lines of a period, the earliest first, and their totals."""

    since: date
    until: date
    rows: tuple[RegisterRow, ...]
    totals: tuple[RegisterTotal, ...]


def fish_register(
    entries: Iterable[Entry],
    names: Mapping[UUID, str],
    *,
    since: date,
    until: date,
) -> Register:
    """Return the register of a period, both days included.

    Parameters
    ----------
    entries
        Those in force, in the order in which they count.
    names
        Of units and cohorts.
    """
    rows = [
        row
        for entry in entries
        if entry.kind in KINDS and since <= entry.on <= until
        for row in _rows(entry, names)
    ]
    totals = (_total(kind, [row for row in rows if row.kind == kind]) for kind in KINDS)
    return Register(
        since=since,
        until=until,
        rows=tuple(rows),
        totals=tuple(one for one in totals if one.lines),
    )


def _rows(entry: Entry, names: Mapping[UUID, str]) -> Iterator[RegisterRow]:
    """Yield the lines of an entry: one, or one for each group of a grading."""
    if isinstance(entry, Graded):
        for group in entry.groups:
            kg = _kg(group.fish_count, group.mean_weight_g)
            to = names[group.to_unit_id]
            yield _row(entry, names, fish=group.fish_count, kg=kg, to=to)
    elif isinstance(entry, Moved):
        kg = _kg(entry.fish_count, entry.mean_weight_g)
        to = names[entry.to_unit_id]
        yield _row(entry, names, fish=entry.fish_count, kg=kg, to=to)
    elif isinstance(entry, Stocked):
        kg = entry.bulk_weight_kg
        kg = _kg(entry.fish_count, entry.mean_weight_g) if kg is None else kg
        yield _row(entry, names, fish=entry.fish_count, kg=kg)
    elif isinstance(entry, Taken):
        yield _row(entry, names, fish=entry.fish_count, kg=entry.weight_kg)
    elif isinstance(entry, Died):
        yield _row(entry, names, fish=entry.fish_count, remark=entry.cause)
    elif isinstance(entry, Treated):
        remark = ", ".join(word for word in (entry.product, entry.reason) if word)
        yield _row(entry, names, remark=remark)


def _row(
    entry: Entry,
    names: Mapping[UUID, str],
    *,
    fish: int | None = None,
    kg: float | None = None,
    to: str = "",
    remark: str = "",
) -> RegisterRow:
    unit, cohort = entry.place_id, entry.fish_id
    return RegisterRow(
        on=entry.on,
        unit="" if unit is None else names[unit],
        cohort="" if cohort is None else names[cohort],
        kind=entry.kind,
        fish_count=fish,
        weight_kg=kg,
        to_unit=to,
        remark=remark or entry.note,
    )


def _kg(fish: int | None, mean_weight_g: float | None) -> float | None:
    """Return the weight that count and mean weight say together."""
    if fish is None or mean_weight_g is None:
        return None
    return fish * mean_weight_g / _G_PER_KG


def _total(kind: str, rows: list[RegisterRow]) -> RegisterTotal:
    return RegisterTotal(
        kind=kind,
        lines=len(rows),
        fish_count=sum(row.fish_count or 0 for row in rows),
        weight_kg=sum(row.weight_kg or 0.0 for row in rows),
        without_count=sum(row.fish_count is None for row in rows),
        without_weight=sum(row.weight_kg is None for row in rows),
    )
