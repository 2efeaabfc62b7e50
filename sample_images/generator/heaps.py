"""Net samples tipped on a wet tray: fish lie aslope on others, two layers deep.

The upper fish are stiff: each comes to rest where its weight is held by what lies
under it on both sides of its centre, as a rod on two supports.
"""

from dataclasses import replace

import numpy as np

from sample_images.generator.camera import Array
from sample_images.generator.fins import whole_fish
from sample_images.generator.fish import Body, FishSpec
from sample_images.generator.ground import HeightField
from sample_images.generator.layout import Ground, Rules, lay
from sample_images.generator.recipes import Recipe, camera_of, papers_of
from sample_images.generator.scene import SceneSpec
from sample_images.generator.stock import draw, held
from sample_images.generator.unseen import cohort

_BALANCE = 0.42  # station of the centre of weight; common practice, no source
_TRIES = 300
_AREA_MM = (430.0, 290.0)
_OVERLAP = (0.12, 0.75)  # share of an upper fish that lies over others
_UPPER = 0.42  # share of the fish that lie on others


def support(stations: Array, needed_mm: Array) -> tuple[float, float]:
    """Return the axis heights at snout and fork of a stiff fish at rest.

    ``needed_mm`` is how high the axis must be at each station. The lowest straight
    line over all of them at the centre of weight touches one on either side of it.
    """
    before, behind = stations <= _BALANCE, stations > _BALANCE
    s0, s1 = stations[before][:, None], stations[behind][None, :]
    h0, h1 = needed_mm[before][:, None], needed_mm[behind][None, :]
    slope = (h1 - h0) / (s1 - s0)
    held_mm = h0 + slope * (_BALANCE - s0)
    i, j = np.unravel_index(int(np.argmax(held_mm)), held_mm.shape)
    level, climb = float(held_mm[i, j]), float(slope[i, j])
    return level - climb * _BALANCE, level + climb * (1 - _BALANCE)


def _needed_mm(body: Body, stations: Array, below: HeightField) -> Array:
    """Return how high the axis must be for the body to lie on what is below."""
    dorsal, ventral, thick = body.halves_mm(stations)
    half_tail = np.where(stations > body.family.body_end, 0.03 * body.scale, 0.0)
    needed = np.full(len(stations), 0.6)
    for share in np.linspace(-0.9, 0.9, 13):
        side = share * np.maximum(dorsal if share > 0 else ventral, half_tail)
        places = body.place(stations, side, np.zeros_like(side))
        under = thick * np.sqrt(1 - share**2)
        needed = np.maximum(needed, below.at(places) + under)
    return needed


def _dropped(
    fish: FishSpec,
    lower: tuple[FishSpec, ...],
    below: HeightField,
    upper: Ground,
    rng: np.random.Generator,
) -> FishSpec:
    """Return the fish at rest on the lower ones, clear of the other upper ones.

    Raises
    ------
    RuntimeError
        Where it finds no place.
    """
    stations = np.linspace(0, 1, 81)
    for _ in range(_TRIES):
        onto = lower[int(rng.integers(len(lower)))]
        off = rng.normal(0, 0.22, 2) * onto.fork_length_mm
        x, y = np.array(onto.position_mm) + off
        trial = replace(
            fish,
            position_mm=(round(float(x), 1), round(float(y), 1)),
            heading_deg=round(float(rng.uniform(0, 360)), 1),
            posture=None,
            layer=1,
        )
        body = Body(trial)
        stamp = upper.stamp(body, 2.0)
        if np.any(stamp & upper.taken):
            continue
        heights = below.at(body.footprint_mm())
        share = float(np.mean(below.at(body.midline_mm(60)) > 1.0))
        if not _OVERLAP[0] < share < _OVERLAP[1] or heights.max() < 1:
            continue
        snout, fork = support(stations, _needed_mm(body, stations, below))
        upper.taken |= stamp
        return replace(trial, rest_mm=(round(snout, 2), round(fork, 2)))
    message = "no place on the other fish"
    raise RuntimeError(message)


def in_heap(recipe: Recipe, attempt: int) -> SceneSpec:
    """Return the scene of fish in two layers, tried with one of its seeds."""
    rng = np.random.default_rng([recipe.seed, attempt])
    camera = camera_of(recipe, rng)
    papers = papers_of(recipe, camera, rng)
    fish = held(draw(recipe.cohort, rng, recipe.count), rng)
    fish = [replace(f, bend_deg=round(float(rng.normal(0, 8)), 1)) for f in fish]
    above = round(_UPPER * len(fish))
    rules = Rules(clearance_mm=0.5, on_sheet=False, area_mm=_AREA_MM)
    lower = lay(fish[above:], camera, papers, rng, rules)
    below = HeightField.flat(0.0)
    for each in lower:
        below.add(whole_fish(Body(each)))
    free = Ground.of(camera, papers, replace(rules, area_mm=None))
    upper = tuple(
        _dropped(replace(f, bend_deg=0.0), lower, below, free, rng)
        for f in fish[:above]
    )
    return SceneSpec(
        name=recipe.name,
        board=recipe.board,
        light=recipe.light,
        camera=camera,
        papers=papers,
        fish=lower + upper,
        seed=recipe.seed * 100 + attempt,
        notes=recipe.notes,
        group=recipe.group,
        tags=recipe.tags,
        full_truth=True,
        film=recipe.film,
    )


def _heap(number: int) -> Recipe:
    """Return one photograph of a heap."""
    boards = ("grey-tray", "ground-steel", "deep-blue", "matt-black")
    return Recipe(
        name=f"heap_{number + 1:02d}",
        seed=14000 + number,
        board=boards[number % 4],
        light=("overcast", "tubes", "low-sun", "shade", "bulb")[number % 5],
        cohort=cohort((0, 1, 0, 2, 1, 0, 4, 0)[number % 8], 0.80, 0.20),
        count=(8, 10, 12, 9, 11, 13, 10, 14)[number % 8],
        papers="loose",
        area_mm=(600.0, 420.0),
        height_mm=(640.0, 700.0)[number % 2],
        film=0.5,
        group="heap",
        notes="Killed fish, tipped from the net; the upper ones lie on the lower ones.",
        tags=("heap",),
        full_truth=True,
        build=in_heap,
    )


HEAPS = tuple(_heap(number) for number in range(16))
