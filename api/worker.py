"""What runs in the worker processes: everything that opens a photo."""

import hashlib
import io
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from api.files import PhotoFiles
from fishmeasure.base.errors import FishMeasureError, PhotoError
from fishmeasure.base.words import Message, Parameters, Voice, speaking
from fishmeasure.photo.image import BROKEN_FILE_ERRORS, read_photo, small_picture
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.photo.overlay import overlay_jpeg
from fishmeasure.photo.privacy import strip_private_tags
from fishmeasure.pipeline import PhotoSettings, measure_photo

Json = dict[str, Any]
JPEG_QUALITY = 85
GLANCE_PX = 64
"""Enough to have every byte of a photo looked at, and little to decode."""


class KeptPhotoError(Exception):
    """A kept photo's file is gone or damaged."""


def take_in(
    upload: Path, name: str, how: PhotoSettings, folder: Path
) -> Json | Message:
    """Measure an uploaded file and keep it without its private tags.

    The file is kept under the hash of what was sent. A photo that cannot be read is
    refused, with the reason, and not kept; one without a marker or fish is kept.
    """
    data = upload.read_bytes()
    try:
        clean = strip_private_tags(data, name)
    except FishMeasureError as error:
        return error.said
    measurement = measure_photo(clean, name, how)
    if measurement.width_px == 0:
        worst = measurement.problems[0]
        return Message(worst.code, worst.parameters or Parameters())
    PhotoFiles(folder).put(hashlib.sha256(data).hexdigest(), clean)
    return measurement.to_json()


def is_whole(path: Path) -> bool:
    """Return whether a kept photo can be decoded to its end."""
    try:
        shrink(path, GLANCE_PX)
    except KeptPhotoError:
        return False
    return True


def measure_again(path: Path, name: str, how: PhotoSettings) -> Json:
    """Return the measurement of a kept photo under other settings.

    Raises
    ------
    KeptPhotoError
        If it cannot be read any more: what was measured before must stay.
    """
    measurement = measure_photo(_read(path), name, how)
    if measurement.width_px == 0:
        raise KeptPhotoError
    return measurement.to_json()


def draw(path: Path, measurement: Json, in_voice: Voice) -> bytes:
    """Return the photo with its fish drawn in, as JPEG."""
    result = PhotoMeasurement.from_json(measurement)
    with _decoding(path) as data:
        photo = read_photo(data, result.photo)
    with speaking(in_voice):
        return overlay_jpeg(photo, result)


def shrink(path: Path, width_px: int) -> bytes:
    """Return the photo upright and at most that wide, as JPEG."""
    with _decoding(path) as data:
        small = small_picture(data, path.name, width_px)
    out = io.BytesIO()
    small.save(out, "JPEG", quality=JPEG_QUALITY)
    return out.getvalue()


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        raise KeptPhotoError from None


@contextmanager
def _decoding(path: Path) -> Iterator[bytes]:
    """Give a kept file's content; that it cannot be decoded is said as one error."""
    data = _read(path)
    try:
        yield data
    except (*BROKEN_FILE_ERRORS, PhotoError):
        raise KeptPhotoError from None
