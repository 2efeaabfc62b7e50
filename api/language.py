"""In whose language and units the server answers.

The language is that of ``?language=``, then of ``Accept-Language``; the units those of
``?units=``, then of ``Fishmeasure-Units``.

Whatever is said while a request is answered is said so: sentences stand in records as
codes with parameters, and become words when an answer is written.
"""

from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from fishmeasure.base.words import Voice, speaking
from fishmeasure.base.words.sources import languages
from fishmeasure.base.words.voice import Teller, accepted

TELLER_HEADER = "Fishmeasure-Teller"
"""The page sends "page", so that advice is in its terms; others are told neutrally."""
UNITS_HEADER = "Fishmeasure-Units"
"""The page sends "us" where sentences are to give US customary units; figures of JSON
are metric always."""


class Language:
    """Sets the voice of each request, and says in the answer which it was."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on with its voice."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        voice = voice_of(scope)

        async def send_with_language(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                if "json" in headers.get("content-type", ""):
                    headers["Content-Language"] = voice.language
                    headers.add_vary_header("Accept-Language")
                    headers.add_vary_header(TELLER_HEADER)
                    headers.add_vary_header(UNITS_HEADER)
            await send(message)

        with speaking(voice):
            await self._app(scope, receive, send_with_language)


def voice_of(scope: Scope) -> Voice:
    """Return the voice that a request asks for."""
    headers = Headers(scope=scope)
    query = parse_qs(scope.get("query_string", b"").decode("latin-1"))
    wanted = query.get("language", [""])[0]
    language = (
        wanted
        if wanted in languages()
        else accepted(", ".join(headers.getlist("Accept-Language")))
    )
    teller: Teller | None = "page" if headers.get(TELLER_HEADER) == "page" else None
    units = query.get("units", [headers.get(UNITS_HEADER, "")])[0]
    return Voice(
        language=language, teller=teller, units="us" if units == "us" else "metric"
    )
