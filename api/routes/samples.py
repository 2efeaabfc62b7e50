"""Samples in the making: nets, weighings and photos to the estimate."""

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any
from uuid import UUID, uuid4

from fastapi import Query, Request, Response
from pydantic import Field

from api import outlooks, schemas
from api.access import READER, WORKER, WithCaller, closed_router
from api.answers import SVG
from api.estimates import (
    NoEstimateError,
    SampleIn,
    estimate_json,
    measured_again,
    out_of_date,
    sample_of,
)
from api.http import Revision, etag_of, expected_revision, not_modified
from api.outlooks import outlook_with, sample_entry
from api.plans import PlanOut, planned
from api.result_models import result_of
from api.services import Services, WithServices
from fishmeasure.base.errors import (
    BadEntryError,
    SampleNotEnteredError,
    VersionConflictError,
)
from fishmeasure.base.flags import Problem
from fishmeasure.base.record import plain, read
from fishmeasure.book.asking import Facts
from fishmeasure.book.entries import Cancelled
from fishmeasure.estimation.model import SampleAnswer, answer_from_json
from fishmeasure.outlook.unit import UnitOutlook
from fishmeasure.render.plots import Theme, sample_line_plot, weight_plot
from fishmeasure.species import packaged_species
from fishmeasure.store.archive import Page, StoredSample
from fishmeasure.store.devices import written_by
from fishmeasure.store.entering import check_day, check_species, enter

router = closed_router(prefix="/v1/samples", tags=["samples"])

Json = dict[str, Any]
if TYPE_CHECKING:  # which knows no model that is made of a record
    Advice = Json
else:
    Advice = result_of(UnitOutlook)
ThemeQuery = Annotated[
    Theme, Query(description="For a light or a dark page; the ground is clear.")
]


class SampleOut(schemas.Out):
    """A sample and what it gives."""

    id: UUID = Field(description="As the client made it.")
    revision: int = Field(description="Grows with every change.")
    received_at: dt.datetime = Field(description="When it first came.")
    received_by: str = Field(
        default="", description="Device that began it; empty where none is paired."
    )
    changed_by: str = Field(default="", description="Device that changed it last.")
    sample: SampleIn = Field(description="As it was sent.")
    estimate: SampleAnswer | None = Field(
        description="Mean weight and spread; null while nothing can be said."
    )
    problems: list[Problem] = Field(description="Worst first.")
    advice: Advice | None = Field(
        default=None,
        description="The unit's outlook as if the sample were in the book; null "
        "without an estimate, or a unit and cohort of the book.",
    )
    entry_id: UUID | None = Field(description="Entry in the book, once recorded.")
    taken_back_at: dt.datetime | None = Field(
        default=None, description="When it was taken back; its entry counts no more."
    )


class RecordIn(schemas.In):
    """Where a sample is entered in the book."""

    unit_id: UUID = Field(description="Unit in the book.")
    cohort_id: UUID = Field(description="Cohort in the book.")
    confirm: schemas.Confirm = None


@router.put(
    "/{sample_id}", summary="Save a sample and get its estimate", dependencies=[WORKER]
)
def put_sample(
    services: WithServices,
    caller: WithCaller,
    sample_id: UUID,
    sent: SampleIn,
    request: Request,
    response: Response,
) -> SampleOut:
    """Save a sample under an id that the client made; again for each change.

    Sent twice it is one sample. A sample too small for an estimate is saved all
    the same, and the problem says what is missing. With `If-Match`, a change that
    is based on an older state is refused.
    """
    body = plain(sent, sparse=True)
    old = services.archive.find_sample(sample_id)
    based_on = None
    if old is not None:
        state = Revision(str(old.id), old.revision)
        expected_revision(request, state, "sample")
        based_on = old.revision if "If-Match" in request.headers else None
    if old is not None and old.body == body and not out_of_date(services, old):
        response.headers["ETag"] = etag_of(state)
        return _whole(services, old)
    result = estimate_json(services, sent, sample_id)
    stored = services.archive.put_sample(
        sample_id, body=body, result=result, based_on=based_on, by=caller.author
    )
    response.headers["ETag"] = etag_of(Revision(str(stored.id), stored.revision))
    return _whole(services, stored)


