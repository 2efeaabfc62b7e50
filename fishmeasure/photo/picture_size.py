"""How large a picture may be that is made of a photo, whatever the photo's sides."""

import math
from typing import Final

MOST_PIXELS: Final = 16_000_000
"""Of a picture to look at: a phone's photo at its full size (4032 x 3024 are 12.2
million) is within it. In bytes it is 48 MB, and an overlay, which holds five such
copies at once, stays near 300 MB."""
MOST_SIDE_PX: Final = 65_500  # JPEG_MAX_DIMENSION of libjpeg (jmorecfg.h)


def fitted(width_px: int, height_px: int, wanted_px: int) -> tuple[int, int]:
    """Return the size of a picture of the wanted width or, to stay in bounds, less.

    Parameters
    ----------
    width_px, height_px
        Of the photo; the picture has its shape.
    wanted_px
        Width of the picture.
    """
    scale = min(
        wanted_px / width_px,
        math.sqrt(MOST_PIXELS / (width_px * height_px)),
        MOST_SIDE_PX / max(width_px, height_px),
    )
    return (
        max(1, min(wanted_px, math.floor(width_px * scale + 1e-6))),
        max(1, min(MOST_SIDE_PX, round(height_px * scale))),
    )
