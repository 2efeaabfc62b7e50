"""What is far from what the book expects waits for an answer: 409, a token, a mark."""

from typing import Any
from uuid import uuid4

import pytest
from fastapi.testclient import TestClient


@pytest.fixture
def stocked(client: TestClient) -> dict[str, Any]:
    """Stock 1,000 fish of 60 g; return what an entry about them has."""
    where = {"unit_id": str(uuid4()), "cohort_id": str(uuid4())}
    unit, fish = where.values()
    tank: dict[str, Any] = {"id": unit, "name": unit[:8], "kind": "tank"}
    tank |= {"volume_m3": 6.0, "depth_m": 1.1}
    assert client.put(f"/v1/units/{unit}", json=tank).is_success
    cohort = {"id": fish, "name": fish[:8], "species_key": "rainbow-trout"}
    assert client.put(f"/v1/cohorts/{fish}", json=cohort).is_success
    entry = {
        "kind": "stocked",
        "id": str(uuid4()),
        "on": "2026-04-01",
        "fish_count": 1000,
        "bulk_weight_kg": 60.0,
    }
    assert client.post("/v1/entries", json={"entries": [entry | where]}).is_success
    return where


def counted(where: dict[str, Any], fish: int) -> dict[str, Any]:
    """Return a count some days later."""
    entry = {"kind": "counted", "id": str(uuid4()), "on": "2026-04-08"}
    return {**entry, **where, "fish_count": fish}


def send(client: TestClient, *entries: dict[str, Any], **more: Any) -> Any:
    """Send entries; return the answer."""
    return client.post("/v1/entries", json={"entries": list(entries), **more})


def test_a_doubt_is_409_with_the_correction(
    client: TestClient, stocked: dict[str, Any]
) -> None:
    """Reasons in words and figures, the likeliest slip, the entry it would be."""
    entry = counted(stocked, 9900)
    answer = send(client, entry)
    assert (answer.status_code, answer.json()["code"]) == (409, "doubtful-entry")
    body = answer.json()
    (question,) = body["details"]
    assert question["id"] == entry["id"]
    assert question["doubts"][0]["code"] == "doubt-count"
    assert question["doubts"][0]["parameters"]["entered_fish"] == 9900
    assert question["slip"]["message"] == "Were it 990 fish, it would fit."
    assert question["corrected"]["fish_count"] == 990
    assert body["confirm"]
    assert client.get(f"/v1/entries/{entry['id']}").status_code == 404
    assert send(client, question["corrected"]).is_success


def test_the_token_stores_it_with_its_mark(
    client: TestClient, stocked: dict[str, Any]
) -> None:
    """Sent again, with the token or without, it is the same entry."""
    entry = counted(stocked, 9900)
    token = send(client, entry).json()["confirm"]
    assert send(client, entry, confirm=token).json()["added"] == [entry["id"]]
    assert client.get(f"/v1/entries/{entry['id']}").json()["confirmed"] is True
    assert send(client, entry, confirm=token).json()["repeated"] == [entry["id"]]
    assert send(client, entry).json()["repeated"] == [entry["id"]]


def test_the_token_is_for_this_entry_and_state(
    client: TestClient, stocked: dict[str, Any]
) -> None:
    """Another figure, or a book that has changed, is asked about anew."""
    entry = counted(stocked, 9900)
    token = send(client, entry).json()["confirm"]
    other = entry | {"fish_count": 99_000}
    assert send(client, other, confirm=token).status_code == 409
    died = {**counted(stocked, 2), "kind": "died"}
    assert send(client, died).is_success
    again = send(client, entry, confirm=token)
    assert again.status_code == 409
    assert send(client, entry, confirm=again.json()["confirm"]).is_success


def test_nobody_marks_by_hand(client: TestClient, stocked: dict[str, Any]) -> None:
    """What is sent as confirmed is asked about, or has no mark where it is likely."""
    wrong = counted(stocked, 9900) | {"confirmed": True}
    assert send(client, wrong).status_code == 409
    right = counted(stocked, 990) | {"confirmed": True}
    assert send(client, right).is_success
    assert not client.get(f"/v1/entries/{right['id']}").json()["confirmed"]


