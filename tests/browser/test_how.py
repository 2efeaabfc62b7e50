"""Sheet and lens: chosen once for a phone, or for one photo."""

import json
import statistics
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from tests.browser.phone import Phone, photo, truth
from tests.browser.server import Server

LENS = {
    "name": "Invented phone, main",
    "camera_model": "",
    "focal_fraction": 0.62,
    "focal_relative_sd": 0.002,
    "k1": -0.03,
    "k1_sd": 0.002,
}
NARROW = "print_97_percent"


def newest_photo(phone: Phone, server: Server, name: str) -> Any:
    """Return the server's record of a photo, once it has everything."""
    phone.sent()
    photos = server.items("v1/photos?limit=200")
    return next(one for one in photos if one["measurement"]["photo"] == f"{name}.jpg")


def test_a_lens_profile_is_added_once_and_used_for_every_photo(
    phone: Phone, server: Server, tmp_path: Path
) -> None:
    """It is kept on the server, and chosen on this phone also after a reload."""
    unit_id = phone.add_unit("Lens tank")
    file = tmp_path / "lens.json"
    file.write_text(json.dumps(LENS))
    phone.open("settings")
    phone.page.get_by_label("Add a profile").set_input_files(file)
    chosen = phone.page.get_by_label("Invented-phone-main")
    expect(chosen).to_be_checked()
    (kept,) = server.items("v1/lenses")
    assert {**LENS, "name": kept["name"]}.items() <= kept.items()
    phone.page.get_by_label("Printed sheet").select_option("A4")
    phone.page.reload()
    expect(chosen).to_be_checked()
    expect(phone.page.get_by_label("Printed sheet")).to_have_value("A4")

    phone.start_sample(unit_id)
    phone.photograph(photo("single_cutting_board"))
    phone.measured()
    expect(phone.page.get_by_text("lens profile Invented-phone-main")).to_be_visible()
    found = newest_photo(phone, server, "single_cutting_board")
    assert found["settings"]["lens"] == "Invented-phone-main"
    assert found["settings"]["paper"] == "A4"
    assert found["measurement"]["scale"]["camera"]["focal_source"] == "lens-profile"


def test_what_is_no_lens_profile_is_refused_in_words(
    phone: Phone, tmp_path: Path
) -> None:
    """Neither a file of something else, nor a lens that cannot be."""
    phone.open("settings")
    odd = json.dumps({**LENS, "focal_fraction": 900.0})
    for name, text in (("list.json", "[1, 2]"), ("odd.json", odd), ("x.json", "{")):
        file = tmp_path / name
        file.write_text(text)
        phone.page.get_by_label("Add a profile").set_input_files(file)
        expect(phone.page.get_by_text(f"{name} is no lens profile")).to_be_visible()
    expect(phone.page.get_by_label("No profile")).to_be_checked()


def test_one_photo_is_measured_anew_for_its_own_print(
    phone: Phone, server: Server
) -> None:
    """The true check line of that print, 97 mm, brings lengths to the truth."""
    unit_id = phone.add_unit("Print tank")
    phone.start_sample(unit_id)
    phone.photograph(photo(NARROW))
    phone.measured()
    phone.page.get_by_role("button", name="Sheet and lens").click()
    phone.page.get_by_label("Check line").fill("97")
    phone.button("Measure with it").click()
    expect(phone.page.get_by_text("on their way")).to_be_visible()
    found = newest_photo(phone, server, NARROW)
    assert found["settings"]["print_scale"] == pytest.approx(0.97)
    true_mm = statistics.mean(fish["fork_length_mm"] for fish in truth(NARROW)["fish"])
    fish = found["measurement"]["fish"]
    assert len(fish) == len(truth(NARROW)["fish"])
    mean_mm = statistics.mean(one["fork_length_mm"] for one in fish)
    assert mean_mm == pytest.approx(true_mm, rel=0.015)
