"""Real fish: whole ones cut out of photos, and skins to stretch over any body.

``cutouts.json`` holds the outlines, made with OpenCV's GrabCut and looked at one
by one; ``backs.json`` midlines and half widths, by hand, of live fish seen from
above. The photos stay outside the repository. Only photos named there are used in
training; the others of the shared folder are kept for the checks.
"""

import json
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import Any

import cv2
import numpy as np

from sample_images.training.noise import Floats
from sample_images.training.shapes import Body, Raster, fork_of, rasterise
from sample_images.training.skins import Coat

_SCALE = 360.0  # pixels per fork length at which the photos are kept
_SKIN_SHAPE = (96, 360)  # rows across the trunk, columns snout to tail base


@dataclass(frozen=True, slots=True, eq=False)
class Cutout:
    """A real fish: level body with its colours, and its skin laid flat.

    ``back``: it was seen from above.
    """

    skin: Floats
    raster: Raster | None
    coat: Coat | None
    back: bool = False


def photo_files() -> tuple[str, ...]:
    """Return every photo that training opens, from the photos' folder."""
    entries = [*_entries("cutouts.json"), *_entries("backs.json")]
    return tuple(sorted({str(entry["photo"]) for entry in entries}))


def load_cutouts(photos: Path) -> tuple[Cutout, ...]:
    """Return the real fish of the shared photos that training may use."""
    sides = (_cut(photos, entry) for entry in _entries("cutouts.json"))
    backs = (_back(photos, entry) for entry in _entries("backs.json"))
    return (*sides, *backs)


def _entries(name: str) -> list[dict[str, Any]]:
    text = resources.files("sample_images.training").joinpath(name).read_text()
    return list(json.loads(text))


def _back(photos: Path, entry: dict[str, Any]) -> Cutout:
    """Return the skin of a live fish seen from above, along its midline."""
    rows, columns = _SKIN_SHAPE
    points = np.array(entry["midline"], float)
    along = np.append(0, np.cumsum(np.hypot(*np.diff(points, axis=0).T)))
    u = np.linspace(0, 1, columns)
    x = np.interp(u, along / along[-1], points[:, 0])
    y = np.interp(u, along / along[-1], points[:, 1])
    x, y = (cv2.GaussianBlur(line[None], (0, 0), 20)[0] for line in (x, y))
    ahead_x, ahead_y = np.gradient(x), np.gradient(y)
    size = np.hypot(ahead_x, ahead_y)
    half = np.interp(u, [0, 0.05, 0.25, 0.6, 1], [0.45, 0.7, 1, 0.85, 0.3])
    reach = np.linspace(-0.9, 0.9, rows)[:, None] * half * float(entry["half_width"])
    map_x = (x - ahead_y / size * reach).astype(np.float32)
    map_y = (y + ahead_x / size * reach).astype(np.float32)
    photo = np.asarray(cv2.imread(str(photos / str(entry["photo"]))))
    skin = cv2.remap(photo, map_x, map_y, cv2.INTER_LINEAR)[..., ::-1]
    colour = skin.astype(np.float32) / 255
    return Cutout(skin=colour, raster=None, coat=None, back=True)


def _cut(photos: Path, entry: dict[str, object]) -> Cutout:
    polygon = np.array(entry["polygon"], dtype=float)
    snout = np.array(entry["snout"], dtype=float)
    base_x = float(str(entry["tail_base_x"]))
    column = np.abs(polygon[:, 0] - base_x)
    upper, lower = _two_crossings(column, polygon)
    if entry["whole"]:
        end = fork_of(polygon, upper, lower, away_from=snout)
    else:
        base = (polygon[upper] + polygon[lower]) / 2
        end = snout + (base - snout) / 0.88
    photo = np.asarray(cv2.imread(str(photos / str(entry["photo"]))))
    colour = photo[..., ::-1].astype(np.float32) / 255
    along = end - snout
    turn = np.array([[along[0], along[1]], [-along[1], along[0]]]) / (along @ along)
    unit = ((polygon - snout) @ turn.T).astype(np.float32)
    base_unit = float((turn @ (polygon[[upper, lower]].mean(axis=0) - snout))[0])
    body = Body(name="cut", polygon=unit, tail_base_x=base_unit, fork_y=0.0)
    raster = rasterise(body, _SCALE)
    to_photo = np.linalg.inv(turn) / _SCALE
    shift = snout - to_photo @ np.array(raster.origin)
    matrix = np.column_stack([to_photo, shift])
    size = (raster.alpha.shape[1], raster.alpha.shape[0])
    flags = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    level = cv2.warpAffine(
        colour, matrix, size, flags=flags, borderMode=cv2.BORDER_REPLICATE
    )
    level = np.asarray(level, np.float32)
    skin = _flatten(level, raster)
    if not entry["whole"]:
        return Cutout(skin=skin, raster=None, coat=None)
    soft = cv2.GaussianBlur(cv2.erode(raster.alpha, np.ones((3, 3))), (0, 0), 0.8)
    coat = Coat(colour=level, alpha=np.asarray(soft, np.float32), gloss=0.15)
    return Cutout(skin=skin, raster=raster, coat=coat)


def _two_crossings(away: Floats, polygon: Floats) -> tuple[int, int]:
    """Return the polygon's corners above and below at the tail's base."""
    middle_y = polygon[away < away.max() * 0.1, 1].mean()
    above, below = polygon[:, 1] < middle_y, polygon[:, 1] >= middle_y
    upper = int(np.argmin(np.where(above, away, np.inf)))
    lower = int(np.argmin(np.where(below, away, np.inf)))
    return upper, lower


def _flatten(level: Floats, raster: Raster) -> Floats:
    """Return the trunk's colours by place along (columns) and across (rows)."""
    rows, columns = _SKIN_SHAPE
    u = np.linspace(0.01, raster.tail_base_x * 0.98, columns)
    x = raster.origin[0] + u * raster.scale
    map_x = np.broadcast_to(x, _SKIN_SHAPE).astype(np.float32)
    wanted = np.linspace(-0.93, 0.93, rows)
    lines = np.arange(raster.v.shape[0])
    map_y = np.stack(
        [np.interp(wanted, raster.v[:, int(c)], lines) for c in x], axis=1
    ).astype(np.float32)
    return np.asarray(cv2.remap(level, map_x, map_y, cv2.INTER_LINEAR), np.float32)


def dress(raster: Raster, skin: Floats, rng: np.random.Generator) -> Floats:
    """Return a level body's colours in a real skin, its tones changed."""
    rows, columns = _SKIN_SHAPE
    map_x = raster.u / max(raster.tail_base_x, 0.5) * (columns - 1)
    map_y = (np.clip(raster.v, -1, 1) * 0.5 + 0.5) * (rows - 1)
    colour = cv2.remap(
        skin,
        np.clip(map_x, 0, columns - 1).astype(np.float32),
        map_y.astype(np.float32),
        cv2.INTER_LINEAR,
    )
    mean = colour.mean(axis=(0, 1))
    colour = mean + (colour - mean) * np.float32(rng.uniform(0.8, 2.2))
    gain = np.exp(rng.normal(0, 0.25)) * np.exp(rng.normal(0, 0.08, 3))
    return np.clip(colour * gain, 0.01, 1.0).astype(np.float32)