def test_all_or_none(client: TestClient, stocked: dict[str, Any]) -> None:
    """One doubtful entry of several keeps all back; each knows those before it."""
    first = {**counted(stocked, 700), "kind": "harvested"}
    second = {**counted(stocked, 600), "kind": "harvested"}
    answer = send(client, first, second)
    assert answer.status_code == 409
    assert [item["id"] for item in answer.json()["details"]] == [second["id"]]
    assert client.get(f"/v1/entries/{first['id']}").status_code == 404


def test_a_sample_is_asked_about(client: TestClient, stocked: dict[str, Any]) -> None:
    """Kilograms as grams: asked before it is recorded, and recorded with its mark."""
    sample = str(uuid4())
    nets = [{"fish": 10, "gross_g": 0.62 + n / 100, "tare_g": 0.0} for n in range(3)]
    sent = {"date": "2026-04-08", "species": "rainbow-trout", "nets": nets}
    assert client.put(f"/v1/samples/{sample}", json=sent).is_success
    answer = client.post(f"/v1/samples/{sample}/record", json=stocked)
    assert (answer.status_code, answer.json()["code"]) == (409, "doubtful-entry")
    assert answer.json()["details"][0]["slip"]["code"] == "slip-grams"
    token = answer.json()["confirm"]
    for _ in range(2):
        done = client.post(
            f"/v1/samples/{sample}/record", json={**stocked, "confirm": token}
        )
        assert done.json()["entry_id"] == sample
    assert client.get(f"/v1/entries/{sample}").json()["confirmed"] is True


def test_exchanged_photos_are_asked_about(
    client: TestClient, stocked: dict[str, Any]
) -> None:
    """Two nets of 60 g a fish, each beside the other's lengths; put right, they go in.

    0.0138 L^3 of eight fish of 170 and of 156 mm, a few mm apart: 542 g and 419 g.
    """
    large = [163.0, 166.0, 168.0, 170.0, 171.0, 172.0, 174.0, 176.0]
    small = [150.0, 153.0, 154.0, 156.0, 157.0, 158.0, 160.0, 162.0]
    sample, at = {"date": "2026-04-08", "species": "rainbow-trout"}, f"{uuid4()}"
    wrong = [
        {"fish": 8, "net_g": 542.0, "lengths_mm": small},
        {"fish": 8, "net_g": 419.0, "lengths_mm": large},
    ]
    put = client.put(f"/v1/samples/{at}", json={**sample, "nets": wrong})
    assert "photos-exchanged" in {one["code"] for one in put.json()["problems"]}
    answer = client.post(f"/v1/samples/{at}/record", json=stocked)
    assert (answer.status_code, answer.json()["code"]) == (409, "doubtful-entry")
    doubts = answer.json()["details"][0]["doubts"]
    (said,) = (one["message"] for one in doubts if one["code"] == "photos-exchanged")
    assert "net 1 is too heavy by 29 %" in said
    right = [
        {**wrong[0], "lengths_mm": large},
        {**wrong[1], "lengths_mm": small},
    ]
    assert client.put(f"/v1/samples/{at}", json={**sample, "nets": right}).is_success
    assert client.post(f"/v1/samples/{at}/record", json=stocked).is_success


def test_the_outlook_says_what_would_be_asked(
    client: TestClient, stocked: dict[str, Any]
) -> None:
    """A page without reach of the server asks by the server's own bounds."""
    path = f"/v1/units/{stocked['unit_id']}/outlook"
    asks = client.get(path, params={"date": "2026-04-08"}).json()["asks"]
    bound = next(one for one in asks if one["kind"] == "counted")
    assert bound["low"] < 1000 < bound["high"]
    assert send(client, counted(stocked, round(bound["high"]) - 1)).is_success
    beyond = counted(stocked, round(bound["high"] * 1.5))
    assert send(client, beyond).status_code == 409
