"""How a photo is arranged: rows, heaps, pairs, trays, nets, hands, or no fish."""

import cv2
import numpy as np

from sample_images.training.columns import SIDE, UPRIGHT
from sample_images.training.nets import lay_net
from sample_images.training.noise import Floats, NoiseBank
from sample_images.training.places import SHAPE, Place, draw_places
from sample_images.training.scene import (
    Canvas,
    Scene,
    Spot,
    Sprite,
    SpriteMaker,
    draw_over,
    draw_pose,
    finish,
    hide_in,
    lay_fish,
    lay_thing,
    new_canvas,
)
from sample_images.training.surfaces import draw_surface
from sample_images.training.things import COVERS, draw_thing
from sample_images.training.tubs import fill_tub

_ON_BELLY = 0.06  # out of the water, lying on its belly or back
_TAKEN_FOR_FISH = ("disc", "cephalopod", "spindle", "creature")
"""What earlier networks took for fish more than anything else."""
_RATES_BY_LAYOUT = {
    "none": 0.14,
    "single": 0.06,
    "close": 0.06,
    "rows": 0.10,
    "scatter": 0.09,
    "mixed": 0.06,  # small ones among large ones
    "touch": 0.12,
    "heap": 0.10,
    "along": 0.09,  # one over another, whose hidden part its tail or head goes on
    "crowd": 0.03,  # many small ones
    "tub": 0.15,
}


def draw_scene(
    makers: SpriteMaker,
    rng: np.random.Generator,
    layout: str = "",
    surfaces: tuple[str, ...] = (),
) -> Scene:
    """Return a random scene; ``layout`` fixes how the fish lie."""
    noise = makers.noise
    rates = list(_RATES_BY_LAYOUT.values())
    chosen = layout or str(rng.choice(list(_RATES_BY_LAYOUT), p=rates))
    canvas = new_canvas(SHAPE, rng, noise, surfaces)
    if chosen == "tub":
        fill_tub(canvas, makers, rng)
        return finish(canvas, rng, noise)
    _furnish(canvas, rng, noise, surfaces, empty=chosen == "none")
    places = draw_places(chosen, rng)
    if places and rng.random() < 0.12:
        _hold(canvas, places, rng, noise)
    kinds = _kinds(canvas, makers, rng)
    for centre, angle, length in places:
        pose = draw_pose(centre, angle, length, rng)
        lay_fish(canvas, kinds[int(rng.integers(len(kinds)))], pose, rng)
    _cover(canvas, rng, noise)
    close = chosen == "close" and rng.random() < 0.7
    return finish(canvas, rng, noise, close=close)


def _furnish(
    canvas: Canvas,
    rng: np.random.Generator,
    noise: NoiseBank,
    surfaces: tuple[str, ...],
    *,
    empty: bool,
) -> None:
    """Put tray, things and nets on the ground."""
    if rng.random() < 0.3:
        _tray(canvas, rng, noise, surfaces)
    for _ in range(int(rng.integers(0, 7 if empty else 4))):
        _put(canvas, draw_thing(rng, noise), rng)
    if empty and rng.random() < 0.35:
        for _ in range(int(rng.choice([1, 1, 2]))):
            _put(canvas, draw_thing(rng, noise, _TAKEN_FOR_FISH), rng)
    if rng.random() < 0.1:
        for _ in range(int(rng.integers(1, 4))):
            lay_net(canvas, rng, noise)


def _kinds(
    canvas: Canvas, makers: SpriteMaker, rng: np.random.Generator
) -> list[Sprite]:
    """Return the looks of a photo's fish: a dip holds one kind, some hold any."""
    count = int(rng.choice([1, 2, 3, 12]))
    kinds = [
        makers.draw(UPRIGHT if rng.random() < _ON_BELLY else SIDE) for _ in range(count)
    ]
    if rng.random() < 0.2:
        kinds = [hide_in(kind, canvas, rng) for kind in kinds]
    return kinds


