"""Whether an outline is that of one whole fish, in words of ``base.flags``."""

import numpy as np

from fishmeasure.photo.length.depth import sides
from fishmeasure.photo.length.ends import Ends, body_share
from fishmeasure.photo.length.midline import Midline
from fishmeasure.photo.plane import PlaneScale

USUAL: dict[str, tuple[float, float]] = {
    "ln depth over length": (-1.44, 0.26),
    "ln tail fin over peduncle": (0.81, 0.29),
    "ln peduncle over depth": (-1.22, 0.33),
    "place of greatest depth": (0.40, 0.056),
    "base of tail fin": (0.874, 0.038),
    "ln area over length times depth": (-0.21, 0.082),
    "ln outline over length": (1.01, 0.083),
    "belly unlike back": (0.077, 0.040),
}
"""Mean and spread of a whole fish's proportions: of 81 outlines of slender and
perch-like species (Caillon et al. 2018, Ecosphere 9, e02220), the spread widened by
what an outline errs (0.1 in the first three, 0.02 to 0.05 in the others)."""
MAX_UNUSUAL = 4.86
"""Root of the sum of squares in units of the spreads: the 99.7 % point of chi-square
with eight degrees of freedom. The 81 reach 4.2; eels and flatfish exceed it."""
MIN_TAIL_ODDS_LN = 1.1
"""Three to one; every one of the 81 has more than 18 to one."""
MIN_MIDLINE_INSIDE = 0.9
SURE_TAIL_ODDS_LN = 2.2
"""Nine to one."""
BENT_DEG = 24.5
"""Straight fish of slender species turn by 9.3 degrees (sd) from their shape alone."""
COILED_DEG = 180.0
"""Beyond it the ends are no longer the two points farthest apart."""
FAR_BEYOND_MM = 150.0


def shape_flags(midline: Midline, ends: Ends) -> tuple[str, ...]:
    """Return what is doubtful in the shape."""
    turn_deg = abs(np.rad2deg(midline.turn_rad))
    fish_like = (
        unusual(midline, ends) <= MAX_UNUSUAL
        and ends.tail_odds_ln >= MIN_TAIL_ODDS_LN
        and _inside_share(midline, ends) >= MIN_MIDLINE_INSIDE
    )
    doubts = (
        ("coiled", turn_deg > COILED_DEG),
        ("bent", BENT_DEG < turn_deg <= COILED_DEG),
        ("not-fish-shaped", not fish_like),
        ("tail-doubtful", ends.tail_odds_ln < SURE_TAIL_ODDS_LN),
    )
    return tuple(word for word, holds in doubts if holds)


def unusual(midline: Midline, ends: Ends) -> float:
    """Return how far the proportions are from a whole fish's, in deviations."""
    length = max(ends.fork_along - ends.snout_along, 1e-9)
    x, y = midline.contour.T
    area = 0.5 * abs(float(np.dot(x, np.roll(y, 1)) - np.dot(y, np.roll(x, 1))))
    thinned = midline.contour[:: max(1, len(x) // 300)]
    steps = np.diff(np.vstack([thinned, thinned[:1]]), axis=0)
    depth = max(ends.depth, 1e-9)
    found = {
        "ln depth over length": np.log(depth / length),
        "ln tail fin over peduncle": np.log(ends.flare),
        "ln peduncle over depth": np.log(max(ends.peduncle, 1e-9) / depth),
        "place of greatest depth": (ends.depth_along - ends.snout_along) / length,
        "base of tail fin": (ends.base_along - ends.snout_along) / length,
        "ln area over length times depth": np.log(max(area, 1e-9) / (length * depth)),
        "ln outline over length": np.log(np.sum(np.hypot(*steps.T)) / length),
        "belly unlike back": _unlike(midline, ends),
    }
    scores = [(found[name] - mean) / sd for name, (mean, sd) in USUAL.items()]
    return float(np.linalg.norm(scores))


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
    low, high = sides(
        midline.contour_along, midline.contour_across, midline.along[body]
    )
    return float(np.mean(np.abs(high + low))) / ends.depth
