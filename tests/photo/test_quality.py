"""What is wrong with a photo, in words; and what is refused."""

from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import cv2
import numpy as np
import pytest

from fishmeasure.base.arrays import ByteArray
from fishmeasure.base.errors import (
    BlurredError,
    MarkerError,
    NoMarkerError,
    TooFarError,
    TooTiltedError,
)
from fishmeasure.photo.image import Photo, read_photo
from fishmeasure.photo.markers import find_plane
from fishmeasure.photo.quality import check_photo, edge_blur_px
from sample_images.synth.plane import (
    Card,
    PlaneScene,
    add_markers_to_photo,
    draw_plane,
    sheet_cards,
    true_plane,
)

SHEET = PlaneScene(
    width_px=900,
    height_px=675,
    focal_px=700.0,
    distance_mm=470.0,
    cards=sheet_cards("A4"),
)
SINGLE = replace(
    SHEET,
    sheet_mm=None,
    cards=(Card(marker_id=10, side_mm=60, card_mm=80, x_mm=100, y_mm=90),),
)


def photo_of(scene: PlaneScene) -> Photo:
    rgb = draw_plane(scene, np.random.default_rng(2))
    return as_photo(rgb, scene.focal_px)


def as_photo(rgb: ByteArray, focal_px: float | None = None) -> Photo:
    return Photo(
        name="drawn.jpg",
        rgb=rgb,
        width_px=rgb.shape[1],
        height_px=rgb.shape[0],
        focal_length_px=focal_px,
    )


def codes(photo: Photo) -> set[str]:
    return {problem.code for problem in check_photo(photo, find_plane(photo))}


def test_a_good_photo_has_no_problem() -> None:
    """Sharp, lit, from above, four markers."""
    assert codes(photo_of(SHEET)) == set()


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"tilt_deg": 35.0}, "tilted"),
        ({"blur_px": 2.2}, "blurred"),
        ({"distance_mm": 950.0}, "too-far"),
        ({"exposure": 0.05, "noise_sd": 0.01}, "too-dark"),
        ({"exposure": 6.0, "blur_px": 1.0}, "overexposed"),
        ({"exposure": 7.0, "board": 0.5, "blur_px": 0.4}, "overexposed"),
        ({"cards": SHEET.cards[:3]}, "marker-missing"),
    ],
)
def test_each_fault_is_named(change: dict[str, float], code: str) -> None:
    """The fault that was drawn is the one that is named, with what to do."""
    photo = photo_of(replace(SHEET, **change))  # type: ignore[arg-type]
    problems = check_photo(photo, find_plane(photo))
    assert code in {problem.code for problem in problems}
    assert not any(problem.fatal for problem in problems)
    assert all(problem.message.endswith(".") for problem in problems)


def test_a_marker_far_from_the_fish_is_a_rough_scale() -> None:
    """One marker in a corner of a wide photo."""
    far = replace(SINGLE, look_at_mm=(320.0, 240.0), distance_mm=700.0)
    assert "rough-scale" in codes(photo_of(far))


def test_a_card_on_something_high_is_named() -> None:
    """A card 25 mm above the plane looks 5 % larger."""
    cards = [
        Card(marker_id=i, side_mm=42.0 if i == 3 else 40.0, card_mm=60, x_mm=x, y_mm=y)
        for i, (x, y) in enumerate([(20, 30), (270, 20), (260, 190), (30, 180)])
    ]
    scene = replace(SHEET, sheet_mm=None, cards=tuple(cards))
    assert "not-flat" in codes(photo_of(scene))


@pytest.mark.parametrize(
    ("scene", "error"),
    [
        (replace(SHEET, tilt_deg=50.0), TooTiltedError),
        (replace(SINGLE, blur_px=5.2), BlurredError),
        (replace(SHEET, distance_mm=1500.0, board=0.4), TooFarError),
    ],
    ids=["tilted", "blurred", "too-far"],
)
def test_what_gives_no_honest_figure_is_refused(
    scene: PlaneScene, error: type[MarkerError]
) -> None:
    """Markers were seen, but no length could be trusted."""
    with pytest.raises(error, match=r"drawn\.jpg") as caught:
        find_plane(photo_of(scene))
    assert caught.value.advice


@pytest.mark.parametrize(
    ("scene", "code"),
    [
        (replace(SHEET, blur_px=9.0), "blurred"),
        (replace(SHEET, exposure=0.01, noise_sd=0.001), "too-dark"),
        (replace(SHEET, exposure=40.0, ink=0.5), "overexposed"),
    ],
)
def test_without_a_marker_the_photo_says_why(scene: PlaneScene, code: str) -> None:
    """So bad that no marker is seen: the reason is in the photo itself."""
    photo = photo_of(scene)
    with pytest.raises(NoMarkerError):
        find_plane(photo)
    assert code in {problem.code for problem in check_photo(photo, None)}


