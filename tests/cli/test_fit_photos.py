"""``fishmeasure fit`` with photos: five fish teach c, and it weighs other photos."""

import json
import shutil
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.base.errors import LengthWeightDataError
from fishmeasure.pipeline import PhotoSettings, measure_photo
from fishmeasure.render.five_fish import PAPERS, five_fish_pdf
from fishmeasure.species import load_species
from fishmeasure.species.body_fit import fit_body, own_level
from tests.cli.test_plan_and_fit_commands import run, table_of

SAMPLES = Path(__file__).parents[2] / "sample_images"


def true_weights(name: str) -> list[tuple[list[float], float]]:
    """Return snout and weight of each fish of a rendered photo."""
    text = (SAMPLES / f"{name}.truth.json").read_text(encoding="utf-8")
    return [(fish["snout_px"], fish["weight_g"]) for fish in json.loads(text)["fish"]]


def test_five_fish_of_one_photo_weigh_another(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The mean of net 3 of tank A by five fish of net 1 is within its interval."""
    shutil.copy(SAMPLES / "tank_a_net1.jpg", tmp_path)
    photo = measure_photo((tmp_path / "tank_a_net1.jpg").read_bytes(), "1.jpg")
    rows = []
    for number, fish in enumerate(photo.fish, 1):
        gaps = [
            (float(np.hypot(*(fish.snout_px - snout))), weight)
            for snout, weight in true_weights("tank_a_net1")
        ]
        rows.append(f"tank_a_net1.jpg,{number},{min(gaps)[1]}")
    table = table_of(
        tmp_path, "photo,fish,weight_g", [rows[i] for i in (0, 2, 3, 4, 6)]
    )
    stock = tmp_path / "stock.toml"
    status, text = run(monkeypatch, capsys, "fit", table, "--save", str(stock))
    assert status == 0
    assert "V is squared depth along the body" in text
    assert "5 fish in 1 photo\n" in text
    settings = PhotoSettings(species=load_species(str(stock)))
    other = measure_photo((SAMPLES / "tank_a_net3.jpg").read_bytes(), "3.jpg", settings)
    assert {fish.weight_from for fish in other.complete_fish} == {"stock"}
    assert other.mean_weight_interval_g is not None
    low, high = other.mean_weight_interval_g
    true_g = float(np.mean([weight for _, weight in true_weights("tank_a_net3")]))
    assert low < true_g < high
    assert high / low < 1.15 / 0.85  # at most 15 % to either side where c is known


def test_lengths_on_a_ruler_teach_how_the_fish_lie(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Lengths alone leave the weights the species'; lengths too short are refused."""
    shutil.copy(SAMPLES / "tank_a_net1.jpg", tmp_path)
    photo = measure_photo((tmp_path / "tank_a_net1.jpg").read_bytes(), "1.jpg")
    lengths = [fish.fork_length_mm for fish in photo.fish]
    stock, header = tmp_path / "stock.toml", "photo,fish,fork_length_mm"

    def fit(factor: float) -> tuple[int, str]:
        rows = [
            f"tank_a_net1.jpg,{number},{factor * length:.1f}"
            for number, length in enumerate(lengths, 1)
        ]
        table = table_of(tmp_path, header, rows)
        return run(monkeypatch, capsys, "fit", table, "--save", str(stock))

    status, text = fit(0.9)
    assert status == 2
    assert "on the ruler" in text
    assert not stock.exists()
    status, text = fit(0.99)  # shorter than taken for: they lay higher
    assert status == 0
    assert "0.70 and 0.28 were assumed" in " ".join(text.split())
    own, usual = load_species(str(stock)), load_species("rainbow-trout")
    assert own.shape.snout_height.value > usual.shape.snout_height.value
    assert own.shape.fork_height.sd < usual.shape.fork_height.sd
    assert own.length_weight == usual.length_weight
    other = measure_photo(
        (tmp_path / "tank_a_net1.jpg").read_bytes(), "1.jpg", PhotoSettings(species=own)
    )
    for before, after in zip(photo.fish, other.fish, strict=True):
        assert after.fork_length_mm < before.fork_length_mm
        assert after.weight_from == "outline"


@pytest.mark.parametrize(
    ("header", "row", "words"),
    [
        ("photo,weight_g", "tank_a_net3.jpg,120", "a column fish must say which"),
        ("photo,fish,weight_g", "tank_a_net3.jpg,9,120", "has fish 1 to 8"),
        ("photo,fish,weight_g", "none.jpg,1,120", "none.jpg was not measured"),
        ("photo,fish,weight_g", ",1,120", "row 1 names no photo"),
        ("photo,fish", "tank_a_net3.jpg,1", "no column weight_g"),
        ("photo,fish,weight_g", "tank_a_net3.jpg,1,120", "3 are needed"),
    ],
)
def test_what_cannot_be_fitted_is_said(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    header: str,
    row: str,
    words: str,
) -> None:
    """One plain line names the row."""
    shutil.copy(SAMPLES / "tank_a_net3.jpg", tmp_path)
    status, text = run(monkeypatch, capsys, "fit", table_of(tmp_path, header, [row]))
    assert status == 2
    assert words in " ".join(text.split())


def test_a_bulk_weighing_of_a_photographed_net_teaches_c(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """No fish weighed singly: c of tank A is 0.40, and net 3 is told by its photo.

    c is the sum of the true weights over that of the true squared depths, 0.399 in
    net 1 (drawn again with ``full_truth``); the figures of trout say 0.50.
    """
    for net in (1, 3):
        shutil.copy(SAMPLES / f"tank_a_net{net}.jpg", tmp_path)
    net_g = 1.015 * sum(weight for _, weight in true_weights("tank_a_net1"))
    sample = tmp_path / "sample.toml"
    sample.write_text(
        'species = "rainbow-trout"\n[[net]]\nfish = 8\n'
        f'photos = ["tank_a_net1.jpg"]\nnet_g = {net_g:.0f}\n',
        encoding="utf-8",
    )
    stock = tmp_path / "stock.toml"
    status, _ = run(monkeypatch, capsys, "sample", str(sample), "--save", str(stock))
    assert status == 0
    species = load_species(str(stock))
    c = species.body.c_g_per_cm3
    assert c is not None
    assert c.value == pytest.approx(0.399, rel=2.0 * c.relative_sd)
    assert c.relative_sd < 0.09
    other = measure_photo(
        (tmp_path / "tank_a_net3.jpg").read_bytes(),
        "3.jpg",
        PhotoSettings(species=species),
    )
    assert other.mean_weight_interval_g is not None
    low, high = other.mean_weight_interval_g
    true_g = float(np.mean([weight for _, weight in true_weights("tank_a_net3")]))
    assert low < true_g < high


def test_a_sample_without_a_weighing_teaches_nothing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """It says what is missing, and writes no file."""
    shutil.copy(SAMPLES / "tank_a_net3.jpg", tmp_path)
    sample = tmp_path / "sample.toml"
    sample.write_text(
        '[[net]]\nfish = 8\nphotos = ["tank_a_net3.jpg"]\n', encoding="utf-8"
    )
    stock = tmp_path / "stock.toml"
    status, text = run(monkeypatch, capsys, "sample", str(sample), "--save", str(stock))
    assert status == 2
    assert "no net is both weighed and photographed" in " ".join(text.split())
    assert not stock.exists()


def test_c_of_five_fish_is_known_to_three_per_cent() -> None:
    """Each in its own photo: 6 to 7.5 % of single fish over the root of five is 3 %.

    242 farmed fish and parr: five fish of a stock told the others' mean to 2.9 %.
    """
    rng = np.random.default_rng(5)
    errors = []
    for _ in range(300):
        length = rng.uniform(200.0, 300.0, 5)
        volume = 0.027 * length**3 * np.exp(rng.normal(0.0, 0.08, 5))
        weight = 0.5 * volume / 1000.0 * np.exp(rng.normal(0.0, 0.06, 5))
        fit = fit_body(
            volume,
            length,
            weight,
            photos=list("abcde"),
            photo_relative_sd=0.0,
            shared_relative_sd=0.0,
        )
        errors.append(np.log(fit.c_g_per_cm3 / 0.5))
        assert 0.02 < fit.relative_se < 0.05
    assert float(np.std(errors)) == pytest.approx(0.06 / 5**0.5, rel=0.1)


def test_what_a_photos_fish_share_is_no_smaller_for_many() -> None:
    """Twenty fish of one photo keep its 4 %; of four photos half of it."""
    volume = np.full(20, 4e5)
    same = {"photo_relative_sd": 0.04, "shared_relative_sd": 0.0}
    weight = np.full(20, 200.0)
    one = fit_body(volume, volume, weight, photos=["a"] * 20, **same)
    four = fit_body(volume, volume, weight, photos=list("abcd") * 5, **same)
    own = one.spread_ln / 20**0.5
    assert one.relative_se == pytest.approx(np.hypot(own, 0.04))
    assert four.relative_se == pytest.approx(np.hypot(own, 0.02))
    assert one.c_g_per_cm3 == pytest.approx(0.5)


def test_two_fish_are_too_few() -> None:
    """One wrong weight would be half of the constant."""
    pair = np.array([4e5, 5e5])
    with pytest.raises(LengthWeightDataError, match="3 are needed"):
        fit_body(
            pair,
            pair,
            pair,
            photos=["a", "a"],
            photo_relative_sd=0.0,
            shared_relative_sd=0.0,
        )


def test_the_level_of_few_fish_keeps_the_published_slope() -> None:
    """Fish of W = 0.02 L^3 on a published line of b = 3 give 0.02, b stays."""
    line = load_species("rainbow-trout").on_fork_length()
    length = np.array([200.0, 230.0, 260.0])
    own = own_level(line, length, 0.02 * (length / 10.0) ** 3, note="")
    assert own.a_g_cm == pytest.approx(0.02)
    assert own.b == line.b
    assert 0.1 < own.relative_sd < line.relative_sd  # condition moves over a season


def test_the_page_to_print_says_what_to_do() -> None:
    """The same bytes each time, on both papers."""
    for paper in PAPERS:
        data = five_fish_pdf(paper)
        assert data.startswith(b"%PDF")
        assert data == five_fish_pdf(paper)
