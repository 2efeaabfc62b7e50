"""The plane on which the fish lie, as the camera sees it.

World coordinates are millimetres on the plane: X to the right and Y down as
seen from the camera, Z towards the camera (a point of height h above the plane
has Z = +h). ``rotation`` and ``translation_mm`` map (X, Y, -Z) to camera
coordinates (x right, y down, z forward), so that the system is right-handed as
in OpenCV; use the methods below instead of the numbers.
"""

from dataclasses import dataclass, field, replace
from typing import Annotated, Literal

import cv2
import numpy as np
from pydantic import Field, FiniteFloat

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.base.record import record
from fishmeasure.base.written import ArrayOf, rounded
from fishmeasure.photo.water import Water

ScaleMethod = Literal["sheet", "loose-markers", "single-marker", "known-distance"]
FocalSource = Literal["lens-profile", "exif", "markers", "typical"]
PolygonPx = Annotated[FloatArray, ArrayOf(-1, 2, digits=2)]
Point = Annotated[
    tuple[FiniteFloat, FiniteFloat],
    Field(
        description="[x, y] in pixels of the photo as displayed; (0, 0) is the centre "
        "of the top-left pixel, x to the right, y down.",
        examples=[[812.4, 640.9]],
    ),
]


@record(frozen=True, slots=True, kw_only=True)
class CameraModel:
    """Pinhole with one radial coefficient; pixels of the displayed photo.

    ``x_distorted = x (1 + k1 r^2)`` in normalised coordinates (Brown 1966, first
    radial term only).
    """

    focal_px: float
    centre_x_px: float
    centre_y_px: float
    k1: Annotated[
        float, Field(description="Radial coefficient, a fraction at radius 1.")
    ] = 0.0
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


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkerLook:
    """How the markers look in the photo, to judge it by.

    Attributes
    ----------
    side_raster_px
        Mean side of the smallest marker, in pixels of the decoded raster.
    blur_mm
        Standard deviation of the edges' blur, on the plane, worst direction.
    blur_cells
        The same in cells, a sixth of a marker's side.
    bloom_mm
        How far paper has bled into ink; negative where ink spread in print.
    contrast
        Ink to paper, in linear light from 0 to 1; of the worst marker.
    """

    side_raster_px: float
    blur_mm: float
    blur_cells: float
    bloom_mm: float
    contrast: float


def turned(rotation: FloatArray, vector: FloatArray) -> FloatArray:
    """Return the rotation turned by a small rotation vector (3,) of the camera."""
    turn, _ = cv2.Rodrigues(np.asarray(vector, dtype=np.float64))
    matrix: FloatArray = np.asarray(turn, dtype=np.float64) @ rotation
    return matrix


def carried_variance(gradients: FloatArray, covariance: FloatArray) -> FloatArray:
    """Return (n,) variances of the log scale, mean of the two directions.

    ``gradients`` is (n, 2, 8) as from ``PlaneScale.scale_gradients``.
    """
    variance = np.einsum("nai,ij,naj->na", gradients, covariance, gradients)
    mean: FloatArray = np.maximum(variance.mean(axis=1), 0.0)
    return mean


