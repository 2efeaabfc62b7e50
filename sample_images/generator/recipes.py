"""From a short description of a photograph to its scene."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from sample_images.generator.camera import CameraSpec
from sample_images.generator.clutter import Item
from sample_images.generator.fish import FishSpec
from sample_images.generator.layout import (
    Rules,
    across,
    beside,
    lay,
    scatter,
    through_edge,
)
from sample_images.generator.net import NetSpec
from sample_images.generator.paper import PAPER_LIFT_MM, PaperSpec
from sample_images.generator.scene import SceneSpec
from sample_images.generator.stock import Cohort, draw, held

if TYPE_CHECKING:
    from collections.abc import Callable

SIZES_PX = {
    "2mp": (1632, 1224),
    "12mp": (4000, 3000),
    "2mp-portrait": (1224, 1632),
}
ATTEMPTS = 40  # seeds tried until the fish find room


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """What a photograph shows; the seed settles all else.

    ``papers`` is sheet, loose or single; ``arrangement`` clear, touching,
    overlapping or cut; ``bent`` the share of bent fish and ``bend_deg`` the range
    of their bends; ``s_shapes`` the share of S among the bent. Half of the fish are
    of the ``second`` cohort if there is one. ``full_truth`` draws postures, tails and
    mouths, and writes them down. ``spread_items`` lays things anywhere
    instead of at the photo's left and right. ``build`` makes the scene in another way
    than on a board, of the recipe and the number of the attempt.
    """

    name: str
    seed: int
    board: str
    light: str
    cohort: Cohort
    count: int
    second: Cohort | None = None
    papers: str = "sheet"
    size: str = "2mp"
    height_mm: float = 600.0
    tilt_deg: float | None = None
    bent: float = 0.0
    bend_deg: tuple[float, float] = (15.0, 60.0)
    s_shapes: float = 0.3
    arrangement: str = "clear"
    clearance_mm: float = 8.0
    area_mm: tuple[float, float] | None = None
    on_sheet: bool = True
    file_type: str = "jpg"
    quality: int = 88
    orientation: int = 1
    write_focal: bool = True
    print_scale: float = 1.0
    items: tuple[str, ...] = ()
    spread_items: bool = False
    nets: tuple[NetSpec, ...] = ()
    exposure: float = 1.0
    notes: str = ""
    group: str = ""
    tags: tuple[str, ...] = ()
    full_truth: bool = False
    film: float = 0.0
    build: "Callable[[Recipe, int], SceneSpec] | None" = None


def camera_of(recipe: Recipe, rng: np.random.Generator) -> CameraSpec:
    """Return a hand-held phone above the board."""
    width, height = SIZES_PX[recipe.size]
    tilt = float(rng.uniform(1.5, 11)) if recipe.tilt_deg is None else recipe.tilt_deg
    return CameraSpec(
        width_px=width,
        height_px=height,
        focal_per_width=round(float(rng.uniform(0.70, 0.79)), 4),
        height_mm=round(recipe.height_mm * float(rng.uniform(0.96, 1.04)), 1),
        tilt_deg=round(tilt, 2),
        tilt_towards_deg=round(float(rng.uniform(0, 360)), 1),
        roll_deg=round(float(rng.normal(0, 4)), 2),
        aim_mm=(round(float(rng.normal(0, 12)), 1), round(float(rng.normal(0, 12)), 1)),
        k1=round(float(rng.uniform(-0.03, 0.03)), 4),
        write_focal=recipe.write_focal,
    )


def papers_of(
    recipe: Recipe, camera: CameraSpec, rng: np.random.Generator
) -> tuple[PaperSpec, ...]:
    """Return the printed paper, laid as by hand."""
    reach = camera.height_mm / camera.focal_per_width / 2  # half the longer side
    half_w = reach * camera.width_px / max(camera.width_px, camera.height_px)
    half_h = reach * camera.height_px / max(camera.width_px, camera.height_px)

    def jitter(x: float, y: float) -> tuple[float, float]:
        dx, dy = rng.normal(0, 9, 2)
        return round(x + float(dx), 1), round(y + float(dy), 1)

    if recipe.papers == "sheet":
        turn = float(rng.normal(0, 4))
        if recipe.size.endswith("portrait"):
            turn += 90.0
        return (
            PaperSpec(
                kind="sheet",
                position_mm=jitter(0, 0),
                rotation_deg=round(turn, 2),
                print_scale=recipe.print_scale,
            ),
        )
    if recipe.papers == "single":
        return (
            PaperSpec(
                kind="single",
                position_mm=jitter(0, 0),
                rotation_deg=round(float(rng.uniform(0, 360)), 1),
                print_scale=recipe.print_scale,
            ),
        )
    if recipe.area_mm is not None:
        half_w = min(half_w, recipe.area_mm[0] / 2 + 10)
        half_h = min(half_h, recipe.area_mm[1] / 2 + 10)
    x, y = half_w - 78, half_h - 72
    places = ((-x, y), (x, y), (x, -y), (-x, -y))
    return tuple(
        PaperSpec(
            kind="card",
            marker_id=number,
            position_mm=jitter(*place),
            rotation_deg=round(float(rng.uniform(0, 360)), 1),
            print_scale=recipe.print_scale,
        )
        for number, place in enumerate(places)
    )


def _items(
    recipe: Recipe, camera: CameraSpec, rng: np.random.Generator
) -> tuple[Item, ...]:
    """Return things lying at the photograph's left and right."""
    half = camera.height_mm / camera.focal_per_width / 2
    return tuple(
        Item(
            kind=kind,
            position_mm=(
                round(float((half - 70) * (1 if number % 2 else -1)), 1),
                round(float(rng.uniform(-110, 110)), 1),
            ),
            heading_deg=round(90 + float(rng.normal(0, 14)), 1),
        )
        for number, kind in enumerate(recipe.items)
    )


