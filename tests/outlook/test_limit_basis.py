"""What a unit is held against: its system, its own limits, its readings."""

import math
from dataclasses import replace
from functools import partial
from typing import Any

import pytest

from fishmeasure.book.entries import Entry, Feed, Sample, Stocked, WaterReading
from fishmeasure.book.system import loops, water_system
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.husbandry.outage import outage
from fishmeasure.husbandry.unit import Aerator, UnitLimits
from fishmeasure.outlook.unit import UnitOutlook, unit_outlook
from fishmeasure.render.outlook_words import sections
from tests.book.build import cohort, day, entry_about, same, tank

SPRING = tank(
    "spring",
    id=same(1),
    inflow_l_per_min=45.0,
    inflow_by_gravity=True,
    monthly_temperature_deg_c=(10.0,) * 12,
)
TROUT = cohort("trout", id=same(11))
CARP = cohort("carp", id=same(12), species_key="common-carp")
entry = partial(entry_about, SPRING, TROUT)

GOOD_READING = entry(WaterReading, 10, temperature_deg_c=20.0, do_mg_per_l=8.0)


def fish(kg: float, about: Cohort = TROUT, *, mean_g: float = 200.0) -> list[Entry]:
    """Return fish of a known weight on the tenth day."""
    return [
        entry(
            Stocked,
            0,
            cohort_id=about.id,
            fish_count=round(1000.0 * kg / mean_g),
            mean_weight_g=mean_g,
        ),
        entry(
            Sample,
            10,
            cohort_id=about.id,
            mean_weight_g=mean_g,
            mean_weight_low_g=0.99 * mean_g,
            mean_weight_high_g=1.01 * mean_g,
        ),
    ]


def asked(unit: Unit, *entries: Entry, cohorts: Any = (TROUT, CARP)) -> UnitOutlook:
    """Return the outlook of the tenth day."""
    return unit_outlook([unit], cohorts, entries, unit_id=unit.id, on=day(10))


def used(found: UnitOutlook) -> dict[str, Any]:
    """Return how much of each limit is used."""
    assert found.limits is not None
    return {limit.name: limit.used_fraction for limit in found.limits.load.limits}


def codes(found: UnitOutlook) -> set[str]:
    """Return the codes of all problems."""
    return {problem.code for problem in found.problems}


def text(found: UnitOutlook) -> str:
    """Return all that is said."""
    return " ".join(line for part in sections(found) for line in part.lines)


# --- water systems ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fields", "system"),
    [
        ({"inflow_l_per_min": 5.0}, "flow-through"),
        ({"inflow_l_per_min": 5.0, "plant_bed_area_m2": 3.0}, "flow-through"),
        ({"recirculated_l_per_min": 50.0, "inflow_l_per_min": 1.0}, "closed-loop"),
        ({"recirculated_l_per_min": 50.0, "plant_bed_area_m2": 3.0}, "bed-loop"),
        ({"kind": "pond"}, "pond"),
        ({"kind": "cage"}, "flow-through"),
        ({}, "closed-loop"),
        ({"inflow_l_per_min": 5.0, "water_system": "bed-loop"}, "bed-loop"),
    ],
)
def test_system_is_as_entered_or_by_the_flows(
    fields: dict[str, Any], system: str
) -> None:
    """Recirculated water makes a loop, unless the grower says otherwise."""
    unit = tank("A", **fields)
    assert water_system(unit) == system
    assert loops(unit) is ("loop" in system)


def test_in_a_loop_the_measured_ammonia_is_judged() -> None:
    """At pH 7.2, TAN 0.5 and 10 °C, 0.3 % of it is un-ionised: nobody must go."""
    loop = replace(
        SPRING, inflow_l_per_min=0.5, recirculated_l_per_min=100.0, volume_m3=3.0
    )
    found = asked(loop, *fish(20.0), entry(WaterReading, 10, ph=7.2, tan_mg_per_l=0.5))
    assert "ammonia" not in used(found)
    assert "flow index" not in used(found)  # it is for water that flows through
    assert found.limits is not None
    assert found.limits.ahead.fish_to_take_out == 0
    # Emerson et al. 1975: pKa = 0.09018 + 2729.92 / 283.15 = 9.7314, so
    # 0.5 / (1 + 10^(9.7314 - 7.2)) = 0.001467 mg/L.
    assert found.limits.ammonia is not None
    reading = found.limits.ammonia.unionised_n_mg_per_l
    assert reading.value == pytest.approx(0.001467, rel=1e-3)
    assert "999" not in text(found)
    # What more feed would do is not known: no room, and why.
    assert (found.limits.ahead.fingerlings, found.limits.load.room_kg) == (0, 0.0)
    assert "biofilter-unknown" in codes(found)


