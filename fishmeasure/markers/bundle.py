"""Camera and plane from all marker corners at once, with their covariance.

Unknowns: log focal length, k1, rotation (3), translation (3), and for loose cards
each further card's place and angle on the plane (3; the first card is the frame).
Corners and priors are weighted by their standard deviations, so that a weak
geometry falls back on what is known of the camera instead of running away (a bare
homography of one marker extrapolates badly).
"""

from dataclasses import dataclass

import cv2
import numpy as np
from scipy.optimize import least_squares

from fishmeasure.arrays import FloatArray
from fishmeasure.markers.camera import CameraPrior
from fishmeasure.markers.edges import FittedMarker
from fishmeasure.markers.layout import Layout
from fishmeasure.plane import CameraModel, turned

CORNER_FLOOR_PX = 0.05
"""Of a corner, beyond the scatter of its edges: the fit's bias on drawn scenes with
|k1| = 0.1, where a homography of one marker cannot follow the lens."""

PRINT_FLOOR_MM = 0.1
"""Of a corner's place on paper: printer's placement and paper that does not lie
quite flat (rule of thumb, no source)."""

CAMERA_PARAMETERS = 8


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solution:
    """The best fit of one layout.

    Attributes
    ----------
    camera, rotation, translation_mm
        See ``fishmeasure.plane``.
    covariance
        (8, 8) of log focal length, k1, rotation vector (applied from the left),
        translation.
    corners_mm
        (m, 4, 2) on the plane.
    chi2, freedom
        Weighted sum of squares, priors included, and degrees of freedom.
    residuals_mm
        (m, 4, 2) of the corners, observed less fitted, on the plane.
    """

    layout: Layout
    camera: CameraModel
    rotation: FloatArray
    translation_mm: FloatArray
    covariance: FloatArray
    corners_mm: FloatArray
    chi2: float
    freedom: int
    residuals_px: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Problem:
    """One least-squares problem; unknowns are steps from a start, near 1 in size."""

    observed: FloatArray  # (m, 4, 2)
    sd_px: FloatArray  # (m, 1, 1)
    model_mm: FloatArray  # (m, 4, 2), about the own middle for loose cards
    places: FloatArray  # (m - 1, 3) start of x, y, angle, or (0, 3)
    rotation: FloatArray
    translation: FloatArray
    prior: CameraPrior

    @property
    def scales(self) -> FloatArray:
        distance = float(np.linalg.norm(self.translation))
        camera = [self.prior.focal_relative_sd, self.prior.k1_sd]
        pose = [0.1] * 3 + [0.05 * distance] * 3
        return np.array(camera + pose + [10.0, 10.0, 0.1] * len(self.places))

    def unpack(
        self, steps: FloatArray
    ) -> tuple[CameraModel, FloatArray, FloatArray, FloatArray]:
        """Return camera, rotation, translation and (m, 4, 2) corners in mm."""
        values = steps * self.scales
        camera = self.prior.model(
            self.prior.focal_px * float(np.exp(values[0])),
            self.prior.k1 + float(values[1]),
        )
        rotation = turned(self.rotation, values[2:5])
        translation = self.translation + values[5:8]
        corners = self.model_mm
        if len(self.places):
            places = self.places + values[8:].reshape(-1, 3)
            places = np.vstack([np.zeros(3), places])
            cos, sin = np.cos(places[:, 2]), np.sin(places[:, 2])
            turn = np.stack([np.stack([cos, sin], -1), np.stack([-sin, cos], -1)], -2)
            corners = corners @ turn + places[:, None, :2]
        return camera, rotation, translation, corners

    def residuals(self, steps: FloatArray) -> FloatArray:
        camera, rotation, translation, corners = self.unpack(steps)
        rays = corners.reshape(-1, 2) @ rotation[:, :2].T + translation
        points = camera.project(rays[:, :2] / rays[:, 2:])
        misfit = (points.reshape(self.observed.shape) - self.observed) / self.sd_px
        priors = steps[:2]  # in units of their own standard deviations
        return np.concatenate([misfit.ravel(), priors])


def solve(
    markers: tuple[FittedMarker, ...],
    layout: Layout,
    prior: CameraPrior,
    print_scale: float = 1.0,
) -> tuple[Solution, ...]:
    """Return the fits of a layout to markers, best first.

    More than one where a second pose explains the corners at its own minimum, as
    for a single marker seen from far away (the planar pose ambiguity).
    """
    solutions = [
        _optimise(problem, layout)
        for problem in _starts(markers, layout, prior, print_scale)
    ]
    return tuple(sorted(solutions, key=lambda solution: solution.chi2))