@router.get("", summary="List the samples, newest first", dependencies=[READER])
def list_samples(
    services: WithServices,
    limit: Annotated[int, Query(ge=1, le=200)] = 50,
    cursor: Annotated[int | None, Query(ge=1, le=2**53)] = None,
    only_open: Annotated[
        bool,
        Query(description="Leave out what is in the book, and what was taken back."),
    ] = False,
) -> schemas.Items[SampleOut]:
    """Return a page of samples, without the advice that each one has by itself.

    A sample that one phone has begun is there for all: another goes on with it.
    """
    page, archive = Page(limit=limit, before=cursor), services.archive
    found = archive.open_samples(page) if only_open else archive.samples(page)
    entered = services.book.has_entries(sample.id for sample in found)
    gone = services.book.cancelled_at(sample.id for sample in found)
    return schemas.Items(
        items=[
            _out(one, in_book=one.id in entered, gone_at=gone.get(one.id))
            for one in found
        ],
        next=found[-1].seq if len(found) == limit else None,
    )


@router.get("/{sample_id}", summary="One sample", dependencies=[READER])
def get_sample(
    services: WithServices, sample_id: UUID, request: Request, response: Response
) -> SampleOut:
    """Return a sample, its estimate anew where its photos were corrected."""
    stored = _up_to_date(services, services.archive.sample(sample_id))
    not_modified(request, response, Revision(str(stored.id), stored.revision))
    return _whole(services, stored)


@router.delete("/{sample_id}", summary="Take a sample back", dependencies=[WORKER])
def take_back_sample(
    services: WithServices, caller: WithCaller, sample_id: UUID
) -> SampleOut:
    """Take a sample back; its entry in the book as well, by another entry.

    What it says stays on record, with its photos. Sent anew, it is there again.

    Raises
    ------
    AlreadyReplacedError
        If its entry was corrected since: the correction is taken back instead.
    """
    stored = services.archive.sample(sample_id)
    if stored.taken_back_at is not None:
        return _whole(services, stored)
    book, mine = services.book, [sample_id]
    if book.has_entries(mine) and not book.cancelled_at(mine):
        back = Cancelled(id=uuid4(), on=outlooks.today(), replaces=sample_id)
        book.add(written_by(back, caller.author))
    return _whole(services, services.archive.take_back_sample(stored, caller.author))


@router.post(
    "/{sample_id}/record", summary="Enter a sample in the book", dependencies=[WORKER]
)
def record_sample(
    services: WithServices, caller: WithCaller, sample_id: UUID, sent: RecordIn
) -> SampleOut:
    """Write the sample as an entry of the book, with the sample's own id.

    Done twice it is one entry.

    Raises
    ------
    SampleError
        If the sample has no estimate yet, or none that fish can have, or is of other
        fish than the cohort.
    LedgerError
        If the cohort is not in the book, or the day is in the future, or the sample is
        far from what the book expects: 409 `doubtful-entry`, as for entries.
    """
    stored = _up_to_date(services, services.archive.sample(sample_id))
    estimate = (stored.result or {}).get("estimate")
    if estimate is None:
        raise NoEstimateError
    if any(p.fatal and p.code == "far-from-published" for p in _problems(stored)):
        raise SampleNotEnteredError
    fish = services.book.cohort(sent.cohort_id)
    sample = replace(sample_of(stored), unit_id=sent.unit_id, cohort_id=sent.cohort_id)
    check_species(packaged_species(sample.species or services.settings.species), fish)
    check_day(sample.date, outlooks.today())
    where = (sent.unit_id, sent.cohort_id)
    entry = sample_entry(sample_id, sample, where, stored.result or {})
    facts = Facts(
        problems=tuple(_problems(stored)),
        count_in_unit=sample.count_in_unit,
        count_in_unit_sd=sample.count_in_unit_sd,
    )
    enter(
        services.book,
        [written_by(entry, caller.author)],
        today=outlooks.today(),
        confirm=sent.confirm or False,
        facts={entry.id: facts},
    )
    stored = services.archive.put_sample(
        sample_id,
        body=plain(sample, sparse=True),
        result=stored.result,
        based_on=stored.revision,
        by=caller.author,
    )
    return _whole(services, stored)


