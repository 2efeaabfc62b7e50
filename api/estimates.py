"""A sample's body, as clients send it, to its estimate."""

from collections.abc import Callable
from dataclasses import replace
from typing import Annotated, Any
from uuid import UUID

from pydantic import Field

from api.services import Services
from api.stocks import stock_on, stock_token
from fishmeasure.base.errors import FishMeasureError, SampleError, UnknownRecordError
from fishmeasure.base.problem import Problem
from fishmeasure.base.record import Day, plain, read, record
from fishmeasure.book.stock import StockKnown
from fishmeasure.estimation.sample import Sample
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.pipeline import SampleMeasurement, learned_body, measure_sample
from fishmeasure.species import packaged_species
from fishmeasure.species.size import BodyFigures
from fishmeasure.store.archive import StoredSample

Json = dict[str, Any]


class NoEstimateError(SampleError):
    """A sample without an estimate cannot be entered in the book."""

    code = "no-estimate"

    def __init__(self) -> None:
        super().__init__()


NO_NETS = Problem.of("no-nets", fatal=True)


@record(frozen=True, slots=True, kw_only=True)
class SampleIn(Sample):
    """A net sample, complete or still growing, and where in the book it belongs."""

    date: Annotated[
        Day, Field(description="Day of the sample.", examples=["2026-05-02"])
    ]
    unit_id: Annotated[UUID | None, Field(description="Unit in the book.")] = None
    cohort_id: Annotated[UUID | None, Field(description="Cohort in the book.")] = None


def sample_of(stored: StoredSample) -> SampleIn:
    """Return a stored sample as it was sent."""
    return read(SampleIn, stored.body)


def estimate_json(
    services: Services, sample: SampleIn, without: UUID | None = None
) -> Json:
    """Return the estimate of a sample, its problems, and what it rests on.

    That is the photos' revisions, and what the book knew of the stock: without the
    sample's own entry, which is not to teach itself.

    Raises
    ------
    UnknownRecordError
        If it names a photo that is not here.
    """
    revisions: dict[str, int] = {}

    def measure(photo_id: str) -> PhotoMeasurement:
        stored = services.archive.photo(photo_id)
        revisions[photo_id] = stored.revision
        return PhotoMeasurement.from_json(stored.measurement)

    if not sample.nets:
        return {"estimate": None, "problems": [plain(NO_NETS)], "photos": revisions}
    known = stock_of_sample(services, sample, without)
    try:
        measured = _measured(sample, known, measure)
    except UnknownRecordError:
        raise
    except FishMeasureError as error:
        problem = Problem.of_error(error, fatal=True)
        return {"estimate": None, "problems": [plain(problem)], "photos": revisions}
    estimate = measured.to_json()
    del estimate["photos"]
    return {
        "estimate": estimate,
        "problems": estimate.pop("problems"),
        "photos": revisions,
        "stock": stock_token(known),
        "body": None
        if (body := learned_body(measured, known.species)) is None
        else plain(body),
        "ripe": measured.ripe,
    }


def measured_again(services: Services, stored: StoredSample) -> SampleMeasurement:
    """Return the measurement of a sample, for pictures of it.

    Raises
    ------
    SampleError
        If it gives no estimate.
    """
    sample = sample_of(stored)
    if not sample.nets:
        raise NoEstimateError

    def measure(photo_id: str) -> PhotoMeasurement:
        return PhotoMeasurement.from_json(services.archive.photo(photo_id).measurement)

    return _measured(sample, stock_of_sample(services, sample, stored.id), measure)


def _measured(
    sample: SampleIn, known: StockKnown, measure: Callable[[str], PhotoMeasurement]
) -> SampleMeasurement:
    ripe = sample.ripe or known.is_ripe
    return measure_sample(replace(sample, ripe=ripe), known.species, measure)


def stock_of_sample(
    services: Services, sample: SampleIn, without: UUID | None
) -> StockKnown:
    """Return what the book knows of a sample's stock on its day."""
    species = packaged_species(sample.species or services.settings.species)
    return stock_on(services, species, sample.cohort_id, sample.date, without=without)


def body_in(result: Json | None) -> BodyFigures | None:
    """Return what a sample's estimate learned of its stock."""
    found = (result or {}).get("body")
    return None if found is None else read(BodyFigures, found)


def out_of_date(services: Services, stored: StoredSample) -> bool:
    """Return whether a photo, or what is known of the stock, changed since then."""
    if photos_changed(services, stored):
        return True
    then = (stored.result or {}).get("stock", "")
    sample = sample_of(stored)
    if not sample.photos or "photos" not in (stored.result or {}):
        return False
    return bool(stock_token(stock_of_sample(services, sample, stored.id)) != then)


def photos_changed(services: Services, stored: StoredSample) -> bool:
    """Return whether a photo was corrected since the estimate was made."""
    used = (stored.result or {}).get("photos", {})
    return any(
        (photo := services.archive.find_photo(name)) is not None
        and photo.revision != revision
        for name, revision in used.items()
    )
