"""Every marker set and part of it: scale, claimed error, choice between sets."""

from dataclasses import replace

import numpy as np
import pytest

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import MarkersDisagreeError
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.markers.scale import summary_points
from fishmeasure.photo.plane import PlaneScale
from sample_images.synth.plane import (
    Card,
    PlaneScene,
    draw_plane,
    sheet_cards,
    true_plane,
)

SHEET = PlaneScene(
    width_px=1100,
    height_px=825,
    focal_px=860.0,
    distance_mm=500.0,
    tilt_deg=12.0,
    tilt_towards_deg=200.0,
    roll_deg=4.0,
    cards=sheet_cards("A4"),
)
LOOSE = replace(
    SHEET,
    sheet_mm=None,
    cards=(
        Card(marker_id=0, side_mm=40, card_mm=60, x_mm=0, y_mm=15, angle_deg=10),
        Card(marker_id=1, side_mm=40, card_mm=60, x_mm=290, y_mm=0, angle_deg=80),
        Card(marker_id=2, side_mm=40, card_mm=60, x_mm=280, y_mm=210, angle_deg=200),
        Card(marker_id=3, side_mm=40, card_mm=60, x_mm=-10, y_mm=190, angle_deg=-30),
    ),
)
SINGLE = replace(
    SHEET,
    sheet_mm=None,
    cards=(Card(marker_id=10, side_mm=60, card_mm=80, x_mm=70, y_mm=60, angle_deg=20),),
)


def photo_of(
    scene: PlaneScene, *, knows_focal: bool = False, focal: float = 1.0
) -> Photo:
    rgb = draw_plane(scene, np.random.default_rng(3))
    return Photo(
        name="drawn",
        rgb=rgb,
        width_px=scene.width_px,
        height_px=scene.height_px,
        focal_length_px=scene.focal_px * focal if knows_focal else None,
    )


def scale_error(plane: PlaneScale, scene: PlaneScene, points: FloatArray) -> FloatArray:
    error: FloatArray = plane.log_scale(points) - true_plane(scene).log_scale(points)
    return error


@pytest.mark.parametrize(
    ("scene", "count", "method", "limit"),
    [
        (SHEET, 4, "sheet", 0.001),
        (SHEET, 3, "sheet", 0.001),
        (SHEET, 2, "sheet", 0.002),
        (LOOSE, 4, "loose-markers", 0.0005),
        (LOOSE, 3, "loose-markers", 0.001),
        (LOOSE, 2, "loose-markers", 0.002),
        (SHEET, 1, "single-marker", 0.01),
        (SINGLE, 1, "single-marker", 0.005),
    ],
)
@pytest.mark.parametrize("knows_focal", [True, False], ids=["exif", "no-exif"])
def test_each_set_and_part_measures(
    scene: PlaneScene, count: int, method: str, limit: float, *, knows_focal: bool
) -> None:
    """The scale over the photo's middle is right, and within the claimed error."""
    scene = replace(scene, cards=scene.cards[:count])
    photo = photo_of(scene, knows_focal=knows_focal)
    plane = find_plane(photo)
    points = summary_points(photo)
    error = scale_error(plane, scene, points)
    assert plane.method == method
    assert plane.marker_ids == tuple(card.marker_id for card in scene.cards)
    assert np.sqrt(np.mean(error**2)) < limit
    assert np.all(np.abs(error) < 3.0 * plane.relative_se_at(points)[:, None])
    assert plane.tilt_deg == pytest.approx(12.0, abs=1.0)
    spread = np.sqrt(sum(source.relative_sd**2 for source in plane.sources))
    assert spread == pytest.approx(plane.relative_se, rel=1e-6)


def test_fewer_markers_claim_a_wider_error() -> None:
    """Four, two and one marker of the same sheet, in that order."""
    claimed = [
        find_plane(photo_of(replace(SHEET, cards=SHEET.cards[:count]))).relative_se
        for count in (4, 2, 1)
    ]
    assert claimed[0] < claimed[1] < claimed[2]


def test_error_grows_away_from_the_markers() -> None:
    """Beside a single marker the scale is surer than across the photo."""
    plane = find_plane(photo_of(SINGLE, knows_focal=True))
    beside = plane.markers_px.reshape(-1, 2).mean(axis=0)
    near, far = plane.relative_se_at(np.array([beside, [1000.0, 760.0]]))
    assert near < 0.006
    assert far > 3.0 * near


@pytest.mark.parametrize("k1", [-0.08, 0.08])
def test_distortion_is_fitted_from_four_markers(k1: float) -> None:
    """The lens comes out of the sheet's own corners (Brown 1966, first term)."""
    scene = replace(SHEET, k1=k1, distance_mm=440.0)
    photo = photo_of(scene)
    plane = find_plane(photo)
    assert plane.camera.k1 == pytest.approx(k1, abs=0.01)
    assert np.abs(scale_error(plane, scene, summary_points(photo))).max() < 0.004


