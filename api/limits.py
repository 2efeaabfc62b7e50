"""Limits on request bodies, kept while they arrive."""

import asyncio

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.errors import ErrorBody, error_response


class BodyLimits:
    """Refuses bodies that are too large or come too slowly.

    A body that tells its length is refused before it is read; one that does not
    is counted. ``seconds`` is for the whole body.
    """

    def __init__(self, app: ASGIApp, *, max_bytes: int, seconds: float) -> None:
        self._app = app
        self._max_bytes = max_bytes
        self._seconds = seconds

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, its body under watch."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        told = dict(scope["headers"]).get(b"content-length", b"0")
        if not told.isdigit() or int(told) > self._max_bytes:
            await self._too_large()(scope, receive, send)
            return
        seen = 0
        refusal: ASGIApp | None = None
        refused = False
        deadline = asyncio.get_running_loop().time() + self._seconds

        async def watched_receive() -> Message:
            nonlocal seen, refusal
            try:
                async with asyncio.timeout_at(deadline):
                    message = await receive()
            except TimeoutError:
                refusal = self._too_slow()
                raise _RefusedError from None
            seen += len(message.get("body", b""))
            if seen > self._max_bytes:
                refusal = self._too_large()
                raise _RefusedError
            return message

        async def watched_send(message: Message) -> None:
            # The application may have its own words for the broken body; they are
            # replaced by the reason.
            nonlocal deadline, refused
            if refusal is None:
                deadline = float("inf")  # the body is done with; waiting is no fault
                await send(message)
            elif not refused:
                refused = True
                await refusal(scope, receive, send)

        try:
            await self._app(scope, watched_receive, watched_send)
        except _RefusedError:
            if refusal is not None and not refused:
                await refusal(scope, receive, send)

    def _too_large(self) -> ASGIApp:
        body = ErrorBody(
            code="too-large",
            message=f"The upload is over {self._max_bytes / 1e6:.0f} MB.",
            advice="Send fewer photos at once, each as the phone saved it.",
        )
        return error_response(413, body)

    def _too_slow(self) -> ASGIApp:
        body = ErrorBody(
            code="too-slow-upload",
            message=f"The upload took more than {self._seconds:g} s.",
            advice="Nothing is lost: send it again where the network is better.",
        )
        return error_response(408, body)


class _RefusedError(Exception):
    """Unwinds the application; never seen outside."""
