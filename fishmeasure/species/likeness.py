"""Whether fish have the shape of the species that was named."""

from collections.abc import Sequence
from statistics import median

from fishmeasure.base.flags import Problem
from fishmeasure.species.loader import packaged_species, species_keys
from fishmeasure.species.record import Species

OUTLINE_DEPTH_SD = 0.05
"""Relative, of the depth of an outline, for what is left of fins in it."""
UNLIKE_SD = 3.0
"""Of one fish. The figures' own spread holds fish and stocks: wild Arctic char of two
forms and two seasons lie at 0.165 to 0.199 (Charr.csv, n 216), farmed spawners at 0.24
of their fork length, from total length at 0.96 (genetic inventory, DE, 2006)."""
UNLIKE_MEDIAN_SD = 2.5
"""Of the median of a photo's fish: carp and tilapia of 0.32 to 0.39 were once measured
as rainbow trout, which this tells."""
_LIKE_SD = 2.0
_MOST_NAMED = 2


def depth_score(depth_per_length: float, species: Species) -> float:
    """Return how far a depth over fork length is from the species', in deviations."""
    spread = (
        species.shape.depth_per_fork_length.sd**2
        + (OUTLINE_DEPTH_SD * depth_per_length) ** 2
    )
    return float(
        (depth_per_length - species.shape.depth_per_fork_length.value) / spread**0.5
    )


def likelier_species(depth_per_length: float, species: Species) -> tuple[str, ...]:
    """Return the names of other species that have such a depth, the likeliest first."""
    others = (packaged_species(key) for key in species_keys() if key != species.key)
    rated = sorted(
        (abs(depth_score(depth_per_length, other)), other.common_name)
        for other in others
    )
    return tuple(name for score, name in rated if score < _LIKE_SD)[:_MOST_NAMED]


def other_species(depths: Sequence[float], species: Species) -> Problem | None:
    """Return what is said where most fish (depths over lengths) are of another shape.

    An own stock's file may name any fish; its figures are taken at their word.
    """
    middle = median(depths) if depths else species.shape.depth_per_fork_length.value
    score = depth_score(middle, species)
    if abs(score) <= UNLIKE_MEDIAN_SD:
        return None
    name, usual = species.common_name, species.shape.depth_per_fork_length.value
    others = likelier_species(middle, species)
    asked = f": {' or '.join(others)}?" if others else "."
    return Problem(
        code="other-species",
        message=(
            f"These fish are {'deeper' if score > 0 else 'slimmer'} than {name}: "
            f"{middle:.2f} of their length, where {usual:.2f} is usual{asked} If they "
            "are another species, name it and measure again, as the weights "
            "would be those of another fish; if not, look at the outlines."
        ),
    )
