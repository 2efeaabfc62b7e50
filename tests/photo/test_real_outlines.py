"""The outlines drawn by hand on real photos are sound data."""

import json
import math
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageOps

from fishmeasure.base.arrays import FloatArray

DATA = Path(__file__).parents[1] / "data" / "real_outlines.json"
FISH: list[dict[str, Any]] = json.loads(DATA.read_text(encoding="utf-8"))["fish"]
NAMES = [f"{Path(f['photo']).stem}-{i}" for i, f in enumerate(FISH)]
COMPLETE = [f for f in FISH if f["complete"]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    polygon_px: FloatArray
    size_px: float

    @classmethod
    def of(cls, fish: dict[str, Any]) -> "Drawn":
        polygon = np.asarray(fish["polygon_px"], dtype=float)
        return cls(polygon_px=polygon, size_px=float(np.ptp(polygon, axis=0).max()))

    @property
    def area_px2(self) -> float:
        x, y = self.polygon_px.T
        return float(abs(x @ np.roll(y, 1) - y @ np.roll(x, 1)) / 2.0)


def distance_to_outline(point: list[float], polygon: FloatArray) -> float:
    start, end = polygon, np.roll(polygon, -1, axis=0)
    along = end - start
    share = ((np.asarray(point) - start) * along).sum(axis=1) / (along**2).sum(axis=1)
    nearest = start + np.clip(share, 0.0, 1.0)[:, None] * along
    return float(np.hypot(*(np.asarray(point) - nearest).T).min())


def side(a: FloatArray, b: FloatArray, c: FloatArray) -> FloatArray:
    """Return on which side of the line a-b the points c lie, by sign."""
    turn: FloatArray = (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1]) - (
        b[..., 1] - a[..., 1]
    ) * (c[..., 0] - a[..., 0])
    return turn


def crossings(polygon: FloatArray) -> list[tuple[int, int]]:
    """Return pairs of edges that cross."""
    start, end = polygon, np.roll(polygon, -1, axis=0)
    found = []
    for i in range(len(polygon)):
        a, b = start[i], end[i]
        across = side(a, b, start) * side(a, b, end) < 0.0
        back = side(start, end, a[None]) * side(start, end, b[None]) < 0.0
        found += [(i, int(j)) for j in np.flatnonzero(across & back) if j > i]
    return found


def test_there_are_twelve_whole_fish_and_more() -> None:
    """As many as an evaluation of outlines on real photos asks for."""
    assert len(COMPLETE) >= 12
    assert len({f["photo"] for f in COMPLETE}) >= 12


@pytest.mark.parametrize("fish", FISH, ids=NAMES)
def test_an_outline_does_not_cross_itself(fish: dict[str, Any]) -> None:
    """A simple polygon has an inside."""
    polygon = Drawn.of(fish).polygon_px
    assert len(polygon) >= 40
    assert (np.hypot(*(polygon - np.roll(polygon, 1, axis=0)).T) > 0.0).all()
    assert crossings(polygon) == []


@pytest.mark.parametrize("fish", FISH, ids=NAMES)
def test_end_points_lie_on_the_outline(fish: dict[str, Any]) -> None:
    """Within one hundredth of the fish's size."""
    drawn = Drawn.of(fish)
    assert (fish["fork_px"] is not None) == fish["complete"]
    for point in (fish["snout_px"], fish["fork_px"]):
        if point is not None:
            distance = distance_to_outline(point, drawn.polygon_px)
            assert distance < 0.01 * drawn.size_px


@pytest.mark.parametrize("fish", COMPLETE, ids=lambda f: Path(f["photo"]).stem)
def test_fork_length_is_most_of_the_whole(fish: dict[str, Any]) -> None:
    """Fork / total length is 0.83 to 1 (Brofeldt 1917, lake trout, round tails).

    Seven species of Brofeldt have 0.86 (bream) to 0.94; tunas' lunate tails, held
    open on a photo, fall a little lower.
    """
    drawn = Drawn.of(fish)
    fork = math.dist(fish["snout_px"], fish["fork_px"])
    assert 0.83 < fork / drawn.size_px <= 1.01
    # Mean depth over length: eel-like saury to plaice, fins included.
    assert 0.07 < drawn.area_px2 / fork**2 < 0.5


@pytest.mark.shared
@pytest.mark.parametrize("fish", FISH, ids=NAMES)
def test_outlines_lie_in_their_photos(shared: Path, fish: dict[str, Any]) -> None:
    """Coordinates are of the photo at full size, after its EXIF orientation."""
    path = shared / fish["photo"]
    if not path.is_file():
        pytest.skip(f"no {fish['photo']}")
    with Image.open(path) as image:
        size = ImageOps.exif_transpose(image).size
    polygon = Drawn.of(fish).polygon_px
    assert (polygon >= -0.5).all()
    assert (polygon <= np.asarray(size) - 0.5).all()
