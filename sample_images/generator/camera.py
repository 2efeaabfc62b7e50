"""A phone camera above the board: exact projection and exact rays."""

from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

FULL_FRAME_DIAGONAL_MM = 43.27  # 36 x 24 mm


@dataclass(frozen=True, slots=True, kw_only=True)
class CameraSpec:
    """What a scene asks of its camera; angles in degrees, lengths in mm."""

    width_px: int
    height_px: int
    focal_per_width: float = 0.74
    height_mm: float = 600.0
    tilt_deg: float = 0.0
    tilt_towards_deg: float = 90.0
    roll_deg: float = 0.0
    aim_mm: tuple[float, float] = (0.0, 0.0)
    k1: float = 0.0
    write_focal: bool = True


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Camera:
    """Pinhole with one radial term: x_d = x (1 + k1 r^2), as in OpenCV."""

    width_px: int
    height_px: int
    focal_px: float
    centre_px: tuple[float, float]
    k1: float
    position_mm: Array
    rotation: Array  # rows: right, down, forward in scene coordinates
    tilt_deg: float
    write_focal: bool

    @classmethod
    def from_spec(cls, spec: CameraSpec) -> Self:
        """Return the camera that looks at ``aim_mm`` from ``height_mm``."""
        tilt, towards = np.radians([spec.tilt_deg, spec.tilt_towards_deg])
        forward = np.array(
            [
                np.sin(tilt) * np.cos(towards),
                np.sin(tilt) * np.sin(towards),
                -np.cos(tilt),
            ]
        )
        right = np.cross(forward, [0.0, 1.0, 0.0])
        right /= np.linalg.norm(right)
        down = np.cross(forward, right)
        c, s = np.cos(np.radians(spec.roll_deg)), np.sin(np.radians(spec.roll_deg))
        right, down = c * right + s * down, c * down - s * right
        aim = np.array([*spec.aim_mm, 0.0])
        return cls(
            width_px=spec.width_px,
            height_px=spec.height_px,
            focal_px=spec.focal_per_width * max(spec.width_px, spec.height_px),
            centre_px=((spec.width_px - 1) / 2, (spec.height_px - 1) / 2),
            k1=spec.k1,
            position_mm=aim - forward * spec.height_mm / np.cos(tilt),
            rotation=np.stack([right, down, forward]),
            tilt_deg=spec.tilt_deg,
            write_focal=spec.write_focal,
        )

    @property
    def focal_35mm(self) -> int:
        """35 mm-equivalent focal length by the diagonal, whole mm as in EXIF."""
        diagonal = float(np.hypot(self.width_px, self.height_px))
        return round(self.focal_px * FULL_FRAME_DIAGONAL_MM / diagonal)

    def project(self, points_mm: Array) -> Array:
        """Return (n, 2) photo pixels of (n, 3) scene points."""
        local = (points_mm - self.position_mm) @ self.rotation.T
        flat = local[:, :2] / local[:, 2:]
        radius_squared = np.sum(flat**2, axis=1, keepdims=True)
        distorted = flat * (1.0 + self.k1 * radius_squared)
        pixels: Array = distorted * self.focal_px + np.array(self.centre_px)
        return pixels

    def to_board(self, points_px: Array) -> Array:
        """Return (n, 2) board points (z = 0) under photo pixels."""
        distorted = (points_px - np.array(self.centre_px)) / self.focal_px
        flat = distorted
        for _ in range(12):
            flat = distorted / (1.0 + self.k1 * np.sum(flat**2, axis=1, keepdims=True))
        rays = np.column_stack([flat, np.ones(len(flat))]) @ self.rotation
        steps = -self.position_mm[2] / rays[:, 2]
        board: Array = self.position_mm[:2] + steps[:, None] * rays[:, :2]
        return board

    def frame_on_board(self) -> Array:
        """Return (n, 2) outline of the photo on the board."""
        w, h = self.width_px - 1, self.height_px - 1
        steps = np.linspace(0, 1, 12, endpoint=False)
        sides = [
            np.column_stack([steps * w, 0 * steps]),
            np.column_stack([0 * steps + w, steps * h]),
            np.column_stack([w - steps * w, 0 * steps + h]),
            np.column_stack([0 * steps, h - steps * h]),
        ]
        return self.to_board(np.vstack(sides))
