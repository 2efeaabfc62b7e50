"""Units, cohorts and entries over HTTP."""

from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import uuid4

import pytest
from starlette.testclient import TestClient


@pytest.fixture
def unit(client: TestClient) -> dict[str, Any]:
    """Return a new tank (invented)."""
    identity = str(uuid4())
    sent = {
        "id": identity,
        "name": f"Tank {identity[:6]}",
        "kind": "tank",
        "volume_m3": 6.0,
        "depth_m": 1.1,
    }
    answer = client.put(f"/v1/units/{identity}", json=sent)
    assert answer.status_code == 200, answer.text
    body: dict[str, Any] = answer.json()
    return body


@pytest.fixture
def cohort(client: TestClient) -> dict[str, Any]:
    """Return a new cohort (invented)."""
    identity = str(uuid4())
    sent = {"id": identity, "name": identity[:8], "species_key": "rainbow-trout"}
    body: dict[str, Any] = client.put(f"/v1/cohorts/{identity}", json=sent).json()
    return body


def died(unit: dict[str, Any], cohort: dict[str, Any]) -> dict[str, Any]:
    """Return an entry that one fish of the cohort died in the unit."""
    return {
        "kind": "died",
        "id": str(uuid4()),
        "on": "2026-03-09",
        "unit_id": unit["id"],
        "cohort_id": cohort["id"],
        "fish_count": 1,
    }


def test_a_unit_comes_back_with_all_its_fields(
    client: TestClient, unit: dict[str, Any]
) -> None:
    """What is not given has its default; the version is 1."""
    found = client.get(f"/v1/units/{unit['id']}").json()
    assert found == unit
    assert (found["version"], found["altitude_m"]) == (1, 0.0)
    assert unit in client.get("/v1/units").json()["items"]


def test_a_stale_version_is_a_conflict(
    client: TestClient, unit: dict[str, Any]
) -> None:
    """Of two changes on one version the second is told."""
    changed = {**unit, "version": 2, "volume_m3": 5.0}
    url = f"/v1/units/{unit['id']}"
    assert client.put(url, json=changed).status_code == 200
    late = client.put(url, json={**unit, "version": 2, "volume_m3": 4.0})
    assert (late.status_code, late.json()["code"]) == (409, "version-conflict")


@pytest.mark.parametrize(
    ("field", "value"),
    [("volume_m3", -1), ("volume_m3", "many"), ("kind", "bucket"), ("colour", "red")],
)
def test_a_unit_that_cannot_be_is_refused(
    client: TestClient, unit: dict[str, Any], field: str, value: object
) -> None:
    """The answer names the field."""
    answer = client.put(
        f"/v1/units/{unit['id']}", json={**unit, "version": 2, field: value}
    )
    assert (answer.status_code, answer.json()["code"]) == (422, "invalid-request")
    assert field in answer.text


def test_half_an_aerator_is_refused_by_the_records_own_sentence(
    client: TestClient, unit: dict[str, Any]
) -> None:
    """Litres without a depth: the answer names the field, the device and the place."""
    pump = {"name": "pump", "gas_l_per_min": 20.0}
    sent = {**unit, "version": 2, "aeration": [pump]}
    answer = client.put(f"/v1/units/{unit['id']}", json=sent)
    assert answer.status_code == 422
    assert answer.json()["message"] == (
        "aeration[0].diffuser_depth_m of pump must be above 0 to say what its gas "
        "brings."
    )
    assert answer.json()["details"][0]["where"] == "body.aeration.0"


def test_entries_are_written_once_and_listed_newest_first(
    client: TestClient, unit: dict[str, Any], cohort: dict[str, Any]
) -> None:
    """A queue sent again writes nothing twice."""
    where = {"unit_id": unit["id"], "cohort_id": cohort["id"]}
    entries = [
        {
            "kind": "stocked",
            "id": str(uuid4()),
            "on": "2026-03-01",
            "fish_count": 500,
            "mean_weight_g": 12.0,
            **where,
        },
        {
            "kind": "died",
            "id": str(uuid4()),
            "on": "2026-03-09",
            "fish_count": 3,
            **where,
        },
    ]
    first = client.post("/v1/entries", json={"entries": entries}).json()
    assert sorted(first["added"]) == sorted(e["id"] for e in entries)
    again = client.post("/v1/entries", json={"entries": entries}).json()
    assert (again["added"], len(again["repeated"])) == ([], 2)
    listed = client.get("/v1/entries", params={"unit_id": unit["id"]}).json()["items"]
    assert [entry["kind"] for entry in listed] == ["died", "stocked"]
    one = client.get(f"/v1/entries/{entries[0]['id']}").json()
    assert (one["fish_count"], one["mean_weight_g"]) == (500, 12.0)


