"""Photographs that judge: postures, tails and species that no other set has.

``unseen`` has 24 photographs with 120 fish on boards of six colours, ``sizes`` one
with large and small fish. Nothing here may be read by what is judged; README.md has
the command.
"""

from sample_images.generator.recipes import Recipe
from sample_images.generator.stock import Cohort

_BOARDS = (
    "bright-white",
    "deep-blue",
    "leaf-green",
    "ground-steel",
    "oak",
    "matt-black",
)
_LIGHTS = ("low-sun", "shade", "bulb", "overcast", "low-sun", "two-windows", "bulb")
# family, skins, fork length, a of W = a L^3.0; common practice, no source
_STOCKS = (
    ("farm-rainbow", ("farm-rainbow",), 228.0, 0.0125),
    ("lake-char", ("lake-char",), 236.0, 0.0104),
    ("catfish", ("catfish-spotted", "catfish-mottled"), 232.0, 0.0100),
    ("deep-carp", ("mirror-carp",), 196.0, 0.0205),
    ("round-perch", ("round-perch",), 186.0, 0.0140),
    ("cichlid", ("cichlid",), 178.0, 0.0190),
)


def cohort(number: int, factor: float = 1.0, cv: float = 0.12) -> Cohort:
    """Return one of the invented stocks."""
    family, skins, length, a_g_cm = _STOCKS[number % len(_STOCKS)]
    return Cohort(
        skins=skins,
        family=family,
        length_mm=length * factor,
        length_cv=cv,
        a_g_cm=a_g_cm,
        b=3.0,
        condition_sd=0.09,
    )


def _photo(number: int) -> Recipe:
    """Return one photograph; each board meets four of the stocks."""
    board = number % len(_BOARDS)
    row = number // len(_BOARDS)
    touching = (number + row) % 3 == 2
    return Recipe(
        name=f"unseen_{number + 1:02d}",
        seed=12000 + number,
        board=_BOARDS[board],
        light=_LIGHTS[number % len(_LIGHTS)],
        cohort=cohort(board + row),
        count=6 if touching else (4, 5)[number % 2],
        papers=("sheet", "loose")[(number + row) % 4 == 1],
        arrangement="touching" if touching else "clear",
        height_mm=(620.0, 700.0, 560.0, 780.0)[number % 4],
        bent=0.25 if number % 2 else 0.0,
        bend_deg=(10.0, 40.0),
        group=f"{'touch' if touching else 'apart'}-{_BOARDS[board]}",
        tags=("touching" if touching else "apart",),
        full_truth=True,
    )


UNSEEN = tuple(_photo(number) for number in range(24))

SIZES = tuple(
    Recipe(
        name=f"sizes_{k + 1}",
        seed=12500 + k,
        board=board,
        light=light,
        cohort=cohort(0, 1.25, 0.06),
        second=cohort(0, 0.165, 0.06),
        count=10,
        size="12mp",
        height_mm=690.0,
        clearance_mm=9.0,
        group="sizes",
        notes="Five large fish and five of about 4 % of the photo's width.",
        full_truth=True,
    )
    for k, (board, light) in enumerate((("deep-blue", "shade"), ("oak", "low-sun")))
)
