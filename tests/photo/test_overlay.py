"""The picture for people."""

import io
import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from PIL import Image

from fishmeasure.base.arrays import ByteArray, FloatArray
from fishmeasure.base.flags import Problem
from fishmeasure.base.words import wording
from fishmeasure.photo import overlay
from fishmeasure.photo.image import Photo
from fishmeasure.photo.label_layout import LabelLayout, load_font, text_size_px, wrap
from fishmeasure.photo.length import FishLength
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement, weighed
from fishmeasure.photo.overlay import draw_overlay, overlay_jpeg
from fishmeasure.photo.plane import CameraModel, PlaneScale
from fishmeasure.species import load_species

GREY = 128


def photo(width_px: int = 2000, height_px: int = 1500, reduction: int = 1) -> Photo:
    shape = (height_px // reduction, width_px // reduction, 3)
    rgb = np.full(shape, GREY, dtype=np.uint8)
    rgb.flags.writeable = False
    return Photo(
        name="grey.jpg",
        rgb=rgb,
        width_px=width_px,
        height_px=height_px,
        reduction=reduction,
    )


def plane(method: str = "sheet") -> PlaneScale:
    camera = CameraModel(focal_px=1500.0, centre_x_px=1000.0, centre_y_px=750.0)
    return PlaneScale(
        method="known-distance" if method == "known-distance" else "sheet",
        marker_ids=() if method == "known-distance" else (0, 2),
        camera=camera,
        rotation=np.eye(3),
        translation_mm=np.array([0.0, 0.0, 600.0]),
        tilt_deg=4.2,
        camera_height_mm=600.0,
        px_per_mm=2.5,
        relative_se=0.0031,
        rms_residual_mm=0.1,
        markers_px=np.array([[[20.0, 20.0], [120, 20], [120, 120], [20, 120]]]),
    )


def ellipse(centre: tuple[float, float], half_length: float) -> FloatArray:
    turn = np.linspace(0.0, 2.0 * math.pi, 121)[:-1]
    points = np.column_stack([np.cos(turn), 0.25 * np.sin(turn)])
    outline: FloatArray = np.asarray(centre) + half_length * points
    return outline


def fish(
    centre: tuple[float, float] = (1000.0, 750.0),
    half_length: float = 300.0,
    flags: tuple[str, ...] = (),
    *,
    complete: bool = True,
) -> MeasuredFish:
    middle = np.linspace(-half_length, half_length, 21)
    midline = np.asarray(centre) + np.column_stack([middle, np.zeros(21)])
    length = FishLength(
        fork_length_mm=half_length * 0.8,
        fork_length_se_mm=1.0,
        total_length_mm=half_length * 0.84,
        total_length_se_mm=1.0,
        standard_length_mm=half_length * 0.74,
        standard_length_se_mm=1.0,
        body_depth_mm=50.0,
        body_depth_se_mm=1.0,
        thickness_mm=25.0,
        area_mm2=9000.0,
        bend_deg=0.0,
        outline_px=ellipse(centre, half_length),
        midline_px=midline,
        snout_px=midline[0],
        fork_px=midline[-1],
        confidence=0.95,
        complete=complete,
        flags=flags,
    )
    return weighed(length, load_species("rainbow-trout"))


def is_near(picture: ByteArray, colour: tuple[int, int, int]) -> FloatArray:
    difference = np.abs(picture.astype(np.int16) - np.asarray(colour)).max(axis=2)
    near: FloatArray = (difference < 40).astype(np.float64)
    return near


def painted_fraction(picture: ByteArray, one: MeasuredFish, scale: float) -> float:
    """Return how much of the outline carries ink, of 2000 points along it."""
    contour = one.outline_px
    closed = np.vstack([contour, contour[:1]])
    at = np.linspace(0.0, len(contour), 2001)[:-1]
    x, y = (np.interp(at, np.arange(len(closed)), closed[:, k]) for k in (0, 1))
    columns = np.round((x + 0.5) * scale - 0.5).astype(int)
    rows = np.round((y + 0.5) * scale - 0.5).astype(int)
    return float((picture[rows, columns] != GREY).any(axis=1).mean())


def test_colours_are_those_of_okabe_and_ito() -> None:
    """Okabe & Ito 2008, Color Universal Design: RGB in 0-255."""
    assert overlay.SKY_BLUE == (86, 180, 233)
    assert overlay.YELLOW == (240, 228, 66)
    assert overlay.VERMILLION == (213, 94, 0)
    assert overlay.REDDISH_PURPLE == (204, 121, 167)


def test_classes_differ_in_lightness_too() -> None:
    """Relative luminance (WCAG 2, sRGB) of used, doubtful, excluded: 1.3 apart.

    1.3 = common practice, no source; excluded fish are dashed besides.
    """

    def luminance(colour: tuple[int, int, int]) -> float:
        linear = [
            c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4
            for c in (value / 255.0 for value in colour)
        ]
        return float(np.dot([0.2126, 0.7152, 0.0722], linear))

    colours = (overlay.SKY_BLUE, overlay.YELLOW, overlay.VERMILLION)
    for one, other in combinations(map(luminance, colours), 2):
        assert max(one, other) + 0.05 > 1.3 * (min(one, other) + 0.05)


@pytest.mark.parametrize(
    ("width_px", "expected_px"), [(320, 780), (1000, 1000), (4000, 1600)]
)
def test_the_width_is_kept_in_limits(width_px: int, expected_px: int) -> None:
    """Small photos are enlarged, large ones reduced; the strip adds height."""
    picture = draw_overlay(photo(width_px, width_px // 2), plane(), ())
    assert picture.shape[1] == expected_px
    assert picture.shape[0] > expected_px // 2
    assert picture.dtype == np.uint8


@pytest.mark.parametrize("width_px", [640, 4000])
def test_text_reads_when_the_picture_is_390_px_wide(width_px: int) -> None:
    """Capitals are 8 px high or more then, as those of an 11 pt phone text.

    An 11 pt text is the smallest that phone systems' guides advise (from memory);
    its capitals are about 0.72 em.
    """
    canvas = overlay._Canvas(photo(width_px, width_px))
    left, top, right, bottom = load_font(canvas.text_px).getbbox("H")
    assert (bottom - top) * 390.0 / canvas.width_px >= 8.0
    assert right > left


@pytest.mark.parametrize("reduction", [1, 2])
def test_the_outline_is_drawn_where_it_is(reduction: int) -> None:
    """Coordinates are of the photo at full size, whatever the raster's."""
    one = fish()
    picture = draw_overlay(photo(reduction=reduction), plane(), [one])
    assert painted_fraction(picture, one, 0.8) > 0.99


def test_the_outline_is_centred_on_its_line() -> None:
    """A horizontal edge at y = 900.0 is painted about (900.5 * 0.8 - 0.5)."""
    one = fish()
    square = np.array([[500.0, 500.0], [1500, 500], [1500, 900], [500, 900]])
    picture = draw_overlay(photo(), plane(), [replace(one, outline_px=square)])
    column = is_near(picture, overlay.SKY_BLUE)[690:750, 500]
    rows = np.arange(690, 750)
    assert float((rows * column).sum() / column.sum()) == pytest.approx(719.9, abs=0.6)


def test_an_excluded_fish_is_dashed_and_says_why() -> None:
    """Line style tells it as well as colour does."""
    one = fish(flags=("touching",), complete=False)
    picture = draw_overlay(photo(), plane(), [one])
    assert 0.4 < painted_fraction(picture, one, 0.8) < 0.9
    assert overlay._label_lines(3, one) == ["3 not used", "touching"]
    assert is_near(picture, overlay.SKY_BLUE).sum() == 0


def test_a_label_gives_length_weight_and_doubts() -> None:
    """The book's doubt is in the footer, once; the others are on the label."""
    one = fish(flags=("bent",))
    grams = one.weight_g
    assert overlay._label_lines(1, one) == [
        "1: 240\N{THIN SPACE}±\N{THIN SPACE}1 mm",
        f"{grams:.0f} g",
        "bent",
    ]
    bare = replace(one, weight_g=None)
    assert overlay._label_lines(2, bare) == [
        "2: 240\N{THIN SPACE}±\N{THIN SPACE}1 mm",
        "bent",
    ]
    assert overlay._label_lines(2, bare, with_error=False)[0] == "2: 240 mm"


def test_the_footer_says_scale_tilt_and_fish_used() -> None:
    """With the book's caution only where a book was used."""
    school = [fish(), fish(flags=("hidden",), complete=False)]
    assert overlay._footer(plane(), school) == (
        "Scale: sheet 0, 2 · ±0.3 % · tilt 4° · 1 of 2 fish used · "
        "weights as rainbow-trout, from the published line alone · "
        "standard error 25 % · lengths: standard error 1 mm"
    )
    bare = [replace(school[0], flags=())]
    assert overlay._footer(plane("known-distance"), bare) == (
        "Scale: known distance · ±0.3 % · tilt 4° · 1 of 1 fish used · "
        "lengths: standard error 1 mm"
    )
    assert overlay._footer(None, ()) == "No scale · 0 of 0 fish used"


def test_the_strip_says_why_a_photo_was_refused_or_is_doubtful() -> None:
    """In the words of the trade; a doubt in yellow, below."""
    refused = Problem(code="no-marker", message="No marker.", fatal=True)
    assert overlay._footer(None, (), (refused,)) == (
        "Not measured: no printed marker seen"
    )
    tilted = Problem(code="tilted", message="Tilted.")
    assert "Not measured" not in overlay._footer(plane(), [fish()], (tilted,))
    assert overlay._warning((refused, tilted)) == "Look: the phone was tilted"
    plain = draw_overlay(photo(), plane(), [fish()])
    warned = draw_overlay(photo(), plane(), [fish()], (tilted,))
    assert warned.shape[0] > plain.shape[0]
    assert is_near(warned[plain.shape[0] :], overlay.YELLOW).sum() > 100
    assert is_near(plain[1200:], overlay.YELLOW).sum() == 0


def test_a_weight_is_written_in_the_units_of_the_trade() -> None:
    """Grams to three figures, then kilograms."""
    written = [
        wording("overlay-weight", weight_g=w) for w in (3.456, 45.67, 345.6, 1234.5)
    ]
    assert written == ["3.5 g", "46 g", "346 g", "1.23 kg"]


def test_labels_keep_clear_of_fish_and_of_each_other() -> None:
    """Twelve fish in rows leave room between them, and it is used."""
    layout = LabelLayout(1600, 1200)
    centres = [(200.0 + 400 * i, 200.0 + 400 * j) for j in range(3) for i in range(4)]
    for centre in centres:
        layout.occupy(ellipse(centre, 150.0))
    boxes = [layout.place((220, 100), centre) for centre in centres]
    for a, b in combinations(boxes, 2):
        apart_x = a.left + a.width <= b.left or b.left + b.width <= a.left
        apart_y = a.top + a.height <= b.top or b.top + b.height <= a.top
        assert apart_x or apart_y
    for box, centre in zip(boxes, centres, strict=True):
        assert 0 <= box.left <= 1600 - box.width
        assert 0 <= box.top <= 1200 - box.height
        x, y = box.nearest(centre)
        assert math.hypot(x - centre[0], y - centre[1]) < 100.0
        for outline in (ellipse(c, 150.0) for c in centres):
            inside_x = (outline[:, 0] > box.left + 8) & (
                outline[:, 0] < box.left + box.width - 8
            )
            inside_y = (outline[:, 1] > box.top + 8) & (
                outline[:, 1] < box.top + box.height - 8
            )
            assert not (inside_x & inside_y).any()


def test_a_label_grows_only_over_what_is_free() -> None:
    """To the side where nothing lies, within the picture; else it stays."""
    layout = LabelLayout(1600, 1200)
    box = layout.place((200, 100), (800.0, 600.0))
    right = layout.widen(box, 280)
    assert right is not None
    assert (right.left, right.top, right.width) == (box.left, box.top, 280)
    crowded = LabelLayout(1600, 1200)
    box = crowded.place((200, 100), (800.0, 600.0))
    crowded.occupy(ellipse((box.left + 260.0, box.top + 50.0), 40.0))
    left = crowded.widen(box, 280)
    assert left is not None
    assert left.left == box.left - 80
    crowded.occupy(ellipse((left.left - 60.0, box.top + 50.0), 40.0))
    assert crowded.widen(left, 360) is None


def test_a_label_larger_than_the_picture_does_not_fail() -> None:
    """A strip of a photo still gets its labels, cut off."""
    assert LabelLayout(100, 40).place((300, 80), (50.0, 20.0)).left == 0


def test_many_fish_get_short_labels() -> None:
    """Labels that would cover over a fifth of the picture drop to the length."""
    school = [fish((200.0 * i, 150.0 * j), 80.0) for i in range(10) for j in range(9)]
    full = sum(math.prod(_size(overlay._label_lines(1, one))) for one in school)
    assert full > 0.2 * 1600 * 1200
    assert draw_overlay(photo(), plane(), school).shape[1] == 1600


def _size(lines: list[str]) -> tuple[int, int]:
    return text_size_px(lines, load_font(47), 6)


def test_text_is_wrapped_at_its_dots() -> None:
    """No line is wider than asked for, unless one part alone is."""
    font = load_font(20)
    lines = wrap("Scale: sheet · tilt 4° · 3 of 4 fish used", font, 260)
    assert lines == ["Scale: sheet · tilt 4°", "3 of 4 fish used"]
    assert all(font.getlength(line) <= 260 for line in lines)


def test_the_jpeg_is_the_picture_and_the_photo_is_left_alone() -> None:
    """Bytes that Pillow reads back; the input is not drawn on."""
    picture, school = photo(), [fish()]
    measured = PhotoMeasurement(
        photo="a.jpg", width_px=2000, height_px=1500, scale=plane(), fish=tuple(school)
    )
    data = overlay_jpeg(picture, measured)
    back = np.asarray(Image.open(io.BytesIO(data)))
    drawn = draw_overlay(picture, plane(), school)
    assert back.shape == drawn.shape
    assert np.abs(back.astype(int) - drawn).mean() < 3.0
    assert (picture.rgb == GREY).all()


def test_the_same_fish_give_the_same_picture() -> None:
    """Nothing in it is random."""
    one = draw_overlay(photo(), plane(), [fish()])
    assert (one == draw_overlay(photo(), plane(), [fish()])).all()


def test_without_a_plane_or_fish_the_photo_is_shown() -> None:
    """A photo that can't be measured is shown with the reason's strip."""
    picture = draw_overlay(photo(), None, ())
    assert (picture[:1200] == GREY).all()
