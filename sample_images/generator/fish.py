"""A trout-like fish lying on its side: solid body, thin fins, bent or straight.

Body stations run from 0 at the snout tip to 1 at the middle of the tail fork, as
a fraction of the fork length along the mid-line. The half-profiles were read off
a photograph of a farmed rainbow trout; see ``sample_images/SOURCE.md``.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from sample_images.generator.mesh import Mesh, grid_faces, outward

Array = NDArray[np.float64]

DENSITY_G_PER_MM3 = 1.03e-3  # near that of water, as a live fish's must be
BODY_END = 0.935  # the scaly part reaches a little into the tail fin
CAUDAL_BASE = 0.905  # end of the spine: standard length
BEND_FROM, BEND_TO = 0.22, 0.88  # head and tail fin stay stiff

# station, dorsal and ventral half-depth at depth ratio 0.24, half-thickness (max 1)
_PROFILE = np.array(
    [
        (0.000, 0.0000, 0.0000, 0.000),
        (0.006, 0.0175, 0.0165, 0.210),
        (0.020, 0.0315, 0.0285, 0.330),
        (0.040, 0.0450, 0.0410, 0.450),
        (0.070, 0.0610, 0.0560, 0.590),
        (0.110, 0.0760, 0.0690, 0.720),
        (0.160, 0.0920, 0.0840, 0.840),
        (0.220, 0.1050, 0.0970, 0.920),
        (0.300, 0.1150, 0.1100, 0.980),
        (0.380, 0.1190, 0.1190, 1.000),
        (0.460, 0.1170, 0.1220, 0.980),
        (0.540, 0.1090, 0.1190, 0.920),
        (0.620, 0.0960, 0.1090, 0.820),
        (0.700, 0.0800, 0.0910, 0.680),
        (0.780, 0.0640, 0.0670, 0.520),
        (0.840, 0.0530, 0.0530, 0.400),
        (0.880, 0.0480, 0.0470, 0.320),
        (0.910, 0.0480, 0.0460, 0.230),
        (0.935, 0.0440, 0.0420, 0.050),
    ]
)
# Against sqrt(station) the rounded snout is nearly straight, so it keeps its shape.
_CURVES = [
    PchipInterpolator(np.sqrt(_PROFILE[:, 0]), _PROFILE[:, k]) for k in (1, 2, 3)
]
_REFERENCE_DEPTH = 0.2405  # greatest sum of both halves in the table


@dataclass(frozen=True, slots=True, kw_only=True)
class FishSpec:
    """One fish: size, build, bend, pose and skin.

    ``depth_ratio`` (greatest depth over fork length) follows from the weight and
    ``thickness_ratio`` (thickness over depth), see :func:`depth_ratio_for`.
    ``droop`` 0 keeps the tail at the height of the mid-plane, 1 lays it down.
    """

    fork_length_mm: float
    weight_g: float
    depth_ratio: float
    thickness_ratio: float
    skin: str
    seed: int
    position_mm: tuple[float, float] = (0.0, 0.0)
    heading_deg: float = 0.0
    dorsal_left: bool = True
    bend_deg: float = 0.0
    s_shape: bool = False
    droop: float = 0.8
    fork_depth: float = 0.045
    tail_spread: float = 0.085
    fins_raised: float = 0.6
    base_mm: float = 0.0


def _halves(station: Array) -> tuple[Array, Array, Array]:
    """Return dorsal, ventral half-depth and half-thickness of the reference body."""
    root = np.sqrt(np.clip(station, 0.0, BODY_END))
    dorsal, ventral, thick = (np.maximum(curve(root), 0.0) for curve in _CURVES)
    return dorsal, ventral, thick


def depth_ratio_for(fork_length_mm: float, weight_g: float, thickness: float) -> float:
    """Return the depth ratio at which the body's volume has this weight."""
    station = np.linspace(0, BODY_END, 2000)
    dorsal, ventral, thick = _halves(station)
    # ellipse halves: pi t (d + v) / 2, with d + v = depth * shape, t = depth * r / 2
    area = np.pi / 4 * thickness * thick * (dorsal + ventral) / _REFERENCE_DEPTH
    unit_volume = float(np.trapezoid(area, station))
    volume = weight_g / DENSITY_G_PER_MM3 / fork_length_mm**3
    return float(np.sqrt(volume / unit_volume))


