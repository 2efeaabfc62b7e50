"""Scenes with exact truth: fish among things on surfaces, seen from above.

One pixel is about one millimetre, as the network sees the rectified plane; the
fish run from 10 to 430 pixels. The truth tells for each pixel whose it is, and
for each fish where snout and fork are and what of it can be seen.
"""

from dataclasses import dataclass, field, replace
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from sample_images.training import columns as col
from sample_images.training.backs import paint_back
from sample_images.training.bits import Thing
from sample_images.training.bodies import draw_body
from sample_images.training.columns import FISH_COLUMNS, SIDE, UPRIGHT
from sample_images.training.cutouts import Cutout, dress
from sample_images.training.light import light_scene, take_photo
from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.photo_edge import beyond, close_up
from sample_images.training.shapes import Body, Raster, rasterise
from sample_images.training.skins import HELD_OUT_SKINS, PALETTES, Coat, paint
from sample_images.training.surfaces import draw_surface
from sample_images.training.things import OVER, draw_thing

MAX_FISH = 200
MAX_THINGS = 8
OUTSIDE_GREY = 128  # what the rectified plane shows where the photo ends
_SAMPLES = 24
_LONG_SHADOW = 0.14  # of the length, where the sun stands at 45 degrees
_HUGS = 0.22  # how often a shadow is no more than a dark band along one side
_HARD, _WHITE = 0.26, 0.35  # hard light; of that, on boards as good as white
_LIES_ON = 0.06  # share of its body over others: touching tails do not raise a fish
_DARK = 0.25  # share of the light taken: a shadow that shows
_STOCK = {SIDE: 60, UPRIGHT: 25}


@dataclass(frozen=True, slots=True, eq=False)
class Sprite:
    """A level fish, head left, that a scene can bend, turn and lay down.

    ``area`` is in squares of its length; ``levels`` keeps smaller pictures of it.
    """

    colour: Floats
    opacity: Floats
    shape: Floats
    bulge: Floats
    origin: tuple[float, float]
    scale: float
    middle: Floats
    gloss: float
    own_light: float
    trunk: Floats
    body: Body
    tail_opacity: float = 1.0
    area: float = 0.0
    levels: dict[int, tuple[Floats, Floats]] = field(default_factory=dict)


@dataclass(slots=True, eq=False)
class Canvas:
    """A scene in the making.

    ``shade`` is how dark a fish's cast shadow makes the ground; ``points`` are
    the fishes' midlines and ``shown`` what of them nothing lies on.
    """

    colour: Floats
    cover: Floats
    owner: NDArray[np.uint8]
    body: Floats
    shade: Floats
    sun: tuple[float, float]
    hard_light: bool = False
    fish: list[Floats] = field(default_factory=list)
    midlines: list[Floats] = field(default_factory=list)
    things: list[Floats] = field(default_factory=list)
    outward: list[Floats] = field(default_factory=list)
    points: Floats = field(
        default_factory=lambda: np.zeros((MAX_FISH, _SAMPLES, 2), np.float32)
    )
    shown: NDArray[np.bool_] = field(
        default_factory=lambda: np.ones((MAX_FISH, _SAMPLES), bool)
    )

    def hide(
        self, solid: NDArray[Any], corner: tuple[int, int], but: int | None = None
    ) -> None:
        """Note what of the fish so far lies under ``solid``, whose corner is x, y."""
        count = len(self.fish)
        at = np.rint(self.points[:count]).astype(int) - np.array(corner)
        height, width = solid.shape
        inside = (
            (at[..., 0] >= 0)
            & (at[..., 1] >= 0)
            & (at[..., 0] < width)
            & (at[..., 1] < height)
        )
        under = inside & (
            solid[np.clip(at[..., 1], 0, height - 1), np.clip(at[..., 0], 0, width - 1)]
            > 0.5
        )
        if but is not None:
            under[but] = False
        self.shown[:count] &= ~under


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """A photo with its truth.

    Attributes
    ----------
    photo
        (rows, columns, 3) uint8.
    cover, owner, body
        At half size: share of each cell covered by fish (0-255); number of the
        fish on top, from 1, or 0; share covered by the body of that fish without
        fins: they are cut off at the body line, a smooth profile of back and belly
        that fins stand out of (``shapes``), and behind at the straight line across
        the tail's base.
    fish
        (MAX_FISH, FISH_COLUMNS) float32, used rows first; ``columns`` says what
        is where.
    things
        (MAX_THINGS, 5) float32: ends of things that are no fish, x, y, x, y, and 1
        if the row is used.
    """

    photo: NDArray[np.uint8]
    cover: NDArray[np.uint8]
    owner: NDArray[np.uint8]
    body: NDArray[np.uint8]
    fish: Floats
    things: Floats


