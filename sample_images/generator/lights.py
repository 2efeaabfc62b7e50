"""Light: a lat-long surrounding and, for some scenes, a lamp."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from sample_images.generator.noise import Array, blur

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
    return blur(image, 3)


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


def _daylight(azimuth: float, _: np.random.Generator) -> Light:
    """Return one window by day."""
    room = _room(0.55) * [0.95, 1.0, 1.06]
    surround = _window(room, azimuth, (18, 68), 70, (5.5, 6.0, 6.6))
    return Light(surround=surround, cast=(1.0, 1.0, 0.99))


def _overcast(azimuth: float, _: np.random.Generator) -> Light:
    """Return a bright overcast sky."""
    sky = _room(1.3) * [0.96, 1.0, 1.05]
    return Light(surround=_window(sky, azimuth, (40, 85), 120, (2.2, 2.3, 2.4)))


def _lamp(azimuth: float, _: np.random.Generator) -> Light:
    """Return a warm lamp."""
    away = np.radians(azimuth)
    return Light(
        surround=_room(0.42) * [1.05, 1.0, 0.9],
        lamp_mm=(float(520 * np.cos(away)), float(520 * np.sin(away)), 800.0),
        lamp_radius_mm=70,
        lamp_colour=(55.0, 44.0, 55.0 * 0.58),
        cast=(1.0, 1.02, 1.12),
    )


def _sun(azimuth: float, _: np.random.Generator) -> Light:
    """Return a sun that is not high."""
    away = np.radians(azimuth)
    far = (float(900 * np.cos(away)), float(900 * np.sin(away)), 1500.0)
    return Light(
        surround=_room(0.55) * [0.85, 1.0, 1.2],
        lamp_mm=far,
        lamp_radius_mm=22,
        lamp_colour=(4200.0, 4000.0, 3600.0),
    )


def _tubes(azimuth: float, _: np.random.Generator) -> Light:
    """Return two fluorescent tubes overhead, a little green."""
    surround = _room(0.5) * [0.95, 1.04, 0.95]
    for turn in (azimuth, azimuth + 40):
        surround = _window(surround, turn, (62, 80), 60, (14.0, 15.5, 13.6))
    return Light(surround=surround, cast=(1.0, 0.98, 1.02))


def _evening(azimuth: float, _: np.random.Generator) -> Light:
    """Return a low warm window."""
    surround = _room(0.35) * [1.15, 1.0, 0.8]
    surround = _window(surround, azimuth, (6, 26), 50, (14.0, 11.0, 7.5))
    return Light(surround=surround, cast=(0.97, 1.0, 1.12), exposure=0.85)


def _shade(azimuth: float, _: np.random.Generator) -> Light:
    """Return open sky from one side, no sun."""
    sky = _room(0.8) * [0.88, 1.0, 1.18]
    return Light(
        surround=_window(sky, azimuth, (20, 60), 170, (2.6, 3.0, 3.7)),
        cast=(1.05, 1.0, 0.94),
    )


def _spots(azimuth: float, rng: np.random.Generator) -> Light:
    """Return a row of small LED lamps under the ceiling."""
    surround = _room(0.35) * [1.0, 1.0, 1.0]
    for step in range(5):
        height = float(rng.uniform(48, 80))
        surround = _window(
            surround, azimuth + 67 * step, (height, height + 6), 9, (95.0, 97.0, 92)
        )
    return Light(surround=surround, cast=(1.0, 1.0, 1.03))


def _noon(azimuth: float, _: np.random.Generator) -> Light:
    """Return high sun, hard and a little yellow."""
    away = np.radians(azimuth)
    high = (float(420 * np.cos(away)), float(420 * np.sin(away)), 1700.0)
    return Light(
        surround=_room(0.5) * [0.8, 1.0, 1.3],
        lamp_mm=high,
        lamp_radius_mm=18,
        lamp_colour=(6400.0, 6000.0, 5200.0),
        cast=(0.98, 1.0, 1.05),
    )


def _torch(_azimuth: float, _: np.random.Generator) -> Light:
    """Return a head lamp above the camera in the dark."""
    return Light(
        surround=_room(0.10) * [0.9, 1.0, 1.1],
        lamp_mm=(60.0, -120.0, 30.0),
        lamp_radius_mm=20,
        lamp_colour=(300.0, 310.0, 330.0),
        at_camera=True,
        exposure=0.9,
        noise=1.4,
    )


def _two_windows(azimuth: float, _: np.random.Generator) -> Light:
    """Return windows on two sides."""
    surround = _room(0.4) * [1.0, 1.0, 0.98]
    surround = _window(surround, azimuth, (12, 50), 40, (7.0, 7.3, 7.6))
    surround = _window(surround, azimuth + 130, (15, 55), 30, (6.5, 6.2, 5.6))
    return Light(surround=surround)


def _skylight(azimuth: float, _: np.random.Generator) -> Light:
    """Return a window straight overhead, which mirrors in all that is wet."""
    surround = _room(0.3) * [0.95, 1.0, 1.08]
    surround = _window(surround, azimuth, (60, 88), 200, (11.0, 11.6, 12.4))
    return Light(surround=surround, exposure=0.85, noise=1.3)


def _flash(_azimuth: float, _: np.random.Generator) -> Light:
    """Return the phone's flash."""
    return Light(
        surround=_room(0.16) * [1.1, 1.0, 0.85],
        lamp_mm=(14.0, 4.0, 0.0),
        lamp_radius_mm=4,
        lamp_colour=(6200.0, 6200.0, 6400.0),
        at_camera=True,
        exposure=1.05,
    )


