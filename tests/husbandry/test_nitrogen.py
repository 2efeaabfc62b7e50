"""Nitrogen: Emerson's table, nitrogen of the feed, nitrate, plant beds."""

import csv
from functools import partial
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from fishmeasure.base.errors import StockRangeError
from fishmeasure.husbandry.nitrogen import (
    Nitrification,
    NitrogenLoop,
    ammonia_reading,
    bed_balance,
    feed_for_ammonia_kg_per_day,
    nitrate_trend,
    plant_uptake_g_per_day,
    tan_g_per_day,
    tan_per_feed_g_per_kg,
    unionised_fraction,
)
from fishmeasure.husbandry.propagation import exact, lognormal


def test_unionised_share_of_every_sound_cell(shared: Path) -> None:
    """103 of 112 cells of UF/IFAS FA16 (after Emerson 1975) agree to their print.

    Nine are skipped: all eight at 32 °C, beyond Emerson's 30 °C, lie 2 to 5 % high,
    and pH 7.4 at 20 °C is a misprint (0.0096 between 0.0085 and 0.0114). Half a
    unit of the last digit is 0.00005; the table's own steps need 0.00006.
    """
    checked, skipped = 0, 0
    path = shared / "reference" / "06_unionised_ammonia_checks.csv"
    with path.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["suspect"] == "True":
                skipped += 1
                continue
            found = unionised_fraction(
                ph=float(row["pH"]), temperature_deg_c=float(row["temp_C"])
            )
            assert found == pytest.approx(float(row["table_fraction"]), abs=6e-5), row
            checked += 1
    assert (checked, skipped) == (103, 9)


@pytest.mark.parametrize(
    ("ph", "temperature_deg_c", "printed", "tolerance"),
    [(8.0, 24.0, 0.0502, 1e-4), (7.0, 10.0, 0.0018, 6e-5)],
)
def test_unionised_share_of_the_extension_table(
    ph: float, temperature_deg_c: float, printed: float, tolerance: float
) -> None:
    """UF/IFAS FA16."""
    found = unionised_fraction(ph=ph, temperature_deg_c=temperature_deg_c)
    assert found == pytest.approx(printed, abs=tolerance)


@given(ph=st.floats(5.0, 10.0), temp=st.floats(0.0, 39.0))
def test_unionised_share_rises_with_ph_and_warmth(ph: float, temp: float) -> None:
    """It is a share, and both raise it."""
    here = unionised_fraction(ph=ph, temperature_deg_c=temp)
    assert 0.0 < here < 1.0
    assert unionised_fraction(ph=ph + 0.1, temperature_deg_c=temp) > here
    assert unionised_fraction(ph=ph, temperature_deg_c=temp + 1.0) > here


def test_reading_is_held_against_the_limit() -> None:
    """1 mg/L of TAN at pH 8 and 24 °C is 0.050 mg/L, over the tilapia's 0.02."""
    found = ammonia_reading(
        species_key="nile-tilapia",
        tan_mg_per_l=lognormal(1.0, 0.1),
        ph=8.0,
        temperature_deg_c=24.0,
    )
    assert found.unionised_n_mg_per_l.value == pytest.approx(0.0502, abs=1e-4)
    assert found.limit_used_fraction.value == pytest.approx(2.51, abs=0.01)
    assert [problem.code for problem in found.problems] == ["ammonia-over-limit"]
    cold = ammonia_reading(
        species_key="arctic-char",
        tan_mg_per_l=exact(0.2),
        ph=7.0,
        temperature_deg_c=8.0,
    )
    assert cold.problems == ()
    assert any("from memory" in note for note in map(str, cold.notes))


def test_error_of_the_ph_is_carried_as_by_hand() -> None:
    """0.1 of pH is ln 10 x 0.1 = 23.0 % where nearly all is ionised (0.18 % is not)."""
    found = ammonia_reading(
        species_key="rainbow-trout",
        tan_mg_per_l=exact(1.0),
        ph=7.0,
        temperature_deg_c=10.0,
    ).unionised_n_mg_per_l
    assert found.sd / found.value == pytest.approx(0.2303 * (1 - 0.0018), abs=2e-4)


