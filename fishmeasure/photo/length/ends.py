"""Head or tail, and where on the midline the snout, the fork and the lobes are.

Definitions (FishBase glossary, "fork length", "total length"; FAO usage): fork
length runs from the tip of the snout to the end of the middle rays of the caudal
fin; total length to the tip of its longer lobe, the lobes pressed together along
the midline; standard length to the end of the hypural plate, which is where the
caudal fin begins on the outline.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.length.depth import side_profile, sides
from fishmeasure.photo.length.midline import Midline

BODY = (0.06, 0.8)
"""Share of the length over which the profile is smooth but for the fins."""
FIN_HEIGHT = 0.004
"""Of the length; what stands out of the profile by more is taken for a fin."""
DEGREE = 4
"""Of either side's profile."""
PEDUNCLE = (0.05, 0.33)
"""Where the narrowest place before the tail lies, as shares of the length from
the end: 0.05 to 0.27 in 218 outlines (Caillon et al. 2018, Ecosphere 9, e02220)."""
FIN_BEGINS = 1.15
"""Width over the peduncle's where the caudal fin begins; see its test."""
TAIL_SHARE = 0.25
"""Of the length, in which the tail fin is looked for."""
LOBE_SHARE = 0.08
"""Of the length: how much farther one lobe may reach than the other."""
BEHIND = 0.6
"""Share of the length behind which the peduncle lies."""
MIN_NOTCH = 0.006
"""Of the length: a shallower notch is not told from a ragged edge."""
CENTROID_WEIGHT = -51.0
FLARE_WEIGHT = 13.0
"""Logistic regression on the same 218 outlines; left out genus by genus it names
the tail rightly in 99.1 %."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ends:
    """Positions along a midline that runs from head to tail, in its own unit.

    Attributes
    ----------
    snout, fork
        (2,) points of the outline.
    snout_along, base_along, fork_along, tip_along
        Snout, base of the caudal fin, fork, and the longer lobe's tip pressed
        to the midline.
    depth, depth_along
        Greatest depth with fins cut off, and where it is.
    tail_odds_ln
        Log odds that the tail is where it is said to be.
    flare, peduncle
        How much wider the tail fin is than the peduncle, and the depth of that.
    """

    snout: FloatArray
    fork: FloatArray
    snout_along: float
    base_along: float
    fork_along: float
    tip_along: float
    depth: float
    depth_along: float
    tail_odds_ln: float
    flare: float
    peduncle: float


def tail_odds_ln(midline: Midline) -> float:
    """Return the log odds that the midline runs from head to tail."""
    share, width = _profile(midline)
    centroid = float(np.average(share, weights=width)) - 0.5
    tail, head = _flare(1.0 - share, width)[0], _flare(share, width)[0]
    return CENTROID_WEIGHT * centroid + FLARE_WEIGHT * float(np.log(tail / head))


def find_ends(midline: Midline) -> Ends:
    """Return the ends of a midline that runs from head to tail."""
    along, across = midline.contour_along, midline.contour_across
    low, high = float(along.min()), float(along.max())
    length = high - low
    snout_at = int(np.argmin(along))
    share, width = _profile(midline)
    flare, base_share = _flare(1.0 - share, width)
    base = high - length * base_share
    fork_at, tips_at = _fork(along, across)
    pressed = base + np.hypot(along[list(tips_at)] - base, across[list(tips_at)])
    depth, depth_along = _depth(midline, length)
    return Ends(
        snout=midline.contour[snout_at],
        fork=midline.contour[fork_at],
        snout_along=low,
        base_along=base,
        fork_along=float(along[fork_at]),
        tip_along=float(pressed.max()),
        depth=depth,
        depth_along=depth_along,
        tail_odds_ln=tail_odds_ln(midline),
        flare=flare,
        peduncle=float(width[(share > BEHIND) & (share < 0.97)].min()),
    )


def body_share(midline: Midline) -> FloatArray:
    """Return where the curve's points are, 0 at the first end and 1 at the last."""
    low = float(midline.contour_along.min())
    return (midline.along - low) / (float(midline.contour_along.max()) - low)


