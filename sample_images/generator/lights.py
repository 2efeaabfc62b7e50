"""Light: a lat-long surrounding and, for some scenes, a lamp."""

from dataclasses import dataclass

import cv2
import numpy as np

from sample_images.generator.noise import Array

ROWS, COLUMNS = 128, 256


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Light:
    """Surrounding radiance (rows from the zenith down) and an optional lamp.

    ``lamp_radius_mm`` 0 means none; ``at_camera`` puts it beside the lens. ``cast``
    multiplies red, green and blue, ``exposure`` is relative to white paper at 0.82.
    """

    surround: Array
    lamp_mm: tuple[float, float, float] = (0.0, 0.0, 0.0)
    lamp_radius_mm: float = 0.0
    lamp_colour: tuple[float, float, float] = (1.0, 1.0, 1.0)
    at_camera: bool = False
    cast: tuple[float, float, float] = (1.0, 1.0, 1.0)
    exposure: float = 1.0
    noise: float = 1.0


def _room(level: float) -> Array:
    """Return a room: brighter ceiling, darker walls, dark floor."""
    elevation = np.linspace(90, -90, ROWS)[:, None]
    wall = np.where(elevation > 35, 1.0, 0.45)
    wall = np.where(elevation < 0, 0.15, wall)
    image = np.repeat(np.repeat(wall, COLUMNS, axis=1)[..., None], 3, axis=2) * level
    room: Array = cv2.GaussianBlur(image, (0, 0), 3)
    return room


def _window(
    surround: Array,
    azimuth_deg: float,
    elevation_deg: tuple[float, float],
    width_deg: float,
    colour: tuple[float, float, float],
) -> Array:
    """Return the surrounding with a bright rectangle and its frame cross."""
    image = surround.copy()
    elevation = np.linspace(90, -90, ROWS)[:, None]
    azimuth = np.linspace(-180, 180, COLUMNS, endpoint=False)[None, :]
    off = (azimuth - azimuth_deg + 180) % 360 - 180
    inside = (np.abs(off) < width_deg / 2) & (elevation > elevation_deg[0])
    inside = inside & (elevation < elevation_deg[1])
    inside = inside & (np.abs(off) > 1.5)
    image[inside] = colour
    return image


def make(name: str, rng: np.random.Generator) -> Light:  # noqa: PLR0911 - a table
    """Return a light by name, with random direction."""
    azimuth = float(rng.uniform(-180, 180))
    if name == "daylight":
        room = _room(0.55) * [0.95, 1.0, 1.06]
        surround = _window(room, azimuth, (18, 68), 70, (5.5, 6.0, 6.6))
        return Light(surround=surround, cast=(1.0, 1.0, 0.99))
    if name == "overcast":
        sky = _room(1.3) * [0.96, 1.0, 1.05]
        return Light(surround=_window(sky, azimuth, (40, 85), 120, (2.2, 2.3, 2.4)))
    lamp_colour = (1.0, 0.80, 0.58)
    away = np.radians(azimuth)
    lamp = (float(520 * np.cos(away)), float(520 * np.sin(away)), 800.0)
    if name == "lamp":
        return Light(
            surround=_room(0.42) * [1.05, 1.0, 0.9],
            lamp_mm=lamp,
            lamp_radius_mm=70,
            lamp_colour=tuple(55.0 * c for c in lamp_colour),
            cast=(1.0, 1.02, 1.12),
        )
    if name == "sun":
        far = (float(900 * np.cos(away)), float(900 * np.sin(away)), 1500.0)
        return Light(
            surround=_room(0.55) * [0.85, 1.0, 1.2],
            lamp_mm=far,
            lamp_radius_mm=22,
            lamp_colour=(4200.0, 4000.0, 3600.0),
        )
    if name == "tubes":  # two fluorescent tubes overhead, a little green
        surround = _room(0.5) * [0.95, 1.04, 0.95]
        for turn in (azimuth, azimuth + 40):
            surround = _window(surround, turn, (62, 80), 60, (14.0, 15.5, 13.6))
        return Light(surround=surround, cast=(1.0, 0.98, 1.02))
    if name == "evening":  # a low warm window
        surround = _room(0.35) * [1.15, 1.0, 0.8]
        surround = _window(surround, azimuth, (6, 26), 50, (14.0, 11.0, 7.5))
        return Light(surround=surround, cast=(0.97, 1.0, 1.12), exposure=0.85)
    if name == "flash":
        return Light(
            surround=_room(0.16) * [1.1, 1.0, 0.85],
            lamp_mm=(14.0, 4.0, 0.0),
            lamp_radius_mm=4,
            lamp_colour=(6200.0, 6200.0, 6400.0),
            at_camera=True,
            exposure=1.05,
        )
    if name == "dim":
        return Light(
            surround=_window(
                _room(0.4) * [1.1, 1.0, 0.85], azimuth, (30, 55), 40, (2.0, 1.8, 1.5)
            ),
            cast=(1.06, 1.0, 0.88),
            exposure=0.42,
            noise=2.2,
        )
    if name == "glare":
        room = _room(0.25)
        overhead = _window(room, azimuth, (55, 84), 150, (9.0, 9.0, 8.6))
        return Light(surround=overhead, exposure=0.8, noise=1.5)
    raise ValueError(name)
