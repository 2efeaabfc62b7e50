"""A photo in parts, for slow lines: how far it is, and what was measured in it."""

import io
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Annotated
from uuid import UUID

from fastapi import Form, Header, Request, UploadFile
from fastapi.concurrency import run_in_threadpool
from pydantic import Field

from api import schemas
from api.access import WORKER, Caller, WithCaller, closed_router
from api.errors import NotFoundError, PhotoRefusedError
from api.routes.photos import FormChoices, photo_out, take_photo
from api.services import WithServices
from api.uploads import Key, Upload
from fishmeasure.base.words import Message

if TYPE_CHECKING:
    from _typeshed import WriteableBuffer

router = closed_router(prefix="/v1/uploads", tags=["photos"])


class UploadState(schemas.Out):
    """How much of a photo has arrived."""

    offset_bytes: int = Field(description="Bytes that are here: go on from there.")
    length_bytes: int | None = Field(
        description="Bytes of the whole photo; null where nothing of it is here."
    )


@router.get("/{upload_id}", summary="How far an upload is", dependencies=[WORKER])
def get_upload(
    services: WithServices, caller: WithCaller, upload_id: UUID
) -> UploadState:
    """Return from where to go on; 0 where nothing is here, as after a restart."""
    return _out(services.uploads.find(_key(caller, upload_id)))


@router.patch(
    "/{upload_id}",
    summary="Send the next part of a photo",
    dependencies=[WORKER],
    openapi_extra={
        "requestBody": {
            "required": True,
            "content": {
                "application/octet-stream": {
                    "schema": {"type": "string", "format": "binary"}
                }
            },
        }
    },
)
async def add_part(
    services: WithServices,
    caller: WithCaller,
    upload_id: UUID,
    request: Request,
    upload_offset: Annotated[
        int, Header(ge=0, le=2**40, description="Where this part begins, bytes.")
    ],
    upload_length: Annotated[
        int, Header(ge=1, le=2**40, description="Of the whole photo, bytes.")
    ],
) -> UploadState:
    """Take a part under an id that the client made; the answer says how far it is.

    A part that does not go on where the last one ended is not taken: `offset_bytes`
    says where to go on. Small parts (some 100 kB) lose least on a broken line.
    """
    most_mb = services.settings.max_upload_mb
    if upload_length > most_mb * 1_000_000:
        said = Message.of("too-large", case="upload", limit_mb=float(most_mb))
        raise PhotoRefusedError(said)
    part = await request.body()
    upload = await run_in_threadpool(
        services.uploads.add,
        _key(caller, upload_id),
        part,
        offset_bytes=upload_offset,
        of_bytes=upload_length,
    )
    return _out(upload)


@router.post(
    "/{upload_id}/photo",
    summary="Measure a photo that came in parts",
    operation_id="measure_photo_in_parts",
    dependencies=[WORKER],
)
async def measure(
    services: WithServices,
    caller: WithCaller,
    upload_id: UUID,
    settings: FormChoices,
    name: Annotated[str, Form(max_length=500, description="Of the file.")] = "photo",
) -> schemas.PhotoOut:
    """Measure the photo and keep it, as one that was sent at once.

    Asked twice it is the same record. Where a part is missing it answers 404.
    """
    key = _key(caller, upload_id)
    upload = services.uploads.find(key)
    if upload is None or not upload.is_whole:
        raise NotFoundError("upload", str(upload_id))
    reader = _Reader(partial(services.uploads.read, key))
    file = UploadFile(io.BufferedReader(reader), filename=name)
    return photo_out(await take_photo(services, caller, file, settings))


def _key(caller: Caller, upload_id: UUID) -> Key:
    return caller.author.device_id, upload_id


class _Reader(io.RawIOBase):
    """What has arrived, from its beginning, a piece in memory at a time."""

    def __init__(self, read: Callable[[int, int], bytes]) -> None:
        self._read = read
        self._at = 0

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: "WriteableBuffer") -> int:
        view = memoryview(buffer)
        found = self._read(self._at, len(view))
        view[: len(found)] = found
        self._at += len(found)
        return len(found)


def _out(upload: Upload | None) -> UploadState:
    if upload is None:
        return UploadState(offset_bytes=0, length_bytes=None)
    return UploadState(
        offset_bytes=upload.offset_bytes, length_bytes=upload.length_bytes
    )
