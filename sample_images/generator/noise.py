"""Smooth random fields for skins and boards."""

import cv2
import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def smooth(
    rng: np.random.Generator, shape: tuple[int, int], cells: tuple[float, float]
) -> Array:
    """Return noise of about unit variance, ``cells`` = (rows, columns) of features."""
    rows, columns = (max(2, int(c) + 2) for c in cells)
    coarse = rng.standard_normal((rows, columns)).astype(np.float32)
    fine = cv2.resize(coarse, (shape[1], shape[0]), interpolation=cv2.INTER_CUBIC)
    field: Array = fine.astype(np.float64)
    return field


def fractal(
    rng: np.random.Generator,
    shape: tuple[int, int],
    cells: tuple[float, float],
    octaves: int = 4,
) -> Array:
    """Return noise with detail at several scales, each half as strong."""
    total = np.zeros(shape)
    for octave in range(octaves):
        factor = 2.0**octave
        scaled = (cells[0] * factor, cells[1] * factor)
        total += smooth(rng, shape, scaled) / factor
    return total


def blur(values: Array, sigma: float) -> Array:
    """Return values blurred by a Gaussian."""
    soft: Array = np.asarray(cv2.GaussianBlur(values, (0, 0), sigma), dtype=np.float64)
    return soft


def mix(first: Array, second: Array, share: Array) -> Array:
    """Return first where ``share`` is 0, second where it is 1; colours (..., 3)."""
    share = np.clip(share, 0, 1)[..., None]
    mixed: Array = first * (1 - share) + second * share
    return mixed
