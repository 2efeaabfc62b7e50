"""What the water says now, against published limits and hand calculation."""

from datetime import time
from typing import Any

import pytest

from fishmeasure.husbandry.now import (
    Now,
    OwnLimits,
    Reading,
    Readings,
    Setting,
    judge_water,
)
from fishmeasure.husbandry.water_case import KEEPS, STEPS
from fishmeasure.species import water_of

GOOD: dict[str, Any] = {"temperature_deg_c": 12.0, "do_mg_per_l": 9.0}


def told(now: Now) -> tuple[str, ...]:
    """Return what else is not judged, in words."""
    return tuple(map(str, now.not_judged))


def judged(
    *species: str, age_days: int = 0, setting: dict[str, Any] | None = None, **read: Any
) -> Now:
    """Return the judgement of readings of one age, or of (value, age) each."""
    readings = {
        name: Reading(value=value[0], age_days=value[1])
        if isinstance(value, tuple)
        else Reading(value=value, age_days=age_days)
        for name, value in read.items()
    }
    return judge_water(
        Readings(**readings),
        Setting(species_keys=species or ("rainbow-trout",), **(setting or {})),
    )


def codes(now: Now) -> list[tuple[str, str]]:
    """Return code and verdict of each reason."""
    return [(one.code, one.verdict) for one in now.reasons]


# --- good and not known -------------------------------------------------------------


def test_good_water_without_ammonia_says_that_it_was_not_judged() -> None:
    """9 mg/L at 12 °C is 83 % of saturation (10.78 mg/L, EN 25814)."""
    now = judged(**GOOD)
    assert now.verdict == "good"
    assert now.stops == ()
    assert str(now.headline) == "The water is good for rainbow trout, by what was read."
    assert told(now) == ("Ammonia not judged: TAN and pH not read of late.",)


def test_a_closed_loop_without_ammonia_is_not_known() -> None:
    """Ammonia rises there unseen; with TAN and pH the same water is good."""
    loop = {"loops": True}
    now = judged(setting=loop, **GOOD)
    assert codes(now) == [("ammonia-unknown", "unknown")]
    assert "Measure total ammonia (TAN) and pH" in str(now.headline)
    with_tan = judged(setting=loop, **GOOD, tan_mg_per_l=0.5, ph=7.2)
    assert with_tan.verdict == "good"
    assert told(with_tan) == (
        "Nitrite not judged: not read of late.",
        "Alkalinity not judged: not read of late.",
    )


def test_no_reading_says_what_to_measure() -> None:
    """Oxygen and temperature, neither of which stops anything by itself."""
    now = judged()
    assert now.verdict == "unknown"
    assert now.stops == ()
    assert str(now.do_now) == ""
    assert [str(one.message) for one in now.reasons] == [
        "Oxygen was never read. Measure it now and enter it.",
        "The water's temperature was never read. Measure it now and enter it.",
    ]


@pytest.mark.parametrize(
    ("ages", "verdict"),
    [((0, 0), "good"), ((1, 0), "good"), ((2, 0), "unknown"), ((0, 1), "unknown")],
)
def test_readings_grow_old(ages: tuple[int, int], verdict: str) -> None:
    """Oxygen makes its own day good, a temperature the next one too."""
    temperature_age, oxygen_age = ages
    now = judged(
        temperature_deg_c=(12.0, temperature_age), do_mg_per_l=(9.0, oxygen_age)
    )
    assert now.verdict == verdict


def test_a_lethal_reading_stays_until_it_is_too_old() -> None:
    """Seven days, unless a newer one is entered; the age is said."""
    now = judged(temperature_deg_c=(14.0, 0), do_mg_per_l=(2.5, 7))
    assert codes(now) == [("oxygen-low", "act"), ("oxygen-unknown", "unknown")]
    assert "2.5 mg/L (read 7 days ago)" in str(now.headline)
    later = judged(temperature_deg_c=(14.0, 0), do_mg_per_l=(2.5, 8))
    assert codes(later) == [("oxygen-unknown", "unknown")]
    assert "8 days ago (2.5 mg/L), too long ago" in str(later.headline)


def test_the_age_of_a_reading_in_words() -> None:
    """Day, and time of day where it is known."""
    assert str(Reading(value=1.0, age_days=0).when) == "read today"
    assert str(Reading(value=1.0, age_days=1, at=time(7, 5)).when) == (
        "read yesterday at 07:05"
    )
    assert str(Reading(value=1.0, age_days=3, at=time(7, 5)).when) == "read 3 days ago"


def test_every_reading_has_its_days() -> None:
    """What makes water good counts at least as long as it does so."""
    assert set(KEEPS) == set(Readings.__dataclass_fields__)
    assert all(keeps.good_days <= keeps.counts_days for keeps in KEEPS.values())


