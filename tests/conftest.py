"""What all tests share."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

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
