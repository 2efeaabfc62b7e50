"""Paints fish skins over station and height on the body."""

import cv2
import numpy as np

from sample_images.generator.coats import Colour, Skin
from sample_images.generator.coats_kinds import coat_of
from sample_images.generator.fins import (
    BODY_V,
    CAUDAL_BOX,
    EYE_BOX,
    FIN_BOX,
    PALE_FIN_BOX,
)
from sample_images.generator.fish import Body
from sample_images.generator.noise import Array, fractal, mix, smooth

WIDTH, HEIGHT = 1600, 960  # texels; one is about 0.2 mm on a 300 mm fish


def _blobs(
    image: Array, centres: Array, radii: Array, colour: Colour, strength: float
) -> Array:
    """Return the image with soft round spots; centres and radii in texels (x, y)."""
    mask = np.zeros(image.shape[:2], dtype=np.float32)
    for (x, y), (rx, ry) in zip(centres, radii, strict=True):
        cv2.ellipse(
            mask,
            (round(x * 16), round(y * 16)),
            (round(rx * 16), round(ry * 16)),
            0,
            0,
            360,
            1.0,
            -1,
            cv2.LINE_AA,
            4,
        )
    mask = cv2.GaussianBlur(mask, (0, 0), 1.2)
    return mix(image, np.array(colour), mask * strength)


