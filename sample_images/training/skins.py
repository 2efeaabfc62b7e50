"""Skins painted on a body: counter-shading, spots, bars, fins, eye, gill cover.

All colours are sRGB fractions; light and shadow come later, where the fish lies.
"""

from dataclasses import dataclass

import cv2
import numpy as np

from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.shapes import Raster

# Back, flank, belly: hue groups seen on food fish. HELD_OUT_SKINS are never
# drawn in training; the checks draw them.
PALETTES: dict[str, tuple[tuple[int, int, int], ...]] = {
    "silver": ((70, 82, 92), (178, 184, 186), (226, 228, 226)),
    "rainbow": ((62, 70, 58), (150, 150, 140), (214, 210, 204)),
    "dark": ((28, 30, 28), (62, 62, 56), (120, 116, 108)),
    "black": ((16, 17, 18), (30, 31, 32), (58, 58, 58)),
    "brown": ((66, 54, 36), (142, 120, 80), (206, 186, 140)),
    "char": ((52, 62, 66), (112, 112, 104), (216, 150, 96)),
    "golden": ((176, 132, 48), (222, 178, 84), (238, 212, 150)),
    "albino": ((232, 206, 170), (240, 218, 190), (246, 232, 214)),
    "green": ((58, 74, 46), (128, 134, 92), (196, 192, 160)),
    "blue": ((30, 52, 84), (112, 138, 156), (222, 226, 228)),
    "red": ((176, 62, 40), (212, 110, 84), (232, 186, 168)),
    "scarlet": ((190, 48, 40), (206, 132, 118), (222, 206, 196)),
    "steel": ((40, 50, 66), (150, 152, 152), (214, 206, 186)),
    "bronze": ((74, 62, 34), (168, 140, 84), (212, 196, 150)),
    "grey": ((84, 84, 82), (126, 124, 120), (190, 186, 180)),
    "pale": ((150, 150, 142), (196, 194, 186), (230, 228, 222)),
    "slate": ((52, 56, 54), (110, 112, 100), (214, 210, 198)),
    "mud": ((70, 64, 46), (128, 120, 92), (220, 214, 196)),
    "chrome": ((96, 108, 118), (206, 210, 212), (242, 243, 243)),
    "olive-held": ((88, 88, 40), (150, 146, 82), (214, 206, 150)),
    "copper-held": ((108, 62, 40), (168, 110, 76), (214, 176, 140)),
}
_CATFISH = ("slate", "mud", "mud", "grey", "dark", "pale", "albino")
HELD_OUT_SKINS = ("olive-held", "copper-held")
_DRAWN = tuple(name for name in PALETTES if name not in HELD_OUT_SKINS)


@dataclass(frozen=True, slots=True, eq=False)
class Coat:
    """Colour (rows, columns, 3) and opacity of a level fish."""

    colour: Floats
    alpha: Floats
    gloss: float
    tail_opacity: float = 1.0


def smooth_step(x: Floats, low: float, high: float) -> Floats:
    """Return 0 below ``low``, 1 above ``high``, a smooth rise between."""
    t = np.clip((x - low) / max(high - low, 1e-6), 0, 1)
    return (t * t * (3 - 2 * t)).astype(np.float32)


