"""Whence a request may come: its host and origin; and the headers of answers.

Who may ask for what is each route's own affair, see ``access.py``.
"""

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.errors import (
    ApiError,
    ForeignOriginError,
    UnknownHostError,
    body_of,
    error_response,
)
from api.headers import add_headers

SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})


class Guard:
    """Refuses foreign hosts and foreign pages.

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

        error = self._refusal(scope)
        if error is None:
            await self._app(scope, receive, send_with_headers)
            return
        answer = error_response(error.status, body_of(error))
        await answer(scope, receive, send_with_headers)

    def _refusal(self, scope: Scope) -> ApiError | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if self._hosts and _name(host) not in self._hosts:
            return UnknownHostError(_name(host)[:80])
        if scope["method"] not in SAFE_METHODS and _is_foreign(headers, host):
            return ForeignOriginError()
        return None


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
