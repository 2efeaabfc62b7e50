"""Photos: upload, measurement, pictures, corrections."""

import contextlib
import hashlib
from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

from fastapi import Depends, File, Query, Request, Response, UploadFile
from fastapi.concurrency import run_in_threadpool

from api import schemas, worker
from api.access import OWNER, READER, WORKER, Caller, WithCaller, closed_router
from api.answers import JPEG
from api.errors import (
    NotFoundError,
    PhotoDeletedError,
    PhotoLostError,
    PhotoRefusedError,
    TooManyPhotosError,
    body_of,
    status_of,
    storage_error,
)
from api.files import upload_file
from api.form_fields import form_of
from api.http import Revision, etag_of, expected_revision, not_modified
from api.lenses import find_lens
from api.outlooks import today
from api.services import Services, WithServices
from api.stocks import stock_of_photo
from fishmeasure.base.errors import FishMeasureError
from fishmeasure.base.record import plain, read
from fishmeasure.base.words import Message, voice
from fishmeasure.photo.corrections import Correction, apply_corrections
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.photo.settings import PhotoChoices
from fishmeasure.pipeline import PhotoSettings
from fishmeasure.store.archive import LightPhoto, Page, StoredPhoto
from fishmeasure.store.devices import Author

router = closed_router(prefix="/v1/photos", tags=["photos"])

CHUNK_BYTES = 1 << 20
NAME_LENGTH = 120
THUMBNAIL_PX = 240
FormChoices = Annotated[PhotoChoices, Depends(form_of(PhotoChoices))]


@router.post(
    "",
    summary="Send one or several photos and get their measurement",
    dependencies=[WORKER],
)
async def upload(
    services: WithServices,
    caller: WithCaller,
    photos: Annotated[list[UploadFile], File(description="JPEG, PNG, WebP or HEIC.")],
    settings: FormChoices,
) -> schemas.UploadOut:
    """Measure photos and keep them, without place, time and other private tags.

    The same file sent again is the same record. When the server is full and none
    of the photos could be taken, it answers 503 with Retry-After.
    """
    if len(photos) > services.settings.max_batch:
        raise TooManyPhotosError(services.settings.max_batch)
    how = how_to_measure(services, settings)
    items: list[schemas.PhotoOut | schemas.RefusedPhoto] = []
    failures = []
    for file in photos:
        name = _name_of(file)
        try:
            sent = _Sent(name=name, settings=settings, by=caller.author)
            stored = await _take_in(services, file, sent, how)
            items.append(photo_out(stored))
        except (FishMeasureError, OSError) as failure:
            error = storage_error(failure) if isinstance(failure, OSError) else failure
            failures.append(error)
            items.append(schemas.RefusedPhoto(photo=name, error=body_of(error)))
    if failures and len(failures) == len(photos):
        later = [error for error in failures if status_of(error) == 503]
        raise later[0] if later else failures[0]
    return schemas.UploadOut(items=items)


async def take_photo(
    services: Services, caller: Caller, file: UploadFile, settings: PhotoChoices
) -> StoredPhoto:
    """Measure a photo and keep it; raises what it is refused for."""
    how = how_to_measure(services, settings)
    sent = _Sent(name=_name_of(file), settings=settings, by=caller.author)
    return await _take_in(services, file, sent, how)


def _name_of(file: UploadFile) -> str:
    """Return the name of a file without its folder."""
    name = Path((file.filename or "").replace("\\", "/")).name[:NAME_LENGTH]
    return name or "photo"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sent:
    """What comes with a photo."""

    name: str
    settings: PhotoChoices
    by: Author


async def _take_in(
    services: Services,
    file: UploadFile,
    sent: _Sent,
    how: PhotoSettings,
) -> StoredPhoto:
    with services.pool.place() as place:
        async with _on_disk(file, services.incoming) as (path, digest):
            known = await run_in_threadpool(services.archive.find_photo, digest)
            kept = services.files.path(digest)
            if known is not None:
                _refuse_deleted(known)
            if known is not None and await place.run(worker.is_whole, kept):
                return known
            taken = await place.run(
                worker.take_in, path, sent.name, how, services.files.folder
            )
    if isinstance(taken, Message):
        raise PhotoRefusedError(taken)
    return await run_in_threadpool(
        services.archive.add_photo,
        digest,
        name=sent.name,
        settings=plain(sent.settings),
        measured=taken,
        by=sent.by,
    )


@asynccontextmanager
async def _on_disk(file: UploadFile, folder: Path) -> AsyncIterator[tuple[Path, str]]:
    """Give the upload as a file of its own and its hash; memory stays small."""
    digest = hashlib.sha256()
    with upload_file(folder) as target:
        while chunk := await file.read(CHUNK_BYTES):
            digest.update(chunk)
            target.write(chunk)
        target.flush()
        yield Path(target.name), digest.hexdigest()


