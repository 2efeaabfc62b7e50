"""The book: units, cohorts, entries."""

from datetime import date
from typing import Annotated, Any
from uuid import UUID

from fastapi import APIRouter, Query, Request, Response
from pydantic import BaseModel, Field, create_model

from api.http import Revision, not_modified
from api.model_of import model_of, plain, union_of
from api.outlook_schemas import CohortModel, UnitModel
from api.schemas import In, Items, Out
from api.services import WithServices
from fishmeasure.book.codec import from_plain, to_plain
from fishmeasure.book.entries import ENTRY_KINDS, entry_from_plain, entry_to_plain
from fishmeasure.book.units import Cohort, Unit

router = APIRouter(prefix="/v1", tags=["book"])

EntryModel = union_of(
    model_of(record, tag=kind) for kind, record in ENTRY_KINDS.items()
)
MAX_ENTRIES = 500
Json = dict[str, Any]


def items_of(name: str, model: Any) -> Any:
    """Return the named list of a model that is made at run time."""
    return create_model(name, __base__=Items[model])


class EntriesIn(In):
    """Entries to be written: all of them, or none."""

    entries: list[EntryModel] = Field(  # type: ignore[valid-type]
        min_length=1, max_length=MAX_ENTRIES, description="In any order."
    )


class AddedOut(Out):
    """What became of entries that were sent."""

    added: list[UUID] = Field(description="Newly written.")
    repeated: list[UUID] = Field(description="There already, with the same content.")


# --- units and cohorts --------------------------------------------------------


@router.get(
    "/units", summary="List the units", response_model=items_of("Units", UnitModel)
)
def list_units(services: WithServices) -> Json:
    """Return the newest version of every unit, by name."""
    return {"items": [to_plain(u, sparse=False) for u in services.book.units()]}


@router.get("/units/{unit_id}", summary="One unit", response_model=UnitModel)
def get_unit(
    services: WithServices, unit_id: UUID, request: Request, response: Response
) -> Json:
    """Return the newest version of a unit."""
    unit = services.book.unit(unit_id)
    not_modified(request, response, Revision(str(unit.id), unit.version))
    return to_plain(unit, sparse=False)


@router.put(
    "/units/{unit_id}",
    summary="Add a unit or its next version",
    response_model=UnitModel,
)
def put_unit(
    services: WithServices,
    unit_id: UUID,
    sent: UnitModel,  # type: ignore[valid-type]
) -> Json:
    """Save a unit; `version` must be one more than the newest, 1 for a new one."""
    unit = from_plain(Unit, {**plain(sent), "id": str(unit_id)})
    return to_plain(services.book.save_unit(unit), sparse=False)


@router.get(
    "/cohorts",
    summary="List the cohorts",
    response_model=items_of("Cohorts", CohortModel),
)
def list_cohorts(services: WithServices) -> Json:
    """Return the newest version of every cohort, by name."""
    return {"items": [to_plain(c, sparse=False) for c in services.book.cohorts()]}


@router.get("/cohorts/{cohort_id}", summary="One cohort", response_model=CohortModel)
def get_cohort(
    services: WithServices, cohort_id: UUID, request: Request, response: Response
) -> Json:
    """Return the newest version of a cohort."""
    cohort = services.book.cohort(cohort_id)
    not_modified(request, response, Revision(str(cohort.id), cohort.version))
    return to_plain(cohort, sparse=False)


@router.put(
    "/cohorts/{cohort_id}",
    summary="Add a cohort or its next version",
    response_model=CohortModel,
)
def put_cohort(
    services: WithServices,
    cohort_id: UUID,
    sent: CohortModel,  # type: ignore[valid-type]
) -> Json:
    """Save a cohort; `version` must be one more than the newest, 1 for a new one."""
    cohort = from_plain(Cohort, {**plain(sent), "id": str(cohort_id)})
    return to_plain(services.book.save_cohort(cohort), sparse=False)


# --- entries ------------------------------------------------------------------


@router.post("/entries", summary="Write entries")
def post_entries(services: WithServices, sent: EntriesIn) -> AddedOut:
    """Write entries, all or none; the same one sent again is no second one."""
    items: list[BaseModel] = sent.entries
    entries = [entry_from_plain(plain(item)) for item in items]
    added = services.book.add(*entries)
    return AddedOut(added=list(added.added), repeated=list(added.repeated))


@router.get(
    "/entries", summary="List entries", response_model=items_of("Entries", EntryModel)
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
) -> Json:
    """Return entries, newest first."""
    found = [
        entry
        for entry in reversed(
            services.book.entries(
                unit_id=unit_id, cohort_id=cohort_id, only_in_force=only_in_force
            )
        )
        if (since is None or entry.on >= since) and (until is None or entry.on <= until)
    ]
    page = found[cursor : cursor + limit]
    more = len(found) > cursor + limit
    return {
        "items": [entry_to_plain(entry) for entry in page],
        "next": cursor + limit if more else None,
    }


@router.get("/entries/{entry_id}", summary="One entry", response_model=EntryModel)
def get_entry(
    services: WithServices, entry_id: UUID, request: Request, response: Response
) -> Json:
    """Return one entry, whether in force or not; it never changes."""
    entry = services.book.entry(entry_id)
    not_modified(request, response, Revision(str(entry.id), 1))
    return entry_to_plain(entry)
