"""Surfaces on which the fish lie: colour maps and how they shine."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import cv2
import numpy as np

from sample_images.generator.noise import Array, blur, fractal, mix, smooth

WET_ROUGHNESS = 0.10
SIZE_MM = (1500.0, 1300.0)  # the board's plane, centred on the scene's origin


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Board:
    """sRGB colour map (rows, columns, 3) over SIZE_MM and surface parameters."""

    colours: Array
    roughness: float
    specular: float = 0.4
    metallic: float = 0.0
    drops: int = 0
    stain_depth: float = 0.78
    wetness: Array | None = None
    relief_mm: Array | None = None

    @property
    def roughness_map(self) -> Array:
        """Roughness over the board; a film of water is smooth."""
        if self.wetness is None:
            return np.full((2, 2), self.roughness)
        return self.roughness + (WET_ROUGHNESS - self.roughness) * self.wetness


@dataclass(frozen=True, slots=True, kw_only=True)
class Rim:
    """The walls of a tray."""

    height_mm: float
    size_mm: tuple[float, float]
    colour: tuple[float, float, float]


RIMS = {
    "blue-tray": Rim(height_mm=35.0, size_mm=(600.0, 420.0), colour=(0.11, 0.28, 0.55)),
    "white-tray": Rim(
        height_mm=30.0, size_mm=(640.0, 450.0), colour=(0.88, 0.88, 0.87)
    ),
    "grey-tray": Rim(height_mm=40.0, size_mm=(640.0, 450.0), colour=(0.44, 0.45, 0.47)),
    "turquoise-tray": Rim(
        height_mm=45.0, size_mm=(660.0, 470.0), colour=(0.18, 0.54, 0.55)
    ),
    "slotted-crate": Rim(
        height_mm=50.0, size_mm=(680.0, 480.0), colour=(0.16, 0.165, 0.17)
    ),
}


def _scratches(
    rng: np.random.Generator, image: Array, count: int, strength: float
) -> Array:
    """Return the image with fine straight knife scratches."""
    mask = np.zeros(image.shape[:2], dtype=np.float32)
    rows, columns = image.shape[:2]
    for _ in range(count):
        start = rng.uniform([0, 0], [columns, rows])
        angle = rng.normal(0.3, 0.5)
        length = rng.exponential(0.06 * columns)
        stop = start + length * np.array([np.cos(angle), np.sin(angle)])
        cv2.line(
            mask,
            (int(start[0]), int(start[1])),
            (int(stop[0]), int(stop[1])),
            float(rng.uniform(0.2, 1)),
            1,
            cv2.LINE_AA,
        )
    return image * (1 + strength * mask[..., None])


def _plain(
    rng: np.random.Generator,
    shape: tuple[int, int],
    colour: tuple[float, ...],
    blotch: float,
) -> Array:
    """Return an even surface with stains and grain."""
    tone = 1 + blotch * fractal(rng, shape, (5, 6), 5)
    tone += 0.4 * blotch * smooth(rng, shape, (shape[0] / 3, shape[1] / 3))
    image: Array = np.array(colour) * tone[..., None]
    return image


def _wood(rng: np.random.Generator, shape: tuple[int, int], dark: float) -> Array:
    """Return planks with grain along x."""
    rows, columns = shape
    warp = 4 * fractal(rng, shape, (9, 1.5), 3)
    line = np.arange(rows)[:, None] / rows * 150 + warp
    table = rng.standard_normal(4096)
    grain = np.interp(line * 3 % 4095, np.arange(4096), table)
    fibres = smooth(rng, shape, (rows / 2, columns / 160))
    plank = (np.arange(rows)[:, None] * 9 // rows).astype(int)
    tint = 1 + 0.10 * rng.standard_normal(16)[plank]
    seam = np.abs((np.arange(rows)[:, None] * 9 / rows) % 1 - 0.5) > 0.492
    base = np.array([0.66, 0.49, 0.32]) * dark
    tone = tint * (1 + 0.10 * grain + 0.06 * fibres) * np.where(seam, 0.35, 1.0)
    image: Array = base * tone[..., None]
    return image


def wood(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a light, dry wooden table."""
    return Board(colours=_wood(rng, shape, 1.0), roughness=0.55, specular=0.3)


