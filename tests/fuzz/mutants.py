"""Photos broken in every way that disks, networks and people know."""

import struct
import zlib
from collections.abc import Callable, Iterator

import numpy as np

from tests.fuzz.bases import base_photos

Chance = np.random.Generator
Mutation = Callable[[bytes, Chance, list[bytes]], bytes]

# Values that sit at the edges of the counters in file headers.
EDGES = (0, 1, 0x7F, 0x80, 0xFF, 0x7FFF, 0x8000, 0xFFFF, 0x7FFFFFFF, 0xFFFFFFFF)
HEADER_BYTES = 400


def _cut(data: bytes, chance: Chance, _: list[bytes]) -> bytes:
    return data[: int(chance.integers(0, len(data) + 1))]


def _bits(data: bytes, chance: Chance, _: list[bytes]) -> bytes:
    changed = bytearray(data)
    for _step in range(int(chance.integers(1, 20))):
        changed[int(chance.integers(len(data)))] ^= 1 << int(chance.integers(8))
    return bytes(changed)


def _header(data: bytes, chance: Chance, _: list[bytes]) -> bytes:
    """Set counters near the start to extreme values."""
    changed = bytearray(data)
    for _step in range(int(chance.integers(1, 5))):
        order, size = [(">H", 2), ("<H", 2), (">I", 4), ("<I", 4)][
            int(chance.integers(4))
        ]
        at = int(chance.integers(0, max(min(HEADER_BYTES, len(data) - size), 1)))
        value = EDGES[int(chance.integers(len(EDGES)))] & (256**size - 1)
        changed[at : at + size] = struct.pack(order, value)
    return bytes(changed)


def _hole(data: bytes, chance: Chance, _: list[bytes]) -> bytes:
    """Leave a block out, double it, or fill it with one byte."""
    first, last = sorted(int(n) for n in chance.integers(0, len(data) + 1, 2))
    block = data[first:last]
    fill = bytes([int(chance.integers(256))]) * len(block)
    middle = (b"", block + block, fill)[int(chance.integers(3))]
    return data[:first] + middle + data[last:]


def _noise(data: bytes, chance: Chance, _: list[bytes]) -> bytes:
    at = int(chance.integers(0, len(data) + 1))
    size = int(chance.integers(1, 200))
    return data[:at] + chance.bytes(size) + data[at + size :]


def _splice(data: bytes, chance: Chance, others: list[bytes]) -> bytes:
    """Go on with another file: a polyglot."""
    other = others[int(chance.integers(len(others)))]
    at, start = int(chance.integers(len(data))), int(chance.integers(len(other)))
    return (data + other, data[:at] + other[start:], data[:40] + other)[
        int(chance.integers(3))
    ]


def _huge(data: bytes, chance: Chance, _: list[bytes]) -> bytes:
    """Claim extreme sizes where the format has them, checksums kept right."""
    wide, high = (
        int(chance.choice([1, 31, 4000, 16383, 30000, 65500, 2**31 - 1])) for _ in "xy"
    )
    if data[12:16] == b"IHDR":
        head = b"IHDR" + struct.pack(">II", wide, high) + data[24:29]
        return data[:12] + head + struct.pack(">I", zlib.crc32(head)) + data[33:]
    sizes = struct.pack(">HH", high & 0xFFFF, wide & 0xFFFF)
    for marker in (b"\xff\xc0\x00", b"\xff\xc2\x00"):
        at = data.find(marker)
        if at > 0:
            return data[: at + 5] + sizes + data[at + 9 :]
    at = data.find(b"ispe")
    if at > 0:
        return data[: at + 8] + struct.pack(">II", wide, high) + data[at + 16 :]
    at = data.find(b"VP8X")
    if at > 0:
        size = struct.pack("<I", (wide - 1) & 0xFFFFFF)[:3]
        return data[: at + 12] + size + size + data[at + 18 :]
    return data


def _empty(data: bytes, chance: Chance, _: list[bytes]) -> bytes:
    return (b"", data[:1], bytes(len(data)), data[::-1])[int(chance.integers(4))]


def _same(data: bytes, chance: Chance, _: list[bytes]) -> bytes:  # noqa: ARG001
    return data


MUTATIONS: tuple[tuple[Mutation, float], ...] = (
    (_cut, 0.15),
    (_bits, 0.25),
    (_header, 0.2),
    (_hole, 0.1),
    (_noise, 0.1),
    (_splice, 0.06),
    (_huge, 0.08),
    (_empty, 0.02),
    (_same, 0.04),
)
ENDINGS = (".jpg", ".png", ".webp", ".heic", ".txt", "")
NET_SHARE = 0.02
"""Of photos made from the net sample, which go through all stages and take longest."""


def mutants(seed: int, first: int, last: int) -> Iterator[tuple[str, bytes]]:
    """Yield name and content of the mutants with these numbers, always the same."""
    bases = base_photos()
    net = bases.pop("net.jpg")
    names, files = list(bases), list(bases.values())
    weights = np.array([weight for _, weight in MUTATIONS])
    for number in range(first, last):
        chance = np.random.default_rng((seed, number))
        which = int(chance.integers(len(files)))
        name, data = names[which], files[which]
        if chance.random() < NET_SHARE:
            name, data = "net.jpg", net
        for _ in range(1 + int(chance.random() < 0.3)):
            kind = int(chance.choice(len(MUTATIONS), p=weights / weights.sum()))
            if data:
                data = MUTATIONS[kind][0](data, chance, files)
        if chance.random() < 0.1:
            name += ENDINGS[int(chance.integers(len(ENDINGS)))]
        yield f"{number}-{name}", data
