"""Real photos with their structure broken: lengths, kinds, offsets, order of parts.

Each base is a real photo, shrunk, with ``SECRET`` in every place where a maker puts
private data. A mutation changes what a format's own fields say, or its parts.
"""

import io
import struct
import zlib
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pillow_heif
from PIL import Image, ImageCms, PngImagePlugin

from tests.fuzz.bases import SECRET, exif, saved

Chance = np.random.Generator
Span = tuple[int, int]
Field = tuple[int, str]
"""Where a number stands, and how (as in ``struct``)."""

SIDE_PX = 480
MOST_PHOTOS = 24
EDGES = (0, 1, 2, 4, 8, 0x7F, 0xFF, 0x7FFF, 0x8000, 0xFFFF, 0x7FFFFFFF, 0xFFFFFFFF)
PNG_START = b"\x89PNG\r\n\x1a\n"
_BOXES_IN = {b"meta": 4, b"iprp": 0, b"ipco": 0, b"moov": 0, b"dinf": 0, b"iinf": 6}
"""Boxes of HEIC that hold boxes, and what stands before these (ISO/IEC 14496-12)."""
_JPEG_KINDS = bytes([0xC0, 0xC4, 0xCC, 0xDB, 0xDC, 0xDD, 0xDE, 0xDF, 0xE0, 0xE1, 0xE2])
_JPEG_KINDS += bytes([0xEE, 0xF0, 0xFD, 0xFE])
_PNG_KINDS = b"IHDR PLTE IDAT IEND tRNS gAMA cHRM sRGB sBIT bKGD pHYs cICP iCCP".split()
_PNG_KINDS += b"tEXt iTXt zTXt eXIf".split()


def profile() -> bytes:
    """Return a wide-gamut profile with private texts among its tags."""
    source = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    body = source.replace(b"s\0R\0G\0B", b"W\0i\0d\0e").replace(b"sRGB", b"Wide")
    (count,) = struct.unpack_from(">I", body, 128)
    table = 132 + 12 * count
    secret = b"text\0\0\0\0" + SECRET * 40
    moved = bytearray(body[132:table])
    for at in range(4, len(moved), 12):
        (offset,) = struct.unpack_from(">I", moved, at)
        struct.pack_into(">I", moved, at, offset + 12)
    entry = b"note" + struct.pack(">II", len(body) + 12, len(secret))
    whole = body[:128] + struct.pack(">I", count + 1) + bytes(moved) + entry
    whole += body[table:] + secret
    return struct.pack(">I", len(whole)) + whole[4:]


