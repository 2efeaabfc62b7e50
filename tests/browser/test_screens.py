"""Every screen, by day and by night: accessible, large enough, nothing cut off."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.conftest import Phones
from tests.browser.phone import Phone, photo
from tests.browser.server import Server

LEAST_TARGET_PX = 48
"""The project's own rule for wet fingers; WCAG 2.2 asks for 24 (AA), 44 (AAA)."""

# What can be pressed and is smaller than the rule, or runs out of the window.
_TOO_SMALL = """least => [...document.querySelectorAll(
  "a[href], button, input:not(.unseen), select, textarea, label.button, .option")]
  .map(e => [e, e.getBoundingClientRect()])
  .filter(([e, r]) => r.width && e.type !== "radio" && e.type !== "checkbox"
    && !e.matches(".cross")
    && Math.min(r.width, r.height) < least - 0.5)
  .map(([e, r]) => `${e.outerHTML.slice(0, 120)} is ${r.width} x ${r.height}`)"""
_ROOT_PX = "parseFloat(getComputedStyle(document.documentElement).fontSize)"
PICTURES_LOADED = "[...document.images].every(image => image.complete)"
_TOO_WIDE = (
    "document.documentElement.scrollWidth - document.documentElement.clientWidth"
)


def test_every_screen_is_accessible_and_fits_the_phone(
    phones: Phones, server: Server, tmp_path: Path
) -> None:
    """axe-core finds nothing; targets are large; nothing scrolls sideways."""
    phone = phones(server.plain_url)
    folder = Path(os.environ.get("FISHMEASURE_SCREENSHOTS", tmp_path))
    faults: list[str] = []

    def check(name: str) -> None:
        modes: tuple[Literal["light", "dark"], ...] = ("light", "dark")
        for mode in modes:
            phone.page.emulate_media(color_scheme=mode)
            while not phone.page.evaluate(PICTURES_LOADED):
                phone.page.wait_for_timeout(50)
            phone.page.screenshot(path=folder / f"{name}-{mode}.png", full_page=True)
            faults.extend(f"{name}, {mode}: {one}" for one in axe_faults(phone, mode))
        phone.page.emulate_media(color_scheme="light")
        faults.extend(f"{name}: {fault}" for fault in size_faults(phone))

    walk(phone, server, check)
    assert not faults, "\n".join(faults)


def test_text_twice_as_large_fits_a_small_phone(phones: Phones, server: Server) -> None:
    """WCAG 2.2, 1.4.4 and 1.4.10: at 200 % nothing is lost or scrolls sideways."""
    phone = phones(server.plain_url, {"width": 360, "height": 640})
    faults: list[str] = []

    def check(name: str) -> None:
        faults.extend(f"{name}: {fault}" for fault in size_faults(phone))

    # Twice what the style sheet says, as a browser's own setting would make it.
    phone.page.add_init_script(
        "document.addEventListener('DOMContentLoaded', () => {"
        "document.documentElement.style.fontSize = '225%'; });"
    )
    walk(phone, server, check)
    assert phone.page.evaluate(_ROOT_PX) == 36
    assert not faults, "\n".join(faults)


def axe_faults(phone: Phone, mode: str) -> list[str]:
    """Return the findings of any weight; by night only colours differ."""
    rules = {"runOnly": ["color-contrast"]} if mode == "dark" else {}
    found = Axe().run(phone.page, options=rules).response["violations"]
    return [f"{one['id']}: {node['html']}" for one in found for node in one["nodes"]]


def size_faults(phone: Phone) -> list[str]:
    """Return targets that are too small, and what runs out of the window."""
    small = phone.page.evaluate(_TOO_SMALL, LEAST_TARGET_PX)
    wide = phone.page.evaluate(_TOO_WIDE)
    sideways = [f"{wide} px too wide"] if wide > 0 else []
    return [*(f"small: {item}" for item in small), *sideways]


