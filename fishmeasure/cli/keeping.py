"""Keeping the photos of a recorded sample, as the server keeps those sent to it."""

import hashlib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fishmeasure.base.errors import BookWriteError
from fishmeasure.base.words import Message, system_reason

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fishmeasure.photo.measurement import PhotoMeasurement
    from fishmeasure.pipeline import PhotoSettings
    from fishmeasure.store.archive import Archive


def keep_photos(
    archive: "Archive",
    folder: Path,
    measured: "Mapping[Path, PhotoMeasurement]",
    settings: "PhotoSettings",
) -> tuple[str, ...]:
    """Keep photos without their private tags and return their ids.

    A photo's file is on disk before the book knows of it; one that is there already
    stays as it is. What could not be read is left out.

    Parameters
    ----------
    archive
        Of the book.
    folder
        Of the book's photos and lens profiles.
    measured
        The photos' files, and what was measured in them.
    settings
        How.

    Raises
    ------
    BookWriteError
        If a file cannot be read again, or the disk refuses.
    """
    from api.files import PhotoFiles
    from fishmeasure.base.files import read_at_most
    from fishmeasure.base.record import plain
    from fishmeasure.photo.privacy import strip_private_tags

    files = PhotoFiles(folder / "photos")
    chosen = plain(settings.choices())
    kept = []
    for path, measurement in measured.items():
        if measurement.width_px == 0:
            continue
        try:
            data = read_at_most(path, settings.limits.max_bytes)
            clean = strip_private_tags(data, measurement.photo)
            identity = hashlib.sha256(data).hexdigest()
            files.put(identity, clean)
        except OSError as error:
            what = Message.of(
                "cli-not-kept",
                photo=measurement.photo,
                folder=folder,
                reason=system_reason(error),
            )
            raise BookWriteError(what) from None
        archive.add_photo(
            identity,
            name=Path(measurement.photo).name,
            settings=_in_the_water_of(measurement, chosen),
            measured=measurement.to_json(),
        )
        kept.append(identity)
    return tuple(kept)


def _in_the_water_of(
    measurement: "PhotoMeasurement", chosen: dict[str, Any]
) -> dict[str, Any]:
    """Return the settings of a photo with the water that it was measured through."""
    water = None if measurement.scale is None else measurement.scale.water
    if water is None:
        return chosen
    depth_mm = water.depth_mm if water.depth_known else None
    return {**chosen, "in_water": True, "water_depth_mm": depth_mm}
