"""Broken photos end in a typed refusal: no crash, no hang, bounded memory."""

from pathlib import Path

import pytest

from fishmeasure.base.errors import FishMeasureError
from fishmeasure.photo.image import read_photo
from fishmeasure.photo.privacy import strip_private_tags
from tests.fuzz.attack import attack
from tests.fuzz.bases import SECRET, base_photos

PEAK_MB = 1500.0
"""A photo of 120 megapixels, the most allowed, is 480 MB once and again turned."""


def check(first: int, last: int) -> None:
    outcome = attack(seed=1, first=first, last=last)
    assert outcome.failures == []
    assert outcome.photos == last - first
    assert outcome.taken > outcome.photos / 10  # the attack gets past the headers
    assert outcome.peak_mb < PEAK_MB


def test_broken_photos_are_refused() -> None:
    """The first few hundred of the attack."""
    check(0, 300)


@pytest.mark.slow
def test_many_broken_photos_are_refused() -> None:
    """10,000 others."""
    check(300, 10_300)


@pytest.mark.parametrize("name", sorted(base_photos()))
def test_whole_photos_are_taken_or_refused_by_name(name: str) -> None:
    """What is a photo is read and loses what is private; what is none is refused."""
    data = base_photos()[name]
    if name.startswith("no-photo"):
        with pytest.raises(FishMeasureError):
            read_photo(data, name)
        with pytest.raises(FishMeasureError):
            strip_private_tags(data, name)
        return
    before = read_photo(data, name)
    clean = strip_private_tags(data, name)
    after = read_photo(clean, name)
    assert SECRET not in clean
    assert (before.width_px, before.height_px) == (after.width_px, after.height_px)
    assert before.focal_length_px == after.focal_length_px


@pytest.mark.shared
def test_real_photos_cut_off_anywhere_are_refused(shared: Path) -> None:
    """A transfer that breaks off gives a clear refusal, never half a photo."""
    photo = min((shared / "photos").rglob("*.jpg"), key=lambda p: p.stat().st_size)
    data = photo.read_bytes()
    for part in range(1, 20):
        with pytest.raises(FishMeasureError):
            read_photo(data[: len(data) * part // 20], photo.name)
