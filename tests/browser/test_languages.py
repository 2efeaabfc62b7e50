"""Every screen in every language: on a small phone with text twice as large."""

import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect

from fishmeasure.base.words import Message, Voice, what
from fishmeasure.base.words.sources import languages
from tests.browser.conftest import Phones
from tests.browser.phone import Phone, photo
from tests.browser.server import Server
from tests.browser.test_screens import PICTURES_LOADED, size_faults

SMALL_PHONE = {"width": 360, "height": 640}
TWICE = "225%"  # of what the style sheet says for the root
_TEXTS = """() => {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  while (walker.nextNode()) {
    const { parentElement, data } = walker.currentNode;
    if (parentElement && !parentElement.closest("script, style"))
      found.push(data.trim());
  }
  return found.filter(Boolean);
}"""
_KEY = re.compile(r"[a-z]+[a-z0-9_]*(-[a-z0-9_]+)+")
"""What stands there where a text is missing: its key."""


def screens(phone: Phone, server: Server) -> Iterator[tuple[str, str]]:
    """Yield the name and the address of each screen; a sample's are made first."""
    unit_id = next(
        unit["id"] for unit in server.items("v1/units") if unit["name"] == "Tank A"
    )
    phone.start_sample(unit_id)
    sample = _address(phone)
    phone.photograph(photo("tank_a_net2"))
    phone.measured()
    shot = _address(phone)
    phone.link("Weigh net").click()
    weigh = _address(phone)
    phone.weigh(2078, 638, 8)
    yield from (("sample", sample), ("photo", shot), ("weigh", weigh))
    yield "answer", f"{sample}/answer"
    yield "home", ""
    for name, path in (
        ("unit", ""),
        ("unit-form", "/change"),
        ("stocking", "/stock"),
        ("book", "/book"),
        *(
            (f"entry-{k}", f"/book/add/{k}")
            for k in ("died", "feed", "water", "graded")
        ),
    ):
        yield name, f"unit/{unit_id}{path}"
    yield from (
        (name, name) for name in ("guide", "settings", "devices", "pair", "waiting")
    )
    for kind in ("feed", "died", "water"):
        yield f"quick-{kind}", f"unit/{unit_id}/quick/{kind}"
    yield "unit-new", "unit/new"
    yield "none", "no-such-screen"


def _address(phone: Phone) -> str:
    return phone.page.url.partition("#/")[2]


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_every_screen_in_every_language(
    phones: Phones, server: Server, units: str
) -> None:
    """Nothing runs out of the window sideways, no key is shown in place of a text."""
    phone = phones(server.plain_url, SMALL_PHONE)
    folder = os.environ.get("FISHMEASURE_SCREENSHOTS")
    phone.page.add_init_script(
        "document.addEventListener('DOMContentLoaded', () => {"
        f"document.documentElement.style.fontSize = '{TWICE}'; }});"
    )
    phone.open()
    walked = list(screens(phone, server))
    faults: list[str] = []
    phone.page.evaluate(f"localStorage.setItem('fishmeasure.units', '{units}')")
    wanted = languages() if units == "metric" else ("en",)
    for language in wanted:
        phone.page.evaluate(
            f"localStorage.setItem('fishmeasure.language', '{language}')"
        )
        phone.page.reload()
        expect(phone.page.locator("html")).to_have_attribute("lang", language)
        for name, path in walked:
            phone.open(path)
            loading = what(Message.of("page-loading"), Voice(language=language))
            expect(phone.page.locator("main")).not_to_contain_text(loading)
            while not phone.page.evaluate(PICTURES_LOADED):
                phone.page.wait_for_timeout(50)
            if folder:
                picture = Path(folder) / f"{name}-{language}-{units}.png"
                phone.page.screenshot(path=picture, full_page=True)
            where = f"{name}, {language}, {units}"
            faults += [f"{where}: {fault}" for fault in size_faults(phone)]
            faults += [
                f"{where}: key {text}"
                for text in phone.page.evaluate(_TEXTS)
                if _KEY.fullmatch(text)
            ]
    assert not faults, "\n".join(faults)


def test_the_browsers_language_is_taken_and_a_choice_stays(
    phones: Phones, server: Server
) -> None:
    """By ``navigator.languages``; the choice on the settings screen stays."""
    phone = phones(server.plain_url)
    phone.page.add_init_script(
        "Object.defineProperty(navigator, 'languages', { get: () => ['de-AT', 'en'] })"
    )
    phone.open("settings")
    german = what(Message.of("page-settings-title"), Voice(language="de"))
    expect(phone.page.locator("#title")).to_have_text(german)
    phone.page.locator("#language").select_option("es")
    spanish = what(Message.of("page-settings-title"), Voice(language="es"))
    expect(phone.page.locator("#title")).to_have_text(spanish)
    phone.page.reload()
    expect(phone.page.locator("#title")).to_have_text(spanish)
