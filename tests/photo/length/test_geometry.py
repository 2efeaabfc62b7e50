"""Lengths and their errors against geometry that is exact, worked out beside each."""

import math
from dataclasses import replace
from typing import Final

import numpy as np
import pytest

from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.photo.length import FishLength, FishShape, measure_between
from fishmeasure.photo.length.budget import (
    Course,
    error_sources,
    squared_depth_sources,
    total_relative_sd,
)
from fishmeasure.photo.length.checks import place_flags
from fishmeasure.photo.length.measure import (
    _pose,
    bend_share,
)
from fishmeasure.photo.length.midline import Midline, trace_midline
from fishmeasure.photo.length.parallax import Camera, Pose, true_depth_mm
from sample_images.synth.fish import DrawnFish
from tests.photo.length.test_measure import SHAPE, measured, seen_from
from tests.photo.length.test_midline import spindle

H: Final = 600.0
"""Height of the camera, mm, over the middle of what is measured."""
OVER: Final = Camera(foot_mm=np.zeros(2), height_mm=H)
LEVEL: Final = Pose(half_thickness_mm=15.0, snout_share=1.0, fork_share=1.0)
"""A fish all of whose midline lies 15 mm up."""
FLAT: Final = replace(LEVEL, half_thickness_mm=0.0)


def straight(length_mm: float = 250.0, along_mm: float = 0.0) -> Course:
    at = np.linspace(-0.5, 0.5, 48) * length_mm + along_mm
    return Course(points_mm=np.column_stack([at, np.zeros(48)]))


# --- the camera and how a fish lies ---------------------------------------------------


def test_the_camera_is_where_its_picture_was_taken_from() -> None:
    """600 mm along a ray tilted by 25 degrees: 254 mm aside of the middle, 544 up."""
    camera = Camera.of(seen_from(H, tilt_deg=25.0, towards_deg=40.0))
    aside = float(np.linalg.norm(camera.foot_mm))
    assert aside == pytest.approx(H * math.sin(math.radians(25.0)))
    assert camera.height_mm == pytest.approx(H * math.cos(math.radians(25.0)))


def test_what_is_up_is_nearer_to_the_foot_by_similar_triangles() -> None:
    """60 mm up of 600 a point is a tenth nearer to the foot than it looks."""
    camera = Camera(foot_mm=np.array([100.0, -50.0]), height_mm=H)
    found = camera.lift(np.array([[300.0, 50.0], [100.0, 0.0]]), np.array([60.0, 0.0]))
    assert found == pytest.approx(np.array([[280.0, 40.0], [100.0, 0.0]]))
    # Seen from 300 mm aside along a line, the view slants by 300 / 600 there.
    assert camera.slope(np.array([-200.0, 0.0]), np.array([1.0, 0.0])) == pytest.approx(
        0.5
    )


def test_a_fish_hangs_down_from_its_thickest_part() -> None:
    """15 mm up from a quarter to a half; 0.6 of it at the snout, 0.2 at the fork."""
    pose = Pose(half_thickness_mm=15.0, snout_share=0.6, fork_share=0.2)
    share = np.array([0.0, 0.125, 0.25, 0.5, 0.75, 1.0])
    wanted = [9.0, 12.0, 15.0, 15.0, 9.0, 3.0]
    assert pose.heights_mm(share) == pytest.approx(wanted)


def test_a_stiffer_fish_lies_higher_but_never_under_the_board() -> None:
    pose = Pose(
        half_thickness_mm=15.0,
        snout_share=0.6,
        fork_share=0.2,
        snout_share_sd=0.1,
        fork_share_sd=0.15,
    )
    higher, lower = pose.stiffer(1.0), pose.stiffer(-2.0)
    assert (higher.snout_share, higher.fork_share) == pytest.approx((0.7, 0.35))
    assert (lower.snout_share, lower.fork_share) == pytest.approx((0.4, 0.0))
    assert pose.stiffer(-7.0).snout_share == 0.0


def test_depth_of_an_ellipse_from_a_slant() -> None:
    """A section 60 wide and 30 high, 15 mm up, from 600 mm and a slant of 0.5.

    The silhouette is 60 sqrt(1 + 0.25 x 0.25), and looks larger by 600 / 585.
    """
    seen = 60.0 * math.sqrt(1.0 + (0.5 * 0.5) ** 2) * 600.0 / 585.0
    assert true_depth_mm(seen, 0.5, 0.5, 600.0) == pytest.approx(60.0)


