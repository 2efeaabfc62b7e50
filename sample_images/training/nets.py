"""Nets over and under fish: meshes with knots, folds, slack and shadow."""

import cv2
import numpy as np

from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.scene import Canvas


def lay_net(canvas: Canvas, rng: np.random.Generator, noise: NoiseBank) -> None:
    """Draw a mesh over all or a part of what is there; fish below still count."""
    shape = canvas.cover.shape
    pitch = float(np.exp(rng.uniform(np.log(3.0), np.log(28))))
    wide = float(np.clip(pitch * rng.uniform(0.05, 0.28), 0.4, 3.0))
    mesh = _mesh(shape, pitch, wide, rng, noise)
    if rng.random() < 0.55:  # it ends in view
        rows, columns = np.indices(shape, dtype=np.float32)
        angle = rng.uniform(0, 2 * np.pi)
        edge = (columns / shape[1] - 0.5) * np.cos(angle)
        edge = edge + (rows / shape[0] - 0.5) * np.sin(angle)
        edge = edge + rng.uniform(0, 0.06) * noise.cut(shape, rng, 0.9)
        start = rng.uniform(-0.35, 0.3)
        mesh = mesh * (edge > start)
        if rng.random() < 0.5:  # the rim, a rope or a hoop
            rim = rng.uniform(0.003, 0.02)
            mesh = np.maximum(mesh, np.clip(1.5 - np.abs(edge - start) / rim, 0, 1))
    tone = (rng.uniform(0.02, 0.95) + rng.normal(0, 0.1, 3)).astype(np.float32)
    if rng.random() < 0.6:  # shadow of the cords
        away = rng.uniform(0.5, 4) * np.array(canvas.sun)
        move = np.array([[1, 0, away[0]], [0, 1, away[1]]], np.float32)
        shadow = cv2.warpAffine(mesh, move, shape[::-1])
        shadow = cv2.GaussianBlur(shadow, (0, 0), rng.uniform(0.4, 1.5))
        canvas.colour *= (1 - rng.uniform(0.1, 0.5) * shadow)[..., None]
    weight = (mesh * rng.uniform(0.45, 1.0))[..., None]
    level = 1 + rng.uniform(0, 0.4) * noise.cut(shape, rng, 0.1)
    colour = np.clip(tone * level[..., None], 0, 1)
    canvas.colour += weight * (colour - canvas.colour)


def _mesh(
    shape: tuple[int, int],
    pitch: float,
    wide: float,
    rng: np.random.Generator,
    noise: NoiseBank,
) -> Floats:
    """Return how much of each pixel is cord."""
    rows, columns = np.indices(shape, dtype=np.float32)
    slack = rng.uniform(0, 1.6) * pitch
    x = columns + slack * noise.cut(shape, rng, 0.95)
    y = rows + slack * noise.cut(shape, rng, 0.95)
    angle = rng.uniform(0, np.pi)
    between = rng.uniform(0.7, 2.2)  # diamonds to squares
    one = x * np.cos(angle) + y * np.sin(angle)
    two = x * np.cos(angle + between) + y * np.sin(angle + between)
    away = [np.abs((axis + pitch / 2) % pitch - pitch / 2) for axis in (one, two)]
    mesh = np.clip(wide / 2 + 0.5 - np.minimum(*away), 0, 1) * min(wide, 1.0)
    if rng.random() < 0.5:  # knots
        knot = wide * rng.uniform(1.0, 2.2)
        mesh = np.maximum(mesh, np.clip(knot / 2 + 0.5 - np.hypot(*away), 0, 1))
    return np.asarray(mesh, np.float32)
