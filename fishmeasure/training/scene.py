"""Scenes with exact truth: fish among things on surfaces, seen from above.

One pixel is about one millimetre, as the network sees the rectified plane; the
fish run from 40 to 420 pixels. The truth tells for each pixel whose it is, and
for each fish where snout and fork are and what of it can be seen.
"""

from dataclasses import dataclass, field, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.training.bits import Thing
from fishmeasure.training.cutouts import Cutout, dress
from fishmeasure.training.light import light_scene, take_photo
from fishmeasure.training.noise import Floats, NoiseBank
from fishmeasure.training.photo_edge import beyond, close_up
from fishmeasure.training.shapes import Body, Raster, draw_body, rasterise
from fishmeasure.training.skins import HELD_OUT_SKINS, PALETTES, Coat, paint
from fishmeasure.training.surfaces import draw_surface
from fishmeasure.training.things import OVER, draw_thing

MAX_FISH = 16
MAX_THINGS = 8
OUTSIDE_GREY = 128  # what the rectified plane shows where the photo ends
_SAMPLES = 24


@dataclass(frozen=True, slots=True, eq=False)
class Sprite:
    """A level fish, head left, that a scene can bend, turn and lay down."""

    colour: Floats
    opacity: Floats
    shape: Floats
    bulge: Floats
    origin: tuple[float, float]
    scale: float
    middle: Floats
    gloss: float
    own_light: float = 1.0


@dataclass(slots=True, eq=False)
class Canvas:
    """A scene in the making."""

    colour: Floats
    cover: Floats
    owner: NDArray[np.uint8]
    sun: tuple[float, float]
    fish: list[Floats] = field(default_factory=list)
    midlines: list[Floats] = field(default_factory=list)
    things: list[Floats] = field(default_factory=list)


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """A photo with its truth.

    Attributes
    ----------
    photo
        (rows, columns, 3) uint8.
    cover, owner
        At half size: share of each cell covered by fish (0-255); number of the
        fish on top, from 1, or 0.
    fish
        (MAX_FISH, 9) float32: snout x, y, fork x, y (photo pixels), whether
        snout and fork are seen, share of the midline seen, fork length along
        the midline, 1 if the row is used.
    things
        (MAX_THINGS, 5) float32: ends of things that are no fish, x, y, x, y, and 1
        if the row is used.
    """

    photo: NDArray[np.uint8]
    cover: NDArray[np.uint8]
    owner: NDArray[np.uint8]
    fish: Floats
    things: Floats


def hide_in(sprite: Sprite, canvas: Canvas, rng: np.random.Generator) -> Sprite:
    """Return the fish in about the tones of what it will lie on."""
    ground = canvas.colour.mean(axis=(0, 1))
    own = sprite.colour[sprite.shape > 0.5].mean(axis=0)
    share = rng.uniform(0.5, 1.0)
    gain = np.clip(ground / np.maximum(own, 0.02), 0.2, 4.0) ** share
    colour = np.clip(sprite.colour * gain, 0.01, 1.0)
    return replace(sprite, colour=colour.astype(np.float32))


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
        self._bodies, self._cutouts, self._rng = bodies, cutouts, rng
        self._palettes = (
            HELD_OUT_SKINS
            if held_out
            else tuple(name for name in PALETTES if name not in HELD_OUT_SKINS)
        )
        self.noise = NoiseBank(rng)
        self._stock: list[Sprite] = []
        self._whole = [
            _sprite(cut.raster, cut.coat, own_light=0.3)
            for cut in cutouts
            if cut.raster is not None and cut.coat is not None
        ]

    def draw(self) -> Sprite:
        """Return a fish; every fourth or so is newly painted."""
        rng = self._rng
        if self._whole and rng.random() < 0.1:
            return self._whole[int(rng.integers(len(self._whole)))]
        if len(self._stock) < 60:
            self._stock.append(self._paint())
            return self._stock[-1]
        index = int(rng.integers(len(self._stock)))
        if rng.random() < 0.25:
            self._stock[index] = self._paint()
        return self._stock[index]

    def _paint(self) -> Sprite:
        body = draw_body(self._bodies, self._rng)
        raster = rasterise(body, float(self._rng.uniform(150, 340)))
        colours = None
        if self._cutouts and self._rng.random() < 0.3:
            cut = self._cutouts[int(self._rng.integers(len(self._cutouts)))]
            colours = dress(raster, cut.skin, self._rng)
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
) -> Pose:
    """Return a pose with its middle at ``centre``; most fish are nearly straight."""
    along = np.linspace(-0.06, 1.4, 60, dtype=np.float32)
    bend = rng.normal(0, 12) if rng.random() < 0.75 else rng.normal(0, 45)
    bend = np.deg2rad(np.clip(bend, -110, 110))
    at, width = rng.uniform(0.4, 0.8), rng.uniform(0.12, 0.4)
    heading = bend / (1 + np.exp(-(along - at) / (width / 3)))
    if rng.random() < 0.3:
        heading = heading - 0.6 * bend / (1 + np.exp(-(along - at - 0.25) / 0.06))
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
    number = len(canvas.fish) + 1
    ends = pose.place(np.array([0.0, 1.0]), np.zeros(2))
    middle_x = np.linspace(0.03, 0.97, _SAMPLES).astype(np.float32)
    columns = sprite.origin[0] + middle_x * sprite.scale
    middle_y = np.interp(columns, np.arange(len(sprite.middle)), sprite.middle)
    canvas.midlines.append(pose.place(middle_x, middle_y.astype(np.float32)))
    row = np.array([*ends.ravel(), 0, 0, 0, pose.length, 1], np.float32)
    canvas.fish.append(row)
    box = _box(canvas, sprite, pose)
    if box is None:
        return
    left, top, right, bottom = box
    map_x, map_y, shrink = _inverse(sprite, pose, box)
    picture = np.dstack([sprite.colour, sprite.opacity])
    form = np.dstack([sprite.shape, sprite.bulge])
    if shrink < 0.75:
        size = (
            max(4, round(picture.shape[1] * shrink)),
            max(4, round(picture.shape[0] * shrink)),
        )
        ratio = size[0] / picture.shape[1], size[1] / picture.shape[0]
        picture = cv2.resize(picture, size, interpolation=cv2.INTER_AREA)
        form = cv2.resize(form, size, interpolation=cv2.INTER_AREA)
        map_x = (map_x + 0.5) * np.float32(ratio[0]) - 0.5
        map_y = (map_y + 0.5) * np.float32(ratio[1]) - 0.5
    placed = cv2.remap(picture, map_x, map_y, cv2.INTER_LINEAR)
    form = cv2.remap(form, map_x, map_y, cv2.INTER_LINEAR)
    colour = _lit(placed[..., :3], form[..., 1], sprite, pose, canvas, rng)
    _cast_shadow(canvas, form[..., 0], box, pose.length, rng)
    view = canvas.colour[top:bottom, left:right]
    opacity = placed[..., 3:4]
    view += opacity * (colour - view)
    solid = form[..., 0]
    part = canvas.cover[top:bottom, left:right]
    part += solid * (1 - part)
    canvas.owner[top:bottom, left:right][solid > 0.5] = number


