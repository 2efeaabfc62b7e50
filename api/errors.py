"""Errors to HTTP: the one table of statuses and the one body."""

import errno
import logging
from datetime import date
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, Field
from starlette.exceptions import HTTPException

from api.headers import add_headers
from api.observe import REQUEST_ID_HEADER, request_id
from fishmeasure.base.errors import (
    DoubtfulEntryError,
    FishMeasureError,
    LedgerError,
    PhotoError,
    SampleError,
    SpeciesError,
    StockError,
)
from fishmeasure.base.record import first_fault, reason_of
from fishmeasure.base.words import Message, Reason, advice, system_reason, what

log = logging.getLogger(__name__)

RETRY_AFTER_S = 2
STORAGE_RETRY_AFTER_S = 30
WORKERS_RETRY_AFTER_S = 30
# Enough to correct a request by; the rest of it may be anything, and as long.
MOST_DETAILS = 50
MOST_DETAIL_LETTERS = 300


class ErrorBody(BaseModel):
    """What every error answers."""

    code: str = Field(description="A word for programs.", examples=["not-an-image"])
    message: str = Field(description="What is wrong, in a sentence.")
    advice: str = Field(description="What to do now; may be empty.")
    parameters: dict[str, Any] = Field(
        default_factory=dict,
        description="The figures and names of the message, units in their names.",
    )
    details: list[dict[str, Any]] = Field(
        default_factory=list,
        description="Where in the request, if known; the questions of a "
        "`doubtful-entry`.",
    )
    confirm: str | None = Field(
        default=None,
        description="Of a `doubtful-entry`: send it along to store it as it is.",
    )


class ApiError(FishMeasureError):
    """A failure of the server's own, with its HTTP status."""

    status = 400
    headers: dict[str, str] | None = None


class BusyError(ApiError):
    """All workers are at work and the queue is full."""

    code = "busy"
    status = 503

    def __init__(self) -> None:
        super().__init__()
        self.headers = {"Retry-After": str(RETRY_AFTER_S)}


class WorkersLostError(ApiError):
    """Worker after worker was killed from outside: nothing is said of the photo."""

    code = "workers-lost"
    status = 503

    def __init__(self) -> None:
        super().__init__()
        self.headers = {"Retry-After": str(WORKERS_RETRY_AFTER_S)}


class DiskFullError(ApiError):
    """There is no room for what was sent."""

    code = "disk-full"
    status = 507

    def __init__(self) -> None:
        super().__init__()


class StorageError(ApiError):
    """The server's disk refuses to read or write."""

    code = "storage-failed"
    status = 503

    def __init__(self, reason: Reason) -> None:
        super().__init__(reason=reason)
        self.headers = {"Retry-After": str(STORAGE_RETRY_AFTER_S)}


class NotFoundError(ApiError):
    """Nothing of that name is here."""

    code = "not-found"
    status = 404

    def __init__(self, what: str, name: str) -> None:
        super().__init__(case="record", what=what, name=name)


class ConflictError(ApiError):
    """Somebody else changed the thing meanwhile."""

    code = "conflict"
    status = 409

    def __init__(self, what: str) -> None:
        super().__init__(what=what)


class NotPairedError(ApiError):
    """The device has no valid token."""

    code = "not-paired"
    status = 401

    def __init__(self) -> None:
        super().__init__()


class NotAllowedError(ApiError):
    """A paired device asked for what its role may not."""

    code = "not-allowed"
    status = 403

    def __init__(self, role: str, least: str) -> None:
        super().__init__(role=role, least=least)


class ForeignOriginError(ApiError):
    """A page from elsewhere tried to write."""

    code = "foreign-origin"
    status = 403

    def __init__(self) -> None:
        super().__init__()


class UnknownHostError(ApiError):
    """The request was sent to a name that is not this server's."""

    code = "unknown-host"
    status = 421

    def __init__(self, host: str) -> None:
        super().__init__(host=host)


class WrongCodeError(ApiError):
    """A pairing code was wrong or too old."""

    code = "wrong-code"
    status = 403

    def __init__(self) -> None:
        super().__init__()


class TooManyTriesError(ApiError):
    """Wrong pairing codes came too often from one address."""

    code = "too-many-tries"
    status = 429

    def __init__(self, seconds: float) -> None:
        super().__init__(wait_s=round(seconds))
        self.headers = {"Retry-After": str(int(seconds) + 1)}


class PhotoRefusedError(ApiError):
    """A worker refused a photo, for the core's reason."""

    def __init__(self, said: Message) -> None:
        self.code = said.code
        self.status = _CODE_STATUS.get(said.code, 422)
        super().__init__(**said.parameters)


class PhotoLostError(ApiError):
    """A kept photo's file is gone or damaged."""

    code = "photo-lost"
    status = 410

    def __init__(self) -> None:
        super().__init__()


class PhotoDeletedError(ApiError):
    """A photo's file was deleted by its owner, and is not taken again."""

    code = "photo-deleted"
    status = 410

    def __init__(self, on: date, by: str) -> None:
        super().__init__(on=on, by=by, case="named" if by else "unnamed")


class TooManyPhotosError(ApiError):
    """One upload has more photos than the server takes at once."""

    code = "too-many-photos"
    status = 413

    def __init__(self, limit: int) -> None:
        super().__init__(limit=limit)


class NotCalculableError(ApiError):
    """Figures so large or small that they overflow."""

    code = "outside-range"
    status = 422

    def __init__(self) -> None:
        super().__init__(case="overflow")


