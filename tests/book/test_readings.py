"""Readings are kept as nitrogen, whatever the kit says."""

from functools import partial
from typing import Any

import pytest

from fishmeasure.base.errors import BadEntryError
from fishmeasure.book.entries import WaterReading, entry_from_plain, entry_to_plain
from fishmeasure.book.replay import replay
from fishmeasure.store.exchange import book_from_csv, plain_from_cells
from tests.book.build import cohort, day, entry_about, same, tank

TANK = tank("A", id=same(1))
entry = partial(entry_about, TANK, cohort("trout", id=same(11)))


@pytest.mark.parametrize(
    ("field", "kept", "ion_per_n"),
    [
        # Hand: (14.007 + 4 x 1.008) / 14.007 and so on.
        ("ammonia_as_nh4_mg_per_l", "tan_mg_per_l", 1.2879),
        ("ammonia_as_nh3_mg_per_l", "tan_mg_per_l", 1.2159),
        ("nitrite_as_no2_mg_per_l", "nitrite_n_mg_per_l", 3.2844),
        ("nitrate_as_no3_mg_per_l", "nitrate_n_mg_per_l", 4.4266),
    ],
)
def test_ions_are_kept_as_nitrogen(field: str, kept: str, ion_per_n: float) -> None:
    """A kit's figure over the ratio of the molar masses."""
    reading: Any = entry(WaterReading, 1, **{field: 10.0 * ion_per_n})
    assert getattr(reading, kept) == pytest.approx(10.0, abs=0.001)
    assert getattr(reading, field) is None
    plain = entry_to_plain(reading)
    assert field not in plain
    assert entry_from_plain(plain) == reading
    with pytest.raises(BadEntryError, match="beside"):
        entry(WaterReading, 1, **{field: 1.0, kept: 1.0})


def test_kit_figures_come_by_command_line_and_table() -> None:
    """50 mg/L nitrate as NO3 are 11.3 mg/L as nitrogen, by any way in."""
    cells = {"on": "2026-03-02", "nitrate_as_no3_mg_per_l": "50"}
    plain = plain_from_cells(WaterReading, cells)
    typed: Any = entry_from_plain(
        plain | {"kind": "water", "id": str(same(5)), "unit_id": str(TANK.id)}
    )
    table = f"kind,on,unit_id,nitrate_as_no3_mg_per_l\nwater,2026-03-02,{TANK.id},50\n"
    read: Any = book_from_csv({"entries": table}).entries[0]
    for found in (typed, read):
        assert found.nitrate_n_mg_per_l == pytest.approx(11.30, abs=0.005)


def test_new_readings_are_known_by_the_unit() -> None:
    """Nitrite, alkalinity and chloride have their newest reading, too."""
    values = {
        "nitrite_n_mg_per_l": 0.2,
        "alkalinity_mg_per_l": 80.0,
        "chloride_mg_per_l": 40.0,
    }
    found = replay([TANK], [], [entry(WaterReading, 1, **values)], on=day(2))
    water = found.units[0].water
    assert {name: latest.value for name, latest in water.items()} == values
