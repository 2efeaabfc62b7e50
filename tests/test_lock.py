"""The tested versions are a whole: nothing is left for an installer to find out.

`.ci/test` installs them without looking at what they ask for, so that neither the age
of pip nor a release newer than those locked changes what is installed. That is right
only while everything that is asked for is locked, in range and with the extra.
"""

import re
import tomllib
from collections.abc import Iterator
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[1]
PYTHONS = ("3.11", "3.12", "3.13")

Environment = dict[str, str]


def on_linux(python: str) -> Environment:
    return {
        "python_version": python,
        "python_full_version": f"{python}.0",
        "sys_platform": "linux",
        "platform_system": "Linux",
        "os_name": "posix",
    }


def entries() -> list[str]:
    """Return the locked requirements, each with its hashes, as one line."""
    text = (ROOT / ".ci" / "requirements.txt").read_text("utf-8")
    return text.replace("\\\n", " ").splitlines()


def locked() -> list[Requirement]:
    return [Requirement(entry.split("--hash")[0]) for entry in entries()]


def applies(need: Requirement, environment: Environment, extras: set[str]) -> bool:
    return need.marker is None or any(
        need.marker.evaluate(environment | {"extra": extra}) for extra in {"", *extras}
    )


def of_the_project() -> list[Requirement]:
    """Return what the project, its tests and its build ask for."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    waiting = ["test"]
    lines = list(project["dependencies"])
    while waiting:
        for line in project["optional-dependencies"][waiting.pop()]:
            need = Requirement(line)
            if need.name == project["name"]:
                waiting.extend(need.extras)
            else:
                lines.append(line)
    lines += (ROOT / ".ci" / "build.in").read_text("utf-8").split("\n")
    return [Requirement(line) for line in lines if line]


def asked(
    lock: list[Requirement], environment: Environment
) -> Iterator[tuple[str, Requirement]]:
    """Yield who asks for what under a Python: the project and each locked package.

    Of a package that is locked at another version for another Python, the one that is
    installed here is asked.
    """
    for need in of_the_project():
        yield "fishmeasure", need
    for package in lock:
        if not applies(package, {}, set()) or not applies(package, environment, set()):
            continue
        for line in metadata.requires(package.name) or ():
            need = Requirement(line)
            if applies(need, environment, package.extras):
                yield package.name, need


def left_to_resolve(lock: list[Requirement], environment: Environment) -> list[str]:
    """Return what an installer would still have to find out, as sentences."""
    have = {
        canonicalize_name(package.name): package
        for package in lock
        if applies(package, environment, set())
    }
    found = []
    for asker, need in asked(lock, environment):
        got = have.get(canonicalize_name(need.name))
        if got is None:
            found.append(f"{asker} asks for {need}, which is not locked")
            continue
        version = str(got.specifier).removeprefix("==")
        if not need.specifier.contains(version, prereleases=True):
            found.append(f"{asker} asks for {need}, {version} is locked")
        if missing := need.extras - got.extras:
            found.append(f"{asker} asks for {need}, locked without {sorted(missing)}")
    return found


def test_each_version_is_pinned_by_hash_and_no_source_is_named() -> None:
    """One exact version an entry, at least one hash, and nothing else."""
    assert len(entries()) > 80
    for entry in entries():
        package, *hashes = entry.split("--hash=")
        assert re.fullmatch(r"==[\w.]+", str(Requirement(package).specifier)), package
        assert hashes, package
        for each in hashes:
            assert re.fullmatch(r"sha256:[0-9a-f]{64}", each.strip()), package


@pytest.mark.parametrize("python", PYTHONS)
def test_nothing_is_left_to_be_resolved(python: str) -> None:
    """Everything asked for is locked once, in range, with the extras asked for."""
    environment = on_linux(python)
    names = [p.name for p in locked() if applies(p, environment, set())]
    assert len(names) == len(set(names))
    assert left_to_resolve(locked(), environment) == []


def test_a_lock_with_a_gap_is_told() -> None:
    """A missing extra, a missing package, a version out of range."""
    lock = []
    for package in locked():
        if package.name == "coverage":
            package.extras = set()
        if package.name == "click":
            package.specifier = Requirement("click==0.1").specifier
        if package.name != "h11":
            lock.append(package)
    told = left_to_resolve(lock, on_linux("3.11"))
    assert any("pytest-cov" in line and "without ['toml']" in line for line in told)
    assert any("uvicorn" in line and "h11" in line for line in told)
    assert any("click" in line and "0.1 is locked" in line for line in told)


def test_what_is_installed_here_is_what_is_locked() -> None:
    """Else the tests say nothing about the tested versions."""
    for package in locked():
        if applies(package, {}, set()):
            version = metadata.version(package.name)
            assert package.specifier.contains(version, prereleases=True), (
                f"{package.name} {version} is installed, {package} is locked: "
                "remove .venv and run .ci/test"
            )
