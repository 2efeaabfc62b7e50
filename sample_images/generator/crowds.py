"""Fingerlings in a tub, 100 to 300 in one photograph, to be counted.

They swim at several heights, some over others. A few skins are shared by all of
them: at this size their spots cannot be told apart.
"""

from dataclasses import replace

import numpy as np

from sample_images.generator.camera import Array, Camera
from sample_images.generator.fish import FishSpec, Swim, Tail
from sample_images.generator.paper import PaperSpec, build
from sample_images.generator.recipes import Recipe, camera_of, papers_of
from sample_images.generator.scene import SceneSpec
from sample_images.generator.stock import draw
from sample_images.generator.swim import SwimmingBody
from sample_images.generator.tub import TubSpec
from sample_images.generator.unseen import cohort
from sample_images.generator.water import WaterSpec, waves

_TUB = TubSpec(half_mm=(290, 205), power=7, wall_mm=180, colour=(0.55, 0.60, 0.62))
_SKINS = 6
_APART_MM = 4.5  # of axes, beyond half the thickness of both
_CROSSING = 0.12  # share of the tries in which a fish may swim over another
_OVER_MM = 14.0
_TRIES = 60_000


def _blocked(papers: tuple[PaperSpec, ...]) -> list[tuple[Array, float]]:
    """Return the markers' middles and how far fish keep from them."""
    return [
        (corners.mean(axis=0)[:2], 0.75 * float(np.ptp(corners[:, :2], axis=0).max()))
        for paper in papers
        for corners in build(paper).corners_mm.values()
    ]


def _spread(
    fish: list[FishSpec],
    camera: Camera,
    papers: tuple[PaperSpec, ...],
    rng: np.random.Generator,
) -> tuple[FishSpec, ...]:
    """Return the fish at places of their own, some over others.

    Raises
    ------
    RuntimeError
        Where they find no room.
    """
    markers, placed = _blocked(papers), []
    frame = camera.frame_on_board()
    low = np.maximum(frame.min(axis=0) * 0.85, -np.array(_TUB.half_mm))
    high = np.minimum(frame.max(axis=0) * 0.85, np.array(_TUB.half_mm))
    axes, heights, halves = np.empty((0, 7, 2)), np.empty(0), np.empty(0)
    for _ in range(_TRIES):
        if len(placed) == len(fish):
            return tuple(placed)
        x, y = rng.uniform(low, high)
        trial = replace(
            fish[len(placed)],
            position_mm=(round(float(x), 1), round(float(y), 1)),
            heading_deg=round(float(rng.uniform(0, 360)), 1),
        )
        body = SwimmingBody(trial)
        axis = body.midline_mm(7)[:, :2]
        if not _TUB.holds(axis, within_mm=14.0).all():
            continue
        if any(np.hypot(*(axis - m).T).min() < reach for m, reach in markers):
            continue
        gaps = np.linalg.norm(axes[:, :, None] - axis[None, None], axis=-1)
        gap = gaps.min(axis=(1, 2)) - halves - body.half_thickness_mm
        near = gap < _APART_MM
        if near.any():
            apart = np.abs(heights[near] - body.axis_mm).min() > _OVER_MM
            if not apart or rng.uniform() > _CROSSING:
                continue
        axes = np.concatenate([axes, axis[None]])
        heights = np.append(heights, body.axis_mm)
        halves = np.append(halves, body.half_thickness_mm)
        placed.append(replace(trial, layer=round(body.axis_mm)))
    message = "no room for so many fish"
    raise RuntimeError(message)


def in_crowd(recipe: Recipe, attempt: int) -> SceneSpec:
    """Return the scene of many fingerlings in a tub."""
    rng = np.random.default_rng([recipe.seed, attempt])
    camera = camera_of(recipe, rng)
    papers = papers_of(recipe, camera, rng)
    depth = round(float(rng.uniform(70, 110)), 1)
    seeds = rng.integers(1 << 31, size=_SKINS)
    thin = rng.uniform(0.3, 1.0, _SKINS)
    fish = []
    for each in draw(recipe.cohort, rng, recipe.count):
        skin = int(rng.integers(_SKINS))
        fish.append(
            replace(
                each,
                seed=int(seeds[skin]),
                skin=recipe.cohort.skins[skin % len(recipe.cohort.skins)],
                tail=Tail(opacity=round(float(thin[skin]), 3)),
                bend_deg=round(float(rng.normal(0, 18)), 1),
                s_shape=bool(rng.uniform() < 0.5),
                swim=Swim(
                    belly_mm=round(float(rng.uniform(3, depth - 32)), 1),
                    pitch_deg=round(float(rng.normal(0, 3)), 2),
                    roll_deg=round(float(rng.normal(0, 5)), 2),
                ),
            )
        )
    water = WaterSpec(
        depth_mm=depth,
        waves=waves(rng, float(rng.uniform(0.015, 0.045))),
        turbidity_per_mm=0.0006,
        flakes=int(rng.integers(60, 300)),
        droppings=int(rng.integers(0, 30)),
    )
    return SceneSpec(
        name=recipe.name,
        board=recipe.board,
        light=recipe.light,
        camera=camera,
        papers=papers,
        fish=_spread(fish, Camera.from_spec(camera), papers, rng),
        seed=recipe.seed * 100 + attempt,
        group=recipe.group,
        tags=recipe.tags,
        full_truth=True,
        water=water,
        tub=_TUB,
    )


def _crowd(number: int) -> Recipe:
    """Return one photograph of a crowd."""
    return Recipe(
        name=f"count_{number + 1}",
        seed=15000 + number,
        board=("tub-white", "tub-grey", "tub-blue", "tub-white")[number],
        light=("overcast", "shade", "tubes", "noon")[number],
        cohort=cohort((0, 1, 5, 0)[number], (0.21, 0.20, 0.22, 0.18)[number]),
        count=(150, 110, 200, 280)[number],
        height_mm=620.0,
        size="12mp" if number == 3 else "2mp",
        group="count",
        tags=("water", "count"),
        full_truth=True,
        build=in_crowd,
    )


CROWDS = tuple(_crowd(number) for number in range(4))
