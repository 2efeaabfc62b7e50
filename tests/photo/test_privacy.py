"""Private tags leave, pixels and what the measurement needs stay."""

import contextlib
import io

import numpy as np
import pytest
from PIL import ExifTags, Image

from fishmeasure.base.errors import NotAnImageError
from fishmeasure.photo.privacy import strip_private_tags

PRIVATE = "invented private words"


def picture() -> Image.Image:
    rng = np.random.default_rng(5)
    return Image.fromarray(rng.integers(0, 255, (40, 60, 3), dtype=np.uint8))


def private_exif() -> Image.Exif:
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = 6
    exif[ExifTags.Base.Model] = "Model X"
    exif[ExifTags.Base.Artist] = PRIVATE
    exif.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.FocalLengthIn35mmFilm] = 26
    exif.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.BodySerialNumber] = PRIVATE
    exif.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSLatitude] = (12.0, 34.0, 56.0)
    return exif


def encoded(kind: str, **options: object) -> bytes:
    out = io.BytesIO()
    picture().save(out, kind, exif=private_exif(), **options)
    return out.getvalue()


@pytest.mark.parametrize(
    ("kind", "options"),
    [
        ("JPEG", {"comment": PRIVATE}),
        ("JPEG", {"progressive": True}),
        ("PNG", {}),
        ("WEBP", {"lossless": True}),
    ],
)
def test_private_tags_go_and_pixels_stay(kind: str, options: dict[str, object]) -> None:
    """Only orientation, focal length and model survive; every pixel is the same."""
    data = encoded(kind, **options)
    clean = strip_private_tags(data, "a")
    assert PRIVATE.encode() not in clean
    before, after = Image.open(io.BytesIO(data)), Image.open(io.BytesIO(clean))
    assert np.array_equal(np.asarray(before), np.asarray(after))
    exif = after.getexif()
    assert not exif.get_ifd(ExifTags.IFD.GPSInfo)
    assert exif[ExifTags.Base.Orientation] == 6
    assert exif[ExifTags.Base.Model] == "Model X"
    inner = exif.get_ifd(ExifTags.IFD.Exif)
    assert inner == {ExifTags.Base.FocalLengthIn35mmFilm: 26}


def test_bytes_after_the_picture_go() -> None:
    """A film or another file glued to a photo is not kept."""
    clean = strip_private_tags(encoded("JPEG") + b"PK glued " + PRIVATE.encode(), "a")
    assert PRIVATE.encode() not in clean
    assert clean.endswith(b"\xff\xd9")


def test_heic_becomes_an_upright_jpeg() -> None:
    """A HEIC photo is kept as a JPEG, turned upright, tags gone."""
    pillow_heif = pytest.importorskip("pillow_heif")
    pillow_heif.register_heif_opener()
    data = encoded("HEIF")
    clean = strip_private_tags(data, "a")
    with Image.open(io.BytesIO(clean)) as image:
        assert image.format == "JPEG"
        assert PRIVATE.encode() not in clean
        assert image.getexif().get_ifd(ExifTags.IFD.Exif) == {
            ExifTags.Base.FocalLengthIn35mmFilm: 26
        }


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_truncated_photos_never_crash(kind: str) -> None:
    """Cut anywhere, a photo is refused or cleaned, never a traceback."""
    data = encoded(kind)
    for length in range(0, len(data), 7):
        with contextlib.suppress(NotAnImageError):
            strip_private_tags(data[:length], "cut")
