"""Draw planes with printed markers under a camera, with known truth.

Light is physical up to the tone curve: reflectance is linear, the lens blurs
linear light, pixels integrate over their area, the sensor adds noise and clips,
and only then comes the sRGB curve. So bright paper bleeds into black print as in
a real photo.
"""

from collections.abc import Callable
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.arrays import ByteArray, FloatArray
from fishmeasure.photo.colour import linear_to_srgb, srgb_to_linear
from fishmeasure.photo.markers.pattern import CELLS, marker_cells
from fishmeasure.photo.markers.sheet import SIDE_MM, sheet_layout
from fishmeasure.photo.plane import CameraModel, PlaneScale

_STEPS = (np.arange(4) + 0.5) / 4 - 0.5
_OFFSETS = tuple((float(dx), float(dy)) for dx in _STEPS for dy in _STEPS)
"""Sub-samples of a pixel, for the mean over its area."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A white card with one printed marker in its middle; mm on the plane.

    ``card_mm`` is the side of the white square; 0 draws the marker alone, for
    markers on a sheet.
    """

    marker_id: int
    side_mm: float
    card_mm: float
    x_mm: float
    y_mm: float
    angle_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneScene:
    """What is in the photo and how it is taken.

    Attributes
    ----------
    width_px, height_px, focal_px, k1
        Of the camera, its centre in the middle of the photo.
    look_at_mm
        World point in the middle of the photo.
    distance_mm
        From the camera to it.
    tilt_deg, tilt_towards_deg
        Tilt of the optical axis, and the direction in the photo of the part of
        the plane that is farther away (0 right, 90 down).
    sheet_mm
        Width and height of a white sheet with its corner at (0, 0), or None.
    cards
        Markers, with or without their own card.
    board, paper, ink
        Linear reflectance, 0-1.
    exposure
        Factor before clipping at 1: paper clips above 1 / ``paper``.
    blur_px
        Standard deviation of the lens blur.
    noise_sd
        Of the sensor noise in linear light, at full exposure.
    """

    width_px: int = 1600
    height_px: int = 1200
    focal_px: float = 1250.0
    k1: float = 0.0
    look_at_mm: tuple[float, float] = (148.5, 105.0)
    distance_mm: float = 500.0
    roll_deg: float = 0.0
    tilt_deg: float = 0.0
    tilt_towards_deg: float = 0.0
    sheet_mm: tuple[float, float] | None = (297.0, 210.0)
    cards: tuple[Card, ...] = ()
    board: float = 0.15
    paper: float = 0.85
    ink: float = 0.04
    exposure: float = 0.9
    blur_px: float = 0.8
    noise_sd: float = 0.004


def true_plane(scene: PlaneScene) -> PlaneScale:
    """Return the scene's exact geometry as a ``PlaneScale`` without errors."""
    camera = CameraModel(
        focal_px=scene.focal_px,
        centre_x_px=(scene.width_px - 1) / 2.0,
        centre_y_px=(scene.height_px - 1) / 2.0,
        k1=scene.k1,
    )
    towards = np.radians(scene.tilt_towards_deg)
    # Turning about this axis moves the far side (direction ``towards``) away.
    axis = np.array([-np.sin(towards), np.cos(towards), 0.0])
    roll, _ = cv2.Rodrigues(np.array([0.0, 0.0, np.radians(scene.roll_deg)]))
    tilt, _ = cv2.Rodrigues(-axis * np.radians(scene.tilt_deg))
    rotation = np.asarray(tilt @ roll, dtype=np.float64)
    translation = np.array([0.0, 0.0, scene.distance_mm])
    translation = translation - rotation @ np.array([*scene.look_at_mm, 0.0])
    return PlaneScale(
        method="sheet",
        marker_ids=tuple(card.marker_id for card in scene.cards),
        camera=camera,
        rotation=rotation,
        translation_mm=translation,
        tilt_deg=scene.tilt_deg,
        camera_height_mm=scene.distance_mm * float(np.cos(np.radians(scene.tilt_deg))),
        px_per_mm=scene.focal_px / scene.distance_mm,
        relative_se=0.0,
        rms_residual_mm=0.0,
        markers_px=np.empty((0, 4, 2)),
    )


def sheet_cards(paper: str) -> tuple[Card, ...]:
    """Return the four markers of the calibration sheet on this paper."""
    layout = sheet_layout(paper)
    return tuple(
        Card(marker_id=marker_id, side_mm=SIDE_MM, card_mm=0.0, x_mm=x, y_mm=y)
        for marker_id, (x, y) in layout.centres_mm.items()
    )


