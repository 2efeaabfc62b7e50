"""Feed: the chart's cells, the simpler rule, plans and feed conversion."""

import csv
import math
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fishmeasure.base.errors import GainNotKnownError, StockRangeError
from fishmeasure.base.estimate import Estimate
from fishmeasure.husbandry.feed import (
    FeedPlan,
    chart_percent_per_day,
    daily_feed_kg,
    feed_conversion,
    feed_plan,
    ration,
)
from fishmeasure.husbandry.growth import WeightSample, fit_growth
from fishmeasure.husbandry.projection import project_growth
from fishmeasure.husbandry.propagation import exact, lognormal
from fishmeasure.husbandry.temperature import (
    ConstantTemperature,
    growing_temperature_deg_c,
)
from fishmeasure.species import farmed_keys, farmed_species, water_of
from fishmeasure.species.feed_chart import load_feed_chart

START = date(2026, 5, 1)


def middle_g(lowest: str, highest: str) -> float:
    known = [float(w) for w in (lowest, highest) if w]
    return math.prod(known) ** (1.0 / len(known))


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


def test_every_cell_of_the_chart_comes_back(shared: Path) -> None:
    """All 361 sound cells (Leitritz & Lewis 1980) at their class's middle weight.

    The two cells that the shelf calls suspect (67 and 68 °F, 1-2 in) are skipped.
    """
    checked = 0
    path = shared / "reference" / "07_feed_chart_leitritz_lewis_1980.csv"
    with path.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["suspect"] == "True":
                continue
            percent = chart_percent_per_day(
                mean_weight_g=middle_g(row["weight_min_g"], row["weight_max_g"]),
                temperature_deg_c=celsius(float(row["temp_F"])),
            )
            expected = float(row["percent_body_weight_per_day"])
            assert percent == pytest.approx(expected, abs=1e-9), row
            checked += 1
    assert checked == 361


def test_a_cell_of_the_chart_through_the_ration() -> None:
    """50 °F, 5-6 in: 1.7 % of body weight a day (Leitritz & Lewis 1980)."""
    (cell,) = (
        c
        for c in load_feed_chart()
        if c.temperature_deg_f == 50 and c.size_class_in == "5-6"
    )
    assert cell.percent_per_day == 1.7
    given_ration = ration(
        species_key="rainbow-trout",
        mean_weight_g=middle_g(str(cell.min_weight_g), str(cell.max_weight_g)),
        temperature_deg_c=10.0,
    )
    assert given_ration.percent_per_day.value == pytest.approx(1.7)


@given(
    weight=st.floats(0.05, 3000.0),
    temp=st.floats(0.0, 19.0),
    warmer=st.floats(0.0, 1.0),
)
def test_ration_between_cells_stays_between_them(
    weight: float, temp: float, warmer: float
) -> None:
    """Warmer water never lowers a trout's ration, larger fish never raise it."""
    here = chart_percent_per_day(mean_weight_g=weight, temperature_deg_c=temp)
    assert 0.3 <= here <= 9.9
    assert chart_percent_per_day(
        mean_weight_g=weight, temperature_deg_c=temp + warmer
    ) >= (here - 1e-9)
    assert (
        chart_percent_per_day(mean_weight_g=weight * 1.3, temperature_deg_c=temp)
        <= here + 1e-9
    )


def test_too_warm_water_gives_no_ration() -> None:
    """Above the chart, and above a species' growth, feeding stops and says so."""
    for species, temp in (("rainbow-trout", 20.5), ("arctic-char", 19.0)):
        found = ration(species_key=species, mean_weight_g=100.0, temperature_deg_c=temp)
        assert found.percent_per_day.value == 0.0
        assert "too-warm-to-feed" in [problem.code for problem in found.problems]


def test_water_too_cold_to_feed_gives_no_ration() -> None:
    """Below 36 °F the trout chart ends; tilapia at 10 °C were once fed 0.59 %."""
    edge = ration(
        species_key="brown-trout", mean_weight_g=100.0, temperature_deg_c=2.23
    )
    assert edge.percent_per_day.value > 0.3
    assert edge.problems == ()
    for species, temp in (("brown-trout", 1.0), ("nile-tilapia", 10.0)):
        cold = ration(species_key=species, mean_weight_g=100.0, temperature_deg_c=temp)
        assert cold.percent_per_day.high == 0.0
        assert [problem.code for problem in cold.problems] == ["too-cold-to-feed"]


@given(
    species=st.sampled_from(farmed_keys()),
    weight=st.floats(1.0, 3000.0),
    temp=st.floats(0.0, 40.0),
)
def test_ration_and_growth_end_at_the_same_temperatures(
    species: str, weight: float, temp: float
) -> None:
    """Both by the species' one band of feeding."""
    found = ration(species_key=species, mean_weight_g=weight, temperature_deg_c=temp)
    grows = growing_temperature_deg_c(temp, farmed_species(species)) > 0.0
    fed = found.percent_per_day.value > 0.0
    assert fed is grows is water_of(species).feeds_at(temp)
    assert fed is not any("to-feed" in problem.code for problem in found.problems)


def test_simpler_rule_is_growth_times_conversion() -> None:
    """Feed x 1/FCR makes exactly the weight that the TGC foretells."""
    figures = farmed_species("nile-tilapia")
    found = ration(
        species_key="nile-tilapia",
        mean_weight_g=125.0,
        temperature_deg_c=25.0,
        tgc_x1000=lognormal(0.8, 0.1),
    )
    gain_g = (5.0 + 0.8 * 25.0 / 1000.0) ** 3 - 125.0
    expected = 100.0 * gain_g / 125.0 * figures.feed.fcr.value
    assert found.percent_per_day.value == pytest.approx(expected)
    assert any("no table of this species" in note for note in map(str, found.notes))
    book = ration(
        species_key="nile-tilapia", mean_weight_g=125.0, temperature_deg_c=25.0
    )
    assert any("TGC" in note for note in map(str, book.notes))
    assert found.percent_per_day.sd / found.percent_per_day.value == pytest.approx(
        math.hypot(0.1, figures.feed.fcr.relative_sd)
    )