def test_salt_water_is_said_to_be_the_safe_side() -> None:
    """Emerson's figure is for fresh water; hot water is outside it."""
    found = ammonia_reading(
        species_key="sea-bass",
        tan_mg_per_l=exact(0.0),
        ph=8.0,
        temperature_deg_c=32.0,
        salinity_g_per_kg=35.0,
    )
    assert any("salt water" in note.lower() for note in map(str, found.notes))
    assert [problem.code for problem in found.problems] == ["outside-source-range"]
    with pytest.raises(StockRangeError, match="pH"):
        unionised_fraction(ph=2.0, temperature_deg_c=10.0)


def test_nitrogen_of_feed_spans_both_published_rules() -> None:
    """40 % protein: 36.8 g/kg (0.092) to 51.2 g/kg (0.128), ends of the interval."""
    found = tan_per_feed_g_per_kg(protein_percent=40.0)
    assert found.low == pytest.approx(36.8, rel=1e-6)
    assert found.high == pytest.approx(51.2, rel=1e-6)
    day = tan_g_per_day(feed_kg_per_day=exact(2.0), protein_percent=40.0)
    assert day.value == pytest.approx(2.0 * found.value)


def test_reading_at_low_ph_is_held_against_the_criterion_too() -> None:
    """10 mg/L of TAN at pH 6.5 and 20 °C: chronic 2.1, acute 23 (EPA 2013)."""
    found = ammonia_reading(
        species_key="rainbow-trout",
        tan_mg_per_l=exact(9.0),
        ph=6.5,
        temperature_deg_c=20.0,
    )
    assert float(f"{found.chronic_tan_n_mg_per_l:.2g}") == 2.1
    assert float(f"{found.acute_tan_n_mg_per_l:.2g}") == 23.0
    low = ammonia_reading(
        species_key="rainbow-trout",
        tan_mg_per_l=exact(4.0),
        ph=6.5,
        temperature_deg_c=20.0,
    )
    assert [problem.code for problem in low.problems] == ["ammonia-over-criterion"]
    fine = ammonia_reading(
        species_key="rainbow-trout",
        tan_mg_per_l=exact(2.0),
        ph=6.5,
        temperature_deg_c=20.0,
    )
    assert fine.problems == ()


def test_feed_at_low_ph_settles_at_the_chronic_criterion() -> None:
    """2.1 mg/L of TAN at pH 6.5 and 20 °C (EPA 2013), not the 10 of 0.0125 NH3-N."""
    feed = feed_for_ammonia_kg_per_day(
        species_key="rainbow-trout",
        ph=6.5,
        temperature_deg_c=20.0,
        exchange_m3_per_day=20.0,
        protein_percent=42.5,
    )
    tan = tan_g_per_day(feed_kg_per_day=exact(feed.value), protein_percent=42.5)
    assert float(f"{tan.value / 20.0:.2g}") == 2.1


def test_feed_at_the_ammonia_limit_settles_at_it() -> None:
    """TAN made over the exchange, times the share, is the limit again."""
    feed = feed_for_ammonia_kg_per_day(
        species_key="nile-tilapia",
        ph=8.0,
        temperature_deg_c=26.0,
        exchange_m3_per_day=20.0,
        protein_percent=32.0,
    )
    tan = tan_g_per_day(feed_kg_per_day=exact(feed.value), protein_percent=32.0)
    settled = tan.value / 20.0 * unionised_fraction(ph=8.0, temperature_deg_c=26.0)
    assert settled == pytest.approx(0.02)
    filtered = feed_for_ammonia_kg_per_day(
        species_key="nile-tilapia",
        ph=8.0,
        temperature_deg_c=26.0,
        exchange_m3_per_day=20.0,
        protein_percent=32.0,
        nitrification=Nitrification(removal_g_per_day=50.0),
    )
    assert filtered.value > feed.value


