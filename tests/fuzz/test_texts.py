"""Broken TOML, JSON and CSV end in a typed error, never in anything else."""

import contextlib
import json
import tomllib
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fishmeasure.base.errors import FishMeasureError, NoFileError
from fishmeasure.estimation.sample import Sample, read_sample, sample_from_document
from fishmeasure.photo.lens import LensProfile, lens_to_text, read_lens
from fishmeasure.pipeline import measure_sample, refused
from fishmeasure.species import load_species
from fishmeasure.species.fit import species_toml
from fishmeasure.species.loader import _own_stock, read_own_stock
from fishmeasure.store.book import open_book
from fishmeasure.store.demo import demo_book
from fishmeasure.store.exchange import (
    book_from_csv,
    book_from_json,
    book_to_csv,
    book_to_json,
)
from tests.fuzz.nasty import broken, with_strange_values

TROUT = load_species("rainbow-trout")
SPECIES_TEXT = species_toml(TROUT, TROUT.length_weight)
SAMPLE: dict[str, Any] = {
    "date": date(2026, 5, 2),
    "unit": "Tank A",
    "species": "rainbow-trout",
    "count_in_unit": 240,
    "count_in_unit_sd": 5,
    "level": 0.9,
    "net": [
        {"fish": 8, "fish_sd": 1, "gross_g": 1912, "tare_g": 640, "label": "first"},
        {"fish": 3, "net_kg": [0.431, 0.43], "lengths_mm": [240, 250.5, 262]},
        {"fish": 4, "photos": ["a.jpg"]},
    ],
    "scale": {"resolution_g": 1, "sd_g": 2, "relative_sd": 0.002},
    "drip": {"wet_tare": True, "fraction": 0.015, "sd": 0.01, "net_sd": 0.005},
    "count": {"miscount_probability": 0.01},
    "lengths": {"sample_relative_sd": 0.01, "fish_relative_sd": 0.012},
}
LENS = lens_to_text(
    LensProfile(
        name="a",
        camera_model="b",
        focal_fraction=0.7,
        focal_relative_sd=0.01,
        k1=0.01,
        k1_sd=0.01,
    )
)
DEEP = "[" * 100_000
LONG = "9" * 5000


def whole_sample(document: dict[str, Any]) -> None:
    """Read a sample and estimate its population, as the command does."""
    estimated(sample_from_document(document))


def estimated(sample: Sample) -> None:
    """Estimate the population of a sample whose photos are lost."""
    result = measure_sample(
        sample,
        load_species("rainbow-trout"),
        lambda name: refused(name, NoFileError("not there")),
    )
    json.dumps(result.to_json(), allow_nan=False)


def quiet(read: Callable[..., object], *values: object) -> None:
    with contextlib.suppress(FishMeasureError):
        read(*values)


def test_samples_with_a_nasty_value_anywhere() -> None:
    """Every value of a whole sample is replaced by each nasty one."""
    count = 0
    for _, document in broken(SAMPLE):
        quiet(sample_from_document, document)
        count += 1
    assert count > 1000


@settings(max_examples=150, deadline=None)
@given(with_strange_values(SAMPLE))
def test_strange_samples_have_an_estimate_or_an_error(document: Any) -> None:
    """What passes the reader is estimated, in finite figures."""
    quiet(whole_sample, document)


@pytest.mark.parametrize(
    "text",
    [
        f"net = {DEEP}",
        f"count_in_unit = {LONG}",
        f"count_in_unit = 0x{'f' * 5000}",
        f"level = 0x{'f' * 5000}\n[[net]]\nfish=1\nnet_g=5",
        "date = 2026-02-30",
        "date = 0000-00-00",
        "net = [1]",
        "[net]",
        "[[net]]\nfish = 1\nnet_g = nan",
        "[[net]]\nfish = 1\nnet_g = inf",
        "[[net]]\nfish = 1\nnet_g = 1e999",
        "[[net]]\nfish = -1\nnet_g = 5",
        "[[net]]\nfish = 1_000_000_000_000\nnet_g = 5",
        "\0",
        "\ufeff",
    ],
)
def test_texts_that_are_no_sample(text: str) -> None:
    """Refused in a sentence."""
    with pytest.raises(FishMeasureError):
        read_sample(text)
    with pytest.raises(FishMeasureError):
        read_own_stock(text, "x.toml")


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=200))
def test_any_text_is_read_or_refused(text: str) -> None:
    """By every reader of a text."""
    for read in (read_sample, book_from_json):
        quiet(read, text)
    quiet(read_lens, text, "a")
    quiet(lambda: read_own_stock(text, "x.toml"))
    for table in ("units", "cohorts", "entries", "remarks"):
        quiet(book_from_csv, {table: text})


def test_species_files_with_a_nasty_value_anywhere() -> None:
    """Every value of a species file is replaced by each nasty one."""
    for _, document in broken(tomllib.loads(SPECIES_TEXT)):
        quiet(_own_stock, document | {"key": "x"})


def test_lens_files_with_a_nasty_value_anywhere() -> None:
    """Every value of a lens profile is replaced by each nasty one."""
    for _, document in broken(json.loads(LENS)):
        quiet(read_lens, json.dumps(document), "a")
    for text in (DEEP, LONG, "NaN", '"', "\ud800"):
        with pytest.raises(FishMeasureError):
            read_lens(text, "a")


def test_books_with_a_nasty_value_anywhere(tmp_path: Path) -> None:
    """One of each kind of record, each value replaced; what is read is written."""
    whole = json.loads(book_to_json(demo_book(date(2026, 6, 1))))
    kinds = {entry["kind"]: entry for entry in whole["entries"]}
    small = {
        **whole,
        "units": whole["units"][:1],
        "cohorts": whole["cohorts"][:1],
        "entries": list(kinds.values()),
    }
    taken = []
    for name, document in broken(small):
        with contextlib.suppress(FishMeasureError):
            taken.append((name, book_from_json(json.dumps(document))))
    assert taken
    with open_book(tmp_path / "book.db") as book:
        book.add_content(demo_book(date(2026, 6, 1)))
        for _, content in taken[:: max(len(taken) // 200, 1)]:
            quiet(book.add_content, content)
        book.content()  # all that was taken can be read again
    for text in (DEEP, f"[{LONG}]", "NaN", "[]", "null", '{"format":'):
        with pytest.raises(FishMeasureError):
            book_from_json(text)


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_csv_tables_with_strange_cells(data: st.DataObject) -> None:
    """Cells, quotes and lines changed at random places."""
    tables = book_to_csv(demo_book(date(2026, 6, 1)))
    name = data.draw(st.sampled_from(sorted(tables)))
    text = tables[name]
    for _ in range(3):
        at = data.draw(st.integers(0, len(text)))
        new = data.draw(
            st.sampled_from(["nan", "1e999", '"', ",", "\n", "[", LONG, DEEP, "\0"])
            | st.text(max_size=5)
        )
        text = text[:at] + new + text[at + data.draw(st.integers(0, 40)) :]
    quiet(book_from_csv, {**tables, name: text})
