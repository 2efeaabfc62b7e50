"""Pieces of photos at full resolution, each about one end of a fish.

Outlines are filled at four times the size and the layers mixed in linear light by
the share of each pixel they cover, which is what a camera does: an edge lies where
the outline lies to a small fraction of a pixel.
"""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from sample_images.training import columns as col
from sample_images.training.columns import END_COLUMNS, SIDE, UPRIGHT
from sample_images.training.end_light import light_end, throw_shadow
from sample_images.training.end_skin import edge_of, fine_alpha, fine_coat
from sample_images.training.light import take_photo
from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.scene import Pose, Sprite, SpriteMaker, draw_pose
from sample_images.training.surfaces import draw_surface
from sample_images.training.things import COVERS, OVER, draw_thing
from sample_images.training.water import moved_at, veil, waves

SIDE_PX = 256
MAX_ENDS = 8
_SMALLEST, _LARGEST = 300.0, 1700.0  # fish lengths in pixels
_AROUND = 0.065  # lengths about the meant end that are in the piece
_HIDES = 0.22  # how often a fish has about the ground's own tones
_NO_END = 0.07
_GAMMA = np.float32(2.2)


@dataclass(frozen=True, slots=True, eq=False)
class EndScene:
    """A piece of a photo with its truth.

    Attributes
    ----------
    photo
        (256, 256, 3) uint8.
    cover
        (128, 128) uint8: share of each cell covered by any fish.
    ends
        (MAX_ENDS, END_COLUMNS) float32, used rows first, the meant end before
        the others; ``columns`` says what is where.
    """

    photo: NDArray[np.uint8]
    cover: NDArray[np.uint8]
    ends: Floats


@dataclass(slots=True, eq=False)
class Piece:
    """An end scene in the making, in linear light."""

    colour: Floats
    cover: Floats
    shade: Floats
    sun: tuple[float, float]
    hard: bool
    ends: list[Floats]


def draw_end_scene(maker: SpriteMaker, rng: np.random.Generator) -> EndScene:
    """Return a random piece of a photo."""
    noise = maker.noise
    piece = _ground(rng, noise)
    upright = UPRIGHT if rng.random() < 0.15 else SIDE
    length = float(np.exp(rng.uniform(np.log(_SMALLEST), np.log(_LARGEST))))
    no_end = rng.random() < _NO_END
    others = int(rng.choice([0, 0, 0, 0, 1, 1, 2]))
    below = int(rng.integers(0, others + 1))
    for _ in range(below):
        _another(piece, maker, (upright, length), rng)
    if not no_end:
        fork = rng.random() < 0.6
        margin = np.clip(_AROUND * length / SIDE_PX, 0.12, 0.46)
        at = rng.uniform(margin, 1 - margin, 2) * SIDE_PX
        _lay(piece, maker.draw(upright), (at, float(fork), length), rng)
    meant = len(piece.ends)
    for _ in range(others - below):
        _another(piece, maker, (upright, length), rng)
    if rng.random() < 0.12:
        _put_over(piece, rng, noise)
    if meant:  # the meant fish's rows first
        first = 0 if no_end else meant - 2
        piece.ends = piece.ends[first:] + piece.ends[:first]
    return _finish(piece, rng, noise, upright=upright == UPRIGHT)


def _ground(rng: np.random.Generator, noise: NoiseBank) -> Piece:
    """Return the bare ground; half of it smooth boards of any colour."""
    size = (SIDE_PX, SIDE_PX)
    smooth = ("plain", "plain", "steel", "wet", "wood")
    names = (smooth[int(rng.integers(5))],) if rng.random() < 0.6 else ()
    colour = draw_surface(size, rng, noise, names)
    if rng.random() < 0.3:  # the same ground from nearer
        part = int(rng.uniform(0.3, 0.8) * SIDE_PX)
        colour = colour[:part, :part]
        colour = cv2.resize(colour, size, interpolation=cv2.INTER_LINEAR)
    angle, sun = rng.uniform(0, 2 * np.pi), rng.uniform(0.1, 1.1)
    return Piece(
        colour=np.power(colour, _GAMMA),
        cover=np.zeros(size, np.float32),
        shade=np.zeros(size, np.float32),
        sun=(float(sun * np.cos(angle)), float(sun * np.sin(angle))),
        hard=bool(rng.random() < 0.4),
        ends=[],
    )


