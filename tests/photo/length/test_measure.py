"""Lengths of drawn fish, of which the camera and the size are known."""

from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.length import (
    FishLength,
    FishShape,
    measure_between,
    measure_length,
    shape_of,
)
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.segment.outline import FishOutline
from fishmeasure.species import load_species
from sample_images.synth.fish import DrawnFish, FishTruth, true_fish
from sample_images.synth.plane import PlaneScene, true_plane

SHAPE = FishShape(
    depth_per_fork_length=0.22,
    depth_per_fork_length_sd=0.02,
    thickness_per_depth=0.5,
    snout_radius=0.0,  # drawn fish end in a point of their middle plane
)


def seen_from(
    distance_mm: float = 600.0, tilt_deg: float = 0.0, towards_deg: float = 0.0
) -> PlaneScale:
    return true_plane(
        PlaneScene(
            width_px=4000,
            height_px=3000,
            focal_px=2900.0,
            look_at_mm=(0.0, 0.0),
            distance_mm=distance_mm,
            tilt_deg=tilt_deg,
            tilt_towards_deg=towards_deg,
        )
    )


def measured(fish: DrawnFish, plane: PlaneScale) -> tuple[FishLength, FishTruth]:
    truth = true_fish(fish, plane)
    outline = FishOutline(contour_px=truth.outline_px, confidence=1.0)
    return measure_length(outline, plane, SHAPE), truth


@pytest.mark.parametrize("tilt_deg", [0.0, 12.0, 25.0])
@pytest.mark.parametrize("heading_deg", [0.0, 70.0, 200.0])
def test_a_straight_fish_reads_right_from_any_side(
    tilt_deg: float, heading_deg: float
) -> None:
    """Truth of the drawing; what remains is the silhouette's own ends, 0.2 %."""
    plane = seen_from(tilt_deg=tilt_deg, towards_deg=40.0)
    fish = DrawnFish(heading_deg=heading_deg, x_mm=40.0, y_mm=-30.0)
    length, truth = measured(fish, plane)
    assert length.fork_length_mm == pytest.approx(250.0, rel=0.002)
    assert length.body_depth_mm == pytest.approx(55.0, rel=0.03)
    assert np.linalg.norm(length.snout_px - truth.snout_px) < 3.0
    assert np.linalg.norm(length.fork_px - truth.fork_px) < 3.0
    assert length.complete


@pytest.mark.parametrize("bend_deg", [-60.0, -30.0, 30.0, 60.0])
def test_a_bent_fish_reads_as_straight(bend_deg: float) -> None:
    """Measured straight, 60 degrees would cost 4.5 % (chord over arc)."""
    length, _ = measured(DrawnFish(bend_deg=bend_deg, heading_deg=20.0), seen_from())
    assert length.fork_length_mm == pytest.approx(250.0, rel=0.004)
    assert "bent" in length.flags


def test_parallax_is_what_geometry_says() -> None:
    """Against the plain similar-triangles gain H / (H - h) at one common height."""
    fish = DrawnFish(snout_share=1.0, fork_share=1.0)
    plane = seen_from()
    truth = true_fish(fish, plane)
    ends = plane.to_plane_mm(np.vstack([truth.snout_px, truth.fork_px]))
    seen_mm = float(np.linalg.norm(ends[1] - ends[0]))
    gain = 600.0 / (600.0 - fish.half_thickness_mm)
    assert seen_mm == pytest.approx(250.0 * gain, rel=1e-6)


def test_two_points_give_the_same_length_as_the_outline() -> None:
    plane = seen_from(tilt_deg=15.0)
    fish = DrawnFish(heading_deg=120.0)
    truth = true_fish(fish, plane)
    length = measure_between(truth.snout_px, truth.fork_px, plane, SHAPE)
    assert length.fork_length_mm == pytest.approx(250.0, rel=0.002)
    assert length.complete
    assert length.flags == ("edited",)


def test_end_points_put_in_are_used() -> None:
    """A fork put in 25 mm short of the real one takes 25 mm off."""
    plane = seen_from()
    truth = true_fish(DrawnFish(), plane)
    px = 25.0 * plane.px_per_mm
    towards_snout = (truth.snout_px - truth.fork_px) / np.linalg.norm(
        truth.snout_px - truth.fork_px
    )
    outline = FishOutline(
        contour_px=truth.outline_px,
        confidence=1.0,
        snout_px=truth.snout_px,
        fork_px=truth.fork_px + px * towards_snout,
        ends_by_hand=True,
    )
    length = measure_length(outline, plane, SHAPE)
    assert length.fork_length_mm == pytest.approx(225.0, abs=1.5)
    assert "tail-doubtful" not in length.flags


