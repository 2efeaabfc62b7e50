"""Photographs for a last, blind judgement.

Their seeds, boards, lights and skins are in no other set. Nobody may choose a setting
by them: whoever has looked at results on them has used them up. They are not kept in
the repository; README.md has the command that makes them.
"""

from dataclasses import replace
from typing import Any

from sample_images.generator.net import NetSpec
from sample_images.generator.recipes import Recipe
from sample_images.generator.stock import Cohort

BLACK, GREEN, WHITE = (0.045, 0.045, 0.05), (0.06, 0.22, 0.13), (0.82, 0.82, 0.79)
BLUE, ORANGE, BROWN = (0.10, 0.24, 0.52), (0.80, 0.36, 0.10), (0.30, 0.22, 0.14)


def _trout(*skins: str, length_mm: float = 225, a_g_cm: float = 0.0109) -> Cohort:
    return Cohort(skins=skins, length_mm=length_mm, length_cv=0.11, a_g_cm=a_g_cm)


_NETS = (
    Recipe(  # fine knotless net drawn over the whole table
        name="net_01",
        seed=9001,
        board="laminate",
        light="shade",
        cohort=_trout("steelhead", "parr"),
        count=6,
        papers="loose",
        nets=(
            NetSpec(
                knotted=False,
                mesh_mm=6.0,
                cord_mm=0.7,
                colour=BLACK,
                size_mm=(800, 600),
                heading_deg=12,
                opening_deg=84,
                slack=0.05,
                folds=3,
                seed=9101,
            ),
        ),
    ),
    Recipe(  # knotted landing net of green twine
        name="net_02",
        seed=9002,
        board="decking",
        light="noon",
        cohort=_trout("copper", "marble", length_mm=240),
        count=6,
        papers="single",
        notes="The card lies on the knotted net, so higher than the fish.",
        nets=(
            NetSpec(
                knotted=True,
                mesh_mm=18.0,
                cord_mm=1.7,
                colour=GREEN,
                size_mm=(700, 520),
                heading_deg=-20,
                opening_deg=66,
                slack=0.07,
                folds=3,
                seed=9102,
            ),
        ),
    ),
    Recipe(  # fish tipped out on a pale knotless net in a crate
        name="net_03",
        seed=9003,
        board="turquoise-tray",
        light="two-windows",
        cohort=_trout("char-blue", length_mm=215, a_g_cm=0.0099),
        count=6,
        papers="loose",
        area_mm=(640.0, 450.0),
        nets=(
            NetSpec(
                knotted=False,
                mesh_mm=4.0,
                cord_mm=0.6,
                colour=WHITE,
                size_mm=(560, 400),
                position_mm=(8, -6),
                heading_deg=5,
                opening_deg=78,
                slack=0.06,
                folds=5,
                under=True,
                seed=9103,
            ),
        ),
    ),
    Recipe(  # heavy twine, half of the table
        name="net_04",
        seed=9004,
        board="chipboard",
        light="spots",
        cohort=_trout("marble", "parr", length_mm=210),
        count=7,
        papers="single",
        height_mm=650.0,
        nets=(
            NetSpec(
                knotted=True,
                mesh_mm=25.0,
                cord_mm=2.5,
                colour=ORANGE,
                size_mm=(400, 560),
                position_mm=(-255, 20),
                heading_deg=8,
                opening_deg=58,
                slack=0.08,
                folds=2,
                seed=9104,
            ),
        ),
    ),
    Recipe(  # fish within a hand net: netting under and over them
        name="net_05",
        seed=9005,
        board="slotted-crate",
        light="shade",
        cohort=_trout("steelhead", "copper", length_mm=220),
        count=6,
        papers="loose",
        area_mm=(660.0, 460.0),
        nets=(
            NetSpec(
                knotted=False,
                mesh_mm=9.0,
                cord_mm=1.1,
                colour=BLUE,
                size_mm=(600, 430),
                heading_deg=-6,
                opening_deg=74,
                slack=0.05,
                folds=4,
                under=True,
                seed=9105,
            ),
            NetSpec(
                knotted=False,
                mesh_mm=9.0,
                cord_mm=1.1,
                colour=BLUE,
                size_mm=(520, 440),
                position_mm=(40, 10),
                heading_deg=21,
                opening_deg=70,
                slack=0.08,
                folds=3,
                seed=9106,
            ),
        ),
    ),
    Recipe(  # fish on a brown knotted seine, on the ground
        name="net_06",
        seed=9006,
        board="terracotta",
        light="noon",
        cohort=_trout("parr", "copper", "steelhead", length_mm=200),
        count=7,
        on_sheet=False,
        height_mm=640.0,
        nets=(
            NetSpec(
                knotted=True,
                mesh_mm=12.0,
                cord_mm=1.3,
                colour=BROWN,
                size_mm=(760, 600),
                heading_deg=33,
                opening_deg=62,
                slack=0.07,
                folds=6,
                under=True,
                seed=9107,
            ),
        ),
    ),
)


_BOARDS = (
    "granite",
    "decking",
    "chipboard",
    "tarpaulin",
    "red-board",
    "laminate",
    "terracotta",
    "rubber-mat",
)
_LIGHTS = ("shade", "noon", "spots", "two-windows", "torch")
_SALMONIDS = (
    _trout("steelhead", "copper"),
    Cohort(
        skins=("char-blue",), family="char", length_mm=220, length_cv=0.1, a_g_cm=0.0096
    ),
    _trout("parr", length_mm=150),
    Cohort(
        skins=("grayling",),
        family="grayling",
        length_mm=230,
        length_cv=0.1,
        a_g_cm=0.0086,
    ),
    _trout("marble", length_mm=240),
)