def _dim(azimuth: float, _: np.random.Generator) -> Light:
    """Return a dim room."""
    return Light(
        surround=_window(
            _room(0.4) * [1.1, 1.0, 0.85], azimuth, (30, 55), 40, (2.0, 1.8, 1.5)
        ),
        cast=(1.06, 1.0, 0.88),
        exposure=0.42,
        noise=2.2,
    )


def _glare(azimuth: float, _: np.random.Generator) -> Light:
    """Return a skylight that mirrors in all that is wet."""
    room = _room(0.25)
    overhead = _window(room, azimuth, (55, 84), 150, (9.0, 9.0, 8.6))
    return Light(surround=overhead, exposure=0.8, noise=1.5)


def _low_sun(azimuth: float, rng: np.random.Generator) -> Light:
    """Return a clear sky with a sun 25 to 40 degrees high: long hard shadows."""
    away, up = np.radians([azimuth, float(rng.uniform(25, 40))])
    far = 2000 * np.array(
        [np.cos(up) * np.cos(away), np.cos(up) * np.sin(away), np.sin(up)]
    )
    return Light(
        surround=_room(0.45) * [0.75, 0.95, 1.35],
        lamp_mm=(float(far[0]), float(far[1]), float(far[2])),
        lamp_radius_mm=12,
        lamp_colour=(22000.0, 20500.0, 17500.0),
        cast=(0.97, 1.0, 1.06),
    )


def _bulb(azimuth: float, rng: np.random.Generator) -> Light:
    """Return a bare bulb beside the board in a dark shed."""
    away = np.radians(azimuth)
    reach, high = float(rng.uniform(380, 620)), float(rng.uniform(420, 700))
    return Light(
        surround=_room(0.16) * [1.05, 1.0, 0.9],
        lamp_mm=(float(reach * np.cos(away)), float(reach * np.sin(away)), high),
        lamp_radius_mm=22,
        lamp_colour=(620.0, 520.0, 380.0),
        cast=(0.96, 1.0, 1.12),
        noise=1.2,
    )


LIGHTS: dict[str, Callable[[float, np.random.Generator], Light]] = {
    "daylight": _daylight,
    "overcast": _overcast,
    "lamp": _lamp,
    "sun": _sun,
    "tubes": _tubes,
    "evening": _evening,
    "shade": _shade,
    "spots": _spots,
    "noon": _noon,
    "torch": _torch,
    "two-windows": _two_windows,
    "skylight": _skylight,
    "flash": _flash,
    "dim": _dim,
    "glare": _glare,
    "low-sun": _low_sun,
    "bulb": _bulb,
}


def make(name: str, rng: np.random.Generator) -> Light:
    """Return a light by name, with random direction."""
    return LIGHTS[name](float(rng.uniform(-180, 180)), rng)
