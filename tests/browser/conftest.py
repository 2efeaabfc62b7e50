"""Phones: Chromium with a small touch screen, against a real server."""

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, ViewportSize, expect, sync_playwright

from tests.browser.phone import Phone
from tests.browser.server import PLAIN_HOST, Server

VIEWPORT: ViewportSize = {"width": 390, "height": 844}
ARGUMENTS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    f"--host-resolver-rules=MAP {PLAIN_HOST} 127.0.0.1",
]

# Answers other than 200, and a header that counts only where the page is secure.
HARMLESS = ("Failed to load resource", "Cross-Origin-Opener-Policy header")

PATIENCE_MS = 45_000  # the machine may be busy with other tests
expect.set_options(timeout=PATIENCE_MS)

Phones = Callable[..., Phone]


@pytest.fixture(scope="module")  # while it is open, its loop runs in this thread
def browser() -> Iterator[Browser]:
    """Return Debian's Chromium; where CI runs it may not be missing."""
    with launched() as started:
        yield started


@contextmanager
def launched(*more: str) -> Iterator[Browser]:
    """Start Chromium, with further arguments."""
    path = shutil.which("chromium")
    if path is None:
        if os.environ.get("CI") == "true":
            pytest.fail("chromium is missing, and CI must run the browser tests")
        pytest.skip("no chromium: apt-get install chromium")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=path, args=[*ARGUMENTS, *more]
        )
        yield started
        started.close()


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """Return a server with the invented spring tanks; each test adds its own unit."""
    started = Server(tmp_path_factory.mktemp("server") / "data").start()
    started.fill_demo()
    yield started
    started.stop()


@pytest.fixture
def own_server(tmp_path: Path) -> Iterator[Server]:
    """Return a server of the test's own, not yet started."""
    prepared = Server(tmp_path / "data")
    yield prepared
    prepared.stop()


@pytest.fixture
def phones(browser: Browser) -> Iterator[Phones]:
    """Return what hands out phones; at the end none may have had a fault."""
    opened: list[Phone] = []

    def hand_out(url: str, size: ViewportSize = VIEWPORT) -> Phone:
        context = browser.new_context(
            viewport=size,
            has_touch=True,
            is_mobile=True,
            reduced_motion="reduce",
        )
        context.set_default_timeout(PATIENCE_MS)
        page = context.new_page()
        phone = Phone(context=context, page=page, url=url, faults=[])
        # A refused request is no fault of the page; what it throws or what the
        # content security policy stops is.
        page.on("pageerror", lambda error: phone.faults.append(str(error)))
        page.on(
            "console",
            lambda message: (
                phone.faults.append(message.text)
                if message.type == "error"
                and not any(words in message.text for words in HARMLESS)
                else None
            ),
        )
        page.on("dialog", lambda dialog: dialog.accept())
        opened.append(phone)
        return phone

    yield hand_out
    for phone in opened:
        phone.context.close()
    faults = [fault for phone in opened for fault in phone.faults]
    assert not faults, faults


@pytest.fixture
def phone(phones: Phones, server: Server) -> Phone:
    """Return a phone on the local network, by plain HTTP."""
    return phones(server.plain_url)
