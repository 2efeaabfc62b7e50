"""What one look through the camera costs in the page, on a processor slowed four times.

Run from the repository: ``python -m tests.bench.bench_look``. Chromium's own slowing
holds for the page's thread, so that the worker's modules are run there.
"""

import base64
import tempfile
from pathlib import Path
from typing import Any

from PIL import Image

from tests.browser.conftest import launched
from tests.browser.server import Server

SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"
NAMES = ("tank_a_net2", "wood_sheet", "loose_dark_wood")
"""A plain board, wood, and wood with a marker covered, which is looked at twice."""
SIZES_PX = (560, 800)
SLOWER = (1, 4)
_TIMED = """async ([grey, width, height]) => {
  const app = document.querySelector("script[type=module]").src;
  const { look } = await import(new URL("seeing/look.js", app));
  const table = await (await fetch(new URL("../camera.json", app))).json();
  const pixels = Uint8Array.from(atob(grey), (one) => one.charCodeAt(0));
  const times = [];
  for (let turn = 0; turn < 30; turn += 1) {
    const began = performance.now();
    look(pixels, width, height, table);
    times.push(performance.now() - began);
  }
  return times.sort((a, b) => a - b);
}"""


def grey(name: str, longest_px: int) -> list[Any]:
    """Return a picture's grey values and its size."""
    picture = Image.open(SAMPLES / f"{name}.jpg").convert("L")
    picture.thumbnail((longest_px, longest_px), Image.Resampling.BILINEAR)
    return [base64.b64encode(picture.tobytes()).decode(), *picture.size]


def main() -> None:
    """Print the least and the middle of 30 looks, in milliseconds."""
    with tempfile.TemporaryDirectory() as folder, launched() as browser:
        server = Server(Path(folder) / "data").start()
        page = browser.new_page()
        page.goto(server.url)
        session = page.context.new_cdp_session(page)
        for name in NAMES:
            for size in SIZES_PX:
                for rate in SLOWER:
                    session.send("Emulation.setCPUThrottlingRate", {"rate": rate})
                    times = page.evaluate(_TIMED, grey(name, size))
                    print(
                        f"{name}, {size} px, {rate} times slower: "
                        f"least {times[0]:.0f} ms, middle {times[15]:.0f} ms"
                    )
        server.stop()


if __name__ == "__main__":
    main()
