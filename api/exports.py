"""Everything that the server keeps, as one JSON document or as tables."""

import csv
import io
import json
from collections.abc import Iterable, Iterator
from typing import Any

from api.services import Services
from fishmeasure.base.cells import text_to_cell
from fishmeasure.photo.measurement import PhotoMeasurement, csv_rows
from fishmeasure.store.archive import Page, StoredPhoto, StoredSample
from fishmeasure.store.exchange import book_to_csv, book_to_json

PAGE = 100
BOOK_TABLES = ("units", "cohorts", "entries", "remarks")
SAMPLE_COLUMNS = (
    "id",
    "date",
    "unit",
    "unit_id",
    "cohort_id",
    "species",
    "nets",
    "mean_weight_g",
    "mean_weight_low_g",
    "mean_weight_high_g",
    "level",
    "cv",
    "fork_length_mean_mm",
    "condition_factor",
    "fish_measured",
    "fish_weighed",
    "biomass_kg",
)


def all_photos(services: Services) -> Iterator[StoredPhoto]:
    """Yield every photo, newest first, a page in memory at a time."""
    before = None
    while found := services.archive.photos(Page(limit=PAGE, before=before)):
        yield from found
        before = found[-1].seq


def all_samples(services: Services) -> Iterator[StoredSample]:
    """Yield every sample, newest first, a page in memory at a time."""
    before = None
    while found := services.archive.samples(Page(limit=PAGE, before=before)):
        yield from found
        before = found[-1].seq


def whole_json(services: Services) -> Iterator[str]:
    """Yield the text of one document: the book, and beside it photos and samples.

    A book's reader takes it as a book, so the same document can be imported.
    """
    book = book_to_json(services.book.content()).rstrip().removesuffix("}").rstrip()
    yield book
    for name, rows in (
        ("photos", (_photo(photo) for photo in all_photos(services))),
        ("samples", (_sample(sample) for sample in all_samples(services))),
    ):
        yield f',\n "{name}": ['
        for number, row in enumerate(rows):
            text = json.dumps(row, ensure_ascii=False, allow_nan=False)
            yield ("\n  " if number == 0 else ",\n  ") + text
        yield "\n ]"
    yield "\n}\n"


def table_csv(services: Services, name: str) -> Iterator[str]:
    """Yield the text of one table."""
    if name in BOOK_TABLES:
        yield book_to_csv(services.book.content())[name]
    elif name == "photos":
        yield from _csv(
            csv_rows(
                PhotoMeasurement.from_json(photo.measurement)
                for photo in all_photos(services)
            )
        )
    else:
        rows = (_sample_row(sample) for sample in all_samples(services))
        yield from _csv([SAMPLE_COLUMNS])
        yield from _csv(rows)


def _csv(rows: Iterable[Iterable[Any]]) -> Iterator[str]:
    for row in rows:
        out = io.StringIO(newline="")
        csv.writer(out).writerow(row)
        yield out.getvalue()


def _photo(photo: StoredPhoto) -> dict[str, Any]:
    return {
        "id": photo.id,
        "received_at": photo.received_at.isoformat(),
        "settings": photo.settings,
        "measurement": PhotoMeasurement.from_json(photo.measurement).to_json(),
        "corrections": photo.corrections,
    }


def _sample(sample: StoredSample) -> dict[str, Any]:
    return {
        "id": str(sample.id),
        "received_at": sample.received_at.isoformat(),
        "sample": sample.body,
        "estimate": (sample.result or {}).get("estimate"),
    }


def _sample_row(sample: StoredSample) -> list[Any]:
    body = sample.body
    estimate = (sample.result or {}).get("estimate") or {}
    low, high = estimate.get("mean_weight_interval_g") or ("", "")
    known = {
        **{name: body.get(name) for name in SAMPLE_COLUMNS[1:6]},
        **{name: estimate.get(name) for name in SAMPLE_COLUMNS[7:]},
        "id": sample.id,
        "nets": len(body["nets"]),
        "mean_weight_low_g": low,
        "mean_weight_high_g": high,
    }
    return [_cell(known[name]) for name in SAMPLE_COLUMNS]


def _cell(value: Any) -> Any:
    if value is None:
        return ""
    return text_to_cell(value) if isinstance(value, str) else value
