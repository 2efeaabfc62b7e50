"""Three invented farms, gone through by hand with a calculator.

No such farm exists. Each sum stands here step by step in plain arithmetic, from the
published figures named, and uses no function of the program; the book's outlook must
come to the same. Figures of the sums are rounded to four digits, so the tolerance is
0.5 % for single figures and 1 % for times, unless a check says otherwise.

Published figures used in all three:

- Oxygen saturation, fresh water, 1 atm: 11.29 mg/L at 10 °C, 8.74 at 22, 7.97 at 27
  (Benson & Krause 1984; EN 25814 prints 11.3, 8.7 and 8.0).
- Respiration of fasted fish, Fish Bioenergetics 4.0, equation 2: R = a W^b V^X
  exp(X (1 - V)) activity, g of oxygen per g and day, with V = (Tmax - T) / (Tmax - To),
  X = Z^2 (1 + (1 + 40 / Y)^0.5)^2 / 400, Z = ln Q (Tmax - To), Y = ln Q (Tmax - To +
  2).
- After a meal 1.47 times that (Andrews & Matsuda 1975, catfish).
- The still surface exchanges 0 to 0.6 m a day (Gelda et al. 1996, Chin 2006): 0.3 in
  the middle, times 1.024 for each °C over 20.
- Un-ionised share of ammonia 1 / (1 + 10^(pKa - pH)), pKa = 0.09018 + 2729.92 / T
  (Emerson et al. 1975).
- A fall V dC/dt = k (Cs - C) from C0 to C takes V / k ln((C0 - Cs) / (C - Cs)), where
  Cs is the level at which supply and use would meet.
- Critical level 3 mg/L, caution 5 mg/L (see the species' files).
"""

from datetime import date
from math import exp, log
from typing import Any

import pytest

from fishmeasure.book.entries import Entry, Stocked, WaterReading
from fishmeasure.book.units import Cohort, Unit
from fishmeasure.husbandry.outage import OutageResult
from fishmeasure.husbandry.outage_fall import HORIZON_MIN
from fishmeasure.husbandry.unit import Aerator
from fishmeasure.outlook.unit import UnitOutlook, unit_outlook
from tests.book.build import cohort, day, entry_about, same, tank

TODAY = 60
ROUNDED = 0.005
TIMES = 0.01


def asked(
    unit: Unit, fish: Cohort, count: int, grams: float, **read: Any
) -> UnitOutlook:
    """Return the outlook of fish stocked today, whose count and weight are known."""
    entries: list[Entry] = [
        entry_about(
            unit,
            fish,
            Stocked,
            TODAY,
            fish_count=count,
            fish_count_sd=0.0,
            mean_weight_g=grams,
            mean_weight_sd_g=0.0,
        ),
        entry_about(unit, fish, WaterReading, TODAY, **read),
    ]
    return unit_outlook((unit,), (fish,), entries, unit_id=unit.id, on=day(TODAY))


def failures(found: UnitOutlook) -> dict[str, OutageResult]:
    """Return what may stop, by its cause."""
    assert found.outages is not None
    return {result.case.cause: result for result in found.outages.results}


def minutes(result: OutageResult) -> tuple[float, float]:
    """Return the likely minutes to caution and to critical."""
    return result.to_caution.minutes.value, result.to_critical.minutes.value


def limit(found: UnitOutlook, name: str) -> float:
    """Return how much of a limit is used, the middle figure."""
    assert found.limits is not None
    return next(
        one.used_fraction.value for one in found.limits.load.limits if one.name == name
    )


# --- a tank in a garage in summer ---------------------------------------------------


def garage() -> UnitOutlook:
    """60 rainbow trout of 180 g in 1,000 L, 22 °C; a small filter, an air pump."""
    unit = tank(
        "Garage",
        id=same(1),
        volume_m3=1.0,
        depth_m=1.0,
        recirculated_l_per_min=30.0,
        water_system="closed-loop",
        aeration=(Aerator(name="air pump", gas_l_per_min=40.0, diffuser_depth_m=0.9),),
    )
    return asked(
        unit,
        cohort("trout", id=same(2)),
        60,
        180.0,
        temperature_deg_c=22.0,
        do_mg_per_l=7.0,
        ph=7.2,
        tan_mg_per_l=0.5,
    )


