"""A fish lying on its side: solid body, thin fins, bent or straight.

Body stations run from 0 at the snout tip to 1 at the middle of the tail fork (of the
tail's margin where it has none), as a fraction of the fork length along the mid-line.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from sample_images.generator.kinds import shape_of
from sample_images.generator.mesh import Mesh, grid_faces, outward

Array = NDArray[np.float64]

DENSITY_G_PER_MM3 = 1.03e-3  # near that of water, as a live fish's must be
SMALL_MM = 70.0  # shorter fish are built of fewer faces
BEND_FROM = 0.22  # head and tail fin stay stiff
STIFF_STEM = 0.025  # of the tail's stem before the end of the spine


@dataclass(frozen=True, slots=True, kw_only=True)
class Posture:
    """How high snout and fork lie, as shares of half the greatest thickness.

    Stiff fish carry both ends in the air, limp ones lay them down. Drawn per photo,
    since the fish of one net have been dead for as long as each other.
    """

    snout: float
    fork: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Tail:
    """How much the tail hides (1: all), its splits, and how deep they reach."""

    opacity: float = 1.0
    splits: int = 0
    split_depth: float = 0.0

    @property
    def whole(self) -> bool:
        """Say whether it is as dense as the body, without a split."""
        return self.opacity == 1.0 and self.splits == 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Swim:
    """How a live fish holds itself; ``belly_mm`` is its height over the floor."""

    belly_mm: float
    pitch_deg: float = 0.0
    roll_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FishSpec:
    """One fish: size, build, bend, pose and skin.

    ``depth_ratio`` (greatest depth over fork length) follows from the weight and
    ``thickness_ratio`` (thickness over depth), see :func:`depth_ratio_for`.
    ``droop`` 0 keeps the tail at the height of the mid-plane, 1 lays it down; a
    ``posture`` says instead how high the ends lie, and ``rest_mm`` how high the axis
    is at snout and fork of a stiff fish that leans on others. ``gape_deg`` opens the
    mouth. Fish of a higher ``layer`` lie on those of a lower one.
    """

    fork_length_mm: float
    weight_g: float
    depth_ratio: float
    thickness_ratio: float
    skin: str
    seed: int
    family: str = "trout"
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
    posture: Posture | None = None
    tail: Tail = field(default_factory=Tail)
    gape_deg: float = 0.0
    rest_mm: tuple[float, float] | None = None
    layer: int = 0
    swim: Swim | None = None


def depth_ratio_for(
    fork_length_mm: float, weight_g: float, thickness: float, family: str = "trout"
) -> float:
    """Return the depth ratio at which the body's volume has this weight."""
    shape = shape_of(family)
    station = np.linspace(0, shape.body_end, 2000)
    dorsal, ventral, thick = shape.halves(station)
    # ellipse halves: pi t (d + v) / 2, with d + v = depth * shape, t = depth * r / 2
    area = (
        np.pi
        / 4
        * shape.section_area
        * thickness
        * thick
        * (dorsal + ventral)
        / shape.depth
    )
    unit_volume = float(np.trapezoid(area, station))
    volume = weight_g / DENSITY_G_PER_MM3 / fork_length_mm**3
    return float(np.sqrt(volume / unit_volume))


