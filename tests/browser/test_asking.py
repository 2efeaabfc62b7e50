"""What is far from what the book expects is asked about, also without a network."""

import os
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from tests.browser.conftest import Phones
from tests.browser.phone import Phone
from tests.browser.server import Server

SHOTS = os.environ.get("FISHMEASURE_SHOTS", "")


def shot(phone: Phone, name: str) -> None:
    """Keep a picture of the screen for people, where one is wanted."""
    if SHOTS:
        phone.page.screenshot(path=str(Path(SHOTS) / f"{name}.png"))


def count_fish(phone: Phone, unit_id: str, fish: str, on: str = "") -> None:
    """Fill in the form of a count and save it."""
    phone.open(f"unit/{unit_id}/book/add/counted")
    phone.page.locator("[name=fish_count]").fill(fish)
    if on:
        phone.page.locator("[name=on]").fill(on)
    phone.button("Save the entry").click()


def counts(server: Server, unit_id: str) -> list[tuple[Any, Any]]:
    """Return the counts in the book, and whether each was confirmed."""
    entries = server.items(f"v1/entries?unit_id={unit_id}&only_in_force=true")
    found = [entry for entry in entries if entry["kind"] == "counted"]
    return [(entry["fish_count"], entry["confirmed"]) for entry in found]


def test_questions_with_and_without_a_network(
    phones: Phones, own_server: Server
) -> None:
    """Each is asked where it is typed; what the server alone doubts comes back."""
    server = own_server.start()
    phone = phones(server.url)
    unit_id = phone.add_unit("Tank A", fish=240)
    phone.open(f"unit/{unit_id}")
    expect(phone.button("Sample this unit")).to_be_visible()
    count_fish(phone, unit_id, "2400")
    expect(phone.page.get_by_text("Is this right?")).to_be_visible()
    expect(phone.page.get_by_text("Were it 240 fish, it would fit.")).to_be_visible()
    shot(phone, "asked")
    phone.button("Correct it").click()
    phone.sent()
    assert counts(server, unit_id) == [(240, False)]
    phone.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    phone.open(f"unit/{unit_id}")
    expect(phone.button("Sample this unit")).to_be_visible()
    server.stop()
    count_fish(phone, unit_id, "120")
    expect(phone.page.get_by_text("Is this right?")).to_be_visible()
    shot(phone, "asked_offline")
    phone.button("It is right").click()
    expect(phone.page.locator("body")).to_have_attribute(
        "data-screen", f"unit/{unit_id}/book"
    )
    yesterday = (date.today() - timedelta(days=1)).isoformat()  # noqa: DTZ011
    count_fish(phone, unit_id, "9999", yesterday)  # no bounds for another day
    expect(phone.page.get_by_text("9999").first).to_be_visible()
    server.start()
    phone.page.reload()
    expect(phone.page.get_by_text("is it right?").first).to_be_visible()
    shot(phone, "asked_in_book")
    phone.page.get_by_text("is it right?").first.click()
    expect(phone.page.get_by_text("By the book there are no fish")).to_be_visible()
    shot(phone, "asked_by_server")
    phone.button("It is right").click()
    phone.sent()
    assert sorted(counts(server, unit_id)) == [
        (120, True),
        (240, False),
        (9999, True),
    ]
    phone.open(f"unit/{unit_id}/book")
    expect(phone.page.get_by_text("confirmed as right").first).to_be_visible()
    shot(phone, "confirmed")