# Railsback & Rose 1999: a 0.013, b -0.217, Q 2.2, To 22, Tmax 26, activity 1.3.
# At 22 °C V is 1 and the temperature factor 1:
# 0.013 x 180^-0.217 (= exp(-0.217 x 5.1930) = 0.3240) x 1.3 = 0.005476 g/g/d
# = 228.2 mg/kg/h; after a meal x 1.47 = 335.4; 10.8 kg use 3.622 g/h.
GARAGE_USE = 0.013 * exp(-0.217 * 5.1930) * 1.3 * 1e6 / 24 * 1.47 * 10.8 / 1000
# The surface of 1 m2: 0.3 x 1.024^2 / 24 = 0.01311 m3/h.
GARAGE_SURFACE = 0.3 * 1.04858 / 24


def test_garage_in_summer_oxygen_and_outages() -> None:
    """Without power the trout have about an hour; one device alone holds them.

    Power: Cs = 8.744 - 3.622 / 0.01311 = -267.5; 7 to 3 mg/L takes 1 / 0.01311 x
    ln(274.5 / 270.5) = 1.119 h, to 5 mg/L 0.557 h.

    Pump: the air pump goes on. 40 L/min are 2,400 L/h with 0.2787 g of oxygen each
    (20.95 % of 31.998 / 24.055 g): 668.9 g/h, of which coarse bubbles at 0.9 m give 2 x
    0.9 = 1.8 %: 12.04 g/h. In the field 12.04 x 0.8 x 1.0486 / 9.09 = 1.111 m3/h that
    come to 0.95 x 8.744 = 8.307 mg/L. With the surface it settles at (1.111 x 8.307 +
    0.01311 x 8.744 - 3.622) / 1.124 = 5.09 mg/L: just over caution.

    Blower: 30 L/min = 1.8 m3/h come back at 8.307 mg/L: (14.95 + 0.115 - 3.622) / 1.813
    = 6.31 mg/L.
    """
    assert pytest.approx(3.622, rel=0.001) == GARAGE_USE
    found = failures(garage())
    assert list(found) == ["power", "pump", "blower"]
    cs = 8.744 - GARAGE_USE / GARAGE_SURFACE
    hours = [
        1.0 / GARAGE_SURFACE * log((7.0 - cs) / (level - cs)) for level in (5.0, 3.0)
    ]
    assert hours == pytest.approx([0.557, 1.119], rel=0.002)
    assert minutes(found["power"]) == pytest.approx(
        (60 * hours[0], 60 * hours[1]), rel=TIMES
    )
    assert minutes(found["pump"]) == (HORIZON_MIN, HORIZON_MIN)
    # The end of a day's course is where it settles, to the rounding of the sum.
    assert found["pump"].course_mg_per_l[-1] == pytest.approx(5.09, rel=ROUNDED)
    assert found["pump"].to_caution.minutes.low < 24 * 60  # but not surely
    assert minutes(found["blower"])[1] == HORIZON_MIN
    assert found["blower"].course_mg_per_l[-1] == pytest.approx(6.31, rel=ROUNDED)


def test_garage_in_summer_is_too_warm_to_feed_and_has_room_for_none() -> None:
    """22 °C is over the trout's feeding band: no ration, no more fish.

    10.8 kg in 1 m3 are 10.8 kg/m3. pKa at 22 °C is 0.09018 + 2729.92 / 295.15 = 9.339;
    at pH 7.2 the share is 1 / (1 + 10^2.139) = 0.720 %: TAN 0.5 is 0.00360 mg/L of
    un-ionised ammonia, 29 % of 0.0125: no fish must go for it.
    """
    found = garage()
    assert found.limits is not None
    assert found.limits.load.density_kg_per_m3.value == pytest.approx(10.8)
    assert found.limits.ammonia is not None
    assert found.limits.ammonia.unionised_n_mg_per_l.value == pytest.approx(
        0.5 / (1 + 10**2.139), rel=ROUNDED
    )
    assert found.feeding is not None
    assert found.feeding.today_kg.value == 0.0
    assert found.limits.load.room_kg <= 0.0


