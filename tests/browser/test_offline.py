"""No network at the tank: nothing is lost, nothing is there twice."""

import re
import time

from playwright.sync_api import Route, expect

from tests.browser.conftest import Phones
from tests.browser.phone import Phone, photo
from tests.browser.server import Server


def sample_without_network(phone: Phone, unit_id: str) -> None:
    """Photograph and weigh a net, and ask for the answer to be saved."""
    phone.start_sample(unit_id)
    phone.photograph(photo("tank_a_net3"))
    expect(phone.page.get_by_text(re.compile("waiting|sending")).first).to_be_visible()
    phone.back()
    phone.link("Weigh this net").click()
    phone.weigh(gross_g=1820, tare_g=638, fish=8)
    phone.link("Show the answer").click()
    expect(phone.page.get_by_text("safe on this phone")).to_be_visible()
    expect(phone.page.get_by_text("148 g")).to_be_visible()  # (1820 - 638) / 8
    phone.button("Save into the book").click()
    expect(phone.page.get_by_text("Being saved")).to_be_visible()


def installable(phone: Phone) -> bool:
    """Ask the browser; a test's own context counts as a private window."""
    session = phone.context.new_cdp_session(phone.page)
    found = session.send("Page.getInstallabilityErrors")["installabilityErrors"]
    return {error["errorId"] for error in found} <= {"in-incognito"}


def arrived_once(server: Server, unit_id: str) -> None:
    """Check that the sample is in the book with its photo, each once."""
    entries = server.items(f"v1/entries?unit_id={unit_id}&only_in_force=true")
    assert len([entry for entry in entries if entry["kind"] == "sample"]) == 1
    samples = [one["sample"] for one in server.items("v1/samples?limit=200")]
    (sample,) = [one for one in samples if one.get("unit_id") == unit_id]
    (net,) = sample["nets"]
    ids = [one["id"] for one in server.items("v1/photos?limit=200")]
    assert ids.count(net["photos"][0]) == 1


def test_a_sample_taken_while_the_server_is_down_arrives_once(
    phones: Phones, own_server: Server
) -> None:
    """With a service worker: reload, server restart, reload again."""
    server = own_server.start()
    phone = phones(server.url)
    unit_id = phone.add_unit("Far tank")
    phone.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    phone.page.reload()  # from now on the service worker has the page
    assert installable(phone)
    phone.open(f"unit/{unit_id}")
    expect(phone.button("Sample this unit")).to_be_visible()
    server.stop()
    sample_without_network(phone, unit_id)
    phone.page.reload()
    phone.open("waiting")
    expect(phone.page.get_by_text("Server out of reach").first).to_be_visible()
    waiting = phone.page.locator(".item .chip.waiting")
    expect(waiting).to_have_count(2)  # photo and sample
    server.start()
    phone.page.reload()
    phone.open("waiting")
    phone.sent()
    expect(phone.page.get_by_text("Everything has reached the server")).to_be_visible()
    arrived_once(server, unit_id)


def test_by_plain_http_the_page_opens_and_keeps_working_without_a_network(
    phones: Phones, own_server: Server
) -> None:
    """Without a service worker the browser's own cache has the page.

    With a server of its own: a photo that another test's sample has is asked about.
    """
    server = own_server.start()
    phone = phones(server.plain_url)
    unit_id = phone.add_unit("Plain tank")
    assert not phone.page.evaluate("window.isSecureContext")
    phone.open(f"unit/{unit_id}")
    expect(phone.button("Sample this unit")).to_be_visible()
    phone.context.set_offline(True)
    sample_without_network(phone, unit_id)
    phone.page.close()
    phone.page = phone.context.new_page()
    phone.open("waiting")  # by its address, as from the home screen
    expect(phone.page.locator(".item .chip.waiting").first).to_be_visible()
    phone.context.set_offline(False)  # the browser tells the page: "online"
    phone.sent()
    arrived_once(server, unit_id)


def test_a_busy_server_is_asked_again_after_the_time_that_it_names(
    phones: Phones, server: Server
) -> None:
    """RFC 9110, 10.2.3: Retry-After is honoured, and nothing is refused."""
    phone = phones(server.plain_url)
    unit_id = phone.add_unit("Busy tank")
    phone.start_sample(unit_id)
    asked: list[float] = []

    def busy_once(route: Route) -> None:
        asked.append(time.monotonic())
        if len(asked) == 1:
            body = '{"code":"busy","message":"","advice":"","details":[]}'
            route.fulfill(status=503, headers={"Retry-After": "2"}, body=body)
        else:
            route.continue_()

    phone.page.route("**/v1/uploads/*/photo", busy_once)
    phone.photograph(photo("tank_a_net4"))
    phone.measured()
    assert len(asked) == 2
    assert asked[1] - asked[0] >= 1.9  # the clocks of two processes
