"""Until when fish that had a medicine are no food."""

from datetime import date, timedelta
from typing import Any

import pytest

from fishmeasure.base.errors import BadEntryError
from fishmeasure.book.entries import Graded, GradeGroup, Moved, Treated
from fishmeasure.book.withdrawal import withdrawals
from fishmeasure.husbandry.temperature import ConstantTemperature, MonthlyTemperature
from tests.book.build import cohort, day, entry_about, same, tank

A, B, C = tank("A"), tank("B"), tank("C")
FISH = cohort("trout")
TEN = ConstantTemperature(temperature_deg_c=10.0)
WATER = dict.fromkeys((A.id, B.id, C.id), TEN)


def treated(on: int, **fields: Any) -> Treated:
    return Treated(id=same(on + 1), on=day(on), unit_id=A.id, product="bath", **fields)


def test_days_are_counted_from_the_last_day_of_the_treatment() -> None:
    (wait,) = withdrawals([treated(0, withdrawal_days=21)], WATER)
    assert wait.ends_on == day(21)
    assert wait.holds_on(day(0))
    assert wait.holds_on(day(20))
    assert not wait.holds_on(day(21))


def test_degree_days_are_those_of_the_water() -> None:
    # 500 degree-days at 10 °C are 50 days.
    (wait,) = withdrawals([treated(0, withdrawal_degree_days=500.0)], WATER)
    assert wait.ends_on == day(50)


def test_degree_days_go_with_the_months() -> None:
    # From 1 March (day 0) at 5 °C: days 1 to 30 are of March, 150 degree-days; 15 of
    # April at 10 °C make 150 more.
    months = MonthlyTemperature(
        temperatures_deg_c=(1, 2, 5, 10, 10, 10, 10, 9, 8, 7, 6, 5)
    )
    (wait,) = withdrawals(
        [treated(0, withdrawal_degree_days=300.0)], WATER | {A.id: months}
    )
    assert day(0) == date(2026, 3, 1)
    assert wait.ends_on == date(2026, 3, 31) + timedelta(days=15)


def test_the_later_of_both_ends_counts() -> None:
    both = treated(0, withdrawal_days=60, withdrawal_degree_days=500.0)
    assert withdrawals([both], WATER)[0].ends_on == day(60)


def test_water_at_freezing_point_ends_no_period() -> None:
    ice = ConstantTemperature(temperature_deg_c=0.0)
    (wait,) = withdrawals([treated(0, withdrawal_degree_days=1.0)], WATER | {A.id: ice})
    assert wait.ends_on is None
    assert wait.holds_on(day(1000))


def test_the_period_goes_with_the_fish() -> None:
    entries = [
        treated(0, withdrawal_days=21),
        entry_about(A, FISH, Moved, 5, to_unit_id=B.id, fish_count=10),
        entry_about(
            B, FISH, Graded, 9, groups=(GradeGroup(to_unit_id=C.id, fish_count=10),)
        ),
    ]
    assert {wait.unit_id for wait in withdrawals(entries, WATER)} == {A.id, B.id, C.id}


@pytest.mark.parametrize(("moved_on", "units"), [(21, 1), (20, 2)])
def test_fish_moved_after_its_end_take_none_along(moved_on: int, units: int) -> None:
    entries = [
        treated(0, withdrawal_days=21),
        entry_about(A, FISH, Moved, moved_on, to_unit_id=B.id, fish_count=10),
    ]
    assert len(withdrawals(entries, WATER)) == units


def test_fish_moved_before_the_treatment_are_free() -> None:
    entries = [
        entry_about(A, FISH, Moved, 0, to_unit_id=B.id, fish_count=10),
        treated(1, withdrawal_days=21),
    ]
    assert [wait.unit_id for wait in withdrawals(entries, WATER)] == [A.id]


def test_a_treatment_without_a_period_is_refused() -> None:
    with pytest.raises(BadEntryError, match="label"):
        treated(0)
