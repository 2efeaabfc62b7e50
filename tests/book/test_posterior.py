"""What entries say together, against sums by hand."""

import math
from functools import partial
from typing import Any

import pytest

from fishmeasure.book.entries import (
    Counted,
    Entry,
    Feed,
    Graded,
    GradeGroup,
    Harvested,
    Sample,
    Stocked,
    WaterReading,
)
from fishmeasure.book.posterior import Assumptions
from fishmeasure.book.posterior.feeding import feed_periods
from fishmeasure.book.replay import replay
from fishmeasure.book.state import CohortInUnit
from fishmeasure.husbandry.harvest import dates_at_size
from fishmeasure.husbandry.projection import project_growth
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.husbandry.temperature import ConstantTemperature
from fishmeasure.species import packaged_species
from tests.book.build import cohort, day, entry_about, same, tank

A = tank("A", id=same(1), monthly_temperature_deg_c=(10.0,) * 12)
TROUT = cohort("trout", id=same(11))
CHAR = cohort("char", id=same(12), species_key="arctic-char")
entry = partial(entry_about, A, TROUT)
Z = z_score(0.9)
WIDE = {"mean_weight_low_g": 0.0, "mean_weight_high_g": 69_361.7}
TWENTY_THREE: dict[str, Any] = {"fish_count": 23, "fish_count_sd": 16.365}


def known(*entries: Entry, on: int = 0, **assumed: float) -> CohortInUnit:
    """Return what is known of the trout."""
    found = replay(
        (A,), (TROUT, CHAR), entries, on=day(on), assumptions=Assumptions(**assumed)
    )
    return found.unit(A.id).cohorts[0]


def sample(on: int, weight_g: float, sd: float, **fields: Any) -> Any:
    """Return a weighed and measured sample with a relative error."""
    plain: dict[str, Any] = {"fish_measured": 32, "fish_weighed": 32}
    return entry(
        Sample,
        on,
        mean_weight_g=weight_g,
        mean_weight_low_g=weight_g * (1.0 - Z * sd),
        mean_weight_high_g=weight_g * (1.0 + Z * sd),
        **(plain | fields),
    )


def weighed_in(**fields: Any) -> Any:
    """Return 120 kg of fingerlings."""
    return entry(Stocked, 0, bulk_weight_kg=120.0, **fields)


# --- kilograms, counts and weights are one figure ----------------------------------


def test_a_heavier_sample_makes_the_fish_fewer() -> None:
    """120 kg of 60 g, give or take 10 %, then 66 g give or take 3 %.

    By inverse variances the mean is 60 + (66 - 60) x 36 / (36 + 3.92) = 65.4 g, and the
    fish are 120 kg / 65.4 g = 1,835; 66 g alone would make 1,818.
    """
    found = known(weighed_in(mean_weight_g=60.0), sample(0, 66.0, 0.03))
    weight_g = 60.0 + 6.0 * 6.0**2 / (6.0**2 + 1.98**2)
    assert found.mean_weight_g is not None
    assert found.biomass_kg is not None
    assert found.mean_weight_g.value == pytest.approx(weight_g, rel=0.005)
    assert found.fish_count.value == pytest.approx(120_000 / weight_g, rel=0.005)
    assert found.biomass_kg.value == pytest.approx(120.0, rel=0.002)
    # the kilograms were weighed to 1 %, whatever the count and the mean are
    assert found.biomass_kg.sd == pytest.approx(1.2, rel=0.02)


def test_then_a_count_settles_both() -> None:
    """1,800 counted, nearly beyond doubt, of 120 kg weigh 66.7 g."""
    found = known(
        weighed_in(mean_weight_g=60.0),
        sample(0, 66.0, 0.03),
        entry(Counted, 0, fish_count=1800, fish_count_sd=2.0),
    )
    assert found.mean_weight_g is not None
    assert found.mean_weight_g.value == pytest.approx(66.67, rel=0.003)


def test_count_at_stocking_and_own_count_weigh_as_their_errors() -> None:
    """2,000 give or take 6.4 % stated, 1,800 give or take 3 % counted: 1,833."""
    found = known(weighed_in(fish_count=2000), entry(Counted, 0, fish_count=1800))
    precise = 1.0 / 54.0**2, 1.0 / 128.0**2
    want = (1800 * precise[0] + 2000 * precise[1]) / sum(precise)
    assert found.fish_count.value == pytest.approx(want, rel=0.002)
    assert found.mean_weight_g is not None
    assert found.mean_weight_g.value == pytest.approx(120_000 / want, rel=0.002)


