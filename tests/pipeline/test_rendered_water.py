"""The generator's water bends light as Snell's law says, and judges' fish vary."""

import numpy as np
import pytest

from sample_images.generator.crowds import CROWDS
from sample_images.generator.fish import Body
from sample_images.generator.ground import HeightField
from sample_images.generator.heaps import HEAPS, support
from sample_images.generator.paper import build
from sample_images.generator.recipes import make
from sample_images.generator.swim import SwimmingBody
from sample_images.generator.tubs import TUBS
from sample_images.generator.unseen import UNSEEN
from sample_images.generator.water import Surface, WaterSpec, waves

EYE_MM = np.array([30.0, -40.0, 700.0])


def _ways(surface: Surface, points: np.ndarray) -> tuple[np.ndarray, ...]:
    """Return normals and unit ways to the eye's crossing and from it to the points."""
    place = surface.crossing_mm(points, EYE_MM)
    above, below = place - EYE_MM, points - place
    return (
        surface.normals(place[:, 0], place[:, 1]),
        above / np.linalg.norm(above, axis=1, keepdims=True),
        below / np.linalg.norm(below, axis=1, keepdims=True),
    )


def test_light_bends_at_ripples_by_snells_law() -> None:
    """Snell in vector form: n1 (d1 x N) = n2 (d2 x N) at the rippled surface."""
    rng = np.random.default_rng(1)
    surface = Surface(WaterSpec(depth_mm=110.0, waves=waves(rng, 0.05)))
    flat = rng.uniform(-300, 300, (500, 2))
    points = np.column_stack([flat, rng.uniform(0, 80, 500)])
    normal, above, below = _ways(surface, points)
    left, right = np.cross(above, normal), 1.333 * np.cross(below, normal)
    np.testing.assert_allclose(left, right, atol=1e-9)


def test_level_water_against_a_worked_example() -> None:
    """At 30 degrees in air: sin r = 0.5 / 1.333, r = 22.03 degrees.

    From 600 mm over the surface the ray lands 600 tan 30 + 100 tan 22.03
    = 346.41 + 40.46 = 386.87 mm away on a bottom 100 mm deep.
    """
    surface = Surface(WaterSpec(depth_mm=100.0))
    eye = np.array([0.0, 0.0, 700.0])
    place = surface.crossing_mm(np.array([[386.87, 0.0, 0.0]]), eye)
    assert place[0, 0] == pytest.approx(346.41, abs=0.02)
    assert place[0, 2] == pytest.approx(100.0)


def test_what_stands_out_of_the_water_is_seen_directly() -> None:
    surface = Surface(WaterSpec(depth_mm=80.0))
    rim = np.array([[200.0, 50.0, 190.0]])
    np.testing.assert_array_equal(surface.crossing_mm(rim, EYE_MM), rim)


def test_postures_run_from_limp_to_stiff() -> None:
    scenes = [make(recipe) for recipe in UNSEEN]
    fish = [each for scene in scenes for each in scene.fish]
    assert len(fish) == 120
    snouts = [each.posture.snout for each in fish if each.posture]
    forks = [each.posture.fork for each in fish if each.posture]
    assert min(snouts) >= 0.4
    assert max(snouts) <= 1.0
    assert min(forks) >= 0.1
    assert max(forks) <= 0.45
    assert np.ptp(snouts) > 0.5
    for each in fish[:10]:
        body = Body(each)
        ends = body.midline_mm()[[0, -1], 2] / body.half_thickness_mm
        assert each.posture is not None
        np.testing.assert_allclose(
            ends, [each.posture.snout, each.posture.fork], atol=1e-6
        )


def test_a_swimming_fish_keeps_its_belly_over_the_bottom() -> None:
    scene = make(TUBS[0])
    upright = [each for each in scene.fish if each.swim is not None]
    assert upright
    assert scene.water is not None
    for each in upright:
        body = SwimmingBody(each)
        lowest = body.trunk().vertices_mm[:, 2].min()
        assert each.swim is not None
        assert lowest == pytest.approx(each.swim.belly_mm, abs=0.6)
        assert body.trunk().vertices_mm[:, 2].max() < scene.water.depth_mm


def test_a_stiff_fish_rests_on_two_supports() -> None:
    """A rod held up 10 mm at 0.2 and 30 mm at 0.6 of its length, by hand.

    The line through both is 10 + 50 (s - 0.2): 0 at the snout, 50 at the fork, over
    the centre of weight at 0.42; a bump of 5 mm at 0.9 is under it.
    """
    stations = np.array([0.0, 0.2, 0.4, 0.6, 0.9])
    needed = np.array([-9.0, 10.0, 0.0, 30.0, 5.0])
    snout, fork = support(stations, needed)
    assert snout == pytest.approx(0.0)
    assert fork == pytest.approx(50.0)


def test_upper_fish_lie_on_lower_ones_without_sinking_in() -> None:
    scene = make(HEAPS[0])
    lower = [Body(each) for each in scene.fish if each.layer == 0]
    upper = [Body(each) for each in scene.fish if each.layer == 1]
    assert len(lower) + len(upper) == len(scene.fish) == 8
    assert len(upper) == 3
    below = HeightField.flat(0.0)
    for body in lower:
        below.add(body.trunk())
    for body in upper:
        axis = body.midline_mm(81)
        station = np.linspace(0, 1, 81)
        under = axis[:, 2] - body.halves_mm(station)[2]
        gap = under - below.at(axis)
        assert gap.min() > -1.0
        assert gap.min() < 4.0


def test_a_crowd_keeps_off_markers_and_within_its_tub() -> None:
    scene = make(CROWDS[1])
    assert len(scene.fish) == 110
    assert scene.tub is not None
    places = np.array([each.position_mm for each in scene.fish])
    assert scene.tub.holds(places).all()
    for paper in scene.papers:
        for corners in build(paper).corners_mm.values():
            apart = np.linalg.norm(places - corners[:, :2].mean(axis=0), axis=1)
            assert apart.min() > 20.0  # half a marker's side
