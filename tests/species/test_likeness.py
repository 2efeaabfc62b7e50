"""Fish of another shape than the named species are told, its own stocks are not.

Depths over length are measured ones: wild Arctic char (per-fish data Charr.csv, n 216),
farmed spawners of the German genetic inventory (2006, of total length) and perch and
bream of Brofeldt 1917, of fork length.
"""

import pytest

from fishmeasure.species import load_species
from fishmeasure.species.likeness import other_species


def of_fork(per_total: float, key: str) -> float:
    return per_total / load_species(key).shape.fork_per_total.value


@pytest.mark.parametrize(
    ("depth", "key"),
    [
        (0.1652, "arctic-char"),  # wild, landlocked
        (0.1987, "arctic-char"),  # wild, caught in autumn
        (of_fork(0.2298, "arctic-char"), "arctic-char"),
        (of_fork(0.2426, "brown-trout"), "brown-trout"),
        (of_fork(0.2369, "brook-trout"), "brook-trout"),
        (of_fork(0.3472, "common-carp"), "common-carp"),
        (0.2785, "perch"),
    ],
)
def test_a_stock_of_the_species_is_like_it(depth: float, key: str) -> None:
    assert other_species([depth] * 5, load_species(key)) is None


def test_carp_named_trout_are_told_with_what_they_may_be() -> None:
    carp = of_fork(0.3472, "common-carp")
    problem = other_species([carp] * 5, load_species("rainbow-trout"))
    assert problem is not None
    assert problem.code == "other-species"
    assert "deeper than rainbow trout" in problem.message
    assert "Nile tilapia" in problem.message  # 0.37 deep; carp of the file are 0.32


def test_char_named_carp_are_slimmer() -> None:
    problem = other_species([0.1847] * 3, load_species("common-carp"))
    assert problem is not None
    assert "slimmer" in problem.message


def test_one_odd_fish_of_many_is_no_other_species() -> None:
    """Bream, 0.459 deep, among trout: the rest are trout."""
    depths = [0.25, 0.24, 0.26, 0.25, 0.459]
    assert other_species(depths, load_species("rainbow-trout")) is None


def test_without_an_outline_nothing_is_said() -> None:
    assert other_species([], load_species("rainbow-trout")) is None
