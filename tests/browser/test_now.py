"""What the water says now stands first on the phone, in words as well as in colour."""

import datetime as dt
from uuid import uuid4

import httpx2
import pytest
from playwright.sync_api import ViewportSize, expect

from tests.browser.conftest import Phones
from tests.browser.server import Server

SMALL: ViewportSize = {"width": 360, "height": 640}


def unit_with_water(server: Server, name: str, **read: float) -> str:
    """Enter a tank with 200 trout, and its water as read today."""
    unit, cohort = str(uuid4()), str(uuid4())
    today = dt.datetime.now(tz=dt.UTC).astimezone().date()
    stocked = today - dt.timedelta(days=30)

    def put(path: str, body: object, method: str = "PUT") -> None:
        answer = httpx2.request(method, f"{server.url}v1/{path}", json=body, timeout=30)
        answer.raise_for_status()

    put(
        f"units/{unit}",
        {
            "id": unit,
            "name": name,
            "kind": "tank",
            "volume_m3": 4.0,
            "depth_m": 1.2,
            "inflow_l_per_min": 90.0,
        },
    )
    put(
        f"cohorts/{cohort}",
        {"id": cohort, "name": f"{name} trout", "species_key": "rainbow-trout"},
    )
    entries: list[dict[str, object]] = [
        {
            "kind": "stocked",
            "id": str(uuid4()),
            "on": stocked.isoformat(),
            "unit_id": unit,
            "cohort_id": cohort,
            "fish_count": 200,
            "mean_weight_g": 100.0,
        }
    ]
    if read:
        entries.append(
            {
                "kind": "water",
                "id": str(uuid4()),
                "on": today.isoformat(),
                "unit_id": unit,
                **read,
            }
        )
    put("entries", {"entries": entries}, "POST")
    return unit


def test_lethal_water_is_the_first_thing_on_the_units_screen(
    phones: Phones, server: Server
) -> None:
    """Red and in words, without scrolling; no feed, no room; every problem is there."""
    unit = unit_with_water(
        server,
        "Bad water",
        temperature_deg_c=14.0,
        do_mg_per_l=2.5,
        ph=8.3,
        tan_mg_per_l=4.0,
    )
    phone = phones(server.plain_url, SMALL)
    phone.open(f"unit/{unit}")
    banner = phone.page.locator(".now .banner.bad")
    expect(banner.locator("strong").first).to_have_text(
        "Act now. Oxygen is 2.5 mg/L (read today), below the 3 mg/L under which "
        "rainbow trout may die."
    )
    box = banner.locator("strong").first.bounding_box()
    assert box is not None
    assert box["y"] + box["height"] < SMALL["height"]
    assert phone.page.locator("main > *").first.locator(".banner.bad").count() == 1
    for label, value in (("Feed today", "none"), ("Room left", "none")):
        row = phone.page.locator(".outlook > div").filter(has_text=label)
        expect(row.locator("dd").first).to_have_text(value)
    outlook = server.get(f"v1/units/{unit}/outlook")
    assert len(outlook["problems"]) >= 3
    text = phone.page.locator("main").inner_text()
    for problem in outlook["problems"]:
        said = [r["message"] for r in outlook["now"]["reasons"]]
        said = [m for m in said if problem["message"].startswith(m)]
        assert text.count((said or [problem["message"]])[0]) == 1


@pytest.mark.parametrize(
    ("read", "kind", "words"),
    [
        ({}, "plain", "The water is not known."),
        ({"temperature_deg_c": 12.0, "do_mg_per_l": 4.5}, "warn", "Watch the water."),
        ({"temperature_deg_c": 12.0, "do_mg_per_l": 9.0}, "good", "The water is good"),
    ],
)
def test_every_verdict_has_a_word_beside_its_colour(
    phones: Phones, server: Server, read: dict[str, float], kind: str, words: str
) -> None:
    """Nothing hangs on the colour; unless all is well a reading can be entered."""
    unit = unit_with_water(server, f"Water {kind}", **read)
    phone = phones(server.plain_url, SMALL)
    phone.open(f"unit/{unit}")
    expect(phone.page.locator(f".now .banner.{kind} strong").first).to_contain_text(
        words
    )
    enter = phone.link("Enter a reading of the water")
    expect(enter).to_have_count(0 if kind == "good" else 1)