def walk(phone: Phone, server: Server, check: Callable[[str], None]) -> None:
    """Go through all screens of the invented tanks, and of a sample."""
    units = server.items("v1/units")
    unit_id = next(unit["id"] for unit in units if unit["name"] == "Tank A")
    phone.open()
    expect(phone.page.get_by_text("invented data")).to_be_visible()
    check("home")
    screens = {
        "unit": f"unit/{unit_id}",
        "plan": f"unit/{unit_id}/plan",
        "unit-form": f"unit/{unit_id}/change",
        "stocking": f"unit/{unit_id}/stock",
        "book": f"unit/{unit_id}/book",
        "quick-feed": f"unit/{unit_id}/quick/feed",
        "entry-died": f"unit/{unit_id}/book/add/died",
        "entry-water": f"unit/{unit_id}/book/add/water",
        "entry-graded": f"unit/{unit_id}/book/add/graded",
        "guide": "guide",
        "settings": "settings",
        "pair": "pair",
        "none": "no-such-screen",
    }
    for name, path in screens.items():
        phone.open(path)
        check(name)
    phone.open(f"unit/{unit_id}/book")
    phone.button("New entry").click()
    check("entry-menu")
    phone.button("Cancel").click()
    walk_sample(phone, unit_id, check)


def walk_sample(phone: Phone, unit_id: str, check: Callable[[str], None]) -> None:
    """Go through the screens of a sample."""
    phone.start_sample(unit_id)
    check("sample-empty")
    phone.photograph(photo("tank_a_net2"))
    phone.measured()
    check("photo")
    phone.fish_row(1).click()
    check("fish")
    phone.button("Species").click()
    expect(phone.page.get_by_role("dialog")).to_be_visible()
    check("species")
    phone.button("Cancel").click()
    phone.button("Done").click()
    phone.button("Missed fish").click()
    check("add-fish")
    phone.button("Cancel").click()
    phone.link("Weigh net").click()
    check("weigh")
    phone.weigh(2078, 638, 8)
    check("sample")
    phone.link("Show the answer").click()
    expect(phone.page.get_by_text("Feed today")).to_be_visible()
    check("answer")
    phone.context.set_offline(True)
    phone.back()
    phone.link("Change the weighing").click()
    phone.weigh(2080, 638, 8)
    phone.open("waiting")
    check("outbox")
    phone.context.set_offline(False)
    phone.sent()


def test_every_range_says_how_surely_it_holds(phones: Phones, server: Server) -> None:
    """With the level that the API gives for it."""
    phone = phones(server.plain_url)
    units = server.items("v1/units")
    unit_id = next(unit["id"] for unit in units if unit["name"] == "Tank A")
    state = server.get(f"v1/units/{unit_id}/state")
    outlook = server.get(f"v1/units/{unit_id}/outlook")

    def sure(figure: dict[str, float]) -> str:
        return f"with {round(figure['level'] * 100)} % confidence"

    mean = state["cohorts"][0]["mean_weight_g"]
    phone.open()
    card = phone.page.locator(".card.unit").filter(has_text="Tank A")
    expect(card.locator(".lead small")).to_contain_text(sure(mean))
    phone.open(f"unit/{unit_id}")
    fish = phone.page.locator(".card.mean")
    expect(fish.locator(".note", has_text="confidence")).to_contain_text(sure(mean))
    count = state["cohorts"][0]["fish_count"]
    expect(fish.locator(".notes")).to_contain_text(sure(count))
    meaning = phone.page.locator(".card").filter(has_text="Feed today")
    expect(meaning).to_contain_text(f"{sure(outlook['ration_kg'])}")


def test_of_a_limit_the_end_to_act_on_stands_large(
    phones: Phones, server: Server
) -> None:
    """The short end of a time, the full end of a limit; the middle in small print."""
    phone = phones(server.plain_url)
    units = server.items("v1/units")
    unit_id = next(unit["id"] for unit in units if unit["name"] == "Tank A")
    outlook = server.get(f"v1/units/{unit_id}/outlook")

    def hours(minutes: float) -> str:
        whole, rest = divmod(int(minutes / 5) * 5, 60)
        return f"{whole} h {rest:02d} min"

    phone.open(f"unit/{unit_id}")
    row = phone.page.locator(".outlook > div").filter(has_text=": act").first
    large, small = row.locator("dd").nth(0), row.locator("dd").nth(1)
    stops = outlook["outages"]["results"]
    outage = stops[0]["to_critical"]["minutes"]
    assert hours(outage["low"]) != hours(outage["value"])
    expect(large).to_have_text(f"within {hours(outage['low'])}")
    expect(small).to_contain_text(f"likely after {hours(outage['value'])}")
    gained = stops[0]["measures"][0]["gained_min"]
    expect(small).to_contain_text(f"buys at least {hours(gained['low'])}")
    rows = phone.page.locator(".outlook > div").filter(has_text=": act")
    expect(rows).to_have_count(len(stops))
    expect(small).to_contain_text("taken as pumped: no new water in a power cut")
    oxygen = phone.page.locator(".outlook > div").filter(has_text="Oxygen supply")
    expect(oxygen.locator("dd").nth(0)).to_contain_text("up to")
    expect(oxygen.locator("dd").nth(1)).to_contain_text("likely")


