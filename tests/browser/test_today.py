"""The first screen: the whole farm in one request, entries in a few taps, offline."""

import datetime as dt
import os
import re
from collections import Counter
from pathlib import Path
from uuid import uuid4

import httpx2
from playwright.sync_api import Locator, Request, ViewportSize, expect

from tests.browser.conftest import Phones
from tests.browser.phone import Phone
from tests.browser.server import Server
from tests.browser.test_now import SMALL, unit_with_water
from tests.browser.test_screens import axe_faults, size_faults

DESKTOP: ViewportSize = {"width": 1280, "height": 800}
LANDSCAPE: ViewportSize = {"width": 800, "height": 360}


def card(phone: Phone, name: str) -> Locator:
    """Return the card of a unit."""
    return phone.page.locator(".card.unit").filter(
        has=phone.page.get_by_role("heading", name=name, exact=True)
    )


def entries_of(server: Server, unit: str, kind: str) -> list[dict[str, object]]:
    """Return a unit's entries of one kind that count."""
    found = server.items(f"v1/entries?unit_id={unit}&only_in_force=true")
    return [entry for entry in found if entry["kind"] == kind]


def test_a_day_from_the_first_screen(
    phones: Phones, own_server: Server, tmp_path: Path
) -> None:
    """One request; a death in two taps; the server killed after the first page."""
    server = own_server.start()
    good = unit_with_water(server, "Good tank", temperature_deg_c=12.0, do_mg_per_l=9.0)
    bad = unit_with_water(server, "Bad tank", temperature_deg_c=14.0, do_mg_per_l=2.5)
    _fed_yesterday(server, good, 0.35)
    phone = phones(server.url, SMALL)
    asked: Counter[str] = Counter()

    def note(request: Request) -> None:
        path = request.url.split("/", 3)[3].split("?")[0]
        asked.update([path] if path.startswith("v1/") else [])

    phone.page.on("request", note)
    phone.open()
    expect(phone.page.locator(".card.unit")).to_have_count(2)
    # Flags of photos (about) are no figures of the home screen.
    assert [path for path in asked if path != "v1/about"] == ["v1/farm"]
    assert asked["v1/farm"] == 1
    # The most urgent first, its verdict in words.
    first = phone.page.locator(".card.unit").first
    expect(first.get_by_role("heading")).to_have_text("Bad tank")
    expect(first.locator(".verdict.bad")).to_contain_text("Act now.")
    expect(phone.page.locator(".verdict.good")).to_contain_text("The water is good")
    folder = Path(os.environ.get("FISHMEASURE_SCREENSHOTS", tmp_path))
    faults = _looked_at(phone, folder, "today")
    phone.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    phone.page.wait_for_load_state("networkidle")
    server.stop()

    phone.page.reload()
    expect(phone.page.locator(".card.unit")).to_have_count(2)
    expect(phone.page.get_by_text(re.compile("^As of "))).to_be_visible()
    faults += _entered_offline(phone, folder)

    server.start()
    phone.page.reload()
    phone.open()
    phone.sent()
    expect(card(phone, "Good tank").locator(".lately .chip").first).to_have_text("sent")
    _arrived(server, good, bad)
    # What is said is the server's again, now that it knows.
    expect(phone.page.locator(".as-of")).to_have_count(0)
    first = server.get("v1/farm")["units"][0]["now"]["headline"]
    expect(phone.page.locator(".verdict").first).to_contain_text(first)
    assert not faults, "\n".join(faults)


def test_a_wide_window_has_units_beside_each_other(
    phones: Phones, server: Server, tmp_path: Path
) -> None:
    """Also in landscape on a phone; the sums and the farm to print are there."""
    folder = Path(os.environ.get("FISHMEASURE_SCREENSHOTS", tmp_path))
    for name, size in (
        ("desktop", DESKTOP),
        ("landscape", {"width": 740, "height": 360}),
    ):
        phone = phones(server.plain_url, size)
        phone.open()
        cards = phone.page.locator(".card.unit")
        expect(cards.nth(1)).to_be_visible()
        phone.page.screenshot(path=folder / f"today-{name}.png", full_page=True)
        tops = [box["y"] for i in (0, 1) if (box := cards.nth(i).bounding_box())]
        assert len(tops) == 2
        assert tops[0] == tops[1]
        assert not size_faults(phone)
    farm = phone.page.locator(".card.farm")
    expect(farm).to_contain_text("Feed in store")
    href = phone.page.get_by_role("link", name=re.compile("The farm to print"))
    address = href.get_attribute("href")
    assert address is not None
    printed = httpx2.get(f"{server.url}{address.lstrip('/')}", timeout=60)
    assert printed.content.startswith(b"%PDF")


