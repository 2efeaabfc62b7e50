"""Live fish in a tub of shallow water, and wet boards that are none.

The camera sees the bottom through a rippled surface. Fish keep 3 to 30 mm between
belly and bottom; some swim over others, some lie on their side.
"""

from dataclasses import replace

import numpy as np

from sample_images.generator.camera import CameraSpec
from sample_images.generator.fish import FishSpec, Swim
from sample_images.generator.layout import Rules, lay
from sample_images.generator.paper import PaperSpec
from sample_images.generator.recipes import Recipe, camera_of, papers_of
from sample_images.generator.scene import SceneSpec
from sample_images.generator.stock import draw, held
from sample_images.generator.swim import SwimmingBody
from sample_images.generator.tub import TubSpec
from sample_images.generator.unseen import cohort
from sample_images.generator.water import WaterSpec, waves

_TUBS = (
    TubSpec(half_mm=(300, 215), power=8, wall_mm=190, colour=(0.86, 0.87, 0.86)),
    TubSpec(half_mm=(290, 290), power=2, wall_mm=230, colour=(0.12, 0.28, 0.55)),
    TubSpec(half_mm=(330, 235), power=7, wall_mm=220, colour=(0.07, 0.07, 0.075)),
    TubSpec(half_mm=(310, 225), power=9, wall_mm=200, colour=(0.46, 0.48, 0.49)),
)
_FLOORS = ("tub-white", "tub-blue", "tub-black", "tub-grey")
_OUTSIDE = ("concrete", "terracotta", "decking", "laminate")
_LIGHTS = ("overcast", "noon", "shade", "tubes", "sun", "spots", "two-windows")
_OVER_BACKS_MM = 6.0  # of water over the highest fin
_ON_SIDE = 0.12  # share of fish that lie on their side
_CROSSING = 0.12  # share that swims over another
_BACK = {"cichlid": 0.52, "round-perch": 0.42, "catfish": 0.36}
_LOW_MM = 16.0  # bellies of those that are crossed


def _swimming(
    fish: list[FishSpec], depth_mm: float, rng: np.random.Generator
) -> list[FishSpec]:
    """Return the fish at their heights, swimming; some lie on their side."""
    out = []
    for drawn in held(fish, rng):
        each = replace(
            drawn,
            bend_deg=round(float(rng.normal(0, 16)), 1),
            s_shape=bool(rng.uniform() < 0.5),
            gape_deg=0.0,
            layer=1,
        )
        if rng.uniform() < _ON_SIDE:
            out.append(replace(each, layer=0))
            continue
        swim = Swim(
            belly_mm=round(float(rng.uniform(3, 30)), 1),
            pitch_deg=round(float(rng.normal(0, 2.0)), 2),
            roll_deg=round(float(rng.normal(0, 4.0)), 2),
        )
        upright = replace(each, swim=swim, posture=None)
        over = SwimmingBody(upright).top_mm() + _OVER_BACKS_MM - depth_mm
        if over > 0:
            swim = replace(swim, belly_mm=round(swim.belly_mm - over, 1))
        if swim.belly_mm < 3:
            message = "the water is too shallow for this fish"
            raise RuntimeError(message)
        out.append(replace(upright, swim=swim))
    return out


def _over(below: FishSpec, fish: FishSpec, rng: np.random.Generator) -> FishSpec:
    """Return the fish crossing another one, its belly beside the other's back."""
    heading = below.heading_deg + float(rng.choice([-1, 1]) * rng.uniform(35, 90))
    along = float(rng.uniform(-0.2, 0.3)) * below.fork_length_mm
    turn = np.radians(below.heading_deg)
    x = below.position_mm[0] + np.cos(turn) * along
    y = below.position_mm[1] + np.sin(turn) * along
    return replace(
        fish,
        position_mm=(round(float(x), 1), round(float(y), 1)),
        heading_deg=round(heading % 360, 1),
        layer=2,
    )


