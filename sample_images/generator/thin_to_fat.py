"""Photographs that judge weights by outlines: stocks from thin to fat, and deep ones.

Each photograph is of a stock of its own, whose condition K(FL) and mean thickness over
depth are said; fish scatter about both. The first of a family is the one that c is to
be learned from. Nothing here may be read by what is judged; all is common practice, no
source.
"""

from sample_images.generator.recipes import Recipe
from sample_images.generator.stock import Cohort

# family, skin, fork length, K, thickness over depth of the stock, board, light
_STOCKS = (
    ("farm-rainbow", "farm-rainbow", 240.0, 1.25, 0.535, "deep-blue", "overcast"),
    ("farm-rainbow", "farm-rainbow", 235.0, 0.90, 0.510, "leaf-green", "shade"),
    ("farm-rainbow", "farm-rainbow", 250.0, 1.10, 0.560, "ground-steel", "overcast"),
    ("farm-rainbow", "farm-rainbow", 230.0, 1.40, 0.520, "oak", "low-sun"),
    ("farm-rainbow", "farm-rainbow", 245.0, 1.60, 0.550, "matt-black", "two-windows"),
    ("farm-rainbow", "farm-rainbow", 240.0, 1.80, 0.545, "bright-white", "shade"),
    ("deep-carp", "mirror-carp", 200.0, 2.05, 0.490, "oak", "overcast"),
    ("deep-carp", "mirror-carp", 195.0, 2.60, 0.510, "deep-blue", "shade"),
    ("lake-char", "lake-char", 245.0, 1.00, 0.540, "leaf-green", "overcast"),
    ("lake-char", "lake-char", 240.0, 1.35, 0.520, "ground-steel", "shade"),
)


def _photo(number: int) -> Recipe:
    family, skin, length, condition, thickness, board, light = _STOCKS[number]
    return Recipe(
        name=f"stock_{number + 1:02d}",
        seed=15000 + number,
        board=board,
        light=light,
        cohort=Cohort(
            skins=(skin,),
            family=family,
            length_mm=length,
            length_cv=0.10,
            a_g_cm=condition / 100.0,
            b=3.0,
            condition_sd=0.09,
            thickness=(thickness - 0.055, thickness + 0.055),
        ),
        count=6,
        height_mm=(640.0, 680.0)[number % 2],
        group=f"{family} K {condition:.2f}",
        tags=("thin-to-fat",),
        full_truth=True,
    )


THIN_TO_FAT = tuple(_photo(number) for number in range(len(_STOCKS)))