def _cover(canvas: Canvas, rng: np.random.Generator, noise: NoiseBank) -> None:
    """Put over the fish what comes to lie on them."""
    if rng.random() < 0.2:
        _stains(canvas, rng, noise)
    if rng.random() < (0.3 if canvas.fish else 0.1):
        for _ in range(int(rng.integers(1, 3))):
            _put_over(canvas, draw_over(rng, noise), rng)
    if canvas.fish and rng.random() < 0.18:
        _cover_end(canvas, rng, noise)
    if rng.random() < 0.16:
        for _ in range(int(rng.choice([1, 1, 2]))):
            lay_net(canvas, rng, noise)


def _hold(
    canvas: Canvas, places: list[Place], rng: np.random.Generator, noise: NoiseBank
) -> None:
    """Lay a hand, a tape, a ruler or a scale's plate under one of the fish."""
    centre, angle, length = places[int(rng.integers(len(places)))]
    kind = str(rng.choice(["hand", "hand", "ruler", "ruler", "patch", "disc"]))
    thing = draw_thing(rng, noise, (kind,))
    height, width = thing[1].shape
    along = np.array([np.cos(angle), np.sin(angle)])
    across = np.array([-along[1], along[0]])
    shift = along * rng.normal(0, 0.25) + across * rng.normal(0, 0.12)
    at = np.array(centre) + shift * length
    part = rng.uniform(0.5, 1.1) if kind == "hand" else rng.uniform(0.8, 1.6)
    scale = float(np.clip(length * part / max(height, width), 0.08, 1.6))
    turn = -np.rad2deg(angle) + (rng.normal(0, 8) if kind == "ruler" else 0.0)
    if kind == "hand":
        turn = rng.uniform(0, 360)
    spot = Spot(centre=(float(at[0]), float(at[1])), scale=scale, turn_deg=float(turn))
    lay_thing(canvas, thing, spot, rng)


def _put(
    canvas: Canvas, thing: tuple[Floats, Floats], rng: np.random.Generator
) -> None:
    centre = (rng.uniform(0, SHAPE[1]), rng.uniform(0, SHAPE[0]))
    scale = float(np.exp(rng.normal(-0.1, 0.35)))
    spot = Spot(centre=centre, scale=scale, turn_deg=rng.uniform(0, 360))
    lay_thing(canvas, thing, spot, rng)


def _put_over(
    canvas: Canvas, thing: tuple[Floats, Floats], rng: np.random.Generator
) -> None:
    """Lay a thing on a fish, by its ends as often as on its trunk."""
    if not canvas.fish or rng.random() < 0.15:
        _put(canvas, thing, rng)
        return
    index = int(rng.integers(len(canvas.fish)))
    midline = canvas.midlines[index]
    point = midline[int(rng.choice([0, 4, 8, 12, 16, 20, 23]))]
    length = canvas.fish[index][7]
    centre = (
        float(point[0] + rng.normal(0, 0.12 * length)),
        float(point[1] + rng.normal(0, 0.12 * length)),
    )
    size = max(thing[1].shape)
    scale = float(np.clip(length * rng.uniform(0.1, 0.8) / size, 0.1, 1.3))
    spot = Spot(centre=centre, scale=scale, turn_deg=rng.uniform(0, 360))
    lay_thing(canvas, thing, spot, rng)


