"""The classical method on drawn boards, of which the outlines are known."""

import functools

import cv2
import numpy as np
import pytest

from fishmeasure.colour import linear_to_srgb, srgb_to_linear
from fishmeasure.length import FishShape, measure_length
from fishmeasure.markers import find_plane
from fishmeasure.photo import Photo
from fishmeasure.plane import PlaneScale
from fishmeasure.segment import SEGMENTERS, BoardSegmenter, FishOutline
from fishmeasure.synth.fish import DrawnFish, FishTruth, draw_fish
from fishmeasure.synth.plane import PlaneScene, draw_plane, sheet_cards, true_plane

SHAPE = FishShape(depth_per_fork_length=0.22, depth_per_fork_length_sd=0.02)
SCENE = PlaneScene(
    width_px=1632,
    height_px=1224,
    focal_px=1210.0,
    distance_mm=640.0,
    tilt_deg=6.0,
    cards=sheet_cards("A4"),
)
FISH = (
    DrawnFish(x_mm=150.0, y_mm=-70.0, heading_deg=10.0),
    DrawnFish(x_mm=160.0, y_mm=105.0, heading_deg=170.0, fork_length_mm=200.0),
    DrawnFish(x_mm=150.0, y_mm=280.0, heading_deg=185.0, bend_deg=30.0),
)
TINTS = {
    "white": (3.5, 3.5, 3.5),
    "dark": (0.3, 0.3, 0.3),
    "blue": (0.4, 0.8, 2.5),
    "green": (0.4, 1.6, 0.7),
    "wood": (2.6, 1.6, 0.8),
}


@functools.cache
def drawn(
    fish: tuple[DrawnFish, ...], board: str = "dark", cast: str = "none"
) -> tuple[Photo, tuple[FishTruth, ...]]:
    """Return a photo of a sheet on a coloured board with fish on and around it."""
    rng = np.random.default_rng(7)
    light = srgb_to_linear(draw_plane(SCENE, rng)).astype(np.float64)
    paper = (cv2.GaussianBlur(light[..., 0], (0, 0), 1.5) > 0.3)[..., None]
    light = np.where(paper, light, light * TINTS[board])
    plane = true_plane(SCENE)
    truths = tuple(draw_fish(light, each, plane, rng) for each in fish)
    light = np.asarray(cv2.GaussianBlur(light, (0, 0), 0.7), np.float64)
    light *= {"none": (1.0, 1.0, 1.0), "warm": (1.1, 0.9, 0.6)}[cast]
    light += rng.normal(scale=0.004, size=light.shape) * np.sqrt(light + 0.02)
    rgb = linear_to_srgb(np.clip(light, 0.0, 1.0).astype(np.float32))
    photo = Photo(name="drawn", rgb=rgb, width_px=1632, height_px=1224)
    return photo, truths


@functools.cache
def plane_of(photo: Photo) -> PlaneScale:
    return find_plane(photo)


@functools.cache
def found(photo: Photo) -> tuple[FishOutline, ...]:
    return BoardSegmenter().find(photo, plane_of(photo))


def overlap(outline: FishOutline, truth: FishTruth) -> float:
    """Return intersection over union of the two outlines."""
    masks = []
    for polygon in (outline.contour_px, truth.outline_px):
        mask = np.zeros((1224, 1632), np.uint8)
        cv2.fillPoly(mask, [np.round(polygon).astype(np.int32)], (1,))
        masks.append(mask > 0)
    return float((masks[0] & masks[1]).sum() / (masks[0] | masks[1]).sum())


@pytest.mark.parametrize("board", TINTS)
def test_every_fish_is_outlined_and_nothing_else(board: str) -> None:
    """The sheet, its markers and its text are in view and are no fish."""
    photo, truths = drawn(FISH, board)
    outlines = found(photo)
    assert len(outlines) == len(truths)
    for truth in truths:
        assert max(overlap(outline, truth) for outline in outlines) > 0.9


@pytest.mark.parametrize("board", TINTS)
def test_lengths_from_outlines_are_right(board: str) -> None:
    """Truth of the drawing; the project's target is 1 % in the mean."""
    photo, _ = drawn(FISH, board)
    lengths = [
        measure_length(outline, plane_of(photo), SHAPE).fork_length_mm.value
        for outline in found(photo)
    ]
    errors = np.sort(lengths) / np.sort([each.fork_length_mm for each in FISH]) - 1.0
    assert np.mean(np.abs(errors)) < 0.01


def test_a_colour_cast_changes_nothing() -> None:
    photo, truths = drawn(FISH, "wood", cast="warm")
    assert len(found(photo)) == len(truths)


def test_an_empty_board_holds_no_fish() -> None:
    photo, _ = drawn((), "wood")
    assert found(photo) == ()


def test_a_fish_over_the_edge_is_said_to_be_cut() -> None:
    photo, _ = drawn((DrawnFish(x_mm=-280.0, y_mm=60.0),), "green")
    (outline,) = found(photo)
    assert "edge-cut" in outline.flags


def test_outlines_come_in_reading_order() -> None:
    photo, _ = drawn(FISH, "green")
    rows = [outline.contour_px[:, 1].mean() for outline in found(photo)]
    assert rows == sorted(rows)


def test_a_reduced_photo_gives_the_same_outlines() -> None:
    """Half the raster: the outline's place in the photo must not shift."""
    photo, truths = drawn(FISH, "green")
    small = cv2.resize(photo.rgb, (816, 612), interpolation=cv2.INTER_AREA)
    rgb = np.asarray(small, np.uint8)
    half = Photo(name="half", rgb=rgb, width_px=1632, height_px=1224, reduction=2)
    outlines = BoardSegmenter().find(half, plane_of(photo))
    for truth in truths:
        assert max(overlap(outline, truth) for outline in outlines) > 0.9


def test_the_method_is_in_the_table() -> None:
    assert SEGMENTERS["boards"].name == "boards"