def hide_in(sprite: Sprite, canvas: Canvas, rng: np.random.Generator) -> Sprite:
    """Return the fish in about the tones of what it will lie on."""
    ground = canvas.colour.mean(axis=(0, 1))
    own = sprite.colour[sprite.shape > 0.5].mean(axis=0)
    share = rng.uniform(0.5, 1.0)
    gain = np.clip(ground / np.maximum(own, 0.02), 0.2, 4.0) ** share
    colour = np.clip(sprite.colour * gain, 0.01, 1.0)
    return replace(sprite, colour=colour.astype(np.float32), levels={})


class SpriteMaker:
    """Keeps a changing stock of painted fish, since painting takes longest."""

    def __init__(
        self,
        bodies: tuple[Body, ...],
        cutouts: tuple[Cutout, ...],
        rng: np.random.Generator,
        *,
        held_out: bool = False,
    ) -> None:
        self._bodies, self._rng = bodies, rng
        self._cutouts = {
            SIDE: [cut for cut in cutouts if not cut.back],
            UPRIGHT: [cut for cut in cutouts if cut.back],
        }
        self._palettes = (
            HELD_OUT_SKINS
            if held_out
            else tuple(name for name in PALETTES if name not in HELD_OUT_SKINS)
        )
        self.noise = NoiseBank(rng)
        self._stock: dict[int, list[Sprite]] = {SIDE: [], UPRIGHT: []}
        self._whole = [
            _sprite(cut.raster, cut.coat, own_light=0.3)
            for cut in cutouts
            if cut.raster is not None and cut.coat is not None
        ]

    def draw(self, posture: int = SIDE) -> Sprite:
        """Return a fish; every fourth or so is newly painted."""
        rng = self._rng
        if posture == SIDE and self._whole and rng.random() < 0.1:
            return self._whole[int(rng.integers(len(self._whole)))]
        stock = self._stock[posture]
        if len(stock) < _STOCK[posture]:
            stock.append(self._paint(posture))
            return stock[-1]
        index = int(rng.integers(len(stock)))
        if rng.random() < 0.25:
            stock[index] = self._paint(posture)
        return stock[index]

    def _paint(self, posture: int) -> Sprite:
        body = draw_body(self._bodies, self._rng, posture)
        raster = rasterise(body, float(self._rng.uniform(150, 340)))
        colours, cuts = None, self._cutouts[posture]
        if cuts and self._rng.random() < 0.3:
            cut = cuts[int(self._rng.integers(len(cuts)))]
            colours = dress(raster, cut.skin, self._rng)
        if posture == UPRIGHT:
            coat = paint_back(raster, self._rng, self.noise, colours)
            return _sprite(raster, coat, own_light=0.7)
        coat = paint(raster, self._rng, self.noise, self._palettes, colours)
        return _sprite(raster, coat, own_light=1.0 if colours is None else 0.4)


