"""The outlook answers the seven questions, or says why it cannot."""

import math
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from fishmeasure.base.errors import BadFieldError, ReportWriteError, UnknownRecordError
from fishmeasure.base.words import percent, wording
from fishmeasure.book.entries import (
    Counted,
    Died,
    Entry,
    Feed,
    Harvested,
    Sample,
    Stocked,
    WaterReading,
)
from fishmeasure.book.units import Unit
from fishmeasure.husbandry import cautions
from fishmeasure.husbandry.harvest import dates_at_size
from fishmeasure.husbandry.outage import time_words
from fishmeasure.husbandry.oxygen_supply import aerator_supply, unit_water
from fishmeasure.husbandry.saturation import Water, oxygen_saturation_mg_per_l
from fishmeasure.husbandry.sources import at_hand, running
from fishmeasure.husbandry.transfer import DO_STANDARD_MG_PER_L
from fishmeasure.husbandry.unit import Aerator, UnitLimits
from fishmeasure.outlook.unit import Options, UnitOutlook, unit_outlook
from fishmeasure.render.outlook_pdf import outlook_pdf, write_pdf
from fishmeasure.render.outlook_plots import outlook_plots
from fishmeasure.render.outlook_words import heading, sections
from fishmeasure.store.book import open_book
from fishmeasure.store.demo import about, demo_book
from tests.book.build import cohort, day, entry_about, same, tank

TROUT = cohort("trout", id=same(11), plate_weight_g=250.0)
TANK = tank("Tank", id=same(1), inflow_l_per_min=20.0)
entry = partial(entry_about, TANK, TROUT)


def exact_sample(on: int, weight_g: float, **fields: Any) -> Any:
    """Return a sample without error."""
    return entry(
        Sample,
        on,
        mean_weight_g=weight_g,
        mean_weight_low_g=weight_g,
        mean_weight_high_g=weight_g,
        **fields,
    )


def outlook(
    *entries: Entry,
    on: int = 60,
    unit: Unit = TANK,
    fish: Any = TROUT,
    options: Options | None = None,
) -> UnitOutlook:
    """Return the outlook of the tank."""
    return unit_outlook(
        (unit,), (fish,), entries, unit_id=unit.id, on=day(on), options=options
    )


STOCK = entry(
    Stocked, 0, fish_count=100, fish_count_sd=0.0, mean_weight_g=100.0,
    mean_weight_sd_g=0.0,
)  # fmt: skip
FULL = (
    STOCK,
    entry(Feed, 5, feed_kg=12.0),
    exact_sample(60, 200.0, cv=0.2, condition_factor=1.3, fish_measured=40),
    entry(Counted, 60, fish_count=100, fish_count_sd=0.0),
    entry(
        WaterReading,
        58,
        temperature_deg_c=12.0,
        do_mg_per_l=9.0,
        tan_mg_per_l=0.3,
        ph=7.2,
        nitrate_n_mg_per_l=3.0,
    ),
)


def codes(found: UnitOutlook) -> set[str]:
    """Return the codes of what is doubtful."""
    return {problem.code for problem in found.problems}


# --- the answers ------------------------------------------------------------------


def test_feed_conversion_of_a_worked_example() -> None:
    """12 kg of feed and 100 fish from 100 to 200 g are 10 kg gained, so 1.2."""
    feeding = outlook(*FULL).feeding
    assert feeding is not None
    assert feeding.conversion is not None
    assert feeding.since == day(0)
    assert feeding.conversion.gain_kg.value == pytest.approx(10.0, rel=0.02)
    assert feeding.conversion.biological.value == pytest.approx(1.2, rel=0.02)
    assert feeding.conversion.economic.value == pytest.approx(1.2, rel=0.02)
    assert feeding.given_since_kg == 12.0
    assert feeding.given_week_kg == 0.0


