"""Errors to HTTP: the one table of statuses and the one body."""

import errno
import logging
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, Field
from starlette.exceptions import HTTPException

from api.headers import add_headers
from api.observe import REQUEST_ID_HEADER, request_id
from fishmeasure.base.errors import (
    FishMeasureError,
    LedgerError,
    PhotoError,
    SampleError,
    SpeciesError,
    StockError,
)
from fishmeasure.base.record import first_fault
from fishmeasure.base.words import Message, advice, what

log = logging.getLogger(__name__)

RETRY_AFTER_S = 2
STORAGE_RETRY_AFTER_S = 30
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
        default_factory=list, description="Where in the request, if known."
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
        super().__init__(
            "The server is measuring as many photos as it can.",
            "Nothing is lost: send the photo again in a few seconds.",
        )
        self.headers = {"Retry-After": str(RETRY_AFTER_S)}


class DiskFullError(ApiError):
    """There is no room for what was sent."""

    code = "disk-full"
    status = 507

    def __init__(self) -> None:
        super().__init__(
            "The server's disk is full, so this could not be kept.",
            "Make room at the server, then send it again; nothing that it has said "
            "to have is lost.",
        )


class StorageError(ApiError):
    """The server's disk refuses to read or write."""

    code = "storage-failed"
    status = 503

    def __init__(self, reason: str) -> None:
        super().__init__(
            f"The server cannot use its disk ({reason}), so this could not be done.",
            "Look at the server's data folder, then try again; nothing that it has "
            "said to have is lost.",
        )
        self.headers = {"Retry-After": str(STORAGE_RETRY_AFTER_S)}


class NotFoundError(ApiError):
    """Nothing of that name is here."""

    code = "not-found"
    status = 404

    def __init__(self, what: str, name: str) -> None:
        super().__init__(f"There is no {what} {name!r}.", "Look at the list of them.")


class ConflictError(ApiError):
    """Somebody else changed the thing meanwhile."""

    code = "conflict"
    status = 409

    def __init__(self, what: str) -> None:
        super().__init__(
            f"The {what} was changed meanwhile.",
            "Load it again, then repeat the change.",
        )


class NotPairedError(ApiError):
    """The device has no valid token."""

    code = "not-paired"
    status = 401

    def __init__(self) -> None:
        super().__init__(
            "This device is not paired with the server.",
            "Open the address that the server shows and enter its code.",
        )


class ForeignOriginError(ApiError):
    """A page from elsewhere tried to write."""

    code = "foreign-origin"
    status = 403

    def __init__(self) -> None:
        super().__init__(
            "The request came from a page of another address.",
            "Open the page at the server's own address.",
        )


class UnknownHostError(ApiError):
    """The request was sent to a name that is not this server's."""

    code = "unknown-host"
    status = 421

    def __init__(self, host: str) -> None:
        super().__init__(
            f"This server does not go by the name {host!r}.",
            "Use the address that it shows, or list the name in FISHMEASURE_HOSTS.",
        )


class WrongCodeError(ApiError):
    """A pairing code was wrong or too old."""

    code = "wrong-code"
    status = 403

    def __init__(self) -> None:
        super().__init__(
            "The pairing code is wrong or too old.",
            "Enter the newest code that the server shows.",
        )


class TooManyTriesError(ApiError):
    """Wrong pairing codes came too often."""

    code = "too-many-tries"
    status = 429

    def __init__(self, seconds: float) -> None:
        super().__init__(
            "Too many wrong pairing codes.",
            f"Wait {seconds:.0f} s, then enter the new code that the server shows.",
        )
        self.headers = {"Retry-After": str(int(seconds) + 1)}


class PhotoRefusedError(ApiError):
    """A worker refused a photo, for the core's reason."""

    status = 422

    def __init__(self, code: str, message: str, advice: str) -> None:
        super().__init__(message, advice)
        self.code = code
        self.status = _CODE_STATUS.get(code, 422)