# --- oxygen ------------------------------------------------------------------------


def test_lethal_oxygen() -> None:
    """2.5 mg/L: at or below 3.0 salmonids die (Chapman 1986)."""
    now = judged(temperature_deg_c=14.0, do_mg_per_l=2.5)
    assert codes(now) == [("oxygen-low", "act")]
    (reason,) = now.reasons
    assert (reason.value, reason.limit, reason.unit) == (2.5, 3.0, "mg/L")
    assert now.stops == ("feeding", "handling", "adding")
    assert str(now.do_now).startswith(
        "Give more air or oxygen; give no feed; do not net"
    )
    assert str(now.do_now).endswith("call a fish health professional.")


def test_little_oxygen_is_watched() -> None:
    """4.5 mg/L, under 5 (Piper et al. 1982): air, no handling, no more fish."""
    now = judged(temperature_deg_c=12.0, do_mg_per_l=4.5)
    assert codes(now) == [("oxygen-low", "watch")]
    assert now.stops == ("handling", "adding")


def test_a_species_without_growth_figures_is_judged_too() -> None:
    """Tench at 0.8 mg/L: about 0.5 to 0.8 kills them."""
    assert codes(judged("tench", temperature_deg_c=20.0, do_mg_per_l=0.8)) == [
        ("oxygen-low", "act")
    ]


def test_supersaturated_inflow() -> None:
    """172 % at 12 °C is 18.5 mg/L (10.78 at saturation); Doulos & Kindschi 1990."""
    now = judged(temperature_deg_c=12.0, do_mg_per_l=18.7)
    assert codes(now) == [("oxygen-supersaturated", "act")]
    assert now.reasons[0].value == pytest.approx(100.0 * 18.7 / 10.78, abs=0.2)
    watched = judged(temperature_deg_c=12.0, do_mg_per_l=13.0)  # 120.6 %
    assert codes(watched) == [("oxygen-supersaturated", "watch")]
    assert watched.stops == ()


def test_saturation_falls_with_altitude() -> None:
    """At 2,000 m pressure is 795 hPa: 9 mg/L at 12 °C are 107 %, 10 are 119 %."""
    high = {"altitude_m": 2000.0}
    assert judged(setting=high, temperature_deg_c=12.0, do_mg_per_l=9.0).verdict == (
        "good"
    )
    assert codes(judged(setting=high, temperature_deg_c=12.0, do_mg_per_l=10.0)) == [
        ("oxygen-supersaturated", "watch")
    ]


def test_gas_is_not_judged_where_nothing_is_known_of_the_temperature() -> None:
    """It is by the year's table where the unit has one."""
    now = judged(do_mg_per_l=18.7)
    assert codes(now) == [("temperature-unknown", "unknown")]
    assert any("too much gas is not judged" in text for text in told(now))
    table = judged(do_mg_per_l=18.7, setting={"expected_temperature_deg_c": 12.0})
    assert codes(table)[0] == ("oxygen-supersaturated", "act")
    nowhere = {"altitude_m": 6000.0}  # beyond the formula of the pressure
    assert codes(judged(setting=nowhere, **GOOD)) == []


# --- temperature -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("species", "temperature_deg_c", "want"),
    [
        ("nile-tilapia", 8.0, [("temperature-low", "act")]),  # Charo-Karisa et al.
        ("rainbow-trout", 25.0, [("temperature-high", "act")]),  # Huysman et al. 2020
        ("brown-trout", 20.0, [("temperature-high", "act")]),  # half dead: the same
        ("rainbow-trout", 0.0, [("temperature-low", "act")]),
        ("common-carp", 25.0, []),
    ],
)
def test_temperatures_at_which_published_fish_died(
    species: str, temperature_deg_c: float, want: list[tuple[str, str]]
) -> None:
    """Nothing is fed, handled or added there."""
    now = judged(species, temperature_deg_c=temperature_deg_c, do_mg_per_l=8.0)
    assert codes(now) == want
    assert now.stops == (("feeding", "handling", "adding") if want else ())


def test_outside_the_feeding_band_there_is_no_feed_either() -> None:
    """Between the ends of feeding and of life: watch, and nothing is fed."""
    bands = water_of("nile-tilapia")
    cool = (bands.act_low_deg_c.value + bands.feeding_low_deg_c.value) / 2.0
    now = judged("nile-tilapia", temperature_deg_c=cool, do_mg_per_l=8.0)
    assert codes(now) == [("temperature-low", "watch")]
    assert "feeding" in now.stops


def test_carp_with_trout_take_the_trouts_limit() -> None:
    """At 25 °C carp alone are well."""
    water: dict[str, Any] = {"temperature_deg_c": 25.0, "do_mg_per_l": 5.5}
    assert judged("common-carp", **water).verdict == "good"
    mixed = judged("common-carp", "rainbow-trout", **water)
    assert codes(mixed) == [("temperature-high", "act")]
    assert "too warm for rainbow trout" in str(mixed.headline)


