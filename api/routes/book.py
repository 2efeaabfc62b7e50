"""The book: units, cohorts, entries."""

from dataclasses import replace
from datetime import date
from typing import Annotated, Any, Union
from uuid import UUID

from fastapi import Query, Request, Response
from pydantic import Field

from api.access import OWNER, READER, WORKER, WithCaller, closed_router
from api.http import Revision, not_modified
from api.outlooks import today
from api.schemas import Confirm, In, Items, Out
from api.services import WithServices
from fishmeasure.book.entries import ENTRY_KINDS
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.store.devices import written_by
from fishmeasure.store.entering import enter
from fishmeasure.store.entry_lists import Wanted

router = closed_router(prefix="/v1", tags=["book"])

# All kinds of entries, told apart by their ``kind``.
AnyEntry: Any = Annotated[
    Union[tuple(ENTRY_KINDS.values())],  # noqa: UP007 - made from a table
    Field(discriminator="kind"),
]
MAX_ENTRIES = 500


class EntriesIn(In):
    """Entries to be written: all of them, or none."""

    entries: list[AnyEntry] = Field(
        min_length=1, max_length=MAX_ENTRIES, description="In any order."
    )
    confirm: Confirm = None


class AddedOut(Out):
    """What became of entries that were sent."""

    added: list[UUID] = Field(description="Newly written.")
    repeated: list[UUID] = Field(description="There already, with the same content.")


class Units(Items[Unit]):
    """Units by name."""


class Cohorts(Items[Cohort]):
    """Cohorts by name."""


class Entries(Items[AnyEntry]):
    """Entries, newest first."""


# --- units and cohorts --------------------------------------------------------


@router.get(
    "/units", summary="List the units", response_model=Units, dependencies=[READER]
)
def list_units(services: WithServices) -> Any:
    """Return the newest version of every unit, by name."""
    return {"items": services.book.units()}


@router.get("/units/{unit_id}", summary="One unit", dependencies=[READER])
def get_unit(
    services: WithServices, unit_id: UUID, request: Request, response: Response
) -> Unit:
    """Return the newest version of a unit."""
    unit = services.book.unit(unit_id)
    not_modified(request, response, Revision(str(unit.id), unit.version))
    return unit


@router.put(
    "/units/{unit_id}", summary="Add a unit or its next version", dependencies=[OWNER]
)
def put_unit(services: WithServices, unit_id: UUID, sent: Unit) -> Unit:
    """Save a unit; `version` must be one more than the newest, 1 for a new one."""
    return services.book.save_unit(replace(sent, id=unit_id, recorded_at=None))


@router.get(
    "/cohorts",
    summary="List the cohorts",
    response_model=Cohorts,
    dependencies=[READER],
)
def list_cohorts(services: WithServices) -> Any:
    """Return the newest version of every cohort, by name."""
    return {"items": services.book.cohorts()}


@router.get("/cohorts/{cohort_id}", summary="One cohort", dependencies=[READER])
def get_cohort(
    services: WithServices, cohort_id: UUID, request: Request, response: Response
) -> Cohort:
    """Return the newest version of a cohort."""
    cohort = services.book.cohort(cohort_id)
    not_modified(request, response, Revision(str(cohort.id), cohort.version))
    return cohort


@router.put(
    "/cohorts/{cohort_id}",
    summary="Add a cohort or its next version",
    dependencies=[OWNER],
)
def put_cohort(services: WithServices, cohort_id: UUID, sent: Cohort) -> Cohort:
    """Save a cohort; `version` must be one more than the newest, 1 for a new one."""
    return services.book.save_cohort(replace(sent, id=cohort_id, recorded_at=None))


# --- entries ------------------------------------------------------------------


@router.post("/entries", summary="Write entries", dependencies=[WORKER])
def post_entries(
    services: WithServices, caller: WithCaller, sent: EntriesIn
) -> AddedOut:
    """Write entries, all or none; the same one sent again is no second one.

    `recorded_at`, `recorded_by`, `device_id` and `confirmed` are the server's to give:
    what is sent of them is not looked at.

    What is far from what the book expects is 409 `doubtful-entry`, and nothing is
    written: `details` have the doubts, the likeliest slip and the corrected entry, and
    `confirm` the token that stores these entries as they are, marked `confirmed`.
    """
    entries = [written_by(entry, caller.author) for entry in sent.entries]
    added = enter(services.book, entries, today=today(), confirm=sent.confirm or False)
    return AddedOut(added=list(added.added), repeated=list(added.repeated))


@router.get(
    "/entries", summary="List entries", response_model=Entries, dependencies=[READER]
)
def list_entries(
    services: WithServices,
    unit_id: UUID | None = None,
    cohort_id: UUID | None = None,
    since: Annotated[date | None, Query(alias="from", description="First day.")] = None,
    until: Annotated[date | None, Query(alias="to", description="Last day.")] = None,
    only_in_force: Annotated[
        bool, Query(description="Leave out what was corrected or taken back.")
    ] = False,
    limit: Annotated[int, Query(ge=1, le=1000)] = 200,
    cursor: Annotated[int, Query(ge=0, le=2**53)] = 0,
) -> Any:
    """Return entries, newest first."""
    wanted = Wanted(
        unit_id=unit_id,
        cohort_id=cohort_id,
        since=since,
        until=until,
        only_in_force=only_in_force,
    )
    page, more = services.book.entry_page(wanted, limit=limit, offset=cursor)
    return {"items": page, "next": cursor + limit if more else None}


@router.get(
    "/entries/{entry_id}",
    summary="One entry",
    response_model=AnyEntry,
    dependencies=[READER],
)
def get_entry(
    services: WithServices, entry_id: UUID, request: Request, response: Response
) -> Any:
    """Return one entry, whether in force or not; it never changes."""
    entry = services.book.entry(entry_id)
    not_modified(request, response, Revision(str(entry.id), 1))
    return entry
