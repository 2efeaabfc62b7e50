"""The camera within the page, with a video of drawn scenes for a camera."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import numpy as np
import pytest
from PIL import Image, ImageFilter
from playwright.sync_api import Browser, expect

from fishmeasure.base.words.sources import languages
from tests.browser.conftest import Phones, launched
from tests.browser.phone import MEASURED_MS, Phone, photo, truth
from tests.browser.server import Server
from tests.browser.test_screens import axe_faults, size_faults

if TYPE_CHECKING:
    from numpy.typing import NDArray

NET = "tank_a_net2"
SIZE = (1280, 960)
FRAMES_A_SECOND = 2
HOLD_S = 3
MODES: tuple[Literal["light", "dark"], ...] = ("light", "dark")
_LARGE = "document.documentElement.style.fontSize = '225%'"
_HEARD = """() => {
  window.heard = [];
  const hear = () => {
    const text = document.querySelector(".telling")?.textContent;
    if (text && window.heard.at(-1) !== text) window.heard.push(text);
  };
  new MutationObserver(hear).observe(document.body, {
    childList: true, subtree: true, characterData: true,
  });
}"""


def scene(name: str) -> Image.Image:
    """Return a drawn scene as a camera's picture."""
    return Image.open(photo(name)).convert("RGB").resize(SIZE, Image.Resampling.BOX)


def dimmed(picture: Image.Image, share: float) -> Image.Image:
    """Return the picture in so much of its light (sRGB's power taken as 2.2)."""
    light = np.asarray(picture, np.float64) / 255.0
    return Image.fromarray((255.0 * light * share ** (1 / 2.2)).astype(np.uint8))


def planes(picture: Image.Image) -> bytes:
    """Return the planes of YUV 4:2:0 (ITU-R BT.601, as Pillow converts to it)."""
    y, u, v = (np.asarray(part) for part in picture.convert("YCbCr").split())
    halves: list[NDArray[np.uint8]] = [part[::2, ::2] for part in (u, v)]
    # JFIF's full range to the 16 to 235 that video has.
    low = (16 + y.astype(np.float64) * 219 / 255).round().astype(np.uint8)
    return low.tobytes() + b"".join(part.tobytes() for part in halves)


