"""What is written for contributors and operators is true."""

import datetime as dt
import re
import shlex
import tomllib
from pathlib import Path

import pytest
from typer.main import get_command
from uvicorn.main import main as uvicorn_command

from api.settings import settings_table
from fishmeasure import __version__
from fishmeasure.cli import app

ROOT = Path(__file__).resolve().parents[2]
PAGES = (
    ROOT / "DEVELOPERS.md",
    *sorted((ROOT / "fishmeasure").glob("*/README.md")),
    ROOT / "api" / "README.md",
    ROOT / "sample_images" / "training" / "README.md",
)
TEXT = "\n".join(page.read_text(encoding="utf-8") for page in PAGES)


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


def test_every_room_has_its_page() -> None:
    """Said in DEVELOPERS.md, at most a page, and with how to add one."""
    rooms = {path.parent for path in (ROOT / "fishmeasure").glob("*/__init__.py")}
    assert {page.parent for page in PAGES} >= rooms
    developers = PAGES[0].read_text(encoding="utf-8")
    for page in PAGES[1:]:
        assert page.relative_to(ROOT).as_posix() in developers
        text = page.read_text(encoding="utf-8").partition("## ")[0]
        assert len(text.splitlines()) < 60
        assert "**A" in text


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.parent.name)
def test_what_a_page_names_is_there(page: Path) -> None:
    """Files and folders, from the page's own folder or the repository's."""
    text = page.read_text(encoding="utf-8").partition("## Changes")[0]
    text = text.partition("## Threat model")[0]  # names what is attacked, too
    named = re.findall(r"`([\w./-]+(?:\.(?:py|md|toml|js|json)|/))`", text)
    missing = [
        name
        for name in named
        if not (page.parent / name).exists()
        and not (ROOT / name).exists()
        and not ("/" not in name and list((ROOT / "tests").rglob(name)))
    ]
    assert [name for name in missing if not name.startswith(("/", ".."))] == []


OLD = re.compile(
    r"fishmeasure[./](stock|ledger|population|results|markers|segment|length)\b"
    r"|``(stock|ledger|population|samplefile|lwfit)\b|`(stock|ledger|population)/"
)


def test_no_text_names_an_old_place() -> None:
    """Docstrings and comments follow when code moves."""
    files = [
        path
        for folder in ("fishmeasure", "api", "tests", "sample_images")
        for path in (ROOT / folder).rglob("*.py")
        if path != Path(__file__)
    ]
    found = [
        f"{path.relative_to(ROOT)}: {line.strip()}"
        for path in (*files, *PAGES, ROOT / "README.md")
        for line in path.read_text(encoding="utf-8").splitlines()
        if OLD.search(line)
    ]
    assert found == []


def test_changes_are_dated_and_the_newest_is_this_version() -> None:
    """Newest first."""
    changes = PAGES[0].read_text(encoding="utf-8").partition("## Changes")[2]
    heads = re.findall(r"^### (\d+\.\d+\.\d+), (\d+ \w+ \d{4})$", changes, re.MULTILINE)
    assert heads[0][0] == __version__
    days = [dt.datetime.strptime(day, "%d %B %Y").date() for _, day in heads]  # noqa: DTZ007 - days alone
    assert days == sorted(days, reverse=True)


def test_tests_named_in_the_threat_model_exist() -> None:
    """Each answer to an attack is held by a test that is there."""
    server = (ROOT / "api" / "README.md").read_text(encoding="utf-8")
    store = (ROOT / "fishmeasure" / "store" / "README.md").read_text(encoding="utf-8")
    table = server.partition("## Threat model")[2].partition("## Running it")[0]
    table += store.partition("## What was done to lose data")[2]
    assert table.count("test_") > 20
    for name in re.findall(r"`(?:tests/\w+/)?(test_\w+\.py)`", table):
        assert list((ROOT / "tests").rglob(name)), name