def test_dead_and_harvested_fish_in_the_feed_conversion() -> None:
    """10 taken at 200 g count as gained; 10 dead only in the biological figure."""
    found = outlook(
        *FULL[:3],
        entry(Harvested, 61, fish_count=10, weight_kg=2.0),
        entry(Died, 61, fish_count=10),
        exact_sample(61, 200.0),
        FULL[4],
        on=61,
    )
    assert found.feeding is not None
    conversion = found.feeding.conversion
    assert conversion is not None
    # 80 x 0.2 + 2.0 taken - 10.0 at the start = 8.0 kg; with the dead 10.0 kg
    assert conversion.gain_kg.value == pytest.approx(8.0, rel=0.04)
    assert conversion.economic.value == pytest.approx(12.0 / 8.0, rel=0.04)
    assert conversion.biological.value == pytest.approx(12.0 / 10.0, rel=0.04)


def test_weights_are_those_of_a_lognormal() -> None:
    """Quantiles of a lognormal with mean 200 and the CV, by its textbook formula."""
    (item,) = outlook(*FULL).cohorts
    assert item.cv.value == pytest.approx(0.2, rel=0.1)
    square = 1.0 + item.cv.value**2
    sigma = math.sqrt(math.log(square))
    median = 200.0 / math.sqrt(square)
    want = [median * math.exp(sigma * z) for z in (-1.644854, 0.0, 1.644854)]
    assert [weight for _, weight in item.quantiles_g] == pytest.approx(want, rel=1e-4)
    assert item.grading is not None
    assert item.grading.small_g == pytest.approx(median * math.exp(-1.281552 * sigma))
    # K = 100 W / L^3 (g, cm), the other way round
    length_cm = (100.0 * item.grading.small_g / 1.3) ** (1 / 3)
    assert item.grading.small_mm == pytest.approx(10.0 * length_cm)
    assert not item.grading.advised
    assert item.plate_weight_g == 250.0


def test_density_is_kilograms_over_volume() -> None:
    """20 kg in 6 m3 are 3.33 kg/m3, of 25 allowed by Reg. (EU) 2020/464."""
    limits = outlook(*FULL).limits
    assert limits is not None
    density = next(x for x in limits.load.limits if x.name == "density")
    assert density.used_fraction.value == pytest.approx(20.0 / 6.0 / 25.0)


def test_own_limits_and_readings_are_used() -> None:
    """The grower's limits stand before the species' figures."""
    own = replace(
        TANK,
        limits=UnitLimits(
            max_density_kg_per_m3=10.0, min_do_mg_per_l=6.5, critical_do_mg_per_l=4.0
        ),
        plant_bed_area_m2=5.0,
    )
    found = outlook(*FULL, unit=own)
    assert found.limits is not None
    density = next(x for x in found.limits.load.limits if x.name == "density")
    assert density.used_fraction.value == pytest.approx(20.0 / 6.0 / 10.0)
    assert found.outages is not None
    case = found.outages.worst.case
    assert (case.caution_mg_per_l, case.critical_mg_per_l) == (6.5, 4.0)
    # 20 kg leave less than the 9.0 mg/L that were read, so the outage begins there.
    assert case.start_do_mg_per_l.value < 9.0
    assert "worked out, lower than the 9.0 mg/L read on" in str(
        found.outages.start_from
    )
    low = replace(FULL[-1], do_mg_per_l=6.8)
    below = outlook(*FULL[:-1], low, unit=own).outages
    assert below is not None
    assert below.worst.case.start_do_mg_per_l.value == 6.8
    assert str(below.start_from).startswith(
        f"read on {day(58)}, not higher than the 7.1"
    )
    assert (found.water.temperature_deg_c, found.water.ph) == (12.0, 7.2)
    assert found.limits.ammonia is not None
    assert found.limits.bed is not None


def test_old_readings_say_nothing_of_tonight() -> None:
    """As the judgement of the water has it: each quantity has its days.

    Temperature and oxygen count for 7 days, ammonia for 14; a course of nitrate begins
    from 30 days at most.
    """
    for age in (7, 8, 14, 15, 30, 31):
        aged = outlook(*FULL, on=58 + age)
        assert aged.limits is not None
        assert (aged.water.do_mg_per_l is None) == (age > 7)
        assert (aged.limits.ammonia is None) == (age > 14)
        assert (aged.limits.nitrate is None) == (age > 30)
    found = outlook(*FULL, on=89)
    assert str(found.water.temperature_from) == "expected"
    assert found.water.do_mg_per_l is None
    assert found.water.temperature_deg_c == found.state.temperature.on(day(89))
    assert found.limits is not None
    assert found.limits.ammonia is None
    assert found.limits.nitrate is None
    assert found.outages is not None
    assert str(found.outages.start_from) == "worked out"
    assert any(
        "ammonia not read" in x.lower() for s in sections(found) for x in s.lines
    )


