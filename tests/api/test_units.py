"""A unit on a day, what a sample means for it, and everything out and in again."""

import csv
import datetime as dt
import io
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from uuid import uuid4

import pypdfium2
import pytest
from starlette.testclient import TestClient
from typer.testing import CliRunner

import fishmeasure as fm
from api.app import create_app
from api.settings import Settings
from fishmeasure.cli import app
from fishmeasure.store.demo import about

DAY = "2026-05-02"


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """Return a client of a server with the invented spring tanks in its book."""
    folder = tmp_path_factory.mktemp("server")
    settings = Settings(data_dir=folder, workers=1, hosts="testserver")
    with TestClient(create_app(settings)) as fresh:
        answer = fresh.post("/v1/demo", json={"date": DAY})
        assert answer.status_code == 200, answer.text
        yield fresh


@pytest.fixture(scope="module")
def tank(client: TestClient) -> dict[str, Any]:
    units = client.get("/v1/units").json()["items"]
    return next(unit for unit in units if unit["name"] == "Tank B")


def get(client: TestClient, path: str, **params: Any) -> dict[str, Any]:
    answer = client.get(path, params=params)
    assert answer.status_code == 200, answer.text
    body: dict[str, Any] = answer.json()
    return body


def test_a_state_adds_up_by_hand(client: TestClient, tank: dict[str, Any]) -> None:
    """Fish by plain addition of the entries since the count of the tank's cohort."""
    state = get(client, f"/v1/units/{tank['id']}/state", date=DAY)
    assert state["about"] == about()
    entries = get(
        client, "/v1/entries", unit_id=tank["id"], only_in_force=True, limit=1000
    )["items"]
    counted = next(entry for entry in entries if entry["kind"] == "counted")
    died = sum(
        entry["fish_count"]
        for entry in entries
        if entry["kind"] == "died"
        and entry["cohort_id"] == counted["cohort_id"]
        and entry["on"] > counted["on"]
    )
    cohort = next(
        item
        for item in state["cohorts"]
        if item["cohort"]["id"] == counted["cohort_id"]
    )
    # the count's own error moves the book part of the way only
    assert cohort["book_count"] == pytest.approx(
        counted["fish_count"] - died, abs=counted["fish_count_sd"]
    )
    assert cohort["biomass_kg"]["value"] == pytest.approx(
        cohort["fish_count"]["value"] * cohort["mean_weight_g"]["value"] / 1000.0,
        rel=0.01,
    )


def test_a_state_says_what_cannot_be_in_the_book(client: TestClient) -> None:
    """More dead than there were: an answer with the doubt, not a failure."""
    ids = {name: str(uuid4()) for name in ("unit", "cohort", "stocked", "died")}
    unit: dict[str, Any] = {"id": ids["unit"], "name": "Odd", "kind": "tank"}
    unit |= {"volume_m3": 1.0, "depth_m": 1.0}
    cohort = {"id": ids["cohort"], "name": "Odd", "species_key": "rainbow-trout"}
    where = {"unit_id": ids["unit"], "cohort_id": ids["cohort"], "on": DAY}
    stocked: dict[str, Any] = {**where, "id": ids["stocked"], "kind": "stocked"}
    stocked |= {"bulk_weight_kg": 1.0, "mean_weight_g": 10.0}
    died = {**where, "id": ids["died"], "kind": "died", "fish_count": 500}
    for path, body in (
        (f"units/{ids['unit']}", unit),
        (f"cohorts/{ids['cohort']}", cohort),
    ):
        assert client.put(f"/v1/{path}", json=body).status_code == 200
    entries: dict[str, Any] = {"entries": [stocked, died]}
    asked = client.post("/v1/entries", json=entries)
    assert asked.status_code == 409, asked.text
    sent = client.post(
        "/v1/entries", json=entries | {"confirm": asked.json()["confirm"]}
    )
    assert sent.status_code == 200, sent.text
    state = get(client, f"/v1/units/{ids['unit']}/state", date=DAY)
    assert state["cohorts"][0]["problems"]


def test_an_earlier_day_has_the_fish_of_that_day(
    client: TestClient, tank: dict[str, Any]
) -> None:
    """Before the stocking nothing is there; the outlook says what to do."""
    empty = get(client, f"/v1/units/{tank['id']}/state", date="2025-01-01")
    assert (empty["cohorts"], empty["fish_count"]["value"]) == ([], 0.0)
    outlook = get(client, f"/v1/units/{tank['id']}/outlook", date="2025-01-01")
    assert outlook["ration_kg"] is outlook["feeding"] is outlook["outages"] is None
    assert outlook["cohorts"] == []
    assert outlook["problems"][0]["code"] == "no-fish"


