"""What the book carries of a stock's own weight, by hand."""

import math
from dataclasses import replace
from datetime import date, timedelta
from typing import Any, Final
from uuid import UUID, uuid4

import pytest

from fishmeasure.book.entries import Entry, Sample, Spawning, StockMeasured
from fishmeasure.book.stock import StockKnown, stock_known
from fishmeasure.species import load_species

FISH: Final = uuid4()
UNIT: Final = uuid4()
TROUT: Final = load_species("rainbow-trout")
MAY: Final = date(2026, 5, 1)


def taught(on: date, c: float, sd: float, **more: Any) -> StockMeasured:
    return StockMeasured(
        id=uuid4(),
        on=on,
        unit_id=UNIT,
        cohort_id=FISH,
        c_g_per_cm3=c,
        c_relative_sd=sd,
        a_g_cm=0.0145,
        b=3.0,
        level_relative_sd=0.16,
        **more,
    )


def sampled(on: date, **more: Any) -> Sample:
    return Sample(
        id=uuid4(),
        on=on,
        unit_id=UNIT,
        cohort_id=FISH,
        mean_weight_g=200.0,
        mean_weight_low_g=190.0,
        mean_weight_high_g=210.0,
        **more,
    )


def known(
    *entries: Entry, on: date = date(2026, 8, 1), without: UUID | None = None
) -> StockKnown:
    return stock_known(TROUT, entries, cohort_id=FISH, on=on, without=without)


def c_of(found: StockKnown) -> tuple[float, float]:
    figure = found.species.body.c_g_per_cm3
    assert figure is not None
    return figure.value, figure.relative_sd


def test_nothing_taught_is_the_species_as_published() -> None:
    assert known().species == TROUT
    assert known(sampled(MAY)).species == TROUT


def test_one_telling_is_carried_as_it_is() -> None:
    found = known(taught(MAY, 0.55, 0.03))
    assert c_of(found) == pytest.approx((0.55, 0.03))
    assert found.species.is_own_stock
    assert found.species.key == "rainbow-trout"
    assert found.species.length_weight.a_g_cm == 0.0145


def test_several_count_by_their_errors_and_the_drift_between_them() -> None:
    """Weights 1 / (0.03^2 + 0.043^2) = 363.8 and 1 / (0.06^2 + 0.043^2) = 183.5.

    ln c = (363.8 ln 0.50 + 183.5 ln 0.60) / 547.3 = -0.6320: c = 0.5315. Its error:
    root of (363.8 x 0.03)^2 + (183.5 x 0.06)^2 over 547.3 = 15.48 / 547.3 = 0.0283.
    """
    later = MAY + timedelta(days=40)
    found = known(taught(MAY, 0.60, 0.06), taught(later, 0.50, 0.03))
    assert c_of(found) == pytest.approx((0.5315, 0.0283), rel=1e-3)
    assert [one.on for one in found.tellings] == [later, MAY]


def test_none_is_carried_across_spawning() -> None:
    spawning = Spawning(
        id=uuid4(), on=MAY + timedelta(days=30), unit_id=UNIT, cohort_id=FISH
    )
    before = taught(MAY, 0.55, 0.03)
    assert known(before, spawning).tellings == ()
    assert known(before, spawning, on=MAY).tellings == (before,)
    after = taught(MAY + timedelta(days=31), 0.45, 0.04)
    assert known(before, spawning, after).tellings == (after,)
    # Ripe fish that were themselves weighed are a spawning, and teach nothing.
    ripe = taught(MAY + timedelta(days=30), 0.65, 0.03, ripe=True)
    assert known(before, ripe).tellings == ()
    assert known(before, sampled(MAY + timedelta(days=30), ripe=True)).tellings == ()


@pytest.mark.parametrize(("days", "is_ripe"), [(60, True), (61, False), (-60, True)])
def test_fish_are_ripe_about_the_day_they_were_seen_so(
    days: int, *, is_ripe: bool
) -> None:
    """sqrt(0.075^2 + 0.17^2) = 0.186 for how far the stock may be off."""
    spawning = Spawning(id=uuid4(), on=MAY, unit_id=UNIT, cohort_id=FISH)
    found = known(spawning, on=MAY + timedelta(days=days))
    assert found.is_ripe is is_ripe
    sd = found.of_photos.body.stock_relative_sd.value
    usual = TROUT.body.stock_relative_sd.value
    assert sd == pytest.approx(math.hypot(usual, 0.17) if is_ripe else usual)


def test_what_is_later_another_s_or_its_own_teaches_nothing() -> None:
    one = taught(MAY, 0.55, 0.03)
    assert known(one, on=MAY - timedelta(days=1)).tellings == ()
    assert known(one, without=one.id).tellings == ()
    assert known(replace(one, cohort_id=uuid4())).tellings == ()


def test_a_bulk_weighing_carries_c_and_the_level_of_the_line() -> None:
    """K 1.50 from 1.455 to 1.545: (1.545 / 1.455)^(1 / 3.29) is 1.8 %, with 15 %."""
    one = sampled(
        MAY,
        c_g_per_cm3=0.52,
        c_relative_sd=0.04,
        a_g_cm=0.0152,
        b=3.0,
        condition_factor=1.5,
        condition_factor_low=1.455,
        condition_factor_high=1.545,
    )
    found = known(one)
    assert c_of(found) == pytest.approx((0.52, 0.04))
    line = found.species.length_weight
    assert line.a_g_cm == pytest.approx(0.0152)
    assert line.relative_sd == pytest.approx(math.hypot(0.0182, 0.15), rel=0.01)


def test_a_ruler_s_heights_are_carried_over_spawning() -> None:
    one = StockMeasured(
        id=uuid4(),
        on=MAY,
        unit_id=UNIT,
        cohort_id=FISH,
        snout_height=0.9,
        snout_height_relative_sd=0.2,
        fork_height=0.4,
        fork_height_relative_sd=0.3,
    )
    spawning = Spawning(id=uuid4(), on=MAY, unit_id=UNIT, cohort_id=FISH)
    shape = known(one, spawning).species.shape
    assert (shape.snout_height.value, shape.fork_height.value) == (0.9, 0.4)
    assert shape.fork_height.relative_sd == 0.3
    assert not known(one).species.is_own_stock
