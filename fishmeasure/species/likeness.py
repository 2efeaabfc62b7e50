"""Whether fish have the shape of the species that was named."""

from collections.abc import Sequence
from itertools import islice
from statistics import median

from fishmeasure.base.flags import Problem
from fishmeasure.base.words import Message
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


def likelier_species(depth_per_length: float, species: Species) -> tuple[Message, ...]:
    """Return the names of other species that have such a depth, the likeliest first."""
    others = (packaged_species(key) for key in species_keys() if key != species.key)
    rated = sorted(
        ((abs(depth_score(depth_per_length, other)), other) for other in others),
        key=lambda rating: (rating[0], rating[1].common_name),
    )
    alike = (other.said for score, other in rated if score < _LIKE_SD)
    return tuple(islice(alike, _MOST_NAMED))


def other_species(depths: Sequence[float], species: Species) -> Problem | None:
    """Return what is said where most fish (depths over lengths) are of another shape.

    An own stock's file may name any fish; its figures are taken at their word.
    """
    middle = median(depths) if depths else species.shape.depth_per_fork_length.value
    score = depth_score(middle, species)
    if abs(score) <= UNLIKE_MEDIAN_SD:
        return None
    return Problem.of(
        "other-species",
        case="deeper" if score > 0 else "slimmer",
        species=species.said,
        depth=middle,
        usual_depth=species.shape.depth_per_fork_length.value,
        others=likelier_species(middle, species),
    )
