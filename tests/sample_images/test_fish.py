"""The drawn fish are as large as they say."""

import numpy as np
import pytest

from sample_images.synth.fish import DrawnFish, draw_fish, place, true_fish
from sample_images.synth.plane import PlaneScene, true_plane

SCENE = PlaneScene(look_at_mm=(0.0, 0.0), distance_mm=600.0)


@pytest.mark.parametrize("bend_deg", [0.0, 40.0])
def test_the_midline_is_as_long_as_the_fish(bend_deg: float) -> None:
    share = np.linspace(0.0, 1.0, 2001)
    points = place(DrawnFish(bend_deg=bend_deg), share, np.zeros(len(share)))
    length = np.sum(np.hypot(*np.diff(points, axis=0).T))
    assert length == pytest.approx(250.0, rel=1e-4)


def test_a_flat_fish_under_the_camera_has_the_scale_s_size() -> None:
    """Pinhole: 250 mm at 600 mm with 1250 px focal length are 520.8 px."""
    fish = DrawnFish(thickness_per_depth=1e-6)
    truth = true_fish(fish, true_plane(SCENE))
    span = float(np.linalg.norm(truth.fork_px - truth.snout_px))
    assert span == pytest.approx(250.0 * 1250.0 / 600.0, rel=1e-6)


def test_the_picture_changes_where_the_fish_is() -> None:
    plane = true_plane(SCENE)
    photo = np.full((1200, 1600, 3), 0.5)
    truth = draw_fish(photo, DrawnFish(), plane, np.random.default_rng(1))
    middle = np.round((truth.snout_px + truth.fork_px) / 2.0).astype(int)
    assert np.all(photo[middle[1], middle[0]] < 0.45)
    shadow_px = 6.0 * plane.px_per_mm  # three times its softness of 2 mm
    changed = np.argwhere(np.any(np.abs(photo - 0.5) > 1e-6, axis=2))[:, ::-1]
    assert np.all(changed.min(axis=0) > truth.outline_px.min(axis=0) - shadow_px - 3)
    assert np.all(changed.max(axis=0) < truth.outline_px.max(axis=0) + shadow_px + 3)


def test_a_fish_outside_the_photo_draws_nothing() -> None:
    photo = np.full((1200, 1600, 3), 0.5)
    plane = true_plane(SCENE)
    draw_fish(photo, DrawnFish(x_mm=5000.0), plane, np.random.default_rng(1))
    assert np.all(photo == 0.5)
