"""Colour profiles keep their colours and nothing else (ICC.1:2022)."""

import io
import struct

import numpy as np
import pytest
from PIL import Image

from fishmeasure.photo.colour_profile import only_colours
from fishmeasure.photo.image import read_photo
from fishmeasure.photo.privacy import strip_private_tags
from tests.fuzz.bases import saved, scene, srgb

SECRET = b"at 47.3 N 8.5 E"


def tags_of(profile: bytes) -> dict[bytes, bytes]:
    """Return the tags of a profile (7.3)."""
    (count,) = struct.unpack_from(">I", profile, 128)
    found = {}
    for number in range(count):
        name, at, size = struct.unpack_from(">4sII", profile, 132 + 12 * number)
        found[name] = profile[at : at + size]
    return found


def profile_of(tags: dict[bytes, bytes], head: bytes) -> bytes:
    """Return a profile of these tags."""
    at = 132 + 12 * len(tags)
    table = content = b""
    for name, body in tags.items():
        table += name + struct.pack(">II", at + len(content), len(body))
        content += body + b"\0" * (-len(body) % 4)
    size = struct.pack(">I", at + len(content))
    return size + head[4:128] + struct.pack(">I", len(tags)) + table + content


@pytest.fixture(scope="module")
def telling() -> bytes:
    """Return a profile of other colours than sRGB's with secrets in many places."""
    tags = tags_of(srgb())
    text = b"text\0\0\0\0" + SECRET
    tags[b"desc"] = b"desc\0\0\0\0\0\0\0\5wide\0" + b"\0" * 78
    tags |= {b"cprt": text, b"priv": text}
    red = struct.pack(">iii", 33000, 14000, 900)
    tags[b"rXYZ"] = b"XYZ \0\0\0\0" + red + SECRET
    gamma = b"curv\0\0\0\0\0\0\0\1\1\x80" + SECRET  # 1.5
    tags |= dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), gamma)
    head = bytearray(srgb()[:128])
    head[100 : 100 + len(SECRET)] = SECRET
    return profile_of(tags, bytes(head))


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_colours_stay_and_all_else_goes(kind: str, telling: bytes) -> None:
    """Texts, private tags, and what stands behind a value or in the reserved bytes."""
    data = saved(scene(), kind, icc_profile=telling)
    clean = strip_private_tags(data, "a")
    with Image.open(io.BytesIO(clean)) as image:
        kept = image.info["icc_profile"]
    assert SECRET not in clean + kept
    assert set(tags_of(kept)) <= set(tags_of(telling)) - {b"cprt", b"priv"}
    if kind != "HEIF":  # which becomes a JPEG
        before, after = (read_photo(one, "a").rgb for one in (data, clean))
        plain = read_photo(saved(scene(), kind), "a").rgb
        assert np.array_equal(before, after)
        assert not np.array_equal(after, plain)


def test_a_long_profile_is_told_in_pieces(telling: bytes) -> None:
    """A segment of a JPEG holds 64 kB (ICC.1, B.4)."""
    tags = tags_of(telling)
    steps = np.linspace(0, 65535, 60_000).astype(">u2").tobytes()
    tags[b"rTRC"] = b"curv\0\0\0\0" + struct.pack(">I", 60_000) + steps
    data = saved(scene(), "JPEG", icc_profile=profile_of(tags, telling))
    clean = strip_private_tags(data, "a")
    with Image.open(io.BytesIO(clean)) as image:
        assert tags_of(image.info["icc_profile"])[b"rTRC"] == tags[b"rTRC"]


def test_what_is_no_profile_or_srgb_is_left_out(telling: bytes) -> None:
    """A photo without one is taken to be sRGB; a broken one was not used either."""
    assert only_colours(srgb()) == b""
    assert only_colours(b"no profile" * 30) == b""
    for cut in range(0, len(telling), 7):
        assert SECRET not in only_colours(telling[:cut])