@pytest.fixture(scope="module")
def video(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a video: too dark, tilted, blurred, at last as it should be."""
    good = scene(NET)
    parts = [
        dimmed(good, 0.05),
        scene("tilt_35"),
        good.filter(ImageFilter.GaussianBlur(2.2)),
        good,
    ]
    file = tmp_path_factory.mktemp("video") / "net.y4m"
    with file.open("wb") as out:
        wide, high = SIZE
        out.write(f"YUV4MPEG2 W{wide} H{high} F{FRAMES_A_SECOND}:1 Ip C420\n".encode())
        for part in parts:
            frame = b"FRAME\n" + planes(part)
            out.write(frame * (HOLD_S * FRAMES_A_SECOND))
    return file


@pytest.fixture(scope="module")
def browser(video: Path) -> Iterator[Browser]:
    """Return a browser whose camera shows the video."""
    with launched(
        "--use-fake-device-for-media-stream",
        f"--use-file-for-fake-video-capture={video}",
    ) as started:
        yield started


@pytest.fixture
def sampling(phones: Phones, server: Server) -> Phone:
    """Return a phone at a safe address, with a sample begun."""
    phone = phones(server.url, {"width": 360, "height": 640})
    unit = next(one for one in server.items("v1/units") if one["name"] == "Tank A")
    phone.start_sample(unit["id"])
    return phone


def look(phone: Phone) -> None:
    """Open the camera of the first net."""
    phone.net(1).get_by_text("Photograph", exact=True).click()
    expect(phone.page.locator("#title")).to_have_text("Photograph the net")


def test_what_is_wrong_is_said_and_when_the_sheet_is_well_seen_the_photo_is_taken(
    sampling: Phone,
) -> None:
    """The video ends well: the photo taken by itself has the net's fish in it."""
    phone = sampling
    phone.context.grant_permissions(["camera"])
    phone.page.evaluate(_HEARD)
    look(phone)
    expect(phone.page.locator(".marker").first).to_be_visible()
    expect(phone.page.locator("#title")).to_have_text("Photo")
    heard = " ".join(phone.page.evaluate("window.heard"))
    for words in ("Too dark", "Tilted by about 35°", "Blurred", "Sheet well seen"):
        assert words in heard
    phone.measured()
    true_mm = [fish["fork_length_mm"] for fish in truth(NET)["fish"]]
    rows = phone.page.locator(".fish-row.used .figures-line span")
    expect(rows.first).to_be_visible(timeout=MEASURED_MS)
    shown = [float(text.split()[0]) for text in rows.all_inner_texts()]
    assert len(shown) >= len(true_mm) / 2
    for length in shown:
        assert min(abs(length - one) / one for one in true_mm) < 0.04


def test_by_hand_where_the_shutter_is_not_to_fire_by_itself(sampling: Phone) -> None:
    """The choice stays; by day and night, wide and high, nothing is too small."""
    phone = sampling
    phone.context.grant_permissions(["camera"])
    look(phone)
    phone.page.get_by_label("Take it by itself when the sheet is well seen").uncheck()
    phone.back()
    look(phone)
    by_itself = phone.page.get_by_label("Take it by itself when the sheet is well seen")
    expect(by_itself).not_to_be_checked()
    expect(phone.page.get_by_text("Sheet well seen")).to_be_visible()
    folder = os.environ.get("FISHMEASURE_SCREENSHOTS")
    faults: list[str] = []
    for large in (False, True):
        if large:
            phone.page.evaluate(_LARGE)
        for wide, high in ((360, 640), (640, 360), (1280, 800)):
            phone.page.set_viewport_size({"width": wide, "height": high})
            for mode in MODES:
                phone.page.emulate_media(color_scheme=mode)
                name = f"camera-{wide}-{'large-' if large else ''}{mode}"
                if folder:
                    phone.page.screenshot(path=Path(folder) / f"{name}.png")
                found = [*axe_faults(phone, mode), *size_faults(phone)]
                faults += [f"{name}: {fault}" for fault in found]
    phone.page.set_viewport_size({"width": 360, "height": 640})
    for language in languages():
        phone.page.evaluate(f"localStorage['fishmeasure.language'] = '{language}'")
        phone.page.reload()
        expect(phone.page.locator("html")).to_have_attribute("lang", language)
        expect(phone.page.locator(".marker").first).to_be_visible()
        phone.page.evaluate(_LARGE)
        if folder:
            phone.page.screenshot(path=Path(folder) / f"camera-{language}.png")
        faults += [f"{language}: {fault}" for fault in size_faults(phone)]
    assert not faults, "\n".join(faults)
    phone.page.locator(".actions .primary").click()
    expect(phone.page.locator(".picture:not(.view)")).to_be_visible()


def test_without_leave_the_phones_own_camera_is_offered(sampling: Phone) -> None:
    """Said once; from then on the button opens the phone's own camera at once."""
    phone = sampling
    look(phone)
    said = "The browser does not let this page use the camera."
    expect(phone.page.get_by_text(said)).to_be_visible()
    assert not axe_faults(phone, "light")
    phone.page.locator("input[capture]").set_input_files(photo(NET))
    expect(phone.page.locator("#title")).to_have_text("Photo")
    phone.back()
    with phone.page.expect_file_chooser():
        phone.net(1).get_by_text("Photograph", exact=True).click()


def test_by_plain_http_the_phones_own_camera_opens(
    phones: Phones, server: Server
) -> None:
    """There is no camera in a page that is not safe (W3C Media Capture, 4.2)."""
    phone = phones(server.plain_url)
    unit = next(one for one in server.items("v1/units") if one["name"] == "Tank A")
    phone.start_sample(unit["id"])
    with phone.page.expect_file_chooser():
        phone.net(1).get_by_text("Photograph", exact=True).click()