# --- tilapia with plant beds ----------------------------------------------------------


def beds() -> UnitOutlook:
    """200 tilapia of 250 g in 4 m3 at 27 °C, 20 m2 of lettuce, a battery of 1.2 kWh."""
    unit = tank(
        "Beds",
        id=same(1),
        volume_m3=4.0,
        depth_m=1.0,
        recirculated_l_per_min=100.0,
        plant_bed_area_m2=20.0,
        water_system="bed-loop",
        aeration=(
            Aerator(
                name="air pump",
                gas_l_per_min=100.0,
                diffuser_depth_m=0.8,
                bubbles="medium",
                power_w=60.0,
                capacity_wh=1200.0,
                on_backup=True,
            ),
        ),
        monthly_temperature_deg_c=(27.0,) * 12,
    )
    return asked(
        unit,
        cohort("tilapia", id=same(2), species_key="nile-tilapia"),
        200,
        250.0,
        temperature_deg_c=27.0,
        do_mg_per_l=5.5,
        ph=7.0,
        tan_mg_per_l=1.0,
        nitrate_n_mg_per_l=20.0,
    )


# Nitithamyong 1988: a 0.0274, b -0.348, Q 2.3, To 37, Tmax 41, activity 1.3
# (allowance). ln 2.3 = 0.8329; Z 3.332, Y 4.997, X = 11.10 x (1 + 9.005^0.5)^2 / 400 =
# 0.4441; V = 14 / 4 = 3.5; factor 3.5^0.4441 x exp(0.4441 x -2.5) = 1.7443 x 0.3294 =
# 0.5747; 250^-0.348 = 0.1464; 0.0274 x 0.1464 x 0.5747 x 1.3 = 0.002997 g/g/d = 124.9
# mg/kg/h. Fed 183.5; 50 kg use 9.177 g/h.
BEDS_USE = 0.0274 * 0.1464 * 0.5747 * 1.3 * 1e6 / 24 * 1.47 * 50 / 1000
# 4 m2 of surface: 0.3 x 1.024^7 (= 1.1806) x 4 / 24 = 0.05903 m3/h.
BEDS_SURFACE = 0.3 * 1.1806 * 4 / 24


def test_beds_oxygen_and_a_battery_that_is_spent() -> None:
    """Half a day by battery, then the same hour as without.

    Power: Cs = 7.968 - 9.177 / 0.05903 = -147.5; 5.5 to 3 mg/L takes 67.76 x ln(153.0 /
    150.5) = 1.116 h.

    Battery: 1,200 Wh at 60 W are 20 h by the label; half to nine tenths of it are 10 to
    18 h, 14 h in the middle. The pump's 100 L/min at 0.8 m through medium bubbles:
    6,000 L/h x 0.2787 g x 3.3 % x 0.8 = 44.14 g/h; in the field 44.14 x 0.8 x 1.1806 /
    9.09 = 4.586 m3/h that come to 0.95 x 7.968 = 7.570. It settles at (34.72 + 0.470 -
    9.177) / 4.645 = 5.60 mg/L. After 14 h the battery is spent, and 5.60 to 3 takes
    67.76 x ln(153.1 / 150.5) = 1.161 h: 15.16 h in all, 14.04 h more than without.
    """
    assert pytest.approx(9.177, rel=0.002) == BEDS_USE
    found = failures(beds())
    assert set(found) == {"power", "pump", "blower"}
    cs = 7.968 - BEDS_USE / BEDS_SURFACE
    alone = 4.0 / BEDS_SURFACE * log((5.5 - cs) / (3.0 - cs))
    assert alone == pytest.approx(1.116, rel=0.002)
    assert minutes(found["power"])[1] == pytest.approx(60 * alone, rel=TIMES)
    battery = next(m for m in found["power"].measures if str(m.name) == "air pump")
    after = 4.0 / BEDS_SURFACE * log((5.60 - cs) / (3.0 - cs))
    assert battery.gained_min is not None
    assert battery.gained_min.value == pytest.approx(
        60 * (14.0 + after - alone), rel=TIMES
    )
    assert str(battery.note) == "its battery lasts 10 to 18 h"


