"""Samples in the making: nets, weighings and photos to the estimate."""

import datetime as dt
from typing import Annotated, Any
from uuid import UUID

from fastapi import APIRouter, Query, Request, Response
from pydantic import Field

from api import schemas
from api.http import Revision, etag_of, not_modified
from api.services import Services, WithServices
from fishmeasure.errors import FishMeasureError, SampleError, UnknownRecordError
from fishmeasure.ledger.archive import Page, StoredSample
from fishmeasure.ledger.entries import Sample
from fishmeasure.pipeline import measure_sample
from fishmeasure.results import PhotoMeasurement, photo_from_json
from fishmeasure.samplefile import sample_from_document
from fishmeasure.species import load_species

router = APIRouter(prefix="/v1/samples", tags=["samples"])

Json = dict[str, Any]
Reading = Annotated[float, Field(gt=0, le=1e7, allow_inf_nan=False)]


class NetIn(schemas.In):
    """One dip: counted, and weighed or photographed or both."""

    fish: int = Field(ge=1, le=100_000, description="Fish in the net.", examples=[8])
    fish_sd: float | None = Field(
        default=None, ge=0, le=1e5, description="Of a count that was an estimate."
    )
    gross_g: Reading | list[Reading] | None = Field(
        default=None, description="Net with fish, g; several readings may be given."
    )
    tare_g: float | None = Field(
        default=None, ge=0, le=1e7, description="The wet net alone, g."
    )
    net_g: Reading | list[Reading] | None = Field(
        default=None, description="In place of gross and tare, g."
    )
    photos: list[str] = Field(
        default=[], max_length=50, description="Ids of photos of the same fish."
    )
    lengths_mm: list[Reading] | None = Field(
        default=None, max_length=10_000, description="In place of photos, mm."
    )
    label: str | None = Field(default=None, max_length=60, description="For messages.")


class SampleIn(schemas.In):
    """A net sample, complete or still growing."""

    date: dt.date = Field(description="Day of the sample.", examples=["2026-05-02"])
    unit: str | None = Field(
        default=None, max_length=80, description="Name of the unit, for messages."
    )
    unit_id: UUID | None = Field(default=None, description="Unit in the book.")
    cohort_id: UUID | None = Field(default=None, description="Cohort in the book.")
    species: str | None = Field(default=None, max_length=60, description="Key.")
    count_in_unit: int | None = Field(
        default=None, ge=1, le=10**7, description="Fish in the unit, for the biomass."
    )
    count_in_unit_sd: float | None = Field(
        default=None, ge=0, le=1e7, description="Its standard error, fish."
    )
    level: float = Field(default=0.9, ge=0.5, le=0.99, description="Of the intervals.")
    nets: list[NetIn] = Field(max_length=200, description="In the order of dipping.")
    scale: Json | None = Field(default=None, description="As in a sample file.")
    drip: Json | None = Field(default=None, description="As in a sample file.")
    count: Json | None = Field(default=None, description="As in a sample file.")


class SampleOut(schemas.Out):
    """A sample and what it gives."""

    id: UUID = Field(description="As the client made it.")
    revision: int = Field(description="Grows with every change.")
    received_at: dt.datetime = Field(description="When it first came.")
    sample: Json = Field(description="As it was sent.")
    estimate: Json | None = Field(
        description="Mean weight and spread as `fishmeasure sample --json` gives it; "
        "null while nothing can be said."
    )
    problems: list[schemas.ProblemOut] = Field(description="Worst first.")
    entry_id: UUID | None = Field(description="Entry in the book, once recorded.")


class RecordIn(schemas.In):
    """Where a sample is entered in the book."""

    unit_id: UUID = Field(description="Unit in the book.")
    cohort_id: UUID = Field(description="Cohort in the book.")


@router.put("/{sample_id}", summary="Save a sample and get its estimate")
def put_sample(
    services: WithServices, sample_id: UUID, sent: SampleIn, response: Response
) -> SampleOut:
    """Save a sample under an id that the client made; again for each change.

    Sent twice it is one sample. A sample too small for an estimate is saved all
    the same, and the problem says what is missing.
    """
    body = sent.model_dump(mode="json", exclude_none=True)
    old = services.archive.find_sample(sample_id)
    if old is not None and old.body == body and not _photos_changed(services, old):
        return _out(services, old)
    result = estimate_json(services, body)
    stored = services.archive.put_sample(sample_id, body=body, result=result)
    response.headers["ETag"] = etag_of(Revision(str(stored.id), stored.revision))
    return _out(services, stored)


@router.get("", summary="List the samples, newest first")
def list_samples(
    services: WithServices,
    limit: Annotated[int, Query(ge=1, le=200)] = 50,
    cursor: Annotated[int | None, Query(ge=1, le=2**53)] = None,
) -> schemas.Items[SampleOut]:
    """Return a page of samples."""
    found = services.archive.samples(Page(limit=limit, before=cursor))
    return schemas.Items(
        items=[_out(services, sample) for sample in found],
        next=found[-1].seq if len(found) == limit else None,
    )