def _entered_offline(phone: Phone, folder: Path) -> list[str]:
    faults: list[str] = []
    # One death: two taps, for one fish is filled in.
    _tap(phone, "Good tank", "Died")
    expect(phone.page.locator(".field .value")).to_have_text("1")
    faults += _looked_at(phone, folder, "quick-died")
    phone.button("Save").tap()
    entered = card(phone, "Good tank").locator(".lately")
    expect(entered).to_contain_text("Died: 1 fish")
    expect(entered.locator(".chip")).to_have_text("on this phone")
    # Feed: the ration stands there, the last feed beside it.
    _tap(phone, "Good tank", "Fed")
    expect(phone.page.locator(".pick", has_text="Ration")).to_have_attribute(
        "aria-pressed", "true"
    )
    phone.page.locator(".pick", has_text="As last time 350 g").tap()
    expect(phone.page.locator(".field .value")).to_have_text("0.35 kg")
    faults += _looked_at(phone, folder, "quick-feed")
    phone.button("Save").tap()
    # Water: oxygen first, then temperature; out of range is refused in words.
    _tap(phone, "Bad tank", "Water")
    expect(phone.page.locator(".field .label").first).to_have_text("Dissolved oxygen")
    phone.type("88")
    expect(phone.page.locator(".facts")).to_contain_text("0")
    expect(phone.button("Save")).to_be_disabled()
    phone.page.locator(".key[aria-label=Erase]").tap()
    phone.page.locator(".field", has_text="Temperature").tap()
    phone.type("13.5")
    faults += _looked_at(phone, folder, "quick-water")
    phone.button("Save").tap()
    # A sample begins without a network too.
    _tap(phone, "Good tank", "Sample")
    expect(phone.page.locator("#title")).to_contain_text("Sample")
    expect(phone.page.locator("input[capture]")).to_have_count(1)
    phone.open()
    faults += _looked_at(phone, folder, "today-offline")
    return faults


def _arrived(server: Server, good: str, bad: str) -> None:
    (died,) = entries_of(server, good, "died")
    assert died["fish_count"] == 1
    today = dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat()
    feeds = entries_of(server, good, "feed")
    assert [one["feed_kg"] for one in feeds if one["on"] == today] == [0.35]
    waters = entries_of(server, bad, "water")
    assert {(one["do_mg_per_l"], one["temperature_deg_c"]) for one in waters} == {
        (2.5, 14.0),
        (8.0, 13.5),
    }


def _tap(phone: Phone, unit: str, name: str) -> None:
    """Tap one of the four buttons of a unit."""
    where = card(phone, unit).locator(".taps .button", has_text=name)
    where.tap()


def _fed_yesterday(server: Server, unit: str, feed_kg: float) -> None:
    day = dt.datetime.now(tz=dt.UTC).astimezone().date() - dt.timedelta(days=1)
    fed = {"kind": "feed", "id": str(uuid4()), "on": day.isoformat()}
    body = {"entries": [{**fed, "unit_id": unit, "feed_kg": feed_kg}]}
    path = f"{server.url}v1/entries"
    httpx2.post(path, json=body, timeout=30).raise_for_status()


def _looked_at(phone: Phone, folder: Path, name: str) -> list[str]:
    """Return what is wrong with a screen by day, by night, in text twice as large."""
    faults: list[str] = []
    for mode in ("light", "dark"):
        phone.page.emulate_media(color_scheme=mode)
        phone.page.screenshot(path=folder / f"{name}-{mode}.png", full_page=True)
        faults += [f"{name}, {mode}: {one}" for one in axe_faults(phone, mode)]
    phone.page.emulate_media(color_scheme="light")
    faults += [f"{name}: {one}" for one in size_faults(phone)]
    root = "document.documentElement.style.fontSize"
    phone.page.evaluate(f"{root} = '225%'")
    phone.page.screenshot(path=folder / f"{name}-large.png", full_page=True)
    faults += [f"{name}, 200 %: {one}" for one in size_faults(phone)]
    phone.page.evaluate(f"{root} = ''")
    return faults
