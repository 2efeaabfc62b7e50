"""Within what an entry is not asked about, for who enters it out of the book's reach.

The same judgement as that of an entry, turned round: how far a figure may lie from what
is expected before it is asked about.
"""

import math
from collections.abc import Callable, Iterable, Iterator
from typing import Final
from uuid import UUID

from fishmeasure.book.asking.expected import Said, checks_of
from fishmeasure.book.asking.judging import judged
from fishmeasure.book.asking.place import Place, place_of
from fishmeasure.book.asking.records import Bound, Remedy
from fishmeasure.book.asking.slips import COUNT_SLIPS, WEIGHT_SLIPS
from fishmeasure.book.entries import Entry
from fishmeasure.book.state import UnitState

# Of a sample that is not made yet: four nets of eight (MEASUREMENT), common practice.
_SAMPLE_SD: Final = 0.08
_FARTHEST: Final = math.log(2000.0)  # grams for kilograms, and twice that
_FIRST: Final = 0.05
_HALVINGS: Final = 6
# Kind, figure, what it is divided by: as the fields of entries are called.
_OF_FISH: Final = (
    ("counted", "fish_count", ""),
    ("graded", "fish_count", ""),
    ("died", "fish_count", ""),
    ("harvested", "fish_count", ""),
    ("harvested", "weight_kg", "fish_count"),
    ("harvested", "weight_kg", ""),
    ("sold", "fish_count", ""),
    ("sold", "weight_kg", "fish_count"),
    ("sold", "weight_kg", ""),
    ("moved", "fish_count", ""),
    ("moved", "mean_weight_g", ""),
    ("sample", "mean_weight_g", ""),
)
_OF_UNIT: Final = (("feed", "feed_kg", ""), ("water", "temperature_deg_c", ""))
_DIPPED: Final = 30.0  # fish of a harvest whose mean weight is looked at


def bounds(state: UnitState, here: Iterable[Entry]) -> tuple[Bound, ...]:
    """Return what each figure of an entry may be in a unit on a day.

    Parameters
    ----------
    here
        The entries in force up to the day.
    """
    past = tuple(here)
    found = list(_bounds_of(place_of(state, None, past), _OF_UNIT))
    for fish in state.cohorts:
        place = place_of(state, fish.cohort.id, past)
        if place.present is not None:
            found += _bounds_of(place, _OF_FISH)
    return tuple(found)


def _bounds_of(
    place: Place, figures: tuple[tuple[str, str, str], ...]
) -> Iterator[Bound]:
    for kind, figure, over in figures:
        said = _trial(kind, figure, over)
        checks = checks_of(kind, said(1.0), place)
        wanted = _figure_checked(kind, figure, over)
        check = next((c for c in checks if c.figure == wanted), None)
        if check is None:
            continue
        middle = check.middle
        if over:
            middle /= 1000.0
        low, high = (_end(kind, said, middle, place, sign) for sign in (-1.0, 1.0))
        yield Bound(
            kind=kind,
            cohort_id=_cohort_of(place, kind),
            figure=figure,
            over=over,
            low=None if check.side == "most" or kind == "died" else low,
            high=high,
            expected=middle,
            remedies=_remedies(figure, over),
        )


def _cohort_of(place: Place, kind: str) -> UUID | None:
    return None if kind in {"feed", "water"} else place.cohort_id


def _figure_checked(kind: str, figure: str, over: str) -> str:
    if over or (kind, figure) == ("moved", "mean_weight_g"):
        return "each_g"
    if kind in {"harvested", "sold", "moved"} and figure == "fish_count":
        return "fish_gone"
    return "dead" if kind == "died" else figure


def _trial(kind: str, figure: str, over: str) -> Callable[[float], Said]:
    """Return what makes the figures of an entry from the one that is looked at."""

    def said(value: float) -> Said:
        if over:
            return {over: _DIPPED, figure: value * _DIPPED}
        found = {figure: value}
        if kind == "sample":
            found["mean_sd"] = _SAMPLE_SD
        elif figure == "mean_weight_g":
            found["fish_count"] = 1.0
        return found

    return said


def _end(
    kind: str, said: Callable[[float], Said], middle: float, place: Place, sign: float
) -> float | None:
    """Return the figure from which on it is asked, None where it never is."""

    def asks(away: float) -> bool:
        return judged(kind, said(middle * math.exp(sign * away)), place).verdict.asks

    near, far = 0.0, _FIRST
    while not asks(far):
        near, far = far, 1.7 * far
        if far > _FARTHEST:
            return None
    for _ in range(_HALVINGS):
        between = (near + far) / 2.0
        near, far = (near, between) if asks(between) else (between, far)
    return middle * math.exp(sign * near)


def _remedies(figure: str, over: str) -> tuple[Remedy, ...]:
    found: list[Remedy] = []
    for field in (figure, over):
        slips = {"fish_count": COUNT_SLIPS}.get(field, WEIGHT_SLIPS)
        if field and field != "temperature_deg_c":
            found += [
                Remedy(slip=name, times=times, field=field) for name, _, times in slips
            ]
    return tuple(found)
