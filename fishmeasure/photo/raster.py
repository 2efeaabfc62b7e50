"""From what a file decodes to: pixels upright, smaller, in sRGB, some rows at a time.

A photo of 120 megapixels decodes to 480 MB in Pillow (four bytes for a pixel of three
colours), so nothing here makes a second copy of it at its full size.
"""

import io
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageCms

from fishmeasure.base.arrays import ByteArray
from fishmeasure.photo.colour_profile import is_srgb

# EXIF orientation (Exif 2.3, tag 0x0112) to the move that displays the photo upright.
UPRIGHT: Final = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
SIDEWAYS: Final = frozenset((5, 6, 7, 8))
_FROM_THE_END: Final = frozenset((3, 4, 7, 8))
"""Orientations whose first row as displayed is the file's last row or column."""
_ROWS_AT_ONCE: Final = 256
"""Of the picture that is made."""
PIXELS_AT_ONCE: Final = 16_000_000
"""Of the photo: fewer rows at once where these are long. A picture 206 high and 524,352
wide was copied whole, and took 1.0 GB."""


def displayed_size(size: tuple[int, int], orientation: int) -> tuple[int, int]:
    """Return width and height of a picture as displayed."""
    return size[::-1] if orientation in SIDEWAYS else size


def upright(image: Image.Image, orientation: int, factor: int) -> Image.Image:
    """Return the picture as displayed, at 1/``factor`` of its size, sides rounded up.

    Each pixel of it is the mean of a block whose corner is the displayed picture's: a
    side that is no multiple is cut at the right or the bottom. Its pixels can be
    averaged further: no palette, 8 bits a channel.
    """
    if factor == 1 and orientation not in UPRIGHT:
        return _plain_pixels(image)
    width_px, height_px = displayed_size(image.size, orientation)
    small = None
    rows_at_once = PIXELS_AT_ONCE // (width_px * factor)
    step = factor * max(1, min(_ROWS_AT_ONCE, rows_at_once))
    for top in range(0, height_px, step):
        bottom = min(height_px, top + step)
        box = _in_the_file(image.size, orientation, top, bottom)
        rows = _plain_pixels(image.crop(box))
        if orientation in UPRIGHT:
            rows = rows.transpose(UPRIGHT[orientation])
        rows = rows.reduce(factor)
        if small is None:
            size = (-(-width_px // factor), -(-height_px // factor))
            small = Image.new(rows.mode, size)
        small.paste(rows, (0, top // factor))
    if small is None:
        message = "a picture without rows"
        raise ValueError(message)
    return small


def _in_the_file(
    size: tuple[int, int], orientation: int, top: int, bottom: int
) -> tuple[int, int, int, int]:
    """Return the file's box of some rows as displayed."""
    width_px, height_px = size
    length = width_px if orientation in SIDEWAYS else height_px
    if orientation in _FROM_THE_END:
        top, bottom = length - bottom, length - top
    if orientation in SIDEWAYS:
        return top, 0, bottom, height_px
    return 0, top, width_px, bottom


def _plain_pixels(image: Image.Image) -> Image.Image:
    """Return pixels that can be averaged: no palette, 8 bits a channel."""
    if image.mode in {"I", "I;16", "I;16B", "I;16L"}:
        return Image.fromarray(_eight_bits(np.asarray(image)))
    if image.mode in {"P", "PA"}:
        clear = image.mode == "PA" or "transparency" in image.info
        return image.convert("RGBA" if clear else "RGB")
    return image.convert("L") if image.mode == "1" else image


def _eight_bits(grey: NDArray[Any]) -> ByteArray:
    """Return 16-bit grey as bytes."""
    wide = np.clip(grey, 0, 65535).astype(np.uint32)
    eight: ByteArray = ((wide * 255 + 32895) >> 16).astype(np.uint8)
    return eight  # the nearest whole of grey / 257


def to_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """Return the picture in the colours of a screen, clear parts white."""
    if image.mode in {"LA", "RGBA", "RGBX"}:
        # Clear parts show white, as a browser shows them on a page.
        image = image.convert("RGBA")
        page = Image.new("RGBA", image.size, (255, 255, 255, 255))
        image = Image.alpha_composite(page, image).convert("RGB")
    if profile and image.mode in {"RGB", "CMYK"}:
        image = _apply_profile(image, profile)
    return image if image.mode == "RGB" else image.convert("RGB")


def _apply_profile(image: Image.Image, profile: bytes) -> Image.Image:
    if is_srgb(profile):
        return image
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        converted = ImageCms.profileToProfile(
            image, source, ImageCms.createProfile("sRGB"), outputMode="RGB"
        )
    except (ImageCms.PyCMSError, OSError):
        return image  # a broken profile: the plain numbers are the best guess
    return image if converted is None else converted
