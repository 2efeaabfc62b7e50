"""What fish are laid on: boards, steel, cloth, plastic, stone, grass, water.

Every painter returns (rows, columns, 3) float32 sRGB fractions at about one
pixel per millimetre. ``HELD_OUT_SURFACES`` are drawn by the checks alone.
"""

from collections.abc import Callable

import cv2
import numpy as np

from sample_images.training.noise import Floats, NoiseBank

Painter = Callable[[tuple[int, int], np.random.Generator, NoiseBank], Floats]


_BOARDS = (
    (0.94, 0.94, 0.92),
    (0.94, 0.94, 0.92),
    (0.16, 0.36, 0.68),
    (0.22, 0.55, 0.80),
    (0.16, 0.52, 0.34),
    (0.45, 0.68, 0.50),
    (0.72, 0.74, 0.75),
    (0.07, 0.07, 0.08),
)


def _tone(rng: np.random.Generator) -> Floats:
    """Return a colour as things about a fish farm have: mostly dull, some bright."""
    if rng.random() < 0.7:
        grey = rng.uniform(0.04, 0.97)
        tone = grey + rng.normal(0, 0.05, 3)
    else:
        hsv = np.array(
            [[[rng.uniform(0, 360), rng.uniform(0.3, 0.95), rng.uniform(0.15, 0.95)]]],
            np.float32,
        )
        tone = cv2.cvtColor(hsv, cv2.COLOR_HSV2RGB)[0, 0]
    return np.clip(tone, 0.02, 0.99).astype(np.float32)


def _filled(shape: tuple[int, int], tone: Floats) -> Floats:
    return np.broadcast_to(tone, (*shape, 3)).astype(np.float32)


