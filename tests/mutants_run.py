"""Runs the tests against mutants: collected once, then a fork for each mutant.

A plugin of pytest (`-p tests.mutants_run`) for tests/mutants.py. In a run that is
traced (`WRITE`) it writes which test ran which line and how long each took. In the
other (`PLAN`) a fork of the process that has collected the tests puts the mutant's code
in the place of its function's and runs first the tests that run the changed line, the
quick ones first, until one fails.
"""

import base64
import gc
import json
import marshal
import os
import signal
import sys
import time
from collections import defaultdict
from collections.abc import Generator, Iterator
from functools import cache
from itertools import accumulate
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any, Final

import pytest
from coverage import CoverageData

WRITE, PLAN = "MUTANTS_WRITE", "MUTANTS_PLAN"
"""Settings: the file to write what was traced to; the file that says what to run."""

_seconds: dict[str, float] = defaultdict(float)
_told: dict[str, Path] = {}
_POLL_S: Final = 0.05


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, object, object]:
    before = time.process_time()
    found = yield
    _seconds[item.nodeid] += time.process_time() - before
    return found


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    if report.failed and "to" in _told:
        _told["to"].write_text(report.nodeid, "utf-8")


def _ran(traced: Path) -> dict[str, dict[int, list[str]]]:
    """Return of each file and line which tests ran it."""
    data = CoverageData(basename=str(traced))
    data.read()
    here = Path.cwd()
    return {
        Path(file).relative_to(here).as_posix(): {
            line: sorted({name.rpartition("|")[0] for name in names if name})
            for line, names in data.contexts_by_lineno(file).items()
        }
        for file in data.measured_files()
    }


def pytest_unconfigure() -> None:
    if WRITE in os.environ:
        ran = _ran(Path(os.environ["COVERAGE_FILE"]))
        found = json.dumps({"seconds": _seconds, "ran": ran})
        Path(os.environ[WRITE]).write_text(found, "utf-8")


def pytest_runtestloop(session: pytest.Session) -> bool | None:
    """Go on as usual in a fork for each mutant; in the first process run nothing."""
    if PLAN not in os.environ:
        return None
    plan = json.loads(Path(os.environ[PLAN]).read_text("utf-8"))
    killed = 0
    for mutant in plan["mutants"]:
        file = Path.cwd() / mutant["path"]
        before = file.read_text("utf-8")
        file.write_text(mutant["source"], "utf-8")  # for tests that start a process
        told = Path(os.environ[PLAN] + ".told")
        told.unlink(missing_ok=True)
        sys.stdout.flush()
        _seen(mutant["seen"])  # once for all forks
        child = os.fork()
        if not child:
            _become(session, mutant, plan["seconds"])
            _told["to"] = told
            return None
        by = _wait(child, told, 60.0 * plan["minutes"])
        file.write_text(before, "utf-8")
        killed += by is not None
        fate = "killed  " if by else "SURVIVED"
        print(mutant["number"], fate, mutant["words"], "|", by or "", flush=True)
    print(f"{killed} of {len(plan['mutants'])} killed (seed {plan['seed']})")
    return True


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(exitstatus: int) -> None:
    """End a fork here: what waits for threads at exit would wait for ever."""
    if "to" in _told:
        os._exit(exitstatus)


def _wait(child: int, told: Path, seconds: float) -> str | None:
    """Return the test that fails, or None where none does."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            code = os.waitstatus_to_exitcode(status)
            if code in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
                return None
            return told.read_text("utf-8") if told.exists() else f"exit status {code}"
        time.sleep(_POLL_S)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return "it does not end in time"


@cache
def _seen(file: str) -> dict[str, Any]:
    """Return which test ran which line, and how long each took."""
    found: dict[str, Any] = json.loads(Path(file).read_text("utf-8"))
    return found


def _become(session: pytest.Session, mutant: dict[str, Any], most: float) -> None:
    """Make this process the one that tests the mutant, for ``most`` seconds."""
    os.setsid()
    nothing = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nothing, 1)
    os.dup2(nothing, 2)
    _swap(marshal.loads(base64.b64decode(mutant["code"])))  # noqa: S302 - our own
    seen = _seen(mutant["seen"])
    ran = seen["ran"].get(mutant["path"], {})
    first, last = mutant["lines"]
    near = {test for n in range(first, last + 1) for test in ran.get(str(n), [])}
    # A test that is new since it was traced took no seconds, and comes first.
    seconds = defaultdict(float, seen["seconds"])
    near |= {item.nodeid for item in session.items} - set(seconds)
    items = [i for i in session.items if i.nodeid.startswith(tuple(mutant["tests"]))]
    items.sort(key=lambda item: (item.nodeid not in near, seconds[item.nodeid]))
    spent = accumulate(seconds[item.nodeid] for item in items)
    items = [item for item, sum_s in zip(items, spent, strict=True) if sum_s < most]
    session.items[:] = items
    session.testscollected = len(items)


def _swap(changed: CodeType) -> None:
    """Put the mutant's code into the functions that live."""
    new = {(code.co_firstlineno, code.co_name): code for code in _codes(changed)}
    for found in gc.get_objects():
        if not isinstance(found, FunctionType):
            continue
        here = found.__code__
        if here.co_filename == changed.co_filename:
            found.__code__ = new.get((here.co_firstlineno, here.co_name), here)


def _codes(code: CodeType) -> Iterator[CodeType]:
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield part
            yield from _codes(part)
