"""A photo over a slow line arrives in parts: what breaks costs one part, not all."""

import json

from playwright.sync_api import expect

from tests.browser.conftest import Phones
from tests.browser.phone import MEASURED_MS, photo
from tests.browser.server import Server

SLOW_BYTES_PER_S = 200_000 / 8  # 200 kbit/s
FAST = {"offline": False, "latency": 0, "downloadThroughput": -1}


def test_an_upload_goes_on_after_a_reload_and_begins_anew_after_a_killed_server(
    phones: Phones, own_server: Server
) -> None:
    """How far it is is shown; a killed server keeps nothing that has its tags."""
    server = own_server.start()
    phone = phones(server.url)
    unit_id = phone.add_unit("Far pond")
    phone.start_sample(unit_id)
    sample = phone.page.evaluate("location.hash")
    offsets: list[int] = []
    phone.page.on(
        "request",
        lambda request: (
            offsets.append(int(request.headers["upload-offset"]))
            if request.method == "PATCH"
            else None
        ),
    )
    line = phone.context.new_cdp_session(phone.page)
    slow = {**FAST, "latency": 100, "uploadThroughput": SLOW_BYTES_PER_S}
    line.send("Network.enable")
    line.send("Network.emulateNetworkConditions", slow)
    phone.photograph(photo("tank_a_net2"))
    phone.page.evaluate(f"location.hash = {json.dumps(sample)}")
    expect(phone.page.locator("progress[data-upload]")).to_be_visible()
    phone.page.wait_for_function(
        "() => document.querySelector('progress[data-upload]')?.value > 0.05"
    )
    sent = len(offsets)
    phone.page.reload()
    expect(phone.page.locator("progress[data-upload]")).to_be_visible()
    while len(offsets) < sent + 1:
        phone.page.wait_for_timeout(100)
    assert offsets[sent] > 0, "begun anew after a reload"
    server.stop()
    server.start()
    line.send("Network.emulateNetworkConditions", {**FAST, "uploadThroughput": -1})
    before = len(offsets)
    thumb = phone.page.locator(".thumbs a")
    expect(thumb).to_contain_text("fish", timeout=MEASURED_MS)
    assert 0 in offsets[before:], "a killed server has kept something"
