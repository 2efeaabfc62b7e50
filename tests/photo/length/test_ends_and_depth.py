"""Ends and depth of outlines against shapes that are known exactly."""

import math
from dataclasses import replace
from typing import Final

import numpy as np
import pytest
from scipy.spatial import ConvexHull

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.length.depth import side_profile, sides, squared_depth
from fishmeasure.photo.length.ends import Ends, _flare, _fork, _rear_edge, _upper_hull
from fishmeasure.photo.length.measure import (
    _shrink,
    _tail_sd,
)
from fishmeasure.photo.length.midline import trace_midline
from fishmeasure.photo.length.parallax import Camera, Pose
from fishmeasure.photo.length.seen import area_of
from tests.photo.length.test_midline import spindle

H: Final = 600.0
"""Height of the camera, mm, over the middle of what is measured."""
OVER: Final = Camera(foot_mm=np.zeros(2), height_mm=H)
LEVEL: Final = Pose(half_thickness_mm=15.0, snout_share=1.0, fork_share=1.0)
"""A fish all of whose midline lies 15 mm up."""
FLAT: Final = replace(LEVEL, half_thickness_mm=0.0)


# --- what an outline shows -----------------------------------------------------------


def test_the_area_of_a_triangle_and_what_height_takes_off() -> None:
    triangle = np.array([[10.0, 5.0], [40.0, 5.0], [10.0, 25.0]])
    assert area_of(triangle) == pytest.approx(300.0)
    assert area_of(triangle[::-1]) == pytest.approx(300.0)
    # Over a whole outline 0.85 of half the thickness.
    assert _shrink(OVER, LEVEL) == pytest.approx(1.0 - 0.85 * 15.0 / 600.0)


def test_the_hull_is_qhulls() -> None:
    """Upper convex hulls of points, by scipy's ConvexHull, kept where it turns up."""
    rng = np.random.default_rng(4)
    x = np.sort(rng.uniform(0.0, 10.0, 60))
    y = rng.normal(0.0, 1.0, 60)
    points = np.column_stack([x, y])
    around = set(ConvexHull(points).vertices.tolist())
    line = y[0] + (x - x[0]) / (x[-1] - x[0]) * (y[-1] - y[0])
    wanted = sorted(i for i in around if y[i] >= line[i] or i in {0, 59})
    assert _upper_hull(x, y) == wanted


def test_the_rear_edge_has_the_rearmost_point_of_each_strip() -> None:
    """61 strips a millimetre wide, from 0 to 60: two points in each."""
    across = np.repeat(np.arange(61.0), 2)
    along = np.where(np.arange(122) % 2 == 0, 10.0, 20.0)
    found = _rear_edge(along, across)
    assert sorted(found.tolist()) == list(range(1, 122, 2))
    assert np.all(np.diff(across[found]) > 0.0)


def forked(notch_mm: float) -> tuple[FloatArray, FloatArray]:
    """Return a fin 60 mm wide whose rear edge is notched in its middle at 190 mm."""
    across = np.linspace(-30.0, 30.0, 121)
    rear = 190.0 + notch_mm * np.abs(across) / 30.0
    head = np.array([[0.0, 0.0], [60.0, -25.0], [60.0, 25.0], [150.0, 8.0]])
    along = np.concatenate([head[:, 0], rear])
    return along, np.concatenate([head[:, 1], across])


@pytest.mark.parametrize("notch_mm", [1.5, 10.0])
def test_the_fork_is_the_deepest_place_between_the_lobes(notch_mm: float) -> None:
    """A notch counts from 0.6 % of the length, here 1.2 mm."""
    along, across = forked(notch_mm)
    fork, tips = _fork(along, across)
    assert (along[fork], across[fork]) == pytest.approx((190.0, 0.0), abs=0.6)
    assert sorted(across[list(tips)]) == pytest.approx([-30.0, 30.0], abs=0.6)
    assert along[list(tips)] == pytest.approx(190.0 + notch_mm, abs=0.3)


@pytest.mark.parametrize("aside_mm", [0.0, 20.0])
def test_without_a_notch_the_fork_is_the_middle_of_the_rear_edge(
    aside_mm: float,
) -> None:
    """An edge slanting by 1.2 mm has no notch: its middle, and its farthest corner."""
    along, across = forked(0.0)
    along[4:] += 0.02 * (across[4:] + 30.0)
    fork, (longest, middle) = _fork(along, across + aside_mm)
    assert across[fork] == pytest.approx(0.0, abs=0.6)
    assert fork == middle
    assert across[longest] == pytest.approx(30.0, abs=0.6)


def test_the_flare_is_how_much_the_end_widens_again() -> None:
    """From the end: 30 wide, 10 at a tenth, 40 at four tenths; straight in between.

    The fin begins where it is 1.15 times as wide as at its narrowest, 11.5: going up
    by 200 a share from 10, at 0.1 - 0.0075.
    """
    from_end = np.linspace(0.0, 1.0, 2001)
    width = np.interp(from_end, [0.0, 0.1, 0.4, 1.0], [30.0, 10.0, 40.0, 5.0])
    ratio, begins = _flare(from_end, width)
    assert ratio == pytest.approx(3.0)
    assert begins == pytest.approx(0.0925, abs=1e-3)
    order = np.random.default_rng(1).permutation(2001)
    assert _flare(from_end[order], width[order]) == pytest.approx((ratio, begins))
    # Nothing that widens again: 1, and it begins where it is narrowest.
    ratio, begins = _flare(from_end, 10.0 + from_end)
    assert ratio == pytest.approx(1.0)