def paint(
    raster: Raster,
    rng: np.random.Generator,
    noise: NoiseBank,
    palettes: tuple[str, ...] = _DRAWN,
    colours: Floats | None = None,
) -> Coat:
    """Return a random skin for the body, or ``colours`` with fins put to it."""
    shape = raster.alpha.shape
    name = palettes[int(rng.integers(len(palettes)))]
    jitter = rng.normal(0, 0.035, 3) + rng.normal(0, 0.06)
    if "catfish" in raster.body.name:
        name = _CATFISH[int(rng.integers(len(_CATFISH)))]
    back, flank, belly = (
        np.clip(np.array(c) / 255.0 + jitter + rng.normal(0, 0.02, 3), 0.02, 0.98)
        for c in PALETTES[name]
    )
    lies = rng.random()  # turned to show more of the belly, or of the back
    if lies < 0.16:
        raster_v = raster.v + (rng.uniform(0.3, 1.6) if lies < 0.1 else -rng.random())
    else:
        raster_v = raster.v
    v = raster_v + 0.18 * noise.cut(shape, rng, 0.9) * rng.uniform(0.1, 0.6)
    low, high = rng.uniform(-0.75, -0.1), rng.uniform(0.25, 0.9)
    to_flank = smooth_step(v, low - rng.uniform(0.1, 0.5), low + 0.3)
    to_belly = smooth_step(v, high - rng.uniform(0.15, 0.6), high + 0.15)
    if colours is not None:
        colour = colours.copy()
        tones = (colour.mean(axis=(0, 1)) * 0.7, colour.mean(axis=(0, 1)))
        alpha, tail = fins(colour, raster, rng, noise, tones)
        gloss = float(rng.uniform(0.0, 0.6))
        return Coat(colour=colour, alpha=alpha, gloss=gloss, tail_opacity=tail)
    colour = back * (1 - to_flank)[..., None] + flank * to_flank[..., None]
    colour = colour * (1 - to_belly)[..., None] + belly * to_belly[..., None]
    colour = colour.astype(np.float32)
    scaleless = "catfish" in raster.body.name or rng.random() < 0.08
    mottle = noise.cut(shape, rng, rng.uniform(0.1, 0.8))
    strong = rng.uniform(0.05, 0.35) if scaleless else rng.uniform(0.01, 0.09)
    colour *= (1 + strong * mottle)[..., None]
    _pattern(colour, raster, rng, noise, name)
    if not scaleless and rng.random() < 0.5:
        _scales(colour, raster, rng)
    if rng.random() < (0.15 if scaleless else 0.45):
        _shimmer(colour, raster, rng, noise)
    alpha, tail = fins(colour, raster, rng, noise, (back, flank))
    if rng.random() < 0.5:
        _pectoral(colour, raster, rng)
    _head(colour, raster, rng)
    if scaleless and rng.random() < 0.8:
        draw_barbels(colour, alpha, raster, rng)
    return Coat(
        colour=np.clip(colour, 0.01, 1.0).astype(np.float32),
        alpha=alpha,
        gloss=float(rng.uniform(0.0, 0.9)),
        tail_opacity=tail,
    )


def _pattern(
    colour: Floats,
    raster: Raster,
    rng: np.random.Generator,
    noise: NoiseBank,
    name: str,
) -> None:
    """Add what runs over the flank: stripe, bars, waves, spots."""
    u, v = raster.u, raster.v
    shape = raster.alpha.shape
    if rng.random() < (0.75 if name == "rainbow" else 0.2):
        centre, width = rng.uniform(-0.2, 0.2), rng.uniform(0.12, 0.35)
        stripe = np.exp(-(((v - centre) / width) ** 2)) * smooth_step(u, 0.05, 0.3)
        tone = np.array([0.82, 0.42, 0.44]) if rng.random() < 0.7 else rng.random(3)
        weight = (stripe * rng.uniform(0.15, 0.6))[..., None].astype(np.float32)
        colour += weight * (tone.astype(np.float32) - colour)
    if rng.random() < 0.22:  # parr marks, perch bars, grouper bands
        number = rng.uniform(4, 13)
        wobble = 0.25 * noise.cut(shape, rng, 0.8)
        wave = np.sin(2 * np.pi * (u * number + wobble) + rng.uniform(0, 6))
        bars = smooth_step(wave.astype(np.float32), rng.uniform(-0.2, 0.6), 0.9)
        bars *= np.exp(-(((v - rng.uniform(-0.4, 0.1)) / rng.uniform(0.4, 1.2)) ** 2))
        factor = (
            rng.uniform(0.35, 0.85) if rng.random() < 0.8 else rng.uniform(1.1, 1.4)
        )
        colour *= (1 + (factor - 1) * bars)[..., None]
    if rng.random() < 0.12:  # wavy back
        field = noise.cut(shape, rng, 0.55, (1.0, 2.5))
        waves = smooth_step(field, 0.0, 0.5) * smooth_step(-v, 0.0, 0.5)
        colour *= (1 - 0.6 * waves)[..., None]
    if rng.random() < (0.8 if name in {"rainbow", "brown", "char", "golden"} else 0.35):
        spots(colour, raster, rng)


