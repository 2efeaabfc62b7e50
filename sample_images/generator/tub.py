"""The tub itself: walls around the water, what floats in it, the water's own mesh."""

from dataclasses import dataclass

import numpy as np

from sample_images.generator.mesh import Mesh, grid_faces, join
from sample_images.generator.water import Array, Surface

_AROUND = 144
_CELL_MM = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TubSpec:
    """A tub: half its length and width inside, 2 for round, more for boxlike."""

    half_mm: tuple[float, float]
    power: float
    wall_mm: float
    colour: tuple[float, float, float]
    floor: str = "concrete"

    def ring_mm(self, grown_mm: float = 0.0) -> Array:
        """Return (n, 2) points around the inside, or outside of it."""
        turn = np.linspace(0, 2 * np.pi, _AROUND + 1)
        c, s = np.cos(turn), np.sin(turn)
        a, b = (v + grown_mm for v in self.half_mm)
        exponent = 2 / self.power
        return np.column_stack(
            [
                a * np.sign(c) * np.abs(c) ** exponent,
                b * np.sign(s) * np.abs(s) ** exponent,
            ]
        )

    def holds(self, points_mm: Array, within_mm: float = 0.0) -> np.ndarray:
        """Return (n,) whether points lie inside the walls."""
        a, b = (v - within_mm for v in self.half_mm)
        x, y = np.abs(points_mm[:, 0]) / a, np.abs(points_mm[:, 1]) / b
        inside: np.ndarray = x**self.power + y**self.power < 1
        return inside


def walls(tub: TubSpec) -> Mesh:
    """Return the walls: a turned profile, slanting outwards, with a rolled rim."""
    top = tub.wall_mm
    profile = ((0.0, 0.0), (6.0, top), (14.0, top + 3), (22.0, top - 4), (22.0, -1.0))
    rings = [
        np.column_stack([tub.ring_mm(grown), np.full(_AROUND + 1, height)])
        for grown, height in profile
    ]
    vertices = np.concatenate(rings)
    return Mesh(
        vertices_mm=vertices,
        faces=grid_faces(len(profile), _AROUND + 1),
        uv=np.zeros((len(vertices), 2)),
    )


def water_mesh(tub: TubSpec, surface: Surface) -> tuple[Mesh, Array]:
    """Return the water's surface within the walls, and its exact normals."""
    a, b = (v + 10.0 for v in tub.half_mm)
    columns, rows = int(2 * a / _CELL_MM), int(2 * b / _CELL_MM)
    y, x = np.meshgrid(
        np.linspace(-b, b, rows), np.linspace(-a, a, columns), indexing="ij"
    )
    z = surface.height_mm(x, y)
    vertices = np.stack([x, y, z], axis=-1).reshape(-1, 3)
    faces = grid_faces(rows, columns)
    inside = tub.holds(vertices, within_mm=-5.0)
    faces = faces[inside[faces].all(axis=1)]
    normals = surface.normals(x, y).reshape(-1, 3)
    mesh = Mesh(vertices_mm=vertices, faces=faces, uv=np.zeros((len(vertices), 2)))
    return mesh, normals


def _scrap(
    rng: np.random.Generator,
    place: Array,
    size: Array,
    colour: tuple[float, float, float],
) -> Mesh:
    """Return a small double pyramid, turned anyhow."""
    corners = np.array(
        [[1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0], [0, 0, 1], [0, 0, -1.0]]
    )
    faces = np.array(
        [
            *([0, 2, 4], [2, 1, 4], [1, 3, 4], [3, 0, 4]),
            *([2, 0, 5], [1, 2, 5], [3, 1, 5], [0, 3, 5]),
        ]
    )
    turn, _ = np.linalg.qr(rng.standard_normal((3, 3)))
    tone = np.array(colour) * float(rng.uniform(0.6, 1.3))
    return Mesh(
        vertices_mm=(corners * size) @ turn.T + place,
        faces=faces,
        uv=np.zeros((6, 2)),
        face_colours=np.tile(np.clip(tone, 0, 1), (8, 1)),
    )


def matter(tub: TubSpec, surface: Surface, rng: np.random.Generator) -> Mesh | None:
    """Return flakes that float in the water and droppings on the bottom."""
    spec = surface.spec
    a, b = tub.half_mm
    scraps = []
    for number in range(spec.flakes + spec.droppings):
        fallen = number >= spec.flakes
        where = np.array([rng.uniform(-a, a), rng.uniform(-b, b)]) * 0.92
        height = 0.8 if fallen else float(rng.uniform(1, spec.depth_mm - 3))
        size = np.exp(rng.normal(np.log(0.45), 0.45, 3))
        if fallen:
            size = np.array([rng.uniform(1.5, 4.5), 0.8, 0.8])
        colour = (0.23, 0.18, 0.11) if fallen else (0.50, 0.45, 0.34)
        scraps.append(_scrap(rng, np.array([*where, height]), size, colour))
    return join(scraps) if scraps else None
