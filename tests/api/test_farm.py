"""All units in one answer, and the register, as the command line has them."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from typer.testing import CliRunner

from api.app import create_app
from api.settings import Settings
from fishmeasure.cli import app

DAY = "2026-05-02"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("server")


@pytest.fixture(scope="module")
def client(folder: Path) -> Iterator[TestClient]:
    settings = Settings(data_dir=folder, workers=1, hosts="testserver")
    with TestClient(create_app(settings)) as fresh:
        assert fresh.post("/v1/demo", json={"date": DAY}).status_code == 200
        yield fresh


def test_the_farm_is_what_the_command_writes(client: TestClient, folder: Path) -> None:
    answer = client.get("/v1/farm", params={"date": DAY}).json()
    asked = ["farm", "--on", DAY, "--json", "-", "--book", str(folder / "book.sqlite")]
    written = json.loads(CliRunner().invoke(app, asked).stdout)
    register = client.get("/v1/farm/register", params={"date": DAY}).json()
    assert [unit["name"] for unit in answer["units"]]
    for key in ("fish_count", "biomass_kg", "ration_kg"):
        assert answer[key] == written[key]
    assert register == written["register"]
    assert "invented" in answer["about"]


def test_the_page_to_print_is_the_same_twice(client: TestClient) -> None:
    pages = [client.get("/v1/farm/farm.pdf", params={"date": DAY}) for _ in range(2)]
    assert pages[0].content == pages[1].content
    assert pages[0].content.startswith(b"%PDF")


def test_new_kinds_of_entries_are_taken(client: TestClient) -> None:
    unit = client.get("/v1/units").json()["items"][0]["id"]
    bought = {
        "kind": "feed-bought",
        "id": "00000000-0000-4000-8000-000000000001",
        "on": DAY,
        "feed_kg": 50.0,
        "pellet_mm": 3.0,
    }
    medicine = {
        "kind": "treated",
        "id": "00000000-0000-4000-8000-000000000002",
        "on": DAY,
        "unit_id": unit,
        "product": "bath",
        "withdrawal_days": 10,
    }
    answer = client.post("/v1/entries", json={"entries": [bought, medicine]})
    assert answer.status_code in {200, 201}, answer.text
    found = client.get("/v1/farm", params={"date": DAY}).json()
    assert found["feed"]["bought_kg"] == 50.0
    waits = {one["unit_id"]: one["withdrawals"] for one in found["units"]}
    assert waits[unit][0]["ends_on"] == "2026-05-12"
