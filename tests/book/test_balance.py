"""The balance against arithmetic done by hand and by other programs."""

import math
from datetime import date
from functools import partial
from typing import Any

import numpy as np
import pytest

from fishmeasure.base.errors import BadEntryError
from fishmeasure.book.entries import (
    Cancelled,
    Counted,
    Died,
    Entry,
    Feed,
    Graded,
    GradeGroup,
    Harvested,
    Moved,
    Sample,
    Sold,
    Stocked,
    WaterReading,
)
from fishmeasure.book.replay import Assumptions, replay
from fishmeasure.book.state import Balance, CohortInUnit
from fishmeasure.husbandry.projection import project_growth
from fishmeasure.husbandry.propagation import z_score
from fishmeasure.husbandry.temperature import MonthlyTemperature
from tests.book.build import YEAR_C, cohort, day, entry_about, same, tank

A, B, C = tank("A", id=same(1)), tank("B", id=same(2)), tank("C", id=same(3))
TROUT = cohort("trout", id=same(11))
CHAR = cohort("char", id=same(12), species_key="arctic-char")
ODD = cohort("odd", id=same(13), species_key="pond-dragon")
# Fish seen by everybody and counted exactly: what is left is arithmetic.
PLAIN = Assumptions(
    count_sd_fraction=0.0,
    bulk_weight_sd_fraction=0.0,
    stocked_weight_sd_fraction=0.0,
    moved_weight_sd_fraction=0.0,
    stocked_count_sd_fraction=0.0,
    taken_size_sd_fraction=0.0,
    netting_sd_fraction=0.0,
    drip_sd_fraction=0.0,
    unseen_loss_per_month=0.0,
)
entry = partial(entry_about, A, TROUT)
Z = z_score(0.9)


def balance(*entries: Entry, on: int = 10, assume: Assumptions = PLAIN) -> Balance:
    """Return the balance of the entries."""
    return replay(
        (A, B, C), (TROUT, CHAR, ODD), entries, on=day(on), assumptions=assume
    )


def only(state: Balance, unit: Any = A) -> CohortInUnit:
    """Return the only cohort in a unit."""
    (found,) = state.unit(unit.id).cohorts
    return found


# --- counts -----------------------------------------------------------------------


def test_count_is_what_came_less_what_went() -> None:
    """240 stocked, 3 died, 20 harvested, 7 sold and 60 moved leave 150."""
    state = balance(
        entry(Stocked, 0, fish_count=240),
        entry(Died, 1, fish_count=3),
        entry(Harvested, 2, fish_count=20),
        entry(Sold, 2, fish_count=7),
        entry(Moved, 3, to_unit_id=B.id, fish_count=60),
    )
    assert only(state).fish_count.value == 150
    assert only(state, B).fish_count.value == 60
    total = state.cohorts[0]
    assert (total.stocked, total.died, total.taken, total.adjusted) == (240, 3, 27, 0)
    assert total.fish_count.value == 210
    assert state.unit(C.id).cohorts == ()
    assert state.unit(C.id).fish_count.value == 0
    assert state.unit(C.id).biomass_kg is not None


def test_later_entries_do_not_count_yet() -> None:
    """The balance of a day does not know of the next one."""
    entries = (entry(Stocked, 0, fish_count=100), entry(Died, 5, fish_count=9))
    assert only(balance(*entries, on=4)).fish_count.value == 100
    assert only(balance(*entries, on=5)).fish_count.value == 91


def test_replaced_entry_does_not_count() -> None:
    """A correction counts instead of the entry, a cancelled one not at all."""
    stocked = entry(Stocked, 0, fish_count=100)
    wrong = entry(Died, 1, fish_count=40)
    right = entry(Died, 1, fish_count=4, replaces=wrong.id)
    sold = entry(Sold, 2, fish_count=50)
    gone = Cancelled(id=same(999), on=day(3), replaces=sold.id)
    state = balance(stocked, wrong, right, sold, gone)
    assert only(state).fish_count.value == 96


def test_usual_tolerance_of_a_count() -> None:
    """An unstated tolerance is what lots were found to differ by, or as stated.

    Ten hatchery lots at their first inventory: -11.5 to +10.3 % (Wyoming Game and Fish
    1982). The range of ten normal figures is 3.078 of their sd (tables of ranges), and
    the inventory itself is good to 3 %.
    """
    usual = Assumptions(unseen_loss_per_month=0.0)
    state = balance(entry(Stocked, 0, fish_count=200), assume=usual)
    lots = math.sqrt(((0.115 + 0.103) / 3.078) ** 2 - 0.03**2)
    assert only(state).fish_count.sd == pytest.approx(200.0 * lots, rel=0.01)
    stated = entry(Stocked, 0, fish_count=200, fish_count_sd=1.0)
    assert only(balance(stated, assume=usual)).fish_count.sd == pytest.approx(1.0)