def test_biofilter_carries_the_feed_that_it_was_sized_for() -> None:
    """With no new water the feed at the limit is that of the filter."""
    loop = replace(
        SPRING,
        inflow_l_per_min=0.0,
        recirculated_l_per_min=100.0,
        biofilter_feed_kg_per_day=0.6,
    )
    found = asked(loop, *fish(5.0), entry(WaterReading, 10, ph=7.2))
    assert found.feeding is not None
    share = used(found)["ammonia"].value
    assert share == pytest.approx(found.feeding.today_kg.value / 0.6, rel=0.02)
    assert "biofilter-unknown" not in codes(found)
    assert found.limits is not None
    assert found.limits.ahead.fingerlings > 0


def test_without_a_ph_nobody_knows_what_a_biofilter_carries() -> None:
    """Ammonia is no limit then; 5 kg of fish must not have room by that."""
    loop = replace(
        SPRING,
        inflow_l_per_min=0.0,
        recirculated_l_per_min=100.0,
        biofilter_feed_kg_per_day=0.6,
    )
    found = asked(loop, *fish(5.0))
    assert "ammonia" not in used(found)
    assert "biofilter-unknown" in codes(found)
    assert found.room_kg is None
    assert found.limits is not None
    assert found.limits.ahead.fingerlings == 0


def test_a_plant_bed_never_limits_fish() -> None:
    """It is shown against the feed, and nobody must go for lettuce."""
    small = replace(SPRING, plant_bed_area_m2=0.5)
    with_bed, without = asked(small, *fish(10.0)), asked(SPRING, *fish(10.0))
    assert used(with_bed) == used(without)
    assert with_bed.limits is not None
    assert without.limits is not None
    assert with_bed.limits.bed is not None
    assert with_bed.limits.ahead == without.limits.ahead


def test_a_pond_is_not_judged_by_exchange() -> None:
    """Its algae take the ammonia; only what is read is judged."""
    pond = replace(SPRING, kind="pond", water_system="pond", inflow_l_per_min=2.0)
    found = asked(pond, *fish(3.0), entry(WaterReading, 10, ph=8.0, tan_mg_per_l=0.2))
    assert "ammonia" not in used(found)
    assert found.limits is not None
    assert found.limits.ammonia is not None


def test_no_room_is_given_where_no_oxygen_supply_is_known() -> None:
    """A still pond of 900 m3 would hold 27 t by density alone."""
    still = replace(SPRING, kind="pond", volume_m3=900.0, inflow_l_per_min=0.0)
    found = asked(still, *fish(20.0, CARP), GOOD_READING)
    assert found.room_kg is None
    assert found.limits is not None
    assert (found.limits.ahead.fingerlings, found.limits.load.room_kg) == (0, 0.0)
    assert "no-oxygen-supply" in codes(found)
    assert "not known" in text(found)
    assert "may be added" not in text(found)


def test_an_aerated_pond_needs_what_water_and_bottom_use() -> None:
    """They often use more than the fish; entered, they count."""
    wheel = (Aerator(name="wheel", kind="paddlewheel", power_w=750.0),)
    pond = replace(SPRING, kind="pond", inflow_l_per_min=0.0, aeration=wheel)
    found = asked(pond, *fish(5.0, CARP), GOOD_READING)
    assert found.room_kg is None
    assert "pond-use-unknown" in codes(found)
    known = asked(
        replace(pond, water_respiration_mg_per_l_h=0.1),
        *fish(5.0, CARP),
        GOOD_READING,
    )
    assert "pond-use-unknown" not in codes(known)
    assert known.room_kg is not None
    assert known.room_kg.value > 0.0


# --- readings -----------------------------------------------------------------------


def test_oxygen_read_enters_the_limit() -> None:
    """45 L/min x (10.72 - 7.1) mg/L = 9.8 g/h, 63 % of 15.4 g/h at 5 mg/L.

    Saturation at 10 °C is 11.288 mg/L (Benson & Krause), 95 % of it 10.72; at the
    limit of 5 mg/L the inflow brings 2.7 m3/h x 5.72 = 15.4 g/h. Relative errors: the
    reading 2.7 x 0.3 / 9.8 = 0.083, its inflow 2.7 x 0.05 x 11.288 / 9.8 = 0.156,
    flow 0.05, moment 0.15, together 0.237; the model's 0.3 and 0.09 for the meal,
    0.313. As variances of logarithms 0.0547 and 0.0935: the reading weighs 0.631, and
    82 % and 63.4 % become exp(0.369 ln 0.82 + 0.631 ln 0.634) = 69.7 %.
    """
    bare = replace(
        SPRING,
        volume_m3=3.0,
        depth_m=10.0,  # next to no open surface
        limits=UnitLimits(max_density_kg_per_m3=100.0, min_do_mg_per_l=5.0),
    )
    stock = fish(75.0)
    model = used(asked(bare, *stock))["oxygen"]
    assert model.high > 1.3
    read = [
        entry(WaterReading, 9, do_mg_per_l=7.0, temperature_deg_c=10.0),
        entry(WaterReading, 10, do_mg_per_l=7.1, temperature_deg_c=10.0),
    ]
    found = asked(bare, *stock, *read)
    both = used(found)["oxygen"]
    assert model.value == pytest.approx(0.82, rel=0.01)
    assert both.value == pytest.approx(0.697, abs=0.005)
    assert both.high < 1.05
    assert found.limits is not None
    lines = [
        note
        for note in map(str, found.notes)
        if note.startswith("Oxygen from the fish")
    ]
    (line,) = lines
    assert "9.8" in line.split("by the model")[1]


