"""The README says what the code does."""

import datetime as dt
import importlib.util
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from PIL import ExifTags, Image

from fishmeasure.base.words.explain import codes
from fishmeasure.estimation.sample import read_sample
from fishmeasure.store.book import open_book
from fishmeasure.store.demo import demo_book

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
ACCURACY = (ROOT / "tests" / "accuracy" / "README.md").read_text(encoding="utf-8")
SPEED = (ROOT / "tests" / "bench" / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def tables() -> ModuleType:
    spec = importlib.util.spec_from_file_location(
        "tables", Path(__file__).parent / "tables.py"
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["tables"] = module
    spec.loader.exec_module(module)
    return module


def test_every_table_is_as_the_code_has_it(tables: ModuleType) -> None:
    """Commands, flags, problems, species, settings: none missing, none left over."""
    for page in tables.TABLES:
        assert tables.filled(page) == (ROOT / page).read_text(encoding="utf-8")


def test_a_grower_reads_it_to_the_end() -> None:
    """At most 1,800 words, and the cautions before the middle."""
    assert len(README.split()) <= 1800
    assert len(README.partition("## Cautions")[0]) < len(README) / 2


def test_every_problem_is_explained(tables: ModuleType) -> None:
    """A new code needs its line in the catalogue."""
    assert tables.problem_codes() <= set(codes())


_NUMBER = re.compile(r"[-+]?\d+(?:\.\d+)?")


def test_the_first_command_prints_what_is_shown() -> None:
    """The same words; figures within what other versions of libraries may do."""
    shown = README.partition("<!-- sample output -->")[2].partition("<!-- end -->")[0]
    block = shown.partition("```text")[2].partition("```")[0]
    command = [sys.executable, "-m", "fishmeasure", "sample"]
    done = subprocess.run(  # noqa: S603 - our own interpreter
        [*command, "sample_images/spring_tanks.toml"],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    words = [" ".join(_NUMBER.sub("n", text).split()) for text in (block, done.stdout)]
    assert words[0] == words[1]
    said, found = (
        np.array(_NUMBER.findall(text.partition("\n")[2]), dtype=float)
        for text in (block.strip(), done.stdout)
    )
    assert np.allclose(said, found, rtol=0.02, atol=0.2)


def test_the_sample_file_shown_can_be_read() -> None:
    """Every TOML block of the README is a sample that the program takes."""
    blocks = re.findall(r"```toml\n(.*?)```", README, flags=re.DOTALL)
    assert blocks
    for block in blocks:
        assert read_sample(block).nets
        assert tomllib.loads(block)["unit"] == "Tank A"


def test_the_python_lines_run(tmp_path: Path) -> None:
    """As they stand, beside the sample images and the demo's book."""
    shown = README.partition("## From Python")[2].partition("\n## ")[0]
    lines = shown.partition("```python")[2].partition("```")[0]
    (tmp_path / "sample_images").symlink_to(ROOT / "sample_images")
    with open_book(tmp_path / "demo.sqlite") as book:
        book.add_content(demo_book(dt.date(2026, 8, 1)))
    done = subprocess.run(  # noqa: S603 - our own interpreter and README
        [sys.executable, "-c", lines],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert "fork mm" in done.stdout
    assert "biomass" in done.stdout


def test_the_lines_that_take_private_tags_out_do_so(tmp_path: Path) -> None:
    """Run as they stand: the copy has the focal length, and no owner and no place."""
    shown = ACCURACY.partition("<!-- private tags -->")[2].partition("<!-- end -->")[0]
    lines = shown.partition("```python")[2].partition("```")[0]
    (tmp_path / "photos").mkdir()
    with Image.open(ROOT / "sample_images" / "bent_brown.jpg") as image:
        exif = image.getexif()
        exif[ExifTags.Base.Artist] = "Somebody at the pond"
        exif.get_ifd(ExifTags.IFD.GPSInfo)[1] = "N"
        image.save(tmp_path / "photos" / "a.JPG", "JPEG", exif=exif)
    subprocess.run(  # noqa: S603 - our own interpreter and README
        [sys.executable, "-c", lines],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        check=True,
    )
    sent = tmp_path / "public" / "a.jpg"
    assert b"Somebody at the pond" not in sent.read_bytes()
    with Image.open(sent) as image:
        found = image.getexif()
        assert not found.get_ifd(ExifTags.IFD.GPSInfo)
        focal = ExifTags.Base.FocalLengthIn35mmFilm
        assert found.get_ifd(ExifTags.IFD.Exif)[focal]


def test_every_command_of_python_named_is_there() -> None:
    """Figures name the command that made them: ``python -m x.y`` or a script."""
    modules = re.findall(r"`python -m\s([\w.]+)", README + ACCURACY + SPEED)
    scripts = re.findall(r"`python ([\w./]+\.py)", README + ACCURACY + SPEED)
    assert len(modules) >= 3
    assert scripts
    files = [*(f"{name.replace('.', '/')}.py" for name in modules), *scripts]
    assert [name for name in files if not (ROOT / name).exists()] == []


def _headings(text: str) -> set[str]:
    return {
        re.sub(r"[^\w -]", "", line.lstrip("# ")).lower().replace(" ", "-")
        for line in text.splitlines()
        if line.startswith("#")
    }


def test_headings_that_are_linked_are_there() -> None:
    """A link leads to a heading of the page that it names."""
    linked = re.findall(r"\]\(([\w./-]*)#([\w-]+)\)", README)
    assert linked
    for page, heading in linked:
        text = (ROOT / page).read_text(encoding="utf-8") if page else README
        assert heading in _headings(text)
    within = set(re.findall(r"\]\(#([\w-]+)\)", ACCURACY))
    assert within <= _headings(ACCURACY)


def test_what_the_readme_points_to_is_there() -> None:
    """Pictures, scripts and folders that it names exist."""
    named = set(re.findall(r"\]\(([\w./-]+)\)", README))
    named |= set(
        re.findall(r"`((?:calibration|sample_images|tests|\.ci)/[\w./-]+)`", README)
    )
    assert named
    assert [name for name in sorted(named) if not (ROOT / name).exists()] == []
