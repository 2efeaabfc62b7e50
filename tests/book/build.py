"""Short ways to write what the tests put into a book."""

from datetime import date, timedelta
from itertools import count
from typing import Any
from uuid import UUID, uuid4

from fishmeasure.book.entries import Entry, Feed, WaterReading
from fishmeasure.book.units import Cohort, Unit

START = date(2026, 3, 1)
YEAR_C = (5.0, 5.0, 6.0, 8.0, 10.0, 12.0, 13.0, 13.0, 11.0, 9.0, 7.0, 5.0)


def day(number: int) -> date:
    """Return a day by its number from the start."""
    return START + timedelta(days=number)


def tank(name: str, **fields: object) -> Unit:
    """Return a tank of 6 cubic metres."""
    plain: dict[str, object] = {
        "id": uuid4(),
        "name": name,
        "kind": "tank",
        "volume_m3": 6.0,
        "depth_m": 1.2,
        "monthly_temperature_deg_c": YEAR_C,
    }
    return Unit(**(plain | fields))  # type: ignore[arg-type]


def cohort(name: str, **fields: object) -> Cohort:
    """Return a cohort of rainbow trout."""
    plain: dict[str, object] = {
        "id": uuid4(),
        "name": name,
        "species_key": "rainbow-trout",
    }
    return Cohort(**(plain | fields))  # type: ignore[arg-type]


def same(number: int) -> UUID:
    """Return an id that is the same in every run."""
    return UUID(int=number)


_IDS = count(1000)


def entry_about(
    unit: Unit, fish: Cohort, kind: type[Entry], on: int, **fields: Any
) -> Any:
    """Return an entry about fish in a unit, unless the fields say otherwise."""
    plain: dict[str, Any] = {"id": same(next(_IDS)), "on": day(on), "unit_id": unit.id}
    if kind not in {Feed, WaterReading}:
        plain["cohort_id"] = fish.id
    return kind(**(plain | fields))