def test_an_outlook_answers_what_a_grower_asks(
    client: TestClient, tank: dict[str, Any]
) -> None:
    """Feed, plate size, oxygen, outage, limits, each with its interval and unit."""
    outlook = get(client, f"/v1/units/{tank['id']}/outlook", date=DAY)
    limits = {one["name"]: one for one in outlook["limits"]["load"]["limits"]}
    stops = outlook["outages"]["results"]
    for figure in (
        outlook["ration_kg"],
        limits["oxygen"]["used_fraction"],
        stops[0]["to_critical"]["minutes"],
    ):
        assert 0 < figure["low"] <= figure["value"] <= figure["high"]
    assert outlook["feeding"]["today_kg"] == outlook["ration_kg"]
    plans = outlook["feeding"]["plans"]
    assert {len(plan["days"]) for plan in plans} == {7}
    plate = next(c["plate_dates"] for c in outlook["cohorts"] if c["plate_dates"])
    assert DAY < plate["first"]["day"] < plate["half"]["day"]
    assert outlook["about"] == about()
    means_g = [one["mean_weight_g"]["value"] for one in outlook["cohorts"]]
    mean_g = outlook["biomass_kg"]["value"] * 1000.0 / outlook["fish_count"]["value"]
    assert min(means_g) <= mean_g <= max(means_g)
    for cohort in outlook["cohorts"]:
        assert cohort["cv"]["low"] < cohort["cv"]["value"] < cohort["cv"]["high"]
    assert any("electrician" in text for text in outlook["cautions"])
    names = {stop["case"]["cause"]: stop["name"] for stop in stops}
    assert names["intake"] == "Intake or screen blocked, or the supply cut"
    assert names["blower"] == "Blower stops"
    for stop in stops:
        low, high = (stop["to_critical"]["minutes"][end] for end in ("low", "high"))
        assert stop["to_caution"]["minutes"]["low"] <= low <= high


def test_an_outlook_is_the_same_by_every_way(tmp_path: Path) -> None:
    """From Python, the command line and the API: one record, its names and figures."""
    settings = Settings(data_dir=tmp_path, workers=1, hosts="testserver")
    with TestClient(create_app(settings)) as fresh:
        assert fresh.post("/v1/demo", json={"date": DAY}).status_code == 200
        for unit in fresh.get("/v1/units").json()["items"]:
            path = f"/v1/units/{unit['id']}"
            answered = get(fresh, f"{path}/outlook", date=DAY)
            state = get(fresh, f"{path}/state", date=DAY)
            with fm.Book(tmp_path / "book.sqlite") as book:
                said = book.outlook(unit["name"], DAY).to_json()
            words = ["outlook", unit["name"], "--on", DAY, "--json", "-", "--book"]
            done = CliRunner().invoke(app, [*words, str(tmp_path / "book.sqlite")])
            written = json.loads(done.stdout)
            for name in ("biomass_kg", "fish_count", "ration_kg", "room_kg"):
                assert said[name]["value"] == written[name]["value"]
            assert answered == said == written
            assert state == {**said["state"], "about": said["about"]}


def test_without_a_date_it_is_the_servers_day(
    client: TestClient, tank: dict[str, Any]
) -> None:
    """The grower's own day is meant."""
    before = dt.date.today()  # noqa: DTZ011 - the same clock as the server's
    state = get(client, f"/v1/units/{tank['id']}/state")
    after = dt.date.today()  # noqa: DTZ011
    assert before <= dt.date.fromisoformat(state["on"]) <= after


def test_the_outlook_is_one_page_on_paper(
    client: TestClient, tank: dict[str, Any]
) -> None:
    """A4 is 210 mm x 297 mm (ISO 216)."""
    answer = client.get(f"/v1/units/{tank['id']}/outlook.pdf", params={"date": DAY})
    assert answer.headers["content-type"] == "application/pdf"
    document = pypdfium2.PdfDocument(io.BytesIO(answer.content))
    assert len(document) == 1
    size_mm = [points / 72 * 25.4 for points in document[0].get_size()]
    assert size_mm == pytest.approx([210, 297], abs=0.1)
    assert "Tank B" in document[0].get_textpage().get_text_range()


@pytest.mark.parametrize("name", ["growth.svg", "distribution.svg"])
def test_pictures_suit_the_page(
    client: TestClient, tank: dict[str, Any], name: str
) -> None:
    """Dark text on a light page, light text on a dark one, both on clear ground."""
    inks = []
    for theme in ("light", "dark"):
        answer = client.get(
            f"/v1/units/{tank['id']}/{name}", params={"date": DAY, "theme": theme}
        )
        assert answer.headers["content-type"] == "image/svg+xml"
        assert "<svg" in answer.text
        assert not re.search(r'(href|src)="https?:', answer.text)
        inks.append("#e8e8e8" in answer.text)
    assert inks == [False, True]


