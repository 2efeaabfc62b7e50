"""How a cohort's time is cut and its growth strays, against sums by hand and scipy."""

import math
from datetime import timedelta
from typing import Final

import numpy as np
import pytest
from scipy.integrate import dblquad

from fishmeasure.book.climate import Climate, unit_temperature
from fishmeasure.book.entries import WaterReading
from fishmeasure.book.posterior.course import Course, Growing, _mean_share
from fishmeasure.book.posterior.unknowns import Unknowns
from fishmeasure.husbandry.growth import (
    DEVIATION_DEGREE_DAYS,
    DEVIATION_SPREAD,
    STANDING_SPREAD,
    STEP_SPREAD,
)
from fishmeasure.husbandry.temperature import ConstantTemperature
from fishmeasure.species import FarmedSpecies, farmed_species
from tests.book.build import START, YEAR_C, day, same, tank

A: Final = same(1)
FIRST: Final = START.toordinal()
TROUT: Final = farmed_species("rainbow-trout")


def course(days: int, *weighed: int, figures: FarmedSpecies | None = TROUT) -> Course:
    """Return the course of a cohort in water of 10 °C."""
    water = ConstantTemperature(temperature_deg_c=10.0, sd_deg_c=0.0)
    climate = Climate({A: water}, START, START + timedelta(days=days + 400))
    on = [FIRST + number for number in weighed]
    return Course(FIRST, FIRST + days, on, climate, figures)


def parts(of: Course, start: int, end: int) -> list[tuple[int, int, int]]:
    found = of.parts(FIRST + start, FIRST + end)
    return [(piece, a - FIRST, b - FIRST) for piece, a, b in found]


def test_time_is_cut_where_fish_are_weighed_and_every_three_weeks() -> None:
    """30 days are two pieces of 15; 2 days more are none; 70 are four of 17.5."""
    found = parts(course(100, 30, 32), 0, 100)
    assert found == [
        (0, 0, 15), (1, 15, 30), (2, 30, 47), (3, 47, 65), (4, 65, 82), (5, 82, 100),
    ]  # fmt: skip


def test_a_weighing_of_the_last_day_ends_a_short_piece() -> None:
    assert parts(course(33, 30, 33), 30, 33) == [(2, 30, 33)]
    assert parts(course(35, 30), 30, 35) == [(2, 30, 35)]
    # A weighing outside the time is none; 21 days are one piece, 22 are two.
    assert parts(course(21, -3, 0, 40), 0, 21) == [(0, 0, 21)]
    assert parts(course(22), 0, 22) == [(0, 0, 11), (1, 11, 22)]


def test_years_are_cut_less_finely() -> None:
    """2,000 days: pieces of 100 at most (a 20th), of 50 at least (a 40th)."""
    ends = [end for _, _, end in parts(course(2000, 1040, 1080, 1100), 0, 2000)]
    assert max(np.diff([0, *ends])) == 100
    assert 1040 in ends
    assert 1080 not in ends  # 40 days after the last
    assert 1100 in ends  # 60 days


def test_parts_begin_and_end_where_they_are_asked_to() -> None:
    of = course(100, 30)
    assert parts(of, 10, 40) == [(0, 10, 15), (1, 15, 30), (2, 30, 40)]
    assert parts(of, 20, 20) == []
    assert parts(of, 90, 120) == [(5, 90, 100), (5, 100, 120)]
    assert [of.piece(FIRST + n) for n in (0, 14, 15, 99, 100, 500)] == [
        0, 0, 1, 5, 5, 5,
    ]  # fmt: skip


def test_degree_days_are_days_times_degrees() -> None:
    """10 °C lie in the trout's feeding band and below its optimum."""
    of = course(100, 30)
    assert of.degree_days(A, FIRST + 10, FIRST + 40) == pytest.approx(300.0)
    assert of.of_piece(A, 1) == pytest.approx((150.0, 15))
    assert course(100, figures=None).degree_days(A, FIRST, FIRST + 40) == 0.0
    assert course(100, figures=None).published == 0.0


@pytest.mark.parametrize("degree_days", [150.0, 900.0, 4000.0])
def test_the_mean_of_a_deviation_is_that_of_the_process(degree_days: float) -> None:
    """The double integral of the correlation exp(-|s - t| / reach), by scipy."""
    reach = degree_days / DEVIATION_DEGREE_DAYS
    # Both halves of the square are alike.
    half, _ = dblquad(lambda s, t: math.exp(-(t - s)), 0.0, reach, 0.0, lambda t: t)
    wanted = math.sqrt(2.0 * half) / reach
    assert _mean_share(degree_days) == pytest.approx(wanted, rel=1e-6)


def test_the_mean_of_no_time_is_the_deviation_itself() -> None:
    assert _mean_share(0.0) == 1.0
    assert _mean_share(1e-4 * DEVIATION_DEGREE_DAYS) == pytest.approx(1.0, abs=1e-3)


def growing(of: Course) -> tuple[Growing, Unknowns]:
    """Return growth with each unknown at 1 in a column of its own, the first at 0."""
    unknown = Unknowns()
    grown = Growing(of, unknown, A)
    for piece in range(3):
        grown.deviation(piece)
        grown.grown(np.full(1, 4.0), A, (piece, FIRST, FIRST + 1))
    size = len(unknown)
    unknown.at(np.hstack([np.zeros((size, 1)), np.eye(size)]))
    return Growing(of, unknown, A), unknown