def test_beds_feed_nitrogen_and_density() -> None:
    """Feed 0.67 kg a day, 23 g of ammonia, 15 m2 of bed in use, un-ionised 0.0065.

    TGC 0.65 (Bhujel et al. 2007): a day adds 0.65 x 27 / 1000 = 0.01755 to the cube
    root of 250, 6.300: (1 + 0.002786)^3 - 1 = 0.838 %; times a feed conversion of 1.6 =
    1.341 % of 50 kg = 0.6705 kg.

    Leafy beds carry 40 to 50 g of feed per m2 and day (FAO 589), 44.7 in the
    (geometric) or 45 in the plain middle: 670.5 / 45 = 14.9 m2; the tolerance of 1 %
    holds both.

    pKa at 27 °C is 9.185: the share at pH 7 is 1 / (1 + 10^2.185) = 0.648 %. 50 kg in
    4 m3 are 12.5 kg/m3, 26 % of 48.
    """
    found = beds()
    assert found.feeding is not None
    feed_kg = 50 * ((1 + 0.65 * 27 / 1000 / 6.2996) ** 3 - 1) * 1.6
    assert feed_kg == pytest.approx(0.6705, rel=0.001)
    assert found.feeding.today_kg.value == pytest.approx(feed_kg, rel=ROUNDED)
    assert found.limits is not None
    assert found.limits.bed is not None
    assert found.limits.bed.bed_needed_m2.value == pytest.approx(14.9, rel=0.01)
    assert found.limits.ammonia is not None
    assert found.limits.ammonia.unionised_n_mg_per_l.value == pytest.approx(
        0.00648, rel=ROUNDED
    )
    assert found.limits.load.density_kg_per_m3.value == pytest.approx(12.5)
    assert limit(found, "density") == pytest.approx(12.5 / 48, rel=ROUNDED)


# --- a spring raceway -----------------------------------------------------------------


def raceway() -> UnitOutlook:
    """1,000 brook trout of 150 g in 12 m3, 300 L/min of spring at 10 °C by gravity."""
    unit = tank(
        "Raceway",
        id=same(1),
        kind="raceway",
        volume_m3=12.0,
        depth_m=0.6,
        inflow_l_per_min=300.0,
        inflow_by_gravity=True,
        inflow_do_mg_per_l=10.2,
        monthly_temperature_deg_c=(10.0,) * 12,
    )
    return asked(
        unit,
        cohort("brook", id=same(2), species_key="brook-trout"),
        1000,
        150.0,
        temperature_deg_c=10.0,
        ph=7.6,
    )


# Hartman & Sweka 2003: a 0.0132, b -0.265, Q 4.5, To 20.2, Tmax 25, activity 2.89.
# ln 4.5 = 1.5041; Z 7.220, Y 10.228, X = 52.12 x (1 + 4.911^0.5)^2 / 400 = 1.3478;
# V = 15 / 4.8 = 3.125; factor 3.125^1.3478 x exp(1.3478 x -2.125) = 4.645 x 0.05704 =
# 0.2649; 150^-0.265 = 0.2650; 0.0132 x 0.2650 x 0.2649 x 2.89 = 0.002679 g/g/d = 111.6
# mg/kg/h. Fed 164.1; 150 kg use 24.61 g/h.
RACEWAY_USE = 0.0132 * 0.2650 * 0.2649 * 2.89 * 1e6 / 24 * 1.47 * 150 / 1000
# 20 m2 of surface: 0.3 / 1.024^10 (= 0.7889) x 20 / 24 = 0.1972 m3/h.
RACEWAY_SURFACE = 0.3 * 0.7889 * 20 / 24


