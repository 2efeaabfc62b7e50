"""Things that are no fish: hands, markers, rulers, knives, leaves, labels, nets.

Every painter returns ``(colour, alpha)`` of one small level picture, which the
scene turns and lays down, over or under the fish.
"""

import cv2
import numpy as np

from sample_images.training.animals import cephalopod, creature, crustacean
from sample_images.training.bits import Painter, Thing, shaded, sheet_of
from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.surfaces import draw_surface

_FONT = cv2.FONT_HERSHEY_SIMPLEX


def _write(
    image: Floats, word: str, at: tuple[int, int], size: float, ink: float
) -> None:
    """Write on the picture; OpenCV 5 writes on bytes only."""
    mask = np.zeros(image.shape[:2], np.uint8)
    cv2.putText(mask, word, at, _FONT, size, 255, 1, cv2.LINE_AA)
    image += (mask.astype(np.float32) / 255)[..., None] * (np.float32(ink) - image)


def _text(image: Floats, rng: np.random.Generator, lines: int) -> None:
    """Write lines of meaningless letters and figures."""
    height, width = image.shape[:2]
    ink = float(rng.uniform(0, 0.3)) if image.mean() > 0.5 else 0.9
    letters = np.array(list("ABCDEFGHKLMNRSTUacdehimnorstu0123456789 ,.-"))
    for row in range(lines):
        size = rng.uniform(0.25, 0.7)
        word = "".join(rng.choice(letters, int(rng.integers(4, 24))))
        at = (
            int(rng.uniform(0.03, 0.3) * width),
            int((row + 1) * height / (lines + 1)),
        )
        _write(image, word, at, size, ink)


def marker_picture(rng: np.random.Generator, side: int) -> Floats:
    """Return a printed square marker of the project's dictionary, or a lookalike."""
    if rng.random() < 0.75:
        book = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
        cells = cv2.aruco.generateImageMarker(book, int(rng.integers(50)), 6)
    else:
        cells = (rng.random((8, 8)) > 0.5).astype(np.uint8) * 255
        cells[0] = cells[-1] = 0
        cells[:, 0] = cells[:, -1] = 0
    large = cv2.resize(cells, (side, side), interpolation=cv2.INTER_NEAREST)
    black, white = rng.uniform(0.02, 0.15), rng.uniform(0.8, 1.0)
    level = black + (white - black) * large.astype(np.float32) / 255
    return np.repeat(level[..., None], 3, axis=2).astype(np.float32)


def calibration_sheet(
    rng: np.random.Generator, noise: NoiseBank, scale: float = 1.0
) -> Thing:
    """Paint the project's sheet: white, a marker in each corner, rules, text."""
    width, height = (297, 210) if rng.random() < 0.8 else (420, 297)
    width, height = int(width * scale), int(height * scale)
    sheet = sheet_of(height, width, rng.uniform(0.82, 0.99))
    side, edge = int(40 * scale), int(15 * scale)
    for left in (edge, width - edge - side):
        for top in (edge, height - edge - side):
            sheet[top : top + side, left : left + side] = marker_picture(rng, side)
    if rng.random() < 0.7:
        y = int(height * rng.uniform(0.1, 0.9))
        start, end = int(width * 0.3), int(width * 0.7)
        cv2.line(sheet, (start, y), (end, y), (0.1, 0.1, 0.1), 1, cv2.LINE_AA)
        for x in np.linspace(start, end, 11):
            cv2.line(sheet, (int(x), y - 3), (int(x), y + 3), (0.1, 0.1, 0.1), 1)
    if rng.random() < 0.6:
        middle = sheet[edge : edge + side, edge + side + 8 : width - edge - side - 8]
        if middle.shape[1] > 30:
            part = np.ascontiguousarray(middle)
            _text(part, rng, 3)
            middle[:] = part
    sheet *= (1 + 0.015 * noise.cut((height, width), rng, 0.9))[..., None]
    return sheet, np.ones((height, width), np.float32)


def card(rng: np.random.Generator, _: NoiseBank) -> Thing:
    """Paint one marker on its card."""
    side = int(rng.uniform(30, 90))
    edge = int(side * rng.uniform(0.1, 0.35))
    full = side + 2 * edge
    sheet = sheet_of(full, full, rng.uniform(0.8, 1.0))
    sheet[edge : edge + side, edge : edge + side] = marker_picture(rng, side)
    return sheet, np.ones((full, full), np.float32)


