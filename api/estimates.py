"""A sample's body, as clients send it, to its estimate."""

import datetime as dt
from collections.abc import Callable
from typing import Any

from api.services import Services
from fishmeasure.base.errors import FishMeasureError, SampleError, UnknownRecordError
from fishmeasure.estimation.sample import SampleFile, sample_from_document
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.pipeline import SampleMeasurement, measure_sample
from fishmeasure.species import packaged_species
from fishmeasure.store.archive import StoredSample

Json = dict[str, Any]


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
        return PhotoMeasurement.from_json(stored.measurement)

    if not body["nets"]:
        return {"estimate": None, "problems": [NO_NETS], "photos": revisions}
    sample = sample_from_document(document_of(body))
    try:
        measured = _measured(services, sample, measure)
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


def measured_again(services: Services, body: Json) -> SampleMeasurement:
    """Return the measurement of a sample, for pictures of it.

    Raises
    ------
    SampleError
        If it gives no estimate.
    """
    if not body["nets"]:
        raise NoEstimateError

    def measure(photo_id: str) -> PhotoMeasurement:
        return PhotoMeasurement.from_json(services.archive.photo(photo_id).measurement)

    return _measured(services, sample_from_document(document_of(body)), measure)


def _measured(
    services: Services,
    sample: SampleFile,
    measure: Callable[[str], PhotoMeasurement],
) -> SampleMeasurement:
    species = packaged_species(sample.species or services.settings.species)
    return measure_sample(sample, species, measure)


def photos_changed(services: Services, stored: StoredSample) -> bool:
    """Return whether a photo was corrected since the estimate was made."""
    used = (stored.result or {}).get("photos", {})
    return any(
        (photo := services.archive.find_photo(name)) is not None
        and photo.revision != revision
        for name, revision in used.items()
    )
