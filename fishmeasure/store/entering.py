"""Whether a net sample may go into the book, and whether it is there already."""

import math
from datetime import date, timedelta
from typing import Final

from fishmeasure.base.errors import (
    FutureDayError,
    OtherSpeciesError,
    SampleElsewhereError,
    SpeciesError,
)
from fishmeasure.base.words import shell_word
from fishmeasure.book.entries import Sample
from fishmeasure.book.units import Cohort
from fishmeasure.species import Species, load_species
from fishmeasure.store.book import Book

# Two places are at most 26 hours apart, so it may be tomorrow for who sends it.
_SLACK: Final = timedelta(days=1)
# What was weighed, counted and photographed comes out in these figures to the last
# digit; photos by another name, or in another folder, change none of them.
_FIGURES: Final = (
    "mean_weight_g",
    "mean_weight_low_g",
    "mean_weight_high_g",
    "level",
    "cv",
    "condition_factor",
    "condition_factor_low",
    "condition_factor_high",
    "fish_measured",
    "fish_weighed",
)
# The last digits differ between processors.
_SAME: Final = 1e-9


def check_day(on: date, today: date) -> None:
    """Refuse what is dated in the future; a day is left for time zones.

    Raises
    ------
    FutureDayError
    """
    if on > today + _SLACK:
        raise FutureDayError(on, today)


def check_species(species: Species, cohort: Cohort) -> None:
    """Refuse a sample of other fish than the cohort's.

    A stock of one's own is of its species' Latin name, whatever its key.

    Raises
    ------
    OtherSpeciesError
    """
    if species.key == cohort.species_key:
        return
    try:
        wanted = load_species(cohort.species_key)
    except SpeciesError:  # the book is older than what is known of species here
        pass
    else:
        if species.latin_name == wanted.latin_name:
            return
    raise OtherSpeciesError(species.key, cohort.name, cohort.species_key)


def find_same(book: Book, sample: Sample) -> Sample | None:
    """Return the entry in force that is this sample, if there is one.

    Raises
    ------
    SampleElsewhereError
        If the cohort has the sample on another day or in another unit.
    """
    same = [
        entry
        for entry in book.entries(cohort_id=sample.cohort_id, only_in_force=True)
        if isinstance(entry, Sample) and _is_same(entry, sample)
    ]
    for entry in same:
        if (entry.on, entry.unit_id) == (sample.on, sample.unit_id):
            return entry
    if not same:
        return None
    old, fields = same[0], []
    unit = book.unit(sample.unit_id).name
    if old.on != sample.on:
        fields.append(f"on={sample.on}")
    if old.unit_id != sample.unit_id:
        fields.append(f"unit={shell_word(unit)}")
    raise SampleElsewhereError(
        day=old.on,
        unit=book.unit(old.unit_id).name,
        identity=str(old.id),
        change=" ".join(fields),
    )


def _is_same(one: Sample, other: Sample) -> bool:
    for name in _FIGURES:
        first, second = getattr(one, name), getattr(other, name)
        if first is None or second is None:
            if first is not second:
                return False
        elif not math.isclose(first, second, rel_tol=_SAME):
            return False
    return True