def card_corners_mm(card: Card) -> FloatArray:
    """Return (4, 2) corners of the marker, clockwise from its own top-left."""
    half = card.side_mm / 2.0
    corners = np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    centre = np.array([card.x_mm, card.y_mm])
    placed: FloatArray = corners @ _turn(card.angle_deg).T + centre
    return placed


def draw_plane(scene: PlaneScene, rng: np.random.Generator) -> ByteArray:
    """Return the (rows, columns, 3) sRGB photo of the scene."""
    return _exposed(_render(scene), scene, rng)


def _exposed(
    light: NDArray[np.float32], scene: PlaneScene, rng: np.random.Generator
) -> ByteArray:
    """Return what lens, sensor and tone curve make of the light."""
    if scene.blur_px > 0.0:
        light = _blurred(light, scene.blur_px)
    light = light * np.float32(scene.exposure)
    # Shot noise grows with the root of the light; one electron floor below it.
    noise = rng.standard_normal(light.shape, dtype=np.float32)
    light = light + noise * np.sqrt(light + 0.02) * scene.noise_sd
    grey = linear_to_srgb(np.clip(light, 0.0, 1.0))
    return np.repeat(grey[:, :, None], 3, axis=2)


def photograph_page(
    grey: ByteArray, dots_per_mm: float, scene: PlaneScene, rng: np.random.Generator
) -> ByteArray:
    """Return the (rows, columns, 3) sRGB photo of a printed page lying at (0, 0).

    Parameters
    ----------
    grey
        The page, such as a PDF rendered at ``dots_per_mm``; white is ``paper``.
    dots_per_mm
        Resolution of ``grey``.
    scene
        Camera, light and board; its own sheet and cards are not drawn.
    """
    plane = true_plane(scene)
    reflectance = scene.ink + (scene.paper - scene.ink) * srgb_to_linear(grey)
    total = np.zeros((scene.height_px, scene.width_px), np.float32)
    # Fewer samples than for drawn edges: the page is smooth at its own resolution.
    quarters = [(dx, dy) for dx in (-0.25, 0.25) for dy in (-0.25, 0.25)]
    for dx, dy in quarters:
        columns, rows = np.meshgrid(
            np.arange(scene.width_px) + dx, np.arange(scene.height_px) + dy
        )
        world = plane.to_plane_mm(np.column_stack([columns.ravel(), rows.ravel()]))
        dots = (world * dots_per_mm - 0.5).astype(np.float32).reshape(*total.shape, 2)
        total += cv2.remap(
            reflectance,
            dots[:, :, 0],
            dots[:, :, 1],
            cv2.INTER_LINEAR,
            borderMode=cv2.BORDER_CONSTANT,
            borderValue=scene.board,
        )
    return _exposed(total / np.float32(len(quarters)), scene, rng)


def add_markers_to_photo(
    rgb: ByteArray, cards: tuple[Card, ...], plane: PlaneScale, *, blur_px: float = 0.8
) -> ByteArray:
    """Return a copy of the photo with printed cards laid on its plane.

    Parameters
    ----------
    rgb
        A real photo.
    cards
        Where they lie, in mm of ``plane``.
    plane
        Geometry of the photo, such as ``true_plane`` of a ``PlaneScene``.
    blur_px
        Of the drawn print, to match the photo.
    """
    drawn = rgb.copy()
    # Print takes the photo's light: paper as bright as its bright parts.
    coarse = srgb_to_linear(rgb[::10, ::10].reshape(-1, 3))
    bright = np.percentile(coarse, 98.0, axis=0).astype(np.float32)
    for card in cards:
        value, cover, window = _card_in_photo(card, plane, rgb.shape[:2])
        if value.size == 0:
            continue
        value = _blurred(value, blur_px)[:, :, None]
        cover = _blurred(cover, blur_px)[:, :, None]
        light = srgb_to_linear(drawn[window]) * (1.0 - cover) + value * bright
        drawn[window] = linear_to_srgb(np.clip(light, 0.0, 1.0))
    return drawn


def _blurred(light: NDArray[np.float32], sd_px: float) -> NDArray[np.float32]:
    return np.asarray(cv2.GaussianBlur(light, (0, 0), sd_px), np.float32)


def _turn(angle_deg: float) -> FloatArray:
    angle = np.radians(angle_deg)
    cos, sin = np.cos(angle), np.sin(angle)
    return np.array([[cos, -sin], [sin, cos]])