def test_what_can_stop_depends_on_the_unit() -> None:
    """A spring that runs by itself has no pump, but an intake to be blocked."""
    still = replace(TANK, inflow_l_per_min=0.0)
    assert _causes(replace(TANK, inflow_by_gravity=True)) == {"intake"}
    pumped = replace(TANK, inflow_by_gravity=False)
    assert _causes(pumped) == {"power", "pump", "intake"}
    air = (Aerator(name="blower", standard_transfer_g_per_h=50.0),)
    assert _causes(replace(still, aeration=air)) == {"power", "blower"}
    pumped = replace(still, recirculated_l_per_min=30.0, plant_bed_area_m2=3.0)
    assert _causes(pumped) == {"power", "pump"}


def test_nothing_that_brings_oxygen_is_entered() -> None:
    """Then nobody knows of oxygen or of an outage: neither "at once" nor 999 %."""
    still = replace(TANK, name="Tank A", inflow_l_per_min=0.0)
    water = entry(WaterReading, 60, ph=7.5, tan_mg_per_l=0.4, do_mg_per_l=8.0)
    found = outlook(*FULL, water, unit=still)
    assert found.outages is None
    assert found.limits is not None
    names = {limit.name for limit in found.limits.load.limits}
    assert names == {"density index", "density"}
    assert found.limits.ahead.fish_to_take_out == 0
    said = next(p.message for p in found.problems if p.code == "no-oxygen-supply")
    assert said.startswith(
        "No inflow and no aerator are entered for Tank A, so oxygen cannot be worked "
        "out, and no room for more fish is given. Enter its litres of new water"
    )
    assert found.room_kg is None
    assert found.limits.load.room_kg <= 0.0
    assert found.limits.ahead.fingerlings == 0
    lines = [line for section in sections(found) for line in section.lines]
    assert not any("at once" in line or "999" in line for line in lines)


def _causes(unit: Unit) -> set[str]:
    found = outlook(*FULL, unit=unit).outages
    assert found is not None
    times = [result.to_critical.minutes.low for result in found.results]
    assert times == sorted(times)
    return {result.case.cause for result in found.results}


def test_new_water_stops_with_the_power_unless_it_is_said_to_flow_by_itself() -> None:
    """Who says nothing is taken to have a pump: the safe side, and the page says so."""
    said = "New water is taken as pumped, so none comes in a power cut."
    air = (Aerator(name="blower", standard_transfer_g_per_h=50.0),)
    critical = {}
    for name, unit in {
        "unsaid": TANK,
        "pumped": replace(TANK, inflow_by_gravity=False),
        "spring": replace(TANK, inflow_by_gravity=True),
        "none": replace(TANK, inflow_l_per_min=0.0, aeration=air),
    }.items():
        found = outlook(*FULL, unit=unit)
        assert found.outages is not None
        text = " ".join(line for part in sections(found) for line in part.lines)
        assert (said in text) is (name in {"unsaid", "pumped"})
        critical[name] = {
            r.case.cause: r.to_critical.minutes.low for r in found.outages.results
        }
    assert critical["unsaid"] == critical["pumped"]
    assert "power" not in critical["spring"]  # nothing there needs it
    assert critical["spring"]["intake"] == critical["pumped"]["power"]


def test_the_end_to_act_on_comes_first() -> None:
    """Of the time the short end, of a limit the full one, of a help what is sure."""
    found = outlook(*FULL)
    assert found.outages is not None
    assert found.limits is not None
    text = " ".join(line for part in sections(found) for line in part.lines)
    minutes = found.outages.worst.to_critical.minutes
    low, middle = time_words(minutes.low), time_words(minutes.value)
    assert low != middle
    assert f"mg/L) after {low} (likely {middle}, " in text
    for limit in found.limits.load.limits:
        assert f"{limit.name} up to {percent(limit.used_fraction.high)}" in text
    gains = [measure.sure_min for measure in found.outages.worst.measures]
    assert gains == sorted(gains, reverse=True)


