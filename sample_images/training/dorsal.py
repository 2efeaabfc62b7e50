"""Fish seen from above: the back's outline, breast fins spread, the tail on edge.

Width is a tenth to a seventh of the length (thickness of trout-like fish), the
unit is the total length, since the tail's tip is what is seen. Proportions are
stand-ins, widely varied.
"""

import numpy as np

from sample_images.training.columns import TIP, UPRIGHT
from sample_images.training.noise import Floats
from sample_images.training.shapes import Body

_POINTS = 70


def draw_back(rng: np.random.Generator) -> Body:
    """Return a body as it shows from above, head left."""
    x = np.linspace(0, 1, _POINTS)
    width = rng.uniform(0.1, 0.15)
    base = rng.uniform(0.82, 0.9)
    broad_head = rng.random() < 0.3  # catfish: the head is widest
    at = rng.uniform(0.14, 0.22) if broad_head else rng.uniform(0.22, 0.38)
    width = width * (rng.uniform(1.1, 1.4) if broad_head else 1.0)
    blunt = rng.uniform(0.3, 0.5) if broad_head else rng.uniform(0.45, 0.75)
    wrist, tail = rng.uniform(0.018, 0.032), rng.uniform(0.005, 0.014)
    front = np.sin(np.pi / 2 * np.clip(x / at, 0, 1) ** blunt)
    fall = np.clip((x - at) / (base - at), 0, 1) ** rng.uniform(0.9, 1.5)
    half = np.where(x < at, front * width, wrist + (width - wrist) * (1 - fall)) / 2
    tip = np.clip((x - base) / (1 - base), 0, 1)
    half = np.where(x > base, (wrist + (tail - wrist) * np.sqrt(tip)) / 2, half)
    half = half * (1 - np.clip((x - 0.985) / 0.02, 0, 1))
    half[0] = 0.0
    left, right = np.column_stack([x, -half]), np.column_stack([x, half])
    inside = x <= base
    trunk = np.vstack([left[inside], right[inside][::-1]])
    fins = [rng.uniform(0.15, 0.24), rng.uniform(0.05, 0.15), rng.uniform(0.2, 1.3)]
    upper = _with_fin(left, fins, rng, -1.0)
    lower = _with_fin(right, fins, rng, 1.0)
    return Body(
        name="back",
        polygon=np.vstack([upper, lower[::-1]]).astype(np.float32),
        tail_base_x=float(base),
        fork_y=0.0,
        trunk=trunk.astype(np.float32),
        posture=UPRIGHT,
        hind_kind=TIP,
    )


def _with_fin(
    side: Floats, fins: list[float], rng: np.random.Generator, sign: float
) -> Floats:
    """Return one side with its breast fin standing out."""
    root, long, angle = fins[0], fins[1] * rng.uniform(0.7, 1.2), fins[2]
    if rng.random() < 0.12:
        return side
    angle = angle + rng.normal(0, 0.2)
    first = int(np.searchsorted(side[:, 0], root))
    last = int(np.searchsorted(side[:, 0], root + rng.uniform(0.02, 0.05)))
    start, end = side[first], side[last]
    ahead = np.array([np.cos(angle), sign * abs(np.sin(angle))])
    across = np.array([ahead[1], -ahead[0]]) * sign
    wide = long * rng.uniform(0.15, 0.35)
    leaf = np.array(
        [
            start + 0.5 * long * ahead + wide * across,
            start + 0.9 * long * ahead + wide * across,
            start + long * ahead,
            start + 0.9 * long * ahead - wide * across,
            end + 0.4 * long * ahead - 0.3 * wide * across,
        ]
    )
    return np.vstack([side[: first + 1], leaf, side[last:]])
