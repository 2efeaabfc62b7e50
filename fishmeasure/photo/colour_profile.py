"""A colour profile with nothing in it but colours.

An ICC profile is a list of tags: curves and matrices, but also texts, serial numbers
and whatever else a program hides in it. Numbers as in ICC.1:2022, sections 7 to 10.
"""

import io
import struct
from collections.abc import Iterator
from typing import Final

from PIL import ImageCms

_HEAD_BYTES: Final = 128
_KEPT_HEAD: Final = ((8, 24), (36, 40), (64, 80))
"""Version, kind and colour spaces; "acsp"; intent and illuminant. Between them stand
dates, makers, models and a sum of the whole."""
_SIZES: Final = {b"XYZ ": 20, b"sf32": 44}
"""Bytes of a point of colour, and of a matrix of nine."""
_COLOUR_TAGS: Final = frozenset(
    b"rXYZ gXYZ bXYZ rTRC gTRC bTRC kTRC wtpt chad"
    b" A2B0 A2B1 A2B2 B2A0 B2A1 B2A2".split()
)
_TABLES: Final = frozenset((b"mft1", b"mft2", b"mAB ", b"mBA "))
_PARAMETERS: Final = (1, 3, 4, 5, 7)
"""Of the five kinds of parametric curves (table 68)."""
_MOST_TAGS: Final = 100
_MOST_BYTES: Final = 4_000_000
"""A printer's profile has tables of 0.5 to 2 MB (from memory)."""
_NAME: Final = b"colours of the photo\0"


def only_colours(profile: bytes) -> bytes:
    """Return the profile with its colours alone, b"" where it has none to be read.

    It is also b"" where the profile says that it is sRGB, as a photo without one is
    taken to be.
    """
    try:
        tags = dict(_colour_tags(profile))
    except (struct.error, ValueError, IndexError):
        return b""
    if not tags or is_srgb(profile):
        return b""
    tags[b"desc"] = (
        b"desc\0\0\0\0" + struct.pack(">I", len(_NAME)) + _NAME + b"\0" * (8 + 3 + 67)
    )
    head = bytearray(_HEAD_BYTES)
    for first, end in _KEPT_HEAD:
        head[first:end] = profile[first:end]
    at = _HEAD_BYTES + 4 + 12 * len(tags)
    table, content = [], []
    for name, body in sorted(tags.items()):
        table.append(name + struct.pack(">II", at, len(body)))
        padded = body + b"\0" * (-len(body) % 4)
        content.append(padded)
        at += len(padded)
    head[:4] = struct.pack(">I", at)
    count = struct.pack(">I", len(tags))
    return bytes(head) + count + b"".join(table) + b"".join(content)


def is_srgb(profile: bytes) -> bool:
    """Return whether a profile says that it is sRGB, or cannot be read at all."""
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        return "sRGB" in ImageCms.getProfileDescription(source)
    except (ImageCms.PyCMSError, OSError):
        return True  # the plain numbers are the best guess


def _colour_tags(profile: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Yield names and bodies of the tags that say what colours are meant.

    Raises
    ------
    ValueError, struct.error, IndexError
        If it is no profile.
    """
    if profile[36:40] != b"acsp" or len(profile) > _MOST_BYTES:
        message = "no profile"
        raise ValueError(message)
    (count,) = struct.unpack_from(">I", profile, _HEAD_BYTES)
    if count > _MOST_TAGS:
        message = "more tags than a profile has"
        raise ValueError(message)
    for number in range(count):
        entry = _HEAD_BYTES + 4 + 12 * number
        name, at, length = struct.unpack_from(">4sII", profile, entry)
        if name in _COLOUR_TAGS:
            body = profile[at : at + length]
            yield name, body[: _length(body)]


def _length(body: bytes) -> int:
    """Return how many bytes of a tag are its colours; text can stand behind them.

    Tables are kept whole: printers have them, cameras curves and points.
    """
    kind = body[:4]
    if kind in _SIZES:
        return _SIZES[kind]
    if kind == b"curv":
        return 12 + 2 * int(struct.unpack_from(">I", body, 8)[0])
    if kind == b"para":
        (function,) = struct.unpack_from(">H", body, 8)
        return 12 + 4 * _PARAMETERS[function]
    if kind in _TABLES:
        return len(body)
    message = "a tag of no known kind"
    raise ValueError(message)
