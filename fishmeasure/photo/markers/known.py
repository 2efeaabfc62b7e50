"""A scale from two points a known distance apart, given by hand."""

import math
import re
from typing import Annotated

import numpy as np
from pydantic import Field

from fishmeasure.base.errors import BadFieldError, KnownDistanceError
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.base.record import Plain, record
from fishmeasure.base.words import Message
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers.camera import CameraPrior
from fishmeasure.photo.markers.scale import with_errors
from fishmeasure.photo.plane import PlaneScale, Point

_NUMBER = r"\s*([-+]?\d+(?:\.\d+)?)\s*"
_TEXT = re.compile(rf"{_NUMBER},{_NUMBER},{_NUMBER},{_NUMBER}={_NUMBER}")

_WANTED = Message.of("wanted", case="known-text")


@record(frozen=True, slots=True, kw_only=True)
class KnownDistance:
    """Two points of a photo a known distance apart."""

    points_px: Annotated[tuple[Point, Point], Field(description="Both ends.")]
    distance_mm: Annotated[
        float,
        Field(gt=0, le=10_000, description="Between them, mm.", examples=[100.0]),
    ]

    @staticmethod
    def plain_from_text(text: str) -> Plain:
        """Return what "X1,Y1,X2,Y2=MM" says, in pixels and mm, as JSON has it."""
        match = _TEXT.fullmatch(text)
        if match is None:
            reason = Message.of("field-wanted", wanted=_WANTED, given=repr(text[:60]))
            raise BadFieldError(field="known", reason=reason)
        x1, y1, x2, y2, distance_mm = (float(part) for part in match.groups())
        return {"points_px": [[x1, y1], [x2, y2]], "distance_mm": distance_mm}


_POINT_SD_PX = 2.0
"""Of a point set by hand on a phone photo (rule of thumb, no source)."""

_TILT_SD = math.radians(5.0)
"""Each way, of a camera held 'straight above' without an aid (rule of thumb)."""

_MIN_DISTANCE_FRACTION = 0.03  # of the photo's diagonal


def plane_from_distance(
    photo: Photo, prior: CameraPrior, known: KnownDistance
) -> PlaneScale:
    """Return a plane square to the camera at the scale of the known distance.

    The camera is taken to look straight down, which nothing in the photo shows;
    the tilt's standard deviation is carried through the covariance.

    Raises
    ------
    KnownDistanceError
        If the points are outside the photo or too near each other.
    """
    points, distance_mm = np.array(known.points_px), known.distance_mm
    size = np.array([photo.width_px, photo.height_px])
    limit_px = _MIN_DISTANCE_FRACTION * float(np.linalg.norm(size))
    inside = bool(((points >= -0.5) & (points <= size - 0.5)).all())
    distance_px = float(np.linalg.norm(points[1] - points[0])) if inside else 0.0
    if distance_px < limit_px:
        raise KnownDistanceError(photo.name, distance_px, limit_px)
    camera = prior.model(prior.focal_px, prior.k1)
    rays = camera.normalise(points)
    height_mm = distance_mm / float(np.linalg.norm(rays[1] - rays[0]))
    middle = rays.mean(axis=0) * height_mm
    translation = np.array([*middle, height_mm])
    # Tilt turns the plane about its origin, which is in the middle of the points; a
    # longer lens is farther away, for the same distance between them.
    causes = np.zeros((8, 4))
    causes[0, 0], causes[5:8, 0] = 1.0, translation
    causes[1, 1] = causes[2, 2] = causes[3, 3] = 1.0
    sds = np.array([prior.focal_relative_sd, prior.k1_sd, _TILT_SD, _TILT_SD])
    covariance = causes * sds**2 @ causes.T
    points_sd = math.sqrt(2.0) * _POINT_SD_PX / distance_px
    plane = PlaneScale(
        method="known-distance",
        marker_ids=(),
        camera=camera,
        rotation=np.eye(3),
        translation_mm=translation,
        tilt_deg=0.0,
        camera_height_mm=height_mm,
        px_per_mm=distance_px / distance_mm,
        relative_se=0.0,
        rms_residual_mm=0.0,
        markers_px=np.empty((0, 4, 2)),
        covariance=covariance,
        constant_relative_sd=points_sd,
    )
    return with_errors(
        photo,
        plane,
        (
            UncertaintySource(
                name="points set by hand", relative_sd=points_sd, scope="photo"
            ),
        ),
    )
