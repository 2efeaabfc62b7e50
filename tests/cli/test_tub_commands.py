"""``fishmeasure check`` and ``count``, and the pages for a tub."""

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from fishmeasure.photo.check import check_length
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.photo.water import Water
from fishmeasure.render.sheet import design_page, page_facts, page_pdf
from tests.cli.test_sheet_command import run
from tests.photo.length.test_measure import seen_from

PHOTO = Path(__file__).parents[2] / "sample_images" / "tank_a_net1.jpg"


def seen_dummy(height_mm: float, *, in_water: bool) -> tuple[PhotoMeasurement, object]:
    """Return a photo, and the pixels of both ends of 200 mm so high over its sheet."""
    plane = seen_from(tilt_deg=6.0)
    if in_water:
        plane = replace(plane, water=Water.of(90.0))
    ends = np.array([[-110.0, 30.0], [90.0, 30.0]])
    photo = PhotoMeasurement(photo="a.jpg", width_px=4000, height_px=3000, scale=plane)
    return photo, plane.to_photo_px(ends, height_mm)


@pytest.mark.parametrize("in_water", [True, False])
def test_a_dummy_at_its_height_reads_its_length(*, in_water: bool) -> None:
    photo, ends = seen_dummy(40.0, in_water=in_water)
    found = check_length(photo, 200.0, 40.0, ends)  # type: ignore[arg-type]
    assert found is not None
    assert found.off == pytest.approx(0.0, abs=1e-6)
    assert found.within


def test_a_forgotten_spacer_shows() -> None:
    """By similar triangles: 600 / (600 - 40) - 1 = 7.1 % too long."""
    photo, ends = seen_dummy(40.0, in_water=False)
    found = check_length(photo, 200.0, 0.0, ends)  # type: ignore[arg-type]
    assert found is not None
    assert found.off == pytest.approx(0.071, abs=0.006)
    assert not found.within


def test_without_a_fish_that_long_nothing_is_said() -> None:
    photo, _ = seen_dummy(40.0, in_water=False)
    assert check_length(photo, 200.0, 40.0) is None


def test_the_printed_dummy_is_as_long_as_it_says() -> None:
    """Its dark body from end to end on the page, at 254 dpi."""
    page = design_page("dummy", "A4")
    told = page_facts(page)["fish"]
    grey = pypdfium2.PdfDocument(page_pdf(page))[0].render(scale=254 / 72)
    dark = np.asarray(grey.to_numpy())[..., 0] < 100
    y = round(told["snout_mm"][1] * 10)
    columns = np.flatnonzero(dark[y - 300 : y + 300].any(axis=0))
    assert np.ptp(columns) / 10 == pytest.approx(200.0, abs=0.5)
    assert told["length_mm"] == 200.0


def test_pages_for_a_tub_are_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = str(tmp_path)
    assert run(monkeypatch, "sheet", "--tub", "--dummy", "--out", folder) == 0
    names = {path.name for path in tmp_path.glob("*.pdf")}
    assert names == {"tub-a4.pdf", "tub-cards-a4.pdf", "dummy-a4.pdf"}


def test_fish_are_counted_and_held_against_what_was_expected(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The sample photo shows eight."""
    told = tmp_path / "count.json"
    asked = ("count", str(PHOTO), "--expected", "12", "--json", str(told))
    assert run(monkeypatch, *asked) == 0
    shown = capsys.readouterr()
    assert "8 fish" in shown.out
    assert "12 fish should be there" in shown.err
    photo = json.loads(told.read_text())["photos"][0]
    assert photo["fish_count"]["value"] == 8


def test_a_check_of_a_depth_alone_is_refused(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(monkeypatch, "check", str(PHOTO), "--water-depth-mm", "90") == 2
    assert "tub" in capsys.readouterr().err
    assert run(monkeypatch, "check", str(PHOTO), "--ends", "1,2,3") == 2
    assert "120,80,940,85" in capsys.readouterr().err