def test_a_sample_says_what_it_means_before_it_is_saved(
    client: TestClient, tank: dict[str, Any]
) -> None:
    """The same figures that the book gives once the sample is in it."""
    state = get(client, f"/v1/units/{tank['id']}/state", date=DAY)
    cohort = state["cohorts"][0]["cohort"]["id"]
    # Near what the book expects, so that nothing is asked; and with drip.
    mean_g = 1.04 * state["cohorts"][0]["mean_weight_g"]["value"]
    identity = str(uuid4())
    body = {
        "date": DAY,
        "unit_id": tank["id"],
        "cohort_id": cohort,
        "species": "arctic-char",
        "nets": [{"fish": n, "net_g": round(n * mean_g)} for n in (8, 9)],
    }
    entries = get(client, "/v1/entries", unit_id=tank["id"])
    before = get(client, f"/v1/units/{tank['id']}/outlook", date=DAY)
    sample = client.put(f"/v1/samples/{identity}", json=body).json()
    assert get(client, "/v1/entries", unit_id=tank["id"]) == entries
    advice = sample["advice"]
    assert advice["biomass_kg"]["value"] != before["biomass_kg"]["value"]
    assert get(client, f"/v1/samples/{identity}")["advice"] == advice
    where = {"unit_id": tank["id"], "cohort_id": cohort}
    saved = client.post(f"/v1/samples/{identity}/record", json=where).json()
    assert saved["advice"] == advice
    after = get(client, f"/v1/units/{tank['id']}/outlook", date=DAY)
    # the entry itself has the time at which it was written
    assert after.pop("samples")[-1]["id"] == advice.pop("samples")[-1]["id"]
    assert after == advice


def test_a_sample_of_no_unit_has_no_advice(client: TestClient) -> None:
    """Nor one of a unit that the book does not know."""
    body = {"date": DAY, "nets": [{"fish": 8, "net_g": 1900}]}
    assert client.put(f"/v1/samples/{uuid4()}", json=body).json()["advice"] is None
    body |= {"unit_id": str(uuid4()), "cohort_id": str(uuid4())}
    assert client.put(f"/v1/samples/{uuid4()}", json=body).json()["advice"] is None


def test_an_unknown_unit_is_404(client: TestClient) -> None:
    """On every path of a unit."""
    for name in ("state", "outlook", "outlook.pdf", "growth.svg", "distribution.svg"):
        answer = client.get(f"/v1/units/{uuid4()}/{name}")
        assert (answer.status_code, answer.json()["code"]) == (404, "unknown-record")


def test_the_demo_goes_into_an_empty_book_only(client: TestClient) -> None:
    """What a grower has written is not mixed with invented data."""
    answer = client.post("/v1/demo", json={})
    assert (answer.status_code, answer.json()["code"]) == (409, "book-not-empty")


def test_an_export_comes_back_whole(client: TestClient, tmp_path: Path) -> None:
    """Into an empty server: the same units, cohorts and entries; again: no more."""
    document = get(client, "/v1/export.json")
    settings = Settings(data_dir=tmp_path, workers=1, hosts="testserver")
    with TestClient(create_app(settings)) as other:
        first = other.post("/v1/import", json=document).json()
        assert len(first["added"]) == len(document["entries"])
        assert first["left_out"] == {
            "photos": len(document["photos"]),
            "samples": len(document["samples"]),
        }
        again = other.post("/v1/import", json=document).json()
        assert (again["added"], len(again["repeated"])) == ([], len(first["added"]))
        copy = get(other, "/v1/export.json")
    for name in ("remarks", "units", "cohorts", "entries"):
        assert copy[name] == document[name]


@pytest.mark.parametrize(
    "document",
    [{}, {"format": "fishmeasure-book", "version": 1, "units": [{"name": "x"}]}],
)
def test_what_is_no_book_is_not_imported(
    client: TestClient, document: dict[str, Any]
) -> None:
    """With the reason."""
    answer = client.post("/v1/import", json=document)
    assert (answer.status_code, answer.json()["code"]) == (422, "import-file")


def test_every_table_can_be_had(client: TestClient, net_photo: bytes) -> None:
    """RFC 4180: every row has the header's columns; a row for each record."""
    photo = client.post("/v1/photos", files={"photos": ("a.jpg", net_photo)}).json()
    document = get(client, "/v1/export.json")
    counts = {name: len(document[name]) for name in ("units", "cohorts", "entries")}
    counts["samples"] = len(document["samples"])
    counts["photos"] = len(photo["items"][0]["measurement"]["fish"])
    for name, count in counts.items():
        answer = client.get(f"/v1/export/{name}.csv")
        assert answer.headers["content-type"].startswith("text/csv")
        rows = list(csv.reader(io.StringIO(answer.text, newline="")))
        assert len(rows) == count + 1
        assert {len(row) for row in rows} == {len(rows[0])}
    assert client.get("/v1/export/devices.csv").status_code == 422