def ruler(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a ruler, tape or scale bar with ticks and figures."""
    width, height = int(rng.uniform(120, 420)), int(rng.uniform(14, 42))
    tones = ((0.95, 0.95, 0.92), (0.9, 0.8, 0.2), (0.7, 0.7, 0.7), (0.75, 0.6, 0.4))
    tone = np.array(tones[int(rng.integers(4))], np.float32) * rng.uniform(0.7, 1.05)
    dark = rng.random() < 0.2
    if dark:
        tone = np.full(3, 0.08, np.float32)
    ink = (0.9,) * 3 if dark else (0.08,) * 3
    sheet = sheet_of(height, width, tone)
    pitch = rng.uniform(2.0, 12)
    for index, x in enumerate(np.arange(4, width - 4, pitch)):
        long = 0.5 if index % 10 == 0 else 0.35 if index % 5 == 0 else 0.2
        cv2.line(sheet, (int(x), 0), (int(x), int(height * long)), ink, 1)
        if index % 10 == 0 and pitch * 10 > 16:
            at = (int(x) - 4, int(height * 0.9))
            _write(sheet, str(index // 10), at, 0.3, ink[0])
    sheet *= (1 + 0.04 * noise.cut((height, width), rng, 0.8))[..., None]
    return sheet, np.ones((height, width), np.float32)


def label(rng: np.random.Generator, _: NoiseBank) -> Thing:
    """Paint a paper label or note with print and bars."""
    width, height = int(rng.uniform(40, 150)), int(rng.uniform(30, 110))
    tone = 0.95 if rng.random() < 0.7 else rng.random(3).astype(np.float32)
    sheet = sheet_of(height, width, tone)
    _text(sheet, rng, int(rng.integers(1, 6)))
    if rng.random() < 0.5:
        x, top = int(width * 0.1), int(height * rng.uniform(0.1, 0.6))
        while x < width * 0.6:
            wide = int(rng.integers(1, 4))
            sheet[top : top + height // 3, x : x + wide] = 0.05
            x += wide + int(rng.integers(1, 4))
    return sheet, np.ones((height, width), np.float32)


def hand(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a hand or glove: palm, wrist, fingers apart or together."""
    height, width = 240, 300
    alpha = np.zeros((height, width), np.float32)
    creases = np.zeros((height, width), np.float32)
    palm = (120, 120)
    cv2.ellipse(alpha, palm, (52, 44), 0, 0, 360, 1.0, -1, cv2.LINE_AA)
    cv2.rectangle(alpha, (0, 88), (110, 152), 1.0, -1)
    fan = rng.uniform(0.0, 0.22)
    for finger in range(5):
        if finger and rng.random() < 0.15:
            continue
        spread = (finger - 2.5) * fan
        long = (60, 78, 92, 84, 66)[finger] * rng.uniform(0.5, 1.1)
        start = (145, 82 + finger * 20) if finger else (105, 82)
        angle = spread if finger else -rng.uniform(0.4, 1.2)
        end = (
            int(start[0] + long * np.cos(angle)),
            int(start[1] + long * np.sin(angle)),
        )
        wide = int(rng.uniform(15, 21))
        cv2.line(alpha, start, end, 1.0, wide, cv2.LINE_AA)
        cv2.line(creases, start, end, 1.0, 2, cv2.LINE_AA)
    tones = ((0.86, 0.66, 0.54), (0.62, 0.43, 0.31), (0.38, 0.25, 0.18))
    tone = np.array(tones[int(rng.integers(3))]) * rng.uniform(0.8, 1.15)
    if rng.random() < 0.25:  # glove
        tone = rng.uniform(0.05, 0.95, 3)
    colour = shaded(alpha, tone.astype(np.float32), rng)
    near = cv2.GaussianBlur(creases, (0, 0), 6)
    colour *= (0.85 + 0.5 * near)[..., None]
    colour *= (1 + 0.06 * noise.cut((height, width), rng, 0.5))[..., None]
    scale = rng.uniform(0.55, 1.0)
    if rng.random() < 0.3:  # only finger tips reach in
        colour, alpha = colour[:, 140:], alpha[:, 140:]
    size = (int(alpha.shape[1] * scale), int(height * scale))
    small = cv2.resize(colour, size, interpolation=cv2.INTER_AREA)
    return small, cv2.resize(alpha, size, interpolation=cv2.INTER_AREA)


def knife(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a knife, spoon, scissors' half or rod."""
    width, height = int(rng.uniform(120, 330)), int(rng.uniform(14, 44))
    alpha = np.zeros((height, width), np.float32)
    blade = int(width * rng.uniform(0.5, 0.7))
    tip = height * rng.uniform(0.2, 0.9)
    points = [(0, tip), (blade * 0.25, 1), (blade, 1), (blade, height - 2)]
    points += [(blade * 0.3, height - 2)]
    cv2.fillPoly(alpha, [np.array(points, np.int32)], 1.0, cv2.LINE_AA)
    grip = (blade, int(height * 0.2)), (width - 3, int(height * 0.85))
    cv2.rectangle(alpha, *grip, 1.0, -1)
    steel = 0.45 + 0.25 * noise.cut((height, width), rng, 0.8, (6, 1))
    colour = np.repeat(np.clip(steel, 0.1, 1)[..., None], 3, axis=2)
    handle = rng.uniform(0.03, 0.5, 3).astype(np.float32)
    colour[:, blade:] = shaded(alpha, handle, rng)[:, blade:]
    return colour.astype(np.float32), alpha


def leaf(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a leaf: fish-shaped, but no fish."""
    width = int(rng.uniform(40, 260))
    height = max(10, int(width * rng.uniform(0.15, 0.6)))
    x = np.linspace(0, 1, 50)
    half = (x ** rng.uniform(0.4, 1.1)) * ((1 - x) ** rng.uniform(0.4, 1.1))
    half = half / half.max() * height * 0.47
    bend = np.sin(np.pi * x) * rng.uniform(-0.15, 0.15) * height
    top = np.column_stack([x * (width - 1), height / 2 + bend - half])
    low = np.column_stack([x * (width - 1), height / 2 + bend + half])[::-1]
    alpha = np.zeros((height, width), np.float32)
    outline = np.vstack([top, low]).astype(np.int32)
    cv2.fillPoly(alpha, [outline], 1.0, cv2.LINE_AA)
    greens = ((0.2, 0.4, 0.12), (0.55, 0.45, 0.15), (0.4, 0.26, 0.14), (0.5, 0.6, 0.3))
    tone = np.array(greens[int(rng.integers(4))]) * rng.uniform(0.6, 1.5)
    colour = sheet_of(height, width, np.clip(tone, 0, 1).astype(np.float32))
    colour *= (1 + 0.15 * noise.cut((height, width), rng, 0.5))[..., None]
    rib = tuple(float(c) for c in np.clip(tone * 1.4, 0, 1))
    middle = (0, height // 2), (width, height // 2)
    cv2.line(colour, *middle, rib, max(1, height // 30), cv2.LINE_AA)
    for start in np.arange(0.1, 0.9, rng.uniform(0.06, 0.15)) * width:
        for side in (-1, 1):
            end = (int(start + height * 0.4), int(height / 2 * (1 + side)))
            cv2.line(colour, (int(start), height // 2), end, rib, 1, cv2.LINE_AA)
    return colour, alpha


def blob(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a lump: stone, sponge, bottle, bait, squid-like or shoe-like thing."""
    size = int(rng.uniform(30, 230))
    height = max(12, int(size * rng.uniform(0.25, 1.0)))
    angle = np.linspace(0, 2 * np.pi, 80, endpoint=False)
    radius = np.ones(80)
    for wave in range(1, int(rng.integers(2, 8))):
        rough = rng.uniform(0, 0.35) / wave
        radius += rough * np.sin(wave * angle + rng.uniform(0, 6))
    radius = np.clip(radius / radius.max(), 0.15, 1) * 0.48
    points = np.column_stack(
        [(0.5 + radius * np.cos(angle)) * size, (0.5 + radius * np.sin(angle)) * height]
    )
    alpha = np.zeros((height, size), np.float32)
    cv2.fillPoly(alpha, [points.astype(np.int32)], 1.0, cv2.LINE_AA)
    if rng.random() < 0.3:  # arms
        for _ in range(int(rng.integers(3, 10))):
            start = np.array([size * rng.uniform(0.3, 0.7), height * 0.5])
            end = start + rng.normal(0, size * 0.3, 2)
            middle = (start + end) / 2 + rng.normal(0, size * 0.1, 2)
            arm = np.array([start, middle, end]).astype(np.int32)
            wide = int(rng.integers(1, max(3, size // 20)))
            cv2.polylines(
                alpha,
                [arm],
                isClosed=False,
                color=1.0,
                thickness=wide,
                lineType=cv2.LINE_AA,
            )
    tone = rng.uniform(0.03, 0.95) + rng.normal(0, 0.12, 3)
    colour = shaded(alpha, np.clip(tone, 0.02, 1).astype(np.float32), rng)
    rough_level = 1 + rng.uniform(0, 0.3) * noise.cut((height, size), rng, rng.random())
    return (colour * rough_level[..., None]).astype(np.float32), alpha


def stick(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a stick, pen, hose, handle or rope."""
    width, height = int(rng.uniform(60, 420)), int(rng.uniform(4, 30))
    alpha = np.zeros((height + 4, width), np.float32)
    cv2.rectangle(alpha, (1, 2), (width - 2, height), 1.0, -1)
    tone = rng.uniform(0.03, 0.9, 3).astype(np.float32)
    rows = np.linspace(-1, 1, height + 4, dtype=np.float32)
    level = 0.35 + 0.75 * np.sqrt(np.clip(1 - rows**2, 0, 1))
    colour = tone * level[:, None, None] * np.ones((1, width, 1), np.float32)
    twist = 1 + 0.15 * noise.cut((height + 4, width), rng, 0.4, (4, 1))
    return np.clip(colour * twist[..., None], 0, 1).astype(np.float32), alpha


def coin(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a coin, lid, drain or plate."""
    size = int(rng.uniform(14, 140))
    alpha = np.zeros((size, size), np.float32)
    middle = (size // 2, size // 2)
    cv2.circle(alpha, middle, size // 2 - 1, 1.0, -1, cv2.LINE_AA)
    tone = np.clip(rng.uniform(0.1, 0.95) + rng.normal(0, 0.08, 3), 0, 1)
    colour = sheet_of(size, size, tone.astype(np.float32))
    for part in rng.uniform(0.3, 0.95, int(rng.integers(1, 5))):
        ring = tuple(float(c) for c in np.clip(tone * rng.uniform(0.6, 1.3), 0, 1))
        cv2.circle(colour, middle, int(size / 2 * part), ring, 1, cv2.LINE_AA)
    colour *= (1 + 0.1 * noise.cut((size, size), rng, 0.7))[..., None]
    return colour, alpha


def patch(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a rectangle of some stuff: a cloth, tray edge, board, film, paper."""
    width, height = int(rng.uniform(50, 260)), int(rng.uniform(40, 200))
    colour = draw_surface((height, width), rng, noise)
    return colour, np.ones((height, width), np.float32)


def spindle(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a long smooth thing: bottle, float, gourd, bread, fillet-like lump."""
    width = int(rng.uniform(60, 320))
    height = max(12, int(width * rng.uniform(0.12, 0.4)))
    x = np.linspace(0, 1, 60)
    half = (x * (1 - x) * 4) ** rng.uniform(0.15, 0.8)
    if rng.random() < 0.4:  # a neck
        half *= np.interp(x, [0, 0.6, 0.75, 1], [1, 1, *rng.uniform(0.3, 0.9, 2)])
    half = half / half.max() * height * 0.47
    bend = np.sin(np.pi * x) * rng.uniform(-0.3, 0.3) * height
    margin = int(abs(bend).max()) + 2
    middle = height / 2 + margin + bend
    outline = np.vstack(
        [
            np.column_stack([x * (width - 1), middle - half]),
            np.column_stack([x * (width - 1), middle + half])[::-1],
        ]
    )
    shape = (height + 2 * margin, width)
    alpha = np.zeros(shape, np.float32)
    cv2.fillPoly(alpha, [outline.astype(np.int32)], 1.0, cv2.LINE_AA)
    tone = np.clip(rng.uniform(0.05, 0.9) + rng.normal(0, 0.15, 3), 0.02, 0.98)
    colour = shaded(alpha, tone.astype(np.float32), rng)
    if rng.random() < 0.4:
        bars = np.sin(np.arange(width) * 2 * np.pi / rng.uniform(8, 90)) > 0.3
        colour[:, bars] *= np.float32(rng.uniform(0.4, 1.5))
    colour *= (1 + rng.uniform(0, 0.2) * noise.cut(shape, rng, 0.4))[..., None]
    return np.clip(colour, 0.01, 1).astype(np.float32), alpha


def disc(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a round bright thing: a moon, a lamp, a ball, an egg, a scale's plate."""
    size = int(rng.uniform(16, 280))
    y, x = np.indices((size, size), dtype=np.float32) / (size - 1) * 2 - 1
    far = np.hypot(x, y * rng.uniform(1.0, 1.25))
    soft = rng.uniform(0.01, 0.08)
    alpha = np.clip((0.96 - far) / soft, 0, 1)
    if rng.random() < 0.2:  # a moon that is not full
        bite = np.hypot(x - rng.uniform(0.4, 1.2), y - rng.normal(0, 0.3))
        alpha = alpha * np.clip((bite - rng.uniform(0.6, 1.0)) / soft, 0, 1)
    tone = np.clip(rng.uniform(0.5, 1.0) + rng.normal(0, 0.05, 3), 0, 1)
    level = 1 - rng.uniform(0, 0.6) * np.clip(far, 0, 1) ** rng.uniform(1.5, 5)
    level = level * (
        1 + rng.uniform(0.0, 0.3) * noise.cut((size, size), rng, rng.uniform(0.5, 1))
    )
    colour = tone * np.clip(level, 0.05, 1.4)[..., None]
    for _ in range(int(rng.integers(0, 8))):  # craters, rings, reflections
        at = (int(rng.uniform(0, size)), int(rng.uniform(0, size)))
        wide = max(1, int(size * rng.uniform(0.01, 0.12)))
        shade = tuple(float(c) for c in np.clip(tone * rng.uniform(0.7, 1.2), 0, 1))
        cv2.circle(colour, at, wide, shade, int(rng.choice([-1, 1])), cv2.LINE_AA)
    if rng.random() < 0.3:  # veins, as on a leaf, a placenta or the ground of an eye
        _veins(colour, tone, rng)
    return np.clip(colour, 0, 1).astype(np.float32), alpha.astype(np.float32)


def _veins(colour: Floats, tone: Floats, rng: np.random.Generator) -> None:
    """Draw dark lines that branch from one place."""
    size = len(colour)
    start = rng.uniform(0.15, 0.85, 2) * size
    shade = tuple(float(c) for c in np.clip(tone * rng.uniform(0.3, 0.9), 0, 1))
    for _ in range(int(rng.integers(4, 14))):
        heading, place = rng.uniform(0, 2 * np.pi), start
        thick = max(1.0, size * rng.uniform(0.006, 0.03))
        for _ in range(int(rng.integers(4, 12))):
            heading += rng.normal(0, 0.4)
            step = np.array([np.cos(heading), np.sin(heading)]) * size * 0.07
            ends = [(int(x), int(y)) for x, y in (place, place + step)]
            cv2.line(colour, ends[0], ends[1], shade, max(1, round(thick)), cv2.LINE_AA)
            place, thick = place + step, 0.85 * thick


THINGS: dict[str, tuple[float, Painter]] = {
    "sheet": (1.3, calibration_sheet),
    "card": (1.6, card),
    "ruler": (1.0, ruler),
    "label": (1.0, label),
    "hand": (1.4, hand),
    "knife": (0.6, knife),
    "leaf": (0.9, leaf),
    "blob": (1.0, blob),
    "creature": (0.7, creature),
    "cephalopod": (1.3, cephalopod),
    "crustacean": (0.9, crustacean),
    "patch": (0.7, patch),
    "spindle": (0.6, spindle),
    "stick": (0.7, stick),
    "coin": (0.5, coin),
    "disc": (0.5, disc),
}
OVER = ("label", "hand", "hand", "leaf", "card", "stick", "blob", "knife", "patch")
COVERS = ("label", "label", "patch", "hand", "card", "sheet", "blob")


def draw_thing(
    rng: np.random.Generator, noise: NoiseBank, names: tuple[str, ...] = ()
) -> Thing:
    """Return a random thing; ``names`` restricts the choice."""
    chosen = names or tuple(THINGS)
    rates = np.array([THINGS[name][0] for name in chosen])
    name = chosen[int(rng.choice(len(chosen), p=rates / rates.sum()))]
    colour, alpha = THINGS[name][1](rng, noise)
    return np.clip(colour, 0, 1).astype(np.float32), alpha.astype(np.float32)
