"""Boards and tub floors in plain colours, for the sets that judge."""

from collections.abc import Callable

import numpy as np

from sample_images.generator.boards import BOARDS, SIZE_MM, Board
from sample_images.generator.noise import Array, fractal, mix, smooth

Make = Callable[[np.random.Generator, tuple[int, int]], Board]


def _scuffs(rng: np.random.Generator, shape: tuple[int, int]) -> Array:
    """Return the sum of long faint wear marks, about -1 to 1."""
    return 0.6 * smooth(rng, shape, (shape[0] / 2, 30)) + smooth(rng, shape, (9, 10))


def _plastic(colour: tuple[float, float, float], wear: float, drops: int) -> Make:
    """Return the maker of a plastic board of one colour."""

    def make(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
        tone = 1 + wear * (_scuffs(rng, shape) + fractal(rng, shape, (7, 8), 5))
        image = np.array(colour) * tone[..., None]
        return Board(colours=image, roughness=0.28, specular=0.5, drops=drops)

    return make


def _steel(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return ground stainless steel with grease marks."""
    ground = smooth(rng, shape, (shape[0] / 1.3, shape[1] / 400))
    tone = 1 + 0.05 * ground + 0.04 * fractal(rng, shape, (5, 6), 5)
    image = np.array([0.60, 0.61, 0.63]) * tone[..., None]
    return Board(
        colours=image, roughness=0.33, metallic=0.9, drops=700, stain_depth=0.93
    )


def _oak(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return oiled oak planks of 110 mm."""
    y = np.arange(shape[0])[:, None] / shape[0] * SIZE_MM[1]
    x = np.arange(shape[1])[None, :] / shape[1]
    plank = (y // 110).astype(int)
    sway = 9 * fractal(rng, shape, (6, 2), 3)
    ring = np.sin((y + sway + 17 * plank) * 0.9 + 3 * x)
    pores = smooth(rng, shape, (shape[0] / 2, shape[1] / 60))
    tint = 1 + 0.09 * rng.standard_normal(32)[plank]
    tone = tint * (1 + 0.06 * ring + 0.06 * pores) * np.where(y % 110 < 1.5, 0.4, 1.0)
    return Board(colours=np.array([0.58, 0.42, 0.25]) * tone[..., None], roughness=0.45)


def _gravelly(rng: np.random.Generator, shape: tuple[int, int]) -> Board:
    """Return the grey floor of a tub with sediment in patches."""
    patches = np.clip(0.5 * fractal(rng, shape, (9, 10), 5), 0, 0.6)
    tone = 1 + 0.03 * _scuffs(rng, shape)
    image = np.array([0.50, 0.52, 0.53]) * tone[..., None]
    image = mix(image, np.array([0.34, 0.30, 0.22]), patches)
    return Board(colours=image, roughness=0.5)


PLAIN: dict[str, Make] = {
    "bright-white": _plastic((0.92, 0.92, 0.91), 0.008, 300),
    "deep-blue": _plastic((0.10, 0.27, 0.60), 0.03, 700),
    "leaf-green": _plastic((0.20, 0.48, 0.22), 0.03, 700),
    "ground-steel": _steel,
    "oak": _oak,
    "matt-black": _plastic((0.075, 0.077, 0.08), 0.06, 500),
    "tub-white": _plastic((0.86, 0.87, 0.86), 0.015, 0),
    "tub-blue": _plastic((0.15, 0.36, 0.60), 0.03, 0),
    "tub-black": _plastic((0.10, 0.105, 0.11), 0.06, 0),
    "tub-grey": _gravelly,
}


def board_of(name: str) -> Make:
    """Return a board's maker by its name, of these or of ``boards.py``."""
    return PLAIN[name] if name in PLAIN else BOARDS[name]