def test_unseen_deaths_move_the_middle() -> None:
    """60 days at 1 % a month are 2 % of the fish; the rate's own error is a factor.

    N = 1000 exp(-2 r) with ln r normal about ln 0.01, sd 1.1: its quantiles are those
    of r, put in.
    """
    fish = only(
        balance(
            entry(Stocked, 0, fish_count=1000, fish_count_sd=0.0),
            on=60,
            assume=Assumptions(unseen_loss_per_month=0.01),
        )
    ).fish_count
    middle, low, high = (
        1000.0 * math.exp(-0.02 * math.exp(1.1 * z)) for z in (0.0, Z, -Z)
    )
    assert fish.value == pytest.approx(middle)
    assert fish.low == pytest.approx(low, rel=0.01)
    # whole fish go, so that few may be none: a spread of the root of 4 fish more
    assert fish.high == pytest.approx(high, abs=4)


def test_count_ends_the_unseen_deaths() -> None:
    """After a sure count the interval is the count's own."""
    state = balance(
        entry(Stocked, 0, fish_count=1000, fish_count_sd=0.0),
        entry(Counted, 60, fish_count=980, fish_count_sd=0.0),
        on=60,
        assume=Assumptions(),
    )
    fish = only(state)
    assert fish.fish_count.value == pytest.approx(980)
    assert fish.fish_count.sd == pytest.approx(0.0, abs=0.5)
    assert fish.last_counted_on == day(60)
    assert state.cohorts[0].adjusted == pytest.approx(-20)
    (found,) = state.differences
    # 0.6 % a month in the middle: 12 of 1000 were missed before the count
    assert found.counted == 980
    assert 980 < found.expected.value < 1000
    assert found.difference == pytest.approx(980 - found.expected.value)
    assert -1.0 < found.in_sd < 0.0
    assert fish.problems == ()


def test_count_and_book_are_weighted_by_their_errors() -> None:
    """Two figures with errors 10 and 5 combine as inverse variances say."""
    state = balance(
        entry(Stocked, 0, fish_count=500, fish_count_sd=10.0),
        entry(Counted, 1, fish_count=490, fish_count_sd=5.0),
    )
    fish = only(state).fish_count
    weight = (1 / 25) / (1 / 25 + 1 / 100)
    assert fish.value == pytest.approx(500 * (1 - weight) + 490 * weight)
    assert fish.sd == pytest.approx(math.sqrt(1 / (1 / 25 + 1 / 100)))