def test_load_for_some_hours() -> None:
    """The fewer fish, the longer an outage is survived."""
    loads = []
    for hours in (1.0, 8.0):
        found = outlook(*FULL, options=Options(hours=hours)).outages
        assert found is not None
        assert found.hours == hours
        loads.append(found.hours_biomass_kg.value)
    assert loads[0] > loads[1]


def test_plants_take_nitrate_only_where_their_water_comes_back() -> None:
    """A bed behind the outflow changes nothing in the tank."""
    behind = replace(TANK, plant_bed_area_m2=30.0, inflow_l_per_min=1.0)
    loop = replace(behind, recirculated_l_per_min=30.0)
    ends = []
    for unit in (behind, loop):
        limits = outlook(*FULL, unit=unit).limits
        assert limits is not None
        assert limits.nitrate is not None
        ends.append(float(limits.nitrate.nitrate_n_mg_per_l[-1]))
    assert ends[1] < ends[0]


def test_thin_and_fat_fish() -> None:
    """Condition is judged against the book's at the same length."""

    def verdict(factor: float) -> str:
        (item,) = outlook(
            STOCK, exact_sample(60, 200.0, condition_factor=factor)
        ).cohorts
        assert item.condition is not None
        return item.condition.verdict

    assert [verdict(factor) for factor in (0.9, 1.3, 1.9)] == ["low", "normal", "high"]


def test_the_condition_factor_is_shown_with_its_interval() -> None:
    """40 fish: sqrt(0.1^2 / 40 + 0.01^2 + 9 x 0.008^2) is 3 %, so 1.24 to 1.37."""
    lines = " ".join(line for part in sections(outlook(*FULL)) for line in part.lines)
    assert "Condition factor 1.30 (1.24 to 1.37)" in lines


# --- what is missing ----------------------------------------------------------------


def test_fish_of_unknown_weight() -> None:
    """Without a weight only the count is known, and the way forward is said."""
    found = outlook(entry(Stocked, 0, fish_count=100))
    assert "no-weight" in codes(found)
    assert (found.feeding, found.limits, found.outages) == (None, None, None)
    assert "Take a net sample" in " ".join(x for s in sections(found) for x in s.lines)
    assert outlook_plots(found) == ()
    assert _pages(outlook_pdf(found)) == 1


def test_empty_unit() -> None:
    """A unit without fish has no answers, and says so."""
    found = outlook()
    assert codes(found) == {"no-fish"}
    assert {s.lines for s in sections(found)} == {(wording("outlook-no-answer"),)}
    assert _pages(outlook_pdf(found)) == 1


def test_known_and_unknown_fish_in_one_unit() -> None:
    """What is known of some is shown; what is not of others is said."""
    others = cohort("others", id=same(12))
    entries = (*FULL, entry(Stocked, 1, cohort_id=others.id, fish_count=50))
    found = unit_outlook((TANK,), (TROUT, others), entries, unit_id=TANK.id, on=day(60))
    assert {"no-weight", "load-incomplete"} <= codes(found)
    assert found.state.biomass_kg is None
    assert found.outages is None  # the load is not known
    assert len(outlook_plots(found)) == 3
    text = "\n".join(line for part in sections(found) for line in part.lines)
    # 0.6 % a month go unseen: 49.4 after two
    assert "others: 49" in text
    assert "others: weight not known" in text


def test_fish_that_miss_an_autumn_have_a_date_in_the_next() -> None:
    """At 4 °C of half a year they grow little, yet surely within two years.

    Slowest of what is likely: a TGC x 1000 of 0.95 (1.75 less 1.645 x 28 %) makes 0.95
    x 180 days x 12 °C = 2.05 of the cube root a summer: 60 g (3.91) to 512 g in two.
    """
    lake = (3.0, 3.0, 4.0, 8.0, 12.0, 13.0, 13.0, 13.0, 12.0, 8.0, 4.0, 3.0)
    cold = replace(TANK, monthly_temperature_deg_c=lake)
    fed = entry(Stocked, 0, fish_count=400, mean_weight_g=60.0, mean_weight_sd_g=2.0)
    (fish,) = outlook(fed, on=1, unit=cold).cohorts
    assert fish.projection is not None
    assert fish.projection.days == 365
    size_g = fish.plate_weight_g
    year = dates_at_size(projection=fish.projection, cv=fish.cv, size_g=size_g)
    assert year.half.latest is None
    assert fish.plate_dates is not None
    assert fish.plate_dates.half.latest is not None


