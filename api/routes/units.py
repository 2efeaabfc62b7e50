"""A unit on a day: what is in it, what follows, and pictures of both."""

import datetime as dt
from typing import Annotated, Any
from uuid import UUID

from fastapi import Depends, Query, Response
from pydantic import Field, create_model

from api.access import READER, closed_router
from api.answers import PDF, SVG
from api.outlooks import today
from api.result_models import result_of
from api.schemas import In
from api.services import WithServices
from fishmeasure.base.record import plain
from fishmeasure.book.state import UnitState
from fishmeasure.outlook.attempts import AHEAD_DAYS
from fishmeasure.outlook.charts import UnitCharts, unit_charts
from fishmeasure.outlook.unit import UnitOutlook
from fishmeasure.outlook.whatif import (
    MOST_FEED_DAYS,
    MOST_WEEKS,
    PlanQuestion,
    UnitPlan,
    unit_plan,
)
from fishmeasure.render.history_plots import growth_plot, spread_plot
from fishmeasure.render.outlook_pdf import outlook_pdf
from fishmeasure.render.plots import Theme

router = closed_router(prefix="/v1/units/{unit_id}", tags=["outlook"])

OnDay = Annotated[
    dt.date | None,
    Query(
        description="The day; without it the day where the server stands.",
        examples=["2026-05-02"],
        ge=dt.date(1950, 1, 1),
        le=dt.date(2200, 1, 1),
    ),
]
ThemeQuery = Annotated[
    Theme, Query(description="For a light or a dark page; the ground is clear.")
]


Json = dict[str, Any]
StateAnswer = create_model(
    "UnitStateAnswer",
    __base__=result_of(UnitState),
    about=(str, Field(description="What the book says of its data, to be shown.")),
)


class PlanQuery(In):
    """What is asked of a plan; what is left out is as usual."""

    date: dt.date | None = Field(
        default=None,
        ge=dt.date(1950, 1, 1),
        le=dt.date(2200, 1, 1),
        description="The day; without it the day where the server stands.",
        examples=["2026-05-02"],
    )
    cohort_id: UUID | None = Field(
        default=None, description="To harvest; without it the heaviest fish."
    )
    harvest_weeks: int | None = Field(
        default=None,
        ge=1,
        le=MOST_WEEKS,
        description="Weekly harvests from the day on.",
    )
    harvest_count: int | None = Field(
        default=None, ge=0, le=10**7, description="Fish to take each week."
    )
    feed_days: int | None = Field(
        default=None, ge=1, le=MOST_FEED_DAYS, description="Days to feed."
    )
    room_days: int | None = Field(
        default=None, ge=1, le=AHEAD_DAYS, description="Days the room must last."
    )
    fingerling_weight_g: float | None = Field(
        default=None, ge=0.1, le=5000.0, description="Fish to be added, g each."
    )
    outage_hours: float | None = Field(
        default=None, ge=0.1, le=24.0, description="Hours to be survived."
    )


@router.get(
    "/state",
    summary="What is in a unit",
    response_model=StateAnswer,
    dependencies=[READER],
)
def unit_state(services: WithServices, unit_id: UUID, date: OnDay = None) -> Json:
    """Return counts, mean weights and biomass at the end of a day, by the book."""
    found = services.book.outlook(unit_id, date or today())
    return {**plain(found.state), "about": found.about}


def _outlook(services: WithServices, unit_id: UUID, date: OnDay = None) -> UnitOutlook:
    return services.book.outlook(unit_id, date or today())


WithOutlook = Annotated[UnitOutlook, Depends(_outlook)]


@router.get(
    "/outlook",
    summary="What follows for a unit",
    response_model=result_of(UnitOutlook),
    dependencies=[READER],
)
def outlook(found: WithOutlook) -> Json:
    """Return feed, growth, harvest, limits and outage times on a day.

    What cannot be answered is null, and `problems` says why and what to do. It is
    what `fishmeasure outlook --json` writes.
    """
    answer: Json = plain(found)
    return answer


@router.get(
    "/outlook.pdf",
    summary="The outlook on one page",
    responses=PDF,
    dependencies=[READER],
)
def outlook_page(found: WithOutlook) -> Response:
    """Return the outlook to print, on A4."""
    disposition = f'inline; filename="outlook-{found.on}.pdf"'
    return Response(
        outlook_pdf(found),
        media_type="application/pdf",
        headers={"Content-Disposition": disposition},
    )


@router.get(
    "/charts",
    summary="What the charts of a unit are drawn from",
    response_model=result_of(UnitCharts),
    dependencies=[READER],
)
def charts(found: WithOutlook) -> Json:
    """Return growth, sizes, kilograms against limits, and oxygen after a stop.

    Each figure has its interval, so that a page draws them and tells each one.
    """
    answer: Json = plain(unit_charts(found))
    return answer


@router.get(
    "/plan",
    summary="What follows from a plan",
    response_model=result_of(UnitPlan),
    dependencies=[READER],
)
def plan(
    services: WithServices,
    unit_id: UUID,
    asked: Annotated[PlanQuery, Query()],
) -> Json:
    """Return a weekly harvest, feed, room and an outage as asked, with intervals.

    Nothing is written. What is not asked is as usual; `choices` has the range of each.
    """
    question = PlanQuestion(**asked.model_dump(exclude={"date"}, exclude_none=True))
    found = services.book.outlook(
        unit_id, asked.date or today(), options=question.options
    )
    answer: Json = plain(unit_plan(found, question))
    return answer


@router.get(
    "/growth.svg", summary="Growth as a picture", responses=SVG, dependencies=[READER]
)
def growth_svg(found: WithOutlook, theme: ThemeQuery = "light") -> Response:
    """Return samples with their intervals and the mean weight ahead."""
    picture = growth_plot(found, plot_format="svg", theme=theme)
    return Response(picture, media_type="image/svg+xml")


@router.get(
    "/distribution.svg",
    summary="Weights over time",
    responses=SVG,
    dependencies=[READER],
)
def distribution_svg(found: WithOutlook, theme: ThemeQuery = "light") -> Response:
    """Return how far apart the weights were at each sample, and are on the day."""
    picture = spread_plot(found, plot_format="svg", theme=theme)
    return Response(picture, media_type="image/svg+xml")
