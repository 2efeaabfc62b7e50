"""A measured fish whose errors the test says."""

import numpy as np

from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.photo.length import FishLength


def fish_of_250_mm(*sources: UncertaintySource) -> FishLength:
    """Return a fish of 250 mm with these causes of error."""
    return FishLength(
        fork_length_mm=250.0,
        fork_length_se_mm=3.0,
        total_length_mm=262.0,
        total_length_se_mm=3.0,
        standard_length_mm=230.0,
        standard_length_se_mm=3.0,
        body_depth_mm=55.0,
        body_depth_se_mm=3.0,
        thickness_mm=30.0,
        area_mm2=1e4,
        bend_deg=0.0,
        outline_px=np.zeros((3, 2)),
        midline_px=np.zeros((2, 2)),
        snout_px=np.zeros(2),
        fork_px=np.zeros(2),
        confidence=1.0,
        complete=True,
        sources=sources,
    )