def _profile(midline: Midline) -> tuple[FloatArray, FloatArray]:
    """Return shares of the length (0 first end, 1 last) and widths there."""
    step = float(midline.straight_across[1] - midline.straight_across[0])
    width = midline.straight.sum(axis=0) * step
    share = body_share(midline)
    inside = (share >= 0.0) & (share <= 1.0)
    return share[inside], width[inside]


def _flare(from_end: FloatArray, width: FloatArray) -> tuple[float, float]:
    """Return how much the end widens again, and where the fin begins.

    The first is the greatest ratio of a width to a narrower one farther in (1 if
    there is none), the second the share of the length from the end.
    """
    order = np.argsort(from_end)
    from_end, width = from_end[order], width[order]
    widest = np.maximum.accumulate(width)
    zone = np.flatnonzero((from_end > PEDUNCLE[0]) & (from_end < PEDUNCLE[1]))
    if not len(zone):  # no fish: all of the outline projects on one place
        return 1.0, PEDUNCLE[0]
    ratio = widest[zone] / np.maximum(width[zone], 1e-9)
    narrowest = int(zone[np.argmax(ratio)])
    wider = np.flatnonzero(width[:narrowest] > FIN_BEGINS * width[narrowest])
    base = int(wider[-1]) + 1 if len(wider) else narrowest
    return float(ratio.max()), float(from_end[base])


def _fork(along: FloatArray, across: FloatArray) -> tuple[int, tuple[int, int]]:
    """Return the indices of the fork and of the tips of both lobes.

    Seen from behind, the tail fin's rear edge lies under a taut string; the fork is
    where it is deepest below. Without a notch it is the middle of the rear edge. The
    midline need not run into the fork for this.
    """
    length = float(np.ptp(along))
    fin = np.flatnonzero(along > along.max() - TAIL_SHARE * length)
    rear = fin[_rear_edge(along[fin], across[fin])]
    tips = np.flatnonzero(along[rear] > along[rear].max() - LOBE_SHARE * length)
    rear = rear[tips[0] : tips[-1] + 1]
    taut = rear[_upper_hull(across[rear], along[rear])]
    sag = np.interp(across[rear], across[taut], along[taut]) - along[rear]
    deepest = int(np.argmax(sag))
    if sag[deepest] > MIN_NOTCH * length:
        right = int(np.searchsorted(across[taut], across[rear[deepest]], side="right"))
        return int(rear[deepest]), (int(taut[right - 1]), int(taut[right]))
    middle = (across[rear[0]] + across[rear[-1]]) / 2.0
    tip = int(rear[np.argmin(np.abs(across[rear] - middle))])
    return tip, (int(rear[np.argmax(along[rear])]), tip)


def _rear_edge(along: FloatArray, across: FloatArray) -> NDArray[np.intp]:
    """Return the rearmost point in each of narrow strips, from side to side."""
    low, high = across.min(), across.max()
    strip = ((across - low) / max(high - low, 1e-9) * 60.0).astype(int)
    order = np.lexsort((along, strip))
    last: NDArray[np.intp] = order[np.flatnonzero(np.diff(strip[order], append=-1))]
    return last[np.argsort(across[last])]


def _upper_hull(x: FloatArray, y: FloatArray) -> list[int]:
    """Return the indices of the upper convex hull of points in the order of x."""
    hull: list[int] = []
    for index in range(len(x)):
        while len(hull) > 1:
            a, b = hull[-2], hull[-1]
            rise = (x[b] - x[a]) * (y[index] - y[a]) - (y[b] - y[a]) * (x[index] - x[a])
            if rise < 0.0:
                break
            hull.pop()
        hull.append(index)
    return hull


def _depth(midline: Midline, length: float) -> tuple[float, float]:
    """Return the greatest depth of the body, fins cut off, and where it is."""
    share = body_share(midline)
    body = (share > BODY[0]) & (share < BODY[1])
    low, high = sides(
        midline.contour_along, midline.contour_across, midline.along[body]
    )
    parameter = 2.0 * (share[body] - BODY[0]) / (BODY[1] - BODY[0]) - 1.0
    depths = np.zeros(int(body.sum()))
    for reach in (high, -low):
        depths += side_profile(parameter, reach, FIN_HEIGHT * length, DEGREE)
    deepest = int(np.argmax(depths))
    return float(depths[deepest]), float(midline.along[body][deepest])