def test_an_air_pump_is_entered_as_it_was_bought(
    phones: Phones, server: Server
) -> None:
    """Litres a minute at a depth; a battery's hours; the litres alone are refused."""
    phone = phones(server.plain_url)
    unit_id = phone.add_unit("Air tank")
    phone.open(f"unit/{unit_id}/change")
    phone.page.get_by_label("Air pump: litres of air a minute").fill("40")
    phone.button("Save the unit").click()
    expect(phone.page.get_by_role("alert")).to_contain_text("depth of the diffuser")
    phone.page.get_by_label("Water over the diffuser").fill("0.9")
    phone.page.get_by_label("The aerator runs on a battery").check()
    phone.page.get_by_label("Hours that the battery lasts").fill("6")
    phone.button("Save the unit").click()
    phone.sent()
    (device,) = server.get(f"v1/units/{unit_id}")["aeration"]
    assert device["gas_l_per_min"] == 40.0
    assert device["diffuser_depth_m"] == 0.9
    assert device["bubbles"] == "coarse"
    assert (device["on_backup"], device["backup_hours"]) == (True, 6.0)


def test_new_water_is_pumped_unless_ticked(phones: Phones, server: Server) -> None:
    """Who skips the question gets no water in a power cut; the tick is kept."""
    phone = phones(server.plain_url)
    unit_id = phone.add_unit("Pumped tank")
    assert server.get(f"v1/units/{unit_id}")["inflow_by_gravity"] is False
    phone.open(f"unit/{unit_id}/change")
    tick = phone.page.get_by_label("New water flows in without power")
    expect(tick).not_to_be_checked()
    tick.check()
    phone.button("Save the unit").click()
    phone.sent()
    assert server.get(f"v1/units/{unit_id}")["inflow_by_gravity"] is True


def test_weights_and_lengths_in_pounds_ounces_and_inches(
    phones: Phones, server: Server
) -> None:
    """NIST SP 811, B.8: 1 lb = 453.59237 g, 16 oz = 1 lb, 1 in = 25.4 mm."""
    phone = phones(server.plain_url)
    unit_id = phone.add_unit("Pound tank")
    phone.open("settings")
    phone.page.get_by_label("oz, lb, in").check()
    phone.start_sample(unit_id)
    phone.link("Weigh this net").click()
    phone.page.get_by_role("button", name="in oz").click()
    for digits, label in (("3.5", "Next: Wet net alone"), ("0.5", "Next: Fish in it")):
        phone.type(digits)
        phone.button(label).click()
    phone.type("8")
    expect(phone.page.get_by_text("3 lb 0.0 oz of fish, 6.00 oz each.")).to_be_visible()
    phone.button("Save the weighing").click()
    phone.sent()
    (sample,) = [
        one
        for one in server.items("v1/samples?limit=200")
        if one["sample"].get("unit_id") == unit_id
    ]
    (net,) = sample["sample"]["nets"]
    assert net["gross_g"] == pytest.approx(3.5 * 453.59237)
    assert net["tare_g"] == pytest.approx(0.5 * 453.59237)


def test_a_phone_is_paired_by_the_code_that_the_server_shows(
    phones: Phones, tmp_path: Path
) -> None:
    """A wrong code is refused; the right one opens the page and its empty book."""
    server = Server(tmp_path / "data", require_token="yes").start()  # noqa: S106
    try:
        phone = phones(server.plain_url)
        phone.page.goto(phone.url)
        expect(phone.page.locator("#title")).to_have_text("Pair this phone")
        phone.page.get_by_label("Code").fill("0000 0000")
        phone.button("Pair").click()
        expect(phone.page.locator(".banner.bad")).to_be_visible()
        phone.page.get_by_label("Code").fill(server.pairing_code())
        phone.button("Pair").click()
        expect(phone.page.locator("#title")).to_have_text("Today")
        expect(phone.link("Add a unit")).to_be_visible()
        phone.button("Look round with invented tanks").click()
        expect(phone.page.get_by_text("invented data")).to_be_visible()
    finally:
        server.stop()
