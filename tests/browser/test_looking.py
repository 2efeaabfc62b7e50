"""Looking at a measured photo: near and far by fingers, from doubt to doubt, beside."""

import os
from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Phones
from tests.browser.phone import Phone, Point, photo, truth
from tests.browser.server import Server
from tests.browser.test_screens import axe_faults, size_faults

NET = "cut_by_edge"
MODES: tuple[Literal["light", "dark"], ...] = ("light", "dark")
_SHOWN = """() => {
  const frame = document.querySelector(".stage").getBoundingClientRect();
  const plate = document.querySelector(".plate").getBoundingClientRect();
  return {
    scale: plate.width / document.querySelector(".plate").offsetWidth,
    left: plate.left, top: plate.top,
    wide: frame.width, high: frame.height,
  };
}"""


@pytest.fixture
def looking(phones: Phones, server: Server) -> Phone:
    """Return a small phone that shows a measured photo."""
    phone = phones(server.plain_url, {"width": 360, "height": 640})
    unit = next(one for one in server.items("v1/units") if one["name"] == "Tank A")
    phone.start_sample(unit["id"])
    phone.photograph(photo(NET))
    phone.measured()
    return phone


def shown(phone: Phone) -> dict[str, float]:
    """Return the scale and the place of the photo in the window, and of its frame."""
    found: dict[str, float] = phone.page.evaluate(_SHOWN)
    return found


def photo_point(phone: Phone, place: Point) -> Point:
    """Return the photo's point at a place of the window."""
    now = shown(phone)
    return (
        (place[0] - now["left"]) / now["scale"],
        (place[1] - now["top"]) / now["scale"],
    )


def pinch(phone: Phone, middle: Point, apart: tuple[float, float]) -> None:
    """Put two fingers down beside a place and slide them to another distance."""
    session = phone.context.new_cdp_session(phone.page)

    def send(kind: str, distance: float | None) -> None:
        x, y = middle
        half = (distance or 0.0) / 2
        touches = [{"x": x - half, "y": y, "id": 0}, {"x": x + half, "y": y, "id": 1}]
        session.send(
            "Input.dispatchTouchEvent",
            {"type": kind, "touchPoints": [] if distance is None else touches},
        )

    send("touchStart", apart[0])
    for step in range(1, 9):
        send("touchMove", apart[0] + (apart[1] - apart[0]) * step / 8)
    send("touchEnd", None)
    session.detach()


def test_two_fingers_come_near_and_one_moves_the_photo(looking: Phone) -> None:
    """What lay between the fingers stays there; the frame takes the window's height."""
    phone = looking
    before = shown(phone)
    middle = (before["wide"] / 2, before["high"] / 2)
    point = photo_point(phone, middle)
    pinch(phone, middle, (40.0, 200.0))
    near = shown(phone)
    assert near["scale"] / before["scale"] == pytest.approx(5.0, rel=0.02)
    assert near["high"] > 0.8 * 640
    assert photo_point(phone, middle) == pytest.approx(point, abs=12)
    phone.touch((200.0, 300.0), (120.0, 260.0))
    moved = shown(phone)
    assert moved["scale"] == near["scale"]
    assert (moved["left"] - near["left"], moved["top"] - near["top"]) == pytest.approx(
        (-80.0, -40.0), abs=2
    )
    expect(phone.page.locator(".panel")).to_have_count(0)
    pinch(phone, (180.0, 300.0), (240.0, 20.0))
    assert shown(phone)["scale"] == pytest.approx(before["scale"])


def test_two_taps_and_a_button_show_the_pixels_and_the_whole(looking: Phone) -> None:
    """One of the photo's pixels is one of the window's; the tapped place is in view."""
    phone = looking
    before = shown(phone)["scale"]
    fish = truth(NET)["fish"][0]
    width = truth(NET)["camera"]["width_px"]
    x, y = fish["midline_px"][len(fish["midline_px"]) // 2]
    place = phone.place_of((x, y), width)
    phone.touch(place)
    phone.touch(place)
    expect(phone.page.locator(".stage.near")).to_be_visible()
    assert shown(phone)["scale"] == pytest.approx(1.0)
    now = shown(phone)
    assert 0 < now["left"] + x < now["wide"]
    assert 0 < now["top"] + y < now["high"]
    expect(phone.page.locator(".panel")).to_have_count(0)
    phone.button("Show the whole photo").click()
    assert shown(phone)["scale"] == before
    phone.button("Come near to the pixels").click()
    assert shown(phone)["scale"] == pytest.approx(1.0)


def test_two_fingers_put_no_point(looking: Phone) -> None:
    """While a missed fish is added, a pinch comes near, then a tap puts the point."""
    phone = looking
    phone.button("Missed fish").click()
    before = shown(phone)["scale"]
    pinch(phone, (180.0, 130.0), (40.0, 120.0))
    assert shown(phone)["scale"] > 2 * before
    expect(phone.page.get_by_text("Tap the snout")).to_be_visible()
    phone.touch((150.0, 120.0))
    expect(phone.page.get_by_text("Tap the fork of the tail")).to_be_visible()
    phone.button("Cancel").click()


def test_from_one_doubtful_fish_to_the_next(looking: Phone) -> None:
    """One tap each; under the finger that moves an end there is a magnifier."""
    phone = looking
    doubtful = phone.page.locator(".fish-row:is(.doubtful, .out)")
    numbers = [int(row.inner_text().split()[0]) for row in doubtful.all()]
    assert len(numbers) >= 2
    phone.button("Look at the doubtful fish").click()
    number = phone.page.locator(".panel .number")
    expect(number).to_have_text(str(numbers[0]))
    for following in (*numbers[1:], numbers[0]):
        phone.button("Next doubtful").click()
        expect(number).to_have_text(str(following))
    box = phone.page.get_by_role("button", name="Snout").bounding_box()
    assert box is not None
    glass = phone.page.locator(".magnifier")
    expect(glass).to_be_hidden()
    phone.page.mouse.move(box["x"] + 32, box["y"] + 32)
    phone.page.mouse.down()
    expect(glass).to_be_visible()
    phone.page.mouse.up()
    expect(glass).to_be_hidden()


def test_the_photo_fills_the_window_and_lies_beside_the_list(looking: Phone) -> None:
    """In a wide window the list scrolls by itself; nothing is small or cut off."""
    phone = looking
    folder = os.environ.get("FISHMEASURE_SCREENSHOTS")
    faults: list[str] = []

    def check(name: str) -> None:
        for mode in MODES:
            phone.page.emulate_media(color_scheme=mode)
            if folder:
                phone.page.screenshot(path=Path(folder) / f"{name}-{mode}.png")
            found = [*axe_faults(phone, mode), *size_faults(phone)]
            faults.extend(f"{name}, {mode}: {one}" for one in found)

    for large in ("", "large-"):
        if large:
            phone.page.evaluate("document.documentElement.style.fontSize = '225%'")
        for wide, high in ((360, 640), (640, 360), (1280, 800)):
            phone.page.set_viewport_size({"width": wide, "height": high})
            check(f"photo-{large}{wide}")
            if wide > high:
                now = shown(phone)
                assert now["high"] == high
                assert now["wide"] >= 0.5 * wide
                below = phone.page.locator(".below").bounding_box()
                assert below is not None
                assert below["x"] >= now["wide"]
            phone.fish_row(2).click()
            expect(phone.page.locator(".panel")).to_be_visible()
            check(f"fish-{large}{wide}")
            phone.button("Done").click()
    assert not faults, "\n".join(faults)
