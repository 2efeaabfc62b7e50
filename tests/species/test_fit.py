"""Length-weight fits against published fits, and the species file they make."""

import csv
import json
from pathlib import Path

import numpy as np
import pytest

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.errors import LengthWeightDataError
from fishmeasure.species import load_species
from fishmeasure.species.fit import (
    CONDITION_DRIFT,
    fit_length_weight,
    left_out_error_percent,
    own_line,
    published_for,
    second_predictor,
    species_toml,
)


def drawn(n: int, seed: int = 1) -> tuple[FloatArray, FloatArray]:
    rng = np.random.default_rng(seed)
    length = 200.0 * np.exp(rng.normal(0.0, 0.25, n))
    weight = 0.012 * (length / 10) ** 3.05 * np.exp(rng.normal(0.0, 0.1, n))
    return length, weight


def table(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def finnish(shared: Path, species: str) -> dict[str, FloatArray]:
    """Return lengths and depth in mm, weight in g, of one of Brofeldt's species."""
    rows = [
        row
        for row in table(shared / "reference/datasets/finnish_159_fish.csv")
        if row["species_name"] == species and float(row["weight_g"] or 0) > 0
    ]
    total = np.array([10 * float(row["length_total_cm"]) for row in rows])
    height = np.array([float(row["height_pct_total"]) for row in rows])
    return {
        "total": total,
        "fork": np.array([10 * float(row["length_fork_cm"]) for row in rows]),
        "depth": total * height / 100,
        "weight": np.array([float(row["weight_g"]) for row in rows]),
    }


@pytest.mark.shared
@pytest.mark.parametrize("name", ["lake trout", "Finnish perch"])
def test_the_published_fits_come_out(shared: Path, name: str) -> None:
    """Checks of the reference shelf, made with scipy apart from this project."""
    checks = json.loads((shared / "reference/checks.json").read_text("utf-8"))
    check = next(c for c in checks if f"fit, {name}" in c["check"])["expected"]
    if name == "lake trout":
        rows = table(shared / "reference/datasets/lake_trout_arctic_lter.csv")
        length = np.array([float(row["tl"]) for row in rows])
        weight = np.array([float(row["w"]) for row in rows])
    else:
        fish = finnish(shared, "perch")
        length, weight = fish["total"], fish["weight"]
    fit = fit_length_weight(length, weight, length_kind="total")
    assert fit.fish_count == check["n"]
    assert fit.a_g_cm == pytest.approx(check["a_cm_g"], rel=1e-4)
    assert fit.b == pytest.approx(check["b"], rel=1e-4)
    assert fit.residual_sd_ln == pytest.approx(check["resid_sd_ln"], rel=1e-4)
    assert fit.mean_factor == pytest.approx(check["cf_lognormal"], rel=1e-4)


@pytest.mark.shared
@pytest.mark.parametrize(
    ("species", "length_only", "with_depth"),
    # MEASUREMENT.md, "own check on a public table": fork length, leave-one-out, found
    # apart from this project.
    [("perch", 8.6, 7.5), ("roach", 10.8, 9.5), ("pike", 9.9, 10.2)],
)
def test_depth_helps_deep_fish_only(
    shared: Path, species: str, length_only: float, with_depth: float
) -> None:
    """Depth takes a point off perch and roach and adds to pike's error."""
    fish = finnish(shared, species)
    found = second_predictor(fish["fork"], fish["depth"], fish["weight"])
    assert found.length_error_percent == pytest.approx(length_only, abs=0.05)
    assert found.both_error_percent == pytest.approx(with_depth, abs=0.05)
    assert found.helps == (species != "pike")
    assert ("helps" in found.sentence) == found.helps


def test_left_out_errors_are_those_of_refits() -> None:
    """The shortcut by leverage equals fitting n times (numpy's polyfit)."""
    length, weight = drawn(25)
    errors = []
    for i in range(25):
        keep = np.arange(25) != i
        slope, level = np.polyfit(np.log(length[keep]), np.log(weight[keep]), 1)
        predicted = np.exp(level) * length[i] ** slope
        errors.append(abs(predicted / weight[i] - 1.0))
    expected = 100.0 * float(np.mean(errors))
    assert fit_length_weight(length, weight).left_out_error_percent == pytest.approx(
        expected, rel=1e-9
    )
    assert left_out_error_percent(length[:, None], weight) == pytest.approx(
        expected, rel=1e-9
    )


def test_the_back_transform_is_corrected() -> None:
    """With the factor, predicted mean weights add up; without, they fall short."""
    length, weight = drawn(20_000)
    fit = fit_length_weight(length, weight)
    predicted = fit.a_g_cm * (length / 10) ** fit.b
    for factor in (fit.mean_factor, fit.smearing_factor):
        assert (factor * predicted).mean() == pytest.approx(weight.mean(), rel=2e-3)
    assert predicted.mean() < 0.997 * weight.mean()


def test_a_slip_of_the_pen_is_pointed_at() -> None:
    """A weight ten times too large is named; nothing is dropped."""
    length, weight = drawn(30)
    weight[7] *= 10
    fit = fit_length_weight(length, weight)
    assert fit.outliers == (7,)
    assert fit.fish_count == 30


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ("few", "there are 5 fish"),
        ("zero", "fish 3 has the weight 0"),
        ("nan", "fish 2 has the length nan"),
        ("alike", "all of one length"),
    ],
)
def test_data_that_make_no_line_are_refused(change: str, words: str) -> None:
    """The reason names the fish."""
    length, weight = drawn(12)
    if change == "few":
        length, weight = length[:5], weight[:5]
    elif change == "zero":
        weight[2] = 0.0
    elif change == "nan":
        length[1] = np.nan
    else:
        length[:] = 250.0
    with pytest.raises(LengthWeightDataError, match=words):
        fit_length_weight(length, weight)


