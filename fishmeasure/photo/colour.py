"""The sRGB tone curve (IEC 61966-2-1), as look-up tables."""

import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.arrays import ByteArray, frozen

_CODES = np.arange(256) / 255.0
SRGB_TO_LINEAR: NDArray[np.float32] = frozen(
    np.where(_CODES <= 0.04045, _CODES / 12.92, ((_CODES + 0.055) / 1.055) ** 2.4)
).astype(np.float32)
"""Linear light, 0 to 1, of each of the 256 codes."""


def srgb_to_linear(codes: ByteArray) -> NDArray[np.float32]:
    """Return the linear light of 8-bit sRGB codes, any shape."""
    return SRGB_TO_LINEAR[codes]


def linear_to_srgb(light: NDArray[np.float32]) -> ByteArray:
    """Return the 8-bit sRGB codes of linear light in 0 to 1, any shape."""
    curved = np.where(
        light <= 0.0031308, light * 12.92, 1.055 * np.power(light, 1 / 2.4) - 0.055
    )
    return (curved * 255.0 + 0.5).astype(np.uint8)