class PhotoLostError(ApiError):
    """A kept photo's file is gone or damaged."""

    code = "photo-lost"
    status = 410

    def __init__(self) -> None:
        super().__init__(
            "The server's file of this photo is gone or damaged; what was measured "
            "in it is there.",
            "Send the same photo once more, and it is whole again, or put it back from "
            "a backup.",
        )


class TooManyPhotosError(ApiError):
    """One upload has more photos than the server takes at once."""

    code = "too-many-photos"
    status = 413

    def __init__(self, limit: int) -> None:
        super().__init__(
            f"One upload may have {limit} photos.", "Send the rest in another one."
        )


class NotCalculableError(ApiError):
    """Figures so large or small that they overflow."""

    code = "outside-range"
    status = 422

    def __init__(self) -> None:
        super().__init__(case="overflow")


class BookNotEmptyError(ApiError):
    """The demo would mix with what is in the book."""

    code = "book-not-empty"
    status = 409

    def __init__(self) -> None:
        super().__init__(
            "The book has something in it already.",
            "Start the server with another, empty book to see the demo.",
        )


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
    "already-replaced": 409,
    "version-conflict": 409,
    "name-taken": 409,
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
    return JSONResponse(body.model_dump(), status_code=status, headers=headers)


def storage_error(error: OSError) -> ApiError:
    """Return what a failure of the disk means for the client; no path is told."""
    log.error("the disk failed", exc_info=error)
    if error.errno in {errno.ENOSPC, errno.EDQUOT}:
        return DiskFullError()
    return StorageError((error.strerror or "it failed").lower())


def body_of(error: FishMeasureError) -> ErrorBody:
    """Return the one error body of an error; nothing of the server's inside is told."""
    said, message, advice_now = error.said, error.message, error.advice
    if error.code in _SAID_OTHERWISE:
        log.error("%s", error)
        said = Message.of(error.code, case="server")
        message, advice_now = what(said), advice(said)
    return ErrorBody(
        code=error.code,
        message=message,
        advice=advice_now,
        parameters=said.parameters.as_plain(),
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
            "what": item["msg"][:MOST_DETAIL_LETTERS],
        }
        for item in error.errors()[:MOST_DETAILS]
    ]
    # What it is of, body or query, is plain from the field.
    items = [item | {"loc": item["loc"][1:] or ("it",)} for item in error.errors()]
    field, reason = first_fault(items) if items else ("request", "is not understood")
    said = Message.of(
        "invalid-request",
        field=field[:MOST_DETAIL_LETTERS],
        reason=reason[:MOST_DETAIL_LETTERS],
    )
    body = ErrorBody(
        code=said.code,
        message=what(said),
        advice=advice(said),
        parameters=said.parameters.as_plain(),
        details=details,
    )
    return error_response(422, body)


async def _http(request: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, HTTPException)  # noqa: S101 - the table says so
    if isinstance(error.__cause__, OSError):  # an upload that could not be put down
        return await _storage(request, error.__cause__)
    code = {404: "not-found", 405: "wrong-method", 413: "too-large"}
    body = ErrorBody(
        code=code.get(error.status_code, "bad-request"),
        message=f"{error.detail}.",
        advice="Look at the API description.",
    )
    headers = dict(error.headers) if error.headers else None
    return error_response(error.status_code, body, headers)


async def _not_modified(_: Request, error: Exception) -> Response:
    assert isinstance(error, NotModifiedError)  # noqa: S101 - the table says so
    return Response(status_code=304, headers={"ETag": error.tag})


async def _unexpected(request: Request, error: Exception) -> JSONResponse:
    route = getattr(request.scope.get("route"), "path", "none")
    log.error("unexpected error on %s", route, exc_info=error)
    body = ErrorBody(
        code="internal",
        message="The server failed in a way that was not foreseen.",
        advice="Try once more; if it fails again, report it with the time of day.",
    )
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
