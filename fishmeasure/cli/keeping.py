"""Keeping a recorded sample and its photos, as the server keeps those sent to it."""

import hashlib
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fishmeasure.base.errors import BookWriteError
from fishmeasure.base.words import Message, system_reason

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fishmeasure.book.entries import Sample as Entry
    from fishmeasure.estimation.sample import Sample
    from fishmeasure.photo.measurement import PhotoMeasurement
    from fishmeasure.pipeline import PhotoSettings, SampleMeasurement
    from fishmeasure.store.archive import Archive


def keep_photos(
    archive: "Archive",
    folder: Path,
    measured: "Mapping[Path, PhotoMeasurement]",
    settings: "PhotoSettings",
) -> "dict[Path, str]":
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
    kept: dict[Path, str] = {}
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
        kept[path] = identity
    return kept


def keep_sample(
    archive: "Archive",
    entry: "Entry",
    sample: "Sample",
    result: "SampleMeasurement",
    ids: "Mapping[str, str]",
) -> None:
    """Keep the nets and the estimate of an entry, for the phone page to show.

    Parameters
    ----------
    archive
        Of the book.
    entry
        Of the sample in the book.
    sample
        As its file says.
    result
        What it gives.
    ids
        Under which the photos are kept, by their names in the file.
    """
    from fishmeasure.base.record import plain

    nets = tuple(
        replace(net, photos=tuple(ids[name] for name in net.photos if name in ids))
        if any(name in ids for name in net.photos)
        else net
        for net in sample.nets
    )
    where = {"unit_id": str(entry.unit_id), "cohort_id": str(entry.cohort_id)}
    estimate = result.to_json()
    del estimate["photos"]
    archive.put_sample(
        entry.id,
        body={**plain(replace(sample, nets=nets), sparse=True), **where},
        result={
            "problems": estimate.pop("problems"),
            "estimate": estimate,
            "photos": {name: archive.photo(name).revision for name in ids.values()},
        },
    )


def _in_the_water_of(
    measurement: "PhotoMeasurement", chosen: dict[str, Any]
) -> dict[str, Any]:
    """Return the settings of a photo with the water that it was measured through."""
    water = None if measurement.scale is None else measurement.scale.water
    if water is None:
        return chosen
    depth_mm = water.depth_mm if water.depth_known else None
    return {**chosen, "in_water": True, "water_depth_mm": depth_mm}
