"""A server whose machine's clock is set back confuses, refuses and removes nothing."""

import os
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from starlette.testclient import TestClient

from api import outlooks, services
from api.app import create_app
from api.files import upload_file
from api.settings import Settings
from fishmeasure.store import archive, rows
from tests.api.live import COHORT, UNIT, small_photo, unit_body

START = datetime(2026, 6, 1, 12, tzinfo=UTC)


@pytest.fixture
def set_back(monkeypatch: pytest.MonkeyPatch) -> Any:
    """Return what sets the clock of the server's parts to days before the start."""

    def by(days: int) -> None:
        now = START - timedelta(days=days)

        class Clock(datetime):
            @classmethod
            def now(cls, tz: Any = None) -> Any:  # noqa: ARG003
                return now

        for module in (archive, rows):
            monkeypatch.setattr(module, "datetime", Clock)
        monkeypatch.setattr(outlooks, "today", now.date)
        clock = SimpleNamespace(time=now.timestamp)
        monkeypatch.setattr(services, "time", clock)

    return by


def died(number: int, on: date) -> dict[str, Any]:
    """Return an entry."""
    where = {"unit_id": str(UNIT), "cohort_id": str(COHORT)}
    name = f"00000000-0000-0000-0000-{number:012d}"
    return {"kind": "died", "id": name, "on": str(on), "fish_count": 1, **where}


def test_all_that_a_server_keeps_stays_in_its_order(
    tmp_path: Any, set_back: Any
) -> None:
    """Back by a year between any two, and once more over a restart."""
    settings = Settings(data_dir=tmp_path, workers=1, hosts="testserver")
    photos: list[str] = []
    with TestClient(create_app(settings)) as client:
        set_back(0)
        path, unit = unit_body(UNIT)
        assert client.put(path, json=unit).status_code == 200
        fish = {"id": str(COHORT), "name": "fish", "species_key": "rainbow-trout"}
        assert client.put(f"/v1/cohorts/{COHORT}", json=fish).status_code == 200
        stocked = died(1, date(2026, 5, 1)) | {
            "kind": "stocked",
            "fish_count": 500,
            "mean_weight_g": 20.0,
        }
        assert client.post("/v1/entries", json={"entries": [stocked]}).is_success
        for number in range(4):
            set_back(365 * number)
            files = {"photos": ("a.jpg", small_photo(number))}
            sent = client.post("/v1/photos", files=files).json()["items"][0]
            photos.insert(0, sent["id"])
            entry = died(10 + number, date(2026, 5, 2 + number))
            assert client.post("/v1/entries", json={"entries": [entry]}).is_success
            newer = unit | {"version": 2 + number, "note": f"{number}"}
            assert client.put(path, json=newer).status_code == 200
        before = shown(client)
        assert [photo["id"] for photo in before["photos"]] == photos
        page = client.get("/v1/photos", params={"limit": 2}).json()
        rest = client.get("/v1/photos", params={"limit": 9, "cursor": page["next"]})
        both = page["items"] + rest.json()["items"]
        assert [photo["id"] for photo in both] == photos
        assert client.get(path).json()["version"] == 5
        # 500 less 4 that died, whatever the clock said when it was written down
        state = client.get(f"{path}/state", params={"date": "2026-05-20"}).json()
        assert "496" in str(state)
    set_back(4 * 365)
    with (
        upload_file(tmp_path / "incoming") as others,  # of another server, living
        TestClient(create_app(settings)) as client,
    ):
        upload = Path(others.name)
        os.utime(upload, (time.time() + 60, time.time() + 60))  # from before it was set
        assert shown(client) == before
        assert upload.exists()
        for what in ("state", "outlook"):  # a day before the first entry
            answer = client.get(f"{path}/{what}")
            assert answer.status_code == 200, answer.text
        anew = client.put(
            f"/v1/photos/{photos[0]}/settings", json={"species": "arctic-char"}
        )
        assert anew.json()["revision"] == 2


def shown(client: TestClient) -> dict[str, Any]:
    """Return what the server has."""
    return {
        what: client.get(f"/v1/{what}").json()["items"]
        for what in ("photos", "entries", "units", "cohorts")
    }
