"""What entries of known error come to together: least squares, written out or by scipy.

Nothing is lost unseen here and nothing grows, so that each figure is a mean of what was
stated, weighed by the inverse of variances.
"""

import math
from dataclasses import replace
from functools import partial
from typing import Any, Final

import numpy as np
import pytest
from scipy.optimize import minimize

from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    Graded,
    GradeGroup,
    Harvested,
    Sample,
    Stocked,
)
from fishmeasure.book.replay import Assumptions, replay, samples_over_all
from fishmeasure.book.state import Balance, CohortInUnit
from tests.book.build import cohort, day, entry_about, same, tank

Z: Final = 1.6448536
A, B = tank("A", id=same(1)), tank("B", id=same(2))
ODD = cohort("odd", id=same(13), species_key="pond-dragon")
"""Of a species without figures, so its fish do not grow."""
entry = partial(entry_about, A, ODD)


def balance(*entries: Entry, on: int = 0, **assumed: float) -> Balance:
    plain = {"unseen_loss_per_month": 0.0} | assumed
    return replay((A, B), (ODD,), entries, on=day(on), assumptions=Assumptions(**plain))


def known(*entries: Entry, on: int = 0, **assumed: float) -> CohortInUnit:
    (found,) = balance(*entries, on=on, **assumed).unit(A.id).cohorts
    return found


def stocked(on: int = 0, **fields: Any) -> Stocked:
    found: Stocked = entry(Stocked, on, **({"fish_count": 1000} | fields))
    return found


def sampled(on: int, weight_g: float, sd: float, **fields: Any) -> Sample:
    plain: dict[str, Any] = {"fish_measured": 32, "fish_weighed": 32}
    low, high = (weight_g * (1.0 + sign * Z * sd) for sign in (-1.0, 1.0))
    found: Sample = entry(
        Sample,
        on,
        mean_weight_g=weight_g,
        mean_weight_low_g=low,
        mean_weight_high_g=high,
        **(plain | fields),
    )
    return found


# --- counts --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("counted", "told"), [(1068, False), (1076, True), (924, True)]
)
def test_a_count_two_standard_deviations_off_is_told(counted: int, told: bool) -> None:  # noqa: FBT001
    """1,000 give or take 30, counted give or take 20: 2 x 36.06 is 72 fish."""
    state = balance(
        stocked(fish_count_sd=30.0),
        entry(Counted, 1, fish_count=counted, fish_count_sd=20.0),
        on=1,
    )
    (found,) = state.unit(A.id).cohorts
    assert ("count-differs" in {p.code for p in found.problems}) == told
    (difference,) = state.differences
    assert difference.expected.value == pytest.approx(1000.0, abs=0.5)
    assert difference.expected.sd == pytest.approx(30.0, rel=0.01)
    assert difference.difference == pytest.approx(counted - 1000.0, abs=0.5)
    in_sd = (counted - 1000.0) / math.hypot(30.0, 20.0)
    assert difference.in_sd == pytest.approx(in_sd, rel=0.01)
    mean = (1000.0 / 900.0 + counted / 400.0) / (1 / 900.0 + 1 / 400.0)
    assert found.fish_count.value == pytest.approx(mean, rel=1e-3)
    assert found.fish_count.sd == pytest.approx(
        1 / math.sqrt(1 / 900 + 1 / 400), rel=0.02
    )


def test_what_comes_after_a_count_that_differs_hides_it_not() -> None:
    """Dead fish of the same unit, a sample, a count of another unit that agrees."""
    sorted_out = GradeGroup(to_unit_id=B.id, fish_count=100, fish_count_sd=1.0)
    staying = replace(sorted_out, to_unit_id=A.id, fish_count=900)
    found = known(
        stocked(fish_count_sd=5.0, mean_weight_g=100.0),
        entry(Graded, 1, groups=(staying, sorted_out)),
        entry(Counted, 2, fish_count=800, fish_count_sd=5.0),
        entry(Counted, 3, unit_id=B.id, fish_count=100, fish_count_sd=5.0),
        entry(Died, 4, fish_count=1),
        sampled(5, 140.0, 0.02),
        entry(Died, 6, fish_count=1),
        on=6,
    )
    codes = {problem.code for problem in found.problems}
    assert {"count-differs", "sample-off-track"} <= codes


# --- weights -------------------------------------------------------------------------


