"""A live fish, upright in the water: its back is what the camera sees."""

from functools import cached_property

import numpy as np

from sample_images.generator import fins
from sample_images.generator.fish import Array, Body, FishSpec, Swim
from sample_images.generator.mesh import Mesh, grid_faces, join

_NOWHERE_MM = -1e6  # an upright fish lies on nothing


class SwimmingBody(Body):
    """A body whose depth is upright and whose thickness lies across the view."""

    @cached_property
    def axis_mm(self) -> float:
        """Height of the axis at the middle such that the belly keeps its distance."""
        station = np.linspace(0, self.family.body_end, 400)
        _, ventral, _ = self.halves_mm(station)
        lowest = float(np.min(self._climb_mm(station) - ventral))
        return self._swim.belly_mm - lowest

    @property
    def _swim(self) -> Swim:
        swim = self.spec.swim
        if swim is None:
            message = "the fish does not swim"
            raise ValueError(message)
        return swim

    def _climb_mm(self, station: Array) -> Array:
        climb: Array = (0.45 - station) * self.scale
        return climb * np.sin(np.radians(self._swim.pitch_deg))

    @property
    def floor_mm(self) -> float:
        """Nothing cuts an upright fish off."""
        return _NOWHERE_MM

    def fallen_mm(self, flank_mm: Array) -> Array:
        """Return the middle plane: fins stand in it."""
        return np.zeros_like(flank_mm)

    def mid_height_mm(self, station: Array) -> Array:
        """Return the middle plane's distance from itself: none."""
        return np.zeros_like(station)

    def place(self, station: Array, side_mm: Array, height_mm: Array) -> Array:
        """Return scene points; ``height_mm`` counts across, ``side_mm`` upwards."""
        stations, points, headings = self._axis
        roll = np.radians(self._swim.roll_deg)
        off = height_mm * np.cos(roll) - side_mm * np.sin(roll)
        up = height_mm * np.sin(roll) + side_mm * np.cos(roll)
        x = np.interp(station, stations, points[:, 0])
        y = np.interp(station, stations, points[:, 1])
        heading = np.interp(station, stations, headings)
        z = self.axis_mm + self._climb_mm(station) + up
        return np.stack(
            [x - np.sin(heading) * off, y + np.cos(heading) * off, z], axis=-1
        )

    def midline_mm(self, count: int = 41) -> Array:
        """Return (count, 3) points of the axis from snout to fork."""
        station = np.linspace(0, 1, count)
        return self.place(station, np.zeros(count), np.zeros(count))

    def footprint_mm(self) -> Array:
        """Return (n, 3) outline of body and pectoral fins seen from above."""
        station = np.linspace(0, 1 + self.spec.fork_depth, 60)
        _, _, thick = self.halves_mm(station)
        from_gill = station - self.family.gill
        arms = (from_gill > 0) & (from_gill < 0.11)
        wide = np.maximum(thick, 0.01 * self.scale) + arms * 0.06 * self.scale
        zero = np.zeros_like(station)
        upper, lower = self.place(station, zero, wide), self.place(station, zero, -wide)
        return np.vstack([upper, lower[::-1]])

    def tail_tip_mm(self) -> Array:
        """Return (1, 3) tip of the upper lobe, the hindmost part seen from above."""
        across = np.linspace(0, 1, 201)
        reach = fins.tail_margin(self, across)
        if self.spec.fork_depth == 0:
            across, reach = across[:1], reach[:1]
        hindmost = int(np.argmax(reach))
        side = across[hindmost : hindmost + 1] * self.spec.tail_spread * self.scale
        return self.place(reach[hindmost : hindmost + 1], side, np.zeros(1))

    def top_mm(self) -> float:
        """Return how high body and fins reach at most."""
        station = np.linspace(0, self.family.body_end, 200)
        dorsal, _, _ = self.halves_mm(station)
        back = float(np.max(dorsal + self._climb_mm(station)))
        fin = max((f.reach[0] for f in self.family.fins), default=0.0) * self.scale
        return self.axis_mm + back + 0.8 * fin


def body_of(spec: FishSpec) -> Body:
    """Return the geometry of a fish that lies or swims."""
    return Body(spec) if spec.swim is None else SwimmingBody(spec)


def _spread_pectoral(body: SwimmingBody, sign: float) -> Mesh:
    """Return a pectoral fin held out from the body."""
    rows, columns = 17, 15
    rng = np.random.default_rng(body.spec.seed + (11 if sign > 0 else 12))
    sweep = np.radians(float(rng.uniform(25, 75)))
    reach = float(rng.uniform(0.085, 0.115)) * body.family.pectoral[1] ** 0.5
    along = np.linspace(0, 1, rows)[:, None]
    across = np.linspace(-1, 1, columns)[None, :]
    half = 0.30 * reach * np.sin(np.pi * (0.10 + 0.78 * along)) * across
    root = body.family.gill + 0.012
    station = root + reach * along * np.sin(sweep) + half * np.cos(sweep)
    _, ventral, thick = body.halves_mm(np.full((1, 1), root))
    out = 0.9 * thick + (reach * along * np.cos(sweep) - half * np.sin(sweep)) * (
        body.scale
    )
    side = -0.45 * ventral - 0.25 * reach * body.scale * along + 0 * across
    box = fins.PALE_FIN_BOX
    u = box[0] + (box[2] - box[0]) * along + 0 * across
    v = box[1] + (box[3] - box[1]) * (across + 1) / 2 + 0 * along
    return Mesh(
        vertices_mm=body.place(station, side, sign * out).reshape(-1, 3),
        faces=grid_faces(rows, columns),
        uv=np.stack([u, v], axis=-1).reshape(-1, 2),
    )


def whole_swimmer(body: SwimmingBody) -> Mesh:
    """Return body, fins and both eyes as one mesh over one texture."""
    return join(
        [
            fins.skinned_trunk(body),
            fins.caudal(body),
            *(fins.edge_fin(body, fin) for fin in body.family.fins),
            _spread_pectoral(body, 1.0),
            _spread_pectoral(body, -1.0),
            fins.eye(body),
            fins.eye(body, mirrored=True),
        ]
    )


def mesh_of(body: Body) -> Mesh:
    """Return a fish with its fins, lying or swimming."""
    if isinstance(body, SwimmingBody):
        return whole_swimmer(body)
    return fins.whole_fish(body)
