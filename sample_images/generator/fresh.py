"""Photographs for one last judgement of a method: nobody may set anything by them.

Boards, lights, skins, bodies, camera heights and postures other than those of
``unseen.py``. Postures: how stiff snout and fork are is drawn for each photo, more
often limp or stiff than between, and the fork does not follow the snout closely;
tails are mostly opaque or mostly see-through. Nothing here may be read by what is
judged; all is common practice, no source.
"""

from dataclasses import replace

import numpy as np

from sample_images.generator.fish import Posture, Tail
from sample_images.generator.recipes import Recipe, on_board
from sample_images.generator.scene import SceneSpec
from sample_images.generator.stock import Cohort

# family, skins, fork length, a of W = a L^b, b, board, light
_SCENES = (
    ("trout", ("steelhead", "rainbow-pale"), 214.0, 0.0121, 3.0, "concrete", "noon"),
    ("tilapia", ("tilapia",), 188.0, 0.0191, 2.97, "laminate", "bulb"),
    ("grayling", ("grayling",), 232.0, 0.0096, 3.0, "blue-board", "evening"),
    ("carp", ("carp",), 222.0, 0.0334, 2.82, "bamboo", "low-sun"),
    ("catfish", ("catfish-mottled",), 240.0, 0.0092, 3.0, "bright-white", "noon"),
    (
        "farm-rainbow",
        ("rainbow-dark", "copper"),
        205.0,
        0.0130,
        3.0,
        "red-board",
        "spots",
    ),
    ("tench", ("tench",), 216.0, 0.0148, 3.04, "yellow-board", "sun"),
    ("perch", ("perch",), 198.0, 0.0125, 3.01, "granite", "lamp"),
    ("char", ("char-blue",), 228.0, 0.0100, 3.0, "bright-white", "low-sun"),
    ("cichlid", ("tilapia-red",), 170.0, 0.0200, 3.0, "rubber-mat", "noon"),
    ("trout", ("parr",), 152.0, 0.0110, 3.0, "green-board", "tubes"),
    ("silver-perch", ("silver-perch",), 205.0, 0.0165, 3.0, "terracotta", "evening"),
    ("lake-char", ("char-silver",), 246.0, 0.0102, 3.0, "chipboard", "bulb"),
    ("catfish", ("catfish-spotted",), 218.0, 0.0104, 3.0, "slate", "shade"),
    ("farm-rainbow", ("steelhead",), 238.0, 0.0122, 3.0, "bright-white", "bulb"),
    ("deep-carp", ("carp",), 190.0, 0.0200, 3.0, "tiles", "noon"),
    ("trout", ("brown-silver", "golden"), 250.0, 0.0108, 3.0, "deep-blue", "sun"),
    ("round-perch", ("perch",), 180.0, 0.0138, 3.0, "leaf-green", "lamp"),
    ("bass", ("bass",), 226.0, 0.0120, 3.07, "ground-steel", "noon"),
    ("tilapia", ("tilapia-red",), 178.0, 0.0191, 2.97, "deep-blue", "low-sun"),
    ("farm-rainbow", ("rainbow",), 222.0, 0.0126, 3.0, "decking", "overcast"),
    ("grayling", ("grayling",), 214.0, 0.0098, 3.0, "bright-white", "sun"),
    ("carp", ("carp",), 208.0, 0.0330, 2.82, "cutting-board", "two-windows"),
    ("catfish", ("catfish-spotted",), 252.0, 0.0098, 3.0, "leaf-green", "sun"),
)
_HEIGHTS_MM = (540.0, 820.0, 660.0, 900.0, 600.0, 740.0, 580.0)


def _laid(recipe: Recipe, attempt: int) -> SceneSpec:
    """Return the scene, its fish in the postures and with the tails of this set."""
    scene = on_board(recipe, attempt)
    rng = np.random.default_rng([recipe.seed, 77, attempt])
    head = float(rng.beta(0.7, 0.7))
    tail = 0.55 * head + 0.45 * float(rng.beta(0.7, 0.7))
    opaque = float(rng.choice([0.95, 0.5]))
    fish = []
    for each in scene.fish:
        at_head, at_tail = np.clip(
            np.array([head, tail]) + rng.normal(0, 0.09, 2), 0, 1
        )
        posture = Posture(
            snout=round(0.42 + 0.56 * float(at_head), 3),
            fork=round(0.07 + 0.42 * float(at_tail), 3),
        )
        torn = int(rng.integers(3, 7)) if rng.uniform() < 0.25 else 0
        seen = float(np.clip(rng.normal(opaque, 0.08), 0.3, 1.0))
        fin = Tail(
            opacity=round(seen, 3),
            splits=torn,
            split_depth=round(float(rng.uniform(0.1, 0.5)), 3) if torn else 0.0,
        )
        fish.append(replace(each, posture=posture, tail=fin))
    return replace(scene, fish=tuple(fish))


def _photo(number: int) -> Recipe:
    family, skins, length, a_g_cm, b, board, light = _SCENES[number]
    touching = number % 4 == 1
    return Recipe(
        name=f"fresh_{number + 1:02d}",
        seed=23000 + 7 * number,
        board=board,
        light=light,
        cohort=Cohort(
            skins=skins,
            family=family,
            length_mm=length,
            length_cv=0.13,
            a_g_cm=a_g_cm,
            b=b,
            condition_sd=0.10,
        ),
        count=6 if touching else (5, 4, 5)[number % 3],
        papers=("sheet", "sheet", "loose")[number % 3],
        arrangement="touching" if touching else "clear",
        height_mm=_HEIGHTS_MM[number % len(_HEIGHTS_MM)],
        bent=(0.0, 0.2, 0.3)[number % 3],
        bend_deg=(8.0, 35.0),
        group=f"{'touch' if touching else 'apart'}-{board}",
        tags=("touching" if touching else "apart",),
        full_truth=True,
        build=_laid,
    )


FRESH = tuple(_photo(number) for number in range(len(_SCENES)))
