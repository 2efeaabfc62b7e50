"""Which bodies are drawn how often."""

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import numpy as np

from sample_images.training.columns import SIDE, UPRIGHT
from sample_images.training.dorsal import draw_back
from sample_images.training.forms import draw_form
from sample_images.training.mouths import open_mouth
from sample_images.training.noise import Floats
from sample_images.training.reef import load_reef_bodies
from sample_images.training.shapes import Body, load_bodies, warp_body
from sample_images.training.tails import draw_kind, put_tail

# What growers keep comes first; the rest keeps the network from a narrow idea
# of a fish. Parts of the outline's name, and how often its group is drawn.
_GROUPS = (
    (0.26, ("Salmo_trutta", "Osmerus", "Argentina_s")),
    (0.12, ("Dicentrarchus", "Spondyliosoma", "Ctenolabrus", "Labrus", "Sebastes")),
    (0.1, ("Clupea", "Alosa", "Sprattus", "Sardina", "Scomber", "Trachurus")),
    (0.04, ("Gadus", "Pollachius", "Merl", "Microm", "Melano", "Triso", "Moro")),
    (0.03, ("Pleuronectes", "Platichthys", "Limanda", "Hippogl", "Scophth")),
    (0.07, ("_",)),
    (0.16, ("reef_",)),
)
_FORM_RATE = 0.22
_OPEN_MOUTH = 0.15
_WIDEST_BASE = 0.2
_NEW_TAIL = 0.5  # of the outlines that have a tail of their own


def load_all_bodies(photos: Path) -> tuple[Body, ...]:
    """Return every outline that training may use."""
    return (
        *load_bodies(photos / "outlines_nsfishes_ccbysa"),
        *load_reef_bodies(photos / "outlines_reef_ccby"),
    )


def draw_body(
    bodies: tuple[Body, ...], rng: np.random.Generator, posture: int = SIDE
) -> Body:
    """Return a random body, warped: depth, head, tail, belly and small waves."""
    if posture == UPRIGHT:
        return draw_back(rng)
    if rng.random() < _FORM_RATE:
        body = put_tail(draw_form(rng), rng, draw_kind(rng))
    else:
        body = _outlined(bodies, rng)
    return open_mouth(body, rng) if rng.random() < _OPEN_MOUTH else body


def _outlined(bodies: tuple[Body, ...], rng: np.random.Generator) -> Body:
    """Return a body from a published outline."""
    rates, pools = _pools(bodies)
    pool = pools[int(rng.choice(len(pools), p=rates))]
    body = pool[int(rng.integers(len(pool)))]
    upper, lower = body.polygon[list(body.base_at)]
    narrow = np.hypot(*(lower - upper)) < _WIDEST_BASE
    if body.name.startswith("reef_") or (narrow and rng.random() < _NEW_TAIL):
        body = put_tail(body, rng, draw_kind(rng))
    return smooth_noise(warp_body(body, rng), rng)


@lru_cache(maxsize=4)
def _pools(bodies: tuple[Body, ...]) -> tuple[Floats, list[list[Body]]]:
    """Return how often each group is drawn, and its bodies."""
    found = [
        (rate, pool)
        for rate, words in _GROUPS
        if (pool := [body for body in bodies if any(w in body.name for w in words)])
    ]
    rates = np.array([rate for rate, _ in found])
    return rates / rates.sum(), [pool for _, pool in found]


def smooth_noise(body: Body, rng: np.random.Generator) -> Body:
    """Return the body with small waves in its outline, none at snout and fork."""
    count = len(body.polygon)
    place = np.arange(count) / count * 2 * np.pi
    waves = np.zeros((count, 2))
    for number in rng.integers(3, 40, 5):
        waves += np.sin(number * place + rng.uniform(0, 6))[:, None] * rng.normal(
            0, 0.0008, 2
        )
    ends = np.minimum(
        np.hypot(*body.polygon.T), np.hypot(*(body.polygon - [1.0, 0.0]).T)
    )
    calm = np.clip(ends / 0.03, 0, 1)[:, None]
    return replace(body, polygon=(body.polygon + calm * waves).astype(np.float32))
