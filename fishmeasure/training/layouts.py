"""How a photo is arranged: rows, heaps, pairs, trays, nets, hands, or no fish."""

import cv2
import numpy as np

from fishmeasure.training.nets import lay_net
from fishmeasure.training.noise import Floats, NoiseBank
from fishmeasure.training.scene import (
    Canvas,
    Scene,
    Spot,
    SpriteMaker,
    draw_over,
    draw_pose,
    finish,
    hide_in,
    lay_fish,
    lay_thing,
    new_canvas,
)
from fishmeasure.training.surfaces import draw_surface
from fishmeasure.training.things import COVERS, draw_thing

SHAPE = (384, 384)
_MOST = 16  # but in crowds
_LAYOUTS = ("none", "single", "close", "rows", "scatter", "touch", "heap")
_RATES = (0.16, 0.1, 0.08, 0.14, 0.16, 0.18, 0.18)


def draw_scene(
    makers: SpriteMaker,
    rng: np.random.Generator,
    layout: str = "",
    surfaces: tuple[str, ...] = (),
) -> Scene:
    """Return a random scene; ``layout`` fixes how the fish lie."""
    noise = makers.noise
    chosen = layout or str(rng.choice(_LAYOUTS, p=_RATES))
    canvas = new_canvas(SHAPE, rng, noise, surfaces)
    if rng.random() < 0.3:
        _tray(canvas, rng, noise, surfaces)
    for _ in range(int(rng.integers(0, 4 if chosen != "none" else 7))):
        _put(canvas, draw_thing(rng, noise), rng)
    if rng.random() < 0.1:
        for _ in range(int(rng.integers(1, 4))):
            lay_net(canvas, rng, noise)
    # a dip holds one kind, of a few looks; some photos are of anything
    kinds = [makers.draw() for _ in range(int(rng.choice([1, 2, 3, 12])))]
    if rng.random() < 0.14:
        kinds = [hide_in(kind, canvas, rng) for kind in kinds]
    for centre, angle, length in _places(chosen, rng):
        pose = draw_pose(centre, angle, length, rng)
        lay_fish(canvas, kinds[int(rng.integers(len(kinds)))], pose, rng)
    if rng.random() < 0.2:
        _stains(canvas, rng, noise)
    if rng.random() < (0.3 if chosen != "none" else 0.1):
        for _ in range(int(rng.integers(1, 3))):
            _put_over(canvas, draw_over(rng, noise), rng)
    if canvas.fish and rng.random() < 0.14:
        _cover_end(canvas, rng, noise)
    if rng.random() < 0.16:
        for _ in range(int(rng.choice([1, 1, 2]))):
            lay_net(canvas, rng, noise)
    close = chosen == "close" and rng.random() < 0.7
    return finish(canvas, rng, noise, close=close)


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


def _places(
    layout: str, rng: np.random.Generator
) -> list[tuple[tuple[float, float], float, float]]:
    """Return centre, heading and length of each fish."""
    if layout == "none":
        return []
    height, width = SHAPE
    typical = float(np.exp(rng.uniform(np.log(14), np.log(330))))
    if layout == "single":
        typical = float(np.exp(rng.uniform(np.log(70), np.log(420))))
    if layout == "close":
        typical = float(np.exp(rng.uniform(np.log(200), np.log(420))))
    room = int(np.clip(height * width / (0.24 * typical**2), 1, _MOST))
    spread = rng.uniform(0.02, 0.25)
    heading = rng.uniform(0, 2 * np.pi)
    turn_sd = float(rng.choice([0.05, 0.2, 0.6]))
    places: list[tuple[tuple[float, float], float, float]] = []
    count = (
        1 if layout in {"single", "close"} else int(rng.integers(1, max(2, room) + 1))
    )
    if layout in {"touch", "heap"}:
        count = max(2, min(count, 9))
    gap = rng.uniform(0.26, 0.6) if layout != "touch" else rng.uniform(0.1, 0.27)
    across = np.array([-np.sin(heading), np.cos(heading)])
    ahead = np.array([np.cos(heading), np.sin(heading)])
    middle = np.array([width / 2, height / 2]) + rng.normal(0, 50, 2)
    for index in range(count):
        length = float(np.clip(typical * np.exp(rng.normal(0, spread)), 10, 430))
        angle = heading + rng.normal(0, turn_sd) + (np.pi if rng.random() < 0.35 else 0)
        if layout in {"rows", "touch"}:
            step = (index - (count - 1) / 2) * gap * typical
            centre = middle + across * step + ahead * rng.normal(0, 0.1 * typical)
        elif layout == "heap":
            centre = middle + rng.normal(0, rng.uniform(0.15, 0.45) * typical, 2)
            angle = heading + rng.normal(0, max(turn_sd, 0.3)) * 2
        elif layout == "close":
            centre = middle / 2 + np.array([width, height]) / 4
        else:
            centre = np.array([rng.uniform(0, width), rng.uniform(0, height)])
            angle = rng.uniform(0, 2 * np.pi)
            if places and layout == "scatter":
                centre = _clear_of(centre, places, rng)
        places.append(((float(centre[0]), float(centre[1])), float(angle), length))
    order = rng.permutation(len(places))
    return [places[int(index)] for index in order]


def _clear_of(
    centre: Floats,
    places: list[tuple[tuple[float, float], float, float]],
    rng: np.random.Generator,
) -> Floats:
    """Return a place a little away from the other fish, if there is one."""
    others = np.array([place[0] for place in places])
    wanted = 0.45 * max(place[2] for place in places)
    for _ in range(6):
        if np.hypot(*(others - centre).T).min() > wanted:
            break
        centre = np.array([rng.uniform(0, SHAPE[1]), rng.uniform(0, SHAPE[0])])
    return centre


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
