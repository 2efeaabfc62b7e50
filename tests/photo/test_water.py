"""What is seen through water, against Fermat's principle and published figures."""

from dataclasses import replace

import cv2
import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.faint import with_faint_tails
from fishmeasure.photo.image import Photo
from fishmeasure.photo.length import measure_between, measure_length
from fishmeasure.photo.length.record import FishShape
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.outline import FishOutline, Segmentation
from fishmeasure.photo.water import Water, refractive_index
from fishmeasure.photo.wet import water_problem
from tests.photo.length.test_measure import seen_from

DEPTH_MM = 100.0
SHAPE = FishShape(
    fork_per_total=0.95,
    fork_per_total_relative_sd=0.01,
    depth_per_fork_length=0.25,
    depth_per_fork_length_sd=0.02,
)


@pytest.mark.parametrize(
    ("temperature_deg_c", "index"), [(10.0, 1.33369), (20.0, 1.33299), (30.0, 1.33192)]
)
def test_the_index_is_that_of_the_tables(
    temperature_deg_c: float, index: float
) -> None:
    """Tilton & Taylor 1938, J. Res. NBS 20:419, sodium light; from memory."""
    found = refractive_index(temperature_deg_c, 589.3)
    assert found == pytest.approx(index, abs=5e-5)


def test_a_ray_by_hand() -> None:
    """At 30 degrees in air: sin r = 0.5 / 1.333, r = 22.03 degrees.

    From 600 mm over the surface it lands 600 tan 30 + 100 tan 22.03 = 386.87 mm away on
    a bottom 100 mm deep; the apparent height is 600 + 100 / 1.333 = 675.02 mm.
    """
    water = replace(Water.of(DEPTH_MM), index=1.333)
    reach = water.reach_mm(np.array([np.tan(np.pi / 6)]), 675.02)
    assert reach[0] == pytest.approx(386.87, abs=0.02)


def test_light_takes_the_way_of_least_time() -> None:
    """Fermat's principle, minimised by scipy, for points at any height."""
    rng = np.random.default_rng(5)
    for _ in range(20):
        air_mm, depth_mm = rng.uniform(400, 900), rng.uniform(50, 150)
        reach_mm, height_mm = rng.uniform(20, 500), rng.uniform(0, depth_mm)
        water = Water.of(depth_mm)

        def time(
            crossing: float,
            air_mm: float = air_mm,
            below_mm: float = depth_mm - height_mm,
            reach_mm: float = reach_mm,
            index: float = water.index,
        ) -> float:
            above = np.hypot(air_mm, crossing)
            return float(above + index * np.hypot(below_mm, reach_mm - crossing))

        best = minimize_scalar(time, bounds=(0.0, reach_mm), options={"xatol": 1e-9})
        apparent_mm = air_mm + depth_mm / water.index
        tangent = water.tangents(np.array([reach_mm]), apparent_mm, height_mm)
        assert tangent[0] * air_mm == pytest.approx(float(best.x), abs=2e-3)
        back = water.reach_mm(tangent, apparent_mm, height_mm)
        assert back[0] == pytest.approx(reach_mm, abs=1e-6)


def tub(tilt_deg: float = 8.0, depth_mm: float = DEPTH_MM) -> PlaneScale:
    """Return a plane under water, seen from 600 mm of apparent height."""
    plane = seen_from(tilt_deg=tilt_deg, towards_deg=30.0)
    return replace(plane, water=Water.of(depth_mm))


