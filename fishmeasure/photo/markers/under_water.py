"""Markers on the bottom of a tub, under water that ripples and bends the light."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fishmeasure.base.arrays import frozen
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers.edges import FittedMarker
from fishmeasure.photo.markers.scale import summary_points, with_errors
from fishmeasure.photo.plane import PlaneScale
from fishmeasure.photo.water import RIPPLE_MM, Water


def rippled(marker: FittedMarker) -> FittedMarker:
    """Return a marker whose corners the water's surface moves."""
    return replace(marker, ripple_mm=RIPPLE_MM)


def as_in_air(
    markers: Sequence[FittedMarker], plane: PlaneScale
) -> tuple[FittedMarker, ...]:
    """Return the markers as they would be seen from the apparent height in air."""
    return tuple(
        replace(marker, corners_px=plane.seen_in_air_px(marker.corners_px))
        for marker in markers
    )


def under_water(
    photo: Photo,
    plane: PlaneScale,
    water: Water,
    markers: Sequence[FittedMarker] = (),
) -> PlaneScale:
    """Return a plane whose pose is that in air, with the water that stands over it.

    ``markers`` are those that were seen, whose places are kept.
    """
    seen = {marker.marker_id: marker.corners_px for marker in markers}
    if seen:
        corners = np.stack([seen[marker_id] for marker_id in plane.marker_ids])
        plane = replace(plane, markers_px=frozen(corners))
    over = replace(plane, water=water)
    depth_sd = _depth_sd(photo, over, water)
    given = tuple(s for s in plane.sources if s.name not in {"marker corners", "lens"})
    source = UncertaintySource(
        name="depth of the water", relative_sd=depth_sd, scope="photo"
    )
    constant = math.hypot(plane.constant_relative_sd, depth_sd)
    over = replace(over, constant_relative_sd=constant)
    return with_errors(photo, over, (*given, source))


def _depth_sd(photo: Photo, plane: PlaneScale, water: Water) -> float:
    """Return what the depth's error does to lengths, against those at the markers."""
    deeper = replace(water, depth_mm=water.depth_mm + water.depth_sd_mm)
    points = summary_points(photo)
    corners = plane.markers_px.reshape(-1, 2)
    change = [
        replace(plane, water=deeper).log_scale(place) - plane.log_scale(place)
        for place in (points, corners if len(corners) else points)
    ]
    return float(np.sqrt(np.mean((change[0] - change[1].mean()) ** 2)))
