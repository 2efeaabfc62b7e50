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

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.markers.camera import CameraPrior
from fishmeasure.photo.markers.edges import FittedMarker
from fishmeasure.photo.markers.layout import Layout
from fishmeasure.photo.plane import CameraModel, turned

CORNER_FLOOR_PX = 0.05
"""Of a corner, beyond the scatter of its edges: the fit's bias on drawn scenes with
|k1| = 0.1, where a homography of one marker cannot follow the lens."""

CARD_FLOOR_MM = 0.05
SHEET_FLOOR_MM = 0.1
"""Of a corner's place within one marker, and within a whole sheet that does not lie
quite flat: print and paper (rules of thumb, no source)."""

_HOPELESS = 4.0
"""Starts are left out whose corners miss by this many times the best start's miss.
The best start misses by what the focal length is off (12 % at 30 degrees of tilt:
some pixels), a wrong paper or the mirrored pose by tens."""

CAMERA_PARAMETERS = 8

_USUAL_FREEDOM = 6.0
"""Degrees of freedom that the corners' usual scatter counts beside that of the photo's
own, of which paper and ripples move those of one marker alike (rule of thumb, no
source)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solution:
    """The best fit of one layout from one start.

    Attributes
    ----------
    camera, rotation, translation_mm
        See ``fishmeasure.photo.plane``.
    covariance
        (8, 8) of log focal length, k1, rotation vector (applied from the left),
        translation.
    corners_mm
        (m, 4, 2) on the plane.
    chi2, freedom
        Weighted sum of squares, priors included, and degrees of freedom.
    residuals_px
        (m, 4, 2) of the corners, fitted less observed.
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

    def unpack(self, steps: FloatArray) -> "_State":
        """Return camera, pose and corners (m, 4, 2) in mm for the unknowns."""
        values = steps * self.scales
        places = np.vstack([np.zeros((1, 3)), self.places + values[8:].reshape(-1, 3)])
        cos, sin = np.cos(places[:, 2]), np.sin(places[:, 2])
        # Row vectors: corner @ turn.
        turn = np.array([[cos, sin], [-sin, cos]]).transpose(2, 0, 1)
        return _State(
            camera=self.prior.model(
                self.prior.focal_px * float(np.exp(values[0])),
                self.prior.k1 + float(values[1]),
            ),
            vector=values[2:5],
            rotation=turned(self.rotation, values[2:5]),
            translation=self.translation + values[5:8],
            corners=self.model_mm @ turn + places[:, None, :2],
        )

    def residuals_px(self) -> FloatArray:
        """Return misfits at the start, in pixels."""
        zeros = np.zeros(len(self.scales))
        return self.residuals(zeros)[:-2] * np.repeat(self.sd_px.ravel(), 8)

    def residuals(self, steps: FloatArray) -> FloatArray:
        """Return misfits and priors, each in its standard deviations."""
        state = self.unpack(steps)
        rays = state.rays()
        points = state.camera.project(rays[:, :2] / rays[:, 2:])
        misfit = (points.reshape(self.observed.shape) - self.observed) / self.sd_px
        return np.concatenate([misfit.ravel(), steps[:2]])

    def jacobian(self, steps: FloatArray) -> FloatArray:
        """Return the derivatives of ``residuals``."""
        state = self.unpack(steps)
        rays = state.rays()
        count = len(rays)
        to_px = _projection_jacobian(state.camera, rays)
        columns = np.zeros((count, 2, len(steps)))
        xy = rays[:, :2] / rays[:, 2:]
        centre = np.array([state.camera.centre_x_px, state.camera.centre_y_px])
        columns[:, :, 0] = state.camera.project(xy) - centre
        columns[:, :, 1] = state.camera.focal_px * xy * np.sum(xy**2, 1, keepdims=True)
        # A turn dw from the left moves a point by dw x point = -[point]x dw.
        turning = -_cross(rays - state.translation) @ _left_jacobian(state.vector)
        columns[:, :, 2:5] = to_px @ turning
        columns[:, :, 5:8] = to_px
        in_plane = to_px @ state.rotation[:, :2]
        about_middle = state.corners - state.corners.mean(axis=1, keepdims=True)
        spin = (about_middle[:, :, ::-1] * np.array([-1.0, 1.0])).reshape(-1, 2)
        for card in range(1, len(self.observed)):
            if not len(self.places):
                break
            rows, first = slice(4 * card, 4 * card + 4), 5 + 3 * card
            columns[rows, :, first : first + 2] = in_plane[rows]
            columns[rows, :, first + 2] = np.einsum(
                "nij,nj->ni", in_plane[rows], spin[rows]
            )
        columns *= self.scales
        columns /= np.repeat(self.sd_px, 4, axis=0).reshape(-1, 1, 1)
        priors = np.eye(2, len(steps))
        return np.concatenate([columns.reshape(2 * count, -1), priors])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _State:
    """The unknowns in their own units."""

    camera: CameraModel
    vector: FloatArray
    rotation: FloatArray
    translation: FloatArray
    corners: FloatArray

    def rays(self) -> FloatArray:
        """Return (4 m, 3) corners in camera coordinates."""
        rays: FloatArray = (
            self.corners.reshape(-1, 2) @ self.rotation[:, :2].T + self.translation
        )
        return rays