class Painter:
    """Paints one fish; texel rows run from the back (top) to the belly."""

    def __init__(self, skin: Skin, body: Body, seed: int) -> None:
        self.skin, self.body, self.gill = skin, body, body.family.gill
        self.rng = np.random.default_rng(seed)
        self.rows = int(HEIGHT * BODY_V)
        self.station = np.linspace(0, body.family.body_end, WIDTH)
        self.height = 1 - 2 * (np.arange(self.rows) + 0.5) / self.rows
        dorsal, ventral, _ = body.halves_mm(self.station)
        self.half_mm = np.maximum((dorsal + ventral) / 2, 0.5)

    def body_colours(self) -> Array:
        """Return (rows, WIDTH, 3) sRGB of the body."""
        skin, rng = self.skin, self.rng
        shape = (self.rows, WIDTH)
        h = np.broadcast_to(self.height[:, None], shape)
        h = h + 0.07 * fractal(rng, shape, (4, 12), 3)
        back, flank, belly = (
            np.broadcast_to(np.array(c), (*shape, 3))
            for c in (skin.back, skin.flank, skin.belly)
        )
        image = mix(belly, flank, (h + 0.72) / 0.45)
        image = mix(image, back, (h - 0.12) / 0.55)
        if skin.band is not None:
            strength = rng.uniform(0.35, 0.85)
            band = np.exp(-(((h - 0.02) / 0.22) ** 2)) * strength
            image = mix(image, np.array(skin.band), band)
        image = self._scales(image, h)
        image = self._pattern(image)
        image = image * (1 + 0.05 * fractal(rng, shape, (6, 20), 4))[..., None]
        image = self._head(image)
        # The scaly part fades into the tail fin, raggedly along the fin's rays.
        ragged = 0.012 * smooth(rng, shape, (24, 3))
        to_fin = (
            self.station[None, :] + ragged - self.body.family.body_end + 0.065
        ) / 0.055
        image = mix(image, np.array(skin.fin) * 1.05, 0.92 * to_fin)
        return np.clip(image, 0.01, 0.97)

    def _scale_cells(self) -> tuple[Array, Array, Array]:
        """Return per texel the scale's random figure and the place within it."""
        x = self.station[None, :] * self.skin.scale_rows
        y = self.height[:, None] * self.half_mm[None, :] / self.body.scale
        y = y * self.skin.scale_rows
        first, second = x + 1.1 * y, x - 1.1 * y  # diamonds, half over each other
        row, column = np.floor(first).astype(int), np.floor(second).astype(int)
        table = np.random.default_rng(self.body.spec.seed).standard_normal(997)
        figure = table[(row * 131 + column * 7919) % 997]
        return figure, first % 1 - 0.5, second % 1 - 0.5

    def _scales(self, image: Array, height: Array) -> Array:
        """Return the image with rows of scales that glitter on the flank."""
        figure, within_x, within_y = self._scale_cells()
        rim = np.clip((np.maximum(within_x, within_y) - 0.28) / 0.2, 0, 1)
        on_flank = np.exp(-(((height - 0.1) / 0.55) ** 2)) * (
            self.station > self.gill + 0.005
        )
        gain = self.skin.silver * on_flank * (0.38 * figure - 0.35 * rim)
        gain = gain - self.skin.scale_edge * rim * (self.station > self.gill + 0.005)
        scaled: Array = image * (1 + gain)[..., None]
        return scaled

    def relief_mm(self) -> Array:
        """Return the (HEIGHT, WIDTH) relief: each scale tilts its own way."""
        figure, within_x, within_y = self._scale_cells()
        pitch = self.body.scale / self.skin.scale_rows
        tilt = 0.10 * figure * within_x - 0.07 * within_y - 0.05 * np.abs(within_x)
        on_body = np.clip((self.station - self.gill + 0.005) / 0.02, 0, 1)[None, :]
        relief = np.zeros((HEIGHT, WIDTH))
        relief[: self.rows] = pitch * tilt * on_body * (0.3 + self.skin.silver)
        soft: Array = cv2.GaussianBlur(relief, (0, 0), 0.8)
        return soft

    def _scatter(self, count: int, low: float, size: float) -> tuple[Array, Array]:
        """Return spot centres and radii in texels, even in millimetres on the fish."""
        rng = self.rng
        station = rng.uniform(0.03, self.body.family.body_end - 0.01, 4 * count)
        at = np.interp(station, self.station, self.half_mm)
        keep = rng.uniform(0, self.half_mm.max(), station.size) < at
        station, at = station[keep][:count], at[keep][:count]
        height = low + (0.93 - low) * rng.beta(1.7, 1.1, station.size)
        radius = size * self.body.scale * rng.lognormal(0, 0.35, station.size)
        centres = np.column_stack(
            [station / self.body.family.body_end * WIDTH, (1 - height) / 2 * self.rows]
        )
        texel = WIDTH / (self.body.family.body_end * self.body.scale)
        stretch = rng.uniform(0.8, 1.3, station.size)
        radii = np.column_stack(
            [radius * texel * stretch, radius / (2 * at) * self.rows / stretch]
        )
        return centres, radii

    def _pattern(self, image: Array) -> Array:
        """Return the image with the species' spots."""
        skin = self.skin
        if skin.bars:
            image = self._bars(image)
        if skin.stripe is not None:
            wander = 0.03 * smooth(self.rng, (1, WIDTH), (1, 22))[0]
            off = (self.height[:, None] - 0.08 - wander[None, :]) / 0.13
            line = np.exp(-(off**2)) * (
                0.75 + 0.25 * smooth(self.rng, image.shape[:2], (3, 30))
            )
            image = mix(image, np.array(skin.stripe), 0.8 * line)
        if skin.marbling is not None:
            shape = image.shape[:2]
            waves = smooth(self.rng, shape, (11, 60)) + 0.5 * smooth(
                self.rng, shape, (20, 110)
            )
            on_flank = np.clip((self.height[:, None] + 0.6) / 0.4, 0, 1)
            ridges = np.clip(1.2 - 3.5 * np.abs(waves), 0, 1) * on_flank
            return mix(image, np.array(skin.marbling), 0.75 * ridges)
        if skin.spots:
            centres, radii = self._scatter(skin.spots, skin.spots_below, skin.spot_size)
            if skin.halo is not None:
                image = _blobs(image, centres, radii * 1.8, skin.halo, 0.6)
            image = _blobs(image, centres, radii, skin.spot_colour, 0.85)
        if skin.red_spots:
            centres, radii = self._scatter(skin.red_spots, -0.3, skin.spot_size * 0.8)
            image = _blobs(image, centres, radii * 1.8, skin.halo or skin.belly, 0.7)
            image = _blobs(image, centres, radii, (0.70, 0.20, 0.10), 0.9)
        return image

    def _bars(self, image: Array) -> Array:
        """Return the image with upright dark bars or parr marks."""
        skin, rng = self.skin, self.rng
        low, high = skin.bar_span
        h = self.height[:, None]
        wander = 0.18 * smooth(rng, image.shape[:2], (5, 26))
        place = (
            (self.station[None, :] - 0.25)
            / (self.body.family.body_end - 0.30)
            * skin.bars
        )
        off = np.abs((place + wander) % 1 - 0.5) * 2
        bar = np.clip((skin.bar_width - off) / 0.25, 0, 1) * (
            self.station > self.gill + 0.03
        )
        bar = bar * np.clip((h - low) / 0.25, 0, 1) * np.clip((high - h) / 0.25, 0, 1)
        strength = 0.55 + 0.2 * float(rng.uniform())
        return mix(image, np.array(skin.bar_colour), strength * bar)

    def _head(self, image: Array) -> Array:
        """Return the image with gill cover, mouth and the lateral line."""
        s, h = self.station[None, :], self.height[:, None]
        gill = self.gill - 0.045 * h**2
        head = np.clip((gill - s) / 0.006, 0, 1) * np.ones_like(h)
        plain = cv2.GaussianBlur(image, (0, 0), 9)
        cheek = plain * np.array([1.04, 0.98, 0.93])
        shine = np.exp(
            -(((s - 0.73 * self.gill) / 0.03) ** 2) - ((h + 0.15) / 0.5) ** 2
        )
        cheek = mix(cheek, np.array([0.72, 0.62, 0.55]), 0.45 * shine)
        image = mix(image, cheek, 0.75 * head)
        edge = np.exp(-(((s - gill) / 0.0035) ** 2)) * (np.abs(h) < 0.86)
        image = mix(image, np.array([0.16, 0.11, 0.09]), 0.8 * edge)
        if self.skin.ear is not None:
            off = ((s - self.gill - 0.012) / 0.022) ** 2 + ((h - 0.12) / 0.085) ** 2
            image = mix(image, np.array(self.skin.ear), np.clip(1.3 - off, 0, 1))
        fold = np.exp(-(((s - 0.61 * self.gill + 0.03 * h**2) / 0.003) ** 2)) * (
            np.abs(h) < 0.55
        )
        image = mix(image, np.array([0.25, 0.20, 0.16]), 0.45 * fold)
        line = -0.12 - 1.9 * s * 0.105 / max(self.body.family.mouth, 0.06)
        jaw = (
            np.exp(-(((h - line) / 0.055) ** 2))
            * (s < self.body.family.mouth)
            * (s > 0.001)
        )
        image = mix(image, np.array([0.16, 0.13, 0.11]), 0.8 * jaw)
        lateral = np.exp(-(((h - 0.10) / 0.014) ** 2)) * (s > self.gill + 0.005)
        return mix(image, image * 0.72, 0.6 * lateral)


