"""Where the fish of a scene lie: rows, heaps, one over another, crowds, alone."""

from dataclasses import dataclass

import numpy as np

from sample_images.training.noise import Floats
from sample_images.training.scene import MAX_FISH

SHAPE = (384, 384)
_SHORTEST, _LONGEST = 10.0, 430.0
_MOST = 16  # but in crowds

Place = tuple[tuple[float, float], float, float]
"""Middle, heading and length of one fish."""


@dataclass(frozen=True, slots=True)
class _Way:
    """What the fish of one photo share."""

    layout: str
    typical: float
    heading: float
    turn_sd: float
    middle: tuple[float, float]
    gap: float


def draw_places(layout: str, rng: np.random.Generator) -> list[Place]:
    """Return middle, heading and length of each fish, the lowest first."""
    if layout == "none":
        return []
    way = _draw_way(layout, rng)
    count = _count(way, rng)
    lengths = _lengths(way, count, rng)
    places: list[Place] = []
    for index, length in enumerate(lengths):
        centre, angle = _lie(way, (index, count), places, rng)
        places.append(((float(centre[0]), float(centre[1])), angle, float(length)))
    order = rng.permutation(len(places))
    return [places[int(index)] for index in order]


def _draw_way(layout: str, rng: np.random.Generator) -> _Way:
    height, width = SHAPE
    shortest = {"single": 70, "close": 200, "crowd": 11, "along": 40}.get(layout, 14)
    longest = {"single": 420, "close": 420, "crowd": 34}.get(layout, 330)
    typical = float(np.exp(rng.uniform(np.log(shortest), np.log(longest))))
    if layout == "single" and rng.random() < 0.2:
        typical = float(rng.uniform(12, 70))
    middle = np.array([width / 2, height / 2]) + rng.normal(0, 50, 2)
    return _Way(
        layout=layout,
        typical=typical,
        heading=float(rng.uniform(0, 2 * np.pi)),
        turn_sd=float(rng.choice([0.05, 0.2, 0.6])),
        middle=(float(middle[0]), float(middle[1])),
        gap=float(
            rng.uniform(0.14, 0.28) if layout == "touch" else rng.uniform(0.26, 0.6)
        ),
    )


def _count(way: _Way, rng: np.random.Generator) -> int:
    area = SHAPE[0] * SHAPE[1]
    if way.layout in {"single", "close"}:
        return 1
    if way.layout == "crowd":
        return int(rng.integers(40, min(MAX_FISH, int(3.2 * area / way.typical**2))))
    if way.layout == "mixed":
        return int(rng.integers(3, _MOST))
    if way.layout == "along":
        return int(rng.integers(2, 7))
    room = int(np.clip(area / (0.24 * way.typical**2), 1, _MOST))
    count = int(rng.integers(1, max(2, room) + 1))
    if way.layout == "touch":
        return max(2, min(count, 9))
    return max(3, min(count + 3, 15)) if way.layout == "heap" else count


def _lengths(way: _Way, count: int, rng: np.random.Generator) -> Floats:
    spread = rng.uniform(0.02, 0.25)
    lengths = way.typical * np.exp(rng.normal(0, spread, count))
    if way.layout == "mixed":
        small, large = rng.uniform(11, 50), rng.uniform(90, 320)
        lengths = np.where(rng.random(count) < 0.6, small, large)
        lengths = lengths * rng.uniform(0.8, 1.2, count)
    return np.clip(lengths, _SHORTEST, _LONGEST)


def _lie(
    way: _Way, number: tuple[int, int], places: list[Place], rng: np.random.Generator
) -> tuple[Floats, float]:
    """Return middle and heading of one fish more."""
    height, width = SHAPE
    typical, middle = way.typical, np.array(way.middle)
    angle = way.heading + rng.normal(0, way.turn_sd)
    angle = angle + (np.pi if rng.random() < 0.35 else 0)
    if way.layout in {"rows", "touch"}:
        across = np.array([-np.sin(way.heading), np.cos(way.heading)])
        ahead = np.array([np.cos(way.heading), np.sin(way.heading)])
        step = (number[0] - (number[1] - 1) / 2) * way.gap * typical
        return middle + across * step + ahead * rng.normal(0, 0.1 * typical), angle
    if way.layout == "heap":
        angle = way.heading + rng.normal(0, max(way.turn_sd, 0.3)) * 2
        spread = rng.uniform(0.15, 0.45) * typical * np.sqrt(number[1] / 5)
        return middle + rng.normal(0, spread, 2), angle
    if way.layout == "along" and places:
        return _over(places[int(rng.integers(len(places)))], rng)
    if way.layout in {"close", "along"}:
        return middle / 2 + np.array([width, height]) / 4, angle
    centre = np.array([rng.uniform(0, width), rng.uniform(0, height)])
    if places and way.layout in {"scatter", "mixed"}:
        centre = _clear_of(centre, places, rng)
    return centre, float(rng.uniform(0, 2 * np.pi))


def _over(place: Place, rng: np.random.Generator) -> tuple[Floats, float]:
    """Return middle and heading of a fish that lies along another, over it."""
    centre, heading, length = place
    ahead = np.array([np.cos(heading), np.sin(heading)])
    across = np.array([-ahead[1], ahead[0]])
    shift = rng.uniform(-0.75, 0.75) * ahead + rng.normal(0, 0.07) * across
    angle = heading + rng.normal(0, 0.25) + (np.pi if rng.random() < 0.25 else 0)
    return np.array(centre) + shift * length, float(angle)


def _clear_of(centre: Floats, places: list[Place], rng: np.random.Generator) -> Floats:
    """Return a place a little away from the other fish, if there is one."""
    others = np.array([place[0] for place in places])
    wanted = 0.45 * max(place[2] for place in places)
    for _ in range(6):
        if np.hypot(*(others - centre).T).min() > wanted:
            break
        centre = np.array([rng.uniform(0, SHAPE[1]), rng.uniform(0, SHAPE[0])])
    return centre
