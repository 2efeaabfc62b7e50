"""What broken and odd photos once did, and must not do again."""

import contextlib
import io
import struct
import subprocess
import sys
import time
import warnings
import zlib
from collections.abc import Iterator

import numpy as np
import pytest
from PIL import Image

from fishmeasure.base.errors import NotAnImageError, PhotoTooLargeError
from fishmeasure.photo import raster
from fishmeasure.photo.image import PhotoLimits, read_photo
from fishmeasure.photo.privacy import strip_private_tags
from tests.fuzz.bases import SECRET, base_photos, exif, saved, scene

SMALL = PhotoLimits(reduce_from_pixels=4000)


@pytest.mark.parametrize("mode", ["P", "1", "I;16", "L", "LA", "RGBA"])
def test_large_photo_of_any_kind_of_pixels_is_reduced(mode: str) -> None:
    """Palettes, single bits and 16 bits were taken for broken from 8 MP on."""
    full = read_photo(saved(scene(mode), "PNG"), "a").rgb
    half = read_photo(saved(scene(mode), "PNG"), "a", SMALL).rgb
    blocks = full.astype(float).reshape(32, 2, 48, 2, 3).mean(axis=(1, 3))
    assert np.abs(half - blocks).max() <= 1.0


def test_sixteen_bits_are_rounded_to_the_nearest() -> None:
    """n / 257 for every 16-bit n, by exact division."""
    levels = np.arange(65536, dtype=np.uint16).reshape(256, 256)
    found = read_photo(saved(Image.fromarray(levels), "PNG"), "a").rgb[..., 0]
    assert np.array_equal(found, np.rint(levels / 257.0))


@pytest.mark.parametrize("kind", ["TIFF", "GIF", "BMP", "PPM", "EPS", "ICO"])
def test_only_photo_formats_reach_a_decoder(kind: str) -> None:
    """Taking tags out opened anything that Pillow knows, PostScript included."""
    data = saved(scene(), kind)
    with pytest.raises(NotAnImageError):
        strip_private_tags(data, "a")
    with pytest.raises(NotAnImageError):
        read_photo(data, "a")


def claimed(data: bytes, width_px: int, height_px: int) -> bytes:
    """Return a HEIC whose size properties say something else."""
    at = data.index(b"ispe") + 8
    return data[:at] + struct.pack(">II", width_px, height_px) + data[at + 8 :]