def _laid(
    box: TubSpec,
    fish: list[FishSpec],
    camera: CameraSpec,
    papers: tuple[PaperSpec, ...],
    rng: np.random.Generator,
) -> tuple[FishSpec, ...]:
    """Return the fish spread over the tub."""
    share = 1.36 if box.power == 2 else 1.84
    area = (box.half_mm[0] * share, box.half_mm[1] * share)
    rules = Rules(clearance_mm=3.0, inset=0.0, on_sheet=True, area_mm=area)
    crossing = round(_CROSSING * len(fish) + float(rng.uniform(-0.5, 0.5)))
    placed = lay(fish[crossing:], camera, papers, rng, rules)
    above = []
    for each in fish[:crossing]:
        low = [f for f in placed if f.swim is not None and f.swim.belly_mm < _LOW_MM]
        if not low or each.swim is None:
            message = "no fish swims low enough to be crossed"
            raise RuntimeError(message)
        above.append(_over(low[int(rng.integers(len(low)))], each, rng))
    return placed + tuple(above)


def in_tub(recipe: Recipe, attempt: int) -> SceneSpec:
    """Return the scene of live fish in a tub, tried with one of its seeds.

    Raises
    ------
    RuntimeError
        Where the fish find no room.
    """
    rng = np.random.default_rng([recipe.seed, attempt])
    number = _FLOORS.index(recipe.board)
    box = replace(_TUBS[number], floor=_OUTSIDE[number])
    area = tuple(2 * v * (0.72 if box.power == 2 else 0.93) for v in box.half_mm)
    recipe = replace(recipe, area_mm=(area[0], area[1]))
    camera = camera_of(recipe, rng)
    papers = papers_of(recipe, camera, rng)
    depth = round(float(rng.uniform(70, 140)), 1)
    stock = recipe.cohort
    longest = 1.5 * depth / _BACK.get(stock.family, 0.36) / 2
    stock = replace(stock, length_mm=min(stock.length_mm, longest))
    fish = _swimming(draw(stock, rng, recipe.count), depth, rng)
    # Ripples move the bottom by 1 to 3 px at the photo's scale.
    px_per_mm = camera.focal_per_width * camera.width_px / camera.height_mm
    shift_px = float(rng.uniform(0.7, 2.2)) * camera.width_px / 1632
    slope = shift_px / px_per_mm / (0.25 * depth)
    water = WaterSpec(
        depth_mm=depth,
        waves=waves(rng, slope),
        turbidity_per_mm=round(float(10 ** rng.uniform(-3.7, -2.65)), 6),
        flakes=int(rng.integers(60, 700)),
        droppings=int(rng.integers(0, 40)),
    )
    return SceneSpec(
        name=recipe.name,
        board=recipe.board,
        light=recipe.light,
        camera=camera,
        papers=papers,
        fish=_laid(box, fish, camera, papers, rng),
        seed=recipe.seed * 100 + attempt,
        notes=recipe.notes,
        group=recipe.group,
        tags=recipe.tags,
        full_truth=True,
        water=water,
        tub=box,
    )


def _tub(number: int) -> Recipe:
    """Return one photograph of a tub."""
    return Recipe(
        name=f"tub_{number + 1:02d}",
        seed=13000 + number,
        board=_FLOORS[number % 4],
        light=_LIGHTS[number % len(_LIGHTS)],
        cohort=cohort((0, 1, 0, 2, 1, 0, 0, 4, 1, 0, 5, 0)[number % 12], 0.86, 0.10),
        count=(5, 6, 6, 8, 7, 6, 8, 7, 9, 5, 6, 10)[number % 12],
        papers="loose" if number % 4 != 1 and number // 2 % 2 else "sheet",
        height_mm=(640.0, 900.0, 760.0, 700.0, 830.0)[number % 5],
        tilt_deg=float((2, 9, 5, 12, 7, 3)[number % 6]),
        group="tub",
        tags=("water",),
        full_truth=True,
        build=in_tub,
    )


def _wet_board(number: int) -> Recipe:
    """Return one photograph of fish in the air on a board that stands wet."""
    return Recipe(
        name=f"wet_board_{number + 1}",
        seed=13100 + number,
        board=(
            "bright-white",
            "deep-blue",
            "ground-steel",
            "matt-black",
            "leaf-green",
            "blue-tray",
        )[number],
        light=("skylight", "tubes", "glare", "noon", "spots", "overcast")[number],
        cohort=cohort(number, 0.95),
        count=5,
        papers=("sheet", "loose")[number % 2],
        area_mm=(560.0, 380.0) if number == 5 else None,
        height_mm=640.0,
        film=0.55 + 0.07 * number,
        group="wet-board",
        notes="In the air: a board under a film of water, no tub.",
        tags=("wet",),
        full_truth=True,
    )


TUBS = tuple(_tub(number) for number in range(24)) + tuple(
    _wet_board(number) for number in range(6)
)
