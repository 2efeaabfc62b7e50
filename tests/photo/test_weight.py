"""Weight from length, against figures from outside the project."""

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fishmeasure.base.estimate import Estimate, UncertaintySource
from fishmeasure.photo.weight import (
    FishWeight,
    WeightCorrection,
    condition_factor,
    fish_weight,
)
from fishmeasure.species import load_species
from tests.photo.measured import fish_of_250_mm

G_PER_LB = 453.59237  # international pound, exact
CM_PER_IN = 2.54  # exact


def exact(fork_length_mm: float) -> Estimate:
    return Estimate.normal(fork_length_mm, 0.0)


def sd_ln(weight: FishWeight, *names: str) -> float:
    sources = [s for s in weight.sources if not names or s.name in names]
    return math.sqrt(sum(math.log1p(s.relative_sd**2) for s in sources))


def test_condition_factor_agrees_with_the_hatchery_tables_c() -> None:
    """C = 2918e-7 lb/in3 is K = 0.8076 (Piper et al. 1982, p. 61: C / 36.13)."""
    length_in = 9.0
    weight_g = 2918e-7 * length_in**3 * G_PER_LB
    condition = condition_factor(weight_g, length_in * CM_PER_IN * 10.0)
    assert condition == pytest.approx(0.8076, rel=1e-3)


def test_farmed_trout_of_30_cm_weigh_what_was_published() -> None:
    """375 g mean at 30 cm mean fork length, n=130 farmed (AJAS abstract)."""
    weight = fish_weight(exact(300.0), load_species("rainbow-trout"))
    assert weight.weight_g.value == pytest.approx(375.0, rel=0.02)


def test_the_book_interval_holds_the_fattest_and_leanest_trout() -> None:
    """Wild K(FL) 1.06 to recirculation 1.89 at 25 cm (Davidson et al. 2014: 297 g)."""
    weight = fish_weight(exact(250.5), load_species("rainbow-trout")).weight_g
    assert weight.low < 1.06 * 25.05**3 / 100.0
    assert weight.high > 297.0


def test_mean_of_lognormal_fish_is_the_value_given() -> None:
    """Beauchamp & Olson 1973: E[W] = exp(mu + s^2/2); here by drawing fish."""
    species = load_species("rainbow-trout")
    line = species.on_fork_length()
    rng = np.random.default_rng(20261125)
    median_g = line.a_g_cm * 25.0**line.b
    drawn = median_g * np.exp(rng.normal(0.0, line.residual_sd_ln, 400_000))
    standard_error = float(drawn.std()) / math.sqrt(drawn.size)
    value = fish_weight(exact(250.0), species).weight_g.value
    assert abs(value - float(drawn.mean())) < 4.0 * standard_error
    assert value > median_g


def test_interval_is_the_quantiles_of_all_errors_drawn_together() -> None:
    """Monte Carlo of length, condition, level and b gives the same 90 % interval."""
    species = load_species("brown-trout")
    line = species.on_fork_length()
    rng = np.random.default_rng(7)
    count = 200_000
    level_sd_ln = math.sqrt(math.log1p(line.relative_sd**2))
    length_cm = 32.0 * (1.0 + rng.normal(0.0, 0.012, count))
    b = line.b + rng.normal(0.0, line.b_sd, count)
    reference_cm = line.reference_length_mm / 10.0
    weight_g = (
        line.a_g_cm
        * reference_cm**line.b
        * (length_cm / reference_cm) ** b
        * np.exp(rng.normal(0.0, level_sd_ln, count))
        * np.exp(rng.normal(0.0, line.residual_sd_ln, count))
    )
    low, high = np.quantile(weight_g, [0.05, 0.95])
    estimate = fish_weight(Estimate.normal(320.0, 320.0 * 0.012), species).weight_g
    assert estimate.low == pytest.approx(low, rel=0.01)
    assert estimate.high == pytest.approx(high, rel=0.01)
    assert estimate.sd == pytest.approx(float(weight_g.std()), rel=0.02)


def test_a_book_weight_says_so_and_carries_a_quarter() -> None:
    """Common practice for a book's line on an unknown stock: about 25 %."""
    weight = fish_weight(exact(250.0), load_species("rainbow-trout"))
    assert "published-weight" in weight.flags
    assert sd_ln(weight, "published level") == pytest.approx(0.25, abs=0.005)
    assert weight.weight_g.sd / weight.weight_g.value > 0.25


def test_a_calibrated_level_replaces_the_books() -> None:
    """With a sample's a the level's error is the sample's, and no flag is left."""
    own = WeightCorrection(
        a_g_cm=0.0152, b=3.0, relative_sd=0.03, reference_length_mm=240.0
    )
    weight = fish_weight(exact(240.0), load_species("rainbow-trout"), correction=own)
    assert weight.flags == ()
    median_g = 0.0152 * 24.0**3
    assert median_g < weight.weight_g.value < 1.01 * median_g
    (level,) = [s for s in weight.sources if s.scope == "sample"]
    assert level.relative_sd == 0.03


