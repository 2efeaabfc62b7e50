"""All units on a day in one answer, and the register of fish."""

import datetime as dt
from typing import Annotated, Any

from fastapi import Query, Response

from api.access import READER, closed_router
from api.answers import PDF
from api.outlooks import today
from api.result_models import result_of
from api.routes.units import OnDay
from api.services import WithServices
from fishmeasure.base.record import plain
from fishmeasure.book.register import Register
from fishmeasure.outlook.farm import FarmOutlook
from fishmeasure.render.farm_pdf import farm_pdf

router = closed_router(prefix="/v1/farm", tags=["outlook"])

_YEAR = dt.timedelta(days=365)
SinceDay = Annotated[
    dt.date | None,
    Query(
        description="First day of the register; without it a year before the last.",
        ge=dt.date(1950, 1, 1),
        le=dt.date(2200, 1, 1),
    ),
]
Json = dict[str, Any]


@router.get(
    "",
    summary="All units on a day",
    response_model=result_of(FarmOutlook),
    dependencies=[READER],
)
def farm(services: WithServices, date: OnDay = None) -> Json:
    """Return every unit in short, the most urgent first, and the sums of the farm.

    It is what `fishmeasure farm --json` writes, without the register and the costs.
    """
    answer: Json = plain(services.book.farm(date or today()))
    return answer


@router.get(
    "/register",
    summary="The register of fish",
    response_model=result_of(Register),
    dependencies=[READER],
)
def register(
    services: WithServices, since: SinceDay = None, date: OnDay = None
) -> Json:
    """Return what came, died, left and was treated in a period, as entered."""
    until = date or today()
    answer: Json = plain(services.book.register(since or until - _YEAR, until))
    return answer


@router.get(
    "/farm.pdf",
    summary="The farm and its register to print",
    responses=PDF,
    dependencies=[READER],
)
def farm_page(
    services: WithServices, since: SinceDay = None, date: OnDay = None
) -> Response:
    """Return the farm and its register of a period, on A4."""
    until = date or today()
    found = services.book.farm(until)
    listed = services.book.register(since or until - _YEAR, until)
    return Response(
        farm_pdf(found, listed),
        media_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="farm-{until}.pdf"'},
    )