def test_pages_of_entries_join(
    client: TestClient, unit: dict[str, Any], cohort: dict[str, Any]
) -> None:
    """The cursor leads on until nothing is left."""
    where = {"unit_id": unit["id"], "cohort_id": cohort["id"], "fish_count": 1}
    sent = [
        {"kind": "died", "id": str(uuid4()), "on": f"2026-04-0{day}", **where}
        for day in range(1, 6)
    ]
    client.post("/v1/entries", json={"entries": sent})
    seen: list[str] = []
    cursor: int | None = 0
    while cursor is not None:
        answer = client.get(
            "/v1/entries",
            params={"unit_id": unit["id"], "limit": 2, "cursor": cursor},
        ).json()
        seen += [entry["on"] for entry in answer["items"]]
        cursor = answer["next"]
    assert seen == [f"2026-04-0{day}" for day in range(5, 0, -1)]


@pytest.mark.parametrize(
    ("change", "status", "code"),
    [
        ({"unit_id": str(uuid4())}, 404, "unknown-record"),
        ({"kind": "eaten"}, 422, "invalid-request"),
        ({"fish_count": -1}, 422, "invalid-request"),
        ({"on": "tomorrow"}, 422, "invalid-request"),
    ],
)
def test_entries_that_cannot_be_are_refused(
    client: TestClient,
    unit: dict[str, Any],
    cohort: dict[str, Any],
    change: dict[str, Any],
    status: int,
    code: str,
) -> None:
    """With the reason."""
    entry = died(unit, cohort)
    answer = client.post("/v1/entries", json={"entries": [entry | change]})
    assert (answer.status_code, answer.json()["code"]) == (status, code)


def test_other_content_under_one_id_is_a_conflict(
    client: TestClient, unit: dict[str, Any], cohort: dict[str, Any]
) -> None:
    """An id stands for one content for ever."""
    entry = died(unit, cohort)
    client.post("/v1/entries", json={"entries": [entry]})
    answer = client.post("/v1/entries", json={"entries": [entry | {"fish_count": 2}]})
    assert (answer.status_code, answer.json()["code"]) == (409, "entry-conflict")


def test_the_moment_of_writing_is_the_servers(
    client: TestClient, unit: dict[str, Any], cohort: dict[str, Any]
) -> None:
    """Whatever clock the phone has; what is sent of it is neither kept nor refused."""
    start = datetime.now(UTC)
    false = {"recorded_at": "2001-02-03T04:05:06Z"}
    entry = died(unit, cohort)
    for _ in range(2):  # a queue that sends again what was written
        answer = client.post("/v1/entries", json={"entries": [entry | false]})
        assert answer.status_code == 200, answer.text
    sent = {"units": unit, "cohorts": cohort}
    for name, record in sent.items():
        body = {**record, "version": 2, "name": f"{record['name']} II"} | false
        answer = client.put(f"/v1/{name}/{record['id']}", json=body)
        assert answer.status_code == 200, answer.text
    paths = [f"entries/{entry['id']}"]
    paths += [f"{name}/{record['id']}" for name, record in sent.items()]
    for path in paths:
        told = client.get(f"/v1/{path}").json()["recorded_at"]
        moment = datetime.fromisoformat(told)
        # Entries of one test that were written before may push it ahead by a little.
        assert start <= moment <= datetime.now(UTC) + timedelta(seconds=1), path


def test_a_book_that_comes_back_keeps_its_moments(
    client: TestClient, unit: dict[str, Any], cohort: dict[str, Any]
) -> None:
    """A document of a book is no entry of today; order within a day is by them."""
    entry = died(unit, cohort) | {"recorded_at": "2026-03-09T10:00:00Z"}
    document = client.get("/v1/export.json").json() | {"entries": [entry]}
    assert client.post("/v1/import", json=document).status_code == 200
    found = client.get(f"/v1/entries/{entry['id']}").json()
    assert found["recorded_at"] == entry["recorded_at"]