# --- a length and its errors ---------------------------------------------------------


@pytest.mark.parametrize("beside_mm", [-500.0, -200.0, 0.0, 300.0, 600.0])
def test_a_round_snout_seems_to_reach_beyond_its_tip(beside_mm: float) -> None:
    """A ball of 8 mm, its middle 10 mm up, seen from 600 mm over and beside it.

    In the upright plane through both, the ray that grazes it has the slant of its
    middle and asin(8 / distance) more. It meets the height of the middle at 590 mm
    times its tangent, which without the ball's roundness would be the tip.
    """
    slant = math.atan2(beside_mm, 590.0)
    grazing = slant + math.asin(8.0 / math.hypot(beside_mm, 590.0))
    seen_mm = 590.0 * math.tan(grazing) - (beside_mm + 8.0)
    tip = np.array([beside_mm + 8.0, 0.0])
    told_mm = OVER.beyond_tip_mm(tip, np.array([1.0, 0.0]), 8.0)
    assert told_mm == pytest.approx(seen_mm, abs=0.15)


def test_what_is_seen_round_a_snout_is_no_length() -> None:
    """From 600 mm over the tail, 250 mm behind a snout of 0.4 x 15 = 6 mm.

    The slant is 250 / 600, so 6 (sqrt(1 + 0.174) - 1) = 0.50 mm too many. A radius of
    0.2 x 15 = 3 mm more or less is half as much again.
    """
    flat = replace(straight(along_mm=-125.0), bend_share=0.0)
    point = flat.length_mm(OVER, LEVEL)
    pose = replace(LEVEL, snout_radius_share=0.4, snout_radius_share_sd=0.2)
    assert point - flat.length_mm(OVER, pose) == pytest.approx(0.50, abs=0.01)
    sources = error_sources(flat, OVER, pose, seen_from(H))
    (found,) = (one for one in sources if one.name == "how round the snout is")
    assert found.relative_sd == pytest.approx(0.25 / point, rel=0.05)
    assert found.scope == "species"


def test_a_level_fish_is_as_long_as_similar_triangles_say() -> None:
    """250 mm on the board are 250 x 585 / 600; a bend counts by its share of 1."""
    assert straight().length_mm(OVER, LEVEL) == pytest.approx(250.0 * 585.0 / 600.0)
    angle = np.linspace(-0.5, 0.5, 400)
    arc = np.column_stack([200.0 * np.sin(angle), 200.0 * np.cos(angle)])
    chord_mm, arc_mm = 400.0 * math.sin(0.5), 200.0
    bent = Course(points_mm=arc, bend_share=0.25)
    wanted = chord_mm + 0.25 * (arc_mm - chord_mm)
    assert bent.length_mm(OVER, FLAT) == pytest.approx(wanted, rel=1e-5)
    excess = arc_mm / chord_mm - 1.0
    assert bent.bend_excess(OVER, FLAT) == pytest.approx(excess, rel=1e-3)


def by_name(sources: tuple[UncertaintySource, ...]) -> dict[str, float]:
    return {source.name: source.relative_sd for source in sources}


def test_each_error_of_a_length_is_what_moves_it() -> None:
    """L = l (1 - h / H): thickness and height move it by h / H over 1 - h / H.

    Thickness errs by 10 % for the kind and 10 % for the fish, height by the focal
    length's 3 %; the ends, one each, by 0.8 px and 0.3 % of the length.
    """
    plane = seen_from(H)
    plane = replace(plane, camera=replace(plane.camera, focal_relative_sd=0.03))
    found = by_name(error_sources(straight(), OVER, LEVEL, plane, tail_sd=0.004))
    up = (15.0 / 600.0) / (1.0 - 15.0 / 600.0)
    assert found["thickness of the species"] == pytest.approx(0.1 * up)
    assert found["thickness of the fish"] == pytest.approx(0.1 * up)
    assert found["camera height"] == pytest.approx(0.03 * up, rel=0.02)
    length = 250.0 * 585.0 / 600.0
    pixel_mm = 600.0 / 2900.0
    end_mm = math.hypot(0.8 * pixel_mm, 0.003 * length)
    assert found["end points"] == pytest.approx(math.sqrt(2.0) * end_mm / length)
    assert found["light at the end points"] == 0.0
    assert found["which end is the tail"] == 0.004
    assert found["bend"] == pytest.approx(0.0, abs=1e-9)


