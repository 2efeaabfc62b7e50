"""A sample that another device made is looked at on this phone, with its photos."""

import re
from uuid import uuid4

import httpx2
from playwright.sync_api import expect

from tests.browser.phone import Phone, photo
from tests.browser.server import Server


def recorded(server: Server) -> tuple[str, str]:
    """Record a sample of one photographed net by the API; return unit and sample."""
    unit = next(one for one in server.items("v1/units") if one["name"] == "Tank A")
    state = server.get(f"v1/units/{unit['id']}/state")
    cohort = state["cohorts"][0]["cohort"]
    name = "tank_a_net2.jpg"
    with httpx2.Client(base_url=server.url, timeout=120) as client:
        files = {"photos": (name, photo("tank_a_net2").read_bytes())}
        (sent,) = client.post("/v1/photos", files=files).json()["items"]
        where = {"unit_id": unit["id"], "cohort_id": cohort["id"]}
        net = {"fish": 8, "gross_g": 2078, "tare_g": 638, "photos": [sent["id"]]}
        body = {"date": state["on"], "unit": unit["name"], "nets": [net], **where}
        path = f"/v1/samples/{uuid4()}"
        body["species"] = cohort["species_key"]
        client.put(path, json=body).raise_for_status()
        client.post(f"{path}/record", json=where).raise_for_status()
    return unit["id"], path.rpartition("/")[2]


def test_a_recorded_sample_opens_with_its_photos_and_nets(
    phone: Phone, server: Server
) -> None:
    """From the book's entry, on a phone that never had it; and its answer."""
    unit_id, sample_id = recorded(server)
    phone.open(f"unit/{unit_id}/book/{sample_id}")
    phone.button("Photos, nets and warnings").click()
    expect(phone.page.locator("#title")).to_have_text("Sample, Tank A")
    net = phone.net(1)
    expect(net).to_contain_text("8 fish")
    expect(net).to_contain_text(re.compile(r"180\s*g a fish"))
    expect(net.locator(".thumbs a")).to_have_count(1)
    expect(phone.button("Add another net")).to_have_count(0)
    net.locator(".thumbs a").click()
    expect(phone.page.locator(".layer")).to_be_visible()
    phone.back()
    phone.link("Show the answer").click()
    expect(phone.page.get_by_role("heading", name="Mean weight")).to_be_visible()
    expect(phone.page.get_by_text("In the book", exact=True)).to_be_visible()
