"""An outage: the closed form against an integrator, and what must hold of it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from fishmeasure.base.errors import BadFieldError, StockRangeError
from fishmeasure.base.estimate import Estimate
from fishmeasure.husbandry import cautions
from fishmeasure.husbandry.outage import biomass_for_hours, outage, time_words
from fishmeasure.husbandry.outage_chart import outage_figure
from fishmeasure.husbandry.outage_fall import (
    HORIZON_MIN,
    OutageCase,
    OutageCause,
    remaining_supplies,
)
from fishmeasure.husbandry.oxygen import oxygen_demand
from fishmeasure.husbandry.oxygen_supply import surface_supply, unit_water
from fishmeasure.husbandry.propagation import exact, lognormal, lognormal_draws
from fishmeasure.husbandry.unit import Aerator, RearingUnit

TANK = RearingUnit(
    volume_m3=6.0,
    depth_m=6.0 / 7.0,
    inflow_l_per_min=60.0,
    inflow_do_mg_per_l=10.0,
    aeration=(Aerator(name="blower", standard_transfer_g_per_h=100.0),),
)
BATTERY = Aerator(
    name="battery air", standard_transfer_g_per_h=30.0, backup_hours=8.0, standby=True
)


def case_of(
    biomass_kg: float = 90.0, unit: RearingUnit = TANK, spread: float = 0.08
) -> OutageCase:
    return OutageCase(
        unit=unit,
        species_key="rainbow-trout",
        biomass_kg=lognormal(biomass_kg, spread),
        mean_weight_g=250.0,
        temperature_deg_c=12.0,
        start_do_mg_per_l=Estimate.normal(9.0, 0.2),
    )


@pytest.mark.parametrize("cause", ["power", "pump", "blower"])
@pytest.mark.parametrize("wind", [None, 2.0])
def test_course_is_that_of_an_integrator(
    cause: OutageCause, wind: float | None
) -> None:
    """The closed form follows SciPy's integration of the mass balance to 1e-6."""
    case = replace(case_of(), cause=cause, wind_m_per_s=wind)
    result = outage(case)
    supplies = (
        *remaining_supplies(case),
        surface_supply(TANK, unit_water(TANK, case.temperature_deg_c), wind),
    )
    rate = oxygen_demand(
        species_key=case.species_key, mean_weight_g=250.0, temperature_deg_c=12.0
    ).rate_mg_per_kg_h.value
    use_g_per_h = case.biomass_kg.value * rate / 1000.0

    def change(_: float, do: np.ndarray) -> list[float]:
        supply = sum(s.base_g_per_h - s.exchange_m3_per_h * do[0] for s in supplies)
        return [(supply - use_g_per_h) / TANK.volume_m3]

    hours = result.course_min / 60.0
    solved = solve_ivp(
        change, (0.0, hours[-1]), [9.0], t_eval=hours, rtol=1e-9, atol=1e-9
    )
    np.testing.assert_allclose(
        result.course_mg_per_l, np.maximum(solved.y[0], 0.0), atol=1e-6
    )


def test_still_sealed_water_falls_in_a_straight_line() -> None:
    """Without any supply 9 to 3 mg/L takes volume x 6 / use (mass conserved)."""
    sealed = RearingUnit(volume_m3=6.0, water_respiration_mg_per_l_h=0.2)
    result = outage(case_of(unit=sealed))
    rate = oxygen_demand(
        species_key="rainbow-trout", mean_weight_g=250.0, temperature_deg_c=12.0
    ).rate_mg_per_kg_h.value
    hours = 6.0 * 6.0 / (90.0 * rate / 1000.0 + 0.2 * 6.0)
    assert result.to_critical.minutes.value == pytest.approx(60.0 * hours, rel=1e-6)
    assert biomass_for_hours(case_of(unit=sealed), hours=hours).value == (
        pytest.approx(90.0, rel=1e-6)
    )


