"""Whether the server lives and works, and what it is."""

from fastapi import Request, Response
from fastapi.responses import PlainTextResponse
from prometheus_client import CONTENT_TYPE_LATEST, generate_latest
from pydantic import Field

from api.access import ANYONE, READER, closed_router
from api.observe import Metrics
from api.schemas import Out
from api.services import WithServices
from fishmeasure import __version__
from fishmeasure.base.flags import FLAGS, Flag
from fishmeasure.husbandry import cautions

router = closed_router()

CAUTIONS = (
    "ESTIMATE",
    "OXYGEN",
    "ELECTRICAL",
    "HANDLING",
    "ANAESTHETICS",
    "SLAUGHTER",
    "DEAD_FISH",
    "PERMITS",
)


class HealthOut(Out):
    """A sign of life."""

    status: str = Field(description='"ok".', examples=["ok"])


class AboutOut(Out):
    """What a page needs to know before anything else."""

    version: str = Field(description="Of the program.")
    require_token: bool = Field(description="Whether devices must be paired.")
    species: str = Field(description="Default species.")
    max_upload_mb: int = Field(description="Largest upload, MB.")
    max_batch: int = Field(description="Most photos in one upload.")
    flags: list[Flag] = Field(description="All doubts about fish.")
    cautions: dict[str, str] = Field(description="To be shown where they apply.")


@router.get(
    "/health", tags=["server"], summary="Is the server alive?", dependencies=[ANYONE]
)
async def health(response: Response) -> HealthOut:
    """Answer without looking at anything, and without waiting for a thread."""
    # The page that offers the certificate asks so whether a phone has it already.
    response.headers["Cross-Origin-Resource-Policy"] = "cross-origin"
    return HealthOut(status="ok")


@router.get(
    "/ready", tags=["server"], summary="Can the server work?", dependencies=[ANYONE]
)
async def ready(services: WithServices) -> HealthOut:
    """Answer by the last reading of the book, which no other work holds up.

    503 says what is wrong, or that the book could not be read in time.
    """
    await services.readiness.check()
    return HealthOut(status="ok")


@router.get(
    "/metrics",
    tags=["server"],
    summary="Figures for Prometheus",
    response_class=PlainTextResponse,
    dependencies=[READER],
)
def metrics(request: Request, services: WithServices) -> Response:
    """Return counts and times of requests, and how full the queue is.

    Guarded as everything under `/v1`: where devices must be paired, the collector
    needs the token of one.
    """
    found: Metrics = request.app.state.metrics
    found.in_flight.set(services.pool.in_flight)
    found.places.set(services.pool.limit)
    return Response(
        generate_latest(found.registry), headers={"Content-Type": CONTENT_TYPE_LATEST}
    )


@router.get(
    "/v1/about",
    tags=["server"],
    summary="Version, limits, flags, cautions",
    dependencies=[READER],
)
def about(services: WithServices) -> AboutOut:
    """Return what is the same for every request."""
    settings = services.settings
    return AboutOut(
        version=__version__,
        require_token=settings.require_token,
        species=settings.species,
        max_upload_mb=settings.max_upload_mb,
        max_batch=settings.max_batch,
        flags=list(FLAGS.values()),
        cautions={name.lower(): str(getattr(cautions, name)) for name in CAUTIONS},
    )
