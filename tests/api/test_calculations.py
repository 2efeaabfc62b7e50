"""Calculations over HTTP give what their sources say."""

from typing import Any

import pytest
from starlette.testclient import TestClient

from api.calculations import CALCULATIONS, MOST_ITEMS


def result(client: TestClient, name: str, **fields: Any) -> Any:
    answer = client.post(f"/v1/calculations/{name}", json=fields)
    assert answer.status_code == 200, answer.text
    return answer.json()["result"]


UNIT = {"volume_m3": 6.0, "depth_m": 1.1, "inflow_l_per_min": 30.0}
PERCH = {"species_key": "perch", "biomass_kg": 1, "mean_weight_g": 50}


def test_every_calculation_is_listed(client: TestClient) -> None:
    """With its fields and a sentence."""
    listed = client.get("/v1/calculations").json()["items"]
    assert [item["name"] for item in listed] == list(CALCULATIONS)
    assert all(item["summary"] and item["fields"] for item in listed)


def test_oxygen_saturation_is_the_standards(client: TestClient) -> None:
    """20 °C, fresh, 1 atm: 9.09 mg/L (EN 25814 table)."""
    got = result(client, "oxygen-saturation", water={"temperature_deg_c": 20.0})
    assert got["do_mg_per_l"] == pytest.approx(9.09, abs=0.006)


def test_growth_coefficient_is_the_worked_example(client: TestClient) -> None:
    """10 g to 350 g in 200 days at 11 °C: TGC x 1000 = 2.22 (trout breeder's page)."""
    got = result(
        client,
        "thermal-growth-coefficient",
        start_weight_g=10,
        end_weight_g={"value": 350, "sd": 0},
        degree_days=2200,
    )
    # the page gives it x 100; the core's own scale is read off its value
    assert got["value"] * {True: 1000.0, False: 1.0}[
        got["value"] < 0.1
    ] == pytest.approx(2.22, abs=0.01)


def test_ammonia_is_the_published_table(client: TestClient) -> None:
    """pH 8, 24 °C: 5.02 % un-ionised (UF/IFAS FA16)."""
    got = result(
        client,
        "ammonia",
        species_key="rainbow-trout",
        tan_mg_per_l=1.0,
        ph=8.0,
        temperature_deg_c=24.0,
    )
    assert got["unionised_fraction"] == pytest.approx(0.0502, abs=1e-4)


def test_an_outage_answers_with_its_cautions(client: TestClient) -> None:
    """Minutes with an interval, measures, and the licensed-electrician caution."""
    answer = client.post(
        "/v1/calculations/outage",
        json={
            "unit": UNIT,
            "species_key": "rainbow-trout",
            "biomass_kg": {"value": 60, "sd": 4},
            "mean_weight_g": 150,
            "temperature_deg_c": 11,
            "start_do_mg_per_l": 9.5,
        },
    ).json()
    minutes = answer["result"]["to_critical"]["minutes"]
    assert 0 < minutes["low"] < minutes["value"] < minutes["high"]
    assert any("electrician" in text for text in answer["cautions"])


def test_a_load_and_its_room(client: TestClient) -> None:
    """The density is biomass over volume."""
    got = result(
        client,
        "unit-load",
        unit=UNIT,
        groups=[
            {"species_key": "rainbow-trout", "biomass_kg": 60, "mean_weight_g": 150}
        ],
        temperature_deg_c=11,
    )
    assert got["density_kg_per_m3"]["value"] == pytest.approx(10.0)


def test_growth_ahead_reaches_the_size(client: TestClient) -> None:
    """Two samples, a spring's temperature: dates in order."""
    got = result(
        client,
        "growth",
        species_key="rainbow-trout",
        samples=[
            {"day": "2026-03-01", "mean_weight_g": {"value": 40, "sd": 1}},
            {"day": "2026-05-01", "mean_weight_g": {"value": 95, "sd": 3}},
        ],
        temperature={"temperature_deg_c": 11.0},
        size_g=300,
        days=300,
    )
    first, half = (got["dates_at_size"][k]["day"] for k in ("first", "half"))
    assert "2026-05-01" < first < half


def test_a_weekly_harvest_over_http(client: TestClient) -> None:
    """Fish all alike of 500 g that do not grow: 20 kg a week are 40 of them."""
    got = result(
        client,
        "weekly-harvest",
        species_key="rainbow-trout",
        samples=[{"day": "2026-05-01", "mean_weight_g": 500}],
        temperature={"temperature_deg_c": 0.0},
        fish_count=90,
        weekly={"start": "2026-05-01", "until": "2026-05-15", "biomass_kg": 20},
        cv=0,
    )
    assert [h["taken_count"] for h in got["harvests"]] == [40, 40, 10]
    assert got["taken_kg"]["value"] == pytest.approx(45.0)


@pytest.mark.parametrize(
    ("name", "fields", "code"),
    [
        ("oxygen-saturation", {"water": {"temperature_deg_c": 95}}, "outside-range"),
        (
            "oxygen-saturation",
            {"water": {"temperature_deg_c": "hot"}},
            "invalid-request",
        ),
        ("oxygen-saturation", {}, "invalid-request"),
        (
            "unit-load",
            {"unit": UNIT, "groups": [], "temperature_deg_c": 11},
            "outside-range",
        ),
        (
            "unit-load",
            {
                "unit": UNIT,
                "groups": [PERCH] * (MOST_ITEMS + 1),
                "temperature_deg_c": 11,
            },
            "invalid-request",
        ),
        (
            "oxygen-demand",
            {"species_key": "unicorn", "mean_weight_g": 9, "temperature_deg_c": 9},
            "no-stock-figures",
        ),
    ],
)
def test_what_cannot_be_calculated_is_refused(
    client: TestClient, name: str, fields: dict[str, Any], code: str
) -> None:
    """With the one error body."""
    answer = client.post(f"/v1/calculations/{name}", json=fields)
    assert (answer.status_code, answer.json()["code"]) == (422, code)
