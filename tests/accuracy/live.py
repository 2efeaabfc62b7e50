"""The page's own look through the camera against the server's detector.

``python -m tests.accuracy.live [FOLDER ...]`` needs Node. The sample images, made as
small as the live picture, turned, darkened and blurred, are looked at by the page's
modules and by OpenCV's detector; pictures in the folders should show no marker.
"""

import json
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image, ImageFilter, ImageOps

from api.camera import camera_table
from fishmeasure.base.arrays import frozen
from fishmeasure.photo.image import Photo
from fishmeasure.photo.markers import IDS
from fishmeasure.photo.markers.detect import find_markers

ROOT = Path(__file__).parents[2]
LONGEST_PX = 800
TURNS_DEG = (0, 37, 90, 211)
LIGHTS = (1.0, 0.25, 0.06)
BLURS_PX = (0.0, 1.0)
_SCRIPT = """
import { readFileSync } from "node:fs";
import { look } from "./look.js";
const [folder] = process.argv.slice(2);
const table = JSON.parse(readFileSync(`${folder}/camera.json`, "utf-8"));
for (const { name, width, height } of JSON.parse(
  readFileSync(`${folder}/list.json`, "utf-8"))) {
  const grey = new Uint8Array(readFileSync(`${folder}/${name}`));
  const seen = look(grey, width, height, table);
  console.log(JSON.stringify([seen.markers.map(({ id }) => id), seen.tilt_deg]));
}
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One picture, of what kind it is, and the true tilt where it is known."""

    kind: str
    picture: Image.Image
    tilt_deg: float | None = None


def small(path: Path) -> Image.Image:
    """Return a picture as the camera's live one is looked at."""
    picture = ImageOps.exif_transpose(Image.open(path)).convert("RGB")
    picture.thumbnail((LONGEST_PX, LONGEST_PX), Image.Resampling.BILINEAR)
    return picture


def cases(picture: Image.Image, tilt_deg: float) -> list[Case]:
    """Return a picture with markers turned, in less light and blurred."""
    found = []
    for turn in TURNS_DEG:
        turned = picture.rotate(turn, Image.Resampling.BICUBIC, expand=True)
        for light in LIGHTS:
            codes = np.asarray(turned, np.float64) * light ** (1 / 2.2)
            dim = Image.fromarray(codes.astype(np.uint8))
            for blur in BLURS_PX:
                kind = f"light {light:4.2f}, blurred {blur:.0f} px"
                seen = dim.filter(ImageFilter.GaussianBlur(blur)) if blur else dim
                tilt = tilt_deg if turn == 0 else None
                found.append(Case(kind=kind, picture=seen, tilt_deg=tilt))
    return found


def looks(given: list[Case]) -> list[Any]:
    """Return the ids and the tilt that the page's modules see in each."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        for name in ("look", "find_markers", "quads", "plane"):
            code = (ROOT / f"api/page/js/seeing/{name}.js").read_text()
            (folder / f"{name}.js").write_text(code)
        (folder / "package.json").write_text('{"type": "module"}')
        (folder / "run.js").write_text(_SCRIPT)
        (folder / "camera.json").write_text(json.dumps(camera_table()))
        told = []
        for number, case in enumerate(given):
            grey = case.picture.convert("L")
            (folder / str(number)).write_bytes(grey.tobytes())
            size = {"width": grey.width, "height": grey.height}
            told.append({"name": str(number), **size})
        (folder / "list.json").write_text(json.dumps(told))
        command = ["node", str(folder / "run.js"), str(folder)]
        done = subprocess.run(command, check=True, capture_output=True)  # noqa: S603
    return [json.loads(line) for line in done.stdout.splitlines()]


def by_server(case: Case) -> set[int]:
    """Return the ids that the server's detector finds in the same small picture."""
    rgb = np.asarray(case.picture)
    height, width = rgb.shape[:2]
    photo = Photo(name="", rgb=frozen(rgb), width_px=width, height_px=height)
    return {one.marker_id for one in find_markers(photo)} & IDS


def main() -> None:
    """Print how many markers both find, and what is seen where there are none."""
    given = []
    for path in sorted((ROOT / "sample_images").glob("*.jpg")):
        told = path.with_suffix(".truth.json")
        if told.exists():
            tilt = float(json.loads(told.read_text())["camera"]["tilt_deg"])
            given += cases(small(path), tilt)
    seen = looks(given)
    pairs = [(c, set(s[0]), by_server(c)) for c, s in zip(given, seen, strict=True)]
    for kind in dict.fromkeys(case.kind for case in given):
        mine = [(page, server) for case, page, server in pairs if case.kind == kind]
        page, server = (sum(len(one[i]) for one in mine) for i in (0, 1))
        both = sum(len(one[0] & one[1]) for one in mine)
        print(f"{kind}: page {page}, server {server}, both {both}")
    tilts = [
        abs(look[1] - case.tilt_deg)
        for case, look in zip(given, seen, strict=True)
        if case.tilt_deg is not None and look[1] is not None
    ]
    middle, most = np.quantile(tilts, (0.5, 0.95))
    print(f"tilt off by {middle:.1f} degrees, 95 % below {most:.1f}")
    others = [
        Case(kind="none", picture=small(path))
        for folder in sys.argv[1:]
        for path in sorted(Path(folder).rglob("*"))
        if path.suffix.lower() in {".jpg", ".png", ".jpeg"}
    ]
    wrong = sum(bool(look[0]) for look in looks(others)) if others else 0
    print(f"{len(others)} pictures without markers: one seen in {wrong}")


if __name__ == "__main__":
    main()
