"""What the handlers work with: one record, made when the server starts."""

import contextlib
import logging
import time
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Annotated

from fastapi import Depends, Request

from api.files import PhotoFiles, sweep_uploads
from api.pool import WorkerPool
from api.readiness import Readiness
from api.settings import Settings
from api.uploads import Uploads
from fishmeasure.base.errors import LedgerError
from fishmeasure.species import packaged_species
from fishmeasure.store.archive import Archive
from fishmeasure.store.book import Book, open_book
from fishmeasure.store.in_use import Hold

log = logging.getLogger(__name__)

NEWEST_PHOTOS = 200
"""Looked at when the server starts: what a power cut harms is what came last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Services:
    """The server's parts."""

    settings: Settings
    book: Book
    files: PhotoFiles
    thumbnails: PhotoFiles
    """Small pictures, under the names of their photos; made anew where one is gone."""
    pool: WorkerPool
    incoming: Path
    uploads: Uploads
    readiness: Readiness
    hold: Hold | None
    """On a book that is a file; a database server sees to its own."""

    @property
    def archive(self) -> Archive:
        """Photos and samples."""
        return self.book.archive

    def close(self) -> None:
        """End the workers, let go of the database."""
        self.pool.close()
        self.uploads.close()
        self.readiness.close()
        self.book.close()
        if self.hold is not None:
            self.hold.close()


def open_services(settings: Settings) -> Services:
    """Return the server's parts.

    Raises
    ------
    LedgerError
        If the book cannot be opened or is damaged, or a backup is being put back.
    SpeciesError
        If there is no such species as that of the settings.
    """
    packaged_species(settings.species)
    folder = settings.data_dir.expanduser()
    incoming = folder / "incoming"
    incoming.mkdir(mode=0o700, parents=True, exist_ok=True)
    files = PhotoFiles(folder / "photos")
    thumbnails = PhotoFiles(folder / "thumbnails")
    sweep_uploads(incoming)
    for kept in (files, thumbnails):
        _sweep(kept.parts, settings.upload_timeout_s + settings.measure_timeout_s)
    where = settings.book or str(folder / "book.sqlite")
    hold = _hold(where)
    try:
        book = _opened(where)
        _remove_deleted(files, book)
        _remove_deleted(thumbnails, book)
    except BaseException:
        if hold is not None:
            hold.close()
        raise
    return Services(
        settings=settings,
        book=book,
        files=files,
        thumbnails=thumbnails,
        pool=WorkerPool(settings.workers, settings.queue, settings.measure_timeout_s),
        incoming=incoming,
        uploads=Uploads(incoming),
        readiness=Readiness(partial(_read, book)),
        hold=hold,
    )


def _hold(where: str) -> Hold | None:
    """Keep a backup from being put back under the server's feet."""
    if "://" in where:
        return None
    path = Path(where).expanduser()
    with contextlib.suppress(OSError):  # what is wrong with it, the book says itself
        path.parent.mkdir(parents=True, exist_ok=True)
        return Hold(path)
    return None


def _opened(where: str) -> Book:
    book = open_book(where)
    try:
        book.check()
    except LedgerError:
        book.close()
        raise
    return book


def _read(book: Book) -> None:
    book.units()


def _remove_deleted(files: PhotoFiles, book: Book) -> None:
    """Remove files of photos that were deleted: a crash or a backup may leave some."""
    for identity in book.archive.deleted_photo_ids():
        with contextlib.suppress(OSError):  # a disk that takes no writes is no end
            files.remove(identity)


def report_lost_photos(services: Services) -> None:
    """Say which of the newest photos have lost their files, so that they come again.

    No file is decoded here: after a power cut they are gone, empty or end in zeros.
    """
    newest = services.archive.newest_photo_ids(NEWEST_PHOTOS)
    if not newest and any(services.files.folder.glob("??/*")):
        log.warning(
            "There are photos in the folder, but none in the book: is it the right one?"
        )
    lost = [identity for identity in newest if not services.files.is_there(identity)]
    if lost:
        log.warning(
            "%d of the newest %d photos have no whole file; their measurements are "
            "there. Send these photos once more: %s",
            len(lost),
            len(newest),
            " ".join(lost),
        )


def _sweep(folder: Path, oldest_s: float) -> None:
    """Remove files that a crash cut short.

    Those younger than an upload can take may belong to another server that shares
    the folder.
    """
    for left_over in folder.iterdir() if folder.is_dir() else ():
        with contextlib.suppress(OSError):  # gone meanwhile, or no file
            if time.time() - left_over.stat().st_mtime > oldest_s:
                left_over.unlink()


async def _services(request: Request) -> Services:
    # Not in a thread: signs of life must not wait for one.
    services: Services = request.app.state.services
    return services


WithServices = Annotated[Services, Depends(_services)]
