"""Bytes to a photo: decoding, orientation, size limits.

Coordinates: a point is (x, y) in pixels of the photo *as displayed*, after the
EXIF orientation, at full size; (0, 0) is the centre of the top-left pixel, x to
the right, y down. Arrays are indexed [row, column]. The decoded raster may be
smaller than the photo by the whole factor ``reduction``; ``to_raster`` and
``to_display`` convert points, half-pixel shift included.
"""

import io
import math
import struct
import warnings
import zlib
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import pillow_heif
from PIL import Image, UnidentifiedImageError

from fishmeasure.base.arrays import ByteArray, FloatArray, frozen
from fishmeasure.base.errors import (
    NotAnImageError,
    PhotoTooLargeError,
    PhotoTooSmallError,
)
from fishmeasure.base.words import Message
from fishmeasure.photo.picture_size import fitted
from fishmeasure.photo.raster import (
    PIXELS_AT_ONCE,
    UPRIGHT,
    displayed_size,
    to_srgb,
    upright,
)

FILM_DIAGONAL_MM = math.hypot(36.0, 24.0)
"""Of the 35 mm film frame. Exif calls tag 0xA405 only "the equivalent focal length
assuming a 35mm film camera"; CIPA guideline DCG-001 makes it equal *diagonal*
angle of view, which this project follows. A maker that goes by the width differs
by 4 % on a 4:3 sensor, and the tag is a whole number of mm (2 % at 26 mm): see
``markers.camera.EXIF_FOCAL_RELATIVE_SD``."""

_ORIENTATION_TAG = 0x0112
_MAKE_TAG = 0x010F
_MODEL_TAG = 0x0110
_EXIF_IFD = 0x8769
_EXIF_SIZE_TAGS = (0xA002, 0xA003)
"""Of the picture as taken."""
_CUT_SHARE = 0.02
_FOCAL_35MM_TAG = 0xA405

BROKEN_FILE_ERRORS = (
    *(OSError, ValueError, SyntaxError, EOFError, RuntimeError),
    *(LookupError, TypeError, OverflowError, struct.error, zlib.error),
)
"""What Pillow and libheif raise for files that are cut off or corrupt."""

# Cameras write one scan, progressive files about 10; each is a pass over all pixels, so
# that thousands in a small file would take hours.
MOST_SCANS = 100
# A photo has some dozens; a profile or extended text in pieces, a few hundred more. Ten
# million empty ones took a minute and 1.7 GB.
MOST_SEGMENTS = 5000

# "JPEG" takes MPO with it: a JPEG with more pictures behind it, as some phones write.
_FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoLimits:
    """What is refused before decoding, and when less is decoded.

    Attributes
    ----------
    max_bytes
        Of the file. A 108 MP phone JPEG has about 40 MB.
    max_pixels
        Width times height, read from the header.
    max_webp_pixels
        Of a WebP, whose decoder holds four rasters: 60 megapixels took 1.1 GB.
    max_heif_pixels
        Of a HEIC, which is decoded and then written as JPEG.
    min_side_px
        Of the shorter side; a preview, not a photo.
    reduce_from_pixels
        Photos with at least this many pixels are decoded at half size (at a
        quarter from four times as many).
    """

    max_bytes: int = 60_000_000
    max_pixels: int = 120_000_000
    max_webp_pixels: int = 40_000_000
    max_heif_pixels: int = 60_000_000
    min_side_px: int = 32
    reduce_from_pixels: int = 8_000_000


DEFAULT_LIMITS = PhotoLimits()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Photo:
    """A decoded photo.

    Attributes
    ----------
    name
        File name, for messages.
    rgb
        (rows, columns, 3) uint8, read-only, sRGB, oriented as displayed.
    width_px, height_px
        Size as displayed at full resolution.
    reduction
        Full-size pixels per raster pixel along each side (1, 2 or 4).
    focal_length_px
        From the EXIF 35 mm-equivalent focal length (by the diagonal), in
        full-size pixels; None where EXIF has none.
    camera_model
        EXIF make and model, for the choice of a lens profile; "" if none.
    was_cut
        Whether EXIF tells of other proportions: a part of what the camera took.
    """

    name: str
    rgb: ByteArray
    width_px: int
    height_px: int
    reduction: int = 1
    focal_length_px: float | None = None
    camera_model: str = ""
    was_cut: bool = False

    def to_raster(self, points_px: FloatArray) -> FloatArray:
        """Return (n, 2) display points as coordinates of ``rgb``."""
        return (points_px + 0.5) / self.reduction - 0.5

    def to_display(self, points_raster: FloatArray) -> FloatArray:
        """Return (n, 2) coordinates of ``rgb`` as display points."""
        return (points_raster + 0.5) * self.reduction - 0.5