@pytest.mark.parametrize("side_px", [12_000, 16_000, 65_000, 2**31])
def test_heic_bomb_is_refused_before_decoding(
    side_px: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Taking tags out of a HEIC decodes it; its size is looked at before."""
    data = claimed(base_photos()["one.heic"], side_px, side_px)
    monkeypatch.setattr(Image.Image, "load", lambda _: pytest.fail("decoded"))
    with pytest.raises((PhotoTooLargeError, NotAnImageError)):
        strip_private_tags(data, "a")


def test_a_heic_that_is_cut_off_is_refused() -> None:
    """libheif's end of file passed through when tags were taken out."""
    data = base_photos()["alpha.heic"]
    for size in range(0, len(data), 23):
        try:
            strip_private_tags(data[:size], "a")
        except NotAnImageError:
            continue
        pytest.fail(f"{size} of {len(data)} bytes were taken")


def test_nothing_is_said_of_odd_tags() -> None:
    """Pillow's warnings about EXIF went to the terminal of a grower."""
    block = exif().tobytes()
    for size in range(8, len(block), 5):
        out = io.BytesIO()
        scene().save(out, "JPEG", exif=block[:size])
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            read_photo(out.getvalue(), "a")
            strip_private_tags(out.getvalue(), "a")


def test_text_between_the_scans_of_a_jpeg_is_dropped() -> None:
    """Comments and application data may stand between scans (ITU-T T.81, B.2.3)."""
    data = saved(scene(), "JPEG", progressive=True)
    second = data.index(b"\xff\xda", data.index(b"\xff\xda") + 2)
    for marker in (0xFE, 0xE1, 0xED):
        segment = bytes([0xFF, marker, 0, len(SECRET) + 2]) + SECRET
        hidden = data[:second] + segment + data[second:]
        assert np.array_equal(read_photo(hidden, "a").rgb, read_photo(data, "a").rgb)
        assert strip_private_tags(hidden, "a") == strip_private_tags(data, "a")


def test_text_behind_a_maker_of_the_wrong_length_is_dropped() -> None:
    """The tag's length ran on into the next tag's text."""
    data = saved(scene(), "JPEG", exif=exif())
    at = data.index(b"\x01\x0f\x00\x02") + 4
    longer = data[:at] + struct.pack(">I", 0x90) + data[at + 4 :]
    assert SECRET in longer
    clean = strip_private_tags(longer, "a")
    assert SECRET not in clean
    assert read_photo(clean, "a").camera_model == "Maker Phone"


@pytest.mark.parametrize(
    "segment",
    [
        b"\xff\xe0\x00\x0eJFXX\0\x10" + SECRET,  # JFIF 1.02: a preview
        b"\xff\xe0\x00\x16JFIF\0\1\2\0\0\1\0\1\2\1" + SECRET,  # one in JFIF itself
        b"\xff\xee\x00\x08" + SECRET,
        b"\xff\xe0\x00\x0eExif\0\0" + SECRET,
    ],
)
def test_application_data_of_a_jpeg_are_kept_by_name_only(segment: bytes) -> None:
    """The marker alone was looked at; previews and other text came through."""
    data = saved(scene(), "JPEG")
    clean = strip_private_tags(data[:2] + segment + data[2:], "a")
    assert SECRET not in clean
    assert np.array_equal(read_photo(clean, "a").rgb, read_photo(data, "a").rgb)


@pytest.mark.parametrize("marker", [0xDC, 0xF0, 0xFD])
def test_only_segments_that_pixels_need_are_kept_of_a_jpeg(marker: int) -> None:
    """A number of lines (0xDC) of any length is passed over by decoders."""
    plain = saved(scene(), "JPEG")
    segment = bytes([0xFF, marker]) + struct.pack(">H", len(SECRET) + 2) + SECRET
    at = plain.index(b"\xff\xdb")
    clean = strip_private_tags(plain[:at] + segment + plain[at:], "a.jpg")
    assert clean == strip_private_tags(plain, "a.jpg")
    assert np.array_equal(read_photo(clean, "a").rgb, read_photo(plain, "a").rgb)


@pytest.mark.parametrize("kind", [b"bKGD", b"pHYs", b"gAMA", b"tRNS", b"IEND", b"PLTE"])
def test_parts_of_a_png_that_hold_more_than_they_may_are_dropped(kind: bytes) -> None:
    """Decoders look at their first bytes alone, and at a palette only where one is."""
    plain = saved(scene(), "PNG")
    body = kind + SECRET * (2 if kind in {b"PLTE", b"tRNS"} else 50)
    part = struct.pack(">I", len(body) - 4) + body
    part += struct.pack(">I", zlib.crc32(body))
    at = plain.index(b"IEND" if kind == b"IEND" else b"IDAT") - 4
    clean = strip_private_tags(plain[:at] + part + plain[at:], "a.png")
    assert clean == strip_private_tags(plain, "a.png")


def test_text_behind_a_known_part_of_a_webp_is_dropped() -> None:
    """ANIM has 6 bytes (RFC 9649, 2.7.1.1); it was kept however long it was."""
    plain = base_photos()["animated.webp"]
    at = plain.index(b"ANIM") + 8
    longer = plain[12 : at - 4] + struct.pack("<I", 6 + len(SECRET))
    longer += plain[at : at + 6] + SECRET + plain[at + 6 :]
    data = b"RIFF" + struct.pack("<I", len(longer) + 4) + b"WEBP" + longer
    assert strip_private_tags(data, "a.webp") == strip_private_tags(plain, "a.webp")


def test_unknown_parts_of_a_webp_are_dropped() -> None:
    """Only EXIF and XMP were; RFC 9649 lets a file have others."""
    data = saved(scene(), "WEBP")
    more = b"HIDE" + struct.pack("<I", len(SECRET)) + SECRET
    size = struct.pack("<I", len(data) - 8 + len(more))
    clean = strip_private_tags(b"RIFF" + size + data[8:] + more, "a")
    assert clean == data


def test_only_the_first_frame_of_an_animation_is_kept() -> None:
    """Others, and unknown parts in a frame, held what nobody saw (RFC 9649, 2.7)."""
    data = base_photos()["animated.webp"]
    first = data.index(b"ANMF")
    (length,) = struct.unpack("<I", data[first + 4 : first + 8])
    second = data.index(b"ANMF", first + 8)
    odd = data[second:].replace(data[-40 : -40 + len(SECRET)], SECRET)
    more = b"HIDE" + struct.pack("<I", len(SECRET)) + SECRET
    frame = b"ANMF" + struct.pack("<I", length + len(more))
    frame += data[first + 8 : second] + more
    body = data[8:first] + frame + odd
    sent = b"RIFF" + struct.pack("<I", len(body)) + body
    assert sent.count(SECRET) == 2
    clean = strip_private_tags(sent, "a")
    assert SECRET not in clean
    assert clean.count(b"ANMF") == 1
    assert np.array_equal(read_photo(clean, "a").rgb, read_photo(data, "a").rgb)


def odd_tags() -> Iterator[bytes]:
    """Yield EXIF blocks with values of other types than the tags have."""
    for tag in (0x0112, 0x010F, 0x0110, 0xA405, 0x920A):
        for value in (b"\xff\xfe", 2.5, "text", 7, 0):
            block = exif()
            (block if tag < 0x8000 else block.get_ifd(0x8769))[tag] = value
            with contextlib.suppress(
                TypeError, AttributeError, ValueError, struct.error
            ):
                yield block.tobytes()  # Pillow does not write all of them


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_tags_of_a_wrong_type_are_left_out(kind: str) -> None:
    """Pillow writes a tag by its own idea of the type and broke down on others."""
    for block in odd_tags():
        data = saved(scene(), kind, exif=block)
        clean = strip_private_tags(data, "a")
        assert SECRET not in clean
        assert read_photo(clean, "a").width_px == read_photo(data, "a").width_px


def test_a_maker_that_is_a_number_is_left_out() -> None:
    """TIFF type 11 (float) where text should be; found by coverage-guided fuzzing."""
    data = saved(scene(), "JPEG", exif=exif())
    at = data.index(b"\x01\x0f\x00\x02") + 2
    odd = data[:at] + b"\x00\x0b" + struct.pack(">I", 1) + data[at + 6 :]
    assert read_photo(strip_private_tags(odd, "a"), "a").camera_model == "Phone"


def scans(count: int) -> bytes:
    """Return a progressive JPEG whose last scan comes again and again."""
    data = saved(Image.new("RGB", (640, 480), "grey"), "JPEG", progressive=True)
    last = data.rindex(b"\xff\xda")
    return data[:-2] + data[last:-2] * count + data[-2:]


def parts(count: int, *, at: int) -> bytes:
    """Return a JPEG with empty comments after so many bytes."""
    data = saved(scene(), "JPEG")
    at = at if at >= 0 else len(data) + at
    return data[:at] + b"\xff\xfe\x00\x02" * count + data[at:]


@pytest.mark.parametrize(
    "data",
    [scans(20_000), parts(1_000_000, at=2), parts(1_000_000, at=-2)],
    ids=["scans", "segments", "segments after the scan"],
)
def test_a_jpeg_of_very_many_parts_is_refused_at_once(data: bytes) -> None:
    """Each scan is a pass over all pixels, each part a record: minutes, gigabytes."""
    start = time.monotonic()
    with contextlib.suppress(
        NotAnImageError
    ):  # what is after the scan is not looked at
        read_photo(data, "a")
    with pytest.raises(NotAnImageError):
        read_photo(strip_private_tags(data, "a"), "a")
    assert time.monotonic() - start < 2.0


def test_a_photo_of_the_usual_parts_is_taken() -> None:
    """Ten scans as libjpeg writes them, and a profile of 255 pieces (ICC.1, B.4)."""
    data = scans(0)
    assert data.count(b"\xff\xda") == 10
    piece = b"\xff\xe2\x00\x12ICC_PROFILE\x00\x01\xff??"
    assert read_photo(data[:2] + piece * 255 + data[2:], "a").width_px == 640


@pytest.mark.parametrize("kind", ["WEBP", "PNG"])
def test_a_kind_that_takes_more_memory_has_a_lower_limit(kind: str) -> None:
    """A WebP of 120 megapixels took 1.9 GB to decode, a PNG half of that."""
    data = saved(scene(), kind)
    limits = PhotoLimits(max_webp_pixels=scene().width * scene().height - 1)
    if kind == "PNG":
        assert read_photo(data, "a", limits).width_px == scene().width
    else:
        with pytest.raises(PhotoTooLargeError):
            read_photo(data, "a", limits)


@pytest.mark.parametrize("orientation", [1, 3, 6, 8])
def test_a_long_picture_is_never_copied_whole(
    orientation: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Some rows of one 206 high were all of it: 1.0 GB for 108 megapixels.

    Its parts are put together to what one mean over blocks of 4 x 4 gives.
    """
    sides = (40, 6000) if orientation in raster.SIDEWAYS else (6000, 40)
    image = scene("L", sides)
    copied = []
    crop = Image.Image.crop

    def seen(whole: Image.Image, box: tuple[int, int, int, int]) -> Image.Image:
        copied.append((box[2] - box[0]) * (box[3] - box[1]))
        return crop(whole, box)

    monkeypatch.setattr(Image.Image, "crop", seen)
    monkeypatch.setattr(raster, "PIXELS_AT_ONCE", 60_000)
    small = raster.upright(image, orientation, 4)
    assert max(copied) <= 60_000
    assert sum(copied) == 40 * 6000
    turn = raster.UPRIGHT.get(orientation)
    whole = image if turn is None else image.transpose(turn)
    assert np.array_equal(np.asarray(small), np.asarray(whole.reduce(4)))


@pytest.mark.slow
def test_the_largest_photos_take_little_more_than_themselves() -> None:
    """16-bit grey of 120 megapixels, 240 MB, took 1.6 GB."""
    code = """
import io
import numpy as np
from PIL import Image
from fishmeasure.photo.image import read_photo
from tests.fuzz.attack import peak_mb
out = io.BytesIO()
Image.fromarray(np.zeros((11000, 10900), np.uint16)).save(out, "PNG")
read_photo(out.getvalue(), "a")
print(peak_mb())
"""
    done = subprocess.run(  # noqa: S603 - no outside input
        [sys.executable, "-c", code], check=True, capture_output=True, text=True
    )
    assert float(done.stdout) < 1000.0