def test_ends_of_known_error_have_it_and_a_common_one() -> None:
    """1.2 and 0.5 mm are 1.3 mm together; 0.27 % of the length is the photo's."""
    plane = seen_from(H)
    sources = error_sources(straight(), OVER, FLAT, plane, ends_se_mm=(1.2, 0.5))
    found = by_name(sources)
    assert found["end points"] == pytest.approx(1.3 / 250.0)
    assert found["light at the end points"] == 0.0027
    scopes = {source.name: source.scope for source in sources}
    assert scopes["light at the end points"] == "photo"
    assert scopes["end points"] == "fish"


def test_the_bend_errs_by_a_twelfth_of_what_it_adds() -> None:
    angle = np.linspace(-0.5, 0.5, 400)
    arc = np.column_stack([200.0 * np.sin(angle), 200.0 * np.cos(angle)])
    bent = Course(points_mm=arc, bend_share=1.0)
    found = by_name(error_sources(bent, OVER, FLAT, seen_from(H)))
    excess = 200.0 / (400.0 * math.sin(0.5)) - 1.0
    assert found["bend"] == pytest.approx(0.08 * excess, rel=1e-3)


def test_ends_that_lie_higher_shorten_a_fish_under_the_camera() -> None:
    """125 mm aside an end d higher is 125 d / H nearer: of the fish's own 0.08 each."""
    pose = replace(LEVEL, snout_share=0.7, fork_share=0.3, snout_share_sd=0.2)
    found = by_name(error_sources(straight(), OVER, pose, seen_from(H)))
    length = straight().length_mm(OVER, pose)
    each = 125.0 * 0.08 * 15.0 / H / length
    own = math.sqrt(2.0) * each
    assert found["how head and tail lie"] == pytest.approx(own, rel=1e-6)
    # The photo's: only the snout's height errs, together and apart alike.
    laid = 125.0 * 0.2 * 15.0 / H / length
    assert found["how fish were laid"] == pytest.approx(laid, rel=1e-6)


def test_where_the_camera_is_beyond_an_end_both_partly_undo_each_other() -> None:
    """Snout 100 and fork 350 mm from the foot: 250 apart, both higher by 0.2 of 15 mm.

    Together the length changes by (350 - 100) 3 / H; apart by the root of both squares.
    """
    pose = Pose(
        half_thickness_mm=15.0,
        snout_share=0.7,
        fork_share=0.3,
        snout_share_sd=0.2,
        fork_share_sd=0.2,
    )
    course = straight(along_mm=225.0)
    found = by_name(error_sources(course, OVER, pose, seen_from(H)))
    length = course.length_mm(OVER, pose)
    together, apart = 250.0 * 3.0 / H, math.hypot(350.0, 100.0) * 3.0 / H
    wanted = math.sqrt(0.5 * together**2 + 0.5 * apart**2) / length
    assert found["how fish were laid"] == pytest.approx(wanted, rel=1e-6)


def test_errors_add_as_squares() -> None:
    sources = [
        UncertaintySource(name=str(sd), relative_sd=sd, scope="fish")
        for sd in (0.03, 0.04, 0.12)
    ]
    assert total_relative_sd(tuple(sources)) == pytest.approx(0.13)
    assert total_relative_sd(()) == 0.0


@pytest.mark.parametrize(
    ("turn_rad", "depth", "share"),
    [
        (0.0, 0.2, 0.0),
        (0.20, 0.2, 0.5),  # as much as a straight fish's shape turns
        (0.60, 0.25, 0.9),  # three times as much: 9 of 10 parts of the square
        (0.47, 0.30, 0.5),  # 0.20 + 5.4 x 0.05
        (0.74, 0.60, 0.5),  # and no more than 0.74
        (-0.74, 0.60, 0.5),
    ],
)
def test_a_turn_as_usual_in_straight_fish_is_half_a_bend(
    turn_rad: float, depth: float, share: float
) -> None:
    assert bend_share(turn_rad, depth) == pytest.approx(share)


# --- from two points -----------------------------------------------------------------