def test_all_fish_harvested_weighed_and_counted_tell_their_weight() -> None:
    """What is left of a tank cannot have been chosen: 95 of 100 of together 28.5 kg."""
    found = known(
        entry(Stocked, 0, fish_count=100, fish_count_sd=0.0, mean_weight_g=250.0),
        entry(Harvested, 0, fish_count=95, weight_kg=28.5),
    )
    assert found.mean_weight_g is not None
    assert found.mean_weight_g.value > 200.0
    before = known(
        entry(Stocked, 0, fish_count=100, fish_count_sd=0.0, mean_weight_g=250.0),
        entry(Harvested, 0, fish_count=1, weight_kg=0.3),
    ).mean_weight_g
    assert before is not None
    # one fish of 100 that was 300 g says little: 10 % of choice against 10 % stated
    assert 255.0 < before.value < 285.0


def test_a_loss_rate_is_learned_from_counts() -> None:
    """1,000 that are 940 after two months lost about 3 % a month: 912 after a third."""
    entries = (
        entry(Stocked, 0, fish_count=1000, fish_count_sd=2.0, mean_weight_g=20.0),
        entry(Counted, 60, fish_count=940, fish_count_sd=2.0),
    )
    found = known(*entries, on=90)
    assert found.fish_count.value == pytest.approx(940 * math.sqrt(0.94), rel=0.005)
    assert found.fish_count.high < 930


# --- spread and level -----------------------------------------------------------------


def test_last_spread_does_not_replace_all_before() -> None:
    """Three samples of one week weigh alike: ln CV is near their mean."""
    found = known(
        entry(Stocked, 0, fish_count=1000, mean_weight_g=100.0),
        *(sample(0, 100.0, 0.05, cv=cv) for cv in (0.30, 0.30, 0.20)),
    ).cv
    assert found is not None
    assert 0.25 < found.value < 0.28


def test_a_sample_that_was_only_weighed_shows_no_spread() -> None:
    """Its CV is the estimate's prior."""
    found = known(
        entry(Stocked, 0, fish_count=1000, mean_weight_g=100.0),
        sample(0, 100.0, 0.05, cv=0.22, fish_measured=0),
    )
    assert found.cv is None


def test_level_learned_by_weighing_serves_a_photo_alone() -> None:
    """A stock 20 % heavy for its length; then photos alone, read as published.

    They say 100 g where the published line has an error of a quarter; by the level
    of a month before the fish weigh 120 g, to about 10 %.
    """
    line = packaged_species("rainbow-trout").on_fork_length()
    length_cm = (80.0 / 1.2 / line.a_g_cm) ** (1.0 / line.b)
    factor = 100.0 * 80.0 / length_cm**3
    first = sample(
        0,
        80.0,
        0.05,
        condition_factor=factor,
        condition_factor_low=factor * (1 - Z * 0.04),
        condition_factor_high=factor * (1 + Z * 0.04),
    )
    photos = sample(
        30, 100.0, math.hypot(line.relative_sd, 0.06), fish_weighed=0, cv=0.25
    )
    stocked = entry(
        Stocked, 0, fish_count=1000, mean_weight_g=80.0, mean_weight_sd_g=40.0
    )
    alone = known(stocked, photos, on=30).mean_weight_g
    both = known(stocked, first, photos, on=30).mean_weight_g
    assert alone is not None
    assert both is not None
    assert 105.0 < both.value < 125.0
    assert (both.high - both.low) / both.value < 0.35
    assert (alone.high - alone.low) / alone.value > 0.5


def test_spread_ahead_holds_fish_that_grow_alike() -> None:
    """Fish with one growth coefficient keep their cube roots apart: CV x (w / W)^(1/3).

    Fish with one specific rate keep their CV. Told is the middle, and both are likely.
    """
    first = sample(0, 100.0, 0.02, cv=0.30, fish_measured=3000)
    found = known(STOCK, first, on=120)
    assert found.mean_weight_g is not None
    assert found.cv is not None
    grown = found.mean_weight_g.value / known(STOCK, first).mean_weight_g.value  # type: ignore[union-attr]
    assert found.cv.value == pytest.approx(0.30 * grown ** (-1.0 / 6.0), rel=0.02)
    assert found.cv.low < 0.30 * grown ** (-1.0 / 3.0)
    assert found.cv.high > 0.30


