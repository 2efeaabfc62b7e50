"""What a whole outline is judged by, on shapes of which all is known exactly."""

import math
from dataclasses import replace
from typing import Final

import numpy as np
import pytest
from scipy.integrate import quad

from fishmeasure.photo.length.budget import total_relative_sd
from fishmeasure.photo.length.checks import _inside_share, _unlike, shape_flags, unusual
from fishmeasure.photo.length.ends import Ends, body_share, find_ends, tail_odds_ln
from fishmeasure.photo.length.measure import measure_length
from fishmeasure.photo.length.midline import _inside, _raster, trace_midline
from fishmeasure.photo.segment.outline import FishOutline
from sample_images.synth.fish import DrawnFish, true_fish
from tests.photo.length.test_measure import SHAPE, seen_from
from tests.photo.length.test_midline import spindle

LENS: Final = trace_midline(spindle(0.0))
"""200 long, 48 cos(pi s) deep."""
FISH: Final = DrawnFish()
PLANE: Final = seen_from()
OUTLINE: Final = FishOutline(
    contour_px=true_fish(FISH, PLANE).outline_px, confidence=0.8
)
OF_FISH: Final = trace_midline(PLANE.to_plane_mm(OUTLINE.contour_px))


def fish_ends() -> Ends:
    odds = tail_odds_ln(OF_FISH)
    return find_ends(OF_FISH if odds > 0.0 else OF_FISH.reversed())


# --- the midline ------------------------------------------------------------------


def test_places_beside_a_straight_midline_are_plain_coordinates() -> None:
    points = np.array([[-90.0, 3.0], [0.0, -7.0], [50.0, 10.0]])
    along, across = LENS.locate(points)
    sign = np.sign(LENS.points[-1, 0] - LENS.points[0, 0])
    assert np.diff(along) == pytest.approx(sign * np.array([90.0, 50.0]), abs=0.1)
    # Normals are to the left of the way, in whichever direction that goes.
    assert across == pytest.approx(sign * points[:, 1], abs=0.1)
    assert LENS.at(along)[:, 0] == pytest.approx(points[:, 0], abs=1.0)
    assert np.linalg.norm(LENS.normals, axis=1) == pytest.approx(1.0)


def test_the_turn_is_that_of_the_arc() -> None:
    """Of spindles bent by known angles, from one end to the other."""
    for turn_deg in (20.0, 45.0, 80.0):
        turn = math.degrees(abs(trace_midline(spindle(turn_deg)).turn_rad))
        assert turn == pytest.approx(turn_deg, rel=0.03)
    assert math.degrees(abs(LENS.turn_rad)) < 0.5


def test_shares_of_the_length_go_from_end_to_end() -> None:
    share = body_share(LENS)
    at_ends = np.interp([0.0, 1.0], share, LENS.points[:, 0])
    assert sorted(at_ends) == pytest.approx([-100.0, 100.0], abs=0.2)


def test_the_straightened_outline_is_as_wide_as_the_lens() -> None:
    step = float(LENS.straight_across[1] - LENS.straight_across[0])
    width = LENS.straight.sum(axis=0) * step
    share = body_share(LENS)
    middle = (share > 0.2) & (share < 0.8)
    wanted = 48.0 * np.cos(np.pi * (share[middle] - 0.5))
    fatter = width[middle] - wanted
    assert abs(fatter.mean()) < 0.05  # of cells of 0.9 mm
    assert np.ptp(fatter) < 1.2


@pytest.mark.parametrize("angle_deg", [0.0, 17.0, 45.0])
@pytest.mark.parametrize("depth_mm", [20.0, 30.0, 60.0])
def test_an_ellipse_is_neither_fatter_nor_slimmer(
    angle_deg: float, depth_mm: float
) -> None:
    """Axes 250 and 20 to 60 mm, in any direction: area pi a b / 4, depth b.

    A polynomial of degree 4 misses the top of an ellipse by 0.15 %.
    """
    angle = np.linspace(0.0, 2.0 * np.pi, 4000, endpoint=False)
    points = np.column_stack([125.0 * np.cos(angle), depth_mm / 2.0 * np.sin(angle)])
    turn = np.radians(angle_deg)
    axes = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    midline = trace_midline(points @ axes)
    across, along = midline.straight_across, midline.along
    cell = float((across[1] - across[0]) * (along[1] - along[0]))
    wanted = np.pi * 250.0 * depth_mm / 4.0
    assert midline.straight.sum() * cell == pytest.approx(wanted, rel=1e-3)
    assert find_ends(midline).depth == pytest.approx(depth_mm, rel=2e-3)


def test_the_depth_of_a_place_is_its_distance_from_the_outline() -> None:
    """In a disc of radius 50 about (20, -30) that is 50 less the way to its middle."""
    angle = np.linspace(0.0, 2.0 * np.pi, 400, endpoint=False)
    middle = np.array([20.0, -30.0])
    disc = middle + 50.0 * np.column_stack([np.cos(angle), np.sin(angle)])
    cells, depth = _inside(*_raster(disc))
    away = np.linalg.norm(cells - middle, axis=1)
    assert away.max() < 51.0
    assert depth == pytest.approx(50.0 - away, abs=1.3)


# --- its proportions --------------------------------------------------------------