def test_a_doubtful_tail_errs_by_what_the_lobes_reach_beyond_the_fork() -> None:
    """Odds of 3 to 1: sqrt(0.25 x 0.75) of (210 - 200) / (200 - 10)."""
    ends = replace_ends(tail_odds_ln=math.log(3.0))
    wanted = math.sqrt(0.1875) * 10.0 / 190.0
    assert _tail_sd(ends) == pytest.approx(wanted)


def replace_ends(**changes: float) -> Ends:
    figures = {
        "snout_along": 10.0,
        "base_along": 180.0,
        "fork_along": 200.0,
        "tip_along": 210.0,
        "depth": 40.0,
        "depth_along": 80.0,
        "tail_odds_ln": 5.0,
        "flare": 2.0,
        "peduncle": 12.0,
    }
    return Ends(snout=np.zeros(2), fork=np.ones(2), **(figures | changes))


# --- squared depth -------------------------------------------------------------------


def test_a_smooth_side_is_kept_and_a_fin_on_it_cut_off() -> None:
    """A quadratic is a polynomial of degree 4; a spike on it is no part of that."""
    at = np.linspace(-1.0, 1.0, 200)
    smooth = 20.0 - 6.0 * at**2 + 2.0 * at
    assert side_profile(at, smooth, 0.5, 4) == pytest.approx(smooth, abs=1e-6)
    fin = smooth + np.where(np.abs(at) < 0.05, 8.0, 0.0)
    assert side_profile(at, fin, 0.5, 4) == pytest.approx(smooth, abs=0.1)
    # What is cut out of it counts in full: the profile is below.
    bite = smooth - np.where(np.abs(at) < 0.2, 8.0, 0.0)
    plain = np.polynomial.Polynomial.fit(at, bite, 4)(at)
    assert side_profile(at, bite, 8e3, 4) == pytest.approx(plain, abs=1e-3)


def test_the_sides_of_a_diamond() -> None:
    """Corners at 0, 50 and 100 along, 20 to one side and 10 to the other."""
    along = np.array([0.0, 50.0, 100.0, 50.0])
    across = np.array([0.0, 20.0, 0.0, -10.0])
    low, high = sides(along, across, np.array([-5.0, 10.0, 50.0, 75.0, 105.0]))
    assert high == pytest.approx([0.0, 4.0, 20.0, 10.0, 0.0])
    assert low == pytest.approx([0.0, -2.0, -10.0, -5.0, 0.0])
    # A side along a station is no crossing: the box is met once on either side.
    box = np.array([0.0, 0.0, 30.0, 30.0]), np.array([-4.0, 6.0, 6.0, -4.0])
    low, high = sides(*box, np.array([0.0, 15.0]))
    assert (low[1], high[1]) == (-4.0, 6.0)


LENS_V: Final = (0.24 * 200.0) ** 2 * 200.0 / 2.0
"""Of the spindle: depth 48 cos(pi s), squared and summed over its 200 mm."""


def lens_v(camera: Camera, pose: Pose, thickness: float = 0.0) -> float:
    midline = trace_midline(spindle(0.0))
    low, high = midline.contour_along.min(), midline.contour_along.max()
    found = squared_depth(
        spindle(0.0), midline, (float(low), float(high)), camera, pose, thickness
    )
    assert found is not None
    return found


def test_squared_depth_of_a_lens() -> None:
    assert lens_v(OVER, FLAT) == pytest.approx(LENS_V, rel=0.01)


def test_squared_depth_is_a_volume_in_parallax() -> None:
    """15 mm up all is smaller by 585 / 600, and V by its third power."""
    wanted = LENS_V * (585.0 / 600.0) ** 3
    assert lens_v(OVER, LEVEL) == pytest.approx(wanted, rel=0.01)
    ratio = lens_v(OVER, LEVEL) / lens_v(OVER, FLAT)
    assert ratio == pytest.approx((585.0 / 600.0) ** 3, rel=1e-6)


def test_a_slant_across_shows_a_thick_body_wider() -> None:
    """From 600 mm aside at 600 mm up the slant is 1: by 1 + 0.5^2 in the square."""
    aside = Camera(foot_mm=np.array([0.0, 600.0]), height_mm=H)
    ratio = lens_v(aside, FLAT, 0.5) / lens_v(aside, FLAT)
    assert ratio == pytest.approx(1.0 / 1.25, rel=0.01)
    # Along the fish it does not.
    ahead = Camera(foot_mm=np.array([600.0, 0.0]), height_mm=H)
    assert lens_v(ahead, FLAT, 0.5) == pytest.approx(lens_v(ahead, FLAT), rel=1e-4)


def test_a_body_that_ends_too_early_has_none() -> None:
    """Seen to 55 % of the fork length it is cut off; to 65 % it is not."""
    whole = trace_midline(spindle(0.0))
    low = float(whole.contour_along.min())
    if whole.points[0, 0] > whole.points[-1, 0]:
        whole = whole.reversed()
        low = float(whole.contour_along.min())
    for reach, seen in ((0.55, False), (0.65, True)):
        part = spindle(0.0)
        part = part[part[:, 0] < -100.0 + reach * 200.0]
        found = squared_depth(part, whole, (low, low + 200.0), OVER, FLAT, 0.0)
        assert (found is not None) == seen
