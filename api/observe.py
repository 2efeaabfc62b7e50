"""What an operator sees: a log line and figures for each request, by its id.

Neither has addresses, names, tokens or codes in it: a path is logged as its
pattern, such as ``/v1/photos/{photo_id}``.
"""

import json
import logging
import re
import time
from contextvars import ContextVar
from datetime import UTC, datetime
from uuid import uuid4

from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram
from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

log = logging.getLogger("fishmeasure.requests")

REQUEST_ID_HEADER = "X-Request-ID"
_GIVEN_ID = re.compile(r"[A-Za-z0-9_.-]{1,64}")
# From a file of the page to a batch of photos measured one after another.
_BUCKETS_S = (0.005, 0.02, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 30.0, 60.0)

request_id: ContextVar[str] = ContextVar("request_id", default="")


class Metrics:
    """The figures of one server, in the format of Prometheus."""

    def __init__(self) -> None:
        self.registry = CollectorRegistry()
        names = ("method", "route", "status")
        self.requests = Counter(
            "fishmeasure_requests", "Requests answered.", names, registry=self.registry
        )
        self.seconds = Histogram(
            "fishmeasure_request_seconds",
            "Time to the end of the answer.",
            ("route",),
            buckets=_BUCKETS_S,
            registry=self.registry,
        )
        self.in_flight = Gauge(
            "fishmeasure_photos_in_flight",
            "Photos that are measured or wait for it.",
            registry=self.registry,
        )
        self.places = Gauge(
            "fishmeasure_photo_places",
            "Photos that can be measured or wait at once.",
            registry=self.registry,
        )


class Observe:
    """Gives each request an id, a log line and its part in the figures."""

    def __init__(self, app: ASGIApp, *, metrics: Metrics) -> None:
        self._app = app
        self._metrics = metrics

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on and note how it went."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        given = Headers(scope=scope).get(REQUEST_ID_HEADER, "")
        name = given if _GIVEN_ID.fullmatch(given) else uuid4().hex
        request_id.set(name)
        status = 500
        start = time.perf_counter()

        async def send_with_id(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                MutableHeaders(scope=message)[REQUEST_ID_HEADER] = name
            await send(message)

        try:
            await self._app(scope, receive, send_with_id)
        finally:
            self._note(scope, status, time.perf_counter() - start)

    def _note(self, scope: Scope, status: int, seconds: float) -> None:
        route = getattr(scope.get("route"), "path", "none")
        method = scope["method"] if scope["method"] in _METHODS else "other"
        self._metrics.requests.labels(method, route, str(status)).inc()
        self._metrics.seconds.labels(route).observe(seconds)
        log.info(
            "%s %s %d",
            method,
            route,
            status,
            extra={
                "method": method,
                "route": route,
                "status": status,
                "ms": round(1000 * seconds, 1),
            },
        )


_METHODS = frozenset(("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"))
_EXTRA = ("method", "route", "status", "ms")


class JsonLines(logging.Formatter):
    """Log records as JSON, one a line."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the line."""
        line: dict[str, object] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(),
            "level": record.levelname.lower(),
            "logger": record.name,
            "message": record.getMessage(),
        }
        if request_id.get():
            line["request_id"] = request_id.get()
        line |= {name: getattr(record, name) for name in _EXTRA if name in vars(record)}
        if record.exc_info:
            line["trace"] = self.formatException(record.exc_info)
        return json.dumps(line, ensure_ascii=False)


def set_up_logs(*, as_json: bool, requests: bool) -> None:
    """Send the server's log to standard error.

    Parameters
    ----------
    as_json
        Whether each record is a line of JSON.
    requests
        Whether each request has a line, too.
    """
    handler = logging.StreamHandler()
    plain = logging.Formatter("%(asctime)s %(levelname)s %(name)s: %(message)s")
    handler.setFormatter(JsonLines() if as_json else plain)
    logging.basicConfig(handlers=[handler], level=logging.WARNING, force=True)
    log.setLevel(logging.INFO if requests else logging.WARNING)
