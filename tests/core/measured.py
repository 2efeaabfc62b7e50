"""A measured fish whose errors the test says."""

import numpy as np

from fishmeasure.base.estimate import Estimate, UncertaintySource
from fishmeasure.photo.length import FishLength


def fish_of_250_mm(*sources: UncertaintySource) -> FishLength:
    """Return a fish of 250 mm with these causes of error."""
    length = Estimate.normal(250.0, 3.0)
    return FishLength(
        fork_length_mm=length,
        total_length_mm=length,
        standard_length_mm=length,
        body_depth_mm=length,
        thickness_mm=30.0,
        area_mm2=1e4,
        bend_deg=0.0,
        contour_px=np.zeros((3, 2)),
        midline_px=np.zeros((2, 2)),
        snout_px=np.zeros(2),
        fork_px=np.zeros(2),
        confidence=1.0,
        complete=True,
        sources=sources,
    )