def base_photos(folder: Path) -> dict[str, bytes]:
    """Return some of a folder's photos in all formats, with private data in each."""
    pillow_heif.register_heif_opener()
    paths = sorted(p for p in folder.rglob("*") if p.suffix in {".jpg", ".png"})
    step = max(1, len(paths) // MOST_PHOTOS)
    found: dict[str, bytes] = {}
    for number, path in enumerate(paths[::step]):
        with Image.open(path) as opened:
            image = opened.convert("RGB")
        image.thumbnail((SIDE_PX, SIDE_PX))
        found |= {
            f"{number}-{kind}": data for kind, data in _in_all_formats(image).items()
        }
        # The photo as its maker wrote it, where it is small enough to be quick.
        if path.stat().st_size < 300_000:
            found[f"{number}-as-it-was{path.suffix}"] = path.read_bytes()
    return found


def _in_all_formats(image: Image.Image) -> dict[str, bytes]:
    block, colours = exif(6), profile()
    xmp = b"<x:xmpmeta>" + SECRET + b"</x:xmpmeta>"
    text = PngImagePlugin.PngInfo()
    text.add_text("Author", SECRET.decode())
    text.add_itxt("XML:com.adobe.xmp", SECRET.decode())
    jpeg = {"exif": block, "icc_profile": colours, "comment": SECRET, "xmp": xmp}
    heif = {"exif": block.tobytes(), "icc_profile": colours, "xmp": xmp}
    more = {"save_all": True, "append_images": [image.rotate(180)]}
    return {
        "a.jpg": saved(image, "JPEG", **jpeg),
        "progressive.jpg": saved(image, "JPEG", progressive=True, **jpeg),
        "mpo.jpg": saved(image, "MPO", exif=block, icc_profile=colours, **more),
        "a.png": saved(image, "PNG", exif=block, icc_profile=colours, pnginfo=text),
        "a.heic": saved(image, "HEIF", quality=60, **heif),
        "a.webp": saved(image, "WEBP", exif=block, icc_profile=colours, xmp=xmp),
    }


def parts(data: bytes) -> list[Span]:
    """Return where a file's segments, chunks or boxes are."""
    return list(_walk(data))


def _walk(data: bytes) -> Iterator[Span]:
    if data[:2] == b"\xff\xd8":
        yield from _segments(data)
    elif data.startswith(PNG_START):
        at = 8
        while at + 12 <= len(data):
            end = at + 12 + int(struct.unpack_from(">I", data, at)[0])
            yield at, end
            at = end
    elif data[:4] == b"RIFF":
        at = 12
        while at + 8 <= len(data):
            size = int(struct.unpack_from("<I", data, at + 4)[0])
            yield at, at + 8 + size + size % 2
            at += 8 + size + size % 2
    else:
        yield from _boxes(data, 0, len(data))


def _segments(data: bytes) -> Iterator[Span]:
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        end = at + 2 + int(struct.unpack_from(">H", data, at + 2)[0])
        yield at, end
        if data[at + 1] == 0xDA:
            return
        at = end


def _boxes(data: bytes, at: int, end: int) -> Iterator[Span]:
    while at + 8 <= min(end, len(data)):
        size = int(struct.unpack_from(">I", data, at)[0])
        if size < 8:
            return
        yield at, at + size
        inside = _BOXES_IN.get(data[at + 4 : at + 8])
        if inside is not None:
            yield from _boxes(data, at + 8 + inside, at + size)
        at += size


def fields(data: bytes) -> list[Field]:
    """Return where a file says lengths, kinds, counts and offsets."""
    found: list[Field] = []
    for start, end in parts(data):
        if data[:2] == b"\xff\xd8":
            found += [(start + 1, "B"), (start + 2, ">H")]
        elif data[:4] == b"RIFF":
            found += [(start, "<I"), (start + 4, "<I")]
        else:
            found += [(start, ">I"), (start + 4, ">I")]
        # What a box or segment begins with: sizes, versions, counts, offsets.
        found += [(at, ">H") for at in range(start + 8, min(end, start + 40) - 2, 2)]
    for mark in (b"II*\0", b"MM\0*"):
        at = data.find(mark)
        while at >= 0:
            found += list(_tags(data, at, "<" if mark[0] == 0x49 else ">"))
            at = data.find(mark, at + 4)
    at = data.find(b"acsp")
    if at >= 36:
        found += list(_profile_fields(data, at - 36))
    return [(at, kind) for at, kind in found if at + struct.calcsize(kind) <= len(data)]


def _tags(data: bytes, base: int, order: str) -> Iterator[Field]:
    """Yield the fields of each directory of a TIFF block (TIFF 6.0, section 2)."""
    if base + 8 > len(data):
        return
    (offset,) = struct.unpack_from(order + "I", data, base + 4)
    yield base + 4, order + "I"
    waiting, seen = [int(offset)], set[int]()
    while waiting:
        at = base + waiting.pop()
        if at in seen or at + 2 > len(data):
            continue
        seen.add(at)
        (count,) = struct.unpack_from(order + "H", data, at)
        yield at, order + "H"
        for entry in range(at + 2, min(at + 2 + 12 * count, len(data) - 12), 12):
            tag, _, _, value = struct.unpack_from(order + "HHII", data, entry)
            yield entry, order + "H"
            yield entry + 2, order + "H"
            yield entry + 4, order + "I"
            yield entry + 8, order + "I"
            if tag in {0x8769, 0x8825, 0xA005}:
                waiting.append(value)


def _profile_fields(data: bytes, at: int) -> Iterator[Field]:
    """Yield sizes, count, and names, offsets and lengths of tags (ICC.1, 7.3)."""
    yield at, ">I"
    yield at + 128, ">I"
    if at + 144 > len(data):
        return
    (count,) = struct.unpack_from(">I", data, at + 128)
    for entry in range(at + 132, at + 132 + 12 * min(count, 40), 12):
        if entry + 12 > len(data):
            return
        yield from ((entry + step, ">I") for step in (0, 4, 8))
        # The kind and the first count of the tag's own body.
        body = at + int(struct.unpack_from(">I", data, entry + 4)[0])
        yield from ((body + step, ">I") for step in (0, 8))


def _changed(data: bytes, chance: Chance) -> bytes:
    """Set some of the fields: to edges, near what they were, or to another's value."""
    known = fields(data)
    if not known:
        return data
    changed = bytearray(data)
    for _ in range(int(chance.integers(1, 5))):
        at, kind = known[int(chance.integers(len(known)))]
        (old,) = struct.unpack_from(kind, changed, at)
        other_at, other = known[int(chance.integers(len(known)))]
        (others,) = struct.unpack_from(other, changed, other_at)
        new = (
            EDGES[int(chance.integers(len(EDGES)))],
            old + int(chance.integers(-16, 17)),
            old + int(chance.integers(0, 2000)),
            others,
        )[int(chance.integers(4))]
        struct.pack_into(kind, changed, at, new % 256 ** struct.calcsize(kind))
    return _summed(bytes(changed))


def _renamed(data: bytes, chance: Chance) -> bytes:
    """Give a part another kind of those that the format has."""
    known = parts(data)
    if not known:
        return data
    at = known[int(chance.integers(len(known)))][0]
    if data[:2] == b"\xff\xd8":
        which = int(chance.integers(len(_JPEG_KINDS)))
        return data[: at + 1] + _JPEG_KINDS[which : which + 1] + data[at + 2 :]
    if data.startswith(PNG_START):
        kind = _PNG_KINDS[int(chance.integers(len(_PNG_KINDS)))]
        return _summed(data[: at + 4] + kind + data[at + 8 :])
    name = known[int(chance.integers(len(known)))][0] + (0 if data[:1] == b"R" else 4)
    to = at + (0 if data[:1] == b"R" else 4)
    return data[:to] + data[name : name + 4] + data[to + 4 :]


def _summed(data: bytes) -> bytes:
    """Return a PNG with right sums, so that a change is read and not only seen."""
    if not data.startswith(PNG_START):
        return data
    changed = bytearray(data)
    for start, end in parts(data):
        if end <= len(data):
            total = zlib.crc32(changed[start + 4 : end - 4])
            struct.pack_into(">I", changed, end - 4, total)
    return bytes(changed)


def _rearranged(data: bytes, chance: Chance) -> bytes:
    """Leave a part out, double it, or exchange two."""
    known = [span for span in parts(data) if span[1] <= len(data)]
    if not known:
        return data
    first, end = known[int(chance.integers(len(known)))]
    block = data[first:end]
    to = known[int(chance.integers(len(known)))][0]
    return (
        data[:first] + data[end:],
        data[:first] + block * int(chance.integers(2, 40)) + data[end:],
        data[:to] + block + data[to:],
    )[int(chance.integers(3))]


def _hidden(data: bytes, chance: Chance) -> bytes:
    """Lengthen a part by private text, its length told rightly."""
    known = [span for span in parts(data) if span[1] <= len(data)]
    if not known:
        return data
    first, end = known[int(chance.integers(len(known)))]
    more = SECRET * int(chance.integers(1, 30))
    more += b"\0" * (len(more) % 2)
    if data[:2] == b"\xff\xd8":
        size = struct.pack(">H", min(end - first - 2 + len(more), 0xFFFF))
        return data[: first + 2] + size + data[first + 4 : end] + more + data[end:]
    if data.startswith(PNG_START):
        size = struct.pack(">I", end - first - 12 + len(more))
        body = data[first + 4 : end - 4] + more
        return _summed(data[:first] + size + body + data[end - 4 :])
    if data[:4] == b"RIFF":
        size = struct.pack("<I", end - first - 8 + len(more))
        whole = struct.pack("<I", len(data) - 8 + len(more))
        body = data[8 : first + 4] + size + data[first + 8 : end] + more
        return data[:4] + whole + body + data[end:]
    size = struct.pack(">I", end - first + len(more))
    return data[:first] + size + data[first + 4 : end] + more + data[end:]


def _cut(data: bytes, chance: Chance) -> bytes:
    """End within a part, or go on with another's end."""
    known = parts(data)
    if not known:
        return data
    first, end = known[int(chance.integers(len(known)))]
    return data[: int(chance.integers(first, max(end, first + 1) + 1))]


_ALONE = (_changed, _changed, _changed, _renamed, _rearranged, _hidden, _cut)


def mutants(
    folder: Path, seed: int, first: int, last: int
) -> Iterator[tuple[str, bytes]]:
    """Yield name and content of the mutants with these numbers, always the same."""
    bases = base_photos(folder)
    names = list(bases)
    for number in range(first, last):
        chance = np.random.default_rng((seed, number))
        name = names[int(chance.integers(len(names)))]
        data = bases[name]
        for _ in range(1 + int(chance.random() < 0.3)):
            data = _ALONE[int(chance.integers(len(_ALONE)))](data, chance)
        if chance.random() < 0.08:
            other = bases[names[int(chance.integers(len(names)))]]
            known = [start for start, _ in parts(other)] or [0]
            at = int(chance.integers(len(data) + 1))
            data = data[:at] + other[known[int(chance.integers(len(known)))] :]
        yield f"{number}-{name}", data


def private_in(clean: bytes) -> bool:
    """Return whether what is stored has private text, packed or not.

    Behind the last pixel, within what holds the pixels of a PNG or WebP, it is not
    sought: no maker writes there, and only a decoder knows where that is.
    """
    with Image.open(io.BytesIO(clean)) as image:
        colours = image.info.get("icc_profile") or b""
    for start, end in reversed(parts(clean)):
        is_pixels = clean[start + 4 : start + 8] == b"IDAT"
        if is_pixels or clean[start : start + 4] in {b"VP8 ", b"VP8L", b"ALPH"}:
            clean = clean[:start] + clean[end:]
    return SECRET in clean + colours


__all__ = ["base_photos", "mutants", "private_in"]
