"""Photographs for judging methods: other seeds, boards, skins and lights.

They are not kept in the repository; README.md has the command that makes them.
"""

from sample_images.generator.recipes import Recipe
from sample_images.generator.stock import Cohort

SKINS = ("tiger", "char-silver", "rainbow-pale", "brook", "brown-silver")
BOARDS = ("concrete", "bamboo", "blue-board", "black-liner", "slate", "yellow-board")
TRAYS_MM = {"grey-tray": (620.0, 430.0)}
LIGHTS = ("sun", "tubes", "evening")

# group, photographs, fish in each, boards, lights, further settings
_GROUPS: tuple[tuple[str, int, int, tuple[str, ...], dict[str, object]], ...] = (
    ("clean", 8, 6, (*BOARDS, "tiles"), {}),
    ("clutter", 3, 5, (*BOARDS, "tiles"), {"items": ("leaf", "knife", "pencil")}),
    ("loose", 5, 6, (*BOARDS, "tiles"), {"papers": "loose"}),
    ("single", 4, 5, BOARDS, {"papers": "single", "height_mm": 570.0}),
    ("bent", 5, 6, (*BOARDS, "tiles"), {"bent": 0.9, "s_shapes": 0.4}),
    ("touching", 5, 8, (*BOARDS, "tiles"), {"arrangement": "touching"}),
    ("overlapping", 4, 8, BOARDS, {"arrangement": "overlapping"}),
    ("dark", 4, 6, ("black-liner", "slate"), {"exposure": 0.75}),
    ("glare", 4, 5, ("black-liner", "slate", "tiles", "blue-board"), {}),
)


def _cohort(number: int) -> Cohort:
    """Return one of several invented stocks."""
    skin = SKINS[number % len(SKINS)]
    return Cohort(
        skins=(skin,) if number % 4 else (skin, SKINS[(number + 2) % len(SKINS)]),
        length_mm=(205.0, 240.0, 190.0, 225.0)[number % 4],
        length_cv=0.11,
        a_g_cm=(0.0100, 0.0116, 0.0108)[number % 3],
    )


def _recipes() -> tuple[Recipe, ...]:
    recipes: list[Recipe] = []
    for group, count, fish, surfaces, settings in _GROUPS:
        for k in range(count):
            number = len(recipes)
            light = "glare" if group == "glare" else LIGHTS[number % len(LIGHTS)]
            dark = "brook" if group == "dark" else None
            cohort = _cohort(number)
            recipes.append(
                Recipe(
                    name=f"{group}_{k + 1:02d}",
                    seed=7000 + number,
                    board=surfaces[(k + number) % len(surfaces)],
                    light=light,
                    cohort=Cohort(skins=(dark,), length_mm=225, length_cv=0.1)
                    if dark
                    else cohort,
                    count=fish,
                    group=group,
                    **{"height_mm": 630.0, **settings},  # type: ignore[arg-type]
                )
            )
    return tuple(recipes)


HELD_OUT = _recipes()
