"""The server with its book on PostgreSQL."""

from pathlib import Path
from uuid import uuid4

from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings
from tests.store.conftest import postgres_url

__all__ = ["postgres_url"]  # the fixture


def test_uploads_samples_and_reads_work_there_too(
    postgres_url: str,
    tmp_path: Path,
    net_photo: bytes,
) -> None:
    """A photo, a sample with it, its entry, an outlook, an export, and a restart."""
    settings = Settings(
        book=postgres_url, data_dir=tmp_path, workers=1, hosts="testserver"
    )
    identity = str(uuid4())
    with TestClient(create_app(settings)) as client:
        demo = client.post("/v1/demo", json={"date": "2026-05-02"}).json()
        unit = demo["units"][0]
        state = client.get(f"/v1/units/{unit}/state", params={"date": "2026-05-02"})
        cohort = state.json()["cohorts"][0]["cohort"]["id"]
        sent = client.post("/v1/photos", files={"photos": ("a.jpg", net_photo)})
        photo = sent.json()["items"][0]["id"]
        again = client.post("/v1/photos", files={"photos": ("b.jpg", net_photo)})
        assert again.json() == sent.json()
        nets = [{"fish": 8, "net_g": 1500, "photos": [photo]}]
        body = {
            "date": "2026-05-02",
            "unit_id": unit,
            "cohort_id": cohort,
            "nets": nets,
        }
        sample = client.put(f"/v1/samples/{identity}", json=body).json()
        assert sample["estimate"]["fish_measured"] >= 5
        assert sample["advice"]["ration_kg"]["value"] > 0
        where = {"unit_id": unit, "cohort_id": cohort}
        for _ in range(2):
            recorded = client.post(f"/v1/samples/{identity}/record", json=where)
            assert recorded.json()["entry_id"] == identity
        before = client.get("/v1/export.json").json()
    with TestClient(create_app(settings)) as client:
        assert client.get("/v1/export.json").json() == before
        assert len(before["photos"]) == len(before["samples"]) == 1