def test_the_outline_places_what_a_method_only_points_to() -> None:
    """Ends 4 mm inside, as a network's come, change nothing."""
    plane = seen_from()
    truth = true_fish(DrawnFish(), plane)
    inwards = 4.0 * plane.px_per_mm * (truth.fork_px - truth.snout_px)
    inwards /= np.linalg.norm(truth.fork_px - truth.snout_px)
    outline = FishOutline(
        contour_px=truth.outline_px,
        confidence=1.0,
        snout_px=truth.snout_px + inwards,
        fork_px=truth.fork_px - inwards,
    )
    length = measure_length(outline, plane, SHAPE)
    assert length.fork_length_mm == pytest.approx(250.0, rel=0.002)
    assert length.complete


def test_a_method_that_sees_another_tail_than_the_outline_forbids_use() -> None:
    """A tail fin lost from the outline would make the fish short, and be used."""
    plane = seen_from()
    truth = true_fish(DrawnFish(), plane)
    outline = FishOutline(
        contour_px=truth.outline_px,
        confidence=1.0,
        snout_px=truth.snout_px,
        fork_px=truth.fork_px + 0.1 * (truth.fork_px - truth.snout_px),
    )
    assert not measure_length(outline, plane, SHAPE).complete


def test_ends_put_in_the_other_way_round_are_believed() -> None:
    """A person who taps snout and tail knows better than the outline."""
    plane = seen_from()
    truth = true_fish(DrawnFish(), plane)
    outline = FishOutline(
        contour_px=truth.outline_px,
        confidence=1.0,
        snout_px=truth.fork_px,
        fork_px=truth.snout_px,
        ends_by_hand=True,
    )
    length = measure_length(outline, plane, SHAPE)
    np.testing.assert_allclose(length.snout_px, truth.fork_px, atol=0.5)


def test_the_plane_s_error_is_part_of_the_fish_s() -> None:
    plane = seen_from()
    length, _ = measured(DrawnFish(), plane)
    doubtful = replace(plane, constant_relative_sd=0.02)
    again, _ = measured(DrawnFish(), doubtful)
    assert again.fork_length_se_mm >= length.fork_length_se_mm


@pytest.mark.parametrize("snout_share", [0.35, 0.95])
@pytest.mark.parametrize("fork_share", [0.0, 0.4])
def test_how_a_fish_lies_stays_within_its_error(
    snout_share: float, fork_share: float
) -> None:
    """Limp and stiff fish, about one and a half of the assumed deviations off."""
    fish = DrawnFish(snout_share=snout_share, fork_share=fork_share)
    length, _ = measured(fish, seen_from(distance_mm=500.0))
    error = length.fork_length_mm - 250.0
    assert abs(error) < 2.5 * length.fork_length_se_mm


def test_a_disc_is_no_fish() -> None:
    angle = np.linspace(0.0, 2.0 * np.pi, 300, endpoint=False)
    disc = 1500.0 + 400.0 * np.column_stack([np.cos(angle), np.sin(angle)])
    outline = FishOutline(contour_px=disc, confidence=1.0)
    length = measure_length(outline, seen_from(), SHAPE)
    assert not length.complete
    assert "not-fish-shaped" in length.flags


def test_a_ruler_is_no_fish() -> None:
    ruler = np.array([[500.0, 1400.0], [2500.0, 1400.0], [2500.0, 1520.0], [500, 1520]])
    outline = FishOutline(contour_px=ruler, confidence=1.0)
    length = measure_length(outline, seen_from(), SHAPE)
    assert "not-fish-shaped" in length.flags


def test_flags_of_the_outline_are_kept() -> None:
    plane = seen_from()
    truth = true_fish(DrawnFish(), plane)
    outline = FishOutline(
        contour_px=truth.outline_px, confidence=0.5, flags=("touching",)
    )
    length = measure_length(outline, plane, SHAPE)
    assert length.flags == ("touching",)
    assert not length.complete
    assert length.confidence == pytest.approx(0.5, abs=0.01)


def test_the_shape_of_a_species_is_its_record_s() -> None:
    species = load_species("rainbow-trout")
    shape = shape_of(species)
    assert shape.thickness_per_depth == species.shape.thickness_per_depth.value
    assert shape.fork_per_total == species.shape.fork_per_total.value


@pytest.mark.parametrize(
    "contour",
    [np.full((5, 2), 300.0), np.array([[0.0, 0.0], [900.0, 0.0], [400.0, 0.0]])],
    ids=["a point", "a line"],
)
def test_an_outline_without_area_is_the_caller_s_bug(contour: FloatArray) -> None:
    with pytest.raises(ValueError, match="without area"):
        measure_length(
            FishOutline(contour_px=contour, confidence=1.0), seen_from(), SHAPE
        )


def test_odd_outlines_are_measured_or_refused_but_never_fail() -> None:
    """Random polygons, some crossing themselves: finite figures, none to be used."""
    rng = np.random.default_rng(11)
    for count in rng.integers(3, 200, size=40):
        corners = rng.uniform(0.0, 3000.0, (int(count), 2))
        outline = FishOutline(contour_px=corners, confidence=1.0)
        length = measure_length(outline, seen_from(tilt_deg=20.0), SHAPE)
        assert np.isfinite(length.fork_length_se_mm)
        assert not length.complete