@router.get(
    "/{sample_id}/plan", summary="How many nets would be needed", dependencies=[READER]
)
def plan(
    services: WithServices,
    sample_id: UUID,
    precision_percent: Annotated[
        float, Query(ge=0.5, le=90, description="Wanted half width of the interval, %.")
    ] = 10.0,
    net_per_fish: Annotated[
        float | None,
        Query(
            ge=0.1,
            le=10_000,
            description="How much longer a net takes than a fish of it: the plan is "
            "for nets of the size that tells most for the time.",
        ),
    ] = None,
    fish_in_part: Annotated[
        list[Annotated[int, Query(ge=1, le=10**9)]] | None,
        Query(
            max_length=20,
            description="Fish in each part of the unit, as of a depth or a place, to "
            "share the nets out among them.",
        ),
    ] = None,
) -> PlanOut:
    """Return nets for a mean within so many per cent, by this sample's spread.

    And whether one more net is worth it, after those that were taken.
    """
    estimate = (services.archive.sample(sample_id).result or {}).get("estimate")
    if estimate is None:
        raise NoEstimateError
    return planned(
        estimate,
        precision_percent=precision_percent,
        net_per_fish=net_per_fish,
        fish_in_parts=fish_in_part or (),
    )


@router.get(
    "/{sample_id}/distribution.svg",
    summary="Weights drawn",
    responses=SVG,
    dependencies=[READER],
)
def distribution_svg(
    services: WithServices, sample_id: UUID, theme: ThemeQuery = "light"
) -> Response:
    """Return the distribution of weight in the unit, with the mean's interval."""
    found = measured_again(services, services.archive.sample(sample_id))
    return _svg(weight_plot(found.estimate, found.nets, plot_format="svg", theme=theme))


@router.get(
    "/{sample_id}/length-weight.svg",
    summary="Line drawn",
    responses=SVG,
    dependencies=[READER],
)
def length_weight_svg(
    services: WithServices, sample_id: UUID, theme: ThemeQuery = "light"
) -> Response:
    """Return the nets' weights over their lengths, with both length-weight lines."""
    found = measured_again(services, services.archive.sample(sample_id))
    picture = sample_line_plot(
        found.estimate, found.nets, plot_format="svg", theme=theme
    )
    return _svg(picture)


def _up_to_date(services: Services, stored: StoredSample) -> StoredSample:
    """Return the sample, its estimate made anew where what it rests on has changed."""
    if not out_of_date(services, stored):
        return stored
    result = estimate_json(services, sample_of(stored), stored.id)
    try:
        return services.archive.put_sample(
            stored.id, body=stored.body, result=result, based_on=stored.revision
        )
    except VersionConflictError:  # somebody changed it meanwhile: theirs is newer
        return services.archive.sample(stored.id)


def _svg(data: bytes) -> Response:
    return Response(data, media_type="image/svg+xml")


def _advice(services: Services, stored: StoredSample) -> Json | None:
    estimate = (stored.result or {}).get("estimate")
    sent = sample_of(stored)
    if estimate is None or sent.unit_id is None or sent.cohort_id is None:
        return None
    try:
        where = (sent.unit_id, sent.cohort_id)
        sample = sample_entry(stored.id, sent, where, stored.result or {})
    except BadEntryError:  # an estimate beyond what the book takes means nothing yet
        return None
    found = outlook_with(services, sample)
    return None if found is None else plain(found)


def _problems(stored: StoredSample) -> list[Problem]:
    found = (stored.result or {}).get("problems", ())
    return [read(Problem, problem) for problem in found]


def _whole(services: Services, stored: StoredSample) -> SampleOut:
    in_book = bool(services.book.has_entries([stored.id]))
    gone_at = services.book.cancelled_at([stored.id]).get(stored.id)
    advice = _advice(services, stored)
    return _out(stored, in_book=in_book, gone_at=gone_at, advice=advice)


def _out(
    stored: StoredSample,
    *,
    in_book: bool,
    gone_at: dt.datetime | None,
    advice: Json | None = None,
) -> SampleOut:
    estimate = (stored.result or {}).get("estimate")
    return SampleOut(
        id=stored.id,
        revision=stored.revision,
        received_at=stored.received_at,
        received_by=stored.received.name,
        changed_by=stored.changed.name,
        sample=sample_of(stored),
        estimate=None if estimate is None else answer_from_json(estimate),
        problems=_problems(stored),
        advice=advice,
        entry_id=stored.id if in_book else None,
        taken_back_at=stored.taken_back_at or gone_at,
    )
