"""Limits on request bodies, kept while they arrive."""

import asyncio
from dataclasses import dataclass

from starlette.datastructures import Headers
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.addresses import leads_to, routes_of
from api.errors import BusyError, body_of, body_saying, error_response
from fishmeasure.base.words import Message as Said

LARGE_BYTES = 1_000_000
"""Bodies beyond this are counted while they arrive: so much of each photo is held in
memory before it goes to disk."""
MAX_BOOK_BYTES = 16_000_000
"""Of a book, which is read whole into memory; one of ten years has about 4 MB."""
_BOOK_ROUTES = routes_of({"/v1/import": "POST"})
MAX_JSON_BYTES = 1_000_000
"""Of any other body that is no upload; 500 entries with notes have about 0.3 MB."""
MAX_JSON_VALUES = 20_000
"""In such a body, by its commas. Each can be wrong in more than one way, and what is
wrong is listed before it can be counted: a million wrong ones took 17 s, 1.9 GB."""
MOST_LARGE_JSON = 1


class BodyLimits:
    """Refuses bodies that are too large, too many at once, or come too slowly.

    A body that tells its length is refused by it; one that does not is counted.
    ``seconds`` is for the whole body, ``most_large`` for uploads that arrive at the
    same time. What is refused is read to its end first, within the limits, and
    forgotten: a client that is still sending would not see the answer.
    """

    def __init__(
        self, app: ASGIApp, *, max_bytes: int, seconds: float, most_large: int
    ) -> None:
        self._app = app
        self._max_bytes = max_bytes
        self._seconds = seconds
        self._most = {"upload": most_large, "json": MOST_LARGE_JSON}
        self._arriving = dict.fromkeys(self._most, 0)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, its body under watch."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        limits = self._limits(scope, headers)
        kind = "upload" if limits.is_upload else "json"
        told = headers.get("content-length")
        body = _Body(receive, limits, self._seconds)
        if told is not None and not _within(told, limits.most_bytes):
            await self._refuse(body, too_large(limits), scope, send)
            return
        if told is None and "transfer-encoding" not in headers:
            told = "0"
        if told is not None and int(told) <= LARGE_BYTES:
            await self._watched(body, scope, send)
            return
        if self._arriving[kind] >= self._most[kind]:
            await self._refuse(body, busy(), scope, send)
            return
        self._arriving[kind] += 1
        try:
            await self._watched(body, scope, send)
        finally:
            self._arriving[kind] -= 1

    def _limits(self, scope: Scope, headers: Headers) -> "_Limits":
        if headers.get("content-type", "").startswith("multipart/"):
            return _Limits(most_bytes=self._max_bytes, is_upload=True)
        if leads_to(scope, _BOOK_ROUTES):
            return _Limits(most_bytes=min(self._max_bytes, MAX_BOOK_BYTES))
        most_bytes = min(self._max_bytes, MAX_JSON_BYTES)
        return _Limits(most_bytes=most_bytes, most_values=MAX_JSON_VALUES)

    async def _refuse(
        self, body: "_Body", refusal: ASGIApp, scope: Scope, send: Send
    ) -> None:
        # A client that asks first (RFC 9110, 10.1.1) has sent nothing yet.
        if "expect" not in Headers(scope=scope):
            await body.drain()
        await refusal(scope, body.receive, send)

    async def _watched(self, body: "_Body", scope: Scope, send: Send) -> None:
        refused = False

        async def watched_send(message: Message) -> None:
            # The application may have its own words for the broken body; they are
            # replaced by the reason.
            nonlocal refused
            if body.refusal is None:
                body.deadline = float("inf")  # it is done with; waiting is no fault
                await send(message)
            elif not refused:
                refused = True
                await body.refusal(scope, body.receive, send)

        try:
            await self._app(scope, body.receive, watched_send)
        except _RefusedError:
            if body.refusal is not None and not refused:
                await body.refusal(scope, body.receive, send)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Limits:
    """What a body may have; ``most_values`` is None where values are not counted."""

    most_bytes: int
    most_values: int | None = None
    is_upload: bool = False


def _within(told: str, most: int) -> bool:
    """Return whether a told length is one (RFC 9110, 8.6) and within the limit."""
    return told.isascii() and told.isdecimal() and len(told) < 20 and int(told) <= most


class _Body:
    """A request's body, counted and timed."""

    def __init__(self, receive: Receive, limits: _Limits, seconds: float) -> None:
        self._receive = receive
        self._limits = limits
        self._seconds = seconds
        self._seen = 0
        self._commas = 0
        self.deadline = asyncio.get_running_loop().time() + seconds
        self.refusal: ASGIApp | None = None

    async def receive(self) -> Message:
        """Return the next part.

        Raises
        ------
        _RefusedError
            If it is too late or too much; ``refusal`` then says so.
        """
        try:
            async with asyncio.timeout_at(self.deadline):
                message = await self._receive()
        except TimeoutError:
            self.refusal = too_slow(self._seconds)
            raise _RefusedError from None
        part = message.get("body", b"")
        self._seen += len(part)
        if self._seen > self._limits.most_bytes:
            self.refusal = too_large(self._limits)
            raise _RefusedError
        if self._limits.most_values is not None:
            self._commas += part.count(b",")
            if self._commas >= self._limits.most_values:
                self.refusal = too_many(self._limits.most_values)
                raise _RefusedError
        return message

    async def drain(self) -> None:
        """Read to the end and forget, as far as the limits go."""
        try:
            while (await self.receive()).get("more_body"):
                pass
        except _RefusedError:
            pass


class _RefusedError(Exception):
    """Unwinds the application; never seen outside."""


def busy() -> ASGIApp:
    """Return the answer for a body that is one too many."""
    error = BusyError()
    return error_response(error.status, body_of(error), error.headers)


def too_large(limits: _Limits) -> ASGIApp:
    """Return the answer for a body over the limit."""
    said = Said.of(
        "too-large",
        case="upload" if limits.is_upload else "request",
        limit_mb=limits.most_bytes / 1e6,
    )
    return error_response(413, body_saying(said))


def too_many(values: int) -> ASGIApp:
    """Return the answer for a body with too many values."""
    said = Said.of("too-large", case="values", limit=values)
    return error_response(413, body_saying(said))


def too_slow(seconds: float) -> ASGIApp:
    """Return the answer for a body that did not come in time."""
    said = Said.of("too-slow-upload", limit_s=seconds)
    return error_response(408, body_saying(said))