@router.get("/{sample_id}", summary="One sample")
def get_sample(
    services: WithServices, sample_id: UUID, request: Request, response: Response
) -> SampleOut:
    """Return a sample, its estimate anew where its photos were corrected."""
    stored = services.archive.sample(sample_id)
    if _photos_changed(services, stored):
        stored = services.archive.put_sample(
            sample_id, body=stored.body, result=estimate_json(services, stored.body)
        )
    not_modified(request, response, Revision(str(stored.id), stored.revision))
    return _out(services, stored)


@router.post("/{sample_id}/record", summary="Enter a sample in the book")
def record_sample(services: WithServices, sample_id: UUID, sent: RecordIn) -> SampleOut:
    """Write the sample as an entry of the book, with the sample's own id.

    Done twice it is one entry.

    Raises
    ------
    SampleError
        If the sample has no estimate yet.
    """
    stored = services.archive.sample(sample_id)
    estimate = (stored.result or {}).get("estimate")
    if estimate is None:
        raise NoEstimateError
    low, high = estimate["mean_weight_interval_g"]
    body = {
        **stored.body,
        "unit_id": str(sent.unit_id),
        "cohort_id": str(sent.cohort_id),
    }
    services.book.add(
        Sample(
            id=sample_id,
            on=dt.date.fromisoformat(stored.body["date"]),
            unit_id=sent.unit_id,
            cohort_id=sent.cohort_id,
            mean_weight_g=estimate["mean_weight_g"],
            mean_weight_low_g=low,
            mean_weight_high_g=high,
            level=estimate["level"],
            cv=estimate["cv"],
            condition_factor=estimate["condition_factor"],
            a_g_cm=estimate["a"],
            b=estimate["b"],
            fish_measured=estimate["fish_measured"],
            fish_weighed=estimate["fish_weighed"],
            photos=tuple(p for net in stored.body["nets"] for p in net["photos"]),
        )
    )
    stored = services.archive.put_sample(sample_id, body=body, result=stored.result)
    return _out(services, stored)


class NoEstimateError(SampleError):
    """A sample without an estimate cannot be entered in the book."""

    code = "no-estimate"

    def __init__(self) -> None:
        super().__init__(
            "This sample gives no mean weight yet.",
            "Weigh a net or add a photo with fish measured, then save it.",
        )


NO_NETS = {
    "code": "no-nets",
    "message": "There is no net in this sample yet. Net some fish, count and weigh "
    "them, or photograph them beside the marker.",
    "fatal": True,
}


# --- estimate -------------------------------------------------------------------


def document_of(body: Json) -> Json:
    """Return a sample's body as a sample file has it."""
    document = {k: v for k, v in body.items() if k not in {"unit_id", "cohort_id"}}
    document["date"] = dt.date.fromisoformat(body["date"])
    document["net"] = document.pop("nets")
    return document


def estimate_json(services: Services, body: Json) -> Json:
    """Return the estimate of a sample, its problems, and the photos' revisions.

    Raises
    ------
    UnknownRecordError
        If it names a photo that is not here.
    SampleFileError
        If it says something that cannot be.
    """
    revisions: dict[str, int] = {}

    def measure(photo_id: str) -> PhotoMeasurement:
        stored = services.archive.photo(photo_id)
        revisions[photo_id] = stored.revision
        return photo_from_json(stored.measurement)

    if not body["nets"]:
        return {"estimate": None, "problems": [NO_NETS], "photos": revisions}
    sample = sample_from_document(document_of(body))
    species = load_species(sample.species or services.settings.species)
    try:
        measured = measure_sample(sample, species, measure)
    except UnknownRecordError:
        raise
    except FishMeasureError as error:
        problem = {"code": error.code, "message": str(error), "fatal": True}
        return {"estimate": None, "problems": [problem], "photos": revisions}
    estimate = measured.to_json()
    del estimate["photos"]
    return {
        "estimate": estimate,
        "problems": estimate.pop("problems"),
        "photos": revisions,
    }


def _photos_changed(services: Services, stored: StoredSample) -> bool:
    used = (stored.result or {}).get("photos", {})
    return any(
        (photo := services.archive.find_photo(name)) is not None
        and photo.revision != revision
        for name, revision in used.items()
    )


def _entry_id(services: Services, sample_id: UUID) -> UUID | None:
    try:
        return services.book.entry(sample_id).id
    except UnknownRecordError:
        return None


def _out(services: Services, stored: StoredSample) -> SampleOut:
    result = stored.result or {"estimate": None, "problems": []}
    return SampleOut(
        id=stored.id,
        revision=stored.revision,
        received_at=stored.received_at,
        sample=stored.body,
        estimate=result["estimate"],
        problems=[schemas.ProblemOut(**problem) for problem in result["problems"]],
        entry_id=_entry_id(services, stored.id),
    )
