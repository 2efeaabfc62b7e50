"""Two points a known distance apart, in place of markers."""

import math

import numpy as np
import pytest

from fishmeasure.base.errors import BadFieldError, KnownDistanceError
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers import KnownDistance, find_plane

PHOTO = Photo(
    name="plain.jpg",
    rgb=np.full((600, 800, 3), 90, np.uint8),
    width_px=800,
    height_px=600,
)


def known(
    x1: float, y1: float, x2: float, y2: float, distance_mm: float = 200.0
) -> KnownDistance:
    """Return two points so far apart."""
    return KnownDistance(points_px=((x1, y1), (x2, y2)), distance_mm=distance_mm)


def test_scale_is_the_distance_over_the_pixels() -> None:
    """400 px for 200 mm: 2 px a mm, everywhere, looking straight down."""
    plane = find_plane(PHOTO, known=known(200.0, 300.0, 600.0, 300.0))
    assert plane.method == "known-distance"
    assert plane.px_per_mm == pytest.approx(2.0)
    assert plane.marker_ids == ()
    for start in ((0.0, 0.0), (399.5, 299.5)):
        ends = np.array([start, [start[0] + 300.0, start[1]]])
        found = plane.to_plane_mm(ends)
        assert found[1] - found[0] == pytest.approx([150.0, 0.0], abs=1e-6)


def test_its_error_says_that_the_tilt_is_unknown() -> None:
    """5 degrees of tilt each way unseen: several per cent away from the points."""
    plane = find_plane(PHOTO, known=known(200.0, 300.0, 600.0, 300.0))
    assert 0.02 < plane.relative_se < 0.12
    # At the points themselves: both of them by 2 px, and foreshortening.
    at_points = plane.relative_se_at(np.array([[399.5, 299.5]]))
    assert at_points[0] >= math.sqrt(2.0) * 2.0 / 400.0


@pytest.mark.parametrize(
    "points",
    [(10.0, 10.0, 12.0, 10.0), (10.0, 10.0, 1000.0, 10.0)],
)
def test_points_that_cannot_tell_are_refused(points: tuple[float, ...]) -> None:
    """Too near each other, or outside the photo."""
    with pytest.raises(KnownDistanceError, match="Give two points"):
        find_plane(PHOTO, known=known(*points))


@pytest.mark.parametrize(
    ("x", "distance_mm"), [(10, 0), (10, -5), (10, math.nan), (math.nan, 100)]
)
def test_what_is_no_point_or_no_length_is_refused(x: float, distance_mm: float) -> None:
    """Before there is a photo."""
    with pytest.raises(BadFieldError):
        known(x, 10.0, 500.0, 10.0, distance_mm)
