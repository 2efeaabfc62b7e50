"""Tails of every kind, put to bodies in place of their own.

A tail is drawn in fork lengths from the upper to the lower corner of the tail's
base, the base's middle at (0, 0).
"""

from dataclasses import replace

import cv2
import numpy as np

from sample_images.training.columns import FORKED, ROUND
from sample_images.training.noise import Floats
from sample_images.training.shapes import Body

_EDGE_POINTS = 41  # odd: the middle one is the fork


def draw_tail(half_base: float, kind: int, rng: np.random.Generator) -> Floats:
    """Return a tail's edge from upper to lower corner, and its middle ray.

    Forked ones from hardly notched to deep, others rounded to square; closed to
    spread wide.
    """
    middle = max(rng.uniform(0.08, 0.2), half_base)
    closed = rng.random() < 0.25
    spread = half_base * (rng.uniform(1.1, 1.5) if closed else rng.uniform(1.5, 3.6))
    spread = float(np.clip(spread, 0.035, 0.24))
    if kind == FORKED:
        depth = rng.choice([rng.uniform(0.06, 0.3), rng.uniform(0.3, 1.3)])
        power = rng.uniform(0.9, 2.4)
    else:
        depth = -rng.choice([rng.uniform(0.0, 0.1), rng.uniform(0.1, 0.5)])
        power = rng.uniform(1.8, 4.0)
    across = np.linspace(-1, 1, _EDGE_POINTS)
    lobes = 1 + np.where(across < 0, rng.normal(0, 0.08), rng.normal(0, 0.08))
    hind = np.column_stack(
        [middle * (1 + depth * lobes * np.abs(across) ** power), spread * across]
    )
    sides = []
    for end, sign in ((hind[0], -1.0), (hind[-1], 1.0)):
        along = np.linspace(0, 1, 16)[:-1]
        swell = rng.uniform(-0.25, 0.35) * (abs(end[1]) - half_base)
        y = half_base + (abs(end[1]) - half_base) * along
        y = y + swell * np.sin(np.pi * along)
        sides.append(np.column_stack([end[0] * along, sign * y]))
    edge = np.vstack([sides[0], hind, sides[1][::-1]]).astype(np.float32)
    return np.asarray(_rounded(edge, rng.uniform(0.6, 2.0)), np.float32)


def _rounded(edge: Floats, sigma: float) -> Floats:
    """Return the edge with its corners rounded, both ends kept."""
    soft = cv2.GaussianBlur(
        edge[None], (0, 0), sigma, sigmaY=0.01, borderType=cv2.BORDER_REPLICATE
    )[0]
    fade = np.clip(
        np.minimum(np.arange(len(edge)), np.arange(len(edge))[::-1]) / 4, 0, 1
    )
    return np.asarray(edge + fade[:, None] * (soft - edge))


def put_tail(body: Body, rng: np.random.Generator, kind: int) -> Body:
    """Return the body with a new tail, in units of its new fork length."""
    upper, lower = body.polygon[body.base_at[0]], body.polygon[body.base_at[1]]
    base = (upper + lower) / 2
    half = float(np.hypot(*(lower - upper))) / 2
    tail = draw_tail(half, kind, rng)
    fork_at = len(tail) // 2
    angle = np.arctan2(base[1], base[0]) * 0.5  # the tail goes on as the body does
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    placed = tail @ turn.T + base
    trunk = _before(body, upper, lower)
    polygon = np.vstack([trunk, placed[1:-1]])
    # level again from snout to fork, the unit being between them
    fork = placed[fork_at]
    level = np.array([[fork[0], fork[1]], [-fork[1], fork[0]]]) / (fork @ fork)
    base_x = float((level @ base)[0])
    return replace(
        body,
        polygon=(polygon @ level.T).astype(np.float32),
        trunk=None if body.trunk is None else (body.trunk @ level.T).astype(np.float32),
        tail_base_x=base_x,
        base_at=(len(trunk) - 1, 0),
        hind_kind=kind,
    )


def _before(body: Body, upper: Floats, lower: Floats) -> Floats:
    """Return the outline's points before the tail, from lower to upper corner."""
    count = len(body.polygon)
    up, low = body.base_at
    ways = (
        body.polygon[(low + np.arange((up - low) % count + 1)) % count],
        body.polygon[(low - np.arange((low - up) % count + 1)) % count],
    )
    near = [float(np.hypot(*way.T).min()) for way in ways]
    way = ways[int(near[1] < near[0])]
    inner = way[1:-1]
    inner = inner[inner[:, 0] < max(upper[0], lower[0]) + 0.01]
    return np.vstack([lower, inner, upper])


def draw_kind(rng: np.random.Generator) -> int:
    """Return a kind of tail, forked more often."""
    return FORKED if rng.random() < 0.6 else ROUND
