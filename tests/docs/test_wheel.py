"""What is installed: the program, its data and types, not what only made them."""

import subprocess
import sys
import tomllib
from email import message_from_bytes
from pathlib import Path
from zipfile import ZipFile

import pytest

import fishmeasure

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d"]
    subprocess.run([*command, str(folder)], cwd=ROOT, check=True, capture_output=True)  # noqa: S603 - our own interpreter
    (found,) = folder.glob("*.whl")
    return found


def test_the_wheel_holds_all_that_runs_and_no_more(wheel: Path) -> None:
    """Every tracked file of the packages but notes; no training, drawing or tests."""
    with ZipFile(wheel) as archive:
        names = set(archive.namelist())
    info = {name for name in names if ".dist-info/" in name}
    tops = {name.partition("/")[0] for name in names - info}
    assert tops == {"fishmeasure", "api"}
    assert "fishmeasure/py.typed" in names
    needed = {
        path.relative_to(ROOT).as_posix()
        for folder in ("fishmeasure", "api")
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert needed <= names
    assert not [name for name in names if "training" in name or "generator" in name]


def test_the_wheel_says_what_it_is(wheel: Path) -> None:
    """The version stands in one place."""
    with ZipFile(wheel) as archive:
        (name,) = (n for n in archive.namelist() if n.endswith(".dist-info/METADATA"))
        said = message_from_bytes(archive.read(name))
    assert said["Version"] == fishmeasure.__version__
    assert said["Requires-Python"] == ">=3.11"
    assert "Typing :: Typed" in said.get_all("Classifier", [])
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert "version" not in project