def test_few_small_fish_far_from_plate_size() -> None:
    """There is room for more, and plate size is more than two years away."""
    cold = replace(TANK, monthly_temperature_deg_c=(3.0,) * 12)
    found = outlook(
        entry(Stocked, 0, fish_count=20, mean_weight_g=5.0), on=1, unit=cold
    )
    text = "\n".join(line for part in sections(found) for line in part.lines)
    assert "fingerlings of rainbow trout of 20.0 g may be added" in text
    assert "nearly all later than two years from now" in text
    assert found.about == ""
    assert _pages(outlook_pdf(found)) == 1


def test_oxygen_below_caution_already() -> None:
    """With too little oxygen from the start the level is reached at once."""
    found = outlook(*FULL, entry(WaterReading, 60, do_mg_per_l=2.0))
    text = "\n".join(line for part in sections(found) for line in part.lines)
    assert "at once" in text


def test_species_without_figures() -> None:
    """An unknown species keeps its weight and count; the rest is refused in words."""
    odd = replace(TROUT, species_key="pond-dragon", plate_weight_g=None)
    found = outlook(
        STOCK, exact_sample(60, 200.0, cv=0.2, condition_factor=1.3), fish=odd
    )
    (item,) = found.cohorts
    assert item.quantiles_g
    assert item.projection is None
    assert item.condition is None
    assert item.plate_weight_g == 300.0
    assert found.feeding is None
    assert "no-growth-figures" in codes(found)
    assert "no-stock-figures" in codes(found)
    assert sections(found)


def test_species_without_plate_weight_of_its_own() -> None:
    """Where the cohort says nothing the species' plate size is taken."""
    (item,) = outlook(*FULL, fish=replace(TROUT, plate_weight_g=None)).cohorts
    assert item.plate_weight_g > 0.0


def test_gain_that_cannot_be_told_from_zero() -> None:
    """No feed conversion is given for fish that may not have grown."""
    found = outlook(
        entry(Stocked, 0, fish_count=100, mean_weight_g=100.0),
        entry(Feed, 1, feed_kg=0.1),
        entry(
            Sample,
            2,
            mean_weight_g=100.0,
            mean_weight_low_g=80.0,
            mean_weight_high_g=120.0,
        ),
        on=2,
    )
    assert "gain-not-known" in codes(found)
    assert found.feeding is not None
    assert found.feeding.conversion is None


def test_conversion_needs_a_weight_at_the_start() -> None:
    """Fish that had no weight when they came have no feed conversion."""
    found = outlook(
        entry(Stocked, 0, fish_count=100),
        entry(Feed, 1, feed_kg=1.0),
        exact_sample(60, 200.0),
    )
    assert found.feeding is not None
    assert found.feeding.conversion is None


def test_growth_by_the_book_gives_no_feed_conversion() -> None:
    """1.5 kg of feed and 100 days of forecast growth are no conversion of 0.03."""
    found = outlook(STOCK, entry(Feed, 99, feed_kg=1.5), on=100)
    assert found.feeding is not None
    assert found.feeding.given_since_kg == 1.5
    assert found.feeding.conversion is None


def test_more_out_than_in() -> None:
    """A book that cannot be right still gives a page, with its warning."""
    found = outlook(STOCK, entry(Harvested, 1, fish_count=150))
    assert "more-out-than-in" in codes(found)
    assert found.limits is None
    assert sections(found)


# --- the unit for the calculations ------------------------------------------------


def test_pressure_stands_for_altitude() -> None:
    """899 hPa is 1000 m (ICAO standard atmosphere: 898.8 hPa at 1000 m)."""
    read = unit_water(replace(TANK, altitude_m=0.0, pressure_hpa=898.8), 10.0)
    high = unit_water(replace(TANK, altitude_m=1000.0, pressure_hpa=None), 10.0)
    assert read.pressure_atm() == pytest.approx(high.pressure_atm(), rel=1e-4)
    assert TANK.surface_m2 == pytest.approx(5.0)


