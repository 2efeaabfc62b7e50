"""From a sample's answer to its entry in the book."""

from collections.abc import Mapping
from datetime import date
from typing import Any
from uuid import UUID

from fishmeasure.book.entries import Sample
from fishmeasure.species.size import BodyFigures


def sample_entry(
    *,
    identity: UUID,
    on: date,
    unit_id: UUID,
    cohort_id: UUID,
    estimate: Mapping[str, Any],
    photos: tuple[str, ...] = (),
    body: BodyFigures | None = None,
    ripe: bool = False,
) -> Sample:
    """Return the entry that a sample makes.

    Parameters
    ----------
    estimate
        A sample's answer as JSON has it.
    photos
        Names of the photos that it rests on.
    body
        What a bulk weighing of photographed nets tells of the stock.
    ripe
        Whether its fish were ripe or spawning.

    Raises
    ------
    BadEntryError
        If a figure is beyond what the book takes.
    """
    constant = None if body is None else body.c_g_per_cm3
    low, high = estimate["mean_weight_interval_g"]
    condition_low, condition_high = estimate["condition_factor_interval"] or (None,) * 2
    return Sample(
        id=identity,
        on=on,
        unit_id=unit_id,
        cohort_id=cohort_id,
        mean_weight_g=estimate["mean_weight_g"],
        mean_weight_low_g=low,
        mean_weight_high_g=high,
        level=estimate["level"],
        cv=estimate["cv"],
        condition_factor=estimate["condition_factor"],
        condition_factor_low=condition_low,
        condition_factor_high=condition_high,
        a_g_cm=estimate["a"],
        b=estimate["b"],
        fish_measured=estimate["fish_measured"],
        fish_weighed=estimate["fish_weighed"],
        photos=photos,
        c_g_per_cm3=None if constant is None else constant.value,
        c_relative_sd=None if constant is None else constant.relative_sd,
        ripe=ripe,
    )