def _fin_patch(
    rng: np.random.Generator, shape: tuple[int, int], colour: Colour, spots: int
) -> Array:
    """Return a fin; rays run along u, so along the texture's columns."""
    rays = smooth(rng, (shape[0], 8), (26, 1))[:, 4:5]
    tone = 1 + 0.09 * rays + 0.05 * fractal(rng, shape, (3, 3), 3)
    along = np.linspace(1.05, 0.92, shape[1])[None, :]
    image = np.array(colour) * (tone * along)[..., None]
    if spots:
        centres = rng.uniform([0.15, 0.05], [0.95, 0.95], (spots, 2)) * shape[::-1]
        radii = rng.uniform(4, 8, (spots, 1)) * np.array([[1.4, 0.8]])
        image = _blobs(image, centres, radii, (0.07, 0.07, 0.06), 0.75)
    return image


def _eye_patch(
    rng: np.random.Generator, size: tuple[int, int], colour: Colour
) -> Array:
    """Return pupil, iris and rim as concentric discs."""
    rows, columns = size
    y, x = np.mgrid[0:rows, 0:columns]
    radius = np.hypot((x + 0.5) / columns * 2 - 1, (y + 0.5) / rows * 2 - 1)
    iris = np.array(colour) * (1 + 0.15 * rng.standard_normal())
    image = np.broadcast_to(iris, (rows, columns, 3))
    ring = np.exp(-(((radius - 0.60) / 0.05) ** 2))
    image = mix(image, np.array([0.72, 0.60, 0.32]), 0.8 * ring)
    image = mix(image, np.array([0.02, 0.02, 0.025]), (0.57 - radius) / 0.05)
    return mix(image, np.array([0.17, 0.15, 0.12]), (radius - 0.84) / 0.10)


