"""The application: parts, routes, guards."""

import logging
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from functools import partial

from fastapi import FastAPI

from api.access import Sightings, check_all_closed
from api.code_file import keep_code
from api.errors import install_error_handlers
from api.guard import Guard
from api.language import Language
from api.limits import BodyLimits
from api.methods import Methods
from api.observe import Metrics, Observe
from api.openapi import install_description
from api.pairing import Pairing
from api.routes import (
    book,
    calculations,
    devices,
    exchange,
    farm,
    health,
    page,
    photos,
    reference,
    samples,
    stocks,
    units,
    uploads,
)
from api.services import open_services, report_lost_photos
from api.settings import Settings
from fishmeasure import __version__

log = logging.getLogger(__name__)

DESCRIPTION = """
Photos of net samples and bulk weighings to mean weight and spread; the stock book
and what follows from it. Every figure's unit is in its name. Paths under `/v1` are
stable: fields may be added, none is renamed or removed. All examples are invented.
What answers GET answers HEAD, without the body; OPTIONS is answered 204, the methods of
an address in `Allow`.
"""
ARRIVING_PER_PLACE = 4
"""Uploads that may arrive for each place in the pool: a phone's network is slower than
measuring, so that a place is seldom empty while another upload arrives."""
ROUTERS = (
    health.router,
    photos.router,
    uploads.router,
    samples.router,
    book.router,
    units.router,
    stocks.router,
    farm.router,
    exchange.router,
    devices.router,
    reference.router,
    calculations.router,
    page.router,
)


def create_app(
    settings: Settings | None = None, announce: Callable[[str], None] | None = None
) -> FastAPI:
    """Return the server's application.

    Parameters
    ----------
    settings
        From the environment where None.
    announce
        Shows a new pairing code to the person at the server; where None, it is put
        into a file of the data folder.
    """
    settings = settings or Settings.from_environment()
    announce = announce or partial(keep_code, settings.data_dir)

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[None]:
        services = open_services(settings)
        app.state.services = services
        report_lost_photos(services)
        if settings.require_token:
            app.state.pairing.renew()
        yield
        services.close()  # its own, though another start may have come since

    app = FastAPI(
        title="fishmeasure",
        version=__version__,
        description=DESCRIPTION,
        lifespan=lifespan,
        openapi_url=None,  # a route as others, see routes/reference.py
        docs_url=None,  # its page would load from elsewhere
        redoc_url=None,
        redirect_slashes=False,  # another spelling is another address
    )
    own = [route for router in ROUTERS for route in router.routes]
    check_all_closed(own)
    app.state.pairing = Pairing(
        minutes=settings.pairing_code_minutes, announce=announce
    )
    app.state.sightings = Sightings()
    for router in ROUTERS:
        app.include_router(router)
    install_error_handlers(app)
    install_description(app, own)
    app.add_middleware(Methods, routes=own)
    app.add_middleware(
        BodyLimits,
        max_bytes=settings.max_upload_mb * 1_000_000,
        seconds=settings.upload_timeout_s,
        most_large=ARRIVING_PER_PLACE * (settings.workers + settings.queue),
    )
    hosts = frozenset(
        name.strip().lower() for name in settings.hosts.split(",") if name
    )
    app.add_middleware(Guard, hosts=hosts)
    app.add_middleware(Language)
    app.state.metrics = Metrics()
    app.add_middleware(Observe, metrics=app.state.metrics)
    return app
