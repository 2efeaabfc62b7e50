"""Shadows and light in pieces of photos about a fish's end."""

from typing import TYPE_CHECKING

import cv2
import numpy as np

from sample_images.training.noise import Floats, NoiseBank

if TYPE_CHECKING:
    from sample_images.training.end_scenes import Piece


def throw_shadow(
    piece: "Piece", solid: Floats, length: float, rng: np.random.Generator
) -> None:
    """Darken the ground beside a fish or thing: sharp in the sun, else soft."""
    if piece.hard:
        reach = length * rng.uniform(0.005, 0.1)
        soft, dark = rng.uniform(0.3, 2.0), rng.uniform(0.45, 0.92)
    else:
        reach = length * rng.uniform(0, 0.03)
        soft, dark = min(length * rng.uniform(0.004, 0.03), 12.0), rng.uniform(0.1, 0.6)
    move = np.array(
        [[1, 0, piece.sun[0] * reach], [0, 1, piece.sun[1] * reach]], np.float32
    )
    shadow = cv2.warpAffine(
        solid, move, solid.shape[::-1], borderMode=cv2.BORDER_REPLICATE
    )
    shadow = cv2.GaussianBlur(shadow, (0, 0), max(soft, 0.3))
    piece.colour *= (1 - np.float32(dark) * shadow)[..., None]
    np.maximum(piece.shade, np.float32(dark) * shadow, out=piece.shade)


def light_end(
    piece: "Piece", rng: np.random.Generator, noise: NoiseBank, *, wet: bool
) -> None:
    """Put uneven light, glare, film and mirror light over the piece."""
    shape = piece.cover.shape
    small = (shape[0] // 2, shape[1] // 2)
    level = 1 + rng.uniform(0, 0.25) * noise.cut(small, rng, 1.0)
    if rng.random() < 0.2:  # another's shadow, its edge anywhere
        field = noise.cut(small, rng, 1.0)
        dark = np.clip((field - rng.uniform(-0.5, 1.0)) / rng.uniform(0.02, 0.4), 0, 1)
        level = level * (1 - rng.uniform(0.3, 0.8) * dark)
    full = cv2.resize(level.astype(np.float32), shape[::-1])
    piece.colour *= np.clip(full, 0.08, 2.0)[..., None]
    if wet or rng.random() < 0.35:
        ridge = 1 - np.abs(noise.cut(small, rng, 0.9, (rng.uniform(0.6, 3), 1.0)))
        film = np.clip(ridge - rng.uniform(0.5, 0.97), 0, 1) * rng.uniform(0.5, 3)
        if rng.random() < 0.5:  # round lamps and windows in the wet
            for _ in range(int(rng.integers(1, 6))):
                at = (int(rng.uniform(0, small[1])), int(rng.uniform(0, small[0])))
                axes = (int(rng.uniform(1, 20)), int(rng.uniform(1, 8)))
                cv2.ellipse(film, at, axes, rng.uniform(0, 180), 0, 360, 1.0, -1)
        glow = cv2.resize(
            cv2.GaussianBlur(film.astype(np.float32), (0, 0), rng.uniform(0.4, 2)),
            shape[::-1],
        )
        weight = np.clip(glow * rng.uniform(0.3, 1.0), 0, 1)[..., None]
        piece.colour += weight * (np.float32(1.05) - piece.colour)