def test_deviations_stay_as_wide_and_forget_by_degree_days() -> None:
    """A stationary process: each has the same sd; correlations are exp(-apart / reach).

    The columns are the effects of independent unknowns, so their products sum to the
    covariance. Pieces of 15, 15 and 17 days at 10 °C: middles 150 and 160 apart.
    """
    grown, _ = growing(course(100, 30))
    effects = [grown.deviation(piece)[1:] for piece in range(3)]
    sd = DEVIATION_SPREAD * TROUT.growth.tgc_x1000.value
    covariance = np.array([[a @ b for a in effects] for b in effects]) / sd**2
    first, second = (math.exp(-d / DEVIATION_DEGREE_DAYS) for d in (150.0, 160.0))
    wanted = [
        [1, first, first * second],
        [first, 1, second],
        [first * second, second, 1],
    ]
    assert covariance == pytest.approx(np.array(wanted))


def test_the_root_grows_with_degree_days_and_errs_as_three_variances() -> None:
    """1.75 x 0.15 in 15 days of 10 °C, of the published coefficient of the TOML.

    Its error: the coefficient's own; the deviation's mean over the piece; the walk,
    (spread x TGC x 0.4)^2 a 400 degree-days; and what standing fish stray by, of the
    root's square by month.
    """
    grown, _ = growing(course(100, 30))
    root = np.full(grown.grown(np.full(1, 4.0), A, (0, FIRST, FIRST)).shape, 4.0)
    found = grown.grown(root, A, (0, FIRST, FIRST + 15))
    tgc = TROUT.growth.tgc_x1000
    assert tgc.value == 1.75
    assert found[0] == pytest.approx(4.0 + 1.75 * 0.15)
    variances = (found[1:] - found[0]) ** 2
    deviation = DEVIATION_SPREAD * 1.75 * _mean_share(150.0) * 0.15
    walk = (STEP_SPREAD * 1.75 * 0.4) ** 2 * 150.0 / 400.0
    standing = STANDING_SPREAD**2 * 4.0**2 * 15 / 30
    wanted = (1.75 * tgc.relative_sd * 0.15) ** 2 + deviation**2 + walk + standing
    assert variances.sum() == pytest.approx(wanted)
    # A third of the piece is a third of it all.
    third = grown.grown(root, A, (0, FIRST, FIRST + 5))
    assert third - 4.0 == pytest.approx((found - 4.0) / 3.0)


def test_fish_without_figures_do_not_grow() -> None:
    grown, _ = growing(course(100, figures=None))
    root = np.full(2, 4.0)
    assert grown.grown(root, A, (0, FIRST, FIRST + 15)) == pytest.approx(root)
    assert grown.deviation(1) == pytest.approx(0.0)


def test_no_figures_shrink_a_fish_to_less_than_a_fifth_of_its_root() -> None:
    grown, unknown = growing(course(100, 30))
    unknown.at(-1e3 * np.ones((len(unknown), 1)))
    found = grown.grown(np.full(1, 4.0), A, (0, FIRST, FIRST + 15))
    assert found == pytest.approx(0.2 * 4.0)


# --- the water ---------------------------------------------------------------------


def reading(
    number: int, temperature_deg_c: float | None, which: int = 0
) -> WaterReading:
    return WaterReading(
        id=same(100 + 10 * number + which),
        on=day(number),
        unit_id=A,
        temperature_deg_c=temperature_deg_c,
        do_mg_per_l=9.0,
    )


def test_readings_of_a_day_are_averaged_and_joined_by_lines() -> None:
    readings = (
        reading(0, 8.0),
        reading(0, 10.0, 1),
        reading(5, None),
        reading(20, 13.0),
    )
    found = unit_temperature(tank("A", monthly_temperature_deg_c=()), readings)
    told = [found.on(day(n)) for n in (0, 10, 20, 30)]
    assert told == pytest.approx([9.0, 11.0, 13.0, 13.0])


@pytest.mark.parametrize(("apart", "filled"), [(45, False), (46, True)])
def test_a_long_gap_has_the_table_of_months(apart: int, *, filled: bool) -> None:
    """From 1 March, 5 °C in both readings: a straight line, or the table in between.

    The table stands at every tenth day that is ten or more from the next reading.
    """
    readings = (reading(0, 1.0), reading(apart, 1.0))
    found = unit_temperature(tank("A", monthly_temperature_deg_c=YEAR_C), readings)
    table = unit_temperature(tank("A", monthly_temperature_deg_c=YEAR_C), ())
    told = [found.on(day(n)) for n in (10, 20, 30)]
    wanted = [table.on(day(n)) for n in (10, 20, 30)] if filled else [1.0] * 3
    assert told == pytest.approx(wanted)
    # Day 40 is less than ten days before the reading: on the line to it.
    before = wanted[-1] if filled else 1.0
    share = 10 / (apart - 30)
    assert found.on(day(40)) == pytest.approx(before + share * (1.0 - before))


def test_without_reading_or_table_it_is_ten_degrees_give_or_take_three() -> None:
    found = unit_temperature(tank("A", monthly_temperature_deg_c=()), ())
    assert found == ConstantTemperature(temperature_deg_c=10.0, sd_deg_c=3.0)
