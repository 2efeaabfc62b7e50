"""The fins and the eye of a fish, as thin solids on its body."""

import numpy as np
from numpy.typing import NDArray

from sample_images.generator.families import Fin
from sample_images.generator.fish import Body
from sample_images.generator.mesh import Mesh, join

Array = NDArray[np.float64]

# Rectangles of the skin texture: body on top, then fins, then the eye (u0 v0 u1 v1).
BODY_V = 0.70  # the body takes this share of the texture's height
CAUDAL_BOX = np.array([0.01, 0.73, 0.30, 0.97])
FIN_BOX = np.array([0.33, 0.73, 0.55, 0.97])
PALE_FIN_BOX = np.array([0.58, 0.73, 0.80, 0.97])
EYE_BOX = np.array([0.84, 0.73, 0.93, 0.97])


def tail_margin(body: Body, across: Array) -> Array:
    """Return stations of the tail's margin, ``across`` from -1 to 1 over its height."""
    fork_depth = body.spec.fork_depth
    # Lobes round off at their outer corners.
    rounding = 0.012 * np.clip((np.abs(across) - 0.85) / 0.15, 0, 1) ** 2
    if fork_depth > 0:
        reach = 1 + (fork_depth + 0.003) * np.abs(across) ** 1.5 - rounding
        reach = 1 + (reach - 1) * fork_depth / np.max(reach - 1)
    else:
        reach = 1 - body.family.tail_rounding * np.abs(across) ** 3 - rounding
    return reach


def caudal(body: Body) -> Mesh:
    """Return the tail fin; its margin passes exactly through the fork."""
    spec, scale = body.spec, body.scale
    rows, columns = 33, 41
    along = np.linspace(0, 1, rows)[:, None]
    across = np.linspace(-1, 1, columns)[None, :]
    base = round(body.family.caudal_base - 0.01, 6)
    reach = tail_margin(body, across)
    station = base + (reach - base) * along
    root_half = body.family.tail_root * body.depth_gain
    half = root_half + (spec.tail_spread - root_half) * along**1.1
    side = across * half * scale
    height = body.mid_height_mm(station)
    thick = (0.011 * (1 - along) ** 2 + 0.0012) * scale * (1 - 0.5 * across**2)
    rest = np.broadcast_to(thick, height.shape)
    plan = np.stack([station, np.broadcast_to(side, station.shape)], axis=-1)
    return body.slab(plan, height, rest, CAUDAL_BOX)


def edge_fin(body: Body, fin: Fin) -> Mesh:
    """Return a fin on the back or the belly."""
    base, reach, sweep = fin.base, fin.reach, fin.sweep
    box = PALE_FIN_BOX if fin.pale else FIN_BOX
    rows, columns = 17, 21
    outward_share = np.linspace(0, 1, rows)[:, None]
    along = np.linspace(0, 1, columns)[None, :]
    first = base[0] + (base[1] - base[0]) * along
    sign = np.sign(reach[0])
    dorsal, ventral, _ = body.halves_mm(first)
    edge = dorsal if sign > 0 else ventral
    rays = np.abs(reach[0]) + (np.abs(reach[1]) - np.abs(reach[0])) * along
    # Rounded corners: the first rays are short, the last ones too.
    rays = rays * np.sqrt(np.clip(1 - np.abs(2 * along - 0.9) ** 5, 0.02, 1))
    raised = 0.5 + 0.5 * body.spec.fins_raised
    side = sign * (
        0.86 * edge + outward_share * (0.14 * edge + rays * raised * body.scale)
    )
    station = first + sweep * outward_share * (1.25 - 0.25 * raised)
    flank = body.mid_height_mm(first)
    fallen = body.fallen_mm(flank)
    height = flank + (fallen - flank) * (0.35 + 0.5 * body.spec.droop) * outward_share
    thick = np.broadcast_to(
        (0.006 * (1 - outward_share) + 0.0012) * body.scale, side.shape
    )
    plan = np.stack([np.broadcast_to(station, side.shape), side], axis=-1)
    return body.slab(plan, height, thick, box)