def test_lists_of_unequal_length_are_a_bug_of_the_caller() -> None:
    """Not something that a grower typed."""
    with pytest.raises(ValueError, match="12"):
        fit_length_weight(np.ones(12), np.ones(11))


def test_an_own_stock_is_saved_and_read_again(tmp_path: Path) -> None:
    """The file passes the species loader and gives the stock's line."""
    species = load_species("rainbow-trout")
    length, weight = drawn(40)
    fit = fit_length_weight(length, weight)
    line = own_line(fit, species.length_weight, note='From "tank A".')
    path = tmp_path / "tank-a.toml"
    path.write_text(species_toml(species, line), encoding="utf-8")
    stock = load_species(str(path))
    assert stock.is_own_stock
    saved = stock.length_weight
    assert saved.a_g_cm == pytest.approx(line.a_g_cm, rel=1e-5)
    assert saved.b == pytest.approx(line.b, rel=1e-4)
    at_middle = saved.a_g_cm * np.exp(fit.mean_log_length_cm) ** saved.b
    assert at_middle == pytest.approx(np.exp(np.log(weight).mean()), rel=1e-3)
    assert saved.relative_sd < species.length_weight.relative_sd
    assert saved.relative_sd >= CONDITION_DRIFT
    assert '"tank A"' in saved.source


def test_b_of_a_batch_of_one_size_stays_near_the_book() -> None:
    """Fish of nearly one length say little of b, so the book's counts."""
    species = load_species("rainbow-trout")
    rng = np.random.default_rng(3)
    length = 250.0 * np.exp(rng.normal(0.0, 0.03, 20))
    weight = 0.015 * (length / 10) ** 3 * np.exp(rng.normal(0.0, 0.1, 20))
    fit = fit_length_weight(length, weight)
    line = own_line(fit, species.length_weight, note="")
    assert abs(line.b - 3.0) < 0.3 * abs(fit.b - 3.0)


def test_a_perfect_line_is_kept() -> None:
    """Without scatter the fit is the line itself, and the book has no say."""
    length = np.linspace(150, 350, 12)
    fit = fit_length_weight(length, 0.011 * (length / 10) ** 3.2)
    line = own_line(fit, load_species("rainbow-trout").length_weight, note="")
    assert line.b == pytest.approx(3.2)
    assert line.a_g_cm == pytest.approx(0.011)


@pytest.mark.parametrize("name", ["rainbow-trout", "brown-trout"])
@pytest.mark.parametrize("kind", ["fork", "total", "standard"])
def test_a_published_for_another_length_gives_the_same_weight(
    name: str, kind: str
) -> None:
    """A fish weighs the same whichever of its lengths is used."""
    species = load_species(name)
    fork_cm = 25.0
    lengths = {
        "fork": fork_cm,
        "total": fork_cm / species.shape.fork_per_total.value,
        "standard": fork_cm
        / species.shape.fork_per_total.value
        * species.shape.standard_per_total.value,
    }
    fork = species.on_fork_length()
    line = published_for(species, kind)  # type: ignore[arg-type]
    assert line.a_g_cm * lengths[kind] ** line.b == pytest.approx(
        fork.a_g_cm * fork_cm**fork.b
    )
    with pytest.raises(ValueError, match=r"fork|total|standard"):
        own_line(
            fit_length_weight(*drawn(10), length_kind="fork"),
            published_for(species, "total"),
            note="",
        )
