"""Triangle meshes with texture coordinates or one colour a face."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Faces = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """(n, 3) vertices in mm, (m, 3) faces, (n, 2) uv, optional (m, 3) colours.

    Texture coordinates: u to the right and v down in the texture, 0 to 1.
    """

    vertices_mm: Array
    faces: Faces
    uv: Array
    face_colours: Array | None = None

    def normals(self) -> Array:
        """Return (n, 3) area-weighted vertex normals."""
        a, b, c = (self.vertices_mm[self.faces[:, k]] for k in range(3))
        face_normals = np.cross(b - a, c - a)
        normals = np.zeros_like(self.vertices_mm)
        for k in range(3):
            np.add.at(normals, self.faces[:, k], face_normals)
        lengths = np.linalg.norm(normals, axis=1, keepdims=True)
        unit: Array = normals / np.maximum(lengths, 1e-12)
        return unit

    def signed_volume_mm3(self) -> float:
        """Return the enclosed volume; positive where faces look outward."""
        a, b, c = (self.vertices_mm[self.faces[:, k]] for k in range(3))
        return float(np.sum(a * np.cross(b, c)) / 6.0)


def grid_faces(rows: int, columns: int) -> Faces:
    """Return the triangles of a (rows, columns) vertex grid."""
    index = np.arange(rows * columns).reshape(rows, columns)
    a, b = index[:-1, :-1].ravel(), index[:-1, 1:].ravel()
    c, d = index[1:, :-1].ravel(), index[1:, 1:].ravel()
    return np.concatenate([np.column_stack([a, b, d]), np.column_stack([a, d, c])])


def join(meshes: list[Mesh]) -> Mesh:
    """Return one mesh of several, coloured where all of them are."""
    offsets = np.cumsum([0] + [len(m.vertices_mm) for m in meshes[:-1]])
    colours = [m.face_colours for m in meshes if m.face_colours is not None]
    return Mesh(
        face_colours=np.vstack(colours) if len(colours) == len(meshes) else None,
        vertices_mm=np.vstack([m.vertices_mm for m in meshes]),
        faces=np.vstack([m.faces + o for m, o in zip(meshes, offsets, strict=True)]),
        uv=np.vstack([m.uv for m in meshes]),
    )


def outward(mesh: Mesh) -> Mesh:
    """Return a closed mesh with its faces looking outward."""
    if mesh.signed_volume_mm3() >= 0:
        return mesh
    return Mesh(vertices_mm=mesh.vertices_mm, faces=mesh.faces[:, ::-1], uv=mesh.uv)
