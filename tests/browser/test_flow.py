"""From an empty book to an answer in it, on the rendered sample photos."""

import datetime as dt
import re
import time
from typing import Any

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Phones
from tests.browser.phone import SAMPLES, Phone, photo, truth
from tests.browser.server import Server

NETS = ("tank_a_net1", "tank_a_net2", "tank_a_net3")
TARE_G = 640


def net_weight_g(name: str) -> float:
    """Return what the fish of a photo truly weigh together (invented, exact)."""
    return sum(float(fish["weight_g"]) for fish in truth(name)["fish"])


def sample_three_nets(phone: Phone, unit_id: str) -> None:
    """Photograph and weigh the three rendered nets."""
    phone.start_sample(unit_id)
    for number, name in enumerate(NETS, start=1):
        if number > 1:
            phone.button("Add another net").click()
        phone.photograph(photo(name), net=number)
        phone.measured()
        phone.link("Weigh net").click()
        phone.weigh(
            gross_g=round(net_weight_g(name)) + TARE_G,
            tare_g=TARE_G,
            fish=len(truth(name)["fish"]),
        )


def test_the_whole_way_from_an_empty_book_to_a_saved_answer(
    phone: Phone, server: Server
) -> None:
    """A unit, fish, three nets, the answer, the book; figures against the truth."""
    unit_id = phone.add_unit("Flow tank")
    sample_three_nets(phone, unit_id)
    phone.sent()
    phone.link("Show the answer").click()
    expect(phone.page.get_by_role("heading", name="Mean weight")).to_be_visible()
    phone.sent()
    estimate = phone.estimate()
    fish = [fish for name in NETS for fish in truth(name)["fish"]]
    mean_g = sum(float(one["weight_g"]) for one in fish) / len(fish)
    low, high = estimate["mean_weight_interval_g"]
    assert low <= mean_g <= high
    assert estimate["fish_weighed"] == len(fish)
    assert estimate["biomass_kg"] == pytest.approx(
        estimate["mean_weight_g"] * 240 / 1000, rel=1e-3
    )
    headline = phone.page.locator(".mean .headline")
    expect(headline).to_have_text(f"{estimate['mean_weight_g']:.0f} g")

    phone.put_in_the_book()
    expect(phone.page.get_by_text("Feed today")).to_be_visible()
    (entry,) = entries_of(server, unit_id, "sample")
    assert entry["mean_weight_g"] == pytest.approx(estimate["mean_weight_g"])
    phone.link("To the unit").click()
    phone.link("Book of entries").click()
    expect(phone.page.locator(".entries .entry")).to_have_count(2)


def entries_of(server: Server, unit_id: str, kind: str) -> list[Any]:
    """Return a unit's entries of one kind that count."""
    found = server.items(f"v1/entries?unit_id={unit_id}&only_in_force=true")
    return [entry for entry in found if entry["kind"] == kind]


def test_an_entry_is_corrected_and_taken_back(phone: Phone, server: Server) -> None:
    """What was replaced stays on record, but counts no more."""
    unit_id = phone.add_unit("Book tank")
    phone.open(f"unit/{unit_id}/book/add/died")
    phone.page.get_by_label("Number of fish").fill("3")
    phone.button("Save the entry").click()
    phone.sent()
    phone.page.get_by_role("link", name=re.compile("^Died")).click()
    phone.page.get_by_label("Number of fish").fill("2")
    phone.button("Save the correction").click()
    phone.sent()
    (entry,) = entries_of(server, unit_id, "died")
    assert entry["fish_count"] == 2
    assert entry["replaces"] is not None
    expect(phone.page.get_by_text("2 fish")).to_be_visible()
    phone.page.get_by_role("link", name=re.compile("^Died")).click()
    phone.button("Take this entry back").click()
    phone.sent()
    assert entries_of(server, unit_id, "died") == []


def test_a_reading_of_the_water_keeps_what_a_kit_says_and_when(
    phone: Phone, server: Server
) -> None:
    """50 mg/L nitrate as NO3 are 11.3 as nitrogen (14.007 / 62.004); today has a time.

    A reading of another day has none; a correction keeps that of the first.
    """
    unit_id = phone.add_unit("Water tank")
    phone.open(f"unit/{unit_id}/book/add/water")
    for label, figure in (
        ("Temperature", "11,5"),
        ("Nitrite nitrogen (NO2-N)", "0.02"),
        ("Alkalinity, as CaCO3", "85"),
        ("Chloride", "24"),
        ("nitrate as NO3", "50"),
    ):
        phone.page.get_by_label(label, exact=False).first.fill(figure)
    phone.button("Save the entry").click()
    phone.sent()
    (read,) = entries_of(server, unit_id, "water")
    assert read["nitrite_n_mg_per_l"] == 0.02
    assert (read["alkalinity_mg_per_l"], read["chloride_mg_per_l"]) == (85.0, 24.0)
    assert abs(read["nitrate_n_mg_per_l"] - 11.295) < 0.005
    now = phone.page.evaluate("new Date().toTimeString().slice(0, 5)")
    apart = abs(_minutes(now) - _minutes(read["at"]))
    assert min(apart, 1440 - apart) <= 5
    phone.page.get_by_role("link", name=re.compile("^Water")).click()
    phone.page.get_by_label("Chloride").fill("25")
    phone.button("Save the correction").click()
    phone.sent()
    (corrected,) = entries_of(server, unit_id, "water")
    assert (corrected["chloride_mg_per_l"], corrected["at"]) == (25.0, read["at"])
    phone.open(f"unit/{unit_id}/book/add/water")
    before = (dt.date.today() - dt.timedelta(days=1)).isoformat()  # noqa: DTZ011
    phone.page.get_by_label("Date").fill(before)
    phone.page.get_by_label("pH").fill("7.2")
    phone.button("Save the entry").click()
    phone.sent()
    (earlier,) = (
        entry for entry in entries_of(server, unit_id, "water") if entry["on"] == before
    )
    assert earlier["at"] is None