def _projection_jacobian(camera: CameraModel, rays: FloatArray) -> FloatArray:
    """Return (n, 2, 3) derivatives of pixels by camera coordinates."""
    x, y = (rays[:, :2] / rays[:, 2:]).T
    stretch = 1.0 + camera.k1 * (x**2 + y**2)
    cross = 2.0 * camera.k1 * x * y
    by_xy = np.array(
        [
            [stretch + 2.0 * camera.k1 * x**2, cross],
            [cross, stretch + 2.0 * camera.k1 * y**2],
        ]
    ).transpose(2, 0, 1)
    one, zero = np.ones_like(x), np.zeros_like(x)
    by_ray = np.array([[one, zero, -x], [zero, one, -y]]).transpose(2, 0, 1)
    jacobian: FloatArray = (
        by_xy @ by_ray * (camera.focal_px / rays[:, 2])[:, None, None]
    )
    return jacobian


def _cross(vectors: FloatArray) -> FloatArray:
    """Return (n, 3, 3) matrices that take the cross product with (n, 3) vectors."""
    x, y, z = vectors.T
    zero = np.zeros_like(x)
    rows = [[zero, -z, y], [z, zero, -x], [-y, x, zero]]
    return np.array(rows).transpose(2, 0, 1)


def _left_jacobian(vector: FloatArray) -> FloatArray:
    """Return d(turn)/d(vector) of a rotation vector (Chirikjian 2012, SO(3))."""
    angle = float(np.linalg.norm(vector))
    cross = _cross(vector[None])[0]
    if angle < 1e-6:
        return np.asarray(np.eye(3) + cross / 2.0)
    first = (1.0 - np.cos(angle)) / angle**2
    second = (angle - np.sin(angle)) / angle**3
    return np.asarray(np.eye(3) + first * cross + second * cross @ cross)


def solve(
    markers: tuple[FittedMarker, ...],
    layouts: tuple[Layout, ...],
    prior: CameraPrior,
    print_scale: float = 1.0,
) -> tuple[Solution, ...]:
    """Return the fits of the layouts to the markers, best first.

    More than one where another layout, or a second pose at its own minimum,
    explains the corners nearly as well (the planar pose ambiguity of a single
    marker seen from far away). Starts far worse than the best are left out.
    """
    starts = [
        (float(np.sqrt(np.mean(problem.residuals_px() ** 2))), layout, problem)
        for layout in layouts
        for problem in _starts(markers, layout, prior, print_scale)
    ]
    limit_px = _HOPELESS * min(rms_px for rms_px, _, _ in starts) + 1.0
    solutions = [
        _optimise(problem, layout)
        for rms_px, layout, problem in starts
        if rms_px <= limit_px
    ]
    return tuple(sorted(solutions, key=lambda solution: solution.chi2))


def _corner_sd_px(marker: FittedMarker, layout: Layout) -> float:
    """Return the standard deviation of one corner coordinate."""
    side_mm = layout.sides_mm[marker.marker_id]
    floor_mm = SHEET_FLOOR_MM if layout.is_fixed else CARD_FLOOR_MM
    sides = np.linalg.norm(
        np.roll(marker.corners_px, -1, axis=0) - marker.corners_px, axis=1
    )
    floor_mm = float(np.hypot(floor_mm, marker.ripple_mm))
    print_px = floor_mm * float(sides.mean()) / side_mm
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
    sd = np.array([_corner_sd_px(marker, layout) for marker in markers])
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


def _scatter(chi2: float, freedom: int) -> float:
    """Return the corners' variance over what it was taken to be.

    How flat the paper is and how strong ripples are is known by the photo better than
    beforehand.
    """
    return (chi2 + _USUAL_FREEDOM) / (freedom + _USUAL_FREEDOM)


def _optimise(problem: _Problem, layout: Layout) -> Solution:
    result = least_squares(
        problem.residuals,
        np.zeros(len(problem.scales)),
        jac=problem.jacobian,
        method="lm",
        ftol=1e-7,
        xtol=1e-7,
        max_nfev=60,
    )
    state = problem.unpack(result.x)
    chi2 = 2.0 * float(result.cost)
    freedom = max(problem.observed.size + 2 - len(result.x), 1)
    scatter = _scatter(chi2, freedom)
    jacobian = problem.jacobian(result.x)
    jacobian[:-2] /= np.sqrt(scatter)  # what was known of the camera stays as it is
    inverse = np.linalg.pinv(jacobian.T @ jacobian, hermitian=True)
    # From steps to the units and the rotation vector of ``Solution.covariance``.
    units = np.diag(problem.scales)
    units[2:5, 2:5] = _left_jacobian(state.vector) @ units[2:5, 2:5]
    covariance = units @ inverse @ units.T
    misfit = np.asarray(result.fun[:-2]).reshape(problem.observed.shape)
    return Solution(
        layout=layout,
        camera=state.camera,
        rotation=state.rotation,
        translation_mm=state.translation,
        covariance=covariance[:CAMERA_PARAMETERS, :CAMERA_PARAMETERS],
        corners_mm=state.corners,
        chi2=chi2,
        freedom=freedom,
        residuals_px=misfit * problem.sd_px,
    )