def seen_by_fermat(plane: PlaneScale, points_mm: FloatArray) -> FloatArray:
    """Return the pixels of (n, 3) points X, Y, height, each ray's time minimised."""
    assert plane.water is not None
    eye = -plane.rotation.T @ plane.translation_mm
    depth_mm, index = plane.water.depth_mm, plane.water.index
    air_mm = -eye[2] - depth_mm / index
    dry = replace(plane, water=None)
    pixels = []
    for x, y, height_mm in points_mm:
        away = np.array([x, y]) - eye[:2]
        reach = float(np.hypot(*away))

        def time(
            crossing: float,
            reach: float = reach,
            below: float = depth_mm - height_mm,
        ) -> float:
            above = np.hypot(air_mm, crossing)
            return float(above + index * np.hypot(below, reach - crossing))

        best = minimize_scalar(time, bounds=(0.0, reach), options={"xatol": 1e-9})
        # Seen in the direction of the crossing: as a pinhole at the apparent height
        # sees the bottom's point that far out.
        seen = eye[:2] + away / reach * float(best.x) / air_mm * -eye[2]
        pixels.append(dry.to_photo_px(seen[None])[0])
    return np.array(pixels)


def test_photo_and_plane_are_joined_by_the_rays_themselves() -> None:
    """Both ways, for points at several heights, under a tilted camera."""
    plane = tub()
    rng = np.random.default_rng(6)
    points = np.column_stack([rng.uniform(-250, 250, (12, 2)), rng.uniform(0, 90, 12)])
    pixels = seen_by_fermat(plane, points)
    np.testing.assert_allclose(
        plane.to_photo_px(points[:, :2], points[:, 2]), pixels, atol=0.02
    )
    np.testing.assert_allclose(
        plane.to_plane_mm(pixels, points[:, 2]), points[:, :2], atol=0.01
    )


def upright(
    plane: PlaneScale, bend_deg: float = 0.0, clear_mm: float = 16.5
) -> FishOutline:
    """Return the outline of a fish of 250 mm total length, seen by its rays.

    Fork length 237.5, half depth 29.7 mm: its snout is 0.9 half depths over its belly,
    the tip of its tail 26.6 mm (half of 0.213 times the length) over its axis.
    """
    share = np.linspace(0.0, 1.0, 41)
    turn = np.radians(bend_deg) * (share - 0.5)
    step = 250.0 / 40
    xy = np.cumsum(np.column_stack([np.cos(turn), np.sin(turn)]), axis=0) * step
    xy -= xy.mean(axis=0)
    half = 0.5 * 0.25 * 237.5
    heights = clear_mm + np.interp(
        share, [0.0, 0.25, 0.5, 1.0], [0.9 * half, half, half, half + 26.6]
    )
    normal = np.column_stack([-np.sin(turn), np.cos(turn)])
    width = 14.0 * np.interp(share, [0, 0.1, 0.35, 0.85, 1.0], [0.15, 0.8, 1, 0.3, 0.1])
    sides = [xy + sign * width[:, None] * normal for sign in (1.0, -1.0)]
    ring = np.vstack([sides[0], sides[1][::-1]])
    levels = np.concatenate([heights, heights[::-1]])
    contour = seen_by_fermat(plane, np.column_stack([ring, levels]))
    axis = seen_by_fermat(plane, np.column_stack([xy, heights])[[0, -1]])
    return FishOutline(
        contour_px=contour,
        confidence=0.95,
        snout_px=axis[0],
        fork_px=axis[1],
        ends_se_mm=(1.0, 1.0),
        posture="upright",
        upright_share=0.99,
        water_share=0.9,
        flags=("under-water",),
    )


@pytest.mark.parametrize("bend_deg", [0.0, 40.0])
def test_an_upright_fish_is_measured_to_the_tip_of_its_tail(bend_deg: float) -> None:
    """The truth is the drawing's; its steps are chords, 0.1 % short of the arc."""
    plane = tub()
    length = measure_length(upright(plane, bend_deg), plane, SHAPE)
    assert length.total_length_mm == pytest.approx(250.0, rel=0.006)
    assert length.fork_length_mm == pytest.approx(0.95 * length.total_length_mm)
    assert length.posture == "upright"
    assert length.complete
    assert "under-water" not in length.flags
    assert length.squared_depth_mm3 is None


def test_measured_as_if_in_air_the_same_fish_is_too_long() -> None:
    """Issue J's simulation: several per cent through the plane of the markers."""
    plane = tub()
    outline = upright(plane)
    dry = measure_length(
        replace(outline, posture="side"), replace(plane, water=None), SHAPE
    )
    assert not dry.complete
    wet = measure_length(outline, plane, SHAPE)
    assert dry.fork_length_mm > 1.015 * wet.total_length_mm


