"""The README says what the code does."""

import importlib.util
import re
import sys
import tomllib
from pathlib import Path
from types import ModuleType

import pytest

from fishmeasure.samplefile import read_sample

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


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
    assert tables.filled(README) == README


def test_every_problem_is_explained(tables: ModuleType) -> None:
    """A new code needs a row in PROBLEM_MEANINGS, and no row is left over."""
    assert tables.problem_codes() == set(tables.PROBLEM_MEANINGS)


def test_the_sample_file_shown_can_be_read() -> None:
    """Every TOML block of the README is a sample that the program takes."""
    blocks = re.findall(r"```toml\n(.*?)```", README, flags=re.DOTALL)
    assert blocks
    for block in blocks:
        assert read_sample(block).nets
        assert tomllib.loads(block)["unit"] == "Tank A"


def test_what_the_readme_points_to_is_there() -> None:
    """Pictures, scripts and folders that it names exist."""
    named = set(re.findall(r"\]\(([\w./-]+)\)", README))
    named |= set(
        re.findall(r"`((?:calibration|sample_images|tests|\.ci)/[\w./-]+)`", README)
    )
    assert named
    assert [name for name in sorted(named) if not (ROOT / name).exists()] == []