def plain(shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Paint plastic, painted board or paper."""
    tone = _tone(rng)
    if rng.random() < 0.3:  # boards and trays as they are sold
        board = np.array(_BOARDS[int(rng.integers(len(_BOARDS)))], np.float32)
        tone = np.clip(board * rng.uniform(0.75, 1.1), 0.02, 0.99).astype(np.float32)
    image = _filled(shape, tone)
    cloud = noise.cut(shape, rng, 0.9) * rng.uniform(0, 0.06)
    grain = noise.cut(shape, rng, 0.0) * rng.uniform(0, 0.025)
    return image * (1 + cloud + grain)[..., None]


def wood(shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Paint planks with grain and joints."""
    base = np.array([0.66, 0.5, 0.33], np.float32) * np.float32(rng.uniform(0.35, 1.35))
    base = base + rng.normal(0, 0.05, 3).astype(np.float32)
    if rng.random() < 0.3:
        base = np.full(3, rng.uniform(0.2, 0.7), np.float32) + base * 0.2
    long = rng.uniform(8, 30)
    grain = noise.cut(shape, rng, 0.5, (long, rng.uniform(0.7, 2.0)))
    rings = np.sin(noise.cut(shape, rng, 0.8, (8, 1)) * rng.uniform(3, 12))
    image = (
        base
        * (1 + rng.uniform(0.04, 0.18) * grain + rng.uniform(0, 0.1) * rings)[..., None]
    )
    if rng.random() < 0.7:
        pitch = rng.uniform(40, 180)
        start = rng.uniform(0, pitch)
        for y in np.arange(start, shape[0], pitch):
            row = int(y)
            image[row : row + int(rng.integers(1, 4))] *= rng.uniform(0.25, 0.7)
            image[row:] *= rng.uniform(0.9, 1.1)
    return _turned(image, shape, rng)


def _turned(image: Floats, shape: tuple[int, int], rng: np.random.Generator) -> Floats:
    """Return the pattern turned by any angle, its corners filled by reflection."""
    centre = (shape[1] / 2, shape[0] / 2)
    turn = cv2.getRotationMatrix2D(centre, rng.uniform(0, 360), rng.uniform(1.0, 1.4))
    turned = cv2.warpAffine(
        image, turn, shape[::-1], flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT
    )
    return np.asarray(turned, dtype=np.float32)


def steel(shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Paint a brushed metal table with blurred mirror light."""
    base = rng.uniform(0.3, 0.8) + rng.normal(0, 0.015, 3)
    brush = noise.cut(shape, rng, 0.1, (rng.uniform(10, 40), 1.0))
    sheen = noise.cut(shape, rng, 1.0, (rng.uniform(0.5, 3.0), 1.0))
    level = 1 + rng.uniform(0.02, 0.1) * brush + rng.uniform(0.05, 0.3) * sheen
    image = (base.astype(np.float32) * level[..., None]).astype(np.float32)
    return _turned(image, shape, rng)


def cloth(shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Paint woven cloth with folds, plain or with stripes."""
    rows, columns = np.indices(shape, dtype=np.float32)
    pitch = rng.uniform(1.5, 6.0)
    weave = np.sin(columns * 2 * np.pi / pitch) * np.sin(rows * 2 * np.pi / pitch)
    folds = noise.cut(shape, rng, 0.95, (rng.uniform(0.8, 4), 1.0))
    image = _filled(shape, _tone(rng)).copy()
    if rng.random() < 0.25:
        wide = rng.uniform(8, 60)
        stripe = np.sin(columns * 2 * np.pi / wide) > rng.uniform(-0.3, 0.6)
        image[stripe] = _tone(rng)
    wool = noise.cut(shape, rng, 0.1) * rng.uniform(0.0, 0.05)
    level = 1 + rng.uniform(0, 0.1) * weave + rng.uniform(0, 0.2) * folds + wool
    return _turned(image * level[..., None], shape, rng)


def stones(
    shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank
) -> Floats:
    """Paint gravel: cells of many tones, each shaded to its rim."""
    pitch = rng.uniform(4, 40)
    number = int(np.clip(shape[0] * shape[1] / pitch**2, 20, 2500))
    seeds = np.ones(shape, np.uint8)
    rows = rng.integers(0, shape[0], number)
    columns = rng.integers(0, shape[1], number)
    seeds[rows, columns] = 0
    distance, labels = cv2.distanceTransformWithLabels(
        seeds, cv2.DIST_L2, 5, labelType=cv2.DIST_LABEL_PIXEL
    )
    spread = rng.uniform(0.04, 0.3)
    tones = np.clip(_tone(rng) + rng.normal(0, spread, (number + 2, 1)), 0.03, 0.97)
    tones = tones + rng.normal(0, 0.03, (number + 2, 3))
    image = tones.astype(np.float32)[np.clip(labels, 0, number + 1)]
    rim = np.clip(1.15 - distance / pitch * rng.uniform(0.4, 1.6), 0.2, 1.2)
    rough = 1 + rng.uniform(0.03, 0.12) * noise.cut(shape, rng, 0.3)
    return np.asarray(image * (rim * rough)[..., None], dtype=np.float32)


def concrete(
    shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank
) -> Floats:
    """Paint concrete, stone, soil or rust: noise at all sizes, in two tones."""
    one, two = _tone(rng), _tone(rng)
    two = one + (two - one) * np.float32(rng.uniform(0.1, 0.7))
    field = noise.cut(shape, rng, rng.uniform(0.3, 1.0))
    mix = np.clip(0.5 + rng.uniform(0.15, 0.6) * field, 0, 1)[..., None]
    grain = 1 + rng.uniform(0.01, 0.14) * noise.cut(shape, rng, 0.0)
    return np.asarray((one * mix + two * (1 - mix)) * grain[..., None], np.float32)


def tiles(shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Paint tiles or slabs with joints, or a printed check."""
    image = _filled(shape, _tone(rng)).copy()
    pitch = rng.uniform(18, 160)
    joint = rng.uniform(0.8, 6)
    rows, columns = np.indices(shape, dtype=np.float32)
    cell = (rows // pitch).astype(int) * 37 + (columns // pitch).astype(int) * 91
    image *= (1 + rng.normal(0, rng.uniform(0, 0.12), 101))[cell % 101][..., None]
    gap = ((rows % pitch) < joint) | ((columns % pitch) < joint)
    image[gap] = _tone(rng)
    level = 1 + rng.uniform(0, 0.1) * noise.cut(shape, rng, rng.random())
    return _turned(image.astype(np.float32) * level[..., None], shape, rng)


def grass(shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Paint grass, straw or weed: many strokes."""
    dark = np.array([0.12, 0.2, 0.06]) * rng.uniform(0.5, 1.5)
    image = _filled(shape, dark.astype(np.float32)).copy()
    image *= (1 + 0.3 * noise.cut(shape, rng, 0.5))[..., None]
    straw = rng.random() < 0.3
    tone = np.array([0.7, 0.6, 0.3]) if straw else np.array([0.35, 0.55, 0.18])
    for _ in range(int(rng.integers(200, 700))):
        x, y = rng.uniform(0, shape[1]), rng.uniform(0, shape[0])
        angle, long = rng.uniform(0, 2 * np.pi), rng.uniform(8, 45)
        end = (int(x + long * np.cos(angle)), int(y + long * np.sin(angle)))
        shade = tuple(float(c) for c in tone * rng.uniform(0.4, 1.4))
        wide = int(rng.integers(1, 3))
        cv2.line(image, (int(x), int(y)), end, shade, wide, cv2.LINE_AA)
    return image


def wet(shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Paint a wet or iced surface: another one under blotches of mirror light."""
    below = (plain, concrete, wood, steel, tiles)[int(rng.integers(5))]
    image = below(shape, rng, noise)
    field = noise.cut(shape, rng, rng.uniform(0.5, 1.0))
    film = np.clip((field - rng.uniform(0, 1.6)) * rng.uniform(0.6, 3), 0, 1)
    light = np.float32(rng.uniform(0.5, 1.0))
    weight = (film * rng.uniform(0.1, 0.8))[..., None]
    return np.asarray(image + weight * (light - image), dtype=np.float32)


def speckled(
    shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank
) -> Floats:
    """Paint terrazzo or camouflage print: flat blobs of a few tones."""
    image = _filled(shape, _tone(rng)).copy()
    for _ in range(int(rng.integers(1, 4))):
        field = noise.cut(shape, rng, rng.uniform(0.3, 0.9))
        image[field > rng.uniform(0.4, 1.5)] = _tone(rng)
    return cv2.GaussianBlur(image, (0, 0), 0.7)


def rope_mat(
    shape: tuple[int, int], rng: np.random.Generator, noise: NoiseBank
) -> Floats:
    """Paint a ribbed rubber or bamboo mat."""
    rows, columns = np.indices(shape, dtype=np.float32)
    pitch = rng.uniform(4, 22)
    wobble = noise.cut(shape, rng, 0.9) * rng.uniform(0, 2)
    rib = np.abs(np.sin((columns + wobble) * np.pi / pitch))
    knots = 1 + 0.1 * np.sign(np.sin(rows * np.pi / rng.uniform(15, 80)))
    image = _filled(shape, _tone(rng)) * ((0.4 + 0.7 * rib) * knots)[..., None]
    return _turned(image.astype(np.float32), shape, rng)


SURFACES: dict[str, tuple[float, Painter]] = {
    "plain": (3.0, plain),
    "wood": (1.6, wood),
    "steel": (1.2, steel),
    "cloth": (1.2, cloth),
    "stones": (1.0, stones),
    "concrete": (1.6, concrete),
    "tiles": (0.9, tiles),
    "grass": (0.5, grass),
    "wet": (1.6, wet),
    "speckled": (0.5, speckled),
    "rope-mat-held": (0.0, rope_mat),
}
HELD_OUT_SURFACES = ("rope-mat-held",)


def draw_surface(
    shape: tuple[int, int],
    rng: np.random.Generator,
    noise: NoiseBank,
    names: tuple[str, ...] = (),
) -> Floats:
    """Return a random surface; ``names`` restricts the choice."""
    chosen = names or tuple(name for name, (rate, _) in SURFACES.items() if rate > 0)
    rates = np.array([max(SURFACES[name][0], 0.1) for name in chosen])
    name = chosen[int(rng.choice(len(chosen), p=rates / rates.sum()))]
    image = SURFACES[name][1](shape, rng, noise)
    if rng.random() < 0.25:  # two surfaces meet: a table's edge, a board on grass
        other = chosen[int(rng.integers(len(chosen)))]
        second = SURFACES[other][1](shape, rng, noise)
        angle, shift = rng.uniform(0, 2 * np.pi), rng.uniform(-0.35, 0.35)
        rows, columns = np.indices(shape, dtype=np.float32)
        side = (columns / shape[1] - 0.5) * np.cos(angle)
        side = side + (rows / shape[0] - 0.5) * np.sin(angle) - shift
        edge = np.clip(side * shape[0] + 0.5, 0, 1)[..., None]
        shade = 1 - 0.5 * np.exp(-np.clip(side, 0, None) * shape[0] / 6)[..., None]
        image = image * (1 - edge) + second * edge * shade
    return np.clip(image, 0.005, 1.0).astype(np.float32)