def test_water_sent_round_brings_its_flow_to_saturation() -> None:
    """30 L/min from no oxygen to 95 % bring 1.8 m3/h times 0.95 of saturation."""
    (round_,) = running(replace(TANK, recirculated_l_per_min=30.0))
    water = Water(temperature_deg_c=20.0)
    supply = aerator_supply(round_, water)
    assert supply.exchange_m3_per_h == pytest.approx(1.8)
    saturation = oxygen_saturation_mg_per_l(water)
    assert saturation == pytest.approx(DO_STANDARD_MG_PER_L, rel=0.001)
    assert supply.base_g_per_h == pytest.approx(1.8 * 0.95 * saturation)
    assert round_.drive == "pump"


def test_what_goes_on_without_mains_and_for_how_long() -> None:
    """240 Wh at 12 W are 20 h on paper: half to nine tenths of it are 10 to 18 h.

    10 L of water volume at 200 bar are 2,000 L of oxygen: 33 h 20 min at 1 L/min.
    """
    devices = (
        Aerator(name="blower", standard_transfer_g_per_h=90.0),
        Aerator(
            name="battery",
            standard_transfer_g_per_h=20.0,
            on_backup=True,
            power_w=12.0,
            capacity_wh=240.0,
        ),
        Aerator(
            name="bottle",
            standard_transfer_g_per_h=30.0,
            kind="oxygen",
            standby=True,
            gas_l_per_min=1.0,
            cylinder_l=2000.0,
        ),
        Aerator(name="spare", standard_transfer_g_per_h=0.0),
    )
    unit = replace(TANK, aeration=devices)
    assert [source.name for source in running(unit)] == ["blower", "battery"]
    battery = running(unit)[1]
    assert battery.on_backup
    assert battery.runtime_h == pytest.approx(18.0)
    assert battery.runtime_least_h == pytest.approx(10.0)
    (bottle,) = at_hand(unit)
    assert bottle.drive == "oxygen"
    assert bottle.runtime_h == pytest.approx(2000.0 / 60.0)
    tested = replace(devices[1], backup_hours=6.0)
    (found,) = running(replace(TANK, aeration=(tested,)))
    assert (found.runtime_least_h, found.runtime_h) == (6.0, 6.0)


def test_backup_of_unknown_hours_is_not_endless() -> None:
    """The page says that nobody entered how long the battery lasts."""
    device = Aerator(name="battery air", standard_transfer_g_per_h=90.0, on_backup=True)
    found = outlook(*FULL, unit=replace(TANK, aeration=(device,)))
    text = " ".join(line for part in sections(found) for line in part.lines)
    assert "battery air: for as long as its battery lasts: not entered" in text


def test_a_device_of_which_nothing_is_known_is_said() -> None:
    """It is not counted, and not passed over either."""
    found = outlook(*FULL, unit=replace(TANK, aeration=(Aerator(name="old"),)))
    said = next(p.message for p in found.problems if p.code == "aerator-unknown")
    assert said.startswith("It is not known what old in")


@pytest.mark.parametrize(
    ("fields", "named"),
    [
        ({"gas_l_per_min": 20.0}, "diffuser_depth_m"),
        ({"standard_transfer_g_per_h": 5.0, "capacity_wh": 90.0}, "power_w"),
        ({"standard_transfer_g_per_h": 5.0, "cylinder_l": 90.0}, "gas_l_per_min"),
    ],
)
def test_half_a_device_is_refused(fields: dict[str, Any], named: str) -> None:
    """Litres without a depth, a battery without watts, a cylinder without a flow."""
    with pytest.raises(BadFieldError, match=named):
        Aerator(name="pump", **fields)


# --- the demo and the page --------------------------------------------------------


@pytest.fixture(scope="module")
def demo() -> tuple[UnitOutlook, UnitOutlook]:
    """Return the outlook of both tanks of the demo."""
    content = demo_book(day(180))
    tanks = tuple(
        unit_outlook(
            content.units,
            content.cohorts,
            content.entries,
            unit_id=unit.id,
            on=day(180),
            about=about(),
        )
        for unit in content.units
    )
    return tanks[0], tanks[1]