def test_the_other_lengths_follow_from_the_kind_of_fish() -> None:
    """Fork 0.9 of the total length, standard 0.8 of that, depth 0.22 of the fork's."""
    plane = seen_from(H)
    shape = FishShape(
        fork_per_total=0.9,
        standard_per_total=0.8,
        thickness_per_depth=0.5,
        depth_per_fork_length=0.22,
        depth_per_fork_length_sd=0.022,
        snout_height=1.0,
        fork_height=1.0,
        snout_radius=0.0,
    )
    ends_px = plane.to_photo_px(np.array([[-125.0, 0.0], [125.0, 0.0]]))
    found = measure_between(ends_px[0], ends_px[1], plane, shape)
    # Half its thickness up, so L = 250 (1 - 0.5 x 0.5 x 0.22 L / 600).
    fork = 250.0 / (1.0 + 250.0 * 0.055 / 600.0)
    assert found.fork_length_mm == pytest.approx(fork, rel=2e-4)
    assert found.total_length_mm == pytest.approx(found.fork_length_mm / 0.9)
    assert found.standard_length_mm == pytest.approx(found.total_length_mm * 0.8)
    assert found.body_depth_mm == pytest.approx(0.22 * found.fork_length_mm)
    assert found.thickness_mm == pytest.approx(0.11 * fork, rel=1e-3)
    # An ellipse of these axes.
    area = math.pi * found.fork_length_mm * found.body_depth_mm / 4.0
    assert found.area_mm2 == pytest.approx(area)
    relative = total_relative_sd(found.sources)
    assert found.fork_length_se_mm == pytest.approx(relative * found.fork_length_mm)
    wider = math.hypot(relative, 0.024)
    assert found.total_length_se_mm == pytest.approx(wider * found.total_length_mm)
    standard = wider * found.standard_length_mm
    assert found.standard_length_se_mm == pytest.approx(standard)
    assert found.body_depth_se_mm == pytest.approx(0.1 * found.body_depth_mm)


def test_the_seen_depth_and_that_of_the_kind_are_weighed_by_their_errors() -> None:
    """60 mm seen, give or take 5 % (3 mm); 50 of the kind, give or take 10 % (5 mm).

    Precisions 1 / 9 and 1 / 25: (60 x 25 + 50 x 9) / 34 = 57.35 mm, half of it thick.
    """
    shape = replace(SHAPE, depth_per_fork_length=0.2, depth_per_fork_length_sd=0.02)
    far = replace(OVER, height_mm=1e9)  # no parallax
    found = _pose(60.0, 250.0, far, shape)
    assert found.half_thickness_mm == pytest.approx(57.353 / 4.0, rel=1e-4)
    alone = _pose(None, 250.0, far, shape)
    assert alone.half_thickness_mm == pytest.approx(50.0 / 4.0)


def of_lens(**changes: object) -> FishLength:
    length, _ = measured(DrawnFish(), seen_from(H))
    return replace(length, **changes)  # type: ignore[arg-type]


def test_squared_depth_errs_as_a_volume_and_by_its_edges() -> None:
    """Three times what a scale errs, 0.4 of what an end does.

    A fish of depth d = sqrt(V / L) has two edges, each 0.38 % of L off on both sides
    together: 2 x 0.0038 L / d, once its own and once the photo's.
    """
    sources = (
        UncertaintySource(name="print scale", relative_sd=0.004, scope="sample"),
        UncertaintySource(name="end points", relative_sd=0.005, scope="fish"),
    )
    v = 250.0 * 50.0**2
    length = of_lens(sources=sources, squared_depth_mm3=v, fork_length_mm=250.0)
    found = squared_depth_sources(length)
    edges = 2.0 * 0.0038 * 250.0 / 50.0
    wanted = [(0.012, 0.004), (0.002, 0.005), (edges, 0.0), (edges, 0.0)]
    told = [(source.relative_sd, of) for source, of in found]
    assert np.array(told) == pytest.approx(np.array(wanted))
    assert [source.scope for source, _ in found[2:]] == ["fish", "photo"]
    assert squared_depth_sources(replace(length, squared_depth_mm3=None)) == ()


# --- where it lies -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("aside_mm", "flags"), [(340.0, ()), (360.0, ("far-from-markers",))]
)
def test_a_fish_far_from_the_markers_is_said(
    aside_mm: float, flags: tuple[str, ...]
) -> None:
    """A marker of 60 x 80 mm spans 100; 150 mm beyond its corner at x = 100 is far."""
    plane = seen_from(2000.0)
    corners = np.array([[40.0, 0.0], [100.0, 0.0], [100.0, 80.0], [40.0, 80.0]])
    plane = replace(plane, markers_px=plane.to_photo_px(corners)[None])
    moved = spindle(0.0) + np.array([aside_mm, 0.0])
    midline: Midline = trace_midline(moved)
    assert np.linalg.norm(midline.points[60] - [aside_mm, 0.0]) < 2.0
    assert place_flags(midline, plane) == flags
    assert place_flags(midline, seen_from(2000.0)) == ()
