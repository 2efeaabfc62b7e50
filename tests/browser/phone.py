"""A phone in a person's hand: what one does on the page, step by step."""

import json
import re
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Locator, Page, expect

ROOT = Path(__file__).resolve().parents[2]
SAMPLES = ROOT / "sample_images"
MEASURED_MS = 150_000  # a queue that was told to wait comes back within 60 s
HANDLE_PX = 64

Point = tuple[float, float]


def truth(name: str) -> Any:
    """Return what is true of a rendered photo."""
    return json.loads((SAMPLES / f"{name}.truth.json").read_text())


def photo(name: str) -> Path:
    """Return a rendered photo."""
    return SAMPLES / f"{name}.jpg"


@dataclass
class Phone:
    """One browser context with one page, and what went wrong on it."""

    context: BrowserContext
    page: Page
    url: str
    faults: list[str]

    # --- the book ---------------------------------------------------------------

    def open(self, path: str = "") -> None:
        """Open a screen by its address."""
        self.page.goto(f"{self.url}#/{path}")
        expect(self.page.locator("body")).to_have_attribute("data-screen", path)

    def button(self, name: str) -> Locator:
        """Return the button of exactly that name."""
        return self.page.get_by_role("button", name=name, exact=True)

    def link(self, name: str) -> Locator:
        """Return the link of exactly that name."""
        return self.page.get_by_role("link", name=name, exact=True)

    def add_unit(self, name: str, fish: int = 240) -> str:
        """Enter a unit and fish in it; return its identifier."""
        self.open()
        self.link("Add a unit").click()
        self.page.get_by_label("Name").fill(name)
        self.page.get_by_label("Volume of water").fill("6")
        self.page.get_by_label("Depth of water").fill("1,1")
        self.page.get_by_label("New water", exact=False).first.fill("40")
        months = "5 5 6 8 10 12 14 14 12 9 7 5"
        self.page.get_by_label("Water temperature by month").fill(months)
        self.button("Save the unit").click()
        expect(self.page.locator("#title")).to_have_text(name)
        self.link("Enter fish stocked").click()
        self.page.get_by_label("Name of this cohort").fill(f"{name} trout")
        self.page.get_by_label("Number of fish").fill(str(fish))
        self.page.get_by_label("Mean weight of a fish").fill("150")
        self.page.get_by_label("Plate size").fill("300")
        self.button("Save the fish").click()
        expect(self.button("Sample this unit")).to_be_visible()
        self.sent()
        found = re.search(r"unit/([0-9a-f-]{36})", self.page.url)
        assert found is not None
        return found[1]

    def sent(self) -> None:
        """Wait until a form that was saved is gone and nothing waits to be sent."""
        for name in ("Save the entry", "Save the correction"):
            expect(self.button(name)).to_have_count(0)
        deadline = time.monotonic() + MEASURED_MS / 1000
        while not self.page.evaluate(_NOTHING_WAITS):
            assert time.monotonic() < deadline, "something is still waiting"
            self.page.wait_for_timeout(100)

    def put_in_the_book(self, *, taps: int = 1) -> None:
        """Save a sample; a question is answered that it is right.

        Other tests' samples have the same photos, which is asked about.
        """
        self.button("Save into the book").click(click_count=taps)
        right = self.button("It is right")
        there = self.page.get_by_text("In the book", exact=True)
        expect(right.or_(there).first).to_be_visible(timeout=MEASURED_MS)
        if right.is_visible():
            right.click()
        expect(there).to_be_visible(timeout=MEASURED_MS)

    # --- sampling -----------------------------------------------------------------

    def start_sample(self, unit_id: str) -> None:
        """Begin a sample in a unit with one cohort."""
        self.open(f"unit/{unit_id}")
        self.button("Sample this unit").click()
        expect(self.page.locator("#title")).to_contain_text("Sample")

    def photograph(self, file: Path, net: int = 1) -> None:
        """Photograph a net; the page goes to the photo."""
        self.net(net).locator("input[capture]").set_input_files(file)
        expect(self.page.locator("#title")).to_have_text("Photo")

    def net(self, number: int) -> Locator:
        """Return the card of a net."""
        heading = self.page.get_by_role("heading", name=f"Net {number}", exact=True)
        return self.page.locator("section.card").filter(has=heading)

    def measured(self) -> None:
        """Wait until the shown photo is measured."""
        expect(self.page.locator(".layer")).to_be_visible(timeout=MEASURED_MS)

    def back(self) -> None:
        """Go back by the page's own button."""
        self.link("Back").click()

    def weigh(self, gross_g: int, tare_g: int, fish: int) -> None:
        """Type a weighing on the keys of the shown net."""
        for number, label in (
            (gross_g, "Next: Wet net alone"),
            (tare_g, "Next: Fish in it"),
        ):
            self.type(str(number))
            self.button(label).click()
        self.type(str(fish))
        self.button("Save the weighing").click()
        expect(self.page.locator("#title")).to_contain_text("Sample")

    def type(self, digits: str) -> None:
        """Press number keys."""
        for digit in digits:
            self.page.locator(
                ".key", has_text=re.compile(f"^{re.escape(digit)}$")
            ).tap()

    # --- the photo -----------------------------------------------------------------

    def fish_row(self, number: int) -> Locator:
        """Return a fish's line in the list under the photo."""
        return self.page.locator(".fish-row").nth(number - 1)

    def place_of(self, point: Point, width_px: int) -> Point:
        """Return where a point of the whole shown photo is in the window."""
        box = self.page.locator(".stage").bounding_box()
        assert box is not None
        scale = box["width"] / width_px
        return box["x"] + (point[0] + 0.5) * scale, box["y"] + (point[1] + 0.5) * scale

    def touch(self, start: Point, end: Point | None = None) -> None:
        """Put a finger down, slide it if an end is given, lift it."""
        session = self.context.new_cdp_session(self.page)

        def send(kind: str, points: list[Point]) -> None:
            touches = [{"x": x, "y": y} for x, y in points]
            session.send(
                "Input.dispatchTouchEvent", {"type": kind, "touchPoints": touches}
            )

        send("touchStart", [start])
        if end is not None:
            for step in range(1, 6):
                part = step / 5
                x = start[0] + (end[0] - start[0]) * part
                y = start[1] + (end[1] - start[1]) * part
                send("touchMove", [(x, y)])
        send("touchEnd", [])
        session.detach()

    def estimate(self) -> Any:
        """Return the estimate of the newest sample as the page has it."""
        return self.page.evaluate(_NEWEST_ESTIMATE)


_OPEN_STORES = """
const open = () => new Promise((done, fail) => {
  const request = indexedDB.open("fishmeasure");
  request.onsuccess = () => done(request.result);
  request.onerror = () => fail(request.error);
});
const all = (database, store) => new Promise((done) => {
  const request = database.transaction(store).objectStore(store).getAll();
  request.onsuccess = () => done(request.result);
});
"""
_NOTHING_WAITS = f"""async () => {{
  {_OPEN_STORES}
  const database = await open();
  const names = ["photos", "samples", "writes"];
  const stores = await Promise.all(names.map((name) => all(database, name)));
  database.close();
  const done = ["measured", "saved", "refused"];
  return stores.flat().every((record) => done.includes(record.state));
}}"""
_NEWEST_ESTIMATE = f"""async () => {{
  {_OPEN_STORES}
  const database = await open();
  const samples = await all(database, "samples");
  database.close();
  return samples.sort((a, b) => b.created - a.created)[0].result?.estimate ?? null;
}}"""