def test_a_fish_higher_than_thought_is_within_the_stated_error() -> None:
    """A belly 30 mm over the bottom, 13.5 more than taken: about 0.1 % a millimetre."""
    plane = tub()
    length = measure_length(upright(plane, clear_mm=30.0), plane, SHAPE)
    off = length.total_length_mm / 250.0 - 1.0
    assert 0.008 < off < 0.022
    assert length.total_length_se_mm > 0.008 * 250.0


def test_a_known_depth_leaves_a_fish_less_room() -> None:
    """Water of 75 mm over a fish 59 mm deep: the belly is at most 11 mm up."""
    plane = replace(tub(), water=Water.of(75.0))
    usual = replace(Water.of(), depth_mm=75.0)
    known = measure_length(upright(plane), plane, SHAPE)
    guessed = measure_length(upright(plane), replace(plane, water=usual), SHAPE)
    assert known.total_length_se_mm < guessed.total_length_se_mm
    assert known.total_length_mm > guessed.total_length_mm


def test_two_points_under_water_are_snout_and_tail_tip() -> None:
    plane = tub()
    outline = upright(plane)
    assert outline.snout_px is not None
    assert outline.fork_px is not None
    between = measure_between(outline.snout_px, outline.fork_px, plane, SHAPE)
    assert between.posture == "upright"
    assert between.total_length_mm == pytest.approx(250.0, rel=0.006)


def fish_of(water_share: float, upright_share: float) -> FishOutline:
    return replace(
        upright(tub()),
        water_share=water_share,
        upright_share=upright_share,
        posture="upright" if upright_share > 0.5 else "side",
    )


@pytest.mark.parametrize(
    ("water_share", "upright_share", "scatter_mm", "code"),
    [
        (0.9, 0.99, 0.5, "in-water"),
        (0.3, 0.99, 0.02, "in-water"),
        (0.15, 0.001, 0.02, None),
        (0.02, 0.9, 0.02, None),  # on its belly on a board
        (0.02, 0.001, 0.4, None),  # a curled sheet
    ],
)
def test_water_that_nobody_spoke_of_is_seen(
    water_share: float, upright_share: float, scatter_mm: float, code: str | None
) -> None:
    plane = replace(seen_from(), rms_residual_mm=scatter_mm)
    found = Segmentation(outlines=(fish_of(water_share, upright_share),) * 3)
    problem = water_problem(found, plane)
    assert (problem and problem.code) == code
    if problem is not None:
        assert problem.fatal
        assert "--water" in problem.message or "tub" in problem.message


def test_water_that_is_not_there_is_doubted() -> None:
    still = replace(tub(), rms_residual_mm=0.02)
    dry = Segmentation(outlines=(fish_of(0.01, 0.001),) * 3)
    problem = water_problem(dry, still)
    assert problem is not None
    assert problem.code == "no-water"
    assert not problem.fatal
    wet = Segmentation(outlines=(fish_of(0.8, 0.99),) * 3)
    assert water_problem(wet, still) is None


@pytest.mark.parametrize(("bottom", "faint"), [(200, 0), (95, 1), (30, 0)])
def test_a_tail_of_the_bottom_s_tone_makes_its_fish_doubtful(
    bottom: int, faint: int
) -> None:
    """A fish of the tone 90 on a bottom of 95 ends where nobody sees."""
    outline = upright(tub(0.0))
    rgb = np.full((3000, 4000, 3), bottom, np.uint8)
    cv2.fillPoly(rgb, [np.round(outline.contour_px).astype(np.int32)], (90, 90, 90))
    photo = Photo(name="tub", rgb=rgb, width_px=4000, height_px=3000)
    found, number = with_faint_tails(photo, Segmentation(outlines=(outline,)))
    assert number == faint
    assert ("ends-doubtful" in found.outlines[0].flags) is bool(faint)