def test_interval_is_that_of_random_draws() -> None:
    """200,000 random tanks without supply: 5, 50 and 95 % of the time, to 3 %."""
    sealed = RearingUnit(volume_m3=6.0)
    case = case_of(unit=sealed)
    rate = oxygen_demand(
        species_key="rainbow-trout", mean_weight_g=250.0, temperature_deg_c=12.0
    ).rate_mg_per_kg_h
    rng = np.random.default_rng(8)
    use = lognormal_draws(case.biomass_kg, rng.standard_normal(200_000))
    use = use * lognormal_draws(rate, rng.standard_normal(200_000)) / 1000.0
    start = 9.0 + 0.2 * rng.standard_normal(200_000)
    minutes = 60.0 * 6.0 * (start - 3.0) / use
    low, middle, high = np.quantile(minutes, [0.05, 0.5, 0.95])
    found = outage(case).to_critical.minutes
    assert found.value == pytest.approx(middle, rel=0.01)
    assert found.low == pytest.approx(low, rel=0.03)
    assert found.high == pytest.approx(high, rel=0.03)


def test_what_stops_depends_on_the_cause() -> None:
    """Power stops all but a spring; pump and blower stop their own."""
    names = {
        cause: [s.name for s in remaining_supplies(replace(case_of(), cause=cause))]
        for cause in ("power", "pump", "blower")
    }
    assert names == {"power": [], "pump": ["blower"], "blower": ["inflow"]}
    spring = replace(TANK, inflow_by_gravity=True)
    assert [s.name for s in remaining_supplies(case_of(unit=spring))] == ["inflow"]


def test_every_measure_buys_time_and_the_best_comes_first() -> None:
    """Air, water, fewer fish and fasted fish all help, and help for certain."""
    unit = replace(TANK, aeration=(*TANK.aeration, BATTERY))
    result = outage(case_of(unit=unit), exchange_l_per_min=30.0)
    gains = [measure.sure_min for measure in result.measures]
    assert len(gains) == 4
    assert gains == sorted(gains, reverse=True)
    assert all(gain > 0.0 for gain in gains)
    fasted = outage(replace(case_of(), feeding="fasted"))
    assert len(fasted.measures) == 2


def test_the_air_said_to_hold_the_level_holds_it() -> None:
    """Backup air of the stated rate keeps the caution level, a tenth less does not."""
    case = case_of()
    needed = outage(case).holding_air_standard_transfer_g_per_h.value
    for factor, holds in ((1.01, True), (0.9, False)):
        device = Aerator(name="blower", standard_transfer_g_per_h=needed * factor)
        unit = replace(TANK, aeration=(device,))
        found = outage(replace(case, unit=unit, cause="pump")).to_caution
        assert (found.minutes.value == HORIZON_MIN) is holds


def test_the_water_said_to_hold_the_level_holds_it() -> None:
    """The same of fresh water, at 95 % of saturation."""
    case = case_of()
    needed = outage(case).holding_water_l_per_min.value
    for factor, holds in ((1.01, True), (0.9, False)):
        unit = replace(TANK, inflow_l_per_min=needed * factor, inflow_do_mg_per_l=None)
        found = outage(replace(case, unit=unit, cause="blower")).to_caution
        assert (found.minutes.value == HORIZON_MIN) is holds


def test_fish_load_for_some_hours_gives_those_hours() -> None:
    """The load for 2 h lasts 2 h, and the reverse."""
    load = biomass_for_hours(case_of(), hours=2.0)
    lasts = outage(case_of(biomass_kg=load.value)).to_critical.minutes.value
    assert lasts == pytest.approx(120.0, rel=1e-6)
    assert load.low < load.value < load.high
    longer = biomass_for_hours(case_of(), hours=4.0)
    assert longer.value < load.value


def test_oxygen_already_too_low_leaves_no_time() -> None:
    """At 2.5 mg/L there is nothing left, and no load would help."""
    case = replace(case_of(), start_do_mg_per_l=exact(2.5))
    assert outage(case).to_critical.minutes.value == 0.0
    assert biomass_for_hours(case, hours=1.0).value == 0.0


