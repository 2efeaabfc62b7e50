"""From radiance to a phone's picture: blur, exposure, noise, tone curve."""

import cv2
import numpy as np

from sample_images.generator.noise import Array
from sample_images.generator.scene import Scene

# Shares and sigmas (px) of the lens: core, skirt and veil. Paper is 20 times as
# bright as ink, so the skirt moves its edges into the ink once the tone curve
# has saturated: the bleeding seen in real photographs.
_BLUR = ((0.80, 0.62), (0.17, 1.5), (0.03, 9.0))
SHOULDER_FROM, SHOULDER_TO = 0.72, 1.55  # linear: the tone curve bends, then clips


def _lens(image: Array, sharpness: float) -> Array:
    """Return the image blurred by the lens."""
    parts = [
        share * cv2.GaussianBlur(image, (0, 0), sigma * sharpness)
        for share, sigma in _BLUR
    ]
    total: Array = np.sum(parts, axis=0)
    return total


def _paper_level(scene: Scene, image: Array) -> float:
    """Return the radiance of white paper, or of a bright part where none is seen."""
    levels = []
    for piece in scene.papers:
        centre = piece.outline_mm.mean(axis=0)
        for corner in piece.outline_mm:
            inward = centre - corner
            point = corner + inward / np.linalg.norm(inward) * 4.0
            x, y = np.round(scene.project(point[None])[0]).astype(int)
            if 2 <= x < image.shape[1] - 2 and 2 <= y < image.shape[0] - 2:
                levels.append(float(np.median(image[y - 2 : y + 3, x - 2 : x + 3])))
    if levels:
        return float(np.percentile(levels, 70))
    return float(np.percentile(image, 97))


def _tone(linear: Array) -> Array:
    """Return sRGB 0-1: straight, then a shoulder, then the standard's curve."""
    span = SHOULDER_TO - SHOULDER_FROM
    over = np.clip((linear - SHOULDER_FROM) / span, 0, 1)
    rolled = SHOULDER_FROM + (1 - SHOULDER_FROM) * (1 - (1 - over) ** (span / 0.28))
    bent = np.where(linear < SHOULDER_FROM, np.maximum(linear, 0), rolled)
    low = bent * 12.92
    high = 1.055 * np.power(np.maximum(bent, 1e-6), 1 / 2.4) - 0.055
    coded: Array = np.where(bent <= 0.0031308, low, high)
    return coded


def develop(scene: Scene, radiance: Array) -> np.ndarray:
    """Return the (height, width, 3) uint8 photograph."""
    spec, light = scene.spec, scene.light
    rng = np.random.default_rng(spec.seed + 2)
    large = radiance.shape[0] * radiance.shape[1] > 4e6
    image = _lens(radiance, 1.25 if large else 1.0)
    gain = 0.82 * light.exposure * spec.exposure / _paper_level(scene, image)
    image = image * gain * np.array(light.cast)
    rows, columns = image.shape[:2]
    y, x = np.mgrid[0:rows, 0:columns]
    radius = np.hypot(x - columns / 2, y - rows / 2) / np.hypot(rows, columns) * 2
    image = image * (1 - 0.18 * radius**2)[..., None]
    # Photon and read noise, then the slight smoothing a phone applies.
    sigma = (
        light.noise
        * (0.7 if large else 1.0)
        * np.sqrt(0.0035**2 + 0.00016 * np.maximum(image, 0))
    )
    noise = rng.standard_normal(image.shape) * sigma
    image = image + cv2.GaussianBlur(noise, (0, 0), 0.6) * 1.3
    return np.round(np.clip(_tone(image), 0, 1) * 255).astype(np.uint8)
