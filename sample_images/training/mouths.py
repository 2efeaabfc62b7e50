"""Open mouths: a wedge cut under the snout, which stays the foremost point."""

from dataclasses import replace

import numpy as np

from sample_images.training.shapes import Body


def open_mouth(body: Body, rng: np.random.Generator) -> Body:
    """Return the body with its lower jaw down."""
    start = int(np.argmin(np.hypot(*body.polygon.T)))
    ring = np.roll(body.polygon, -start, axis=0)
    if ring[1:6, 1].mean() < 0:
        ring = np.roll(ring[::-1], 1, axis=0)
    deep = rng.uniform(0.03, 0.075)
    kept = ring[1:]
    first = int(np.argmax(kept[:, 0] > deep))
    throat = kept[first]
    if throat[1] < 0.015:  # too slender a head to open
        return body
    gap = rng.uniform(0.6, 1.3) * throat[1]
    corner = [deep * rng.uniform(0.7, 1.0), 0.45 * throat[1]]
    jaw = [rng.uniform(0.004, 0.03), gap]
    chin = [jaw[0] + 0.012, gap + 0.012]
    polygon = np.vstack([ring[:1], corner, jaw, chin, kept[first:]])
    return replace(body, polygon=polygon.astype(np.float32))