def test_focal_length_is_fitted_where_tilt_allows() -> None:
    """A wrong EXIF figure by two standard deviations does no harm at 25 degrees."""
    scene = replace(SHEET, tilt_deg=25.0)
    photo = photo_of(scene, knows_focal=True, focal=1.06)
    plane = find_plane(photo)
    assert plane.camera.focal_source == "markers"
    assert plane.camera.focal_px == pytest.approx(860.0, rel=0.01)
    assert np.abs(scale_error(plane, scene, summary_points(photo))).max() < 0.003


def test_print_scale_multiplies_every_length() -> None:
    """A sheet printed at 97 % is 3 % smaller than its nominal size."""
    photo = photo_of(SHEET)
    full, small = find_plane(photo), find_plane(photo, print_scale=0.97)
    assert small.px_per_mm == pytest.approx(full.px_per_mm / 0.97, rel=1e-4)
    assert small.camera_height_mm == pytest.approx(
        0.97 * full.camera_height_mm, rel=1e-3
    )
    named = {source.name: source.scope for source in full.sources}
    assert named["print scale unchecked"] == "sample"
    assert "print scale as measured" in {source.name for source in small.sources}


@pytest.mark.parametrize(("first", "last"), [(0, 2), (1, 3)])
@pytest.mark.parametrize("paper", ["A4", "Letter", "A3"])
def test_two_markers_tell_the_paper(first: int, last: int, paper: str) -> None:
    """The distance between two neighbours differs by 4 % and more between papers."""
    cards = sheet_cards(paper)[first:last]
    middle = np.mean([[card.x_mm, card.y_mm] for card in cards], axis=0)
    scene = replace(
        SHEET, cards=cards, sheet_mm=None, board=0.8, look_at_mm=tuple(middle)
    )
    photo = photo_of(scene)
    plane = find_plane(photo)
    assert plane.method == "sheet"
    error = scale_error(plane, scene, summary_points(photo))
    assert np.sqrt(np.mean(error**2)) < 0.003
    corner = true_plane(scene).to_photo_px(np.zeros((1, 2)))
    assert np.allclose(plane.paper_px[0][0], corner, atol=3.0)


def test_markers_of_unlike_scale_are_refused() -> None:
    """One card printed at 80 %, or lying on something high, fits no plane."""
    cards = [
        replace(card, side_mm=32.0) if i == 2 else card
        for i, card in enumerate(LOOSE.cards)
    ]
    with pytest.raises(MarkersDisagreeError, match="one flat plane"):
        find_plane(photo_of(replace(LOOSE, cards=tuple(cards))))


def test_cards_of_both_kinds_are_used_together() -> None:
    """The 60 mm card among the 40 mm ones."""
    cards = (*LOOSE.cards[:2], replace(SINGLE.cards[0], x_mm=150.0, y_mm=190.0))
    scene = replace(LOOSE, cards=cards)
    photo = photo_of(scene)
    plane = find_plane(photo)
    assert plane.method == "loose-markers"
    assert plane.marker_ids == (0, 1, 10)
    assert np.abs(scale_error(plane, scene, summary_points(photo))).max() < 0.003
    papers = [plane.to_plane_mm(paper) for paper in plane.paper_px]
    sides = [np.linalg.norm(paper[0] - paper[4]) for paper in papers]
    assert sides == pytest.approx([60, 60, 80], rel=0.01)


def test_a_fish_on_the_plane_keeps_its_length() -> None:
    """A known 250 mm between two points on the plane, anywhere in the photo."""
    photo = photo_of(SHEET)
    plane = find_plane(photo)
    for angle in np.radians([0, 35, 90, 140]):
        step = 125.0 * np.array([np.cos(angle), np.sin(angle)])
        ends_mm = np.array([148.5, 105.0]) + np.array([-step, step])
        ends_px = true_plane(SHEET).to_photo_px(ends_mm)
        found_mm = plane.to_plane_mm(ends_px)
        assert np.linalg.norm(found_mm[1] - found_mm[0]) == pytest.approx(250, abs=0.15)


def test_height_above_the_plane_is_corrected() -> None:
    """Points 15 mm up are back where they are, at their own height."""
    photo = photo_of(SHEET)
    plane = find_plane(photo)
    ends_mm = np.array([[40.0, 60.0], [250.0, 150.0]])
    ends_px = true_plane(SHEET).to_photo_px(ends_mm, 15.0)
    found = plane.to_plane_mm(ends_px, 15.0)
    true_mm = float(np.linalg.norm(ends_mm[1] - ends_mm[0]))
    assert np.linalg.norm(found[1] - found[0]) == pytest.approx(true_mm, rel=0.001)
    # Seen as if on the plane it looks longer by about h / (H - h) = 15 / 474.
    flat = plane.to_plane_mm(ends_px)
    assert np.linalg.norm(flat[1] - flat[0]) > 1.02 * true_mm
