"""Entity tags: what has not changed is not sent, what has is not overwritten."""

from dataclasses import dataclass

from fastapi import Request, Response

from api.errors import ConflictError, NotModifiedError
from fishmeasure.base.words import voice
from fishmeasure.base.words.sources import ENGLISH


@dataclass(frozen=True, slots=True)
class Revision:
    """A state of a resource."""

    identity: str
    revision: int


def etag_of(state: Revision) -> str:
    """Return the entity tag (RFC 9110, 8.8.3); each language and unit has its own."""
    tag = _tag_in_any(state)
    own = voice()
    if own.language != ENGLISH:
        tag += f"-{own.language}"
    if own.units != "metric":
        tag += f"-{own.units}"
    return f'"{tag}"'


def _tag_in_any(state: Revision) -> str:
    return f"{state.identity[:16]}-{state.revision}"


def _tags(header: str) -> set[str]:
    return {tag.strip().removeprefix("W/") for tag in header.split(",")}


def not_modified(request: Request, response: Response, state: Revision) -> None:
    """Set the tag; raise if the client has this state already.

    Raises
    ------
    NotModifiedError
        Answered as 304.
    """
    tag = etag_of(state)
    if tag in _tags(request.headers.get("If-None-Match", "")):
        raise NotModifiedError(tag)
    response.headers["ETag"] = tag


def expected_revision(request: Request, state: Revision, what: str) -> None:
    """Refuse a change that is based on another state; its words are no matter here.

    Raises
    ------
    ConflictError
        If `If-Match` is sent and is not the present tag, in any language and unit.
    """
    sent = request.headers.get("If-Match")
    if sent is None or sent == "*":
        return
    present = _tag_in_any(state)
    told = {tag.strip('"') for tag in _tags(sent)}
    if not any(tag == present or tag.startswith(f"{present}-") for tag in told):
        raise ConflictError(what)
