"""A lens profile from photos of the printed ChArUco board."""

import math
from dataclasses import dataclass
from functools import cache

import cv2
import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import (
    BoardMisfitError,
    BoardPhotosAlikeError,
    MixedCamerasError,
    TooFewBoardPhotosError,
)
from fishmeasure.photo.image import Photo
from fishmeasure.photo.lens import LensProfile
from fishmeasure.photo.lens_board import BOARD

MIN_PHOTOS = 5
MIN_CORNERS = 12
"""Of 40 in a photo: a third of the board."""

FOCAL_FLOOR = 0.006
"""Relative sd that no number of photos removes: focusing from 400 to 700 mm moves a
phone's lens of 5.6 mm by 5.6/400 - 5.6/700 of its focal length (thin lens law)."""

K1_FLOOR = 0.005
"""The same for the distortion, which changes with focus (rule of thumb)."""

_MAX_RMS_PX = 2.0  # of a 12 MP photo; a bent board or moving camera gives more
_MIN_TURN_DEG = 15.0
"""Between the two most different views. Photos all from straight above leave the
focal length to noise: distance and focal length trade off (Zhang 2000, sect. 3.4)."""

_REFERENCE_DIAGONAL_PX = 5040.0  # 12 MP, to which the limit above belongs


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoardView:
    """The board's inner corners in one photo.

    ``board_mm`` (n, 2) on the board, ``photo_px`` (n, 2) in the photo less its
    middle.
    """

    board_mm: FloatArray
    photo_px: FloatArray


@cache
def _detector() -> cv2.aruco.CharucoDetector:
    return cv2.aruco.CharucoDetector(BOARD.pattern())


def find_board(photo: Photo) -> BoardView | None:
    """Return the board's corners, or None where too little of it is seen."""
    grey = cv2.cvtColor(np.asarray(photo.rgb), cv2.COLOR_RGB2GRAY)
    found, ids, _, _ = _detector().detectBoard(grey)
    # Where there is no corner OpenCV gives None, which its types do not say.
    numbers = np.ravel([] if found is None else np.asarray(ids))  # type: ignore[redundant-expr]
    if len(numbers) < MIN_CORNERS:
        return None
    on_board = np.asarray(BOARD.pattern().getChessboardCorners(), np.float64)
    points = photo.to_display(np.asarray(found, np.float64).reshape(-1, 2))
    middle = np.array([photo.width_px - 1, photo.height_px - 1]) / 2.0
    return BoardView(
        board_mm=on_board.reshape(-1, 3)[numbers.astype(int), :2],
        photo_px=points - middle,
    )


def calibrate_lens(photos: list[Photo], name: str) -> LensProfile:
    """Return the profile of the camera that took photos of the board.

    The optical axis is held at the photo's middle and only the first radial
    coefficient is free, as in every photo of fish; Zhang's method (2000) by OpenCV.

    Parameters
    ----------
    photos
        Of the board, from different sides; landscape and portrait may be mixed.
    name
        For the profile.

    Raises
    ------
    LensError
        If too few photos show the board, they are from different cameras, do not
        fit one lens, or cannot tell the focal length.
    """
    diagonals = [math.hypot(photo.width_px, photo.height_px) for photo in photos]
    if len({photo.camera_model for photo in photos}) > 1 or (
        photos and max(diagonals) > 1.01 * min(diagonals)
    ):
        raise MixedCamerasError
    views = [view for photo in photos if (view := find_board(photo)) is not None]
    if len(views) < MIN_PHOTOS:
        raise TooFewBoardPhotosError(len(views), len(photos), MIN_PHOTOS)
    fit = _zhang(views, diagonals[0])
    if fit.rms_px > _MAX_RMS_PX * diagonals[0] / _REFERENCE_DIAGONAL_PX:
        raise BoardMisfitError(fit.rms_px)
    if fit.turn_deg < _MIN_TURN_DEG:
        raise BoardPhotosAlikeError
    return LensProfile(
        name=name,
        camera_model=photos[0].camera_model,
        focal_fraction=fit.focal_px / diagonals[0],
        focal_relative_sd=math.hypot(fit.focal_sd_px / fit.focal_px, FOCAL_FLOOR),
        k1=fit.k1,
        k1_sd=math.hypot(fit.k1_sd, K1_FLOOR),
        photo_count=len(views),
        rms_px=fit.rms_px,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fit:
    """``turn_deg``: angle between the two most different views of the board."""

    focal_px: float
    focal_sd_px: float
    k1: float
    k1_sd: float
    rms_px: float
    turn_deg: float


def _zhang(views: list[BoardView], diagonal_px: float) -> _Fit:
    side = math.ceil(diagonal_px)
    middle = (side - 1) / 2.0
    start = np.array([[0.6 * side, 0, middle], [0, 0.6 * side, middle], [0, 0, 1.0]])
    on_board = [
        np.column_stack([view.board_mm, np.zeros(len(view.board_mm))]).astype(
            np.float32
        )
        for view in views
    ]
    in_photo = [(view.photo_px + middle).astype(np.float32) for view in views]
    rms, matrix, distortion, turns, _, sds, _, _ = cv2.calibrateCameraExtended(
        on_board,
        in_photo,
        (side, side),
        start,
        np.zeros(5),
        flags=cv2.CALIB_USE_INTRINSIC_GUESS
        | cv2.CALIB_FIX_PRINCIPAL_POINT
        | cv2.CALIB_FIX_ASPECT_RATIO
        | cv2.CALIB_ZERO_TANGENT_DIST
        | cv2.CALIB_FIX_K2
        | cv2.CALIB_FIX_K3,
    )
    spread = np.ravel(np.asarray(sds))  # fx, fy, cx, cy, k1, ...
    normals = np.array([np.asarray(cv2.Rodrigues(turn)[0])[:, 2] for turn in turns])
    cosine = float(np.clip(normals @ normals.T, -1.0, 1.0).min())
    return _Fit(
        focal_px=float(np.asarray(matrix)[0, 0]),
        focal_sd_px=float(max(spread[0], spread[1])),
        k1=float(np.ravel(np.asarray(distortion))[0]),
        k1_sd=float(spread[4]),
        rms_px=float(rms),
        turn_deg=math.degrees(math.acos(cosine)),
    )