def corner_sd_px(marker: FittedMarker, side_mm: float) -> float:
    """Return the standard deviation of one corner coordinate."""
    sides = np.linalg.norm(
        np.roll(marker.corners_px, -1, axis=0) - marker.corners_px, axis=1
    )
    print_px = PRINT_FLOOR_MM * float(sides.mean()) / side_mm
    noise = float(np.mean(np.diag(marker.covariance_px2)))
    return float(np.sqrt(noise + CORNER_FLOOR_PX**2 + print_px**2))


def _starts(
    markers: tuple[FittedMarker, ...],
    layout: Layout,
    prior: CameraPrior,
    print_scale: float,
) -> list[_Problem]:
    model = np.stack([layout.corners_mm(m.marker_id) for m in markers]) * print_scale
    observed = np.stack([m.corners_px for m in markers])
    sd = np.array([corner_sd_px(m, layout.sides_mm[m.marker_id]) for m in markers])
    camera = prior.model(prior.focal_px, prior.k1)
    rays = camera.normalise(observed.reshape(-1, 2)).reshape(observed.shape)
    used = slice(None) if layout.is_fixed else slice(0, 1)
    problems = []
    for rotation, translation in _poses(model[used], rays[used]):
        places = (
            np.empty((0, 3))
            if layout.is_fixed
            else _places(rays[1:], rotation, translation)
        )
        problems.append(
            _Problem(
                observed=observed,
                sd_px=sd[:, None, None],
                model_mm=model,
                places=places,
                rotation=rotation,
                translation=translation,
                prior=prior,
            )
        )
    return problems


def _poses(
    model_mm: FloatArray, rays: FloatArray
) -> list[tuple[FloatArray, FloatArray]]:
    """Return the one or two poses of a planar target (Collins & Bartoli 2014)."""
    points = np.column_stack([model_mm.reshape(-1, 2), np.zeros(model_mm.size // 2)])
    centre = points.mean(axis=0)
    _, rotations, translations, _ = cv2.solvePnPGeneric(
        points - centre,
        rays.reshape(-1, 1, 2),
        np.eye(3),
        None,
        flags=cv2.SOLVEPNP_IPPE,
    )
    poses = []
    for vector, translation in zip(rotations, translations, strict=True):
        rotation = np.asarray(cv2.Rodrigues(vector)[0], dtype=np.float64)
        poses.append((rotation, np.asarray(translation).ravel() - rotation @ centre))
    return poses


def _places(
    rays: FloatArray, rotation: FloatArray, translation: FloatArray
) -> FloatArray:
    """Return (k, 3) x, y, angle on the plane of markers seen along ``rays``."""
    if len(rays) == 0:
        return np.empty((0, 3))
    directions = np.concatenate([rays, np.ones((*rays.shape[:2], 1))], axis=2)
    directions = directions @ rotation
    origin = -rotation.T @ translation
    steps = -origin[2] / directions[:, :, 2:]
    corners = origin[:2] + steps * directions[:, :, :2]
    edge = corners[:, 1] - corners[:, 0] + corners[:, 2] - corners[:, 3]
    angle = np.arctan2(edge[:, 1], edge[:, 0])
    return np.column_stack([corners.mean(axis=1), angle])


def _optimise(problem: _Problem, layout: Layout) -> Solution:
    result = least_squares(
        problem.residuals, np.zeros(len(problem.scales)), method="lm", x_scale=1.0
    )
    camera, rotation, translation, corners = problem.unpack(result.x)
    chi2 = 2.0 * float(result.cost)
    freedom = max(problem.observed.size + 2 - len(result.x), 1)
    scatter = max(1.0, chi2 / freedom)
    jacobian = np.asarray(result.jac, dtype=np.float64)
    inverse = np.linalg.pinv(jacobian.T @ jacobian, hermitian=True)
    covariance = inverse * np.outer(problem.scales, problem.scales) * scatter
    misfit = np.asarray(result.fun[:-2]).reshape(problem.observed.shape)
    return Solution(
        layout=layout,
        camera=camera,
        rotation=rotation,
        translation_mm=translation,
        covariance=covariance[:CAMERA_PARAMETERS, :CAMERA_PARAMETERS],
        corners_mm=corners,
        chi2=chi2,
        freedom=freedom,
        residuals_px=misfit * problem.sd_px,
    )
