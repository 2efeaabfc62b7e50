"""Take private tags out of a photo before it is kept.

A phone writes place, time, serial numbers, names and previews into its photos.
Of all that only the orientation, the focal length and the camera's make and
model are of use here. Pixels are not touched in JPEG, PNG and WebP; a HEIC photo
is stored as a JPEG of the same size, since its container has no simple part to
leave out.
"""

import io
import math
import struct
import warnings
import zlib
from collections.abc import Iterable, Iterator
from typing import TypeVar

from PIL import ExifTags, Image, ImageOps
from PIL.TiffImagePlugin import IFDRational

from fishmeasure.base.errors import NotAnImageError
from fishmeasure.base.words import Message
from fishmeasure.photo.colour_profile import only_colours
from fishmeasure.photo.image import (
    BROKEN_FILE_ERRORS,
    MOST_SEGMENTS,
    beyond_pillow,
    open_header,
)

_T = TypeVar("_T")
JPEG_QUALITY = 95

# Kept tags, and nothing else. Numbers as in Exif 2.32 (CIPA DC-008-2019).
_KEPT_IFD = (ExifTags.Base.FocalLength, ExifTags.Base.FocalLengthIn35mmFilm)

_TEXT_LENGTH = 64  # no maker or model has as many letters; common practice, no source

_EXIF_START = b"Exif\0\0"
_JPEG_START = b"\xff\xd8"
_PNG_START = b"\x89PNG\r\n\x1a\n"
# PNG chunks that hold pixels or how to show them, and the most bytes each may have
# (PNG specification, 3rd ed., section 11); a longer one holds something else as well.
_PNG_KEPT = {
    b"IHDR": 13,
    b"IDAT": 2**31 - 1,
    b"IEND": 0,
    b"sRGB": 1,
    b"sBIT": 4,
    b"gAMA": 4,
    b"cHRM": 32,
    b"bKGD": 6,
    b"pHYs": 9,
    b"cICP": 4,
}
# The same by colour type: grey 0, colours 2, palette 3. For others than the last a
# palette is only advice.
_PNG_BY_COLOUR = {b"PLTE": {3: 768}, b"tRNS": {0: 2, 2: 6, 3: 256}}
# WebP chunks that hold pixels or how to show them (RFC 9649, section 2.7).
_WEBP_PICTURE = frozenset((b"VP8 ", b"VP8L", b"ALPH"))
_FRAME_HEAD_BYTES = 16
_VP8X_BYTES, _ANIM_BYTES = 10, 6
_PROFILE_PIECE = 60_000
_APP0, _APP14 = 0xE0, 0xEE
# JPEG segments that pixels need: frames and tables, scans, quantisation, restarts
# (ITU-T T.81, table B.1). A number of lines (0xDC) no decoder here looks at.
_JPEG_KEPT = frozenset(range(0xC0, 0xD0)) - {0xC8} | {0xDA, 0xDB, 0xDD}
_START_OF_SCAN, _END_OF_IMAGE = 0xDA, 0xD9


