"""`serve --lan`: one picture leads a phone to the certificate and pairs it by HTTPS."""

import base64
import contextlib
import hashlib
import re
import shutil
import socket
from collections.abc import Iterator
from pathlib import Path

import cv2
import numpy as np
import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from playwright.sync_api import Browser, Page, expect

from tests.api.running import Server, free_port, running
from tests.browser.conftest import ARGUMENTS, PATIENCE_MS, VIEWPORT


@pytest.fixture(scope="module")
def lan(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """Return a server for phones, as it is started."""
    while True:
        port = free_port()
        with socket.socket() as probe, contextlib.suppress(OSError):
            probe.bind(("127.0.0.1", port + 1))
            break
    folder = tmp_path_factory.mktemp("lan")
    with running(folder / "data", "--lan", port=port, workers=1) as server:
        yield server


def authority(server: Server) -> x509.Certificate:
    path = server.log.parent / "data" / "tls" / "authority.pem"
    return x509.load_pem_x509_certificate(path.read_bytes())


def scanned(server: Server) -> str:
    """Return what a camera reads in the newest picture of the terminal."""
    lines = server.log.read_text().splitlines()
    drawn = [line for line in lines if re.fullmatch(r"[ ▀▄█]{20,}", line)]
    side = len(drawn[-1])
    rows = []
    for line in drawn[-(side + 1) // 2 :]:
        rows.append([mark in "▀█" for mark in line])
        rows.append([mark in "▄█" for mark in line])
    small = 255 * np.array(rows, dtype=np.uint8)
    light = small.repeat(8, axis=0).repeat(8, axis=1)
    for picture in (light, 255 - light):
        framed = cv2.copyMakeBorder(
            picture, 32, 32, 32, 32, cv2.BORDER_CONSTANT, value=(255,)
        )
        text, _, _ = cv2.QRCodeDetector().detectAndDecode(framed)
        if text:
            return str(text)
    raise AssertionError("\n".join(drawn))


@pytest.fixture
def trusting(lan: Server, browser: Browser) -> Iterator[Browser]:
    """Return a browser that has the authority installed, by its key."""
    public = authority(lan).public_key()
    der = public.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    pin = base64.b64encode(hashlib.sha256(der).digest()).decode()
    started = browser.browser_type.launch(
        executable_path=shutil.which("chromium"),
        args=[*ARGUMENTS, f"--ignore-certificate-errors-spki-list={pin}"],
    )
    yield started
    started.close()


def phone(browser: Browser) -> Page:
    context = browser.new_context(viewport=VIEWPORT, has_touch=True, is_mobile=True)
    context.set_default_timeout(PATIENCE_MS)
    page = context.new_page()
    page.on("dialog", lambda dialog: dialog.accept())
    return page


def test_a_phone_that_trusts_the_server_is_paired_by_the_picture(
    lan: Server, trusting: Browser
) -> None:
    """It goes straight to the page, which is a secure context and works offline."""
    page = phone(trusting)
    page.goto(scanned(lan))
    expect(page.locator("#title")).to_have_text("Pair this phone")
    assert page.url.startswith("https://")
    page.get_by_label("Name of this phone").fill("Owner's phone")
    page.get_by_role("button", name="Pair", exact=True).click()
    expect(page.locator("#title")).to_have_text("Today")
    assert page.evaluate("window.isSecureContext")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    assert page.evaluate("Boolean(navigator.mediaDevices?.getUserMedia)")
    assert page.evaluate("navigator.storage.persist().then(() => true)")
    (cookie,) = page.context.cookies()
    assert cookie["secure"]
    assert cookie["httpOnly"]

    invited_by_the_owner(page, trusting)
    page.context.set_offline(True)
    page.reload()
    expect(page.locator("#title")).to_have_text("Devices")
    page.context.close()


def invited_by_the_owner(page: Page, trusting: Browser) -> None:
    """The picture pairs a worker's phone, which then may only look, and is unpaired."""
    page.goto(page.url.partition("#")[0] + "#/devices")
    page.get_by_role("button", name="To enter, photograph and sample").click()
    picture = page.get_by_role("img", name="A picture of the address")
    expect(picture).to_be_visible()
    raw = np.frombuffer(picture.screenshot(), dtype=np.uint8)
    image = cv2.imdecode(raw, cv2.IMREAD_GRAYSCALE)
    assert image is not None
    link, _, _ = cv2.QRCodeDetector().detectAndDecode(image)
    assert re.search(r"#/pair/\d{8}$", link)

    other = phone(trusting)
    other.goto(link)
    other.get_by_label("Name of this phone").fill("Ann")
    other.get_by_role("button", name="Pair", exact=True).click()
    expect(other.locator("#title")).to_have_text("Today")
    other.goto(other.url.partition("#")[0] + "#/devices")
    expect(other.get_by_text("Only the owner's phone does this.")).to_be_visible()
    other.goto(other.url.partition("#")[0] + "#/settings")
    expect(other.get_by_text("Ann: may enter, photograph and sample")).to_be_visible()

    page.reload()
    card = page.locator("section.card").filter(
        has=page.get_by_role("heading", name="Ann", exact=True)
    )
    expect(card).to_contain_text("may enter, photograph and sample")
    card.get_by_text("Rename, change or unpair").click()
    card.get_by_label("What it may do").select_option("reader")
    card.get_by_role("button", name="Save").click()
    expect(card.locator("dl")).to_contain_text("may look")
    card.get_by_text("Rename, change or unpair").click()
    card.get_by_role("button", name="Unpair").click()
    expect(card).to_have_count(0)
    other.goto(other.url.partition("#")[0] + "#/")
    expect(other.locator("#title")).to_have_text("Pair this phone")
    other.context.close()


def test_a_phone_that_does_not_is_shown_the_steps(
    lan: Server, browser: Browser
) -> None:
    """Its browser refuses the server; the certificate is there to be loaded."""
    page = phone(browser)
    link = scanned(lan)
    page.goto(link)
    expect(page.get_by_role("heading", name="iPhone and iPad")).to_be_visible()
    expect(page.get_by_role("heading", name="Android")).to_be_visible()
    onward = page.get_by_role("link", name="2. Go on to the server")
    expect(onward).to_have_attribute("href", re.compile(r"^https://.*#/pair/\d{8}$"))
    with page.expect_download() as waiting:
        page.get_by_role("link", name="1. Load the certificate").click()
    loaded = x509.load_der_x509_certificate(Path(waiting.value.path()).read_bytes())
    assert loaded == authority(lan)
    assert page.url == link
    page.context.close()