@pytest.mark.shared
@pytest.mark.parametrize("blur_px", [2.0, 4.0])
def test_blur_of_real_photos_is_measured(shared: Path, blur_px: float) -> None:
    """A real photo blurred by a known amount: within a third."""
    path = shared / "photos/phone_trout_mit/ayu_in_tray_3072x4096.jpg"
    photo = read_photo(path.read_bytes(), path.name)
    grey = np.asarray(cv2.cvtColor(np.asarray(photo.rgb), cv2.COLOR_RGB2GRAY))
    blurred = cv2.GaussianBlur(grey.astype(np.float32), (0, 0), blur_px)
    found = edge_blur_px(np.asarray(blurred, np.float32))
    assert found == pytest.approx(blur_px, rel=0.34)


def test_a_plain_photo_has_no_edges_to_judge() -> None:
    """No edges, no statement about blur."""
    assert edge_blur_px(np.full((200, 200), 90, np.float32)) is None


@pytest.mark.shared
def test_other_tags_and_plain_photos_give_no_scale(shared: Path) -> None:
    """Photos full of tags of another dictionary, and fish without any marker."""
    paths = sorted((shared / "photos/marker_photos_neg").glob("*.jpg"))
    paths += sorted((shared / "photos/wikimedia_fish").glob("*.jpg"))[::3]
    assert len(paths) > 6
    for path in paths:
        photo = read_photo(path.read_bytes(), path.name)
        with pytest.raises(NoMarkerError, match="calibration marker"):
            find_plane(photo)


NAMES = ("coins", "page", "text", "brick", "grass", "chessboard_GRAY", "camera")


@pytest.mark.parametrize("name", NAMES)
def test_textures_and_chessboards_give_no_scale(name: str) -> None:
    """scikit-image's own pictures: squares, letters, textures."""
    picture = files("skimage") / f"data/{name}.png"
    photo = read_photo(picture.read_bytes(), name)
    with pytest.raises(NoMarkerError):
        find_plane(photo)


@pytest.mark.parametrize("dictionary", ["DICT_5X5_50", "DICT_APRILTAG_36h11"])
def test_tags_of_other_dictionaries_give_no_scale(dictionary: str) -> None:
    """Printed markers that are not ours."""
    tags = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, dictionary))
    page = np.full((900, 1200), 220, np.uint8)
    for number in range(12):
        x, y = 60 + (number % 4) * 280, 60 + (number // 4) * 280
        image = cv2.aruco.generateImageMarker(tags, number, 200)
        page[y : y + 200, x : x + 200] = image
    photo = as_photo(np.repeat(page[:, :, None], 3, axis=2))
    with pytest.raises(NoMarkerError):
        find_plane(photo)


@pytest.mark.shared
@pytest.mark.parametrize(
    ("name", "cards"),
    [
        ("phone_trout_mit/rainbow_trout_single_4208x3120.jpg", 4),
        ("wikimedia_fish/horse_mackerel_tank.jpg", 1),
        ("wikimedia_fish/flounder_cutting_board.jpg", 4),
    ],
)
def test_markers_drawn_into_real_photos(shared: Path, name: str, cards: int) -> None:
    """Cards laid into the plane of a real photo give back that plane."""
    path = shared / "photos" / name
    photo = read_photo(path.read_bytes(), path.name)
    rgb = np.asarray(photo.rgb)
    rows, columns = rgb.shape[:2]
    scene = PlaneScene(
        width_px=columns,
        height_px=rows,
        focal_px=0.6 * float(np.hypot(rows, columns)),
        look_at_mm=(0.0, 0.0),
        distance_mm=600.0,
        tilt_deg=8.0,
        sheet_mm=None,
    )
    plane = true_plane(scene)
    corners = plane.to_plane_mm(
        np.array([[0, 0], [columns, 0], [columns, rows], [0, rows]], float)
    )
    places = 0.75 * corners
    laid = tuple(
        Card(marker_id=i, side_mm=40, card_mm=60, x_mm=x, y_mm=y, angle_deg=25.0 * i)
        for i, (x, y) in enumerate(places)
    )
    if cards == 1:
        laid = (replace(laid[0], marker_id=10, side_mm=60, card_mm=80),)
    drawn = as_photo(add_markers_to_photo(rgb, laid, plane), scene.focal_px)
    found = find_plane(drawn)
    assert found.marker_ids == tuple(card.marker_id for card in laid)
    middle = np.array([[columns / 2, rows / 2]])
    error = found.log_scale(middle) - plane.log_scale(middle)
    assert np.abs(error).max() < (0.002 if cards == 4 else 0.01)
