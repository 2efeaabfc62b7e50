"""What does not change: species, calibration pages, lens profiles."""

from typing import Annotated, Any, Literal

from fastapi import FastAPI, Query, Request, Response
from fastapi.responses import JSONResponse
from pydantic import ConfigDict, Field

from api.access import OWNER, READER, closed_router
from api.answers import PDF
from api.errors import NotFoundError
from api.lenses import find_lens, keep_lens, list_lenses
from api.schemas import Items, Out
from api.services import WithServices
from fishmeasure.base.record import plain
from fishmeasure.photo.lens import LensFigures, LensProfile
from fishmeasure.render.sheet import PAGE_KINDS, design_page, page_facts, page_pdf
from fishmeasure.species import packaged_species, species_keys
from fishmeasure.species.record import Species

router = closed_router(prefix="/v1", tags=["reference"])

Json = dict[str, Any]


class SpeciesOut(Out):
    """A species in the list."""

    key: str = Field(description="For other requests.", examples=["rainbow-trout"])
    common_name: str = Field(description="In English.")
    latin_name: str = Field(description="Scientific name.")


class MarkerOut(Out):
    """A marker on a printed page."""

    id: int = Field(description="Its number in the dictionary.", examples=[0])
    side_mm: float = Field(description="Outer edge of its black border, mm.")
    card_mm: float | None = Field(description="Card to cut out, mm; null for none.")
    corners_mm: list[list[float]] = Field(
        description="Four corners on the page, mm, top-left first, clockwise."
    )


class PageOut(Out):
    """What is true about a page printed at 100 %."""

    model_config = ConfigDict(extra="allow")

    kind: str = Field(description="For its path.", examples=["sheet"])
    paper: str = Field(description="Printed on.", examples=["A4"])
    page_mm: list[float] = Field(description="[width, height], mm.")
    origin: str = Field(description="Where (0, 0) is.")
    dictionary: str = Field(description="Which markers.")
    markers: list[MarkerOut] = Field(description="All markers.")
    check_lines_mm: list[dict[str, Any]] = Field(
        description="Lines to measure after printing, mm."
    )


@router.get("/openapi.json", include_in_schema=False, dependencies=[READER])
def description(request: Request) -> JSONResponse:
    """Return the description of the API."""
    app: FastAPI = request.app
    return JSONResponse(app.openapi())


@router.get("/species", summary="List the species", dependencies=[READER])
def list_species() -> Items[SpeciesOut]:
    """Return all species that the program knows, by key."""
    return Items(
        items=[
            SpeciesOut(key=key, common_name=found.title, latin_name=found.latin_name)
            for key, found in ((key, packaged_species(key)) for key in species_keys())
        ]
    )


@router.get(
    "/species/{key}", summary="One species with its sources", dependencies=[READER]
)
def get_species(key: str) -> Species:
    """Return all that is known of it, where each figure comes from and how sure."""
    if key not in species_keys():
        raise NotFoundError("species", key[:60])
    return packaged_species(key)


@router.get("/sheets", summary="List the calibration pages", dependencies=[READER])
def list_sheets() -> Items[PageOut]:
    """Return what is true of each page printed on A4: markers, sizes, check line."""
    pages = [page_facts(design_page(kind, "A4")) for kind in PAGE_KINDS]
    return Items(items=[PageOut.model_validate(facts) for facts in pages])


@router.get(
    "/sheets/{name}.pdf",
    summary="A calibration page to print",
    responses=PDF,
    dependencies=[READER],
)
def sheet_pdf(
    name: str,
    paper: Annotated[
        Literal["A4", "A3", "Letter"], Query(description="To print on.")
    ] = "A4",
) -> Response:
    """Return a page in true scale; print it at 100 % and measure its check line."""
    kind = next((kind for kind in PAGE_KINDS if kind == name), None)
    if kind is None:
        raise NotFoundError("page", name[:60])
    disposition = f'inline; filename="{kind}-{paper}.pdf"'
    return Response(
        page_pdf(design_page(kind, paper)),
        media_type="application/pdf",
        headers={"Content-Disposition": disposition},
    )


@router.get("/lenses", summary="List the lens profiles", dependencies=[READER])
def get_lenses(services: WithServices) -> Items[LensProfile]:
    """Return all profiles, by name."""
    return Items(items=list(list_lenses(services)))


@router.get("/lenses/{name}", summary="One lens profile", dependencies=[READER])
def get_lens(services: WithServices, name: str) -> LensProfile:
    """Return a profile."""
    return find_lens(services, name)


@router.put("/lenses/{name}", summary="Keep a lens profile", dependencies=[OWNER])
def put_lens(services: WithServices, name: str, sent: LensFigures) -> LensProfile:
    """Keep a profile under a name of letters, digits, - and _; it replaces the old."""
    profile = LensProfile(name=name, **plain(sent))
    keep_lens(services, profile)
    return profile
