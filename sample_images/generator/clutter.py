"""Things that lie about and are no fish: tools, leaves, a glove, stones, a squid."""

from dataclasses import dataclass, replace

import numpy as np
from scipy.interpolate import PchipInterpolator

from sample_images.generator.camera import Array
from sample_images.generator.mesh import Mesh, grid_faces, join, outward

HALF_LENGTH_MM = {
    "pencil": 84.0,
    "knife": 118.0,
    "leaf": 52.0,
    "ruler": 152.0,
    "glove": 105.0,
    "broad-leaf": 62.0,
    "reed": 130.0,
    "gravel": 75.0,
    "rope": 60.0,
    "squid": 150.0,
    "crayfish": 95.0,
}
HALF_WIDTH_MM = {
    "pencil": 5.0,
    "knife": 15.0,
    "leaf": 14.0,
    "ruler": 17.0,
    "glove": 70.0,
    "broad-leaf": 45.0,
    "reed": 12.0,
    "gravel": 75.0,
    "rope": 60.0,
    "squid": 48.0,
    "crayfish": 48.0,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing on the board; kind is a key of HALF_LENGTH_MM."""

    kind: str
    position_mm: tuple[float, float]
    heading_deg: float
    seed: int = 0

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
    """A mesh of one colour (sRGB 0-1), unless its faces have their own."""

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


def _pipe(item: Item, path: Array, radii: Array, flat: float = 1.0) -> Mesh:
    """Return a round thing along (n, 3) points, ``flat`` times as high as wide."""
    along = np.gradient(path, axis=0)
    along /= np.linalg.norm(along, axis=1, keepdims=True) + 1e-9
    side = np.cross(along, [0.0, 0.0, 1.0])
    side /= np.linalg.norm(side, axis=1, keepdims=True) + 1e-9
    up = np.cross(side, along)
    turn = np.linspace(2 * np.pi, 0, 15)  # so that faces look outward
    ring = np.cos(turn)[:, None] * side[:, None]
    ring = ring + flat * np.sin(turn)[:, None] * up[:, None]
    vertices = item.place(path[:, None] + radii[:, None, None] * ring).reshape(-1, 3)
    vertices[:, 2] = np.maximum(vertices[:, 2], 0.1)
    return Mesh(
        vertices_mm=vertices,
        faces=grid_faces(len(path), len(turn)),
        uv=np.zeros((len(vertices), 2)),
    )


def _limb(
    item: Item, corners: list[tuple[float, float]], radius: tuple[float, float]
) -> Mesh:
    """Return a round-ended limb through (x, y) corners on the board."""
    points = np.array(corners)
    steps = np.linspace(0, 1, 24)
    places = np.linspace(0, 1, len(points))
    if len(points) > 2:
        curves = PchipInterpolator(places, points)(steps)
    else:
        curves = points[0] + steps[:, None] * (points[1] - points[0])
    radii = radius[0] + (radius[1] - radius[0]) * steps
    reach = np.minimum(steps, 1 - steps) * np.linalg.norm(np.diff(points, axis=0)) * 1.2
    cap = np.clip(reach / radii, 0, 1)
    path = np.column_stack([curves, np.maximum(radii, 0.6)])
    return _pipe(item, path, np.maximum(radii * np.sqrt(1 - (1 - cap) ** 2), 0.05))


def _box(item: Item, low: tuple[float, ...], high: tuple[float, ...]) -> Mesh:
    """Return a box between two corners."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    ring = np.array([[y0, z0], [y1, z0], [y1, z1], [y0, z1]])
    middle = np.array([[(y0 + y1) / 2, (z0 + z1) / 2]] * 4)
    sections = np.stack([middle, ring, ring, middle])
    return _tube(item, np.array([x0, x0, x1, x1]), sections)


def _ruler(item: Item) -> list[Part]:
    plate = _box(item, (-150.0, -15.0, 0.1), (150.0, 15.0, 1.6))
    marks = [
        _box(
            item,
            (-145 + 5.0 * k - 0.25, 14.5 - (9 if k % 10 == 0 else 6 - k % 2 * 2), 1.55),
            (-145 + 5.0 * k + 0.25, 14.5, 1.66),
        )
        for k in range(59)
    ]
    return [
        Part(mesh=plate, colour=(0.80, 0.80, 0.74), roughness=0.35),
        Part(mesh=join(marks), colour=(0.06, 0.06, 0.06)),
    ]


def _glove(item: Item) -> list[Part]:
    """Return a rubber glove, palm down: as large and lobed as a hand."""
    palm = np.linspace(-50, 34, 30)
    share = (palm + 8) / 42
    wide = 42 * np.clip(1 - np.abs(share) ** 4, 0.02, 1) ** 0.35
    wide = np.where(palm < -8, 30 + 12 * np.clip((palm + 50) / 42, 0, 1) ** 2, wide)
    path = np.column_stack([palm, 0 * palm, 0 * palm + 14])
    body = _pipe(item, path, wide, 0.36)
    rng = np.random.default_rng(item.seed)
    fingers = []
    for base, reach, radius in (
        (-30, 60, 8.5),
        (-11, 76, 9.5),
        (9, 72, 9.5),
        (28, 64, 9),
    ):
        lean = float(rng.normal(0, 5)) + base * 0.25
        fingers.append(
            _limb(
                item,
                [
                    (18, base),
                    (18 + reach * 0.6, base + 0.5 * lean),
                    (18 + reach, base + lean),
                ],
                (radius, radius * 0.8),
            )
        )
    thumb = _limb(item, [(-28, 26), (4, 48), (28, 58)], (11, 8.5))
    cuff = _pipe(
        item,
        np.array([[-105.0, 0, 12], [-102, 0, 12], [-60, 0, 12], [-40, 0, 13]]),
        np.array([38.0, 40, 33, 30]),
        0.3,
    )
    colour = ((0.12, 0.30, 0.62), (0.80, 0.42, 0.10), (0.76, 0.55, 0.44))[item.seed % 3]
    return [
        Part(mesh=mesh, colour=colour, roughness=0.45)
        for mesh in (body, *fingers, thumb, cuff)
    ]


def _broad_leaf(item: Item) -> list[Part]:
    rng = np.random.default_rng(item.seed)
    rows, columns = 60, 21
    along = np.linspace(-55, 55, rows)[:, None]
    across = np.linspace(-1, 1, columns)[None, :]
    share = (along + 55) / 110
    lobes = 1 + 0.22 * np.sin(share * 9 * np.pi) * (share > 0.1)
    half = 36 * np.sin(np.pi * share**0.8) ** 0.8 * lobes + 0.4
    curl = rng.uniform(2, 7)
    height = 0.6 + curl * across**2 * (1 + 0.5 * np.sin(share * 7 + across * 2))
    height = height + 1.2 * np.exp(-((across / 0.06) ** 2))
    grid = np.stack(
        [along + 6 * np.abs(across) + 0 * half, half * across, height], axis=-1
    )
    vertices = item.place(grid).reshape(-1, 3)
    faces = grid_faces(rows, columns)
    colour = ((0.45, 0.28, 0.12), (0.30, 0.38, 0.13), (0.66, 0.50, 0.16))[item.seed % 3]
    mesh = Mesh(
        vertices_mm=np.vstack([vertices, vertices - [0, 0, 0.4]]),
        faces=np.vstack([faces, faces[:, ::-1] + len(vertices)]),
        uv=np.zeros((2 * len(vertices), 2)),
    )
    if mesh.normals()[: len(vertices), 2].sum() < 0:
        mesh = replace(mesh, faces=mesh.faces[:, ::-1])
    stalk = _limb(item, [(-85, -6), (-66, 2), (-50, 0)], (1.1, 0.9))
    return [
        Part(mesh=mesh, colour=colour, roughness=0.55),
        Part(mesh=stalk, colour=colour, roughness=0.55),
    ]


def _reed(item: Item) -> list[Part]:
    rng = np.random.default_rng(item.seed)
    bend = float(rng.normal(0, 14))
    along = np.linspace(-128, 128, 50)
    path = np.column_stack(
        [along, bend * (along / 128) ** 2 - bend / 2, 0 * along + 1.5]
    )
    wide = 7 * np.clip(1 - (along / 129) ** 4, 0.01, 1)
    colour = (0.42, 0.47, 0.18) if item.seed % 2 else (0.68, 0.58, 0.34)
    return [Part(mesh=_pipe(item, path, wide, 0.2), colour=colour, roughness=0.5)]


def _gravel(item: Item) -> list[Part]:
    """Return some hundred stones, denser in the middle."""
    rng = np.random.default_rng(item.seed + 77)
    stones = []
    for _ in range(150):
        radius = float(rng.lognormal(1.6, 0.45))
        place = np.clip(rng.normal(0, 30, 2), -68, 68)
        rows, columns = 9, 13
        polar = np.linspace(0.02, np.pi - 0.02, rows)[:, None]
        around = np.linspace(0, 2 * np.pi, columns)[None, :]
        ball = np.stack(
            [
                np.sin(polar) * np.cos(around),
                np.sin(polar) * np.sin(around),
                np.cos(polar) + 0 * around,
            ],
            axis=-1,
        )
        axes = rng.normal(0, 1, (5, 3))
        rough = 1 + 0.13 * np.tanh(2 * ball @ axes.T).sum(axis=-1) / 2
        shape = ball * rough[..., None] * radius * rng.uniform([0.8, 0.8, 0.5], 1.3)
        shape[..., 2] += 0.55 * radius
        shape[..., :2] += place
        vertices = item.place(shape).reshape(-1, 3)
        vertices[:, 2] = np.maximum(vertices[:, 2], 0.05)
        mesh = outward(
            Mesh(
                vertices_mm=vertices,
                faces=grid_faces(rows, columns),
                uv=np.zeros((len(vertices), 2)),
            )
        )
        tone = np.array([0.46, 0.43, 0.39]) * rng.uniform(0.45, 1.6)
        tone = np.clip(tone + rng.normal(0, 0.03, 3), 0.05, 0.9)
        stones.append(replace(mesh, face_colours=np.tile(tone, (len(mesh.faces), 1))))
    return [Part(mesh=join(stones), colour=(0.5, 0.5, 0.5), roughness=0.75)]


def _rope(item: Item) -> list[Part]:
    turn = np.linspace(0, 5.4 * np.pi, 260)
    reach = 52 - 2.4 * turn + 2.5 * np.sin(3.3 * turn)
    path = np.column_stack(
        [reach * np.cos(turn), reach * np.sin(turn), 4 + 1.5 * np.sin(2.1 * turn) ** 2]
    )
    twist = 3.6 + 0.35 * np.sin(np.arange(len(turn)) * 1.9)
    return [
        Part(mesh=_pipe(item, path, twist), colour=(0.72, 0.66, 0.46), roughness=0.7)
    ]


def _squid(item: Item) -> list[Part]:
    rng = np.random.default_rng(item.seed)
    along = np.linspace(-20, 148, 60)
    share = (along + 20) / 168
    wide = 25 * np.clip(1 - share**2.4, 0.004, 1) ** 0.8 * np.clip(share / 0.03, 0.3, 1)
    path = np.column_stack([along, 0 * along, np.maximum(0.6 * wide, 0.8)])
    mantle = _pipe(item, path, wide, 0.6)
    fin_along = np.linspace(70, 146, 30)
    fin_share = (fin_along - 70) / 76
    fin_wide = 44 * np.sin(np.pi * fin_share) ** 0.7 + 1
    fin_path = np.column_stack([fin_along, 0 * fin_along, 0 * fin_along + 6])
    fin = _pipe(item, fin_path, fin_wide, 0.05)
    head = _limb(item, [(-50, 0), (-12, 0)], (15, 17))
    arms = []
    for k in range(8):
        out = (k - 3.5) * 7.5
        sway = float(rng.normal(0, 9))
        end = (-112 - float(rng.uniform(0, 22)), 1.5 * out + sway)
        arms.append(_limb(item, [(-42, 0.4 * out), (-78, out), end], (4.4, 1.3)))
    arms += [
        _limb(item, [(-42, 8 * side), (-96, 24 * side), (-148, 15 * side)], (2.6, 3.6))
        for side in (-1, 1)
    ]
    skin, dark = (0.80, 0.62, 0.58), (0.05, 0.05, 0.06)
    eyes = [_limb(item, [(-36, 13 * s), (-28, 13.5 * s)], (4, 4)) for s in (-1, 1)]
    return [
        Part(mesh=fin, colour=(0.84, 0.70, 0.66), roughness=0.3),
        *(Part(mesh=m, colour=skin, roughness=0.25) for m in (mantle, head, *arms)),
        *(Part(mesh=m, colour=dark, roughness=0.1) for m in eyes),
    ]


def _crayfish(item: Item) -> list[Part]:
    rng = np.random.default_rng(item.seed)
    chest = np.linspace(-4, 52, 30)
    share = (chest + 4) / 56
    wide = 13 * np.clip(1 - np.abs(share - 0.35) ** 2.5 / 0.36, 0.02, 1) ** 0.6
    front = _pipe(item, np.column_stack([chest, 0 * chest, 0.9 * wide]), wide, 0.9)
    tail = np.linspace(-58, 0, 72)
    ripple = 1 + 0.07 * np.sin((tail + 58) / 58 * 6 * 2 * np.pi)
    wide = (7.5 + 4 * (tail + 58) / 58) * ripple
    rear = _pipe(item, np.column_stack([tail, 0 * tail, 0.7 * wide]), wide, 0.7)
    fan = []
    for angle in (-0.9, -0.45, 0.0, 0.45, 0.9):
        steps = np.linspace(0, 1, 16)
        reach = -56 - 26 * steps * np.cos(angle)
        path = np.column_stack([reach, 26 * steps * np.sin(angle), 0 * steps + 2.5])
        fan.append(_pipe(item, path, 6.5 * np.sin(np.pi * steps**0.8) + 0.3, 0.2))
    limbs = []
    for side in (-1, 1):
        sway = float(rng.normal(0, 5))
        limbs += [
            _limb(
                item,
                [(34, 9 * side), (50, 27 * side), (62, 24 * side + sway)],
                (3.4, 4.2),
            ),
            _limb(item, [(60, 24 * side + sway), (92, 20 * side + sway)], (8.0, 2.2)),
            _limb(item, [(62, 31 * side + sway), (90, 27 * side + sway)], (4.0, 1.6)),
            _limb(item, [(48, 4 * side), (84, 2 * side), (94, 42 * side)], (0.8, 0.4)),
        ]
        limbs += [
            _limb(
                item,
                [
                    (26 - 9 * k, 9 * side),
                    (26 - 13 * k, 24 * side),
                    (20 - 16 * k, 36 * side),
                ],
                (1.6, 0.9),
            )
            for k in range(4)
        ]
    shell = ((0.30, 0.19, 0.10), (0.42, 0.12, 0.07))[item.seed % 2]
    return [
        Part(mesh=m, colour=shell, roughness=0.3) for m in (front, rear, *fan, *limbs)
    ]


_BUILDERS = {
    "pencil": _pencil,
    "knife": _knife,
    "leaf": _leaf,
    "ruler": _ruler,
    "glove": _glove,
    "broad-leaf": _broad_leaf,
    "reed": _reed,
    "gravel": _gravel,
    "rope": _rope,
    "squid": _squid,
    "crayfish": _crayfish,
}


def parts(item: Item) -> list[Part]:
    """Return the meshes of one thing."""
    return _BUILDERS[item.kind](item)
