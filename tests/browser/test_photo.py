"""One photo: corrections by finger and by keyboard, bad photos, scale by hand."""

import io
import math
import re
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageDraw, ImageFilter
from playwright.sync_api import Locator, expect

from tests.browser.phone import MEASURED_MS, Phone, photo, truth
from tests.browser.server import Server

NET = "tank_a_net2"


@pytest.fixture(scope="module")
def unit_id(server: Server) -> list[str]:
    """Return a place for the unit that the tests of this file share."""
    assert server.process is not None
    return []


@pytest.fixture
def sampling(phone: Phone, unit_id: list[str]) -> Phone:
    """Return a phone that has begun a sample."""
    if not unit_id:
        unit_id.append(phone.add_unit("Photo tank"))
    phone.start_sample(unit_id[0])
    return phone


def centre(fish: dict[str, Any]) -> tuple[float, float]:
    """Return the middle of a true fish."""
    x, y = fish["midline_px"][len(fish["midline_px"]) // 2]
    return float(x), float(y)


def shown_mm(row: Locator) -> float:
    """Return the length in a fish's line."""
    text = row.locator(".figures-line span").inner_text()
    return float(text.split()[0])


def choose(phone: Phone, fish: dict[str, Any]) -> None:
    """Tap a fish in the picture."""
    phone.touch(phone.place_of(centre(fish), truth(NET)["camera"]["width_px"]))
    expect(phone.page.locator(".panel")).to_be_visible()


def test_a_fish_is_dropped_taken_back_and_the_estimate_follows(
    sampling: Phone,
) -> None:
    """One fish fewer is measured; used again, it is as before."""
    phone = sampling
    phone.photograph(photo(NET))
    phone.measured()
    phone.sent()
    before = phone.estimate()
    choose(phone, truth(NET)["fish"][0])
    phone.button("Leave out").click()
    expect(phone.button("Use it")).to_be_visible()
    phone.sent()
    after = phone.estimate()
    assert after["fish_measured"] == before["fish_measured"] - 1
    assert after["mean_weight_g"] != before["mean_weight_g"]
    phone.button("Use it").click()
    expect(phone.button("Leave out")).to_be_visible()
    phone.sent()
    assert phone.estimate() == before
    phone.button("Done").click()


def test_a_picture_that_cannot_be_drawn_is_a_sentence(sampling: Phone) -> None:
    """The figures stand beside it; the same where the server cannot be reached."""
    phone = sampling
    phone.photograph(photo(NET))
    phone.measured()
    phone.sent()
    # The phone's own copy cannot be shown, then the server's cannot.
    phone.page.get_by_alt_text("Photo of the net sample").first.evaluate(
        "image => [1, 2].forEach(() => image.dispatchEvent(new Event('error')))"
    )
    said = phone.page.get_by_text("The picture cannot be drawn or fetched.")
    expect(said).to_be_visible()
    expect(phone.page.locator(".figures-line").first).to_contain_text("mm")


def test_a_missed_fish_is_added_by_two_taps_with_its_true_length(
    sampling: Phone,
) -> None:
    """Tapped at the true snout and fork, within 3 % (a finger is off by a pixel)."""
    phone = sampling
    phone.photograph(photo(NET))
    phone.measured()
    rows = phone.page.locator(".fish-row")
    count = rows.count()
    fish = truth(NET)["fish"][2]
    width = truth(NET)["camera"]["width_px"]
    phone.button("Missed fish").click()
    expect(phone.page.get_by_text("Tap the snout")).to_be_visible()
    phone.touch(phone.place_of(fish["snout_px"], width))
    expect(phone.page.get_by_text("Tap the fork of the tail")).to_be_visible()
    phone.touch(phone.place_of(fish["fork_px"], width))
    expect(rows).to_have_count(count + 1)
    assert shown_mm(rows.last) == pytest.approx(fish["fork_length_mm"], rel=0.03)
    rows.last.click()
    phone.button("Leave out").click()
    expect(rows).to_have_count(count)
    phone.sent()


def test_an_end_is_dragged_by_finger_and_nudged_by_key(sampling: Phone) -> None:
    """The fork moved towards the snout by a tenth of the body: a tenth shorter."""
    phone = sampling
    phone.photograph(photo(NET))
    phone.measured()
    row = phone.fish_row(1)
    before = row.locator(".figures-line span").inner_text()
    row.click()
    fork, snout = (box_centre(phone, name) for name in ("Fork", "Snout"))
    end = tuple(f + 0.1 * (s - f) for f, s in zip(fork, snout, strict=True))
    phone.touch(fork, (end[0], end[1]))
    phone.sent()
    phone.button("Done").click()
    expect(row).not_to_contain_text(before)
    assert shown_mm(row) == pytest.approx(0.9 * float(before.split()[0]), rel=0.02)
    row.click()
    lead = phone.page.locator(".panel .lead")
    resting = lead.inner_text()
    phone.page.get_by_role("button", name="Fork").focus()
    for _ in range(3):
        phone.page.keyboard.press("Shift+ArrowUp")
    expect(lead).not_to_have_text(resting)
    phone.sent()
    phone.button("Undo").click()
    phone.sent()
    phone.button("Done").click()
    expect(row).to_contain_text(before)


def box_centre(phone: Phone, name: str) -> tuple[float, float]:
    """Return the middle of a handle."""
    box = phone.page.get_by_role("button", name=name).bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_figures_come_with_their_errors_and_what_weights_stand_on(
    sampling: Phone,
) -> None:
    """Each length and weight has its standard error; the book is named."""
    phone = sampling
    phone.photograph(photo(NET))
    phone.measured()
    row = phone.fish_row(1)
    figures = re.compile(r"^\d+\s±\s\d+\smm\s*\d+\s±\s\d+\sg$")
    expect(row.locator(".figures-line")).to_have_text(figures)
    note = phone.page.get_by_text("± is one standard error.")
    expect(note).to_contain_text(
        "Weights of Rainbow trout are by the depth of each body beside its length: "
        "standard error about 15 %."
    )
    expect(note).to_contain_text("Weigh the net.")


def test_a_photo_without_markers_asks_for_another_and_takes_a_scale_by_hand(
    sampling: Phone, tmp_path: Path
) -> None:
    """Two taps on a known length make up for the sheet; lengths within 4 %."""
    phone = sampling
    known = truth(NET)
    painted = Image.open(photo(NET)).convert("RGB")
    draw = ImageDraw.Draw(painted)
    for marker in known["markers"]:
        draw.polygon([tuple(p) for p in marker["corners_px"]], fill=(236, 236, 232))
    file = tmp_path / "no_markers.jpg"
    painted.save(file, quality=95)
    phone.photograph(file)
    expect(phone.page.get_by_text("Take this photo again")).to_be_visible(
        timeout=MEASURED_MS
    )
    expect(phone.page.get_by_text("No calibration marker can be seen")).to_be_visible()
    expect(phone.page.get_by_text("Take it again", exact=True)).to_be_visible()
    ends = [marker["corners_px"][0] for marker in known["markers"][:2]]
    phone.button("Give the scale by hand").first.click()
    for end in ends:
        phone.touch(phone.place_of(end, known["camera"]["width_px"]))
    corner = {marker["id"]: marker["corners_px"] for marker in known["markers"]}
    assert corner  # the sheet's own markers: 40 mm sides, 15 mm in from the edges
    phone.type(str(corner_distance_mm(known)))
    phone.button("Measure with it").click()
    expect(phone.fish_row(1)).to_be_visible(timeout=MEASURED_MS)
    true_mm = sorted(float(fish["fork_length_mm"]) for fish in known["fish"])
    rows = phone.page.locator(".fish-row.used, .fish-row.doubtful")
    shown = sorted(shown_mm(row) for row in rows.all())
    for length in shown:
        assert min(abs(length - one) / one for one in true_mm) < 0.04
    assert len(shown) >= len(true_mm) - 2


def corner_distance_mm(known: dict[str, Any]) -> int:
    """Return the distance of the first two markers' outer top-left corners.

    CONTRACT of the sheet, A4: outer corners of the markers 15 mm in from both
    edges of 297 x 210 mm, 40 mm sides.
    """
    first, second = (marker["id"] for marker in known["markers"][:2])
    left, right, top, low = 15.0, 297.0 - 15.0 - 40.0, 15.0, 210.0 - 15.0 - 40.0
    place = {0: (left, top), 1: (right, top), 2: (right, low), 3: (left, low)}
    return round(math.dist(place[first], place[second]))


@pytest.mark.parametrize("name", [NET, "touching"])
def test_figures_on_the_photo_cover_no_fish_and_no_other_figures(
    sampling: Phone, name: str
) -> None:
    """Held against the true midlines: one figure over two fish belongs to neither."""
    phone = sampling
    phone.photograph(photo(name))
    phone.measured()
    places = [one.bounding_box() for one in phone.page.locator(".label rect").all()]
    stage = phone.page.locator(".stage").bounding_box()
    assert stage is not None
    true = truth(name)
    width = true["camera"]["width_px"]
    points = [
        phone.place_of((x, y), width)
        for fish in true["fish"]
        for x, y in fish["midline_px"]
    ]
    assert len(places) >= len(true["fish"]) / 2
    for number, place in enumerate(places):
        assert place is not None
        low = (place["x"] + place["width"], place["y"] + place["height"])
        inside = [
            (x, y)
            for x, y in points
            if place["x"] < x < low[0] and place["y"] < y < low[1]
        ]
        assert inside == []
        assert stage["x"] <= place["x"]
        assert low[0] <= stage["x"] + stage["width"] + 1
        for other in places[:number]:
            assert other is not None
            apart_x = other["x"] >= low[0] or other["x"] + other["width"] <= place["x"]
            apart_y = other["y"] >= low[1] or other["y"] + other["height"] <= place["y"]
            assert apart_x or apart_y


def test_what_is_no_photo_is_refused_with_the_reason(
    sampling: Phone, tmp_path: Path
) -> None:
    """The reason and what to do are there, and in the outbox too."""
    phone = sampling
    file = tmp_path / "notes.jpg"
    file.write_text("no picture at all")
    phone.photograph(file)
    reason = "notes.jpg is not a picture that can be read"
    expect(phone.page.get_by_text(reason)).to_be_visible(timeout=MEASURED_MS)
    expect(phone.page.get_by_text("Take it again")).to_be_visible()
    phone.open("waiting")
    expect(phone.page.get_by_text(reason)).to_be_visible()
    phone.button("Give up").click()
    expect(phone.page.get_by_text(reason)).to_have_count(0)


def test_a_blurred_photo_says_what_to_do_at_once(
    sampling: Phone, tmp_path: Path
) -> None:
    """A lens out of focus by some millimetres on the board."""
    phone = sampling
    blurred = Image.open(photo(NET)).convert("RGB")
    width = truth(NET)["camera"]["width_px"]
    blurred = blurred.filter(ImageFilter.GaussianBlur(width / 130))
    buffer = io.BytesIO()
    blurred.save(buffer, "JPEG", quality=92)
    file = tmp_path / "blurred.jpg"
    file.write_bytes(buffer.getvalue())
    phone.photograph(file)
    expect(phone.page.locator(".banner.bad, .banner.warn")).to_be_visible(
        timeout=MEASURED_MS
    )
    expect(phone.page.get_by_text("Take it again", exact=True)).to_be_visible()
