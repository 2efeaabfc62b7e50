"""Who entered, photographed and deleted: the token says so, and nothing else."""

from pathlib import Path
from typing import Any
from uuid import UUID, uuid4

import pytest
from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings
from tests.api.test_access import add, client, devices_of, serving

__all__ = ["client"]  # the fixture
Json = dict[str, Any]


def by(token: str) -> dict[str, str]:
    return {"Authorization": f"Bearer {token}"}


@pytest.fixture
def book(client: TestClient) -> tuple[Json, Json]:
    """Return a unit and a cohort that the owner has set up."""
    owner = by(add(client, "owner"))
    unit: Json = {"id": str(uuid4()), "name": "Tank", "kind": "tank"}
    unit |= {"volume_m3": 6.0, "depth_m": 1.0}
    cohort = {"id": str(uuid4()), "name": "Trout", "species_key": "rainbow-trout"}
    for name, record in (("units", unit), ("cohorts", cohort)):
        path = f"/v1/{name}/{record['id']}"
        answer = client.put(path, json={**record, "version": 1}, headers=owner)
        assert answer.status_code == 200, answer.text
    return unit, cohort


def test_an_entry_has_its_author_from_the_token(
    client: TestClient, book: tuple[Json, Json]
) -> None:
    """Whatever it says itself; sent again by another phone it stays the first one's."""
    ann, bob = by(add(client, "worker")), by(add(client, "owner"))
    false = {"recorded_by": "the owner", "device_id": str(uuid4())}
    entry = {
        "kind": "died",
        "id": str(uuid4()),
        "on": "2026-03-04",
        "unit_id": book[0]["id"],
        "cohort_id": book[1]["id"],
        "fish_count": 3,
    }
    for who in (ann, bob):
        sent = {"entries": [entry | false]}
        answer = client.post("/v1/entries", json=sent, headers=who)
        assert answer.status_code == 200, answer.text
    found = client.get(f"/v1/entries/{entry['id']}", headers=bob).json()
    me = client.get("/v1/devices/me", headers=ann).json()
    assert found["recorded_by"] == me["device"]["name"] == "worker's"
    assert found["device_id"] == me["device"]["id"]
    assert me["role"] == "worker"


def test_a_name_changed_later_does_not_change_what_was_written(
    client: TestClient, book: tuple[Json, Json]
) -> None:
    """The device is the same, by its identifier."""
    worker, owner = add(client, "worker"), by(add(client, "owner"))
    entry = {
        "kind": "feed",
        "id": str(uuid4()),
        "on": "2026-03-04",
        "unit_id": book[0]["id"],
        "feed_kg": 2.0,
    }
    client.post("/v1/entries", json={"entries": [entry]}, headers=by(worker))
    me = client.get("/v1/devices/me", headers=by(worker)).json()["device"]
    body = {"name": "Ann", "role": "reader"}
    path = f"/v1/devices/{me['id']}"
    assert client.put(path, json=body, headers=owner).json()["name"] == "Ann"
    found = client.get(f"/v1/entries/{entry['id']}", headers=by(worker)).json()
    assert (found["recorded_by"], found["device_id"]) == ("worker's", me["id"])
    refused = client.post("/v1/entries", json={"entries": [entry]}, headers=by(worker))
    assert refused.json()["code"] == "not-allowed"


def test_an_imported_book_keeps_its_authors(
    client: TestClient, book: tuple[Json, Json]
) -> None:
    """It is another book's history, which only the owner may bring."""
    worker, owner = by(add(client, "worker")), by(add(client, "owner"))
    document = client.get("/v1/export.json", headers=owner).json()
    entry = {
        "kind": "feed",
        "id": str(uuid4()),
        "on": "2026-03-04",
        "unit_id": book[0]["id"],
        "feed_kg": 2.0,
        "recorded_by": "somebody",
    }
    document["entries"] = [entry]
    assert client.post("/v1/import", json=document, headers=worker).status_code == 403
    assert client.post("/v1/import", json=document, headers=owner).status_code == 200
    found = client.get(f"/v1/entries/{entry['id']}", headers=worker).json()
    assert found["recorded_by"] == "somebody"
    table = client.get("/v1/export/entries.csv", headers=worker).text
    assert "recorded_by" in table.splitlines()[0]


