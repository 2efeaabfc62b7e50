"""Whether an outline is that of one whole fish, in words of ``fishmeasure.flags``."""

import numpy as np

from fishmeasure.length.ends import Ends, body_share
from fishmeasure.length.midline import Midline
from fishmeasure.plane import PlaneScale

USUAL: dict[str, tuple[float, float]] = {
    "depth over length": (0.09, 0.65),
    "tail fin over peduncle": (1.2, 6.0),
    "peduncle over depth": (0.08, 0.6),
    "place of greatest depth": (0.2, 0.7),
    "base of tail fin": (0.78, 0.98),
    "area over length times depth": (0.55, 0.97),
    "outline over length": (2.1, 3.5),
    "belly unlike back": (0.0, 0.18),
}
"""Proportions of a whole fish. 98 % of 81 outlines of slender and perch-like species
(Caillon et al. 2018, Ecosphere 9, e02220) lie inside each, with some room left for
the outline's own error; eels, lumpfish and some flatfish do not."""
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
    turn_deg = abs(np.rad2deg(midline.turn_rad))
    unusual = unusual_proportions(midline, ends)
    inside = _inside_share(midline, ends)
    doubts = (
        ("coiled", turn_deg > COILED_DEG),
        ("bent", BENT_DEG < turn_deg <= COILED_DEG),
        ("not-fish-shaped", bool(unusual) or inside < MIN_MIDLINE_INSIDE),
        ("tail-doubtful", ends.tail_odds_ln < SURE_TAIL_ODDS_LN),
    )
    return tuple(word for word, holds in doubts if holds)


def unusual_proportions(midline: Midline, ends: Ends) -> tuple[str, ...]:
    """Return the names of the proportions that a whole fish seldom has."""
    length = max(ends.fork_along - ends.snout_along, 1e-9)
    x, y = midline.contour.T
    area = 0.5 * abs(float(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1))))
    thinned = midline.contour[:: max(1, len(x) // 300)]
    steps = np.diff(np.vstack([thinned, thinned[:1]]), axis=0)
    found = {
        "depth over length": ends.depth / length,
        "tail fin over peduncle": ends.flare,
        "peduncle over depth": ends.peduncle / ends.depth,
        "place of greatest depth": (ends.depth_along - ends.snout_along) / length,
        "base of tail fin": (ends.base_along - ends.snout_along) / length,
        "area over length times depth": area / (length * ends.depth),
        "outline over length": float(np.sum(np.hypot(*steps.T))) / length,
        "belly unlike back": _unlike(midline, ends),
    }
    return tuple(
        name for name, (low, high) in USUAL.items() if not low <= found[name] <= high
    )


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
    return float(np.mean(middle > 0.5)) if len(middle) else 0.0


def _unlike(midline: Midline, ends: Ends) -> float:
    """Return how far the two sides differ, over the depth, in the mean."""
    share = body_share(midline)
    body = (share > 0.1) & (share < 0.75)
    inside = midline.straight[:, body] > 0.5
    across = midline.straight_across[:, None]
    reaches = [np.where(inside, side, 0.0).max(axis=0) for side in (across, -across)]
    return float(np.mean(np.abs(reaches[0] - reaches[1]))) / ends.depth
