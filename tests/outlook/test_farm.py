"""All units on a day, the register and the costs, gone through by hand."""

from datetime import timedelta
from typing import Any

import pytest

from fishmeasure.base.estimate import Estimate
from fishmeasure.book.entries import (
    Died,
    Entry,
    Feed,
    FeedBought,
    Harvested,
    Moved,
    Sample,
    Stocked,
    Treated,
    WaterReading,
)
from fishmeasure.book.register import fish_register
from fishmeasure.husbandry.costs import Prices, costs
from fishmeasure.husbandry.ordering import order_fingerlings
from fishmeasure.husbandry.temperature import ConstantTemperature
from fishmeasure.outlook.farm import FarmOutlook, farm_outlook
from fishmeasure.outlook.unit import unit_outlook
from tests.book.build import cohort, day, entry_about, same, tank

A, B, EMPTY = tank("A"), tank("B"), tank("Empty")
FISH, OTHERS = cohort("trout"), cohort("others")


def stocked(unit: Any, fish: Any, count: int, grams: float) -> Entry:
    known = {"fish_count_sd": 0.0, "mean_weight_sd_g": 0.0}
    figures = {"fish_count": count, "mean_weight_g": grams} | known
    entry: Entry = entry_about(unit, fish, Stocked, 0, **figures)
    return entry


BOOK = (
    stocked(A, FISH, 200, 100.0),
    stocked(B, OTHERS, 100, 400.0),
    entry_about(A, FISH, WaterReading, 0, temperature_deg_c=12.0, do_mg_per_l=9.0),
    entry_about(B, FISH, WaterReading, 0, temperature_deg_c=12.0, do_mg_per_l=2.0),
)


def farm(*more: Entry, on: int = 0) -> FarmOutlook:
    return farm_outlook(
        (EMPTY, A, B), (FISH, OTHERS), (*BOOK, *more), on=day(on), about="invented"
    )


def test_the_most_urgent_unit_comes_first_and_an_empty_one_last() -> None:
    # 2 mg/L is below every species' critical level.
    found = farm()
    assert [unit.name for unit in found.units] == ["B", "A", "Empty"]
    assert found.units[0].now.verdict == "act"
    assert found.units[0].ration_kg is not None
    assert found.units[0].ration_kg.value == 0.0


def test_sums_are_those_of_the_units() -> None:
    found = farm()
    # 200 x 100 g + 100 x 400 g.
    assert found.biomass_kg.value == pytest.approx(60.0, rel=1e-3)
    assert found.fish_count.value == pytest.approx(300.0)
    assert found.units_unknown == 0


def test_each_unit_says_what_its_own_outlook_says() -> None:
    more = (
        Treated(id=same(1), on=day(0), unit_id=A.id, product="x", withdrawal_days=9),
    )
    for row in farm(*more).units:
        alone = unit_outlook(
            (EMPTY, A, B),
            (FISH, OTHERS),
            (*BOOK, *more),
            unit_id=row.unit_id,
            on=day(0),
        )
        assert row.ration_kg == alone.ration_kg
        assert row.biomass_kg == alone.biomass_kg
        assert row.now == alone.now
        assert row.withdrawals == alone.withdrawals


def due(found: FarmOutlook, name: str) -> list[str]:
    (unit,) = [unit for unit in found.units if unit.name == name]
    return [one.code for one in unit.due]


def test_feed_is_due_until_half_of_the_ration_is_given() -> None:
    ration = next(unit.ration_kg for unit in farm().units if unit.name == "A")
    assert ration is not None
    assert "feed" in due(farm(), "A")
    some = entry_about(A, FISH, Feed, 0, feed_kg=0.4 * ration.value)
    assert "feed" in due(farm(some), "A")
    most = entry_about(A, FISH, Feed, 0, feed_kg=0.6 * ration.value)
    assert "feed" not in due(farm(most), "A")
    assert "feed" not in due(farm(), "B")  # no ration in lethal water


def test_a_sample_is_due_after_a_month_and_never_where_none_may_be_handled() -> None:
    sample = entry_about(
        A,
        FISH,
        Sample,
        1,
        mean_weight_g=101.0,
        mean_weight_low_g=95.0,
        mean_weight_high_g=107.0,
    )
    assert "sample" in due(farm(), "A")
    assert "sample" not in due(farm(), "B")
    assert "sample" not in due(farm(sample, on=30), "A")
    assert "sample" in due(farm(sample, on=31), "A")


def test_fish_in_a_withdrawal_period_are_not_said_to_be_ready() -> None:
    assert "plate-size" in due(farm(), "B")
    medicine = Treated(
        id=same(2), on=day(0), unit_id=B.id, product="bath", withdrawal_days=21
    )
    found = farm(medicine)
    assert "plate-size" not in due(found, "B")
    (unit,) = [unit for unit in found.units if unit.name == "B"]
    assert [wait.ends_on for wait in unit.withdrawals] == [day(21)]
    assert any(problem.code == "withdrawal-period" for problem in unit.problems)


