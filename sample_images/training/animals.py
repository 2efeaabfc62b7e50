"""Animals that are no fish: squid, octopus, prawns, crayfish and the like."""

import cv2
import numpy as np

from sample_images.training.bits import Thing, shaded
from sample_images.training.noise import Floats, NoiseBank

_SOFT_TONES = (
    (0.30, 0.17, 0.15),
    (0.62, 0.36, 0.30),
    (0.78, 0.68, 0.62),
    (0.86, 0.84, 0.82),
    (0.45, 0.42, 0.38),
    (0.20, 0.19, 0.20),
)
_SHELL_TONES = (
    (0.82, 0.42, 0.30),
    (0.66, 0.60, 0.52),
    (0.30, 0.24, 0.20),
    (0.35, 0.38, 0.36),
    (0.85, 0.72, 0.60),
    (0.22, 0.28, 0.38),
)


def _tone_of(
    tones: tuple[tuple[float, float, float], ...], rng: np.random.Generator
) -> Floats:
    tone = np.array(tones[int(rng.integers(len(tones)))]) * rng.uniform(0.6, 1.25)
    return np.clip(tone + rng.normal(0, 0.03, 3), 0.02, 0.97).astype(np.float32)


def _arm(
    alpha: Floats,
    start: tuple[float, float],
    heading: float,
    reach: float,
    wide: float,
    rng: np.random.Generator,
) -> None:
    """Draw a tapering arm that curls."""
    steps = 14
    curl = rng.normal(0, 0.14) + np.linspace(0, rng.normal(0, 0.25), steps)
    angle = heading + np.cumsum(curl)
    step = reach / steps
    x = start[0] + np.cumsum(np.cos(angle)) * step
    y = start[1] + np.cumsum(np.sin(angle)) * step
    last = start
    for index, point in enumerate(zip(x, y, strict=True)):
        thick = max(1, round(wide * (1 - 0.85 * index / steps)))
        ends = (int(last[0]), int(last[1])), (int(point[0]), int(point[1]))
        cv2.line(alpha, *ends, 1.0, thick, cv2.LINE_AA)
        last = (float(point[0]), float(point[1]))


