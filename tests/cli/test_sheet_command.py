"""``fishmeasure sheet`` and ``fishmeasure lens``."""

import json
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from fishmeasure.cli import main
from fishmeasure.photo.lens import read_lens
from sample_images.synth.plane import PlaneScene, photograph_page


def run(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> int:
    monkeypatch.setattr("sys.argv", ["fishmeasure", *arguments])
    with pytest.raises(SystemExit) as caught:
        main()
    return int(caught.value.code or 0)


def test_a_page_and_its_facts_are_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The default is the A4 sheet, named after what it is."""
    monkeypatch.chdir(tmp_path)
    assert run(monkeypatch, "sheet") == 0
    shown = capsys.readouterr().out
    assert "100 %" in shown
    assert "100 mm" in shown
    assert (tmp_path / "sheet-a4.pdf").read_bytes().startswith(b"%PDF")
    facts = json.loads((tmp_path / "sheet-a4.json").read_text())
    assert [marker["id"] for marker in facts["markers"]] == [0, 1, 2, 3]
    assert facts["markers"][0]["corners_mm"][0] == [15.0, 15.0]
    assert facts["check_lines_mm"][0]["length_mm"] == 100.0


def test_all_pages_go_to_a_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Sixteen pages, as in calibration/."""
    assert run(monkeypatch, "sheet", "--all", "--out", str(tmp_path / "pages")) == 0
    assert len(list((tmp_path / "pages").glob("*.pdf"))) == 16


def test_a_place_that_cannot_be_written_is_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """No traceback, status 2."""
    (tmp_path / "file").write_text("")
    target = tmp_path / "file" / "a.pdf"
    assert run(monkeypatch, "sheet", "--out", str(target)) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_a_profile_comes_from_photos_of_the_printed_board(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """From the PDF over photos to the profile."""
    assert (
        run(monkeypatch, "sheet", "lens-board", "--out", str(tmp_path / "b.pdf")) == 0
    )
    page = pypdfium2.PdfDocument(tmp_path / "b.pdf")[0]
    rendered = page.render(scale=4 * 25.4 / 72, grayscale=True).to_numpy()
    grey = np.asarray(rendered, np.uint8).reshape(rendered.shape[:2])
    names = []
    for number, towards in enumerate((0, 72, 144, 216, 288)):
        scene = PlaneScene(
            width_px=800,
            height_px=600,
            focal_px=620.0,
            look_at_mm=(148.5, 100.0),
            distance_mm=330.0,
            sheet_mm=None,
            tilt_deg=28.0,
            tilt_towards_deg=float(towards),
        )
        rgb = photograph_page(grey, 4.0, scene, np.random.default_rng(number))
        names.append(str(tmp_path / f"{number}.png"))
        Image.fromarray(rgb).save(names[-1])
    out = tmp_path / "phone.json"
    assert run(monkeypatch, "lens", *names, "--out", str(out)) == 0
    profile = read_lens(out.read_text(), out.name)
    assert profile.name == "phone"
    assert profile.focal_fraction == pytest.approx(0.62, rel=0.004)
    assert "5 photos" in capsys.readouterr().out


def test_photos_without_the_board_are_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is missing, and status 2."""
    Image.new("RGB", (300, 200)).save(tmp_path / "a.png")
    out = str(tmp_path / "lens.json")
    assert run(monkeypatch, "lens", str(tmp_path / "a.png"), "--out", out) == 2
    assert "0 of 1 photos; 5 are needed" in capsys.readouterr().err
    assert run(monkeypatch, "lens", str(tmp_path / "none.png")) == 2
    assert "There is no file" in capsys.readouterr().err