def _cover_end(canvas: Canvas, rng: np.random.Generator, noise: NoiseBank) -> None:
    """Hide a tail or head under something wide: a label, a cloth, a sheet.

    Mostly square to the fish, so that its straight edge looks like a tail's end.
    """
    row = canvas.fish[int(rng.integers(len(canvas.fish)))]
    snout, fork, length = row[0:2], row[2:4], float(row[7])
    end, other = (fork, snout) if rng.random() < 0.7 else (snout, fork)
    ahead = (end - other) / max(float(np.hypot(*(end - other))), 1.0)
    hidden = rng.uniform(0.0, 0.35) * length
    thing = draw_thing(rng, noise, (COVERS[int(rng.integers(len(COVERS)))],))
    height, width = thing[1].shape
    upright = rng.random() < 0.5
    deep = height if upright else width
    scale = (hidden + rng.uniform(0.15, 0.7) * length) / deep
    scale = float(np.clip(scale, 0.15, 2.0))
    centre = end + ahead * (scale * deep / 2 - hidden)
    if rng.random() < 0.4:  # from one side: a lobe or the chin still shows
        wide = scale * (width if upright else height)
        aside = rng.choice([-1, 1]) * (wide / 2 + rng.uniform(-0.06, 0.04) * length)
        centre = centre + np.array([-ahead[1], ahead[0]]) * aside
    askew = rng.normal(0, 6) if rng.random() < 0.7 else rng.uniform(0, 360)
    heading = -np.rad2deg(np.arctan2(ahead[1], ahead[0])) + (90 if upright else 0)
    spot = Spot(
        centre=(float(centre[0]), float(centre[1])),
        scale=scale,
        turn_deg=float(heading + askew),
    )
    lay_thing(canvas, thing, spot, rng)


def _tray(
    canvas: Canvas,
    rng: np.random.Generator,
    noise: NoiseBank,
    surfaces: tuple[str, ...],
) -> None:
    """Draw a tray, board or box: an inner floor, a rim, a shadow within."""
    height, width = SHAPE
    size = (rng.uniform(0.45, 1.1) * width, rng.uniform(0.35, 0.9) * height)
    corner = rng.uniform(0, 0.2) * min(size)
    image = np.zeros(SHAPE, np.float32)
    half_x, half_y = size[0] / 2 - corner, size[1] / 2 - corner
    centre = np.array([width, height]) / 2 + rng.normal(0, 40, 2)
    angle = rng.uniform(0, np.pi)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    box = np.array(
        [[-half_x, -half_y], [half_x, -half_y], [half_x, half_y], [-half_x, half_y]]
    )
    points = (box @ turn.T + centre).astype(np.int32)
    cv2.fillPoly(image, [points], 1.0)
    far = cv2.distanceTransform((image < 0.5).astype(np.uint8), cv2.DIST_L2, 5)
    inside = np.clip(corner - far + 0.5, 0, 1)
    rim_wide = rng.uniform(2, 22)
    rim = np.clip(corner + rim_wide - far + 0.5, 0, 1) - inside
    floor = draw_surface(
        SHAPE, rng, noise, surfaces or ("plain", "steel", "wet", "wood")
    )
    if rng.random() < 0.4:  # see-through or the same stuff
        floor = canvas.colour * np.float32(rng.uniform(0.75, 1.15))
    shade = 1 - rng.uniform(0, 0.5) * np.exp(-np.clip(corner - far, 0, None) / 8)
    tone = floor.mean(axis=(0, 1)) * rng.uniform(0.6, 1.5)
    canvas.colour += inside[..., None] * (floor * shade[..., None] - canvas.colour)
    ridge = 1 + 0.3 * np.sin((far - corner) / rim_wide * np.pi * rng.integers(1, 4))
    canvas.colour += rim[..., None] * (tone * ridge[..., None] - canvas.colour)
    np.clip(canvas.colour, 0, 1, out=canvas.colour)


def _stains(canvas: Canvas, rng: np.random.Generator, noise: NoiseBank) -> None:
    """Draw blood, slime or mud."""
    field = noise.cut(SHAPE, rng, rng.uniform(0.6, 1.0))
    stain = np.clip((field - rng.uniform(0.8, 2.0)) * 3, 0, 1) * rng.uniform(0.2, 0.9)
    tones = ((0.45, 0.05, 0.05), (0.3, 0.22, 0.12), (0.8, 0.8, 0.75))
    tone = np.array(tones[int(rng.integers(3))], np.float32)
    canvas.colour += stain[..., None] * (tone - canvas.colour)