@router.get("", summary="List the photos, newest first", dependencies=[READER])
def list_photos(
    services: WithServices,
    limit: Annotated[int, Query(ge=1, le=200)] = 50,
    cursor: Annotated[int | None, Query(ge=1, le=2**53)] = None,
    *,
    light: Annotated[
        bool, Query(description="Leave out settings, measurement and corrections.")
    ] = False,
) -> schemas.Items[schemas.PhotoOut] | schemas.Items[schemas.LightPhoto]:
    """Return a page of photos."""
    if light:
        rows = services.archive.light_photos(Page(limit=limit, before=cursor))
        return schemas.Items(
            items=[_light(row) for row in rows],
            next=rows[-1].seq if len(rows) == limit else None,
        )
    found = services.archive.photos(Page(limit=limit, before=cursor))
    return schemas.Items(
        items=[photo_out(photo) for photo in found],
        next=found[-1].seq if len(found) == limit else None,
    )


@router.get(
    "/{photo_id}", summary="One photo and its measurement", dependencies=[READER]
)
def get_photo(
    services: WithServices, photo_id: str, request: Request, response: Response
) -> schemas.PhotoOut:
    """Return the photo; with `If-None-Match`, 304 if it has not changed."""
    stored = services.archive.photo(photo_id)
    not_modified(request, response, Revision(stored.id, stored.revision))
    return photo_out(stored)


@router.put(
    "/{photo_id}/corrections",
    summary="Correct what was measured",
    dependencies=[WORKER],
)
def put_corrections(
    services: WithServices,
    caller: WithCaller,
    photo_id: str,
    sent: schemas.CorrectionsIn,
    request: Request,
    response: Response,
) -> schemas.PhotoOut:
    """Replace all corrections of a photo; an empty list takes them back."""
    old = services.archive.photo(photo_id)
    expected_revision(request, Revision(old.id, old.revision), "photo")
    corrections = [plain(item, sparse=True) for item in sent.corrections]
    if corrections == old.corrections:
        return photo_out(old)
    corrected = apply_corrections(
        PhotoMeasurement.from_json(old.measured),
        sent.corrections,
        stock_of_photo(services, read(PhotoChoices, old.settings), today()),
        str(old.settings.get("species") or services.settings.species),
    )
    new = services.archive.change_photo(
        old,
        {"corrections": corrections, "measurement": corrected.to_json()},
        caller.author,
    )
    response.headers["ETag"] = etag_of(Revision(new.id, new.revision))
    return photo_out(new)


@router.put(
    "/{photo_id}/settings",
    summary="Measure a photo anew, another way",
    dependencies=[WORKER],
)
async def put_settings(
    services: WithServices,
    caller: WithCaller,
    photo_id: str,
    sent: PhotoChoices,
    request: Request,
    response: Response,
) -> schemas.PhotoOut:
    """Measure with another species, print scale, lens or two known points.

    Corrections are taken back, since the fish may be others.
    """
    old = await run_in_threadpool(services.archive.photo, photo_id)
    expected_revision(request, Revision(old.id, old.revision), "photo")
    _refuse_deleted(old)
    how = how_to_measure(services, sent)
    path = services.files.path(old.id)
    with _of_kept_photo():
        measured = await services.pool.run(worker.measure_again, path, old.name, how)
    new = await run_in_threadpool(
        services.archive.change_photo,
        old,
        {
            "settings": plain(sent),
            "measured": measured,
            "measurement": measured,
            "corrections": [],
        },
        caller.author,
    )
    response.headers["ETag"] = etag_of(Revision(new.id, new.revision))
    return photo_out(new)


@router.delete("/{photo_id}", summary="Delete a photo's file", dependencies=[OWNER])
def delete_photo(
    services: WithServices, caller: WithCaller, photo_id: str
) -> schemas.PhotoOut:
    """Remove the file for good; who did so and when is kept, and what was measured.

    Samples and the book rest on the measurement, so it stays. The same file sent again
    is refused. A backup that was made before still has it.
    """
    stored = services.archive.photo(photo_id)
    if stored.deleted_at is None:
        stored = services.archive.delete_photo(stored, caller.author)
    services.thumbnails.remove(stored.id)
    services.files.remove(stored.id)
    return photo_out(stored)


@router.get(
    "/{photo_id}/picture",
    summary="The photo itself",
    responses=JPEG,
    dependencies=[READER],
)
async def picture(
    services: WithServices,
    photo_id: str,
    request: Request,
    width: Annotated[int, Query(ge=16, le=6000, description="Pixels.")] = 1600,
) -> Response:
    """Return the photo upright, as JPEG, at most `width` pixels wide."""
    return await _shrunk(services, photo_id, request, width)


