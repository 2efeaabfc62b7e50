"""Open mouths and feelers."""

import numpy as np

from sample_images.generator.fins import BODY_V, PALE_FIN_BOX
from sample_images.generator.fish import Array, Body
from sample_images.generator.mesh import Mesh, grid_faces, join, outward

_BELLY_V = 0.88 * (BODY_V - 0.01) + 0.005  # row of the skin below the flank
_JAW_LENGTH = 0.93  # of the way from the mouth's corner to the snout


def _frame(body: Body) -> tuple[Array, Array, Array]:
    """Return the hinge of the jaw (station, side in shares) and its two directions."""
    mouth = body.family.mouth
    ventral = float(body.halves_mm(np.array([mouth]))[1][0]) / body.scale
    closed = np.arctan2(0.45 * ventral, mouth)  # the jaw's own slope when shut
    turn = np.radians(body.spec.gape_deg) - closed
    hinge = np.array([mouth, -0.55 * ventral])
    along = np.array([-np.cos(turn), -np.sin(turn)])
    return hinge, along, np.array([np.sin(turn), -np.cos(turn)])


def _tube(body: Body, centre: Array, radii: tuple[Array, Array], across: Array) -> Mesh:
    """Return a closed tube along ``centre`` (n, 3): station, side, height."""
    turn = np.linspace(0, 2 * np.pi, 17)
    wide, high = (r[:, None] for r in radii)
    plan = centre[:, None, :2] + (wide * np.cos(turn))[..., None] * across
    height = centre[:, None, 2] + high * np.sin(turn)
    height = np.maximum(height, body.floor_mm + 0.05)
    points = body.place(plan[..., 0], plan[..., 1] * body.scale, height)
    u = np.clip(plan[..., 0] / body.family.body_end, 0.0, 1.0)
    uv = np.stack([u, np.full_like(u, _BELLY_V)], axis=-1).reshape(-1, 2)
    faces = grid_faces(len(centre), len(turn))
    return outward(Mesh(vertices_mm=points.reshape(-1, 3), faces=faces, uv=uv))


def open_mouth(body: Body) -> list[Mesh]:
    """Return the lower jaw and the skin within an open mouth, none where it is shut."""
    if body.spec.gape_deg <= 0:
        return []
    hinge, along, across = _frame(body)
    mouth = body.family.mouth
    share = np.sin(np.linspace(0, np.pi / 2, 24))
    station = mouth * (1 - share)
    _, ventral, thick = body.halves_mm(np.maximum(station, 0.02 * mouth))
    plan = hinge + along * (share * mouth * _JAW_LENGTH)[:, None]
    middle = body.mid_height_mm(np.maximum(station, 0.0))
    rounded = np.sqrt(np.clip(1 - share**6, 0.0, 1.0)) + 0.02
    centre = np.column_stack([plan, middle])
    wide = 0.30 * ventral / body.scale * rounded
    jaw = _tube(body, centre, (wide, 0.8 * thick * rounded), across)
    depth = np.linspace(0.0, 0.62, 9)[:, None]
    spread = np.linspace(0.0, 1.0, 9)[None, :]
    lower = hinge + along * mouth * depth[..., None]
    upper = np.stack([mouth * (1 - depth), 0 * depth + hinge[1] * 0.55], axis=-1)
    skin = lower + (upper - lower) * spread[..., None]
    low = body.mid_height_mm(skin[..., 0]) - 0.25 * thick[0]
    plan = np.stack([skin[..., 0], skin[..., 1] * body.scale], axis=-1)
    return [jaw, body.slab(plan, low, np.full(low.shape, 0.3), PALE_FIN_BOX)]


def barbels(body: Body) -> Mesh | None:
    """Return the feelers as one mesh, or None; they belong to no length."""
    count = body.family.barbels
    if not count:
        return None
    rng = np.random.default_rng(body.spec.seed + 5)
    hairs = []
    along = np.linspace(0, 1, 16)
    for number in range(count):
        reach = float(rng.uniform(0.05, 0.16 if number < count // 2 else 0.08))
        turn = float(rng.uniform(-2.2, 2.2)) + np.pi
        curl = turn + float(rng.normal(0, 0.8)) * along
        steps = np.column_stack([np.cos(curl), np.sin(curl)]) * reach / len(along)
        start = np.array([0.018, float(rng.uniform(-0.030, 0.005))])
        plan = start + np.cumsum(steps, axis=0)
        root = float(body.mid_height_mm(np.array([0.018]))[0])
        height = root + (body.floor_mm + 0.8 - root) * np.minimum(along * 2, 1)
        radius = 0.0030 * body.scale * (1 - 0.8 * along)
        centre = np.column_stack([plan, height])
        radii = (radius / body.scale, radius)
        hairs.append(_tube(body, centre, radii, np.array([0.0, 1.0])))
    return join(hairs)