def read_photo(data: bytes, name: str, limits: PhotoLimits = DEFAULT_LIMITS) -> Photo:
    """Return the photo in ``data``, upright and in sRGB.

    Parameters
    ----------
    data
        A JPEG, PNG, WebP or HEIC/HEIF file.
    name
        For messages.
    limits
        Checked against the header, before anything is decoded.

    Raises
    ------
    NotAnImageError
        If the bytes are none of these formats, or broken.
    PhotoTooLargeError, PhotoTooSmallError
        If the photo is outside the limits.
    """
    if len(data) > limits.max_bytes:
        raise PhotoTooLargeError(
            name, megabytes(len(data)), megabytes(limits.max_bytes)
        )
    try:
        with warnings.catch_warnings():
            # What Pillow would say of odd tags is of no use to a grower; of many
            # pixels it warns at half of its own limit, and ours is checked first.
            warnings.simplefilter("ignore")
            image = open_header(data, name, limits)
            return _decode(image, name, limits)
    except Image.DecompressionBombError:
        raise beyond_pillow(name, limits) from None
    except UnidentifiedImageError:
        raise NotAnImageError(name) from None
    except BROKEN_FILE_ERRORS as error:
        reason = Message.of("image-broken", told=str(error))
        raise NotAnImageError(name, reason) from None


