"""Reading photos: formats, orientation, colour, limits, reduction."""

import io
import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pillow_heif
import pytest
from PIL import Image, ImageCms, ImageOps

from fishmeasure.base.errors import (
    NotAnImageError,
    PhotoError,
    PhotoTooLargeError,
    PhotoTooSmallError,
)
from fishmeasure.photo.colour import linear_to_srgb, srgb_to_linear
from fishmeasure.photo.image import Photo, PhotoLimits, read_photo

# Red, green, blue and white quarters, clockwise from the top-left.
RED, GREEN, BLUE, WHITE = (220, 30, 30), (30, 200, 40), (30, 40, 210), (250, 250, 250)
SMALL = PhotoLimits(reduce_from_pixels=40_000)


def quarters(width: int = 160, height: int = 120) -> Image.Image:
    image = Image.new("RGB", (width, height), WHITE)
    image.paste(RED, (0, 0, width // 2, height // 2))
    image.paste(GREEN, (width // 2, 0, width, height // 2))
    image.paste(BLUE, (0, height // 2, width // 2, height))
    return image


def encoded(image: Image.Image, kind: str, **options: object) -> bytes:
    buffer = io.BytesIO()
    image.save(buffer, kind, **options)
    return buffer.getvalue()


def corners(photo: Photo) -> list[tuple[int, ...]]:
    rows, columns = photo.rgb.shape[:2]
    spots = [(rows // 4, columns // 4), (rows // 4, 3 * columns // 4)]
    spots += [(3 * rows // 4, columns // 4), (3 * rows // 4, 3 * columns // 4)]
    return [tuple(int(v) for v in photo.rgb[spot]) for spot in spots]


def near(found: tuple[int, ...], expected: tuple[int, ...], by: int = 12) -> bool:
    return max(abs(a - b) for a, b in zip(found, expected, strict=True)) <= by


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_formats(kind: str) -> None:
    """Each format gives the same picture."""
    photo = read_photo(encoded(quarters(), kind), "a")
    assert photo.rgb.shape == (120, 160, 3)
    assert not photo.rgb.flags.writeable
    for found, expected in zip(corners(photo), (RED, GREEN, BLUE, WHITE), strict=True):
        assert near(found, expected)


def test_heic() -> None:
    """A phone's HEIC is read, with its focal length."""
    exif = Image.Exif()
    exif[0x0110] = "Phone"
    exif.get_ifd(0x8769)[0xA405] = 26
    buffer = io.BytesIO()
    pillow_heif.from_pillow(quarters()).save(buffer, exif=exif.tobytes())
    photo = read_photo(buffer.getvalue(), "a.heic")
    assert (photo.width_px, photo.height_px) == (160, 120)
    assert near(corners(photo)[0], RED)
    assert photo.camera_model == "Phone"
    assert photo.focal_length_px == pytest.approx(26 / 43.2666 * 200, rel=1e-4)


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("limits", [PhotoLimits(), SMALL], ids=["full", "half"])
def test_orientation(orientation: int, kind: str, limits: PhotoLimits) -> None:
    """The displayed photo is upright: Exif 2.3 table of tag 0x0112."""
    upright = quarters(320, 240)
    # What the camera stores, so that the stated move displays it upright.
    stored = {
        1: lambda i: i,
        2: lambda i: i.transpose(Image.Transpose.FLIP_LEFT_RIGHT),
        3: lambda i: i.transpose(Image.Transpose.ROTATE_180),
        4: lambda i: i.transpose(Image.Transpose.FLIP_TOP_BOTTOM),
        5: lambda i: i.transpose(Image.Transpose.TRANSPOSE),
        6: lambda i: i.transpose(Image.Transpose.ROTATE_90),
        7: lambda i: i.transpose(Image.Transpose.TRANSVERSE),
        8: lambda i: i.transpose(Image.Transpose.ROTATE_270),
    }[orientation](upright)
    exif = Image.Exif()
    exif[0x0112] = orientation
    photo = read_photo(encoded(stored, kind, exif=exif), "a", limits)
    assert (photo.width_px, photo.height_px) == (320, 240)
    assert photo.reduction == (1 if limits is not SMALL else 2)
    assert photo.rgb.shape[:2] == (240 // photo.reduction, 320 // photo.reduction)
    for found, expected in zip(corners(photo), (RED, GREEN, BLUE, WHITE), strict=True):
        assert near(found, expected)


def grey_ramp_16() -> Image.Image:
    codes = np.full((100, 100), 65535 * 3 // 5, np.uint16)
    return Image.fromarray(codes)


@pytest.mark.parametrize(
    ("image", "expected"),
    [
        (grey_ramp_16(), (153, 153, 153)),
        (Image.new("L", (100, 100), 77), (77, 77, 77)),
        (Image.new("LA", (100, 100), (77, 255)), (77, 77, 77)),
        (Image.new("RGBA", (100, 100), (10, 20, 30, 0)), (255, 255, 255)),
        (Image.new("RGBA", (100, 100), (10, 20, 30, 255)), (10, 20, 30)),
        (Image.new("RGB", (100, 100), RED).quantize(4), RED),
        (Image.new("1", (100, 100), 1), (255, 255, 255)),
    ],
    ids=["grey16", "grey", "grey-alpha", "clear", "opaque", "palette", "bilevel"],
)
def test_modes(image: Image.Image, expected: tuple[int, ...]) -> None:
    """Grey, 16 bits, palette and transparency all become sRGB."""
    photo = read_photo(encoded(image, "PNG"), "a.png")
    assert near(tuple(int(v) for v in photo.rgb[50, 50]), expected, by=1)


def test_cmyk_jpeg() -> None:
    """A CMYK JPEG shows its colours."""
    photo = read_photo(encoded(quarters().convert("CMYK"), "JPEG", quality=95), "a")
    assert near(corners(photo)[0], RED, by=25)


def test_colour_profile_is_applied() -> None:
    """A wide-gamut green is more than sRGB can show; red and blue stay near zero.

    IEC 61966-2-1 and the profile's own primaries; LittleCMS does the sum.
    """
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes()
    broken = encoded(quarters(), "PNG", icc_profile=b"no profile")
    assert near(corners(read_photo(broken, "a"))[0], RED)
    # A profile of another colour space cannot be meant: the numbers stand.
    odd = encoded(quarters(), "PNG", icc_profile=profile)
    assert near(corners(read_photo(odd, "a"))[0], RED)


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_half_size_keeps_positions(kind: str) -> None:
    """A spot is at the same display coordinates at full and half size."""
    x, y = np.meshgrid(np.arange(640), np.arange(480))
    spot = np.exp(-((x - 401.3) ** 2 + (y - 222.8) ** 2) / (2 * 12.0**2))
    grey = (spot * 200 + 20).astype(np.uint8)
    data = encoded(Image.fromarray(grey).convert("RGB"), kind)
    limits = PhotoLimits(reduce_from_pixels=300_000)
    photo = read_photo(data, "a", limits)
    assert photo.reduction == 2
    light = photo.rgb[:, :, 1].astype(float) - 20.0
    light[light < 10] = 0.0
    columns, rows = np.meshgrid(np.arange(320), np.arange(240))
    found = np.array([[(light * columns).sum(), (light * rows).sum()]]) / light.sum()
    assert np.allclose(photo.to_display(found), [[401.3, 222.8]], atol=0.1)
    assert np.allclose(photo.to_raster(photo.to_display(found)), found)


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
@pytest.mark.parametrize("orientation", range(2, 9))
def test_odd_sides_are_reduced_from_the_displayed_corner(
    kind: str, orientation: int
) -> None:
    """The same as Pillow's own turning at full size, then averaging 2 x 2 blocks."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    data = encoded(quarters(321, 241), kind, exif=exif)
    with Image.open(io.BytesIO(data)) as image:
        expected = np.asarray(ImageOps.exif_transpose(image).reduce(2))
    found = read_photo(data, "a", SMALL)
    assert found.reduction == 2
    assert np.array_equal(found.rgb, expected)


def png_header(width: int, height: int) -> bytes:
    """Return a PNG of that size whose pixels compress to almost nothing."""

    def chunk(name: bytes, body: bytes) -> bytes:
        crc = zlib.crc32(name + body)
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", crc)

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(bytes(1000)))
    return b"\x89PNG\r\n\x1a\n" + body + chunk(b"IEND", b"")


@pytest.mark.parametrize("size", [(12000, 11000), (30000, 30000), (2**31 - 1, 10)])
def test_bombs_are_refused_from_the_header(
    size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Far too many pixels are refused before anything is decoded."""

    def fail(*_: object) -> None:
        pytest.fail("decoded")

    monkeypatch.setattr(Image.Image, "load", fail)
    with pytest.raises(PhotoTooLargeError) as caught:
        read_photo(png_header(*size), "bomb.png")
    assert caught.value.code == "too-large"
    assert "120 megapixels" in str(caught.value)


def test_bytes_and_small_sides_are_limited() -> None:
    """Files over the byte limit and thumbnails are refused."""
    with pytest.raises(PhotoTooLargeError, match="limit is 0 MB"):
        read_photo(encoded(quarters(), "PNG"), "a", PhotoLimits(max_bytes=100))
    with pytest.raises(PhotoTooSmallError, match="60 x 30"):
        read_photo(encoded(quarters(60, 30), "PNG"), "a")


def cut(data: bytes) -> bytes:
    return data[: len(data) // 2]


@pytest.mark.parametrize(
    "make",
    [
        lambda: b"",
        lambda: b"hello, this is text",
        lambda: cut(encoded(noise(), "JPEG")),
        lambda: cut(encoded(noise(), "PNG")),
        lambda: cut(encoded(noise(), "WEBP")),
        lambda: encoded(quarters(), "GIF"),
        lambda: encoded(quarters(), "TIFF"),
        lambda: b"\xff\xd8\xff\xe0" + bytes(200),
    ],
    ids=["empty", "text", "jpeg", "png", "webp", "gif", "tiff", "stub"],
)
def test_what_is_no_photo_says_so(make: Callable[[], bytes]) -> None:
    """Broken files and other kinds end in one sentence with a way forward."""
    with pytest.raises(NotAnImageError, match="JPEG, PNG, WebP or HEIC") as caught:
        read_photo(make(), "x.jpg")
    assert caught.value.code == "not-an-image"


def noise() -> Image.Image:
    rng = np.random.default_rng(1)
    return Image.fromarray(rng.integers(0, 255, (200, 200, 3), np.uint8))


@pytest.mark.parametrize("focal", [0, -5, 5000])
def test_an_impossible_focal_length_is_unknown(focal: int) -> None:
    """0 means unknown in Exif; other nonsense is treated alike."""
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA405] = abs(focal) if focal < 0 else focal
    if focal < 0:
        exif.get_ifd(0x8769)[0xA405] = 1
    photo = read_photo(encoded(quarters(), "JPEG", exif=exif), "a")
    assert photo.focal_length_px is None


@pytest.mark.shared
def test_real_phone_photos(shared: Path) -> None:
    """A phone's photos: focal length by the diagonal, model, half size."""
    path = shared / "photos/wikimedia_fish/horse_mackerel_tank.jpg"
    photo = read_photo(path.read_bytes(), path.name)
    assert photo.camera_model == "Apple iPhone 8"
    assert (photo.width_px, photo.height_px, photo.reduction) == (4032, 3024, 2)
    # 28 mm at 43.27 mm of diagonal, over 5040 px of diagonal.
    assert photo.focal_length_px == pytest.approx(28 / 43.2666 * 5040, rel=1e-4)
    for path in sorted((shared / "photos").rglob("*.jpg")):
        try:
            photo = read_photo(path.read_bytes(), path.name)
        except PhotoError:
            continue
        assert photo.rgb.dtype == np.uint8


def primaries_matrix(primaries: list[tuple[float, float]]) -> np.ndarray:
    """Return linear RGB to XYZ for chromaticities at white D65 (0.3127, 0.3290)."""
    columns = np.array([[x / y, 1.0, (1.0 - x - y) / y] for x, y in primaries]).T
    white = np.array([0.3127 / 0.3290, 1.0, (1.0 - 0.3127 - 0.3290) / 0.3290])
    matrix: np.ndarray = columns * np.linalg.solve(columns, white)
    return matrix


@pytest.mark.shared
def test_display_p3_becomes_srgb(shared: Path) -> None:
    """A phone's Display P3 photo, against the matrix of the published primaries.

    SMPTE EG 432-1 (P3) and IEC 61966-2-1 (sRGB); both with the sRGB tone curve.
    """
    path = shared / "photos/wikimedia_fish/horse_mackerel_tank.jpg"
    photo = read_photo(path.read_bytes(), path.name)
    image = Image.open(path)
    assert b"Display P3" in image.info["icc_profile"].replace(b"\0", b"")
    image.draft(None, (2016, 1512))
    stored = np.asarray(image)[::9, ::9]
    p3 = primaries_matrix([(0.680, 0.320), (0.265, 0.690), (0.150, 0.060)])
    srgb = primaries_matrix([(0.640, 0.330), (0.300, 0.600), (0.150, 0.060)])
    to_srgb = (np.linalg.inv(srgb) @ p3).astype(np.float32)
    light = np.clip(srgb_to_linear(stored) @ to_srgb.T, 0.0, 1.0)
    expected = linear_to_srgb(light).astype(int)
    found = photo.rgb[::9, ::9].astype(int)
    assert np.abs(found - expected).max() <= 2
    assert np.abs(stored.astype(int) - expected).mean() > 0.5  # it was needed


@pytest.mark.parametrize("orientation", [1, 6, 8, 3])
def test_heic_orientation_and_reduction(orientation: int) -> None:
    """A HEIC held sideways is upright; a large one is read at half size."""
    stored = quarters(320, 240)
    exif = Image.Exif()
    exif[0x0112] = orientation
    buffer = io.BytesIO()
    pillow_heif.from_pillow(stored).save(buffer, exif=exif.tobytes(), quality=90)
    photo = read_photo(buffer.getvalue(), "a.heic", SMALL)
    sideways = orientation in {6, 8}
    assert (photo.width_px, photo.height_px) == ((240, 320) if sideways else (320, 240))
    assert photo.reduction == 2
    # Exif 2.3: 6 is turned clockwise to show, 8 anticlockwise, 3 by half a turn.
    expected = {
        1: (RED, GREEN, BLUE, WHITE),
        3: (WHITE, BLUE, GREEN, RED),
        6: (BLUE, RED, WHITE, GREEN),
        8: (GREEN, WHITE, RED, BLUE),
    }[orientation]
    for found, colour in zip(corners(photo), expected, strict=True):
        assert near(found, colour, by=20)