class Body:
    """Geometry of one fish; all methods work in scene millimetres."""

    def __init__(self, spec: FishSpec) -> None:
        self.spec = spec
        self.scale = spec.fork_length_mm
        self.depth_gain = spec.depth_ratio / _REFERENCE_DEPTH
        self.half_thickness_mm = (
            spec.depth_ratio * spec.thickness_ratio * self.scale / 2
        )
        self._axis = self._bent_axis()

    def _bent_axis(self) -> tuple[Array, Array, Array]:
        """Return stations, (n, 2) axis points and headings along the fish."""
        station = np.linspace(-0.05, 1.2, 1251)
        inside = (station > BEND_FROM) & (station < BEND_TO)
        phase = (station - BEND_FROM) / (BEND_TO - BEND_FROM)
        # Curvature rises and falls smoothly, as in a fish that stiffens in ice.
        curvature = np.where(inside, np.sin(np.pi * phase) * np.pi / 2, 0.0)
        if self.spec.s_shape:
            curvature = np.where(inside, np.sin(2 * np.pi * phase) * np.pi, 0.0)
        step = station[1] - station[0]
        total = np.radians(self.spec.bend_deg) / (BEND_TO - BEND_FROM)
        heading = np.cumsum(curvature) * step * total
        heading -= np.interp(0.5, station, heading)
        heading += np.radians(self.spec.heading_deg)
        middle = heading[:-1] + np.diff(heading) / 2
        steps = np.column_stack([np.cos(middle), np.sin(middle)]) * step * self.scale
        points = np.vstack([[0.0, 0.0], np.cumsum(steps, axis=0)])
        at_half = [np.interp(0.5, station, points[:, k]) for k in (0, 1)]
        points = points - at_half + np.array(self.spec.position_mm)
        return station, points, heading

    def halves_mm(self, station: Array) -> tuple[Array, Array, Array]:
        """Return dorsal, ventral half-depth and half-thickness in mm."""
        dorsal, ventral, thick = _halves(station)
        gain = self.depth_gain * self.scale
        return dorsal * gain, ventral * gain, thick * self.half_thickness_mm

    def mid_height_mm(self, station: Array) -> Array:
        """Return the height of the body's middle plane above the board.

        Stiff, it would lie level at half the greatest thickness; limp, each part
        would touch the board. Head and tail sink by ``droop``.
        """
        _, _, thick = self.halves_mm(station)
        towards_tail = np.clip((station - 0.35) / 0.55, 0, 1)
        towards_head = np.clip((0.30 - station) / 0.30, 0, 1)
        limp = self.spec.droop * (3 * towards_tail**2 - 2 * towards_tail**3)
        limp = limp + 0.5 * self.spec.droop * towards_head**2
        height = self.half_thickness_mm * (1 - limp) + np.maximum(thick, 0.6) * limp
        in_fin = np.clip((station - BODY_END) / (1 - BODY_END), 0, 1)
        height = height + (0.6 - height) * in_fin * (0.4 + 0.6 * self.spec.droop)
        return height + self.spec.base_mm

    def place(self, station: Array, side_mm: Array, height_mm: Array) -> Array:
        """Return (..., 3) scene points from station, dorsal offset and height."""
        stations, points, headings = self._axis
        x = np.interp(station, stations, points[:, 0])
        y = np.interp(station, stations, points[:, 1])
        heading = np.interp(station, stations, headings)
        side = side_mm * (1.0 if self.spec.dorsal_left else -1.0)
        return np.stack(
            [x - np.sin(heading) * side, y + np.cos(heading) * side, height_mm], axis=-1
        )

    def midline_mm(self, count: int = 41) -> Array:
        """Return (count, 3) points of the axis from snout to fork."""
        station = np.linspace(0, 1, count)
        return self.place(station, np.zeros(count), self.mid_height_mm(station))

    @property
    def total_length_mm(self) -> float:
        """Snout to the tip of the longer tail lobe, along the axis."""
        return self.scale * (1 + self.spec.fork_depth)

    @property
    def body_depth_mm(self) -> float:
        """Greatest body depth without fins."""
        dorsal, ventral, _ = self.halves_mm(np.linspace(0.2, 0.6, 801))
        return float(np.max(dorsal + ventral))

    def trunk(self) -> Mesh:
        """Return the closed body without fins."""
        rows, columns = 181, 73
        root = np.linspace(0, np.sqrt(BODY_END), rows)
        station = root**2
        around = np.linspace(0, 2 * np.pi, columns)
        dorsal, ventral, thick = self.halves_mm(station)
        cosine, sine = np.cos(around), np.sin(around)
        side = np.where(cosine > 0, dorsal[:, None], ventral[:, None]) * cosine
        # A little fuller than an ellipse on the flanks.
        bulge = np.sign(sine) * np.abs(sine) ** 0.92
        height = self.mid_height_mm(station)[:, None] + thick[:, None] * bulge
        height = np.maximum(height, self.spec.base_mm + 0.05)
        grid = np.broadcast_to(station[:, None], side.shape)
        u = grid / BODY_END
        v = (1 - cosine) / 2
        uv = np.stack([u, np.broadcast_to(v, u.shape)], axis=-1).reshape(-1, 2)
        vertices = self.place(grid, side, height).reshape(-1, 3)
        return outward(
            Mesh(vertices_mm=vertices, faces=grid_faces(rows, columns), uv=uv)
        )

    def slab(self, plan: Array, height: Array, thick: Array, box: Array) -> Mesh:
        """Return a thin closed fin.

        Parameters
        ----------
        plan
            (rows, columns, 2) station and side in mm, base to margin along rows.
        height, thick
            (rows, columns) middle height and half-thickness in mm.
        box
            Texture rectangle (u0, v0, u1, v1).
        """
        rows, columns = height.shape
        floor = self.spec.base_mm + 0.08
        low = np.maximum(height - thick, floor)
        high = np.maximum(height + thick, low + 0.05)
        u, v = np.meshgrid(
            np.linspace(box[0], box[2], rows),
            np.linspace(box[1], box[3], columns),
            indexing="ij",
        )
        uv = np.stack([u, v], axis=-1).reshape(-1, 2)
        top = self.place(plan[..., 0], plan[..., 1], high).reshape(-1, 3)
        bottom = self.place(plan[..., 0], plan[..., 1], low).reshape(-1, 3)
        faces = grid_faces(rows, columns)
        index = np.arange(rows * columns).reshape(rows, columns)
        rim = np.concatenate(
            [index[0, :-1], index[:-1, -1], index[-1, :0:-1], index[:0:-1, 0]]
        )
        following = np.roll(rim, -1)
        count = rows * columns
        skirt = np.concatenate(
            [
                np.column_stack([rim, rim + count, following + count]),
                np.column_stack([rim, following + count, following]),
            ]
        )
        return outward(
            Mesh(
                vertices_mm=np.vstack([top, bottom]),
                faces=np.vstack([faces, faces[:, ::-1] + count, skirt]),
                uv=np.vstack([uv, uv]),
            )
        )
