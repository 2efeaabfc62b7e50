"""A sample that another device made is looked at on this phone, with its photos."""

import re
from uuid import uuid4

import httpx2
from playwright.sync_api import expect

from tests.browser.conftest import Phones
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


def test_one_phone_begins_a_sample_and_another_one_goes_on(
    phones: Phones, server: Server
) -> None:
    """It has the photos, nets and weighings, records it, and takes it back again."""
    one, other = phones(server.plain_url), phones(server.plain_url)
    unit_id = one.add_unit("Shared pond")
    one.start_sample(unit_id)
    one.photograph(photo("tank_a_net2"))
    one.measured()
    one.back()
    one.net(1).get_by_role("link", name="Weigh this net").click()
    one.weigh(gross_g=2078, tare_g=638, fish=8)
    one.sent()
    other.open(f"unit/{unit_id}")
    other.page.get_by_text("Go on with the sample of another phone").click()
    expect(other.net(1)).to_contain_text("8 fish")
    expect(other.net(1).locator(".thumbs a")).to_have_count(1)
    other.button("Add another net").click()
    other.net(2).get_by_role("link", name="Weigh this net").click()
    other.weigh(gross_g=1958, tare_g=638, fish=7)
    # Meanwhile the first adds a net of its own: both stand.
    one.button("Add another net").click()
    one.net(2).get_by_role("link", name="Weigh this net").click()
    one.weigh(gross_g=2208, tare_g=638, fish=9)
    one.sent()
    other.sent()
    other.open(f"unit/{unit_id}")
    other.page.get_by_text("Go on with the sample", exact=True).click()
    expect(other.net(3)).to_be_visible()
    assert sorted(
        net["fish"] for net in server.items("v1/samples")[0]["sample"]["nets"]
    ) == [7, 8, 9]
    other.link("Show the answer").click()
    expect(other.page.locator(".chain")).to_contain_text("with all before it")
    other.put_in_the_book()
    one.open(f"unit/{unit_id}")
    (entry,) = [
        found
        for found in server.items(f"v1/entries?unit_id={unit_id}&only_in_force=true")
        if found["kind"] == "sample"
    ]
    one.open(f"sample/{entry['id']}")
    expect(one.page.get_by_text("In the book", exact=True)).to_be_visible()
    expect(one.net(3)).to_be_visible()
    expect(one.page.locator(".chain")).to_contain_text("This sample")
    one.button("Take this sample back").click()
    one.sent()
    left = server.items(f"v1/entries?unit_id={unit_id}&only_in_force=true")
    assert "sample" not in {found["kind"] for found in left}
