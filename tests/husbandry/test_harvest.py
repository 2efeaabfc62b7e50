"""Harvest: truncated lognormal against sampling, dates, conservation."""

import math
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from fishmeasure.base.errors import StockRangeError
from fishmeasure.husbandry import cautions
from fishmeasure.husbandry.growth import WeightSample, fit_growth
from fishmeasure.husbandry.harvest import (
    WeightSpread,
    count_above,
    dates_at_size,
    harvest_plan,
)
from fishmeasure.husbandry.projection import GrowthProjection, project_growth
from fishmeasure.husbandry.propagation import exact, lognormal
from fishmeasure.husbandry.temperature import ConstantTemperature

START = date(2026, 5, 1)
WATER = ConstantTemperature(temperature_deg_c=12.0)


def projection_of(
    weight_g: float = 200.0, relative_sd: float = 0.05, days: int = 200
) -> GrowthProjection:
    fit = fit_growth(
        samples=(
            WeightSample(day=START, mean_weight_g=lognormal(weight_g, relative_sd)),
        ),
        temperature=WATER,
        species_key="rainbow-trout",
    )
    return project_growth(fit=fit, temperature=WATER, days=days)


# --- the spread -----------------------------------------------------------------


@pytest.mark.parametrize("cv", [0.13, 0.257, 0.43])
def test_lognormal_moments_agree_with_scipy(cv: float) -> None:
    """Ranks, shares and partial means are SciPy's lognormal's."""
    spread = WeightSpread(mean_g=250.0, cv=cv)
    scale = 250.0 * math.exp(-0.5 * spread.sigma**2)
    reference = stats.lognorm(s=spread.sigma, scale=scale)
    assert reference.mean() == pytest.approx(250.0)
    assert reference.std() / reference.mean() == pytest.approx(cv)
    assert spread.weight_at_rank_g(0.9) == pytest.approx(reference.ppf(0.9))
    assert spread.fraction_above(300.0) == pytest.approx(reference.sf(300.0))
    low, high = reference.ppf(0.6), reference.ppf(0.9)
    partial = reference.expect(lambda w: w, lb=low, ub=high) / 0.3
    square = reference.expect(lambda w: w**2, lb=low, ub=high) / 0.3
    assert spread.mean_between_ranks_g(0.6, 0.9) == pytest.approx(partial, rel=1e-6)
    assert spread.cv_between_ranks(0.6, 0.9) == pytest.approx(
        math.sqrt(square - partial**2) / partial, rel=1e-4
    )


def test_fish_all_alike_have_one_weight() -> None:
    """A CV of nothing is one weight, above or not."""
    alike = WeightSpread(mean_g=250.0, cv=0.0)
    assert alike.weight_at_rank_g(0.1) == 250.0
    assert alike.fraction_above(249.0) == 1.0
    assert alike.fraction_above(251.0) == 0.0


# --- dates ----------------------------------------------------------------------


def test_dates_are_those_of_their_ranks() -> None:
    """On the day for half, half the fish are at the size; likewise 5 and 95 %."""
    projection = projection_of()
    dates = dates_at_size(projection=projection, cv=exact(0.25), size_g=350.0)
    for found, share in (
        (dates.first, 0.05),
        (dates.half, 0.5),
        (dates.nearly_all, 0.95),
    ):
        assert found.day is not None
        above = count_above(
            projection=projection,
            fish_count=exact(1000.0),
            cv=exact(0.25),
            size_g=350.0,
            day=found.day,
        )
        assert above.value / 1000.0 == pytest.approx(share, abs=0.02)
        assert found.earliest is not None
        assert found.latest is None or found.earliest < found.day < found.latest
    assert dates.first.day < dates.half.day < dates.nearly_all.day  # type: ignore[operator]


def test_interval_of_a_date_is_that_of_sampling() -> None:
    """5 and 95 % of 4,000 equally likely cohorts frame the date for half the fish."""
    projection = projection_of(relative_sd=0.08)
    dates = dates_at_size(projection=projection, cv=exact(0.25), size_g=300.0)
    likely = stats.norm.ppf((np.arange(4000) + 0.5) / 4000)[:, None]
    roots = projection.root_g + projection.root_sd_g * likely
    median = roots**3 * math.exp(-0.5 * math.log1p(0.25**2))
    reached = median >= 300.0
    days = np.where(reached.any(axis=1), np.argmax(reached, axis=1), 9999)
    early, late = np.quantile(days, [0.05, 0.95])
    assert dates.half.earliest is not None
    assert dates.half.latest is not None
    assert (dates.half.earliest - START).days == pytest.approx(early, abs=1.5)
    assert (dates.half.latest - START).days == pytest.approx(late, abs=1.5)