def test_raceway_of_a_spring_can_lose_its_intake_alone() -> None:
    """Nothing there needs power; a blocked screen leaves about three hours.

    In balance (18 m3/h x 10.2 + 0.1972 x 11.29 - 24.61) / 18.20 = 8.86 mg/L. Blocked:
    Cs = 11.29 - 24.61 / 0.1972 = -113.5; 8.86 to 5 mg/L takes 12 / 0.1972 x ln(122.4 /
    118.5) = 1.95 h, to 3 mg/L 2.99 h.
    """
    assert pytest.approx(24.61, rel=0.002) == RACEWAY_USE
    found = failures(raceway())
    assert list(found) == ["intake"]
    blocked = found["intake"]
    start = (18 * 10.2 + RACEWAY_SURFACE * 11.29 - RACEWAY_USE) / (18 + RACEWAY_SURFACE)
    assert start == pytest.approx(8.86, rel=0.001)
    assert blocked.case.start_do_mg_per_l.value == pytest.approx(start, rel=ROUNDED)
    cs = 11.29 - RACEWAY_USE / RACEWAY_SURFACE
    hours = [
        12 / RACEWAY_SURFACE * log((start - cs) / (level - cs)) for level in (5.0, 3.0)
    ]
    assert hours == pytest.approx([1.95, 2.99], rel=0.005)
    assert minutes(blocked) == pytest.approx((60 * hours[0], 60 * hours[1]), rel=TIMES)


def test_raceway_feed_ammonia_and_density() -> None:
    """Feed 1.51 kg, TAN 0.16 mg/L at the outflow, a tenth of its limit.

    Leitritz & Lewis 1980 at 50 °F: 1.1 % for 8 to 9 inches (middle of the class 109.6
    g), 1.0 % for 9 to 10 inches (153.1 g). 150 g lie ln(150 / 109.6) / ln(153.1 /
    109.6) = 94 % of the way: 1.006 % of 150 kg = 1.509 kg.

    Ammonia: 1.509 kg x 42.5 % protein x 0.1085 (between 0.092 and 0.128) = 69.6 g/d in
    432 m3/d: 0.161 mg/L. pKa at 10 °C 9.731, share at pH 7.6 1 / (1 + 10^2.131) = 0.733
    %; the limit of 0.0125 mg/L un-ionised is a TAN of 1.704, under the EPA's chronic
    criterion (2013) of 0.8876 x (0.0278 / 2.225 + 1.1994 / 1.817) x 2.126 x 10^0.28 =
    2.42. Used 0.161 / 1.704 = 9.5 %.

    150 kg in 12 m3 are 12.5 kg/m3 of 15 (Reg. (EU) 2020/464): 83 %.
    """
    found = raceway()
    assert found.feeding is not None
    share = log(150 / 109.56) / log(153.09 / 109.56)
    feed_kg = (1.1 - 0.1 * share) / 100 * 150
    assert feed_kg == pytest.approx(1.509, rel=0.001)
    assert found.feeding.today_kg.value == pytest.approx(feed_kg, rel=ROUNDED)
    tan = feed_kg * 1000 * 0.425 * (0.092 * 0.128) ** 0.5 / (300 * 1.44)
    assert tan == pytest.approx(0.161, rel=0.005)
    allowed = 0.0125 * (1 + 10**2.1314)
    assert allowed == pytest.approx(1.704, rel=0.002)
    assert limit(found, "ammonia") == pytest.approx(tan / allowed, rel=TIMES)
    assert limit(found, "density") == pytest.approx(12.5 / 15, rel=ROUNDED)
    assert found.on == date(2026, 4, 30)