def test_count_kilograms_and_weight_are_one_figure() -> None:
    """1,000 fish give or take 2 %, 100 kg give or take 1 %, 110 g give or take 5 %."""
    found = known(
        stocked(
            fish_count_sd=20.0,
            bulk_weight_kg=100.0,
            bulk_weight_sd_kg=1.0,
            mean_weight_g=110.0,
            mean_weight_sd_g=5.5,
        )
    )

    def misses(x: np.ndarray) -> float:
        count, kg = x
        of = ((count - 1e3) / 20.0, kg - 100.0, (1e3 * kg / count - 110.0) / 5.5)
        return float(np.sum(np.square(of)))

    count, kg = minimize(misses, (1000.0, 100.0), method="Nelder-Mead").x
    assert found.mean_weight_g is not None
    assert found.biomass_kg is not None
    assert found.fish_count.value == pytest.approx(count, rel=1e-4)
    assert found.mean_weight_g.value == pytest.approx(1e3 * kg / count, rel=1e-4)
    assert found.biomass_kg.value == pytest.approx(kg, rel=1e-4)
    assert found.biomass_kg.sd == pytest.approx(1.0, rel=0.05)  # as sure as the scale


def test_half_of_the_fish_weighed_out_tell_of_those_that_stay() -> None:
    """100 g give or take 10 %; 500 of 1,000 go, 120 g each.

    How a few are chosen errs by 10 %, of half the fish by 5 %; the scale by 1 %. What
    all weigh is then known, and those left weigh what is left.
    """
    found = known(
        stocked(fish_count_sd=0.001, mean_weight_g=100.0, mean_weight_sd_g=10.0),
        entry(Harvested, 1, fish_count=500, weight_kg=60.0),
        on=1,
    )
    sd = math.hypot(0.05, 0.01)

    def misses(x: np.ndarray) -> float:
        return float(((x[0] - 100.0) / 10.0) ** 2 + (math.log(120.0 / x[0]) / sd) ** 2)

    (mean,) = minimize(misses, (110.0,), method="Nelder-Mead").x
    assert found.mean_weight_g is not None
    wanted = (1000.0 * mean - 500.0 * 120.0) / 500.0
    assert found.mean_weight_g.value == pytest.approx(wanted, rel=2e-3)


def test_a_unit_that_was_emptied_begins_anew() -> None:
    """Weight, spread and sources are those of the fish that came then."""
    new = stocked(3, fish_count=400, mean_weight_g=20.0, mean_weight_sd_g=1.0)
    found = known(
        stocked(mean_weight_g=100.0, mean_weight_sd_g=2.0),
        sampled(1, 100.0, 0.02, cv=0.2),
        entry(Harvested, 2, fish_count=1000),
        new,
        on=3,
    )
    assert found.mean_weight_g is not None
    assert found.mean_weight_g.value == pytest.approx(20.0)
    assert found.mean_weight_g.sd == pytest.approx(1.0, rel=0.02)
    assert found.cv is None
    assert found.weight_from.entry_ids == (new.id,)


def test_the_last_of_two_samples_is_weighed_with_the_first() -> None:
    """Both 2 %, of which the netting's 1 % and the water's 1 % are alike in both.

    So each has sqrt(4 - 2) % of its own, and their mean keeps 1 + 2 / 2 = 2 squared.
    """
    found = known(
        stocked(),
        sampled(0, 100.0, 0.02),
        sampled(0, 104.0, 0.02),
        netting_sd_fraction=0.01,
        drip_sd_fraction=0.01,
    ).mean_weight_g
    assert found is not None
    assert found.value == pytest.approx(math.sqrt(100.0 * 104.0), rel=1e-3)
    assert found.sd / found.value == pytest.approx(math.sqrt(3.0) / 100.0, rel=0.03)


