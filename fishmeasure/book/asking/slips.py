"""The slips that an entry may hold, each with the figures that would be right."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, Final

from fishmeasure.base.errors import BadEntryError
from fishmeasure.base.typed import GRAMS_PER
from fishmeasure.book.asking.expected import Said
from fishmeasure.book.asking.place import Place
from fishmeasure.book.entries import Entry, FishEntry, Graded, Sample
from fishmeasure.estimation.hypotheses import (
    OFF_BY_TEN_PRIOR,
    POUND_PRIOR,
    TARE_PRIOR,
    TENFOLD_PRIOR,
    UNIT_PRIOR,
)
from fishmeasure.estimation.nets import MISCOUNT_PROBABILITY

_POUND: Final = GRAMS_PER["lb"] / GRAMS_PER["kg"]
WEIGHT_SLIPS: Final = (
    ("weight-tenfold", TENFOLD_PRIOR, 0.1),
    ("weight-tenth", TENFOLD_PRIOR, 10.0),
    ("grams-for-kilograms", UNIT_PRIOR, 1000.0),
    ("kilograms-for-grams", UNIT_PRIOR, 1e-3),
    ("pounds-for-kilograms", POUND_PRIOR, 1.0 / _POUND),
    ("kilograms-for-pounds", POUND_PRIOR, _POUND),
)
COUNT_SLIPS: Final = (
    ("count-tenfold", TENFOLD_PRIOR, 0.1),
    ("count-tenth", TENFOLD_PRIOR, 10.0),
)
# Sheets that a printer scaled: A4 on A3 and back, "fit to page" of A4 and Letter on
# each other (297 and 279 mm, 216 and 210 mm) and within margins; computed but the last.
_PRINTED: Final = (1.414, 0.707, 1.065, 0.94, 0.972, 1.029)
_PRINT_PRIOR: Final = 0.002
# Of what hangs on the scale with the fish, as a share of all; a bucket of water is most
# of it. Nobody knows which: common practice, no source.
_TARES: Final = (0.1, 0.2, 0.3, 0.45, 0.6, 0.75)

FIELDS: Final = {
    "sample": ("mean_weight_g",),
    "counted": ("fish_count",),
    "graded": ("fish_count", "mean_weight_g"),
    "died": ("fish_count",),
    "harvested": ("fish_count", "weight_kg"),
    "sold": ("fish_count", "weight_kg"),
    "moved": ("fish_count", "mean_weight_g"),
    "stocked": ("fish_count", "bulk_weight_kg", "mean_weight_g"),
    "feed": ("feed_kg",),
    "water": ("temperature_deg_c",),
}
"""The figures of a kind of entry that are typed in."""


_OF_WEIGHT: Final = (
    "mean_weight_g",
    "mean_weight_low_g",
    "mean_weight_high_g",
    "condition_factor",
    "condition_factor_low",
    "condition_factor_high",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A slip, and what of the figures would be otherwise without it.

    ``known`` says whether the right figure follows from the slip: that of a tare that
    was forgotten does not. ``log_scale`` is ln of how the figure's scale changes.
    """

    name: str
    prior: float
    field: str
    right: float
    known: bool = True
    log_scale: float = 0.0


def changes_of(kind: str, said: Said) -> Iterator[Change]:
    """Yield the slips that may be in the figures of an entry."""
    for field in FIELDS.get(kind, ()):
        if not said.get(field):
            continue
        value = said[field]
        if field == "fish_count":
            yield from _counts(value)
        elif field == "temperature_deg_c":
            yield from _temperatures(value)
        else:
            for name, prior, times in WEIGHT_SLIPS:
                yield Change(name=name, prior=prior, field=field, right=value * times)
            if kind in {"harvested", "sold", "stocked", "sample"}:
                yield from _tares(field, value)
    factor = said.get("condition_factor")
    if kind == "sample" and factor:
        for scale in _PRINTED:
            yield Change(
                name="print-scale",
                prior=_PRINT_PRIOR / len(_PRINTED),
                field="condition_factor",
                right=factor / scale**3,
                known=False,
            )


def _counts(count: float) -> Iterator[Change]:
    for name, prior, times in COUNT_SLIPS:
        right = count * times
        if right == int(right) and right >= 1.0:
            yield Change(name=name, prior=prior, field="fish_count", right=right)
    for off, prior, name in (
        (10.0, OFF_BY_TEN_PRIOR, "count-off-by-ten"),
        (1.0, MISCOUNT_PROBABILITY / 2.0, "count-off-by-one"),
    ):
        for right in (count - off, count + off):
            if right >= 1.0:
                yield Change(name=name, prior=prior, field="fish_count", right=right)


def _tares(field: str, value: float) -> Iterator[Change]:
    for share in _TARES:
        yield Change(
            name="tare-forgotten",
            prior=TARE_PRIOR / len(_TARES),
            field=field,
            right=value * (1.0 - share),
            known=False,
        )


def _temperatures(read_deg: float) -> Iterator[Change]:
    field = "temperature_deg_c"
    celsius = (read_deg - 32.0) / 1.8
    yield Change(
        name="fahrenheit",
        prior=UNIT_PRIOR,
        field=field,
        right=celsius,
        log_scale=-math.log(1.8),
    )
    yield Change(
        name="temperature-tenfold",
        prior=TENFOLD_PRIOR,
        field=field,
        right=read_deg / 10,
    )


def corrected(entry: Entry, change: Change) -> Entry | None:
    """Return the entry if a slip is so; None where a person must tell.

    It is another entry, with an id of its own.
    """
    if not change.known or isinstance(entry, Graded):
        return None
    values: dict[str, Any] = {change.field: change.right}
    if change.field == "fish_count":
        values[change.field] = round(change.right)
    if isinstance(entry, Sample):
        values = _scaled(entry, change.right / entry.mean_weight_g)
    try:
        return replace(entry, **values)
    except BadEntryError:  # beyond what the book takes
        return None


def elsewhere(entry: FishEntry, place: Place) -> Entry | None:
    """Return the entry as of another cohort or unit."""
    if place.cohort_id is None:
        return None
    try:
        return replace(entry, unit_id=place.unit.id, cohort_id=place.cohort_id)
    except BadEntryError:  # fish moved to where they are
        return None


def _scaled(entry: Sample, times: float) -> dict[str, Any]:
    """Return a sample's weights, and what follows from them, so many times."""
    return {
        name: value * times
        for name in _OF_WEIGHT
        if (value := getattr(entry, name)) is not None
    }