def _minutes(at: str) -> int:
    hours, minutes = at.split(":")[:2]
    return 60 * int(hours) + int(minutes)


def test_one_figure_is_a_springs_temperature_over_the_year(
    phone: Phone, server: Server
) -> None:
    """Twelve times the same; two figures are asked for anew."""
    unit_id = phone.add_unit("Spring tank")
    phone.open(f"unit/{unit_id}/change")
    monthly = phone.page.get_by_label("Water temperature by month")
    monthly.fill("8,5 9")
    phone.button("Save the unit").click()
    expect(phone.page.get_by_role("alert")).to_contain_text("twelve temperatures")
    monthly.fill("8,5")
    phone.button("Save the unit").click()
    phone.sent()
    unit = server.get(f"v1/units/{unit_id}")
    assert unit["monthly_temperature_deg_c"] == [8.5] * 12


def test_two_quick_taps_do_a_thing_once(phone: Phone, server: Server) -> None:
    """A wet thumb taps twice; there is one entry, one sample, one photo."""
    unit_id = phone.add_unit("Double tank")
    phone.open(f"unit/{unit_id}/book/add/died")
    phone.page.get_by_label("Number of fish").fill("1")
    phone.button("Save the entry").dblclick()
    phone.sent()
    assert len(entries_of(server, unit_id, "died")) == 1

    phone.open(f"unit/{unit_id}")
    phone.button("Sample this unit").dblclick()
    expect(phone.page.locator("#title")).to_contain_text("Sample")
    phone.photograph(photo(NETS[0]))
    phone.measured()
    phone.back()
    phone.photograph(photo(NETS[0]))
    expect(phone.page.get_by_text("in this sample already")).to_be_visible()
    phone.back()
    phone.link("Weigh this net").click()
    phone.weigh(gross_g=1912, tare_g=640, fish=8)
    phone.sent()
    phone.link("Show the answer").click()
    phone.put_in_the_book(taps=2)
    assert len(entries_of(server, unit_id, "sample")) == 1
    samples = server.items("v1/samples?limit=200")
    (mine,) = [s for s in samples if s["sample"].get("unit_id") == unit_id]
    assert len(mine["sample"]["nets"][0]["photos"]) == 1


def test_two_phones_sample_one_unit_at_once(phones: Phones, server: Server) -> None:
    """Both samples come into the book, and both see the same unit."""
    first = phones(server.plain_url)
    unit_id = first.add_unit("Shared tank")
    second = phones(server.plain_url)
    both = (first, second)
    for number, phone in enumerate(both):
        phone.start_sample(unit_id)
        phone.photograph(photo(NETS[number]))
    for number, phone in enumerate(both):
        phone.measured()
        phone.link("Weigh net").click()
        phone.weigh(round(net_weight_g(NETS[number])) + TARE_G, TARE_G, 8)
        phone.link("Show the answer").click()
    for phone in both:
        phone.put_in_the_book()
    assert len(entries_of(server, unit_id, "sample")) == 2


def test_two_phones_correct_one_photo_and_neither_is_overwritten_unseen(
    phones: Phones, server: Server
) -> None:
    """RFC 9110, 13.1.1: a change based on an older state is refused, and said so."""
    first = phones(server.plain_url)
    unit_id = first.add_unit("Corrected tank")
    second = phones(server.plain_url)
    for phone in (first, second):
        phone.start_sample(unit_id)
        phone.photograph(photo("tank_a_net4"))
        phone.measured()
        phone.sent()
    first.fish_row(1).click()
    first.button("Leave out").click()
    expect(first.button("Use it")).to_be_visible()
    first.sent()
    second.fish_row(2).click()
    second.button("Leave out").click()
    second.sent()
    second.button("Done").click()
    expect(second.page.get_by_text("was changed meanwhile")).to_be_visible()
    expect(second.fish_row(1)).to_contain_text("not used")
    expect(second.fish_row(2)).not_to_contain_text("not used")


def test_a_sample_is_thrown_away_with_its_photos(phone: Phone) -> None:
    """After a question; the unit is as before."""
    unit_id = phone.add_unit("Thrown tank")
    phone.start_sample(unit_id)
    phone.photograph(photo("tank_a_net3"))
    phone.measured()
    phone.back()
    phone.button("Throw this sample away").click()
    expect(phone.page.locator("#title")).to_have_text("Thrown tank")
    expect(phone.page.get_by_text("Go on with the sample")).to_have_count(0)
    expect(phone.page.locator(".notice")).to_have_count(0)


def test_several_photos_are_chosen_at_once_also_such_as_a_browser_cannot_show(
    phone: Phone,
) -> None:
    """Chromium shows no HEIC; the server's picture takes its place."""
    unit_id = phone.add_unit("Album tank")
    phone.start_sample(unit_id)
    heic = SAMPLES / "large_heic.heic"
    chooser = phone.net(1).locator("input[multiple]")
    chooser.set_input_files([photo("tank_a_net3"), heic])
    thumbs = phone.page.locator(".thumb")
    expect(thumbs).to_have_count(2)
    phone.sent()
    expect(phone.page.locator(".thumb.measured")).to_have_count(2)
    thumbs.nth(1).click()
    phone.measured()
    deadline = time.monotonic() + 20
    while not phone.page.evaluate("document.querySelector('.plate img').naturalWidth"):
        assert time.monotonic() < deadline, "the picture of a HEIC photo is missing"
        phone.page.wait_for_timeout(100)
