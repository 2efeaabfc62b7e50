"""Who may ask: host and origin of a request, its token, and headers of answers."""

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import cookie_parser
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.addresses import leads_to, routes_of
from api.errors import (
    ApiError,
    ForeignOriginError,
    NotPairedError,
    UnknownHostError,
    body_of,
    error_response,
)
from api.headers import add_headers
from api.pairing import token_hash
from api.services import Services

COOKIE = "fishmeasure_device"
SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})
OPEN_PATHS = {
    "/": "GET",
    "/worker.js": "GET",
    "/manifest.webmanifest": "GET",
    "/page-version.json": "GET",
    "/page/{page_version}/{name:path}": "GET",
    "/v1/about": "GET",
    "/v1/devices": "POST",
    "/health": "GET",
    "/ready": "GET",
}
"""Reached before a device is paired: the page, the pairing itself and signs of life.
Whatever is not here, also what is no route at all, asks for a token."""
_OPEN_ROUTES = routes_of(OPEN_PATHS)


class Guard:
    """Refuses foreign hosts, foreign pages and unpaired devices.

    A page elsewhere can make a browser send requests here, even to an address of
    this machine alone. Its origin gives it away; a name that was made to point
    here (DNS rebinding) is given away by the Host header.
    """

    def __init__(self, app: ASGIApp, *, hosts: frozenset[str]) -> None:
        self._app = app
        self._hosts = hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on what may pass."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                add_headers(MutableHeaders(scope=message))
            await send(message)

        error = await self._refusal(scope)
        if error is None:
            await self._app(scope, receive, send_with_headers)
            return
        answer = error_response(error.status, body_of(error))
        await answer(scope, receive, send_with_headers)

    async def _refusal(self, scope: Scope) -> ApiError | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if self._hosts and _name(host) not in self._hosts:
            return UnknownHostError(_name(host)[:80])
        if scope["method"] not in SAFE_METHODS and _is_foreign(headers, host):
            return ForeignOriginError()
        services: Services = scope["app"].state.services
        if not services.settings.require_token or leads_to(scope, _OPEN_ROUTES):
            return None
        token = _token(headers)
        if token:
            find = services.archive.device_of
            device = await run_in_threadpool(find, token_hash(token))
            if device is not None:
                return None
        return NotPairedError()


def _name(host: str) -> str:
    """Return the host without its port."""
    if host.startswith("["):
        return host.partition("]")[0] + "]"
    return host.partition(":")[0].lower()


def _is_foreign(headers: Headers, host: str) -> bool:
    if headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
        return True
    origin = headers.get("origin")
    return origin is not None and origin.partition("://")[2] != host


def _token(headers: Headers) -> str:
    scheme, _, token = headers.get("authorization", "").partition(" ")
    if scheme.lower() == "bearer":
        return token.strip()
    return cookie_parser(headers.get("cookie", "")).get(COOKIE, "")