@record(frozen=True, slots=True, kw_only=True, eq=False)
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
        Root mean square over the middle two thirds of the photo, all ``sources``
        included. Where the fish lie see ``relative_se_at``.
    rms_residual_mm
        Of the marker corners about the fitted plane.
    markers_px
        (m, 4, 2) corner positions in the photo, clockwise from each marker's own
        top-left, so that other stages can leave the markers out.
    paper_px
        Polygons (k, 2) of white paper known to be there (sheet or cards), photo
        pixels; they may run out of the photo.
    sources
        Causes of scale error, scope "photo" or "sample"; the root of their summed
        squares is ``relative_se``.
    covariance
        (8, 8) of log focal length, k1, rotation vector applied from the left, and
        translation in mm.
    constant_relative_sd
        What the covariance does not hold: print scale, a second possible pose.
    look
        How the markers look; None without markers. Not kept: it judges the photo.
    print_scale_by_paper
        Print over nominal size as the paper's edges tell it, where that contradicts
        what was stated; else None.
    water
        What stands over the plane; pose and camera height are then apparent ones, as
        if seen in air (``photo.water``).
    """

    method: Annotated[ScaleMethod, Field(description="What the scale came from.")]
    marker_ids: Annotated[tuple[int, ...], Field(description="Markers used.")]
    tilt_deg: Annotated[
        float,
        rounded(2),
        Field(description="Tilt of the camera from straight down, degrees."),
    ]
    camera_height_mm: Annotated[
        float, rounded(1), Field(description="Of the camera over the plane, mm.")
    ]
    px_per_mm: Annotated[
        float, rounded(4), Field(description="Pixels per millimetre amid the markers.")
    ]
    relative_se: Annotated[
        float,
        rounded(5),
        Field(description="Standard error of a length on the plane, as a fraction."),
    ]
    rms_residual_mm: Annotated[
        float, rounded(4), Field(description="Of the corners about the plane, mm.")
    ]
    camera: Annotated[CameraModel, Field(description="Its intrinsics.")]
    rotation: Annotated[
        FloatArray, ArrayOf(3, 3), Field(description="From the plane to the camera.")
    ]
    translation_mm: Annotated[
        FloatArray, ArrayOf(3), Field(description="From the plane to the camera, mm.")
    ]
    markers_px: Annotated[
        FloatArray,
        ArrayOf(-1, 4, 2, digits=2),
        Field(description="Corners of each marker, pixels."),
    ]
    paper_px: Annotated[
        tuple[PolygonPx, ...],
        Field(description="White paper that is known to be there, pixels."),
    ] = ()
    sources: Annotated[
        tuple[UncertaintySource, ...],
        Field(description="What the scale's error comes from."),
    ] = ()
    covariance: Annotated[
        FloatArray,
        ArrayOf(8, 8),
        Field(
            description="Of log focal length, k1, rotation and translation; see "
            "`constant_relative_sd` for what it does not hold."
        ),
    ] = field(default_factory=lambda: np.zeros((8, 8)))
    constant_relative_sd: Annotated[
        float, Field(description="Of the scale, from print and pose, a fraction.")
    ] = 0.0
    look: Annotated[MarkerLook | None, Field(exclude=True)] = None
    print_scale_by_paper: Annotated[
        Annotated[float, rounded(4)] | None,
        Field(
            description="Printed over nominal size by the paper's edges, as "
            "a fraction, where that contradicts what was stated."
        ),
    ] = None
    water: Annotated[
        Water | None,
        Field(
            description="What stands over the plane; null in air. Camera height and "
            "pose are then those at which the plane would look the same in air."
        ),
    ] = None

    def relative_se_at(self, points_px: FloatArray) -> FloatArray:
        """Return (n,) standard errors, as a fraction, of lengths near (n, 2) points.

        The covariance carried to the local scale along and across; grows away
        from the markers.
        """
        variance = carried_variance(self.scale_gradients(points_px), self.covariance)
        total: FloatArray = np.sqrt(variance + self.constant_relative_sd**2)
        return total

    def scale_gradients(self, points_px: FloatArray) -> FloatArray:
        """Return (n, 2, 8) change of the log scale in x and y by each parameter."""
        gradients = np.zeros((len(points_px), 2, 8))
        around_px, span_px = self._around(points_px)
        rays = self.camera.normalise(around_px)
        for parameter, variance in enumerate(np.diag(self.covariance)):
            if variance > 0.0:
                step = 0.1 * float(np.sqrt(variance))
                plus, minus = (
                    self._log_scale_moved(parameter, sign * step, around_px, span_px)
                    if parameter < 2  # the camera's own
                    else self._log_scale_turned(parameter, sign * step, rays, span_px)
                    for sign in (1.0, -1.0)
                )
                gradients[:, :, parameter] = (plus - minus) / (2.0 * step)
        return gradients

    def _log_scale_moved(
        self, parameter: int, step: float, around_px: FloatArray, span_px: float
    ) -> FloatArray:
        """Return the log scale with the focal length or the lens changed."""
        camera = self.camera
        if parameter == 0:
            camera = replace(camera, focal_px=camera.focal_px * float(np.exp(step)))
        else:
            camera = replace(camera, k1=camera.k1 + step)
        rays = camera.normalise(around_px)
        return self._log_scale_of(rays, span_px, self.rotation, self.translation_mm)

    def _log_scale_turned(
        self, parameter: int, step: float, rays: FloatArray, span_px: float
    ) -> FloatArray:
        """Return the log scale with the camera turned or moved."""
        rotation, translation = self.rotation, self.translation_mm
        if parameter < 5:
            rotation = turned(rotation, np.eye(3)[parameter - 2] * step)
        else:
            translation = translation + np.eye(3)[parameter - 5] * step
        return self._log_scale_of(rays, span_px, rotation, translation)

    def log_scale(self, points_px: FloatArray) -> FloatArray:
        """Return (n, 2) natural log of mm per px along the photo's x and y."""
        around_px, span_px = self._around(points_px)
        rays = self.camera.normalise(around_px)
        return self._log_scale_of(rays, span_px, self.rotation, self.translation_mm)

    def _around(self, points_px: FloatArray) -> tuple[FloatArray, float]:
        """Return four points around each, and how far opposite ones are apart."""
        half = 0.01 * self.camera.focal_px  # local, yet far above rounding
        steps = np.array([[half, 0.0], [-half, 0.0], [0.0, half], [0.0, -half]])
        return (points_px[:, None, :] + steps).reshape(-1, 2), 2.0 * half

    def _log_scale_of(
        self,
        rays: FloatArray,
        span_px: float,
        rotation: FloatArray,
        translation_mm: FloatArray,
    ) -> FloatArray:
        """Return the log scale of a pose from the rays of points around each."""
        world = self._meet(rays, 0.0, rotation, translation_mm).reshape(-1, 2, 2, 2)
        gaps = world[:, :, 0] - world[:, :, 1]
        logs: FloatArray = np.log(np.hypot(gaps[..., 0], gaps[..., 1]) / span_px)
        return logs

    def to_plane_mm(
        self, points_px: FloatArray, height_mm: FloatArray | float = 0.0
    ) -> FloatArray:
        """Return (n, 2) world X, Y of photo points that lie ``height_mm`` up.

        ``height_mm`` is one number or (n,). This is the parallax correction: a
        point above the plane seen as if on it looks too far from the foot of the
        camera.
        """
        rays = self.camera.normalise(points_px)
        return self._meet(rays, height_mm, self.rotation, self.translation_mm)

    def _meet(
        self,
        rays: FloatArray,
        height_mm: FloatArray | float,
        rotation: FloatArray,
        translation_mm: FloatArray,
    ) -> FloatArray:
        """Return (n, 2) world X, Y where rays (n, 2) of a pose reach ``height_mm``."""
        # rows are R^T (x, y, 1)
        directions = rays @ rotation[:2] + rotation[2]
        origin = -rotation.T @ translation_mm
        if self.water is not None:
            slants = directions[:, :2] / directions[:, 2:]
            tangents = np.hypot(*slants.T)
            reach = self.water.reach_mm(tangents, -float(origin[2]), height_mm)
            under: FloatArray = origin[:2] + slants * _ratio(reach, tangents)[:, None]
            return under
        steps: FloatArray = (-np.asarray(height_mm) - origin[2]) / directions[:, 2]
        points_mm: FloatArray = origin[:2] + steps[:, None] * directions[:, :2]
        return points_mm

    def to_photo_px(
        self, points_mm: FloatArray, height_mm: FloatArray | float = 0.0
    ) -> FloatArray:
        """Return (n, 2) photo points of world X, Y at ``height_mm``."""
        heights = np.broadcast_to(np.asarray(height_mm, dtype=float), len(points_mm))
        if self.water is not None:
            points_mm = self._as_in_air(points_mm, heights)
            heights = np.zeros(len(points_mm))
        world = np.column_stack([points_mm, -heights])
        camera = world @ self.rotation.T + self.translation_mm
        return self.camera.project(camera[:, :2] / camera[:, 2:])

    def _as_in_air(self, points_mm: FloatArray, heights_mm: FloatArray) -> FloatArray:
        """Return where (n, 2) points at heights under water look to be on the plane."""
        if self.water is None:
            return points_mm
        origin = -self.rotation.T @ self.translation_mm
        away = points_mm - origin[:2]
        reach = np.hypot(*away.T)
        tangents = self.water.tangents(reach, -float(origin[2]), heights_mm)
        seen_mm = tangents * -float(origin[2])
        as_seen: FloatArray = origin[:2] + away * _ratio(seen_mm, reach)[:, None]
        return as_seen

    def seen_in_air_px(self, points_px: FloatArray) -> FloatArray:
        """Return where points on the plane would be in the photo without the water."""
        return replace(self, water=None).to_photo_px(self.to_plane_mm(points_px))


def _ratio(over: FloatArray, under: FloatArray) -> FloatArray:
    """Return the ratio of two reaches, of which near the axis only the limit exists."""
    small = 1e-9
    ratio: FloatArray = (over + small) / (under + small)
    return ratio
