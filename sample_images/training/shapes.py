"""Bodies: 218 published outlines of fish, warped into as many as one likes.

A body is a polygon in units of its own fork length: x from the snout (0) to the
fork (1), y down, back up, midline about y = 0. Outlines and landmarks: Caillon,
Bonhomme, Moellmann and Frelat 2018, Ecosphere 9(5):e02220 (CC BY-SA 4.0).
"""

import csv
from dataclasses import dataclass, replace
from importlib import resources
from pathlib import Path
from typing import Any

import cv2
import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray

from sample_images.training.columns import FORKED, SIDE
from sample_images.training.noise import Floats

_FILL_PX = 0.5  # how far out of the outline a filled polygon reaches
_PROFILE_DEGREE = 5
_FIN_HEIGHT = 0.006  # of the length to the tail's base: what stands out more is a fin
_FINS_STAND = (0.18, 0.96)  # shares of it; head and wrist are as the outline has them
_FEWEST = 30  # columns
_BARE = 3.0  # pixels beyond the outline where no fin stands: its own edge counts there


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """One outline with its landmarks, in fork lengths.

    ``base_at`` are the corners at the tail's base, above and below; ``trunk`` is
    the body without fins where that is known apart from the outline.
    """

    name: str
    polygon: Floats
    tail_base_x: float
    fork_y: float
    base_at: tuple[int, int] = (0, 0)
    trunk: Floats | None = None
    posture: int = SIDE
    hind_kind: int = FORKED


def fork_of(polygon: Floats, upper: int, lower: int, away_from: Floats) -> Floats:
    """Return the middle of the tail's rear edge: the fork, or the end of its axis."""
    count = len(polygon)
    between = (upper - lower) % count
    tail = polygon[(lower + np.arange(between + 1)) % count]
    if np.hypot(*(tail - away_from).T).min() < 1e-6 + 0.5 * np.hypot(
        *(polygon[upper] - away_from)
    ):  # went round by the head
        between = (lower - upper) % count
        tail = polygon[(upper + np.arange(between + 1)) % count]
    base = (polygon[upper] + polygon[lower]) / 2
    axis = tail.mean(axis=0) - base
    angle = np.arctan2(axis[1], axis[0])
    offset = tail - base
    bearing = np.arctan2(offset[:, 1], offset[:, 0]) - angle
    distance = np.hypot(offset[:, 0], offset[:, 1])
    near = np.abs(bearing) < np.deg2rad(14)
    # Rays of the middle are the shortest in a forked tail; in a rounded one the
    # axis itself is meant, hence the charge for leaving it.
    cost = distance * (1 + 2.0 * np.abs(bearing))
    cost[~near] = np.inf
    fork: Floats = tail[int(np.argmin(cost))]
    return fork


