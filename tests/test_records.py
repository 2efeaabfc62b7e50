"""What stands in a measurement's record is read by somebody, and known to the page."""

import ast
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any, get_args, get_type_hints

import pytest

from api.estimates import SampleIn
from api.routes.health import about
from api.settings import Settings
from fishmeasure.base.flags import FLAGS
from fishmeasure.book.entries import ENTRY_KINDS
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.estimation.model import SampleAnswer
from fishmeasure.photo.corrections import Correction
from fishmeasure.photo.measurement import PhotoMeasurement

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "api" / "page" / "js"

FOR_OTHER_PROGRAMS = {
    "PlaneScale.camera_height_mm": "the public format promises it",
    "PhotoMeasurement.smallest_fish_mm": "tells which fish a photo can leave out",
    "CameraModel.focal_source": "tells whether the height of the camera was guessed",
    "MeasuredFish.total_length_se_mm": "a length without its error is not to be used",
    "MeasuredFish.standard_length_mm": "length-weight lines of some keepers are for it",
    "MeasuredFish.standard_length_se_mm": "as that of the total length",
    "MeasuredFish.body_depth_se_mm": "as that of the total length",
    "MeasuredFish.area_mm2": "weights by area are in use beside those by length",
    "MeasuredFish.weight_low_g": "the standard error hides that it is longer upwards",
    "MeasuredFish.weight_high_g": "the standard error hides that it is longer upwards",
}
"""Read by nothing here: they are for those who read the JSON and CSV, and why."""


OF_SAMPLES = {
    "DoubtfulLength.probability": "lets a reader draw the line elsewhere",
    "SampleAnswer.size_groups": "a note in words says the same here",
    "SampleAnswer.published_a": "the public format promises it",
    "SampleAnswer.weight_over_published": "shown here from before it is written",
    "SampleAnswer.weight_over_published_interval": "as the figure",
    "SampleAnswer.a_interval": "a figure without its interval is not to be used",
    "SampleAnswer.b_interval": "as that of a",
    "SampleAnswer.cv_interval": "as that of a",
    "SampleAnswer.fork_length_mean_interval_mm": "as that of a",
    "SampleAnswer.handled_mean_weight_interval_g": "as that of a",
    "SampleAnswer.weight_quantile_intervals_g": "as that of a",
}
"""Of a sample's JSON, likewise."""


LOOKED_FOR = re.compile(
    r'\bword [!=]== "[^"]+"|\bflags\.includes\("[^"]+"|\[[^\]]+\]\.includes\(word\)'
)
"""Where the page looks for a flag's word."""


def records(hint: Any) -> Iterator[type]:
    """Yield the records that an annotation names, at any depth."""
    if isinstance(hint, type) and is_dataclass(hint):
        yield hint
        for inner in get_type_hints(hint).values():
            yield from records(inner)
    for part in get_args(hint):
        yield from records(part)


@cache
def names_read() -> frozenset[str]:
    """Return what code takes out of anything: attributes, in the page's too."""
    found = set()
    for room in ("fishmeasure", "api"):
        for path in sorted((ROOT / room).rglob("*.py")):
            found |= {
                node.attr
                for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
                if isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Load)
            }
    for path in sorted(PAGE.rglob("*.js")):
        found |= set(re.findall(r"\.(\w+)", path.read_text(encoding="utf-8")))
    return frozenset(found)


@cache
def keys_read() -> frozenset[str]:
    """Return what code takes out of JSON by its key."""
    return frozenset(
        node.slice.value
        for room in ("fishmeasure", "api")
        for path in sorted((ROOT / room).rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Subscript)
        and isinstance(node.ctx, ast.Load)
        and isinstance(node.slice, ast.Constant)
        and isinstance(node.slice.value, str)
    )


def test_every_field_of_a_measurement_is_read() -> None:
    """A figure that nothing uses is taken out, or the table says whom it is for."""
    kinds = dict.fromkeys([*records(PhotoMeasurement), *records(Correction)])
    unread = {
        f"{kind.__name__}.{item.name}"
        for kind in kinds
        for item in fields(kind)
        if item.name not in names_read()
    }
    assert unread == set(FOR_OTHER_PROGRAMS)


def test_every_field_that_is_entered_is_read() -> None:
    """What a grower enters is used; what a kit reads as ions is kept as nitrogen."""
    entered = (Unit, Cohort, *ENTRY_KINDS.values(), SampleIn)
    kinds = dict.fromkeys(kind for made in entered for kind in records(made))
    unread = {
        item.name
        for kind in kinds
        for item in fields(kind)
        if item.name not in names_read()
    }
    assert unread == {
        "ammonia_as_nh4_mg_per_l",
        "ammonia_as_nh3_mg_per_l",
        "nitrite_as_no2_mg_per_l",
        "nitrate_as_no3_mg_per_l",
    }


def test_every_figure_of_a_sample_is_read() -> None:
    """By the program or the page, or the table says whom it is for."""
    unread = {
        f"{kind.__name__}.{item.name}"
        for kind in dict.fromkeys(records(SampleAnswer))
        for item in fields(kind)
        if item.name not in names_read() | keys_read()
    }
    assert unread == set(OF_SAMPLES)


def words_used(tree: ast.Module) -> Iterator[str]:
    """Yield the words that code adds to, or looks for in, flags."""
    for node in ast.walk(tree):
        inner: list[ast.expr] = []
        match node:
            case ast.Compare(left=left, comparators=[ast.Attribute(attr="flags")]):
                inner = [left]
            case ast.keyword(arg="flags", value=value):
                inner = [value]
            case ast.Call(func=ast.Attribute(attr="append", value=ast.Name("flags"))):
                inner = node.args
            case ast.FunctionDef(name=name) if name.strip("_").endswith("flags"):
                inner = [
                    part.value
                    for part in ast.walk(node)
                    if isinstance(part, ast.Return) and part.value
                ]
        for part in inner:
            for word in ast.walk(part):
                if isinstance(word, ast.Constant) and isinstance(word.value, str):
                    yield word.value


@pytest.mark.parametrize("room", ["fishmeasure/photo", "fishmeasure/cli"])
def test_every_flag_in_the_code_is_in_the_table(room: str) -> None:
    """There it has the sentence that all faces show."""
    used = {
        word
        for path in sorted((ROOT / room).rglob("*.py"))
        for word in words_used(ast.parse(path.read_text(encoding="utf-8")))
    }
    assert used <= set(FLAGS)


def test_the_page_asks_for_every_flags_sentence() -> None:
    """It shows the server's sentences, and filters by words that are there."""
    services: Any = SimpleNamespace(settings=Settings())
    told = {flag.word: str(flag.sentence) for flag in about(services).flags}
    assert set(told) == set(FLAGS)
    assert all(told.values())
    filtered = {
        word
        for path in sorted(PAGE.rglob("*.js"))
        for found in LOOKED_FOR.finditer(path.read_text(encoding="utf-8"))
        for word in re.findall(r'"([^"]+)"', found[0])
    }
    assert {"published-weight", "edited", "dropped"} <= filtered <= set(FLAGS)