def test_a_size_beyond_the_projection_has_no_date() -> None:
    """What is not foretold is left open, not guessed."""
    dates = dates_at_size(
        projection=projection_of(days=10), cv=lognormal(0.25, 0.1), size_g=4000.0
    )
    assert dates.half.day is None
    assert dates.nearly_all.latest is None


@given(cv=st.floats(0.02, 0.6), size=st.floats(210.0, 500.0))
def test_the_first_come_before_the_last(cv: float, size: float) -> None:
    """Order of dates; a larger size comes later."""
    projection = projection_of()
    here = dates_at_size(projection=projection, cv=exact(cv), size_g=size)
    later = dates_at_size(projection=projection, cv=exact(cv), size_g=size * 1.1)
    end = date.max
    assert (here.first.day or end) <= (here.half.day or end)
    assert (here.half.day or end) <= (here.nearly_all.day or end)
    assert (here.half.day or end) <= (later.half.day or end)


def test_interval_of_fish_above_is_that_of_a_hand_calculation() -> None:
    """125 g, root 5 +- 0.1, CV 0.3, above 150 g.

    sigma = sqrt(ln 1.09) = 0.29356, half its square 0.04309. Low end: root 5 - 1.6449
    x 0.1 = 4.83551, 113.07 g, (ln(113.07 / 150) - 0.04309) / 0.29356 = -1.1096, share
    0.1336. High end: 137.74 g, -0.4373, 0.3310. Middle: (ln(125 / 150) - 0.04309) /
    0.29356 = -0.7679, 0.2213.
    """
    projection = GrowthProjection(
        species_key="rainbow-trout",
        start=START,
        root_g=np.array([5.0]),
        root_sd_g=np.array([0.1]),
        level=0.9,
    )
    found = count_above(
        projection=projection,
        fish_count=exact(1000.0),
        cv=exact(0.3),
        size_g=150.0,
        day=START,
    )
    assert found.value == pytest.approx(221.3, abs=0.5)
    assert found.low == pytest.approx(133.6, abs=2.0)
    assert found.high == pytest.approx(331.0, abs=2.0)


def test_fasting_before_harvest_is_at_most_54_degree_days() -> None:
    """4 days at 13 °C are 52 degree-days, 6 at 9 °C are 54."""
    assert "54 degree-days" in str(cautions.FASTING)
    assert cautions.FASTING in cautions.HARVEST
    for days, temperature_deg_c in ((4, 13), (6, 9)):
        assert f"{days}" in str(cautions.FASTING)
        assert f"{temperature_deg_c} °C" in str(cautions.FASTING)
        assert days * temperature_deg_c <= 54


def test_count_above_is_between_none_and_all() -> None:
    """The interval keeps to the fish there are, even for a very unsure weight."""
    sure = count_above(
        projection=projection_of(),
        fish_count=lognormal(500.0, 0.02),
        cv=lognormal(0.25, 0.1),
        size_g=150.0,
        day=START,
    )
    assert 0.0 <= sure.low < sure.value < sure.high <= 530.0
    unsure = count_above(
        projection=projection_of(relative_sd=3.0),
        fish_count=exact(500.0),
        cv=exact(0.25),
        size_g=250.0,
        day=START,
    )
    assert unsure.low == 0.0
    assert unsure.high == 500.0


# --- taking fish out ------------------------------------------------------------


def test_taking_the_largest_agrees_with_sorted_fish() -> None:
    """Of 100,000 drawn fish, the 30 largest % and the rest weigh what is foretold."""
    plan = harvest_plan(
        projection=projection_of(relative_sd=0.0001),
        fish_count=exact(1000.0),
        cv=exact(0.3),
        takes=((START, 300),),
    )
    (harvest,) = plan.harvests
    rng = np.random.default_rng(11)
    spread = WeightSpread(mean_g=200.0, cv=0.3)
    weights = np.sort(
        200.0
        * np.exp(-0.5 * spread.sigma**2 + spread.sigma * rng.standard_normal(100_000))
    )
    taken, left = weights[70_000:], weights[:70_000]
    assert harvest.taken_mean_g == pytest.approx(taken.mean(), rel=0.01)
    assert harvest.smallest_taken_g == pytest.approx(weights[70_000], rel=0.01)
    assert harvest.left_mean_g == pytest.approx(left.mean(), rel=0.01)
    assert harvest.left_cv == pytest.approx(left.std() / left.mean(), rel=0.02)


