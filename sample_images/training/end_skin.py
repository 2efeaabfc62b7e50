"""A fish's outline and skin at full resolution."""

import cv2
import numpy as np

from sample_images.training.noise import Floats
from sample_images.training.scene import Pose, Sprite, inverse
from sample_images.training.shapes import Body, pared

_SHIFT = 5
_TIMES = 4
_ENLARGED = -1  # where a sprite keeps the picture that is enlarged


def edge_of(body: Body, pose: Pose) -> tuple[Floats, Floats, Floats]:
    """Return the outline in the piece, smooth, with its snout and hind end.

    The ends are points of the outline that is drawn: the foremost one, and the
    one on the midline behind.
    """
    polygon = body.polygon
    count = len(polygon)
    fine = 4
    places = np.arange(count * fine) / fine
    closed = np.vstack([polygon, polygon[:1]])
    index = np.arange(count + 1)
    dense = np.column_stack(
        [np.interp(places, index, closed[:, 0]), np.interp(places, index, closed[:, 1])]
    ).astype(np.float32)
    around = np.vstack([dense[-16:], dense, dense[:16]])
    soft = cv2.GaussianBlur(around[None], (0, 0), 2.5, sigmaY=0.01)[0][16:-16]
    front = int(np.argmin(np.hypot(*soft.T)))
    back = int(np.argmin(np.hypot(*(soft - [1.0, 0.0]).T)))
    edge = pose.place(soft[:, 0], soft[:, 1])
    return edge, edge[front], edge[back]


def fine_alpha(edge: Floats, shape: tuple[int, ...]) -> Floats:
    """Return how much of each pixel lies inside the outline.

    Filled at four times the size and reduced.
    """
    low = np.clip(np.floor(edge.min(axis=0)).astype(int) - 1, 0, shape[1])
    high = np.clip(np.ceil(edge.max(axis=0)).astype(int) + 2, 0, shape[1])
    alpha: Floats = np.zeros(shape, np.float32)
    width, height = high - low
    if min(width, height) < 1:
        return alpha
    large = (pared(edge, 0.45 / _TIMES) - low + 0.5) * _TIMES - 0.5
    large = np.clip(large, -16000, 16000)
    mask = np.zeros((height * _TIMES, width * _TIMES), np.uint8)
    fixed = np.round(large * (1 << _SHIFT)).astype(np.int32)
    cv2.fillPoly(mask, [fixed], 255, cv2.LINE_8, _SHIFT)
    part = cv2.resize(mask, (width, height), interpolation=cv2.INTER_AREA)
    alpha[low[1] : high[1], low[0] : high[0]] = part / np.float32(255)
    return alpha


def fine_coat(
    sprite: Sprite,
    pose: Pose,
    alpha: Floats,
    sun: tuple[float, float],
    rng: np.random.Generator,
) -> tuple[Floats, Floats]:
    """Return colour and opacity of each pixel, rays and shading put to it."""
    height, width = alpha.shape
    map_x, map_y, _ = inverse(sprite, pose, (0, 0, width, height), grid=8)
    placed = cv2.remap(
        _fine_picture(sprite),
        map_x,
        map_y,
        cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )
    colour, clear, trunk = placed[..., :3], placed[..., 3], placed[..., 4]
    fin = 1 - trunk
    u = (map_x - sprite.origin[0]) / sprite.scale
    v = (map_y - sprite.origin[1]) / sprite.scale
    base = sprite.body.tail_base_x
    behind = u - (base - 0.1)
    rays = np.sin(np.arctan2(v, np.maximum(behind, 0.02)) * rng.uniform(60, 160))
    tail = np.clip((u - base) / 0.03, 0, 1)
    colour = colour * (1 + rng.uniform(0, 0.25) * rays * fin * tail)[..., None]
    opacity = alpha * np.clip(1 - clear * (1 + 0.35 * rays * tail), 0.15, 1)
    if sprite.own_light > 0.5:
        colour = colour * _rounded(alpha, sun, rng)[..., None]
    grain = rng.uniform(0, 0.05)
    if grain > 0.01:
        rough = cv2.resize(
            rng.standard_normal((height // 2, width // 2), np.float32), (width, height)
        )
        colour = colour * (1 + grain * rough)[..., None]
    return np.clip(colour, 0.003, 1.0).astype(np.float32), opacity.astype(np.float32)


def _fine_picture(sprite: Sprite) -> Floats:
    """Return colour, how clear and how much trunk, soft enough to be enlarged."""
    if _ENLARGED not in sprite.levels:
        picture = np.dstack([sprite.colour, _clear(sprite), sprite.trunk])
        picture = cv2.GaussianBlur(picture, (0, 0), 0.7)
        sprite.levels[_ENLARGED] = (picture, picture)
    return sprite.levels[_ENLARGED][0]


def _clear(sprite: Sprite) -> Floats:
    """Return how clear the fins are, carried on a little beyond the outline."""
    clear = np.where(
        sprite.shape > 0.9, 1 - sprite.opacity / np.maximum(sprite.shape, 0.1), 0
    )
    inside = (sprite.shape > 0.9).astype(np.float32)
    weight = cv2.blur(inside, (9, 9))
    near = cv2.blur(clear.astype(np.float32), (9, 9)) / np.maximum(weight, 0.05)
    return np.where(inside > 0, clear, near).astype(np.float32)


def _rounded(
    alpha: Floats, sun: tuple[float, float], rng: np.random.Generator
) -> Floats:
    """Return the shading of a round edge lit from one side."""
    quarter = cv2.resize(alpha, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
    bulge = cv2.GaussianBlur(quarter, (0, 0), rng.uniform(3, 9))
    slope_x = cv2.Sobel(bulge, cv2.CV_32F, 1, 0)
    slope_y = cv2.Sobel(bulge, cv2.CV_32F, 0, 1)
    # the lamp is opposite the shadow
    light = 1 + rng.uniform(0, 1.5) * (slope_x * sun[0] + slope_y * sun[1])
    light = light * (1 - rng.uniform(0, 0.5) * (1 - bulge))
    size = (alpha.shape[1], alpha.shape[0])
    return np.asarray(
        cv2.resize(np.clip(light, 0.3, 1.6), size, interpolation=cv2.INTER_LINEAR)
    )
