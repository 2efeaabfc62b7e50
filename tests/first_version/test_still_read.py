"""What the first version wrote is read by this one.

``data/backup.tar`` and ``data/results.jsonl`` were written by the program of commit
1980f53 from the rendered sample photos: the demo's book of 2026-08-01, two photos, one
corrected, and a sample of two nets entered in the book. Expected figures are those
that the program of that commit showed.
"""

import json
import shutil
import sqlite3
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings
from fishmeasure import cli
from fishmeasure.base.errors import BadFieldError
from fishmeasure.photo.measurement import PhotoMeasurement
from fishmeasure.species import load_species

DATA = Path(__file__).parent / "data"
SAMPLES = Path(__file__).resolve().parents[2] / "sample_images"
CORRECTED = "5ed43bd136b1367fe37810cdaa97778f225906f0581c40a7681cdef377dbc5c9"
SAMPLE = "00000000-0000-0000-0000-00000000004d"


def run(*arguments: str) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "argv", ["fishmeasure", *arguments])
        with pytest.raises(SystemExit) as ended:
            cli.main()
    assert ended.value.code in {0, None}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a data folder with the old backup restored."""
    folder = tmp_path_factory.mktemp("restored")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FISHMEASURE_DATA_DIR", str(folder))
        patch.setenv("FISHMEASURE_BOOK", str(folder / "book.sqlite"))
        run("restore", str(DATA / "backup.tar"))
    return folder


@pytest.fixture(scope="module")
def client(folder: Path) -> Iterator[TestClient]:
    """Return a client of a server on that folder."""
    settings = Settings(data_dir=folder, workers=1, hosts="testserver")
    with TestClient(create_app(settings)) as client:
        yield client


def test_an_old_photo_opens_with_its_correction(client: TestClient) -> None:
    """Its fish, the one left out, and the picture with outlines."""
    photo = client.get(f"/v1/photos/{CORRECTED}").json()
    fish = photo["measurement"]["fish"]
    assert len(fish) == 8
    assert fish[0]["fork_length_mm"] == pytest.approx(266.63)
    assert [one["complete"] for one in fish].count(False) == 1
    assert client.get(f"/v1/photos/{CORRECTED}/overlay.jpg").status_code == 200


def test_every_figure_of_an_old_photo_is_kept(client: TestClient, folder: Path) -> None:
    """What the first program wrote in the book is what this one answers.

    It wrote each length rounded, and beside it whole with its error.
    """
    with sqlite3.connect(folder / "book.sqlite") as book:
        rows = book.execute("SELECT id, measurement FROM photos").fetchall()
    stored = {identity: json.loads(text) for identity, text in rows}
    old = next(one for one in stored.values() if "version" not in one)
    assert "lengths" in old["fish"][0]
    for identity, was in stored.items():
        if "version" in was:
            continue  # corrected since by the test after
        now = client.get(f"/v1/photos/{identity}").json()["measurement"]
        assert now["version"] == 2
        for before, fish in zip(was["fish"], now["fish"], strict=True):
            public = set(before) - {"lengths", "length_flags", "length_sources"}
            public -= {"weight", "flags"}
            was_flags = [
                word.replace("book-", "published-") for word in before["flags"]
            ]
            assert fish["flags"] == was_flags
            assert {name: fish[name] for name in public} == {
                name: before[name] for name in public
            }
            assert fish["sources"] == before["length_sources"]
            for name, length in before["lengths"].items():
                error = fish[name.replace("_mm", "_se_mm")]
                assert error == pytest.approx(length["sd"], abs=0.0006)
            if before["weight"]:
                low = before["weight"]["weight_g"]["low"]
                assert fish["weight_low_g"] == pytest.approx(low, abs=0.006)
        camera = was["scale"].pop("camera")
        assert now["scale"].pop("camera")["focal_px"] == camera["focal_px"]
        known_since = {"print_scale_by_paper": None, "water": None}
        assert now["scale"] == was["scale"] | known_since
        assert now["problems"] == was["problems"]


def test_what_a_newer_program_wrote_is_not_guessed_at() -> None:
    """A form that is not known here is said to be so."""
    data = PhotoMeasurement(photo="a.jpg", width_px=1, height_px=1).to_json()
    with pytest.raises(BadFieldError, match="version must be"):
        PhotoMeasurement.from_json({**data, "version": 3})


def test_an_old_photo_takes_a_new_correction(client: TestClient) -> None:
    """A correction needs all that was stored of the measurement."""
    taken_back = client.put(
        f"/v1/photos/{CORRECTED}/corrections", json={"corrections": []}
    )
    assert taken_back.status_code == 200
    fish = taken_back.json()["measurement"]["fish"]
    assert all(one["complete"] for one in fish)
    moved = [{"kind": "drop", "fish": 1}]
    client.put(f"/v1/photos/{CORRECTED}/corrections", json={"corrections": moved})


def test_an_old_sample_opens(client: TestClient) -> None:
    """The sample, its estimate and its entry."""
    sample = client.get(f"/v1/samples/{SAMPLE}").json()
    assert sample["entry_id"]
    assert sample["estimate"]["fish_weighed"] == 17
    assert sample["estimate"]["published_b"] > 2.9
    assert sample["sample"]["nets"][0]["gross_g"] == 1912


def test_the_old_book_gives_an_outlook(
    folder: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Counts and weights are there; what follows from them may have become better."""
    monkeypatch.setenv("FISHMEASURE_DATA_DIR", str(folder))
    out = tmp_path / "outlook.json"
    run(
        "outlook",
        "Tank A",
        "--on",
        "2026-08-01",
        "--book",
        str(folder / "book.sqlite"),
        "--json",
        str(out),
    )
    text = json.dumps(json.loads(out.read_text(encoding="utf-8")))
    assert "biomass_kg" in text
    assert "rainbow-trout" in text


def test_old_results_of_many_photos_are_kept(tmp_path: Path) -> None:
    """A batch goes on where the old one was: nothing is measured again."""
    photos = tmp_path / "few"
    photos.mkdir()
    for name in ("tank_a_net3.jpg", "tank_a_net4.jpg"):
        shutil.copy(SAMPLES / name, photos)
    results = tmp_path / "results.jsonl"
    old = (DATA / "results.jsonl").read_text(encoding="utf-8")
    results.write_text(old.replace("@FOLDER@", str(photos)), encoding="utf-8")
    before = results.read_bytes()
    run("batch", str(photos), "--results", str(results), "--workers", "1")
    assert results.read_bytes() == before


def test_an_old_stock_file_is_read() -> None:
    """``data/tank-a.toml``: `fit` of that commit, from 24 invented trout."""
    stock = load_species(str(DATA / "tank-a.toml"))
    assert (stock.length_weight.a_g_cm, stock.length_weight.b) == (0.0144393, 3.0322)
    assert stock.shape.standard_per_total.status == "stand-in"
    assert stock.shape.thickness_per_depth.sd == pytest.approx(0.06)
    assert stock.shape.depth_per_fork_length.sd == pytest.approx(0.025)
    assert stock.is_own_stock