@given(
    first=st.integers(0, 120),
    second=st.integers(0, 120),
    cv=st.floats(0.05, 0.6),
)
def test_fish_and_weight_are_conserved(first: int, second: int, cv: float) -> None:
    """On one day, taken and left are the whole; no fish is lost or made."""
    plan = harvest_plan(
        projection=projection_of(),
        fish_count=exact(200.0),
        cv=exact(cv),
        takes=((START, first), (START, second)),
    )
    taken = sum(h.taken_count for h in plan.harvests)
    assert taken + plan.shortfall_count == first + second
    if plan.harvests:
        last = plan.harvests[-1]
        assert taken + last.left_count.value == pytest.approx(200.0)
        kilograms = sum(h.taken_kg.value for h in plan.harvests)
        assert kilograms + last.left_kg.value == pytest.approx(40.0, rel=1e-6)


def test_an_unsure_spread_widens_the_largest_fish() -> None:
    """The weight of the largest tenth hangs on the CV, that of all fish does not."""

    def error(cv_error: float, number: int) -> float:
        plan = harvest_plan(
            projection=projection_of(),
            fish_count=exact(200.0),
            cv=lognormal(0.3, cv_error),
            takes=((START, number),),
        )
        taken = plan.harvests[0].taken_kg
        return taken.sd / taken.value

    assert error(0.3, 20) > 1.5 * error(0.0, 20)
    assert error(0.3, 200) == pytest.approx(error(0.0, 200))


def test_impossible_harvests_are_refused() -> None:
    """Negative numbers, no fish, a spread beyond sense, days out of reach."""
    projection = projection_of()
    for count, cv, takes in (
        (exact(100.0), exact(0.25), ((START, -1),)),
        (exact(0.0), exact(0.25), ((START, 1),)),
        (exact(100.0), exact(9.0), ((START, 1),)),
        (exact(100.0), exact(0.25), ((START - timedelta(days=1), 1),)),
    ):
        with pytest.raises(StockRangeError):
            harvest_plan(projection=projection, fish_count=count, cv=cv, takes=takes)
    with pytest.raises(StockRangeError):
        dates_at_size(projection=projection, cv=exact(0.2), size_g=0.0)


# --- errors by hand -------------------------------------------------------------


def by_hand(root_g: np.ndarray, root_sd_g: float) -> GrowthProjection:
    return GrowthProjection(
        species_key="rainbow-trout",
        start=START,
        root_g=root_g,
        root_sd_g=np.full(root_g.shape, root_sd_g),
        level=0.9,
    )


def test_date_carries_the_error_of_the_spread_as_by_hand() -> None:
    """The first 5 % at 200 g, CV 0.25 +- 0.05, root 4.5 + 0.01 a day without error.

    ln(rank 95 % / mean) = 1.6449 sigma - sigma^2 / 2: 0.37469 at CV 0.25 (sigma
    0.24622), 0.43978 at 0.30, 0.30614 at 0.20, so its sd is 0.06682. Target root
    (200 / e^0.37469)^(1/3) = 5.1614: day 67. Reach 1.6449 x 5.1614 x 0.06682 / 3 =
    0.18910: from 4.9723, day 48, to 5.3505, day 86.
    """
    dates = dates_at_size(
        projection=by_hand(4.5 + 0.01 * np.arange(200), 0.0),
        cv=lognormal(0.25, 0.2),
        size_g=200.0,
    )
    assert dates.first.day == START + timedelta(days=67)
    assert dates.first.earliest == START + timedelta(days=48)
    assert dates.first.latest == START + timedelta(days=86)


def test_harvest_carries_the_error_of_the_mean_as_by_hand() -> None:
    """Root 5 +- 0.1 is a mean of 125 g +- 3 x 0.1 / 5 = 6 %; the CV is exact."""
    plan = harvest_plan(
        projection=by_hand(np.array([5.0]), 0.1),
        fish_count=exact(1000.0),
        cv=exact(0.3),
        takes=((START, 100),),
    )
    assert plan.taken_kg.sd / plan.taken_kg.value == pytest.approx(0.06, abs=1e-4)