# --- feed -----------------------------------------------------------------------------


def meals(kg_a_day: float, days: int = 60) -> list[Entry]:
    """Return feed of every day."""
    return [entry(Feed, number, feed_kg=kg_a_day) for number in range(days)]


STOCK = entry(
    Stocked, 0, fish_count=1000, fish_count_sd=5.0, mean_weight_g=100.0,
    mean_weight_sd_g=2.0,
)  # fmt: skip


def test_feed_tells_growth() -> None:
    """1,000 fish that were fed 80 kg grew by about 65 g, not as the published TGC says.

    Trout of 100 to 165 g burn about 0.17 % a day at 10 °C, 13 kg of feed in 60 days;
    the rest at a partial conversion of about 1.0 is 67 kg.
    """
    unfed, fed = (known(STOCK, *m, on=60) for m in ([], meals(80.0 / 60)))
    assert unfed.mean_weight_g is not None
    assert fed.mean_weight_g is not None
    assert 155.0 < fed.mean_weight_g.value < 178.0
    assert fed.mean_weight_g.sd < 0.6 * unfed.mean_weight_g.sd
    richer = known(STOCK, *meals(110.0 / 60), on=60).mean_weight_g
    assert richer is not None
    assert richer.value > fed.mean_weight_g.value + 12.0


def test_each_period_has_its_feed_conversion() -> None:
    """80 kg in 60 days, three periods: feed over gain of each, in its interval.

    Two weighings to 1 % found 100 and 165 g: 80 kg / 65 kg = 1.23 over all.
    """
    end = sample(60, 165.0, 0.01)
    fed = known(STOCK, *meals(80.0 / 60), end, on=60, netting_sd_fraction=0.0).fed
    assert [(p.since, p.until) for p in fed] == [
        (day(0), day(21)), (day(21), day(42)), (day(42), day(60)),
    ]  # fmt: skip
    assert sum(p.feed_kg for p in fed) == pytest.approx(80.0)
    assert sum(p.gain_kg.value for p in fed) == pytest.approx(65.0, rel=0.04)
    for period in fed:
        found = period.conversion
        assert found is not None
        assert found.low < 1.23 < found.high
        assert found.value == pytest.approx(period.feed_kg / period.gain_kg.value)
        assert 0.1 < (found.high - found.low) / found.value < 0.8


def test_a_period_without_growth_has_no_conversion() -> None:
    """At 3 °C the gain may be nothing, so that feed over gain would have no end."""
    cold = [entry(WaterReading, n, temperature_deg_c=3.0) for n in (0, 30, 60)]
    fed = known(STOCK, *cold, *meals(0.1), on=60).fed
    assert len(fed) == 3
    assert [period.conversion for period in fed] == [None, None, None]


def test_winter_feed_is_no_growth() -> None:
    """What keeps fish at 3 °C as they are leaves their weight where it was."""
    cold = [entry(WaterReading, n, temperature_deg_c=3.0) for n in (0, 30, 60)]
    found = known(STOCK, *cold, *meals(0.1), on=60).mean_weight_g
    assert found is not None
    assert found.value == pytest.approx(100.0, rel=0.04)


def test_a_silence_is_no_fast() -> None:
    """A diary not kept for three weeks says nothing of them."""
    days = [*range(20), *range(45, 70)]
    found = feed_periods(A.id, dict.fromkeys(days, 1.0), 80)
    assert [(p.start, p.end) for p in found] == [(0, 20), (45, 66), (66, 70)]
    assert sum(p.feed_kg for p in found) == 45.0


