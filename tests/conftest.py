"""What all tests share."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

from tests.disks import NO_DISK

# A loaded machine is slow, not wrong: times are judged in tests/bench.
settings.register_profile("any-machine", deadline=None)
settings.load_profile("any-machine")


@pytest.fixture(scope="session")
def shared() -> Path:
    """Return the folder of photos and tables kept outside this repository."""
    beside = Path(__file__).resolve().parents[2] / "shared"
    folder = Path(os.environ.get("FISHMEASURE_SHARED", beside))
    if not (folder / "reference").is_dir():
        pytest.skip("no ../shared folder of photos and tables (FISHMEASURE_SHARED)")
    return folder


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    """Fail a run on CI in which a test was skipped: there all must run.

    Only whether disks may be mounted is for the machine to say.
    """
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter is None or not os.environ.get("CI"):
        return
    for report in reporter.stats.get("skipped", []):
        if NO_DISK in str(report.longrepr):
            continue
        reporter.write_line(f"skipped on CI: {report.nodeid}: {report.longrepr}")
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
