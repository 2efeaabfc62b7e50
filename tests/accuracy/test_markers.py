"""Floors for the markers of the rendered sample images; truth is the scene's own."""

import pytest

from tests.accuracy.markers import SAMPLE_IMAGES, measure, sample_photos

pytestmark = pytest.mark.accuracy

SCALE_LIMITS = {4: 0.004, 3: 0.006, 2: 0.01, 1: 0.02}
"""Root mean square error of the scale where the fish lie, by markers in view."""


def test_corners_have_no_bias_and_the_scale_is_right() -> None:
    """Sides are true to 0.05 px on each photo; the scale within limit and claim."""
    rows = [measure(photo, truth) for photo, truth in sample_photos(SAMPLE_IMAGES)]
    assert len(rows) >= 4
    biased = [(row.name, row.inward_px) for row in rows if abs(row.inward_px) > 0.05]
    wrong = [
        (row.name, row.scale_rms, row.relative_se)
        for row in rows
        if row.scale_rms > min(SCALE_LIMITS[row.count], 3.0 * row.relative_se)
    ]
    assert biased == []
    assert wrong == []
