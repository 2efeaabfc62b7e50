"""Whether an outline is that of one whole fish, in words of ``fishmeasure.flags``."""

import numpy as np

from fishmeasure.length.ends import Ends
from fishmeasure.length.midline import Midline
from fishmeasure.plane import PlaneScale

MIN_FLARE = 1.05
"""A tail fin at least so much wider than the peduncle; 95 % of the 218 outlines."""
DEPTH_RANGE = (0.07, 0.65)
"""Depth over fork length, from a saury to a bream."""
MIN_MIDLINE_INSIDE = 0.9
SURE_TAIL_ODDS_LN = 2.2
"""Nine to one."""
BENT_DEG = 15.0
"""Straight fish of slender species turn by 5.7 degrees (sd) from their shape alone."""
COILED_DEG = 110.0
"""Beyond it the ends are no longer the two points farthest apart."""
FAR_BEYOND_MM = 150.0


def shape_flags(midline: Midline, ends: Ends) -> tuple[str, ...]:
    """Return what is doubtful in the shape."""
    words = []
    length = ends.fork_along - ends.snout_along
    turn_deg = abs(np.rad2deg(midline.turn_rad))
    if turn_deg > COILED_DEG:
        words.append("coiled")
    elif turn_deg > BENT_DEG:
        words.append("bent")
    fish_like = (
        DEPTH_RANGE[0] < ends.depth / length < DEPTH_RANGE[1]
        and ends.flare >= MIN_FLARE
        and _inside_share(midline, ends) >= MIN_MIDLINE_INSIDE
    )
    if not fish_like:
        words.append("not-fish-shaped")
    if ends.tail_odds_ln < SURE_TAIL_ODDS_LN:
        words.append("tail-doubtful")
    return tuple(words)


def place_flags(midline: Midline, plane: PlaneScale) -> tuple[str, ...]:
    """Return whether the fish lies far from the markers."""
    if len(plane.markers_px) == 0:
        return ()
    corners = plane.to_plane_mm(plane.markers_px.reshape(-1, 2))
    span = float(np.linalg.norm(np.ptp(corners, axis=0)))
    middle = midline.points[len(midline.points) // 2]
    gap = float(np.linalg.norm(corners - middle, axis=1).min())
    return ("far-from-markers",) if gap > span + FAR_BEYOND_MM else ()


def _inside_share(midline: Midline, ends: Ends) -> float:
    """Return the share of the midline between the ends that is inside."""
    between = (midline.along > ends.snout_along) & (midline.along < ends.fork_along)
    middle = midline.straight[midline.straight.shape[0] // 2, between]
    return float(np.mean(middle > 0.5))