def test_feed_of_one_tank_is_shared_by_weight() -> None:
    """Two cohorts alike but for their number eat as their number is, 3 to 1."""
    many = entry(Stocked, 0, fish_count=3000, fish_count_sd=5.0, mean_weight_g=100.0)
    few = entry(
        Stocked, 0, cohort_id=CHAR.id, fish_count=1000, fish_count_sd=5.0,
        mean_weight_g=100.0,
    )  # fmt: skip
    found = replay((A,), (TROUT, CHAR), (many, few, *meals(5.0)), on=day(60))
    gains = [c.gain_kg for c in found.unit(A.id).cohorts]
    assert gains[0] is not None
    assert gains[1] is not None
    assert 2.0 < gains[0].value / gains[1].value < 6.0
    assert 180.0 < gains[0].value + gains[1].value < 320.0


# --- ahead ----------------------------------------------------------------------------


def test_a_date_has_an_end_where_growth_is_plausible() -> None:
    """One sample only: the slowest trout that is likely is at plate size in a year."""
    found = known(STOCK, sample(30, 125.0, 0.06, cv=0.25), on=30)
    assert found.growth is not None
    assert found.cv is not None
    water = ConstantTemperature(temperature_deg_c=11.0)
    ahead = project_growth(fit=found.growth, temperature=water, days=365)
    half = dates_at_size(projection=ahead, cv=found.cv, size_g=250.0).half
    assert half.latest is not None
    frozen = ConstantTemperature(temperature_deg_c=0.5)
    idle = project_growth(fit=found.growth, temperature=frozen, days=365)
    assert dates_at_size(projection=idle, cv=found.cv, size_g=250.0).half.day is None


def test_biomass_ahead_stays_as_sure_as_the_kilograms() -> None:
    """Fish that are fewer where they are heavier: 120 kg are known to 1 % tomorrow."""
    found = known(weighed_in(fish_count=2000), on=0)
    assert found.growth is not None
    water = ConstantTemperature(temperature_deg_c=10.0, sd_deg_c=0.0)
    ahead = project_growth(fit=found.growth, temperature=water, days=1)
    kg = ahead.biomass_kg(day(0), found.fish_count)
    assert kg.value == pytest.approx(120.0, rel=0.001)
    assert kg.sd / kg.value == pytest.approx(0.01, rel=0.3)


def test_three_figures_that_cannot_be_of_the_same_fish() -> None:
    """1 kg of one fish of 1 g: count and mean stand, the kilograms are questioned."""
    found = known(
        entry(Stocked, 0, fish_count=1, bulk_weight_kg=1.0, mean_weight_g=1.0)
    )
    assert found.fish_count.value == pytest.approx(1.0)
    assert found.mean_weight_g is not None
    assert found.mean_weight_g.value == pytest.approx(1.0)
    assert [problem.code for problem in found.problems] == ["weight-implausible"]


# --- odd books ----------------------------------------------------------------------


def test_fish_that_are_gone_at_the_likeliest_point_have_figures() -> None:
    """A book that ended in "mismatch in its core dimension".

    A sample that says next to nothing and an impossible harvest move the likeliest
    number of fish across "none left", and with it which counts there are to compare.
    By hand: 553 were counted, 23 counted out of an emptied tank, then 48 taken.
    """
    other = tank("B", id=same(2), monthly_temperature_deg_c=(10.0,) * 12)
    entries = (
        entry(Sample, 11, mean_weight_g=2.2, **WIDE),
        entry(Counted, 22, fish_count=553),
        entry(Graded, 38, groups=(GradeGroup(to_unit_id=other.id, **TWENTY_THREE),)),
        entry(Harvested, 52, fish_count=48, weight_kg=675_978.28),
    )
    found = replay((A, other), (TROUT,), entries, on=day(60))
    assert found.unit(other.id).cohorts[0].book_count == 23
    assert found.unit(A.id).cohorts[0].book_count == -48


def test_a_count_without_error_of_fish_known_badly_is_taken() -> None:
    """Two lots of 400 that may be any number, and one counted exactly: one is there.

    The slopes are 400 fish / 0.000001 fish: beside the square of that, 1.6e17, the 1 of
    an unknown's own variance is below what a double holds (2.2e-16 of it).
    """
    lot = partial(entry, Stocked, 0, fish_count=400, fish_count_sd=400.0)
    count = entry(Counted, 0, fish_count=1, fish_count_sd=0.0)
    found = known(lot(), lot(), count, unseen_loss_per_month=0.0)
    assert found.fish_count.value == pytest.approx(1.0, rel=1e-3)
