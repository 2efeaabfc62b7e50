"""Bodies drawn from proportions: kinds that growers keep and no open outline shows.

Proportions are stand-ins from general knowledge of the kinds, widely varied; a
form says how deep, where deepest, how blunt, how thick the wrist, and which fins
stand where. They teach variety, not any species' true shape.
"""

from dataclasses import dataclass

import numpy as np

from sample_images.training.noise import Floats
from sample_images.training.shapes import Body

_POINTS = 90


@dataclass(frozen=True, slots=True)
class Fin:
    """A fin from ``start`` to ``end`` along the back or belly."""

    above: bool
    start: float
    end: float
    height: float
    lean: float
    chance: float = 1.0


@dataclass(frozen=True, slots=True)
class Form:
    """Proportions in lengths to the tail's base."""

    rate: float
    depth: tuple[float, float]
    deepest_at: float
    belly_share: float
    blunt: tuple[float, float]
    wrist: tuple[float, float]
    fins: tuple[Fin, ...]


_CATFISH = (
    Fin(above=True, start=0.33, end=0.43, height=0.10, lean=0.5),
    Fin(above=True, start=0.83, end=0.87, height=0.035, lean=1.2),
    Fin(above=False, start=0.62, end=0.88, height=0.06, lean=0.4),
    Fin(above=False, start=0.52, end=0.57, height=0.05, lean=0.9, chance=0.7),
    Fin(above=False, start=0.22, end=0.27, height=0.07, lean=1.3, chance=0.6),
)
_PERCH = (
    Fin(above=True, start=0.30, end=0.62, height=0.10, lean=0.3),
    Fin(above=True, start=0.64, end=0.86, height=0.08, lean=0.4),
    Fin(above=False, start=0.68, end=0.82, height=0.08, lean=0.5),
    Fin(above=False, start=0.33, end=0.38, height=0.08, lean=1.0, chance=0.8),
)
_CARP = (
    Fin(above=True, start=0.42, end=0.82, height=0.08, lean=0.4),
    Fin(above=False, start=0.74, end=0.83, height=0.08, lean=0.6),
    Fin(above=False, start=0.46, end=0.52, height=0.08, lean=0.8, chance=0.8),
    Fin(above=False, start=0.24, end=0.28, height=0.05, lean=1.1, chance=0.5),
)
_BREAM = (
    Fin(above=True, start=0.50, end=0.62, height=0.14, lean=0.5),
    Fin(above=False, start=0.62, end=0.90, height=0.10, lean=0.3),
    Fin(above=False, start=0.44, end=0.49, height=0.07, lean=0.8, chance=0.8),
)
_TILAPIA = (
    Fin(above=True, start=0.32, end=0.88, height=0.11, lean=0.5),
    Fin(above=False, start=0.66, end=0.84, height=0.11, lean=0.6),
    Fin(above=False, start=0.36, end=0.42, height=0.11, lean=1.0, chance=0.8),
)
_TROUT = (
    Fin(above=True, start=0.46, end=0.58, height=0.10, lean=0.4),
    Fin(above=True, start=0.84, end=0.87, height=0.03, lean=1.0),
    Fin(above=False, start=0.74, end=0.84, height=0.08, lean=0.5),
    Fin(above=False, start=0.54, end=0.60, height=0.07, lean=0.9, chance=0.8),
    Fin(above=False, start=0.22, end=0.26, height=0.05, lean=1.3, chance=0.4),
)
FORMS = {
    "catfish": Form(0.34, (0.15, 0.26), 0.42, 0.6, (0.35, 0.6), (0.07, 0.10), _CATFISH),
    "perch": Form(0.14, (0.24, 0.36), 0.36, 0.45, (0.6, 0.9), (0.07, 0.11), _PERCH),
    "carp": Form(0.16, (0.28, 0.46), 0.42, 0.45, (0.5, 0.8), (0.11, 0.16), _CARP),
    "bream": Form(0.1, (0.36, 0.52), 0.46, 0.45, (0.6, 0.9), (0.09, 0.13), _BREAM),
    "tilapia": Form(0.14, (0.34, 0.52), 0.4, 0.5, (0.55, 0.85), (0.13, 0.17), _TILAPIA),
    "trout": Form(0.12, (0.17, 0.3), 0.45, 0.55, (0.45, 0.7), (0.08, 0.12), _TROUT),
}


def draw_form(rng: np.random.Generator) -> Body:
    """Return a body of one of the forms, its tail a stub for ``put_tail``."""
    names = list(FORMS)
    rates = np.array([FORMS[name].rate for name in names])
    name = names[int(rng.choice(len(names), p=rates / rates.sum()))]
    form = FORMS[name]
    x = np.linspace(0, 1, _POINTS)
    top = -_profile(x, form, 1 - form.belly_share, rng)
    belly = _profile(x, form, form.belly_share, rng)
    snout_y = (top[0] + belly[0]) / 2
    top, belly = top - snout_y * (1 - x), belly - snout_y * (1 - x)
    trunk = np.vstack([np.column_stack([x, top]), np.column_stack([x, belly])[::-1]])
    upper = _finned(x, top, [fin for fin in form.fins if fin.above], rng)
    lower = _finned(x, belly, [fin for fin in form.fins if not fin.above], rng)
    outline = np.vstack([upper, lower[::-1]])
    return Body(
        name=f"form_{name}",
        polygon=outline.astype(np.float32),
        tail_base_x=1.0,
        fork_y=0.0,
        base_at=(len(upper) - 1, len(upper)),
        trunk=trunk.astype(np.float32),
    )


def _profile(x: Floats, form: Form, share: float, rng: np.random.Generator) -> Floats:
    """Return how far back or belly is from the midline, snout to wrist."""
    at = form.deepest_at * rng.uniform(0.85, 1.15)
    depth = rng.uniform(*form.depth)
    wrist = rng.uniform(*form.wrist) * (depth / np.mean(form.depth)) ** 0.5
    half = depth * share * rng.uniform(0.9, 1.1)
    blunt = rng.uniform(*form.blunt)
    front = half * np.sin(np.pi / 2 * np.clip(x / at, 0, 1) ** blunt)
    back_share = np.clip((x - at) / (1 - at), 0, 1)
    fall = 0.5 + 0.5 * np.cos(np.pi * back_share ** rng.uniform(0.8, 1.2))
    behind = wrist / 2 + (half - wrist / 2) * fall
    return np.asarray(np.where(x < at, front, behind))


def _finned(
    x: Floats, edge: Floats, fins: list[Fin], rng: np.random.Generator
) -> Floats:
    """Return the edge with its fins standing out and leaning back."""
    sign = -1.0 if edge[_POINTS // 2] < 0 else 1.0
    out, back = np.zeros_like(x), np.zeros_like(x)
    for fin in fins:
        if rng.random() > fin.chance:
            continue
        raised = rng.choice([rng.uniform(0.05, 0.4), rng.uniform(0.5, 1.2)])
        place = np.clip((x - fin.start) / (fin.end - fin.start), 0, 1)
        shape = np.minimum(1, place * rng.uniform(2.5, 6)) * (1 - place**3) ** 0.5
        shape = shape * (1 - rng.uniform(0.0, 0.7) * place)
        out += fin.height * raised * shape
        back += fin.lean * rng.uniform(0.5, 1.2) * fin.height * raised * shape
    return np.column_stack([x + back, edge + sign * out])