def test_no_harvest_is_planned_before_the_end_of_a_period() -> None:
    fine = entry_about(
        B, FISH, WaterReading, 1, temperature_deg_c=12.0, do_mg_per_l=9.0
    )
    medicine = Treated(
        id=same(3), on=day(1), unit_id=B.id, product="bath", withdrawal_days=30
    )

    def taken(*more: Entry) -> list[bool]:
        found = unit_outlook(
            (A, B), (FISH, OTHERS), (*BOOK, fine, *more), unit_id=B.id, on=day(1)
        )
        return [one.harvest is not None for one in found.cohorts[0].harvests]

    assert taken() == [True, True, True, True]  # on days 0, 28, 56 and 84 ahead
    assert taken(medicine) == [False, False, True, True]


def test_feed_in_store_is_what_was_bought_and_not_given() -> None:
    entries = (
        entry_about(A, FISH, Feed, -5, feed_kg=9.0),  # before anything was entered
        FeedBought(
            id=same(4), on=day(-2), feed_kg=100.0, feed_name="Grower", pellet_mm=3.0
        ),
        entry_about(A, FISH, Feed, -1, feed_kg=30.0, feed_name="grower"),
        FeedBought(id=same(5), on=day(0), feed_kg=50.0),
    )
    store = farm(*entries).feed
    assert store is not None
    assert (store.bought_kg, store.fed_kg, store.left_kg) == (150.0, 30.0, 120.0)
    assert store.counted_since == day(-2)
    (lot,) = store.lots
    assert (lot.feed_name, lot.pellet_mm, lot.left_kg) == ("Grower", 3.0, 70.0)
    rations = [unit.ration_kg.value for unit in farm().units if unit.ration_kg]
    assert store.days_left == pytest.approx(120.0 / sum(rations))
    assert farm().feed is None


def test_the_register_has_what_was_entered_and_makes_up_nothing() -> None:
    entries = (
        *BOOK,
        entry_about(A, FISH, Died, 3, fish_count=2, cause="gulls"),
        entry_about(A, FISH, Moved, 4, to_unit_id=B.id, fish_count=50),
        entry_about(B, OTHERS, Harvested, 5, fish_count=10, weight_kg=4.2),
        entry_about(B, OTHERS, Harvested, 9, fish_count=10),
    )
    names = {one.id: one.name for one in (A, B, FISH, OTHERS)}
    found = fish_register(entries, names, since=day(0), until=day(5))
    lines = [(row.kind, row.fish_count, row.weight_kg) for row in found.rows]
    assert lines == [
        ("stocked", 200, 20.0),
        ("stocked", 100, 40.0),
        ("died", 2, None),
        ("moved", 50, None),
        ("harvested", 10, 4.2),
    ]
    assert found.rows[2].remark == "gulls"
    assert found.rows[3].to_unit == "B"
    total = {one.kind: one for one in found.totals}
    assert (total["stocked"].fish_count, total["stocked"].weight_kg) == (300, 60.0)
    assert total["died"].without_weight == 1


def test_a_kilogram_costs_all_money_over_all_kilograms() -> None:
    # 1000 at 0.30, 400 kg at 1.50 and 10 months of 20 are 300 + 600 + 200 = 1100; over
    # 275 kg that is 4.00, and over 250 and 300 kg 4.40 and 3.67.
    found = costs(
        Prices(fingerling=0.30, feed_per_kg=1.50, other_per_month=20.0),
        fish_stocked=1000,
        feed_kg=400.0,
        months=10.0,
        fish_kg=Estimate(value=275.0, sd=15.0, low=250.0, high=300.0),
    )
    assert found.total == pytest.approx(1100.0)
    assert found.per_kg is not None
    assert found.per_kg.value == pytest.approx(4.0)
    assert (found.per_kg.low, found.per_kg.high) == pytest.approx(
        (3.6667, 4.4), rel=1e-4
    )


def test_fingerlings_are_ordered_by_hand() -> None:
    # Published TGC 1.75 (the species' file): from 20 g to 300 g the cube root grows by
    # 6.6943 - 2.7144 = 3.9799, that is 2274 degree-days, 190 days at 12 °C. For 100 kg
    # of 300 g 333.3 fish must live, of 85 % that do 392.2.
    order = order_fingerlings(
        species_key="rainbow-trout",
        temperature=ConstantTemperature(temperature_deg_c=12.0, sd_deg_c=0.0),
        harvest_kg=100.0,
        harvest_on=day(365),
        plate_g=300.0,
        fingerling_g=20.0,
        today=day(0),
    )
    assert order.fish_count.value == pytest.approx(392.2, abs=0.1)
    assert order.stock_on.day is not None
    assert abs((day(365) - order.stock_on.day).days - 190) <= 1
    assert (
        order.stock_on.earliest is None or order.stock_on.earliest < order.stock_on.day
    )
    assert order.stock_on.latest is not None
    assert order.stock_on.latest > order.stock_on.day


def test_fish_that_would_come_too_late_are_said_to() -> None:
    order = order_fingerlings(
        species_key="rainbow-trout",
        temperature=ConstantTemperature(temperature_deg_c=12.0),
        harvest_kg=100.0,
        harvest_on=day(0) + timedelta(days=60),
        plate_g=300.0,
        fingerling_g=20.0,
        today=day(0),
    )
    assert order.stock_on.day is None
    assert "too-late-to-order" in {problem.code for problem in order.problems}
