"""What one photograph shows, and everything placed exactly."""

from dataclasses import dataclass, field
from functools import cached_property

import cv2
import numpy as np

from sample_images.generator import boards, lights, mouths, paper
from sample_images.generator.boards_plain import board_of
from sample_images.generator.camera import Array, Camera, CameraSpec
from sample_images.generator.clutter import Item, parts
from sample_images.generator.fish import FishSpec
from sample_images.generator.ground import HeightField, Room
from sample_images.generator.mesh import Mesh, join
from sample_images.generator.net import Net, NetSpec, drape
from sample_images.generator.noise import fractal
from sample_images.generator.paper import PaperSpec
from sample_images.generator.swim import body_of, mesh_of
from sample_images.generator.tub import TubSpec
from sample_images.generator.water import Surface, WaterSpec

NO_CEILING_MM = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SceneSpec:
    """One photograph to be made.

    ``file_type`` is jpg, webp or heic; ``orientation`` the EXIF value, 1 or 6.
    ``full_truth`` writes bodies without fins, postures and ends, too. ``film`` is how
    much of the board stands under a film of water.
    """

    name: str
    board: str
    light: str
    camera: CameraSpec
    papers: tuple[PaperSpec, ...]
    fish: tuple[FishSpec, ...]
    items: tuple[Item, ...] = ()
    nets: tuple[NetSpec, ...] = ()
    seed: int
    notes: str = ""
    group: str = ""
    file_type: str = "jpg"
    quality: int = 88
    orientation: int = 1
    exposure: float = 1.0
    tags: tuple[str, ...] = field(default=())
    full_truth: bool = False
    water: WaterSpec | None = None
    tub: TubSpec | None = None
    film: float = 0.0


class Scene:
    """A scene with its geometry built."""

    def __init__(self, spec: SceneSpec) -> None:
        self.spec = spec
        self.camera = Camera.from_spec(spec.camera)
        self.papers = [paper.build(p) for p in spec.papers]
        self.bodies = [body_of(f) for f in spec.fish]
        self.fish_meshes = [
            join([mesh_of(b), *mouths.open_mouth(b)])
            if b.spec.gape_deg > 0
            else mesh_of(b)
            for b in self.bodies
        ]
        rng = np.random.default_rng(spec.seed)
        self.light = lights.make(spec.light, rng)
        self.surface = Surface(spec.water) if spec.water is not None else None

    @property
    def _texels(self) -> tuple[int, int]:
        """Rows and columns of the board's maps."""
        texel_mm = 0.32 if self.camera.width_px * self.camera.height_px > 4e6 else 0.5
        columns, rows = (int(v / texel_mm) for v in boards.SIZE_MM)
        return rows, columns

    @cached_property
    def beside(self) -> boards.Board:
        """The ground on which a tub stands."""
        rng = np.random.default_rng(self.spec.seed + 8)
        floor = self.spec.tub.floor if self.spec.tub is not None else self.spec.board
        return board_of(floor)(rng, self._texels)

    @cached_property
    def board(self) -> boards.Board:
        """The surface, wet around the fish; only a rendering needs it."""
        rng = np.random.default_rng(self.spec.seed + 1)
        rows, columns = self._texels
        texel_mm = boards.SIZE_MM[0] / columns
        board = board_of(self.spec.board)(rng, (rows, columns))
        stains = np.zeros((rows, columns), dtype=np.float32)
        for mesh in self.fish_meshes:
            points = self.to_texels(mesh.vertices_mm, (rows, columns))
            hull = cv2.convexHull(points.astype(np.float32)).astype(np.int32)
            cv2.fillPoly(stains, [hull], 1.0)
        soft = np.asarray(cv2.GaussianBlur(stains, (0, 0), 6 / texel_mm))
        if self.surface is not None:
            return board
        ragged = np.clip((soft + 0.22 * _ripple(rng, (rows, columns)) - 0.42) * 6, 0, 1)
        stains = 0.6 * ragged
        if self.spec.film > 0:
            pools = _ripple(rng, (rows, columns)) - (1.6 - 2.4 * self.spec.film)
            stains = np.maximum(stains, np.clip(pools * 5, 0, 1))
        return boards.wet(rng, board, stains)

    @cached_property
    def nets(self) -> tuple[Net, ...]:
        """The nets at rest on or under the fish; papers lie on top of them."""
        return tuple(drape(spec, self._room(spec)) for spec in self.spec.nets)

    def _room(self, spec: NetSpec) -> Room:
        """Return the gap in which a net may lie."""
        floor, ceiling = HeightField.flat(0.0), HeightField.flat(NO_CEILING_MM)
        rim = boards.RIMS.get(self.spec.board)
        if rim is not None:
            floor.surround(rim.size_mm, rim.height_mm)
        for item in self.spec.items:
            for part in parts(item):
                floor.add(part.mesh)
        fish = HeightField.flat(0.0)
        for mesh in self.fish_meshes:
            fish.add(mesh)
        there = fish.heights_mm > 0
        if spec.under:
            lowest = min((f.base_mm for f in self.spec.fish), default=NO_CEILING_MM)
            ceiling.heights_mm[there] = lowest
        else:
            floor.heights_mm[there] = np.maximum(floor.heights_mm, fish.heights_mm)[
                there
            ]
        if not spec.heap:
            for piece in self.papers:
                ceiling.fill(piece.outline_mm, float(piece.outline_mm[0, 2]))
        return Room(floor=floor, ceiling=ceiling)

    def project(self, points_mm: Array) -> Array:
        """Return (n, 2) photo pixels at which scene points are seen."""
        if self.surface is None:
            return self.camera.project(points_mm)
        eye = self.camera.position_mm
        return self.camera.project(self.surface.crossing_mm(points_mm, eye))

    @staticmethod
    def to_texels(points_mm: Array, shape: tuple[int, int]) -> Array:
        """Return (n, 2) texel positions (x, y) of scene points on the board."""
        width, height = boards.SIZE_MM
        x = (points_mm[:, 0] + width / 2) / width * shape[1]
        y = (height / 2 - points_mm[:, 1]) / height * shape[0]
        return np.column_stack([x, y])

    def board_mesh(self) -> Mesh:
        """Return the board's plane."""
        w, h = (v / 2 for v in boards.SIZE_MM)
        return Mesh(
            vertices_mm=np.array([[-w, h, 0], [-w, -h, 0], [w, -h, 0], [w, h, 0.0]]),
            faces=np.array([[0, 1, 2], [0, 2, 3]]),
            uv=np.array([[0.0, 0], [0, 1], [1, 1], [1, 0]]),
        )


def _ripple(rng: np.random.Generator, shape: tuple[int, int]) -> Array:
    return fractal(rng, shape, (30, 34), 3)
