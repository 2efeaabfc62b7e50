"""A grading on the phone: size groups to their units, and what does not fit."""

from typing import Any

import pytest
from playwright.sync_api import expect

from tests.browser.phone import Phone
from tests.browser.server import Server


def open_grading(phone: Phone, name: str) -> tuple[str, str]:
    """Enter two units of 240 fish of 150 g; open the form of the first."""
    here = phone.add_unit(f"{name} one")
    there = phone.add_unit(f"{name} two")
    phone.open(f"unit/{here}")
    phone.link("Grade by size").click()
    expect(phone.page.locator("#title")).to_have_text("Graded")
    return here, there


def fill_group(phone: Phone, number: int, **figures: str) -> None:
    """Type figures of a size group, by their labels."""
    heading = phone.page.get_by_role("heading", name=f"Group {number}", exact=True)
    card = phone.page.locator("section.card").filter(has=heading)
    if "unit" in figures:
        card.get_by_label("Where it goes").select_option(label=figures.pop("unit"))
    labels = {
        "fish": "Fish",
        "kg": "All together (kg)",
        "each": "Each, on average (g)",
        "sd": "May be off by",
    }
    for name, figure in figures.items():
        card.get_by_label(labels[name], exact=True).fill(figure)


def fish_in(server: Server, unit_id: str) -> dict[str, float]:
    """Return fish by the name of their cohort, as the book has them."""
    state = server.get(f"v1/units/{unit_id}/state")
    return {
        one["cohort"]["name"]: one["fish_count"]["value"] for one in state["cohorts"]
    }


def entries_of(server: Server, unit_id: str, kind: str) -> list[Any]:
    """Return a unit's entries of one kind that count."""
    found = server.items(f"v1/entries?unit_id={unit_id}&only_in_force=true")
    return [entry for entry in found if entry["kind"] == kind]


def test_counted_groups_are_a_grading_that_counts_the_unit_anew(
    phone: Phone, server: Server
) -> None:
    """Both groups counted: 70 and 168 fish, 2 fewer than the book had."""
    here, there = open_grading(phone, "Sorted")
    fill_group(phone, 1, unit="Sorted two", fish="70", kg="7.7", sd="1")
    fill_group(phone, 2, fish="168")
    expect(phone.page.get_by_text("238 fish in all")).to_be_visible()
    phone.button("Save the entry").dblclick()
    phone.sent()
    (entry,) = entries_of(server, here, "graded")
    gone, staying = entry["groups"]
    assert (gone["fish_count"], staying["fish_count"]) == (70, 168)
    assert gone["mean_weight_g"] == pytest.approx(110)  # 7.7 kg over 70 fish
    assert fish_in(server, here) == {"Sorted one trout": pytest.approx(168)}
    assert fish_in(server, there)["Sorted one trout"] == pytest.approx(70)
    expect(phone.page.get_by_text("70 fish to Sorted two")).to_be_visible()


def test_a_grading_is_corrected_with_its_groups(phone: Phone, server: Server) -> None:
    """The form has what was entered; the correction takes its place."""
    here, there = open_grading(phone, "Mended")
    fill_group(phone, 1, unit="Mended two", fish="70", each="110")
    fill_group(phone, 2, fish="168")
    phone.button("Save the entry").click()
    phone.sent()
    phone.page.get_by_role("link").filter(has_text="70 fish to Mended two").click()
    expect(phone.page.locator("#title")).to_have_text("Graded")
    fill_group(phone, 1, fish="60")
    phone.button("Save the correction").click()
    phone.sent()
    (entry,) = entries_of(server, here, "graded")
    assert entry["groups"][0]["fish_count"] == 60
    assert entry["groups"][0]["mean_weight_g"] == pytest.approx(110)
    assert fish_in(server, there)["Mended one trout"] == pytest.approx(60)


def test_what_stays_uncounted_is_left_to_the_book(phone: Phone, server: Server) -> None:
    """Only those that go are counted: they moved, and no fish is lost or made."""
    here, there = open_grading(phone, "Parted")
    before = fish_in(server, here)["Parted one trout"]
    fill_group(phone, 1, unit="Parted two", fish="40", each="200")
    expect(phone.page.get_by_text("200 stay by the book")).to_be_visible()
    # (240 x 150 g - 40 x 200 g) / 200 = 140 g
    expect(phone.page.get_by_text("then have 140 g a fish")).to_be_visible()
    phone.button("Save the entry").click()
    phone.sent()
    assert entries_of(server, here, "graded") == []
    (entry,) = entries_of(server, here, "moved")
    assert entry["fish_count"] == 40
    after = fish_in(server, here)["Parted one trout"]
    moved = fish_in(server, there)["Parted one trout"]
    assert after + moved == pytest.approx(before)


def test_groups_that_cannot_be_are_told_before_they_are_saved(phone: Phone) -> None:
    """More fish or kilograms than there are, one unit twice, nothing that goes."""
    open_grading(phone, "Odd")
    fill_group(phone, 1, unit="Odd two", fish="400")
    expect(phone.page.get_by_text("More go than the book has")).to_be_visible()
    fill_group(phone, 1, fish="200", each="400")
    expect(phone.page.get_by_text("The weights do not fit")).to_be_visible()
    fill_group(phone, 2, fish="100")
    expect(phone.page.get_by_text("beyond the book's range")).to_be_visible()
    fill_group(phone, 2, unit="Odd two")
    phone.button("Save the entry").click()
    expect(phone.page.get_by_text("go to the same unit")).to_be_visible()
    fill_group(phone, 2, unit="Stays in Odd one", fish="")
    fill_group(phone, 2, each="120")
    phone.button("Save the entry").click()
    expect(phone.page.get_by_text("Count those that stay too")).to_be_visible()
    phone.button("Remove group 1").click()
    phone.button("Save the entry").click()
    expect(phone.page.get_by_text("at least one group that goes")).to_be_visible()