def cephalopod(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a squid, cuttlefish or octopus: mantle, fins, head, arms."""
    mantle = rng.uniform(70, 200)
    wide = mantle * rng.choice([rng.uniform(0.16, 0.3), rng.uniform(0.3, 0.75)])
    reach = mantle * rng.uniform(0.3, 1.1)
    head = mantle * rng.uniform(0.12, 0.25)
    width = int(mantle + head + reach * 0.9) + 8
    height = int(max(wide * 2.0, reach * rng.uniform(0.6, 1.3))) + 8
    middle = height / 2
    alpha: Floats = np.zeros((height, width), np.float32)
    x = np.linspace(0, 1, 40)
    half = np.minimum(x / rng.uniform(0.2, 0.6), 1) ** rng.uniform(0.5, 1.0)
    half = half * (1 - rng.uniform(0, 0.35) * x**3) * wide / 2
    outline = np.vstack(
        [
            np.column_stack([4 + x * mantle, middle - half]),
            np.column_stack([4 + x * mantle, middle + half])[::-1],
        ]
    )
    fins: Floats = np.zeros_like(alpha)
    if rng.random() < 0.8:
        start, end = rng.uniform(0, 0.15), rng.uniform(0.3, 1.0)
        tip, out = rng.uniform(start, end), wide * rng.uniform(0.6, 1.0)
        for side in (-1, 1):
            fin = np.array(
                [
                    [4 + start * mantle, middle],
                    [4 + (start + tip) / 2 * mantle, middle + side * out * 0.8],
                    [4 + tip * mantle, middle + side * out],
                    [4 + (tip + end) / 2 * mantle, middle + side * out * 0.7],
                    [4 + end * mantle, middle],
                ]
            )
            cv2.fillPoly(fins, [fin.astype(np.int32)], 1.0, cv2.LINE_AA)
    cv2.fillPoly(alpha, [outline.astype(np.int32)], 1.0, cv2.LINE_AA)
    neck = 4 + mantle
    centre = (int(neck + head * 0.4), int(middle))
    axes = (int(head * 0.8), int(wide * rng.uniform(0.25, 0.45)))
    cv2.ellipse(alpha, centre, axes, 0, 0, 360, 1.0, -1, cv2.LINE_AA)
    if rng.random() < 0.92:
        fan = rng.uniform(0.15, 1.3)
        thick = max(1.5, wide * rng.uniform(0.08, 0.22))
        for arm in range(int(rng.integers(6, 11))):
            heading = rng.normal(0, 0.1) + fan * ((arm % 8) / 3.5 - 1)
            start_y = middle + axes[1] * ((arm % 8) / 4.5 - 0.8)
            long = reach * rng.uniform(0.5, 1.0)
            _arm(alpha, (neck + head * 0.7, start_y), heading, long, thick, rng)
    alpha = np.maximum(alpha, fins)
    tone = _tone_of(_SOFT_TONES, rng)
    colour = shaded(alpha, tone, rng)
    colour *= (1 + rng.uniform(0, 0.3) * noise.cut(alpha.shape, rng, 0.5))[..., None]
    if rng.random() < 0.6:  # chromatophores
        speck = noise.cut(alpha.shape, rng, rng.uniform(0.0, 0.4))
        colour[speck > rng.uniform(0.4, 1.6)] *= rng.uniform(0.3, 0.8)
    if rng.random() < 0.5:  # darker along the back
        rows = np.abs(np.arange(height) - middle)[:, None] / wide
        colour *= (1 - rng.uniform(0.2, 0.7) * np.exp(-((rows * 4) ** 2)))[..., None]
    for side in (-1, 1):
        eye = (centre[0], int(middle + side * axes[1] * 0.8))
        cv2.circle(colour, eye, max(1, int(head * 0.15)), (0.05,) * 3, -1, cv2.LINE_AA)
    solid = np.maximum(alpha * (fins < 0.5), fins * rng.uniform(0.6, 1.0))
    opacity = np.where(fins > 0.5, np.maximum(solid, 0.6), alpha)
    return np.clip(colour, 0.01, 1).astype(np.float32), opacity.astype(np.float32)


def crustacean(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint a prawn, shrimp or crayfish: segments, legs, feelers, fan, claws."""
    length = rng.uniform(60, 220)
    size = int(length * 1.7)
    alpha: Floats = np.zeros((size, size), np.float32)
    shade: Floats = np.ones((size, size), np.float32)
    count = 30
    along = np.linspace(0, 1, count)
    heading = rng.uniform(-1.8, 1.8) * np.clip(along - 0.4, 0, 1) * 1.6
    points = np.cumsum(np.column_stack([np.cos(heading), np.sin(heading)]), axis=0)
    points = points / count * length
    points += size / 2 - points.mean(axis=0)
    wide = length * rng.uniform(0.08, 0.15)
    profile = np.interp(along, [0, 0.12, 0.4, 0.95, 1], [0.35, 0.95, 1, 0.5, 0.35])
    for point, share in zip(points, profile, strict=True):
        centre = (int(point[0]), int(point[1]))
        cv2.circle(alpha, centre, max(2, int(wide * share)), 1.0, -1, cv2.LINE_AA)
    dark = rng.uniform(0.4, 0.9)
    for place in np.linspace(0.38, 0.95, int(rng.integers(5, 8))):  # joints
        index = int(place * (count - 1))
        normal = np.array([-np.sin(heading[index]), np.cos(heading[index])])
        ends = [points[index] + side * normal * wide for side in (-1, 1)]
        joint = [(int(end[0]), int(end[1])) for end in ends]
        thick = int(rng.integers(1, max(2, int(wide * 0.4)) + 1))
        cv2.line(shade, joint[0], joint[1], dark, thick, cv2.LINE_AA)
    for _ in range(int(rng.integers(6, 16))):  # legs
        index = int(rng.uniform(0.1, 0.7) * (count - 1))
        side = rng.choice([-1, 1]) * rng.uniform(0.9, 1.8)
        start = (float(points[index][0]), float(points[index][1]))
        _arm(alpha, start, side, length * rng.uniform(0.15, 0.4), 2.0, rng)
    head = (float(points[0][0]), float(points[0][1]))
    for _ in range(int(rng.integers(2, 5))):  # feelers
        _arm(alpha, head, np.pi + rng.normal(0, 0.7), length * 0.8, 1.5, rng)
    for spread in np.linspace(-0.6, 0.6, int(rng.integers(3, 6))):
        angle = np.rad2deg(heading[-1] + spread)
        away = heading[-1] + spread
        reach = length * 0.08
        centre = (
            int(points[-1][0] + reach * np.cos(away)),
            int(points[-1][1] + reach * np.sin(away)),
        )
        axes = (int(length * 0.09), int(length * 0.035) + 1)
        cv2.ellipse(alpha, centre, axes, angle, 0, 360, 1.0, -1, cv2.LINE_AA)
    if rng.random() < 0.35:
        for side in (-1, 1):
            away = np.pi + side * rng.uniform(0.2, 0.7)
            _arm(alpha, head, away, length * 0.4, wide * 0.5, rng)
    colour = shaded(alpha, _tone_of(_SHELL_TONES, rng), rng) * shade[..., None]
    colour *= (1 + rng.uniform(0, 0.25) * noise.cut((size, size), rng, 0.4))[..., None]
    eye = (int(points[1][0]), int(points[1][1]))
    cv2.circle(colour, eye, max(1, int(wide * 0.2)), (0.03,) * 3, -1, cv2.LINE_AA)
    opacity = alpha * (rng.uniform(0.6, 1.0) if rng.random() < 0.3 else 1.0)
    return np.clip(colour, 0.01, 1).astype(np.float32), opacity.astype(np.float32)


def creature(rng: np.random.Generator, noise: NoiseBank) -> Thing:
    """Paint an animal that is no fish: shrimp-, squid-, crab- or worm-like."""
    size = int(rng.uniform(60, 260))
    alpha = np.zeros((size, size), np.float32)
    along = np.linspace(0, 1, int(rng.integers(6, 40)))
    curl = rng.uniform(-1.6, 1.6)
    heading = curl * along + rng.uniform(-0.4, 0.4)
    points = np.cumsum(np.column_stack([np.cos(heading), np.sin(heading)]), axis=0)
    points -= points.mean(axis=0)
    points = points / (np.abs(points).max() + 1e-6) * size * 0.33 + size / 2
    wide = size * rng.uniform(0.04, 0.13)
    taper = rng.uniform(0.3, 1.0)
    for point, place in zip(points, along, strict=True):
        radius = max(2.0, wide * (1 - taper * place**2))
        centre = (int(point[0]), int(point[1]))
        cv2.circle(alpha, centre, int(radius), 1.0, -1, cv2.LINE_AA)
    for _ in range(int(rng.integers(0, 22))):  # arms, legs, feelers
        start = points[int(rng.integers(len(points)) * rng.choice([0, 1, 0.5]))]
        reach = rng.uniform(0.1, 0.45) * size
        angle = rng.uniform(0, 2 * np.pi)
        bend = rng.normal(0, 0.6, 2)
        path = [start]
        for turn in np.cumsum(bend):
            step = np.array([np.cos(angle + turn), np.sin(angle + turn)]) * reach / 2
            path.append(path[-1] + step)
        thick = int(rng.integers(1, max(2, int(wide * 0.5)) + 1))
        line = np.array(path).astype(np.int32)
        cv2.polylines(
            alpha,
            [line],
            isClosed=False,
            color=1.0,
            thickness=thick,
            lineType=cv2.LINE_AA,
        )
    if rng.random() < 0.4:  # squid's fins, crab's plates, tail fans
        corner = points[[0, -1][int(rng.integers(2))]]
        fan = corner + rng.normal(0, size * 0.13, (4, 2))
        cv2.fillConvexPoly(alpha, cv2.convexHull(fan.astype(np.int32)), 1.0)
    tone = np.array(
        ((0.8, 0.4, 0.3), (0.7, 0.6, 0.5), (0.35, 0.25, 0.2), (0.6, 0.6, 0.62))[
            int(rng.integers(4))
        ]
    ) * rng.uniform(0.5, 1.3)
    colour = shaded(alpha, tone.astype(np.float32), rng)
    spots = noise.cut((size, size), rng, rng.uniform(0.2, 0.7)) > rng.uniform(0.5, 1.5)
    colour[spots] *= rng.uniform(0.4, 1.6)
    rows = np.indices((size, size), dtype=np.float32)[int(rng.integers(2))]
    if rng.random() < 0.5:
        bars = np.sin(rows * 2 * np.pi / rng.uniform(8, 30)) > rng.uniform(-0.2, 0.7)
        colour[bars] *= rng.uniform(0.4, 1.5)
    eye = points[0] + rng.normal(0, wide * 0.3, 2)
    black = (0.03, 0.03, 0.03)
    cv2.circle(colour, (int(eye[0]), int(eye[1])), max(1, size // 50), black, -1)
    return np.clip(colour, 0, 1).astype(np.float32), alpha
