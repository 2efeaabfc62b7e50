"""The page's main way in Firefox and WebKitGTK: `pytest -m slow tests/browser`.

CI has Chromium alone. Debian's packages: firefox-esr; webkit2gtk-driver and xvfb.
"""

import os
import socket
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.browser.engines import ENGINES, EnginePhone, missing
from tests.browser.phone import photo, truth
from tests.browser.server import PLAIN_HOST, Server

pytestmark = pytest.mark.slow

NET = "tank_a_net2"
FINGERS = {"firefox": "touch", "webkit": "mouse"}
# By plain HTTP there is no service worker.
CASES = ("firefox", "firefox-plain", "webkit", "webkit-plain")
PHONE = {"width": 412, "height": 915}


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """Return a server that lets in paired phones alone."""
    prepared = Server(tmp_path / "data", require_token="yes").start()  # noqa: S106
    yield prepared
    prepared.stop()


@pytest.fixture(params=CASES)
def phone(
    request: pytest.FixtureRequest, server: Server, tmp_path: Path
) -> Iterator[EnginePhone]:
    """Return the page in one of the engines that are installed."""
    name, _, plain = request.param.partition("-")
    packages = missing(name)
    if packages is not None:
        pytest.skip(f"no {name}: apt-get install {packages}")
    if plain and name == "webkit" and not known(PLAIN_HOST):
        pytest.skip(
            f"WebKitGTK has no names of its own: 127.0.0.1 {PLAIN_HOST} in hosts"
        )
    shots = os.environ.get("FISHMEASURE_SCREENSHOTS")
    with ENGINES[name](tmp_path / "browser") as engine:
        engine.send("SetTimeouts", {"script": 60_000, "pageLoad": 60_000})
        engine.send("SetWindowRect", dict(PHONE))
        url = server.plain_url if plain else server.url
        yield EnginePhone(engine, url, Path(shots) / request.param if shots else None)


def known(host: str) -> bool:
    """Return whether this machine knows a name."""
    try:
        socket.gethostbyname(host)
    except OSError:
        return False
    return True


def enter_unit(phone: EnginePhone) -> None:
    """Enter a tank with 240 trout of 150 g."""
    phone.press("Add a unit")
    phone.type("Name", "Far tank")
    phone.type("Volume of water", "6")
    phone.type("Depth of water", "1,1")
    phone.picture("unit-form")
    phone.press("Save the unit")
    phone.title("Far tank")
    phone.press("Enter fish stocked")
    phone.type("Name of this cohort", "Far trout")
    phone.type("Number of fish", "240")
    phone.type("Mean weight of a fish", "150")
    phone.press("Save the fish")
    phone.find("press", "Sample this unit")
    phone.sent()


def take_photo(phone: EnginePhone, name: str) -> None:
    """Photograph the net that is shown."""
    phone.type("input[capture]", str(photo(name)), what="css")
    phone.title("Photo")


def weigh(phone: EnginePhone, *, gross: str, tare: str, fish: str) -> None:
    """Type a weighing on the page's number keys."""
    for digits, button in ((gross, "Next: Wet"), (tare, "Next: Fish"), (fish, "Save")):
        for digit in digits:
            phone.press(digit)
        phone.picture(f"weigh-{button[:4]}")
        phone.press(button)
    phone.title("Sample")


def lengths_mm(phone: EnginePhone) -> list[float]:
    """Return the lengths in the list of fish."""
    texts = phone.script(
        "return [...document.querySelectorAll('.fish-row .figures-line span')]"
        ".map((e) => e.innerText)"
    )
    return [float(text.split()[0]) for text in texts]


def drag_fork(phone: EnginePhone, finger: str) -> None:
    """Slide the fork of the chosen fish a tenth of the body towards the snout."""
    ends = phone.script(
        "return ['Fork', 'Snout'].map((name) => {"
        "const r = document.querySelector(`button[aria-label^=${name}]`)"
        ".getBoundingClientRect();"
        "return [r.x + r.width / 2, r.y + r.height / 2]; })"
    )
    fork, snout = ends
    end = [f + 0.1 * (s - f) for f, s in zip(fork, snout, strict=True)]
    phone.slide(fork, end, finger)