def strip_private_tags(data: bytes, name: str) -> bytes:
    """Return the photo without private tags and without trailing bytes.

    Raises
    ------
    NotAnImageError
        If the bytes are not a whole JPEG, PNG, WebP or HEIC photo.
    PhotoTooLargeError, PhotoTooSmallError
        If a HEIC photo, which has to be decoded for this, is outside the limits.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # Pillow's, of odd tags
            return _stripped(data, name)
    except Image.DecompressionBombError:
        raise beyond_pillow(name) from None
    except BROKEN_FILE_ERRORS as error:
        reason = Message.of("image-damaged")
        raise NotAnImageError(name, reason) from error


def _stripped(data: bytes, name: str) -> bytes:
    if data.startswith(_JPEG_START):
        return _strip_jpeg(data)
    if data.startswith(_PNG_START):
        return _strip_png(data)
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return _strip_webp(data)
    return _as_jpeg(data, name)


def _public_exif(image: Image.Image) -> bytes:
    """Return an EXIF block with the kept tags only, b'' if there is none."""
    found = image.getexif()
    kept = Image.Exif()
    orientation = found.get(ExifTags.Base.Orientation)
    if isinstance(orientation, int) and 1 <= orientation <= 8:
        kept[ExifTags.Base.Orientation] = orientation
    for tag in (ExifTags.Base.Make, ExifTags.Base.Model):
        value = found.get(tag)
        if isinstance(value, str):
            # A wrong length would take in the next tag's text behind the NUL.
            kept[tag] = value.partition("\0")[0][:_TEXT_LENGTH]
    inner = found.get_ifd(ExifTags.IFD.Exif)
    useful = {
        int(tag): inner[tag]
        for tag in _KEPT_IFD
        if isinstance(inner.get(tag), int | float | IFDRational)
        and math.isfinite(inner[tag])
    }
    if useful:
        kept.get_ifd(ExifTags.IFD.Exif).update(useful)
    return kept.tobytes() if len(kept) or useful else b""


def _counted(parts: Iterable[_T]) -> Iterator[_T]:
    """Yield the parts of a photo.

    Raises
    ------
    ValueError
        If there are more than any photo has.
    """
    for number, part in enumerate(parts):
        if number >= MOST_SEGMENTS:
            message = "more parts than any photo has"
            raise ValueError(message)
        yield part


def _jpeg_segments(data: bytes) -> Iterator[tuple[int, bytes]]:
    """Yield (marker, whole segment) up to the start of the first scan."""
    at = 2
    while True:
        if data[at] != 0xFF:
            message = "no marker where one must be"
            raise ValueError(message)
        while data[at + 1] == 0xFF:  # fill bytes
            at += 1
        marker = data[at + 1]
        (length,) = struct.unpack(">H", data[at + 2 : at + 4])
        yield marker, data[at : at + 2 + length]
        at += 2 + length
        if marker == _START_OF_SCAN:
            return


def _public_of(data: bytes) -> tuple[bytes, bytes]:
    """Return the kept tags as a bare TIFF block and the colours, b'' where none."""
    with Image.open(io.BytesIO(data)) as image:
        exif = _public_exif(image).removeprefix(_EXIF_START)
        return exif, only_colours(image.info.get("icc_profile") or b"")


def _strip_jpeg(data: bytes) -> bytes:
    public = []
    at = 2
    for marker, segment in _counted(_jpeg_segments(data)):
        at = data.index(segment, at) + len(segment)
        public.append(_public(marker, segment))
    public += _counted(_scans(data, at))
    kept = [_JPEG_START]
    exif, colours = _public_of(data)
    if exif:
        block = _EXIF_START + exif
        kept.append(b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block)
    kept += _profile_segments(colours)
    return b"".join(kept + public)


def _profile_segments(colours: bytes) -> Iterator[bytes]:
    """Yield a profile in pieces that a segment can hold (ICC.1, B.4)."""
    starts = range(0, len(colours), _PROFILE_PIECE)
    for number, start in enumerate(starts, start=1):
        piece = colours[start : start + _PROFILE_PIECE]
        block = b"ICC_PROFILE\0" + bytes((number, len(starts))) + piece
        yield b"\xff\xe2" + struct.pack(">H", len(block) + 2) + block


def _public(marker: int, segment: bytes) -> bytes:
    """Return what a segment has of pixels or how to show them, b'' where nothing."""
    if marker == _APP0:  # also has previews: JFXX, and behind the 18 bytes of JFIF
        head = segment[:2] + b"\0\x10" + segment[4:16] + b"\0\0"
        return head if segment[4:9] == b"JFIF\0" and len(head) == 18 else b""
    if marker == _APP14:  # how colours are stored: 12 bytes behind marker and length
        is_whole = segment[4:].startswith(b"Adobe") and len(segment) >= 16
        return b"\xff\xee\0\x0e" + segment[4:16] if is_whole else b""
    return segment if marker in _JPEG_KEPT else b""


def _scans(data: bytes, at: int) -> Iterator[bytes]:
    """Yield what is public from ``at`` to the first end-of-image marker.

    In entropy-coded data 0xFF is followed by 0x00 or a restart marker; between the
    scans of a progressive photo any segment may stand.
    """
    start = at
    while True:
        at = data.index(b"\xff", at)
        marker = data[at + 1]
        if marker == _END_OF_IMAGE:
            yield data[start : at + 2]
            return
        if marker in (0x00, 0xFF) or 0xD0 <= marker <= 0xD7:
            at += 1 if marker == 0xFF else 2
        else:
            (length,) = struct.unpack(">H", data[at + 2 : at + 4])
            end = at + 2 + length
            yield data[start:at]
            yield _public(marker, data[at:end])
            at = start = end


def _strip_png(data: bytes) -> bytes:
    exif, colours = _public_of(data)
    kept = [_PNG_START]
    at = len(_PNG_START)
    while True:
        (length,) = struct.unpack(">I", data[at : at + 4])
        kind = data[at + 4 : at + 8]
        end = at + 12 + length
        if end > len(data):
            message = "chunk runs past the end"
            raise ValueError(message)
        if length <= _most_bytes(kind, data[25]):
            kept.append(data[at:end])
        if kind == b"IHDR" and colours:
            kept.append(_chunk(b"iCCP", b"colours\0\0" + zlib.compress(colours)))
        if kind == b"IHDR" and exif:
            kept.append(_chunk(b"eXIf", exif))
        at = end
        if kind == b"IEND":
            return b"".join(kept) if length == 0 else b"".join(kept) + _chunk(kind, b"")


def _most_bytes(kind: bytes, colour_type: int) -> int:
    """Return how long a chunk may be to be kept, -1 if it never is."""
    if kind in _PNG_BY_COLOUR:
        return _PNG_BY_COLOUR[kind].get(colour_type, -1)
    return _PNG_KEPT.get(kind, -1)


def _chunk(kind: bytes, body: bytes) -> bytes:
    checksum = struct.pack(">I", zlib.crc32(kind + body))
    return struct.pack(">I", len(body)) + kind + body + checksum


def _riff_chunks(data: bytes, at: int, end: int) -> Iterator[tuple[bytes, bytes]]:
    """Yield (kind, whole chunk with its padding) of a RIFF file."""
    while at + 8 <= end:
        (length,) = struct.unpack("<I", data[at + 4 : at + 8])
        padded = 8 + length + length % 2
        yield data[at : at + 4], data[at : at + padded]
        at += padded


def _strip_webp(data: bytes) -> bytes:
    exif, colours = _public_of(data)
    (size,) = struct.unpack("<I", data[4:8])
    chunks = []
    frames = 0
    for kind, chunk in _riff_chunks(data, 12, 8 + size):
        if kind == b"ANMF":
            frames += 1
            if frames == 1:  # the others are other pictures, which nobody looks at
                chunks.append(_frame(chunk))
        elif kind == b"VP8X":
            # Bits 5, 3 and 2 announce a profile, EXIF and XMP (RFC 9649, 2.7).
            flags = chunk[8] & ~0b101100 | (0b1000 if exif else 0)
            flags |= 0b100000 if colours else 0
            chunks.append(_riff(kind, bytes([flags]) + chunk[9 : 8 + _VP8X_BYTES]))
            if colours:  # before the picture
                chunks.append(_riff(b"ICCP", colours))
        elif kind == b"ANIM":
            chunks.append(_riff(kind, chunk[8 : 8 + _ANIM_BYTES]))
        elif kind in _WEBP_PICTURE:
            chunks.append(chunk)
    if exif:
        chunks.append(_riff(b"EXIF", exif))
    body = b"WEBP" + b"".join(chunks)
    return b"RIFF" + struct.pack("<I", len(body)) + body


def _riff(kind: bytes, body: bytes) -> bytes:
    return kind + struct.pack("<I", len(body)) + body + b"\0" * (len(body) % 2)


def _frame(chunk: bytes) -> bytes:
    """Return a frame of an animation with its picture alone (RFC 9649, 2.7.1.1)."""
    parts = _riff_chunks(chunk, 8 + _FRAME_HEAD_BYTES, len(chunk))
    kept = b"".join(part for kind, part in parts if kind in _WEBP_PICTURE)
    body = chunk[8 : 8 + _FRAME_HEAD_BYTES] + kept
    return b"ANMF" + struct.pack("<I", len(body)) + body


def _as_jpeg(data: bytes, name: str) -> bytes:
    with open_header(data, name) as image:
        exif = _public_exif(image)
        profile = only_colours(image.info.get("icc_profile") or b"") or None
        out = io.BytesIO()
        block = Image.Exif()
        if exif:
            block.load(exif)
        block[ExifTags.Base.Orientation] = 1
        ImageOps.exif_transpose(image, in_place=True)  # a second copy is large
        plain = image if image.mode == "RGB" else image.convert("RGB")
        plain.save(out, "JPEG", quality=JPEG_QUALITY, exif=block, icc_profile=profile)
    return out.getvalue()