def small_picture(
    data: bytes, name: str, most_wide_px: int, limits: PhotoLimits = DEFAULT_LIMITS
) -> Image.Image:
    """Return the photo to look at: upright, in sRGB, at most that wide.

    Raises
    ------
    PhotoTooLargeError, PhotoTooSmallError
        If the photo is outside the limits. What Pillow raises passes through.
    """
    image = open_header(data, name, limits)
    orientation = image.getexif().get(_ORIENTATION_TAG, 1)
    profile = image.info.get("icc_profile")
    width_px, height_px = displayed_size(image.size, orientation)
    size = fitted(width_px, height_px, min(width_px, most_wide_px))
    # A block as high as it is wide, of a very wide picture, would be all of it.
    factor = max(1, min(width_px // size[0], PIXELS_AT_ONCE // width_px))
    small = _upright(image, orientation, factor // _load_scaled(image, factor))
    small = to_srgb(small, profile)
    return small if small.size == size else small.resize(size)


def open_header(
    data: bytes, name: str, limits: PhotoLimits = DEFAULT_LIMITS
) -> Image.Image:
    """Return the picture with nothing decoded, its size within the limits.

    Raises
    ------
    PhotoTooLargeError, PhotoTooSmallError
        If the photo is outside the limits. What Pillow raises passes through.
    """
    Image.init()  # both are safe to call again
    pillow_heif.register_heif_opener(thumbnails=False)
    if data.startswith(b"\xff\xd8") and _has_too_many_parts(data):
        raise NotAnImageError(name, Message.of("image-parts"))
    image = Image.open(io.BytesIO(data), formats=_FORMATS)
    most = limits.max_pixels
    if image.format == "WEBP":
        most = min(most, limits.max_webp_pixels)
    if image.format == "HEIF":
        most = min(most, limits.max_heif_pixels)
    _check_size(name, image.size, most, limits)
    return image


def _has_too_many_parts(jpeg: bytes) -> bool:
    """Return whether a JPEG has far more scans, or segments before them, than one has.

    Whether they are right is for the decoder to say.
    """
    if jpeg.count(b"\xff\xda") > MOST_SCANS:
        return True
    at = 2
    for _ in range(MOST_SEGMENTS):
        marker, length = jpeg[at : at + 2], jpeg[at + 2 : at + 4]
        if len(length) < 2 or marker[0] != 0xFF or marker[1] == 0xDA:
            return False
        at += 2 + int.from_bytes(length, "big")
    return True


def beyond_pillow(
    name: str, limits: PhotoLimits = DEFAULT_LIMITS
) -> PhotoTooLargeError:
    """Return the error for a photo with more pixels than Pillow looks at."""
    most = 2 * (Image.MAX_IMAGE_PIXELS or 0)  # as its documentation says
    return PhotoTooLargeError(
        name,
        Message.of("more-than", size=_megapixels(most)),
        _megapixels(limits.max_pixels),
    )


def megabytes(size_bytes: int) -> Message:
    """Return the size of a file in words."""
    return Message.of("megabytes", size_mb=size_bytes / 1e6)


def _megapixels(most: int) -> Message:
    return Message.of("megapixels", size_mp=most / 1e6)


def _check_size(
    name: str, size: tuple[int, int], most: int, limits: PhotoLimits
) -> None:
    width_px, height_px = size
    if width_px * height_px > most:
        raise PhotoTooLargeError(
            name,
            Message.of("picture-pixels", width_px=width_px, height_px=height_px),
            _megapixels(most),
        )
    if min(size) < limits.min_side_px:
        raise PhotoTooSmallError(name, width_px, height_px)


def _decode(image: Image.Image, name: str, limits: PhotoLimits) -> Photo:
    exif = image.getexif()
    orientation = exif.get(_ORIENTATION_TAG, 1)
    width_px, height_px = displayed_size(image.size, orientation)
    reduction = _reduction(image.size, limits)
    profile = image.info.get("icc_profile")
    taken = exif.get_ifd(_EXIF_IFD)
    was_cut = _was_cut(taken, image.size)
    focal_35mm = None if was_cut else taken.get(_FOCAL_35MM_TAG)
    model = " ".join(
        str(exif[tag]).strip(" \0") for tag in (_MAKE_TAG, _MODEL_TAG) if tag in exif
    )
    # Turned or mirrored, a side that is no multiple would start with the block that
    # is cut, and the half-pixel rule of ``Photo.to_raster`` would not hold.
    whole = all(side % reduction == 0 for side in image.size)
    early = reduction if whole or orientation not in UPRIGHT else 1
    small = _upright(image, orientation, reduction // _load_scaled(image, early))
    raster: ByteArray = np.asarray(to_srgb(small, profile))
    return Photo(
        name=name,
        rgb=frozen(np.ascontiguousarray(raster)),
        width_px=width_px,
        height_px=height_px,
        reduction=reduction,
        focal_length_px=_focal_px(focal_35mm, width_px, height_px),
        camera_model=model,
        was_cut=was_cut,
    )


def _reduction(size: tuple[int, int], limits: PhotoLimits) -> int:
    """Return 1, 2 or 4: how much smaller the raster is decoded."""
    pixels = size[0] * size[1]
    if pixels >= 4 * limits.reduce_from_pixels:
        return 4
    return 2 if pixels >= limits.reduce_from_pixels else 1


def _load_scaled(image: Image.Image, most: int) -> int:
    """Decode; return how many of the photo's pixels one along a side stands for.

    libjpeg scales while it decodes, here by ``most`` times or less: on a 12 MP photo
    25-29 ms instead of 79-84 ms for the full size (Pillow; OpenCV's half-size decode
    took 23-27 ms but does not tell a photo that is cut off).
    """
    width_px, height_px = image.size
    if image.format in {"JPEG", "MPO"}:
        # Pillow picks the largest scale that is at least the size asked for.
        image.draft(None, (width_px // most, height_px // most))
    image.load()
    return round(width_px / image.width)


def _upright(image: Image.Image, orientation: int, factor: int) -> Image.Image:
    """Do what ``raster.upright`` says, and forget the picture at its full size."""
    small = upright(image, orientation, factor)
    if small is not image:
        image.close()
    return small


def _was_cut(taken: Mapping[int, object], size: tuple[int, int]) -> bool:
    """Return whether Exif says other proportions than the picture has.

    Then the focal length over the diagonal is no longer that of the camera. Programs
    that renew these tags leave nothing to see.
    """
    sides = [taken.get(tag) for tag in _EXIF_SIZE_TAGS]
    told = sorted(float(s) for s in sides if isinstance(s, int) and s > 0)
    if len(told) != len(sides):
        return False
    return abs(told[0] / told[1] / (min(size) / max(size)) - 1.0) > _CUT_SHARE


def _focal_px(focal_35mm: object, width_px: int, height_px: int) -> float | None:
    if not isinstance(focal_35mm, int | float) or not 8 <= focal_35mm <= 800:
        return None  # 0 means unknown in Exif; outside it is no real lens
    return focal_35mm / FILM_DIAGONAL_MM * math.hypot(width_px, height_px)


__all__ = [
    "BROKEN_FILE_ERRORS",
    "DEFAULT_LIMITS",
    "Photo",
    "PhotoLimits",
    "beyond_pillow",
    "open_header",
    "read_photo",
    "small_picture",
]