def spots(colour: Floats, raster: Raster, rng: np.random.Generator) -> None:
    """Draw dark, pale or haloed spots over back and flank."""
    height, width = raster.alpha.shape
    count = int(rng.integers(15, 220))
    deep = rng.uniform(-1.1, -0.5), rng.uniform(0.0, 0.9)
    mask: Floats = np.zeros((height, width), np.float32)
    halo = np.zeros((height, width), np.float32)
    size = raster.scale * rng.uniform(0.002, 0.011)
    columns = rng.uniform(0.1, 1.05, count) * raster.scale + raster.origin[0]
    for x, spread in zip(columns, rng.beta(1.3, 1.8, count), strict=True):
        column = int(np.clip(x, 0, width - 1))
        v_wanted = deep[0] + (deep[1] - deep[0]) * spread
        y = float(np.interp(v_wanted, raster.v[:, column], np.arange(height)))
        radius = max(size * rng.uniform(0.5, 1.6), 0.35)
        axes = (int(radius * 8), int(radius * rng.uniform(0.7, 1.3) * 8))
        centre = (int(x * 8), int(y * 8))
        cv2.ellipse(mask, centre, axes, 0, 0, 360, 1.0, -1, cv2.LINE_AA, 3)
        wide = (axes[0] * 2, axes[1] * 2)
        cv2.ellipse(halo, centre, wide, 0, 0, 360, 1.0, -1, cv2.LINE_AA, 3)
    if raster.scale < 200:
        mask = cv2.GaussianBlur(mask, (0, 0), 0.5)
    style = rng.random()
    if style < 0.3:
        light = (halo * rng.uniform(0.1, 0.4))[..., None]
        colour += light * (0.85 - colour)
    tone = np.array([0.06, 0.06, 0.06]) if style < 0.8 else rng.uniform(0.4, 0.95, 3)
    if rng.random() < 0.12:
        tone = np.array([0.75, 0.2, 0.12])
    weight = (mask * rng.uniform(0.35, 0.95))[..., None]
    colour += weight * (tone.astype(np.float32) - colour)


def _scales(colour: Floats, raster: Raster, rng: np.random.Generator) -> None:
    pitch = raster.scale * rng.uniform(0.012, 0.035)
    if pitch < 2.5:
        return
    rows, columns = np.indices(raster.alpha.shape, dtype=np.float32)
    net = np.sin((columns + rows) * np.pi / pitch) * np.sin(
        (columns - rows) * np.pi / pitch
    )
    behind_head = smooth_step(raster.u, 0.18, 0.25) * raster.trunk
    colour *= (1 + rng.uniform(0.03, 0.16) * net * behind_head)[..., None]


def _shimmer(
    colour: Floats, raster: Raster, rng: np.random.Generator, noise: NoiseBank
) -> None:
    """Add broken mirror light, lost scales and rainbow hues to the flank."""
    shape = raster.alpha.shape
    flank = np.exp(-(((raster.v - rng.uniform(-0.1, 0.5)) / 0.6) ** 2))
    streak = noise.cut(shape, rng, rng.uniform(0.1, 0.7), (rng.uniform(1, 14), 1.0))
    bright = np.clip((streak - rng.uniform(0.0, 1.2)) * rng.uniform(0.5, 2), 0, 1)
    weight = (bright * flank * rng.uniform(0.2, 0.9))[..., None].astype(np.float32)
    colour += weight * (np.float32(rng.uniform(0.7, 1.0)) - colour)
    if rng.random() < 0.4:
        bare = noise.cut(shape, rng, 0.8) > rng.uniform(0.6, 1.6)
        colour[bare] *= rng.uniform(0.5, 1.3, 3).astype(np.float32)
    if rng.random() < 0.4:
        for channel in range(3):
            hue = noise.cut(shape, rng, 0.9) * rng.uniform(0, 0.08)
            colour[..., channel] *= 1 + hue