def test_count_in_one_tank_teaches_the_other() -> None:
    """A count after an unsure move agrees with conditioning a normal (numpy)."""
    state = balance(
        entry(Stocked, 0, fish_count=500, fish_count_sd=12.0),
        entry(Moved, 1, to_unit_id=B.id, fish_count=200, fish_count_sd=10.0),
        entry(Moved, 2, to_unit_id=C.id, fish_count=100, fish_count_sd=7.0),
        entry(Counted, 3, unit_id=B.id, fish_count=185, fish_count_sd=4.0),
    )
    # stocked s, moved b and c are independent: A = s - b - c, B = b, C = c
    shape = np.array([[1.0, -1.0, -1.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])
    cov = shape @ np.diag([12.0**2, 10.0**2, 7.0**2]) @ shape.T
    mean = np.array([200.0, 200.0, 100.0])
    gain = cov[:, 1] / (cov[1, 1] + 4.0**2)
    want = mean + gain * (185.0 - 200.0)
    want_cov = cov - np.outer(gain, cov[1])
    for index, unit in enumerate((A, B, C)):
        fish = only(state, unit).fish_count
        assert fish.value == pytest.approx(want[index])
        assert fish.sd == pytest.approx(math.sqrt(want_cov[index, index]))
    total = state.cohorts[0].fish_count
    assert total.value == pytest.approx(want.sum())
    assert total.sd == pytest.approx(math.sqrt(want_cov.sum()))


def test_unsure_move_leaves_the_total_as_sure_as_it_was() -> None:
    """Moved fish are neither lost nor made, however badly they were counted."""
    state = balance(
        entry(Stocked, 0, fish_count=500, fish_count_sd=0.0),
        entry(Moved, 1, to_unit_id=B.id, fish_count=200, fish_count_sd=30.0),
    )
    assert state.cohorts[0].fish_count.value == 500
    assert state.cohorts[0].fish_count.sd == pytest.approx(0.0)
    assert only(state).fish_count.sd == pytest.approx(30.0)


def test_surprising_count_stands_alone_and_is_said() -> None:
    """A count far outside the book's interval replaces it, with a warning."""
    state = balance(
        entry(Stocked, 0, fish_count=500, fish_count_sd=10.0),
        entry(Moved, 1, to_unit_id=B.id, fish_count=100, fish_count_sd=5.0),
        entry(Counted, 2, fish_count=250, fish_count_sd=5.0),
    )
    fish = only(state)
    assert fish.fish_count.value == pytest.approx(250)
    assert fish.fish_count.sd == pytest.approx(5, rel=0.001)
    assert [problem.code for problem in fish.problems] == ["count-differs"]
    assert "250 fish were counted where the book had 400" in fish.problems[0].message
    assert only(state, B).fish_count.value == 100
    assert state.cohorts[0].adjusted == -150


def test_next_count_ends_the_warning() -> None:
    """A warning about a count stands until the next count agrees."""
    entries = (
        entry(Stocked, 0, fish_count=500, fish_count_sd=10.0),
        entry(Counted, 2, fish_count=250, fish_count_sd=5.0),
        entry(Counted, 3, fish_count=251, fish_count_sd=5.0),
    )
    assert only(balance(*entries)).problems == ()


def test_count_without_any_error_on_either_side() -> None:
    """Two exact figures that differ: the count holds, and the difference is said."""
    entries = (
        entry(Stocked, 0, fish_count=100),
        entry(Counted, 1, fish_count=90, fish_count_sd=0.0),
    )
    state = balance(*entries)
    assert only(state).fish_count.value == 90
    assert state.differences[0].in_sd == -math.inf
    agreed = balance(entries[0], entry(Counted, 1, fish_count=100, fish_count_sd=0.0))
    assert agreed.differences[0].in_sd == 0.0


def test_emptied_unit_has_no_fish() -> None:
    """A count of none empties the unit; the next fish begin anew."""
    emptied = (
        entry(Stocked, 0, fish_count=100, mean_weight_g=50.0),
        entry(Sold, 1, fish_count=95),
        entry(Counted, 1, fish_count=0, fish_count_sd=0.0),
    )
    assert balance(*emptied).unit(A.id).fish_count.value == 0
    again = balance(
        *emptied, entry(Stocked, 3, fish_count=50, mean_weight_g=20.0), on=3
    )
    assert only(again).fish_count.value == 50
    weight = only(again).mean_weight_g
    assert weight is not None
    assert weight.value == pytest.approx(20.0)


def test_more_fish_out_than_in_is_said() -> None:
    """The book does not hide that an entry must be missing."""
    state = balance(entry(Stocked, 0, fish_count=10), entry(Sold, 1, fish_count=15))
    fish = only(state)
    assert fish.book_count == -5
    assert fish.fish_count.value == 0
    assert [problem.code for problem in fish.problems] == ["more-out-than-in"]


# --- weights ----------------------------------------------------------------------


def test_count_from_a_bulk_weight() -> None:
    """12 kg of fingerlings of 15 g are 800 fish; relative errors add in squares."""
    state = balance(
        entry(
            Stocked,
            0,
            bulk_weight_kg=12.0,
            bulk_weight_sd_kg=0.24,
            mean_weight_g=15.0,
            mean_weight_sd_g=0.6,
        ),
        on=0,
    )
    fish = only(state)
    assert fish.fish_count.value == pytest.approx(800)
    assert fish.fish_count.sd == pytest.approx(800 * math.hypot(0.02, 0.04), rel=0.01)
    assert fish.mean_weight_g is not None
    assert fish.mean_weight_g.sd == pytest.approx(0.6)


def test_weight_from_count_and_bulk_weight() -> None:
    """800 fish of together 12 kg weigh 15 g."""
    state = balance(
        entry(Stocked, 0, fish_count=800, fish_count_sd=16.0, bulk_weight_kg=12.0), on=0
    )
    weight = only(state).mean_weight_g
    assert weight is not None
    assert weight.value == pytest.approx(15.0)
    assert weight.sd == pytest.approx(15.0 * 0.02, rel=0.01)


def test_nothing_stocked_is_nothing() -> None:
    """No fish of no weight are no fish."""
    state = balance(
        entry(Stocked, 0, fish_count=0, bulk_weight_kg=12.0),
        entry(Harvested, 0, weight_kg=0.0, weight_sd_kg=0.1),
    )
    assert state.unit(A.id).fish_count.value == 0


def test_growth_of_a_published_example() -> None:
    """10 g grow to 350 g at 11 C in 200 days with a coefficient of 2.22.

    The worked example of a Danish trout breeder's public page on calculations.
    """
    state = balance(
        entry(WaterReading, 0, temperature_deg_c=11.0),
        entry(WaterReading, 200, temperature_deg_c=11.0),
        entry(Stocked, 0, fish_count=100, mean_weight_g=10.0),
        entry(
            Sample,
            200,
            mean_weight_g=350.0,
            mean_weight_low_g=349.9,
            mean_weight_high_g=350.1,
        ),
        on=200,
    )
    growth = only(state).growth
    assert growth is not None
    # One long period moves the book's coefficient to the example's, and not beyond
    # what it allows for drift.
    assert growth.tgc_x1000.value > growth.published_tgc_x1000.value
    assert growth.tgc_x1000.low < 2.22 < growth.tgc_x1000.high
    weight = only(state).mean_weight_g
    assert weight is not None
    assert weight.value == pytest.approx(350.0, rel=1e-3)


def test_weight_grows_between_samples_and_its_interval_widens() -> None:
    """By the formula W^(1/3) = W0^(1/3) + TGC/1000 x degree-days (Iwama & Tautz)."""
    entries = (
        entry(WaterReading, 0, temperature_deg_c=10.0),
        entry(WaterReading, 40, temperature_deg_c=10.0),
        entry(Stocked, 0, fish_count=100, mean_weight_g=64.0, mean_weight_sd_g=1.0),
    )
    start, later = (only(balance(*entries, on=on)) for on in (0, 40))
    assert start.mean_weight_g is not None
    assert later.mean_weight_g is not None
    assert later.growth is not None
    book = later.growth.published_tgc_x1000.value
    assert later.mean_weight_g.value == pytest.approx((4.0 + book / 1000 * 400) ** 3)
    relative = [w.sd / w.value for w in (start.mean_weight_g, later.mean_weight_g)]
    assert relative[1] > relative[0]
    assert "grown" in str(later.weight_from.words)


def test_sample_and_expectation_are_weighted_by_their_errors() -> None:
    """Two weights on one day combine as inverse variances of their cube roots say."""
    low, high = (4.9**3, 5.1**3)
    mean = 5.0**3
    state = balance(
        entry(Stocked, 0, fish_count=100, mean_weight_g=4.7**3, mean_weight_sd_g=6.627),
        entry(
            Sample,
            0,
            mean_weight_g=mean,
            mean_weight_low_g=low,
            mean_weight_high_g=high,
            cv=0.25,
            fish_measured=32,
            condition_factor=1.2,
        ),
        on=0,
    )
    root_sd = 6.627 / (3 * 4.7**2)
    sample_sd = (high - low) / (2 * Z) / (3 * 5.0**2)
    precision = 1 / root_sd**2 + 1 / sample_sd**2
    want = (4.7 / root_sd**2 + 5.0 / sample_sd**2) / precision
    fish = only(state)
    assert fish.mean_weight_g is not None
    # half a per cent: the weight at stocking is normal itself, not its cube root
    assert fish.mean_weight_g.value == pytest.approx(want**3, rel=0.006)
    assert fish.condition_factor is not None
    assert fish.condition_factor.value == 1.2
    assert fish.cv is not None
    # sqrt((1 + 2 cv^2) / 2n) is 13.3 % for 32 fish; unsorted fish have 0.28 with an sd
    # of 25 % (six published figures), and both are weighed on the scale of ln.
    precise, usual = 1 / 0.133**2, 1 / 0.25**2
    joined = (precise * math.log(0.25) + usual * math.log(0.28)) / (precise + usual)
    assert fish.cv.value == pytest.approx(math.exp(joined), rel=0.002)
    assert fish.cv.sd == pytest.approx(
        fish.cv.value / math.sqrt(precise + usual), rel=0.03
    )
    assert fish.last_sampled_on == day(0)
    assert "sample of" in str(fish.weight_from.words)


def sample(on: int, weight_g: float, **fields: Any) -> Any:
    """Return a sample good to about 3 %."""
    return entry(
        Sample,
        on,
        mean_weight_g=weight_g,
        mean_weight_low_g=weight_g * 0.95,
        mean_weight_high_g=weight_g * 1.05,
        **fields,
    )


def test_sample_far_from_growth_is_said() -> None:
    """A sample that no growth explains is kept, with a warning, until the next."""
    entries = (
        entry(Stocked, 0, fish_count=100, mean_weight_g=100.0),
        sample(7, 100.0),
        sample(9, 220.0),
    )
    fish = only(balance(*entries, on=9))
    assert [problem.code for problem in fish.problems] == ["sample-off-track"]
    exact = only(
        balance(
            entry(Stocked, 0, fish_count=100, mean_weight_g=100.0),
            entry(
                Sample,
                0,
                mean_weight_g=100.0,
                mean_weight_low_g=100.0,
                mean_weight_high_g=100.0,
            ),
            on=0,
        )
    )
    assert exact.problems == ()


def test_sample_alone_gives_the_weight() -> None:
    """Fish stocked without a weight have one from their first sample on."""
    entries = (entry(Stocked, 0, fish_count=100), sample(7, 100.0))
    before, after = (only(balance(*entries, on=on)) for on in (6, 7))
    assert (before.mean_weight_g, before.biomass_kg) == (None, None)
    assert before.growth is None
    assert str(before.weight_from.words) == "no weight has been entered"
    assert balance(*entries, on=6).unit(A.id).biomass_kg is None
    assert after.mean_weight_g is not None
    assert after.mean_weight_g.value == pytest.approx(100.0)
    assert after.weight_from.entry_ids == (entries[1].id,)


def test_biomass_is_count_times_weight() -> None:
    """200 +- 10 fish of 300 +- 12 g are 60 kg; the half-widths add in squares."""
    state = balance(
        entry(
            Stocked,
            0,
            fish_count=200,
            fish_count_sd=10.0,
            mean_weight_g=300.0,
            mean_weight_sd_g=12.0,
        ),
        on=0,
    )
    kg = state.unit(A.id).biomass_kg
    assert kg is not None
    assert kg.value == pytest.approx(60.0)
    assert kg.sd == pytest.approx(60.0 * math.hypot(0.05, 0.04), rel=0.001)
    assert kg.high - 60.0 == pytest.approx(60.0 * Z * math.hypot(0.05, 0.04), rel=0.03)


def test_two_cohorts_in_one_unit_add_up() -> None:
    """Counts and kilograms of two cohorts add, their errors in squares."""
    state = balance(
        entry(Stocked, 0, fish_count=300, fish_count_sd=3.0, mean_weight_g=100.0),
        entry(
            Stocked,
            0,
            cohort_id=CHAR.id,
            fish_count=200,
            fish_count_sd=4.0,
            mean_weight_g=50.0,
        ),
        on=0,
    ).unit(A.id)
    assert len(state.cohorts) == 2
    assert state.fish_count.value == 500
    assert state.fish_count.sd == pytest.approx(5.0)
    assert state.biomass_kg is not None
    assert state.biomass_kg.value == pytest.approx(40.0)


def test_harvest_of_the_largest_leaves_smaller_fish() -> None:
    """100 fish of 300 g less 20 of together 8 kg leave 80 of 275 g."""
    state = balance(
        entry(Stocked, 0, fish_count=100, mean_weight_g=300.0),
        entry(Harvested, 0, fish_count=20, weight_kg=8.0),
        on=0,
    )
    kg = state.unit(A.id).biomass_kg
    assert kg is not None
    assert kg.value == pytest.approx(30.0 - 8.0)
    weight = only(state).mean_weight_g
    assert weight is not None
    assert weight.value == pytest.approx(275.0)


def test_impossible_harvest_weight_is_said() -> None:
    """20 fish of a 30 kg lot cannot weigh 29 kg: the mean stays, with a warning."""
    state = balance(
        entry(Stocked, 0, fish_count=100, mean_weight_g=300.0),
        entry(Harvested, 0, fish_count=20, weight_kg=29.0),
        on=0,
    )
    fish = only(state)
    assert fish.mean_weight_g is not None
    assert fish.mean_weight_g.value == pytest.approx(300.0)
    assert [problem.code for problem in fish.problems] == ["weight-implausible"]


def test_harvest_by_weight_alone() -> None:
    """6 kg of fish of 300 g are 20 fish, as unsure as the weight is."""
    state = balance(
        entry(
            Stocked,
            0,
            fish_count=100,
            fish_count_sd=0.0,
            mean_weight_g=300.0,
            mean_weight_sd_g=15.0,
        ),
        entry(Sold, 0, weight_kg=6.0),
        on=0,
    )
    fish = only(state).fish_count
    assert fish.value == pytest.approx(80.0)
    assert fish.sd == pytest.approx(20 * 0.05, rel=0.02)


def test_harvest_by_weight_of_fish_of_unknown_weight() -> None:
    """Kilograms of unknown fish are no number of fish, and that is said."""
    state = balance(entry(Stocked, 0, fish_count=100), entry(Sold, 1, weight_kg=6.0))
    assert only(state).fish_count.value == 100
    assert [problem.code for problem in only(state).problems] == ["weight-unknown"]


def test_last_fish_taken_keep_their_weight() -> None:
    """When all are taken with their weight there is nothing left to weigh."""
    state = balance(
        entry(Stocked, 0, fish_count=100, mean_weight_g=300.0),
        entry(Harvested, 0, fish_count=100, weight_kg=31.0),
        entry(Harvested, 0, unit_id=B.id, fish_count=5, weight_kg=1.0),
        on=0,
    )
    assert state.unit(A.id).fish_count.value == 0


# --- moves and grading ----------------------------------------------------------


def test_moved_fish_keep_origin_and_weight() -> None:
    """Fish in another unit are of the same cohort and the same weight."""
    state = balance(
        entry(Stocked, 0, fish_count=100, mean_weight_g=300.0),
        sample(0, 300.0, cv=0.2),
        entry(Moved, 1, to_unit_id=B.id, fish_count=40),
        on=1,
    )
    here, there = only(state), only(state, B)
    assert there.cohort == TROUT
    assert here.cv is not None
    assert there.cv is not None
    assert there.cv.value == pytest.approx(here.cv.value)
    assert there.last_sampled_on == day(0)
    assert there.mean_weight_g == here.mean_weight_g
    assert len(there.count_from.entry_ids) == 1


def test_moved_largest_leave_smaller_fish() -> None:
    """Kilograms are conserved when the moved fish are heavier than average."""
    state = balance(
        entry(Stocked, 0, fish_count=100, mean_weight_g=300.0),
        entry(Moved, 0, to_unit_id=B.id, fish_count=40, mean_weight_g=360.0),
        on=0,
    )
    here, there = only(state).mean_weight_g, only(state, B).mean_weight_g
    assert here is not None
    assert there is not None
    assert there.value == pytest.approx(360.0)
    assert 60 * here.value + 40 * there.value == pytest.approx(100 * 300.0)


def test_fish_that_join_others_of_their_cohort() -> None:
    """30 of 100 g beside 60 of 400 g are 90 of 300 g."""
    state = balance(
        entry(Stocked, 0, fish_count=60, mean_weight_g=400.0),
        entry(Stocked, 0, unit_id=B.id, fish_count=30, mean_weight_g=100.0),
        entry(Moved, 0, unit_id=B.id, to_unit_id=A.id, fish_count=30),
        on=0,
    )
    weight = only(state).mean_weight_g
    assert weight is not None
    assert weight.value == pytest.approx(300.0)


def test_moved_fish_of_unknown_weight() -> None:
    """Unweighed fish take no weight along; the ones they join keep theirs."""
    state = balance(
        entry(Stocked, 0, fish_count=60),
        entry(Stocked, 0, unit_id=B.id, fish_count=30, mean_weight_g=100.0),
        entry(Moved, 0, to_unit_id=B.id, fish_count=30),
        entry(Moved, 0, to_unit_id=C.id, fish_count=10, mean_weight_g=70.0),
        on=0,
    )
    assert only(state).mean_weight_g is None
    weight = only(state, B).mean_weight_g
    assert weight is not None
    assert weight.value == pytest.approx(100.0)


def graded(*groups: GradeGroup) -> Any:
    """Return a grading of unit A on day 1."""
    return entry(Graded, 1, groups=groups)


def test_grading_counts_and_splits() -> None:
    """Groups have the counts and weights given; the difference is data."""
    state = balance(
        entry(Stocked, 0, fish_count=300, fish_count_sd=9.0, mean_weight_g=120.0),
        graded(
            GradeGroup(
                to_unit_id=A.id, fish_count=180, fish_count_sd=2.0, mean_weight_g=90.0
            ),
            GradeGroup(
                to_unit_id=B.id, fish_count=110, fish_count_sd=1.0, mean_weight_g=170.0
            ),
        ),
        on=1,
    )
    here, there = only(state), only(state, B)
    for fish, count, sd in ((here, 180, 2), (there, 110, 1)):
        assert fish.fish_count.value == pytest.approx(count)
        assert fish.fish_count.sd == pytest.approx(sd)
    assert here.mean_weight_g is not None
    assert here.mean_weight_g.value == pytest.approx(90.0)
    assert there.mean_weight_g is not None
    assert there.mean_weight_g.value == pytest.approx(170.0)
    assert here.cv is None
    assert state.differences[0].difference == pytest.approx(-10)
    total = state.cohorts[0]
    assert total.fish_count.value == pytest.approx(290)
    assert total.fish_count.sd == pytest.approx(math.hypot(2, 1))
    assert total.adjusted == pytest.approx(290 - total.stocked)


def test_grading_that_empties_a_unit() -> None:
    """Groups that all go elsewhere leave none behind."""
    state = balance(
        entry(Stocked, 0, fish_count=300, mean_weight_g=120.0),
        graded(
            GradeGroup(to_unit_id=B.id, fish_count=200),
            GradeGroup(to_unit_id=C.id, fish_count=100, mean_weight_g=150.0),
        ),
        on=1,
    )
    assert state.unit(A.id).fish_count.value == 0
    assert only(state, B).fish_count.value == 200


def test_grading_where_only_those_that_left_were_weighed() -> None:
    """What stays has the rest of the kilograms."""
    state = balance(
        entry(WaterReading, 0, temperature_deg_c=0.0),
        entry(WaterReading, 1, temperature_deg_c=0.0),
        entry(Stocked, 0, fish_count=300, mean_weight_g=120.0),
        graded(
            GradeGroup(to_unit_id=A.id, fish_count=200),
            GradeGroup(to_unit_id=B.id, fish_count=100, mean_weight_g=160.0),
        ),
        on=1,
    )
    weight = only(state).mean_weight_g
    assert weight is not None
    assert weight.value == pytest.approx(100.0)


def test_grading_of_unweighed_fish() -> None:
    """A weight given for the group that stays is their first."""
    state = balance(
        entry(Stocked, 0, fish_count=300),
        graded(GradeGroup(to_unit_id=A.id, fish_count=300, mean_weight_g=80.0)),
        on=1,
    )
    weight = only(state).mean_weight_g
    assert weight is not None
    assert weight.value == pytest.approx(80.0)


def test_kilograms_in_and_out_of_a_unit() -> None:
    """What came in, was taken, died or was found missing, at the weight of the day."""
    state = balance(
        entry(Stocked, 0, fish_count=100, fish_count_sd=5.0, mean_weight_g=200.0),
        entry(Died, 0, fish_count=5),
        entry(Harvested, 0, fish_count=10),
        entry(Sold, 0, fish_count=10, weight_kg=2.5),
        entry(Moved, 0, to_unit_id=B.id, fish_count=20),
        entry(Counted, 0, fish_count=50, fish_count_sd=0.0),
        on=0,
    )
    flow = state.unit(A.id).flow
    weight = only(state).mean_weight_g
    assert weight is not None
    # the sure count says that 95 were stocked, not 100 give or take 5
    assert flow.added_kg == pytest.approx(19.0)
    moved_kg = state.unit(B.id).flow.added_kg
    assert moved_kg == pytest.approx(20 * 0.2)
    assert flow.taken_kg == pytest.approx(10 * 0.2 + 2.5 + moved_kg)
    assert flow.dead_kg == pytest.approx(5 * 0.2)
    left_kg = 50 * weight.value / 1000.0
    assert flow.added_kg - flow.taken_kg - flow.dead_kg == pytest.approx(left_kg)
    assert flow.fish_of_unknown_weight == 0
    blind = balance(
        entry(Stocked, 0, fish_count=100),
        entry(Died, 0, fish_count=5),
        entry(Moved, 0, to_unit_id=B.id, fish_count=20),
        on=0,
    )
    assert blind.unit(A.id).flow.fish_of_unknown_weight == 125
    assert blind.unit(A.id).flow.dead_kg == 0


def test_growth_ahead_is_that_of_the_growth_module() -> None:
    """A replay in pieces and one projection from the start give the same interval."""
    entries: list[Entry] = [
        entry(Stocked, 0, fish_count=100, mean_weight_g=64.0, mean_weight_sd_g=3.0),
        *(entry(Harvested, on, fish_count=0, weight_kg=0.0) for on in range(1, 90)),
    ]
    first, last = (only(balance(*entries, on=on)) for on in (0, 90))
    assert first.growth is not None
    assert last.mean_weight_g is not None
    ahead = project_growth(
        fit=first.growth,
        temperature=MonthlyTemperature(temperatures_deg_c=YEAR_C, sd_deg_c=0.0),
        days=90,
    ).mean_weight_g(day(90))
    assert last.mean_weight_g.value == pytest.approx(ahead.value)
    assert last.mean_weight_g.sd == pytest.approx(ahead.sd, rel=0.03)


# --- the rest ---------------------------------------------------------------------


def test_species_without_growth_figures() -> None:
    """Fish of an unknown species are counted; their weight stands still, said so."""
    state = balance(
        entry(Stocked, 0, cohort_id=ODD.id, fish_count=10, mean_weight_g=50.0), on=90
    )
    fish = only(state)
    assert fish.mean_weight_g is not None
    assert fish.mean_weight_g.value == pytest.approx(50.0)
    assert fish.growth is None
    assert [problem.code for problem in fish.problems] == ["no-growth-figures"]


def test_newest_water_readings() -> None:
    """Each quantity has its newest reading, by day, then time, then as made."""
    from datetime import time

    state = balance(
        entry(WaterReading, 1, ph=7.1, do_mg_per_l=9.0),
        entry(WaterReading, 2, do_mg_per_l=7.7),
        entry(WaterReading, 2, do_mg_per_l=7.0, at=time(18)),
        entry(WaterReading, 2, do_mg_per_l=8.0, at=time(6)),
        entry(Feed, 2, feed_kg=1.0),
    ).unit(A.id)
    assert state.water["do_mg_per_l"].value == 7.0
    assert state.water["ph"].on == day(1)
    assert "tan_mg_per_l" not in state.water


def test_provenance_names_the_entries() -> None:
    """Every figure says which entries it came from."""
    stocked = entry(Stocked, 0, fish_count=100, mean_weight_g=50.0)
    died = entry(Died, 1, fish_count=2)
    counted = entry(Counted, 2, fish_count=97, fish_count_sd=1.0)
    later = entry(Died, 3, fish_count=1)
    weighed = entry(Harvested, 4, fish_count=1, weight_kg=0.05)
    before = only(balance(stocked, died, counted, later, on=1))
    assert before.count_from.entry_ids == (stocked.id, died.id)
    assert "never counted" in str(before.count_from.words)
    assert before.weight_from.entry_ids == (stocked.id,)
    assert "stocking" in str(before.weight_from.words)
    after = only(balance(stocked, died, counted, later, weighed))
    assert after.count_from.entry_ids == (counted.id, later.id, weighed.id)
    assert after.weight_from.entry_ids == (stocked.id, weighed.id)


def test_day_that_makes_no_sense() -> None:
    """A day centuries away is a slip of the pen, refused in one sentence."""
    for year in (206, 1989, 2101, 9999):
        with pytest.raises(BadEntryError, match=f"{year:04}-05-02"):
            replay((A,), (TROUT,), (), on=date(year, 5, 2))


def test_empty_book() -> None:
    """A book without entries has empty units."""
    state = balance()
    assert [unit.fish_count.value for unit in state.units] == [0, 0, 0]
    assert state.differences == ()


def test_unit_without_any_temperature() -> None:
    """Without table and readings 10 C is taken; with one reading that one."""
    bare = tank("bare", id=same(1), monthly_temperature_deg_c=())
    stocked = entry(Stocked, 0, fish_count=10, mean_weight_g=50.0)
    state = replay((bare,), (TROUT,), (stocked,), on=day(5))
    assert state.unit(bare.id).temperature.on(day(3)) == 10.0
    reading = entry(WaterReading, 2, temperature_deg_c=7.0)
    other = entry(WaterReading, 2, temperature_deg_c=8.0)
    state = replay((bare,), (TROUT,), (stocked, reading, other), on=day(5))
    assert state.unit(bare.id).temperature.on(day(4)) == 7.5
    (held,) = state.unit(bare.id).problems
    assert held.code == "temperature-held"
    assert "7.5 °C on 2026-03-03, for the whole year" in held.message
    spring = tank("spring", monthly_temperature_deg_c=(8.5,))
    assert spring.monthly_temperature_deg_c == (8.5,) * 12


def test_unknown_temperature_is_said() -> None:
    """Where 10 C is only assumed, the unit says so; without fish it need not."""
    bare = tank("bare", id=same(1), monthly_temperature_deg_c=())
    stocked = entry(Stocked, 0, fish_count=10, mean_weight_g=50.0)
    (state,) = replay((bare,), (TROUT,), (stocked,), on=day(5)).units
    assert [problem.code for problem in state.problems] == ["temperature-unknown"]
    (state,) = replay((bare,), (TROUT,), (), on=day(5)).units
    assert state.problems == ()


def test_table_of_months_stands_in_long_gaps() -> None:
    """Between readings half a year apart the table counts, not a straight line."""
    near = entry(WaterReading, 20, temperature_deg_c=6.0)
    far = entry(WaterReading, 200, temperature_deg_c=6.0)
    state = balance(entry(WaterReading, 0, temperature_deg_c=4.0), near, far, on=200)
    temperature = state.unit(A.id).temperature
    assert temperature.on(day(10)) == pytest.approx(5.0)
    summer = day(130)
    assert temperature.on(summer) == pytest.approx(YEAR_C[summer.month - 1], abs=0.5)
    assert temperature.on(day(200)) == 6.0