def _sprite(raster: Raster, coat: Coat, own_light: float) -> Sprite:
    bulge = np.sqrt(np.clip(1 - np.clip(raster.v, -1, 1) ** 2, 0, 1))
    return Sprite(
        colour=coat.colour,
        opacity=coat.alpha,
        shape=raster.alpha,
        bulge=(bulge * raster.trunk).astype(np.float32),
        origin=raster.origin,
        scale=raster.scale,
        middle=raster.middle,
        gloss=coat.gloss,
        own_light=own_light,
        trunk=np.minimum(raster.trunk, raster.alpha),
        body=raster.body,
        tail_opacity=coat.tail_opacity,
        area=float(raster.alpha.sum() / raster.scale**2),
    )


@dataclass(frozen=True, slots=True, eq=False)
class Pose:
    """Where a fish lies: its bent midline in canvas pixels.

    ``along`` are positions in fork lengths; ``points`` and ``tangents`` are
    (k, 2).
    """

    along: Floats
    points: Floats
    tangents: Floats
    length: float
    mirrored: bool

    def place(self, x: Floats, y: Floats) -> Floats:
        """Return canvas points of fish coordinates in fork lengths."""
        sign = -1.0 if self.mirrored else 1.0
        px = np.interp(x, self.along, self.points[:, 0])
        py = np.interp(x, self.along, self.points[:, 1])
        tx = np.interp(x, self.along, self.tangents[:, 0])
        ty = np.interp(x, self.along, self.tangents[:, 1])
        offset = y * self.length * sign
        return np.column_stack([px - ty * offset, py + tx * offset]).astype(np.float32)


def draw_pose(
    centre: tuple[float, float],
    angle: float,
    length: float,
    rng: np.random.Generator,
    *,
    swims: bool = False,
) -> Pose:
    """Return a pose with its middle at ``centre``; most fish are nearly straight.

    One that swims is bent in a wave that grows to the tail.
    """
    along = np.linspace(-0.06, 1.4, 60, dtype=np.float32)
    bend = rng.normal(0, 12) if rng.random() < 0.75 else rng.normal(0, 45)
    bend = np.deg2rad(np.clip(bend, -110, 110))
    at, width = rng.uniform(0.4, 0.8), rng.uniform(0.12, 0.4)
    heading = bend / (1 + np.exp(-(along - at) / (width / 3)))
    if rng.random() < 0.3:
        heading = heading - 0.6 * bend / (1 + np.exp(-(along - at - 0.25) / 0.06))
    if swims:
        wave = np.sin(2 * np.pi * (along * rng.uniform(0.7, 1.1) + rng.random()))
        heading = np.deg2rad(abs(rng.normal(0, 22))) * wave * (0.3 + along)
        turn = rng.normal(0, 0.35) if rng.random() < 0.5 else 0.0
        heading = heading + turn * along
    heading = heading + angle
    step = np.gradient(along)
    x = np.cumsum(np.cos(heading) * step) * length
    y = np.cumsum(np.sin(heading) * step) * length
    points = np.column_stack([x, y])
    points += np.array(centre) - [np.interp(0.5, along, x), np.interp(0.5, along, y)]
    tangents = np.column_stack([np.cos(heading), np.sin(heading)])
    return Pose(
        along=along,
        points=points.astype(np.float32),
        tangents=tangents.astype(np.float32),
        length=length,
        mirrored=bool(rng.random() < 0.5),
    )