def test_demo_is_complete_and_invented() -> None:
    """Two tanks of 6 and 4 m3, trout and char, every kind of entry, said invented."""
    content = demo_book(day(180))
    assert content == demo_book(day(180))
    assert [(unit.name, unit.volume_m3) for unit in content.units] == [
        ("Tank A", 6.0),
        ("Tank B", 4.0),
    ]
    assert {c.species_key for c in content.cohorts} == {"rainbow-trout", "arctic-char"}
    kinds = {entry.kind for entry in content.entries}
    grown = {"stocked", "graded", "died", "sold", "counted", "sample", "feed", "water"}
    assert kinds == grown | {"cancelled"}
    assert all("nvented" in unit.note for unit in content.units)
    assert all("nvented" in item.note for item in content.cohorts)
    assert "nvented" in dict(content.remarks)["about"]
    assert max(entry.on for entry in content.entries) <= day(180)


def test_demo_on_any_day() -> None:
    """The demo makes a valid book in every season."""
    for number in range(0, 360, 45):
        content = demo_book(day(number))
        found = unit_outlook(
            content.units,
            content.cohorts,
            content.entries,
            unit_id=content.units[0].id,
            on=day(number),
        )
        assert found.limits is not None


def test_demo_answers_all_seven_questions(
    demo: tuple[UnitOutlook, UnitOutlook],
) -> None:
    """No question of the job is left open for either tank."""
    for found in demo:
        parts = sections(found)
        assert len(parts) == 7
        assert all(part.lines != (wording("outlook-no-answer"),) for part in parts)
        assert found.about == about()
        assert found.cautions[0] == cautions.ESTIMATE
        assert len(outlook_plots(found)) == 4


def test_page_is_one_page(demo: tuple[UnitOutlook, UnitOutlook]) -> None:
    """Everything is on one A4 page, the same bytes for the same outlook."""
    for found in demo:
        data = outlook_pdf(found)
        assert data == outlook_pdf(found)
        document = pypdfium2.PdfDocument(data)
        assert len(document) == 1
        width, height = document[0].get_size()
        assert (width, height) == pytest.approx((595.3, 841.9), abs=0.1)
        text = document[0].get_textpage().get_text_range()
        assert heading(found) in text
        for section in sections(found):
            assert section.title.split()[1] in text
        assert "invented" in text
        assert "residual-current" in text


def test_page_that_cannot_be_written(
    demo: tuple[UnitOutlook, UnitOutlook], tmp_path: Path
) -> None:
    """A folder that cannot be made is one clear sentence."""
    (tmp_path / "none").write_text("in the way")
    with pytest.raises(ReportWriteError, match="file exists"):
        write_pdf(demo[0], tmp_path / "none" / "a.pdf")


def _pages(data: bytes) -> int:
    return len(pypdfium2.PdfDocument(data))


def test_outlook_from_the_book(tmp_path: Path) -> None:
    """The book gives the outlook by the unit's name."""
    with open_book(tmp_path / "book.db") as book:
        book.add_content(demo_book(day(180)))
        found = book.outlook("tank a", day(180))
        assert found.about == about()
        with pytest.raises(UnknownRecordError, match="Tank B"):
            book.outlook("Tank C", day(180))


def test_no_sentence_below_the_command_line_spells_a_command() -> None:
    """The phone shows the same sentences, and has no command line."""
    still = replace(TANK, inflow_l_per_min=0.0)
    for found in (outlook(unit=still), outlook(*FULL, unit=still)):
        assert found.problems
        assert not any("fishmeasure" in problem.message for problem in found.problems)


def test_a_fall_is_called_a_fall_and_harvests_are_alternatives(
    demo: tuple[UnitOutlook, UnitOutlook],
) -> None:
    """Tank A's bed takes up nitrate; its harvest days are to choose between."""
    text = " ".join(line for part in sections(demo[0]) for line in part.lines)
    limits = demo[0].limits
    assert limits is not None
    trend = limits.nitrate
    assert trend is not None
    assert float(trend.high_mg_per_l[-1]) < float(trend.nitrate_n_mg_per_l[0])
    assert ", falling to " in text
    assert "rising" not in text
    assert "To choose between, no schedule: each line is the only harvest" in text
    assert text.count("Either on ") == 1
    assert " or on " in text
