"""What fish photographed and weighed teach of a cohort, over HTTP, and its end."""

import json
from pathlib import Path
from typing import Any
from uuid import uuid4

import numpy as np
import pytest
from starlette.testclient import TestClient

SAMPLES = Path(__file__).parents[2] / "sample_images"
UNIT, FISH = str(uuid4()), str(uuid4())
DAY = "2026-05-02"


def truth_of(name: str) -> list[tuple[list[float], float]]:
    """Return snout and weight of each fish of a rendered photo."""
    text = (SAMPLES / f"{name}.truth.json").read_text(encoding="utf-8")
    return [(fish["snout_px"], fish["weight_g"]) for fish in json.loads(text)["fish"]]


@pytest.fixture(scope="module")
def photo(client: TestClient) -> dict[str, Any]:
    """Put a unit and a cohort into the book; return a photo of eight of its fish."""
    unit = {
        "id": UNIT,
        "name": "Tank A",
        "kind": "tank",
        "volume_m3": 6.0,
        "depth_m": 1.0,
        "inflow_l_per_min": 60.0,
    }
    assert client.put(f"/v1/units/{UNIT}", json=unit).status_code == 200
    cohort = {"id": FISH, "name": "Spring", "species_key": "rainbow-trout"}
    assert client.put(f"/v1/cohorts/{FISH}", json=cohort).status_code == 200
    return sent(client, "tank_a_net1")


def sent(client: TestClient, name: str, **choices: str) -> dict[str, Any]:
    data = (SAMPLES / f"{name}.jpg").read_bytes()
    answer = client.post(
        "/v1/photos", files={"photos": (f"{name}.jpg", data)}, data=choices
    )
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()["items"][0]
    return found


def weighed(photo: dict[str, Any], *numbers: int) -> list[dict[str, Any]]:
    """Return fish of the photo, by number, with their true weights."""
    rows = []
    for number in numbers:
        snout = np.array(photo["measurement"]["fish"][number - 1]["snout_px"])
        gaps = [
            (float(np.hypot(*(snout - at))), grams)
            for at, grams in truth_of("tank_a_net1")
        ]
        rows.append({"photo": photo["id"], "fish": number, "weight_g": min(gaps)[1]})
    return rows


def fit(client: TestClient, fish: list[dict[str, Any]], **more: Any) -> Any:
    body = {"unit_id": UNIT, "on": DAY, "fish": fish, **more}
    return client.post(f"/v1/cohorts/{FISH}/fit", json=body)


def enter(client: TestClient, *entries: dict[str, Any]) -> None:
    answer = client.post("/v1/entries", json={"entries": list(entries)})
    assert answer.status_code == 200, answer.text


def stock(client: TestClient, day: str) -> dict[str, Any]:
    answer = client.get(f"/v1/cohorts/{FISH}/stock", params={"date": day})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def mean_of(client: TestClient, photo_id: str, day: str, **more: Any) -> dict[str, Any]:
    """Return what a sample of one photographed net gives."""
    net = {"fish": 8, "photos": [photo_id]}
    sample = {"date": day, "unit_id": UNIT, "cohort_id": FISH, "nets": [net], **more}
    answer = client.put(f"/v1/samples/{uuid4()}", json=sample)
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def width(sample: dict[str, Any]) -> float:
    low, high = sample["estimate"]["mean_weight_interval_g"]
    return float(high / low)


def test_five_fish_teach_a_cohort_until_they_are_taken_back_or_spawn(
    client: TestClient, photo: dict[str, Any]
) -> None:
    """True weights of five fish; the mean of another photo's eight is known apart."""
    assert not stock(client, DAY)["figure"]["is_own"]
    published = mean_of(client, photo["id"], "2026-05-10")
    answer = fit(client, weighed(photo, 1, 3, 4, 5, 7))
    assert answer.status_code == 200, answer.text
    found = answer.json()
    entry, after = found["entry"], found["after"]
    assert len(entry["fish"]) == 5
    assert found["before"]["relative_sd"] > 1.5 * after["relative_sd"]
    true_g = float(np.mean([grams for _, grams in truth_of("tank_a_net1")]))
    told = found["photos_after"]["mean_weight_g"]
    assert told["low"] < true_g < told["high"]
    assert told["high"] / told["low"] < 1.15 / 0.85
    assert found["left_out_error"] < 0.1
    assert any("swollen belly" in note for note in found["notes"])
    assert not stock(client, DAY)["figure"]["is_own"]  # nothing was kept yet

    enter(client, entry)
    known = stock(client, "2026-05-10")
    assert [one["id"] for one in known["tellings"]] == [entry["id"]]
    figure = known["figure"]["c_g_per_cm3"]["value"]
    assert figure == pytest.approx(after["c_g_per_cm3"]["value"])
    assert not stock(client, "2026-05-01")["tellings"]  # it was not known before

    other = sent(client, "tank_a_net3", cohort_id=FISH)
    of_the_stock = {fish["weight_from"] for fish in other["measurement"]["fish"]}
    assert "stock" in of_the_stock
    learned = mean_of(client, other["id"], "2026-05-10")
    assert width(learned) < width(published)
    true_g = float(np.mean([grams for _, grams in truth_of("tank_a_net3")]))
    low, high = learned["estimate"]["mean_weight_interval_g"]
    assert low < true_g < high

    ripe = {"kind": "spawning", "id": str(uuid4()), "on": "2026-08-20"}
    enter(client, {**ripe, "unit_id": UNIT, "cohort_id": FISH})
    spawned = stock(client, "2026-08-25")
    assert (spawned["is_ripe"], spawned["tellings"]) == (True, [])
    unsure = mean_of(client, other["id"], "2026-08-25")
    assert "ripe-fish" in {problem["code"] for problem in unsure["problems"]}
    assert width(unsure) > width(published)
    later = stock(client, "2026-11-01")
    assert (later["is_ripe"], later["ripe_on"]) == (False, "2026-08-20")
    assert not later["figure"]["is_own"]  # none is carried across spawning

    back = {"kind": "cancelled", "id": str(uuid4()), "on": DAY}
    again = client.get(f"/v1/samples/{learned['id']}").json()
    assert again["revision"] == learned["revision"]
    enter(client, {**back, "replaces": entry["id"]})
    assert not stock(client, "2026-05-10")["figure"]["is_own"]
    again = client.get(f"/v1/samples/{learned['id']}").json()
    assert width(again) == pytest.approx(width(published), rel=0.15)