@pytest.mark.parametrize(("do_mg_per_l", "adds_room"), [(7.1, True), (5.5, False)])
def test_an_old_reading_of_oxygen_may_warn_but_adds_no_room(
    do_mg_per_l: float, *, adds_room: bool
) -> None:
    """63 % by the reading of 7.1, 92 % by that of 5.5; the model says 82 %."""
    bare = replace(
        SPRING,
        volume_m3=3.0,
        depth_m=10.0,
        limits=UnitLimits(max_density_kg_per_m3=100.0, min_do_mg_per_l=5.0),
    )
    stock = fish(75.0)

    def share(on: int) -> float:
        read = entry(WaterReading, on, do_mg_per_l=do_mg_per_l, temperature_deg_c=10.0)
        return float(used(asked(bare, *stock, read))["oxygen"].value)

    model = float(used(asked(bare, *stock))["oxygen"].value)
    assert (share(10) < model) == adds_room
    assert share(9) == (model if adds_room else share(10))
    assert share(2) == model  # eight days old: counts no more


def test_readings_that_cannot_be_true_are_told() -> None:
    """40 kg of trout that use next to nothing: the flow or the meter is wrong."""
    read = entry(WaterReading, 10, do_mg_per_l=10.0, temperature_deg_c=10.0)
    hard = replace(SPRING, inflow_do_mg_per_l=10.9, inflow_l_per_min=45.0)
    found = asked(hard, *fish(90.0), read)
    assert "oxygen-use-differs" in codes(found)


def test_ammonia_read_enters_the_limit() -> None:
    """0.30 mg/L in 64.8 m3 a day are 19.4 g a day from the feed that was given."""
    given = [entry(Feed, n, feed_kg=0.5, protein_fraction=0.4) for n in range(4, 11)]
    read = entry(WaterReading, 10, ph=7.6, tan_mg_per_l=0.3)
    without = used(asked(SPRING, *fish(40.0), *given, replace(read, tan_mg_per_l=None)))
    found = asked(SPRING, *fish(40.0), *given, read)
    # The model: 0.5 kg x 0.4 x sqrt(0.092 x 0.128) = 21.7 g a day.
    ratio = used(found)["ammonia"].value / without["ammonia"].value
    assert 19.44 / 21.70 < ratio < 1.0


def test_with_aerators_a_reading_says_less_than_the_model() -> None:
    """Whether the blower ran is not known; nor is the flow index asked then."""
    air = (Aerator(name="blower", standard_transfer_g_per_h=90.0),)
    read = entry(WaterReading, 10, do_mg_per_l=7.1, temperature_deg_c=10.0)
    sampled: Any = fish(75.0)[1]
    sample = replace(sampled, condition_factor=1.3)
    aired = asked(replace(SPRING, aeration=air), fish(75.0)[0], sample, read)
    bare = asked(SPRING, fish(75.0)[0], sample)
    assert not any("Oxygen from the fish" in note for note in map(str, aired.notes))
    assert "oxygen-use-differs" not in codes(aired)
    # With the blower as entered the water would hold more than 7.1 mg/L: less room
    # than nothing is known, and it is said.
    assert "aeration-short" in codes(aired)
    assert aired.limits is not None
    assert aired.limits.ahead.fingerlings == 0
    assert aired.limits.load.room_kg <= 0.0
    full = replace(read, do_mg_per_l=10.0)
    good = asked(replace(SPRING, aeration=air), *fish(20.0), full)
    assert "aeration-short" not in codes(good)
    assert good.limits is not None
    assert good.limits.ahead.fingerlings > 0
    assert "flow index" not in used(aired)
    assert "flow index" in used(bare)


# --- own limits ---------------------------------------------------------------------


