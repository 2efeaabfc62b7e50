"""What ``import fishmeasure`` offers to Python."""

import doctest
import json
import os
import subprocess
import sys
from datetime import date
from importlib import import_module
from pathlib import Path

import pytest

import fishmeasure as fm
from fishmeasure.base.errors import (
    NoBookError,
    NoFileError,
    PrintScaleError,
    UnknownRecordError,
    UnknownSpeciesError,
)
from fishmeasure.face.shown import html_table
from fishmeasure.store.book import open_book
from fishmeasure.store.demo import demo_book

ROOT = Path(__file__).resolve().parents[2]
PHOTO = ROOT / "sample_images" / "tank_a_net1.jpg"
DAY = date(2026, 8, 1)
HEAVY = {"cv2", "numpy", "scipy", "skimage", "PIL", "pydantic", "sqlalchemy"}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> str:
    path = tmp_path_factory.mktemp("book") / "demo.sqlite"
    with open_book(path) as book:
        book.add_content(demo_book(DAY))
    return str(path)


@pytest.mark.parametrize(
    "name",
    [
        "fishmeasure",
        "fishmeasure.face.photos",
        "fishmeasure.face.samples",
        "fishmeasure.face.books",
    ],
)
def test_the_examples_give_what_they_show(
    name: str, demo: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As somebody would type them in the repository's folder."""
    monkeypatch.chdir(ROOT)
    tried = doctest.testmod(import_module(name), extraglobs={"demo": demo})
    assert tried.attempted > 0
    assert tried.failed == 0


def test_importing_costs_nothing_heavy() -> None:
    """Pictures, sums, databases and records come when they are first used."""
    code = "import sys, fishmeasure; dir(fishmeasure); print(*sys.modules)"
    done = subprocess.run(  # noqa: S603 - our own interpreter
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    loaded = {name.partition(".")[0] for name in done.stdout.split()}
    assert not loaded & (HEAVY | {"typer", "rich", "fastapi", "matplotlib"})
    inside = {n for n in done.stdout.split() if n.startswith("fishmeasure")}
    assert inside == {"fishmeasure"}


def test_every_name_offered_is_there() -> None:
    """Each once, and what is not offered is an error that names it."""
    assert len(set(fm.__all__)) == len(fm.__all__)
    assert set(fm.__all__) <= set(dir(fm))
    for name in fm.__all__:
        assert getattr(fm, name)
    with pytest.raises(AttributeError, match="weigh"):
        _ = fm.weigh


def test_bytes_and_paths_give_the_same() -> None:
    """And what is shown is short; the JSON is that of the command line."""
    by_path, by_bytes = fm.measure(PHOTO), fm.measure(PHOTO.read_bytes())
    fields = by_path.to_json()
    assert fields["fish"] == by_bytes.to_json()["fish"]
    fish = by_path.fish[0]
    assert round(fish.fork_length_mm, 2) == fields["fish"][0]["fork_length_mm"]
    assert fish.to_json() == fields["fish"][0]
    assert len(repr(by_path)) < 100
    assert len(repr(by_path.fish)) < 1000
    assert len(str(by_path).splitlines()) == 10  # the last: no real trout was tested
    html = by_path._repr_html_()
    assert html.count("<tr>") == 9
    assert "data:image/jpeg;base64,/9j/" in html


def test_words_that_somebody_typed_are_escaped() -> None:
    """A photo's name in a notebook runs no script."""
    problem = fm.Problem(code="x", message="<img src=x onerror=alert(1)>")
    html = html_table("<script>", ("<b>",), [["<i>"]], [problem])
    assert not any(bad in html for bad in ("<script", "<b><", "<i>", "<img"))
    assert "<script" not in fm.measure(b"", species="perch")._repr_html_()


def test_a_photo_that_cannot_be_read_has_a_problem() -> None:
    """No fish, and a table that says so."""
    result = fm.measure(b"nothing")
    assert not result.fish
    assert result.problems[0].code in str(result)
    assert result.problems[0].fatal
    with pytest.raises(fm.FishMeasureError):
        fm.measure(b"").overlay()


def test_arguments_that_cannot_be_are_refused() -> None:
    """In the project's own errors."""
    with pytest.raises(NoFileError):
        fm.measure("no-such-photo.jpg")
    with pytest.raises(fm.FishMeasureError):
        fm.measure(ROOT)
    with pytest.raises(UnknownSpeciesError):
        fm.measure(b"", species="unicorn")
    for wrong in (0.0, 9.7, float("nan")):
        with pytest.raises(PrintScaleError):
            fm.measure(b"", print_scale=wrong)
    with pytest.raises(NoFileError):
        fm.load_sample("no-such-sample.toml")


def test_water_where_there_is_none_is_doubted() -> None:
    """The lengths are given, and what is odd is said."""
    photo = fm.measure(PHOTO, water=True, water_depth_mm=90.0)
    assert "no-water" in [problem.code for problem in photo.problems]
    assert photo.record.scale is not None
    assert photo.record.scale.water is not None
    assert photo.record.scale.water.depth_mm == pytest.approx(90.0)


def test_a_sample_has_its_fish_and_the_commands_json() -> None:
    """The nets are shown, the repr is one line."""
    sample = fm.load_sample(ROOT / "sample_images" / "spring_tanks.toml")
    result = fm.estimate(sample)
    fields = result.to_json()
    assert fields["mean_weight_g"] == pytest.approx(result.mean_weight_g.value, 1e-4)
    assert json.loads(json.dumps(fields, allow_nan=False)) == fields
    assert result.biomass_kg is not None
    assert len(result.photos) == 4
    assert repr(result).startswith("<SampleResult of Tank A 2026-05-02: ")
    assert "net 5" in str(result)
    assert result._repr_html_().count("<table>") == 2


def test_a_book_that_is_not_there_is_not_made(tmp_path: Path) -> None:
    """A slip in the name must not begin a new book."""
    with pytest.raises(NoBookError):
        fm.Book(tmp_path / "none.sqlite")
    assert list(tmp_path.iterdir()) == []


def test_an_outlook_shows_what_the_command_writes(demo: str) -> None:
    """Without a "with" too, as in a notebook."""
    outlook = fm.Book(demo).outlook("Tank A", on=DAY)
    fields = outlook.to_json()
    assert fields["ration_kg"]["value"] == outlook.record.ration_kg.value  # type: ignore[union-attr]
    assert fields["now"]["verdict"] == outlook.now.verdict
    assert outlook.fish[0].fish.cohort.name in str(outlook)
    assert "<table>" in outlook._repr_html_()
    with fm.Book(demo) as book, pytest.raises(UnknownRecordError, match="Tank A"):
        book.outlook("Tank Z")


@pytest.mark.parametrize("command", ["", "sample", "book", "outlook"])
def test_help_imports_nothing_heavy(command: str) -> None:
    """It answers at once: what is slow to import comes when a command runs."""
    code = (
        "import sys; from fishmeasure.cli import main\n"
        f"sys.argv = ['fishmeasure', *{command.split()}, '--help']\n"
        "try: main()\n"
        "finally: print(*sys.modules, file=sys.stderr)"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert "--help" in done.stdout
    loaded = {name.partition(".")[0] for name in done.stderr.split()}
    # The parser itself takes pydantic as soon as a command has arguments to read.
    heavy = HEAVY - ({"pydantic"} if command else set())
    assert not loaded & (heavy | {"rich", "fastapi", "matplotlib", "uvicorn"})