class Body:
    """Geometry of one fish; all methods work in scene millimetres."""

    def __init__(self, spec: FishSpec) -> None:
        self.spec = spec
        self.scale = spec.fork_length_mm
        self.family = shape_of(spec.family)
        self.depth_gain = spec.depth_ratio / self.family.depth
        self.half_thickness_mm = (
            spec.depth_ratio * spec.thickness_ratio * self.scale / 2
        )
        self._axis = self._bent_axis()

    def _bent_axis(self) -> tuple[Array, Array, Array]:
        """Return stations, (n, 2) axis points and headings along the fish."""
        station = np.linspace(-0.05, 1.2, 1251)
        bend_to = round(self.family.caudal_base - STIFF_STEM, 6)
        inside = (station > BEND_FROM) & (station < bend_to)
        phase = (station - BEND_FROM) / (bend_to - BEND_FROM)
        # Curvature rises and falls smoothly, as in a fish that stiffens in ice.
        curvature = np.where(inside, np.sin(np.pi * phase) * np.pi / 2, 0.0)
        if self.spec.s_shape:
            curvature = np.where(inside, np.sin(2 * np.pi * phase) * np.pi, 0.0)
        step = station[1] - station[0]
        total = np.radians(self.spec.bend_deg) / (bend_to - BEND_FROM)
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
        dorsal, ventral, thick = self.family.halves(station)
        gain = self.depth_gain * self.scale
        return dorsal * gain, ventral * gain, thick * self.half_thickness_mm

    def mid_height_mm(self, station: Array) -> Array:
        """Return the height of the body's middle plane above the board.

        Stiff, it would lie level at half the greatest thickness; limp, each part
        would touch the board. Head and tail sink by ``droop``.
        """
        _, _, thick = self.halves_mm(station)
        if self.spec.rest_mm is not None:
            snout, fork = self.spec.rest_mm
            return snout + (fork - snout) * np.minimum(station, 1.0)
        if self.spec.posture is not None:
            return self._held_height_mm(self.spec.posture, station, thick)
        towards_tail = np.clip((station - 0.35) / 0.55, 0, 1)
        towards_head = np.clip((0.30 - station) / 0.30, 0, 1)
        limp = self.spec.droop * (3 * towards_tail**2 - 2 * towards_tail**3)
        limp = limp + 0.5 * self.spec.droop * towards_head**2
        height = self.half_thickness_mm * (1 - limp) + np.maximum(thick, 0.6) * limp
        end = self.family.body_end
        in_fin = np.clip((station - end) / (1 - end), 0, 1)
        height = height + (0.6 - height) * in_fin * (0.4 + 0.6 * self.spec.droop)
        return height + self.spec.base_mm

    def _held_height_mm(self, posture: Posture, station: Array, thick: Array) -> Array:
        """Return the middle plane's height of a fish held by its posture."""
        half, thickest = self.half_thickness_mm, self.family.thickest
        forward = np.clip(1 - station / thickest, 0, 1)
        back = np.clip((station - thickest) / (1 - thickest), 0, 1)
        share = 1 - (1 - posture.snout) * forward**1.6 - (1 - posture.fork) * back**1.4
        # Flesh gives way where it lies on the board, but not by more than a fifth.
        in_body = np.where(station < self.family.body_end, 0.8 * thick, 0.0)
        height: Array = np.maximum(half * share, in_body) + self.spec.base_mm
        return height

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

    @property
    def floor_mm(self) -> float:
        """What the fish lies on; flesh and fins end there."""
        return self.spec.base_mm

    def fallen_mm(self, flank_mm: Array) -> Array:
        """Return the height at which the tips of limp fins lie."""
        if self.spec.rest_mm is not None:  # aslope on others: they hang a little
            return flank_mm - 0.6 * self.half_thickness_mm
        return np.asarray(self.floor_mm + 0.5)

    def footprint_mm(self) -> Array:
        """Return (n, 3) outline of body and fins on the board, a little generous."""
        station = np.linspace(0, 1 + self.spec.fork_depth, 60)
        dorsal, ventral, _ = self.halves_mm(station)
        scale = self.scale
        fan = np.clip((station - 0.9) / 0.1, 0, 1) * self.spec.tail_spread * scale
        (b0, b1, above), (k0, k1, below) = self.family.back, self.family.keel
        back = np.where((station > b0) & (station < b1), above * scale, 0)
        keel = np.where((station > k0) & (station < k1), below * scale, 0)
        zero = np.zeros_like(station)
        upper = self.place(station, np.maximum(dorsal + back, fan), zero)
        lower = self.place(station, -np.maximum(ventral + keel, fan), zero)
        return np.vstack([upper, lower[::-1]])

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

    def jaw_left(self, station: Array) -> Array:
        """Return the share of the lower half that an open mouth leaves in place."""
        before = np.clip(1 - station / self.family.mouth, 0, 1)
        left: Array = 1 - 0.72 * np.clip(before / 0.25, 0, 1)
        return left

    def squared_depth_mm3(self, until: float) -> float:
        """Return the integral of the squared depth without fins along the axis."""
        station = np.linspace(0, until, 4001)
        dorsal, ventral, _ = self.halves_mm(station)
        return float(np.trapezoid((dorsal + ventral) ** 2, station * self.scale))

    def trunk(self, until: float | None = None) -> Mesh:
        """Return the closed body without fins, or its part up to a station."""
        rows, columns = (181, 73) if self.scale > SMALL_MM else (73, 37)
        root = np.linspace(0, np.sqrt(until or self.family.body_end), rows)
        station = root**2
        around = np.linspace(0, 2 * np.pi, columns)
        dorsal, ventral, thick = self.halves_mm(station)
        if self.spec.gape_deg > 0:  # the lower jaw is a solid of its own
            ventral = ventral * self.jaw_left(station)
        cosine, sine = np.cos(around), np.sin(around)
        side = np.where(cosine > 0, dorsal[:, None], ventral[:, None]) * cosine
        bulge = np.sign(sine) * np.abs(sine) ** self.family.section
        height = self.mid_height_mm(station)[:, None] + thick[:, None] * bulge
        height = np.maximum(height, self.floor_mm + 0.05)
        grid = np.broadcast_to(station[:, None], side.shape)
        u = grid / self.family.body_end
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
        floor = self.floor_mm + 0.08
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
