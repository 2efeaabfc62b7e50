"""Photographs for a last, blind judgement.

Their seeds, boards, lights and skins are in no other set. Nobody may choose a setting
by them: whoever has looked at results on them has used them up. They are not kept in
the repository; README.md has the command that makes them.
"""

from dataclasses import replace

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


def _with_group(recipes: tuple[Recipe, ...], group: str) -> tuple[Recipe, ...]:
    return tuple(replace(recipe, group=group) for recipe in recipes)


BLIND = _with_group(_NETS, "net")
