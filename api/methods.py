"""HEAD, OPTIONS, and which methods an address has.

HEAD is answered as GET is, without the body (RFC 9110, 9.3.2), OPTIONS by the methods
that an address has (9.3.7), and these are named too where another is refused (15.5.6).
"""

from collections.abc import Iterable

from starlette.datastructures import MutableHeaders
from starlette.responses import Response
from starlette.routing import BaseRoute, Match, Route
from starlette.types import ASGIApp, Message, Receive, Scope, Send


class Methods:
    """Answers HEAD and OPTIONS for every one of the routes."""

    def __init__(self, app: ASGIApp, *, routes: Iterable[BaseRoute]) -> None:
        self._app = app
        self._routes = [route for route in routes if isinstance(route, Route)]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, HEAD as GET."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        if scope["method"] == "OPTIONS" and (allowed := self._allowed(scope)):
            answer = Response(status_code=204, headers={"Allow": allowed})
            await answer(scope, receive, send)
            return
        is_head = scope["method"] == "HEAD"

        async def send_what_is_due(message: Message) -> None:
            if message["type"] == "http.response.start" and message["status"] == 405:
                MutableHeaders(scope=message)["Allow"] = self._allowed(scope)
            if is_head and message["type"] == "http.response.body":
                message = {**message, "body": b""}
            await send(message)

        # The server below goes by the method in its own record of the request.
        inner = {**scope, "method": "GET"} if is_head else scope
        try:
            await self._app(inner, receive, send_what_is_due)
        finally:
            if "route" in inner:  # for the log and the figures
                scope["route"] = inner["route"]

    def _allowed(self, scope: Scope) -> str:
        """Return the methods of an address; empty where there is no such address."""
        found = {
            method
            for route in self._routes
            if route.matches(scope)[0] is not Match.NONE
            for method in route.methods or ()
        }
        if not found:
            return ""
        if "GET" in found:
            found.add("HEAD")
        return ", ".join(sorted(found | {"OPTIONS"}))
