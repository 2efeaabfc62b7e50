"""Five fish photographed and weighed on the phone, kept for their stock, taken back."""

import re

from playwright.sync_api import expect

from tests.browser.conftest import Phones
from tests.browser.phone import MEASURED_MS, photo
from tests.browser.server import Server


def test_five_weights_teach_a_stock_and_are_taken_back(
    phones: Phones, server: Server
) -> None:
    """Typed beside the fish's numbers, worked out, kept, and gone again."""
    phone = phones(server.url)
    unit = phone.add_unit("Weighing tank")
    phone.open(f"unit/{unit}")
    phone.link("Photograph and weigh five fish").click()
    expect(phone.page.get_by_text("Nothing yet of your own fish")).to_be_visible()
    expect(phone.page.get_by_text("No outline tells ripe fish")).to_be_visible()
    phone.button("What do they teach?").click()
    expect(phone.page.get_by_text("Choose a photo and type")).to_be_visible()
    phone.page.locator("input[capture]").set_input_files(photo("tank_a_net1"))
    first = phone.page.get_by_label("Weight (g)").first
    expect(first).to_be_visible(timeout=MEASURED_MS)
    legends = phone.page.locator("legend").all_inner_texts()
    lengths = [int(re.findall(r"(\d+)\s*mm", legend)[0]) for legend in legends]
    for at, length in list(enumerate(lengths))[:5]:
        grams = round(0.0000138 * length**3)  # as trout of K 1.38
        phone.page.get_by_label("Weight (g)").nth(at).fill(str(grams))
    phone.button("What do they teach?").click()
    expect(phone.page.get_by_text("What the fish teach")).to_be_visible()
    expect(phone.page.get_by_text("All are in one photo", exact=False)).to_be_visible()
    phone.button("Keep it for this stock").click()
    phone.sent()
    phone.open(f"unit/{unit}/fit")
    expect(phone.page.get_by_text("Fish photographed and weighed")).to_be_visible()
    phone.page.on("dialog", lambda dialog: dialog.accept())
    phone.button("Take this entry back").click()
    phone.sent()
    phone.open(f"unit/{unit}/fit")
    expect(phone.page.get_by_text("Nothing yet of your own fish")).to_be_visible()