@pytest.mark.parametrize("exchange", [0.0, 1.5])
def test_nitrate_follows_an_integrator(exchange: float) -> None:
    """The closed form is SciPy's integration of the balance."""
    loop = NitrogenLoop(
        volume_m3=10.0,
        exchange_m3_per_day=exchange,
        plant_uptake_g_per_day=10.0,
        inflow_nitrate_n_mg_per_l=2.0,
    )
    trend = nitrate_trend(
        species_key="rainbow-trout",
        loop=loop,
        start_n_mg_per_l=20.0,
        nitrogen_g_per_day=lognormal(40.0, 0.1),
        days=60,
    )

    def change(_: float, c: np.ndarray) -> list[float]:
        return [(40.0 - 10.0 - exchange * (c[0] - 2.0)) / 10.0]

    solved = solve_ivp(
        change, (0.0, 60.0), [20.0], t_eval=trend.days, rtol=1e-9, atol=1e-9
    )
    np.testing.assert_allclose(trend.nitrate_n_mg_per_l, solved.y[0], atol=1e-6)
    assert np.all(trend.low_mg_per_l <= trend.high_mg_per_l)
    assert trend.settled_mg_per_l == (None if exchange == 0.0 else pytest.approx(22.0))
    assert (trend.days_to_limit is None) == (exchange > 0.0)


def test_plants_take_no_more_than_there_is() -> None:
    """A bed larger than the feed empties the water and no more."""
    trend = nitrate_trend(
        species_key="nile-tilapia",
        loop=NitrogenLoop(
            volume_m3=2.0, exchange_m3_per_day=0.01, plant_uptake_g_per_day=50.0
        ),
        start_n_mg_per_l=5.0,
        nitrogen_g_per_day=exact(1.0),
        days=30,
    )
    assert trend.nitrate_n_mg_per_l[-1] == 0.0
    assert trend.settled_mg_per_l == 0.0


# --- plant beds -------------------------------------------------------------------


def test_plant_bed_of_the_guidelines() -> None:
    """Rakocy 2007, rafts: 60-100 g/m2: 1000 g need 10-16.7 m2, 200 m2 eat 20 kg."""
    found = bed_balance(crop="raft", feed_kg_per_day=exact(1.0), bed_m2=200.0)
    assert 10.0 < found.bed_needed_m2.value < 16.7
    assert found.feed_carried_kg.high == pytest.approx(20.0)


@given(feed=st.floats(0.01, 1e3))
def test_bed_and_feed_are_each_others_reverse(feed: float) -> None:
    """Area from feed and feed from area give back the feed."""
    needed = bed_balance(crop="nft", feed_kg_per_day=exact(feed), bed_m2=0.0)
    back = bed_balance(
        crop="nft", feed_kg_per_day=exact(1.0), bed_m2=needed.bed_needed_m2.value
    )
    assert back.feed_carried_kg.value == pytest.approx(feed)


def test_bed_balance_keeps_the_sources_range() -> None:
    """Leafy crops, FAO 589: 40-50 g/m2/day, so 10 m2 carry 400-500 g."""
    found = bed_balance(crop="leafy", feed_kg_per_day=exact(0.45), bed_m2=10.0)
    assert (found.feed_carried_kg.low, found.feed_carried_kg.high) == (0.4, 0.5)
    assert found.bed_needed_m2.value == pytest.approx(10.0)


def test_uptake_is_what_the_balanced_feed_makes() -> None:
    """A bed takes up the nitrogen of the feed that it carries."""
    bed = bed_balance(crop="raft", feed_kg_per_day=exact(1.0), bed_m2=12.0)
    made = tan_g_per_day(
        feed_kg_per_day=exact(bed.feed_carried_kg.value), protein_percent=32.0
    )
    taken = plant_uptake_g_per_day(crop="raft", bed_m2=12.0)
    assert taken.value == pytest.approx(made.value)


def test_nitrate_that_reaches_its_limit_is_a_problem() -> None:
    """1 g a day into 1 m3 without exchange is 1 mg/L a day: 70 reaches 75 on day 6."""
    loop = NitrogenLoop(volume_m3=1.0, exchange_m3_per_day=0.0)
    trend = partial(
        nitrate_trend,
        species_key="rainbow-trout",
        loop=loop,
        nitrogen_g_per_day=exact(1.0),
        days=30,
    )
    (ahead,) = trend(start_n_mg_per_l=70.0).problems
    assert ahead.code == "nitrate-limit-ahead"
    assert "75 mg/L as N in 6 days" in ahead.message
    (now,) = trend(start_n_mg_per_l=80.0).problems
    assert now.code == "nitrate-over-limit"
    assert trend(start_n_mg_per_l=3.0).problems == ()
