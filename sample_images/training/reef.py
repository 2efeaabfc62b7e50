"""Bodies from 910 outlines of reef fish: deep ones, round-tailed ones.

Outlines: Schwartz and Alfaro, CC BY 4.0; changed: only level whole ones are taken,
turned and scaled, most with another tail. Their species are not stated; outlines
drawn one after the other are mostly of one kind, so blocks are held out.
"""

from pathlib import Path

import cv2
import numpy as np

from sample_images.training.columns import ROUND
from sample_images.training.noise import Floats
from sample_images.training.shapes import Body

_TRAINING_END = 720  # from here the authors' own validation part: held out
_BLOCK, _EVERY, _HELD = 40, 6, 5
_DEEPEST, _SLENDEREST = 0.62, 0.12
_COLUMNS = 200


def held_out(number: int) -> bool:
    """Return whether an outline is kept for the checks."""
    return number >= _TRAINING_END or number // _BLOCK % _EVERY == _HELD


def load_reef_bodies(folder: Path, *, held: bool = False) -> tuple[Body, ...]:
    """Return the usable outlines, or those held out."""
    outlines = np.load(folder / "outlines.npz")
    bodies = []
    for name in sorted(outlines.files):
        if held_out(int(name[1:])) == held:
            body = _body(name, np.asarray(outlines[name], np.float32))
            if body is not None:
                bodies.append(body)
    return tuple(bodies)


def _body(name: str, polygon: Floats) -> Body | None:
    """Return the outline as a body, head left, if its tail is found."""
    size = np.ptp(polygon, axis=0)
    if not _SLENDEREST < size[1] / size[0] < _DEEPEST:
        return None
    unit = (polygon - polygon.min(axis=0)) / size[0]
    thick, top, bottom = _columns(unit)
    inner = slice(int(0.68 * _COLUMNS), int(0.93 * _COLUMNS))
    wrist = inner.start + int(np.argmin(thick[inner]))
    deepest = float(thick.max())
    tail_wide = float(thick[wrist:].max())
    if thick[wrist] > min(0.45 * deepest, 0.18) or tail_wide < 1.25 * thick[wrist]:
        return None
    if thick[: int(0.3 * _COLUMNS)].max() < 1.3 * thick[wrist]:  # faces right
        return None
    base_x = (wrist + 0.5) / _COLUMNS
    corners = np.array([[base_x, top[wrist]], [base_x, bottom[wrist]]])
    polygon, base_at = _with_corners(unit, corners)
    snout = polygon[int(np.argmin(polygon[:, 0]))]
    base = corners.mean(axis=0)
    fork = base + (base - snout) * (1 - base_x) / base_x
    along = fork - snout
    level = np.array([[along[0], along[1]], [-along[1], along[0]]]) / (along @ along)
    return Body(
        name=f"reef_{name}",
        polygon=((polygon - snout) @ level.T).astype(np.float32),
        tail_base_x=float((level @ (base - snout))[0]),
        fork_y=0.0,
        base_at=base_at,
        hind_kind=ROUND,
    )


def _columns(unit: Floats) -> tuple[Floats, Floats, Floats]:
    """Return thickness, top and bottom by column of a body one unit long."""
    rows = int(np.ceil(unit[:, 1].max() * _COLUMNS)) + 2
    picture = np.zeros((rows, _COLUMNS), np.uint8)
    cv2.fillPoly(picture, [np.round(unit * _COLUMNS).astype(np.int32)], 1)
    solid = picture > 0
    top = solid.argmax(axis=0) / _COLUMNS
    bottom = (rows - solid[::-1].argmax(axis=0)) / _COLUMNS
    return solid.sum(axis=0) / _COLUMNS, top, bottom


def _with_corners(unit: Floats, corners: Floats) -> tuple[Floats, tuple[int, int]]:
    """Return the outline with more points, and those nearest to the corners."""
    count = len(unit)
    fine = max(1, round(300 / count))
    places = np.arange(count * fine) / fine
    closed = np.vstack([unit, unit[:1]])
    x = np.interp(places, np.arange(count + 1), closed[:, 0])
    y = np.interp(places, np.arange(count + 1), closed[:, 1])
    dense = np.column_stack([x, y]).astype(np.float32)
    soft = cv2.GaussianBlur(
        np.vstack([dense[-12:], dense, dense[:12]])[None], (0, 0), 1.5, sigmaY=0.01
    )[0][12:-12]
    at = [int(np.argmin(np.hypot(*(soft - corner).T))) for corner in corners]
    return np.asarray(soft, np.float32), (at[0], at[1])