def _another(
    piece: Piece,
    maker: SpriteMaker,
    like: tuple[int, float],
    rng: np.random.Generator,
) -> None:
    """Lay another fish: its flank, tail or head comes into the piece."""
    length = like[1] * float(np.exp(rng.normal(0, 0.15)))
    at = rng.uniform(-0.1, 1.1, 2) * SIDE_PX
    along = float(rng.choice([0.0, 1.0, rng.random(), rng.random()]))
    _lay(piece, maker.draw(like[0]), (at, along, length), rng)


def _lay(
    piece: Piece,
    sprite: Sprite,
    where: tuple[Floats, float, float],
    rng: np.random.Generator,
) -> None:
    """Draw a fish with the part ``along`` it at a point, and note its ends."""
    at, along, length = where
    upright = sprite.body.posture == UPRIGHT
    angle = rng.uniform(0, 2 * np.pi)
    pose = draw_pose((0.0, 0.0), angle, length, rng, swims=upright)
    shift = at - pose.place(np.array([along]), np.zeros(1))[0]
    pose = Pose(
        along=pose.along,
        points=(pose.points + shift).astype(np.float32),
        tangents=pose.tangents,
        length=pose.length,
        mirrored=pose.mirrored,
    )
    edge, snout, hind = edge_of(sprite.body, pose)
    alpha = fine_alpha(edge, piece.cover.shape)
    if not alpha.any():
        return
    colour, opacity = fine_coat(sprite, pose, alpha, piece.sun, rng)
    if rng.random() < _HIDES:
        colour = _like_ground(piece, colour, alpha, rng)
    throw_shadow(piece, alpha, length, rng)
    piece.colour += opacity[..., None] * (np.power(colour, _GAMMA) - piece.colour)
    piece.cover += alpha * (1 - piece.cover)
    _hide(piece, alpha)
    piece.shade[alpha > 0.5] = 0
    kind = sprite.body.hind_kind
    for end, point, number in (
        (0.0, snout, 0),
        (1.0, hind, 2 if kind == col.TIP else 1),
    ):
        row = np.zeros(END_COLUMNS, np.float32)
        row[:2] = point
        row[col.END_KIND] = number
        row[col.END_OUT : col.END_OUT + 2] = _outward(pose, end)
        row[[col.END_SEEN, col.END_USED]] = 1
        row[col.END_FISH_LENGTH] = length
        row[col.END_OPACITY] = sprite.tail_opacity if number else 1.0
        piece.ends.append(row)
    if along < 0.5:  # the end that was meant stays second to last
        return
    piece.ends[-2:] = piece.ends[:-3:-1]


def _like_ground(
    piece: Piece, colour: Floats, alpha: Floats, rng: np.random.Generator
) -> Floats:
    """Return the skin in about the tones of the ground beside it."""
    seen = alpha > 0.5
    if not seen.any():  # the fish lies outside this piece, but for a soft edge
        return colour
    ground = np.power(piece.colour[::8, ::8].mean(axis=(0, 1)), 1 / _GAMMA)
    own = colour[seen].mean(axis=0)
    gain = np.clip(ground / np.maximum(own, 0.02), 0.2, 4.0) ** rng.uniform(0.5, 1.0)
    return np.clip(colour * gain, 0.003, 1.0).astype(np.float32)


def _outward(pose: Pose, end: float) -> Floats:
    """Return the unit vector outward along the body at snout (0) or hind end (1)."""
    away = np.array([end, abs(end - 0.12)])
    here, inner = pose.place(away, np.zeros(2))
    out = here - inner
    return np.asarray(out / np.hypot(*out), np.float32)