def _other(
    skin: str, family: str, length_mm: float, a_g_cm: float, b: float = 3.0
) -> Cohort:
    return Cohort(
        skins=(skin,),
        family=family,
        length_mm=length_mm,
        length_cv=0.10,
        a_g_cm=a_g_cm,
        b=b,
    )


# Coefficients near published ones for fork length in cm; see families.py.
_CARP = _other("carp", "carp", 235, 0.0334, 2.82)
_TENCH = _other("tench", "tench", 225, 0.0148, 3.04)
_SUNFISH = _other("sunfish", "sunfish", 150, 0.0093, 3.385)
_TILAPIA = _other("tilapia", "tilapia", 195, 0.0191, 2.97)
_RED_TILAPIA = _other("tilapia-red", "tilapia", 190, 0.0191, 2.97)
_BASS = _other("bass", "bass", 225, 0.0120, 3.07)
_PERCH = _other("perch", "perch", 205, 0.0125, 3.01)
_BREAM = _other("bream", "bream", 215, 0.0165)
_SILVER_PERCH = _other("silver-perch", "silver-perch", 205, 0.0160)
_GRAYLING, _CHAR = _SALMONIDS[3], _SALMONIDS[1]

Settings = dict[str, object]


def _group(
    group: str,
    settings: tuple[Settings, ...],
    common: Settings,
    first: int,
) -> tuple[Recipe, ...]:
    """Return a group's recipes; ``first`` is their seed and turns the lists."""
    recipes = []
    for k, own in enumerate(settings):
        number = first + k
        chosen: Settings = {
            "board": _BOARDS[(3 * number) % len(_BOARDS)],
            "light": _LIGHTS[number % len(_LIGHTS)],
            "cohort": _SALMONIDS[number % len(_SALMONIDS)],
            "height_mm": 630.0,
            **common,
            **own,
        }
        recipes.append(
            Recipe(
                name=f"{group}_{k + 1:02d}",
                seed=9200 + number,
                group=group,
                **chosen,  # type: ignore[arg-type]
            )
        )
    return tuple(recipes)


_PLAIN: tuple[Settings, ...] = ({}, {}, {}, {}, {})
_IN_CRATE: Settings = {"papers": "loose", "area_mm": (640.0, 450.0)}
_CLEAN = _group(
    "clean",
    (
        {},
        {"papers": "loose", "tilt_deg": 4.0},  # all four cards in the picture
        {"cohort": _trout("parr", length_mm=108), "count": 8, "height_mm": 480.0},
        {"papers": "single"},
        {},
        {"board": "turquoise-tray", **_IN_CRATE},
        {"cohort": _trout("steelhead", length_mm=335), "count": 5, "height_mm": 800.0},
        {"papers": "single", "count": 5, "height_mm": 580.0},
    ),
    {"count": 6},
    1,
)
_TOUCHING = _group("touching", _PLAIN, {"count": 8, "arrangement": "touching"}, 12)
_DARK = _group(
    "dark",
    (
        {"board": "rubber-mat"},
        {"board": "granite"},
        {"board": "slotted-crate", **_IN_CRATE},
    ),
    {
        "count": 6,
        "exposure": 0.75,
        "light": "shade",
        "cohort": _trout("dusk", length_mm=220),
    },
    22,
)
_GLARE = _group(
    "glare",
    (
        {"board": "granite"},
        {"board": "red-board"},
        {"board": "turquoise-tray", **_IN_CRATE},
    ),
    {"count": 5, "light": "skylight"},
    31,
)
_OVERLAPPING = _group(
    "overlapping", _PLAIN[:4], {"count": 7, "arrangement": "overlapping"}, 41
)
_BENT = _group("bent", _PLAIN[:3], {"count": 6, "bent": 0.9, "s_shapes": 0.4}, 53)
_OTHER_BODIES = _group(
    "other-bodies",
    (
        {"cohort": _CARP, "second": _TENCH, "count": 5},
        {"cohort": _SUNFISH, "count": 8, "height_mm": 560.0},
        {"cohort": _TILAPIA, "second": _RED_TILAPIA},
        {"cohort": _BASS, "second": _PERCH, "papers": "loose"},
        {"cohort": _BREAM, "second": _SILVER_PERCH, "count": 5},
        {"cohort": _GRAYLING, "second": _CHAR, "papers": "single"},
    ),
    {"count": 6, "height_mm": 640.0},
    62,
)


def _heap(**changes: Any) -> NetSpec:
    """Return netting thrown down beside the sheet."""
    spec = NetSpec(
        knotted=False,
        mesh_mm=8.0,
        cord_mm=1.0,
        colour=GREEN,
        size_mm=(430, 400),
        position_mm=(265, -60),
        opening_deg=72,
        slack=0.7,
        folds=14,
        heap=True,
    )
    return replace(spec, **changes)


_EMPTY = _group(
    "empty",
    (
        {"items": ("glove", "ruler", "knife")},
        {"items": ("gravel", "broad-leaf", "reed", "broad-leaf", "leaf", "leaf")},
        {"items": ("squid", "crayfish", "squid"), "papers": "loose"},
        {"items": ("rope", "pencil"), "nets": (_heap(seed=9108),)},
        {
            "items": ("crayfish", "glove", "reed"),
            "papers": "single",
            "nets": (
                _heap(knotted=True, mesh_mm=15.0, cord_mm=1.6, colour=BROWN, seed=9109),
            ),
        },
    ),
    {"count": 0, "spread_items": True},
    74,
)

BLIND = (
    *(replace(recipe, group="net") for recipe in _NETS),
    *_OTHER_BODIES,
    *_EMPTY,
    *_CLEAN,
    *_TOUCHING,
    *_DARK,
    *_GLARE,
    *_OVERLAPPING,
    *_BENT,
)
