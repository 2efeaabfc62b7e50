"""Stocking: published indices, the limiting factor, room and removal."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fishmeasure.base.errors import StockRangeError
from fishmeasure.husbandry.factors import FishGroup, LimitBasis, LimitName
from fishmeasure.husbandry.growth import WeightSample, fit_growth
from fishmeasure.husbandry.nitrogen import Nitrification
from fishmeasure.husbandry.projection import GrowthProjection, project_growth
from fishmeasure.husbandry.propagation import exact, lognormal
from fishmeasure.husbandry.stocking import Limit, unit_load
from fishmeasure.husbandry.stocking_ahead import (
    StockedGroup,
    StockingOutlook,
    StockingQuestion,
    stocking_outlook,
)
from fishmeasure.husbandry.temperature import ConstantTemperature, RecordedTemperature
from fishmeasure.husbandry.unit import Aerator, RearingUnit, UnitLimits

START = date(2026, 5, 1)
WATER = ConstantTemperature(temperature_deg_c=10.0)
TANK = RearingUnit(
    volume_m3=6.0,
    depth_m=6.0 / 7.0,
    inflow_l_per_min=60.0,
    inflow_do_mg_per_l=10.5,
    aeration=(Aerator(name="blower", standard_transfer_g_per_h=50.0),),
)
ALL_LIMITS = LimitBasis(
    ph=7.2,
    condition_factor=1.2,
    nitrification=Nitrification(removal_g_per_day=20.0),
)


def trout(biomass_kg: float = 60.0, weight_g: float = 200.0) -> FishGroup:
    return FishGroup(
        species_key="rainbow-trout",
        biomass_kg=lognormal(biomass_kg, 0.08),
        mean_weight_g=weight_g,
    )


def projection_of(weight_g: float, days: int = 120) -> GrowthProjection:
    fit = fit_growth(
        samples=(WeightSample(day=START, mean_weight_g=lognormal(weight_g, 0.05)),),
        temperature=WATER,
        species_key="rainbow-trout",
    )
    return project_growth(fit=fit, temperature=WATER, days=days)


# --- indices --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "length_in", "capacity_kg"),
    [
        # 0.5 lb/ft3 per inch: 12 in is 6 lb/ft3, 96.1 kg/m3 (1 lb/ft3 = 16.018 kg/m3)
        ("density index", 12.0, 96.11),
        # SRAC 222 (1990): 4 in trout 2 to 4 lb/ft3 and 2 to 4 lb/gpm, 2 in 1 to 2;
        # the figure kept is the lower end of the one and the upper of the other.
        ("density index", 4.0, 2.0 * 16.018463),
        ("density index", 2.0, 1.0 * 16.018463),
        ("flow index", 4.0, 4.0 * 10.0 * 0.45359237),
        ("flow index", 2.0, 2.0 * 10.0 * 0.45359237),
    ],
)
def test_indices_of_the_handbook(
    name: str, length_in: float, capacity_kg: float
) -> None:
    """What Piper et al. 1982 and SRAC 222 let 1 m3 and ten gallons a minute carry."""
    length_cm = 2.54 * length_in
    load = unit_load(
        unit=RearingUnit(volume_m3=1.0, inflow_l_per_min=10.0 * 3.785412),
        groups=(trout(weight_g=1.2 * length_cm**3 / 100.0),),
        temperature_deg_c=10.0,
        basis=LimitBasis(condition_factor=1.2),
    )
    limit = next(limit for limit in load.limits if limit.name == name)
    assert limit.capacity_kg.value == pytest.approx(capacity_kg, rel=1e-3)


# --- limits now -----------------------------------------------------------------


def test_all_limits_are_drawn_up() -> None:
    """Five limits, the fullest first, each with capacity = biomass / used."""
    load = unit_load(
        unit=TANK, groups=(trout(),), temperature_deg_c=10.0, basis=ALL_LIMITS
    )
    assert {limit.name for limit in load.limits} == {
        "density",
        "density index",
        "flow index",
        "oxygen",
        "ammonia",
    }
    ends = [limit.used_fraction.high for limit in load.limits]
    assert ends == sorted(ends, reverse=True)
    for limit in load.limits:
        assert limit.capacity_kg.value * limit.used_fraction.value == pytest.approx(
            60.0
        )
    assert load.density_kg_per_m3.value == pytest.approx(10.0)
    assert load.limiting is load.limits[0]


def test_organic_density_is_the_default() -> None:
    """25 kg/m3 for rainbow trout, Reg. (EU) 2020/464: 150 kg in 6 m3 is full."""
    load = unit_load(unit=TANK, groups=(trout(150.0),), temperature_deg_c=10.0)
    (density,) = (limit for limit in load.limits if limit.name == "density")
    assert density.used_fraction.value == pytest.approx(1.0)
    assert "2020/464" in str(density.note)
    own = unit_load(
        unit=TANK,
        groups=(trout(150.0),),
        temperature_deg_c=10.0,
        basis=LimitBasis(
            own=UnitLimits(max_density_kg_per_m3=50.0, min_do_mg_per_l=6.0)
        ),
    )
    (density,) = (limit for limit in own.limits if limit.name == "density")
    assert density.used_fraction.value == pytest.approx(0.5)


def test_mixed_species_take_the_strictest_limit() -> None:
    """With brook trout (15 kg/m3) beside it the whole unit is held to 15."""
    brook = FishGroup(
        species_key="brook-trout", biomass_kg=exact(10.0), mean_weight_g=150.0
    )
    load = unit_load(unit=TANK, groups=(trout(), brook), temperature_deg_c=10.0)
    (density,) = (limit for limit in load.limits if limit.name == "density")
    assert density.used_fraction.value == pytest.approx(70.0 / 90.0)


def test_a_full_unit_says_what_limits_it() -> None:
    """Over a limit, and near one within its error, are both said."""
    over = unit_load(unit=TANK, groups=(trout(200.0),), temperature_deg_c=10.0)
    assert "over-limit" in [problem.code for problem in over.problems]
    assert over.room_kg < 0.0
    near = unit_load(unit=TANK, groups=(trout(145.0),), temperature_deg_c=6.0)
    codes = {problem.code for problem in near.problems}
    assert codes == {"near-limit"}


def test_no_supply_is_over_any_load() -> None:
    """A unit without air, flow or surface has no oxygen to give."""
    load = unit_load(
        unit=RearingUnit(volume_m3=2.0),
        groups=(trout(1.0),),
        temperature_deg_c=10.0,
        basis=LimitBasis(condition_factor=1.2),
    )
    assert load.limiting.name == "oxygen"
    assert load.room_kg == pytest.approx(-1.0)
    assert {limit.name for limit in load.limits} == {
        "density",
        "density index",
        "oxygen",
    }


def test_fasted_fish_do_not_load_ammonia() -> None:
    """In water too warm to feed the limit by feed falls away, and why is said."""
    load = unit_load(
        unit=TANK, groups=(trout(),), temperature_deg_c=21.0, basis=ALL_LIMITS
    )
    assert "ammonia" not in {limit.name for limit in load.limits}
    assert "too-warm-to-feed" in {problem.code for problem in load.problems}


def test_doubts_about_what_fish_use_are_heard() -> None:
    """A trout of 9 kg is beyond the sources of its oxygen use and ration; said once."""
    load = unit_load(
        unit=TANK,
        groups=(trout(weight_g=9000.0),),
        temperature_deg_c=10.0,
        basis=ALL_LIMITS,
    )
    doubts = [p for p in load.problems if p.code == "outside-source-range"]
    assert any("9000 g" in doubt.message for doubt in doubts)
    assert len(doubts) == len(set(doubts))


def test_a_unit_without_fish_is_refused() -> None:
    """There is nothing to hold against the limits."""
    with pytest.raises(StockRangeError, match="groups"):
        unit_load(unit=TANK, groups=(), temperature_deg_c=10.0)


@given(biomass=st.floats(1.0, 500.0), more=st.floats(1.05, 3.0))
def test_more_fish_use_more_of_every_limit(biomass: float, more: float) -> None:
    """Used shares grow with the biomass; the room shrinks by the difference."""

    def load(kilograms: float) -> tuple[dict[LimitName, float], float]:
        found = unit_load(
            unit=TANK,
            groups=(trout(kilograms),),
            temperature_deg_c=10.0,
            basis=ALL_LIMITS,
        )
        used = {limit.name: limit.used_fraction.value for limit in found.limits}
        return used, found.room_kg

    (before, room), (after, less) = load(biomass), load(biomass * more)
    for name, used in before.items():
        assert after[name] == pytest.approx(used * more)
    assert room - less == pytest.approx(biomass * (more - 1.0))


# --- ahead ----------------------------------------------------------------------


def outlook_of(
    count: float, days: int = 60, fingerling_g: float | None = 20.0
) -> StockingOutlook:
    fingerlings = None if fingerling_g is None else projection_of(fingerling_g)
    return stocking_outlook(
        unit=TANK,
        groups=(
            StockedGroup(
                fish_count=lognormal(count, 0.02), projection=projection_of(150.0)
            ),
        ),
        question=StockingQuestion(
            start=START,
            until=START + timedelta(days=days),
            temperature=WATER,
            fingerlings=fingerlings,
        ),
    )


def test_half_empty_unit_has_room_that_fits() -> None:
    """The fingerlings said to fit do fit on the last day, and many more do not."""
    outlook = outlook_of(200.0)
    assert outlook.first_day_over is None
    assert outlook.fish_to_take_out == 0
    assert outlook.fingerlings > 0
    assert outlook.fingerlings_kg == pytest.approx(outlook.fingerlings * 0.02)
    for factor, fits in ((1.0, True), (1.6, False)):
        both = stocking_outlook(
            unit=TANK,
            groups=(
                StockedGroup(
                    fish_count=lognormal(200.0, 0.02), projection=projection_of(150.0)
                ),
                StockedGroup(
                    fish_count=exact(outlook.fingerlings * factor),
                    projection=projection_of(20.0),
                ),
            ),
            question=StockingQuestion(
                start=START, until=START + timedelta(days=60), temperature=WATER
            ),
        )
        assert (both.first_day_over is None) is fits


def test_fish_said_to_go_are_enough() -> None:
    """With that many fewer, no limit is passed by the last day."""
    outlook = outlook_of(700.0, fingerling_g=None)
    assert outlook.first_day_over is not None
    assert outlook.fish_to_take_out > 0
    assert outlook.fingerlings == 0
    after = outlook_of(700.0 - outlook.fish_to_take_out, fingerling_g=None)
    assert after.first_day_over is None


def test_weeks_end_on_the_date_asked_for() -> None:
    """Days are the start, each week and the date itself."""
    days = [day.day for day in outlook_of(100.0, days=17).days]
    assert days == [START + timedelta(days=n) for n in (0, 7, 17)]
    assert [d.day for d in outlook_of(100.0, days=0).days] == [START]
    with pytest.raises(StockRangeError):
        outlook_of(100.0, days=-1)


@settings(max_examples=10)
@given(count=st.floats(50.0, 300.0), more=st.floats(20.0, 200.0))
def test_more_fish_leave_less_room(count: float, more: float) -> None:
    """Room in fingerlings never grows with the fish there."""
    assert outlook_of(count + more).fingerlings <= outlook_of(count).fingerlings


def room_in(temperatures_deg_c: tuple[float, ...]) -> StockingOutlook:
    """Return the outlook of a nearly empty tank, a week at each temperature."""
    days = tuple(
        START + timedelta(weeks=week) for week in range(len(temperatures_deg_c))
    )
    water = RecordedTemperature(
        readings=tuple(zip(days, temperatures_deg_c, strict=True)),
        beyond=ConstantTemperature(temperature_deg_c=temperatures_deg_c[-1]),
    )
    return stocking_outlook(
        unit=replace(TANK, inflow_l_per_min=600.0),
        groups=(StockedGroup(fish_count=exact(10.0), projection=projection_of(150.0)),),
        question=StockingQuestion(
            start=START,
            until=days[-1],
            temperature=water,
            fingerlings=projection_of(20.0),
        ),
        basis=ALL_LIMITS,
    )


def test_a_warm_week_ahead_in_which_none_is_fed_leaves_room() -> None:
    """On it the limits by feed fall away; nobody dies at 21 °C."""
    outlook = room_in((12.0, 21.0))
    assert outlook.fingerlings > 0
    assert outlook.problems == ()


@pytest.mark.parametrize("temps", [(21.0,), (1.0,), (12.0, 25.0), (25.0, 12.0)])
def test_no_fingerlings_into_water_too_warm_or_cold(temps: tuple[float, ...]) -> None:
    """Half of the rainbow trout died at 25 °C (Huysman et al. 2020)."""
    outlook = room_in(temps)
    assert outlook.fingerlings == 0
    assert outlook.fingerlings_kg == 0.0
    assert [p.code for p in outlook.problems] == ["no-stocking-temperature"]


@pytest.mark.parametrize(
    ("key", "temperature_deg_c"),
    [
        # Huysman et al. 2020: half of the rainbow trout dead at 25 C, all at 26; half
        # of the brown trout at 20, all at 22. Charo-Karisa et al. 2005: tilapia died
        # between 13.6 and 8.6 C.
        ("rainbow-trout", 25.0),
        ("rainbow-trout", 26.0),
        ("brown-trout", 20.0),
        ("brown-trout", 22.0),
        ("nile-tilapia", 13.6),
        ("nile-tilapia", 8.0),
    ],
)
def test_no_water_that_killed_carries_fish(key: str, temperature_deg_c: float) -> None:
    fish = FishGroup(species_key=key, biomass_kg=exact(1.0), mean_weight_g=150.0)
    load = unit_load(
        unit=TANK,
        groups=(fish,),
        temperature_deg_c=temperature_deg_c,
        basis=ALL_LIMITS,
    )
    assert load.room_kg <= 0.0
    assert {limit.capacity_kg.high for limit in load.limits} == {0.0}
    assert load.problems[0].code == "no-stocking-temperature"


def test_carp_beside_trout_are_held_to_the_trouts_band() -> None:
    carp = FishGroup(
        species_key="common-carp", biomass_kg=exact(1.0), mean_weight_g=150.0
    )
    alone = unit_load(unit=TANK, groups=(carp,), temperature_deg_c=22.0)
    assert alone.room_kg > 0.0
    mixed = unit_load(unit=TANK, groups=(carp, trout(1.0)), temperature_deg_c=22.0)
    assert mixed.room_kg == 0.0


def test_the_oxygen_rule_stands_beside_the_density_rule() -> None:
    """60 % of 11.843 mg/L at 8 C (EN 25814) is 7.1 mg/L, over the caution of 5."""

    def oxygen(basis: LimitBasis | None) -> Limit:
        load = unit_load(
            unit=TANK, groups=(trout(),), temperature_deg_c=8.0, basis=basis
        )
        return next(limit for limit in load.limits if limit.name == "oxygen")

    organic, own = (
        oxygen(None),
        oxygen(LimitBasis(own=UnitLimits(max_density_kg_per_m3=40.0))),
    )
    assert "7.11 mg/L" in str(organic.note)
    assert "2020/464" in str(organic.note)
    assert "5 mg/L" in str(own.note)
    assert organic.capacity_kg.value < own.capacity_kg.value


def test_what_the_water_uses_is_not_there_for_the_fish() -> None:
    """60 L/min at 10.5 mg/L, kept at 5: 19.8 g/h; 6 m3 use 0.5 mg/L/h, 3 g/h of it."""

    def capacity(respiration: float) -> float:
        unit = RearingUnit(
            volume_m3=6.0,
            inflow_l_per_min=60.0,
            inflow_do_mg_per_l=10.5,
            water_respiration_mg_per_l_h=respiration,
        )
        load = unit_load(
            unit=unit,
            groups=(trout(),),
            temperature_deg_c=12.0,
            basis=LimitBasis(own=UnitLimits(max_density_kg_per_m3=40.0)),
        )
        found = next(limit for limit in load.limits if limit.name == "oxygen")
        return found.capacity_kg.value

    assert capacity(0.5) / capacity(0.0) == pytest.approx(16.8 / 19.8)


def test_a_density_keeps_its_declared_spread() -> None:
    """30 % of the tilapia's, none of a limit set for the unit."""
    tilapia = FishGroup(
        species_key="nile-tilapia", biomass_kg=exact(60.0), mean_weight_g=300.0
    )

    def density(basis: LimitBasis | None) -> Limit:
        load = unit_load(
            unit=TANK, groups=(tilapia,), temperature_deg_c=27.0, basis=basis
        )
        return next(limit for limit in load.limits if limit.name == "density")

    book, own = (
        density(None),
        density(LimitBasis(own=UnitLimits(max_density_kg_per_m3=48.0))),
    )
    assert book.used_fraction.value == pytest.approx(own.used_fraction.value)
    assert own.used_fraction.high == pytest.approx(own.used_fraction.value)
    # exp(1.645 sqrt(ln(1 + 0.3^2))) = exp(1.645 x 0.29356) = 1.621
    assert book.used_fraction.high / book.used_fraction.value == pytest.approx(
        1.621, abs=0.001
    )