def _box(
    canvas: Canvas, sprite: Sprite, pose: Pose
) -> tuple[int, int, int, int] | None:
    half = max(sprite.origin[1], len(sprite.shape) - sprite.origin[1])
    pad = half / sprite.scale * pose.length + 3
    end = (sprite.shape.shape[1] - sprite.origin[0]) / sprite.scale
    inside = (pose.along >= -0.04) & (pose.along <= end + 0.03)
    low = pose.points[inside].min(axis=0) - pad
    high = pose.points[inside].max(axis=0) + pad
    left, top = (max(0, int(value)) for value in low)
    right = min(canvas.cover.shape[1], int(high[0]) + 1)
    bottom = min(canvas.cover.shape[0], int(high[1]) + 1)
    return (left, top, right, bottom) if right - left > 2 < bottom - top else None


def _inverse(
    sprite: Sprite, pose: Pose, box: tuple[int, int, int, int]
) -> tuple[Floats, Floats, float]:
    """Return for each pixel of the box its place in the sprite, and the shrink.

    The nearest midline sample is sought on a coarse grid; the maps are smooth,
    so enlarging them loses nothing that shows.
    """
    left, top, right, bottom = box
    grid = 5
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
    towards = (1 - slope_x * sun_x - slope_y * sun_y) / steep
    strength = rng.uniform(0.1, 0.6) * sprite.own_light
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
    move = np.array(
        [[1, 0, canvas.sun[0] * height], [0, 1, canvas.sun[1] * height]], np.float32
    )
    shadow = cv2.warpAffine(solid, move, (right - left, bottom - top))
    shadow = cv2.GaussianBlur(shadow, (0, 0), soft)
    canvas.colour[top:bottom, left:right] *= (
        1 - rng.uniform(0.1, 0.65) * shadow[..., None]
    )


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
    canvas.owner[y0:y1, x0:x1][solid > 0.5] = 0


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
        canvas.cover[outside] = 0
        canvas.owner[outside] = 0
    things = np.zeros((MAX_THINGS, 5), np.float32)
    for index, ends in enumerate(canvas.things[-MAX_THINGS:]):
        things[index] = ends
    table = np.zeros((MAX_FISH, 9), np.float32)
    for index, (row, midline) in enumerate(
        zip(canvas.fish, canvas.midlines, strict=True)
    ):
        seen = [_shows(canvas.owner, point, index + 1) for point in midline]
        row[4] = float(seen[0])
        row[5] = float(seen[-1])
        row[6] = float(np.mean(seen))
        table[index] = row
    half = cv2.resize(canvas.cover, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
    owner = canvas.owner[1::2, 1::2].copy()
    other = canvas.owner[::2, ::2]
    owner[owner == 0] = other[owner == 0]
    return Scene(
        photo=photo,
        cover=np.clip(half * 255 + 0.5, 0, 255).astype(np.uint8),
        owner=owner,
        fish=table,
        things=things,
    )


def _shows(owner: NDArray[np.uint8], point: Floats, number: int) -> bool:
    column, row = round(float(point[0])), round(float(point[1]))
    inside = 0 <= row < owner.shape[0] and 0 <= column < owner.shape[1]
    return inside and bool(owner[row, column] == number)


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
    sun = rng.uniform(0.0, 1.1)
    angle = rng.uniform(0, 2 * np.pi)
    return Canvas(
        colour=draw_surface(shape, rng, noise, surfaces).copy(),
        cover=np.zeros(shape, np.float32),
        owner=np.zeros(shape, np.uint8),
        sun=(float(sun * np.cos(angle)), float(sun * np.sin(angle))),
    )
