"""Ends and lengths on outlines of 218 North Sea fish with landmarks.

Caillon et al. 2018, Ecosphere 9(5), e02220; CC BY-SA 4.0. Landmarks: 0 and 4 the
tail fin's base above and below, 1 front of the dorsal fin, 2 snout, 3 front of the
pelvic fin.
"""

import gzip
import struct
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from fishmeasure.base.arrays import FloatArray
from fishmeasure.photo.length.ends import find_ends, tail_odds_ln
from fishmeasure.photo.length.midline import trace_midline

pytestmark = pytest.mark.shared

SLENDER = (
    "Salmo_trutta",
    "Dicentrarchus",
    "Osmerus",
    "Clupea",
    "Alosa",
    "Scomber_",
    "Gadus_m",
    "Argentina",
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RealOutline:
    name: str
    contour: FloatArray
    landmarks: tuple[int, ...]


def read_outlines(shared: Path) -> tuple[RealOutline, ...]:
    folder = shared / "photos" / "outlines_nsfishes_ccbysa"
    contours = np.load(folder / "outlines_all218.npz")
    landmarks = _landmarks(folder / "nsfishes.Rdata", len(contours.files))
    return tuple(
        RealOutline(
            name=name,
            contour=contours[name].astype(float),
            landmarks=tuple(int(v) - 1 for v in marks),
        )
        for name, marks in zip(contours.files, landmarks, strict=True)
    )


def _landmarks(path: Path, count: int) -> FloatArray:
    """Return (count, 5) one-based indices.

    In R's binary form (R Internals, "Serialization Formats") a vector of five
    numbers is the word 14, perhaps with attribute bits, the word 5, then five
    big-endian doubles; no other vector of the file has five.
    """
    data = gzip.decompress(path.read_bytes())
    found = []
    start = data.find(struct.pack(">ii", 14, 5))
    while start >= 0:
        found.append(struct.unpack(">5d", data[start + 8 : start + 48]))
        start = data.find(struct.pack(">ii", 14, 5), start + 8)
    assert len(found) == count
    return np.array(found)


class Found(NamedTuple):
    name: str
    tail_right: bool
    sure: bool
    standard_error: float
    natural_error: float


def bent(points: FloatArray, turn_deg: float) -> FloatArray:
    """Return the points of a fish along x, bent to an arc of the same length."""
    if turn_deg == 0.0:
        return points
    length = np.ptp(points[:, 0])
    angle = np.radians(turn_deg) * points[:, 0] / length
    radius = length / np.radians(turn_deg) - points[:, 1]
    return np.column_stack([radius * np.sin(angle), radius[0] - radius * np.cos(angle)])


def found(outline: RealOutline, turn_deg: float, angle_rad: float) -> Found:
    points = outline.contour - outline.contour.mean(axis=0)
    points *= 300.0 / np.ptp(points[:, 0])
    marks = points[list(outline.landmarks)]
    snout_x, end_x = points[:, 0].min(), points[:, 0].max()
    standard = (marks[0, 0] + marks[4, 0]) / 2.0 - snout_x
    cosine, sine = np.cos(angle_rad), np.sin(angle_rad)
    shown = bent(points, turn_deg) @ np.array([[cosine, sine], [-sine, cosine]])
    midline = trace_midline(shown)
    snout = shown[outline.landmarks[2]]
    gaps = np.linalg.norm(midline.points[[0, -1]] - snout, axis=1)
    odds = tail_odds_ln(midline)
    if gaps[0] > gaps[1]:
        midline = midline.reversed()
    ends = find_ends(midline)
    reach = float(midline.contour_along.max()) - ends.snout_along
    return Found(
        name=outline.name,
        tail_right=bool((odds > 0.0) == (gaps[0] < gaps[1])),
        sure=abs(odds) > np.log(9.0),
        standard_error=(ends.base_along - ends.snout_along) / standard - 1.0,
        natural_error=reach / (end_x - snout_x) - 1.0,
    )


@pytest.fixture(scope="module", params=[0.0, 50.0], ids=["straight", "bent"])
def all_found(request: pytest.FixtureRequest, shared: Path) -> tuple[Found, ...]:
    rng = np.random.default_rng(2018)
    return tuple(
        found(
            outline,
            turn_deg=request.param * float(rng.uniform(-1.0, 1.0)),
            angle_rad=float(rng.uniform(0.0, 2.0 * np.pi)),
        )
        for outline in read_outlines(shared)
    )


def test_the_tail_is_told_from_the_head(all_found: tuple[Found, ...]) -> None:
    """218 outlines in random directions: flatfish, eel-like and round-tailed too."""
    assert np.mean([each.tail_right for each in all_found]) >= 0.975


def test_a_wrong_tail_is_nearly_always_said_to_be_doubtful(
    all_found: tuple[Found, ...],
) -> None:
    wrong_and_sure = [e.name for e in all_found if e.sure and not e.tail_right]
    assert len(wrong_and_sure) <= 2


def test_slender_species_never_have_the_wrong_tail(
    all_found: tuple[Found, ...],
) -> None:
    slender = [e for e in all_found if any(name in e.name for name in SLENDER)]
    assert len(slender) > 25
    assert all(each.tail_right for each in slender)


def test_standard_length_agrees_with_the_landmarks(
    all_found: tuple[Found, ...],
) -> None:
    """Base of the tail fin by its landmarks; the sd is what the record states."""
    errors = [
        each.standard_error
        for each in all_found
        if any(name in each.name for name in SLENDER)
    ]
    assert abs(np.mean(errors)) < 0.012
    assert np.std(errors) < 0.03


def test_the_extent_along_the_midline_is_the_fish_s(
    all_found: tuple[Found, ...],
) -> None:
    """The outline's own extent along its axis, before it was bent."""
    errors = [
        each.natural_error
        for each in all_found
        if any(name in each.name for name in SLENDER)
    ]
    assert np.mean(np.abs(errors)) < 0.007
