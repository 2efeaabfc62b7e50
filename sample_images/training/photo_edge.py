"""Where a photo ends: what of the plane it does not show."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from sample_images.training.scene import Canvas

_CLOSE_PX = 150.0
"""Length of a fish that may fill a photo."""


def beyond(canvas: "Canvas", rng: np.random.Generator) -> NDArray[np.bool_] | None:
    """Return what of the plane the photo does not show, if it ends in view."""
    chance = rng.random()
    if chance < 0.06:
        return close_up(canvas, rng)
    return _outside(canvas.cover.shape, rng) if chance < 0.33 else None


def close_up(canvas: "Canvas", rng: np.random.Generator) -> NDArray[np.bool_] | None:
    """Return all but an oblong that one large fish fills, or nearly, or overfills."""
    large = [index for index, row in enumerate(canvas.fish) if row[7] > _CLOSE_PX]
    if not large:
        return None
    number = large[int(rng.integers(len(large)))]
    row = canvas.fish[number]
    angle = np.arctan2(row[3] - row[1], row[2] - row[0]) + rng.normal(0, 0.12)
    rows, columns = np.indices(canvas.cover.shape, dtype=np.float32)
    along = columns * np.cos(angle) + rows * np.sin(angle)
    across = rows * np.cos(angle) - columns * np.sin(angle)
    mine = canvas.owner == number + 1
    if mine.sum() < 50:
        return None
    length = row[7]
    outside = np.zeros(canvas.cover.shape, bool)
    for axis, share in ((along, 0.25), (across, 0.35)):
        inside = axis[mine]
        for side in (-1, 1):
            margin = length * (
                rng.uniform(-0.02, 0.06) if rng.random() < 0.6 else share
            )
            edge = (side * inside).max() + margin
            outside |= side * axis > edge
    return outside


def _outside(shape: tuple[int, int], rng: np.random.Generator) -> NDArray[np.bool_]:
    """Return the corner or side of the plane that the photo does not show."""
    rows, columns = np.indices(shape, dtype=np.float32)
    angle = rng.choice([0, 0.5, 1.0, 1.5]) * np.pi + rng.normal(0, 0.1)
    side = (columns / shape[1] - 0.5) * np.cos(angle)
    side = side + (rows / shape[0] - 0.5) * np.sin(angle)
    return np.asarray(side > rng.uniform(0.2, 0.48))