def test_a_deleted_photo_is_gone_with_a_trace(tmp_path: Path, net_photo: bytes) -> None:
    """Its file and pictures go, what was measured stays; it is not taken again."""
    with serving(tmp_path) as client:
        worker, owner = by(add(client, "worker")), by(add(client, "owner"))
        files = {"photos": ("net.jpg", net_photo)}
        sent = client.post("/v1/photos", files=files, headers=worker).json()
        (photo,) = sent["items"]
        path = f"/v1/photos/{photo['id']}"
        kept = tmp_path / "photos" / photo["id"][:2] / photo["id"]
        assert kept.exists()
        assert photo["received_by"] == "worker's"
        assert client.delete(path, headers=worker).status_code == 403
        gone = client.delete(path, headers=owner).json()
        assert not kept.exists()
        assert (gone["deleted_by"], gone["links"]) == ("owner's", {})
        assert gone["measurement"] == photo["measurement"]
        assert client.delete(path, headers=owner).json() == gone  # again, no other
        for ending in ("/picture", "/thumbnail.jpg", "/overlay.jpg"):
            answer = client.get(path + ending, headers=worker)
            assert (answer.status_code, answer.json()["code"]) == (410, "photo-deleted")
            assert "owner's" in answer.json()["message"]
        again = client.post("/v1/photos", files=files, headers=owner)
        assert (again.status_code, again.json()["code"]) == (410, "photo-deleted")
        anew = client.put(f"{path}/settings", json={}, headers=worker)
        assert anew.json()["code"] == "photo-deleted"
        kept.parent.mkdir(exist_ok=True)
        kept.write_bytes(net_photo)  # as a crash, or an older backup, would leave it
    with serving(tmp_path) as client:
        assert not kept.exists()
        listed = client.get("/v1/photos", headers=owner).json()["items"]
        assert [one["deleted_by"] for one in listed] == ["owner's"]


def test_an_invitation_pairs_one_device_of_its_role(client: TestClient) -> None:
    """The link holds address and code; the code is used up."""
    owner = by(add(client, "owner"))
    body = {"role": "worker"}
    made = client.post("/v1/devices/invitations", json=body, headers=owner).json()
    assert made["link"] == f"http://testserver/#/pair/{made['code']}"
    assert made["qr_svg"].lstrip().startswith("<?xml")
    phone = {"code": made["code"], "name": " Ann's phone "}
    paired = client.post("/v1/devices", json=phone)
    assert (paired.status_code, paired.json()["role"]) == (201, "worker")
    assert paired.json()["name"] == "Ann's phone"
    assert client.post("/v1/devices", json=phone).json()["code"] == "wrong-code"
    assert client.get("/v1/devices/list", headers=owner).status_code == 200
    client.cookies.clear()
    mine = by(paired.json()["token"])
    assert client.get("/v1/devices/list", headers=mine).status_code == 403


def test_invitations_are_few_and_end(client: TestClient) -> None:
    """The tenth makes the first void; after ten minutes all are."""
    app: Any = client.app
    pairing = app.state.pairing
    owner = by(add(client, "owner"))

    def invited() -> str:
        sent = {"role": "reader"}
        answer = client.post("/v1/devices/invitations", json=sent, headers=owner)
        return str(answer.json()["code"])

    codes = [invited() for _ in range(10)]
    assert try_code(client, codes[0]) == 403
    assert try_code(client, codes[1]) == 201
    now = pairing.clock()
    pairing.clock = lambda: now + 601
    assert try_code(client, codes[2]) == 403


def try_code(client: TestClient, code: str) -> int:
    client.cookies.clear()
    body = {"code": code, "name": "a phone"}
    return client.post("/v1/devices", json=body).status_code


def test_the_owner_of_a_set_address_is_invited_by_it(tmp_path: Path) -> None:
    """Where the owner sits at the server itself, a phone cannot open "localhost"."""
    settings = Settings(
        data_dir=tmp_path,
        workers=1,
        hosts="testserver",
        address="https://192.0.2.5:8765/",
    )
    with TestClient(create_app(settings)) as client:
        made = client.post("/v1/devices/invitations", json={"role": "owner"}).json()
    assert made["link"] == f"https://192.0.2.5:8765/#/pair/{made['code']}"


