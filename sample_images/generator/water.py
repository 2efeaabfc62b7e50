"""Water over the bottom of a tub: its rippled surface and what is seen through it.

Light takes the path of stationary time (Fermat), which is Snell's law at the rippled
surface itself: no apparent depth, no z / n. The renderer traces its rays through a
mesh of the same surface with its own dielectric; `render_water.py` compares both.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

INDEX = 1.333  # fresh water, yellow light, 20 C (CRC handbook, from memory)
_STEPS = 6  # to under 1e-6 mm from the flat surface's guess


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterSpec:
    """Water in a tub.

    ``waves`` are (amplitude mm, kx, ky in rad/mm, phase); ``turbidity_per_mm`` the
    share of light lost a millimetre; ``colour`` that of the light scattered back.
    """

    depth_mm: float
    waves: tuple[tuple[float, float, float, float], ...] = ()
    turbidity_per_mm: float = 0.0
    colour: tuple[float, float, float] = (0.30, 0.36, 0.28)
    flakes: int = 0
    droppings: int = 0
    index: float = INDEX


def waves(
    rng: np.random.Generator, slope_rms: float, count: int = 14
) -> tuple[tuple[float, float, float, float], ...]:
    """Return ripples of all directions, 22 to 180 mm long, of one overall slope."""
    lengths = np.exp(rng.uniform(np.log(22), np.log(180), count))
    k = 2 * np.pi / lengths
    turn = rng.uniform(0, 2 * np.pi, count)
    # Each wave's share of the slope; short ones are the weaker.
    slopes = (lengths / 60) ** 0.5 * rng.uniform(0.5, 1.0, count)
    slopes *= slope_rms / np.sqrt(np.sum(slopes**2) / 2)
    phases = rng.uniform(0, 2 * np.pi, count)
    table = np.column_stack([slopes / k, k * np.cos(turn), k * np.sin(turn), phases])
    return tuple(tuple(row) for row in table.round(6).tolist())


class Surface:
    """The water's surface z = depth + the sum of its waves."""

    def __init__(self, spec: WaterSpec) -> None:
        self.spec = spec
        self._waves = np.array(spec.waves, dtype=np.float64).reshape(-1, 4)

    def _phase(self, x: Array, y: Array) -> Array:
        _, kx, ky, phase = self._waves.T
        angle: Array = x[..., None] * kx + y[..., None] * ky + phase
        return angle

    def height_mm(self, x: Array, y: Array) -> Array:
        """Return heights over the bottom."""
        swell = np.sin(self._phase(x, y)) @ self._waves[:, 0]
        height: Array = self.spec.depth_mm + swell
        return height

    def slopes(self, x: Array, y: Array) -> Array:
        """Return (..., 2) gradients."""
        amplitude, kx, ky, _ = self._waves.T
        cosine = np.cos(self._phase(x, y)) * amplitude
        return np.stack([cosine @ kx, cosine @ ky], axis=-1)

    def _curvatures(self, x: Array, y: Array) -> Array:
        """Return (..., 2, 2) second derivatives."""
        amplitude, kx, ky, _ = self._waves.T
        sine = -np.sin(self._phase(x, y)) * amplitude
        rows = [[sine @ (a * b) for b in (kx, ky)] for a in (kx, ky)]
        return np.stack([np.stack(row, axis=-1) for row in rows], axis=-2)

    def normals(self, x: Array, y: Array) -> Array:
        """Return (..., 3) upward unit normals."""
        slope = self.slopes(x, y)
        normal = np.concatenate([-slope, np.ones_like(slope[..., :1])], axis=-1)
        unit: Array = normal / np.linalg.norm(normal, axis=-1, keepdims=True)
        return unit

    def crossing_mm(self, points_mm: Array, eye_mm: Array) -> Array:
        """Return (n, 3) places where light from the points crosses to the eye.

        Points above the surface are returned as they are: they are seen directly.
        """
        share = (self.spec.depth_mm - points_mm[:, 2]) / (eye_mm[2] - points_mm[:, 2])
        flat = points_mm[:, :2] + (eye_mm[:2] - points_mm[:, :2]) * share[:, None] * 0.7
        for _ in range(_STEPS):
            flat = flat - self._newton(flat, points_mm, eye_mm)
        height = self.height_mm(flat[:, 0], flat[:, 1])
        crossing = np.column_stack([flat, height])
        under = points_mm[:, 2] < self.height_mm(points_mm[:, 0], points_mm[:, 1])
        return np.where(under[:, None], crossing, points_mm)

    def _newton(self, flat: Array, points_mm: Array, eye_mm: Array) -> Array:
        """Return the step towards the path of stationary time."""
        x, y = flat[:, 0], flat[:, 1]
        place = np.column_stack([flat, self.height_mm(x, y)])
        slope = self.slopes(x, y)
        tangents = np.zeros((len(flat), 2, 3))
        tangents[:, 0, 0] = tangents[:, 1, 1] = 1.0
        tangents[:, :, 2] = slope
        pull = np.zeros((len(flat), 3))
        stiff = np.zeros((len(flat), 3, 3))
        for end, index in ((eye_mm[None], 1.0), (points_mm, self.spec.index)):
            way = place - end
            length = np.maximum(np.linalg.norm(way, axis=1, keepdims=True), 1e-6)
            unit = way / length
            pull += index * unit
            apart = np.eye(3) - unit[:, :, None] * unit[:, None, :]
            stiff += index * apart / length[:, :, None]
        force = np.einsum("nij,nj->ni", tangents, pull)
        bend = np.einsum("nij,njk,nlk->nil", tangents, stiff, tangents)
        bend += pull[:, 2, None, None] * self._curvatures(x, y)
        (a, b), (c, d) = bend[:, 0].T, bend[:, 1].T
        across = np.column_stack(
            [d * force[:, 0] - b * force[:, 1], a * force[:, 1] - c * force[:, 0]]
        )
        step: Array = across / (a * d - b * c)[:, None]
        size = np.linalg.norm(step, axis=1, keepdims=True)
        return step * np.minimum(1.0, 25.0 / np.maximum(size, 1e-9))
