"""Four-marker sheet: the drawn scene's own geometry is the truth."""

from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.arrays import ByteArray
from fishmeasure.base.errors import NoMarkerError, SeveralSheetsError
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.markers.scale import summary_points
from fishmeasure.photo.markers.sheet import PAPERS_MM
from sample_images.synth.plane import (
    Card,
    PlaneScene,
    draw_plane,
    sheet_cards,
    true_plane,
)

SCENE = PlaneScene(
    cards=sheet_cards("A4"), tilt_deg=8.0, tilt_towards_deg=30.0, roll_deg=3.0
)


def as_photo(rgb: ByteArray, focal_length_px: float | None = None) -> Photo:
    return Photo(
        name="drawn.png",
        rgb=rgb,
        width_px=rgb.shape[1],
        height_px=rgb.shape[0],
        focal_length_px=focal_length_px,
    )


def draw(scene: PlaneScene, focal_length_px: float | None = None) -> Photo:
    return as_photo(draw_plane(scene, np.random.default_rng(1)), focal_length_px)


@pytest.mark.parametrize("paper", sorted(PAPERS_MM))
def test_each_paper_is_told_by_its_marker_distances(paper: str) -> None:
    """The sheet's size is recognised and the scale right to 0.1 %."""
    width, height = PAPERS_MM[paper]
    scene = replace(
        SCENE,
        cards=sheet_cards(paper),
        sheet_mm=(width, height),
        look_at_mm=(width / 2, height / 2),
        distance_mm=1.7 * width,
    )
    photo = draw(scene)
    plane = find_plane(photo)
    points = summary_points(photo)
    error = plane.log_scale(points) - true_plane(scene).log_scale(points)
    assert plane.method == "sheet"
    assert plane.marker_ids == (0, 1, 2, 3)
    assert np.abs(error).max() < 0.001
    assert plane.tilt_deg == pytest.approx(8.0, abs=0.2)
    # The sheet is where it was drawn: its corner is the world's origin.
    corner = true_plane(scene).to_photo_px(np.zeros((1, 2)))
    assert np.allclose(plane.paper_px[0][0], corner, atol=0.5)


def test_a_photo_without_a_marker_has_no_scale() -> None:
    """No marker, no figure."""
    with pytest.raises(NoMarkerError, match=r"drawn\.png"):
        find_plane(draw(replace(SCENE, cards=())))


def test_the_same_marker_twice_is_refused() -> None:
    """Two sheets in view could be mixed up."""
    twice = (*SCENE.cards, Card(marker_id=1, side_mm=40, card_mm=0, x_mm=150, y_mm=105))
    with pytest.raises(SeveralSheetsError, match="marker 1 more than once"):
        find_plane(draw(replace(SCENE, cards=twice)))