def _card_values(
    card: Card, points_mm: FloatArray, ink: float
) -> tuple[FloatArray, NDArray[np.bool_]]:
    """Return reflectance (n,), of paper 1, at world points; which are on the card."""
    local = (points_mm - np.array([card.x_mm, card.y_mm])) @ _turn(card.angle_deg)
    on_card = np.max(np.abs(local), axis=1) < max(card.card_mm, card.side_mm) / 2.0
    cell = np.floor((local / card.side_mm + 0.5) * CELLS).astype(int)
    printed = np.all((cell >= 0) & (cell < CELLS), axis=1)
    row, column = np.clip(cell[:, 1], 0, CELLS - 1), np.clip(cell[:, 0], 0, CELLS - 1)
    white = marker_cells(card.marker_id)[row, column] | ~printed
    return np.where(white, 1.0, ink), on_card


def _render(scene: PlaneScene) -> NDArray[np.float32]:
    """Return linear light, each pixel the mean of its area."""
    plane = true_plane(scene)
    light = np.full((scene.height_px, scene.width_px), scene.board, np.float32)
    if scene.sheet_mm is not None:
        value, cover, window = _sheet_in_photo(scene.sheet_mm, plane, light.shape)
        light[window] = light[window] * (1.0 - cover) + value * scene.paper
    for card in scene.cards:
        ink = scene.ink / scene.paper
        value, cover, window = _card_in_photo(card, plane, light.shape, ink)
        light[window] = light[window] * (1.0 - cover) + value * scene.paper
    return light


_Print = tuple[NDArray[np.float32], NDArray[np.float32], tuple[slice, slice]]
"""Reflectance (of paper 1) times cover, cover, and the window of the photo."""


def _sheet_in_photo(
    size_mm: tuple[float, float], plane: PlaneScale, shape: tuple[int, ...]
) -> _Print:
    size = np.array(size_mm)
    corners = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) * size
    window = _window(plane.to_photo_px(corners), shape)

    def blank(points_mm: FloatArray) -> tuple[FloatArray, NDArray[np.bool_]]:
        inside = np.all((points_mm > 0.0) & (points_mm < size), axis=1)
        return np.ones(len(points_mm)), inside

    return *_area_mean(plane, window, blank), window


def _card_in_photo(
    card: Card, plane: PlaneScale, shape: tuple[int, ...], ink: float = 0.05
) -> _Print:
    window = _window(plane.to_photo_px(_outline_mm(card)), shape)
    mean = _area_mean(plane, window, lambda points: _card_values(card, points, ink))
    return *mean, window


def _area_mean(
    plane: PlaneScale,
    window: tuple[slice, slice],
    look: Callable[[FloatArray], tuple[FloatArray, NDArray[np.bool_]]],
) -> tuple[NDArray[np.float32], NDArray[np.float32]]:
    """Return value times cover, and cover, each the mean over the pixel's area."""
    rows, columns = window
    shape = (rows.stop - rows.start, columns.stop - columns.start)
    x, y = np.meshgrid(
        np.arange(columns.start, columns.stop), np.arange(rows.start, rows.stop)
    )
    centres = np.column_stack([x.ravel(), y.ravel()]).astype(np.float64)
    world = plane.to_plane_mm(centres)
    # Within a pixel the plane is affine to better than a millionth of a millimetre.
    by_x = plane.to_plane_mm(centres + np.array([1.0, 0.0])) - world
    by_y = plane.to_plane_mm(centres + np.array([0.0, 1.0])) - world
    value, cover = np.zeros(len(world)), np.zeros(len(world))
    for dx, dy in _OFFSETS:
        values, inside = look(world + by_x * dx + by_y * dy)
        value += values * inside
        cover += inside
    count = len(_OFFSETS)
    return (
        (value / count).astype(np.float32).reshape(shape),
        (cover / count).astype(np.float32).reshape(shape),
    )


def _outline_mm(card: Card) -> FloatArray:
    side = max(card.card_mm, card.side_mm)
    centre = np.array([card.x_mm, card.y_mm])
    outline: FloatArray = centre + (card_corners_mm(card) - centre) * (
        side / card.side_mm
    )
    return outline


def _window(points_px: FloatArray, shape: tuple[int, ...]) -> tuple[slice, slice]:
    low = np.clip(np.floor(points_px.min(axis=0)).astype(int) - 4, 0, None)
    high = np.ceil(points_px.max(axis=0)).astype(int) + 5
    high = np.clip(high, 0, np.array([shape[1], shape[0]]))
    return slice(low[1], max(high[1], low[1])), slice(low[0], max(high[0], low[0]))