def lay_fish(
    canvas: Canvas, sprite: Sprite, pose: Pose, rng: np.random.Generator
) -> None:
    """Draw a fish on top of all that is there, and note its truth."""
    index = len(canvas.fish)
    if index >= MAX_FISH:
        return
    row = _note(canvas, sprite, pose)
    box = _box(canvas, sprite, pose)
    if box is None:
        canvas.shown[index] = False
        return
    left, top, right, bottom = box
    map_x, map_y, shrink = inverse(sprite, pose, box)
    picture, form, (scale_x, scale_y) = _small(sprite, shrink)
    if scale_x != 1.0 or scale_y != 1.0:
        map_x = (map_x + 0.5) * np.float32(scale_x) - 0.5
        map_y = (map_y + 0.5) * np.float32(scale_y) - 0.5
    placed = cv2.remap(picture, map_x, map_y, cv2.INTER_LINEAR)
    form = cv2.remap(form, map_x, map_y, cv2.INTER_LINEAR)
    colour = _lit(placed[..., :3], form[..., 1], sprite, pose, canvas, rng)
    solid = form[..., 0]
    _cast_shadow(canvas, solid, box, pose.length, rng)
    view = canvas.colour[top:bottom, left:right]
    opacity = placed[..., 3:4]
    view += opacity * (colour - view)
    part = canvas.cover[top:bottom, left:right]
    part += solid * (1 - part)
    trunk = canvas.body[top:bottom, left:right]
    trunk *= 1 - solid
    trunk += np.minimum(solid, form[..., 2])
    firm = solid > 0.5
    below = canvas.owner[top:bottom, left:right]
    # fins that lie over fins raise no fish
    firm_body = np.minimum(solid, form[..., 2])
    over = (firm_body * (below > 0)).sum() / max(float(firm_body.sum()), 1.0)
    row[col.RAISED] = float(over > _LIES_ON)
    canvas.hide(solid, (left, top), but=index)
    canvas.shade[top:bottom, left:right][firm] = 0
    below[firm] = index + 1


def _note(canvas: Canvas, sprite: Sprite, pose: Pose) -> Floats:
    """Put the fish's row into the canvas, what is seen still open."""
    ends = pose.place(np.array([0.0, 1.0]), np.zeros(2))
    middle_x = np.linspace(0.03, 0.97, _SAMPLES).astype(np.float32)
    columns = sprite.origin[0] + middle_x * sprite.scale
    middle_y = np.interp(columns, np.arange(len(sprite.middle)), sprite.middle)
    midline = pose.place(middle_x, middle_y.astype(np.float32))
    beyond = pose.place(np.array([-0.02, 1.02]), np.zeros(2))
    canvas.points[len(canvas.fish)] = midline
    canvas.midlines.append(midline)
    canvas.outward.append(beyond)
    row = np.zeros(FISH_COLUMNS, np.float32)
    row[:4] = ends.ravel()
    row[[col.LENGTH, col.USED]] = pose.length, 1
    row[[col.POSTURE, col.HIND_KIND]] = sprite.body.posture, sprite.body.hind_kind
    row[col.AREA_SEEN] = sprite.area * pose.length**2
    canvas.fish.append(row)
    return row


def _small(sprite: Sprite, shrink: float) -> tuple[Floats, Floats, tuple[float, float]]:
    """Return the sprite's pictures, made smaller for a small fish, and how much."""
    step = 0 if shrink >= 0.75 else round(-2 * np.log2(shrink))
    if step not in sprite.levels:
        picture = np.dstack([sprite.colour, sprite.opacity])
        form = np.dstack([sprite.shape, sprite.bulge, sprite.trunk])
        if step:
            height, width = picture.shape[:2]
            part = 2 ** (-step / 2)
            size = (max(4, round(width * part)), max(4, round(height * part)))
            picture = cv2.resize(picture, size, interpolation=cv2.INTER_AREA)
            form = cv2.resize(form, size, interpolation=cv2.INTER_AREA)
        sprite.levels[step] = (picture, form)
    picture, form = sprite.levels[step]
    height, width = sprite.shape.shape
    return picture, form, (picture.shape[1] / width, picture.shape[0] / height)


