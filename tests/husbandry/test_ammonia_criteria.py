"""The criteria of US EPA 2013 against their printed tables.

EPA 822-R-13-001, mg N/L; the rows at 20 C are the report's, the others those of
Oregon's tables 30 (a) to (c), which took the report's criteria over (DEQ 2015).
"""

import pytest

from fishmeasure.base.errors import StockRangeError
from fishmeasure.husbandry.ammonia_criteria import (
    acute_tan_n_mg_per_l,
    chronic_tan_n_mg_per_l,
)

PH = (6.5, 7.0, 7.5, 8.0, 8.5, 9.0)
CHRONIC = {
    5.0: (4.9, 4.4, 3.2, 1.8, 0.80, 0.36),
    20.0: (2.1, 1.9, 1.4, 0.78, 0.35, 0.16),
    30.0: (1.1, 0.99, 0.73, 0.41, 0.18, 0.081),
}
ACUTE_WITH_SALMONIDS = {
    10.0: (33.0, 24.0, 13.0, 5.6, 2.1, 0.88),
    20.0: (23.0, 17.0, 9.2, 3.9, 1.5, 0.62),
    30.0: (9.9, 7.3, 4.0, 1.7, 0.65, 0.27),
}
ACUTE_WITHOUT = ACUTE_WITH_SALMONIDS | {10.0: (51.0, 38.0, 21.0, 8.8, 3.3, 1.4)}


def two_digits(value: float) -> float:
    return float(f"{value:.2g}")


@pytest.mark.parametrize("temperature_deg_c", CHRONIC)
def test_chronic_is_as_printed(temperature_deg_c: float) -> None:
    ours = [
        two_digits(chronic_tan_n_mg_per_l(ph=ph, temperature_deg_c=temperature_deg_c))
        for ph in PH
    ]
    assert ours == list(CHRONIC[temperature_deg_c])


@pytest.mark.parametrize("salmonids", [True, False])
@pytest.mark.parametrize("temperature_deg_c", ACUTE_WITHOUT)
def test_acute_is_as_printed(temperature_deg_c: float, *, salmonids: bool) -> None:
    table = ACUTE_WITH_SALMONIDS if salmonids else ACUTE_WITHOUT
    ours = [
        two_digits(
            acute_tan_n_mg_per_l(
                ph=ph, temperature_deg_c=temperature_deg_c, salmonids=salmonids
            )
        )
        for ph in PH
    ]
    assert ours == list(table[temperature_deg_c])


def test_headline_values_at_ph_7_and_20_c() -> None:
    """17 acute, 1.9 chronic: the Federal Register notice of 22 August 2013."""
    for salmonids in (True, False):
        acute = acute_tan_n_mg_per_l(
            ph=7.0, temperature_deg_c=20.0, salmonids=salmonids
        )
        assert two_digits(acute) == 17.0
    assert two_digits(chronic_tan_n_mg_per_l(ph=7.0, temperature_deg_c=20.0)) == 1.9


@pytest.mark.parametrize("ph", PH)
def test_salmonids_are_never_given_more(ph: float) -> None:
    for temp in (0.0, 5.0, 10.0, 15.0, 20.0, 30.0):
        with_them = acute_tan_n_mg_per_l(ph=ph, temperature_deg_c=temp, salmonids=True)
        without = acute_tan_n_mg_per_l(ph=ph, temperature_deg_c=temp, salmonids=False)
        assert (
            chronic_tan_n_mg_per_l(ph=ph, temperature_deg_c=temp) < with_them <= without
        )


def test_cold_water_changes_the_chronic_one_no_more_below_7_c() -> None:
    at_7 = chronic_tan_n_mg_per_l(ph=7.5, temperature_deg_c=7.0)
    assert chronic_tan_n_mg_per_l(ph=7.5, temperature_deg_c=2.0) == at_7
    assert chronic_tan_n_mg_per_l(ph=7.5, temperature_deg_c=8.0) < at_7


def test_warm_water_holds_the_salmonids_value_by_the_invertebrates() -> None:
    """Cold: 0.275 / (1 + 10^0.204) + 39 / (1 + 10^-0.204) = 0.1058 + 23.99 = 24.1."""
    cold = acute_tan_n_mg_per_l(ph=7.0, temperature_deg_c=5.0, salmonids=True)
    assert cold == pytest.approx(24.1, abs=0.05)
    assert acute_tan_n_mg_per_l(ph=7.0, temperature_deg_c=25.0, salmonids=True) < 12.0


def test_a_slip_is_refused() -> None:
    with pytest.raises(StockRangeError):
        chronic_tan_n_mg_per_l(ph=72.0, temperature_deg_c=20.0)
    with pytest.raises(StockRangeError):
        acute_tan_n_mg_per_l(ph=7.2, temperature_deg_c=68.0, salmonids=True)
