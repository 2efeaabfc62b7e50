"""Water over fish: ripples that move what is seen, caustics, tint, reflections.

The ripples move the picture and the truth alike: a fish's end is where the photo
shows it.
"""

import cv2
import numpy as np

from sample_images.training import columns as col
from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.scene import Canvas

_TINTS = (
    (0.16, 0.22, 0.14),
    (0.30, 0.28, 0.18),
    (0.10, 0.12, 0.11),
    (0.35, 0.42, 0.42),
    (0.55, 0.58, 0.55),
)


def under_water(
    canvas: Canvas, inside: Floats, rng: np.random.Generator, noise: NoiseBank
) -> None:
    """Put water over what lies in ``inside`` (0 to 1 by pixel)."""
    _ripple(canvas, inside, rng, noise)
    colour = veil(canvas.colour, rng, noise)
    canvas.colour += inside[..., None] * (colour - canvas.colour)
    np.clip(canvas.colour, 0.003, 1.1, out=canvas.colour)
    for row in canvas.fish:
        row[col.IN_WATER] = 1.0


def veil(colour: Floats, rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Return the picture as it looks through water, not moved by it."""
    shape = (colour.shape[0], colour.shape[1])
    if rng.random() < 0.5:
        colour = colour * _caustics(shape, rng, noise)[..., None]
    clear = rng.uniform(0.85, 1.0) if rng.random() < 0.6 else rng.uniform(0.45, 0.9)
    tint = np.array(_TINTS[int(rng.integers(len(_TINTS)))]) * rng.uniform(0.6, 1.4)
    cloudy = clear * (1 + rng.uniform(0, 0.12) * noise.cut(shape, rng, 1.0))
    colour = tint + (colour - tint) * np.clip(cloudy, 0.2, 1)[..., None]
    if rng.random() < 0.3:
        colour = cv2.GaussianBlur(colour, (0, 0), rng.uniform(0.4, 1.6))
    colour = np.asarray(colour, np.float32)
    _matter(colour, rng)
    return _mirror(colour, rng, noise)


def _ripple(
    canvas: Canvas, inside: Floats, rng: np.random.Generator, noise: NoiseBank
) -> None:
    """Move picture and truth by the slope of small waves, up to 3 pixels."""
    shape = canvas.cover.shape
    move_x, move_y = (part * inside for part in waves(shape, rng, noise))
    rows, columns = np.indices(shape, dtype=np.float32)
    map_x, map_y = columns + move_x, rows + move_y
    canvas.colour = cv2.remap(
        canvas.colour, map_x, map_y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT
    )
    forms = np.dstack([canvas.cover, canvas.body, canvas.shade])
    forms = cv2.remap(forms, map_x, map_y, cv2.INTER_LINEAR)
    canvas.cover, canvas.body, canvas.shade = (
        np.ascontiguousarray(forms[..., layer]) for layer in range(3)
    )
    canvas.owner = np.asarray(
        cv2.remap(canvas.owner, map_x, map_y, cv2.INTER_NEAREST), np.uint8
    )
    count = len(canvas.fish)
    if not count:
        return
    for row, outward in zip(canvas.fish, canvas.outward, strict=True):
        row[:4] -= moved_at(row[:4].reshape(2, 2), move_x, move_y).ravel()
        outward[:] = outward - moved_at(outward, move_x, move_y)
    points = canvas.points[:count].reshape(-1, 2)
    points -= moved_at(points, move_x, move_y)


def waves(
    shape: tuple[int, ...], rng: np.random.Generator, noise: NoiseBank
) -> tuple[Floats, Floats]:
    """Return from how far off each pixel is seen: the slope of small waves."""
    strong = rng.uniform(0, 0.5) if rng.random() < 0.6 else rng.uniform(0.4, 1.4)
    size = (shape[0], shape[1])
    wave = noise.cut(size, rng, rng.uniform(0.85, 1.0), (rng.uniform(0.7, 2), 1.0))
    wave = cv2.GaussianBlur(wave, (0, 0), rng.uniform(6, 14))
    moves = [cv2.Sobel(wave, cv2.CV_32F, 1, 0), cv2.Sobel(wave, cv2.CV_32F, 0, 1)]
    gain = strong / (float(np.sqrt((moves[0] ** 2 + moves[1] ** 2).mean())) + 1e-6)
    x, y = (np.clip(move * np.float32(gain), -4, 4) for move in moves)
    return x, y


def moved_at(points: Floats, move_x: Floats, move_y: Floats) -> Floats:
    """Return the movement at some points."""
    height, width = move_x.shape
    x = np.clip(np.rint(points[:, 0]).astype(int), 0, width - 1)
    y = np.clip(np.rint(points[:, 1]).astype(int), 0, height - 1)
    return np.column_stack([move_x[y, x], move_y[y, x]])


def _caustics(
    shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank
) -> Floats:
    """Return the light that waves gather on the bottom: a net of bright lines."""
    stretch = rng.uniform(0.6, 1.6)
    field = noise.cut(shape, rng, rng.uniform(0.6, 0.8), (stretch, stretch))
    ridge = np.exp(-np.abs(cv2.GaussianBlur(field, (0, 0), 3.0)) * rng.uniform(2, 5))
    light = ridge - ridge.mean()
    return np.asarray(1 + rng.uniform(0.05, 0.5) * light, np.float32)


def _matter(colour: Floats, rng: np.random.Generator) -> None:
    """Draw droppings, feed, bubbles, foam and what floats."""
    height, width = colour.shape[:2]
    if rng.random() < 0.5:
        dark = rng.random() < 0.6
        for _ in range(int(rng.integers(5, 70))):
            at = (int(rng.uniform(0, width)), int(rng.uniform(0, height)))
            size = (int(rng.integers(1, 5)), int(rng.integers(1, 3)))
            level = rng.uniform(0.05, 0.35) if dark else rng.uniform(0.5, 0.9)
            tone = (level, level * 0.9, level * 0.7)
            cv2.ellipse(colour, at, size, rng.uniform(0, 180), 0, 360, tone, -1)
    if rng.random() < 0.25:  # foam and bubbles
        for _ in range(int(rng.integers(3, 60))):
            at = (int(rng.uniform(0, width)), int(rng.uniform(0, height)))
            radius = int(rng.integers(1, 6))
            level = rng.uniform(0.7, 1.0)
            full = rng.random() < 0.5
            cv2.circle(colour, at, radius, (level,) * 3, -1 if full else 1, cv2.LINE_AA)


def _mirror(colour: Floats, rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Return the picture with the sky on the water, the photographer dark in it."""
    if rng.random() < 0.3:
        return colour
    shape = colour.shape[:2]
    rows, columns = np.indices(shape, dtype=np.float32)
    wave = noise.cut(shape, rng, 0.9, (rng.uniform(0.7, 3), 1.0))
    sky = rng.uniform(0.02, 0.35) * (1 + rng.uniform(0, 0.5) * wave)
    if rng.random() < 0.5:  # head and shoulders, their edge broken by the waves
        x, y = rng.uniform(0, 1, 2) * shape
        size = rng.uniform(0.1, 0.5) * shape[0]
        bent_x, bent_y = columns + 8 * wave, rows + 8 * wave
        head = np.hypot(bent_x - x, bent_y - y) - size * 0.5
        body = np.hypot((bent_x - x) / 1.6, bent_y - y - size * 1.4) - size * 0.8
        sky = sky * np.clip(np.minimum(head, body) / 6, 0, 1)
    glint = np.clip(wave - rng.uniform(1.2, 2.6), 0, 1) * rng.uniform(0.5, 3)
    if rng.random() < 0.5:  # the edge of a bright window or roof
        angle = rng.uniform(0, 2 * np.pi)
        side = (columns / shape[1] - 0.5) * np.cos(angle)
        side = side + (rows / shape[0] - 0.5) * np.sin(angle) + 0.04 * wave
        sky = sky + rng.uniform(0, 0.45) * (side > rng.uniform(0.0, 0.45))
    tone = np.array([0.85, 0.93, 1.0], np.float32) * np.float32(rng.uniform(0.7, 1.05))
    weight = np.clip(sky + glint, 0, 0.97)[..., None].astype(np.float32)
    return np.asarray(colour + weight * (tone - colour), np.float32)
