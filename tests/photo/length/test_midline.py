"""The midline against outlines of which the middle is known exactly."""

import numpy as np
import pytest

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.length.midline import trace_midline


def spindle(turn_deg: float, length: float = 200.0) -> FloatArray:
    """Return a lens bent so that its middle is an arc of this length."""
    share = np.linspace(-0.5, 0.5, 300)
    half = 0.12 * length * np.cos(np.pi * share)
    angle = np.radians(turn_deg) * share
    if turn_deg == 0.0:
        middle = np.column_stack([share * length, np.zeros_like(share)])
    else:
        radius = length / np.radians(turn_deg)
        middle = radius * np.column_stack([np.sin(angle), 1.0 - np.cos(angle)])
    normal = np.column_stack([-np.sin(angle), np.cos(angle)])
    upper, lower = (middle + s * half[:, None] * normal for s in (1.0, -1.0))
    return np.vstack([upper, lower[-2:0:-1]])


@pytest.mark.parametrize("turn_deg", [0.0, 20.0, 45.0, 80.0])
def test_the_midline_of_a_bent_spindle_is_its_arc(turn_deg: float) -> None:
    """The arc's length is given, so the extent along the midline must equal it.

    Half a per cent: what a straight run-on of the ends costs at 80 degrees.
    """
    midline = trace_midline(spindle(turn_deg))
    extent = np.ptp(midline.contour_along)
    assert extent == pytest.approx(200.0, rel=0.001 + 0.004 * turn_deg / 80.0)


@pytest.mark.parametrize("angle_deg", [0.0, 37.0, 90.0, 211.0])
def test_the_direction_in_the_photo_does_not_matter(angle_deg: float) -> None:
    """A turned outline has the same extent: lengths do not depend on axes."""
    angle = np.radians(angle_deg)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    straight = np.ptp(trace_midline(spindle(30.0)).contour_along)
    turned = np.ptp(trace_midline(spindle(30.0) @ turn.T).contour_along)
    assert turned == pytest.approx(straight, rel=5e-4)


def test_a_reversed_midline_keeps_places() -> None:
    """The same point of the outline lies as far from the other end."""
    midline = trace_midline(spindle(30.0))
    other = midline.reversed()
    along, across = midline.locate(midline.contour[:5])
    along_other, across_other = other.locate(midline.contour[:5])
    np.testing.assert_allclose(along + along_other, midline.along[-1], atol=1e-6)
    np.testing.assert_allclose(across, -across_other, atol=1e-6)
