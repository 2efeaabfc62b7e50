"""Things that lie about and are no fish: a pencil, a knife, a leaf."""

from dataclasses import dataclass

import numpy as np

from sample_images.generator.camera import Array
from sample_images.generator.mesh import Mesh, grid_faces, outward

HALF_LENGTH_MM = {"pencil": 84.0, "knife": 118.0, "leaf": 52.0}
HALF_WIDTH_MM = {"pencil": 5.0, "knife": 15.0, "leaf": 14.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing on the board: kind pencil, knife or leaf."""

    kind: str
    position_mm: tuple[float, float]
    heading_deg: float

    def place(self, points: Array) -> Array:
        """Return scene points of the thing's own (along, across, height) in mm."""
        turn = np.radians(self.heading_deg)
        x = points[..., 0] * np.cos(turn) - points[..., 1] * np.sin(turn)
        y = points[..., 0] * np.sin(turn) + points[..., 1] * np.cos(turn)
        x, y = x + self.position_mm[0], y + self.position_mm[1]
        return np.stack([x, y, points[..., 2]], axis=-1)

    def footprint(self) -> Array:
        """Return (4, 2) corners of the ground it covers."""
        a, b = HALF_LENGTH_MM[self.kind], HALF_WIDTH_MM[self.kind]
        box = np.array([[-a, -b, 0], [a, -b, 0], [a, b, 0], [-a, b, 0.0]])
        return self.place(box)[:, :2]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Part:
    """A mesh of one colour (sRGB 0-1)."""

    mesh: Mesh
    colour: tuple[float, float, float]
    roughness: float = 0.4
    metallic: float = 0.0


def _tube(item: Item, along: Array, sections: Array) -> Mesh:
    """Return a closed tube; ``sections`` is (stations, points, 2) across, height."""
    stations, points = sections.shape[:2]
    ring = np.concatenate([sections, sections[:, :1]], axis=1)
    grid = np.empty((stations, points + 1, 3))
    grid[..., 0] = along[:, None]
    grid[..., 1:] = ring
    vertices = item.place(grid).reshape(-1, 3)
    mesh = Mesh(
        vertices_mm=vertices,
        faces=grid_faces(stations, points + 1),
        uv=np.zeros((len(vertices), 2)),
    )
    return outward(mesh)


def _round(count: int, half_width: Array, half_height: Array, lift: float) -> Array:
    """Return elliptic sections that stand ``lift`` mm above the board."""
    turn = np.linspace(0, 2 * np.pi, count, endpoint=False)
    across = half_width[:, None] * np.cos(turn)
    height = half_height[:, None] * np.sin(turn) + half_height.max() + lift
    return np.stack([across, height], axis=-1)


def _pencil(item: Item) -> list[Part]:
    along = np.array([-84.0, -83.9, 62.0, 78.0, 78.1, 84.0])
    radius = np.array([0.1, 3.7, 3.7, 1.0, 1.0, 0.1])
    wood = _tube(item, along[:4], _round(6, radius[:4], radius[:4], 0.1))
    lead = _tube(item, along[3:], _round(6, radius[3:], radius[3:], 2.7))
    return [
        Part(mesh=wood, colour=(0.85, 0.62, 0.10)),
        Part(mesh=lead, colour=(0.10, 0.10, 0.11)),
    ]


def _knife(item: Item) -> list[Part]:
    along = np.linspace(0, 118, 40)
    share = along / 118
    half = 11.0 * np.sqrt(np.clip(1 - share**4, 0, 1)) + 0.1
    blade = _round(12, half, np.full_like(half, 0.8), 4.0)
    grip_along = np.linspace(-118, 2, 30)
    grip_share = (grip_along + 58) / 62
    grip = 12.5 * np.clip(1 - np.abs(grip_share) ** 8, 0.01, 1) ** 0.5
    return [
        Part(
            mesh=_tube(item, along, blade),
            colour=(0.72, 0.73, 0.75),
            roughness=0.25,
            metallic=1.0,
        ),
        Part(
            mesh=_tube(item, grip_along, _round(16, grip, 0.6 * grip, 0.1)),
            colour=(0.05, 0.05, 0.055),
        ),
    ]


def _leaf(item: Item) -> list[Part]:
    along = np.linspace(-52, 52, 50)
    half = 11.0 * np.maximum(np.sin(np.pi * (along + 52) / 104), 0) ** 0.9 + 0.1
    return [
        Part(
            mesh=_tube(item, along, _round(14, half, np.full_like(half, 1.0), 0.1)),
            colour=(0.36, 0.42, 0.14),
            roughness=0.5,
        )
    ]


_BUILDERS = {"pencil": _pencil, "knife": _knife, "leaf": _leaf}


def parts(item: Item) -> list[Part]:
    """Return the meshes of one thing."""
    return _BUILDERS[item.kind](item)
