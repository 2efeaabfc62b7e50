"""Everything out and in again, and the demo."""

import datetime as dt
from collections.abc import Iterator
from typing import Annotated, Any, Literal
from uuid import UUID

from fastapi import Body
from fastapi.responses import StreamingResponse
from pydantic import Field

from api.access import OWNER, READER, closed_router
from api.answers import CSV
from api.exports import table_csv, whole_json
from api.outlooks import today
from api.schemas import In, Out
from api.services import WithServices
from fishmeasure.base.errors import BookNotEmptyError
from fishmeasure.base.words import Message
from fishmeasure.store.demo import about, demo_book
from fishmeasure.store.exchange import book_from_document

router = closed_router(prefix="/v1", tags=["exchange"])

_DOCUMENT = Message.of("import-where", case="document")
TableName = Literal["units", "cohorts", "entries", "remarks", "photos", "samples"]


class ImportedOut(Out):
    """What became of a document."""

    added: list[UUID] = Field(description="Entries newly written.")
    repeated: list[UUID] = Field(
        description="Entries that were there, with the same content."
    )
    left_out: dict[str, int] = Field(
        description="Parts that are not imported, and how many rows they have: "
        "photos and samples belong to the server that measured them.",
        examples=[{"photos": 4, "samples": 2}],
    )


class DemoIn(In):
    """The demo's last day."""

    date: dt.date | None = Field(
        default=None,
        ge=dt.date(1950, 1, 1),
        le=dt.date(2200, 1, 1),
        description="Its last day; without it the day where the server stands.",
    )


class DemoOut(Out):
    """What was filled in."""

    about: str = Field(description="To be shown: the data are invented.")
    units: list[UUID] = Field(description="The demo's units.")
    entries: int = Field(description="Entries written.")


@router.get("/export.json", summary="Everything as one document", dependencies=[READER])
def export_json(services: WithServices) -> StreamingResponse:
    """Return the whole book, the photos' measurements and the samples.

    The photos' files are not in it; each has its own path.
    """
    return _download(whole_json(services), "application/json", "fishmeasure.json")


@router.get(
    "/export/{table}.csv",
    summary="A table of everything",
    responses=CSV,
    dependencies=[READER],
)
def export_csv(services: WithServices, table: TableName) -> StreamingResponse:
    """Return a table of the book, of all measured fish, or of the samples."""
    return _download(table_csv(services, table), "text/csv", f"{table}.csv")


def _download(
    parts: Iterator[str], media_type: str, file_name: str
) -> StreamingResponse:
    disposition = f'attachment; filename="{file_name}"'
    return StreamingResponse(
        parts, media_type=media_type, headers={"Content-Disposition": disposition}
    )


@router.post(
    "/import", summary="Add a book's document to the book", dependencies=[OWNER]
)
def import_json(
    services: WithServices,
    document: Annotated[
        dict[str, Any], Body(description="As `GET /v1/export.json` gives it.")
    ],
) -> ImportedOut:
    """Write what the document has and the book has not: all of it, or nothing."""
    content = book_from_document(document, _DOCUMENT)
    added = services.book.add_content(content)
    left_out = {
        name: len(document[name])
        for name in ("photos", "samples")
        if isinstance(document.get(name), list)
    }
    return ImportedOut(
        added=list(added.added), repeated=list(added.repeated), left_out=left_out
    )


@router.post(
    "/demo", summary="Fill an empty book with invented tanks", dependencies=[OWNER]
)
def fill_demo(services: WithServices, sent: DemoIn) -> DemoOut:
    """Write the invented spring tanks into the book, if nothing is in it yet.

    Raises
    ------
    BookNotEmptyError
        If the book has a unit, cohort or entry.
    """
    content = services.book.content()
    if content.units or content.cohorts or content.entries:
        raise BookNotEmptyError
    demo = demo_book(sent.date or today())
    added = services.book.add_content(demo)
    return DemoOut(
        about=about(), units=[unit.id for unit in demo.units], entries=len(added.added)
    )