def test_how_far_proportions_are_from_a_fishs() -> None:
    """A lens told to have such ends: each proportion worked out, and its score.

    Its area is 48 x 200 x 2 / pi, its outline the integral of an arc's length; both
    of its sides are alike.
    """
    ends = Ends(
        snout=np.zeros(2),
        fork=np.ones(2),
        snout_along=0.0,
        base_along=170.0,
        fork_along=200.0,
        tip_along=210.0,
        depth=48.0,
        depth_along=90.0,
        tail_odds_ln=5.0,
        flare=2.5,
        peduncle=14.0,
    )
    side, _ = quad(lambda s: math.hypot(200.0, 24.0 * math.pi * math.sin(math.pi * s)),
                   -0.5, 0.5)  # fmt: skip
    scores = [
        (math.log(48.0 / 200.0) + 1.43) / 0.26,
        (math.log(2.5) - 0.77) / 0.29,
        (math.log(14.0 / 48.0) + 1.14) / 0.33,
        (0.45 - 0.40) / 0.056,
        (0.85 - 0.874) / 0.038,
        (math.log(2.0 / math.pi) + 0.22) / 0.082,
        (math.log(2.0 * side / 200.0) - 1.01) / 0.083,
        (0.0 - 0.077) / 0.040,
    ]
    wanted = math.sqrt(sum(score**2 for score in scores))
    assert unusual(LENS, ends) == pytest.approx(wanted, rel=0.02)


def test_sides_that_differ_do_so_by_their_mean_over_the_depth() -> None:
    """Twenty to one side, ten to the other: 10 of a depth of 40."""
    ends_at = [LENS.contour_along.min(), LENS.contour_along.max()]
    odd = replace(
        LENS,
        contour_along=np.array([*ends_at, *ends_at[::-1]]),
        contour_across=np.array([-10.0, -10.0, 20.0, 20.0]),
    )
    found = _unlike(odd, replace(fish_ends(), depth=40.0))
    assert found == pytest.approx(0.25, abs=0.01)
    assert _unlike(LENS, replace(fish_ends(), depth=48.0)) < 0.03


def test_the_share_of_the_midline_inside() -> None:
    """Its middle row, from snout to fork: there up to the mean of both."""
    middle = LENS.straight.shape[0] // 2
    ends = replace(fish_ends(), snout_along=0.0, fork_along=float(LENS.along[-1]))
    straight = np.zeros_like(LENS.straight)
    straight[middle, : len(LENS.along) // 4] = 1.0
    part = replace(LENS, straight=straight)
    assert _inside_share(part, ends) == pytest.approx(0.25, abs=0.02)
    short = replace(ends, fork_along=float(LENS.along[-1]) / 2.0)
    assert _inside_share(part, short) == pytest.approx(0.5, abs=0.02)
    nowhere = replace(ends, snout_along=1e6, fork_along=2e6)
    assert _inside_share(part, nowhere) == 0.0


@pytest.mark.parametrize(
    ("turn_deg", "flags"),
    [
        (24.4, set()),
        (-24.6, {"bent"}),
        (179.9, {"bent"}),
        (-180.1, {"coiled"}),
    ],
)
def test_bent_from_24_5_degrees_and_coiled_from_180(
    turn_deg: float, flags: set[str]
) -> None:
    turned = replace(OF_FISH, turn_rad=math.radians(turn_deg))
    assert set(shape_flags(turned, fish_ends())) == flags


@pytest.mark.parametrize(
    ("odds_ln", "flags"),
    [
        (2.3, set()),
        (2.1, {"tail-doubtful"}),
        (1.2, {"tail-doubtful"}),
        (1.0, {"tail-doubtful", "not-fish-shaped"}),
    ],
)
def test_a_tail_of_low_odds_is_doubtful_and_of_lower_ones_no_fish(
    odds_ln: float, flags: set[str]
) -> None:
    """Nine to one is e^2.2, three to one e^1.1."""
    found = shape_flags(OF_FISH, replace(fish_ends(), tail_odds_ln=odds_ln))
    assert set(found) == flags


def test_proportions_of_no_fish_are_said() -> None:
    """ln 2.5 more of depth over length is 3.5 of its spreads, as is the peduncle's."""
    ends = fish_ends()
    assert unusual(OF_FISH, ends) < 4.86
    deep = replace(ends, depth=2.5 * ends.depth)
    assert unusual(OF_FISH, deep) > 4.86
    assert "not-fish-shaped" in shape_flags(OF_FISH, deep)


# --- what is said of it -----------------------------------------------------------


def test_errors_and_area_of_a_whole_fish() -> None:
    """Each length has the photo's error and its own beside it, as squares."""
    found = measure_length(OUTLINE, PLANE, SHAPE)
    relative = total_relative_sd(found.sources)
    for se, length, own in [
        (found.fork_length_se_mm, found.fork_length_mm, 0.0),
        (found.total_length_se_mm, found.total_length_mm, 0.0),
        (found.standard_length_se_mm, found.standard_length_mm, 0.024),
        (found.body_depth_se_mm, found.body_depth_mm, 0.05),
    ]:
        assert se == pytest.approx(math.hypot(relative, own) * length)
    x, y = PLANE.to_plane_mm(OUTLINE.contour_px).T
    seen = sum(x[i - 1] * y[i] - x[i] * y[i - 1] for i in range(len(x))) / 2.0
    nearer = 1.0 - 0.85 * found.thickness_mm / 2.0 / 600.0
    assert found.area_mm2 == pytest.approx(abs(seen) * nearer**2)
    # Longer by the lobes, shorter by the tail fin, each as seen.
    assert found.standard_length_mm < found.fork_length_mm < found.total_length_mm
    assert found.confidence < 0.8
    odds = fish_ends().tail_odds_ln
    assert found.confidence == pytest.approx(0.8 / (1.0 + math.exp(-odds)), rel=1e-6)