def test_few_fish_never_reach_the_level() -> None:
    """Where the surface carries the fish, the answer is 24 h or more."""
    case = replace(case_of(biomass_kg=0.5), wind_m_per_s=4.0)
    found = outage(case).to_critical
    assert found.minutes.value == HORIZON_MIN
    assert found.reached_fraction == 0.0


def test_own_levels_replace_the_book() -> None:
    """Levels set for the unit are used and the book's notes are left out."""
    case = replace(case_of(), caution_mg_per_l=6.5, critical_mg_per_l=4.5)
    result = outage(case)
    assert result.to_caution.level_mg_per_l == 6.5
    assert result.to_critical.level_mg_per_l == 4.5
    assert not any("Critical level" in note for note in map(str, result.notes))
    assert any(
        "Critical level 3 mg/L" in note for note in map(str, outage(case_of()).notes)
    )


@settings(max_examples=25)
@given(
    biomass=st.floats(5.0, 300.0),
    temp=st.floats(4.0, 16.0),
    start=st.floats(6.0, 10.0),
)
def test_more_fish_warmer_or_less_oxygen_leave_less_time(
    biomass: float, temp: float, start: float
) -> None:
    """Time falls with load and temperature and rises with the start level."""

    def minutes(b: float, t: float, do: float) -> float:
        case = replace(case_of(b), temperature_deg_c=t, start_do_mg_per_l=exact(do))
        found = outage(case)
        assert found.to_caution.minutes.value <= found.to_critical.minutes.value
        return found.to_critical.minutes.value

    here = minutes(biomass, temp, start)
    assert minutes(biomass * 1.2, temp, start) <= here
    assert minutes(biomass, temp + 1.0, start) <= here
    assert minutes(biomass, temp, start + 0.5) >= here


def test_a_less_certain_biomass_widens_the_interval() -> None:
    """The early end, which counts, comes earlier."""
    sure, unsure = outage(case_of(spread=0.02)), outage(case_of(spread=0.3))
    assert unsure.to_critical.minutes.low < sure.to_critical.minutes.low
    assert unsure.to_critical.minutes.value == sure.to_critical.minutes.value


def test_cautions_are_with_the_answer() -> None:
    """Planning figures, the meter, the electrician."""
    result = outage(case_of())
    assert cautions.OXYGEN in result.cautions
    assert cautions.ELECTRICAL in result.cautions


@pytest.mark.parametrize(
    "change",
    [
        {"biomass_kg": exact(0.0)},
        {"start_do_mg_per_l": exact(99.0)},
        {"caution_mg_per_l": 12.0},
    ],
)
def test_impossible_cases_are_refused(change: dict[str, object]) -> None:
    """No fish, water that cannot hold that oxygen."""
    with pytest.raises(StockRangeError):
        outage(replace(case_of(), **change))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "change",
    [
        {"volume_m3": 0.0},
        {"depth_m": -1.0},
        {"inflow_l_per_min": -1.0},
        {"inflow_do_mg_per_l": 900.0},
        {"water_respiration_mg_per_l_h": -1.0},
    ],
)
def test_impossible_units_are_refused(change: dict[str, float]) -> None:
    """No water, flows below nothing, oxygen in another unit."""
    with pytest.raises(BadFieldError, match=next(iter(change))):
        replace(TANK, **change)  # type: ignore[arg-type]


def test_times_in_words() -> None:
    """Rounded down, never up: it is time that counts."""
    assert time_words(59.9) == "59 min"
    assert time_words(137.0) == "2 h 15 min"
    assert time_words(HORIZON_MIN) == "24 h or more"


def test_chart_shows_both_levels() -> None:
    """The figure carries the levels' names with their times."""
    text = [t.get_text() for t in outage_figure(outage(case_of())).axes[0].texts]
    assert text[0].startswith("caution 5 mg/L")
    assert text[1].startswith("critical 3 mg/L")
    few = outage(replace(case_of(biomass_kg=0.5), wind_m_per_s=4.0))
    assert "24 h or more" in outage_figure(few).axes[0].texts[0].get_text()