def plan_for(count: Estimate, weights: tuple[float, ...] = (80.0, 100.0)) -> FeedPlan:
    water = ConstantTemperature(temperature_deg_c=10.0)
    samples = tuple(
        WeightSample(
            day=START + timedelta(days=21 * index),
            mean_weight_g=lognormal(weight, 0.04),
        )
        for index, weight in enumerate(weights)
    )
    fit = fit_growth(samples=samples, temperature=water, species_key="rainbow-trout")
    projection = project_growth(fit=fit, temperature=water, days=30)
    return feed_plan(
        projection=projection,
        fish_count=count,
        temperature=water,
        start=fit.last_day,
        days=7,
    )


def test_week_of_feed_grows_with_the_fish() -> None:
    """Each day is ration x biomass of that day; the week is their sum."""
    plan = plan_for(lognormal(240.0, 0.02))
    assert len(plan.days) == 7
    for day in plan.days:
        biomass_kg = 240.0 * day.mean_weight_g.value / 1000.0
        expected = biomass_kg * day.percent_per_day.value / 100.0
        assert day.feed_kg.value == pytest.approx(expected)
    total = sum(day.feed_kg.value for day in plan.days)
    assert plan.total_kg.value == pytest.approx(total)
    # Count, weight and chart err alike on all days, so the week errs as much as a day.
    middle = plan.days[3].feed_kg
    assert plan.total_kg.sd / plan.total_kg.value == pytest.approx(
        middle.sd / middle.value, rel=0.02
    )
    weights = [day.mean_weight_g.value for day in plan.days]
    assert weights == sorted(weights)


def test_twice_the_fish_eat_twice_the_feed() -> None:
    """Feed is proportional to the count, its relative error is not changed."""
    one, two = plan_for(lognormal(200.0, 0.02)), plan_for(lognormal(400.0, 0.02))
    assert two.total_kg.value == pytest.approx(2.0 * one.total_kg.value)
    assert two.total_kg.high == pytest.approx(2.0 * one.total_kg.high)


def test_plan_beyond_the_projection_is_refused() -> None:
    """The days must lie inside the projection."""
    water = ConstantTemperature(temperature_deg_c=21.0)
    fit = fit_growth(
        samples=(WeightSample(day=START, mean_weight_g=exact(100.0)),),
        temperature=water,
        species_key="rainbow-trout",
    )
    projection = project_growth(fit=fit, temperature=water, days=3)
    with pytest.raises(StockRangeError):
        feed_plan(
            projection=projection,
            fish_count=exact(100.0),
            temperature=water,
            start=START,
            days=7,
        )
    plan = feed_plan(
        projection=projection,
        fish_count=exact(100.0),
        temperature=water,
        start=START,
        days=3,
    )
    assert plan.total_kg.value == 0.0
    assert "too-warm-to-feed" in [problem.code for problem in plan.problems]


def test_day_of_feed_carries_both_errors() -> None:
    """Relative variances of biomass and ration add."""
    today = ration(
        species_key="rainbow-trout", mean_weight_g=100.0, temperature_deg_c=10.0
    )
    feed = daily_feed_kg(biomass_kg=lognormal(30.0, 0.1), ration_=today)
    assert feed.sd / feed.value == pytest.approx(math.hypot(0.1, 0.15))


# --- feed conversion ------------------------------------------------------------


def test_feed_conversion_by_definition() -> None:
    """60 kg of feed, 20 to 65 kg with 5 kg sold and 2 kg dead: 60/50 and 60/52."""
    found = feed_conversion(
        feed_kg=60.0,
        start_biomass_kg=exact(20.0),
        end_biomass_kg=exact(65.0),
        removed_kg=5.0,
        dead_kg=2.0,
    )
    assert found.economic.value == pytest.approx(60.0 / 50.0)
    assert found.biological.value == pytest.approx(60.0 / 52.0)
    assert found.gain_kg.value == pytest.approx(50.0)


@given(
    feed=st.floats(1.0, 500.0),
    gain=st.floats(5.0, 300.0),
    dead=st.floats(0.0, 50.0),
    added=st.floats(0.0, 50.0),
)
def test_economic_is_never_below_biological(
    feed: float, gain: float, dead: float, added: float
) -> None:
    """Dead fish ate and are not sold; stocking is no growth."""
    found = feed_conversion(
        feed_kg=feed,
        start_biomass_kg=lognormal(20.0, 0.02),
        end_biomass_kg=lognormal(20.0 + gain + added, 0.005),
        dead_kg=dead,
        added_kg=added,
    )
    assert found.economic.value >= found.biological.value
    assert found.economic.low <= found.economic.value <= found.economic.high


def test_gain_within_its_error_gives_no_conversion() -> None:
    """30 +- 3 kg to 32 +- 3 kg is no known gain."""
    with pytest.raises(
        GainNotKnownError, match="not significantly different from zero"
    ):
        feed_conversion(
            feed_kg=3.0,
            start_biomass_kg=lognormal(30.0, 0.1),
            end_biomass_kg=lognormal(32.0, 0.1),
        )
    with pytest.raises(StockRangeError, match="feed"):
        feed_conversion(
            feed_kg=-1.0, start_biomass_kg=exact(1.0), end_biomass_kg=exact(2.0)
        )