def load_bodies(folder: Path) -> tuple[Body, ...]:
    """Return the outlines found in ``folder`` (outlines_nsfishes_ccbysa)."""
    outlines = np.load(folder / "outlines_all218.npz")
    marks = resources.files("sample_images.training").joinpath("landmarks.csv")
    text = marks.read_text()
    bodies = []
    for row in csv.DictReader(text.splitlines()):
        polygon = np.asarray(outlines[row["outline"]], dtype=float) * [1.0, -1.0]
        upper, lower = int(row["tail_base_upper"]), int(row["tail_base_lower"])
        snout, fork = (
            polygon[int(row["snout"])],
            fork_of(polygon, upper, lower, polygon[int(row["snout"])]),
        )
        along = fork - snout
        turn = np.array([[along[0], along[1]], [-along[1], along[0]]])
        unit = (polygon - snout) @ turn.T / (along @ along)
        base_x = float((unit[upper, 0] + unit[lower, 0]) / 2)
        step = max(1, len(unit) // 360)
        bodies.append(
            Body(
                name=row["outline"],
                polygon=unit[::step].astype(np.float32),
                tail_base_x=base_x,
                fork_y=0.0,
                base_at=(upper // step, lower // step),
            )
        )
    return tuple(bodies)


def warp_body(body: Body, rng: np.random.Generator) -> Body:
    """Return the body with its proportions changed at random; snout, fork kept."""
    x, y = body.polygon[:, 0].copy(), body.polygon[:, 1].copy()
    y *= np.float32(rng.uniform(0.78, 1.3))
    if rng.random() < 0.12 and np.ptp(y) < 0.4:  # very slender kinds
        y *= np.float32(rng.uniform(0.45, 0.85))
    # back and belly apart: lean and fat fish, fins laid down or spread
    y = np.where(y < 0, y * rng.uniform(0.85, 1.12), y * rng.uniform(0.85, 1.15))
    power = rng.uniform(0.88, 1.14)
    inside = np.clip(x, 0, 1)
    x = np.where((x > 0) & (x < 1), inside**power, x)
    base = float(np.clip(body.tail_base_x, 0.0, 1.0) ** power)
    y += np.float32(rng.normal(0, 0.006)) * np.sin(np.pi * 2 * x + rng.uniform(0, 6))
    behind = np.clip((x - base) / max(1.0 - base, 0.03), 0, None)
    reach = np.abs(y) / (np.abs(y[x > base]).max() + 1e-6) if (x > base).any() else 0
    # lobes longer or shorter while the middle stays: deep fork to straight edge
    x = x + behind * np.power(reach, 1.5) * rng.uniform(-0.05, 0.07)
    y = y * (1 + behind * rng.uniform(-0.3, 0.3))
    polygon = np.column_stack([x, y]).astype(np.float32)
    return replace(body, polygon=polygon, tail_base_x=base)


@dataclass(frozen=True, slots=True, eq=False)
class Raster:
    """A body drawn level: alpha, and where each pixel is on the fish.

    ``u`` runs 0 to 1 from snout to fork by column, ``v`` -1 at the back to +1 at
    the belly of the trunk (beyond for fins), ``trunk`` is the share of the pixel
    that is no fin. ``origin`` is the pixel of the snout, ``scale`` pixels per
    fork length.
    """

    alpha: Floats
    u: Floats
    v: Floats
    trunk: Floats
    origin: tuple[float, float]
    scale: float
    tail_base_x: float
    middle: Floats
    body: Body


def pared(points: Floats, by: float) -> Floats:
    """Return a closed outline moved inward: OpenCV fills the border's pixels too."""
    ahead = np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0)
    x, y = points[:, 0], points[:, 1]
    turns = np.sign((x * np.roll(y, -1) - y * np.roll(x, -1)).sum())
    inward = np.column_stack([-ahead[:, 1], ahead[:, 0]]) * turns
    size = np.maximum(np.hypot(*inward.T), 1e-6)[:, None]
    return np.asarray(points + inward / size * by)


def rasterise(body: Body, scale: float) -> Raster:
    """Return the body drawn at ``scale`` pixels per fork length."""
    low, high = body.polygon.min(axis=0), body.polygon.max(axis=0)
    margin = 6
    origin = np.ceil(-low * scale).astype(int) + margin
    width, height = np.ceil((high - low) * scale).astype(int) + 2 * margin
    points = body.polygon * scale + origin
    fine: NDArray[Any] = np.zeros((height * 2, width * 2), np.uint8)
    shifted = np.round((pared(points, _FILL_PX / 2) * 2 + 0.5) * 16).astype(np.int32)
    cv2.fillPoly(fine, [shifted], 255, cv2.LINE_AA, 4)
    alpha = cv2.resize(fine, (width, height), interpolation=cv2.INTER_AREA)
    if body.trunk is None:
        trunk, top, bottom = _trunk(alpha, origin[0] + body.tail_base_x * scale)
    else:
        trunk, top, bottom = _given(body.trunk * scale + origin, alpha.shape)
    trunk = np.minimum(trunk, alpha / np.float32(255))
    columns = np.arange(width, dtype=np.float32)
    u = np.broadcast_to((columns - origin[0]) / scale, (height, width))
    half = np.maximum((bottom - top) / 2, 2.0)
    middle = (bottom + top) / 2
    rows = np.arange(height, dtype=np.float32)[:, None]
    return Raster(
        alpha=(alpha / 255.0).astype(np.float32),
        u=u.astype(np.float32),
        v=((rows - middle) / half).astype(np.float32),
        trunk=trunk,
        origin=(float(origin[0]), float(origin[1])),
        scale=scale,
        tail_base_x=body.tail_base_x,
        middle=((middle - origin[1]) / scale).astype(np.float32),
        body=body,
    )


def _given(points: Floats, shape: tuple[int, ...]) -> tuple[Floats, Floats, Floats]:
    """Return the trunk that was given, and its top and bottom row by column."""
    height, width = shape[0], shape[1]
    trunk: NDArray[Any] = np.zeros((height, width), np.uint8)
    shifted = np.round(pared(points, _FILL_PX) * 16).astype(np.int32)
    cv2.fillPoly(trunk, [shifted], 255, cv2.LINE_AA, 4)
    solid = trunk > 127
    known = np.flatnonzero(solid.any(axis=0))
    columns = np.arange(width)
    top = np.interp(columns, known, solid.argmax(axis=0)[known])
    bottom = np.interp(columns, known, (height - 1 - solid[::-1].argmax(axis=0))[known])
    return (
        (trunk / 255.0).astype(np.float32),
        top.astype(np.float32),
        bottom.astype(np.float32),
    )


def _trunk(alpha: NDArray[Any], tail_base_px: float) -> tuple[Floats, Floats, Floats]:
    """Return the trunk without fins, and its top and bottom row by column."""
    height, width = alpha.shape
    solid = alpha > 127
    columns = np.arange(width)
    known = columns[solid.any(axis=0) & (columns <= tail_base_px)]
    wrist = min(int(tail_base_px), width - 1)
    top = solid.argmax(axis=0).astype(np.float64)
    bottom = height - 1.0 - solid[::-1].argmax(axis=0)
    above, below = np.full(width, _BARE), np.full(width, _BARE)
    if len(known) > _FEWEST:
        middle = (top + bottom)[known] / 2
        middle = np.linspace(middle[:3].mean(), middle[-3:].mean(), len(known))
        for edge, beyond, sign in ((top, above, -1.0), (bottom, below, 1.0)):
            whole = sign * (edge[known] - middle)
            bare = _without_fins(whole)
            edge[known] = middle + sign * bare
            beyond[known] = np.where(bare < whole, 0.5, _BARE)
    # behind the tail's base the skin goes on straight
    top = np.interp(columns, known, top[known]) if len(known) else top
    bottom = np.interp(columns, known, bottom[known]) if len(known) else bottom
    rows = np.arange(height, dtype=np.float32)[:, None]
    inside = (rows >= top - above) & (rows <= bottom + below) & (columns <= wrist)
    trunk = cv2.GaussianBlur(inside.astype(np.float32), (0, 0), 0.7)
    return trunk, top.astype(np.float32), bottom.astype(np.float32)


def _without_fins(reach: Floats) -> Floats:
    """Return how far back or belly reach from the middle, fins cut off.

    A smooth profile lies under the fins, since what stands out of it hardly counts;
    where nothing stands out the outline itself is the edge. The ends are kept.
    """
    share = np.linspace(-1.0, 1.0, len(reach))
    basis = legendre.legvander(share, _PROFILE_DEGREE)
    stands_out = _FIN_HEIGHT * len(reach)
    weights = np.ones(len(reach))
    profile = reach
    for _ in range(20):
        weighted = basis.T * weights**2
        profile = basis @ np.linalg.solve(weighted @ basis, weighted @ reach)
        above = np.maximum(reach - profile, 0.0) / stands_out
        weights = 1.0 / (1.0 + above**2) ** 2
    place = (share + 1.0) / 2.0
    fin = (reach - profile > stands_out) & (place > _FINS_STAND[0])
    fin &= place < _FINS_STAND[1]
    return np.where(fin, profile, reach)