# --- nitrogen and pH ----------------------------------------------------------------


def test_un_ionised_ammonia_over_the_species_limit() -> None:
    """TAN 4 at pH 8.3 and 14 °C: pKa 9.60 (Emerson et al.), 4.8 % or 0.19 mg/L."""
    now = judged(temperature_deg_c=14.0, do_mg_per_l=9.0, tan_mg_per_l=4.0, ph=8.3)
    (reason,) = now.reasons
    pka = 0.09018 + 2729.92 / 287.15
    assert reason.verdict == "act"
    assert reason.value == pytest.approx(4.0 / (1.0 + 10.0 ** (pka - 8.3)))
    assert reason.limit == 0.0125


def test_the_chronic_criterion_means_watch() -> None:
    """TAN 2.2 at 20 °C and pH 6.5 is over 2.1 (EPA 2013); un-ionised it is little."""
    water: dict[str, Any] = {"temperature_deg_c": 20.0, "do_mg_per_l": 8.0, "ph": 6.5}
    now = judged("common-carp", tan_mg_per_l=2.2, **water)
    assert codes(now) == [("ammonia-high", "watch")]
    assert "protects mussels too" in str(now.headline)
    assert now.stops == ("adding",)
    assert judged("common-carp", tan_mg_per_l=2.0, **water).verdict == "good"


def test_the_acute_criterion_means_act() -> None:
    """TAN 24 at 20 °C and pH 6.5 is over 23 (EPA 2013), and un-ionised 0.03 mg/L."""
    own = {"own": OwnLimits(max_unionised_ammonia_mg_per_l=0.05)}
    now = judged(
        "rainbow-trout",
        setting=own,
        temperature_deg_c=20.0,
        do_mg_per_l=8.0,
        ph=6.5,
        tan_mg_per_l=24.0,
    )
    assert codes(now)[0] == ("ammonia-high", "act")
    assert now.reasons[0].limit == pytest.approx(23.0, abs=0.5)


def test_ammonia_needs_a_ph() -> None:
    """Without one the total says little, and the page says so."""
    now = judged(**GOOD, tan_mg_per_l=4.0)
    assert told(now) == ("Ammonia not judged: pH not read of late.",)
    cold = judged(tan_mg_per_l=4.0, ph=7.0, do_mg_per_l=9.0)
    assert "Ammonia not judged: the water's temperature is not known." in (told(cold))


def test_salt_water_is_judged_by_fresh_waters_ammonia() -> None:
    """Which is said."""
    now = judged(**GOOD, tan_mg_per_l=0.2, ph=7.0, setting={"salinity_g_per_kg": 30.0})
    assert "Whether the fish bear 30 g/kg of salt is not judged." in told(now)
    assert now.verdict == "good"
    assert any("salt water" in text for text in told(now))


def test_nitrite_and_nitrate() -> None:
    """Nitrite may mean act, nitrate never more than watch."""
    bands = water_of("rainbow-trout")
    over = bands.nitrite_n_act_mg_per_l.value * 1.1
    assert codes(judged(**GOOD, nitrite_n_mg_per_l=over)) == [("nitrite-high", "act")]
    some = bands.nitrite_n_watch_mg_per_l.value * 1.1
    watched = judged(**GOOD, nitrite_n_mg_per_l=some)
    assert codes(watched) == [("nitrite-high", "watch")]
    assert "chloride" in str(watched.headline)
    nitrate = judged(**GOOD, nitrate_n_mg_per_l=500.0)
    assert codes(nitrate) == [("nitrate-high", "watch")]


@pytest.mark.parametrize(
    ("chloride", "nitrite", "want"),
    [
        (None, 0.08, [("nitrite-high", "watch")]),
        (None, 0.05, []),
        (40.0, 0.08, []),
        (40.0, 0.12, [("nitrite-high", "watch")]),
        (1.0, 0.05, [("nitrite-high", "act")]),
        (40.0, 0.55, [("nitrite-high", "act")]),
    ],
)
def test_nitrite_is_judged_by_the_chloride_that_was_read(
    chloride: float | None, nitrite: float, want: list[tuple[str, str]]
) -> None:
    """EIFAC 1984: 0.01, 0.09 and 0.15 mg/L borne at 1, 10 and 40 mg/L chloride.

    Trout's 0.06 and 0.3 mg/L become 0.007 and 0.033 at 1 mg/L, 0.10 and 0.50 at 40.
    """
    read: dict[str, Any] = {} if chloride is None else {"chloride_mg_per_l": chloride}
    now = judged(**GOOD, nitrite_n_mg_per_l=nitrite, **read)
    assert codes(now) == want
    if want:
        said = "yours was not read" if chloride is None else f"{chloride:g} mg/L chl"
        assert said in str(now.headline)
    unread = any("Nitrite is judged as in water with" in t for t in told(now))
    assert unread == (chloride is None and not want)  # else its reason says it


