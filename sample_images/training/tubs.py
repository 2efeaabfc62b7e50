"""Tubs of water with live fish in them, seen from above."""

import numpy as np

from sample_images.training.columns import SIDE, UPRIGHT
from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.scene import (
    MAX_FISH,
    Canvas,
    Spot,
    Sprite,
    SpriteMaker,
    draw_pose,
    lay_fish,
    lay_thing,
)
from sample_images.training.things import calibration_sheet, card
from sample_images.training.water import under_water

_FLOORS = (
    (0.88, 0.88, 0.86),
    (0.55, 0.56, 0.56),
    (0.06, 0.06, 0.07),
    (0.10, 0.28, 0.55),
    (0.12, 0.38, 0.26),
    (0.30, 0.55, 0.62),
    (0.45, 0.42, 0.36),
)
_CROWD = 0.2
_LONGEST = 300.0


def fill_tub(canvas: Canvas, makers: SpriteMaker, rng: np.random.Generator) -> None:
    """Draw tub, sheet, fish and the water over them."""
    noise = makers.noise
    inside = _tub(canvas, rng, noise)
    if rng.random() < 0.7:
        _lay_markers(canvas, inside, rng, noise)
    kinds = _kinds(makers, rng)
    for centre, length in _places(inside, rng):
        sprite = kinds[int(rng.integers(len(kinds)))]
        upright = sprite.body.posture == UPRIGHT
        angle = float(rng.uniform(0, 2 * np.pi))
        pose = draw_pose(centre, angle, length, rng, swims=upright)
        lay_fish(canvas, sprite, pose, rng)
    under_water(canvas, inside, rng, noise)


def _kinds(makers: SpriteMaker, rng: np.random.Generator) -> list[Sprite]:
    """Return the fish of a tub: mostly upright, some or all on their side."""
    chance = rng.random()
    lying = 0.0 if chance < 0.65 else 0.3 if chance < 0.88 else 1.0
    number = int(rng.choice([2, 4, 8]))
    return [
        makers.draw(SIDE if rng.random() < lying else UPRIGHT) for _ in range(number)
    ]


def _tub(canvas: Canvas, rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Draw floor, wall and rim; return where the water is."""
    shape = canvas.cover.shape
    height, width = shape
    tone = np.array(_FLOORS[int(rng.integers(len(_FLOORS)))]) * rng.uniform(0.6, 1.12)
    tone = np.clip(tone + rng.normal(0, 0.03, 3), 0.02, 0.98).astype(np.float32)
    stained = 1 + rng.uniform(0.01, 0.12) * noise.cut(shape, rng, rng.uniform(0.3, 1))
    floor = tone * stained[..., None]
    if rng.random() < 0.4:  # it fills the photo
        canvas.colour[:] = np.clip(floor, 0.01, 1)
        return np.ones(shape, np.float32)
    rows, columns = np.indices(shape, dtype=np.float32)
    x, y = (
        columns - width * rng.uniform(0.3, 0.7),
        rows - height * rng.uniform(0.3, 0.7),
    )
    angle = rng.uniform(0, np.pi)
    x, y = x * np.cos(angle) + y * np.sin(angle), y * np.cos(angle) - x * np.sin(angle)
    half_x = rng.uniform(0.3, 0.7) * width
    if rng.random() < 0.5:
        far = np.hypot(x, y * rng.uniform(1.0, 1.15)) - half_x
    else:
        half_y, corner = half_x * rng.uniform(0.6, 1.0), half_x * rng.uniform(0.1, 0.5)
        past_x, past_y = np.abs(x) - half_x + corner, np.abs(y) - half_y + corner
        far = np.hypot(np.maximum(past_x, 0), np.maximum(past_y, 0))
        far = far + np.minimum(np.maximum(past_x, past_y), 0) - corner
    wall = rng.uniform(4, 45)
    rim = rng.uniform(3, 16)
    slope = 1 + rng.uniform(-0.35, 0.35) * np.clip(far / wall, 0, 1)
    light = x * np.cos(angle) + y * np.sin(angle)
    slope = slope * (1 + rng.uniform(0, 0.4) * light / width * (far > 0))
    lip = tone * np.float32(rng.uniform(0.7, 1.3))
    tub = np.where((far > wall)[..., None], lip, floor * slope[..., None])
    weight = np.clip(wall + rim - far, 0, 1)[..., None]
    shade = 1 - 0.4 * np.exp(-np.clip(far - wall - rim, 0, None) / 8)[..., None]
    canvas.colour[:] = canvas.colour * shade * (1 - weight) + tub * weight
    np.clip(canvas.colour, 0.01, 1, out=canvas.colour)
    level = wall * rng.uniform(0.1, 0.8)  # the water stands part way up the wall
    return np.clip(level - far, 0, 1).astype(np.float32)


def _lay_markers(
    canvas: Canvas, inside: Floats, rng: np.random.Generator, noise: NoiseBank
) -> None:
    """Lay the sheet or loose cards on the bottom."""
    count = 1 if rng.random() < 0.5 else int(rng.integers(2, 6))
    for _ in range(count):
        size = float(rng.uniform(0.7, 1.5))
        thing = calibration_sheet(rng, noise, size) if count == 1 else card(rng, noise)
        spot = Spot(
            centre=_point(inside, rng), scale=1.0, turn_deg=float(rng.uniform(0, 360))
        )
        lay_thing(canvas, thing, spot, rng)


def _point(inside: Floats, rng: np.random.Generator) -> tuple[float, float]:
    """Return a point in the water, if one is found soon."""
    height, width = inside.shape
    x, y = 0.0, 0.0
    for _ in range(12):
        x, y = rng.uniform(0, width), rng.uniform(0, height)
        if inside[int(y), int(x)] > 0.5:
            break
    return float(x), float(y)


def _places(
    inside: Floats, rng: np.random.Generator
) -> list[tuple[tuple[float, float], float]]:
    """Return middle and length of each fish; some tubs hold a crowd of small ones."""
    room = float(inside.sum())
    if rng.random() < _CROWD:
        count = int(np.exp(rng.uniform(np.log(40), np.log(MAX_FISH))))
        typical = float(np.sqrt(room / count * rng.uniform(0.5, 2.2)))
        typical = float(np.clip(typical, 11, 70))
    else:
        typical = float(np.exp(rng.uniform(np.log(30), np.log(_LONGEST))))
        most = int(np.clip(room / (0.3 * typical**2), 1, 24))
        count = int(rng.integers(1, most + 1))
    spread = rng.uniform(0.03, 0.25)
    lengths = np.clip(typical * np.exp(rng.normal(0, spread, count)), 10, 420)
    places: list[tuple[tuple[float, float], float]] = []
    for length in lengths:
        point = _point(inside, rng)
        for _ in range(3):  # they keep off each other, mostly
            others = np.array([place[0] for place in places]).reshape(-1, 2)
            if not len(others) or np.hypot(*(others - point).T).min() > 0.25 * length:
                break
            point = _point(inside, rng)
        places.append((point, float(length)))
    return places