def test_good_oxygen_read_in_a_loop_sends_no_fish_away() -> None:
    """Of 80 L/min that come back at 95 % of 10.084 mg/L, 9.58, few grams are used.

    Saturation at 15 °C is 10.084 mg/L (Benson & Krause). At 8.5 mg/L the pump brings
    4.8 m3/h x 1.08 = 5.2 g/h, at 60 % of saturation, 6.05, 4.8 x 3.53 = 16.9 g/h: by
    the reading the fish use at most 31 %. By their weight they use more than all.
    """
    loop = replace(
        SPRING,
        volume_m3=3.0,
        depth_m=10.0,
        inflow_l_per_min=0.0,
        recirculated_l_per_min=80.0,
        water_system="closed-loop",
        biofilter_feed_kg_per_day=5.0,
        limits=UnitLimits(max_density_kg_per_m3=100.0, min_do_mg_per_l=6.05),
    )
    read = entry(WaterReading, 10, do_mg_per_l=8.5, temperature_deg_c=15.0, ph=7.2)
    model = used(asked(loop, *fish(80.0), replace(read, do_mg_per_l=None)))["oxygen"]
    found = asked(loop, *fish(80.0), read)
    assert model.value > 1.0
    both = used(found)["oxygen"]
    assert 0.31 < both.value < 1.0
    assert found.limits is not None
    assert "oxygen-use-differs" in codes(found)
    assert "must have gone" not in text(found)
    low = replace(read, do_mg_per_l=6.5)
    assert used(asked(loop, *fish(20.0), low))["oxygen"].value == pytest.approx(
        used(asked(loop, *fish(20.0), replace(read, do_mg_per_l=None)))["oxygen"].value
    )


def test_own_ammonia_and_nitrate_limits_are_obeyed() -> None:
    """Half the limit of ammonia makes half the capacity, by new water alone."""
    read = entry(WaterReading, 10, ph=7.6, tan_mg_per_l=0.3, nitrate_n_mg_per_l=5.0)
    strict = replace(
        SPRING,
        limits=UnitLimits(
            max_unionised_ammonia_mg_per_l=0.00625, max_nitrate_n_mg_per_l=20.0
        ),
    )
    plain, own = asked(SPRING, *fish(40.0), read), asked(strict, *fish(40.0), read)
    assert used(own)["ammonia"].value == pytest.approx(2 * used(plain)["ammonia"].value)
    assert own.limits is not None
    assert own.limits.ammonia is not None
    assert own.limits.ammonia.limit_n_mg_per_l == 0.00625
    assert own.limits.nitrate is not None
    assert own.limits.nitrate.limit_n_mg_per_l == 20.0


def test_strictest_of_mixed_species_counts() -> None:
    """Carp come first by name, trout bear less: 0.0125 mg/L (EIFAC) for both."""
    read = entry(WaterReading, 10, ph=7.6, tan_mg_per_l=0.3, nitrate_n_mg_per_l=5.0)
    mixed = asked(SPRING, *fish(10.0), *fish(10.0, CARP), read).limits
    trout = asked(SPRING, *fish(10.0), read).limits
    assert mixed is not None
    assert trout is not None
    assert mixed.ammonia is not None
    assert mixed.nitrate is not None
    assert mixed.ammonia.limit_n_mg_per_l == 0.0125
    assert trout.nitrate is not None
    assert mixed.nitrate.limit_n_mg_per_l == trout.nitrate.limit_n_mg_per_l


def test_protein_of_the_feed_is_used() -> None:
    """Feed of half the protein makes half the ammonia."""
    read = entry(WaterReading, 10, ph=7.6)
    shares = []
    for protein in (0.25, 0.5):
        given = [entry(Feed, 9, feed_kg=0.5, protein_fraction=protein)]
        found = asked(SPRING, *fish(40.0), *given, read)
        assert found.feeding is not None
        assert found.feeding.protein_percent == pytest.approx(100.0 * protein)
        shares.append(used(found)["ammonia"].value)
    assert math.isclose(shares[1], 2.0 * shares[0], rel_tol=1e-9)


def test_oxygen_read_enters_the_outage() -> None:
    """Fish that use 85 % of the model's figure have 1 / 0.85 of the time or more."""
    stock = fish(75.0)
    read = entry(WaterReading, 10, do_mg_per_l=7.1, temperature_deg_c=10.0)
    pumped = replace(SPRING, inflow_by_gravity=False)
    found = asked(pumped, *stock, read).outages
    assert found is not None
    case = found.worst.case
    assert case.oxygen_use is not None
    assert 0.8 < case.oxygen_use.value < 0.9
    modelled = outage(replace(case, oxygen_use=None)).to_critical.minutes
    by_both = found.worst.to_critical.minutes
    assert by_both.value > 0.98 * modelled.value / case.oxygen_use.value
    assert by_both.low > modelled.low