def opacity(body: Body) -> Array:
    """Return the (HEIGHT, WIDTH) share of light that each side of the skin stops."""
    tail = body.spec.tail
    stops = np.ones((HEIGHT, WIDTH))
    rng = np.random.default_rng(body.spec.seed + 3)
    for box in (CAUDAL_BOX, FIN_BOX, PALE_FIN_BOX):
        left, right = int(box[0] * WIDTH), int(box[2] * WIDTH)
        top, bottom = int(box[1] * HEIGHT), int(box[3] * HEIGHT)
        shape = (bottom - top + 16, right - left + 16)
        along = np.linspace(0, 1, shape[1])[None, :]
        rays = 0.5 + 0.5 * np.sin(2 * np.pi * 19 * np.linspace(0, 1, shape[0]))
        thin = tail.opacity if box is CAUDAL_BOX else 0.3 + 0.7 * tail.opacity
        thin = thin + 0.35 * (1 - thin) * rays[:, None] ** 2
        patch = 1 - (1 - thin) * np.clip((along - 0.08) / 0.25, 0, 1)
        if box is CAUDAL_BOX:
            patch *= 1 - _splits(rng, shape, body)
        stops[top - 8 : bottom + 8, left - 8 : right + 8] = patch
    # A fin has two sides: light passes both.
    sides: Array = 1 - np.sqrt(np.clip(1 - stops, 0.0, 1.0))
    return sides


def _splits(rng: np.random.Generator, shape: tuple[int, int], body: Body) -> Array:
    """Return where the tail is torn, never within its middle rays."""
    torn = np.zeros(shape, dtype=np.float32)
    rows, columns = shape
    for _ in range(body.spec.tail.splits):
        share = float(rng.uniform(0.08, 0.44)) * float(rng.choice([-1, 1]))
        row = (0.5 + share) * rows
        depth = body.spec.tail.split_depth * float(rng.uniform(0.4, 1.0))
        half = float(rng.uniform(0.006, 0.022)) * rows
        tip = (columns * (1 - depth), row + float(rng.normal(0, 3)))
        ring = np.array([tip, (columns, row - half), (columns, row + half)])
        fixed = np.round(ring * 16).astype(np.int32)
        cv2.fillPoly(torn, [fixed], 1.0, cv2.LINE_AA, 4)
    return torn.astype(np.float64)


def paint(body: Body) -> tuple[Array, Array]:
    """Return a fish's (HEIGHT, WIDTH, 3) sRGB texture, 0 to 1, and relief in mm."""
    skin = coat_of(body.spec.skin)
    painter = Painter(skin, body, body.spec.seed)
    texture = np.empty((HEIGHT, WIDTH, 3))
    texture[:] = np.array(skin.fin)
    texture[: painter.rows] = painter.body_colours()
    spotted = bool(skin.spots) and skin.halo is None and not skin.white_edges

    def fill(box: Array, patch_colour: Colour, spots: int, *, pad: int = 12) -> None:
        u0, v0, u1, v1 = box
        left, right = int(u0 * WIDTH) - pad, int(u1 * WIDTH) + pad
        top, bottom = int(v0 * HEIGHT) - pad, int(v1 * HEIGHT) + pad
        left = max(left, 0)
        shape = (bottom - top, right - left)
        patch = _fin_patch(painter.rng, shape, patch_colour, spots)
        if skin.white_edges and box is PALE_FIN_BOX:
            edge = (np.arange(shape[0]) < 40)[:, None] * np.ones(shape)
            patch = mix(patch, np.array([0.9, 0.88, 0.84]), edge)
        texture[top:bottom, left:right] = patch

    fill(CAUDAL_BOX, skin.fin, 45 if spotted else 0)
    fill(FIN_BOX, skin.fin, 30 if spotted else 0)
    fill(PALE_FIN_BOX, skin.pale_fin, 0)
    u0, v0, u1, v1 = EYE_BOX
    left, right, top, bottom = (
        int(u0 * WIDTH),
        int(u1 * WIDTH),
        int(v0 * HEIGHT),
        int(v1 * HEIGHT),
    )
    texture[top:bottom, left:right] = _eye_patch(
        painter.rng, (bottom - top, right - left), skin.eye
    )
    return np.clip(texture, 0.0, 1.0), painter.relief_mm()