def test_a_device_that_is_not_there_is_told(client: TestClient) -> None:
    """Renamed or unpaired; and a name is more than blanks."""
    owner = by(add(client, "owner"))
    path = f"/v1/devices/{UUID(int=1)}"
    body = {"name": "x", "role": "reader"}
    assert client.put(path, json=body, headers=owner).status_code == 404
    assert client.delete(path, headers=owner).status_code == 404
    blank = client.put(path, json={**body, "name": "  "}, headers=owner)
    assert blank.status_code == 422
    assert len(devices_of(client).all()) == 1


def test_a_sample_is_gone_on_with_and_taken_back_by_another_phone(
    client: TestClient, book: tuple[Json, Json]
) -> None:
    """It belongs to the book from the first; who began and who went on is kept."""
    ann, bob = by(add(client, "worker")), by(add(client, "owner"))
    path = f"/v1/samples/{uuid4()}"
    where = {"unit_id": book[0]["id"], "cohort_id": book[1]["id"]}
    net = {"fish": 8, "gross_g": 1912.0, "tare_g": 640.0}
    begun = {"date": "2026-03-04", "species": "rainbow-trout", "nets": [net], **where}
    client.put(path, json=begun, headers=ann)
    (found,) = open_samples(client, bob)
    assert (found["received_by"], found["changed_by"]) == ("worker's", "worker's")
    more = found["sample"] | {"nets": [net, {"fish": 9, "net_g": 1431.0}]}
    gone_on = client.put(path, json=more, headers=bob).json()
    assert (gone_on["received_by"], gone_on["changed_by"]) == ("worker's", "owner's")
    recorded = client.post(f"{path}/record", json=where, headers=ann).json()
    assert recorded["entry_id"] == found["id"]
    assert open_samples(client, bob) == []

    back = client.delete(path, headers=bob).json()
    assert (back["taken_back_at"] is None, back["changed_by"]) == (False, "owner's")
    assert client.delete(path, headers=ann).json() == back  # again changes nothing
    listed = client.get("/v1/entries?only_in_force=true", headers=ann).json()["items"]
    assert listed == []
    (cancelled, sample) = client.get("/v1/entries", headers=ann).json()["items"]
    assert (cancelled["replaces"], cancelled["recorded_by"]) == (
        sample["id"],
        "owner's",
    )


def test_a_sample_whose_entry_was_taken_back_is_listed_as_such(
    client: TestClient, book: tuple[Json, Json]
) -> None:
    """It was taken back in the book's own history, not where samples are."""
    worker = by(add(client, "worker"))
    identity = str(uuid4())
    path = f"/v1/samples/{identity}"
    where = {"unit_id": book[0]["id"], "cohort_id": book[1]["id"]}
    net = {"fish": 8, "gross_g": 1912.0, "tare_g": 640.0}
    body = {"date": "2026-03-04", "species": "rainbow-trout", "nets": [net], **where}
    client.put(path, json=body, headers=worker)
    client.post(f"{path}/record", json=where, headers=worker)
    gone = {"kind": "cancelled", "id": str(uuid4()), "on": "2026-03-05"}
    sent = {"entries": [{**gone, "replaces": identity}]}
    assert client.post("/v1/entries", json=sent, headers=worker).is_success
    for answer in (
        client.get("/v1/samples", headers=worker).json()["items"][0],
        client.get(path, headers=worker).json(),
        client.delete(path, headers=worker).json(),
    ):
        assert answer["taken_back_at"] is not None


def test_an_open_sample_that_is_taken_back_is_no_more_to_be_gone_on_with(
    client: TestClient, book: tuple[Json, Json]
) -> None:
    """Until somebody sends it anew; nothing comes into the book by it."""
    worker = by(add(client, "worker"))
    path = f"/v1/samples/{uuid4()}"
    body = {"date": "2026-03-04", "species": "rainbow-trout", "nets": []}
    body |= {"unit_id": book[0]["id"], "cohort_id": book[1]["id"]}
    client.put(path, json=body, headers=worker)
    assert client.delete(path, headers=worker).json()["entry_id"] is None
    assert open_samples(client, worker) == []
    more = {**body, "nets": [{"fish": 9, "net_g": 1431.0}]}
    client.put(path, json=more, headers=worker)
    assert len(open_samples(client, worker)) == 1
    assert client.get("/v1/entries", headers=worker).json()["items"] == []


def open_samples(client: TestClient, who: dict[str, str]) -> list[Json]:
    answer = client.get("/v1/samples?only_open=true", headers=who)
    found: list[Json] = answer.json()["items"]
    return found