def test_lengths_error_is_multiplied_by_b_and_keeps_its_scope() -> None:
    """d ln W = b d ln L: 1 % of length is 3 % of weight at b = 3."""
    weight = fish_weight(Estimate.normal(250.0, 2.5), load_species("rainbow-trout"))
    expected = UncertaintySource(name="length", relative_sd=0.03, scope="fish")
    assert weight.sources[0] == expected


def test_a_measured_fish_keeps_its_own_and_shared_errors_apart() -> None:
    """Each cause of length error is b times as large in weight, in its own scope."""
    length = fish_of_250_mm(
        UncertaintySource(name="end points", relative_sd=0.006, scope="fish"),
        UncertaintySource(name="print scale", relative_sd=0.01, scope="sample"),
    )
    weight = fish_weight(length, load_species("rainbow-trout"))
    own, scale = weight.sources[:2]
    assert (own.name, own.scope) == ("end points", "fish")
    assert own.relative_sd == pytest.approx(0.018)
    assert (scale.name, scale.scope) == ("print scale", "sample")
    assert scale.relative_sd == pytest.approx(0.03)


def test_lengths_outside_the_range_are_flagged() -> None:
    """The range of the coefficients is that of the file, in fork length."""
    trout = load_species("rainbow-trout")
    assert "outside-species-range" in fish_weight(exact(60.0), trout).flags
    assert "outside-species-range" not in fish_weight(exact(90.0), trout).flags
    # catfish: 70 mm total length is 63.7 mm fork length at FL/TL = 0.91
    catfish = load_species("channel-catfish")
    assert "outside-species-range" in fish_weight(exact(63.0), catfish).flags
    assert "outside-species-range" not in fish_weight(exact(65.0), catfish).flags


def test_a_length_of_zero_is_the_callers_bug() -> None:
    """Only a measured fish has a weight."""
    with pytest.raises(ValueError, match="over zero"):
        fish_weight(exact(0.0), load_species("perch"))


@given(
    fork_mm=st.floats(min_value=60.0, max_value=600.0),
    factor=st.floats(min_value=0.5, max_value=2.0),
)
def test_scaling_lengths_scales_weights_by_the_bth_power(
    fork_mm: float, factor: float
) -> None:
    """W(k L) = k^b W(L)."""
    species = load_species("arctic-char")
    small = fish_weight(exact(fork_mm), species).weight_g.value
    large = fish_weight(exact(fork_mm * factor), species).weight_g.value
    assert large / small == pytest.approx(factor**3.05, rel=1e-9)


# Per-fish tables that did not set the coefficients; sources in the shelf's
# SOURCES.md: Brofeldt 1917; USFWS Lake Superior siscowet; Sutton 2000 parr; two
# compiled tables (the catfish table does not say its length kind beyond doubt; taken
# as total, as its growth table does). Columns of length and weight, mm per unit,
# kind of length.
TABLES = {
    "perch": ("finnish_159_fish", "length_fork_cm", "weight_g", 10.0, "fork"),
    "lake-trout": ("siscowet_lake_trout_mi2004", "len", "wgt", 1.0, "total"),
    "atlantic-salmon": ("amp_Salmo_salar_LWw", "length_cm", "weight_g", 10.0, "fork"),
    "common-carp": ("amp_Cyprinus_carpio_LWw", "length_cm", "weight_g", 10.0, "fork"),
    "channel-catfish": (
        "amp_Ictalurus_punctatus_LWw",
        "length_cm",
        "weight_g",
        10.0,
        "total",
    ),
}


@pytest.mark.shared
@pytest.mark.parametrize("key", TABLES)
def test_other_peoples_weighed_fish_fall_within_the_books_error(
    shared: Path, key: str
) -> None:
    """A stock's level lies within 90 % of relative_sd, and most fish in the interval.

    The level must lie within the 90 % that relative_sd allows, 1.645 x
    0.25, and single fish within the 90 % interval nearly always.
    """
    file, length_column, weight_column, mm_per_unit, kind = TABLES[key]
    species = load_species(key)
    line = species.on_fork_length()
    to_fork = species.shape.fork_per_total.value if kind == "total" else 1.0
    ratios, covered = [], []
    path = shared / "reference" / "datasets" / f"{file}.csv"
    with path.open(encoding="utf-8") as stream:
        for row in csv.DictReader(stream):
            if row.get("species_name", "perch") != "perch":
                continue
            if not row[length_column] or not row[weight_column]:
                continue
            fork_mm = float(row[length_column]) * mm_per_unit * to_fork
            if not line.min_length_mm <= fork_mm <= line.max_length_mm:
                continue
            weight_g = float(row[weight_column])
            estimate = fish_weight(exact(fork_mm), species).weight_g
            ratios.append(weight_g / estimate.value)
            covered.append(estimate.low <= weight_g <= estimate.high)
    assert len(ratios) > 8
    assert abs(math.log(float(np.median(ratios)))) < 1.645 * 0.25
    assert float(np.mean(covered)) > 0.85
