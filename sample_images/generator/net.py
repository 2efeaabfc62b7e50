"""Fishing nets in three dimensions: cords that hang from knot to knot.

The knots are moved until no cord is longer than the mesh says, none passes through
what the net lies on, and gravity has pulled it down (position based dynamics). Folds
come from netting that is pushed together: its cords keep their length and rise.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from sample_images.generator.ground import Room
from sample_images.generator.mesh import Mesh, grid_faces, join
from sample_images.generator.noise import smooth

Array = NDArray[np.float64]
Indices = NDArray[np.int64]

STEPS = 160  # of gravity; the net lies still after about 120
SWEEPS = 8  # over all cords in each step
FALL_MM = 0.35  # a step
PUSH = 0.25  # how far a slack cord is pushed back to its length: cords buckle
GRIP = 0.5  # share of a sideways move that friction lets pass where a knot rests
KNOT_HALF_HEIGHT = 1.0  # in cord diameters; a knot is half as long again


@dataclass(frozen=True, slots=True, kw_only=True)
class NetSpec:
    """One piece of netting.

    Attributes
    ----------
    knotted
        Thick knots (landing net, twine) or none (knotless sampling net).
    mesh_mm
        Length of one side of a mesh, knot to knot.
    cord_mm
        Diameter of the cord.
    size_mm, position_mm, heading_deg
        Rectangle that the netting takes before it is pushed together.
    opening_deg
        Angle between the cords: 90 is a square mesh, less a drawn diamond.
    slack
        Share by which the netting is longer than the ground that it covers.
    folds
        Number of folds across it.
    under
        The fish lie on it; otherwise it lies over them.
    heap
        Thrown down: pushed together until it lies in a heap.
    """

    knotted: bool
    mesh_mm: float
    cord_mm: float
    colour: tuple[float, float, float]
    size_mm: tuple[float, float]
    position_mm: tuple[float, float] = (0.0, 0.0)
    heading_deg: float = 0.0
    opening_deg: float = 80.0
    slack: float = 0.04
    folds: int = 2
    under: bool = False
    heap: bool = False
    seed: int = 1

    @property
    def half_height_mm(self) -> float:
        """Half the netting's thickness at its knots."""
        return self.cord_mm * (KNOT_HALF_HEIGHT if self.knotted else 0.5)

    @property
    def thickness_mm(self) -> float:
        """How high things lie that lie on it flat."""
        return 2 * self.half_height_mm + 0.05

    def reaches(self, point_mm: tuple[float, float]) -> bool:
        """Return whether the netting, spread out, lies under a point."""
        turn = np.radians(self.heading_deg)
        x, y = np.array(point_mm) - np.array(self.position_mm)
        along = x * np.cos(turn) + y * np.sin(turn)
        across = y * np.cos(turn) - x * np.sin(turn)
        return bool(
            abs(along) <= self.size_mm[0] / 2 and abs(across) <= self.size_mm[1] / 2
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Net:
    """A net that has come to rest.

    ``knots_mm`` (n, 3); ``bars`` (m, 2) pairs of knots joined by a cord; ``lines``
    holds the points of each cord, knots and points between them.
    """

    spec: NetSpec
    knots_mm: Array
    bars: Indices
    lines: tuple[Array, ...]

    def mesh(self) -> Mesh:
        """Return the cords as tubes, with their knots."""
        rng = np.random.default_rng(self.spec.seed + 1)
        tubes = [_tube(line, self.spec, rng) for line in self.lines]
        if self.spec.knotted:
            tubes.append(_knots(self, rng))
        return join(tubes)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Lattice:
    """Knots in their plane before anything moves them."""

    points_mm: Array  # (n, 2)
    numbers: Indices  # (rows, columns) index of each knot, -1 where there is none

    def runs(self) -> list[Indices]:
        """Return the knots of each unbroken cord, in order."""
        runs = []
        for grid in (self.numbers, self.numbers.T):
            for row in grid:
                there = np.flatnonzero(row >= 0)
                parts = np.split(there, np.flatnonzero(np.diff(there) > 1) + 1)
                runs += [row[part] for part in parts if len(part) > 1]
        return runs


def _lattice(spec: NetSpec) -> _Lattice:
    """Return the flat netting."""
    half = np.radians(spec.opening_deg) / 2
    first = spec.mesh_mm * np.array([np.cos(half), np.sin(half)])
    second = spec.mesh_mm * np.array([np.cos(half), -np.sin(half)])
    width, height = spec.size_mm
    reach = int(np.ceil((width / np.cos(half) + height / np.sin(half)) / spec.mesh_mm))
    reach = reach // 2 + 2
    i, j = np.meshgrid(
        np.arange(-reach, reach + 1), np.arange(-reach, reach + 1), indexing="ij"
    )
    points = i[..., None] * first + j[..., None] * second
    inside = (np.abs(points[..., 0]) <= width / 2) & (
        np.abs(points[..., 1]) <= height / 2
    )
    numbers = np.full(inside.shape, -1, dtype=np.int64)
    numbers[inside] = np.arange(int(inside.sum()))
    return _Lattice(points_mm=points[inside], numbers=numbers)


def _groups(numbers: Indices) -> list[Indices]:
    """Return the cords in four groups of which none meet at a knot."""
    groups = []
    for grid in (numbers, numbers.T):
        pairs = np.stack([grid[:-1], grid[1:]], axis=-1)
        for start in (0, 1):
            some = pairs[start::2].reshape(-1, 2)
            groups.append(some[(some >= 0).all(axis=1)])
    return groups


def _pushed(spec: NetSpec, flat: Array, rng: np.random.Generator) -> Array:
    """Return (n, 3) knots of the netting pushed together, height from zero.

    A fold is an arch that keeps the length across it: its slope swings from level
    up to beyond the vertical, down and back, so that the netting laps over itself.
    """
    points = np.column_stack([flat, np.zeros(len(flat))])
    extent = float(np.hypot(*spec.size_mm))
    for _ in range(spec.folds):
        turn = float(rng.uniform(0, np.pi))
        across = flat @ np.array([np.cos(turn), np.sin(turn)])
        along = flat @ np.array([-np.sin(turn), np.cos(turn)])
        length = float(rng.uniform(14, 42)) * (1.6 if spec.heap else 1.0)
        start = float(rng.uniform(-0.32, 0.32)) * extent
        start = start + float(rng.uniform(0.05, 0.2)) * along
        middle, spread = rng.uniform(-0.3, 0.3) * extent, rng.uniform(0.2, 0.5) * extent
        fade = np.exp(-(((along - middle) / spread) ** 2))
        steps = np.linspace(0, 1, 60)
        swing = float(rng.uniform(1.5, 2.3)) * fade[:, None] * np.sin(2 * np.pi * steps)
        share = np.clip((across - start) / length, 0, 1)
        done = steps[None, :] <= share[:, None]
        shift = -np.sum((1 - np.cos(swing)) * done, axis=1) / len(steps) * length
        rise = np.sum(np.sin(swing) * done, axis=1) / len(steps) * length
        points[:, 0] += np.cos(turn) * shift
        points[:, 1] += np.sin(turn) * shift
        points[:, 2] += np.maximum(rise, 0)
    shrink = 1 / (1 + spec.slack)
    points[:, :2] = (points[:, :2] - points[:, :2].mean(axis=0)) * shrink
    cells = (spec.size_mm[1] / 45, spec.size_mm[0] / 45)
    shape = (256, 256)
    at = np.clip(
        ((flat / np.array(spec.size_mm) + 0.5) * 255).round().astype(int), 0, 255
    )
    for axis, size in ((0, 0.35), (1, 0.35), (2, 0.5)):
        field = smooth(rng, shape, cells)[at[:, 1], at[:, 0]]
        reach = 45 * np.sqrt(spec.slack) * size
        points[:, axis] += reach * (np.abs(field) if axis == 2 else field)
    return points


def _placed(spec: NetSpec, points: Array) -> Array:
    turn = np.radians(spec.heading_deg)
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    flat = points[:, :2] @ spin + np.array(spec.position_mm)
    return np.column_stack([flat, points[:, 2]])


def _settle(spec: NetSpec, knots: Array, groups: list[Indices], room: Room) -> Array:
    """Return the knots at rest."""
    radius = spec.half_height_mm
    knots = knots.copy()
    for step in range(STEPS):
        before = knots.copy()
        knots[:, 2] -= FALL_MM * (1 if step < STEPS * 0.8 else 0.3)
        for _ in range(SWEEPS):
            for bars in groups:
                _pull(knots, bars, spec.mesh_mm, PUSH)
        low = room.floor.at(knots) + radius
        rests = knots[:, 2] <= low
        knots[rests, :2] = before[rests, :2] + GRIP * (
            knots[rests, :2] - before[rests, :2]
        )
        _confine(knots, room, radius)
    for _ in range(150):  # what is over-long at last is drawn in
        for bars in groups:
            _pull(knots, bars, spec.mesh_mm, 0.0)
        _confine(knots, room, radius)
    return knots


def _pull(knots: Array, bars: Indices, length: float, push: float) -> None:
    """Move both ends of each cord towards its length."""
    a, b = bars[:, 0], bars[:, 1]
    apart = knots[b] - knots[a]
    now = np.sqrt(np.einsum("ij,ij->i", apart, apart)) + 1e-9
    off = now - length
    move = apart * ((np.where(off > 0, off, push * off) / now) * 0.5)[:, None]
    knots[a] += move
    knots[b] -= move


def _confine(points: Array, room: Room, radius: float) -> None:
    """Lift points out of the floor and press them below the ceiling."""
    low = room.floor.at(points) + radius
    high = np.maximum(room.ceiling.at(points) - radius, low)
    points[:, 2] = np.clip(points[:, 2], low, high)


def _cord(spec: NetSpec, knots: Array, room: Room, rng: np.random.Generator) -> Array:
    """Return the points of one cord: its knots and a smooth line between them."""
    parts = max(1, min(6, round(spec.mesh_mm / 3.5)))
    if parts == 1:
        return knots
    ends = np.vstack(
        [2 * knots[0] - knots[1], knots, 2 * knots[-1] - knots[-2]]
    )  # straight on beyond the ends
    t = (np.arange(parts) / parts)[None, :, None]
    p0, p1, p2, p3 = (ends[k : len(ends) - 3 + k, None] for k in range(4))
    # Catmull-Rom at a third of its usual swing: a knot lets cords kink.
    m1, m2 = (p2 - p0) / 6 + (p2 - p1) * 2 / 3, (p3 - p1) / 6 + (p2 - p1) * 2 / 3
    curve = (
        (2 * t**3 - 3 * t**2 + 1) * p1
        + (t**3 - 2 * t**2 + t) * m1
        + (-2 * t**3 + 3 * t**2) * p2
        + (t**3 - t**2) * m2
    )
    apart = np.linalg.norm(p2 - p1, axis=2)
    spare = np.clip(spec.mesh_mm - apart, 0, None)[:, 0]
    bow = np.sqrt(spare * spec.mesh_mm * 3 / 8)  # sagitta of a shallow arc
    along = (p2 - p1)[:, 0, :2]
    side = np.column_stack([-along[:, 1], along[:, 0]])
    side /= np.linalg.norm(side, axis=1, keepdims=True) + 1e-9
    side *= (bow * rng.choice([-0.7, 0.7], len(bow)))[:, None]
    curve[..., :2] += (4 * t * (1 - t)) * side[:, None, :]
    points: Array = np.vstack([curve.reshape(-1, 3), knots[-1:]])
    _confine(points, room, spec.cord_mm / 2)
    return points


def drape(spec: NetSpec, room: Room) -> Net:
    """Return the net at rest in a room."""
    rng = np.random.default_rng(spec.seed)
    lattice = _lattice(spec)
    knots = _placed(spec, _pushed(spec, lattice.points_mm, rng))
    groups = _groups(lattice.numbers)
    # Let down from just above, not from the top of the highest fish.
    knots[:, 2] += room.floor.at(knots) + spec.cord_mm
    knots = _settle(spec, knots, groups, room)
    lines = tuple(_cord(spec, knots[run], room, rng) for run in lattice.runs())
    return Net(spec=spec, knots_mm=knots, bars=np.vstack(groups), lines=lines)


def _shades(spec: NetSpec, count: int, phase: Array, rng: np.random.Generator) -> Array:
    """Return (count, 3) face colours: the twist of the cord and its wear."""
    tone = 1 + 0.14 * np.sin(phase) + 0.05 * float(rng.standard_normal())
    shades: Array = np.clip(np.array(spec.colour) * tone[:count, None], 0.01, 0.97)
    return shades


def _tube(line: Array, spec: NetSpec, rng: np.random.Generator) -> Mesh:
    """Return one cord as a tube of even thickness along (n, 3) points."""
    sides = 6 if spec.cord_mm < 1.5 else 8
    along = np.gradient(line, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True) + 1e-9
    side = np.cross(along, [0.0, 0.0, 1.0])
    steep = np.linalg.norm(side, axis=1) < 0.05
    side[steep] = np.cross(along[steep], [1.0, 0.0, 0.0])
    side /= np.linalg.norm(side, axis=1, keepdims=True)
    up = np.cross(side, along)
    turn = np.linspace(2 * np.pi, 0, sides + 1)
    ring = np.cos(turn)[:, None] * side[:, None] + np.sin(turn)[:, None] * up[:, None]
    vertices = (line[:, None] + spec.cord_mm / 2 * ring).reshape(-1, 3)
    faces = grid_faces(len(line), sides + 1)
    mesh = Mesh(vertices_mm=vertices, faces=faces, uv=np.zeros((len(vertices), 2)))
    run = np.concatenate(
        [[0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))]
    )
    cell = np.arange(len(faces)) % (len(faces) // 2)
    phase = run[cell // sides] / (1.7 * spec.cord_mm) * 2 * np.pi
    phase = phase + turn[cell % sides]
    shades = _shades(spec, len(faces), phase, rng)
    return replace(mesh, face_colours=shades)


def _knots(net: Net, rng: np.random.Generator) -> Mesh:
    """Return the knots as small rounded lumps."""
    rows, columns = 6, 9
    polar = np.linspace(0, np.pi, rows)[:, None]
    around = np.linspace(2 * np.pi, 0, columns)[None, :]
    ball = np.stack(
        [
            1.5 * np.sin(polar) * np.cos(around),
            np.sin(polar) * np.sin(around),
            np.cos(polar) + 0 * around,
        ],
        axis=-1,
    ).reshape(-1, 3)
    radius = KNOT_HALF_HEIGHT * net.spec.cord_mm
    count = len(net.knots_mm)
    size = radius * rng.uniform(0.85, 1.0, (count, 1, 1))
    turn = rng.normal(0, 0.4, count) + np.radians(net.spec.heading_deg)
    c, s = np.cos(turn), np.sin(turn)
    spin = np.zeros((count, 3, 3))
    spin[:, 0, 0], spin[:, 0, 1], spin[:, 1, 0], spin[:, 1, 1] = c, s, -s, c
    spin[:, 2, 2] = 1
    vertices = (net.knots_mm[:, None] + (ball @ spin) * size).reshape(-1, 3)
    faces = grid_faces(rows, columns)
    offsets = np.arange(count)[:, None, None] * len(ball)
    every = (faces[None] + offsets).reshape(-1, 3)
    phase = rng.uniform(0, 2 * np.pi, len(every))
    return Mesh(
        vertices_mm=vertices,
        faces=every,
        uv=np.zeros((len(vertices), 2)),
        face_colours=_shades(net.spec, len(every), phase, rng),
    )