def test_a_harvest_weighed_and_counted_tells_what_nets_choose() -> None:
    """100 g sampled, 4 % of error; a day later all 1,000 fish weigh 95 kg, 1 %.

    ln (100 / 95) = 0.0513 is netting and drip, of variance 0.03^2 + 0.01^2 = 0.001, the
    sample's own error, 0.0016 - 0.001 = 0.0006, and the scale's 0.0001. So 10 / 17 of
    it, 0.0302, is the first, of variance 0.001 x (1 - 10 / 17) = 0.000412, sd 0.0203.
    """
    harvest: Harvested = entry(Harvested, 1, fish_count=1000, weight_kg=95.0)
    entries = (stocked(fish_count=1000, fish_count_sd=0.0), sampled(0, 100.0, 0.04))
    about = (A, B), (ODD,)
    told = partial(samples_over_all, *about, cohort_id=ODD.id, on=day(1))
    found = told((*entries, harvest))
    assert found is not None
    assert math.log(found.value) == pytest.approx(0.0302, abs=0.001)
    assert found.sd == pytest.approx(0.0203 * math.exp(0.0302), rel=0.05)
    assert told(entries) is None
    assert told(entries[:1]) is None


def test_no_more_than_three_quarters_are_shared() -> None:
    """Netting of 10 % beside samples of 2 %: a quarter of 4 squared is each one's own.

    Of four samples the variance of the mean is 3 + 1 / 4.
    """
    samples = [sampled(0, 100.0, 0.02) for _ in range(4)]
    found = known(stocked(), *samples, netting_sd_fraction=0.10).mean_weight_g
    assert found is not None
    assert found.sd == pytest.approx(math.sqrt(3.25), rel=0.03)


# --- spread --------------------------------------------------------------------------


def seen(cv: float, fish: int = 32) -> float:
    """Return the error of ln CV of so many fish: the delta method."""
    return math.sqrt((1.0 + 2.0 * cv**2) / (2.0 * fish))


def joined(*figures: tuple[float, float]) -> tuple[float, float]:
    """Return mean and sd of figures joined by their precisions."""
    precision = sum(1.0 / sd**2 for _, sd in figures)
    mean = sum(value / sd**2 for value, sd in figures) / precision
    return mean, 1.0 / math.sqrt(precision)


def test_the_spread_strays_between_samples_and_after_the_last() -> None:
    """A Kalman filter of ln CV: 0.28 give or take 25 % before, then 10 % a month."""
    found = known(
        stocked(),
        sampled(0, 100.0, 0.02, cv=0.20),
        sampled(60, 100.0, 0.02, cv=0.30),
        on=90,
    ).cv
    first = joined((math.log(0.28), 0.25), (math.log(0.20), seen(0.20)))
    strayed = first[0], math.hypot(first[1], 0.1 * math.sqrt(2.0))
    last = joined(strayed, (math.log(0.30), seen(0.30)))
    assert found is not None
    assert math.log(found.value) == pytest.approx(last[0], abs=1e-4)
    sd = math.hypot(last[1], 0.1)
    assert math.log(found.high / found.value) == pytest.approx(Z * sd, rel=0.02)


def test_sorted_fish_spread_less_until_a_sample_says_more() -> None:
    """0.128 give or take 35 % of sorted fish, whatever was sampled before."""
    graded = entry(
        Graded,
        1,
        groups=(
            GradeGroup(to_unit_id=A.id, fish_count=600, fish_count_sd=1.0),
            GradeGroup(to_unit_id=B.id, fish_count=400, fish_count_sd=1.0),
        ),
    )
    before = (stocked(), sampled(0, 100.0, 0.02, cv=0.30), graded)
    assert known(*before, on=1).cv is None
    found = known(*before, sampled(1, 110.0, 0.02, cv=0.20), on=1).cv
    assert found is not None
    wanted = joined((math.log(0.128), 0.35), (math.log(0.20), seen(0.20)))
    assert math.log(found.value) == pytest.approx(wanted[0], abs=1e-4)
    assert math.log(found.high / found.value) == pytest.approx(Z * wanted[1], rel=0.02)


def test_growth_after_a_restocking_counts_no_sample_of_before() -> None:
    trout = cohort("trout", id=same(11))
    of = partial(entry_about, A, trout)
    entries = (
        of(Stocked, 0, fish_count=1000, mean_weight_g=100.0),
        of(Sample, 1, mean_weight_g=100.0, mean_weight_low_g=97.0,
           mean_weight_high_g=103.0),
        of(Harvested, 2, fish_count=1000),
        of(Stocked, 3, fish_count=400, mean_weight_g=20.0),
    )  # fmt: skip
    for number, samples in ((2, 1), (4, 0)):
        found = replay((A,), (trout,), entries[:number], on=day(3)).unit(A.id).cohorts
        assert found[0].growth is not None
        assert found[0].growth.samples_used == samples
