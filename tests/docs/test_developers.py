"""What DEVELOPERS.md says about running it is true."""

import re
import shlex
import tomllib
from pathlib import Path

from typer.main import get_command
from uvicorn.main import main as uvicorn_command

from api.settings import settings_table
from fishmeasure.cli import app

ROOT = Path(__file__).resolve().parents[2]
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def options(line: str) -> set[str]:
    return {word for word in shlex.split(line) if word.startswith("--")}


def test_every_setting_named_exists() -> None:
    """In the unit file, the container file and the text."""
    known = {name for name, _, _ in settings_table()}
    named = set(re.findall(r"FISHMEASURE_[A-Z_]+", TEXT)) - {"FISHMEASURE_SHARED"}
    named = {name for name in named if not name.startswith("FISHMEASURE_TEST")}
    assert len(named) >= 5
    assert named <= known


def test_every_command_and_option_named_exists() -> None:
    """Those of the unit file as well as uvicorn's in the container file."""
    commands = get_command(app).commands  # type: ignore[attr-defined]
    line = next(line for line in TEXT.splitlines() if line.startswith("ExecStart="))
    program, command, *_ = shlex.split(line.removeprefix("ExecStart="))
    assert Path(program).name == "fishmeasure"
    taken = {name for option in commands[command].params for name in option.opts}
    assert options(line) <= taken
    run = next(line for line in TEXT.splitlines() if line.startswith("CMD ["))
    words = re.findall(r'"([^"]+)"', run)
    known = {name for option in uvicorn_command.params for name in option.opts}
    assert {word for word in words if word.startswith("--")} <= known
    for name in re.findall(r"`?fishmeasure ([a-z-]+) ", TEXT):
        assert name in commands or name == "batch"


def test_extras_named_exist() -> None:
    """The container installs the database's driver by it."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    for name in re.findall(r"/src\[(\w+)\]", TEXT):
        assert name in project["optional-dependencies"]


def test_tests_named_in_the_threat_model_exist() -> None:
    """Each answer to an attack is held by a test that is there."""
    table = TEXT.partition("## Threat model")[2].partition("## Running it")[0]
    for name in re.findall(r"`(?:tests/\w+/)?(test_\w+\.py)`", table):
        assert list((ROOT / "tests").rglob(name)), name
