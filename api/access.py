"""Who may ask for what: each route names whom it is for, and none goes without.

A route is closed unless it says ``dependencies=[ANYONE]``: the router of every module
refuses one that names no scope when it is declared, which is when the program starts.
A reader sees; a worker also enters, photographs and samples; the owner also sets up
units, devices and lenses, fills and imports a book, and deletes photos.
"""

import contextlib
import time
from collections.abc import Callable, Coroutine, Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Annotated, Any
from uuid import UUID

from fastapi import APIRouter, Depends, Request, Response
from fastapi.concurrency import run_in_threadpool
from fastapi.routing import APIRoute
from starlette.datastructures import Headers
from starlette.requests import cookie_parser
from starlette.routing import BaseRoute

from api.errors import NotAllowedError, NotPairedError
from api.pairing import token_hash
from api.services import Services
from fishmeasure.base.errors import LedgerError
from fishmeasure.store.devices import Author, Device, Devices, Role

COOKIE = "fishmeasure_device"
SEEN_EVERY = timedelta(minutes=10)
"""How exactly it is known when a device was last seen: each time is a write."""


@dataclass(frozen=True, slots=True)
class Caller:
    """Who asks: a paired device, or None where none must be paired."""

    device: Device | None = None

    def may(self, least: Role) -> bool:
        """Return whether the caller may do what a role may."""
        return self.device is None or self.device.may(least)

    @property
    def role(self) -> Role:
        """Return the caller's role."""
        return "owner" if self.device is None else self.device.role

    @property
    def author(self) -> Author:
        """Return the caller as the author of what it sends."""
        return Author() if self.device is None else self.device.author


@dataclass(frozen=True, slots=True)
class Access:
    """Lets in whoever has at least a role; None is anyone."""

    least: Role | None

    async def __call__(self, request: Request) -> None:
        """Raise unless the caller may.

        Raises
        ------
        NotPairedError, NotAllowedError
        """
        if self.least is None:
            return
        caller = await _caller(request)
        if not caller.may(self.least):
            raise NotAllowedError(caller.role, self.least)


ANYONE = Depends(Access(None))
READER = Depends(Access("reader"))
WORKER = Depends(Access("worker"))
OWNER = Depends(Access("owner"))


class ClosedRoute(APIRoute):
    """A route that looks who asks before it reads anything of what is sent."""

    def __init__(self, path: str, endpoint: Callable[..., Any], **more: Any) -> None:
        super().__init__(path, endpoint, **more)
        self.access = access_of(self)

    def get_route_handler(self) -> Callable[[Request], Coroutine[Any, Any, Response]]:
        """Return the handler, behind the scope."""
        answer = super().get_route_handler()
        admit = access_of(self)

        async def behind(request: Request) -> Response:
            await admit(request)
            response = await answer(request)
            _keep_cookie(request, response)
            return response

        return behind


def access_of(route: BaseRoute) -> Access:
    """Return whom a route is for.

    Raises
    ------
    ValueError
        If it does not say so, or twice: it is then a fault of this program.
    """
    named = getattr(route, "dependencies", ())
    found = [one.dependency for one in named if isinstance(one.dependency, Access)]
    if not isinstance(route, ClosedRoute) or len(found) != 1:
        path = getattr(route, "path", route)
        msg = f"{path} does not say who may ask for it: see api/access.py"
        raise ValueError(msg)
    return found[0]


def closed_router(prefix: str = "", **more: Any) -> APIRouter:
    """Return a router each of whose routes must name its scope."""
    return APIRouter(prefix=prefix, route_class=ClosedRoute, **more)


def check_all_closed(routes: Iterable[BaseRoute]) -> None:
    """Refuse to start with a route that names no scope.

    Raises
    ------
    ValueError
    """
    for route in routes:
        access_of(route)


# --- who asks ------------------------------------------------------------------------


@dataclass(slots=True)
class Sightings:
    """Notes now and then that a device was used, as long as the book takes it.

    A book that takes no writes is no reason to turn a reader away, nor to wait for it
    at each request.
    """

    clock: Callable[[], float] = time.monotonic
    _tried: dict[UUID, float] = field(default_factory=dict)

    def note(
        self, devices: Devices, device: Device, now: datetime, lasts: timedelta
    ) -> bool:
        """Return whether the device was let in for as long again."""
        if device.last_seen_at and abs(now - device.last_seen_at) < SEEN_EVERY:
            return False
        last = self._tried.get(device.id)
        if last is not None and self.clock() - last < SEEN_EVERY.total_seconds():
            return False
        self._tried[device.id] = self.clock()
        with contextlib.suppress(LedgerError):
            devices.seen(device.id, now, lasts)
            return True
        return False


async def _caller(request: Request) -> Caller:
    """Return who asks, looked up once a request.

    Raises
    ------
    NotPairedError
        If a device must be paired, and this one is not, or not any more.
    """
    known: Caller | None = getattr(request.state, "caller", None)
    if known is not None:
        return known
    services: Services = request.app.state.services
    caller = Caller()
    if services.settings.require_token:
        token, in_cookie = _token(request.headers)
        if not token:
            raise NotPairedError
        device, renewed = await run_in_threadpool(_device, request, services, token)
        caller = Caller(device)
        request.state.cookie = token if renewed and in_cookie else None
    request.state.caller = caller
    return caller


def _device(request: Request, services: Services, token: str) -> tuple[Device, bool]:
    """Return the device of a token, and whether its end was put off just now."""
    now = datetime.now(UTC)
    devices = services.book.devices
    device = devices.of_token(token_hash(token))
    if device is None or device.has_ended(now):
        raise NotPairedError
    lasts = timedelta(days=services.settings.device_days)
    sightings: Sightings = request.app.state.sightings
    return device, sightings.note(devices, device, now, lasts)


def _token(headers: Headers) -> tuple[str, bool]:
    """Return the token that was sent, and whether a cookie brought it."""
    scheme, _, token = headers.get("authorization", "").partition(" ")
    if scheme.lower() == "bearer":
        return token.strip(), False
    return cookie_parser(headers.get("cookie", "")).get(COOKIE, ""), True


def _keep_cookie(request: Request, response: Response) -> None:
    """Have the browser keep the token as long as the server does."""
    token: str | None = getattr(request.state, "cookie", None)
    if token:
        services: Services = request.app.state.services
        set_cookie(response, services, token)


def set_cookie(response: Response, services: Services, token: str) -> None:
    """Give a browser its token, out of reach of scripts and other pages."""
    response.set_cookie(
        COOKIE,
        token,
        max_age=services.settings.device_days * 86_400,
        httponly=True,
        samesite="strict",
        secure=services.settings.secure_cookies,
    )


async def _with_caller(request: Request) -> Caller:
    return await _caller(request)


WithCaller = Annotated[Caller, Depends(_with_caller)]
"""Who asks, for a route that is not for anyone."""