def _box(
    canvas: Canvas, sprite: Sprite, pose: Pose
) -> tuple[int, int, int, int] | None:
    half = max(sprite.origin[1], len(sprite.shape) - sprite.origin[1])
    pad = half / sprite.scale * pose.length + 3
    if canvas.hard_light:  # room for the shadow
        pad += _LONG_SHADOW * pose.length * float(np.hypot(*canvas.sun))
    end = (sprite.shape.shape[1] - sprite.origin[0]) / sprite.scale
    inside = (pose.along >= -0.04) & (pose.along <= end + 0.03)
    low = pose.points[inside].min(axis=0) - pad
    high = pose.points[inside].max(axis=0) + pad
    left, top = (max(0, int(value)) for value in low)
    right = min(canvas.cover.shape[1], int(high[0]) + 1)
    bottom = min(canvas.cover.shape[0], int(high[1]) + 1)
    return (left, top, right, bottom) if right - left > 2 < bottom - top else None


def inverse(
    sprite: Sprite, pose: Pose, box: tuple[int, int, int, int], grid: int = 0
) -> tuple[Floats, Floats, float]:
    """Return for each pixel of the box its place in the sprite, and the shrink.

    The nearest midline sample is sought on a coarse grid; the maps are smooth,
    so enlarging them loses nothing that shows.
    """
    left, top, right, bottom = box
    grid = grid or int(np.clip(pose.length / 20, 1, 5))
    height, width = bottom - top, right - left
    rows, columns = -(-height // grid), -(-width // grid)
    xs = left + (np.arange(columns) + 0.5) * (width / columns) - 0.5
    ys = top + (np.arange(rows) + 0.5) * (height / rows) - 0.5
    grid_x, grid_y = np.meshgrid(xs.astype(np.float32), ys.astype(np.float32))
    dx = grid_x[..., None] - pose.points[:, 0]
    dy = grid_y[..., None] - pose.points[:, 1]
    nearest = np.argmin(dx * dx + dy * dy, axis=2)
    tangent = pose.tangents[nearest]
    offset_x = np.take_along_axis(dx, nearest[..., None], 2)[..., 0]
    offset_y = np.take_along_axis(dy, nearest[..., None], 2)[..., 0]
    ahead = offset_x * tangent[..., 0] + offset_y * tangent[..., 1]
    aside = -offset_x * tangent[..., 1] + offset_y * tangent[..., 0]
    if pose.mirrored:
        aside = -aside
    along = pose.along[nearest] + ahead / pose.length
    map_x = sprite.origin[0] + along * sprite.scale
    map_y = sprite.origin[1] + aside / pose.length * sprite.scale
    size = (width, height)
    return (
        cv2.resize(map_x.astype(np.float32), size, interpolation=cv2.INTER_LINEAR),
        cv2.resize(map_y.astype(np.float32), size, interpolation=cv2.INTER_LINEAR),
        pose.length / sprite.scale,
    )


def _lit(
    colour: Floats,
    bulge: Floats,
    sprite: Sprite,
    pose: Pose,
    canvas: Canvas,
    rng: np.random.Generator,
) -> Floats:
    """Return the skin in the scene's light: shade, gloss, tint of this fish."""
    thick = pose.length * 0.12
    slope_x = cv2.Sobel(bulge, cv2.CV_32F, 1, 0, scale=0.125) * thick
    slope_y = cv2.Sobel(bulge, cv2.CV_32F, 0, 1, scale=0.125) * thick
    steep = np.sqrt(1 + slope_x**2 + slope_y**2)
    sun_x, sun_y = canvas.sun
    # the lamp is opposite the shadow: flanks that rise towards it are in their own
    towards = (1 + slope_x * sun_x + slope_y * sun_y) / steep
    strong = (0.4, 1.0) if canvas.hard_light else (0.1, 0.6)
    strength = rng.uniform(*strong) * sprite.own_light
    shade = 1 + strength * (np.clip(towards, 0, 1.6) - 1)
    tint = np.exp(rng.normal(0, 0.06)) * np.exp(rng.normal(0, 0.02, 3))
    lit = colour * shade[..., None] * tint.astype(np.float32)
    if sprite.gloss * sprite.own_light > 0.05:
        power = rng.uniform(8, 60)
        mirror = np.clip(towards / (1 + 0.5 * (sun_x**2 + sun_y**2)), 0, 1) ** power
        broken = np.clip(0.6 + 0.6 * rng.normal(), 0, 1.2)
        gloss = mirror * sprite.gloss * broken * rng.uniform(0, 0.7)
        lit = lit + (gloss * (bulge > 0.05))[..., None] * (1 - lit)
    return np.clip(lit, 0.003, 1.1).astype(np.float32)


def _cast_shadow(
    canvas: Canvas,
    solid: Floats,
    box: tuple[int, int, int, int],
    length: float,
    rng: np.random.Generator,
) -> None:
    left, top, right, bottom = box
    high = rng.random() < 0.15  # low sun: a shadow like a second fish
    height = length * (rng.uniform(0.06, 0.2) if high else rng.uniform(0.0, 0.06))
    soft = max(0.5, length * rng.uniform(0.004, 0.04))
    dark = rng.uniform(0.1, 0.65)
    if rng.random() < _HUGS:
        height, soft = length * rng.uniform(0.002, 0.02), rng.uniform(0.3, 1.2)
        dark = rng.uniform(0.4, 0.9)
    elif canvas.hard_light:  # the sun itself: sharp and dark
        height, soft = length * rng.uniform(0.02, _LONG_SHADOW), rng.uniform(0.3, 1.0)
        dark = rng.uniform(0.45, 0.88)
    move = np.array(
        [[1, 0, canvas.sun[0] * height], [0, 1, canvas.sun[1] * height]], np.float32
    )
    shadow = cv2.warpAffine(solid, move, (right - left, bottom - top))
    shadow = cv2.GaussianBlur(shadow, (0, 0), soft)
    canvas.colour[top:bottom, left:right] *= 1 - dark * shadow[..., None]
    ground = canvas.shade[top:bottom, left:right]
    np.maximum(ground, dark * shadow, out=ground)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where a thing is laid: its middle, its scale, its turn."""

    centre: tuple[float, float]
    scale: float
    turn_deg: float


def lay_thing(
    canvas: Canvas, thing: Thing, spot: Spot, rng: np.random.Generator
) -> None:
    """Draw a thing on top; what it covers is no fish."""
    colour, alpha = thing
    centre, scale = spot.centre, spot.scale
    height, width = alpha.shape
    turn = cv2.getRotationMatrix2D((width / 2, height / 2), spot.turn_deg, scale)
    reach = int(np.hypot(height, width) / 2 * scale) + 2
    left, top = int(centre[0]) - reach, int(centre[1]) - reach
    turn[:, 2] += np.array([reach - width / 2, reach - height / 2])
    long = np.array([[0, height / 2, 1], [width, height / 2, 1]]) @ turn.T
    ends = long + np.array([left, top])
    canvas.things.append(np.array([*ends.ravel(), 1], np.float32))
    size = (2 * reach, 2 * reach)
    flags = cv2.INTER_AREA if scale < 0.7 else cv2.INTER_LINEAR
    picture = cv2.warpAffine(np.dstack([colour, alpha]), turn, size, flags=flags)
    x0, y0 = max(left, 0), max(top, 0)
    x1 = min(left + size[0], canvas.cover.shape[1])
    y1 = min(top + size[1], canvas.cover.shape[0])
    if x1 - x0 < 2 or y1 - y0 < 2:
        return
    part = picture[y0 - top : y1 - top, x0 - left : x1 - left]
    solid = np.ascontiguousarray(part[..., 3])
    _cast_shadow(canvas, solid, (x0, y0, x1, y1), rng.uniform(10, 150), rng)
    view = canvas.colour[y0:y1, x0:x1]
    view += solid[..., None] * (part[..., :3] - view)
    canvas.cover[y0:y1, x0:x1] *= 1 - solid
    canvas.body[y0:y1, x0:x1] *= 1 - solid
    canvas.owner[y0:y1, x0:x1][solid > 0.5] = 0
    canvas.shade[y0:y1, x0:x1][solid > 0.5] = 0
    canvas.hide(solid, (x0, y0))


def finish(
    canvas: Canvas, rng: np.random.Generator, noise: NoiseBank, *, close: bool = False
) -> Scene:
    """Return the photo of the canvas, cut off where the photo ends, with truth.

    ``close``: the photo ends about a fish.
    """
    image = light_scene(canvas.colour, rng, noise)
    photo = take_photo(image, rng)
    outside = close_up(canvas, rng) if close else beyond(canvas, rng)
    if outside is not None:
        photo[outside] = OUTSIDE_GREY
        for layer in (canvas.cover, canvas.body, canvas.owner):
            layer[outside] = 0
        canvas.hide(outside, (0, 0))
    things = np.zeros((MAX_THINGS, 5), np.float32)
    for index, ends in enumerate(canvas.things[-MAX_THINGS:]):
        things[index] = ends
    owner = canvas.owner[1::2, 1::2].copy()
    other = canvas.owner[::2, ::2]
    owner[owner == 0] = other[owner == 0]
    cover, body = _halved(canvas.cover), _halved(canvas.body)
    return Scene(
        photo=photo,
        cover=cover,
        owner=owner,
        body=np.minimum(cover, body),
        fish=_table(canvas),
        things=things,
    )


def _halved(layer: Floats) -> NDArray[np.uint8]:
    half = cv2.resize(layer, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
    return np.clip(half * 255 + 0.5, 0, 255).astype(np.uint8)


def _table(canvas: Canvas) -> Floats:
    """Return the fishes' rows with what is seen of each."""
    table = np.zeros((MAX_FISH, FISH_COLUMNS), np.float32)
    count = len(canvas.fish)
    if not count:
        return table
    height, width = canvas.cover.shape
    points = canvas.points[:count]
    inside = (points > -0.5).all(axis=2) & (
        points < np.array([width - 0.5, height - 0.5])
    ).all(axis=2)
    seen = canvas.shown[:count] & inside
    rows = np.stack(canvas.fish)
    rows[:, col.SNOUT_SEEN], rows[:, col.HIND_SEEN] = seen[:, 0], seen[:, -1]
    rows[:, col.MIDLINE_SEEN] = seen.mean(axis=1)
    left = np.bincount(canvas.owner.ravel(), minlength=count + 1)[1 : count + 1]
    rows[:, col.AREA_SEEN] = np.clip(left / np.maximum(rows[:, col.AREA_SEEN], 1), 0, 1)
    at = np.rint(np.stack(canvas.outward)).astype(int)
    dark = canvas.shade[
        np.clip(at[..., 1], 0, height - 1), np.clip(at[..., 0], 0, width - 1)
    ]
    rows[:, [col.SNOUT_SHADOW, col.HIND_SHADOW]] = dark > _DARK
    table[:count] = rows
    return table


def draw_over(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Return a thing of the kinds that come to lie on fish."""
    return draw_thing(rng, noise, (OVER[int(rng.integers(len(OVER)))],))


def new_canvas(
    shape: tuple[int, int],
    rng: np.random.Generator,
    noise: NoiseBank,
    surfaces: tuple[str, ...] = (),
) -> Canvas:
    """Return an empty scene on a random surface."""
    sun = float(rng.uniform(0.0, 1.1))
    angle = rng.uniform(0, 2 * np.pi)
    hard = bool(rng.random() < _HARD)
    colour = draw_surface(shape, rng, noise, surfaces).copy()
    if hard and rng.random() < _WHITE:
        colour = 1 - (1 - colour) * np.float32(rng.uniform(0.08, 0.4))
    return Canvas(
        colour=colour,
        cover=np.zeros(shape, np.float32),
        owner=np.zeros(shape, np.uint8),
        body=np.zeros(shape, np.float32),
        shade=np.zeros(shape, np.float32),
        hard_light=hard,
        sun=(float(sun * np.cos(angle)), float(sun * np.sin(angle))),
    )
