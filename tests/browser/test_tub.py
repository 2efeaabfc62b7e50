"""A net in a weighing tub: refused first, then measured through its water."""

from pathlib import Path

from playwright.sync_api import expect

from tests.browser.phone import Phone
from tests.browser.server import Server

TUB = Path(__file__).parents[1] / "data" / "tub_01.jpg"


def test_a_net_is_put_into_the_tub_after_its_photo(
    phone: Phone, server: Server
) -> None:
    """The photo says what to choose; the choice measures it, and warns of crowding."""
    unit_id = phone.add_unit("Tub tank")
    phone.start_sample(unit_id)
    phone.photograph(TUB)
    said = phone.page.get_by_text("taken through water")
    expect(said).to_be_visible(timeout=150_000)
    phone.back()
    phone.net(1).get_by_label("In the tub").check()
    expect(phone.page.get_by_text("0.1 kg of fish in a litre")).to_be_visible()
    phone.net(1).get_by_label("Water depth, mm").fill("90")
    phone.net(1).get_by_label("The scale's division").fill("5")
    phone.net(1).get_by_label("The scale's division").blur()
    phone.sent()
    (kept,) = server.items("v1/photos?limit=200")[:1]
    assert kept["settings"]["in_water"] is True
    assert kept["settings"]["water_depth_mm"] == 90.0
    measurement = kept["measurement"]
    assert "in-water" not in [one["code"] for one in measurement["problems"]]
    assert len([fish for fish in measurement["fish"] if fish["complete"]]) >= 4
    assert {fish["posture"] for fish in measurement["fish"]} >= {"upright"}
    (sample,) = server.items("v1/samples?limit=200")[:1]
    (net,) = sample["sample"]["nets"]
    assert net["in_water"] is True
    assert net["scale_division_g"] == 5.0
