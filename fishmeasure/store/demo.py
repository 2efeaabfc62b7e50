"""The spring tanks: an invented book to look at and to try things on.

Two neighbours run two round tanks on a small spring, with a bed of watercress and
lettuce behind them. Tank A holds rainbow trout, tank B Arctic char. All of it is
made up: dates, counts, weights and temperatures, drawn with a fixed seed from a
growth curve of its own.
"""

import math
import random
from dataclasses import dataclass
from datetime import date, time, timedelta
from typing import Any, Final
from uuid import UUID, uuid5

from fishmeasure.base.words import wording
from fishmeasure.book.entries import (
    Cancelled,
    Counted,
    Died,
    Entry,
    Feed,
    Graded,
    GradeGroup,
    Sample,
    Sold,
    Stocked,
    WaterReading,
)
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.husbandry.feed import ration
from fishmeasure.husbandry.oxygen import oxygen_balance
from fishmeasure.husbandry.propagation import exact
from fishmeasure.husbandry.unit import Aerator, UnitLimits
from fishmeasure.store.book import BookContent

DAYS: Final = 182
_IDS: Final = UUID("0b8f3f0e-6e43-4e8c-9d0c-2f5d6a3c9e11")
_SPRING_C: Final = (6.5, 6.5, 7.0, 8.0, 9.5, 11.0, 12.0, 12.0, 11.0, 9.5, 8.0, 7.0)
_SEED: Final = 20260502


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stock:
    """The truth behind one tank, which the book sees only through samples."""

    unit: Unit
    cohort: Cohort
    fish: int
    start_g: float
    tgc_x1000: float
    cv: float
    condition_factor: float
    feed_factor: float  # fed over the chart or rule

    def weight_g(self, degree_days: float) -> float:
        return (math.cbrt(self.start_g) + self.tgc_x1000 / 1000.0 * degree_days) ** 3


def _id(name: str) -> UUID:
    return uuid5(_IDS, name)


def _units() -> tuple[Unit, Unit]:
    common: dict[str, Any] = {
        "kind": "tank",
        "altitude_m": 420.0,
        "inflow_do_mg_per_l": 9.8,
        "monthly_temperature_deg_c": _SPRING_C,
        "plant_bed_kind": "leafy",
        "limits": UnitLimits(min_do_mg_per_l=6.0, critical_do_mg_per_l=3.5),
        "note": about(),
    }
    return (
        Unit(
            id=_id("tank A"),
            name="Tank A",
            volume_m3=6.0,
            depth_m=1.2,
            inflow_l_per_min=45.0,
            inflow_by_gravity=False,  # lifted from the spring's basin by a pump
            plant_bed_area_m2=14.0,
            aeration=(
                Aerator(name="blower", standard_transfer_g_per_h=90.0, power_w=60.0),
                Aerator(
                    name="battery pump",
                    standard_transfer_g_per_h=20.0,
                    power_w=12.0,
                    on_backup=True,
                    capacity_wh=240.0,
                ),
            ),
            **common,
        ),
        Unit(
            id=_id("tank B"),
            name="Tank B",
            volume_m3=4.0,
            depth_m=1.0,
            inflow_l_per_min=30.0,
            inflow_by_gravity=True,
            plant_bed_area_m2=8.0,
            aeration=(
                Aerator(name="blower", standard_transfer_g_per_h=60.0, power_w=45.0),
            ),
            **common,
        ),
    )


def _stocks() -> tuple[_Stock, _Stock]:
    tank_a, tank_b = _units()
    trout = Cohort(
        id=_id("trout"),
        name="Trout of the spring",
        species_key="rainbow-trout",
        origin="invented hatchery",
        plate_weight_g=300.0,
        note=about(),
    )
    char = Cohort(
        id=_id("char"),
        name="Char of the spring",
        species_key="arctic-char",
        origin="invented hatchery",
        plate_weight_g=350.0,
        note=about(),
    )
    return (
        _Stock(
            unit=tank_a,
            cohort=trout,
            fish=300,
            start_g=24.0,
            tgc_x1000=1.85,
            cv=0.24,
            condition_factor=1.19,
            feed_factor=1.0,
        ),
        _Stock(
            unit=tank_b,
            cohort=char,
            fish=160,
            start_g=38.0,
            tgc_x1000=1.3,
            cv=0.28,
            condition_factor=1.08,
            feed_factor=1.2,
        ),
    )


