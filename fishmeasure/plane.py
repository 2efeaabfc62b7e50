"""The plane on which the fish lie, as the camera sees it.

World coordinates are millimetres on the plane: X to the right and Y down as
seen from the camera, Z towards the camera (a point of height h above the plane
has Z = +h). ``rotation`` and ``translation_mm`` map (X, Y, -Z) to camera
coordinates (x right, y down, z forward), so that the system is right-handed as
in OpenCV; use the methods below instead of the numbers.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from fishmeasure.arrays import FloatArray
from fishmeasure.uncertainty import UncertaintySource

ScaleMethod = Literal["sheet", "loose-markers", "single-marker", "known-distance"]
FocalSource = Literal["lens-profile", "exif", "markers", "typical"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CameraModel:
    """Pinhole with one radial coefficient; pixels of the displayed photo.

    ``x_distorted = x (1 + k1 r^2)`` in normalised coordinates (Brown 1966, first
    radial term only).
    """

    focal_px: float
    centre_x_px: float
    centre_y_px: float
    k1: float = 0.0
    focal_relative_sd: float = 0.0
    focal_source: FocalSource = "typical"

    def normalise(self, points_px: FloatArray) -> FloatArray:
        """Return (n, 2) undistorted normalised coordinates."""
        centre = np.array([self.centre_x_px, self.centre_y_px])
        distorted: FloatArray = (points_px - centre) / self.focal_px
        if self.k1 == 0.0:
            return distorted
        undistorted = distorted
        for _ in range(8):  # fixed point; |k1| r^2 < 0.1 converges to 1e-9 by then
            radius_squared: FloatArray = np.sum(undistorted**2, axis=1, keepdims=True)
            undistorted = distorted / (1.0 + self.k1 * radius_squared)
        return undistorted

    def project(self, normalised: FloatArray) -> FloatArray:
        """Return (n, 2) pixels of normalised coordinates."""
        radius_squared: FloatArray = np.sum(normalised**2, axis=1, keepdims=True)
        distorted: FloatArray = normalised * (1.0 + self.k1 * radius_squared)
        centre = np.array([self.centre_x_px, self.centre_y_px])
        points_px: FloatArray = distorted * self.focal_px + centre
        return points_px


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaneScale:
    """Where the plane is, how large things on it are, and how sure that is.

    Attributes
    ----------
    method, marker_ids
        What the scale came from.
    camera
        Intrinsics used.
    rotation, translation_mm
        (3, 3) and (3,), see the module docstring.
    tilt_deg
        Angle between the optical axis and the plane's normal.
    camera_height_mm
        Distance of the camera centre from the plane.
    px_per_mm
        Scale at the middle of the markers.
    relative_se
        Standard error of a length on the plane, as a fraction, amid the markers.
    rms_residual_mm
        Of the marker corners about the fitted plane.
    markers_px
        (m, 4, 2) corner positions in the photo, clockwise from each marker's own
        top-left, so that other stages can leave the markers out.
    paper_px
        Polygons (k, 2) of white paper known to be there (sheet or cards), photo
        pixels; they may run out of the photo.
    sources
        Causes of scale error, scope "photo" or "sample".
    """

    method: ScaleMethod
    marker_ids: tuple[int, ...]
    camera: CameraModel
    rotation: FloatArray
    translation_mm: FloatArray
    tilt_deg: float
    camera_height_mm: float
    px_per_mm: float
    relative_se: float
    rms_residual_mm: float
    markers_px: FloatArray
    paper_px: tuple[FloatArray, ...] = ()
    sources: tuple[UncertaintySource, ...] = ()

    def to_plane_mm(
        self, points_px: FloatArray, height_mm: FloatArray | float = 0.0
    ) -> FloatArray:
        """Return (n, 2) world X, Y of photo points that lie ``height_mm`` up.

        ``height_mm`` is one number or (n,). This is the parallax correction: a
        point above the plane seen as if on it looks too far from the foot of the
        camera.
        """
        rays = np.column_stack(
            [self.camera.normalise(points_px), np.ones(len(points_px))]
        )
        directions = rays @ self.rotation  # rows are R^T ray
        origin = -self.rotation.T @ self.translation_mm
        steps: FloatArray = (-np.asarray(height_mm) - origin[2]) / directions[:, 2]
        points_mm: FloatArray = origin[:2] + steps[:, None] * directions[:, :2]
        return points_mm

    def to_photo_px(
        self, points_mm: FloatArray, height_mm: FloatArray | float = 0.0
    ) -> FloatArray:
        """Return (n, 2) photo points of world X, Y at ``height_mm``."""
        heights = np.broadcast_to(np.asarray(height_mm, dtype=float), len(points_mm))
        world = np.column_stack([points_mm, -heights])
        camera = world @ self.rotation.T + self.translation_mm
        return self.camera.project(camera[:, :2] / camera[:, 2:])
