"""Lens profiles: measured from drawn photos of the board with a known lens."""

import json
from dataclasses import replace

import cv2
import numpy as np
import pypdfium2
import pytest

from fishmeasure.base.errors import (
    BoardMisfitError,
    BoardPhotosAlikeError,
    LensFileError,
    MixedCamerasError,
    TooFewBoardPhotosError,
)
from fishmeasure.photo.image import Photo
from fishmeasure.photo.lens import LensProfile, lens_to_text, read_lens
from fishmeasure.photo.lens_calibration import calibrate_lens
from fishmeasure.photo.markers.camera import camera_prior
from fishmeasure.render.sheet import design_page, page_pdf
from sample_images.synth.plane import PlaneScene, photograph_page

DOTS_PER_MM = 4.0
PROFILE = LensProfile(
    name="mine",
    camera_model="Maker Phone",
    focal_fraction=0.6,
    focal_relative_sd=0.007,
    k1=0.02,
    k1_sd=0.006,
    photo_count=8,
    rms_px=0.3,
)
VIEW = PlaneScene(
    width_px=800,
    height_px=600,
    focal_px=620.0,
    k1=0.06,
    look_at_mm=(148.5, 100.0),
    distance_mm=330.0,
    sheet_mm=None,
    board=0.3,
)
TILTS = [(0, 0), (25, 0), (25, 90), (30, 180), (30, 270), (35, 45), (20, 225)]


def photos(tilts: list[tuple[int, int]], model: str = "Maker Phone") -> list[Photo]:
    page = pypdfium2.PdfDocument(page_pdf(design_page("lens-board", "A4")))[0]
    rendered = page.render(scale=DOTS_PER_MM * 25.4 / 72, grayscale=True).to_numpy()
    grey = np.asarray(rendered, np.uint8).reshape(rendered.shape[:2])
    taken = []
    for number, (tilt, towards) in enumerate(tilts):
        scene = replace(VIEW, tilt_deg=float(tilt), tilt_towards_deg=float(towards))
        rng = np.random.default_rng(number)
        rgb = photograph_page(grey, DOTS_PER_MM, scene, rng)
        if number == 1:  # one photo held upright
            rgb = np.ascontiguousarray(np.rot90(rgb))
        taken.append(
            Photo(
                name=f"{number}.jpg",
                rgb=rgb,
                width_px=rgb.shape[1],
                height_px=rgb.shape[0],
                camera_model=model,
            )
        )
    return taken


def test_focal_length_and_distortion_are_recovered() -> None:
    """Within 0.3 % and 0.003 of the lens that drew the photos."""
    profile = calibrate_lens(photos(TILTS), "mine")
    assert profile.focal_fraction * 1000.0 == pytest.approx(620.0, rel=0.003)
    assert profile.k1 == pytest.approx(0.06, abs=0.003)
    assert profile.camera_model == "Maker Phone"
    assert profile.photo_count == len(TILTS)
    assert profile.rms_px < 0.2
    assert profile.focal_relative_sd < 0.01


def test_photos_that_cannot_tell_are_refused() -> None:
    """Too few, mixed cameras, or all from straight above."""
    some = photos([(0, 0)])
    with pytest.raises(TooFewBoardPhotosError, match="1 of 1 photos; 5"):
        calibrate_lens(some, "mine")
    with pytest.raises(TooFewBoardPhotosError):
        calibrate_lens([], "mine")
    with pytest.raises(MixedCamerasError):
        calibrate_lens([*some, replace(some[0], camera_model="Other")], "mine")
    with pytest.raises(BoardPhotosAlikeError, match="too alike"):
        calibrate_lens(some * 5, "mine")


def test_a_board_that_is_not_flat_is_refused() -> None:
    """Waves of 6 pixels across the photos are no lens of this kind."""
    rows, columns = np.mgrid[0 : VIEW.height_px, 0 : VIEW.width_px].astype(np.float32)
    waved = rows + 6.0 * np.sin(columns / 40.0)
    level = [photo for photo in photos(TILTS) if photo.width_px == VIEW.width_px]
    bad = []
    for photo in level:
        seen = cv2.remap(photo.rgb, columns, waved, cv2.INTER_LINEAR)
        bad.append(replace(photo, rgb=np.asarray(seen, np.uint8)))
    with pytest.raises(BoardMisfitError, match="do not fit one lens"):
        calibrate_lens(bad, "mine")


def test_profile_survives_its_file() -> None:
    """What is written is read back."""
    assert read_lens(lens_to_text(PROFILE), "lens.json") == PROFILE


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"k1": "0.1"}, "k1 must be a number"),
        ({"k1": 5}, "k1 must be 0.6 or less, not 5"),
        ({"focal_fraction": None}, "focal_fraction must be a number"),
        ({"camera_model": 3}, "camera_model must be text"),
        ({"extra": 1}, "'extra' is not known here"),
    ],
)
def test_bad_profiles_say_what_is_wrong(change: dict[str, object], reason: str) -> None:
    """Each wrong value is named."""
    data = {**json.loads(lens_to_text(PROFILE)), **change}
    with pytest.raises(LensFileError, match=reason):
        read_lens(json.dumps(data), "lens.json")
    with pytest.raises(LensFileError, match="not JSON"):
        read_lens("{", "lens.json")


def test_a_profile_serves_its_own_camera_only() -> None:
    """Another model's photo falls back on EXIF."""
    photo = Photo(
        name="a.jpg",
        rgb=np.zeros((30, 40, 3), np.uint8),
        width_px=4000,
        height_px=3000,
        focal_length_px=3100.0,
        camera_model="Maker Phone",
    )
    mine = camera_prior(photo, PROFILE)
    assert mine.source == "lens-profile"
    assert mine.focal_px == pytest.approx(3000.0)
    assert mine.k1 == pytest.approx(0.02)
    other = camera_prior(replace(photo, camera_model="Other"), PROFILE)
    assert other.source == "exif"
    assert other.focal_px == pytest.approx(3100.0)


def test_a_profile_is_not_for_a_part_of_the_picture() -> None:
    """Cut to 0.7 of its sides, a picture's diagonal is 0.7 of the camera's.

    The profile's 0.3 % would then be 43 % wrong: it begins as one that tells nothing.
    """
    whole = Photo(
        name="a.jpg",
        rgb=np.zeros((30, 40, 3), np.uint8),
        width_px=4000,
        height_px=3000,
        camera_model=PROFILE.camera_model,
        focal_length_px=3000.0,
    )
    assert camera_prior(whole, PROFILE).source == "lens-profile"
    cut = replace(whole, was_cut=True, focal_length_px=None)
    forwarded = replace(whole, width_px=3100, focal_length_px=None, camera_model="")
    for photo in (cut, forwarded):
        prior = camera_prior(photo, PROFILE)
        assert prior.source == "typical"
        assert prior.focal_relative_sd > 0.25
    # without Exif, but of a camera's proportions: taken for whole
    whole = replace(whole, focal_length_px=None, camera_model="")
    assert camera_prior(whole, PROFILE).source == "lens-profile"
