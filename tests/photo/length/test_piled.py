"""A fish that lies on others is nearer the camera and aslope: by similar triangles."""

import math
from dataclasses import replace
from typing import Final

import numpy as np
import pytest

from fishmeasure.photo.length.budget import ON_OTHERS, Course, error_sources
from fishmeasure.photo.length.parallax import Camera, Pose
from fishmeasure.photo.length.piled import (
    RAISED_SHARE,
    RAISED_SHARE_SD,
    SHORTER,
    SHORTER_SD,
    TILT_SD,
    piled,
)
from tests.photo.length.test_measure import seen_from

H: Final = 600.0
CAMERA: Final = Camera(foot_mm=np.zeros(2), height_mm=H)
LEVEL: Final = Pose(half_thickness_mm=15.0, snout_share=1.0, fork_share=1.0)
COURSE: Final = Course(
    points_mm=np.column_stack([np.linspace(-125.0, 125.0, 48), np.zeros(48)])
)


def test_a_fish_on_the_board_is_as_before() -> None:
    assert piled(LEVEL, 0.0) == LEVEL


def test_one_on_others_is_shorter_by_their_height_and_longer_by_its_slant() -> None:
    """Its axis lies 15 mm and RAISED_SHARE of its 30 mm up, of 600 mm."""
    up_mm = 15.0 + RAISED_SHARE * 30.0
    true_mm = 250.0 * (H - up_mm) / H * (1.0 + SHORTER)
    assert COURSE.length_mm(CAMERA, piled(LEVEL, 1.0)) == pytest.approx(true_mm)


def test_where_it_is_not_known_its_error_is_that_of_a_throw_of_a_coin() -> None:
    """Half the height, and an error of half of it beside that of the height itself."""
    half = piled(LEVEL, 0.5)
    assert half.clear_mm == pytest.approx(0.5 * RAISED_SHARE * 30.0)
    sd_mm = 30.0 * math.sqrt(0.5 * RAISED_SHARE_SD**2 + 0.25 * RAISED_SHARE**2)
    assert half.clear_own_sd_mm == pytest.approx(sd_mm)
    assert half.clear_own_sd_mm > piled(LEVEL, 0.01).clear_own_sd_mm


def test_its_error_is_in_the_length() -> None:
    """So much of the height that is left below the camera, and of the slant."""
    pose = piled(LEVEL, 1.0)
    plane = seen_from(H, tilt_deg=0.0, towards_deg=0.0)
    sources = error_sources(COURSE, CAMERA, pose, plane)
    found = next(one for one in sources if one.name == ON_OTHERS)
    up_mm = 15.0 + pose.clear_mm
    of_height = RAISED_SHARE_SD * 30.0 / (H - up_mm)
    assert found.scope == "fish"
    assert found.relative_sd == pytest.approx(
        math.hypot(of_height, SHORTER_SD), rel=2e-2
    )
    # Ends 250 mm TILT_SD apart in height, the camera 400 mm off along the fish: the
    # higher end moves by 400 of some 570 mm of that.
    aside = Camera(foot_mm=np.array([400.0, 0.0]), height_mm=H)
    slanting = next(
        one
        for one in error_sources(COURSE, aside, pose, plane)
        if one.name == ON_OTHERS
    )
    moved = TILT_SD * 400.0 / (H - up_mm)
    assert slanting.relative_sd == pytest.approx(
        math.hypot(found.relative_sd, moved), rel=0.15
    )
    flat = error_sources(COURSE, CAMERA, replace(pose, aslope_sd=0.0), plane)
    assert all(one.name != ON_OTHERS for one in flat)