def _pectoral(colour: Floats, raster: Raster, rng: np.random.Generator) -> None:
    """Draw the breast fin laid on the flank, with its rays."""
    height, width = raster.alpha.shape
    x = raster.origin[0] + rng.uniform(0.22, 0.32) * raster.scale
    column = int(np.clip(x, 0, width - 1))
    y = float(np.interp(rng.uniform(0.1, 0.7), raster.v[:, column], np.arange(height)))
    long, wide = raster.scale * rng.uniform(0.05, 0.13), raster.scale * 0.03
    turn = np.deg2rad(rng.uniform(-25, 45))
    layer = colour.copy()
    tone = colour[int(np.clip(y, 0, height - 1)), column] * rng.uniform(0.5, 1.4)
    for ray in np.linspace(-1, 1, 9):
        angle = turn + ray * wide / long
        end = (int(x + long * np.cos(angle)), int(y + long * np.sin(angle)))
        shade = tuple(float(c) for c in np.clip(tone * rng.uniform(0.7, 1.2), 0, 1))
        thick = max(1, int(raster.scale * 0.008))
        cv2.line(layer, (int(x), int(y)), end, shade, thick, cv2.LINE_AA)
    mix = np.float32(rng.uniform(0.4, 1.0))
    colour += mix * (layer - colour)


def fins(
    colour: Floats,
    raster: Raster,
    rng: np.random.Generator,
    noise: NoiseBank,
    tones: tuple[Floats, Floats],
) -> tuple[Floats, float]:
    """Paint fins and tail; return the opacity, and that of the tail's end."""
    fin = 1 - raster.trunk
    mix = rng.uniform(0, 1)
    tone = tones[0] * mix + tones[1] * (1 - mix)
    if rng.random() < 0.3:
        warm = np.array([0.75, 0.4, 0.22]) if rng.random() < 0.6 else rng.random(3)
        tone = tone * 0.5 + warm * 0.5
    tone = np.clip(tone * rng.uniform(0.6, 1.3), 0.03, 0.95).astype(np.float32)
    colour += (fin * rng.uniform(0.6, 1.0))[..., None] * (tone - colour)
    shape = raster.alpha.shape
    rows, columns = np.indices(shape, dtype=np.float32)
    wrist_x = raster.origin[0] + raster.tail_base_x * raster.scale
    behind = columns - (wrist_x - 0.1 * raster.scale)
    angle = np.arctan2(rows - raster.origin[1], np.maximum(behind, 1))
    rays = np.sin(angle * rng.uniform(30, 80)).astype(np.float32)
    rays += 0.5 * noise.cut(shape, rng, 0.4, (3.0, 1.0))
    colour *= (1 + rng.uniform(0.03, 0.2) * rays * fin)[..., None]
    thin = rng.uniform(0.0, 0.7) if rng.random() < 0.6 else 0.0
    tail_thin = rng.uniform(0.0, 0.7) if rng.random() < 0.55 else 0.0
    behind_base = np.clip(
        (raster.u - raster.tail_base_x) / max(1 - raster.tail_base_x, 0.04), 0, 1.2
    )
    tail = smooth_step(raster.u, raster.tail_base_x, raster.tail_base_x + 0.03)
    clear = thin * (1 - tail) + tail * tail_thin * (0.45 + 0.55 * behind_base)
    clear = np.clip(clear * (1 + 0.3 * np.sign(rays) * tail), 0, 0.75) * fin
    alpha: Floats = raster.alpha * (1 - clear)
    if rng.random() < 0.25:  # frayed: gaps between the rays towards the edge
        torn = noise.cut(shape, rng, 0.5, (4.0, 1.0)) + rays
        gap = smooth_step(torn, rng.uniform(0.6, 1.4), 1.8) * tail * fin
        alpha = alpha * (1 - rng.uniform(0.4, 1.0) * gap * (behind_base > 0.45))
    return alpha.astype(np.float32), float(1 - min(tail_thin, 0.7))


