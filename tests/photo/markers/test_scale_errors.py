"""The claimed error of the scale: against repeated draws of the stated noise."""

from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.photo.image import Photo
from fishmeasure.photo.lens import LensProfile
from fishmeasure.photo.markers import find_plane, loose, sheet, single
from fishmeasure.photo.markers.bundle import CARD_FLOOR_MM, SHEET_FLOOR_MM
from fishmeasure.photo.markers.camera import EXIF_FOCAL_RELATIVE_SD, K1_SD, camera_prior
from fishmeasure.photo.markers.edges import FittedMarker
from fishmeasure.photo.markers.layout import Layout
from fishmeasure.photo.markers.scale import choose, plane_scale, summary_points
from sample_images.synth.plane import (
    Card,
    PlaneScene,
    card_corners_mm,
    draw_plane,
    sheet_cards,
    true_plane,
)

SCENE = PlaneScene(width_px=1600, height_px=1200, focal_px=1250.0, sheet_mm=None)
LOOSE = (
    Card(marker_id=0, side_mm=40, card_mm=60, x_mm=20, y_mm=20, angle_deg=13),
    Card(marker_id=2, side_mm=40, card_mm=60, x_mm=270, y_mm=180, angle_deg=95),
)
SINGLE = (Card(marker_id=10, side_mm=60, card_mm=80, x_mm=80, y_mm=60, angle_deg=20),)
CORNER_SD_PX = 0.1


def noisy_marker(
    card: Card, scene: PlaneScene, print_sd_mm: float, rng: np.random.Generator
) -> FittedMarker:
    """Return a marker whose corners carry the noise that the program assumes."""
    printed = card_corners_mm(card) + rng.normal(0.0, print_sd_mm, (4, 2))
    seen = true_plane(scene).to_photo_px(printed)
    return FittedMarker(
        marker_id=card.marker_id,
        corners_px=seen + rng.normal(0.0, CORNER_SD_PX, (4, 2)),
        covariance_px2=np.eye(8) * CORNER_SD_PX**2,
        bloom_px=0.0,
        blur_px=1.0,
        rms_px=0.1,
        contrast=0.7,
        edge_fraction=1.0,
    )


@pytest.mark.parametrize(
    ("cards", "layout", "print_sd_mm"),
    [
        (sheet_cards("A4"), sheet.sheet_layout("A4"), SHEET_FLOOR_MM),
        (sheet_cards("A4")[:2], sheet.sheet_layout("A4"), SHEET_FLOOR_MM),
        (LOOSE, loose.hypotheses((0, 2))[0], CARD_FLOOR_MM),
        (SINGLE, single.hypotheses((10,))[0], CARD_FLOOR_MM),
    ],
    ids=["sheet", "half-sheet", "two-cards", "one-card"],
)
def test_claimed_error_covers_what_happens(
    cards: tuple[Card, ...], layout: Layout, print_sd_mm: float
) -> None:
    """Errors over their claimed sd have a root mean square just below 1.

    Every draw has another lens (from the prior), tilt, and corner noise. Below 1,
    since the error of one direction is claimed and the mean of two is looked at.
    """
    rng = np.random.default_rng(11)
    scores = []
    for _ in range(120):
        scene = replace(
            SCENE,
            k1=float(rng.normal(0.0, K1_SD)),
            tilt_deg=float(abs(rng.normal(0.0, 10.0))),
            tilt_towards_deg=float(rng.uniform(0.0, 360.0)),
        )
        photo = Photo(
            name="drawn",
            rgb=np.zeros((1, 1, 3), np.uint8),
            width_px=scene.width_px,
            height_px=scene.height_px,
            focal_length_px=1250.0
            * float(np.exp(rng.normal(0, EXIF_FOCAL_RELATIVE_SD))),
        )
        markers = tuple(noisy_marker(card, scene, print_sd_mm, rng) for card in cards)
        prior = camera_prior(photo)
        choice = choose("drawn", markers, (layout,), prior, 1.0)
        plane = plane_scale(photo, choice, prior, 1.0)
        points = summary_points(photo)
        error = plane.log_scale(points) - true_plane(scene).log_scale(points)
        # Nothing is wrong with the print's scale here, so its share is left out.
        claimed = replace(plane, constant_relative_sd=0.0).relative_se_at(points)
        scores.append(error.mean(axis=1) / claimed)
    spread = float(np.sqrt(np.mean(np.square(scores))))
    assert 0.7 < spread < 1.15


def test_a_lens_profile_sharpens_a_single_marker() -> None:
    """With the lens known, one marker's scale holds across the photo."""
    scene = replace(
        SCENE,
        width_px=1000,
        height_px=750,
        focal_px=780.0,
        k1=0.08,
        tilt_deg=10.0,
        cards=SINGLE,
    )
    rgb = draw_plane(scene, np.random.default_rng(4))
    photo = Photo(
        name="drawn",
        rgb=rgb,
        width_px=1000,
        height_px=750,
        focal_length_px=810.0,
        camera_model="Phone",
    )
    lens = LensProfile(
        name="mine",
        camera_model="Phone",
        focal_fraction=780.0 / 1250.0,
        focal_relative_sd=0.006,
        k1=0.08,
        k1_sd=0.005,
    )
    points = summary_points(photo)
    true = true_plane(scene).log_scale(points)
    with_lens, without = find_plane(photo, lens=lens), find_plane(photo)
    assert with_lens.camera.focal_source == "lens-profile"
    assert with_lens.relative_se < 0.6 * without.relative_se
    assert np.abs(with_lens.log_scale(points) - true).max() < 0.01
    assert np.abs(without.log_scale(points) - true).max() > 0.02


@pytest.mark.parametrize("turns", [1, 2, 3])
def test_a_turned_photo_has_the_same_scale(turns: int) -> None:
    """Portrait or landscape, or upside down: the plane is the same."""
    scene = replace(
        SCENE,
        width_px=1000,
        height_px=750,
        focal_px=780.0,
        tilt_deg=12.0,
        cards=sheet_cards("A4"),
    )
    rgb = draw_plane(scene, np.random.default_rng(4))
    turned = np.ascontiguousarray(np.rot90(rgb, turns))
    planes = [
        find_plane(
            Photo(
                name="drawn",
                rgb=pixels,
                width_px=pixels.shape[1],
                height_px=pixels.shape[0],
            )
        )
        for pixels in (rgb, turned)
    ]
    assert planes[1].camera_height_mm == pytest.approx(
        planes[0].camera_height_mm, rel=1e-3
    )
    assert planes[1].px_per_mm == pytest.approx(planes[0].px_per_mm, rel=1e-4)
    assert planes[1].tilt_deg == pytest.approx(planes[0].tilt_deg, abs=0.05)