def _drawn(recipe: Recipe, rng: np.random.Generator) -> list[FishSpec]:
    """Return the recipe's fish, unplaced."""
    if recipe.second is None:
        return draw(recipe.cohort, rng, recipe.count)
    others = recipe.count // 2
    fish = draw(recipe.cohort, rng, recipe.count - others)
    return fish + draw(recipe.second, rng, others)


def _bend(
    recipe: Recipe, fish: list[FishSpec], rng: np.random.Generator
) -> list[FishSpec]:
    """Return the fish, the wanted share of them bent."""
    bent = rng.permutation(len(fish))[: round(recipe.bent * len(fish))]
    out = list(fish)
    for k in bent:
        degrees = float(rng.uniform(*recipe.bend_deg) * rng.choice([-1, 1]))
        s_shape = bool(rng.uniform() < recipe.s_shapes)
        out[k] = replace(
            fish[k],
            bend_deg=round(degrees * (0.7 if s_shape else 1.0), 1),
            s_shape=s_shape,
        )
    return out


def _on_nets(
    recipe: Recipe, papers: tuple[PaperSpec, ...], fish: list[FishSpec]
) -> tuple[tuple[PaperSpec, ...], list[FishSpec]]:
    """Return papers and fish lifted by the nets on which they lie."""
    flat = [net for net in recipe.nets if not net.heap]
    base = round(sum(net.thickness_mm for net in flat if net.under), 2)

    def lift(paper: PaperSpec) -> float:
        there = [net.thickness_mm for net in flat if net.reaches(paper.position_mm)]
        return PAPER_LIFT_MM + round(sum(there), 2)

    return (
        tuple(replace(paper, lift_mm=lift(paper)) for paper in papers),
        [replace(f, base_mm=base) for f in fish],
    )


def _arrange(
    recipe: Recipe,
    fish: list[FishSpec],
    camera: CameraSpec,
    papers: tuple[PaperSpec, ...],
    items: tuple[Item, ...],
    rng: np.random.Generator,
) -> tuple[FishSpec, ...]:
    """Return the fish laid out as the recipe asks."""
    rules = Rules(
        clearance_mm=recipe.clearance_mm,
        area_mm=recipe.area_mm,
        on_sheet=recipe.on_sheet,
    )
    if recipe.arrangement == "cut":
        fixed = (through_edge(fish[0], camera, rng),)
        return lay(fish[1:], camera, papers, rng, rules, fixed, items)
    if recipe.arrangement == "clear":
        return lay(fish, camera, papers, rng, rules, items=items)
    partners = len(fish) // 3
    lower, upper = fish[partners:], fish[:partners]
    # The anchors stand wide, so that their partners find room.
    wide = replace(rules, clearance_mm=26.0)
    placed = lay(lower[:partners], camera, papers, rng, wide, items=items)
    join = beside if recipe.arrangement == "touching" else across
    pairs = tuple(
        join(anchor, other, rng) for anchor, other in zip(placed, upper, strict=True)
    )
    return lay(lower[partners:], camera, papers, rng, rules, placed + pairs, items)


def on_board(recipe: Recipe, attempt: int) -> SceneSpec:
    """Return the scene of fish on a board, tried with one of its seeds."""
    rng = np.random.default_rng([recipe.seed, attempt])
    camera = camera_of(recipe, rng)
    papers = papers_of(recipe, camera, rng)
    items = () if recipe.spread_items else _items(recipe, camera, rng)
    fish = _bend(recipe, _drawn(recipe, rng), rng)
    if recipe.full_truth:
        fish = held(fish, rng)
    papers, fish = _on_nets(recipe, papers, fish)
    if recipe.spread_items:
        items = scatter(recipe.items, camera, papers, rng, recipe.area_mm)
    laid = _arrange(recipe, fish, camera, papers, items, rng)
    return SceneSpec(
        name=recipe.name,
        board=recipe.board,
        light=recipe.light,
        camera=camera,
        papers=papers,
        fish=laid,
        items=items,
        nets=recipe.nets,
        seed=recipe.seed * 100 + attempt,
        notes=recipe.notes,
        group=recipe.group,
        file_type=recipe.file_type,
        quality=recipe.quality,
        orientation=recipe.orientation,
        exposure=recipe.exposure,
        tags=recipe.tags,
        full_truth=recipe.full_truth,
        film=recipe.film,
    )


def make(recipe: Recipe) -> SceneSpec:
    """Return the scene of a recipe.

    Raises
    ------
    RuntimeError
        Where the fish find no room with any of the seeds tried.
    """
    for attempt in range(ATTEMPTS):
        try:
            return (recipe.build or on_board)(recipe, attempt)
        except RuntimeError:
            continue
    message = f"{recipe.name}: the fish find no room on the board"
    raise RuntimeError(message)
