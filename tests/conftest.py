"""What all tests share."""

import os
from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def shared() -> Path:
    """Return the folder of photos and tables kept outside this repository."""
    beside = Path(__file__).resolve().parents[2] / "shared"
    folder = Path(os.environ.get("FISHMEASURE_SHARED", beside))
    if not (folder / "reference").is_dir():
        pytest.skip("no ../shared folder of photos and tables (FISHMEASURE_SHARED)")
    return folder