def _pectoral(body: Body) -> Mesh:
    """Return the upper pectoral fin, folded back on the flank."""
    rows, columns = 25, 13
    along = np.linspace(0, 1, rows)[:, None]
    across = np.linspace(-1, 1, columns)[None, :]
    share, size = body.family.pectoral
    station = body.family.gill + 0.115 * size * along + 0 * across
    dorsal, ventral, thick = body.halves_mm(station)
    width = 0.020 * np.sin(np.pi * (0.12 + 0.80 * along)) * across
    side = (share - 0.10 * along) * ventral + width * size * body.scale * 0.8
    cosine = np.clip(side / np.where(side > 0, dorsal, ventral), -0.999, 0.999)
    surface = (
        body.mid_height_mm(station)
        + thick * np.sqrt(1 - cosine**2) ** body.family.section
    )
    plan = np.stack([station, side], axis=-1)
    lift = (0.0035 + 0.006 * along * (1 - across**2)) * body.scale
    return body.slab(
        plan, surface + lift, np.full(side.shape, 0.0012 * body.scale), PALE_FIN_BOX
    )


def eye(body: Body, *, mirrored: bool = False) -> Mesh:
    """Return the eye as a shallow dome on the head, or that of the other side."""
    rows, columns = 9, 25
    station0, share0, round_ = body.family.eye
    radius = (round_ + 1.1 / body.scale) * body.scale
    dorsal, _, _ = body.halves_mm(np.array([station0]))
    out = np.linspace(0, 1, rows)[:, None]
    turn = np.linspace(0, 2 * np.pi, columns)[None, :]
    station = station0 + out * np.cos(turn) * radius / body.scale
    side = share0 * dorsal[0] + out * np.sin(turn) * radius
    cosine = np.clip(side / body.halves_mm(station)[0], -0.98, 0.98)
    local_thick = body.halves_mm(station)[2]
    surface = body.mid_height_mm(station) + local_thick * np.sqrt(1 - cosine**2) ** max(
        1.0, body.family.section
    )
    dome = surface + 0.22 * radius * np.sqrt(np.maximum(1 - out**2, 0)) - 0.04 * radius
    if mirrored:
        dome = -dome
    u0, v0, u1, v1 = EYE_BOX
    u = (u0 + u1) / 2 + (u1 - u0) / 2 * out * np.cos(turn)
    v = (v0 + v1) / 2 + (v1 - v0) / 2 * out * np.sin(turn)
    vertices = body.place(station, side, dome).reshape(-1, 3)
    index = np.arange(rows * columns).reshape(rows, columns)
    a, b = index[:-1, :-1].ravel(), index[:-1, 1:].ravel()
    c, d = index[1:, :-1].ravel(), index[1:, 1:].ravel()
    faces = np.concatenate([np.column_stack([a, c, d]), np.column_stack([a, d, b])])
    mesh = Mesh(
        vertices_mm=vertices, faces=faces, uv=np.stack([u, v], axis=-1).reshape(-1, 2)
    )
    if mesh.normals()[:, 2].sum() < 0:  # an open dome: it looks up
        return Mesh(vertices_mm=vertices, faces=faces[:, ::-1], uv=mesh.uv)
    return mesh


def skinned_trunk(body: Body) -> Mesh:
    """Return the body on its part of the texture."""
    trunk = body.trunk()
    uv = trunk.uv * [1.0, BODY_V - 0.01] + [0.0, 0.005]
    return Mesh(vertices_mm=trunk.vertices_mm, faces=trunk.faces, uv=uv)


def whole_fish(body: Body) -> Mesh:
    """Return body, fins and eye as one mesh over one texture."""
    return join(
        [
            skinned_trunk(body),
            caudal(body),
            *(edge_fin(body, fin) for fin in body.family.fins),
            _pectoral(body),
            eye(body),
        ]
    )
