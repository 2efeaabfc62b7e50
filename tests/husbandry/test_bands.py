"""What the fish can bear: published deaths, and the shape of the data."""

from dataclasses import replace

import pytest

from fishmeasure.base.errors import FishMeasureError
from fishmeasure.husbandry.nitrite import at_chloride
from fishmeasure.species import farmed_keys, species_keys, water_of
from fishmeasure.species.loader import food_fish_water
from fishmeasure.species.record import figures_of


@pytest.mark.parametrize("key", species_keys())
def test_each_species_has_its_own_temperatures(key: str) -> None:
    assert not [name for name in water_of(key).generic if "deg_c" in name]


def test_figures_out_of_order_are_refused() -> None:
    """A species cannot die where it still feeds."""
    water = water_of("rainbow-trout")
    with pytest.raises(FishMeasureError, match="must rise: act_low_deg_c, feeding"):
        replace(water, feeding_high_deg_c=water.act_high_deg_c)


@pytest.mark.parametrize("key", farmed_keys())
def test_a_farmed_species_has_its_own_limits(key: str) -> None:
    """Of oxygen, ammonia and nitrate, which stand in its file and nowhere else."""
    own = {
        "do_watch_mg_per_l",
        "do_act_mg_per_l",
        "unionised_ammonia_n_act_mg_per_l",
        "nitrate_n_watch_mg_per_l",
    }
    assert not own & set(water_of(key).generic)


def test_the_generic_figures_are_whole_and_said_to_be_so() -> None:
    figures = {name for name, _, _ in figures_of(food_fish_water())}
    assert set(water_of("no-such-fish").generic) == figures
    assert "nitrate_n_watch_mg_per_l" in water_of("tench").generic


@pytest.mark.parametrize(
    ("key", "temperature_deg_c"),
    [
        # Huysman et al. 2020: half of the rainbow trout alive at 25 C, none at 26;
        # half of the brown trout at 20, none at 22.
        ("rainbow-trout", 25.0),
        ("rainbow-trout", 26.0),
        ("brown-trout", 20.0),
        ("brown-trout", 22.0),
        # Charo-Karisa et al. 2005: deaths of Nile tilapia from 13.6 to 8.6 C.
        ("nile-tilapia", 13.6),
        ("nile-tilapia", 8.6),
        # Gibson & Fry 1954: ultimate upper lethal temperature of lake trout 23.5.
        ("lake-trout", 23.5),
        # Weatherley 1959: tench of summer die at up to 35 C.
        ("tench", 35.0),
        # Arctic char stop feeding at about 21.5 C (J Fish Biol 1999); half of the fry
        # died within 7 days at 20.8 (Baroudy & Elliott 1994).
        ("arctic-char", 21.5),
        ("arctic-char", 20.8),
        # Sea bass from 25 C lose balance at 6.8 (Dulger et al. 2012), barely survive
        # at 33 (Stavrakidis-Zachou et al. 2022).
        ("sea-bass", 6.77),
        ("sea-bass", 33.0),
        # Barramundi swim on their sides at 38 C (Depik 2021).
        ("barramundi", 38.0),
        # Channel catfish from 25 C: upper lethal 33.5 (Carlander 1969).
        ("channel-catfish", 33.5),
        # GMT tilapia: one in eight dead within a day at 14 C, all at 12 (Hofer et al.).
        ("nile-tilapia", 14.0),
        # Currie et al. 1998: channel catfish from 20 C lose balance at 2.7 C.
        ("channel-catfish", 2.7),
    ],
)
def test_water_that_killed_is_acted_on(key: str, temperature_deg_c: float) -> None:
    bands = water_of(key)
    assert bands.temperature_standing(temperature_deg_c) == "act"
    assert not bands.feeds_at(temperature_deg_c)


@pytest.mark.parametrize(
    ("key", "temperature_deg_c", "standing"),
    [("rainbow-trout", 12.0, "good"), ("rainbow-trout", 22.0, "watch")],
)
def test_between_the_bands_is_watched(
    key: str, temperature_deg_c: float, standing: str
) -> None:
    assert water_of(key).temperature_standing(temperature_deg_c) == standing


def test_more_chloride_lets_fish_bear_more_nitrite() -> None:
    """EIFAC 1984: 0.01 mg/L as N at 1 mg/L chloride, 0.09 at 10, 0.15 at 40."""
    watch = water_of("rainbow-trout").nitrite_n_watch_mg_per_l
    assert at_chloride(watch, None) is watch
    assert at_chloride(watch, 10.0).value == pytest.approx(watch.value)
    ratio = {c: at_chloride(watch, c).value / watch.value for c in (1.0, 40.0, 300.0)}
    assert ratio[1.0] == pytest.approx(0.01 / 0.09, abs=0.005)
    assert ratio[40.0] == pytest.approx(0.15 / 0.09, abs=0.005)
    assert ratio[300.0] == ratio[40.0]


def test_nitrite_that_killed_trout_fry_is_acted_on() -> None:
    """Half of cutthroat fry within 36 days at 0.4 mg/L as N (EPA-600/J-78-182)."""
    assert water_of("rainbow-trout").nitrite_n_act_mg_per_l.value < 0.4


def test_tench_bear_less_oxygen_than_trout() -> None:
    trout, tench = water_of("rainbow-trout"), water_of("tench")
    assert 0.8 < tench.do_act_mg_per_l.value < trout.do_act_mg_per_l.value
    assert trout.do_act_mg_per_l.value > 2.5
