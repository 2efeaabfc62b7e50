"""The outlook of a unit, with or without a sample that is not in the book yet."""

import datetime as dt
from typing import Any
from uuid import UUID

from api.estimates import SampleIn, body_in
from api.services import Services
from fishmeasure.book.entries import Sample
from fishmeasure.book.entry_of_sample import sample_entry as ledger_entry
from fishmeasure.outlook.unit import UnitOutlook, unit_outlook

Json = dict[str, Any]


def today() -> dt.date:
    """Return the day where the server stands, which is where the fish are."""
    return dt.date.today()  # noqa: DTZ011 - the grower's own day is wanted


def sample_entry(
    identity: UUID, sample: SampleIn, where: tuple[UUID, UUID], result: Json
) -> Sample:
    """Return the entry that a sample of a unit and a cohort makes.

    Parameters
    ----------
    result
        With an estimate, as ``estimate_json`` gives it.

    Raises
    ------
    BadEntryError
        If a figure is beyond what the book takes.
    """
    return ledger_entry(
        identity=identity,
        on=sample.date,
        unit_id=where[0],
        cohort_id=where[1],
        estimate=result["estimate"],
        body=body_in(result),
        ripe=bool(result.get("ripe", False)),
        photos=tuple(photo for net in sample.nets for photo in net.photos),
    )


def outlook_with(services: Services, sample: Sample) -> UnitOutlook | None:
    """Return the outlook as if the sample were in the book; nothing is written.

    None where the book has no such unit or cohort.
    """
    part = services.book.around(
        units=(sample.unit_id,), cohorts=(sample.cohort_id,), entries=(sample.id,)
    )
    if sample.unit_id not in {unit.id for unit in part.units}:
        return None
    if sample.cohort_id not in {cohort.id for cohort in part.cohorts}:
        return None
    entries = [entry for entry in part.entries if entry.id != sample.id]
    return unit_outlook(
        part.units,
        part.cohorts,
        [*entries, sample],
        unit_id=sample.unit_id,
        on=sample.on,
        about=part.about,
    )