class NotModifiedError(Exception):
    """The client has the present state."""

    def __init__(self, tag: str) -> None:
        super().__init__(tag)
        self.tag = tag


# Most specific first; codes of single errors before their families.
_CODE_STATUS = {
    "too-large": 413,
    "not-an-image": 415,
    "unknown-record": 404,
    "entry-conflict": 409,
    "doubtful-entry": 409,
    "already-replaced": 409,
    "version-conflict": 409,
    "name-taken": 409,
    "book-not-empty": 409,
    "book-busy": 503,
    "book-write": 503,
    "book-full": 507,
    "book-unreadable": 503,
    "book-newer": 503,
    "book-damaged": 503,
}
# Their own messages say where the book is and what the database said, which is for the
# log: these answers go to whoever can reach the server.
_SAID_OTHERWISE = {"book-unreadable", "book-damaged", "book-write"}
_FAMILY_STATUS: tuple[tuple[type[FishMeasureError], int], ...] = (
    (PhotoError, 422),
    (SpeciesError, 422),
    (SampleError, 422),
    (StockError, 422),
    (LedgerError, 422),
)


def status_of(error: FishMeasureError) -> int:
    """Return the HTTP status of an error of the core."""
    if isinstance(error, ApiError):
        return error.status
    if error.code in _CODE_STATUS:
        return _CODE_STATUS[error.code]
    for family, status in _FAMILY_STATUS:
        if isinstance(error, family):
            return status
    return 422


def error_response(
    status: int,
    body: ErrorBody,
    headers: dict[str, str] | None = None,
) -> JSONResponse:
    """Return the one error body."""
    # What only a question has is in no other answer.
    lacking = {"confirm"} if body.confirm is None else set()
    content = body.model_dump(exclude=lacking)
    return JSONResponse(content, status_code=status, headers=headers)


def storage_error(error: OSError) -> ApiError:
    """Return what a failure of the disk means for the client; no path is told."""
    log.error("the disk failed", exc_info=error)
    if error.errno in {errno.ENOSPC, errno.EDQUOT}:
        return DiskFullError()
    return StorageError(system_reason(error))


def body_of(error: FishMeasureError) -> ErrorBody:
    """Return the one error body of an error; nothing of the server's inside is told."""
    if isinstance(error, DoubtfulEntryError):
        body = body_saying(error.said, list(error.details))
        return body.model_copy(update={"confirm": error.token})
    if error.code not in _SAID_OTHERWISE:
        return body_saying(error.said)
    log.error("%s", error)
    return body_saying(Message.of(error.code, case="server"))


def body_saying(
    said: Message, details: list[dict[str, Any]] | None = None
) -> ErrorBody:
    """Return the one error body with a sentence, in the caller's language."""
    return ErrorBody(
        code=said.code,
        message=what(said),
        advice=advice(said),
        parameters=said.parameters.as_plain(),
        details=details or [],
    )


async def _known(_: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, FishMeasureError)  # noqa: S101 - the table says so
    status = status_of(error)
    headers = error.headers if isinstance(error, ApiError) else None
    if status == 503 and headers is None:
        headers = {"Retry-After": str(RETRY_AFTER_S)}
    return error_response(status, body_of(error), headers)


async def _storage(request: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, OSError)  # noqa: S101 - the table says so
    return await _known(request, storage_error(error))


async def _invalid(_: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, RequestValidationError)  # noqa: S101 - the table says so
    details = [
        {
            "where": ".".join(str(part) for part in item["loc"])[:MOST_DETAIL_LETTERS],
            "what": str(reason_of(item))[:MOST_DETAIL_LETTERS],
        }
        for item in error.errors()[:MOST_DETAILS]
    ]
    # What it is of, body or query, is plain from the field.
    items = [item | {"loc": item["loc"][1:] or ("it",)} for item in error.errors()]
    field, reason = first_fault(items)
    said = Message.of(
        "invalid-request", field=field[:MOST_DETAIL_LETTERS], reason=reason
    )
    return error_response(422, body_saying(said, details))


async def _http(request: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, HTTPException)  # noqa: S101 - the table says so
    if isinstance(error.__cause__, OSError):  # an upload that could not be put down
        return await _storage(request, error.__cause__)
    headers = dict(error.headers) if error.headers else None
    said = _said_of(error, request.method)
    return error_response(error.status_code, body_saying(said), headers)


def _said_of(error: HTTPException, method: str) -> Message:
    """Return what the framework refused, in the catalogue's words where it has some."""
    match error.status_code:
        case 404:
            return Message.of("not-found", case="address")
        case 405:
            return Message.of("wrong-method", method=method)
    return Message.of("bad-request", told=error.detail)


async def _not_modified(_: Request, error: Exception) -> Response:
    assert isinstance(error, NotModifiedError)  # noqa: S101 - the table says so
    return Response(status_code=304, headers={"ETag": error.tag})


async def _unexpected(request: Request, error: Exception) -> JSONResponse:
    route = getattr(request.scope.get("route"), "path", "none")
    log.error("unexpected error on %s", route, exc_info=error)
    body = body_saying(Message.of("internal"))
    # Made outside the parts that number requests and add headers.
    answer = error_response(500, body, {REQUEST_ID_HEADER: request_id.get()})
    add_headers(answer.headers)
    return answer


def install_error_handlers(app: FastAPI) -> None:
    """Map every error to the one body."""
    app.add_exception_handler(FishMeasureError, _known)
    app.add_exception_handler(OSError, _storage)
    app.add_exception_handler(RequestValidationError, _invalid)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(NotModifiedError, _not_modified)
    app.add_exception_handler(Exception, _unexpected)
