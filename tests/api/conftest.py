"""A server with an empty book in a temporary folder."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings

ROOT = Path(__file__).resolve().parents[2]
SAMPLES = ROOT / "sample_images"


@pytest.fixture(scope="module")
def settings(tmp_path_factory: pytest.TempPathFactory) -> Settings:
    """Return the settings of a small server, one for the tests of a module."""
    folder = tmp_path_factory.mktemp("server")
    return Settings(data_dir=folder, workers=1, hosts="testserver")


@pytest.fixture(scope="module")
def client(settings: Settings) -> Iterator[TestClient]:
    """Return a client of a fresh server."""
    with TestClient(create_app(settings)) as fresh:
        yield fresh


@pytest.fixture(scope="session")
def net_photo() -> bytes:
    """Return a rendered photo of a net sample (invented)."""
    return (SAMPLES / "tank_a_net2.jpg").read_bytes()