def test_old_chloride_protects_nobody() -> None:
    """It counts for sixty days; then the limit is that of 10 mg/L again."""
    for age, want in ((60, []), (61, [("nitrite-high", "watch")])):
        now = judged(**GOOD, nitrite_n_mg_per_l=0.08, chloride_mg_per_l=(40.0, age))
        assert codes(now) == want


def test_alkalinity_is_judged_where_a_filter_uses_it_up() -> None:
    """Below 20 mg/L as CaCO3 in a loop; elsewhere it is said that it is not judged."""
    read = {"tan_mg_per_l": 0.5, "ph": 7.2, "nitrite_n_mg_per_l": 0.01}
    low: dict[str, Any] = GOOD | read | {"alkalinity_mg_per_l": 12.0}
    now = judged(setting={"loops": True}, **low)
    assert codes(now) == [("alkalinity-low", "watch")]
    assert now.stops == ("adding",)
    assert "Raise the alkalinity little by little" in str(now.do_now)
    enough = judged(setting={"loops": True}, **low | {"alkalinity_mg_per_l": 20.0})
    assert enough.verdict == "good"
    through = judged(**low)
    assert through.verdict == "good"
    assert any(text.startswith("Alkalinity not judged") for text in told(through))


@pytest.mark.parametrize(
    ("ph", "want"),
    [
        (4.5, [("ph-low", "act")]),
        (5.5, [("ph-low", "watch")]),
        (9.2, [("ph-high", "watch")]),
        (9.8, [("ph-high", "act")]),
    ],
)
def test_acid_and_alkaline_water(ph: float, want: list[tuple[str, str]]) -> None:
    """EIFAC 1969: below 5.0 and above 9.5 harms; trout are watched from 6.0 down."""
    assert codes(judged(**GOOD, ph=ph)) == want


# --- own limits, and what to do ------------------------------------------------------


def test_a_units_own_limits_are_obeyed() -> None:
    """A laxer caution stands too, but not a laxer critical level."""
    own = OwnLimits(
        min_do_mg_per_l=8.0,
        critical_do_mg_per_l=6.0,
        max_unionised_ammonia_mg_per_l=0.001,
        max_nitrate_n_mg_per_l=5.0,
    )
    setting = {"own": own}
    water: dict[str, Any] = {"temperature_deg_c": 12.0}
    assert codes(judged(setting=setting, do_mg_per_l=7.5, **water)) == [
        ("oxygen-low", "watch")
    ]
    assert codes(judged(setting=setting, do_mg_per_l=5.5, **water)) == [
        ("oxygen-low", "act")
    ]
    nitrogen = judged(
        setting=setting,
        do_mg_per_l=9.0,
        tan_mg_per_l=0.5,
        ph=7.2,
        nitrate_n_mg_per_l=6.0,
        **water,
    )
    assert codes(nitrogen) == [("ammonia-high", "act"), ("nitrate-high", "watch")]
    lax = {"own": OwnLimits(min_do_mg_per_l=4.0, critical_do_mg_per_l=1.0)}
    assert judged(setting=lax, do_mg_per_l=4.5, **water).verdict == "good"
    assert judged(setting=lax, do_mg_per_l=2.5, **water).verdict == "act"


def test_what_to_do_is_said_once_in_one_order() -> None:
    """Air before feed, feed before water, the professional last."""
    now = judged(temperature_deg_c=24.5, do_mg_per_l=2.0, tan_mg_per_l=4.0, ph=8.3)
    steps = str(now.do_now).rstrip(".").lower().split("; ")
    order = [str(step).lower() for step in STEPS]
    assert steps == sorted(set(steps), key=order.index)
    assert steps[0] == "give more air or oxygen"
    assert "professional" in steps[-1]


def test_a_pond_is_read_before_sunrise() -> None:
    """Where oxygen is lowest."""
    for at, said in ((None, True), (time(14), True), (time(5, 30), False)):
        now = judge_water(
            Readings(do_mg_per_l=Reading(value=9.0, age_days=0, at=at)),
            Setting(species_keys=("common-carp",), still=True),
        )
        assert any("before sunrise" in text for text in told(now)) == said


def test_no_fish_known_takes_food_fish_in_general() -> None:
    """2 mg/L is bad for any."""
    now = judge_water(
        Readings(do_mg_per_l=Reading(value=2.0, age_days=0)), Setting(species_keys=())
    )
    assert now.verdict == "act"
    assert "food fish" in str(now.headline)