@router.get(
    "/{photo_id}/thumbnail.jpg",
    summary="A small picture",
    responses=JPEG,
    dependencies=[READER],
)
async def thumbnail(
    services: WithServices, photo_id: str, request: Request
) -> Response:
    """Return the photo upright, 240 pixels wide; made once, then kept."""
    stored = await run_in_threadpool(services.archive.photo, photo_id)
    _refuse_deleted(stored)
    response = Response(media_type="image/jpeg")
    not_modified(request, response, Revision(stored.id, THUMBNAIL_PX))
    small = await run_in_threadpool(_kept_thumbnail, services, stored.id)
    if small is None:
        path = services.files.path(stored.id)
        with _of_kept_photo():
            small = await services.pool.run(worker.shrink, path, THUMBNAIL_PX)
        await run_in_threadpool(_keep_thumbnail, services, stored.id, small)
    return _jpeg(small, response)


@router.get(
    "/{photo_id}/overlay.jpg",
    summary="Photo and fish",
    responses=JPEG,
    dependencies=[READER],
)
async def overlay(services: WithServices, photo_id: str, request: Request) -> Response:
    """Return the photo with outlines, lengths, weights and doubts drawn in."""
    stored = await run_in_threadpool(services.archive.photo, photo_id)
    _refuse_deleted(stored)
    response = Response(media_type="image/jpeg")
    not_modified(request, response, Revision(stored.id, stored.revision))
    path = services.files.path(stored.id)
    with _of_kept_photo():
        drawn = await services.pool.run(worker.draw, path, stored.measurement, voice())
    return _jpeg(drawn, response)


async def _shrunk(
    services: Services, photo_id: str, request: Request, width_px: int
) -> Response:
    stored = await run_in_threadpool(services.archive.photo, photo_id)
    _refuse_deleted(stored)
    response = Response(media_type="image/jpeg")
    not_modified(request, response, Revision(stored.id, width_px))
    path = services.files.path(stored.id)
    with _of_kept_photo():
        small = await services.pool.run(worker.shrink, path, width_px)
    return _jpeg(small, response)


def _kept_thumbnail(services: Services, photo_id: str) -> bytes | None:
    """Return the small picture of a photo that is there, where there is one."""
    if not services.files.is_there(photo_id):
        return None
    if not services.thumbnails.is_there(photo_id):
        return None
    with contextlib.suppress(NotFoundError, OSError):
        return services.thumbnails.read(photo_id)
    return None


def _keep_thumbnail(services: Services, photo_id: str, small: bytes) -> None:
    """Keep a small picture, unless its photo was deleted meanwhile."""
    with contextlib.suppress(OSError):  # a full disk: it is made again
        services.thumbnails.put(photo_id, small)
        if services.archive.photo(photo_id).deleted_at is not None:
            services.thumbnails.remove(photo_id)


@contextmanager
def _of_kept_photo() -> Iterator[None]:
    """Say what to do where a photo's file was lost."""
    try:
        yield
    except worker.KeptPhotoError:
        raise PhotoLostError from None


def _refuse_deleted(stored: StoredPhoto) -> None:
    """Raise if the owner deleted the photo.

    Raises
    ------
    PhotoDeletedError
    """
    if stored.deleted_at is not None:
        raise PhotoDeletedError(stored.deleted_at.date(), stored.deleted.name)


def _jpeg(data: bytes, response: Response) -> Response:
    headers = {"Cache-Control": "no-cache", "ETag": response.headers["ETag"]}
    return Response(data, media_type="image/jpeg", headers=headers)


# --- records to schemas ---------------------------------------------------------


def how_to_measure(services: Services, settings: PhotoChoices) -> PhotoSettings:
    """Return the core's settings, with what the names in those sent stand for.

    Raises
    ------
    SpeciesError, NotFoundError
        If the species or the lens is unknown.
    """
    return PhotoSettings.of(
        settings,
        stock_of_photo(services, settings, today())(settings.species),
        find_lens(services, settings.lens) if settings.lens else None,
    )


def _light(stored: LightPhoto) -> schemas.LightPhoto:
    return schemas.LightPhoto(
        id=stored.id,
        revision=stored.revision,
        name=stored.name,
        received_at=stored.received_at,
        received_by=stored.received_by,
        deleted_at=stored.deleted_at,
        links=_links(stored),
    )


def _links(stored: StoredPhoto | LightPhoto) -> dict[str, str]:
    base = f"/v1/photos/{stored.id}"
    if stored.deleted_at is not None:
        return {}
    return {
        "picture": f"{base}/picture",
        "overlay": f"{base}/overlay.jpg?revision={stored.revision}",
        "thumbnail": f"{base}/thumbnail.jpg",
    }


def photo_out(stored: StoredPhoto) -> schemas.PhotoOut:
    """Return a stored photo as the API answers it."""
    return schemas.PhotoOut(
        id=stored.id,
        revision=stored.revision,
        received_at=stored.received_at,
        received_by=stored.received.name,
        changed_by=stored.changed.name,
        deleted_at=stored.deleted_at,
        deleted_by=stored.deleted.name,
        settings=read(PhotoChoices, stored.settings),
        measurement=PhotoMeasurement.from_json(stored.measurement),
        corrections=[read(Correction, one) for one in stored.corrections],
        links=_links(stored),
    )
