"""What the painters of things share."""

from collections.abc import Callable

import cv2
import numpy as np

from sample_images.training.noise import Floats, NoiseBank

Thing = tuple[Floats, Floats]
Painter = Callable[[np.random.Generator, NoiseBank], Thing]


def sheet_of(height: int, width: int, tone: Floats | float) -> Floats:
    """Return a picture of one tone."""
    return np.broadcast_to(np.asarray(tone, np.float32), (height, width, 3)).copy()


def shaded(alpha: Floats, tone: Floats, rng: np.random.Generator) -> Floats:
    """Return a rounded body of one tone: dark to its rim, lit from one side."""
    solid = (alpha > 0.5).astype(np.uint8)
    depth = cv2.distanceTransform(solid, cv2.DIST_L2, 3)
    round_to = max(float(depth.max()) * rng.uniform(0.4, 1.0), 1.0)
    bulge = np.sqrt(np.clip(depth / round_to, 0, 1))
    slope_y, slope_x = np.gradient(cv2.GaussianBlur(bulge, (0, 0), 1.5))
    angle = rng.uniform(0, 2 * np.pi)
    light = slope_x * np.cos(angle) + slope_y * np.sin(angle)
    level = 0.6 + 0.4 * bulge + light * rng.uniform(0, 2.0)
    return np.clip(tone * level[..., None], 0.01, 1).astype(np.float32)