def dark_wood(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return dark stained planks."""
    return Board(colours=_wood(rng, shape, 0.5), roughness=0.4)


def cutting_board(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a worn white plastic cutting board."""
    image = _plain(rng, shape, (0.86, 0.85, 0.81), 0.012)
    return Board(
        colours=_scratches(rng, image, 900, -0.10), roughness=0.35, stain_depth=0.93
    )


def green_board(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a green plastic board."""
    image = _plain(rng, shape, (0.16, 0.45, 0.27), 0.03)
    return Board(colours=_scratches(rng, image, 900, 0.22), roughness=0.3, drops=700)


def blue_tray(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return the floor of a blue fish tray with its rim."""
    image = _plain(rng, shape, (0.12, 0.30, 0.58), 0.03)
    return Board(
        colours=_scratches(rng, image, 400, 0.2),
        roughness=0.22,
        specular=0.5,
        drops=900,
    )


def blue_board(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a flat blue plastic board."""
    image = _plain(rng, shape, (0.17, 0.38, 0.66), 0.025)
    return Board(colours=_scratches(rng, image, 600, 0.2), roughness=0.3, drops=700)


def steel(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a brushed stainless table."""
    brushed = smooth(rng, shape, (shape[0] / 1.5, shape[1] / 250))
    tone = 1 + 0.07 * brushed + 0.03 * fractal(rng, shape, (4, 5), 4)
    image = np.array([0.66, 0.67, 0.68]) * tone[..., None]
    image = _scratches(rng, image, 500, 0.2)
    return Board(
        colours=image, roughness=0.38, metallic=0.85, drops=900, stain_depth=0.92
    )


def wet_dark(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return wet dark grey plastic with beads of water."""
    image = _plain(rng, shape, (0.15, 0.155, 0.165), 0.06)
    return Board(colours=image, roughness=0.14, specular=0.5, drops=2600)


def black_liner(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return black pond liner with faint creases."""
    image = _plain(rng, shape, (0.085, 0.085, 0.09), 0.10)
    return Board(colours=image, roughness=0.35)


def white_tray(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a glossy white tray with its rim."""
    image = _plain(rng, shape, (0.88, 0.88, 0.87), 0.008)
    return Board(
        colours=image,
        roughness=0.2,
        stain_depth=0.95,
        drops=600,
    )


def concrete(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a rough grey slab."""
    tone = 1 + 0.07 * fractal(rng, shape, (8, 9), 7)
    speck = smooth(rng, shape, (shape[0] / 2, shape[1] / 2))
    tone = tone + 0.05 * speck - 0.25 * (speck > 2.4)
    return Board(
        colours=np.array([0.52, 0.51, 0.48]) * tone[..., None],
        roughness=0.8,
        specular=0.2,
    )


def bamboo(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a bamboo cutting board of narrow strips."""
    rows, columns = shape
    strip = (np.arange(rows)[:, None] * 70 // rows).astype(int)
    tint = 1 + 0.07 * rng.standard_normal(128)[strip]
    fibres = smooth(rng, shape, (rows / 2, columns / 120))
    tone = tint * (1 + 0.05 * fibres)
    return Board(colours=np.array([0.80, 0.66, 0.44]) * tone[..., None], roughness=0.4)


def slate(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a dark slate slab with cleavage lines."""
    layers = fractal(rng, shape, (14, 3), 6)
    tone = 1 + 0.10 * layers + 0.05 * smooth(rng, shape, (shape[0] / 3, shape[1] / 3))
    image = np.array([0.21, 0.23, 0.25]) * tone[..., None]
    return Board(colours=image, roughness=0.45, drops=900)


def yellow_board(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a yellow plastic board."""
    image = _plain(rng, shape, (0.85, 0.70, 0.22), 0.02)
    return Board(colours=_scratches(rng, image, 800, -0.12), roughness=0.3, drops=500)


def grey_tray(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a grey crate floor with its rim."""
    image = _plain(rng, shape, (0.47, 0.48, 0.50), 0.03)
    return Board(
        colours=_scratches(rng, image, 500, 0.15),
        roughness=0.3,
        drops=700,
    )


def tiles(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return cream tiles of 100 mm with grey joints."""
    rows, columns = shape
    texel_mm = SIZE_MM[0] / columns
    y = np.arange(rows)[:, None] * texel_mm
    x = np.arange(columns)[None, :] * texel_mm
    joint = (y % 100 < 4) | (x % 100 < 4)
    table = rng.standard_normal((64, 64))
    tint = table[(y // 100).astype(int) % 64, (x // 100).astype(int) % 64]
    tone = (1 + 0.02 * tint) * np.where(joint, 0.62, 1.0)
    tone = tone * (1 + 0.015 * fractal(rng, shape, (20, 24), 4))
    image = np.array([0.82, 0.77, 0.67]) * tone[..., None]
    return Board(colours=image, roughness=0.18, specular=0.5, drops=500)


def _flecks(
    rng: np.random.Generator,
    image: Array,
    count: int,
    colour: tuple[float, float, float],
    size_mm: float,
) -> Array:
    """Return the image with angular flecks of one colour."""
    rows, columns = image.shape[:2]
    texel_mm = SIZE_MM[0] / columns
    mask = np.zeros((rows, columns), dtype=np.float32)
    for x, y in rng.uniform([0, 0], [columns, rows], (count, 2)):
        reach = size_mm / texel_mm * float(rng.lognormal(0, 0.4))
        turn = np.sort(rng.uniform(0, 2 * np.pi, 5))
        ring = np.column_stack([np.cos(turn), np.sin(turn)]) * reach + [x, y]
        fixed = np.round(ring * 16).astype(np.int32)
        cv2.fillPoly(mask, [fixed], float(rng.uniform(0.5, 1)), cv2.LINE_AA, 4)
    return mix(image, np.array(colour), mask.astype(np.float64))


def _shape_mm(shape: tuple[int, int]) -> tuple[Array, Array]:
    """Return columns' x and rows' y in mm from the top left, ready to broadcast."""
    texel_mm = SIZE_MM[0] / shape[1]
    x: Array = np.arange(shape[1], dtype=np.float64)[None, :] * texel_mm
    y: Array = np.arange(shape[0], dtype=np.float64)[:, None] * texel_mm
    return x, y


def granite(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a polished grey and black speckled worktop."""
    image = _plain(rng, shape, (0.36, 0.35, 0.36), 0.05)
    image = _flecks(rng, image, 26000, (0.12, 0.12, 0.13), 1.5)
    image = _flecks(rng, image, 16000, (0.62, 0.58, 0.55), 1.3)
    return Board(colours=image, roughness=0.16, specular=0.5, drops=400)


def decking(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return weathered deck boards with grooves along them."""
    _, y = _shape_mm(shape)
    groove = np.abs((y % 8.0) - 4.0) > 3.2
    seam = (y % 140.0) < 6.0
    tint = 1 + 0.08 * rng.standard_normal(16)[(y // 140.0).astype(int)]
    fibres = smooth(rng, shape, (shape[0] / 2, shape[1] / 90))
    tone = tint * (1 + 0.09 * fibres) * np.where(groove, 0.66, 1.0)
    tone = tone * np.where(seam, 0.15, 1.0) * (1 + 0.06 * fractal(rng, shape, (6, 5)))
    image = np.array([0.53, 0.48, 0.42]) * tone[..., None]
    relief = np.broadcast_to(np.where(groove, -0.5, 0.0), shape)
    return Board(
        colours=image,
        roughness=0.7,
        specular=0.2,
        relief_mm=blur(relief.astype(np.float64), 1.2),
    )


def turquoise_tray(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return the floor of a turquoise crate with drain holes."""
    image = _plain(rng, shape, (0.20, 0.58, 0.58), 0.03)
    image = _scratches(rng, image, 500, 0.16)
    x, y = _shape_mm(shape)
    hole = np.hypot((x % 55.0) - 27.5, (y % 55.0) - 27.5) < 3.0
    return Board(
        colours=np.where(hole[..., None], 0.06, image), roughness=0.28, drops=600
    )


def slotted_crate(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return the slotted floor of a dark grey crate."""
    image = _plain(rng, shape, (0.17, 0.175, 0.18), 0.05)
    x, y = _shape_mm(shape)
    slot = (np.abs((y % 24.0) - 12.0) < 2.2) & (np.abs((x % 60.0) - 30.0) < 22.0)
    rib = np.abs((y % 24.0) - 12.0) > 10.5
    image = image * np.where(rib, 1.25, 1.0)[..., None]
    return Board(
        colours=np.where(slot[..., None], 0.03, image), roughness=0.3, drops=900
    )


def rubber_mat(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a black rubber mat with round studs."""
    x, y = _shape_mm(shape)
    odd = ((y // 16.0) % 2) * 8.0
    off = np.hypot(((x + odd) % 16.0) - 8.0, (y % 16.0) - 8.0)
    stud = np.clip((5.2 - off) / 0.8, 0, 1)
    image = _plain(rng, shape, (0.10, 0.10, 0.105), 0.08)
    dust = np.clip(fractal(rng, shape, (9, 10), 5) * 0.25, 0, 0.4)
    image = mix(
        image * (1 + 0.25 * stud)[..., None], np.array([0.33, 0.31, 0.28]), dust
    )
    return Board(colours=image, roughness=0.5, relief_mm=0.6 * stud, drops=0)


def tarpaulin(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return an olive woven tarpaulin with creases."""
    x, y = _shape_mm(shape)
    weave = 0.05 * np.sin(x * 2 * np.pi / 3.0) * np.sin(y * 2 * np.pi / 3.0)
    creases = fractal(rng, shape, (5, 6), 4)
    ridge = np.exp(-((creases / 0.05) ** 2))
    tone = 1 + weave + 0.10 * ridge + 0.05 * smooth(rng, shape, (12, 14))
    image = np.array([0.34, 0.37, 0.22]) * tone[..., None]
    relief = blur(2.2 * creases, 3)
    return Board(colours=image, roughness=0.45, specular=0.4, relief_mm=relief)


def chipboard(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return pressed chips of wood."""
    image = _plain(rng, shape, (0.70, 0.55, 0.37), 0.04)
    for colour in ((0.80, 0.66, 0.46), (0.58, 0.42, 0.26), (0.74, 0.60, 0.42)):
        image = _flecks(rng, image, 9000, colour, 4.5)
    return Board(colours=image, roughness=0.6, specular=0.25)


def red_board(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a worn red plastic cutting board."""
    image = _plain(rng, shape, (0.60, 0.15, 0.13), 0.03)
    return Board(colours=_scratches(rng, image, 900, 0.25), roughness=0.32, drops=500)


def laminate(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return a pale grey laminate table with fine flecks."""
    image = _plain(rng, shape, (0.74, 0.75, 0.76), 0.012)
    image = _flecks(rng, image, 20000, (0.55, 0.56, 0.58), 0.8)
    image = _flecks(rng, image, 9000, (0.86, 0.86, 0.85), 0.9)
    return Board(colours=image, roughness=0.3, stain_depth=0.93, drops=300)


def terracotta(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return unglazed reddish floor tiles."""
    x, y = _shape_mm(shape)
    joint = (x % 165.0 < 7.0) | (y % 165.0 < 7.0)
    tint = rng.standard_normal((32, 32))[(y // 165).astype(int), (x // 165).astype(int)]
    tone = 1 + 0.06 * tint + 0.06 * fractal(rng, shape, (9, 10), 6)
    image = np.array([0.62, 0.36, 0.26]) * tone[..., None]
    image = np.where(joint[..., None], np.array([0.55, 0.52, 0.48]), image)
    return Board(colours=image, roughness=0.65, specular=0.25)


BOARDS: dict[str, Callable[[np.random.Generator, tuple[int, int]], Board]] = {
    "wood": wood,
    "dark-wood": dark_wood,
    "cutting-board": cutting_board,
    "green-board": green_board,
    "blue-tray": blue_tray,
    "blue-board": blue_board,
    "steel": steel,
    "wet-dark": wet_dark,
    "black-liner": black_liner,
    "white-tray": white_tray,
    "concrete": concrete,
    "bamboo": bamboo,
    "slate": slate,
    "yellow-board": yellow_board,
    "grey-tray": grey_tray,
    "tiles": tiles,
    "granite": granite,
    "decking": decking,
    "turquoise-tray": turquoise_tray,
    "slotted-crate": slotted_crate,
    "rubber-mat": rubber_mat,
    "tarpaulin": tarpaulin,
    "chipboard": chipboard,
    "red-board": red_board,
    "laminate": laminate,
    "terracotta": terracotta,
}


def wet(rng: np.random.Generator, board: Board, stains: Array) -> Board:
    """Return the board dark and smooth where ``stains`` (rows, columns) are wet."""
    darker = mix(board.colours, board.colours * board.stain_depth, stains)
    relief = _drops(rng, stains, board.drops) if board.drops else None
    wetness = stains.astype(np.float64)
    if relief is not None:
        wetness = np.maximum(wetness, np.minimum(relief * 4, 1))
    if board.relief_mm is not None:
        relief = board.relief_mm if relief is None else board.relief_mm + relief
    return replace(
        board, colours=np.clip(darker, 0.0, 1.0), wetness=wetness, relief_mm=relief
    )


def _drops(rng: np.random.Generator, stains: Array, count: int) -> Array:
    """Return the relief of beads of water, denser beside the fish."""
    rows, columns = stains.shape
    texel_mm = SIZE_MM[0] / columns
    relief = np.zeros((rows, columns))
    radii = np.minimum(rng.lognormal(0.45, 0.5, count), 5.0) / texel_mm
    places = rng.uniform([0, 0], [columns, rows], (count, 2))
    for (x, y), radius in zip(places, radii, strict=True):
        left, right = max(int(x - radius) - 1, 0), min(int(x + radius) + 2, columns)
        top, bottom = max(int(y - radius) - 1, 0), min(int(y + radius) + 2, rows)
        if right <= left or bottom <= top:
            continue
        dy, dx = np.mgrid[top:bottom, left:right]
        off = ((dx - x) ** 2 + (dy - y) ** 2) / radius**2
        cap = np.sqrt(np.clip(1 - off, 0, 1)) * radius * texel_mm * 0.35
        relief[top:bottom, left:right] = np.maximum(relief[top:bottom, left:right], cap)
    return relief
