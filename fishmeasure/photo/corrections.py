"""A person's corrections of a measured photo, applied without its pixels.

Corrections are a list that is applied to the photo's own measurement, so that
any of them can be taken back. Fish are named by their place in that measurement;
added fish follow in order.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Annotated, Literal

import numpy as np
from pydantic import Field

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import BadCorrectionError
from fishmeasure.base.flags import FLAGS, is_complete
from fishmeasure.base.record import record
from fishmeasure.base.words import Message
from fishmeasure.photo.length import (
    FishLength,
    measure_between,
    measure_length,
    shape_of,
)
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement, weighed
from fishmeasure.photo.plane import PlaneScale, Point
from fishmeasure.photo.segment.outline import FishOutline
from fishmeasure.photo.weighing import with_validation, with_weights
from fishmeasure.species import Species


@record(frozen=True, slots=True, kw_only=True)
class Correction:
    """One change by a person."""

    kind: Annotated[
        Literal["move", "drop", "keep", "add", "species"],
        Field(
            description="Move the ends of a fish, drop it, keep a doubtful one, add a "
            "missed one by two points, or change its species."
        ),
    ]
    fish: Annotated[
        int | None,
        Field(
            ge=0,
            le=10_000,
            description="Which, counted from 0 in the photo's measurement without "
            "corrections; added fish follow in order. Not for `add`.",
        ),
    ] = None
    snout_px: Point | None = None
    fork_px: Point | None = None
    species: Annotated[
        str | None,
        Field(max_length=60, description="For `species`, and for `add`."),
    ] = None


def apply_corrections(
    measurement: PhotoMeasurement,
    corrections: Sequence[Correction],
    species: Callable[[str], Species],
    default_species: str,
) -> PhotoMeasurement:
    """Return the measurement with the corrections made, in their order.

    Parameters
    ----------
    measurement
        As measured, without any correction.
    corrections
        All of them.
    species
        Returns the species of a key.
    default_species
        Of added fish.

    Raises
    ------
    BadCorrectionError
        If a correction names a fish that is not there, leaves out a point, or the
        photo has no scale.
    SpeciesError
        If a species is unknown.
    """
    plane = measurement.scale
    if plane is None:
        if corrections:
            raise BadCorrectionError(1, Message.of("correction-slip", case="no-scale"))
        return measurement
    fish = list(measurement.fish)
    for number, correction in enumerate(corrections, start=1):
        if correction.kind == "add":
            snout, fork = _points(number, correction, measurement)
            kind = species(correction.species or default_species)
            length = measure_between(snout, fork, plane, shape_of(kind))
            fish.append(weighed(length, kind))
            continue
        at = correction.fish
        if at is None or not 0 <= at < len(fish):
            raise BadCorrectionError(
                number, Message.of("correction-no-fish", number=at)
            )
        fish[at] = _corrected(number, correction, fish[at], measurement, species)
    kept = tuple(
        problem
        for problem in measurement.problems
        if problem.code not in {"no-fish", "no-usable-fish"}
        or not any(one.complete for one in fish)
    )
    count = measurement.fish_count
    if count is not None:
        count = count.shifted(_there(fish) - _there(measurement.fish))
    corrected = replace(measurement, fish=tuple(fish), problems=kept, fish_count=count)
    if not corrections:
        return measurement
    return with_validation(with_weights(corrected, species), species)


def _there(fish: Sequence[MeasuredFish]) -> int:
    return sum("dropped" not in one.flags for one in fish)


def _corrected(
    number: int,
    correction: Correction,
    fish: MeasuredFish,
    measurement: PhotoMeasurement,
    species: Callable[[str], Species],
) -> MeasuredFish:
    kind = species(fish.species)
    plane = measurement.scale
    assert plane is not None  # noqa: S101 - the caller has looked
    if correction.kind == "drop":
        return weighed(_with_flags(fish, (*fish.flags, "dropped")), kind)
    if correction.kind == "keep":
        harmless = tuple(f for f in fish.flags if not FLAGS[f].disqualifying)
        return weighed(_with_flags(fish, (*harmless, "edited")), kind)
    if correction.kind == "species":
        if correction.species is None:
            raise BadCorrectionError(
                number, Message.of("correction-slip", case="no-species")
            )
        kind = species(correction.species)
        remeasured = _measured_again(fish, fish.snout_px, fish.fork_px, plane, kind)
        return weighed(_with_flags(remeasured, fish.flags), kind)
    snout, fork = _points(number, correction, measurement)
    moved = _measured_again(fish, snout, fork, plane, kind)
    return weighed(replace(moved, confidence=1.0), kind)


def _measured_again(
    length: FishLength,
    snout_px: FloatArray,
    fork_px: FloatArray,
    plane: PlaneScale,
    kind: Species,
) -> FishLength:
    """Return the length between two ends, along the outline's middle if it has one.

    A person who puts both ends has looked at the fish: doubts of the outline no
    longer forbid its use.
    """
    shape = shape_of(kind)
    if len(length.outline_px) == 0:
        return measure_between(snout_px, fork_px, plane, shape, length.posture)
    outline = FishOutline(
        contour_px=length.outline_px,
        confidence=length.confidence,
        snout_px=snout_px,
        fork_px=fork_px,
        ends_by_hand=True,
        posture=length.posture,
    )
    again = replace(
        measure_length(outline, plane, shape),
        squared_depth_mm3=length.squared_depth_mm3,  # ends hardly change it
    )
    harmless = tuple(f for f in again.flags if not FLAGS[f].disqualifying)
    return _with_flags(again, (*harmless, "edited"))


def _with_flags(length: FishLength, flags: tuple[str, ...]) -> FishLength:
    words = tuple(dict.fromkeys(flags))
    return replace(length, flags=words, complete=is_complete(words))


def _points(
    number: int, correction: Correction, measurement: PhotoMeasurement
) -> tuple[FloatArray, FloatArray]:
    if correction.snout_px is None or correction.fork_px is None:
        reason = Message.of("correction-slip", case="both-ends")
        raise BadCorrectionError(number, reason)
    ends = np.array([correction.snout_px, correction.fork_px], dtype=np.float64)
    size = np.array([measurement.width_px, measurement.height_px])
    if not np.all(np.isfinite(ends)) or np.any(ends < -0.5) or np.any(ends > size):
        reason = Message.of("correction-slip", case="outside")
        raise BadCorrectionError(number, reason)
    if float(np.linalg.norm(ends[0] - ends[1])) < MIN_LENGTH_PX:
        reason = Message.of("correction-slip", case="same-place")
        raise BadCorrectionError(number, reason)
    return ends[0], ends[1]


MIN_LENGTH_PX = 10.0
"""Shorter than any fish that can be measured: two taps at one place."""
