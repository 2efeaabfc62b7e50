"""A bank of cloudy patterns, made once per process and cut from at random."""

from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

Floats = NDArray[Any]
"""Pictures and points, float32 throughout; numpy and OpenCV disagree on their types."""
_SIZE = 512


class NoiseBank:
    """Tiles of 1/f^p noise, mean 0, deviation 1, for p from 0.6 to 2.2."""

    def __init__(self, rng: np.random.Generator, tiles: int = 14) -> None:
        fy = np.fft.fftfreq(_SIZE)[:, None]
        fx = np.fft.rfftfreq(_SIZE)[None]
        radius = np.hypot(fx, fy)
        radius[0, 0] = 1.0
        self._tiles: list[Floats] = []
        for power in np.linspace(0.6, 2.2, tiles):
            spectrum = np.fft.rfft2(rng.standard_normal((_SIZE, _SIZE)))
            tile = np.fft.irfft2(spectrum / radius**power, s=(_SIZE, _SIZE))
            tile = (tile - tile.mean()) / tile.std()
            self._tiles.append(tile.astype(np.float32))

    def cut(
        self,
        shape: tuple[int, int],
        rng: np.random.Generator,
        smooth: float = 0.5,
        stretch: tuple[float, float] = (1.0, 1.0),
    ) -> Floats:
        """Return noise of ``shape``; ``smooth`` 0 rough to 1 cloudy.

        ``stretch`` enlarges the pattern along x and y: grain of wood, brushed
        steel.
        """
        last = len(self._tiles) - 1
        tile = self._tiles[int(np.clip(round(smooth * last), 0, last))]
        height = int(np.clip(shape[0] / stretch[1], 4, _SIZE))
        width = int(np.clip(shape[1] / stretch[0], 4, _SIZE))
        top = int(rng.integers(0, _SIZE - height + 1))
        left = int(rng.integers(0, _SIZE - width + 1))
        part = tile[top : top + height, left : left + width]
        if rng.random() < 0.5:
            part = part[::-1]
        if part.shape != shape:
            part = cv2.resize(part, shape[::-1], interpolation=cv2.INTER_LINEAR)
        return np.ascontiguousarray(part, dtype=np.float32)