def pair(phone: EnginePhone, server: Server) -> None:
    """Type the code that the server shows."""
    phone.open()
    phone.title("Pair this phone")
    phone.picture("pair")
    phone.type("Code", server.pairing_code())
    phone.press("Pair")
    phone.title("Today")


def correct_fish(phone: EnginePhone, finger: str) -> None:
    """Drag one end of the first fish, then leave the fish out."""
    before = lengths_mm(phone)[0]
    phone.click("css", ".fish-row")
    phone.find("press", "Leave out")
    drag_fork(phone, finger)
    phone.sent()
    phone.picture("fish")
    phone.press("Done")
    phone.find("css", ".fish-row")
    assert lengths_mm(phone)[0] == pytest.approx(0.9 * before, rel=0.03)
    phone.click("css", ".fish-row")
    phone.press("Leave out")
    phone.find("press", "Use it")
    phone.press("Done")
    phone.shows("1 not used")


def sample_without_server(phone: EnginePhone) -> None:
    """Photograph and weigh a net, ask for it to be saved, load the page anew."""
    phone.press("Sample this unit")
    phone.title("Sample")
    take_photo(phone, "tank_a_net3")
    phone.press("Back")
    phone.press("Weigh this net")
    weigh(phone, gross="1820", tare="638", fish="8")
    phone.press("Show the answer")
    phone.shows("safe on this phone")
    phone.shows("148 g")  # (1820 - 638) / 8
    phone.press("Save into the book")
    phone.shows("Being saved")
    phone.come_back()
    phone.shows("Being saved")
    phone.open("waiting")
    phone.title("Outbox")
    phone.shows("Server out of reach")
    phone.picture("outbox")


def test_the_main_way_works(
    phone: EnginePhone, server: Server, request: pytest.FixtureRequest
) -> None:
    """Pair, photograph, see and correct fish, weigh, answer; then without a server."""
    pair(phone, server)
    enter_unit(phone)
    phone.press("Sample this unit")
    phone.title("Sample")
    take_photo(phone, NET)
    phone.wait("return document.querySelector('.layer') !== null", "not measured")
    true_mm = sorted(fish["fork_length_mm"] for fish in truth(NET)["fish"])
    assert sorted(lengths_mm(phone)) == pytest.approx(true_mm, rel=0.05)
    phone.picture("photo")
    name, _, plain = request.node.callspec.params["phone"].partition("-")
    assert phone.script("return isSecureContext") is not bool(plain)
    correct_fish(phone, FINGERS[name])

    phone.press("Weigh net")
    weigh(phone, gross="2078", tare="638", fish="8")
    phone.press("Show the answer")
    phone.shows("with 90 % confidence")
    phone.sent()
    drawn = "(image) => image.complete && image.naturalWidth > 0"
    phone.wait(f"return [...document.images].some({drawn})", "no drawing")
    phone.picture("answer")
    phone.press("Save into the book")
    phone.shows("In the book")
    phone.press("To the unit")
    phone.title("Far tank")

    server.stop()
    sample_without_server(phone)
    server.start()
    phone.press("Try now")
    phone.sent()
    phone.shows("Everything has reached the server")
    taken = phone.engine.send("ExecuteAsyncScript", {"script": _SAMPLES, "args": []})
    assert [one["sample"]["nets"][0]["fish"] for one in taken] == [8, 8]
    assert all(one["entry_id"] for one in taken)
    assert phone.script("return document.querySelectorAll('.notice').length") == 0


_SAMPLES = """
const answer = arguments[arguments.length - 1];
fetch("/v1/samples").then((r) => r.json()).then(({ items }) => answer(items));
"""