def about() -> str:
    """Return what the demo is, as it stands in its book."""
    return wording("store-demo")


def demo_book(last: date) -> BookContent:
    """Return the demo's content, its last entries on the day given."""
    stocks = _stocks()
    entries: list[Entry] = []
    for stock in stocks:
        entries += _Diary(stock, last).entries()
    entries += _grading_and_mistakes(stocks, last)
    return BookContent(
        units=tuple(stock.unit for stock in stocks),
        cohorts=tuple(stock.cohort for stock in stocks),
        entries=tuple(entries),
        remarks=(("about", about()),),
    )


class _Diary:
    """What was written down about one tank."""

    def __init__(self, stock: _Stock, last: date) -> None:
        self._stock = stock
        self._start = last - timedelta(days=DAYS)
        # Deterministic on purpose, and no secret.
        self._chance = random.Random(f"{_SEED} {stock.unit.name}")  # noqa: S311
        self._alive = stock.fish
        self._degree_days = 0.0
        self._entries: list[Entry] = []

    def entries(self) -> list[Entry]:
        """Return the entries from stocking to the last day."""
        self._stocking()
        for number in range(1, DAYS + 1):
            day = self._start + timedelta(days=number)
            temperature_deg_c = self._temperature_deg_c(day)
            self._degree_days += temperature_deg_c
            self._deaths(number, day)
            if number not in {*range(25, DAYS, 28), *range(26, DAYS, 28)}:
                self._feed(
                    number, day, temperature_deg_c
                )  # not the day before and of a sample
            if (DAYS - number) % 4 == 0:  # the last one on the last day
                self._water(number, day, temperature_deg_c)
            if number % 28 == 26:
                self._sample(number, day)
        return self._entries

    def _common(self, name: str, day: date) -> dict[str, Any]:
        stock = self._stock
        return {
            "id": _id(f"{stock.unit.name} {name}"),
            "on": day,
            "unit_id": stock.unit.id,
        }

    def _fish(self, name: str, day: date) -> dict[str, Any]:
        return self._common(name, day) | {"cohort_id": self._stock.cohort.id}

    def _temperature_deg_c(self, day: date) -> float:
        return _SPRING_C[day.month - 1] + self._chance.gauss(0.0, 0.3)

    def _weight_g(self) -> float:
        return self._stock.weight_g(self._degree_days)

    def _stocking(self) -> None:
        stock = self._stock
        self._entries.append(
            Stocked(
                **self._fish("stocked", self._start),
                mean_weight_g=stock.start_g,
                mean_weight_sd_g=round(0.05 * stock.start_g, 1),
                bulk_weight_kg=round(stock.fish * stock.start_g / 1000.0, 2),
                note=wording("store-demo-note", case="bought"),
            )
        )

    def _deaths(self, number: int, day: date) -> None:
        chance = 0.25 if number < 10 else 0.02
        if self._chance.random() < chance:
            self._alive -= 1
            cause = "after transport" if number < 10 else "unknown"
            self._entries.append(
                Died(**self._fish(f"died {number}", day), fish_count=1, cause=cause)
            )

    def _feed(self, number: int, day: date, temperature_deg_c: float) -> None:
        stock = self._stock
        percent = ration(
            species_key=stock.cohort.species_key,
            mean_weight_g=self._weight_g(),
            temperature_deg_c=temperature_deg_c,
        ).percent_per_day.value
        kg = self._alive * self._weight_g() / 1000.0 * percent / 100.0
        self._entries.append(
            Feed(
                **self._common(f"feed {number}", day),
                feed_kg=round(stock.feed_factor * kg, 2),
                protein_fraction=0.42,
            )
        )

    def _water(self, number: int, day: date, temperature_deg_c: float) -> None:
        biomass_kg = self._alive * self._weight_g() / 1000.0
        load = biomass_kg / self._stock.unit.volume_m3
        do_mg_per_l = oxygen_balance(
            unit=self._stock.unit,
            species_key=self._stock.cohort.species_key,
            biomass_kg=exact(biomass_kg),
            mean_weight_g=self._weight_g(),
            temperature_deg_c=temperature_deg_c,
        ).steady_do_mg_per_l.value
        plain: dict[str, Any] = {
            "at": time(6, 30),
            "temperature_deg_c": round(temperature_deg_c, 1),
            "do_mg_per_l": round(do_mg_per_l + self._chance.gauss(0, 0.15), 1),
        }
        if (DAYS - number) % 12 == 0:
            plain["ph"] = round(7.2 + self._chance.gauss(0.0, 0.05), 1)
            plain["tan_mg_per_l"] = round(0.02 * load + 0.05, 2)
            plain["nitrate_n_mg_per_l"] = round(2.0 + 0.1 * load, 1)
        self._entries.append(
            WaterReading(**self._common(f"water {number}", day), **plain)
        )

    def _sample(self, number: int, day: date) -> None:
        stock = self._stock
        mean = self._weight_g() * math.exp(self._chance.gauss(0.0, 0.05))
        cv = stock.cv * math.exp(self._chance.gauss(0.0, 0.1))
        self._entries.append(
            Sample(
                **self._fish(f"sample {number}", day),
                mean_weight_g=round(mean, 1),
                mean_weight_low_g=round(mean * math.exp(-0.09), 1),
                mean_weight_high_g=round(mean * math.exp(0.09), 1),
                cv=round(cv, 3),
                condition_factor=round(
                    stock.condition_factor * math.exp(self._chance.gauss(0.0, 0.02)), 3
                ),
                fish_measured=30,
                fish_weighed=32,
            )
        )