def test_a_bulk_weighing_of_a_photographed_net_teaches_c(
    client: TestClient, photo: dict[str, Any]
) -> None:
    """No fish is weighed singly; ripe ones teach nothing."""
    total_g = sum(grams for _, grams in truth_of("tank_a_net1"))
    net = {"fish": 8, "net_g": round(total_g * 1.01), "photos": [photo["id"]]}
    identity = str(uuid4())
    sample = {"date": "2026-11-20", "unit_id": UNIT, "cohort_id": FISH, "nets": [net]}
    client.put(f"/v1/samples/{identity}", json=sample)
    where: dict[str, Any] = {"unit_id": UNIT, "cohort_id": FISH}
    path = f"/v1/samples/{identity}/record"
    answer = client.post(path, json=where)
    if answer.status_code == 409:
        where["confirm"] = answer.json()["confirm"]
        answer = client.post(path, json=where)
    assert answer.status_code == 200, answer.text
    entry = client.get(f"/v1/entries/{identity}").json()
    assert 0.3 < entry["c_g_per_cm3"] < 0.7
    assert stock(client, "2026-11-21")["figure"]["is_own"]
    enter(
        client,
        {
            "kind": "cancelled",
            "id": str(uuid4()),
            "on": "2026-11-21",
            "replaces": identity,
        },
    )
    ripe = mean_of(client, photo["id"], "2026-11-20", ripe=True)
    assert "ripe-fish" in {problem["code"] for problem in ripe["problems"]}


def test_lengths_on_a_ruler_teach_how_high_ends_lie(
    client: TestClient, photo: dict[str, Any]
) -> None:
    """All 1 % shorter than taken for: the ends lay higher; no weight is taught."""
    rows = [
        {
            "photo": photo["id"],
            "fish": number,
            "fork_length_mm": round(0.99 * fish["fork_length_mm"], 1),
        }
        for number, fish in enumerate(photo["measurement"]["fish"], 1)
        if fish["complete"]
    ]
    answer = fit(client, rows)
    assert answer.status_code == 200, answer.text
    found = answer.json()
    entry = found["entry"]
    assert entry["snout_height"] > 0.70  # the trout's own (species file)
    assert "c_g_per_cm3" not in {k for k, v in entry.items() if v is not None}
    assert found["after"] is None
    assert any("half the thickness" in note for note in found["notes"])


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"fish": 99}, "names fish"),
        ({"weight_g": None}, "neither a weight nor a length"),
        ({"fish": 3}, "twice"),
    ],
)
def test_what_cannot_be_is_said(
    client: TestClient, photo: dict[str, Any], change: dict[str, Any], words: str
) -> None:
    rows = weighed(photo, 3, 1, 4)
    rows[1] |= change
    answer = fit(client, rows)
    assert answer.status_code == 422
    assert words in answer.json()["message"]


def test_too_few_fish_and_unknown_photos_are_refused(
    client: TestClient, photo: dict[str, Any]
) -> None:
    answer = fit(client, weighed(photo, 1, 3))
    assert (answer.status_code, answer.json()["code"]) == (422, "length-weight-data")
    rows = [{**row, "photo": "0" * 64} for row in weighed(photo, 1, 3, 4)]
    assert fit(client, rows).status_code == 404


def test_the_page_of_five_fish_is_a_pdf(client: TestClient) -> None:
    answer = client.get("/v1/five-fish.pdf")
    assert answer.content.startswith(b"%PDF")
