"""``fishmeasure photo`` and ``sample`` as a grower and a program see them."""

import csv
import json
import os
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from fishmeasure import __version__, cli
from fishmeasure.base.errors import BadFieldError
from fishmeasure.photo.markers import KnownDistance

SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"
PHOTO = SAMPLES / "tank_a_net2.jpg"
TRUTH = json.loads((SAMPLES / "tank_a_net2.truth.json").read_text(encoding="utf-8"))


def run(monkeypatch: pytest.MonkeyPatch, *arguments: object) -> int:
    """Return the exit status of the whole program."""
    monkeypatch.setattr(sys, "argv", ["fishmeasure", *map(str, arguments)])
    with pytest.raises(SystemExit) as caught:
        cli.main()
    return int(caught.value.code or 0)


def plain_photo(folder: Path) -> Path:
    path = folder / "plain.png"
    Image.fromarray(np.full((600, 800, 3), 128, np.uint8)).save(path)
    return path


def test_the_version_is_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """As the package's own."""
    assert run(monkeypatch, "--version") == 0
    assert capsys.readouterr().out == f"fishmeasure {__version__}\n"


def test_fish_are_measured_to_json(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Every fish of the rendered scene is found at its true length, to 5 %."""
    assert run(monkeypatch, "photo", PHOTO, "--json", "-") == 0
    out = capsys.readouterr().out
    photo = json.loads(out)["photos"][0]
    assert (photo["photo"], photo["scale"]["method"]) == ("tank_a_net2.jpg", "sheet")
    found = sorted(f["fork_length_mm"] for f in photo["fish"] if f["complete"])
    true = sorted(fish["fork_length_mm"] for fish in TRUTH["fish"])
    assert found == pytest.approx(true, rel=0.05)


def test_the_public_fields_are_all_there(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Names that other programs rely on."""
    run(monkeypatch, "photo", PHOTO, "--json", "-")
    photo = json.loads(capsys.readouterr().out)["photos"][0]
    assert {"photo", "width_px", "height_px", "scale", "fish", "problems"} <= set(photo)
    assert {
        "method",
        "marker_ids",
        "tilt_deg",
        "camera_height_mm",
        "px_per_mm",
        "relative_se",
    } <= set(photo["scale"])
    assert {
        "fork_length_mm",
        "fork_length_se_mm",
        "total_length_mm",
        "body_depth_mm",
        "weight_g",
        "weight_se_g",
        "species",
        "snout_px",
        "fork_px",
        "outline_px",
        "complete",
        "flags",
        "confidence",
    } <= set(photo["fish"][0])


def test_a_table_and_an_overlay_for_people(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """The picture is there and as wide as a phone can use."""
    folder = tmp_path / "new" / "folder"
    assert run(monkeypatch, "photo", PHOTO, "--overlay", folder) == 0
    shown = capsys.readouterr().out
    assert "15 %" in shown
    assert "rainbow-trout" in shown
    assert "standard error" in shown
    with Image.open(folder / "tank_a_net2.overlay.jpg") as image:
        assert image.width >= 780


def test_csv_has_a_row_for_each_fish(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The header names units; numbers are plain."""
    target = tmp_path / "fish.csv"
    run(monkeypatch, "photo", PHOTO, "--csv", target)
    rows = list(csv.DictReader(target.read_text(encoding="utf-8").splitlines()))
    assert len(rows) == len(TRUTH["fish"])
    assert all(float(row["fork_length_mm"]) > 50 for row in rows)


def test_bad_photos_do_not_stop_good_ones(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """The good one is reported; status 2, one line for each of the others."""
    text = tmp_path / "notes.jpg"
    text.write_text("no picture", encoding="utf-8")
    plain = plain_photo(tmp_path)
    gone = tmp_path / "gone.jpg"
    status = run(monkeypatch, "photo", text, PHOTO, plain, gone, "--json", "-")
    shown = capsys.readouterr()
    assert status == 2
    photos = json.loads(shown.out)["photos"]
    codes = [
        photo["problems"][0]["code"] if photo["problems"] else "" for photo in photos
    ]
    assert codes == ["not-an-image", "not-validated", "no-marker", "not-an-image"]
    assert [photo["scale"] is None for photo in photos] == [True, False, True, True]
    lines = [line for line in shown.err.splitlines() if line.startswith("fishmeasure:")]
    for name in ("notes.jpg", "plain.png", "gone.jpg"):
        assert any(name in line for line in lines)
    assert "Traceback" not in shown.err


def test_a_name_that_is_no_text_is_written_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk keeps any bytes as a name; a second run of a batch knows it again."""
    name = os.fsencode(tmp_path) + b"/b\xff.png"
    plain_photo(tmp_path).rename(os.fsdecode(name))
    out, results = tmp_path / "out.json", tmp_path / "results.jsonl"
    assert run(monkeypatch, "photo", os.fsdecode(name), "--json", out) == 2
    (photo,) = json.loads(out.read_text(encoding="utf-8"))["photos"]
    assert photo["photo"] == "b?.png"
    assert photo["problems"][0]["code"] == "no-marker"
    for _ in range(2):
        given = ("--results", results, "--workers", "1")
        assert run(monkeypatch, "batch", tmp_path, *given) == 2
    (line,) = results.read_text(encoding="utf-8").splitlines()
    assert json.loads(line)["path"] == os.fsdecode(name)


@pytest.mark.parametrize(
    ("option", "value"),
    [
        ("--species", "unicorn"),
        ("--print-scale", "97"),
        ("--paper", "A0"),
        ("--known", "1,2=3"),
        ("--lens", "nowhere.toml"),
    ],
)
def test_wrong_options_are_one_clear_line(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    option: str,
    value: str,
) -> None:
    """Status 2, and the value is named."""
    assert run(monkeypatch, "photo", PHOTO, option, value) == 2
    shown = capsys.readouterr()
    assert value.split("=", maxsplit=1)[0] in shown.err
    assert len(shown.err.strip().splitlines()) == 1


def test_json_and_csv_are_not_mixed(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Only one of them can have stdout."""
    assert run(monkeypatch, "photo", PHOTO, "--json", "-", "--csv", "-") == 2
    shown = capsys.readouterr()
    assert (shown.out, len(shown.err.splitlines())) == ("", 1)


@pytest.mark.parametrize("option", ["--json", "--csv"])
def test_no_photo_is_overwritten_by_results(
    option: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """A forgotten file name takes the next photo's: refused, nothing is written."""
    photo = tmp_path / "a1.JPG"
    photo.write_bytes(b"a photo")
    assert run(monkeypatch, "photo", option, photo, PHOTO) == 2
    assert "is no file for results" in capsys.readouterr().err
    assert photo.read_bytes() == b"a photo"


def test_a_folder_is_pointed_to_the_batch_command(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    """A folder is no photo; the line says what takes one."""
    assert run(monkeypatch, "photo", tmp_path) == 2
    assert "fishmeasure batch" in capsys.readouterr().err


def test_a_known_distance_stands_in_for_markers(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two marker corners, 267 mm apart on an A4 sheet (297 - 2 x 15)."""
    corners = {m["id"]: m["corners_px"] for m in TRUTH["markers"]}
    (x1, y1), (x2, y2) = corners[0][0], corners[1][1]
    known = f"{x1:.1f},{y1:.1f},{x2:.1f},{y2:.1f}=267"
    assert run(monkeypatch, "photo", PHOTO, "--known", known, "--json", "-") == 0
    scale = json.loads(capsys.readouterr().out)["photos"][0]["scale"]
    assert scale["method"] == "known-distance"


def test_the_print_scale_scales_every_length(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Printed at 97 %, fish are 3 % shorter than the markers say.

    Single fish to 1 %: the outline is sought on a grid of millimetres, which shifts.
    """

    def lengths(*more: Any) -> list[float]:
        run(monkeypatch, "photo", PHOTO, "--json", "-", *more)
        fish = json.loads(capsys.readouterr().out)["photos"][0]["fish"]
        return [one["fork_length_mm"] for one in fish]

    scaled, plain = lengths("--print-scale", 0.97), lengths()
    assert scaled == pytest.approx([0.97 * length for length in plain], rel=1e-2)
    assert sum(scaled) == pytest.approx(0.97 * sum(plain), rel=3e-3)


@pytest.mark.parametrize("text", ["", "1,2,3,4", "1,2,3,4=x", "a,b,c,d=5", "1;2;3;4=5"])
def test_known_distances_are_read_strictly(text: str) -> None:
    """What is not four numbers and a distance is refused."""
    with pytest.raises(BadFieldError):
        KnownDistance.plain_from_text(text)


SAMPLE = """
date = 2026-05-02
unit = "Tank A"
species = "rainbow-trout"
count_in_unit = 240
[[net]]
fish = 8
gross_g = 2078
tare_g = 638
photos = ["tank_a_net2.jpg"]
[[net]]
fish = 9
net_g = 1650
"""


@pytest.fixture
def sample_file(tmp_path: Path) -> Path:
    (tmp_path / "tank_a_net2.jpg").write_bytes(PHOTO.read_bytes())
    path = tmp_path / "sample.toml"
    path.write_text(SAMPLE, encoding="utf-8")
    return path


def test_a_sample_gives_mean_spread_and_biomass(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    sample_file: Path,
    tmp_path: Path,
) -> None:
    """All public fields are there, the mean within its interval."""
    target = tmp_path / "sample.json"
    status = run(
        monkeypatch,
        *("sample", sample_file, "--json", target),
        *("--overlay", tmp_path / "o", "--plots", tmp_path / "p"),
    )
    assert status == 0
    data = json.loads(target.read_text(encoding="utf-8"))
    low, high = data["mean_weight_interval_g"]
    assert low < data["mean_weight_g"] < high
    assert data["level"] == 0.9
    assert (data["fish_measured"], data["fish_weighed"]) == (8, 17)
    assert data["biomass_kg"] == pytest.approx(0.24 * data["mean_weight_g"], rel=0.01)
    for name in (
        "cv",
        "cv_interval",
        "a",
        "b",
        "weight_quantiles_g",
        "nets",
        "problems",
    ):
        assert name in data
    for path in ("o/tank_a_net2.overlay.jpg", "p/weights.png", "p/length_weight.png"):
        assert (tmp_path / path).stat().st_size > 1000
    assert "unsafe end" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("change", "word"),
    [
        (("fish = 8", "fish = 0"), "fish"),
        (("gross_g = 2078", "gross_g = -5"), "gross_g"),
        (("gross_g = 2078", "gros_g = 2080"), "gros_g"),
        (("date = 2026-05-02", "date = "), "TOML"),
    ],
)
def test_a_sample_file_that_cannot_be_is_one_clear_line(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    sample_file: Path,
    change: tuple[str, str],
    word: str,
) -> None:
    """Status 2 and the place of the mistake."""
    sample_file.write_text(SAMPLE.replace(*change), encoding="utf-8")
    assert run(monkeypatch, "sample", sample_file) == 2
    shown = capsys.readouterr().err
    assert word in shown
    assert len(shown.strip().splitlines()) == 1


def test_a_missing_photo_of_a_sample_is_said_and_the_rest_counts(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    sample_file: Path,
) -> None:
    """The weighings still give the mean; status 2."""
    (sample_file.parent / "tank_a_net2.jpg").unlink()
    assert run(monkeypatch, "sample", sample_file, "--json", "-") == 2
    shown = capsys.readouterr()
    data = json.loads(shown.out)
    assert data["mean_weight_g"] > 0
    assert "tank_a_net2.jpg" in shown.err