def _grading_and_mistakes(stocks: tuple[_Stock, _Stock], last: date) -> list[Entry]:
    """Return a count, a grading, a sale, a correction and an entry taken back."""
    trout, char = stocks

    def on(days_ago: int, stock: _Stock, name: str) -> dict[str, Any]:
        return {
            "id": _id(name),
            "on": last - timedelta(days=days_ago),
            "unit_id": stock.unit.id,
            "cohort_id": stock.cohort.id,
        }

    wrong_feed = Feed(
        id=_id("wrong feed"),
        on=last - timedelta(days=30),
        unit_id=trout.unit.id,
        feed_kg=9.0,
        note=wording("store-demo-note", case="slip"),
    )
    wrong_sale = Sold(**on(4, trout, "wrong sale"), fish_count=12, weight_kg=3.9)
    return [
        Counted(**on(70, char, "count"), fish_count=151, fish_count_sd=2.0),
        Graded(
            **on(69, trout, "grading"),
            groups=(
                GradeGroup(to_unit_id=trout.unit.id, fish_count=246, fish_count_sd=2.0),
                GradeGroup(
                    to_unit_id=char.unit.id,
                    fish_count=44,
                    fish_count_sd=1.0,
                    mean_weight_g=70.0,
                ),
            ),
            note=wording("store-demo-note", case="smallest", unit=char.unit.name),
        ),
        wrong_feed,
        Cancelled(id=_id("no such feed"), on=wrong_feed.on, replaces=wrong_feed.id),
        wrong_sale,
        Sold(
            **on(4, trout, "sale"),
            fish_count=10,
            weight_kg=3.3,
            replaces=wrong_sale.id,
            note="Ten, not twelve.",
        ),
    ]