def _hide(piece: Piece, solid: Floats) -> None:
    """Note that ends so far that lie under ``solid`` are not seen."""
    for row in piece.ends:
        inner = row[:2] - row[col.END_OUT : col.END_OUT + 2] * 2
        for point in (row[:2], inner):
            x, y = point.round().astype(int)
            inside = 0 <= y < solid.shape[0] and 0 <= x < solid.shape[1]
            if inside and solid[y, x] > 0.5:
                row[col.END_SEEN] = 0


def _put_over(piece: Piece, rng: np.random.Generator, noise: NoiseBank) -> None:
    """Lay a thing near the meant end: finger, label, leaf, another's edge."""
    kinds = COVERS if rng.random() < 0.4 else OVER
    colour, alpha = draw_thing(rng, noise, (kinds[int(rng.integers(len(kinds)))],))
    scale = rng.uniform(1.0, 3.0)
    height, width = alpha.shape
    turn = cv2.getRotationMatrix2D((width / 2, height / 2), rng.uniform(0, 360), scale)
    at = rng.uniform(-0.1, 1.1, 2) * SIDE_PX
    turn[:, 2] += at - np.array([width / 2, height / 2])
    size = piece.cover.shape[::-1]
    picture = cv2.warpAffine(np.dstack([colour, alpha]).astype(np.float32), turn, size)
    solid = picture[..., 3]
    throw_shadow(piece, solid, rng.uniform(50, 300), rng)
    linear = np.power(np.clip(picture[..., :3], 0, 1), _GAMMA)
    piece.colour += solid[..., None] * (linear - piece.colour)
    piece.cover *= 1 - solid
    piece.shade[solid > 0.5] = 0
    _hide(piece, solid)


def _finish(
    piece: Piece, rng: np.random.Generator, noise: NoiseBank, *, upright: bool
) -> EndScene:
    """Return the photo of the piece and what is true of it."""
    light_end(piece, rng, noise, wet=upright)
    if rng.random() < (0.8 if upright else 0.06):
        _flood(piece, rng, noise)
    photo = take_photo(np.power(np.clip(piece.colour, 0, 1.3), 1 / _GAMMA), rng)
    ends = np.zeros((MAX_ENDS, END_COLUMNS), np.float32)
    count = 0
    for row in piece.ends:
        if count == MAX_ENDS or not ((row[:2] > 3) & (row[:2] < SIDE_PX - 4)).all():
            continue
        row[col.END_SHADOW] = float(_dark_beyond(piece, row))
        ends[count] = row
        count += 1
    half = cv2.resize(piece.cover, (SIDE_PX // 2,) * 2, interpolation=cv2.INTER_AREA)
    return EndScene(
        photo=photo,
        cover=np.clip(half * 255 + 0.5, 0, 255).astype(np.uint8),
        ends=ends,
    )


def _flood(piece: Piece, rng: np.random.Generator, noise: NoiseBank) -> None:
    """Put water over the piece; what is true moves with the picture."""
    shape = piece.cover.shape
    move_x, move_y = waves(shape, rng, noise)
    rows, columns = np.indices(shape, dtype=np.float32)
    layers = np.dstack([piece.colour, piece.cover, piece.shade])
    layers = cv2.remap(
        layers,
        columns + move_x,
        rows + move_y,
        cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REFLECT,
    )
    seen = veil(np.power(np.clip(layers[..., :3], 0, 1.2), 1 / _GAMMA), rng, noise)
    piece.colour = np.power(np.clip(seen, 0.003, 1.1), _GAMMA)
    piece.cover = np.ascontiguousarray(layers[..., 3])
    piece.shade = np.ascontiguousarray(layers[..., 4])
    for row in piece.ends:
        row[:2] -= moved_at(row[None, :2], move_x, move_y)[0]


def _dark_beyond(piece: Piece, row: Floats) -> bool:
    out = row[col.END_OUT : col.END_OUT + 2]
    x, y = (row[:2] + out * 4).round().astype(int)
    side = piece.shade.shape[0] - 1
    return bool(piece.shade[min(max(y, 0), side), min(max(x, 0), side)] > 0.25)
