"""Depth of a body across its midline: the one definition, for photos and constants.

The body is what is left when fins are cut off at the body line, behind at the base of
the tail fin. Depth is taken across the midline, so that a bent fish is straightened.
Either side of the body runs along a smooth profile: what stands out of it is the rest
of a fin. V, the integral of the squared depth from the snout to the tail's base, is
what the constants c = W / V of the species' files are for
(``species.record.BodyFigures``).
"""

import numpy as np
from numpy.polynomial import legendre

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.length.midline import Midline
from fishmeasure.photo.length.parallax import Camera, Pose

STATIONS = 200
DENSE = 1500
DEGREE = 5
"""Of either side's profile: it follows drawn bodies of ten kinds to 0.4 % of V."""
BODY = (0.06, 0.8)
"""Share of the fork length over which the profile is smooth but for fins."""
FIN_HEIGHT = 0.008
"""Of the fork length; what stands out of the profile by more is taken for a fin. Half
of it, as for the greatest depth, is less than what edges err, and cuts off fish."""
NO_FIN = 0.009
"""Of the fork length: where the whole outline runs this near to the body's, no fin
stands there, and its edge, which is the sharper one, is the body's. Two pixels of the
picture in which the body is drawn."""
LEAST_REACH = 0.6
"""Of the fork length: a body that ends before it was not seen whole."""


def side_profile(
    parameter: FloatArray, reach: FloatArray, fin_height: float, degree: int
) -> FloatArray:
    """Return a smooth profile under the fins: what stands out of it hardly counts.

    Parameters
    ----------
    parameter
        -1 to 1 along the fish.
    reach
        From the midline to the outline.
    fin_height
        In the unit of ``reach``.
    degree
        Of the polynomial.
    """
    basis = legendre.legvander(parameter, degree)  # near orthogonal: squares do no harm
    weights = np.ones_like(reach)
    profile = reach
    for _ in range(8):
        weighted = basis.T * weights**2
        fit = np.linalg.solve(weighted @ basis, weighted @ reach)
        profile = np.asarray(basis @ fit, dtype=np.float64)
        above = np.maximum(reach - profile, 0.0) / fin_height
        weights = 1.0 / (1.0 + above**2)
    return profile


def squared_depth(
    body: FloatArray,
    midline: Midline,
    between: tuple[float, float],
    camera: Camera,
    pose: Pose,
    thickness_per_depth: float,
) -> float | None:
    """Return the integral of squared depth, parallax removed; None if not seen whole.

    Parameters
    ----------
    body
        (n, 2) outline without fins, on the plane; the whole outline is the midline's.
    between
        Snout and fork along the midline, which runs from head to tail.
    camera, pose
        Where the camera is, and how high the midline lies over the plane.
    thickness_per_depth
        Of the kind of fish: a slanting view sees a thick body wider.
    """
    snout, fork = between
    length = fork - snout
    if length <= 0.0:  # its ends are the wrong way round: no fish's outline
        return None
    share = (np.arange(STATIONS) + 0.5) / STATIONS
    at = snout + share * length
    low, high = sides(*midline.locate(_dense(body)), at)
    seen = high > low
    whole_low, whole_high = sides(midline.contour_along, midline.contour_across, at)
    low = np.where(low - whole_low < NO_FIN * length, whole_low, low)
    high = np.where(whole_high - high < NO_FIN * length, whole_high, high)
    if not seen[(share > BODY[0]) & (share < LEAST_REACH)].all():
        return None
    inside = (share > BODY[0]) & (share < BODY[1]) & seen
    parameter = 2.0 * (share[inside] - BODY[0]) / (BODY[1] - BODY[0]) - 1.0
    depth = np.where(seen, high - low, 0.0)
    depth[inside] = sum(
        side_profile(parameter, reach[inside], FIN_HEIGHT * length, DEGREE)
        for reach in (high, -low)
    )
    nearer = 1.0 - pose.heights_mm(share) / camera.rise_mm
    points = midline.at(at)
    index = np.searchsorted(midline.along, at).clip(0, len(midline.along) - 1)
    slope = np.array(
        [
            camera.slope(point, normal)
            for point, normal in zip(points, midline.normals[index], strict=True)
        ]
    )
    true = depth * nearer / np.hypot(1.0, thickness_per_depth * slope)
    return float(np.sum(true**2 * nearer) * length / STATIONS)


def sides(
    along: FloatArray, across: FloatArray, at: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return how far a closed outline reaches to either side; 0 outside of it.

    ``at`` are evenly spaced stations; each step of the outline meets few of them.
    """
    after, beside = np.roll(along, -1), np.roll(across, -1)
    spacing = (at[-1] - at[0]) / (len(at) - 1)
    first, last = (
        np.clip(np.ceil((end(along, after) - at[0]) / spacing), 0, len(at)).astype(int)
        for end in (np.minimum, np.maximum)
    )
    count = last - first
    step = np.repeat(np.arange(len(along)), count)
    before = np.cumsum(count) - count
    station = first[step] + np.arange(len(step)) - before[step]
    share = (at[station] - along[step]) / (after[step] - along[step])
    place = across[step] + share * (beside[step] - across[step])
    low, high = np.full(len(at), np.inf), np.full(len(at), -np.inf)
    np.minimum.at(low, station, place)
    np.maximum.at(high, station, place)
    met = low <= high
    return np.where(met, low, 0.0), np.where(met, high, 0.0)


def _dense(contour: FloatArray) -> FloatArray:
    closed = np.vstack([contour, contour[:1]])
    steps = np.hypot(*np.diff(closed, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(steps)])
    wanted = np.linspace(0.0, along[-1], DENSE, endpoint=False)
    return np.column_stack([np.interp(wanted, along, closed[:, k]) for k in (0, 1)])
