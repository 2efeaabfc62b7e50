"""Light, wetness and camera: what lies between a scene and its photo."""

import cv2
import numpy as np

from sample_images.training.noise import Floats, NoiseBank


def light_scene(image: Floats, rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Return the scene under uneven light, soft shadows, glare and drops."""
    shape = image.shape[:2]
    rows, columns = np.indices(shape, dtype=np.float32)
    angle = rng.uniform(0, 2 * np.pi)
    ramp = (columns / shape[1] - 0.5) * np.cos(angle)
    ramp = ramp + (rows / shape[0] - 0.5) * np.sin(angle)
    level = 1 + rng.uniform(0, 0.7) * ramp
    level = level * (1 + rng.uniform(0, 0.18) * noise.cut(shape, rng, 1.0))
    if rng.random() < 0.3:  # shadow of the phone, a person, a branch
        field = noise.cut(shape, rng, 1.0) + 1.5 * ramp
        soft = rng.uniform(0.02, 0.6)
        dark = np.clip((field - rng.uniform(-0.5, 1.0)) / soft, 0, 1)
        level = level * (1 - rng.uniform(0.2, 0.65) * dark)
    image = image * np.clip(level, 0.08, 2.0)[..., None]
    if rng.random() < 0.35:
        image = _glare(image, rng, noise)
    if rng.random() < 0.2:
        image = _drops(image, rng)
    if rng.random() < 0.1:
        image = _haze(image, rng, noise)
    return np.asarray(image, dtype=np.float32)


def _glare(image: Floats, rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Add mirror light: round blobs, streaks of film, lamp strips."""
    shape = image.shape[:2]
    glow: Floats = np.zeros(shape, np.float32)
    for _ in range(int(rng.integers(1, 12))):
        centre = (int(rng.uniform(0, shape[1])), int(rng.uniform(0, shape[0])))
        axes = (int(rng.uniform(1, 45)), int(rng.uniform(1, 14)))
        turn = rng.uniform(0, 180)
        one = np.zeros(shape, np.float32)
        cv2.ellipse(one, centre, axes, turn, 0, 360, 1.0, -1, cv2.LINE_AA)
        glow = np.maximum(glow, one * rng.uniform(0.3, 1.0))
    glow = cv2.GaussianBlur(glow, (0, 0), rng.uniform(0.6, 8))
    if rng.random() < 0.35:  # film or water over all
        ridge = 1 - np.abs(noise.cut(shape, rng, 0.9, (rng.uniform(0.6, 3), 1.0)))
        glow = glow + np.clip(ridge - rng.uniform(0.6, 0.95), 0, 1) * rng.uniform(
            0.5, 3
        )
    weight = np.clip(glow * rng.uniform(0.4, 1.3), 0, 1)[..., None]
    return np.asarray(image + weight * (1.05 - image), dtype=np.float32)


def _haze(image: Floats, rng: np.random.Generator, noise: NoiseBank) -> Floats:
    """Put cloudy water, mist or a misted lens before the scene."""
    shape = image.shape[:2]
    clear = rng.uniform(0.15, 0.65) * (
        1 + rng.uniform(0, 0.25) * noise.cut(shape, rng, 1.0)
    )
    clear = np.clip(clear, 0.08, 1.0)[..., None]
    veil = (rng.uniform(0.25, 0.85) + rng.normal(0, 0.08, 3)).astype(np.float32)
    if rng.random() < 0.6:
        image = cv2.GaussianBlur(image, (0, 0), rng.uniform(0.5, 3.5))
    return np.asarray(image * clear + np.clip(veil, 0.05, 1) * (1 - clear), np.float32)


def _drops(image: Floats, rng: np.random.Generator) -> Floats:
    shape = image.shape[:2]
    lit = np.zeros(shape, np.float32)
    for _ in range(int(rng.integers(10, 120))):
        at = (int(rng.uniform(0, shape[1])), int(rng.uniform(0, shape[0])))
        size = int(rng.uniform(1, 5))
        cv2.circle(lit, (at[0] + 1, at[1] + 1), size, -0.25, 1, cv2.LINE_AA)
        cv2.circle(lit, at, max(1, size // 2), 0.5, -1, cv2.LINE_AA)
    return np.asarray(image + lit[..., None], dtype=np.float32)


def take_photo(image: Floats, rng: np.random.Generator) -> np.ndarray:
    """Return the photo (uint8): exposure, cast, tone, blur, noise, compression."""
    hard = rng.random() < 0.3
    gain = np.exp(rng.normal(0, 0.25)) * np.exp(rng.normal(0, 0.06, 3))
    image = np.clip(image * gain.astype(np.float32), 0, None)
    image = np.clip(image, 0, 1.3) ** np.float32(np.exp(rng.normal(0, 0.22)))
    mean = image.mean()
    image = mean + (image - mean) * np.float32(rng.uniform(0.55, 1.25))
    grey = cv2.transform(image, np.full((1, 3), 1 / 3, np.float32))[..., None]
    colourful = 0.0 if rng.random() < 0.03 else rng.uniform(0.45, 1.15)
    image = grey + (image - grey) * np.float32(colourful)
    size = image.shape[1], image.shape[0]
    if rng.random() < 0.3:
        part = rng.uniform(0.4, 0.95) if hard else rng.uniform(0.7, 0.98)
        small = (int(size[0] * part), int(size[1] * part))
        image = cv2.resize(image, small, interpolation=cv2.INTER_AREA)
        image = cv2.resize(image, size, interpolation=cv2.INTER_LINEAR)
    if rng.random() < 0.5:
        sigma = rng.uniform(0.3, 2.2) if hard else rng.uniform(0.3, 0.9)
        image = cv2.GaussianBlur(image, (0, 0), sigma)
    if hard and rng.random() < 0.3:
        image = _moved(np.asarray(image, np.float32), rng)
    if rng.random() < 0.3:  # the phone's own sharpening
        soft = cv2.GaussianBlur(image, (0, 0), 1.0)
        image = image + np.float32(rng.uniform(0.2, 1.2)) * (image - soft)
    image = image * 255
    sigma = rng.uniform(0, 12) if hard else rng.uniform(0, 4)
    if sigma > 0.3:
        image = image + rng.standard_normal(image.shape, np.float32) * np.float32(sigma)
    byte = np.clip(image, 0, 255).astype(np.uint8)
    if rng.random() < 0.5:
        quality = int(rng.uniform(25, 60) if hard else rng.uniform(60, 96))
        _, packed = cv2.imencode(".jpg", byte, [cv2.IMWRITE_JPEG_QUALITY, quality])
        byte = cv2.imdecode(packed, cv2.IMREAD_COLOR)
    return byte


def _moved(image: Floats, rng: np.random.Generator) -> Floats:
    size = int(rng.integers(3, 8)) | 1
    kernel = np.zeros((size, size), np.float32)
    middle = size // 2
    angle = rng.uniform(0, np.pi)
    reach = np.array([np.cos(angle), np.sin(angle)]) * middle
    start = (round(middle - reach[0]), round(middle - reach[1]))
    end = (round(middle + reach[0]), round(middle + reach[1]))
    cv2.line(kernel, start, end, 1.0, 1)
    return np.asarray(cv2.filter2D(image, -1, kernel / kernel.sum()), np.float32)
