"""Skins of fish seen from above."""

import cv2
import numpy as np

from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.shapes import Raster
from sample_images.training.skins import PALETTES, Coat, fins, smooth_step, spots


def paint_back(
    raster: Raster,
    rng: np.random.Generator,
    noise: NoiseBank,
    colours: Floats | None = None,
) -> Coat:
    """Return the skin of a fish seen from above: mostly dark, paler at its sides."""
    shape = raster.alpha.shape
    names = ("dark", "black", "brown", "green", "steel", "rainbow", "grey", "golden")
    rates = (0.2, 0.12, 0.18, 0.18, 0.1, 0.12, 0.06, 0.04)
    back, flank, _ = PALETTES[names[int(rng.choice(len(names), p=rates))]]
    jitter = rng.normal(0, 0.04, 3) + rng.normal(0, 0.06)
    middle = np.clip(np.array(back) / 255 * rng.uniform(0.6, 1.3) + jitter, 0.02, 0.95)
    side = np.clip(np.array(flank) / 255 * rng.uniform(0.5, 1.1) + jitter, 0.02, 0.95)
    across = np.abs(raster.v) + 0.1 * noise.cut(shape, rng, 0.9)
    edge = smooth_step(across, rng.uniform(0.3, 0.8), 1.1)[..., None]
    if rng.random() < 0.15:  # lying on its back: the belly shows
        middle = rng.uniform(0.6, 0.95) + rng.normal(0, 0.04, 3)
        side = middle * rng.uniform(0.5, 1.0)
    colour = (middle + (side - middle) * edge * rng.uniform(0, 1)).astype(np.float32)
    if colours is not None:
        colour = colours.copy()
    mottle = noise.cut(shape, rng, rng.uniform(0.3, 0.8))
    colour *= (1 + rng.uniform(0.03, 0.25) * mottle)[..., None]
    if rng.random() < 0.5:
        spots(colour, raster, rng)
    _back_marks(colour, raster, rng)
    alpha, tail = fins(colour, raster, rng, noise, (middle, side))
    return Coat(
        colour=np.clip(colour, 0.01, 1.0).astype(np.float32),
        alpha=alpha,
        gloss=float(rng.uniform(0.0, 0.5)),
        tail_opacity=tail,
    )


def _back_marks(colour: Floats, raster: Raster, rng: np.random.Generator) -> None:
    """Draw the back fin's line and the eyes at the sides of the head."""
    rows = raster.alpha.shape[0]
    fin_line = np.exp(-((raster.v / 0.12) ** 2)) * smooth_step(raster.u, 0.35, 0.45)
    fin_line = fin_line * (raster.u < rng.uniform(0.55, 0.7))
    colour *= (1 - rng.uniform(-0.4, 0.6) * fin_line)[..., None]
    for sign in (-1, 1):  # the eyes stand out at the sides
        column = int(raster.origin[0] + rng.uniform(0.05, 0.09) * raster.scale)
        y = float(np.interp(0.8 * sign, raster.v[:, column], np.arange(rows)))
        size = max(1, int(raster.scale * rng.uniform(0.008, 0.015)))
        cv2.circle(colour, (column, int(y)), size, (0.03,) * 3, -1, cv2.LINE_AA)