def _head(colour: Floats, raster: Raster, rng: np.random.Generator) -> None:
    """Paint eye, gill cover and mouth."""
    height, width = raster.alpha.shape
    scale, origin = raster.scale, raster.origin

    def place(u: float, v: float) -> tuple[float, float]:
        x = origin[0] + u * scale
        column = int(np.clip(x, 0, width - 1))
        return x, float(np.interp(v, raster.v[:, column], np.arange(height)))

    gill_u = rng.uniform(0.17, 0.26)
    x, y = place(gill_u - 0.07, rng.uniform(-0.1, 0.2))
    axes = (int(scale * 0.075 * 8), int(scale * rng.uniform(0.05, 0.09) * 8))
    arc: Floats = np.zeros((height, width), np.float32)
    thick = max(1, int(scale * rng.uniform(0.003, 0.012)))
    centre = (int(x * 8), int(y * 8))
    cv2.ellipse(arc, centre, axes, 0, -75, 75, 1.0, thick, cv2.LINE_AA, 3)
    arc = cv2.GaussianBlur(arc, (0, 0), max(0.6, scale * 0.004))
    colour *= (1 - rng.uniform(0.0, 0.6) * arc)[..., None]
    if rng.random() < 0.5:  # cheek of another sheen
        cheek = np.exp(
            -(((raster.u - gill_u + 0.06) / 0.05) ** 2) - ((raster.v - 0.1) / 0.5) ** 2
        )
        sheen = rng.uniform(0.4, 0.95, 3).astype(np.float32)
        colour += (rng.uniform(0.1, 0.4) * cheek)[..., None] * (sheen - colour)
    eye_x, eye_y = place(rng.uniform(0.055, 0.1), rng.uniform(-0.45, -0.1))
    large = rng.random() < 0.15
    radius = scale * (rng.uniform(0.03, 0.055) if large else rng.uniform(0.01, 0.028))
    at = (int(eye_x * 8), int(eye_y * 8))
    ring = tuple(float(c) for c in np.clip(rng.normal(0.72, 0.15, 3), 0.1, 1))
    pupil = float(rng.uniform(0.02, 0.12)) if rng.random() < 0.85 else 0.7
    layer = np.ascontiguousarray(colour)
    cv2.circle(layer, at, int(radius * 8), ring, -1, cv2.LINE_AA, 3)
    inner = int(radius * rng.uniform(0.5, 0.75) * 8)
    cv2.circle(layer, at, inner, (pupil, pupil, pupil), -1, cv2.LINE_AA, 3)
    if rng.random() < 0.6 and radius > 2:
        glint = (at[0] - inner // 3, at[1] - inner // 3)
        cv2.circle(layer, glint, max(inner // 4, 4), (1, 1, 1), -1, cv2.LINE_AA, 3)
    if rng.random() < 0.6:
        mouth = place(rng.uniform(0.05, 0.1), rng.uniform(0.2, 0.5))
        start = (int((origin[0] + 2) * 8), int((origin[1] + 1) * 8))
        end = (int(mouth[0] * 8), int(mouth[1] * 8))
        shade = tuple(float(c) for c in colour.mean(axis=(0, 1)) * 0.4)
        cv2.line(layer, start, end, shade, 1, cv2.LINE_AA, 3)
    colour[:] = layer


def draw_barbels(
    colour: Floats, alpha: Floats, raster: Raster, rng: np.random.Generator
) -> None:
    """Draw thin feelers from the mouth; they are no part of the outline."""
    scale, origin = raster.scale, raster.origin
    tone = tuple(float(c) for c in colour.mean(axis=(0, 1)) * rng.uniform(0.2, 0.8))
    for _ in range(int(rng.integers(2, 6))):
        start = np.array(
            [origin[0] + rng.uniform(0.01, 0.05) * scale, origin[1] + 0.01 * scale]
        )
        turn = rng.uniform(0.4, 1.3) * rng.choice([-1, 1, 1])
        path = [start]
        for _ in range(6):
            step = np.array([np.cos(turn), np.sin(turn)]) * scale * 0.02
            path.append(path[-1] + step)
            turn += rng.normal(0, 0.35)
        line = np.round(np.array(path)).astype(np.int32)
        thick = max(1, int(scale * 0.004))
        for layer, ink in ((colour, tone), (alpha, 1.0)):
            cv2.polylines(
                layer,
                [line],
                isClosed=False,
                color=ink,
                thickness=thick,
                lineType=cv2.LINE_AA,
            )
